"""What is written on and beside one tile of an unrolled sheet: marks with their numbers, faces, datum, waste.

Everything is tried in several places, and stands in the first where it hides nothing and is not
hidden. The name of the part and of its faces stand on the paper itself, so that a sheet that is cut
out still says what it is.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.checks import INTO, Taken, bounds
from anglelib.drawing.dimensions import leader, linear_dimension, upright_dimension
from anglelib.drawing.letters import box, text_width
from anglelib.drawing.sheet import Group, Item, Label, Point
from anglelib.drawing.symbols import datum_sign
from anglelib.geometry.layout import datum_lost, witness_line
from anglelib.geometry.rounding import rounded_corners
from anglelib.geometry.taper import Number, TaperLine
from anglelib.lengths import both, exact, marked_both, unit_in_head
from anglelib.paper.fold_rows import Rows
from anglelib.paper.fold_strip import TICKS, FoldStrip
from anglelib.paper.page import FIGURE, SMALL, wrapped
from anglelib.paper.tiles import INCH
from anglelib.part import Cope
from anglelib.tolerances import Limits

SIZES = (FIGURE, SMALL)
"""Heights of letters in which words are tried [mm]: the small ones where there is no room for the others."""
CLEAR = 1.6
"""What names keep clear of lines where they can [mm]."""


MANY = 100
"""A word that is struck counts as so many that have something near."""


@dataclass(frozen=True)
class WrittenFold(FoldStrip):
    """A tile with its figures, between ``left`` and ``right`` on the page [mm]."""

    left: float
    right: float
    limits: Limits

    def _mark(self, value: Number) -> str:
        """A mark as its card writes it; the sheet says the unit."""
        with unit_in_head():
            return marked_both(value, self.limits.length(value))

    @staticmethod
    def _figure(value: Fraction) -> str:
        """A length that is no mark, among figures of which the sheet says the unit."""
        with unit_in_head():
            return exact(value)

    def items(self) -> Group:
        """The tile as it is printed, its fold at height 0."""
        found: list[Item] = list(self.drawn)
        taken = Taken(found)
        for leg in ("A", "B"):
            way = self._dimensions(taken, leg)
            found += way
            taken.add(way)
        for ways, needed in self._wanted():
            _, way = self._first(taken, ways, needed)
            found += way
            taken.add(way)
        for ways in self._names():
            way = self._first(taken, ways, False, CLEAR)[1] or self._first(taken, ways, False)[1]
            found += way
            taken.add(way)
        return (*found, *self._caption(bounds(found)[3] + 2.2))

    def _first(self, taken: Taken, ways: Iterable[Group], needed: bool, clear: float = 0.0) -> tuple[int, Group]:
        """The first way that is clear, else the least bad one and how bad it is, or nothing where it is not needed."""
        best: tuple[int, int, Group] | None = None
        for way in ways:
            if not self._within(way):
                continue
            near = taken.faults(way, clear)
            if not near:
                return 0, way
            if needed:  # where nothing is well clear, better near than struck
                struck = taken.faults(way, clear, INTO)
                if best is None or (struck, near) < best[:2]:
                    best = (struck, near, way)
        return (best[0] * MANY + best[1], best[2]) if best is not None else (0, ())

    def _dimensions(self, taken: Taken, leg: str) -> Group:
        """The marks at a leg's toe, each dimensioned; of a few orders the first in which nothing strikes another."""
        marks = self._marks(leg)
        best: tuple[int, Group] | None = None
        for inwards in (False, True):
            for order in (marks, marks[::-1], *([marks[i:] + marks[:i] for i in range(1, len(marks))] if len(marks) > 2 else [])):
                rows, here, drawn, total = Rows(self), taken.copy(), [], 0
                for mark in order:
                    longest = all(other[0] != mark[0] or other[1] <= mark[1] for other in marks) != inwards
                    faults, way = self._first(here, rows.ways(leg, *mark, longest), True)
                    rows.take(leg, way)
                    here.add(way)
                    drawn += way
                    total += faults
                if best is None or total < best[0]:
                    best = (total, tuple(drawn))
                if not total:
                    return best[1]
        return best[1] if best else ()

    def _within(self, way: Group) -> bool:
        places = [x for item in way if isinstance(item, Label) for x, _ in box(item)]
        return not places or (min(places) >= self.left and max(places) <= self.right)

    def _wanted(self) -> Iterable[tuple[Sequence[Group], bool]]:
        """What is to be written, the most useful first: the ways to put it, and whether it may be left out."""
        yield from self._joints()
        for end in (1, 2):
            if self.has_end(end):
                yield from ((ways, True) for ways in self._across(end))
        for end in (1, 2):
            for line in self.sheet.lines(end):
                yield self._waste_words(line), False
                if self.inner:
                    yield self._beside(line), False
        if not self.inner:
            yield from ((ways, True) for ways in self._datum())
            yield from ((ways, False) for ways in self._corners())

    # --- numbers ------------------------------------------------------------------------------------
    def _marks(self, leg: str) -> list[tuple[int, float, str]]:
        """The marks at a leg's toe that this tile shows: end, distance from it [in], figures; nearest first."""
        found: list[tuple[int, float, str]] = []
        for end in (1, 2):
            for line in self.sheet.lines(end):
                if line.leg == leg:
                    place = line.width - (self.part.section.toe_radius if self.inner else 0)
                    if place > line.width_left:
                        found.append((end, float(line.at(place)), self._mark(line.at(place))))
                elif self.inner and line.vertex_projection is not None:
                    found.append((end, float(line.vertex_projection), self._mark(line.vertex_projection)))
        found += [(cope.end, float(cope.length), self._mark(cope.length)) for cope in self.part.copes if cope.leg == leg]
        low, high = self.tile.low, self.tile.high + (0 if self.tile.joint_after else 1e-9)
        return sorted(
            ((end, d, text) for end, d, text in found if 0 < d <= self.sheet.length and low <= self.from_end(end, d) <= high),
            key=lambda mark: mark[1],
        )

    def _across(self, end: int) -> list[list[Group]]:
        """The width left beside an end; the vertex by its name, last: it has more places to go."""
        if self.inner:
            return []
        found: list[list[Group]] = []
        named: list[list[Group]] = []
        way = 1 if end == 1 else -1
        x0 = self.at(self.from_end(end, 0), 0)[0]
        for cut in (*self.sheet.lines(end), *(cope for cope in self.part.copes if cope.end == end)):
            if not isinstance(cut, Cope) and cut.to_vertex:
                sides = (self.out(cut.other), self.out(cut.leg))
                if any((other.leg, other.end) == (cut.other, end) for other in (*self.part.tapers, *self.part.copes)):
                    sides = sides[::-1]  # a width left is dimensioned on the other leg's side
                tails = [(x0 - way * (8 + on), side * step) for side in sides for step in (7, 11, 4, 15) for on in (0, 8)]
                if not any(isinstance(line, TaperLine) and line.to_vertex and line.leg == "A" and cut.leg == "B" for line in self.sheet.lines(end)):
                    named.append([leader((x0, 0), tail, "vertex", letter=letter) for letter in SIZES for tail in tails])
                continue
            found.append(self._width_left(cut.leg, float(cut.width_left), self._mark(cut.width_left), x0, way))
        return found + named

    def _width_left(self, leg: str, height: float, figures: str, x0: float, way: int) -> list[Group]:
        """A width left at an end, in the ways to dimension it."""
        zone, out = self.sheet.flat(leg), self.out(leg)
        if height <= zone.rise:
            return []
        q = (x0, self.at(0, zone.place(height))[1])
        tails = [(x0 - way * on, q[1] + out * rise) for on in (5, 8, 14) for rise in (-3, 3, 0, -6, 6, 10, -10)]
        p = (x0, 0.0)
        low, high = (p, q) if q[1] > 0 else (q, p)
        found: list[Group] = []
        for letter in SIZES:
            if not zone.rise:  # round the heel the paper is shorter than the leg is wide: no dimension can be drawn to the heel
                found += [upright_dimension(low, high, x0 - way * on, figures, -way, letter) for on in (7, 12, 18, 26)]
            found += [leader(q, tail, figures, letter=letter) for tail in tails]
        return found

    def _beside(self, line: TaperLine) -> list[Group]:
        """The mark beside the fillet, named on the other leg's face."""
        if line.first_flat is None or not self.shows(self.from_end(line.end, float(line.first_flat))):
            return []
        zone, other = self.sheet.flat(line.leg), self.sheet.flat(line.other)
        way = 1 if line.end == 1 else -1
        tip = self.at(self.from_end(line.end, float(line.first_flat)), zone.place(zone.rise))
        face = self.at(0, other.place(other.rise))[1]
        words = f"beside the fillet {self._mark(line.first_flat)}"
        tails = [(tip[0] + way * on, face + self.out(line.other) * step) for on in (6, 14, 24) for step in (3.4, 7.0, 11.0)]
        tails += [(tip[0] + way * (step + 4), tip[1] + self.out(line.leg) * step) for step in (4.0, 8.0)]
        tails += self._around(tip, self.out(line.other))
        toe = self.at(self.from_end(line.end, float(line.run)), zone.place(float(line.width)))
        tails = [tail for tail in tails if not _along(tip, tail, toe)]
        return [leader(tip, tail, words, letter=letter) for letter in SIZES for tail in tails]

    def _around(self, tip: Point, away: int = 1) -> list[Point]:
        """Places beyond the toes for words that a leader joins to a point; ``away``: which toe is tried first."""
        _, bottom, _, top = self.frame
        levels = [(top + step, bottom - step)[:: away] for step in (4.5, 11.0, 17.5, 24.0, 30.5)]
        return [(tip[0] + turn * on, y) for pair in levels for y in pair for on in (4, 12, 24, 40) for turn in (1, -1)]

    def _joints(self) -> Iterable[tuple[list[Group], bool]]:
        """Each joint's letter at both toes, and its distance from its tick."""
        _, bottom, _, top = self.frame
        for place, into, name in ((self.tile.low, 1, self.tile.joint_before), (self.tile.high, -1, self.tile.joint_after)):
            if not name:
                continue
            apart = TICKS[self.part.unit]
            x, tick = (self.at(place + on, 0)[0] for on in (0, into * float(apart)))
            anchor, beside = "start" if into > 0 else "end", -1.0 - text_width(name, FIGURE)
            for y, out, base in ((top, 1, "bottom"), (bottom, -1, "top")):
                places = [(on, up) for up in (1.2, 5.5, 10.0) for on in (3.2, beside, 8.0, 14.0, 20.0, 28.0)]
                yield [(Label(x + into * on, y + out * up, name, FIGURE, anchor, base),) for on, up in places], True
            low, high = min(x, tick), max(x, tick)
            yield [
                linear_dimension((low, y + out * 3.5), (high, y + out * 3.5), y + out * (7.0 if out > 0 else 9.0), self._figure(apart), letter=SMALL)
                for y, out in ((top, 1), (bottom, -1))
            ], False

    def _past_the_end(self, tip: Point, into: int) -> list[Point]:
        """Places beside the sheet's nearer end, a little further in than a point of it."""
        left, _, right, _ = self.frame
        x = left - 5 if tip[0] - left < right - tip[0] else right + 5
        return [(x, tip[1] + into * by) for by in (3.0, 7.0, 12.0)]

    def _corners(self) -> Iterable[list[Group]]:
        """The radius of each rounded corner."""
        for corner in rounded_corners(self.part) if self.part.corners else ():
            touch = corner.starts[0]
            if self.shows(touch[0]):
                tip = self.at(touch[0], self.sheet.flat(corner.leg).place(touch[1]))
                out = self.out(corner.leg)
                tails = sorted([*self._around(tip, out), *self._past_the_end(tip, -out)], key=lambda tail: math.dist(tip, tail))
                yield [leader(tip, tail, f"R {self._figure(self._radius(corner.leg, corner.end))}", letter=letter) for letter in SIZES for tail in tails]

    def _radius(self, leg: str, end: int):
        return next(corner.radius for corner in self.part.corners if (corner.leg, corner.end) == (leg, end))

    # --- words --------------------------------------------------------------------------------------
    def _names(self) -> Iterable[list[Group]]:
        """The faces by name, and the part, on the paper itself or, where there is no room, beside it."""
        left, _, right, _ = self.frame
        hand = f", {self.part.hand}" if self.part.hand in ("left", "right") else ""
        for zone in sorted(self.sheet.zones, key=lambda zone: not zone.leg):
            middle = self.at(0, (zone.start + zone.end) / 2)[1]
            high = (zone.end - zone.start) * INCH
            texts = [(zone.name if zone.leg else f"{zone.name}, unrolled", letter) for letter in SIZES]
            ways: list[Group] = []
            for text, letter in texts:
                wide = text_width(text, letter)
                if high > letter + 1.5 and right - left > wide + 2:
                    ways += self._scattered(text, letter, left, right, middle, high)
            for text, letter in texts:
                beside = [(right + 4.5, "start"), (left - 4.5, "end")]
                shifts = (0.0,) if not zone.leg else (0.0, high / 4, -high / 4)
                if high > letter + 0.5:
                    ways += [(Label(x, middle + shift, text, letter, anchor, "middle"),) for x, anchor in beside for shift in shifts]
            yield ways
        if not self.inner and not self.part.section.heel_radius:
            ways = [(Label(x, 0, "heel: fold", letter, anchor, "middle"),) for letter in SIZES for x, anchor in ((right + 4.5, "start"), (left - 4.5, "end"))]
            yield ways
        marks = [f"{self.part.id}{hand}", self.part.id]
        ways = []
        for text in marks:
            for leg in ("B", "A"):
                zone = self.sheet.flat(leg)
                if right - left > text_width(text, SMALL) + 2:
                    ways += self._scattered(text, SMALL, left, right, self.at(0, (zone.start + zone.end) / 2)[1], (zone.end - zone.start) * INCH)
        yield ways

    @staticmethod
    def _scattered(text: str, letter: float, left: float, right: float, middle: float, high: float) -> list[Group]:
        """A text at places over a face."""
        wide = text_width(text, letter)
        room = right - left - wide - 2
        spare = max(high / 2 - letter / 2 - 1.2, 0.0)
        levels = [0.0, spare, -spare, spare / 2, -spare / 2] if spare > 0.5 else [0.0]
        shares = (0.5, 0.75, 0.25, 1.0, 0.0, 0.62, 0.38, 0.88, 0.12)
        return [(Label(left + 1 + wide / 2 + room * share, middle + level, text, letter, "middle", "middle"),) for share in shares for level in levels]

    def _waste_words(self, line: TaperLine) -> list[Group]:
        """Ways to write "waste" between the saw's band and the toe, or beside it."""
        if not self.has_end(line.end):
            return []
        way = 1 if line.end == 1 else -1
        x0 = self.at(self.from_end(line.end, 0), 0)[0]
        wide = text_width("waste", SMALL)
        beyond = float(self.shop.allowance + self.shop.kerf)
        top = float(line.width - (self.part.section.toe_radius if self.inner else 0))
        low = float(line.width_left) + ((wide + 4.0) / INCH) / float(line.slope) + line.shift_across(beyond)
        zone, toe = self.sheet.flat(line.leg), self.at(0, self.sheet.toe(line.leg))[1]
        ways: list[Group] = []
        if (top - low) * INCH > 4.6:
            for on in (1.6, 4.0, 8.0):
                for step in (2.4, 4.0):
                    ways.append((Label(x0 + way * (on + wide / 2), toe - self.out(line.leg) * step, "waste", SMALL, "middle", "middle", halo=True),))
        there = top - float(line.width_left) - line.shift_across(beyond)
        if there * INCH >= 1.0:
            tip = (x0 + way * 0.6, self.at(0, zone.place(top - there / 3))[1])
            for on in (5, 12, 20):
                ways += [leader(tip, (x0 - way * on, toe - self.out(line.leg) * step), "waste", letter=SMALL, end="dot") for step in (0.0, 4.0, 7.0, -4.0, -9.0)]
        return ways

    def _caption(self, y: float) -> Group:
        """What this paper is: outside or inside, and which stretch of the part."""
        word = "inside" if self.inner else "outside"
        whole, (low, high) = exact(self.part.length), (exactly(self.tile.low), exactly(self.tile.high))
        if self.has_end(1) and self.has_end(2):
            where, of = "the whole part", f", {whole} long"
        elif self.has_end(1):
            where, of = f"end 1 to {exact(high)}", f" of {whole}"
        elif self.has_end(2):
            where, of = f"{both(low)} to end 2", f" at {whole}"
        else:
            where, of = f"left edge {both(low)}", " from end 1" + (f", to {exact(high)}" if self.tile.joint_after else "")
        room = self.right - self.left - 2
        lines = next(
            (lines for lines in ([f"{word}: {where}{of}"], [f"{word}: {where}"], [f"{word}:", where], [f"{word}, left edge", both(low)]) if all(text_width(w, FIGURE) <= room for w in lines)),
            wrapped(f"{word}: {where}", room, FIGURE),
        )
        return tuple(Label(self.left, y + i * 1.5 * FIGURE, line, FIGURE, "start") for i, line in enumerate(reversed(lines)))

    def _datum(self) -> list[list[Group]]:
        """The witness line's name and the datum's sign, each with the ways to put them."""
        found: list[list[Group]] = []
        x = self.witness()
        _, bottom, _, top = self.frame
        if x is not None:
            words = f"witness line, {both(exactly(x))} from end 1"
            ways: list[Group] = []
            for step in (4.5, 11.0, 17.5, 24.0, 30.5):
                for y, out in ((top, 1), (bottom, -1)):
                    tip = (self.at(x, 0)[0], y)
                    ways += [leader(tip, (tip[0] + turn * on, y + out * step), words, letter=letter) for letter in SIZES for on in (4, 14) for turn in (1, -1)]
            for text in (words, f"witness line, {self._figure(exactly(x))}", "witness line"):  # along the line, on the paper itself
                for zone in (self.sheet.zones[0], self.sheet.zones[-1]):
                    along, middle = self.at(x, (zone.start + zone.end) / 2)
                    if (zone.end - zone.start) * INCH > text_width(text, SMALL) + 3:
                        ways += [(Label(along + on, middle, text, SMALL, "middle", "bottom", 90),) for on in (-1.2, 1.2 + SMALL)]
            found.append(ways)
        if self.has_end(1) and witness_line(self.part) is None and not datum_lost(self.part, 1):
            line = self.sheet.lines(1)
            leg = line[0].other if line else "B"
            edge = self.at(0, self.sheet.toe(leg))[1]
            steps = [self.out(leg) * -5, *(-share * edge for share in (0.5, 0.75, 0.25, 1.0, 1.25, 1.5, 1.75, 0.1, 1.9))]
            found.append([datum_sign(self.x0, edge + step, "datum", letter=FIGURE) for step in steps])
        return found


def _along(tip: Point, tail: Point, toe: Point) -> bool:
    """Whether a leader would run along a taper's line, within 8 degrees of it, and be taken for one."""
    angle = math.atan2(tail[1] - tip[1], tail[0] - tip[0]) - math.atan2(toe[1] - tip[1], toe[0] - tip[0])
    return abs(math.remainder(angle, 2 * math.pi)) < math.radians(8)


def exactly(value: float) -> Fraction:
    """A place on the grid of the tiles, or a witness line's, as the fraction that it is."""
    return Fraction(value).limit_denominator(10**4)
