"""What would free a part that cannot be made: a part shortened or spliced, by the plans' leave only.

Information, never advice: a part is shortened or spliced only where the kit's plans or their designer
allow it. A part that is marked one piece is never named for splicing.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 40), Stick("S-2", stock, "6061-T6", 25)])
>>> parts = [Part("A1", "Bar", stock, "6061-T6", 30, one_piece=True), Part("A2", "Bar", stock, "6061-T6", "25 1/2")]
>>> job = Job("Demo", Shop(), parts)
>>> for way in ways_out(job, rack, plan(job, rack)): print(way.sentence)
A2 could be made if A2 were 5/8 shorter, by the plans' leave.
A2 could be made if A1 were 5 1/8 shorter, by the plans' leave.
A2 could be made if A2 were spliced from pieces of 19 1/2 and 6, by the plans' leave.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice
from math import ceil

from anglelib.errors import LengthError, PlanError
from anglelib.job import Job
from anglelib.lengths import MM, inches
from anglelib.part import Part
from anglelib.stock.blank import Blank, blanks, made_of
from anglelib.stock.effort import Effort
from anglelib.stock.fit import alike
from anglelib.stock.plan import Plan
from anglelib.stock.possible import can_be_made
from anglelib.stock.rack import Rack
from anglelib.stock.room import rooms
from anglelib.stock.search import NO, UNKNOWN, YES

BUDGET = 10.0
STEPS = {"in": Fraction(1, 64), "mm": MM / 2}
"""The step in which a part of a job in this unit is shortened [in]."""
FEW = 3
"""How many ways of either kind are given for a short part, the least shortening first."""
MOST = Fraction(1, 4)
"""The largest share of its length by which a part is shortened: more is another part."""


SHORTER, SPLICED = "shorter", "spliced"


@dataclass(frozen=True)
class WayOut:
    """A change to one part with which a short part could be made in full, nothing else being given up.

    ``id`` is the kind of change, to the part ``changed``, with which the ``part`` that is short could be made: ``by`` is how much
    shorter each of its pieces would be [in], or ``pieces`` the finished lengths that one piece of it
    would be spliced from [in]. ``proven``: less shortening is proven not to be enough.
    """

    id: str
    part: Part
    changed: Part
    by: Fraction = Fraction(0)
    pieces: tuple[Fraction, ...] = ()
    proven: bool = False

    @property
    def short(self) -> str:
        """The part that cannot be made."""
        return self.part.id

    @property
    def part_id(self) -> str:
        """The part that is changed."""
        return self.changed.id

    @property
    def sentence(self) -> str:
        """The change in words."""
        from anglelib.stock.shortage_words import sentence

        return sentence(self)


def ways_out(
    job: Job,
    rack: Rack,
    plan: Plan,
    lap: object = 0,
    *,
    few: int = FEW,
    budget: float = BUDGET,
    seconds: float | None = None,
    stop: threading.Event | None = None,
) -> tuple[WayOut, ...]:
    """For each short part what would free it: first by the least shortening, then by a splice.

    ``lap`` is how much longer the two pieces of a splice are together than the part [in]; the metal of
    a splice plate is not counted. At most ``few`` ways of either kind are given for a part. That no splice is found does not mean that there is none.
    ``seconds`` and ``stop`` are those of :func:`~anglelib.stock.planner.plan`.
    """
    try:
        over = inches(lap, "lap of a splice")  # type: ignore[arg-type]
    except LengthError as error:
        raise PlanError(str(error)) from None
    effort = Effort(budget, seconds, stop)
    found: list[WayOut] = []
    for shortage in plan.shortages:
        search = _Search(job, rack, plan, shortage.part_id, shortage.missing, effort)
        found += sorted(search.shortened(), key=lambda way: (way.by, way.part_id != way.short, way.part_id))[:few]
        found += islice(search.spliced(over), few)
    return tuple(found)


class _Search:
    """The search for what frees one short part."""

    def __init__(self, job: Job, rack: Rack, plan: Plan, short: str, missing: int, effort: Effort):
        self.job, self.rack, self.plan, self.effort, self.step = job, rack, plan, effort, STEPS[job.unit]
        self.short = part = job.part(short)
        lying = made_of(blanks(job), [p.blank for s in plan.sticks for p in (*s.placed, *s.held)])
        made = {(b.part.id, b.number) for b in lying}
        mine = [b for b in blanks(job) if b.part.alloy == part.alloy and alike(b.part.section, part.section)]
        self.wanted = [b for b in mine if (b.part.id, b.number) in made or b.part.id == short]
        self.parts = list({b.part.id: b.part for b in self.wanted}.values())

    def _verdict(self, wanted: Sequence[Blank]) -> str:
        if self.effort.left <= 0 or self.effort.ended():
            return UNKNOWN
        self.effort.spent += 0.002
        return can_be_made(wanted, self.short.section, self.short.alloy, self.rack, self.job, self.effort)

    # --- shortened --------------------------------------------------------------------------------
    def shortened(self) -> Iterator[WayOut]:
        for part in self.parts:
            high = int(part.length * MOST // self.step)
            if high < 1 or self._shorter_by(part, high) != YES:
                continue
            low, sure = 0, True
            while high - low > 1:
                middle = (low + high) // 2
                verdict = self._shorter_by(part, middle)
                if verdict == YES:
                    high = middle
                else:
                    low, sure = middle, verdict == NO
            yield WayOut(SHORTER, self.short, part, by=high * self.step, proven=sure)

    def _shorter_by(self, part: Part, steps: int) -> str:
        return self._verdict([replace(b, length=b.length - steps * self.step) if b.part.id == part.id else b for b in self.wanted])

    # --- spliced ----------------------------------------------------------------------------------
    def spliced(self, lap: Fraction) -> Iterator[WayOut]:
        for part in self.parts:
            if part.one_piece or self.effort.ended():
                continue
            for first in self._joints(part, lap):
                pieces = (first, part.length + lap - first)
                if self._verdict(self._with_splice(part, pieces)) == YES:
                    yield WayOut(SPLICED, self.short, part, pieces=pieces)
                    break

    def _with_splice(self, part: Part, pieces: Sequence[Fraction]) -> list[Blank]:
        one = next(b for b in reversed(self.wanted) if b.part.id == part.id)  # the last of them: one that no stick is named for, if there is one
        rest = [b for b in self.wanted if b is not one]
        takes = self.job.shop.takes
        return [*rest, *(Blank(part, part.quantity + n, takes(length)) for n, length in enumerate(pieces, 1))]

    def _joints(self, part: Part, lap: Fraction) -> list[Fraction]:
        """Where a joint is tried: so that the longer piece fills what is left of a stick, and in the middle."""
        shop, whole, step = self.job.shop, part.length + lap, self.step
        least = max(shop.hand_minimum, step)
        costs = 2 * shop.allowance + shop.kerf
        tried = {ceil(whole / 2 / step) * step}
        for room in rooms(part.section, part.alloy, self.rack, self.plan, shop.kerf):
            for fill in (room.length - costs, room.length + self.short.length, room.length - costs - self.short.length):
                tried |= {fill // step * step, whole - fill // step * step}
        tried |= {least, whole - least}
        good = {max(t, whole - t) for t in tried if least <= t <= whole - least}
        return sorted(good, reverse=True)
