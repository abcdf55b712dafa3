"""The checker: walks the saw along every stick of a plan and doubts everything the plan says.

It works from the rack, the job and the cuts alone, in exact arithmetic, and shares no code with the
planner: where a stick may be used, what a blank takes, what is left and what is in the hand are all
derived here a second time. Every plan must pass it before it is shown.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 28)])
>>> good = Rack([Stick("S-1", stock, "6061-T6", 30)])
>>> made = plan(job, good)
>>> faults(made, job, good)
()
>>> for fault in faults(made, job, Rack([Stick("S-1", stock, "6061-T6", 28)])): print(fault)
S-1: A1 ends at 28 1/16, and the stick can be used only from 0 to 28.
S-1: the cut at 28 1/16 runs out of the stick's usable length.
S-1: 1 7/8 is said to be left; walking the stick leaves 0.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from anglelib.errors import PlanError
from anglelib.job import Job
from anglelib.lengths import exact
from anglelib.part import Part
from anglelib.stock.rack import Rack, Stick

ZERO = Fraction(0)


def check(plan, job: Job, rack: Rack) -> None:
    """Raise :class:`~anglelib.errors.PlanError` with the first fault of a plan and how many there are."""
    found = faults(plan, job, rack)
    if found:
        more = f" ({len(found)} faults in all.)" if len(found) > 1 else ""
        raise PlanError(f"The plan does not hold: {found[0]}{more} Do not cut from it; plan again.")


def faults(plan, job: Job, rack: Rack) -> tuple[str, ...]:
    """Everything that is wrong with a plan, as sentences; none for a sound one."""
    found: list[str] = []
    made: Counter[str] = Counter()
    seen: set[tuple[str, int]] = set()
    used: set[str] = set()
    names = {stick.id.lower() for stick in rack.sticks}
    for group in plan.groups:
        left: list[Fraction] = []
        for planned in group.sticks:
            walk = _Walk(planned, job, rack)
            found += walk.faults
            left += walk.left
            if planned.stick.id in used:
                found.append(f"{planned.stick.id} is planned twice.")
            used.add(planned.stick.id)
            for placed in (*planned.placed, *planned.held):
                piece = (placed.blank.part.id, placed.blank.number)
                if piece in seen:
                    found.append(f"{planned.stick.id}: {placed.blank} is made twice.")
                seen.add(piece)
                made[placed.blank.part.id] += 1
            if planned.cuts or planned.placed:
                for remnant in planned.remnants:
                    if remnant.stick.id.lower() in names:
                        found.append(f"{planned.stick.id}: the name {remnant.stick.id} is taken.")
                    names.add(remnant.stick.id.lower())
        found += _graded(group, left, job)
    found += _counted(plan, job, made)
    return tuple(found)


def _graded(group, left: list[Fraction], job: Job) -> list[str]:
    """Whether what remains comes to the numbers that the plan claims."""
    shop = job.shop
    numbers = sorted((int(piece // shop.grain) if piece >= shop.usable_minimum else 0 for piece in left), reverse=True)
    if tuple(numbers) != tuple(group.left):
        return [f"{group.title}: {list(group.left)} is said to remain; walking the sticks leaves {numbers}."]
    return []


def _counted(plan, job: Job, made: Counter[str]) -> list[str]:
    missing = Counter()
    for group in plan.groups:
        for shortage in group.shortages:
            missing[shortage.part_id] += shortage.missing
    found = []
    for part in job.parts:
        if made[part.id] + missing[part.id] != part.quantity:
            found.append(
                f"{part.id} is wanted {part.quantity} times; {made[part.id]} are made or held and {missing[part.id]} said to be missing."
            )
    strangers = set(made) - {part.id for part in job.parts}
    return found + [f"{part_id} is made, and the job does not want it." for part_id in sorted(strangers)]


class _Walk:
    """The saw's walk along one stick; what it finds wrong, and what is left of each usable length."""

    def __init__(self, planned, job: Job, rack: Rack):
        self.planned, self.job, self.shop = planned, job, job.shop
        self.faults: list[str] = []
        self.left: list[Fraction] = []
        try:
            self.stick = rack.stick(planned.stick.id)
        except ValueError:
            self.say("is not on the rack.")
            return
        self.zones = zones(self.stick, self.shop.kerf)
        if planned.placed or planned.held or planned.cuts:
            self._check_stick()
        self._check_blanks()
        self._check_cuts()
        self._check_left()
        self._check_remnants()

    def say(self, what: str) -> None:
        self.faults.append(f"{self.planned.stick.id}{' ' if what.startswith('is ') else ': '}{what}")

    # --- may the stick serve -------------------------------------------------------------------
    def _check_stick(self) -> None:
        if self.stick.hands_off:
            self.say("it is marked hands-off.")
        if not self.stick.alloy:
            self.say("its alloy is not known.")
        for placed in (*self.planned.placed, *self.planned.held):
            part = self._part(placed.blank)
            if part is None:
                continue
            if part.alloy != self.stick.alloy:
                self.say(f"it is {self.stick.alloy}, and {part.id} wants {part.alloy}.")
            if self.stick.section not in (part.section, part.section.swapped()):
                self.say(f"it is {self.stick.section.size}, and {part.id} wants {part.section.size}, or other radii.")
            if part.only_stick not in ("", self.stick.id):
                self.say(f"{part.id} must come from {part.only_stick}.")

    def _part(self, blank) -> Part | None:
        found = next((part for part in self.job.parts if part.id == blank.part.id), None)
        if found is not None and found != blank.part:
            self.say(f"{blank} is not the part that the job describes.")
        return found

    # --- do the blanks lie in sound metal -------------------------------------------------------
    def _check_blanks(self) -> None:
        lying = sorted((*self.planned.placed, *self.planned.held), key=lambda p: p.start)
        held = list(self.planned.held)
        before = None
        for placed in lying:
            part = self._part(placed.blank)
            if part is None:
                continue
            if part.later != (placed in held):
                self.say(f"{placed.blank} is {'made later and must be held, not sawn' if part.later else 'held, and should be sawn'}.")
            need = part.length + 2 * self.shop.allowance + placed.surplus
            if placed.end - placed.start != need:
                self.say(f"{placed.blank} is {exact(placed.end - placed.start)} long; it takes {exact(need)}.")
            zone = self._zone(placed.start)
            if zone is None or placed.end > zone[1]:
                begin, end = zone or self.zones[-1] if self.zones else (ZERO, ZERO)
                self.say(f"{placed.blank} ends at {exact(placed.end)}, and the stick can be used only from {exact(begin)} to {exact(end)}.")
            if before is not None and placed.start < before.end + self.shop.kerf:
                self.say(f"there is no room for the blade between {before.blank} and {placed.blank}.")
            before = placed

    def _zone(self, x: Fraction) -> tuple[Fraction, Fraction] | None:
        return next(((a, b) for a, b in self.zones if a <= x < b), None)

    # --- can the cuts be made, in this order ------------------------------------------------------
    def _check_cuts(self) -> None:
        at = ZERO  # the near end of what is still in one piece
        square = self.stick.trim_1 == 0  # whether that end may be the end of a blank
        todo = {(p.blank.part.id, p.blank.number): p for p in self.planned.placed}
        for cut in self.planned.cuts:
            begin, end = (cut.x, cut.x + cut.kerf) if cut.blank is not None else (cut.x - cut.kerf, cut.x)
            if cut.line != cut.x - self.planned.datum:
                self.say(f"the line {exact(cut.line)} is not {exact(cut.x)} from end 1.")
            if begin < at:
                self.say(f"the cut at {exact(cut.x)} goes back over metal already cut away.")
            if cut.blank is not None:
                self._check_parting(cut, todo.pop((cut.blank.part.id, cut.blank.number), None), at, square, end)
            elif cut.x not in {a for a, _ in self.zones}:
                self.say(f"the cut at {exact(cut.x)} frees nothing.")
            hand = max(begin - at, self.stick.length - end)
            short = cut.blank is not None and cut.blank.part.length < self.shop.hand_minimum
            if cut.in_hand != hand or cut.clamp != (short or hand < self.shop.hand_minimum):
                self.say(f"the cut at {exact(cut.x)} leaves {exact(hand)} in the hand; the plan says {exact(cut.in_hand)}.")
            at, square = end, True
        for placed in todo.values():
            last = self.zones and placed.end == self.zones[-1][1]
            if not (last and self.stick.far_end_good and not placed.sawn and placed.start == at and square):
                self.say(f"no cut parts off {placed.blank}.")
        for placed in self.planned.held:
            if placed.start < at:
                self.say(f"{placed.blank} is held in metal that is cut away.") if not self._kept(placed) else None

    def _kept(self, placed) -> bool:
        return any(r.start <= placed.start and placed.end <= r.end for r in self.planned.remnants)

    def _check_parting(self, cut, placed, at: Fraction, square: bool, end: Fraction) -> None:
        if placed is None:
            self.say(f"the cut at {exact(cut.x)} parts off {cut.blank}, which is not placed there.")
            return
        if placed.end != cut.x:
            self.say(f"{placed.blank} ends at {exact(placed.end)}, and its cut is at {exact(cut.x)}.")
        if placed.start != at or not square:
            self.say(f"{placed.blank} begins at {exact(placed.start)}, where no square end is.")
        if cut.kerf != self.shop.kerf:
            self.say(f"the cut at {exact(cut.x)} takes {exact(cut.kerf)}; the blade takes {exact(self.shop.kerf)}.")
        zone = self._zone(placed.start)
        if zone is None or end > zone[1]:
            self.say(f"the cut at {exact(cut.x)} runs out of the stick's usable length.")
        # Only the order of work says which end is made first; what it may not be is said here.
        tapers, copes = ({feature.end for feature in features} for features in (cut.blank.part.tapers, cut.blank.part.copes))
        if cut.made_first != bool(tapers or copes) or (cut.made_first and cut.leading_end not in (tapers or copes)):
            self.say(f"{cut.blank} has its taper or cope cut too late, or at the wrong end.")
        if cut.made_first and cut.still_on != self.stick.length - placed.start:
            self.say(f"{cut.blank} is said to be worked on {exact(cut.still_on)} of stick.")

    # --- what is left -----------------------------------------------------------------------------
    def _check_left(self) -> None:
        for begin, end in self.zones:
            inside = [p for p in (*self.planned.placed, *self.planned.held) if begin <= p.start < end]
            reach = max((p.end + self.shop.kerf for p in inside), default=begin)
            self.left.append(max(ZERO, end - reach))
        self.left.sort(reverse=True)
        if list(self.planned.left) != self.left:
            said, walked = (" and ".join(exact(v) for v in vs) or "nothing" for vs in (self.planned.left, self.left))
            self.say(f"{said} is said to be left; walking the stick leaves {walked}.")

    def _check_remnants(self) -> None:
        gone = [(p.start, p.end) for p in self.planned.placed]
        gone += [(c.x, c.x + c.kerf) if c.blank is not None else (c.x - c.kerf, c.x) for c in self.planned.cuts]
        before = ZERO
        for remnant in sorted(self.planned.remnants, key=lambda r: r.start):
            begin, end, piece = remnant.start, remnant.end, remnant.stick
            if begin < before or end > self.stick.length or begin >= end:
                self.say(f"the remnant {piece.id} lies where there is no metal.")
            if any(a < end and b > begin for a, b in gone):
                self.say(f"the remnant {piece.id} is metal that the saw has used.")
            if piece.length != end - begin or (piece.section, piece.alloy) != (self.stick.section, self.stick.alloy):
                self.say(f"the remnant {piece.id} is listed as another piece than it is.")
            for a, b in zones(piece, self.shop.kerf):
                # a dent at the end of a remnant needs no room for the blade, hence the 0
                if not any(x <= begin + a and begin + b <= y for x, y in zones(self.stick, ZERO)):
                    self.say(f"the remnant {piece.id} is listed with sound metal where there is none.")
            before = end
        kept = [b - a for r in self.planned.remnants for a, b in zones(r.stick, self.shop.kerf)]
        for piece in self.left:
            if piece and piece >= self.shop.usable_minimum and not any(k >= piece for k in kept):
                self.say(f"{exact(piece)} is left, and no remnant keeps it.")


def zones(stick: Stick, kerf: Fraction) -> list[tuple[Fraction, Fraction]]:
    """Where a stick is sound, from and to along it from end 1: the bad stretches are struck out one by one."""
    bad = [(ZERO, stick.trim_1), (stick.length - stick.trim_2, stick.length)]
    reach = stick.trim_1
    for a, b in sorted(stick.dents):
        # the blade that opens the metal beyond a dent needs its width in the dent
        reach = max(reach, b, a + kerf if a > reach else b)
        bad.append((a, reach))
    sound = [(ZERO, stick.length)]
    for a, b in bad:
        rest = []
        for x, y in sound:
            rest += [(x, min(y, a)), (max(x, b), y)]
        sound = [(x, y) for x, y in rest if x < y]
    return sound
