"""Lines that fit the terminal: whatever a command says is wrapped to its width, and no number parts from its unit.

On a terminal a line is as wide as that, at most 100 signs and at least 40. What goes elsewhere (a file, a pipe) is wrapped to
100 where it is running text, and left as it is otherwise; COLUMNS in the environment says another width for both.

>>> wrapped("Cut it from S-09.", "  ")
['  Cut it from S-09.']
>>> in_lines("It is 17 1/4 in. long", 10)
['It is', '17 1/4 in.', 'long']
"""

from __future__ import annotations

import argparse
import os
import re
import sys
import textwrap
from contextlib import suppress
from typing import NoReturn, TextIO

WIDTH, LEAST = 100, 40
_TOGETHER = (
    re.compile(r"(?<=\d) (?=\d+/\d)"),  # 17 1/4
    re.compile(r"(?<=\d) (?=(?:in|mm|ft|lb|kg|g|D|MB|GB|kB|ms|s|degrees?|minutes?|seconds?|hours?|diameters?|pages?|pieces?|sticks?)\b)"),
    re.compile(r"(?<=[\dA-Z]) (?=x [\dA-Z])|(?<=[\dA-Z] x) (?=[\dA-Z])"),  # 2 x A3, 3/4 x 3/4 x 1/8
)
_HELD = "\u00a0"


def columns(stream: TextIO | None = None) -> int | None:
    """How wide the terminal is that a stream writes to; None where it is none and the environment says nothing."""
    said = os.environ.get("COLUMNS", "")
    if said.isascii() and said.isdigit() and int(said):
        return max(int(said), LEAST)
    stream = sys.stdout if stream is None else stream
    with suppress(OSError, ValueError, AttributeError):
        if stream.isatty():
            return max(os.get_terminal_size(stream.fileno()).columns or WIDTH, LEAST)
    return None


def width(stream: TextIO | None = None) -> int:
    """How long a line of running text may be."""
    return min(columns(stream) or WIDTH, WIDTH)


def wrapped(text: str, first: str = "", more: str | None = None) -> list[str]:
    """A text in lines, the first one indented by ``first``, the others by ``more`` (or the same)."""
    return in_lines(text, width(), first, more, whole=columns() is None)


def in_lines(text: str, most: int, first: str = "", more: str | None = None, whole: bool = False) -> list[str]:
    """The same for lines of so many signs; ``whole`` leaves a word alone that is longer than a line (a path)."""
    for pair in _TOGETHER:
        text = pair.sub(_HELD, text)
    lines = textwrap.wrap(
        text, most, initial_indent=first, subsequent_indent=first if more is None else more, break_on_hyphens=False, break_long_words=not whole
    )  # fmt: skip
    return [line.replace(_HELD, " ") for line in lines]


def fitted(text: str, stream: TextIO | None = None) -> str:
    """A text of several lines, each wrapped where it is longer than the terminal; as it is where there is none."""
    most = columns(stream)
    if most is None:
        return text
    return "\n".join(piece for line in text.split("\n") for piece in (_fitted(line, most) if len(line) > most else [line]))


def _fitted(line: str, most: int) -> list[str]:
    indent = line[: len(line) - len(line.lstrip())]
    return in_lines(line.lstrip(), most, indent, f"{indent}  ") or [""]


def say(text: object, stream: TextIO | None = None) -> None:
    """Print a text of one or more lines so that it fits the terminal."""
    stream = sys.stdout if stream is None else stream
    print(fitted(str(text), stream), file=stream, flush=True)


def shortened(text: str, most: int) -> str:
    """The text, or its first words and dots, on one line of so many signs.

    >>> shortened("planning: the fewest sticks", 16), shortened("planning", 16)
    ('planning: the...', 'planning')
    """
    if len(text) <= most:
        return text
    lines = in_lines(text, max(most - 3, 1))
    return f"{lines[0][: max(most - 3, 0)]}..."[:most] if lines else ""


class _Help(argparse.HelpFormatter):
    """Help whose numbers stay with their units."""

    def _split_lines(self, text: str, width: int) -> list[str]:
        return in_lines(" ".join(text.split()), width)

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        return "\n".join(in_lines(" ".join(text.split()), width, indent))


class Parser(argparse.ArgumentParser):
    """A parser of a command's words whose help and refusals fit the terminal too."""

    def __init__(self, **settings) -> None:
        super().__init__(**{"formatter_class": _Help} | settings)

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        self.exit(2, fitted(f"{self.prog}: error: {message}\n", sys.stderr))
