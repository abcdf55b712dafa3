"""A finished part as shapely polygons of its drawing's numbers, and what a rule and a caliper read on it.

Each leg has two polygons, its outer and its inner face: a rectangle less what lies beyond each saw line (through two points of
the drawing), less each cope, each rounded corner, and whatever is thinner than the broken or blunted feather edge. A reading
is where a line across a polygon meets its edge. Of the library only the description of a part is used, and the ids of its
readings: which edge a place is read from is the library's choice, where that edge lies is not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import cos, hypot, radians, sin

from cutters import corner_arc, notch, rounded_off
from shapely import LineString, Polygon, box
from straightedge import at_distance, at_height

WIDE = 200.0
SKIN = 1e-8
"""So far inside the metal a line is laid that is to lie on its edge [in]."""
BROKEN = 1 / 128
"""A feather edge is broken by eye, by anything up to 1/64: half of that [in]."""

Point = tuple[float, float]


@dataclass(frozen=True)
class Sawn:
    """A taper as it was sawn: its leg and end, and two points of its line on the leg's outer face, (x, y) [in]."""

    leg: str
    end: int
    low: Point
    high: Point
    edge: float = 0.0
    """To what thickness the feather edge that it leaves was taken [in]."""


@dataclass(frozen=True)
class Notch:
    """A cope: how far its face is from x of its end, what it leaves, its inside radius [in]."""

    leg: str
    end: int
    deep: float
    left: float
    radius: float
    base: float = 0.0
    """x of the end that it was laid out from, for end 2."""


@dataclass(frozen=True)
class Round:
    leg: str
    end: int
    radius: float


@dataclass(frozen=True)
class Drilled:
    leg: str
    x: float
    y: float


@dataclass(frozen=True)
class Metal:
    """What was made. ``first`` and ``last`` are x of its ends [in]."""

    widths: dict[str, float]
    thick: dict[str, float]
    first: float
    last: float
    sawn: tuple[Sawn, ...] = ()
    notches: tuple[Notch, ...] = ()
    rounds: tuple[Round, ...] = ()
    drilled: tuple[Drilled, ...] = ()

    # --- the faces ------------------------------------------------------------------------------------
    def sharp_face(self, leg: str) -> Polygon:
        """The outer face as its ends and its own tapers leave it."""
        face = box(self.first, 0, self.last, self.widths[leg])
        for cut in self.sawn:
            if cut.leg == leg:
                face = face.difference(beyond(cut))
        return face

    @cached_property
    def outer(self) -> dict[str, Polygon]:
        """The finished outer face of each leg."""
        return {leg: self._outer(leg) for leg in "AB"}

    def _outer(self, leg: str) -> Polygon:
        sharp = self.sharp_face(leg)
        face = sharp
        for cut in self.notches:
            if cut.leg == leg:
                away = notch(cut.base, cut.end, cut.deep, cut.left, cut.radius, self.widths[leg], steps=128)
                face = face.difference(away)
        for cut in self.rounds:
            if cut.leg == leg:
                face = face.difference(rounded_off(sharp, self.widths[leg], cut.end, cut.radius, steps=128))
        for end, x in self.dressed().items():
            face = face.difference(upto(end, x))
        return max(getattr(face, "geoms", [face]), key=lambda piece: piece.area)  # where arcs meet, slivers fall off

    @cached_property
    def inner(self) -> dict[str, Polygon]:
        """The inner face of each leg, from the other leg's inner face up: what the other leg's tapers bevel is gone."""
        found = {}
        for leg, other in (("A", "B"), ("B", "A")):
            face = self.outer[leg].difference(box(-WIDE, -1, WIDE, self.thick[other]))
            for cut in self.sawn:
                if cut.leg == other:
                    face = face.difference(upto(cut.end, at_height(cut.low, cut.high, self.thick[leg])))
            found[leg] = face
        return found

    def dressed(self) -> dict[int, float]:
        """x to which a feather edge is gone, by end."""
        found: dict[int, float] = {}
        for cut in self.sawn:
            x = at_height(cut.low, cut.high, cut.edge)  # the saw's plane is as high on its leg as the other leg is thick there
            found[cut.end] = max(found.get(cut.end, x), x) if cut.end == 1 else min(found.get(cut.end, x), x)
        return found

    def arc(self, leg: str, end: int) -> list[Point]:
        """The points of a rounded corner's arc that are left on the finished face."""
        cut = next(one for one in self.rounds if (one.leg, one.end) == (leg, end))
        points = corner_arc(self.sharp_face(leg), self.widths[leg], end, cut.radius, steps=128)[2]
        rim = self.outer[leg].exterior
        return [p for p in points if rim.distance(LineString([p, p])) < 1e-9]

    # --- lines across them ------------------------------------------------------------------------------
    def row(self, leg: str, y: float, end: int) -> float | None:
        """x where the metal of an outer face ends towards an end, at a height; None where it has none."""
        cut = LineString([(-WIDE, y), (WIDE, y)]).intersection(self.outer[leg])
        return None if cut.is_empty else cut.bounds[0 if end == 1 else 2]

    def rise(self, leg: str, x: float, inside: bool = False) -> float:
        """How high a face stands at an x."""
        face = (self.inner if inside else self.outer)[leg]
        cut = LineString([(x, -1), (x, WIDE)]).intersection(face)
        return 0.0 if cut.is_empty else cut.bounds[3]

    def top(self, leg: str) -> float:
        """How high a leg stands where it is highest."""
        return self.outer[leg].bounds[3]


def beyond(cut: Sawn) -> Polygon:
    """What a saw line takes: everything on its end's side."""
    (x0, y0), (x1, y1) = cut.low, cut.high
    long = hypot(x1 - x0, y1 - y0)
    ux, uy = (x1 - x0) / long * WIDE, (y1 - y0) / long * WIDE
    away = -WIDE if cut.end == 1 else WIDE
    return Polygon([(x0 - ux, y0 - uy), (x0 + ux, y0 + uy), (x0 + ux + away, y0 + uy), (x0 - ux + away, y0 - uy)])


def upto(end: int, x: float) -> Polygon:
    """Everything from an end's side to an x."""
    return box(-WIDE, -1, x, WIDE) if end == 1 else box(x, -1, WIDE, WIDE)


# --- from a drawing -----------------------------------------------------------------------------------------
def made(part, edge: float = BROKEN) -> Metal:
    """The metal of a part made just as it is drawn; a feather edge is broken to ``edge``, or blunted as the drawing says."""
    section, length = part.section, float(part.length)
    widths = {leg: float(section.leg(leg)) for leg in "AB"}
    sawn = []
    for taper in part.tapers:
        left, width = float(taper.width_left), widths[taper.leg]
        if taper.run is not None:
            along, high = float(taper.run), width
        else:
            angle = radians(float(taper.angle))
            along, high = cos(angle) * (width - left) / sin(angle), width
        end, inward = (0.0, 1.0) if taper.end == 1 else (length, -1.0)
        thick = 0.0 if left else edge if taper.blunt is None else float(taper.blunt)
        sawn.append(Sawn(taper.leg, taper.end, (end, left), (end + inward * along, high), thick))
    return Metal(
        widths, {"A": float(section.thickness_a), "B": float(section.thickness("B"))}, 0.0, length, tuple(sawn),
        tuple(Notch(c.leg, c.end, float(c.length), float(c.width_left), float(c.radius), 0.0 if c.end == 1 else length) for c in part.copes),
        tuple(Round(c.leg, c.end, float(c.radius)) for c in part.corners),
        tuple(Drilled(h.leg, float(h.x), float(h.y)) for h in part.holes),
    )  # fmt: skip


# --- readings -----------------------------------------------------------------------------------------------
def read(metal: Metal, drawing, ids: Sequence[str], origin, witness: float | None = None) -> dict[str, float]:
    """The readings of these ids on the metal of a part that was to be as the drawing [in].

    ``origin`` says what the places of holes are read from: its kind, end, leg, and hole's number. ``witness``: x of the inked line.
    """
    return {id_: _read(metal, drawing, id_.split("."), origin, witness) for id_ in ids}


def _read(metal: Metal, drawing, words: list[str], origin, witness: float | None) -> float:
    kind, leg = words[0], words[1] if len(words) > 1 else ""
    end = int(words[2]) if len(words) > 2 and kind != "hole" else 0
    other = {"A": "B", "B": "A"}.get(leg, "")
    ends = [metal.row("A", SKIN, number) for number in (1, 2)]
    inward = 1 if end == 1 else -1
    if kind == "heel":
        return ends[1] - ends[0]
    if kind == "toe":
        low, high = (metal.row(leg, _clear_of_arc(metal, drawing, leg, number), number) for number in (1, 2))
        return 0.0 if low is None or high is None else max(0.0, high - low)
    if kind in ("start", "cope"):
        return abs(_toe_corner(metal, leg, end) - ends[end - 1])
    if kind == "width":
        if any((cut.leg, cut.end) == (leg, end) for cut in (*drawing.tapers, *drawing.copes)):
            return metal.rise(leg, ends[end - 1] + inward * SKIN)
        if any((corner.leg, corner.end) == (leg, end) for corner in drawing.corners):
            return metal.top(leg)  # behind the arc
        return metal.rise(leg, ends[end - 1] + inward * SKIN)
    if kind == "inside" and end:
        return max(0.0, metal.rise(leg, ends[end - 1] + inward * SKIN, inside=True) - metal.thick[other])
    if kind == "inside":
        return metal.inner[leg].bounds[3] - metal.thick[other]
    if kind == "mid":
        taper = next(taper for taper in drawing.tapers if (taper.leg, taper.end) == (leg, end))
        half = _run(drawing, taper) / 2
        if any((corner.leg, corner.end) == (leg, end) for corner in drawing.corners):
            return metal.rise(leg, ends[end - 1] + inward * half)
        return metal.rise(leg, _toe_corner(metal, leg, end) - inward * half)
    if kind == "peak":
        return metal.top(leg)
    if kind == "thickness":
        return metal.thick[leg]
    if kind == "corner":
        points = metal.arc(leg, end)
        return _circle(points[0], points[len(points) // 2], points[-1])
    hole = metal.drilled[int(words[1]) - 1]
    if words[2] == "y":
        return hole.y
    return abs(hole.x - _place(metal, origin, ends, witness))


def _clear_of_arc(metal: Metal, drawing, leg: str, end: int) -> float:
    """The height at which the jaw lies on a toe's end: at the toe, or below where its corner is rounded."""
    radius = next((float(corner.radius) for corner in drawing.corners if (corner.leg, corner.end) == (leg, end)), 0.0)
    return 0.4 * (metal.top(leg) - radius) if radius else metal.top(leg) - SKIN


def _toe_corner(metal: Metal, leg: str, end: int) -> float:
    return metal.row(leg, metal.top(leg) - SKIN, end)


def _run(drawing, taper) -> float:
    if taper.run is not None:
        return float(taper.run)
    rise, angle = float(drawing.section.leg(taper.leg) - taper.width_left), radians(float(taper.angle))
    return rise * cos(angle) / sin(angle)


def _circle(p: Point, q: Point, r: Point) -> float:
    """Radius of the circle through three points: its centre is where two bisectors meet."""
    (ax, ay), (bx, by) = ((a + b) / 2 for a, b in zip(p, q)), ((a + b) / 2 for a, b in zip(q, r))
    from straightedge import meet

    one, two = (ax - (q[1] - p[1]), ay + (q[0] - p[0])), (bx - (r[1] - q[1]), by + (r[0] - q[0]))
    centre = meet((ax, ay), one, (bx, by), two)
    return hypot(centre[0] - p[0], centre[1] - p[1])


def _place(metal: Metal, origin, ends: list[float], witness: float | None) -> float:
    """x of what the places of holes are read from."""
    if origin.kind == "end":
        return ends[origin.end - 1]
    if origin.kind == "toe-corner":
        return _toe_corner(metal, origin.leg, origin.end)
    return metal.drilled[origin.number - 1].x if origin.kind == "hole" else float(witness)


__all__ = ["Drilled", "Metal", "Notch", "Round", "Sawn", "at_distance", "made", "read", "replace"]
