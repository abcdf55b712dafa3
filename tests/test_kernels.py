"""The terminal is the learner's: what kernels' processes say goes to a file, no page or kernel that ends in the middle is said, and all end."""

import asyncio
import logging
import os
import re
import threading
import time
from contextlib import suppress
from http.client import HTTPException
from types import SimpleNamespace

import psutil
import pytest
from opened import opened, until
from patience import PATIENCE
from traitlets.config import Config

from anglelib import kernels, kernels_say, prompt_socket

COMPLAINS = "import sys; print('said by a process', file=sys.stderr)"
CANNOT = "import sys; 'ipykernel_launcher' in sys.orig_argv and sys.exit('this Python cannot start')"


# --- the file ---------------------------------------------------------------------------------------------------
def test_the_file_is_made_anew_and_never_grows_beyond_its_length(tmp_path):
    path = tmp_path / kernels_say.FILE
    path.write_text("of the day before")
    said = kernels_say.Said(path, most=2000)
    longest = 0
    for n in range(300):
        os.write(said.end, f"line {n} of 300\n".encode())
        longest = max(longest, path.stat().st_size)
    assert until(lambda: "line 299 of 300" in said.text)
    assert longest <= 2000 and said.text.startswith(kernels_say.BEGUN_ANEW.decode()) and "line 0 of" not in said.text
    if os.name == "posix":
        os.close(said.end)  # nobody writes any more: the thread ends, too
        assert until(lambda: not any(thread.name.startswith(kernels_say.THREAD) for thread in threading.enumerate()))


def test_a_file_that_cannot_be_written_stops_no_kernel(tmp_path):
    assert kernels_say.kept(str(tmp_path / "nowhere" / kernels_say.FILE)) is None


# --- kernels ----------------------------------------------------------------------------------------------------
def manager(folder, sitecustomize: str, monkeypatch):
    """The course's kernels in a folder, whose Python begins with some lines."""
    (folder / "sitecustomize.py").write_text(sitecustomize)
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join([str(folder), os.environ.get("PYTHONPATH", "")]))
    told = Config()
    told.CourseKernel.said_in = str(folder / kernels_say.FILE)
    told.KernelRestarter.time_to_dead = 0.2
    return kernels.CourseKernels(root_dir=str(folder), connection_dir=str(folder), config=told)


def test_what_a_kernels_process_says_is_in_the_file_and_not_on_the_terminal(tmp_path, monkeypatch, capfd):
    async def page():
        made = manager(tmp_path, COMPLAINS, monkeypatch)
        await made.start_kernel()
        await made.start_kernel()
        path = tmp_path / kernels_say.FILE
        while path.read_text().count("said by a process") < 2:
            await asyncio.sleep(0.05)
        await made.shutdown_all(now=True)

    asyncio.run(asyncio.wait_for(page(), PATIENCE))
    assert capfd.readouterr() == ("", "")


def test_one_that_is_starting_is_ended_too_and_none_is_begun_any_more(tmp_path):
    async def page():
        made = kernels.CourseKernels(root_dir=str(tmp_path))
        first = await made.start_kernel()
        second = asyncio.ensure_future(made.start_kernel())
        while not made._pending_kernels:
            await asyncio.sleep(0)
        leaves = asyncio.ensure_future(made.shutdown_kernel(first, now=True))  # its page is left just then
        await made.shutdown_all(now=True)
        await asyncio.gather(second, leaves, return_exceptions=True)
        assert len(made) == 0
        with pytest.raises(Exception, match="503"):
            await made.start_kernel()

    asyncio.run(asyncio.wait_for(page(), PATIENCE))
    assert not [one for one in psutil.Process().children(recursive=True) if "ipykernel_launcher" in one.cmdline()]


def test_a_kernel_that_cannot_start_is_one_sentence_and_its_reason_in_the_file(tmp_path, monkeypatch, capfd):
    monkeypatch.setattr(kernels.CourseKernel, "told", False)

    async def page():
        made = manager(tmp_path, CANNOT, monkeypatch)
        await made.start_kernel()
        await made.start_kernel()
        while made.list_kernel_ids():
            await asyncio.sleep(0.05)

    asyncio.run(asyncio.wait_for(page(), PATIENCE))
    said = capfd.readouterr().err
    path = tmp_path / kernels_say.FILE
    assert re.findall(r"\S+kernels\.txt", said) == [str(path)] and "Traceback" not in said and said.count("\n") == 1
    assert "this Python cannot start" in path.read_text()


# --- pages ------------------------------------------------------------------------------------------------------
def test_what_is_said_to_a_page_that_is_gone_is_said_to_nobody(caplog):
    from tornado.websocket import WebSocketClosedError

    async def fails(error):
        raise error

    def closed(error, at_once):
        def write_message(message, binary):
            if at_once:
                raise error
            return asyncio.ensure_future(fails(error))

        connection = object.__new__(prompt_socket.PromptConnection)
        connection._trait_values = {"websocket_handler": SimpleNamespace(write_message=write_message)}
        return connection

    async def send(error, at_once):
        closed(error, at_once).write_message(b"", binary=True)
        await asyncio.sleep(0.01)

    with caplog.at_level(logging.WARNING):
        for at_once in (True, False):
            asyncio.run(send(WebSocketClosedError(), at_once))
    assert caplog.records == []
    with pytest.raises(ValueError):  # another error stays one
        asyncio.run(send(ValueError("real"), True))
    asyncio.run(send(ValueError("real"), False))
    import gc

    gc.collect()
    assert "real" in caplog.text


def asked_or_not(course) -> None:
    with suppress(OSError, HTTPException):
        course.page()


BEFORE = [0.03, *(pytest.param(seconds, marks=pytest.mark.slow) for seconds in (0.4, 0.9, 1.4, 1.8, 2.4, 3.5, 5))]
"""So long after a page was asked for the course is stopped [s]: its kernel begins to start, starts, runs cells."""


@pytest.mark.skipif(os.name != "posix", reason="a process is stopped otherwise there")
@pytest.mark.parametrize("seconds", BEFORE)
def test_a_course_that_is_stopped_in_the_middle_of_a_page_says_only_that(seconds, tmp_path):
    with opened(tmp_path) as course:
        threading.Thread(target=asked_or_not, args=(course,), daemon=True).start()
        time.sleep(seconds)
        started = psutil.Process(course.process.pid).children(recursive=True)
    lines = course.said.splitlines()
    assert len(lines) == 4 and "The course has stopped" in lines[3], course.said
    assert not psutil.wait_procs(started, timeout=PATIENCE)[1]


@pytest.mark.slow
def test_a_page_whose_python_cannot_start_says_so_and_the_terminal_says_why(tmp_path):
    with opened(tmp_path, begins=CANNOT) as course:
        assert course.page().rstrip().endswith('page_state("ended")</script>')
        assert until(lambda: "kernels.txt" in course.said), course.said
    assert "Traceback" not in course.said and "ERROR" not in course.said
    assert "this Python cannot start" in (course.folder / ".pages" / kernels_say.FILE).read_text()
