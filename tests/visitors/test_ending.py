"""The shared course begun and ended: Ctrl-C, a course that is killed, ports and addresses that cannot be; nothing is left behind."""

import os
import signal
import socket
import time
from pathlib import Path

import psutil
import pytest
from patience import PATIENCE
from shared import Visitor, shared

from anglelib import course as command
from anglelib.__main__ import main
from anglelib.errors import BenchError
from anglelib.visitors import share
from anglelib.visitors.addresses import At, addresses, chosen


def family(course) -> list[psutil.Process]:
    return psutil.Process(course.process.pid).children(recursive=True)


def visitors(course) -> list[psutil.Process]:
    """The visitors' server and its kernels; beside them the course has kernels of the owner's, one kept ready."""
    [server] = [one for one in psutil.Process(course.process.pid).children() if "anglelib.visitors.server" in one.cmdline()]
    return [server, *server.children(recursive=True)]


def gone(processes) -> bool:
    return not psutil.wait_procs(processes, timeout=PATIENCE)[1]


def its_folder(started) -> Path:
    """The folder of the visitors' server, which is thrown away."""
    folder = Path(next(one.cwd() for one in started if "anglelib.visitors.server" in one.cmdline()))
    assert folder.name.startswith("anglelib-visitors-") and folder.is_dir()
    return folder


@pytest.mark.skipif(os.name != "posix", reason="there Ctrl-C is sent by another call")
def test_ctrl_c_ends_both_and_leaves_nothing(tmp_path):
    with shared(tmp_path) as course:
        started = family(course)
        folder = its_folder(started)
        assert len(visitors(course)) == 1
        said = course.stop()
    assert course.process.returncode == 0 and gone(started) and not folder.exists()
    assert "The course has stopped" in said and "Traceback" not in said and "pages for the workshop have stopped" not in said
    assert list(tmp_path.iterdir()) == [tmp_path / ".pages"]


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="a process is killed otherwise there")
def test_a_killed_course_leaves_nobody_behind(tmp_path):
    with shared(tmp_path) as course:
        Visitor(course.url, course.code).page("glossary.ipynb")
        started = family(course)
        folder = its_folder(started)
        assert len(visitors(course)) == 2
        course.process.send_signal(signal.SIGKILL)
        assert gone(started) and not folder.exists()


@pytest.mark.slow
def test_the_visitors_server_that_ends_is_said_and_the_owner_goes_on(tmp_path):
    with shared(tmp_path) as course:
        for one in visitors(course):
            one.kill()
        until = time.monotonic() + PATIENCE
        while "have stopped, yours go on" not in course.said and time.monotonic() < until:
            time.sleep(0.1)
        assert "have stopped, yours go on" in course.said
        assert Visitor(course.owner).ask("GET", f"/wall?token={course.token}")[0] == 200


def refusal(capfd, *how) -> str:
    assert main(["course", "--no-browser", *how]) == 2
    said = capfd.readouterr()
    assert said.out == "" and "Traceback" not in said.err and said.err.count("\n") == 1
    return said.err


@pytest.mark.parametrize(
    ("how", "says"),
    [
        (("--share", "--lab"), "leave --lab out"),
        (("--visitors", "3"), "give --share, too"),
        (("--address", "127.0.0.1"), "give --share, too"),
        (("--share", "--address", "127.0.0.1", "--visitors", "0"), "no number of pages"),
        (("--share", "--address", "127.0.0.1", "--visitors", "many"), "no number of pages"),
        (("--share", "--address", "127.0.0.1", "--visitors", "9" * 5000), "no number of pages"),
        (("--share", "--address", "203.0.113.77"), "no address of this computer"),
        (("--share", "--address", "workshop"), "no address of this computer"),
        (("--share", "--address", ""), "no address of this computer"),
        (("--share", "--address", "0.0.0.0"), "no address of this computer"),
        (("--share", "--address", "::"), "no address of this computer"),
    ],
)
def test_what_cannot_be_shared_is_one_sentence(how, says, tmp_path, monkeypatch, capfd):
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "own"))
    monkeypatch.setattr(command, "serve", lambda *where, **how: pytest.fail("it was served"))
    assert says in refusal(capfd, *how)
    assert not (tmp_path / "own").exists()


@pytest.mark.parametrize(
    ("found", "wanted", "out", "gives"),
    [
        ([("192.168.1.20", "wlan0")], None, "", "192.168.1.20"),
        ([("192.168.1.20", "wlan0"), ("10.0.0.5", "eth0")], None, "10.0.0.5", "10.0.0.5"),
        ([("192.168.1.20", "wlan0"), ("172.17.0.1", "docker0")], None, "172.17.0.1", "192.168.1.20"),
        ([("172.17.0.1", "docker0")], None, "", "172.17.0.1"),
        ([("8.8.4.4", "eth0"), ("192.168.1.20", "wlan0")], None, "8.8.4.4", "192.168.1.20"),
        ([("8.8.4.4", "eth0")], "8.8.4.4", "", "8.8.4.4"),
        ([("fd00::2", "eth0")], None, "", "fd00::2"),
        ([("fd00::2", "eth0")], "FD00:0::2", "", "fd00::2"),
        ([], "127.0.0.1", "", "127.0.0.1"),
        ([("8.8.4.4", "eth0")], None, "8.8.4.4", "open to the whole internet"),
        ([], None, "", "on no network"),
        ([], "192.168.1.20", "", "on no network now"),
        ([("192.168.1.20", "wlan0")], "192.168.1.21", "", "It has 192.168.1.20."),
    ],
)
def test_which_address(found, wanted, out, gives):
    try:
        assert chosen([At(*one) for one in found], wanted, out).address == gives
    except BenchError as error:
        assert gives in str(error)


def test_the_addresses_are_those_that_the_system_gives():
    """Each can be listened at, and none is the loopback."""
    for at in addresses():
        with socket.socket(socket.AF_INET6 if ":" in at.address else socket.AF_INET) as asked:
            asked.bind((at.address, 0))
        assert not at.address.startswith("127.") and at.address != "::1"


def test_a_port_that_is_taken_there_is_one_sentence(monkeypatch, capfd, tmp_path):
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "own"))
    monkeypatch.setattr(command, "refuse_taken", lambda port: None)
    monkeypatch.setattr(share, "chosen", lambda *found: At("127.0.0.1", "eth0"))
    with socket.socket() as holder:
        holder.bind(("127.0.0.1", 0))
        holder.listen()
        assert "is taken" in refusal(capfd, "--share", "--port", str(holder.getsockname()[1]))
    assert not (tmp_path / "own").exists()


def test_without_the_code_library_is_one_sentence(monkeypatch, capfd, tmp_path):
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "own"))
    monkeypatch.setitem(__import__("sys").modules, "segno", None)
    monkeypatch.setattr(command, "serve", lambda *where, **how: pytest.fail("it was served"))
    assert main(["course", "--no-browser", "--share", "--address", "127.0.0.1"]) == 2
    assert "segno" in capfd.readouterr().err


def test_sharing_is_off_unless_asked_for(monkeypatch, tmp_path):
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "own"))
    monkeypatch.setattr(share.Sharing, "__init__", lambda *how: pytest.fail("it was shared"))
    seen = []
    monkeypatch.setattr(command, "serve", lambda *where, **how: seen.append(how))
    assert command.main(["--no-browser"]) == 0 and "sharing" not in seen[0]


def test_a_server_that_does_not_start_is_one_sentence(monkeypatch, tmp_path):
    monkeypatch.setattr(share, "HANDED_ON", ())
    monkeypatch.setattr(share.sys, "executable", share.shutil.which("false") or share.sys.executable)
    sharing = share.Sharing(tmp_path, "127.0.0.1", None, 1)
    with sharing, pytest.raises(BenchError, match="could not be started"):
        sharing.shared()
    assert not Path(sharing.folder).exists()
