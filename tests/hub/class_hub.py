"""A class's hub on this machine: accounts of the system made for the test, the documented configuration, and the memory of it."""

from __future__ import annotations

import contextlib
import os
import re
import secrets
import shutil
import signal
import socket
import subprocess
import sys
import sysconfig
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(PROJECT / "tests" / "browser"))
from course import FLAGS, browser_path, run_all  # noqa: E402, F401 (the same hands as the other browser tests have)

PREFIX = "anglehub-"
NEEDED = ("useradd", "userdel", "groupadd", "groupdel", "chpasswd", "openssl", "npm", "node", "git")


@dataclass(frozen=True)
class Learner:
    """An account of the system for the time of the test."""

    name: str
    password: str
    home: Path
    uid: int
    gid: int

    @property
    def folder(self) -> Path:
        return self.home / "anglelib-course"


@dataclass
class ClassHub:
    """A hub that runs: its address, its learners, its folder, its process."""

    address: str
    learners: list[Learner]
    folder: Path
    project: Path
    process: subprocess.Popen
    log: Path


def lacking() -> str:
    """Why no hub can be tried here; "" where one can."""
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        return "accounts can be made by root only"
    missing = [name for name in NEEDED if shutil.which(name) is None]
    if missing:
        return f"this machine has no {', '.join(missing)}"
    try:
        import jupyterhub  # noqa: F401
    except ImportError:
        return 'JupyterHub is not installed: pip install -e ".[hub]"'
    from anglelib.hub.command import unreadable

    if closed := unreadable(Path(sysconfig.get_path("purelib"))):
        return f"the installed packages cannot be read by other accounts, because of {closed}"
    return "" if _python_for_all() else "no Python of this version can be run by other accounts"


def _python_for_all() -> Path | None:
    from anglelib.hub.command import unreadable

    name = f"python{sys.version_info[0]}.{sys.version_info[1]}"
    for path in (Path(sys.executable), *(Path(place, name) for place in ("/usr/bin", "/usr/local/bin"))):
        if path.exists() and not unreadable(path):
            return path
    return None


def free_port() -> int:
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        return listening.getsockname()[1]


def _run(*words: str, **how) -> subprocess.CompletedProcess:
    return subprocess.run(words, check=True, capture_output=True, text=True, **how)


@contextlib.contextmanager
def place() -> Iterator[Path]:
    """A temporary folder that every account can enter."""
    folder = Path(tempfile.mkdtemp(prefix="anglelib-hub-"))
    folder.chmod(0o755)
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def project_for_all(folder: Path) -> tuple[Path, Path]:
    """What is committed or stands in the checkout, as root's, readable by all; and a Python with the installed packages for it."""
    project = folder / "project"
    listed = _run("git", "ls-files", "-z", "--cached", "--others", "--exclude-standard", "anglelib", "notebooks", "figures", cwd=PROJECT)
    for name in filter(None, listed.stdout.split("\0")):
        if (PROJECT / name).is_file():
            (project / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(PROJECT / name, project / name)
    _run("chmod", "-R", "u=rwX,go=rX", str(project))
    _run(str(_python_for_all()), "-m", "venv", "--without-pip", str(project / ".venv"))
    python = project / ".venv" / "bin" / "python"
    site = _run(str(python), "-c", "import sysconfig; print(sysconfig.get_path('purelib'))").stdout.strip()
    Path(site, "class.pth").write_text(f"{project}\n{sysconfig.get_path('purelib')}\n", encoding="utf-8")
    # The packages' own data (JupyterLab's pages, the kernel) are looked for under the environment.
    for part in ("share", "etc"):
        (project / ".venv" / part).symlink_to(Path(sys.prefix, part))
    _run(str(python), "-m", "compileall", "-q", "anglelib", cwd=project)
    return project, python


@contextlib.contextmanager
def accounts(folder: Path, count: int) -> Iterator[tuple[str, list[Learner]]]:
    """A group, and accounts made by the line in the instructions, with passwords by chance; all gone afterwards.

    The homes can be entered by everybody, as on many machines: what is closed must be closed by the course.
    """
    import grp
    import pwd

    from anglelib.hub.command import instructions_text

    group = PREFIX + secrets.token_hex(3)
    homes, slips = folder / "home", folder / "slips.txt"
    homes.mkdir()
    low = 20_000 + 100 * secrets.randbelow(300)  # numbers that no other account of this machine, and no other test, has in use
    line = re.search(
        r"^ *(sudo bash -c 'umask 077; for n in .*?; done')$", instructions_text(Path("p"), folder, group), re.DOTALL | re.MULTILINE
    )[1]
    changes = {
        "sudo ": "",
        "seq 1 12": f"seq 1 {count}",
        "learner$n": f"{group}-$n",
        "useradd -m": f"useradd -m -b {homes} -K UID_MIN={low} -K UID_MAX={low + 99}",
    }
    for old, new in changes.items():
        assert old in line, old
        line = line.replace(old, new)
    _run("groupadd", group)
    try:
        _run("bash", "-c", line)
        assert slips.stat().st_mode & 0o077 == 0
        made = []
        for slip in slips.read_text(encoding="utf-8").split():
            name, _, password = slip.partition(":")
            entry = pwd.getpwnam(name)
            made.append(Learner(name, password, Path(entry.pw_dir), entry.pw_uid, entry.pw_gid))
            assert made[-1].home.stat().st_mode & 0o777 == 0o700 and entry.pw_gid == grp.getgrnam(group).gr_gid
            made[-1].home.chmod(0o755)
        assert len(made) == len({one.password for one in made}) == count
        yield group, made
    finally:
        for entry in [entry for entry in pwd.getpwall() if entry.pw_name.startswith(group)]:
            _end_all_of(entry.pw_uid)
            subprocess.run(["userdel", "-r", entry.pw_name], capture_output=True)
        subprocess.run(["groupdel", group], capture_output=True)


def processes_of(uid: int) -> list:
    """The processes of an account."""
    import psutil

    found = []
    for process in psutil.process_iter(["pid", "uids", "cmdline"]):
        with contextlib.suppress(psutil.Error):
            if process.info["uids"].real == uid:
                found.append(process)
    return found


def _end_all_of(uid: int) -> None:
    """Ends what an account of the test has left running; the account was made here, so every process of it was begun here."""
    for process in processes_of(uid):
        with contextlib.suppress(Exception):
            process.kill()
            process.wait(5)


@contextlib.contextmanager
def served(folder: Path, python: Path, project: Path, group: str, learners: list[Learner], change=lambda text: text) -> Iterator[ClassHub]:
    """The hub as the instructions start it, on free ports of this machine; ``change`` edits the configuration as an instructor would."""
    hub = folder / f"hub-{secrets.token_hex(2)}"
    said = subprocess.run(
        [str(python), "-m", "anglelib", "hub", "--out", str(hub), "--group", group], capture_output=True, text=True, cwd=folder
    )
    if not (hub / "jupyterhub_config.py").exists():
        raise RuntimeError(said.stderr)
    _run("npm", "install", "--prefix", str(hub), "--no-audit", "--no-fund", "configurable-http-proxy")
    port, inner, api = free_port(), free_port(), free_port()
    config = hub / "jupyterhub_config.py"
    text = change(config.read_text(encoding="utf-8").replace('"127.0.0.1", 8000', f'"127.0.0.1", {port}'))
    config.write_text(
        f"{text}\nc.JupyterHub.hub_port = {inner}\nc.ConfigurableHTTPProxy.api_url = 'http://127.0.0.1:{api}'\n", encoding="utf-8"
    )
    log = hub / "log"
    environment = {name: value for name, value in os.environ.items() if not name.startswith(("JUPYTER", "ANGLELIB", "IPYTHON"))}
    with open(log, "w", encoding="utf-8") as writing:
        process = subprocess.Popen(
            [str(python), "-m", "jupyterhub", "--config", str(config)], cwd=folder, env=environment, stdout=writing, stderr=writing,
            start_new_session=True,
        )  # fmt: skip
    scheme = "https" if 'TLS_KEY, TLS_CERTIFICATE = ""' not in text else "http"
    try:
        _wait(f"{scheme}://127.0.0.1:{port}/hub/login", process, log)
        yield ClassHub(f"{scheme}://127.0.0.1:{port}", learners, hub, project, process, log)
    finally:
        process.send_signal(signal.SIGINT)
        try:
            process.wait(60)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)


def _wait(address: str, process: subprocess.Popen, log: Path) -> None:
    import ssl

    unchecked = ssl._create_unverified_context()
    deadline = time.monotonic() + 90
    while time.monotonic() < deadline and process.poll() is None:
        with contextlib.suppress(urllib.error.URLError, ConnectionError):
            with urllib.request.urlopen(address, timeout=5, context=unchecked if address.startswith("https") else None):
                return
        time.sleep(0.2)
    raise RuntimeError(f"The hub did not begin:\n{log.read_text(encoding='utf-8')[-4000:]}")


def memory(process) -> tuple[float, float]:
    """Proportional and resident memory of a process [MB]; zeros where it has ended."""
    import psutil

    try:
        full = process.memory_full_info()
        return full.pss / 1e6, full.rss / 1e6
    except psutil.Error:
        return 0.0, 0.0
