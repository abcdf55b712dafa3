"""A rack on which a search takes long, and the command itself, on a terminal, that is stopped in the middle of it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from contextlib import suppress
from fractions import Fraction as F
from pathlib import Path
from random import Random

import anglelib
from anglelib.files import save_job, save_rack
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick

PIECES = 194
PATIENCE = 600.0
"""After so long the command hangs [s]."""


def big_rack(folder: Path) -> list[str]:
    """500 remnants of three sections, and parts enough that no search ends soon: the job's file and the rack's."""
    dice = Random("big rack 1")
    sections = [Section(F(n, 4), F(n, 4), "1/8", fillet="1/8") for n in (3, 4, 5)]
    parts = [Part(f"P{n:03}", "Part", sections[n % 3], "6061-T6", F(dice.randint(64, 800), 16), quantity=dice.randint(1, 6)) for n in range(60)]
    sticks = [Stick(f"S-{n:03}", sections[n % 3], "6061-T6", F(dice.randint(160, 1152), 8), "1/16", "1/16", remnant=True) for n in range(500)]
    files = [str(folder / "job.toml"), str(folder / "rack.csv")]
    save_job(Job("Big kit", Shop(), parts), files[0])
    save_rack(Rack(sticks), files[1])
    return files


class Terminal:
    """A terminal 100 columns wide, and what is said on it."""

    def __init__(self) -> None:
        import fcntl
        import pty
        import struct
        import termios

        self._ours, self.theirs = pty.openpty()
        fcntl.ioctl(self.theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 100, 0, 0))
        self._read, self._more, self._reader = b"", threading.Condition(), threading.Thread(target=self._listen, daemon=True)
        self._reader.start()

    def _listen(self) -> None:
        with suppress(OSError):  # so the end is told
            while more := os.read(self._ours, 65536):
                with self._more:
                    self._read += more
                    self._more.notify_all()

    def wait_for(self, sign: bytes) -> bool:
        """Whether it is said, sooner or later."""
        with self._more:
            return self._more.wait_for(lambda: sign in self._read, PATIENCE)

    def close(self) -> str:
        """All that was said, once nobody has the terminal any more."""
        self._reader.join(PATIENCE)
        os.close(self._ours)
        return self._read.decode().replace("\r\n", "\n")


def interrupted(*words: str, after: float = 0.5, times: int = 1) -> tuple[int, str, str, float]:
    """``python -m anglelib`` that gets Ctrl-C so many seconds after its bar shows that it searches: its exit code, its output, what the terminal says,
    and how long it still took [s]."""
    terminal = Terminal()
    environment = {**os.environ, "PYTHONPATH": str(Path(anglelib.__path__[0]).parent)}
    process = subprocess.Popen(
        [sys.executable, "-m", "anglelib", *words], env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=terminal.theirs, text=True
    )
    try:
        os.close(terminal.theirs)
        assert terminal.wait_for(b"planning")
        for _ in range(times):
            time.sleep(after)
            process.send_signal(signal.SIGINT)
        begun = time.monotonic()
        out, _ = process.communicate(timeout=PATIENCE)
        return process.returncode, out, terminal.close(), time.monotonic() - begun
    finally:
        process.kill()
        process.wait()
