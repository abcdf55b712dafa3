"""Readings against their limits: how far each is off, in parts of what it may be off, with what the reading itself is unsure of.

Every row has its own scale, so that the limits of all readings lie under one another. The whisker is the
expanded uncertainty U either way; only where all of it lies within the limits is the reading proven within
(ISO 14253-1): the short ticks are the limits less U.

>>> row = Row("toe.A", "toe A length", 2.438, 2.5, 2.488, 2.512, 0.005)
>>> round(row.off, 3), row.state
(-0.062, 'out')
>>> [Row("x", "x", 1 + d, 1.0, 0.988, 1.012, 0.004).state for d in (0.003, 0.006, 0.013)]
['within', 'doubtful', 'out']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, polygon
from anglelib.inspection.wanted import Wanted
from anglelib.lengths import fine

MOST = 2.3
"""A reading farther off than so many tolerances is drawn at the edge, with an arrow."""
STEP = 7.5
"""From one row to the next [mm]."""
SIGN = {"within": "", "doubtful": "?", "out": "OUT"}


@dataclass(frozen=True)
class Row:
    """A reading: its id and name, what was read and what is wanted [in], its limits and the standard uncertainty [in]."""

    id: str
    name: str
    read: float
    wanted: float
    low: float
    high: float
    spread: float
    brief: str = ""
    """Its name for a projector."""

    @classmethod
    def of(cls, want: Wanted, name: str, read: float, spread: float, brief: str = "") -> Row:
        """What was read against what is wanted."""
        return cls(want.id, name, read, want.value, want.low, want.high, spread, brief)

    @property
    def tolerance(self) -> float:
        """How far off it may be on the side that it is off to [in]."""
        return max(self.high - self.wanted if self.off > 0 else self.wanted - self.low, 1e-6)

    @property
    def off(self) -> float:
        """Read less wanted."""
        return self.read - self.wanted

    @property
    def state(self) -> str:
        """"within" its limits for sure, "out" of them as read, or "doubtful"."""
        if abs(self.off) > self.tolerance + 1e-9:
            return "out"
        return "within" if abs(self.off) <= self.tolerance - 2 * self.spread + 1e-9 else "doubtful"

    @property
    def words(self) -> str:
        """How far off, as a caliper shows it: "+0.063"."""
        text = fine(abs(self.off))
        return text if text == fine(0) else f"{'+' if self.off > 0 else '-'}{text}"


def deviation_rows(rows: Sequence[Row], left: float, right: float, top: float, *, few: bool = False, named: int = 3) -> Group:
    """The rows from ``top`` [mm] down, between two places across the paper; of few labels only the farthest ``named`` rows have words."""
    centre = left + 0.58 * (right - left)
    unit = 0.085 * (right - left)  # one tolerance
    reach = MOST * unit
    bottom = top - STEP * len(rows)
    items: list[Item] = [Line(centre, top, centre, bottom, "centre")]
    items += [Line(centre + way * unit, top, centre + way * unit, bottom, "hidden") for way in (-1, 1)]
    worst = sorted(rows, key=lambda row: -abs(row.off) / row.tolerance)[:named]
    told = {row.id for row in worst if row.state != "within"} if few else {row.id for row in rows}
    for number, row in enumerate(rows):
        items += _row(row, centre, unit, reach, top - STEP * (number + 0.5), (left, right), row.id in told, few)
    if not few:
        y = bottom - 2.0
        items += [Label(centre, y, "wanted", 2.5, "middle", "top")]
        items += [Label(centre + way * unit, y, word, 2.5, anchor, "top") for way, word, anchor in ((-1, "limit", "end"), (1, "limit", "start"))]
    return tuple(items)


def _row(row: Row, centre: float, unit: float, reach: float, y: float, across: tuple[float, float], told: bool, few: bool) -> Group:
    share = row.off / row.tolerance
    whisker = 2 * row.spread / row.tolerance
    x = centre + max(-MOST, min(MOST, share)) * unit
    items: list[Item] = [Line(centre - reach, y, centre + reach, y, "dimension")]
    if whisker < 1:
        items += [Line(centre + way * (1 - whisker) * unit, y - 1.3, centre + way * (1 - whisker) * unit, y + 1.3, "narrow") for way in (-1, 1)]
    if abs(share) <= MOST:
        low, high = (max(centre - reach, min(centre + reach, x + way * whisker * unit)) for way in (-1, 1))
        items.append(Line(low, y, high, y, "outline", row.state == "out"))
        items.append(_mark(row.state, x, y))
    else:
        way = 1 if share > 0 else -1
        items.append(polygon([(x + way * 2.2, y), (x - way * 1.6, y + 1.8), (x - way * 1.6, y - 1.8)], "", "accent", True))
    if told:
        words = f"{row.brief or row.name} {row.words}" if few else row.name
        items.append(Label(centre - reach - 3, y, words, 3.5, "end", "middle"))
        if not few:
            items.append(Label(centre + reach + 22, y, row.words, 3.5, "end", "middle"))
            if SIGN[row.state]:
                items.append(Label(centre + reach + 24, y, SIGN[row.state], 3.5, "start", "middle", accent=row.state == "out"))
    return tuple(items)


def _mark(state: str, x: float, y: float) -> Item:
    """A dot within, a ring where it is doubtful, a square outside: told apart without colour."""
    if state == "within":
        return Circle(x, y, 1.5, "", "ink")
    if state == "doubtful":
        return Circle(x, y, 1.5, "outline", "paper")
    return polygon([(x - 1.5, y - 1.6), (x + 1.6, y - 1.5), (x + 1.5, y + 1.6), (x - 1.6, y + 1.5)], "", "accent", True)


def rows_sentence(rows: Sequence[Row], most: int = 4) -> str:
    """The readings in words: those out of their limits first."""
    order = {"out": 0, "doubtful": 1, "within": 2}
    off = sorted((row for row in rows if row.state != "within"), key=lambda row: (order[row.state], -abs(row.off) / row.tolerance))
    if not off:
        return f"All {len(rows)} readings lie within their limits." if len(rows) > 1 else f"The {rows[0].name} lies within its limits."
    told = ", ".join(f"{row.name} {row.words}" + ("" if row.state == "out" else " (doubtful)") for row in off[:most])
    more = f", and {len(off) - most} more" if len(off) > most else ""
    rest = len(rows) - len(off)
    return f"Off by: {told}{more}." + ("" if not rest else f" The other {rest} are within their limits." if rest > 1 else " The other one is within its limits.")
