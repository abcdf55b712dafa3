"""A template at 1:1 of each tapered end: paper for the outside, and its twin for the inside.

The outside sheet is folded along the heel and lies on both outer faces; the inside sheet is pressed
into the fillet. Both carry the finished line (the edge of its ink next to the part is the dimension),
the metal to sand, and the saw's band on the waste side. Only the tapered end is drawn; what is longer
than the page runs over several, with marks that match. Every page has bars to check the print by.

>>> from anglelib.job import Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [page.title for page in template_pages(bracket, 1, Shop(), A4)]
['Template of Bracket, end 1']
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import leader, linear_dimension, upright_dimension
from anglelib.drawing.face import clip
from anglelib.drawing.letters import text_width
from anglelib.drawing.outline import leg_outline
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, move, polygon
from anglelib.drawing.style import NARROW, WIDE
from anglelib.drawing.symbols import check_bar, datum_sign, zigzag
from anglelib.geometry.layout import datum_lost, witness_line
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.job import Shop
from anglelib.lengths import both
from anglelib.paper.development import Zone, inked, inside, outside, taper_path
from anglelib.paper.page import FIGURE, SMALL, Page, Paper, block, fitting, shortened
from anglelib.part import Part

INCH = 25.4
MARGIN = Fraction(1, 2)
"""What is shown of the whole leg beyond the longest run [in]."""
TILE = 140.0
"""Metal shown on one page at most, along the heel [mm]."""
SIDE = 42.0
"""Room beside the tapered end for figures [mm]."""
BARS = 14.0
"""Room for the check bars [mm]."""
_HALF = NARROW / 2


def tapered_ends(part: Part) -> tuple[int, ...]:
    """The ends that have a taper, end 1 first."""
    return tuple(sorted({taper.end for taper in part.tapers}))


def reach(part: Part, end: int) -> float:
    """How much of the part its template shows from the tapered end [in]; the witness line too if it is near."""
    longest = max(float(line.run) for line in taper_lines(part) if line.end == end) + float(MARGIN)
    witness = witness_line(part)
    if witness is not None:
        away = float(witness if end == 1 else part.length - witness) + 0.3
        if away * INCH <= TILE or away < longest:
            longest = max(longest, away)
    for hole in sorted(part.holes, key=lambda hole: hole.x if end == 1 else -hole.x):  # no hole on the paper's edge
        away, clear = float(hole.x if end == 1 else part.length - hole.x), float(hole.diameter) / 2 + 0.15
        if away - clear < longest < away + clear:
            longest = away + clear
    return min(longest, float(part.length))


@dataclass(frozen=True)
class _Strip:
    """One unrolled sheet on the page: ``x0`` the end's edge, ``fold`` the height of its middle [mm]."""

    part: Part
    end: int
    shop: Shop
    inner: bool
    x0: float
    fold: float
    low: float
    high: float
    """The window along the heel that this page shows [in]."""

    @property
    def way(self) -> int:
        return 1 if self.end == 1 else -1

    @property
    def zones(self) -> tuple[Zone, ...]:
        return inside(self.part.section) if self.inner else outside(self.part.section)

    @property
    def lines(self) -> tuple[TaperLine, ...]:
        return tuple(line for line in taper_lines(self.part) if line.end == self.end)

    def at(self, d: float, v: float) -> Point:
        """A place on the paper [mm]: leg A hangs from the heel outside, and stands on the fillet inside."""
        up = 1 if self.inner else -1
        return self.x0 + self.way * (d - self.low) * INCH, self.fold + up * v * INCH

    def edge(self, leg: str) -> float:
        """v at the toe of a leg [in]."""
        return self.zones[-1].end if leg == "A" else self.zones[0].start

    def out(self, leg: str) -> int:
        """Up (1) or down (-1) from the fold to a leg's toe on the paper."""
        return (1 if leg == "A" else -1) * (1 if self.inner else -1)

    def shows(self, d: float) -> bool:
        return self.low - 1e-9 <= d <= self.high + 1e-9

    def clipped(self, points: Sequence[Point]) -> list[Point]:
        """A polygon within the window, on the paper [mm]."""
        kept = clip(clip(points, lambda d, v: d - self.low), lambda d, v: self.high - d)
        return [self.at(d, v) for d, v in kept] if len(kept) > 2 else []

    # --- what is drawn --------------------------------------------------------------------------
    def draw(self) -> Group:
        items: list[Item] = [*self._paper()]
        for line in self.lines:
            items += self._bands(line)
        items += self._shaped() + self._holes() + self._witness()
        for line in self.lines:
            items += self._finished(line)
        return tuple(items)

    def _paper(self) -> Group:
        """The sheet's edges, its ink outside, and where it folds."""
        zones = self.zones
        bottom, top = sorted((self.at(0, zones[0].start)[1], self.at(0, zones[-1].end)[1]))
        left, right = self.at(self.low, 0)[0], self.at(self.high, 0)[0]
        items: list[Item] = [_edge((left, bottom), (right, bottom), (0, -1)), _edge((left, top), (right, top), (0, 1))]
        if self.low == 0:
            items.append(_edge((left, bottom), (left, top), (-self.way, 0)))
        else:
            items += self._joint(left, bottom, top)
        if abs(self.high - float(self.part.length)) < 1e-9:
            items.append(_edge((right, bottom), (right, top), (self.way, 0)))
        elif abs(self.high - reach(self.part, self.end)) < 1e-9:
            items.append(zigzag(right, bottom, top))
        else:
            items += self._joint(right, bottom, top)
        for zone in zones:
            if not zone.leg:
                items += [Line(left, y, right, y, "tangent") for y in (self.at(0, zone.start)[1], self.at(0, zone.end)[1])]
        if not self.inner or not self.part.section.fillet:
            items.append(Line(left, self.fold, right, self.fold, "fold"))
        return tuple(items)

    def _joint(self, x: float, bottom: float, top: float) -> Group:
        """Where this page's paper meets the next page's: the line, and half a mark on either edge."""
        items: list[Item] = [Line(x, bottom - 4, x, top + 4, "cut")]
        for y, way in ((bottom, -1), (top, 1)):
            items.append(polygon(((x, y), (x - 2, y + way * 3.4), (x + 2, y + way * 3.4)), "", "ink"))
        return tuple(items)

    def _bands(self, line: TaperLine) -> Group:
        """The metal to sand, hatched, and the band that the saw removes."""
        allowance, kerf = float(self.shop.allowance), float(self.shop.kerf)
        items: list[Item] = []
        if allowance:
            # from within the line's ink: the corners of a hatch line's end would stick out on the part's side
            start = NARROW / 2 / INCH
            sand = self.clipped([*taper_path(self.zones, line, start), *reversed(taper_path(self.zones, line, allowance))])
            if sand:
                items.append(Hatch(tuple(sand), 45 * self.out(line.leg) * -self.way, 1.2))
        if kerf:
            near, far = (off + _HALF / INCH for off in (allowance, allowance + kerf))  # the inks' edges towards the part
            band = [*taper_path(self.zones, line, near), *reversed(taper_path(self.zones, line, far))]
            points = self.clipped(band)
            if points:
                items.append(polygon(points, "cut", "paper"))
        return tuple(items)

    def _finished(self, line: TaperLine) -> Group:
        allowance = float(self.shop.allowance) * INCH
        width = WIDE if allowance >= 2 * WIDE or not allowance else NARROW
        points = self.clipped(inked(taper_path(self.zones, line), width / INCH))
        return (polygon(points, "", "accent"),) if points else ()

    def _flat(self, leg: str) -> Zone:
        return self.zones[-1] if leg == "A" else self.zones[0]

    def _shaped(self) -> Group:
        """The finished outline where an end also has a cope or a rounded corner."""
        if self.inner:
            return ()
        items: list[Item] = []
        for leg in ("A", "B"):
            if any((f.leg, f.end) == (leg, self.end) for f in (*self.part.corners, *self.part.copes)):
                zone, length = self._flat(leg), float(self.part.length)
                outline = [(x if self.end == 1 else length - x, zone.place(h)) for x, h in leg_outline(self.part, leg)]
                points = self.clipped(outline)
                if points:
                    items.append(polygon(points, "fine mark", accent=True))
        return tuple(items)

    def _holes(self) -> Group:
        items: list[Item] = []
        for hole in self.part.holes:
            zone = self._flat(hole.leg)
            d = float(hole.x if self.end == 1 else self.part.length - hole.x)
            if not (self.shows(d) and zone.rise < hole.y):
                continue
            x, y = self.at(d, zone.place(float(hole.y)))
            r = float(hole.diameter) / 2 * INCH
            over = r + 1.4
            items += [
                Circle(x, y, r, "narrow"),
                Line(x - over, y, x + over, y, "narrow"),
                Line(x, y - over, x, y + over, "narrow"),
            ]
        return tuple(items)

    def witness(self) -> float | None:
        """The witness line's distance from this end if this page shows it [in]."""
        witness = witness_line(self.part)
        if witness is None:
            return None
        d = float(witness if self.end == 1 else self.part.length - witness)
        return d if self.shows(d) else None

    def _witness(self) -> Group:
        d = self.witness()
        if d is None:
            return ()
        x = self.at(d, 0)[0]
        (_, bottom), (_, top) = sorted((self.at(d, self.edge("A")), self.at(d, self.edge("B"))), key=lambda p: p[1])
        return (Line(x, bottom, x, top, "mark"),)

    # --- what is written --------------------------------------------------------------------------
    def figures(self) -> Group:
        """The marks with their numbers, the faces with their names."""
        items: list[Item] = []
        for line in self.lines:
            items += self._run(line) + self._across(line) + self._waste(line)
            if self.inner:
                items += self._inside_marks(line)
        items += self._names()
        if not self.inner:
            items += self._datum()
        return tuple(items)

    def _measure(self, leg: str, d: float, text: str) -> Group:
        """A dimension from the end beyond a leg's toe, or a note where the end is on another page."""
        if not self.shows(d) or d <= 0:
            return ()
        x, y = self.at(d, self.edge(leg))
        at = y + self.out(leg) * (6.0 if self.out(leg) > 0 else 8.5)
        if self.low == 0:
            start = self.at(0, self.edge(leg))
            way = "end" if self.way > 0 else "start"
            p, q = (start, (x, y)) if self.way > 0 else ((x, y), start)
            return linear_dimension(p, q, at, text, letter=FIGURE, outside=way)
        return leader((x, y), (x - self.way * 4, at), f"{text} from end {self.end}", letter=FIGURE)

    def _run(self, line: TaperLine) -> Group:
        place = line.width - (self.part.section.toe_radius if self.inner else 0)
        if place <= line.width_left:
            return ()
        return self._measure(line.leg, float(line.at(place)), both(line.at(place), 64, "down"))

    def _across(self, line: TaperLine) -> Group:
        """The width left, beside the end; the vertex by its name."""
        if self.inner or self.low:
            return ()
        x = self.x0 - self.way * 5
        if line.to_vertex:
            return leader(self.at(0, 0), (x - self.way * 3, self.fold + self.out(line.other) * 7), "vertex", letter=SMALL)
        zone = self._flat(line.leg)
        if line.width_left <= zone.rise:
            return ()
        p, q = self.at(0, zone.place(0) if zone.rise == 0 else zone.start), self.at(0, zone.place(float(line.width_left)))
        low, high = (p, q) if p[1] < q[1] else (q, p)
        return upright_dimension(low, high, self.x0 - self.way * 7, both(line.width_left, 64, "up"), -self.way, FIGURE)

    def _waste(self, line: TaperLine) -> Group:
        """"waste" where there is room for the word between the saw's band and the toe."""
        if self.low:
            return ()
        wide = text_width("waste", SMALL) / INCH
        beyond = float(self.shop.allowance + self.shop.kerf)
        d = wide + 2.5 / INCH
        top = float(line.width - (self.part.section.toe_radius if self.inner else 0))
        low = float(line.width_left) + d / float(line.slope) + line.shift_across(beyond)
        if top - low > 4.6 / INCH:
            x, y = self.at(1.2 / INCH + wide / 2, self._flat(line.leg).place(top - 2.3 / INCH))
            return (Label(x, y, "waste", SMALL, "middle", "middle"),)
        there = top - float(line.width_left) - line.shift_across(beyond)
        if there * INCH < 1.0:
            return ()
        tip = self.at(0.6 / INCH, self._flat(line.leg).place(top - there / 3))
        return leader(tip, (self.x0 - self.way * 5, self.at(0, self.edge(line.leg))[1]), "waste", letter=SMALL, end="dot")

    def _inside_marks(self, line: TaperLine) -> Group:
        items: list[Item] = []
        if line.vertex_projection is not None:
            items += self._measure(line.other, float(line.vertex_projection), both(line.vertex_projection, 64, "down"))
        if line.first_flat is not None and self.shows(float(line.first_flat)):
            zone, other = self._flat(line.leg), self._flat(line.other)
            tip = self.at(float(line.first_flat), zone.place(zone.rise))
            y = self.at(0, other.place(other.rise))[1] + self.out(line.other) * 3.4
            text = f"beside the fillet {both(line.first_flat, 64, 'down')}"
            items += leader(tip, (tip[0] + self.way * 6, y), text, letter=SMALL)
        return tuple(items)

    def _names(self) -> Group:
        """The faces' names beyond the far edge, or on the faces where the page is full."""
        items: list[Item] = []
        x = self.at(self.high, 0)[0] + self.way * 4.5
        for zone in self.zones:
            v = (zone.start + zone.end) / 2
            name = zone.name if zone.leg else f"{zone.name}, unrolled"
            if zone.leg or (zone.end - zone.start) * INCH > 3.4:
                letter = FIGURE if zone.leg else SMALL
                items.append(Label(x, self.at(0, v)[1], name, letter, "start" if self.way > 0 else "end", "middle"))
        if not self.inner and len(self.zones) == 2:
            items.append(Label(x, self.fold, "heel: fold", SMALL, "start" if self.way > 0 else "end", "middle"))
        return tuple(items)

    def _datum(self) -> Group:
        items: list[Item] = []
        d = self.witness()
        leg = self.lines[0].other
        if d is not None:
            x, y = self.at(d, self.edge(leg))
            text = f"witness line, {both(d if self.end == 1 else witness_line(self.part))} from end 1"
            side = self.out(leg)
            items += leader((x, y), (x + self.way * 4, y + side * 4), text, letter=SMALL)
        if self.end == 1 and self.low == 0 and not datum_lost(self.part, 1):
            y = self.at(0, self.edge(leg))[1] - self.out(leg) * 5
            items += datum_sign(self.x0, y, "datum", letter=FIGURE)
        return tuple(items)


def _ink(x1: float, y1: float, x2: float, y2: float) -> Item:
    """A filled bar between two corners."""
    return polygon(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), "", "ink")


def _edge(p: Point, q: Point, out: Point) -> Item:
    """The ink along an edge of the sheet, wholly outside it, its ends mitred.

    Renderers move straight lines and rectangles to whole dots; a mitred bar stays where it belongs.
    """
    long = math.dist(p, q)
    ux, uy = (q[0] - p[0]) / long * NARROW, (q[1] - p[1]) / long * NARROW
    (ox, oy) = out[0] * NARROW, out[1] * NARROW
    return polygon((p, q, (q[0] + ux + ox, q[1] + uy + oy), (p[0] - ux + ox, p[1] - uy + oy)), "", "ink")


# --- the page -------------------------------------------------------------------------------------------
def template_pages(part: Part, end: int, shop: Shop, on: Paper) -> list[Page]:
    """The pages of one tapered end's template: one, or more where the run is longer than a page."""
    whole = reach(part, end)
    windows = _windows(whole * INCH)
    pages: list[Page] = []
    for number, (low, high) in enumerate(windows, 1):
        piece = f"piece {number} of {len(windows)}" if len(windows) > 1 else ""
        sheets = [_sheet(part, end, shop, inner, low / INCH, high / INCH, on) for inner in (False, True)]
        top, items = _head(part, end, shop, on, piece)
        floor = on.bottom + BARS + 2
        (outer, outer_deep), (inner, inner_deep) = sheets
        if top - outer_deep - inner_deep >= floor:
            spare = min((top - outer_deep - inner_deep - floor) / 3, 10.0)
            drawn = move(outer, 0, top - spare) + move(inner, 0, top - 2 * spare - outer_deep)
            pages.append(_page(part, end, items + drawn + _bars(on), piece, "outside and inside"))
        else:
            pages.append(_page(part, end, items + move(outer, 0, top) + _bars(on), piece, "outside"))
            pages.append(_page(part, end, items + move(inner, 0, top) + _bars(on), piece, "inside"))
    return pages


def _windows(long: float) -> list[tuple[float, float]]:
    """The stretches along the heel that the pages show [mm], all of one length."""
    count = math.ceil(long / TILE - 1e-9)
    return [(long * i / count, long * (i + 1) / count) for i in range(count)]


def _page(part: Part, end: int, items: Group, piece: str, faces: str) -> Page:
    lines = [line for line in taper_lines(part) if line.end == end]
    words = "; ".join(
        f"leg {line.leg} tapered over a run of {both(line.run, 64, 'down')} to "
        + (f"a width left of {both(line.width_left, 64, 'up')}" if line.width_left else "the vertex")
        for line in lines
    )
    title = f"Template of {part.name}, end {end}" + (f", {piece}" if piece else "")
    sentence = f"Template at 1:1 of the {faces} of {part.name} ({part.id}), end {end}: {words}."
    return Page(title, sentence, items, f"Template {part.id}, end {end}")


def _head(part: Part, end: int, shop: Shop, on: Paper, piece: str) -> tuple[float, Group]:
    """Name, what it is, how it is used, the key; and the height below it."""
    name, letter = fitting(part.name, on.room - 60)
    y = on.top
    items: list[Item] = [Label(on.left, y, name, letter, "start", "top")]
    items.append(Label(on.right, y, f"template 1:1, end {end}", FIGURE, "end", "top"))
    if piece:
        items.append(Label(on.right, y - 6, piece, FIGURE, "end", "top"))
    y -= 11
    hand = f", hand: {part.hand}" if part.hand else ""
    facts = f"{part.id}, {part.quantity} off{hand}, section {part.section.size}, {part.alloy}"
    items.append(Label(on.left, y, shortened(facts, on.room, SMALL), SMALL, "start", "top"))
    y -= 6
    how = (
        f"Cut the paper at its edges. Outside: fold on the heel, print outwards, end edge on the squared end {end}. Inside: "
        "press into the fillet, print towards you. Saw in the band, sand to the line: the edge of the ink next to the part "
        "is the dimension. Fractions are rounded so that metal is left. Print at actual size and measure the bars first."
    )
    text, y = block(on.left, y, how, on.room)
    items += text
    items += _key(on.left, y - 4.2, shop)
    return y - 8, tuple(items)


def _key(x: float, y: float, shop: Shop) -> Group:
    """What the lines are, in one row; x, y is its lower left corner."""
    items: list[Item] = [polygon(((x, y + 1), (x + 9, y + 1), (x + 9, y + 1 + NARROW), (x, y + 1 + NARROW)), "", "accent")]
    items.append(Label(x + 11, y, "finished line", SMALL, "start"))
    at = x + 38
    if shop.allowance:
        patch = ((at, y), (at + 9, y), (at + 9, y + 2.5), (at, y + 2.5))
        text = f"metal to sand, {both(shop.allowance)}"
        items += [Hatch(patch, 45, 1.2), polygon(patch, "cut"), Label(at + 11, y, text, SMALL, "start")]
        at += 15 + text_width(text, SMALL)
    if shop.kerf:
        items += [
            polygon(((at, y), (at + 9, y), (at + 9, y + 2.5), (at, y + 2.5)), "cut", "paper"),
            Label(at + 11, y, f"saw, kerf {both(shop.kerf)}", SMALL, "start"),
        ]
    return tuple(items)


def _bars(on: Paper) -> Group:
    """The check bars: two across the page, one up its edge, for a printer that stretches one way only."""
    wide, x, y = 2.0, on.right, on.bottom

    items = [
        _ink(x - wide, y, x - wide + 0.25, y + 100),
        _ink(x - 0.25, y, x, y + 100),
        _ink(x - wide, y, x, y + 0.25),
        _ink(x - wide, y + 99.75, x, y + 100),
    ]
    items += [_ink(x - wide, y + 10 * i, x, y + 10 * (i + 1)) for i in range(0, 10, 2)]
    items.append(Label(x - wide - 1, y + 50, "this bar is 100 mm too", SMALL, "middle", "bottom", 90))
    return (*check_bar(on.left, y), *items)


def _sheet(part: Part, end: int, shop: Shop, inner: bool, low: float, high: float, on: Paper) -> tuple[Group, float]:
    """One unrolled sheet with its top at y = 0, and how deep it is with its figures [mm]."""
    x0 = on.left + SIDE if end == 1 else on.right - SIDE
    strip = _Strip(part, end, shop, inner, x0, 0.0, low, high)
    above = 11.0 if _measured(strip, up=True) else 8.0
    below = 11.0 if _measured(strip, up=False) else 4.0
    top = max(strip.at(0, strip.edge(leg))[1] for leg in ("A", "B"))
    bottom = min(strip.at(0, strip.edge(leg))[1] for leg in ("A", "B"))
    caption = Label(on.left, top + above + 1.5, "inside" if inner else "outside", FIGURE, "start", "top")
    drawn = strip.draw() + strip.figures() + (caption,)
    high_up = top + above + 2
    return move(drawn, 0, -high_up), high_up - bottom + below


def _measured(strip: _Strip, up: bool) -> bool:
    way = 1 if up else -1
    return any(strip.out(line.leg) == way or (strip.inner and strip.out(line.other) == way) for line in strip.lines)

