"""The holes of a job's parts, said where the job is: the edge distance of every one, the worst named, and what is warned of.

One place for the terminal's plan, the plan's pages and the words of the pack, each part in its own unit.

>>> from anglelib.part import Hole
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> clip = Part("P1", "Clip", stock, "6061-T6", 3, holes=[Hole("A", 1, "7/16", "1/8"), Hole("B", "5/8", "17/32", "1/8")])
>>> for line in part_lines(clip, Limits()): print(line)
P1 Clip: worst hole B at 5/8: 1.75 D to the toe, 1.63 D at the limits; hole A at 1: 2.50 D to the toe, 2.38 D at the limits.
>>> warned([clip], Limits())
['P1, hole B at 5/8: 1.75 D to the toe, 1.63 D at the limits: under 2 D; the plans decide.']
>>> worst_of([clip], Limits())
'Worst edge distance: P1, hole B at 5/8: 1.75 D to the toe, 1.63 D at the limits.'
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.geometry.hole_check import worst_hole
from anglelib.geometry.hole_words import edge_lines, warning_lines, worst_line
from anglelib.lengths import apart, writing
from anglelib.part import Part
from anglelib.tolerances import Limits

TITLE = "Edge distance of the holes, in diameters D of the fastener"


def part_lines(part: Part, limits: Limits) -> list[str]:
    """A part's holes with their edge distances in one sentence; none for a part without holes."""
    with writing(part.unit):
        lines, inches = edge_lines(part, limits), _inches()
    return [f"{part.id} {part.name}{inches}: {'worst ' if len(lines) > 1 else ''}{'; '.join(lines)}."] if lines else []


def warned(parts: Sequence[Part], limits: Limits) -> list[str]:
    """What is warned of the holes of some parts, a sentence each."""
    said = []
    for part in parts:
        with writing(part.unit):
            said += [f"{part.id}{_inches()}, {words}." for words in warning_lines(part, limits)]
    return said


def worst_of(parts: Sequence[Part], limits: Limits) -> str:
    """The worst edge distance of some parts, in diameters beside what it should be; "" where they have no holes."""
    found = [(worst, part) for part in parts if (worst := worst_hole(part, limits)) is not None]
    if not found:
        return ""
    worst, part = min(found, key=lambda one: one[0].worst.margin / float(one[0].hole.diameter))
    with writing(part.unit):
        return f"Worst edge distance: {part.id}{_inches()}, {worst_line(part, limits)}."


def _inches() -> str:
    """That a part of a job in millimetres is in inches; "" where nothing need be said."""
    return f", {apart()}" if apart() else ""
