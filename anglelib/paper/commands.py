"""What the commands share: the demo kit's folder, the exit code for what is short, the progress bar."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO

DEMO = Path(__file__).resolve().parents[2] / "notebooks" / "demo"
SHORT = 3


class Bar:
    """A progress bar of plain text on a terminal; silent where the stream is none."""

    WIDTH = 30

    def __init__(self, stream: TextIO) -> None:
        self.stream = stream
        self.shown = ""
        self.awake = bool(getattr(stream, "isatty", lambda: False)())

    def __call__(self, share: float, words: str) -> None:
        if not self.awake:
            return
        done = round(max(0.0, min(share, 1.0)) * self.WIDTH)
        line = f"[{'#' * done}{'.' * (self.WIDTH - done)}] {words}"
        if line != self.shown:
            self.stream.write("\r" + line.ljust(len(self.shown)))
            self.stream.flush()
            self.shown = line

    def close(self) -> None:
        """Wipe the bar off its line."""
        if self.shown:
            self.stream.write("\r" + " " * len(self.shown) + "\r")
            self.stream.flush()
            self.shown = ""
