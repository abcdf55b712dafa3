"""The checker: walks the saw along every stick of a plan and doubts everything the plan says.

It works from the rack, the job and the cuts alone, in exact arithmetic, and shares no code with the
planner: where a stick may be used, what a blank takes, what is left, what is in the hand and how the legs lie are
all derived here a second time. Every plan must pass it before it is shown.

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
>>> for fault in faults(made, job, Rack([Stick("S-1", stock, "6061-T6", 28)])): print(fault.id, "|", fault.sentence)
out-of-zone | S-1: A1 ends at 28 1/16, and the stick can be used only from 0 to 28.
cut-out-of-zone | S-1: the cut at 28 1/16 runs out of the stick's usable length.
left | S-1: 1 7/8 is said to be left; walking the stick leaves 0.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import PlanError
from anglelib.job import Job
from anglelib.part import Part
from anglelib.stock.rack import Rack, Stick

ZERO = Fraction(0)
NO_STICK, PLANNED_TWICE, HANDS_OFF, NO_ALLOY, ALLOY, SECTION, OTHER_STICK, BARRED = (
    "no-stick", "planned-twice", "hands-off", "no-alloy", "alloy", "section", "other-stick", "barred",
)  # fmt: skip
OTHER_PART, MADE_TWICE, HELD_SAWN, SAWN_HELD, LENGTH, OUT_OF_ZONE, NO_ROOM = (
    "other-part", "made-twice", "held-sawn", "sawn-held", "length", "out-of-zone", "no-room",
)  # fmt: skip
LINE, CUT_TWICE, FREES_NOTHING, IN_HAND, NOT_PARTED, HELD_CUT, NOT_PLACED, OFF_ITS_CUT = (
    "line", "cut-twice", "frees-nothing", "in-hand", "not-parted", "held-cut", "not-placed", "off-its-cut",
)  # fmt: skip
NOT_SQUARE, KERF, CUT_OUT_OF_ZONE, MADE_LATE, STILL_ON, WRONG_WAY, DATUM = (
    "not-square", "kerf", "cut-out-of-zone", "made-late", "still-on", "wrong-way", "datum",
)  # fmt: skip
WAS_LEFT, REMNANT_NAME, REMNANT_PLACE, REMNANT_USED, REMNANT_OTHER, REMNANT_SOUND, NOT_KEPT = (
    "left", "remnant-name", "remnant-place", "remnant-used", "remnant-other", "remnant-sound", "not-kept",
)  # fmt: skip
REMAINS, COUNT, STRANGER, ELSEWHERE = "remains", "count", "stranger", "elsewhere"
NOT_ROUGH, NO_WANDER, STRUCK = "not-rough", "no-wander", "struck"


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong with a plan: its id, the stick, the blank or remnant or part, lengths or numbers that are said and found."""

    id: str
    stick: str = ""
    what: str = ""
    said: object = None
    found: object = None

    @property
    def sentence(self) -> str:
        """The fault in words."""
        from anglelib.stock.checker_words import sentence

        return sentence(self)


def check(plan, job: Job, rack: Rack) -> None:
    """Raise :class:`~anglelib.errors.PlanError` with the first fault of a plan and how many there are."""
    found = faults(plan, job, rack)
    if found:
        more = f" ({len(found)} faults in all.)" if len(found) > 1 else ""
        raise PlanError(f"The plan does not hold: {found[0].sentence}{more} Do not cut from it; plan again.")


def faults(plan, job: Job, rack: Rack) -> tuple[Fault, ...]:
    """Everything that is wrong with a plan; none for a sound one."""
    found: list[Fault] = []
    made: Counter[str] = Counter()
    seen: set[tuple[str, int]] = set()
    used: set[str] = set()
    names = {stick.id.lower() for stick in rack.sticks}
    for group in plan.groups:
        left: list[Fraction] = []
        for planned in group.sticks:
            stick_id = planned.stick.id
            walk = _Walk(planned, job, rack)
            found += walk.faults
            left += walk.left
            if stick_id in used:
                found.append(Fault(PLANNED_TWICE, stick_id))
            used.add(stick_id)
            for placed in (*planned.placed, *planned.held):
                piece = (placed.blank.part.id, placed.blank.number)
                if piece in seen:
                    found.append(Fault(MADE_TWICE, stick_id, str(placed.blank)))
                seen.add(piece)
                made[placed.blank.part.id] += 1
            if planned.cuts or planned.placed:
                for remnant in planned.remnants:
                    if remnant.stick.id.lower() in names:
                        found.append(Fault(REMNANT_NAME, stick_id, remnant.stick.id))
                    names.add(remnant.stick.id.lower())
        found += _graded(group, left, job)
    found += _counted(plan, job, made)
    found += _elsewhere(plan, job)
    return tuple(found)


def _graded(group, left: list[Fraction], job: Job) -> list[Fault]:
    """Whether what remains comes to the numbers that the plan claims."""
    shop = job.shop
    numbers = sorted((int(piece // shop.grain) if piece >= shop.usable_minimum else 0 for piece in left), reverse=True)
    return [Fault(REMAINS, what=group.title, said=tuple(group.left), found=tuple(numbers))] if tuple(numbers) != tuple(group.left) else []


def _elsewhere(plan, job: Job) -> list[Fault]:
    """Whether more pieces come from other sticks than those that no stick is named for: beyond its own number a stick gives of these too."""
    found = []
    for part in job.parts:
        if part.pinned:
            free = part.quantity - sum(pin.quantity for pin in part.pinned)
            for group in plan.groups:
                for planned in group.sticks:
                    given = sum(p.blank.part.id == part.id for p in (*planned.placed, *planned.held))
                    free -= max(0, given - sum(pin.quantity for pin in part.pinned if pin.stick == planned.stick.id))
            if free < 0:
                found.append(Fault(ELSEWHERE, what=part.id, said=-free, found=tuple((pin.quantity, pin.stick) for pin in part.pinned)))
    return found


def _counted(plan, job: Job, made: Counter[str]) -> list[Fault]:
    missing = Counter()
    for group in plan.groups:
        for shortage in group.shortages:
            missing[shortage.part_id] += shortage.missing
    found = [
        Fault(COUNT, what=part.id, said=part.quantity, found=(made[part.id], missing[part.id]))
        for part in job.parts
        if made[part.id] + missing[part.id] != part.quantity
    ]
    strangers = set(made) - {part.id for part in job.parts}
    return found + [Fault(STRANGER, what=part_id) for part_id in sorted(strangers)]


@dataclass
class _Solid:
    """A piece of the stick that is still whole: from and to along it from end 1, and whether its ends may end a blank."""

    begin: Fraction
    end: Fraction
    square_1: bool
    square_2: bool


class _Walk:
    """The saw's walk along one stick; what it finds wrong, and what is left of each usable length."""

    def __init__(self, planned, job: Job, rack: Rack):
        self.planned, self.job, self.shop = planned, job, job.shop
        self.faults: list[Fault] = []
        self.left: list[Fraction] = []
        try:
            self.stick = rack.stick(planned.stick.id)
        except ValueError:
            self.say(NO_STICK)
            return
        self.zones = zones(self.stick, self.shop.kerf)
        if planned.placed or planned.held or planned.cuts:
            self._check_stick()
        self._check_blanks()
        self._check_cuts()
        self._check_left()
        self._check_remnants()

    def say(self, id_: str, what: object = "", said: object = None, found: object = None) -> None:
        self.faults.append(Fault(id_, self.planned.stick.id, str(what), said, found))

    # --- may the stick serve -------------------------------------------------------------------
    def _check_stick(self) -> None:
        if self.stick.hands_off:
            self.say(HANDS_OFF)
        if not self.stick.alloy:
            self.say(NO_ALLOY)
        for placed in (*self.planned.placed, *self.planned.held):
            part = self._part(placed.blank)
            if part is None:
                continue
            if part.alloy != self.stick.alloy:
                self.say(ALLOY, part.id, self.stick.alloy, part.alloy)
            if self.stick.section not in (part.section, part.section.swapped()):
                self.say(SECTION, part.id, self.stick.section, part.section)
            if part.only_stick not in ("", self.stick.id):
                self.say(OTHER_STICK, part.id, found=part.only_stick)
            if {self.stick.id, self.stick.one_of or self.stick.id} & set(part.not_from):
                self.say(BARRED, part.id)

    def _part(self, blank) -> Part | None:
        found = next((part for part in self.job.parts if part.id == blank.part.id), None)
        if found is not None and found != blank.part:
            self.say(OTHER_PART, blank)
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
                self.say(HELD_SAWN if part.later else SAWN_HELD, placed.blank)
            need = part.length + 2 * self.shop.allowance + placed.surplus + self._room(placed)
            if placed.end - placed.start != need:
                self.say(LENGTH, placed.blank, placed.end - placed.start, need)
            zone = self._zone(placed.start)
            if zone is None or placed.end > zone[1]:
                begin, end = zone or self.zones[-1] if self.zones else (ZERO, ZERO)
                self.say(OUT_OF_ZONE, placed.blank, placed.end, (begin, end))
            if before is not None and placed.start < before.end + self.shop.kerf:
                self.say(NO_ROOM, placed.blank, found=str(before.blank))
            self._check_way(placed, part)
            before = placed

    def _room(self, placed) -> Fraction:
        """The room beside a blank that a hacksaw needs: it wanders on both sides of its kerf; none where its plan needs none."""
        if self.shop.saw is None or not placed.blank.rough or placed.blank.part.length + 2 * self.shop.allowance <= self.shop.saw.throat:
            return ZERO
        return self._wander()

    def _wander(self) -> Fraction:
        """How much wider the strip of a rough cut is than the saw's, the allowances on its both sides with it."""
        saw, shop = self.shop.saw, self.shop
        rough, sawn = (2 * left + kerf for left, kerf in ((max(saw.hacksaw_allowance, shop.allowance), max(saw.hacksaw_kerf, shop.kerf)), (shop.allowance, shop.kerf)))
        return rough - sawn

    def _check_rough(self, cut, placed, begin: Fraction, end: Fraction, piece: _Solid) -> None:
        """Whether a cut passes the column, is else a rough one with room to wander, and where its line is struck."""
        saw, shop = self.shop.saw, self.shop
        back = ZERO
        if saw is not None:
            room = self._room(placed) if placed is not None else ZERO
            near, far = begin - piece.begin, piece.end - end
            # the saw would run along the blank's side of the room
            beside = (near + room, far - room) if cut.turned else (near - room, far + room)
            rough = all(side > saw.throat for side in beside)
            if cut.rough != rough:
                self.say(NOT_ROUGH, cut.blank or "", cut.x, saw.throat)
            if rough and placed is not None and room != self._wander():
                self.say(NO_WANDER, cut.blank, cut.x)
            # the finished line and its allowance, from the near end of the blank; what is cleared keeps the hacksaw's off its line
            finished = cut.blank.part.length + shop.allowance if cut.blank is not None else ZERO
            outside = max(saw.hacksaw_allowance, shop.allowance) if rough else shop.allowance
            if placed is not None:
                back = placed.end - placed.start - finished - outside
            elif rough:
                back = max(saw.hacksaw_allowance - shop.allowance, ZERO)
        if cut.back != back or (placed is not None and placed.back != back):
            self.say(STRUCK, cut.blank or "", cut.back, back)

    def _check_way(self, placed, part: Part) -> None:
        """With unequal legs the metal says which end of it is which end of a handed part."""
        cut = next((cut for cut in self.planned.cuts if cut.blank == placed.blank), None)
        if cut is None or self.stick.section == self.stick.section.swapped() or not part.handed:
            return
        at_end_1 = 3 - cut.leading_end if placed.turned else cut.leading_end
        if at_end_1 != (1 if part.section == self.stick.section else 2):
            self.say(WRONG_WAY, placed.blank)

    def _zone(self, x: Fraction) -> tuple[Fraction, Fraction] | None:
        return next(((a, b) for a, b in self.zones if a <= x < b), None)

    # --- can the cuts be made, in this order ------------------------------------------------------
    def _check_cuts(self) -> None:
        stick = self.stick
        # an end that needs no trim may begin a blank; only one that is square and sound besides may end one unsawn
        solid = [_Solid(ZERO, stick.length, stick.trim_1 == 0, stick.trim_2 == 0)]
        todo = {(p.blank.part.id, p.blank.number): p for p in self.planned.placed}
        far = [placed.start for placed in self.planned.placed if placed.turned]
        datum = self.zones[-1][1] if self.zones and max(far, default=ZERO) >= self.zones[-1][0] else stick.length
        if far and self.planned.turned_datum != datum:
            self.say(DATUM, said=self.planned.turned_datum, found=datum)
        for cut in self.planned.cuts:
            # a blank lies before its line, seen from the datum end; what is trimmed or cleared away too, but it is no blank
            beyond = (cut.blank is not None) != cut.turned
            begin, end = (cut.x, cut.x + cut.kerf) if beyond else (cut.x - cut.kerf, cut.x)
            place = (self.planned.turned_datum or ZERO) - cut.x if cut.turned else cut.x - self.planned.datum
            if cut.line != place:
                self.say(LINE, said=cut.line, found=cut.x)
            piece = next((p for p in solid if p.begin <= begin and end <= p.end), None)
            if piece is None:
                self.say(CUT_TWICE if ZERO <= begin and end <= stick.length else CUT_OUT_OF_ZONE, said=cut.x)
                todo.pop((cut.blank.part.id, cut.blank.number) if cut.blank is not None else None, None)
                continue
            off, rest = (piece.end - end, begin - piece.begin) if cut.turned else (begin - piece.begin, piece.end - end)
            placed = todo.get((cut.blank.part.id, cut.blank.number)) if cut.blank is not None else None
            if cut.blank is None or placed is not None:
                self._check_rough(cut, placed, begin, end, piece)
            if cut.blank is not None:
                self._check_parting(cut, todo.pop((cut.blank.part.id, cut.blank.number), None), piece, begin, end)
            elif cut.x not in {zone[1] if cut.turned else zone[0] for zone in self.zones}:
                self.say(FREES_NOTHING, said=cut.x)
            hand = max(off, rest)
            short = cut.blank is not None and cut.blank.part.length < self.shop.hand_minimum
            if (cut.comes_off, cut.stays) != (off, rest) or cut.clamp != (short or hand < self.shop.hand_minimum):
                self.say(IN_HAND, said=(cut.x, cut.comes_off, cut.stays), found=(off, rest))
            solid.remove(piece)
            solid += [_Solid(piece.begin, begin, piece.square_1, True), _Solid(end, piece.end, True, piece.square_2)]
        for placed in todo.values():
            whole = [p for p in solid if p.begin == placed.start and p.square_1 and p.square_2]
            if placed.sawn or not any(p.end == placed.end and (p.end < stick.length or stick.far_end_good) for p in whole):
                self.say(NOT_PARTED, placed.blank)
        for placed in self.planned.held:
            if not any(p.begin <= placed.start and placed.end <= p.end for p in solid):
                self.say(HELD_CUT, placed.blank)

    def _check_parting(self, cut, placed, piece: _Solid, begin: Fraction, end: Fraction) -> None:
        if placed is None:
            self.say(NOT_PLACED, cut.blank, cut.x)
            return
        if (placed.start if cut.turned else placed.end) != cut.x or placed.turned != cut.turned:
            self.say(OFF_ITS_CUT, placed.blank, placed.end, cut.x)
        square = piece.end == placed.end and piece.square_2 if cut.turned else piece.begin == placed.start and piece.square_1
        if not square:
            self.say(NOT_SQUARE, placed.blank, placed.end if cut.turned else placed.start)
        # where an end is trimmed off the blade may run out of the stick: it then takes what there is
        takes = min(self.shop.kerf, cut.x if cut.turned else self.stick.length - cut.x)
        if cut.kerf != takes:
            self.say(KERF, said=(cut.x, cut.kerf), found=takes)
        zone = self._zone(placed.start)
        # beyond its zone the blade may run into what is dented or trimmed off, never out of a stick that is not trimmed there
        if zone is None or not zone[0] <= cut.x <= zone[1] or (not cut.turned and zone[1] == self.stick.length and cut.x + self.shop.kerf > zone[1]):
            self.say(CUT_OUT_OF_ZONE, said=cut.x)
        # Only the order of work says which end is made first; what it may not be is said here.
        tapers, copes = ({feature.end for feature in features} for features in (cut.blank.part.tapers, cut.blank.part.copes))
        if cut.made_first != bool(tapers or copes) or (cut.made_first and cut.leading_end not in (tapers or copes)):
            self.say(MADE_LATE, cut.blank)
        on = placed.end - piece.begin if cut.turned else piece.end - placed.start
        if cut.made_first and cut.still_on != on:
            self.say(STILL_ON, cut.blank, cut.still_on)

    # --- what is left -----------------------------------------------------------------------------
    def _check_left(self) -> None:
        for begin, end in self.zones:
            inside = [p for p in (*self.planned.placed, *self.planned.held) if begin <= p.start < end]
            reach = max((p.end + self.shop.kerf for p in inside if not p.turned), default=begin)
            stop = min((p.start - self.shop.kerf for p in inside if p.turned), default=end)
            self.left.append(max(ZERO, stop - reach))
        self.left.sort(reverse=True)
        if list(self.planned.left) != self.left:
            self.say(WAS_LEFT, said=tuple(self.planned.left), found=tuple(self.left))

    def _check_remnants(self) -> None:
        gone = [(p.start, p.end) for p in self.planned.placed]
        gone += [
            (c.x, c.x + c.kerf) if (c.blank is not None) != c.turned else (c.x - c.kerf, c.x) for c in self.planned.cuts
        ]
        before = ZERO
        for remnant in sorted(self.planned.remnants, key=lambda r: r.start):
            begin, end, piece = remnant.start, remnant.end, remnant.stick
            if begin < before or end > self.stick.length or begin >= end:
                self.say(REMNANT_PLACE, piece.id)
            if any(a < end and b > begin for a, b in gone):
                self.say(REMNANT_USED, piece.id)
            if piece.length != end - begin or (piece.section, piece.alloy, piece.lot) != (self.stick.section, self.stick.alloy, self.planned.stick.lot):
                self.say(REMNANT_OTHER, piece.id)
            for a, b in zones(piece, self.shop.kerf):
                # a dent at the end of a remnant needs no room for the blade, hence the 0
                if not any(x <= begin + a and begin + b <= y for x, y in zones(self.stick, ZERO)):
                    self.say(REMNANT_SOUND, piece.id)
            before = end
        kept = [b - a for r in self.planned.remnants for a, b in zones(r.stick, self.shop.kerf)]
        for piece in self.left:
            if piece and piece >= self.shop.usable_minimum and not any(k >= piece for k in kept):
                self.say(NOT_KEPT, said=piece)


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
