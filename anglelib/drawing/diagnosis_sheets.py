"""The sheets of lesson 10: the made part over the wanted one with its readings, and the causes by probability.

>>> from anglelib.inspection.by_amount import by_amount, one_way
>>> from anglelib.job import Shop
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> made = by_amount(one_way("M01", cleat, Shop()), 1)
>>> sheet = made_sheet(made, (Row("toe.A", "toe A length", 0.8125, 0.875, 0.859, 0.891, 0.005),), "M01 cut on the keep side of the line")
>>> print(sheet.sentence)
Cleat as made, over the wanted outline, dotted. M01 cut on the keep side of the line. Off by: toe A length -0.063.
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.deviations import STEP, Row, deviation_rows, rows_sentence
from anglelib.drawing.letters import text_width
from anglelib.drawing.made_view import Laid, made_over_wanted
from anglelib.drawing.sheet import Group, Item, Label, Line, Sheet, polygon
from anglelib.inspection.diagnosis import GOOD, Cause, Diagnosis
from anglelib.inspection.made import Made
from anglelib.inspection.mistakes import MISTAKES

WIDTH = 200.0
LEFT, RIGHT = 26.0, 192.0
VIEW = 88.0
"""Room for both legs [mm]."""
LETTER = 3.5


def made_sheet(
    made: Made, rows: Sequence[Row], told: str = "", *, few: bool = False, names: bool = True, wanted_only: bool = False, note: str = ""
) -> Sheet:
    """The made part over the wanted one, and under it how far each reading is off; ``told`` names the slip.

    ``wanted_only`` where nothing but these readings is known yet.
    """
    deep = STEP * len(rows) + 7 if rows else 0.0
    low = 5 + deep
    laid = Laid.fit(made.wanted, RIGHT - LEFT, VIEW, LEFT, low + 4)
    height = laid.top + (10 if told else 4)
    items: list[Item] = list(made_over_wanted(made, laid, names=names, wanted_only=wanted_only))
    if rows:
        items += deviation_rows(rows, 4, WIDTH - 4, low - 1, few=few)
    if not few:
        items.append(Label(RIGHT, (laid.face("A").heel + laid.face("B").heel) / 2, "dotted: as wanted", 2.5, "end", "middle"))
    if told:
        items.append(Label(LEFT, height - 3, told, 3.5 if text_width(told, 5.0) > WIDTH - LEFT - 6 or few else 5.0, "start", "top", accent=True))
    said = rows_sentence(rows) if rows else ""
    first = f"The wanted outline of {made.wanted.name}, dotted." if wanted_only else f"{made.wanted.name} as made, over the wanted outline, dotted."
    words = " ".join(filter(None, (first, f"{told}." if told else "", said, note)))
    return Sheet(WIDTH, height, tuple(items), "Made over wanted", words)


# --- causes -------------------------------------------------------------------------------------------------
def cause_name(cause: Cause) -> str:
    """A class of causes in a line: the likeliest by name, the others that cannot be parted from it by number.

    >>> cause_name(Cause(("good", "M24"), 0.9, ""))
    'a good part; or M24'
    """
    return _with_others(cause, len(_others(cause)))


def _others(cause: Cause) -> tuple[str, ...]:
    """The causes that cannot be parted from the likeliest."""
    return (*cause.ids[1:], *cause.second[1:])


def _with_others(cause: Cause, many: int) -> str:
    """The likeliest by name, with so many of the others by number; below 0 the likeliest by number, too."""
    name, others = _name if many >= 0 else _number, _others(cause)
    first = name(cause.ids[0]) + (f", and {name(cause.second[0])}" if cause.second else "")
    if not others:
        return first
    if many <= 0:
        return f"{first} or others"
    told = ", ".join(map(_number, others[:many]))
    return f"{first}; or {told}" + (" and more" if many < len(others) else "")


def _fitting(cause: Cause, wide: float, most: int) -> str:
    """The same with as many of the others as find room, at most so many."""
    ways = (_with_others(cause, many) for many in range(min(most, len(_others(cause))), -1, -1))
    return next((way for way in ways if text_width(way, LETTER) <= wide), _with_others(cause, -1))


def _name(id_: str) -> str:
    return _number(id_) if id_ == GOOD else f"{id_} {MISTAKES[id_].name}"


def _number(id_: str) -> str:
    return "a good part" if id_ == GOOD else id_


def causes_group(found: Diagnosis, left: float, right: float, top: float, *, few: bool = False) -> Group:
    """The three likeliest causes as rules of their probability, from ``top`` down, 15 mm each."""
    items: list[Item] = []
    wide = right - left - 24
    for number, cause in enumerate(found.leaders):
        y = top - 15 * number
        name = _fitting(cause, right - left, 0 if few else len(_others(cause)))
        items.append(Label(left, y, name, LETTER, "start", "top"))
        low = y - LETTER - 5.5
        items.append(polygon([(left, low), (left + wide, low), (left + wide, low + 3.2), (left, low + 3.2)], "dimension"))
        share = max(0.4, wide * cause.probability)
        items.append(polygon([(left, low + 0.1), (left + share, low), (left + share, low + 3.1), (left, low + 3.2)], "", "ink"))
        items.append(Label(right, low + 1.6, _share(cause.probability), LETTER, "end", "middle"))
    return tuple(items)


def _share(probability: float) -> str:
    """A probability as a person reads it: never quite nothing, never sure.

    >>> _share(0.9996), _share(0.61), _share(0.002)
    ('> 99 %', '61 %', '< 1 %')
    """
    percent = round(100 * probability)
    return "> 99 %" if percent > 99 else "< 1 %" if percent < 1 else f"{percent} %"


def causes_sheet(found: Diagnosis, rows: Sequence[Row], title: str, *, few: bool = False, ask_next: bool = True, next_name: str = "") -> Sheet:
    """The readings that were taken, and what they point to; ``ask_next`` says which reading would tell most now, by ``next_name``."""
    next_name = next_name or found.next_reading
    deep = STEP * len(rows) + 7
    causes = 15.0 * len(found.leaders)
    height = deep + causes + 24
    items: list[Item] = [*causes_group(found, 8, WIDTH - 8, 12 + causes, few=few)]
    items += deviation_rows(rows, 4, WIDTH - 4, height - 6, few=few, named=1)
    items.append(Line(8, 17 + causes, WIDTH - 8, 17 + causes, "dimension"))
    if not few and ask_next:
        next_ = f"the next best reading: {next_name}" if next_name else "no other reading parts the leaders"
        items.append(Label(8, 5, next_, LETTER, "start", "bottom", accent=bool(next_name)))
    told = "; ".join(f"{cause_name(cause)}, {_share(cause.probability)}" for cause in found.leaders)
    more = f" The next best reading is the {next_name}." if found.next_reading and ask_next else ""
    return Sheet(WIDTH, height, tuple(items), title, f"{len(rows)} reading{'s' if len(rows) > 1 else ''}. {rows_sentence(rows, 3)} Likeliest: {told}.{more}")
