"""Sticks on the bench, seen on their ends: the section to one scale, what is printed on each, how long it is.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> sticks = (Stick("S-09", stock, "6061-T6", "32 5/8"), Stick("S-12", Section("3/4", "3/4", "1/8"), "", 36))
>>> print(stick_ends_sheet(sticks).sentence)
Sticks on the bench, seen on their ends. S-09: 3/4 x 3/4 x 1/8, fillet 1/8, printed 6061-T6, 32 5/8 long. S-12: 3/4 x 3/4 x 1/8, square inside, no mark, 36 long.
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Hatch, Item, Label, Sheet, polygon
from anglelib.lengths import exact
from anglelib.stock.rack import Stick

HEIGHT = 74.0
LETTER = 3.5
_LEG, _EACH = 32.0, 44.0
"""How wide the widest leg is drawn, and the room for a stick [mm]."""


def stick_ends_sheet(sticks: Sequence[Stick], *, few: bool = False) -> Sheet:
    """Each stick's end with its name, its mark and its length; ``few``: name and mark in one line."""
    unit = _LEG / float(max(max(stick.section.leg_a, stick.section.leg_b) for stick in sticks))
    items: list[Item] = []
    for place, stick in enumerate(sticks):
        x, y = 8 + place * _EACH, 26.0
        points = tuple((x + u * unit, y + v * unit) for u, v in section_outline(stick.section))
        items += [Hatch(points, 45, 2.0), polygon(points, "outline")]
        mark = stick.alloy or "no mark"
        if few:
            items.append(Label(x, 12, f"{stick.id[-2:]}: {mark}", LETTER, "start"))
            continue
        items += [
            Label(x, HEIGHT - 5, stick.id, LETTER, "start", "top"),
            Label(x, 16, f"printed {mark}" if stick.alloy else mark, LETTER, "start"),
            Label(x, 8, f"{exact(stick.length)} long", LETTER, "start"),
        ]
    return Sheet(8 + len(sticks) * _EACH, HEIGHT, tuple(items), "Sticks on the bench", _sentence(sticks))


def _sentence(sticks: Sequence[Stick]) -> str:
    words = "Sticks on the bench, seen on their ends."
    for stick in sticks:
        fillet = f"fillet {exact(stick.section.fillet)}" if stick.section.fillet else "square inside"
        mark = f"printed {stick.alloy}" if stick.alloy else "no mark"
        words += f" {stick.id}: {stick.section.size}, {fillet}, {mark}, {exact(stick.length)} long."
    return words
