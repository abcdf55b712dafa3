"""The first three levels of the plan's rule at real size, as integer programs of scipy's (HiGHS): an oracle that shares no code with the planner.

A job and a rack are read here a third time (the planner and the checker do it too), from the rule in words:

- A piece takes its finished length and the sanding allowance at both ends, and beside it a kerf, which is dust. It is one piece.
- A stick serves a part of its alloy and of its section, however its legs are named; not one without a mark, not one that is kept
  for something else, not one that the part is not to come from; a piece that is to come from one stick comes from no other.
- What is trimmed off an end and what is dented is no metal. A cut beyond a dent begins where it does, so that it takes a kerf at least.
- The last cut of a usable length may run into metal that is lost in any case, and none is needed where the stick's own end is good.
- A reserved length is a piece like another.
- A piece that does not go into the throat of the saw may have to be cut off by hacksaw, which wanders to both sides and has a kerf of its own. Where a plan
  has such a cut, room for it is kept at every long piece (``rough``).

Level 1: pieces by claim (a job's, then priority, then the longer one), of equal claims as many as can be, then by the parts' ids.
Level 2: what remains of each usable length, in whole grains, nothing below the usable minimum; longest first.
Level 3: fewest sticks that were new and give metal, then fewest sticks that do.

Every program is solved to its proven optimum, and what it found is gone over in whole numbers; where that is not so, :class:`Undecided`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import groupby
from math import gcd, lcm

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

NODES = 10_000
"""After so many nodes a program is given up: a number of them, and no clock, so that it is the same everywhere."""


class Undecided(Exception):
    """A program that was given up, or whose floats did not hold in whole numbers."""


# --- a job and a rack, read from the rule ---------------------------------------------------------------------
@dataclass(frozen=True)
class Want:
    """Pieces of one part that may come from the same sticks: so many, each of a sawn ``length`` [in]."""

    part: str
    stick: str
    number: int
    length: Fraction
    claim: tuple
    may: frozenset[str]


@dataclass(frozen=True)
class Place:
    """A usable length of a stick, from and to along it from end 1 [in]; ``free``: the last piece needs no kerf of its own."""

    stick: str
    begin: Fraction
    end: Fraction
    free: bool
    new: bool


def same_metal(one, other) -> bool:
    """Whether two sections are one, the legs perhaps named the other way round."""
    return other in (one, one.swapped())


def serving(job, rack, section, alloy) -> list:
    """The sticks that may be cut for a section and alloy."""
    return [s for s in rack.sticks if s.alloy == alloy and s.alloy and not s.hands_off and same_metal(s.section, section)]


def takes(part, shop, rough: bool) -> Fraction:
    """The length of stick that a piece of a part takes, without the kerf beside it."""
    length, saw = part.length + 2 * shop.allowance, shop.saw
    if not rough or saw is None or length <= saw.throat:
        return length
    return length + 2 * max(Fraction(0), saw.hacksaw_allowance - shop.allowance) + max(Fraction(0), saw.hacksaw_kerf - shop.kerf)


def wants(job, rack, section, alloy, rough: bool = False) -> list[Want]:
    """What is wanted of one section and alloy, the first claim first."""
    found = []
    for part in job.parts:
        if part.alloy != alloy or not same_metal(part.section, section):
            continue
        length = takes(part, job.shop, rough)
        claim = (-part.claim, -part.priority, -length)
        able = {s.id for s in serving(job, rack, section, alloy) if s.id not in part.not_from and s.one_of not in {*part.not_from} - {""}}
        named = [(pin.stick, pin.quantity) for pin in part.pinned]
        rest = part.quantity - sum(number for _, number in named)
        for stick, number in [*named, (part.only_stick, rest)]:
            if number:
                found.append(Want(part.id, stick, number, length, claim, frozenset(able & {stick} if stick else able)))
    return sorted(found, key=lambda want: (want.claim, want.part))


def places(job, rack, section, alloy) -> list[Place]:
    """The usable lengths of the sticks that may serve."""
    return [place for stick in serving(job, rack, section, alloy) for place in usable(stick, job.shop.kerf)]


def usable(stick, kerf: Fraction) -> list[Place]:
    """What is neither trimmed off nor dented."""
    runs: list[list[Fraction]] = []  # the dents, those that touch or lie within one blade of another as one
    for begin, end in sorted(stick.dents):
        if runs and begin <= runs[-1][1]:
            runs[-1][1] = max(runs[-1][1], end)
        else:
            runs.append([begin, end])
    found, at, last = [], stick.trim_1, stick.length - stick.trim_2
    for begin, end in runs:
        if begin > at:
            found.append(Place(stick.id, at, min(begin, last), True, not stick.remnant))
            at = max(end, begin + kerf)
        else:
            at = max(at, end)
    found.append(Place(stick.id, at, last, stick.trim_2 > 0 or stick.far_end_good, not stick.remnant))
    return [place for place in found if place.end > place.begin]


# --- the programs -------------------------------------------------------------------------------------------------
@dataclass
class Rows:
    """The rows of a program, sparse."""

    terms: list[tuple[int, int, int]] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)

    def add(self, terms: Iterable[tuple[int, int]], low: float, high: float) -> None:
        """A row more: columns with their numbers, and what their sum must be."""
        self.terms += [(len(self.low), column, number) for column, number in terms if number]
        self.low.append(low)
        self.high.append(high)


@dataclass(frozen=True)
class Answer:
    """What the oracle knows of one section and alloy: how many of each want are made, what remains, sticks opened and touched."""

    made: tuple[int, ...]
    left: tuple[int, ...]
    sticks: tuple[int, int] | None = None


class Model:
    """One section and alloy of a job on a rack."""

    def __init__(self, job, rack, section, alloy, rough: bool = False):
        self.wants, self.places = wants(job, rack, section, alloy, rough), places(job, rack, section, alloy)
        shop = job.shop
        lengths = [shop.kerf, shop.grain, shop.usable_minimum, *(w.length for w in self.wants), *(p.end - p.begin for p in self.places)]
        fine = lcm(*(length.denominator for length in lengths))
        step = gcd(*(int(length * fine) for length in lengths)) or 1

        def whole(length: Fraction) -> int:
            return int(length * fine) // step

        self.kerf, self.grain, self.minimum = whole(shop.kerf), whole(shop.grain), whole(shop.usable_minimum)
        self.kinds = sorted({(want.length, tuple(sorted(want.may))) for want in self.wants}, reverse=True)
        self.kind_of = [self.kinds.index((want.length, tuple(sorted(want.may)))) for want in self.wants]
        self.widths = [whole(length) + self.kerf for length, _ in self.kinds]
        self.able = [[place.stick in may for _, may in self.kinds] for place in self.places]
        self.rooms = [whole(place.end - place.begin) for place in self.places]
        self.holds = [room + (self.kerf if place.free else 0) for room, place in zip(self.rooms, self.places)]
        self.counts = len(self.places) * len(self.kinds)  # columns: how many of each kind from each place, then how many of each want

    # --- what every program has -----------------------------------------------------------------
    def _most_load(self, made: Sequence[int]) -> Callable[[int, int], int]:
        """The most that the pieces made can take of so much of a place: no program then tries what no sum of them comes to."""
        sums: dict[tuple, int] = {}

        def most(place: int, length: int) -> int:
            able = tuple(self.able[place])
            if able not in sums:
                reached = 1  # a bit for each sum
                for kind, number in zip(self.kind_of, made):
                    for _ in range(number if able[kind] else 0):
                        reached |= reached << self.widths[kind]
                sums[able] = reached
            return (sums[able] & ((1 << (length + 1)) - 1)).bit_length() - 1

        return most

    def _load(self, place: int) -> list[tuple[int, int]]:
        return [(place * len(self.kinds) + kind, width) for kind, width in enumerate(self.widths)]

    def _basis(self, made: Sequence[int] | None) -> tuple[Rows, list[int]]:
        """The rows that say what is made, and the most of each column."""
        rows, upper = Rows(), []
        wanted = [0] * len(self.kinds)
        for want, kind in zip(self.wants, self.kind_of):
            wanted[kind] += want.number
        for place, holds in enumerate(self.holds):
            for kind, width in enumerate(self.widths):
                upper.append(min(wanted[kind], holds // width if width else wanted[kind]) if self.able[place][kind] else 0)
        for number, want in enumerate(self.wants):
            upper.append(want.number)
            if made is not None:
                rows.add([(self.counts + number, 1)], made[number], made[number])
        for kind in range(len(self.kinds)):
            terms = [(place * len(self.kinds) + kind, 1) for place in range(len(self.places))]
            rows.add([*terms, *((self.counts + number, -1) for number, k in enumerate(self.kind_of) if k == kind)], 0, 0)
        return rows, upper

    def _solve(self, rows: Rows, upper: list[int], aim: dict[int, int]) -> tuple[list[int], int]:
        """The most of an aim: the columns, in whole numbers, and what they come to."""
        matrix = csr_array(
            ([float(n) for _, _, n in rows.terms], ([r for r, _, _ in rows.terms], [c for _, c, _ in rows.terms])), shape=(len(rows.low), len(upper))
        )
        cost = np.zeros(len(upper))
        for column, number in aim.items():
            cost[column] = -number
        found = milp(
            cost,
            constraints=LinearConstraint(matrix, rows.low, rows.high),
            integrality=np.ones(len(upper)),
            bounds=Bounds(0, upper),
            options={"mip_rel_gap": 0, "node_limit": NODES},
        )
        if found.status == 2:
            raise ArithmeticError("What the program asks for cannot be.")
        if found.status != 0:
            raise Undecided(found.message)
        values = [round(value) for value in found.x]
        sums = [0] * len(rows.low)
        for row, column, number in rows.terms:
            sums[row] += number * values[column]
        reached = sum(number * values[column] for column, number in aim.items())
        holds = all(low <= total <= high for low, total, high in zip(rows.low, sums, rows.high)) and all(0 <= v <= u for v, u in zip(values, upper))
        if not holds or reached < -found.mip_dual_bound - 0.5:
            raise Undecided("The floats do not hold in whole numbers.")
        return values, reached

    # --- level 1 ----------------------------------------------------------------------------------
    def made(self) -> tuple[int, ...]:
        """How many of each want are made by the best plan."""
        if not self.wants:
            return ()
        rows, upper = self._basis(None)
        most_load = self._most_load([want.number for want in self.wants])
        for place, holds in enumerate(self.holds):
            rows.add(self._load(place), -np.inf, most_load(place, holds))
        every = {self.counts + number: 1 for number in range(len(self.wants))}
        values, _ = self._solve(rows, upper, every)

        def most(columns: list[int]) -> int:
            nonlocal values
            can = sum(upper[column] for column in columns)
            if sum(values[column] for column in columns) < can:
                values, can = self._solve(rows, upper, dict.fromkeys(columns, 1))
            rows.add([(column, 1) for column in columns], can, can)
            return can

        found = []
        for _, equal in groupby(range(len(self.wants)), key=lambda number: self.wants[number].claim):
            columns = [self.counts + number for number in equal]
            most(columns)
            found += [most([column]) for column in columns]
        return tuple(found)

    # --- level 2 ----------------------------------------------------------------------------------
    def graded(self, length: int) -> int:
        """A piece that remains, in whole grains."""
        return length // self.grain if length >= self.minimum else 0

    def _keeping(self, made: Sequence[int], left: Sequence[int]) -> tuple[Rows, list[int], list[list[tuple[int, int]]]]:
        """The rows of the plans that make so much and leave such pieces at least; of each place what lies there and is kept, and no kerf for it."""
        rows, upper = self._basis(made)
        kept = [max(grains * self.grain, self.minimum) for grains in left if grains]
        columns = [[len(upper) + place * len(kept) + k for k in range(len(kept))] for place in range(len(self.places))]
        upper += [1] * (len(kept) * len(self.places))
        for k in range(len(kept)):
            rows.add([(row[k], 1) for row in columns], 1, 1)
        most_load = self._most_load(made)
        for place, room in enumerate(self.rooms):
            full = most_load(place, self.holds[place])
            # a piece that is kept lies beyond the last kerf: it does not share what the last cut may run into
            less = [(column, full - most_load(place, room - length)) for column, length in zip(columns[place], kept) if length <= room]
            rows.add([(column, 1) for column in columns[place]], 0, 1)
            rows.add([*self._load(place), *less], -np.inf, full)
            for column, length in zip(columns[place], kept):
                if length > room:
                    upper[column] = 0
        for one, other in self._alike():
            rows.add([*self._load(one), *((column, -width) for column, width in self._load(other))], 0, np.inf)
        return rows, upper, columns

    def _alike(self) -> list[tuple[int, int]]:
        """Usable lengths that may change places in any plan: each with the next."""
        last: dict[tuple, int] = {}
        found = []
        whole = [sum(other.stick == place.stick for other in self.places) == 1 for place in self.places]
        for number, place in enumerate(self.places):
            if whole[number]:
                key = (self.rooms[number], place.free, place.new, tuple(self.able[number]))
                if key in last:
                    found.append((last[key], number))
                last[key] = number
        return found

    def next_left(self, made: Sequence[int], left: Sequence[int]) -> int:
        """The longest that the next piece can be, in grains, where so much is made and such pieces remain at least."""
        rows, upper, kept = self._keeping(made, left)
        top = min(left, default=max(map(self.graded, self.rooms), default=0))
        chosen, grains = len(upper), len(upper) + len(self.places)
        upper += [1] * len(self.places) + [min(top, self.graded(room)) for room in self.rooms]
        rows.add([(chosen + place, 1) for place in range(len(self.places))], 0, 1)
        most_load = self._most_load(made)
        for place, room in enumerate(self.rooms):
            full = most_load(place, self.holds[place])
            rows.add([*((column, 1) for column in kept[place]), (chosen + place, 1)], 0, 1)
            rows.add([(grains + place, 1), (chosen + place, -upper[grains + place])], -np.inf, 0)
            if room < self.minimum:
                upper[chosen + place] = 0
                continue
            rows.add([*self._load(place), (chosen + place, full - room), (grains + place, self.grain)], -np.inf, full)
            rows.add([*self._load(place), (chosen + place, full - most_load(place, room - self.minimum))], -np.inf, full)
        return self._solve(rows, upper, {grains + place: 1 for place in range(len(self.places))})[1]

    def left(self, made: Sequence[int]) -> tuple[int, ...]:
        """What remains of the best plan, in grains, longest first."""
        found: list[int] = []
        while len(found) < len(self.places):
            found.append(self.next_left(made, found))
            if not found[-1]:
                break
        return tuple(found + [0] * (len(self.places) - len(found)))

    # --- level 3 ----------------------------------------------------------------------------------
    def sticks(self, made: Sequence[int], left: Sequence[int]) -> tuple[int, int]:
        """How few new sticks give metal, and how few sticks, where so much is made and such pieces remain."""
        rows, upper, _ = self._keeping(made, left)
        names = sorted({place.stick for place in self.places})
        new = {place.stick for place in self.places if place.new}
        first = len(upper)
        upper += [1] * len(names)
        for place, holds in enumerate(self.holds):
            rows.add([*self._load(place), (first + names.index(self.places[place].stick), -holds)], -np.inf, 0)
        dear = len(names) + 1
        aim = {first + number: -(dear if name in new else 0) - 1 for number, name in enumerate(names)}
        return divmod(-self._solve(rows, upper, aim)[1], dear)

    def answer(self, levels: int = 2) -> Answer:
        """The best plan's first two or three levels."""
        made = self.made()
        left = self.left(made)
        return Answer(made, left, self.sticks(made, left) if levels > 2 else None)


# --- what a plan comes to, from where its pieces lie ------------------------------------------------------------------
class Walk:
    """One section and alloy of a plan, walked along its sticks by the same reading; ``wrong`` says what cannot be so."""

    def __init__(self, group, job, rack):
        pieces = [piece for planned in group.sticks for piece in (*planned.placed, *planned.held)]
        long = [piece for piece in pieces if takes(piece.blank.part, job.shop, True) > takes(piece.blank.part, job.shop, False)]
        # where no long piece is made, a plan without room is one with room too, and none of the former is better
        self.rough = not long or any(piece.end - piece.start - piece.surplus >= takes(piece.blank.part, job.shop, True) for piece in long)
        self.model = model = Model(job, rack, group.section, group.alloy, self.rough)
        self.wrong: list[str] = []
        shop, sticks = job.shop, {stick.id: stick for stick in serving(job, rack, group.section, group.alloy)}
        parts = {part.id: part for part in job.parts}
        given: dict[tuple[str, str], int] = {}
        lying: dict[str, list] = {}
        for planned in group.sticks:
            for piece in (*planned.placed, *planned.held):
                name = planned.stick.id
                part = parts[piece.blank.part.id]
                given[part.id, name] = given.get((part.id, name), 0) + 1
                lying.setdefault(name, []).append((piece.start, piece.end, piece.turned, part))
                if name not in sticks or not same_metal(part.section, sticks[name].section) or part.alloy != sticks[name].alloy:
                    self.wrong.append(f"{part.id} from {name}")
                if (piece in planned.held) != part.later:
                    self.wrong.append(f"{part.id} sawn or held")
        remains, touched = [], set(lying)
        for place in model.places:
            here = sorted((piece for piece in lying.get(place.stick, ()) if place.begin <= piece[0] < place.end), key=lambda piece: piece[0])
            remains.append(self._along(place, here, shop))
            lying[place.stick] = [piece for piece in lying.get(place.stick, ()) if piece not in here]
        self.wrong += [f"{part.id} in no sound metal" for rest in lying.values() for *_, part in rest]
        self.made = tuple(self._numbers(given))
        self.left = tuple(sorted((int(rest // shop.grain) if rest >= shop.usable_minimum else 0 for rest in remains), reverse=True))
        self.sticks = sum(not sticks[name].remnant for name in touched if name in sticks), len(touched)

    def _along(self, place, here, shop) -> Fraction:
        """Whether the pieces lie apart in a usable length, each as long as it must be, with its kerf on the side it is sawn at; what remains there."""
        gaps = [after - before for before, after in zip([place.begin, *(end for _, end, *_ in here)], [*(begin for begin, *_ in here), place.end])]
        if not here:
            return gaps[0]
        for number, (begin, end, _, part) in enumerate(here):
            # the last one of a usable length that needs no cut of its own may be left a little longer, between the cuts of its neighbours or the ends
            more = end - begin - takes(part, shop, self.rough)
            whole = place.free and all(gap == (shop.kerf if 0 < at < len(here) else 0) for at, gap in enumerate(gaps) if at in (number, number + 1))
            if more and not (whole and 0 < more <= shop.kerf):
                self.wrong.append(f"{part.id} is {end - begin} long in {place.stick}")
        cuts = [here[0][2], *((not one[2]) + other[2] for one, other in zip(here, here[1:])), not here[-1][2]]
        for number, gap in enumerate(gaps):
            between = 0 < number < len(here)
            if gap < (shop.kerf if between else 0):
                self.wrong.append(f"No room for the blade in {place.stick}" if between else f"{place.stick} ends before its pieces")
        rest = [gap - number * shop.kerf for gap, number in zip(gaps, cuts)]
        if sum(gaps) < (len(here) - place.free) * shop.kerf:
            self.wrong.append(f"{place.stick} has no room for its last cut")
        if sum(gap > 0 for gap in rest) > 1:
            self.wrong.append(f"{place.stick} is left in several pieces")
        return max(Fraction(0), sum(gaps) - len(here) * shop.kerf)

    def _numbers(self, given: dict[tuple[str, str], int]) -> Iterable[int]:
        """How many of each want the sticks give: of a named stick first those that are to come from it."""
        rest = dict(given)
        found = {}
        for number, want in enumerate(self.model.wants):
            if want.stick:
                found[number] = min(want.number, rest.get((want.part, want.stick), 0))
                rest[want.part, want.stick] = rest.get((want.part, want.stick), 0) - found[number]
        for number, want in enumerate(self.model.wants):
            if not want.stick:
                found[number] = sum(rest.get((want.part, name), 0) for name in want.may)
                rest |= {(want.part, name): 0 for name in want.may}
                if found[number] > want.number:
                    self.wrong.append(f"{want.part} made {found[number]} times")
        self.wrong += [f"{part} from {stick}, which it may not" for (part, stick), number in rest.items() if number > 0]
        return [found[number] for number in range(len(self.model.wants))]
