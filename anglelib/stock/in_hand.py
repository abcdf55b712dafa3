"""The plan in hand: the plan that was printed, as a thing of its own, from which cuts are marked.

It is not computed again: whoever has sawn what a sheet shows has those pieces, whatever has become of the job, the rack or the blade
since. Its ``number`` is computed from what it says and stands on every sheet. Whatever differs between it and the files as they are now
is data (:class:`Difference`), said in :mod:`anglelib.stock.in_hand_words`.

>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 10, quantity=3)])
>>> record = Record(Rack([Stick("S-1", stock, "6061-T6", 40)]))
>>> hand = in_hand(plan(job, record.rack), job)
>>> hand.number == in_hand(plan(job, record.rack), replace(job, name="Another")).number, differences(hand, job, record)
(False, ())
>>> now = record.marked(hand.mark("S-1", 2), job)
>>> print(now.cut[0])
S-1, 40: cut for Demo: 2 x A1 at 10 1/16, rows 1 to 2 of plan QYTPN2
>>> [difference.id for difference in differences(hand, replace(job, shop=Shop(kerf="1/8")), now)]
['rule']
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace

from anglelib.errors import RackError
from anglelib.job import Job, Shop
from anglelib.stock.part_way import finished, rows_of
from anglelib.stock.pieces import Mark, pieces_of
from anglelib.stock.plan import Plan, StickPlan
from anglelib.stock.record import CutStick, Record
from anglelib.stock.sawn import changes
from anglelib.stock.versions import part_version, short, written

OTHER_JOB, RULE, REVISED, PART_GONE, PART_NEW, QUANTITY = "other-job", "rule", "revised", "part-gone", "part-new", "quantity"
STICK, STICK_GONE, STICK_NEW, OTHERWISE, HELD = "stick", "stick-gone", "stick-new", "otherwise", "held"
BLADE = ("kerf", "allowance", "throat", "hacksaw_allowance", "hacksaw_kerf")
"""The rules of the shop by which every piece and what is left of its stick are sawn."""
WELCOME = (STICK_NEW,)
"""What is merely more than the plan knew: the plan holds."""


@dataclass(frozen=True)
class PlannedPart:
    """A part as the plan had it: its version, and how many were asked for in all; ``held_for`` which other job it was only held."""

    id: str
    name: str
    version: str
    quantity: int
    held_for: str = ""


@dataclass(frozen=True)
class Difference:
    """One thing in which job or rack differ from the plan in hand: what it is about, and what it was and is, as their files would say it."""

    id: str
    about: str = ""
    was: str = ""
    now: str = ""
    said: tuple[str, ...] = ()


@dataclass(frozen=True)
class InHand:
    """A plan with what it was made from. ``plan`` has the sticks as they were; the numbers of its pieces count the whole job.

    ``within`` is the clock that ended the search [s], as text ("": none); ``earlier`` the numbers of plans before it with the sticks whose
    sheets are still the same; ``printed`` is the day on which it went onto paper ("": not yet), ``made_on`` that of the plan; ``rack`` the
    name of its rack file, from the folder of the plan file ("": not kept).
    """

    plan: Plan
    job_name: str
    job_id: str
    parts: tuple[PlannedPart, ...]
    unit: str = "in"
    within: str = ""
    made_on: str = ""
    printed: str = ""
    earlier: tuple[tuple[str, tuple[str, ...]], ...] = ()
    rack: str = ""
    number: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "number", short(written(_content(self))))

    @property
    def shop(self) -> Shop:
        """How the shop cut when it was made."""
        return self.plan.shop

    @property
    def sticks(self) -> tuple[StickPlan, ...]:
        """The sticks that it cuts."""
        return tuple(stick for stick in self.plan.sticks if stick.touched)

    def stick(self, stick_id: str) -> StickPlan | None:
        """A stick that it cuts; None where it cuts nothing from it."""
        return next((stick for stick in self.sticks if stick.stick.id == stick_id), None)

    @property
    def picked(self) -> tuple[int, ...]:
        """The sections, by their numbers from 1 on, of which the runner-up was picked."""
        return tuple(n for n, group in enumerate(self.plan.groups, 1) if group.picked is not None)

    @property
    def title(self) -> str:
        """Its number as it stands on every sheet, with the sections whose runner-up was picked."""
        from anglelib.stock.runner_up_words import on_sheets

        return on_sheets(self.number, self.picked, len(self.plan.groups))

    def version(self, part_id: str) -> str:
        """The version of a part when it was planned."""
        return next((part.version for part in self.parts if part.id == part_id), "")

    def mark(self, stick_id: str, rows: int = 0) -> Mark:
        """The mark of a stick that is cut as its sheet says, to a row of it (0: all of it)."""
        planned = self.stick(stick_id)
        assert planned is not None, stick_id
        if rows >= len(planned.cuts):
            rows = 0
        pieces = tuple(replace(piece, version=self.version(piece.part_id)) for piece in pieces_of(planned, rows))
        return Mark(stick_id, pieces, planned, self.number, rows)

    def shows(self, number: str, stick_id: str) -> bool:
        """Whether a sheet with this number says of a stick what this plan says."""
        return number == self.number or stick_id in dict(self.earlier).get(number, ())


def in_hand(plan: Plan, job: Job, within: float | None = None, made_on: str = "", before: InHand | None = None) -> InHand:
    """The plan in hand from a plan, as it is printed, of a whole job; ``before`` is the one that it takes the place of."""
    parts = tuple(PlannedPart(part.id, part.name, part_version(part), part.quantity, _held_for(part.id, job)) for part in job.parts)
    clock = f"{within:g} s" if within is not None else ""
    new = InHand(plan, job.name, job.id, parts, job.unit, clock, made_on)
    if before is None or before.number == new.number:
        return replace(new, printed=before.printed, earlier=before.earlier) if before is not None else new
    same = frozenset(stick.stick.id for stick in new.sticks if (old := before.stick(stick.stick.id)) is not None and sheet_of(old) == sheet_of(stick))
    kept = [(before.number, tuple(sorted(same)))]
    kept += [(number, tuple(name for name in sticks if name in same)) for number, sticks in before.earlier]
    return replace(new, earlier=tuple((number, sticks) for number, sticks in kept if sticks))


def sheet_of(planned: StickPlan) -> tuple:
    """What the sheet of a stick says: its cuts, what they free, what is held, what goes back."""
    rough = [("rough", c.back) if c.rough else (c.back,) if c.back else () for c in planned.cuts]  # nothing where no saw is known: such plans keep their numbers
    cuts = [(c.kind, c.line, c.x, c.kerf, c.turned, _blank(c.blank), *more) for c, more in zip(planned.cuts, rough, strict=True)]
    placed = [(_blank(p.blank), p.start, p.end, p.sawn, p.turned) for p in (*planned.placed, *planned.held)]
    left = [(r.stick.id, r.start, r.end) for r in planned.remnants]
    stick = planned.stick
    return (stick.id, stick.section, stick.alloy, stick.length, stick.trim_1, stick.trim_2, stick.dents, cuts, placed, left)


def _blank(blank) -> tuple | None:
    return (blank.part.id, blank.number, blank.length) if blank is not None else None


def _content(hand: InHand) -> list:
    """Everything that the number stands for: not when it was made, and not what it took the place of."""
    groups = []
    for group in hand.plan.groups:
        proofs = [(proof.level, proof.id, proof.proven) for proof in group.proofs]
        short_ = [(shortage.part_id, shortage.missing) for shortage in group.shortages]
        said = (group.section, group.alloy, [sheet_of(stick) for stick in group.sticks], proofs, short_)
        groups.append((*said, group.picked) if group.picked is not None else said)
    return [hand.job_name, hand.job_id, hand.shop, hand.within, hand.plan.interrupted, sorted(map(written, hand.parts)), groups]


# --- what has become of it -----------------------------------------------------------------------------------
def cut_by(hand: InHand, record: Record, stick_id: str) -> CutStick | None:
    """The cut of a stick, whole or part-way, that was marked from this plan (or from an earlier one whose sheet is the same)."""
    return next((old for old in record.cut if old.stick.id == stick_id and old.plan and hand.shows(old.plan, stick_id)), None)


def part_way(hand: InHand, record: Record) -> dict[str, int]:
    """The sticks that are cut part-way, with the last row that is done."""
    return {s.stick.id: old.rows for s in hand.sticks if (old := cut_by(hand, record, s.stick.id)) is not None and old.rows}


def to_do(hand: InHand, record: Record) -> tuple[StickPlan, ...]:
    """The sticks whose sheets are not done, as the sheets have them."""
    return tuple(s for s in hand.sticks if (old := cut_by(hand, record, s.stick.id)) is None and not _is_cut(record, s.stick.id) or (old and old.rows))


def _is_cut(record: Record, stick_id: str) -> bool:
    return any(old.stick.id == stick_id for old in record.cut)


def marked_from(hand: InHand, record: Record) -> bool:
    """Whether any cut was marked from it."""
    return any(cut_by(hand, record, stick.stick.id) is not None for stick in hand.sticks)


def makes_what_is_wanted(hand: InHand, job: Job, record: Record) -> bool:
    """Whether it makes, or is short of, the pieces that are still wanted, neither more nor fewer of any part; those held for other jobs are theirs."""
    wanted, planned, others = record.still_wanted(job), Counter[str](), {part.id for part in hand.parts if part.held_for}
    for stick in hand.plan.sticks:
        planned.update(placed.blank.part.id for placed in (*stick.placed, *stick.held))
    for shortage in hand.plan.shortages:
        planned[shortage.part_id] += shortage.missing
    own = Counter({part_id: number for part_id, number in planned.items() if part_id not in others})
    return own == Counter({part.id: part.quantity for part in wanted.parts if job.held_for(part.id) is None} if wanted is not None else {})


def differences(hand: InHand, job: Job, record: Record) -> tuple[Difference, ...]:
    """Everything in which the job and the rack, as they are now, differ from what the plan was made of, without what was cut by it."""
    return (*job_differences(hand, job), *rack_differences(hand, record))


def job_differences(hand: InHand, job: Job) -> tuple[Difference, ...]:
    """In what the job differs."""
    found = []
    same = hand.job_id == job.id if hand.job_id and job.id else hand.job_name == job.name
    if not same:
        found.append(Difference(OTHER_JOB, job.name, hand.job_name, job.name))
    for name in ("kerf", "allowance", "hand_minimum", "usable_minimum", "grain"):
        was, now = getattr(hand.shop, name), getattr(job.shop, name)
        if was != now:
            found.append(Difference(RULE, name, str(was), str(now)))
    if hand.shop.saw is None or job.shop.saw is None:
        if hand.shop.saw is not job.shop.saw:
            was, now = (str(shop.saw.throat) if shop.saw is not None else "" for shop in (hand.shop, job.shop))
            found.append(Difference(RULE, "throat", was, now))
    else:
        pairs = ((name, getattr(hand.shop.saw, name), getattr(job.shop.saw, name)) for name in ("throat", "hacksaw_allowance", "hacksaw_kerf"))
        found += [Difference(RULE, name, str(was), str(now)) for name, was, now in pairs if was != now]
    found += _held_differences(hand, job)
    now_parts = {part.id: part for part in job.parts if job.held_for(part.id) is None}
    for part in hand.parts:
        if part.held_for:
            continue
        now = now_parts.pop(part.id, None)
        if now is None:
            found.append(Difference(PART_GONE, part.id))
        elif part_version(now) != part.version:
            found.append(Difference(REVISED, part.id, part.version, part_version(now)))
        elif now.quantity != part.quantity:
            found.append(Difference(QUANTITY, part.id, str(part.quantity), str(now.quantity)))
    return (*found, *(Difference(PART_NEW, name) for name in now_parts))


def _held_for(part_id: str, job: Job) -> str:
    member = job.held_for(part_id)
    return f"{member.label} ({member.name})" if member is not None else ""


def _held_differences(hand: InHand, job: Job) -> list[Difference]:
    """The other jobs whose parts are held otherwise than in the plan, or not at all."""
    was: dict[str, set] = {}
    now: dict[str, set] = {}
    for part in hand.parts:
        was.setdefault(part.held_for, set()).add((part.id, part.version, part.quantity))
    for part in job.parts:
        now.setdefault(_held_for(part.id, job), set()).add((part.id, part_version(part), part.quantity))
    names = [name for name in dict.fromkeys([*was, *now]) if name and was.get(name) != now.get(name)]
    return [Difference(HELD, name, "held" if name in was else "", "held" if name in now else "") for name in names]


def rack_differences(hand: InHand, record: Record) -> tuple[Difference, ...]:
    """In what the rack differs: sticks of the plan that were cut otherwise, are gone, or measure otherwise; and new ones that could serve."""
    found = []
    here = {stick.id: stick for stick in record.rack.sticks}
    cut = {old.stick.id for old in record.cut}
    for planned in (stick for group in hand.plan.groups for stick in group.sticks):
        name, needed = planned.stick.id, planned.touched or bool(planned.held)
        if cut_by(hand, record, name) is not None:
            begun = part_way(hand, record).get(name)
            if begun and not _rest_is_there(planned, record):
                found.append(Difference(OTHERWISE, name))
        elif name in cut:
            found += [Difference(OTHERWISE, name, now=_other_job(hand, record.cut_stick(name)))] if needed else []
        elif name not in here:
            found += [Difference(STICK_GONE, name)] if needed else []
        elif needed and (said := changes(planned.stick, here[name])):
            found.append(Difference(STICK, name, said=tuple(said)))
    known = {stick.stick.id for group in hand.plan.groups for stick in group.sticks}
    kinds = {(group.section, group.alloy) for group in hand.plan.groups}
    remnants = dict(record.origins)
    for stick in record.rack.sticks:
        if stick.id not in known and stick.id not in remnants and not stick.hands_off:
            if any(stick.section in (section, section.swapped()) and stick.alloy == alloy for section, alloy in kinds):
                found.append(Difference(STICK_NEW, stick.id))
    return tuple(found)


def _other_job(hand: InHand, old: CutStick) -> str:
    """The name of the other job that a stick was cut for; "" where it was this one, or none."""
    ours = old.job_id == hand.job_id if old.job_id and hand.job_id else old.job == hand.job_name
    return "" if ours else old.job


def _rest_is_there(planned: StickPlan, record: Record) -> bool:
    try:
        return bool(record.waiting(planned, record.cut_stick(planned.stick.id)))
    except RackError:
        return False


def against(found: tuple[Difference, ...], planned: StickPlan) -> tuple[Difference, ...]:
    """The differences that speak against a mark of one stick from the plan."""
    parts = {placed.blank.part.id for placed in planned.placed}
    return tuple(
        d for d in found
        if d.id == OTHER_JOB or d.id == RULE and d.about in BLADE or d.id in (REVISED, PART_GONE) and d.about in parts or d.id in (STICK, STICK_GONE) and d.about == planned.stick.id
    )  # fmt: skip


__all__ = ["InHand", "PlannedPart", "against", "cut_by", "differences", "finished", "in_hand", "makes_what_is_wanted", "marked_from", "part_way", "rows_of", "to_do"]
