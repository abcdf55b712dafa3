"""The room that a plan leaves: the usable lengths beyond what is sawn and held.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> room = Room(Stick("S-1", stock, "6061-T6", 40), Fraction(21), spare=False)
>>> room.holds(Fraction(10), Fraction(1, 2)), Room(room.stick, Fraction(21), True).holds(Fraction(7), Fraction(1, 8))
(2, 2)
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.section import Section
from anglelib.stock.plan import Placed, Plan
from anglelib.stock.problem import usable
from anglelib.stock.progress import all_cuts, planned_from
from anglelib.stock.rack import Interval, Rack, Stick


@dataclass(frozen=True)
class Room:
    """What is left of one usable length of a stick: its ``length`` [in] beyond the blanks and their cuts.

    ``stick`` is the stick as the plan found it. ``spare``: the last blank needs no room for
    its cut, because it ends unsawn, or is parted off in metal that is lost in any case.
    """

    stick: Stick
    length: Fraction
    spare: bool

    def holds(self, blank: Fraction, kerf: Fraction) -> int:
        """How many blanks of one length it still gives."""
        return int((self.length + (kerf if self.spare else 0)) // (blank + kerf))


def rooms(section: Section, alloy: str, rack: Rack, plan: Plan, kerf: Fraction) -> tuple[Room, ...]:
    """The room that a plan leaves in every stick that may serve a section and alloy, once its every cut is done.

    What the plan does not keep, because it is below the usable minimum, is no room.
    """
    lying = planned_from(plan, all_cuts(plan))
    found = []
    for stick in usable(rack, section, alloy):
        planned = plan.stick(stick.id)
        for piece in [r.stick for r in planned.remnants] if planned is not None and planned.touched else [stick]:
            for interval in piece.intervals(kerf):
                held = [each.blank.length + kerf for each in lying.get(piece.id, ()) if interval.start <= each.start < interval.end]
                rest = interval.length - sum(held, Fraction(0))
                if rest > 0:
                    found.append(Room(stick, rest, interval.unsawn or interval.spare))
    return tuple(found)


class Rooms:
    """The rooms that a plan leaves, of each section and alloy asked for: reckoned once."""

    def __init__(self, rack: Rack, plan: Plan, kerf: Fraction):
        self._rack, self._plan, self._kerf = rack, plan, kerf
        self._found: dict[tuple[Section, str], tuple[Room, ...]] = {}

    def of(self, section: Section, alloy: str) -> tuple[Room, ...]:
        """The rooms of one section and alloy."""
        if (section, alloy) not in self._found:
            self._found[section, alloy] = rooms(section, alloy, self._rack, self._plan, self._kerf)
        return self._found[section, alloy]


def contents(stick: Stick, plan: Plan, kerf: Fraction) -> tuple[tuple[Interval, tuple[Placed, ...]], ...]:
    """The usable lengths of a stick, each with the blanks that a plan saws from it or holds in it."""
    planned = plan.stick(stick.id)
    lying = (*planned.placed, *planned.held) if planned is not None else ()
    return tuple((i, tuple(p for p in lying if i.start <= p.start < i.end)) for i in stick.intervals(kerf))
