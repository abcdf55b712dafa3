"""How robust a plan is: how thick a blade and how short a stick it bears, and which part may not be spoiled.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.stock.planner import plan
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 72), Stick("S-2", stock, "6061-T6", 30)])
>>> parts = [Part("A1", "Spar", stock, "6061-T6", 66), Part("A2", "Bar", stock, "6061-T6", 12, quantity=2)]
>>> job = Job("Demo", Shop(), parts)
>>> found = robustness(job, rack, plan(job, rack))
>>> for bears in found.sticks: print(bears.sentence)
S-2 may be 5 3/4 shorter than listed, and serves with every blade that there is.
S-1 may be 5 7/8 shorter than listed, and serves with every blade that there is.
>>> print(found.sentence)
A1 and A2 may not be spoiled: there is no metal for another. The plan holds with every blade that there is; every stick may be 5 3/4 shorter than listed, and S-2 no more than that.
"""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.stock.blank import Blank, blanks, made_of
from anglelib.stock.effort import Effort
from anglelib.stock.fit import alike
from anglelib.stock.pins import may_come_from
from anglelib.stock.plan import Placed, Plan, StickPlan
from anglelib.stock.possible import OVERHEAD, can_be_made
from anglelib.stock.progress import Progress, job_left, rack_after_cuts
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.room import Rooms, contents
from anglelib.stock.search import NO, UNKNOWN, YES

BUDGET = 5.0
LEFT, AGAIN, NOT, OPEN = "left", "again", "not", "open"
"""How a spoiled piece of a part can be replaced: from what is left, if it is planned again at once, not, not known."""


@dataclass(frozen=True)
class StickBears:
    """What one stick of a plan bears before a blank is lost; all [in].

    ``kerf`` is the thickest blade with which its blanks still come from it as planned, None where any
    does; ``short`` how much shorter than listed it may turn out.
    """

    stick: Stick
    kerf: Fraction | None
    short: Fraction

    @property
    def sentence(self) -> str:
        """In words."""
        from anglelib.stock.robust_words import stick

        return stick(self)


@dataclass(frozen=True)
class PartBears:
    """Whether one spoiled piece of a part can be replaced, and how (an id of this module)."""

    part: Part
    replaced: str

    @property
    def sentence(self) -> str:
        """In words."""
        from anglelib.stock.robust_words import part

        return part(self)


@dataclass(frozen=True)
class Robustness:
    """What a plan bears: stick by stick, the least first, and part by part, those that may not be spoiled first.

    ``kerf`` and ``short`` are the least of all sticks [in]; None where nothing is sawn.
    """

    sticks: tuple[StickBears, ...]
    parts: tuple[PartBears, ...]
    kerf: Fraction | None
    short: Fraction | None

    @property
    def not_spoiled(self) -> tuple[str, ...]:
        """The parts that may not be spoiled."""
        return tuple(bears.part.id for bears in self.parts if bears.replaced in (NOT, OPEN))

    @property
    def sentence(self) -> str:
        """In words: which part may not be spoiled, then the blade and the tape."""
        from anglelib.stock.robust_words import sentence

        return sentence(self)


def robustness(
    job: Job, rack: Rack, plan: Plan, *, budget: float = BUDGET, seconds: float | None = None, stop: threading.Event | None = None
) -> Robustness:
    """How robust a plan is, before anything is sawn; what is held counts as a blank.

    ``seconds`` and ``stop`` are those of :func:`~anglelib.stock.planner.plan`: which part may be spoiled is open where it is not looked at by then.
    """
    sticks = tuple(stick_bears(rack.stick(s.stick.id), plan, job.shop) for s in plan.sticks)
    effort, left = Effort(budget, seconds, stop), Rooms(rack, plan, job.shop.kerf)
    order = {NOT: 0, OPEN: 1, AGAIN: 2, LEFT: 3}
    sawn = {p.blank.part.id for s in plan.sticks for p in s.placed}
    parts = [PartBears(part, replacement(part, job, rack, plan, left, effort)) for part in job.parts if part.id in sawn]
    return Robustness(
        tuple(sorted(sticks, key=lambda bears: (bears.kerf is None, bears.kerf or 0, bears.short, bears.stick.id))),
        tuple(sorted(parts, key=lambda bears: (order[bears.replaced], -bears.part.length, bears.part.id))),
        min((bears.kerf for bears in sticks if bears.kerf is not None), default=None),
        min((bears.short for bears in sticks), default=None),
    )


# --- a stick --------------------------------------------------------------------------------------
def stick_bears(stick: Stick, plan: Plan, shop: Shop) -> StickBears:
    """What one stick bears."""
    return StickBears(stick, _thickest(stick, plan, shop), _shortest(stick, plan, shop))


def _needs(lying: Iterable[Placed], kerf: Fraction, spare: bool) -> Fraction:
    """What some blanks and their cuts take, from the near end of their interval on."""
    lengths = [placed.blank.length for placed in lying]
    return sum(lengths, Fraction(0)) + (len(lengths) - (1 if spare else 0)) * kerf


def _shortest(stick: Stick, plan: Plan, shop: Shop) -> Fraction:
    """How much shorter a stick may be: its last blank must still end before the trim at end 2."""
    spare = stick.square_2 or stick.trim_2 > 0
    reach = [interval.start + _needs(lying, shop.kerf, spare) for interval, lying in contents(stick, plan, shop.kerf) if lying]
    return stick.length - stick.trim_2 - max(reach, default=stick.trim_1)


def _thickest(stick: Stick, plan: Plan, shop: Shop) -> Fraction | None:
    """The thickest blade with which every blank still comes from its usable length.

    What is left over is linear in the kerf but where a thicker blade outgrows a dent; between such
    kerfs it is followed along a straight line.
    """
    planned = [(interval.end, lying) for interval, lying in contents(stick, plan, shop.kerf) if lying]
    edges = [x for dent in stick.dents for x in dent] + [stick.length - stick.trim_2]
    turns = sorted({shop.kerf, *(x - begin for begin, _ in stick.dents for x in edges if x - begin > shop.kerf)})
    limits = [limit for end, lying in planned if (limit := _limit(stick, end, lying, turns)) is not None]
    return min(limits, default=None)


def _limit(stick: Stick, end: Fraction, lying: tuple[Placed, ...], turns: list[Fraction]) -> Fraction | None:
    def spare(kerf: Fraction) -> Fraction:
        interval = next((i for i in stick.intervals(kerf) if i.end == end), None)
        if interval is None:
            return Fraction(-1)
        return interval.length - _needs(lying, kerf, interval.unsawn or interval.spare)

    for n, begin in enumerate(turns):
        stop = turns[n + 1] if n + 1 < len(turns) else None
        one = begin + ((stop - begin) / 3 if stop is not None else 1)
        two = begin + ((stop - begin) * 2 / 3 if stop is not None else 2)
        a, b = spare(one), spare(two)
        slope = (b - a) / (two - one)
        if spare(begin) < 0:
            return begin
        if slope < 0:
            root = one - a / slope
            if stop is None or root < stop:
                return max(begin, root)
        elif a < 0:
            return begin
    return None


# --- a part ---------------------------------------------------------------------------------------
def replacement(part: Part, job: Job, rack: Rack, plan: Plan, left: Rooms, effort: Effort) -> str:
    """How one spoiled piece of a part can be replaced, wherever in the plan it is sawn.

    At the worst it is noticed when all is sawn; at the best at its cut, before anything is sawn of
    the other sticks, and the rest is planned again.
    """
    if effort.ended():
        return OPEN
    blank = job.shop.takes(part.length)
    able = left.of(part.section, part.alloy)
    rooms = [room.stick for room in able if room.holds(blank, job.shop.kerf)]
    if all(any(stick.id == pin if pin else may_come_from(part, stick) for stick in rooms) for pin in _sources(part, plan)):
        return LEFT
    worst = AGAIN
    for planned in plan.sticks:
        at = _last_cut(planned, part)
        if at is None:
            continue
        done = Progress({planned.stick.id: at}).spoil(part.id)
        verdict = _can_go_on(part, job, rack, plan, done, effort)
        if verdict == NO:
            return NOT
        if verdict != YES:
            worst = OPEN
    return worst


def _sources(part: Part, plan: Plan) -> set[str]:
    """Where another piece must come from for each that is spoiled: from a stick that is to give no fewer; "" where any may give it."""
    wanted = {pin.stick: pin.quantity for pin in part.pinned}
    given = Counter(s.stick.id for s in plan.sticks for p in s.placed if p.blank.part.id == part.id)
    return {stick_id if 0 < given[stick_id] <= wanted.get(stick_id, 0) else "" for stick_id in given} or {""}


def _last_cut(planned: StickPlan, part: Part) -> int | None:
    """How many cuts of a stick are done when its last piece of a part is parted off; None where it has none."""
    if not any(placed.blank.part.id == part.id for placed in planned.placed):
        return None
    if any(placed.blank.part.id == part.id and not placed.sawn for placed in planned.placed):
        return len(planned.cuts)
    return max(n for n, cut in enumerate(planned.cuts, 1) if cut.blank is not None and cut.blank.part.id == part.id)


def _can_go_on(part: Part, job: Job, rack: Rack, plan: Plan, done: Progress, effort: Effort) -> str:
    """Whether everything that the plan still makes, and the spoiled piece again, can be made."""
    if effort.over(OVERHEAD * job.pieces):
        return UNKNOWN
    left, now = job_left(job, plan, done), rack_after_cuts(plan, rack, done)
    missing = {shortage.part_id: shortage.missing for shortage in plan.shortages}
    wanted = [b for b in blanks(left) if b.part.alloy == part.alloy and alike(b.part.section, part.section)]
    wanted = _less(wanted, missing, job, plan)
    return can_be_made(wanted, part.section, part.alloy, now, job, effort)


def _less(wanted: Sequence[Blank], missing: Mapping[str, int], job: Job, plan: Plan) -> list[Blank]:
    """The blanks that are still to make without those that the plan never made, of each part the last ones; of pinned pieces those that were."""
    whole = blanks(job)
    lying = Counter((b.part.id, b.number) for b in made_of(whole, [p.blank for s in plan.sticks for p in (*s.placed, *s.held)]))
    lacking = Counter((b.part.id, b.pin != "") for b in whole if b.part.id in missing and not lying[b.part.id, b.number])
    found = []
    for blank in reversed(wanted):
        if lacking[blank.part.id, blank.pin != ""] > 0:
            lacking[blank.part.id, blank.pin != ""] -= 1
        else:
            found.append(blank)
    return found[::-1]
