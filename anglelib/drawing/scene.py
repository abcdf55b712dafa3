"""Parts as they lie before somebody, side by side in space and to one scale: what a lesson is about, before it asks anything.

>>> from anglelib.section import Section
>>> angle = Part("P1", "Trial angle", Section(1, 1, "1/8", fillet="1/8"), "6061-T6", 6)
>>> scene_sheet([Lying(angle, "just sawn")]).sentence
'On the bench, seen in space, end 1 at the left. Just sawn: Trial angle, 1 x 1 x 1/8, 6 long, from the inside.'
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from anglelib.drawing.face import Axis
from anglelib.drawing.frame import FINE_SCALES
from anglelib.drawing.letters import text_width
from anglelib.drawing.outer_view import features_along
from anglelib.drawing.pictorial import extent, pictorial
from anglelib.drawing.sheet import Item, Label, Sheet, move
from anglelib.lengths import exact
from anglelib.part import Part

WIDTH, EDGE, TALL = 200.0, 6.0, 52.0
WORDS = 12.0
"""Room for the words under the parts [mm]."""
LETTER = 3.5
SHORT = 6
"""A part up to so long is drawn without a break [in]."""


@dataclass(frozen=True)
class Lying:
    """A part, what is said under it, and the side that it is seen from."""

    part: Part
    words: str
    side: str = "inside"


def scene_sheet(things: Sequence[Lying]) -> Sheet:
    """The parts in a row, as large as there is room; a long one is broken."""
    wide = (WIDTH - EDGE * (len(things) + 1)) / len(things)
    for scale in FINE_SCALES:
        axes = [_axis(thing.part, wide, 25.4 * float(scale)) for thing in things]
        spans = [extent(thing.part, axis, side=thing.side) for thing, axis in zip(things, axes, strict=True)]
        whole = all(len(axis.stretches) == 1 for thing, axis in zip(things, axes, strict=True) if thing.part.length <= SHORT)
        if whole and all(right - left <= wide and top - low <= TALL for left, low, right, top in spans):
            break
    high = max(top - low for _, low, _, top in spans)
    items: list[Item] = []
    for n, (thing, axis, (left, low, right, top)) in enumerate(zip(things, axes, spans, strict=True)):
        middle = EDGE + n * (wide + EDGE) + wide / 2
        drawn = pictorial(thing.part, axis, side=thing.side, hidden=False)
        items += move(drawn, middle - (left + right) / 2, WORDS + high / 2 - (low + top) / 2)
        if text_width(thing.words, LETTER) > wide + EDGE:
            raise ValueError(f"no room for {thing.words!r} under a part")
        items.append(Label(middle, 4.5, thing.words, LETTER, "middle"))
    return Sheet(WIDTH, WORDS + high + EDGE, tuple(items), "On the bench", _sentence(things))


def _axis(part: Part, wide: float, unit: float) -> Axis:
    return Axis.fit(float(part.length), features_along(part), wide - float(part.section.leg_b) * unit / 2, unit)


def _sentence(things: Sequence[Lying]) -> str:
    return f"On the bench, seen in space, end 1 at the left. {'. '.join(map(_said, things))}."


def _said(thing: Lying) -> str:
    part = thing.part
    name = "" if part.name.lower().startswith(thing.words) else f" {part.name},"
    return f"{thing.words[0].upper()}{thing.words[1:]}:{name} {part.section.size}, {exact(part.length)} long, from the {thing.side}"
