"""The holes of a job's parts on the pages of its plan: the lines of :mod:`~anglelib.geometry.hole_lines`, what is warned of first."""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.geometry.hole_lines import TITLE, part_lines, warned
from anglelib.geometry.hole_words import rules_words
from anglelib.paper.page import Block, block, heading, warning_sign
from anglelib.part import Part
from anglelib.tolerances import Limits

TOGETHER = 5
"""So many sentences are kept on one page."""


def holes_blocks(parts: Sequence[Part], limits: Limits, width: float) -> list[Block]:
    """A block or more; nothing where no part has holes."""
    lines = [line for part in parts for line in part_lines(part, limits)]
    if not lines:
        return []
    told = [(words, True) for words in warned(parts, limits)]
    told += [(words, False) for words in (rules_words(parts, limits), *lines) if words]
    blocks = []
    for start in range(0, len(told), TOGETHER):
        items, y = heading(0, 0, TITLE, width) if not start else ((), 0.0)
        for words, warning in told[start : start + TOGETHER]:
            in_ = 4.6 if warning else 0.0
            text, low = block(in_, y, words, width - in_)
            items, y = (*items, *(warning_sign(0, y - 2.9, 3.0) if warning else ()), *text), low - 0.4
        blocks.append((items, -y))
    return blocks
