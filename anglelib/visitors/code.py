"""The code that opens the shared course: its letters, and the square that a phone's camera reads, for a terminal and for a page.

The letters are few enough to be typed, and have no two that look alike. 12 of 31 are 59 bits; whoever guesses is let try twice a second.

>>> sorted(set(LETTERS)) == sorted(LETTERS), len(fresh())
(True, 12)
>>> grouped("abcdefghjkmn"), plain(" ABCD-efgh jkmn")
('abcd-efgh-jkmn', 'abcdefghjkmn')
>>> square = Square("http://192.168.1.20:8866/?token=abcdefghjkmn")
>>> len(square.rows), len(square.in_terminal()), max(len(line) for line in square.bare())
(29, 19, 37)
"""

from __future__ import annotations

import os
import secrets
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TextIO

LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"
LENGTH, GROUP = 12, 4
QUIET = 4
"""The white edge round the square, in its own small squares, that a camera wants."""
WHITE, BLACK, AS_BEFORE = "\x1b[48;5;231m", "\x1b[38;5;16m", "\x1b[0m"
"""White behind, black before, by their places in the colour cube: no theme of a terminal changes these."""
_HALVES = {(0, 0): " ", (1, 0): "\u2580", (0, 1): "\u2584", (1, 1): "\u2588"}


def fresh() -> str:
    """New letters, each time others."""
    return "".join(secrets.choice(LETTERS) for _ in range(LENGTH))


def grouped(letters: str) -> str:
    """The letters as they are read and typed."""
    return "-".join(letters[n : n + GROUP] for n in range(0, len(letters), GROUP))


def plain(typed: str) -> str:
    """What was typed, as the letters are."""
    return "".join(sign for sign in typed.lower() if sign.isalnum())


def same(one: str, other: str) -> bool:
    """Whether two codes are the same; how long it takes tells nothing of where they differ."""
    return secrets.compare_digest(one.encode("utf-8", "replace"), other.encode("utf-8", "replace"))


@dataclass(frozen=True)
class Square:
    """The square that says an address to a camera."""

    address: str

    @cached_property
    def rows(self) -> tuple[tuple[int, ...], ...]:
        """Its small squares, 1 is black; without the white edge."""
        import segno

        return tuple(tuple(int(dark) for dark in row) for row in segno.make(self.address, error="l", micro=False, boost_error=True).matrix)

    def bare(self) -> list[str]:
        """As lines of half blocks, two rows a line, its white edge about it; black where there is a sign."""
        across = len(self.rows[0]) + 2 * QUIET
        edge = [(0,) * across] * QUIET
        rows = [*edge, *((0,) * QUIET + row + (0,) * QUIET for row in self.rows), *edge]
        rows += [(0,) * across] * (len(rows) % 2)
        return ["".join(_HALVES[pair] for pair in zip(above, below, strict=True)) for above, below in zip(rows[::2], rows[1::2], strict=True)]

    def in_terminal(self) -> list[str]:
        """The same with its colours, black on white on every terminal."""
        return [f"{WHITE}{BLACK}{line}{AS_BEFORE}" for line in self.bare()]

    def svg(self, name: str) -> str:
        """As a picture of a page, as wide as its place, with a name for those who cannot see it."""
        from anglelib.drawing.escape import escape

        side = len(self.rows) + 2 * QUIET
        runs = "".join(f"M{x + QUIET} {y + QUIET}h1v1h-1z" for y, row in enumerate(self.rows) for x, dark in enumerate(row) if dark)
        return (
            f'<svg class="square" role="img" aria-label="{escape(name)}" viewBox="0 0 {side} {side}" shape-rendering="crispEdges">'
            f'<rect width="{side}" height="{side}" fill="#fff"/><path d="{runs}" fill="#000"/></svg>'
        )


def drawable(stream: TextIO | None = None, environment: Mapping[str, str] = os.environ, platform: str = sys.platform) -> bool:
    """Whether a terminal shows the square: one that has colours and half blocks, and is no file."""
    stream = sys.stdout if stream is None else stream
    if not stream.isatty() or environment.get("TERM", "") == "dumb":
        return False
    if platform == "win32" and not any(environment.get(name) for name in ("WT_SESSION", "TERM", "ANSICON")):
        return False  # an old window there prints the colours' signs
    try:
        "".join(_HALVES.values()).encode(stream.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True
