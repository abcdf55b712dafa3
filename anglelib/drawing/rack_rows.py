"""Sticks in rows, all to one scale: a whole rack at a glance, or two of them side by side.

A stick lies with its datum end at the left, the heel at the bottom. Blanks are parted by narrow lines
and carry their name where it fits; what remains is left white. Heights are not to scale. A stick that
may not be used has narrow outlines.

>>> row = Row("S-09", Fraction(261, 8), (Cut("A3", Fraction(1, 16), Fraction(139, 8)),), note="15 1/8 left")
>>> [item.text for item in rows([row], 24, 60, 1.0, 8.0) if isinstance(item, Label)]
['S-09', 'A3', '15 1/8 left']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.letters import text_width
from anglelib.drawing.rack_view import Cut
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, polygon

HEEL = 0.24
"""Where the other leg's edge is drawn, as a part of a stick's height."""
LOW = 9.0
"""Rows that are lower have less white between them [mm]."""
ROOM = 1.9
"""Room above the other leg's edge for a blank's name, in its letters' heights; with less that edge is left out, so that no line touches the name."""
STATES = ("", "chosen", "refused")


@dataclass(frozen=True)
class Row:
    """One stick: its length, blanks and dents [in], and a note at its right.

    ``state``: "chosen" draws its cuts and note in the accent, "refused" the stick in narrow lines.
    Blanks may reach past the stick's end: what does not fit is drawn dashed.
    """

    id: str
    length: Fraction
    cuts: tuple[Cut, ...] = ()
    dents: tuple[tuple[Fraction, Fraction], ...] = ()
    note: str = ""
    state: str = ""

    def __post_init__(self) -> None:
        if self.state not in STATES:
            raise ValueError(f"a row is one of {', '.join(map(repr, STATES))}")


def rows(
    shown: Sequence[Row], left: float, top: float, unit: float, pitch: float, *, letter: float = 3.5, small: float | None = None
) -> Group:
    """The sticks under one another, from their datum end at ``left`` and from ``top`` down; ``pitch`` is a row's height.

    ``unit`` is millimetres an inch. ``small`` is the letter height of names inside blanks.
    """
    tall = (0.58 if pitch >= LOW else 0.72) * pitch
    named = any(cut.name for row in shown for cut in row.cuts)
    behind = HEEL if not named or (1 - HEEL) * tall >= ROOM * (small or letter) else 0.0
    items: list[Item] = []
    for number, row in enumerate(shown):
        low = top - number * pitch - tall
        items.append(Label(left - 3, low + tall / 2, row.id, letter, "end", "middle"))
        items += _stick(row, left, low, tall, unit, small or letter, behind)
        if row.note:
            end = left + max(float(row.length), _reach(row)) * unit
            items.append(Label(end + 3, low + tall / 2, row.note, letter, "start", "middle", accent=row.state == "chosen"))
    return tuple(items)


def _reach(row: Row) -> float:
    """How far the blanks of a row reach [in]."""
    return max((float(cut.end) for cut in row.cuts), default=0.0)


def _stick(row: Row, left: float, low: float, tall: float, unit: float, letter: float, behind: float) -> Group:
    long, accent = float(row.length) * unit, row.state == "chosen"
    items: list[Item] = []
    for start, end in row.dents:
        a, b = left + float(start) * unit, left + max(float(end) * unit, float(start) * unit + 1)
        items.append(Hatch(((a, low), (b, low), (b, low + tall), (a, low + tall)), 60, 0.9))
    if behind:
        items.append(Line(left, low + behind * tall, left + long, low + behind * tall, "narrow"))
    for cut in row.cuts:
        items += _blank(cut, row.length, left, low, tall, unit, accent, letter, behind)
    kind = "narrow" if row.state == "refused" else "outline"
    items.append(polygon(((left, low), (left + long, low), (left + long, low + tall), (left, low + tall)), kind))
    return tuple(items)


def _blank(cut: Cut, length: Fraction, left: float, low: float, tall: float, unit: float, accent: bool, letter: float, behind: float) -> Group:
    """A blank's two ends and its name; what reaches past the stick is dashed."""
    a, b, end = (left + float(x) * unit for x in (cut.start, cut.end, length))
    items: list[Item] = []
    ends = [a] if cut.start > 0 else []
    ends += [b] if cut.sawn or cut.end > length else []
    for x in ends:
        items.append(Line(x, low, x, low + tall, "hidden" if x > end + 0.01 else "cut", accent or x > end + 0.01))
    if cut.end > length:
        items += [Line(max(a, end), y, b, y, "hidden", True) for y in (low, low + tall)]
    one, two = max(((a, min(b, end)), (max(a, end), b)), key=lambda span: span[1] - span[0])  # the name is not to lie on the stick's end
    if cut.name and 1.2 * text_width(cut.name, letter) + 1.4 <= two - one:  # for a room letters are larger
        items.append(Label((one + two) / 2, low + tall * (1 + behind) / 2, cut.name, letter, "middle", "middle", accent=accent))
    return tuple(items)
