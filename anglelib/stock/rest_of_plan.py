"""What is left of the plan in hand as a plan of its own: the sheets that are not done, on the sticks as they lie now.

Nothing is searched: the blanks stay where the sheets have them, a stick that is cut part-way is its rest, and what is held for later is held.
So whatever is asked of a plan can be asked of what is still to be cut.

>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.stock.in_hand import in_hand
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.robust import robustness
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A", "Bar", stock, "6061-T6", 10, quantity=3)])
>>> record = Record(Rack([Stick("S-1", stock, "6061-T6", 31)]))
>>> hand = in_hand(plan(job, record.rack), job)
>>> record = record.marked(hand.mark("S-1", 2), job)
>>> rest = rest_of(hand, job, record)
>>> [(s.stick.id, len(s.placed)) for s in rest.plan.sticks], rest.job.pieces
([('S-1-P2', 1)], 1)
>>> print(robustness(rest.job, rest.rack, rest.plan).sentence)
A may not be spoiled: there is no metal for another. The plan holds with a blade of up to 11/16, and its stick may be 5/8 shorter than listed.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.job import Job
from anglelib.stock.in_hand import WELCOME, InHand, cut_by, differences, to_do
from anglelib.stock.part_way import spans_after, still_lying
from anglelib.stock.plan import Placed, Plan, Remnant, StickPlan
from anglelib.stock.progress import Span
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record


@dataclass(frozen=True)
class Rest:
    """What is still to be cut by the sheets in hand, or held: its pieces as a job, the rack as it is, and the sheets on it."""

    job: Job
    rack: Rack
    plan: Plan


def rest_of(hand: InHand, job: Job, record: Record) -> Rest | None:
    """What is left of a plan that holds; None where it does not hold any more, and where nothing is left to be cut."""
    if any(one.id not in WELCOME for one in differences(hand, job, record)):
        return None
    groups = [replace(group, sticks=tuple(_sticks(group.sticks, hand, record)), shortages=()) for group in hand.plan.groups]
    plan = replace(hand.plan, groups=tuple(groups))
    lying = Counter(p.blank.part.id for stick in plan.sticks for p in (*stick.placed, *stick.held))
    if not any(stick.placed for stick in plan.sticks):
        return None
    wanted = record.still_wanted(job)
    parts = {part.id: part for part in (*job.parts, *(wanted.parts if wanted is not None else ()))}
    left = [replace(parts[part.id], quantity=lying[part.id]) for part in job.parts if lying[part.id]]
    ids = {part.id for part in left}
    left = [replace(part, mirror_of=part.mirror_of if part.mirror_of in ids else "") for part in left]
    return Rest(replace(job, parts=tuple(left)), record.rack, plan)


def _sticks(planned: tuple[StickPlan, ...], hand: InHand, record: Record) -> list[StickPlan]:
    """The sheets of a section that are not done, and what is held in what they have left."""
    here = {stick.id: stick for stick in record.rack.sticks}
    waits = {stick.stick.id for stick in to_do(hand, record)}
    found = []
    for sheet in planned:
        name = sheet.stick.id
        old = cut_by(hand, record, name)
        if old is None:
            if name in here and (name in waits or not sheet.touched and sheet.held):
                found.append(replace(sheet, stick=here[name]))
            continue
        rows = old.rows
        if rows:
            found += [_moved(still_lying(sheet, rows), there, here[tag], hand.shop.kerf) for there, tag in record.waiting(sheet, old)]
        found += _held(sheet, [there for there in spans_after(sheet, rows) if there.lying and not there.waits], record)
    return found


def _moved(sheet: StickPlan, there: Span, stick: Stick, kerf: Fraction) -> StickPlan:
    """A sheet as it lies in a piece that was sawn off its stick: everything from the piece's end 1, lines from the datum ends that it has now."""
    begin, end = there.begin, there.end

    def inside(a: Fraction, b: Fraction) -> bool:
        return begin <= a and b <= end

    def placed(lying: tuple[Placed, ...]) -> tuple[Placed, ...]:
        return tuple(replace(p, start=p.start - begin, end=p.end - begin) for p in lying if inside(p.start, p.end))

    datum = max(sheet.datum - begin, Fraction(0))
    far = min(sheet.turned_datum, end) - begin if sheet.turned_datum is not None else stick.length
    remnants = [replace(r, start=r.start - begin, end=r.end - begin) for r in sheet.remnants if inside(r.start, r.end)]
    cuts = [
        replace(cut, x=cut.x - begin, line=far - (cut.x - begin) if cut.turned else cut.x - begin - datum) for cut in sheet.cuts if inside(*cut.dust)
    ]
    lying, held = placed(sheet.placed), placed(sheet.held)
    turned = any(one.turned for one in (*cuts, *lying))
    left = [
        max(Fraction(0), i.length - sum(p.blank.length + kerf for p in (*lying, *held) if i.start <= p.start < i.end)) for i in stick.intervals(kerf)
    ]
    return StickPlan(stick, datum, tuple(cuts), lying, held, tuple(remnants), tuple(sorted(left, reverse=True)), far if turned else None)


def _held(sheet: StickPlan, kept: list[Span], record: Record) -> list[StickPlan]:
    """What a sheet that is done has left with something held in it, where it lies as it was left."""
    children, found = record.children(sheet.stick.id), []
    for there in kept:
        stick = next((s for s in record.rack.sticks if s.id in children and s.length == there.stick.length and s.dents == there.stick.dents), None)
        if stick is not None:
            held = tuple(Placed(blank, start, start + blank.length, True) for blank, start in there.lying)
            whole = Remnant(stick, Fraction(0), stick.length, tuple(p.blank for p in held))
            found.append(StickPlan(stick, Fraction(0), (), (), held, (whole,), ()))
    return found
