"""What needs the solver, asked of a process of its own: a page's kernel stays small, and the process ends when it is not asked any more.

The solver and what it brings take more memory than all the rest of a page. So where a server of the course has said so (``LIGHT`` in the
environment), a function that is wrapped by ``apart`` runs in a helper process that this one starts; everywhere else it runs here. What it returns
or raises is the same either way. A helper that ends, whatever ends it, loses nothing: the function then runs here.

>>> apart(max)(3, 5)
5
"""

from __future__ import annotations

import functools
import os
import pickle
import struct
import subprocess
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import IO, Any, TypeVar

from anglelib.lengths import unit_written, writing

LIGHT = "ANGLELIB_LIGHT"
"""The variable of the environment that says: this process is to stay small."""
REST = 30.0
"""After so long without a question the helper ends [s]."""
_SIZE = struct.Struct("<Q")
_Function = TypeVar("_Function", bound=Callable[..., Any])


def apart(function: _Function) -> _Function:
    """The function, run by the helper where this process is to stay small, and the solver is not in it yet."""

    @functools.wraps(function)
    def asked(*args: Any, **kwargs: Any) -> Any:
        if os.environ.get(LIGHT) != "1" or "ortools" in sys.modules:
            return function(*args, **kwargs)
        try:
            question = pickle.dumps((function.__module__, function.__qualname__, args, kwargs, unit_written()))
            good, answer = HELPER.ask(question)
        except (pickle.PicklingError, AttributeError, TypeError, OSError, EOFError):  # nothing that can be sent, or nobody there
            return function(*args, **kwargs)
        if good:
            return answer
        raise answer

    return asked  # type: ignore[return-value]


class Helper:
    """The process: started when it is first wanted, ended by itself when it rests."""

    def __init__(self) -> None:
        self._turn = threading.RLock()
        self._process: subprocess.Popen[bytes] | None = None
        self._rest: threading.Timer | None = None

    def begin(self) -> None:
        """Starts it, so that it is ready by the time it is asked; nothing where this process need not stay small."""
        if os.environ.get(LIGHT) == "1" and "ortools" not in sys.modules:
            with self._turn, suppress(OSError):
                self._begun()

    def _begun(self) -> subprocess.Popen[bytes]:
        if self._process is None or self._process.poll() is not None:
            environment = {**os.environ, LIGHT: "", "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)}
            self._process = subprocess.Popen(
                [sys.executable, "-P", "-m", __name__], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=environment
            )
        self._wait()
        return self._process

    def _wait(self) -> None:
        if self._rest is not None:
            self._rest.cancel()
        self._rest = threading.Timer(REST, self.end)
        self._rest.daemon = True
        self._rest.start()

    def ask(self, question: bytes) -> tuple[bool, Any]:
        """Whether it was answered, and the answer or the error; raises OSError or EOFError where the helper is gone."""
        with self._turn:
            helper = self._begun()
            try:
                _send(helper.stdin, question)  # type: ignore[arg-type]
                answer = _received(helper.stdout)  # type: ignore[arg-type]
            except BaseException:  # interrupted, perhaps: what comes then is the answer to nothing
                helper.kill()
                self.end()
                raise
            self._wait()
        return pickle.loads(answer)

    def end(self) -> None:
        """Ends it; the next question starts another."""
        with self._turn:
            process, self._process = self._process, None
            if self._rest is not None:
                self._rest.cancel()
            if process is None:
                return
            for pipe in (process.stdin, process.stdout):
                with suppress(OSError):
                    pipe.close()  # type: ignore[union-attr]
            process.wait()


HELPER = Helper()


def _send(pipe: IO[bytes], words: bytes) -> None:
    pipe.write(_SIZE.pack(len(words)) + words)
    pipe.flush()


def _received(pipe: IO[bytes]) -> bytes:
    size = _exactly(pipe, _SIZE.size)
    return _exactly(pipe, _SIZE.unpack(size)[0])


def _exactly(pipe: IO[bytes], count: int) -> bytes:
    words = pipe.read(count)
    if len(words) < count:
        raise EOFError
    return words


def _answered(question: bytes) -> bytes:
    from importlib import import_module

    module, name, args, kwargs, unit = pickle.loads(question)
    try:
        with writing(unit):
            return pickle.dumps((True, getattr(import_module(module), name)(*args, **kwargs)))
    except Exception as error:
        return pickle.dumps((False, error))


def main() -> int:
    """The helper: answers until nobody asks any more."""
    asked, told = sys.stdin.buffer, os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # what a library prints is no answer
    with suppress(ImportError):
        from ortools.sat.python import cp_model  # noqa: F401  while nobody waits yet
    with suppress(EOFError, BrokenPipeError, KeyboardInterrupt):
        while True:
            _send(told, _answered(_received(asked)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
