"""The course's command: the learner's folder, its port, and real pages and a real JupyterLab on this machine's own address."""

import ipaddress
import json
import os
import re
import signal
import socket
import stat
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest
from patience import PATIENCE

from anglelib import course
from anglelib.__main__ import main
from anglelib.copies import RECORD, CourseError, Filled
from anglelib.course import fill, home
from anglelib.errors import BenchError
from anglelib.port import refuse_taken


@pytest.fixture
def shipped(tmp_path):
    """A small project: two notebooks, the demonstration's rack, a figure, and what must not be copied."""
    files = {
        "notebooks/00_start_here.ipynb": json.dumps({"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}),
        "notebooks/01_identify.ipynb": "second",
        "notebooks/demo/rack.csv": "format = 1",
        "notebooks/.ipynb_checkpoints/00_start_here-checkpoint.ipynb": "an old one",
        "figures/section.png": "a picture",
        "tests/test_it.py": "not for learners",
    }
    for name, text in files.items():
        path = tmp_path / "project" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return tmp_path / "project"


def files_in(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): path.read_text() for path in folder.rglob("*") if path.is_file() and path.name != RECORD
    }


def test_copies_what_a_learner_needs_and_nothing_else(shipped, tmp_path):
    filled = fill(tmp_path / "own" / "course", shipped)
    assert sorted(files_in(tmp_path / "own" / "course")) == [
        "figures/section.png",
        "notebooks/00_start_here.ipynb",
        "notebooks/01_identify.ipynb",
        "notebooks/demo/rack.csv",
    ]
    assert sorted(filled.copied) == sorted(files_in(tmp_path / "own" / "course")) and filled == Filled(copied=filled.copied)


def test_the_learners_work_is_never_overwritten(shipped, tmp_path):
    own = tmp_path / "own"
    fill(own, shipped)
    (own / "notebooks/01_identify.ipynb").write_text("my work")
    (own / "notebooks/my_own.ipynb").write_text("mine alone")
    (own / "figures/section.png").unlink()
    before = files_in(own)
    assert fill(own, shipped) == Filled(copied=("figures/section.png",))
    assert files_in(own) == before | {"figures/section.png": "a picture"}


def test_an_interrupted_copy_leaves_no_half_file(shipped, tmp_path, monkeypatch):
    def broken(*_):
        raise OSError(28, "No space left on device", str(tmp_path))

    monkeypatch.setattr(os, "rename", broken)
    with pytest.raises(CourseError, match="make room"):
        fill(tmp_path / "own", shipped)
    assert files_in(tmp_path / "own") == {}


def test_a_broken_link_counts_as_the_learners(shipped, tmp_path):
    own = tmp_path / "own"
    (own / "notebooks").mkdir(parents=True)
    try:
        (own / "notebooks/01_identify.ipynb").symlink_to(tmp_path / "away")
    except OSError:
        pytest.skip("this system lets nobody make links")
    assert fill(own, shipped).left == ("notebooks/01_identify.ipynb",)
    assert not (tmp_path / "away").exists()


def test_the_folder(tmp_path, monkeypatch):
    assert home({"ANGLELIB_HOME": str(tmp_path)}) == tmp_path
    assert home({"ANGLELIB_HOME": "  "}) == home({}) == Path.home() / "anglelib-course"
    assert home({"ANGLELIB_HOME": "~/here"}) == Path.home() / "here"
    monkeypatch.chdir(tmp_path)
    assert home({"ANGLELIB_HOME": "here"}) == tmp_path / "here"

    def homeless():
        raise RuntimeError

    monkeypatch.setattr(Path, "home", homeless)
    with pytest.raises(CourseError, match="set ANGLELIB_HOME"):
        home({})


def refusal(capfd) -> str:
    said = capfd.readouterr()
    assert said.out == "" and said.err.count("\n") == 1 and "Traceback" not in said.err
    return said.err


def in_the_way(tmp_path):
    (tmp_path / "taken").write_text("a file")
    return tmp_path / "taken", "taken is in the way"


def below_a_file(tmp_path):
    (tmp_path / "taken").write_text("a file")
    return tmp_path / "taken" / "course", "is in the way"


def notebooks_is_a_file(tmp_path):
    (tmp_path / "own").mkdir()
    (tmp_path / "own/notebooks").write_text("a file")
    return tmp_path / "own", "notebooks is in the way"


def not_to_be_written(tmp_path):
    if sys.platform == "linux" and os.geteuid() == 0:
        return Path("/sys/anglelib-course"), "The course cannot write"  # where root, too, may make no folder
    (tmp_path / "locked").mkdir(mode=0o500)
    return tmp_path / "locked" / "course", "The course cannot write"


def the_project_itself(tmp_path):
    return tmp_path / "project", "the project's own folder"


def where_the_lessons_are(tmp_path):
    return tmp_path / "project" / "notebooks" / "mine", "the project's own folder"


CASES = [in_the_way, below_a_file, not_to_be_written, the_project_itself, where_the_lessons_are]


@pytest.mark.parametrize(("case", "how"), [*[(case, how) for case in CASES for how in ((), ("--lab",))], (notebooks_is_a_file, ("--lab",))])
def test_a_folder_that_cannot_be_used_is_one_sentence(case, how, shipped, tmp_path, monkeypatch, capfd):
    if case is not_to_be_written and sys.platform == "win32":
        pytest.skip("folders are not locked by mode there")
    folder, says = case(tmp_path)
    monkeypatch.setattr(course, "PROJECT", shipped)
    monkeypatch.setenv("ANGLELIB_HOME", str(folder))
    assert main(["course", *how]) == 2
    assert says in (said := refusal(capfd)) and "ANGLELIB_HOME" in said


@pytest.mark.parametrize("how", [(), ("--lab",)])
def test_a_package_without_its_project_is_one_sentence(how, tmp_path, monkeypatch, capfd):
    monkeypatch.setattr(course, "PROJECT", tmp_path)
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "own"))
    assert main(["course", *how]) == 2
    assert "get the whole project" in refusal(capfd)
    assert not (tmp_path / "own").exists()


def test_without_jupyterlab_is_one_sentence(monkeypatch, capfd):
    monkeypatch.setattr(course.importlib.util, "find_spec", lambda name: None)
    assert main(["course", "--lab"]) == 2
    assert "JupyterLab is not installed" in refusal(capfd)


def test_the_projects_own_notebooks_are_found_from_anywhere(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    filled = fill(tmp_path / "own", course.PROJECT)
    assert any(name.startswith("notebooks/00") for name in filled.copied)


@pytest.mark.skipif(sys.platform == "win32", reason="folders have no mode there")
def test_the_folder_is_the_learners_alone(shipped, tmp_path):
    before = os.umask(0)
    try:
        course.make_home(tmp_path / "far" / "own", shipped)
        (tmp_path / "there").mkdir(mode=0o755)
        course.make_home(tmp_path / "there", shipped)
    finally:
        os.umask(before)
    modes = {name: stat.S_IMODE((tmp_path / name).stat().st_mode) for name in ("far/own", "there")}
    assert modes == {"far/own": 0o700, "there": 0o755}, "a folder that was there is left as it is"


@pytest.mark.parametrize("how", [(), ("--lab",)])
@pytest.mark.parametrize("typed", ["0", "-1", "65536", "99999", "9" * 5000, "", "eight", "8e3", "0x50", "80.5", "\u0661\u0662", "8123 8124"])
def test_a_port_that_is_none_is_one_sentence(typed, how, shipped, tmp_path, monkeypatch, capfd):
    monkeypatch.setattr(course, "PROJECT", shipped)
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "own"))
    assert main(["course", *how, f"--port={typed}"]) == 2
    assert "from 1 to 65535" in refusal(capfd) and not (tmp_path / "own").exists()


def test_a_negative_port_is_a_port_not_an_option(capfd):
    assert main(["course", "--port", "-1"]) == 2
    assert "--port -1 is no port" in refusal(capfd)


@pytest.mark.parametrize("how", [(), ("--lab",)])
def test_a_port_that_is_taken_is_one_sentence(how, tmp_path, monkeypatch, capfd):
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "own"))
    with socket.socket() as holder:
        holder.bind(("127.0.0.1", 0))
        holder.listen()
        port = holder.getsockname()[1]
        assert main(["course", *how, "--port", str(port)]) == 2
    assert f"Port {port} is taken" in refusal(capfd) and not (tmp_path / "own").exists()


def test_a_port_that_goes_while_the_course_starts_is_one_sentence(shipped, tmp_path):
    """Free when it was asked for, and taken by another program before the server listens."""
    pytest.importorskip("voila")
    with socket.socket() as holder:
        holder.bind(("127.0.0.1", 0))
        holder.listen()
        port = holder.getsockname()[1]
        code = (
            "import sys; from pathlib import Path; from anglelib import __main__, course\n"
            f"course.PROJECT = Path({str(shipped)!r}); course.refuse_taken = lambda port: None\n"
            f"sys.exit(__main__.main(['course', '--no-browser', '--port', '{port}']))"
        )
        environment = {**os.environ, "ANGLELIB_HOME": str(tmp_path / "own"), "TMPDIR": str(tmp_path), "PYTHONPATH": str(course.PROJECT)}
        ended = subprocess.run([sys.executable, "-c", code], env=environment, cwd=tmp_path, capture_output=True, text=True, timeout=PATIENCE)
    assert ended.returncode == 2 and ended.stderr.count("\n") == 1 and f"Port {port} is taken by another program" in ended.stderr
    assert not [*tmp_path.glob("voila_*")]


def test_a_port_that_is_not_allowed_is_one_sentence(monkeypatch):
    def refused(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(socket.socket, "bind", refused)
    with pytest.raises(BenchError, match="Port 80 cannot be used .Permission denied.: give another"):
        refuse_taken(80)


def a_free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return asked.getsockname()[1]


LIBRARY = Path(course.__file__).resolve().parents[1]


class Running:
    """A course that was really started: its address from what it prints, and its end by Ctrl-C.

    What would be its browser writes down, in ``opened``, how it was called.
    """

    def __init__(self, shipped: Path, own: Path, scratch: Path, *how: str):
        code = (
            f"import sys; sys.path.insert(0, {str(LIBRARY)!r}); from pathlib import Path; from anglelib import __main__, course\n"
            f"course.PROJECT = Path({str(shipped)!r}); sys.exit(__main__.main(['course', '--port', '{a_free_port()}', *{list(how)!r}]))"
        )
        hidden = ("JUPYTER", "DISPLAY", "WAYLAND", "BROWSER", "IPYTHON", "PYTEST", "PYTHONWARNINGS")
        environment = {name: value for name, value in os.environ.items() if not name.startswith(hidden)}
        environment |= {"ANGLELIB_HOME": str(own), "HOME": str(scratch), "USERPROFILE": str(scratch), "JUPYTER_TOKEN": ""}
        environment.pop("PYTHONPATH", None)  # this library comes by the course alone, wherever another one is installed
        self.opened = scratch / "opened"
        if os.name == "posix":
            browser = scratch / "browser"
            browser.write_text(f'#!/bin/sh\nprintf "%s\\n" "$@" > "{self.opened}"\n')
            browser.chmod(0o700)
            environment["BROWSER"] = f"{browser} %s"
        self.process = subprocess.Popen(
            [sys.executable, "-c", code],
            env=environment,
            cwd=scratch,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            creationflags=getattr(subprocess, "CREATE_NEW_PROCESS_GROUP", 0),
        )
        self.said = ""
        alarm = threading.Timer(PATIENCE, self.process.kill)
        alarm.start()
        for line in self.process.stdout:
            self.said += line
            if found := re.search(r"http://([\d.]+):(\d+)(/\S*)\?token=([0-9a-f]+)", line):
                self.host, self.port, self.path, self.token = found[1], int(found[2]), found[3], found[4]
                break
        alarm.cancel()
        self.wait_until_it_listens()

    def wait_until_it_listens(self) -> None:
        """The address is printed a moment before the server listens there."""
        until = time.monotonic() + PATIENCE
        while hasattr(self, "port") and self.process.poll() is None and time.monotonic() < until:
            with socket.socket() as asked:
                if asked.connect_ex((self.host, self.port)) == 0:
                    return
            time.sleep(0.05)

    def get(self, path: str, token: str | None, method: str = "GET", body: str | None = None) -> tuple[int, str]:
        headers = {"Authorization": f"token {token}"} if token else {}
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        data = None if body is None else body.encode()
        request = urllib.request.Request(f"http://{self.host}:{self.port}{path}", data, headers=headers, method=method)
        try:
            with opener.open(request, timeout=PATIENCE) as answer:
                return answer.status, answer.read().decode(errors="replace")
        except urllib.error.HTTPError as error:
            return error.code, error.read().decode(errors="replace")

    def what_the_browser_got(self) -> str:
        """The one word that the browser was called with."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until and not (self.opened.exists() and self.opened.read_text()):
            time.sleep(0.05)
        (word,) = self.opened.read_text().splitlines()
        return word

    def command_lines(self) -> list[str]:
        """The command lines of the course and of what it has started, as every account of the machine can read them."""
        listed = subprocess.run(["ps", "-A", "-ww", "-o", "pid=,ppid=,args="], capture_output=True, text=True, check=True).stdout
        rows = [(int(pid), int(parent), words) for pid, parent, words in (line.split(None, 2) for line in listed.splitlines() if line.count(" ") > 1)]
        family, before = {self.process.pid}, 0
        while len(family) != before:
            before = len(family)
            family |= {pid for pid, parent, _ in rows if parent in family}
        return [words for pid, _, words in rows if pid in family]

    def stop(self) -> int:
        self.process.send_signal(getattr(signal, "CTRL_BREAK_EVENT", signal.SIGINT))
        try:
            self.said += self.process.communicate(timeout=PATIENCE)[0]
        finally:
            self.process.kill()
        return self.process.returncode


def nothing_but_its_own_words(running: Running) -> None:
    """Whatever stands on the terminal was written for the learner: no library's warning, of server or kernel."""
    for word in ("Warning", "WARNING", "Traceback", "encryption", "deprecated", "[W ", "site-packages"):
        assert word not in running.said, running.said


def the_token_is_no_argument(running: Running) -> None:
    """Neither of the course, nor of its kernels, nor of the browser, which is led by a file of the learner's alone."""
    lines = running.command_lines()
    assert any("ipykernel" in line for line in lines), lines
    assert not any(running.token in line for line in lines), lines
    word = running.what_the_browser_got()
    assert word.startswith("file:///") and running.token not in word
    leading = Path(urllib.request.url2pathname(word.removeprefix("file://")))
    assert f"{running.path}?token={running.token}" in leading.read_text(encoding="utf-8")
    modes = [stat.S_IMODE(path.stat().st_mode) for path in (leading, leading.parent)]
    assert any(mode & 0o077 == 0 for mode in modes), "others can read the file that has the token"


def a_notebook(*sources: str) -> str:
    from nbformat import v4, writes

    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    return writes(v4.new_notebook(cells=[v4.new_markdown_cell("# A page"), *map(v4.new_code_cell, sources)], metadata=kernel))


WHERE = """
import os, warnings
warnings.warn_explicit("old", DeprecationWarning, "some_library.py", 1)
os.write(2, b"")
print("cwd", os.getcwd(), "home", os.environ["ANGLELIB_HOME"], "end")
print("modules", os.environ["PYTHONPATH"].split(os.pathsep)[0], "end")
"""


def test_real_pages_are_the_projects_and_give_out_nothing_else(shipped, tmp_path):
    pytest.importorskip("voila")
    own, scratch = tmp_path / "own", tmp_path / "scratch"
    scratch.mkdir()
    (shipped / "notebooks/home.ipynb").write_text(a_notebook(WHERE), encoding="utf-8")
    (shipped / "tests/secret.ipynb").write_text(a_notebook(), encoding="utf-8")
    own.mkdir(mode=0o700)
    (own / "mine.ipynb").write_text(a_notebook(), encoding="utf-8")
    before = {path: path.read_bytes() for path in shipped.rglob("*") if path.is_file()}
    running = Running(shipped, own, scratch)
    try:
        assert hasattr(running, "token"), running.said
        assert ipaddress.ip_address(running.host).is_loopback and len(running.token) >= 32
        assert "/login" in urllib.request.urlopen(f"http://{running.host}:{running.port}/voila/render/notebooks/00_start_here.ipynb").url
        status, page = running.get("/", running.token)
        assert status == 200 and f"cwd {own} home {own} end" in page
        assert f"modules {LIBRARY} end" in page  # not where an installation says that it is: the folder may have been moved
        assert running.get("/voila/files/figures/section.png", running.token) == (200, "a picture")
        for path in (
            "render/tests/secret.ipynb", "render/notebooks/..%2Ftests%2Fsecret.ipynb", "render/notebooks/demo/rack.csv", "render/mine.ipynb",
            "files/notebooks/demo/rack.csv", "files/tests/test_it.py", "files/figures/..%2Ftests%2Ftest_it.py", "files/notebooks/00_start_here.ipynb",
            "tree", "tree/notebooks", "api/contents", "api/contents/notebooks/00_start_here.ipynb",
        ):  # fmt: skip
            assert running.get(f"/voila/{path}", running.token)[0] in (403, 404), path
        if os.name == "posix":
            the_token_is_no_argument(running)
    finally:
        code = running.stop()
    assert code == 0, running.said
    nothing_but_its_own_words(running)
    assert "Your course folder" in running.said and "The course has stopped" in running.said and len(running.said.splitlines()) == 4
    assert {path: path.read_bytes() for path in shipped.rglob("*") if path.is_file()} == before, "the project was written to"
    assert sorted(path.name for path in own.iterdir()) == [".pages", "mine.ipynb"] and not (own / ".pages/open.html").exists()


def a_fresh_copy_is_to_be_had(running: Running, own: Path) -> None:
    """Behind the token alone; of what there is not, nothing is made."""
    assert running.get("/anglelib/lesson", None)[0] == 403 and running.get("/anglelib/lesson", None, "POST", "{}")[0] == 403
    told_ = json.loads(running.get("/anglelib/lesson", running.token)[1])
    assert "notebooks/00_start_here.ipynb" in told_["lessons"] and told_["words"]["fresh"]
    before = files_in(own)
    for asked in ("{}", "[]", '{"path": 7}', '{"path": "notebooks/mine.ipynb"}', '{"path": "../../etc/passwd"}'):
        status, said = running.get("/anglelib/lesson", running.token, "POST", asked)
        assert status == 409 and "has no lesson" in json.loads(said)["said"], asked
    assert files_in(own) == before
    (own / "notebooks/00_start_here.ipynb").write_text("mine")
    status, said = running.get("/anglelib/lesson", running.token, "POST", '{"path": "notebooks/00_start_here.ipynb"}')
    assert status == 200 and "What you had is kept beside it" in json.loads(said)["said"]
    assert "mine" in files_in(own).values() and (own / "notebooks/00_start_here.ipynb").read_text() != "mine"


def test_a_real_lab_opens_on_this_machine_alone_and_stops(shipped, tmp_path):
    own = tmp_path / "own"
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    running = Running(shipped, own, scratch, "--lab")
    try:
        assert hasattr(running, "token"), running.said
        assert ipaddress.ip_address(running.host).is_loopback and len(running.token) >= 32
        assert running.path == "/lab/tree/notebooks/00_start_here.ipynb"
        assert running.get("/api/contents/notebooks", None)[0] == 403, "open without its token"
        status, listing = running.get("/api/contents/notebooks", running.token)
        assert status == 200 and "notebooks/00_start_here.ipynb" in listing
        status, page = running.get(running.path, running.token)
        settings = json.loads(re.search(r'id="jupyter-config-data" type="application/json">\s*(\{.*?\})\s*</script>', page, re.DOTALL)[1])
        assert status == 200 and settings["news"] == {"disabled": True} and settings["extensionManager"]["can_install"] is False
        assert [one["name"] for one in settings["federated_extensions"] if one["name"].startswith("anglelib")] == ["anglelib-lab"]
        assert "@jupyterlab/notebook-extension:cell-executor" in settings["disabledExtensions"]
        a_fresh_copy_is_to_be_had(running, own)
        status, kernels = running.get("/api/kernelspecs", running.token)
        assert json.loads(kernels)["default"] == "python3"
        status, kernel = running.get("/api/kernels", running.token, "POST")
        assert status == 201
        elsewhere = [address[4][0] for address in socket.getaddrinfo(socket.gethostname(), running.port, socket.AF_INET, socket.SOCK_STREAM)]
        for address in (address for address in elsewhere if not ipaddress.ip_address(address).is_loopback):
            with socket.socket() as outside:
                outside.settimeout(5)
                assert outside.connect_ex((address, running.port)) != 0, f"answers at {address} too"
        if os.name == "posix":
            the_token_is_no_argument(running)
        time.sleep(2)  # the kernel says what it has to say while it starts
        # By hand, because JupyterLab does not end its kernels where Ctrl-C comes from no terminal.
        assert running.get(f"/api/kernels/{json.loads(kernel)['id']}", running.token, "DELETE")[0] == 204
    finally:
        code = running.stop()
    assert code == 0, running.said
    nothing_but_its_own_words(running)
    assert "Your course folder" in running.said and "The course has stopped" in running.said


def test_help_is_quick_and_names_every_command(capsys):
    from anglelib.__main__ import COMMANDS

    with pytest.raises(SystemExit) as ended:
        main(["--help"])
    assert ended.value.code == 0
    said = capsys.readouterr().out
    for name, command in COMMANDS.items():
        assert re.search(rf"^  {name} +{re.escape(command.help)}$", said, re.MULTILINE)


def test_every_command_is_where_the_table_says():
    from importlib import import_module

    from anglelib.__main__ import COMMANDS

    for command in COMMANDS.values():
        assert callable(getattr(import_module(command.module), command.function))


@pytest.mark.parametrize(
    ("raised", "code", "said"),
    [
        (CourseError("The stick is too short: choose another."), 2, "The stick is too short: choose another.\n"),
        (FileNotFoundError(2, "No such file or directory", "rack.csv"), 2, "rack.csv cannot be used: No such file or directory.\n"),
        (KeyboardInterrupt(), 130, "Stopped.\n"),
    ],
)
def test_what_a_command_raises(raised, code, said, monkeypatch, capfd):
    def failing(*_):
        raise raised

    monkeypatch.setattr(course, "main", failing)
    assert main(["course"]) == code
    assert capfd.readouterr().err == said


def test_a_package_that_is_not_installed_is_one_sentence(monkeypatch, capfd):
    """Another Python than that of .venv, or an installation that was stopped."""

    def failing(*_):
        raise ModuleNotFoundError("No module named 'traitlets.config'", name="traitlets.config")

    monkeypatch.setattr(course, "main", failing)
    assert main(["course"]) == 2
    said = refusal(capfd)
    assert "traitlets is not installed for" in said and sys.executable in said and "README" in said


@pytest.mark.parametrize("defect", [ZeroDivisionError(), ModuleNotFoundError("No module named 'anglelib.curse'", name="anglelib.curse")])
def test_a_defect_of_ours_is_not_hidden(defect, monkeypatch):
    def failing(*_):
        raise defect

    monkeypatch.setattr(course, "main", failing)
    with pytest.raises(type(defect)):
        main(["course"])


def test_an_unknown_command_is_refused(capsys):
    with pytest.raises(SystemExit) as ended:
        main(["curse"])
    assert ended.value.code == 2 and "invalid choice" in capsys.readouterr().err


def test_the_options_name_what_jupyterlab_has(tmp_path):
    """A misspelt option would be ignored in silence."""
    pytest.importorskip("jupyterlab")
    from jupyter_server.auth.identity import PasswordIdentityProvider
    from jupyter_server.serverapp import ServerApp
    from jupyter_server.services.kernels.kernelmanager import MappingKernelManager
    from jupyterlab.labapp import LabApp

    from anglelib.kernels import CourseKernel

    given = course.options(tmp_path, "notebooks/00.ipynb", browser=False, port=0, root=True)
    for option in given:
        name = option.removeprefix("--").split("=")[0]
        if "." in name:
            owner, trait = name.split(".")
            owners = {
                "ServerApp": ServerApp, "LabApp": LabApp, "Application": LabApp, "MappingKernelManager": MappingKernelManager,
                "CourseKernel": CourseKernel, "PasswordIdentityProvider": PasswordIdentityProvider,
            }  # fmt: skip
            assert trait in owners[owner].class_traits(config=True), option
        else:
            assert name in LabApp.flags or name in ServerApp.flags, option

