"""The check print of a part at 1:1: the finished part is laid on it, and judged at a glance.

Each leg is drawn as it lies: outer face down on the paper, end 1 at the left. Of two thin lines the
outer one is the largest part that passes and the inner one the least: the edge of the metal must lie
in the white between them. Bars at the heel and at one end are what the part is set against. Of a part
that is longer than the paper both ends are shown, each set against its own end.

>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [page.title for page in check_pages(bracket, A4)]
['Check print of Bracket']
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from anglelib.drawing.checks import Taken, bounds
from anglelib.drawing.dimensions import leader
from anglelib.drawing.face import clip
from anglelib.drawing.letters import text_width
from anglelib.drawing.outline import arc_points, leg_outline
from anglelib.drawing.sheet import Group, Item, Label, Line, Point, move, polygon
from anglelib.drawing.style import WIDE
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.at_limits import outline_at_limit
from anglelib.geometry.edges import corners_of
from anglelib.geometry.layout import datum_lost, witness_line
from anglelib.geometry.outlines import outline_between
from anglelib.geometry.taper import taper_lines
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.reading_ids import END, HOLE_X, Origin, ReadingId, origin
from anglelib.inspection.reading_words import origin_words
from anglelib.lengths import both, exact, fine, writing
from anglelib.paper.development import inked
from anglelib.paper.page import FIGURE, SMALL, Block, Page, Paper
from anglelib.paper.print_scale import AS_PRINTED, PrintScale
from anglelib.paper.tiles import GRID, INCH, MARGIN, features
from anglelib.paper.true_size import room, title_strip, true_size_pages
from anglelib.part import Hole, Part
from anglelib.tolerances import Limits

FINE = 0.18
"""Breadth of the two lines between which the edge must lie [mm]."""
ARC_STEP = 2.0
"""How finely an arc is drawn [deg]: one of an inch is within 0.004 mm."""
CHORD = 0.004
"""How near the chords of a hole's rim keep to it [mm]."""
SIDE = 22.0
"""Room left and right of a leg [mm]."""
BETWEEN = 9.0
"""Between the two legs, and over and below them [mm]."""
HOW = (
    "Lay the part on each leg in turn, outer face down, heel and end against the black bars. Its edge must lie in the white between the two thin lines: "
    "the outer one is the largest part that passes, the inner one the least. Through a hole of the fastener's size the inner ring, where there is one, shows whole, the outer one not at all. "
    "Deburr first. The section's own legs are the mill's."
)


@dataclass(frozen=True)
class View:
    """One stretch of a part on its check print, from x = ``low`` to ``high`` [in], set against ``stop`` (an end; 0: the witness line)."""

    part: Part
    limits: Limits
    low: float
    high: float
    stop: int
    x0: float

    @property
    def length(self) -> float:
        return float(self.part.length)

    def at(self, leg: str, x: float, h: float) -> Point:
        """A place on a leg [mm]: leg A stands with its toe up, leg B below it with its toe down."""
        return self.x0 + (x - self.low) * INCH, (h * INCH if leg == "A" else -BETWEEN - h * INCH)

    def edge(self, most: bool, leg: str) -> list[Point]:
        """The edge of the largest part that passes, or of the least, as (x, h), from the heel at end 2 over the toe to the heel at end 1, x where the part's own lie."""
        shape = outline_at_limit(self.part, self.limits, most, leg)
        outline = corners_of(outline_between(shape, 0.0, shape.width), ARC_STEP)
        heel = [i for i, (_, h) in enumerate(outline) if abs(h) < 1e-9]
        start = max(heel, key=lambda i: outline[i][0])
        around = [*outline[start:], *outline[:start]]
        grown = self.length - shape.length
        shift = {1: 0.0, 2: grown, 0: grown / 2}[self.stop]
        return [(x + shift, h) for x, h in around]

    def clipped(self, leg: str, points: Sequence[Point]) -> tuple[Point, ...]:
        """A polygon within the stretch, on the page."""
        kept = list(points)
        if self.low > 0:
            kept = clip(kept, lambda x, h: x - self.low)
        if self.high < self.length:
            kept = clip(kept, lambda x, h: self.high - x)
        return tuple(self.at(leg, x, h) for x, h in kept) if len(kept) > 2 else ()

    def drawn(self) -> Group:
        """Both legs: lines, bars, holes, breaks."""
        items: list[Item] = []
        for leg in ("A", "B"):
            items += (polygon(points, "", "ink") for most in (True, False) for points in self.lines(leg, most))
            items += self.bars(leg) + self._breaks(leg)
            for hole in self.part.holes_in(leg):
                items += self.hole(hole)
        witness = witness_line(self.part)
        if witness is not None and self.low < witness < self.high:
            for leg in ("A", "B"):
                out = 1 if leg == "A" else -1
                x, y = self.at(leg, float(witness), 0)
                toe = self.at(leg, 0, float(self.part.section.leg(leg)))[1]
                items.append(Line(x, y, x, toe + out * 3, "narrow"))
        return tuple(items)

    def lines(self, leg: str, most: bool) -> list[tuple[Point, ...]]:
        """The ink of a leg's outline at a limit: outside the largest, inside the least; where it stands at the stop is a bar."""
        breadth = -FINE if most else FINE
        found = (self.clipped(leg, inked(run, breadth / INCH)) for run in self._without_stop(self.edge(most, leg)))
        return [points for points in found if points]

    def _without_stop(self, path: Sequence[Point]) -> list[list[Point]]:
        """The edge without the stretches that stand at the stop, where a bar is."""
        place = {1: 0.0, 2: self.length}.get(self.stop)
        if place is None:
            return [list(path)]
        runs: list[list[Point]] = [[path[0]]]
        for p, q in zip(path, path[1:], strict=False):
            if abs(p[0] - place) < 1e-9 and abs(q[0] - place) < 1e-9:
                runs.append([q])
            else:
                runs[-1].append(q)
        return [run for run in runs if len(run) > 1]

    def bars(self, leg: str) -> Group:
        """What the part is set against: a bar along the heel, and one at the end."""
        out = 1 if leg == "A" else -1
        left, y = self.at(leg, self.low, 0)
        right = self.at(leg, self.high, 0)[0]
        items: list[Item] = [polygon(_lopsided((left, y), (right, y), (0.0, -out * WIDE)), "", "ink")]
        if self.stop:
            way = -1 if self.stop == 1 else 1
            x = left if self.stop == 1 else right
            at_end = [h for place, h in leg_outline(self.part, leg) if abs(place - (0.0 if self.stop == 1 else self.length)) < 1e-9]
            high = max(at_end, default=0.0) * INCH
            if high > 1:
                items.append(polygon(_lopsided((x, y), (x, y + out * high), (way * WIDE, 0.0)), "", "ink"))
        return tuple(items)

    def _breaks(self, leg: str) -> Group:
        """Where the part goes on."""
        heel, toe = sorted((self.at(leg, 0, 0)[1], self.at(leg, 0, float(self.part.section.leg(leg)))[1]))
        items: list[Item] = []
        if self.low > 0:
            items.append(zigzag(self.at(leg, self.low, 0)[0], heel, toe))
        if self.high < self.length:
            items.append(zigzag(self.at(leg, self.high, 0)[0], heel, toe))
        return tuple(items)

    def shows(self, hole: Hole) -> bool:
        """Whether a hole lies whole within the stretch."""
        return (self.low == 0 or hole.x - hole.diameter > self.low) and (self.high == self.length or hole.x + hole.diameter < self.high)

    def rings(self, hole: Hole) -> list[tuple[Point, ...]]:
        """The ink of a hole's two rings, the outer one first: what a hole of the fastener's size stays inside of, and what it always covers.

        Its centre may lie anywhere in a rectangle, as far off along the heel and from it as its two dimensions allow. It is
        dimensioned from end 1: set against another place its distance from there has the length's limits too. Where no place
        is covered always there is no inner ring.
        """
        strays = {1: 0.0, 2: 1.0, 0: 0.5}[self.stop] * float(self.limits.length(self.part.length))
        along, up = float(self.limits.length(hole.x)) + strays, float(self.limits.length(hole.y))
        x, h, radius = float(hole.x), float(hole.y), float(hole.diameter) / 2
        step = 2 * math.degrees(math.acos(max(0.5, 1 - CHORD / (radius * INCH))))
        quarters = ((1, 1, 0), (-1, 1, 90), (-1, -1, 180), (1, -1, 270))
        found = [_ring([p for right, high, at in quarters for p in arc_points(x + right * along, h + high * up, radius, at, at + 90, step)], -FINE)]
        if radius > math.hypot(along, up):  # each quarter of it is the rim of the hole that strays farthest the other way
            low, top = math.degrees(math.asin(up / radius)), math.degrees(math.acos(along / radius))
            spans = ((low, top), (180 - top, 180 - low), (180 + low, 180 + top), (360 - top, 360 - low))
            inner = [p for (right, high, _), span in zip(quarters, spans) for p in arc_points(x - right * along, h - high * up, radius, *span, step)]
            room = min(math.dist(p, (x, h)) for p in inner) * INCH
            found.append(_ring(inner, min(FINE, room / 2)))
        return [tuple(self.at(hole.leg, *p) for p in ring) for ring in found]

    def hole(self, hole: Hole) -> Group:
        """A hole's rings and its cross."""
        if not self.shows(hole):
            return ()
        items: list[Item] = [polygon(ring, "", "ink") for ring in self.rings(hole)]
        (px, py), arm = self.at(hole.leg, float(hole.x), float(hole.y)), float(hole.diameter) / 2 * INCH * 0.5
        return (*items, Line(px - arm, py, px + arm, py, "narrow"), Line(px, py - arm, px, py + arm, "narrow"))

    # --- words ----------------------------------------------------------------------------------------
    def items(self, left: float, right: float) -> Group:
        """The view with its words, between two places across the page [mm]."""
        found = list(self.drawn())
        taken = Taken(found)
        for ways in (*self._names(), *self._notes(left, right)):
            clear = [way for way in ways if not taken.faults(way, 0.3) and bounds(way)[0] >= left and bounds(way)[2] <= right]
            if clear:
                found += clear[0]
                taken.add(clear[0])
        top = bounds(found)[3]
        found.append(Label(left, top + 2.0, self.caption(), FIGURE, "start"))
        return tuple(found)

    def caption(self) -> str:
        """What is shown, and how long the part is."""
        off = self.limits.length(self.part.length)
        whole = f"{both(self.part.length)} ±{fine(off)} long"
        if self.low == 0 and self.high == self.length:
            return whole
        end = 1 if self.low == 0 else 2
        return f"end {end}; {whole}: measure it"

    def _names(self) -> list[list[Group]]:
        """Each leg's name within its outline, its hand, and the ends."""
        found: list[list[Group]] = []
        left, right = self.at("A", self.low, 0)[0], self.at("A", self.high, 0)[0]
        for leg in ("A", "B"):
            middle = self.at(leg, 0, float(self.part.section.leg(leg)) / 2)[1]
            high = float(self.part.section.leg(leg)) * INCH
            ways = []
            for text, letter in ((f"leg {leg}, outer face down", FIGURE), (f"leg {leg}, outer face down", SMALL), (f"leg {leg}", FIGURE), (f"leg {leg}", SMALL)):
                wide = text_width(text, letter)
                for share in (0.5, 0.7, 0.3, 0.85, 0.15):
                    x = left + wide / 2 + 1.5 + (right - left - wide - 3) * share
                    if right - left > wide + 3:
                        ways += [(Label(x, middle + high * up, text, letter, "middle", "middle"),) for up in (0, 0.25, -0.25, 0.36, -0.36)]
                ways += [(Label(x, middle, text, letter, anchor, "middle"),) for x, anchor in ((right + 6, "start"), (left - 6, "end"))]
            found.append(ways)
        for end, x, way in ((1, left, -1), (2, right, 1)):
            if (end == 1 and self.low == 0) or (end == 2 and self.high == self.length):
                word = f"end {end}"
                found.append([(Label(x + way * 4, -BETWEEN / 2, word, FIGURE, "end" if way < 0 else "start", "middle"),)])
        found.append([(Label((left + right) / 2, -BETWEEN / 2, word, SMALL, "middle", "middle"),) for word in ("heel", "")])
        return found

    def _left_at(self, leg: str, end: int) -> float:
        """How wide a leg still is at an end [in]."""
        cuts = [cut.width_left for cut in (*self.part.tapers, *self.part.copes) if (cut.leg, cut.end) == (leg, end)]
        width = self.part.section.leg(leg)
        rounded = [width - corner.radius for corner in self.part.corners if (corner.leg, corner.end) == (leg, end)]
        return float(min([width, *cuts, *rounded]))

    def _notes(self, left: float, right: float) -> list[list[Group]]:
        """The witness line, and how much blunting takes of a feather edge."""
        found: list[list[Group]] = []
        top, bottom = (self.at(leg, 0, float(self.part.section.leg(leg)))[1] for leg in ("A", "B"))
        witness = witness_line(self.part)
        if witness is not None and self.low < witness < self.high:
            x = self.at("A", float(witness), 0)[0]
            words = f"witness line, {both(witness)} from end 1"
            found.append([leader((x, top + 3), (x + way * on, top + up), words, letter=SMALL, end="") for up in (6, 10) for on in (4, 14) for way in (1, -1)])
        for line in taper_lines(self.part):
            if line.to_vertex and ((line.end == 1 and self.low == 0) or (line.end == 2 and self.high == self.length)):
                leg, x = line.other, self.low if line.end == 1 else self.high
                toe, out = (top, 1) if leg == "A" else (bottom, -1)
                tip = self.at(leg, x, 0.8 * self._left_at(leg, line.end))
                taper = self.part.taper_at(line.leg, line.end)
                lost = fine(line.blunting(taper.edge))  # type: ignore[union-attr]
                words = f"feather edge, blunted: {lost} shorter" if taper.blunt is not None else f"feather edge, broken: up to {lost} shorter"  # type: ignore[union-attr]
                way = 1 if line.end == 1 else -1
                found.append([leader(tip, (tip[0] + turn * on, toe + out * up), words, letter=SMALL) for up in (4.5, 9, 14) for on in (5, 12, 30) for turn in (way, -way)])
        return found


def _ring(around: Sequence[Point], breadth: float) -> list[Point]:
    """The ink of a closed line that runs anticlockwise, inside it (a negative breadth [mm]: outside)."""
    points = [p for i, p in enumerate(around) if math.dist(p, around[i - 1]) > 1e-9]
    seam = len(points) // 8  # not where it bends
    turned = [*points[seam:], *points[: seam + 1]]
    return inked(turned, breadth / INCH)


def _lopsided(p: Point, q: Point, out: Point) -> list[Point]:
    """A bar on one side of p-q, its far corners drawn in, so that no renderer moves it to whole dots as it does a rectangle."""
    long = math.dist(p, q)
    ux, uy = (q[0] - p[0]) / long * WIDE, (q[1] - p[1]) / long * WIDE
    return [p, q, (q[0] + out[0] - ux / 2, q[1] + out[1] - uy / 2), (p[0] + out[0] + ux / 2, p[1] + out[1] + uy / 2)]


# --- pages ---------------------------------------------------------------------------------------------
def _stop(part: Part, low: float, high: float) -> int:
    """The end that the part is set against: one that no cut has taken away."""
    shown = [end for end, there in ((1, low == 0), (2, high == float(part.length))) if there and not datum_lost(part, end)]
    return shown[0] if shown else 0


def _stretches(part: Part, most: float) -> list[tuple[float, float]]:
    """The whole part, or both its ends with what lies near them [in]; ``most``: what a page can show."""
    length = float(part.length)
    if length <= most:
        return [(0.0, length)]
    found = []
    for end in (1, 2):
        reach = 2.0
        for low, high in features(part):
            near, far = (low, high) if end == 1 else (length - high, length - low)
            if near < most - MARGIN:
                reach = max(reach, far + MARGIN)
        reach = min(math.ceil(reach / GRID[part.unit] - 1e-9) * GRID[part.unit], most)
        found.append((0.0, reach) if end == 1 else (length - reach, length))
    return found


def _most(on: Paper) -> float:
    """The longest stretch of a part that a page can show [in]."""
    return (room(on) - 2 * SIDE) / INCH


def shows_whole(part: Part, on: Paper) -> bool:
    """Whether a part's check print shows all of it, and so its length; else only its ends."""
    return len(_stretches(part, _most(on))) == 1


def check_pages(part: Part, on: Paper, *, limits: Limits | None = None, scale: PrintScale = AS_PRINTED) -> list[Page]:
    """The pages of a part's check print; ``limits`` are the job's (else those usual for the part's unit)."""
    with writing(part.unit):
        return _check_pages(part, on, limits or Limits.usual(part.unit), scale)


def views(part: Part, on: Paper, limits: Limits) -> list[View]:
    """The stretches of a part that its check print shows on this paper."""
    shown = _stretches(part, _most(on))
    return [View(part, limits, low, high, _stop(part, low, high), on.left + SIDE) for low, high in shown]


def _check_pages(part: Part, on: Paper, limits: Limits, scale: PrintScale) -> list[Page]:
    units: list[list[Block]] = []
    found = views(part, on, limits)
    for view in found:
        items = view.items(on.left, on.left + room(on))
        _, bottom, _, top = bounds(items)
        units.append([(move(items, 0, -top), top - bottom)])
    hand = " The other hand does not fit." if part.handed else ""
    how = f"{HOW}{hand} Limits: {limits.words}, unless the plans say otherwise.{_by_tape(part, found)}"
    y, head = title_strip(part, "check print", how, on, scale)
    legs = f"leg A {exact(part.section.leg_a)} and leg B {exact(part.section.leg_b)} wide"
    sentence = f"Check print at 1:1 of {part.name} ({part.id}), {exact(part.length)} long, {legs}: the largest and the least outline that pass, {len(part.holes)} holes."
    return true_size_pages(part, "check print", sentence, head, y - 2, units, on, scale)


def _by_tape(part: Part, shown: Sequence[View]) -> str:
    """The holes that no stretch shows."""
    away = [hole for hole in part.holes if not any(view.shows(hole) for view in shown)]
    if not away:
        return ""
    words = ", ".join(_measured(part, hole) for hole in away[:12]) + (" and more" if len(away) > 12 else "")
    return f" Not shown, measured from {origin_words(origin(part), part)}: {words}."


def _measured(part: Part, hole: Hole) -> str:
    """A hole's place, read from the edge that the card's readings start from, and the place from end 1 that names it."""
    place = origin(part)
    if place == Origin(END, 1):
        return f"leg {hole.leg} {exact(hole.x)}"
    read = readings_of(Made.as_wanted(part)).get(str(ReadingId(HOLE_X, number=part.holes.index(hole) + 1)))
    return f"leg {hole.leg} {fine(read)} (at {exact(hole.x)})" if read is not None else f"leg {hole.leg} at {exact(hole.x)}"
