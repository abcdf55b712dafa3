"""The course shared by its owner: the visitors' server started, told of, and ended with the course.

>>> sorted(environment({"PATH": "/bin", "SECRET_KEY": "x", "HOME": "/home/me"}, "/tmp/v"))[:4]
['ANGLELIB_VISITOR', 'HOME', 'IPYTHONDIR', 'JUPYTER_CONFIG_DIR']
"""

from __future__ import annotations

import json
import os
import queue
import shutil
import site
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from anglelib.errors import BenchError
from anglelib.lines import say
from anglelib.port import refuse_taken
from anglelib.served import search_path
from anglelib.visiting import SET
from anglelib.visitors import leaf, words
from anglelib.visitors.addresses import ALONE, At, addresses, chosen, outward
from anglelib.visitors.code import Square, drawable, fresh
from anglelib.visitors.house import bearable
from anglelib.visitors.kernels import CANNOT_START

HANDED_ON = (
    "PATH", "LANG", "LC_ALL", "LC_CTYPE", "TZ", "LD_LIBRARY_PATH", "DYLD_LIBRARY_PATH", "PYTHONHOME", "PYTHONUTF8", "PYTHONWARNINGS", "VIRTUAL_ENV",
    "SYSTEMROOT", "SYSTEMDRIVE", "WINDIR", "PATHEXT", "COMSPEC", "NUMBER_OF_PROCESSORS", "PROCESSOR_ARCHITECTURE",
)  # fmt: skip
"""What of the owner's environment the visitors' server knows: nothing that could be a secret."""
PATIENCE, GOOD_BYE = 90, 15
"""So long it may take to start, and to end its kernels [s]."""
MOST_ASKED = 200
WALL = "wall"
FILE = "visitors.txt"


def visitors_number(typed: str) -> int:
    """How many pages at once somebody asks for; BenchError for what is no such number.

    >>> visitors_number("12")
    12
    """
    if typed.strip().isascii() and typed.strip().isdigit() and 1 <= int(typed.strip()[:9]) <= MOST_ASKED:
        return int(typed)
    raise BenchError(f"--visitors {typed[:40]} is no number of pages: give one from 1 to {MOST_ASKED}, or leave it out.")


def environment(given: Mapping[str, str], folder: str) -> dict[str, str]:
    """The environment of the visitors' server and its kernels; everything of their own is in a folder that is thrown away."""
    kept = {name: given[name] for name in HANDED_ON if name in given}
    own = dict.fromkeys(("HOME", "USERPROFILE", "TMPDIR", "TEMP", "TMP", "IPYTHONDIR", "MPLCONFIGDIR"), folder)
    own |= {f"JUPYTER_{name}_DIR": str(Path(folder, name.lower())) for name in ("CONFIG", "DATA", "RUNTIME")}
    with suppress(AttributeError):
        own["PYTHONUSERBASE"] = site.getuserbase()  # packages that are installed there, not in the home
    return {**kept, **own, **SET, "PYTHONPATH": search_path(given), "PYTHONDONTWRITEBYTECODE": "1", "JUPYTER_PREFER_ENV_PATH": "1"}


@dataclass(frozen=True)
class Shared:
    """What is shared: where, by which code, for how many pages at once."""

    at: At
    port: int
    code: str
    most: int
    others: tuple[At, ...] = ()

    @property
    def url(self) -> str:
        """The address that is typed."""
        return f"http://{self.at.in_url}:{self.port}"

    @property
    def with_code(self) -> str:
        """The address that the square says; nowhere else are address and code together."""
        return f"{self.url}/?token={self.code}"

    @property
    def for_owner(self) -> tuple[str, ...]:
        """What the owner is told, a paragraph each."""
        around = () if self.at.connection == ALONE else (words.NETWORK, words.reach(self.port), words.others(self.others))
        return tuple(text for text in (words.who(self.at, self.most), *around, words.END) if text)

    @property
    def wall(self) -> str:
        """The sheet for the wall, as a page."""
        return leaf.wall(self.url, self.with_code, self.code, self.for_owner)


class Sharing:
    """The visitors' server of one course, from its start to its end."""

    def __init__(self, project: Path, wanted: str | None, port: int | None, visitors: int | None) -> None:
        found = addresses()
        self.at = chosen(found, wanted, outward())
        alone = self.at.connection == ALONE
        self.others = () if alone else tuple(at for at in found if at != self.at)
        self.project, self.port = project, None if alone else port  # there the owner's pages have it
        if self.port is not None:
            refuse_taken(self.port, self.at.address)
        self.code, self.most = fresh(), visitors or _bearable()
        self.heard: queue.Queue[dict[str, Any]] = queue.Queue()
        self.ending = False
        self.place = Path(os.devnull)  # where the owner's pages have what is theirs, once they are served

    def start(self) -> None:
        """Starts the server; that it listens is waited for later (:meth:`shared`)."""
        if _no_code_library():
            raise BenchError(words.NO_CODE_LIBRARY)
        self.folder = tempfile.mkdtemp(prefix="anglelib-visitors-")
        apart = {"creationflags": subprocess.CREATE_NEW_PROCESS_GROUP} if os.name == "nt" else {"start_new_session": True}  # Ctrl-C is the course's
        self.process = subprocess.Popen(
            [sys.executable, "-m", "anglelib.visitors.server"], cwd=self.folder, env=environment(os.environ, self.folder), text=True,
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, **apart,
        )  # fmt: skip
        told = {"code": self.code, "most": self.most, "project": str(self.project), "address": self.at.address, "port": self.port}
        with suppress(OSError):  # it has ended: said below
            self.process.stdin.write(json.dumps(told) + "\n")  # type: ignore[union-attr]
            self.process.stdin.flush()  # type: ignore[union-attr]
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self) -> None:
        listening = False
        for line in self.process.stdout:  # type: ignore[union-attr]
            with suppress(ValueError):
                said = json.loads(line)
                listening |= "port" in said
                if "strange" in said:
                    say(words.STRANGE, sys.stderr)
                if CANNOT_START in said:
                    self._keep(str(said[CANNOT_START]))
                self.heard.put(said)
        self.heard.put({})
        if listening and not self.ending:
            say(words.STOPPED, sys.stderr)

    def _keep(self, text: str) -> None:
        """What the visitors' kernels say that cannot start: their own folder is thrown away, so it goes where the owner's do."""
        path = self.place / FILE
        with suppress(OSError):
            path.write_text(text, encoding="utf-8")
        say(words.cannot_start(path), sys.stderr)

    def shared(self) -> Shared:
        """What is shared, once the server listens; BenchError where it does not."""
        with suppress(queue.Empty):
            said = self.heard.get(timeout=PATIENCE)
            if "port" in said:
                return Shared(self.at, said["port"], self.code, self.most, self.others)
        raise BenchError(words.NOT_STARTED)

    def __enter__(self) -> Sharing:
        self.start()
        return self

    def __exit__(self, *how: object) -> None:
        self.stop()

    # --- in the owner's own server ------------------------------------------------------------------------
    def wall_handler(self) -> tuple:
        """The sheet for the wall: a page of the owner's server, for whoever has the owner's token."""
        from jupyter_server.base.handlers import JupyterHandler
        from tornado.web import authenticated

        class Wall(JupyterHandler):  # type: ignore[misc]
            @authenticated
            def get(handler) -> None:  # noqa: N805  the sharing is self
                handler.finish(self.known.wall)

        return rf"/{WALL}", Wall

    def tell(self, owners: str) -> None:
        """Waits until the visitors' server listens, and tells the owner, whose own address is ``owners``."""
        self.known = self.shared()
        base, mark, token = owners.partition("?")
        tell(self.known, f"{base}{WALL}{mark}{token}")

    def stop(self) -> None:
        """Ends the server and its kernels, and throws its folder away."""
        self.ending = True
        if hasattr(self, "process"):
            with suppress(OSError):
                self.process.stdin.close()  # type: ignore[union-attr]
            try:
                self.process.wait(GOOD_BYE)
            except subprocess.TimeoutExpired:
                self.process.kill()
                self.process.wait()
            self.process.stdout.close()  # type: ignore[union-attr]
            shutil.rmtree(self.folder, ignore_errors=True)


def _no_code_library() -> bool:
    try:
        import segno  # noqa: F401
    except ImportError:
        return True
    return False


def _bearable() -> int:
    import psutil

    return bearable(psutil.virtual_memory().available, psutil.cpu_count())


def tell(shared: Shared, wall: str, put: Callable[[str], None] = say, whole: Callable[[str], None] = print) -> None:
    """Tells the owner: address and code, the square where the terminal shows it, who can come, and how it is ended.

    ``put`` wraps what it says to the terminal; ``whole`` leaves a line as it is: an address that is broken cannot be followed.
    """
    put("")
    put(f"Shared with the workshop: {words.address_and_code(shared.url, shared.code)}")
    if drawable():
        print("\n".join(["", *Square(shared.with_code).in_terminal(), ""]), flush=True)
    put("A sheet for the wall, or for the projector, with the square that a phone's camera reads:")
    whole(wall)
    for text in shared.for_owner:
        put(text)
