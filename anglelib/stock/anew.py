"""Planning anew while a plan is in hand: what is started stays, the rest changes as little as it can, and each stick that changes is named.

A stick that is cut part-way keeps the pieces that still lie in its rest: they are planned as parts that only this rest may give, before
all others. Everything else is planned with the least change from the sheets in hand (:mod:`anglelib.stock.replan`).

>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.in_hand import in_hand
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A", "Bar", stock, "6061-T6", 10, quantity=4)])
>>> record = Record(Rack([Stick("S-1", stock, "6061-T6", 41), Stick("S-2", stock, "6061-T6", 96)]))
>>> hand = in_hand(plan(job, record.rack), job)
>>> record = record.marked(hand.mark("S-1", 1), job)
>>> more = replace(job, parts=(replace(job.parts[0], quantity=6),))
>>> now = plan_anew(hand, more, record)
>>> [(s.stick.id, len(s.placed)) for s in now.standing.printed.sticks], [(c.stick_id, c.was, c.now) for c in now.changes]
([('S-1-P1', 3), ('S-2', 2)], [('S-2', (), (('A', 2),))])
"""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.job import Job
from anglelib.part import Part
from anglelib.stock.blank import Blank
from anglelib.stock.in_hand import InHand, part_way, sheet_of, to_do
from anglelib.stock.part_way import left_after
from anglelib.stock.pins import barred, without
from anglelib.stock.plan import Placed, Plan, StickPlan
from anglelib.stock.planner import BUDGET
from anglelib.stock.progress import Lying
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record
from anglelib.stock.replan import replan
from anglelib.stock.standing import Standing, as_printed
from anglelib.stock.versions import part_version

FIRST = 1000
"""The claim of what is started: before all others."""


@dataclass(frozen=True)
class Change:
    """A stick from which something else comes than the sheet in hand says: how many of each part it gave, and gives.

    The two are the same where only the lines are others.
    """

    stick_id: str
    was: tuple[tuple[str, int], ...]
    now: tuple[tuple[str, int], ...]


@dataclass(frozen=True)
class Anew:
    """The plan for what is still wanted, and what it changes against the sheets in hand."""

    standing: Standing
    changes: tuple[Change, ...]


def plan_anew(
    hand: InHand,
    job: Job,
    record: Record,
    *,
    seconds: float | None = None,
    progress: Callable[[float, str], None] | None = None,
    stop: threading.Event | None = None,
) -> Anew | None:
    """The plan for what is not made yet of a job, after the plan in hand; None where everything is made.

    ``seconds``, ``progress`` and ``stop`` are those of :func:`~anglelib.stock.planner.plan`.
    """
    wanted = record.still_wanted(job)
    if wanted is None:
        return None
    lying = _lying(hand, record, wanted)
    pinned = _pinned(lying, wanted)
    asked = pinned.job
    old = _old_plan(hand, lying, pinned)
    rack = Rack(tuple(planned.stick for planned in old.sticks))
    if progress is not None:
        progress(0.0, "planning the rest with the least change")
    made = replan(asked, rack, old, job_now=lambda _: asked, rack_now=lambda _: record.rack, budget=BUDGET, seconds=seconds, stop=stop).plan
    made = pinned.back(made, wanted)
    done = {(p.blank.part.id, p.blank.number) for s in hand.sticks if s not in to_do(hand, record) for p in s.placed}
    printed = as_printed(job, wanted, _as_lies(hand, record), made, done)
    return Anew(Standing(wanted, record.rack, made, printed), changes(hand, record, printed))


# --- what lies where ---------------------------------------------------------------------------------------
def _lying(hand: InHand, record: Record, wanted: Job) -> dict[str, tuple[Stick, tuple[Lying, ...], bool]]:
    """For each stick that is not done the blanks that it still holds by the plan, where it is as it was: the stick as it is, and whether it is started."""
    here = {stick.id: stick for stick in record.rack.sticks}
    begun, found = part_way(hand, record), {}
    same = {part.id for part in wanted.parts if part_version(part) == hand.version(part.id)}
    for planned in to_do(hand, record):
        name = planned.stick.id
        if name in begun:
            for piece, lies in left_after(planned, begun[name]):
                rest = next((here[n] for n in record.children(name) if n in here and n not in found and here[n].length == piece.length), None)
                if rest is not None and lies:
                    found[rest.id] = (rest, tuple(one for one in lies if one.blank.part.id in same), True)
        elif name in here:
            lies = tuple(Lying(p.blank, p.start) for p in (*planned.placed, *planned.held))
            found[name] = (here[name], tuple(one for one in lies if one.blank.part.id in same), False)
    return found


class _Pinned:
    """The job with what is started as parts of their own, which only the started stick may give."""

    def __init__(self, wanted: Job) -> None:
        self.wanted, self.real = wanted, {}
        self.taken: dict[str, list[tuple[str, int]]] = {}
        self.job = wanted

    def pin(self, stick_id: str, part: Part, number: int) -> None:
        name = f"{part.id[:20]}.{len(self.real) + 1:03}"
        while any(other.id.lower() == name.lower() for other in self.wanted.parts):
            name += "x"
        self.real[name] = part.id
        self.taken.setdefault(stick_id, []).append((name, number))
        own = replace(part, id=name, quantity=number, only_stick=stick_id, pinned=(), not_from=(), claim=FIRST, mirror_of="", later=part.later)
        parts = [without(p, stick_id, number) if p.id == part.id and p.quantity > number else p for p in self.job.parts
                 if p.id != part.id or p.quantity > number]  # fmt: skip
        ids = {p.id for p in parts}
        parts = [replace(p, mirror_of="") if p.mirror_of and p.mirror_of not in ids else p for p in parts]
        self.job = replace(self.job, parts=(*parts, own))

    def back(self, made: Plan, wanted: Job) -> Plan:
        """The plan with the parts by their own ids again."""
        parts = {name: wanted.part(real) for name, real in self.real.items()}
        counts: Counter[str] = Counter()
        named: dict[tuple[str, int], Blank] = {}

        def blank(old: Blank) -> Blank:
            key = old.part.id, old.number
            if key not in named:
                part = parts.get(old.part.id) or wanted.part(old.part.id)
                counts[part.id] += 1
                named[key] = replace(old, part=part, number=counts[part.id], pin=old.pin or (old.part.only_stick if old.part.id in parts and part.pinned else ""))
            return named[key]

        return renamed(made, blank, self.real)


def renamed(made: Plan, blank: Callable[[Blank], Blank], real: dict[str, str]) -> Plan:
    """A plan with other blanks in the same places."""

    def stick(planned: StickPlan) -> StickPlan:
        return replace(
            planned,
            placed=tuple(replace(p, blank=blank(p.blank)) for p in planned.placed),
            held=tuple(replace(p, blank=blank(p.blank)) for p in planned.held),
            cuts=tuple(replace(cut, blank=blank(cut.blank)) if cut.blank is not None else cut for cut in planned.cuts),
            remnants=tuple(replace(r, holds=tuple(map(blank, r.holds))) for r in planned.remnants),
        )

    groups = [
        replace(
            group,
            sticks=tuple(map(stick, group.sticks)),
            shortages=tuple(replace(short, part_id=real.get(short.part_id, short.part_id)) for short in group.shortages),
        )
        for group in made.groups
    ]
    return replace(made, groups=tuple(groups))


def _pinned(lying: dict[str, tuple[Stick, tuple[Lying, ...], bool]], wanted: Job) -> _Pinned:
    found = _Pinned(wanted)
    left = {part.id: part.quantity for part in wanted.parts}
    for name, (stick, lies, started) in lying.items():
        for part_id, number in Counter(one.blank.part.id for one in lies).items() if started else ():
            number = min(number, left.get(part_id, 0))
            if number and not barred(wanted.part(part_id), stick):
                left[part_id] -= number
                found.pin(name, wanted.part(part_id), number)
    return found


def _old_plan(hand: InHand, lying: dict[str, tuple[Stick, tuple[Lying, ...], bool]], pinned: _Pinned) -> Plan:
    """What lies in the sticks as they are, as a plan from which little is to change."""
    parts = {part.id: part for part in pinned.job.parts}
    found: dict[str, StickPlan] = {}
    for name, (stick, lies, _) in lying.items():
        own = {pinned.real[pin]: [pin] * number for pin, number in pinned.taken.get(name, ())}
        placed = []
        for blank, start in lies:
            pins = own.get(blank.part.id, [])
            part = parts.get(pins.pop() if pins else blank.part.id)
            if part is not None:
                placed.append(Placed(replace(blank, part=part), start, start + blank.length, True))
        found[name] = StickPlan(stick, Fraction(0), (), tuple(placed), (), (), ())
    groups = []
    for group in hand.plan.groups:
        sticks = [s for s in found.values() if s.stick.alloy == group.alloy and s.stick.section in (group.section, group.section.swapped())]
        groups.append(replace(group, sticks=tuple(sticks), shortages=()))
    return replace(hand.plan, groups=tuple(groups))


def _as_lies(hand: InHand, record: Record) -> Plan:
    """The plan in hand without the sticks that are done or started: of those no sheet stays as it is."""
    kept = {s.stick.id for s in to_do(hand, record)} - set(part_way(hand, record))
    groups = [replace(group, sticks=tuple(s for s in group.sticks if s.stick.id in kept or not s.touched)) for group in hand.plan.groups]
    return replace(hand.plan, groups=tuple(groups))


# --- what changes ------------------------------------------------------------------------------------------
def changes(hand: InHand, record: Record, now: Plan) -> tuple[Change, ...]:
    """The sticks whose sheets are not any more what the sheets in hand say; one that is started counts by what is left in it."""
    here = {stick.id for stick in record.rack.sticks}
    old = {name: _given(lies) for name, (_, lies, _) in _all_lying(hand, record).items()}
    sheets = {s.stick.id: sheet_of(s) for s in _as_lies(hand, record).sticks}
    found = []
    for name in sorted(here & ({s.stick.id for s in now.sticks} | set(old))):
        planned = now.stick(name)
        new = tuple(sorted(Counter(p.blank.part.id for p in (*planned.placed, *planned.held)).items())) if planned is not None else ()
        was = old.get(name, ())
        if was != new or (name in sheets and planned is not None and sheet_of(planned)[1:] != sheets[name][1:] and _lines(sheets[name]) != _lines(sheet_of(planned))):
            found.append(Change(name, was, new))
    return tuple(found)


def _lines(sheet: tuple) -> tuple:
    """Of a sheet what is sawn where, whichever of equal pieces has which number."""
    cuts = [cut[:5] + ((cut[5][0], cut[5][2]) if cut[5] else ()) for cut in sheet[-3]]
    return tuple(cuts), tuple(left[1:] for left in sheet[-1])


def _given(lies: tuple[Lying, ...]) -> tuple[tuple[str, int], ...]:
    return tuple(sorted(Counter(one.blank.part.id for one in lies).items()))


def _all_lying(hand: InHand, record: Record) -> dict[str, tuple[Stick, tuple[Lying, ...], bool]]:
    """What lies where by the sheets in hand, revised parts too."""
    parts = {p.blank.part.id: p.blank.part for s in hand.sticks for p in (*s.placed, *s.held)}
    whole = Job(hand.job_name or "job", hand.shop, tuple(replace(part, mirror_of="") for part in parts.values())) if parts else None
    if whole is None:
        return {}
    return _lying(replace(hand, parts=tuple(replace(p, version=part_version(parts[p.id])) for p in hand.parts if p.id in parts)), record, whole)
