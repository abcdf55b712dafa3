"""Lines of plain text that a terminal shows whole."""

from __future__ import annotations

import textwrap

WIDTH = 100


def wrapped(text: str, first: str = "", more: str | None = None) -> list[str]:
    """A text in lines, the first one indented by ``first``, the others by ``more`` (or the same).

    >>> wrapped("Cut it from S-09.", "  ")
    ['  Cut it from S-09.']
    """
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=first if more is None else more, break_on_hyphens=False)
