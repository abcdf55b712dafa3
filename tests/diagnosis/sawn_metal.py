"""A part as metal: half-spaces of an L-shaped bar, and what a rule or a caliper finds on it.

Written from the part's description alone; it shares nothing with the library's own idea of a made
part. A bar is two slabs. Ends and tapers are planes, each of which cuts the whole bar, so a taper
of one leg also takes what it meets of the other. Every reading is a ray through the half-spaces.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import atan, cos, inf, radians, sin, tan

EDGE = 1 / 128
"""A feather edge is broken by eye, to anything up to 1/64 [in]."""
AXIS = {"A": 1, "B": 2}
"""Leg A stands along y, leg B along z."""


@dataclass(frozen=True)
class Line:
    """Instructions for a taper: how it is laid out and how the saw then follows the line.

    ``aside`` [in] moves the cut square to the line, into the part; ``turned`` [deg] turns it about
    the toe mark, or about the mark at the end; ``leaning`` [deg] tilts it about its outer edge.
    """

    leg: str
    end: int
    run: float
    left: float
    aside: float = 0.0
    turned: float = 0.0
    about_toe: bool = True
    leaning: float = 0.0


@dataclass(frozen=True)
class Dot:
    """Instructions for a hole."""

    leg: str
    x: float
    y: float


@dataclass(frozen=True)
class Notch:
    """Instructions for a cope: a leg cut back square from an end, down to the width left beside it."""

    leg: str
    end: int
    length: float
    left: float


@dataclass(frozen=True)
class Arc:
    """Instructions for a rounded corner; its radius is read by gauges, and a rule rests beside it."""

    leg: str
    end: int
    radius: float


@dataclass(frozen=True)
class Work:
    """Everything that was done: where ends, lines and holes were laid out, and what befell them.

    ``first`` and ``last`` are the ends on the heel; ``base_2`` is where the lines at end 2 were
    measured from. ``out_1``, ``out_2`` [deg] are (leg A, leg B) errors of square; ``filed`` [in]. ``edges``
    is how thick the feather edge at each end is after it was broken by eye [in]. ``place`` is what holes are
    read from ("end 1", "end 2", "toe A 1" ...: the first of these that still stands on the finished part), ``halves`` where
    a width half-way along a taper is read: half its run as drawn, from where it starts on the toe. ``beside`` is how high on
    (leg, end) a toe's length is read where the drawing rounds its corner: a sixteenth below the arc, or half as high as it begins.
    """

    width: tuple[float, float]
    thick: tuple[float, float]
    first: float
    last: float
    base_2: float
    lines: tuple[Line, ...]
    dots: tuple[Dot, ...]
    out_1: tuple[float, float] = (0.0, 0.0)
    out_2: tuple[float, float] = (0.0, 0.0)
    filed: tuple[float, float] = (0.0, 0.0)
    shrunk: float = 0.0
    alloy: str = ""
    edges: tuple[float, float] = (0.0, 0.0)
    place: str = "end 1"
    halves: tuple = ()
    notches: tuple[Notch, ...] = ()
    arcs: tuple[Arc, ...] = ()
    beside: tuple = ()
    planes: tuple = field(default=(), compare=False)

    def sawn(self) -> Work:
        """The same with its planes: each (a, b, c, d) keeps a x + b y + c z <= d."""
        (pa, pb), (qa, qb) = ([tan(radians(v)) for v in out] for out in (self.out_1, self.out_2))
        planes = [(-1.0, pa, pb, -self.first), (1.0, -qa, -qb, self.last)]
        planes += [self._taper(line) for line in self.lines]
        planes += [self._edge(line) for line in self.lines if self.edges[line.end - 1]]
        return replace(self, planes=tuple(planes))

    def _edge(self, line: Line) -> tuple[float, float, float, float]:
        """A square plane that takes off what is thinner than the broken edge: where the taper's plane stands so high on its leg."""
        a, b, c, d = self._taper(line)
        high = (b, c)[AXIS[line.leg] - 1] * self.edges[line.end - 1]
        x = (d - high) / a
        return (-1.0, 0.0, 0.0, -x) if line.end == 1 else (1.0, 0.0, 0.0, x)

    def _taper(self, line: Line) -> tuple[float, float, float, float]:
        side = AXIS[line.leg] - 1
        height = self.width[side] - line.left
        angle = atan(height / line.run) + radians(line.turned)
        # A point of the line: (distance from the end, height from the heel).
        point = (line.run, self.width[side]) if line.about_toe else (0.0, line.left)
        # Keep sin * u - cos * v >= sin * u0 - cos * v0 + aside, u from the end inwards, v up the leg.
        u, v = sin(angle), -cos(angle)
        limit = u * point[0] + v * point[1] + line.aside
        through = tan(radians(line.leaning))
        inward = 1.0 if line.end == 1 else -1.0
        start = 0.0 if line.end == 1 else self.base_2
        row = [-u * inward, 0.0, 0.0, -limit - u * inward * start]
        row[AXIS[line.leg]] = -v
        row[3 - AXIS[line.leg]] = through
        return tuple(row)

    def toe(self, leg: str) -> float:
        """Height of a leg away from its tapers."""
        return self.width[AXIS[leg] - 1] - self.filed[AXIS[leg] - 1]

    def spot(self, leg: str, along: float, through: float) -> tuple[float, float]:
        """(y, z) of a place on a leg."""
        return (along, through) if leg == "A" else (through, along)

    def ray(self, start: tuple[float, float, float], way: tuple[float, float, float], skip: int = -1) -> tuple[float, float]:
        """From where to where a line is inside all half-spaces; one of them may be left out."""
        low, high = -inf, inf
        for i, (a, b, c, d) in enumerate(self.planes):
            if i == skip:
                continue
            rate = a * way[0] + b * way[1] + c * way[2]
            room = d - (a * start[0] + b * start[1] + c * start[2])
            if rate > 1e-12:
                high = min(high, room / rate)
            elif rate < -1e-12:
                low = max(low, room / rate)
            elif room < -1e-9:
                return inf, -inf
        return low, high

    def along(self, leg: str, height: float, through: float = 0.0) -> tuple[float, float]:
        """From which x to which x there is metal on a line along the bar."""
        low, high = self.ray((0.0, *self.spot(leg, height, through)), (1.0, 0.0, 0.0))
        for notch in self.notches:
            if notch.leg == leg and height > notch.left:
                low, high = (max(low, notch.length), high) if notch.end == 1 else (low, min(high, self.base_2 - notch.length))
        return low, high

    def toe_ends(self, leg: str) -> tuple[float, float]:
        """From where to where along x a toe is read: at its corners, or beside the arcs that the drawing has."""
        heights = dict(self.beside)
        return tuple(self.along(leg, heights.get((leg, end), self.toe(leg)))[end - 1] for end in (1, 2))

    def rise(self, leg: str, end: int, through: float) -> float:
        """How high the leg stands in the plane of an end, so deep behind its outer face.

        A leg with no taper at that end is callipered across, square, just behind its beginning; so is
        a leg whose end has been taken whole.
        """
        toe = self.toe(leg)
        for notch in self.notches:
            reach = notch.length if notch.end == 1 else self.base_2 - notch.length
            if (notch.leg, notch.end) == (leg, end) and (reach - self.along("A", 0.0)[end - 1]) * (3 - 2 * end) > 0:
                toe = min(toe, notch.left)
        if not any((line.leg, line.end) == (leg, end) for line in self.lines):
            return toe
        skip = end - 1
        a, b, c, d = self.planes[skip]
        heel = self.along("A", 0.0)[skip]
        if abs(a * heel - d) > 1e-9:
            b, c, d = 0.0, 0.0, a * heel

        def in_end(height: float) -> tuple[float, float, float]:
            y, z = self.spot(leg, height, through)
            return ((d - b * y - c * z) / a, y, z)

        zero, one = in_end(0.0), in_end(1.0)
        low, high = self.ray(zero, tuple(q - p for p, q in zip(zero, one)), skip)
        if low > 1e-9 or high < 0:
            return 0.0
        return min(high, toe)


def measure(work: Work, names: tuple[str, ...]) -> list[float]:
    """The readings of these names [in], with no error of reading."""
    work = work if work.planes else work.sawn()
    heel = work.along("A", 0.0)
    cold = 1.0 - work.shrunk
    found = []
    for name in names:
        words = name.split(".")
        if name == "heel":
            value = (heel[1] - heel[0]) * cold
        elif words[0] == "toe":
            low, high = work.toe_ends(words[1])
            value = max(0.0, high - low) * cold
        elif words[0] in ("start", "cope"):
            low, high = work.along(words[1], work.toe(words[1]))
            value = (low - heel[0] if words[2] == "1" else heel[1] - high) * cold
        elif words[0] == "hole":
            dot = work.dots[int(words[1]) - 1]
            value = abs(dot.x - _from(work, heel)) * cold if words[2] == "x" else dot.y * cold
        elif words[0] == "mid":
            value = _half_way(work, words[1], int(words[2])) * cold
        elif words[0] == "width":
            value = work.rise(words[1], int(words[2]), 0.0) * cold
        elif words[0] == "inside" and len(words) > 2:
            leg = words[1]
            depth, root = work.thick[AXIS[leg] - 1], work.thick[2 - AXIS[leg]]
            value = max(0.0, work.rise(leg, int(words[2]), depth) - root) * cold
        elif words[0] == "inside":
            value = work.toe(words[1]) - work.thick[2 - AXIS[words[1]]]
        elif words[0] == "corner":
            value = next((arc.radius for arc in work.arcs if (arc.leg, arc.end) == (words[1], int(words[2]))), 0.0)
        elif words[0] == "thickness":
            value = work.thick[AXIS[words[1]] - 1]
        else:
            raise ValueError(name)
        found.append(value)
    return found


def _from(work: Work, heel: tuple[float, float]) -> float:
    """x of what holes are read from."""
    kind, *where = work.place.split()
    if kind == "end":
        return heel[int(where[0]) - 1]
    return work.along(where[0], work.toe(where[0]))[int(where[1]) - 1]


def _half_way(work: Work, leg: str, end: int) -> float:
    """The width of a leg half a run behind where its taper starts on the toe; all of it where it has no taper there."""
    if not any((line.leg, line.end) == (leg, end) for line in work.lines):
        return work.toe(leg)
    start = work.along(leg, work.toe(leg))[end - 1]
    x = start - work.halves[2 * (AXIS[leg] - 1) + end - 1] * (1 if end == 1 else -1)
    y, z = work.spot(leg, 1.0, 0.0)
    low, high = work.ray((x, 0.0, 0.0), (0.0, y, z))
    return max(0.0, min(high, work.toe(leg))) if high > low else 0.0


def as_drawn(part) -> Work:
    """The work of a part that is just as its drawing."""
    section, length = part.section, float(part.length)
    width = (float(section.leg_a), float(section.leg_b))
    lines = []
    for taper in part.tapers:
        left = float(taper.width_left)
        height = width[AXIS[taper.leg] - 1] - left
        run = float(taper.run) if taper.run is not None else height / tan(radians(float(taper.angle)))
        lines.append(Line(taper.leg, taper.end, run, left))
    dots = tuple(Dot(hole.leg, float(hole.x), float(hole.y)) for hole in part.holes)
    thick = (float(section.thickness_a), float(section.thickness("B")))
    feather = {end: any(line.end == end and line.left == 0 for line in lines) for end in (1, 2)}
    standing = [f"end {end}" for end in (1, 2) if not feather[end]]
    corners = [f"toe {line.leg} {line.end}" for line in sorted(lines, key=lambda v: (v.end, v.leg))]
    halves = {(line.leg, line.end): line.run / 2 for line in lines}
    notches = tuple(Notch(c.leg, c.end, float(c.length), float(c.width_left)) for c in part.copes)
    arcs = tuple(Arc(c.leg, c.end, float(c.radius)) for c in part.corners)
    low = {(arc.leg, arc.end): width[AXIS[arc.leg] - 1] - arc.radius for arc in arcs}
    return Work(
        width, thick, 0.0, length, length, tuple(lines), dots, alloy=part.alloy,
        edges=tuple(EDGE if feather[end] else 0.0 for end in (1, 2)), place=[*standing, *corners][0],
        halves=tuple(halves.get((leg, end), 0.0) for leg in "AB" for end in (1, 2)), notches=notches, arcs=arcs,
        beside=tuple((where, max(at - 1 / 16, at / 2)) for where, at in low.items()),
    )  # fmt: skip
