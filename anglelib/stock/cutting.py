"""From a packing to the bench: the cuts of each stick in order, and what goes back on the rack.

In a usable interval a part that may not be spliced is sawn first, while there is most left to try
again; then the shortest blank first, so that the piece in the hand stays long. What is held for later
lies beyond the last cut. With unequal legs the parts whose first end must face end 2 are sawn from there,
once the stick is turned end for end.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from anglelib.geometry.ends import first_end, from_other_end, made_on_stick, short_piece
from anglelib.job import Shop
from anglelib.lengths import about
from anglelib.stock.blank import Blank
from anglelib.stock.families import side_by_side
from anglelib.stock.instance import Packing
from anglelib.stock.plan import CLEAR, PART_OFF, TRIM, Cut, Placed, Remnant, StickPlan
from anglelib.stock.problem import Problem
from anglelib.stock.rack import Interval, Stick

Contents = dict[int, list[Blank]]


def hand_out(problem: Problem, packing: Packing, before: Mapping[str, Iterable[str]] | None = None) -> list[list[Blank]]:
    """Which blank comes from which place: a packing knows sizes only.

    Of one size, those first claimed are made; a blank that is only held goes where least else is
    sawn, so that its stick may stay whole. ``before`` names, for each stick, the parts that an earlier
    plan took from it: they come from there again as far as the packing allows.
    """
    instance = problem.instance
    queues: dict[int, list[Blank]] = {}
    for size, blank in zip(instance.claims, problem.blanks):
        queues.setdefault(size, []).append(blank)
    found: list[list[Blank]] = [[] for _ in packing]
    for size, queue in queues.items():
        made = queue[: sum(pattern[size] for pattern in packing)]
        again = _again(problem, packing, size, made, before or {})
        kept = {(blank.part.id, blank.number) for blanks in again for blank in blanks}
        made = [b for b in made if (b.part.id, b.number) not in kept]
        held, sawn = [b for b in made if b.held], [b for b in made if not b.held]
        order = sorted(range(len(packing)), key=lambda n: (sum(packing[n]) - packing[n][size], n))
        for n in order:
            found[n] += again[n]
            for _ in range(packing[n][size] - len(again[n])):
                found[n].append(held.pop(0) if held else sawn.pop(0))
    return found


def _again(problem: Problem, packing: Packing, size: int, made: list[Blank], before: Mapping[str, Iterable[str]]) -> list[list[Blank]]:
    """For each place the blanks of one size that come from the stick that an earlier plan took them from."""
    waiting = {stick_id: list(part_ids) for stick_id, part_ids in before.items()}
    rest, found = list(made), []
    for pattern, (stick, _) in zip(packing, problem.places):
        found.append([])
        for _ in range(pattern[size]):
            blank = next((b for b in rest if b.part.id in waiting.get(stick.id, ())), None)
            if blank is None:
                break
            waiting[stick.id].remove(blank.part.id)
            rest.remove(blank)
            found[-1].append(blank)
    return found


def lay_out(
    problem: Problem,
    packing: Packing,
    shop: Shop,
    taken: Iterable[str],
    before: Mapping[str, Iterable[str]] | None = None,
    lots: Sequence[Sequence[Blank]] | None = None,
) -> tuple[StickPlan, ...]:
    """The plan of every stick of a problem. ``taken`` are the ids that no remnant may have; ``before`` as in :func:`hand_out`.

    ``lots`` are the blanks of each place, where they are handed out already.
    """
    contents: dict[str, list[tuple[Interval, list[Blank]]]] = {stick.id: [] for stick in problem.sticks}
    for (stick, interval), blanks in zip(problem.places, hand_out(problem, packing, before) if lots is None else lots):
        contents[stick.id].append((interval, list(blanks)))
    names = {name.lower() for name in taken}
    return tuple(_stick_plan(stick, contents[stick.id], shop, names) for stick in problem.sticks)


def cut_order(blanks: Sequence[Blank]) -> list[Blank]:
    """The order of sawing: parts that may not be spliced, longest first; then short before long. Of one length, equal parts and pairs side by side."""
    beside = side_by_side(blanks)
    single = sorted((b for b in blanks if b.part.one_piece), key=lambda b: (-b.length, beside(b)))
    others = sorted((b for b in blanks if not b.part.one_piece), key=lambda b: (b.length, beside(b)))
    return single + others


def saw_order(planned: StickPlan) -> tuple:
    """The place of a stick in the order of the plan: those that are sawn first, of them those that hold something for later."""
    return not planned.touched, not planned.held, planned.stick.id


def _stick_plan(stick: Stick, contents: list[tuple[Interval, list[Blank]]], shop: Shop, names: set[str]) -> StickPlan:
    walk = _Walk(stick, shop, contents)
    walk.go(contents)
    left = []
    for interval, blanks in contents:
        used = sum((b.length + shop.kerf for b in blanks), Fraction(0))
        left.append(max(Fraction(0), interval.length - used))
    return StickPlan(
        stick,
        walk.datum,
        tuple(walk.cuts),
        tuple(walk.placed),
        tuple(walk.held),
        tuple(walk.remnants(names)),
        tuple(sorted(left, reverse=True)),
        walk.turned_datum,
    )


class _Walk:
    """The saw's walk along one stick, from end 1, and from end 2 once it is turned."""

    def __init__(self, stick: Stick, shop: Shop, contents: list[tuple[Interval, list[Blank]]]):
        self.stick, self.shop = stick, shop
        first = contents[0] if contents else None
        sawn = first is not None and any(not b.held and not self._turned(b) for b in first[1])
        self.datum = first[0].start if sawn else Fraction(0)
        far = [n for n, (_, blanks) in enumerate(contents) if any(not b.held and self._turned(b) for b in blanks)]
        at_end = contents[-1][0].end if far and far[-1] == len(contents) - 1 else stick.length
        self.turned_datum: Fraction | None = at_end if far else None
        self.at, self.to = Fraction(0), stick.length  # the piece that is still whole
        self.cuts: list[Cut] = []
        self.placed: list[Placed] = []
        self.held: list[Placed] = []
        self.loose: list[tuple[Fraction, Fraction]] = []  # what falls off beside the blanks

    def _turned(self, blank: Blank) -> bool:
        return from_other_end(blank.part, self.stick.section)

    def go(self, contents: list[tuple[Interval, list[Blank]]]) -> None:
        """All that is sawn: from end 1, then from end 2. Where a usable length nearer to end 1 is sawn from end 2, the stick is parted there."""
        lots = []
        for interval, blanks in contents:
            near = cut_order([b for b in blanks if not b.held and not self._turned(b)])
            far = cut_order([b for b in blanks if not b.held and self._turned(b)])
            lots.append((interval, near, far, cut_order([b for b in blanks if b.held])))
        last = max((n for n, lot in enumerate(lots) if lot[1]), default=0)
        for n, (interval, near, far, held) in enumerate(lots):
            x = self._from_end_1(interval, near)
            for blank in held:
                self.held.append(Placed(blank, x, x + blank.length, True))
                x += blank.length + self.shop.kerf
            if far and n < last:
                self._from_end_2(interval, far, bool(near), parted=True)
        for n, (interval, near, far, _) in reversed([*enumerate(lots)]):
            if far and n >= last:
                self._from_end_2(interval, far, bool(near))

    def _from_end_1(self, interval: Interval, blanks: list[Blank]) -> Fraction:
        """What is sawn of a usable length from its near end on; where the next blank would begin."""
        x = interval.start
        if blanks and interval.freed:
            self._free(interval)
        for blank in blanks:
            x = self._part_off(blank, x, interval)
        return x

    def _free(self, interval: Interval) -> None:
        """The cut that frees the near end: a trim, or a dent cleared, the blade on its far side."""
        if self.at == interval.start:
            return  # the cut that parted off the blank before a scratch has freed it
        begin = max(self.at, interval.start - self.shop.kerf)
        if begin > self.at:
            self.loose.append((self.at, begin))
        kind = TRIM if not self.cuts and not self.placed and interval.start == self.stick.trim_1 else CLEAR
        self.cuts.append(self._cut(kind, interval.start, interval.start - begin, begin - self.at, self.to - interval.start))
        self.at = interval.start

    def _part_off(self, blank: Blank, x: Fraction, interval: Interval) -> Fraction:
        shop, end = self.shop, x + blank.length
        if end + shop.kerf > interval.end and interval.unsawn:
            self.placed.append(Placed(blank, x, interval.end, False, interval.end - end, before=self._before()))
            self.at = self.to
            return interval.end
        # beyond its usable length the blade runs into what is trimmed off or dented, or off the end of the stick
        kerf = min(shop.kerf, self.to - end)
        cut = self._cut(PART_OFF, end, kerf, blank.length, self.to - end - kerf, blank, self.to - x)
        self.placed.append(Placed(blank, x, end, True, back=cut.back, before=self._before()))
        self.cuts.append(cut)
        self.at = end + kerf
        return self.at

    # --- from end 2 -----------------------------------------------------------------------------
    def _from_end_2(self, interval: Interval, blanks: list[Blank], near: bool, parted: bool = False) -> None:
        """What is sawn of a usable length once the stick is turned: from its far end on.

        ``near``: some of it is sawn from end 1. ``parted``: what lies beyond it is sawn later, as a piece of its own.
        """
        shop = self.shop
        beyond = self._free_far(interval)
        end = interval.end
        for blank in blanks:
            begin, least = end - blank.length, max(self.at, interval.start)
            reach = self.at if interval.freed and not near else least  # the blade may run into what is trimmed or dented
            if begin - shop.kerf < reach:  # the last one: its near end is the stick's own, or what a cut has left there
                if interval.freed and not near:
                    self._free(interval)
                self.placed.append(Placed(blank, least, end, False, begin - least, True, before=self._before()))
                self.at = self.to
                break
            off, stays = blank.length, begin - shop.kerf - self.at
            cut = self._cut(PART_OFF, begin, shop.kerf, off, stays, blank, end - self.at, True)
            self.placed.append(Placed(blank, begin, end, True, turned=True, back=cut.back, before=self._before()))
            self.cuts.append(cut)
            self.to = end = begin - shop.kerf
        if beyond is not None and parted:
            self.loose.append((self.at, self.to))
            self.at, self.to = beyond
        elif beyond is not None:
            self.loose.append(beyond)

    def _free_far(self, interval: Interval) -> tuple[Fraction, Fraction] | None:
        """The cut that frees the far end, the blade on its far side, and what lies beyond it; None where nothing does."""
        if interval.end == self.to:
            return None
        kerf = min(self.shop.kerf, self.to - interval.end)
        beyond = interval.end + kerf, self.to
        first = not any(cut.turned for cut in self.cuts)
        kind = TRIM if first and interval.end == self.stick.length - self.stick.trim_2 else CLEAR
        self.cuts.append(self._cut(kind, interval.end, kerf, beyond[1] - beyond[0], interval.end - self.at, turned=True))
        self.to = interval.end
        return beyond

    def _cut(
        self,
        kind: str,
        x: Fraction,
        kerf: Fraction,
        comes_off: Fraction,
        stays: Fraction,
        blank: Blank | None = None,
        on: Fraction = Fraction(0),
        turned: bool = False,
    ) -> Cut:
        shop = self.shop
        first = blank is not None and made_on_stick(blank.part)
        line = self.turned_datum - x if turned and self.turned_datum is not None else x - self.datum
        clamp = max(comes_off, stays) < shop.hand_minimum or (blank is not None and short_piece(blank.part, shop))
        leading = first_end(blank.part) if blank is not None else 1
        rough, back = self._rough(comes_off, stays, blank)
        return Cut(kind, line, x, kerf, comes_off, stays, clamp, blank, leading, first, on if first else Fraction(0), turned, rough, back)

    def _before(self) -> Fraction:
        """What the hacksaw left more at the end where the next blank begins."""
        rough = self.shop.saw is not None and bool(self.cuts) and self.cuts[-1].rough
        return self.shop.wander if rough else Fraction(0)

    def _rough(self, comes_off: Fraction, stays: Fraction, blank: Blank | None) -> tuple[bool, Fraction]:
        """Whether a cut is a rough one by hacksaw, and how far before its place its line is struck."""
        saw, shop = self.shop.saw, self.shop
        if saw is None:
            return False, Fraction(0)
        room = blank.rough if blank is not None else Fraction(0)
        rough = not saw.sawn_across(comes_off - room, stays + room)  # the saw would run along the near side of the room
        if not rough:
            return False, room
        return True, (room - shop.wander if room else shop.wander if blank is None else Fraction(0))

    # --- what goes back -----------------------------------------------------------------------
    def remnants(self, names: set[str]) -> list[Remnant]:
        """The pieces that are worth keeping, as sticks with names of their own."""
        if not self.cuts and not self.placed:
            return [Remnant(self.stick, Fraction(0), self.stick.length, tuple(p.blank for p in self.held))]
        pieces = [*self.loose, (self.at, self.to)]
        return [r for begin, end in pieces if begin < end for r in self._remnant(begin, end, names)]

    def _remnant(self, begin: Fraction, end: Fraction, names: set[str]) -> list[Remnant]:
        stick, held = self.stick, [p for p in self.held if begin <= p.start and p.end <= end]
        trim_1 = max(Fraction(0), stick.trim_1 - begin)
        trim_2 = max(Fraction(0), stick.trim_2 - (stick.length - end))
        if trim_1 + trim_2 >= end - begin:
            return []
        dents = [(max(a, begin) - begin, min(b, end) - begin) for a, b in stick.dents if a < end and b > begin]
        good = stick.far_end_good if end == stick.length else True
        piece = replace(stick, length=end - begin, trim_1=trim_1, trim_2=trim_2, dents=tuple(dents), far_end_good=good, remnant=True, one_of="")
        longest = max((i.length for i in piece.intervals(self.shop.kerf)), default=Fraction(0))
        if longest < self.shop.usable_minimum and not held or longest == 0:
            return []
        piece = replace(piece, id=remnant_name(stick.id, names), note=_note(stick, held))
        return [Remnant(piece, begin, end, tuple(p.blank for p in held))]


def _note(stick: Stick, held: list[Placed]) -> str:
    said = [stick.note] if stick.note else []
    said += [f"holds {about(p.blank.length)} for {p.blank.part.id}" for p in held]
    return "; ".join(said)[:400]


def remnant_name(stick_id: str, names: set[str]) -> str:
    """A new id for what is left of a stick; it is added to the names.

    >>> remnant_name("S-01", {"s-01", "s-01-r1"})
    'S-01-R2'
    >>> remnant_name("S-01-R2", {"s-01-r2"})
    'S-01-R3'
    """
    stem, dash, number = stick_id.rpartition("-R")
    base, n = (stem, int(number)) if dash and number.isdigit() and len(number) < 5 else (stick_id, 0)
    while True:
        n += 1
        tail = f"-R{n}"
        name = base[: 32 - len(tail)] + tail
        if name.lower() not in names:
            names.add(name.lower())
            return name
