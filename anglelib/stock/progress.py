"""Where the builder stands: which cuts of a plan are done, what the rack is now, what is still to make.

A stick that is partly sawn keeps its id while cuts of the plan are left on it; what fell off beside
its blanks, and what is left after its last cut, has the names that the plan gives. So the rack after
every cut is the rack that the plan promised.

>>> from anglelib.lengths import exact
>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.stock.planner import plan
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 40)])
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 10, quantity=3)])
>>> made = plan(job, rack)
>>> first = Progress({"S-1": 1})
>>> [(s.id, exact(s.length), s.remnant) for s in rack_after_cuts(made, rack, first).sticks]
[('S-1', '29 7/8', True)]
>>> [(part.id, part.quantity) for part in job_left(job, made, first).parts]
[('A1', 2)]
>>> [(part.id, part.quantity) for part in job_left(job, made, first.spoil("A1")).parts]
[('A1', 3)]
>>> rack_after_cuts(made, rack, Progress({"S-1": 4}))
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: The plan has 3 cuts on S-1, and 4 are said to be done: count them again.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from anglelib.errors import PlanError
from anglelib.job import Job
from anglelib.lengths import about
from anglelib.near import did_you_mean
from anglelib.part import Part
from anglelib.stock.blank import Blank
from anglelib.stock.cutting import remnant_name
from anglelib.stock.pins import with_less
from anglelib.stock.plan import Plan, StickPlan
from anglelib.stock.rack import Rack, Stick


class Lying(NamedTuple):
    """A blank that is not sawn yet, and where it begins in its piece, from the piece's end 1 [in]."""

    blank: Blank
    start: Fraction


class Span(NamedTuple):
    """A piece of a stick as it is now, the blanks that lie in it, from where to where along the stick it lay [in from its end 1].

    ``waits``: cuts of the plan are still to be made in it.
    """

    stick: Stick
    lying: tuple[Lying, ...]
    begin: Fraction
    end: Fraction
    waits: bool = False


@dataclass(frozen=True)
class Progress:
    """Which cuts of a plan are done: for each stick how many, in their order; and what was spoiled.

    ``done`` has (stick id, number of cuts done), given as such pairs or as a mapping. A stick that
    serves without a cut is done when it is named, with 0. ``spoiled`` names the part of each piece
    that was sawn and cannot be used: it is still to make.
    """

    done: tuple[tuple[str, int], ...] = ()
    spoiled: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        pairs = self.done.items() if isinstance(self.done, Mapping) else self.done
        counted: dict[str, int] = {}
        for stick_id, number in pairs:
            if isinstance(number, bool) or not isinstance(number, int) or number < 0:
                raise PlanError(f"The number of cuts done on {stick_id} is {number!r}: write 0 or more.")
            if stick_id in counted:
                raise PlanError(f"{stick_id} has two numbers of cuts done: keep one.")
            counted[stick_id] = number
        object.__setattr__(self, "done", tuple(sorted(counted.items())))
        object.__setattr__(self, "spoiled", tuple(sorted(self.spoiled)))

    def of(self, stick_id: str) -> int:
        """How many cuts are done on a stick."""
        return dict(self.done).get(stick_id, 0)

    def names(self, stick_id: str) -> bool:
        """Whether anything is said of a stick."""
        return stick_id in dict(self.done)

    def mark(self, stick_id: str, number: int) -> Progress:
        """The same with so many cuts done on one stick."""
        return replace(self, done=tuple({**dict(self.done), stick_id: number}.items()))

    def spoil(self, part_id: str) -> Progress:
        """The same with one more piece of a part spoiled."""
        return replace(self, spoiled=(*self.spoiled, part_id))


def all_cuts(plan: Plan) -> Progress:
    """The progress of a plan whose every cut is done."""
    return Progress(tuple((s.stick.id, len(s.cuts)) for s in plan.sticks if s.touched))


def check_progress(plan: Plan, done: Progress) -> None:
    """Raise :class:`~anglelib.errors.PlanError` where more is said to be done than the plan has."""
    for stick_id, number in done.done:
        planned = plan.stick(stick_id)
        have = len(planned.cuts) if planned is not None else 0
        if planned is None:
            meant = did_you_mean(stick_id, [stick.stick.id for stick in plan.sticks])
            raise PlanError(f'The plan has no stick "{stick_id}": {meant or "mark the cuts of a stick that it names."}')
        if number > have:
            cuts = f"{have or 'no'} cut{'' if have == 1 else 's'}"
            raise PlanError(f"The plan has {cuts} on {stick_id}, and {number} are said to be done: count them again.")
    sawn = Counter(blank.part.id for blank in blanks_sawn(plan, done))
    for part_id, number in Counter(done.spoiled).items():
        if number > sawn[part_id]:
            raise PlanError(f"{number} of {part_id} are said to be spoiled, and {sawn[part_id] or 'none'} of it is sawn: mark its cut first.")


def blanks_sawn(plan: Plan, done: Progress) -> tuple[Blank, ...]:
    """The blanks that have been parted off, the spoiled ones among them."""
    return tuple(placed.blank for planned in plan.sticks for placed in _split(planned, done)[0])


def rack_after_cuts(plan: Plan, rack: Rack, done: Progress) -> Rack:
    """The rack as it now stands, some of the plan's cuts being done."""
    check_progress(plan, done)
    pieces = {s.stick.id: pieces_at(s, done) for s in plan.sticks}
    for stick_id in pieces:
        rack.stick(stick_id)
    return Rack(tuple(new for stick in rack.sticks for new, _ in pieces.get(stick.id, [(stick, ())])))


def planned_from(plan: Plan, done: Progress) -> dict[str, tuple[Lying, ...]]:
    """For each piece on the rack as it now stands, by id, the blanks that the plan has still in it."""
    check_progress(plan, done)
    return {piece.id: lying for planned in plan.sticks for piece, lying in pieces_at(planned, done)}


def job_left(job: Job, plan: Plan, done: Progress) -> Job | None:
    """The parts still to make, spoiled ones again; None where none is left.

    A part that is named for a stick is named for the piece of it that the plan keeps for it, or else
    for the longest. A partner that is all made is no longer named.
    """
    check_progress(plan, done)
    made = Counter(blank.part.id for blank in blanks_sawn(plan, done))
    made.subtract(done.spoiled)
    known = {part.id for part in job.parts}
    strange = sorted({p.blank.part.id for s in plan.sticks for p in (*s.placed, *s.held)} - known)
    if strange:
        raise PlanError(f"The plan makes {strange[0]}, which is not in this job: take the job that was planned.")
    given = Counter((placed.blank.part.id, planned.stick.id) for planned in plan.sticks for placed in _split(planned, done)[0])
    spoiled = Counter(done.spoiled)
    left = [_less(p, p.quantity - made[p.id], given, spoiled[p.id], plan, done) for p in job.parts if p.quantity > made[p.id]]
    if not left:
        return None
    ids = {part.id for part in left}
    return replace(job, parts=tuple(replace(p, mirror_of="") if p.mirror_of and p.mirror_of not in ids else p for p in left))


def _less(part: Part, quantity: int, given: Counter[tuple[str, str]], spoiled: int, plan: Plan, done: Progress) -> Part:
    """The part of which so many are still to make; a spoiled piece is taken for one of a stick that is to give some, where there is one."""
    if not (part.only_stick or part.pinned or part.not_from):
        return part if quantity == part.quantity else replace(part, quantity=quantity)  # nothing of it is done: nothing to be proven anew
    good = {}
    for pin in part.pinned:
        lost = min(spoiled, given[part.id, pin.stick])
        spoiled -= lost
        good[pin.stick] = given[part.id, pin.stick] - lost
    return with_less(part, quantity, good, lambda stick_id: _pin(part, stick_id, plan, done), lambda stick_id: _left_of(stick_id, plan, done))


def _left_of(name: str, plan: Plan, done: Progress) -> list[str]:
    begun = [planned for planned in plan.sticks if name in (planned.stick.id, planned.stick.one_of) and _begun(planned, done)]
    return [piece.id for planned in begun for piece, _ in pieces_at(planned, done)]


def _pin(part: Part, stick_id: str, plan: Plan, done: Progress) -> str:
    planned = plan.stick(stick_id) if stick_id else None
    if planned is None or not _begun(planned, done):
        return stick_id
    pieces = pieces_at(planned, done)
    holding = [piece for piece, lying in pieces if any(each.blank.part.id == part.id for each in lying)]
    longest = sorted((piece for piece, _ in pieces), key=lambda piece: (-max((i.length for i in piece.intervals()), default=0), piece.id))
    return next((piece.id for piece in (*holding, *longest)), stick_id)


# --- one stick ------------------------------------------------------------------------------------
def _begun(planned: StickPlan, done: Progress) -> bool:
    return done.of(planned.stick.id) > 0 or (not planned.cuts and bool(planned.placed) and done.names(planned.stick.id))


def _finished(planned: StickPlan, done: Progress) -> bool:
    return _begun(planned, done) and done.of(planned.stick.id) == len(planned.cuts)


def _split(planned: StickPlan, done: Progress):
    """The blanks of a stick that are parted off, and those that are not yet."""
    if _finished(planned, done):
        return planned.placed, ()
    off = {(cut.blank.part.id, cut.blank.number) for cut in planned.cuts[: done.of(planned.stick.id)] if cut.blank is not None}
    sawn = tuple(p for p in planned.placed if (p.blank.part.id, p.blank.number) in off)
    return sawn, tuple(p for p in planned.placed if (p.blank.part.id, p.blank.number) not in off)


def pieces_at(planned: StickPlan, done: Progress) -> list[tuple[Stick, tuple[Lying, ...]]]:
    """What there is of a stick now, and the blanks that the plan has still in each piece."""
    return [(there.stick, there.lying) for there in spans_at(planned, done)]


def spans_at(planned: StickPlan, done: Progress) -> list[Span]:
    """What there is of a stick now, from its end 1 on, and where in the stick each piece lay."""
    stick = planned.stick
    if not _begun(planned, done):
        lying = tuple(Lying(p.blank, p.start) for p in (*planned.placed, *planned.held))
        return [Span(stick, lying, Fraction(0), stick.length, planned.touched)]
    starts = {(p.blank.part.id, p.blank.number): p.start for p in planned.held}
    kept = [(r, tuple(Lying(b, starts[b.part.id, b.number] - r.start) for b in r.holds)) for r in planned.remnants]
    if _finished(planned, done):
        return [Span(r.stick, lying, r.start, r.end) for r, lying in kept]
    number = done.of(stick.id)
    whole = [(Fraction(0), stick.length)]
    for cut in planned.cuts[:number]:
        whole = [piece for old in whole for piece in _parted(old, cut.dust)]
    off, waiting = _split(planned, done)
    gone = {(placed.start, placed.end) for placed in off}
    coming = [cut.dust for cut in planned.cuts[number:]]
    names = {remnant.stick.id.lower() for remnant in planned.remnants}
    found: list[Span] = []
    sawn_on = False
    for begin, end in whole:
        if (begin, end) in gone:
            continue
        if not any(begin <= a and b <= end for a, b in coming):
            found += [Span(r.stick, lying, r.start, r.end) for r, lying in kept if begin <= r.start and r.end <= end]
            continue
        lying = [p for p in (*waiting, *planned.held) if begin <= p.start and p.end <= end]
        held = [f"holds {about(p.blank.length)} for {p.blank.part.id}" for p in lying if p.blank.held]
        rest = rest_of(stick, begin, end, "; ".join([*filter(None, [stick.note]), *held])[:400])
        rest = replace(rest, id=remnant_name(stick.id, names)) if sawn_on else rest  # one piece keeps the stick's id
        sawn_on = True
        found.append(Span(rest, tuple(Lying(p.blank, p.start - begin) for p in lying), begin, end, True))
    return found


def _parted(piece: tuple[Fraction, Fraction], dust: tuple[Fraction, Fraction]) -> list[tuple[Fraction, Fraction]]:
    """A piece once a blade has gone through it; as it is where the blade does not reach it."""
    if not (piece[0] <= dust[0] and dust[1] <= piece[1]):
        return [piece]
    return [(a, b) for a, b in ((piece[0], dust[0]), (dust[1], piece[1])) if a < b]


def rest_of(stick: Stick, begin: Fraction, end: Fraction, note: str) -> Stick:
    """What is left of a stick from one place to another [in from its end 1], where the rest is sawn off."""
    return replace(
        stick,
        length=end - begin,
        trim_1=max(Fraction(0), stick.trim_1 - begin),
        trim_2=max(Fraction(0), stick.trim_2 - (stick.length - end)),
        dents=tuple((max(a, begin) - begin, min(b, end) - begin) for a, b in stick.dents if b > begin and a < end),
        far_end_good=stick.far_end_good or end < stick.length,
        remnant=True,
        note=note,
        one_of="",
    )
