"""Edge-distance circles on a leg: round each hole the circle that no edge may cut, the legal region, the worst hole named.

The leg's outer face, end 1 at the left; leg A hangs from its heel, leg B stands on it. Hidden: where the fillet ends
inside. Geometry only: what an edge distance must be is the plans' business.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Floor cleat, left", stock, "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run=2)], [Hole("A", "1 7/16", "7/16", "1/8")])
>>> print(edge_sheet(Edges(cleat, "A")).sentence)
Floor cleat, leg A, outer face: run 2 (2.000), width left 3/8 (0.375); one hole for 1/8 rivets, the circle round it 2 diameters. Worst, the hole at x = 1 7/16: EDGE SHORT by 3/64 (1.63 diameters), to the taper at end 1. The head clears the fillet. A hole's centre is legal in the hatched region, from 3/8 (0.375) above the heel.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import atan2, degrees, hypot

from anglelib.drawing.dimensions import arrow
from anglelib.drawing.letters import text_width
from anglelib.drawing.outer_view import direction
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Polyline, Sheet, polygon
from anglelib.drawing.symbols import hole as hole_sign
from anglelib.drawing.symbols import zigzag
from anglelib.drawing.warning import warning_sign
from anglelib.geometry.fasteners import HEAD, on_fillet
from anglelib.geometry.hole_words import verdict_sentence
from anglelib.geometry.holes import BEVEL, FAR, KEPT, TAPER, TOE, EdgeDistance, least_edge, legal_region, row_band, worst_edge
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lengths import both, exact, own
from anglelib.part import Hole, Part

WIDTH, HEIGHT = 234.0, 116.0
LETTER, LARGE = 3.5, 5.0
LEFT, RIGHT, LOW, TOP = 18.0, 212.0, 26.0, 104.0


@dataclass(frozen=True)
class Edges:
    """A leg of a part, and whether its legal region is drawn."""

    part: Part
    leg: str
    region: bool = True

    @property
    def holes(self) -> tuple[Hole, ...]:
        """The holes of the leg."""
        return self.part.holes_in(self.leg)

    @property
    def worst(self) -> EdgeDistance:
        """The edge distance that falls short by most, or is kept by least."""
        found = [worst_edge(self.part, hole) for hole in self.holes]
        return min(found, key=lambda edge: edge.margin)

    @property
    def line(self) -> TaperLine | None:
        """The leg's taper at end 1, else one of its tapers."""
        return next((line for line in taper_lines(self.part) if line.leg == self.leg), None)


@dataclass(frozen=True)
class Shown:
    """``answer``: circles, distances and the verdict may show; ``prediction`` [diameters] is kept as a ghost circle."""

    answer: bool = True
    prediction: float | None = None
    few: bool = False


class _Face:
    """Where a point of the leg lies on the paper [mm]."""

    def __init__(self, view: Edges) -> None:
        part = view.part
        self.width, self.length = float(part.section.leg(view.leg)), float(part.length)
        places = [float(line.run) for line in taper_lines(part) if line.end == 1] + [float(hole.x) for hole in view.holes]
        whole = self.length <= 4.2 * self.width
        self.reach = self.length if whole else min(self.length, max(*places, 2 * self.width) + self.width / 2)
        self.broken = self.reach < self.length
        self.unit = min((RIGHT - LEFT) / self.reach, (TOP - LOW) / self.width)
        self.up = direction(view.leg)
        self.heel = (TOP if self.up < 0 else LOW) if self.unit == (TOP - LOW) / self.width else (LOW + TOP) / 2 - self.up * self.width * self.unit / 2

    def at(self, x: float, y: float) -> Point:
        return LEFT + x * self.unit, self.heel + self.up * y * self.unit


def edge_sheet(view: Edges, shown: Shown = Shown()) -> Sheet:
    """The leg with its holes; once it may show, the circles, the nearest edge of the worst hole, and the legal region."""
    face = _Face(view)
    labels: list[Item] = []
    items: list[Item] = [*_region(view, face, shown), *_outline(view, face), *_fillet(view, face)]
    for hole in view.holes:
        x, y = face.at(float(hole.x), float(hole.y))
        if float(hole.x) <= face.reach:
            items += hole_sign(x, y, float(hole.diameter) / 2 * face.unit)
            items += _circles(view, hole, x, y, face, shown)
    if shown.answer:
        nearest, words = _nearest(view, face)
        items += nearest
        labels += words if view.worst.distance > 0 else ()
    labels += _words(view, face, shown)
    return Sheet(WIDTH, HEIGHT, (*items, *labels), "Edge distances", edge_sentence(view, shown))


# --- the leg --------------------------------------------------------------------------------------------
def _outline(view: Edges, face: _Face) -> Group:
    """The leg's edge from end 1 to end 2 or to a break."""
    width, far = face.width, face.reach
    one = next((line for line in taper_lines(view.part) if line.leg == view.leg and line.end == 1), None)
    two = None if face.broken else next((line for line in taper_lines(view.part) if line.leg == view.leg and line.end == 2), None)
    start = [(0.0, 0.0), (0.0, float(one.width_left)), (float(one.run), width)] if one else [(0.0, 0.0), (0.0, width)]
    stop = [(far, 0.0), (far, float(two.width_left)), (far - float(two.run), width)] if two else [(far, 0.0), (far, width)]
    if one and float(one.run) > far:  # the run is longer than what is drawn: the line leaves through the far side
        start[-1] = (far, float(one.width_left) + far / float(one.slope))
        stop = [(far, 0.0), start[-1]]
    points = [face.at(*p) for p in (*start[::-1], *stop)]
    if face.broken:
        pieces = [Polyline((*[face.at(*p) for p in (stop[-1], *start[::-1])], face.at(*stop[0])), "outline")]
        low, high = sorted((face.at(far, 0)[1], face.at(far, stop[-1][1])[1]))
        return (*pieces, zigzag(face.at(far, 0)[0], low, high))
    return (polygon(points, "outline"),)


def _fillet(view: Edges, face: _Face) -> Group:
    """Hidden: where the fillet ends inside."""
    root = float(view.part.section.thickness("B" if view.leg == "A" else "A") + view.part.section.fillet)
    start = 0.0
    line = view.line
    if line is not None and line.end == 1 and float(line.width_left) < root:
        start = float(line.at(root))
    return (Line(*face.at(start, root), *face.at(face.reach, root), "hidden"),)


def _region(view: Edges, face: _Face, shown: Shown) -> Group:
    """Where a hole's centre may lie, for the first hole's rivet."""
    if not (view.region and shown.answer and view.holes):
        return ()
    first = view.holes[0]
    corners = legal_region(view.part, view.leg, first.diameter, first.flush)
    points = tuple(face.at(min(x, face.reach), y) for x, y in corners)
    if len(points) < 3 or max(p[0] for p in points) - min(p[0] for p in points) < 0.05:
        return ()
    return (Hatch(points, 45 if face.up > 0 else -45, 3.2), polygon(points, "narrow"))


def _circles(view: Edges, hole: Hole, x: float, y: float, face: _Face, shown: Shown) -> Group:
    """The circle that no edge may cut, and the rivet's head."""
    items: list[Item] = []
    if shown.answer:
        short = worst_edge(view.part, hole).outcome != KEPT
        items.append(Circle(x, y, float(least_edge(hole)) * face.unit, "mark" if short else "fine-mark", "", True))
        items.append(Circle(x, y, float(HEAD * hole.diameter) / 2 * face.unit, "hidden"))
    if shown.prediction is not None and 0 < shown.prediction < 20 and hole == view.holes[0]:
        items.append(Circle(x, y, shown.prediction * float(hole.diameter) * face.unit, "ghost"))
    return tuple(items)


def foot(view: Edges, edge: EdgeDistance) -> Point:
    """The point of the nearest edge that the distance runs to: x from end 1, y from the heel [in]."""
    hole, part = edge.hole, view.part
    x, y = float(hole.x), float(hole.y)
    kind, end = edge.to
    if kind == TOE:
        return x, float(part.section.leg(view.leg))
    if kind == TAPER:
        line = next(one for one in taper_lines(part) if one.leg == view.leg and one.end == end)
        run, height = float(line.run), float(line.width - line.width_left)
        from_end = x if end == 1 else float(part.length) - x
        along = (from_end * run + (y - float(line.width_left)) * height) / (run * run + height * height)
        along = min(1.0, max(0.0, along))
        place = along * run
        return (place if end == 1 else float(part.length) - place), float(line.width_left) + along * height
    return (x - edge.distance if end == 1 else x + edge.distance), y


def _nearest(view: Edges, face: _Face) -> tuple[Group, Group]:
    """From the worst hole to its nearest edge, with the distance in diameters."""
    edge = view.worst
    here, there = face.at(float(edge.hole.x), float(edge.hole.y)), face.at(*foot(view, edge))
    long = hypot(there[0] - here[0], there[1] - here[1])
    items: list[Item] = [Line(*here, *there, "dimension", True)]
    if edge.to.kind == BEVEL:
        line = next(one for one in taper_lines(view.part) if one.leg != view.leg and one.end == edge.to.end)
        place = float(line.vertex_projection) if line.end == 1 else face.length - float(line.vertex_projection)  # type: ignore[arg-type]
        items.append(Line(*face.at(place, 0), *face.at(place, face.width), "hidden"))
    if long > 1:
        items.append(arrow(*there, degrees(atan2(there[1] - here[1], there[0] - here[0])), accent=True))
    dx, dy = ((there[0] - here[0]) / long, (there[1] - here[1]) / long) if long else (0.0, 1.0)
    out = float(least_edge(edge.hole)) * face.unit + 4
    x, y = here[0] - dx * out, here[1] - dy * out
    x, y = min(max(x, 14), WIDTH - 40), min(max(y, 20), HEIGHT - 11)  # under what is said of the head
    return tuple(items), (Label(x, y, f"{edge.diameters:.2f} D", LETTER, "middle", "middle", halo=True, accent=True),)


def _words(view: Edges, face: _Face, shown: Shown) -> Group:
    items: list[Item] = []
    side = RIGHT + 4 if face.reach * face.unit > RIGHT - LEFT - 20 else LEFT + face.reach * face.unit + 5
    items.append(Label(side, face.at(0, 0)[1], "heel", LETTER, "start", "middle", halo=True))
    items.append(Label(side, face.at(0, face.width)[1], "toe", LETTER, "start", "middle", halo=True))
    items.append(Label(2, HEIGHT - 4, "end 1", LETTER, "start", "middle", halo=True))
    if shown.prediction is not None and not shown.few:
        items.append(Label(3, 17, f"dotted: your {float(shown.prediction):.2f} D", LETTER, "start", halo=True))
    if shown.answer:
        short = view.worst.outcome != KEPT
        if short:
            items += warning_sign(3, 6)
        text = verdict_sentence(view.worst)
        start = 13 if short else 3
        high = LARGE if start + text_width(text, LARGE) < WIDTH - 3 else LETTER
        items.append(Label(start, 6.5, text, high, "start", halo=True, accent=short))
        sits = any(on_fillet(view.part, hole) for hole in view.holes)
        if sits or not shown.few:
            words = "HEAD ON THE FILLET" if sits else "the head clears the fillet"
            items.append(Label(WIDTH - 3, HEIGHT - 4, words, LETTER, "end", "middle", halo=True, accent=sits))
            items += warning_sign(WIDTH - 13 - text_width(words, LETTER) * (1.1 if shown.few else 1), HEIGHT - 7) if sits else ()
    return tuple(items)


def edge_sentence(view: Edges, shown: Shown = Shown()) -> str:
    """What the picture shows, in words."""
    part, line = view.part, view.line
    name = part.name.split(",")[0]
    taper = f"run {both(Fraction(line.run))}, width left {both(Fraction(line.width_left))}" if line else "not tapered"
    first = view.holes[0]
    count = "one hole" if len(view.holes) == 1 else f"{len(view.holes)} holes"
    flush = "flush " if first.flush else ""
    words = f"{name}, leg {view.leg}, outer face: {taper}; {count} for {flush}{own(first.diameter)} rivets"
    if shown.prediction is not None:
        words += f"; your prediction is {float(shown.prediction):.2f} diameters"
    if not shown.answer:
        return f"{words}. How far each lies from its edges is not shown yet."
    edge = view.worst
    words += f", the circle round {'it' if len(view.holes) == 1 else 'each'} {'2.5' if first.flush else '2'} diameters. Worst, the hole at x = {exact(edge.hole.x)}: {verdict_sentence(edge)}."
    words += " THE HEAD SITS ON THE FILLET." if any(on_fillet(part, hole) for hole in view.holes) else " The head clears the fillet."
    far = [hole for hole in view.holes if worst_edge(part, hole).diameters > float(FAR)]
    if far:
        words += " For information: its nearest edge is more than 4 diameters away."
    if view.region:
        region = legal_region(part, view.leg, first.diameter, first.flush)
        low = row_band(part.section, view.leg, first.diameter, first.flush)[0]
        words += f" A hole's centre is legal in the hatched region, from {both(low)} above the heel." if region else " No place on this leg is legal for this rivet."
    return words
