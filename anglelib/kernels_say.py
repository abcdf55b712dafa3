"""What the kernels' processes say themselves goes into a file of the course's hidden folder: the terminal is the learner's.

What a cell prints is no part of it: that goes to the page. What is left is what Python says when it cannot start, and its complaints
when it is ended in the middle of a message. The file is made anew by each course's first kernel, and never grows beyond ``MOST``.
"""

from __future__ import annotations

import os
import sys
import threading
from contextlib import suppress
from functools import cache
from pathlib import Path

from anglelib.lines import say

FILE = "kernels.txt"
MOST = 1 << 18
"""The longest that the file becomes [byte]; then it begins anew, so that what is there is always the newest."""
THREAD = "what-kernels-say"
BEGUN_ANEW = b"(What was said before this is left out.)\n"
CANNOT_START = "Python does not start for a page of the course. What it says is in {}; running the README's first command line again may mend it."


class Said:
    """A file, and in ``end`` the number of a pipe's end: what processes write to it is read by a thread and kept in the file."""

    def __init__(self, path: Path, most: int = MOST) -> None:
        self.path, self.most = path, most
        how = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | os.O_APPEND | getattr(os, "O_BINARY", 0)
        self.file = os.open(path, how, 0o600)  # appended to: another course of the same folder may write there, too
        reading, self.end = os.pipe()
        threading.Thread(target=self._keep, args=(reading,), name=THREAD, daemon=True).start()

    def _keep(self, reading: int) -> None:
        while more := os.read(reading, self.most // 4):
            with suppress(OSError):  # a full disk: it is read on, since a process waits for it
                if os.fstat(self.file).st_size + len(more) > self.most:
                    os.ftruncate(self.file, 0)
                    os.write(self.file, BEGUN_ANEW)
                os.write(self.file, more)

    @property
    def text(self) -> str:
        """What is in the file."""
        return self.path.read_text(encoding="utf-8", errors="replace")


@cache
def kept(path: str) -> Said | None:
    """The file of this server, made by its first kernel; None where it cannot be written."""
    try:
        return Said(Path(path))
    except OSError:
        return None


def tell(said: Said | None) -> None:
    """Says that no kernel can start, and where to read why."""
    say(CANNOT_START.format(said.path if said else os.devnull), sys.stderr)
