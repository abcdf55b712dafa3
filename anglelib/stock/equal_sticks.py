"""Equal sticks that one row of the rack file lists: six of 96 in. are one row, S-04 with the quantity 6.

Each of them has a name of its own all the same, because it is cut, tagged and recorded for itself: the row S-04 lists S-04.1 to S-04.6.
Once S-04.1 is cut it is a row of its own, that of its record, and S-04 has the quantity 5: those that are left are S-04.2 to S-04.6,
since a row gives the lowest numbers that no other row has. So no stick is counted twice, and one whose cut is undone finds its number free.

>>> names("S-04", 3, {"s-04.2"})
['S-04.1', 'S-04.3', 'S-04.4']
>>> runs(["S-04.1", "S-04.2", "S-04.3", "S-05", "S-04.7"])
['S-04.1 to S-04.3', 'S-04.7', 'S-05']
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from itertools import count, groupby
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from anglelib.stock.rack import Stick

MARK = "."
"""What stands between the row's name and the number of a stick."""


def names(row: str, quantity: int, taken: Collection[str]) -> list[str]:
    """The names of the sticks that a row lists: the lowest numbers that no other row has; ``taken`` are those, in small letters."""
    found: list[str] = []
    for number in count(1):
        if len(found) == quantity:
            return found
        name = f"{row}{MARK}{number}"
        if name.lower() not in taken:
            found.append(name)
    raise AssertionError(row)


def number_of(stick_id: str) -> int:
    """The number of a stick in its row; 0 where its name has none.

    >>> number_of("S-04.12"), number_of("S-04")
    (12, 0)
    """
    number = stick_id.rpartition(MARK)[2]
    return int(number) if MARK in stick_id and number.isascii() and number.isdigit() else 0


def row_of_equals(stick: Stick, *more: object) -> tuple | None:
    """What two sticks must share to be listed in one row; None for a stick with a row of its own. ``more`` is what else a row says."""
    if not stick.one_of:
        return None
    return (
        stick.one_of.lower(), stick.section, stick.alloy, stick.length, stick.trim_1, stick.trim_2, stick.dents, stick.far_end_good,
        stick.remnant, stick.hands_off, stick.note, stick.lot, *more,
    )  # fmt: skip


def in_rows(sticks: Iterable[Stick]) -> tuple[Stick, ...]:
    """The sticks in their order, but those of one row together, where the first of them lies, by their numbers."""
    sticks = tuple(sticks)
    if not any(getattr(stick, "one_of", "") for stick in sticks):
        return sticks
    rows: dict[object, list[Stick]] = {}
    for number, stick in enumerate(sticks):
        rows.setdefault(row_of_equals(stick) or number, []).append(stick)
    return tuple(stick for row in rows.values() for stick in sorted(row, key=lambda stick: number_of(stick.id)))


def runs(ids: Sequence[str]) -> list[str]:
    """Names with those of a row that follow one another said as "S-04.1 to S-04.3", rows together."""

    def row(stick_id: str) -> str:
        return stick_id.rpartition(MARK)[0] if number_of(stick_id) else stick_id

    found: list[str] = []
    places = {name: at for at, name in reversed([*enumerate(map(row, ids))])}
    ordered = sorted(ids, key=lambda name: (places[row(name)], number_of(name)))
    for _, group in groupby(enumerate(ordered), key=lambda pair: (row(pair[1]), number_of(pair[1]) - pair[0])):
        same = [name for _, name in group]
        found += [f"{same[0]} to {same[-1]}"] if len(same) > 2 else same
    return found
