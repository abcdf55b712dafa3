"""The Python behind a visitor's page, in a process of its own: what it may read, and that all else is refused, by whatever way it is tried."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from patience import PATIENCE

PROJECT = Path(__file__).resolve().parents[2]
TRIED = {
    "write": "open(there, 'w')", "append": "open(there, 'a')", "both": "open(own, 'r+')", "exclusive": "open(there, 'x')", "path": "pathlib.Path(there).write_text('1')",
    "low": "os.open(there, os.O_WRONLY | os.O_CREAT)", "temporary": "tempfile.NamedTemporaryFile()", "folder": "os.mkdir(there)", "folders": "os.makedirs(there)",
    "remove": "os.remove(own)", "rename": "os.rename(own, there)", "replace": "os.replace(own, there)", "link": "os.symlink(own, there)", "hard": "os.link(own, there)",
    "truncate": "os.truncate(own, 0)", "mode": "os.chmod(own, 0o777)", "copy": "shutil.copy(own, there)", "tree": "shutil.rmtree(folder)", "times": "os.utime(own)",
    "read": "open(own).read()", "read low": "os.open(own, os.O_RDONLY)", "list": "os.listdir(folder)", "scan": "list(os.scandir(folder))", "glob": "glob.glob(folder + '/*')",
    "up": "open(os.path.join(package, '..', 'pyproject.toml'))", "course": "open(os.path.join(package, 'part.py'), 'r+')", "through": "open(os.path.join(package, '..', '..', own.lstrip('/')))", "passwords": "open('/etc/passwd')",
    "run": "subprocess.run(['true'])", "shell": "os.system('true')", "popen": "os.popen('true')", "exec": "os.execv('/bin/true', ['true'])", "spawn": "os.spawnv(os.P_WAIT, '/bin/true', ['true'])",
    "posix": "os.posix_spawn('/bin/true', ['true'], {})", "fork": "os.fork()", "process": "multiprocessing.Process(target=print).start()", "kill": "os.kill(os.getppid(), 0)",
    "connect": "socket.create_connection(('127.0.0.1', 9), 1)", "raw": "socket.socket().connect(('127.0.0.1', 9))", "listen": "socket.socket().bind(('127.0.0.1', 0))",
    "name": "socket.getaddrinfo('localhost', 80)", "send": "socket.socket(socket.AF_INET, socket.SOCK_DGRAM).sendto(b'1', ('127.0.0.1', 9))", "url": "urllib.request.urlopen('file:///etc/passwd')",
    "library": "ctypes.CDLL('libc.so.6')", "itself": "ctypes.CDLL(None).system", "database": "sqlite3.connect(there)", "limits": "resource.setrlimit(resource.RLIMIT_CORE, (0, 0))",
    "away": "os.chdir('/')",
}  # fmt: skip
ALLOWED = {"itself file": "open(os.path.join(package, 'part.py')).read()", "module": "__import__('wave')", "lesson": "__import__('anglelib.lessons.start_here')", "nothing": "open(os.devnull)"}
CODE = """
import glob, json, multiprocessing, os, pathlib, resource, shutil, socket, sqlite3, subprocess, sys, tempfile, urllib.request, ctypes
folder, own, there, package, tried = json.load(sys.stdin)
from anglelib.visitors.seal import refused, seal
tempfile.gettempdir()
if {sealed}:
    seal()
found = {{}}
for name, code in tried.items():
    try:
        eval(code)
        found[name] = "done"
    except PermissionError as error:
        found[name] = "refused" if "visitor" in str(error) else repr(error)
    except BaseException as error:
        found[name] = repr(error)
print(json.dumps([found, refused]))
"""


def outcome(tmp_path, tried, sealed=True):
    folder = tmp_path / "owners"
    folder.mkdir()
    own = folder / "answers.json"
    own.write_text("mine")
    given = json.dumps([str(folder), str(own), str(folder / "new"), str(PROJECT / "anglelib"), tried])
    environment = {name: value for name, value in os.environ.items() if name != "ANGLELIB_HOME"}
    environment |= {"PYTHONPATH": str(PROJECT), "PYTHONDONTWRITEBYTECODE": "1"}
    run = subprocess.run([sys.executable, "-c", CODE.format(sealed=sealed)], input=given, text=True, capture_output=True, env=environment, timeout=PATIENCE)
    assert run.returncode == 0, run.stderr
    return own, *json.loads(run.stdout.splitlines()[-1])


@pytest.mark.skipif(sys.platform == "win32", reason="some of what is tried is not there")
def test_nothing_is_written_run_reached_or_read_that_is_not_the_courses(tmp_path):
    own, found, kept = outcome(tmp_path, TRIED)
    assert {name: how for name, how in found.items() if how != "refused"} == {}
    assert own.read_text() == "mine" and [path.name for path in own.parent.iterdir()] == ["answers.json"]
    assert len(kept) >= 40


@pytest.mark.skipif(sys.platform == "win32", reason="some of what is tried is not there")
def test_the_course_goes_on(tmp_path):
    _, found, kept = outcome(tmp_path, ALLOWED)
    assert found == dict.fromkeys(ALLOWED, "done") and kept == []
