"""A made part laid over the wanted one: both legs' outer faces, missing metal and metal too much hatched.

The wanted outline is dotted, like a prediction; what was made is drawn solid. Where they agree only the
solid line is seen.

>>> from anglelib.section import Section
>>> from anglelib.part import Part, Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> [(round(x, 3), round(h, 3)) for x, h in made_outline(Made.as_wanted(cleat), "A")]
[(0.0, 0.375), (0.0, 0.0), (2.125, 0.0), (2.125, 0.75), (1.25, 0.75)]
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import acos, atan2, degrees, hypot, sin, tan

from anglelib.drawing.face import Axis, Face, clip
from anglelib.drawing.outer_view import direction, features_along
from anglelib.drawing.outline import arc_points
from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, Point
from anglelib.inspection.made import Made
from anglelib.part import ENDS, Part
from anglelib.section import LEGS, other_leg

_FAR = 1e3
_LEAST = 2e-4
"""Less metal than this is not drawn [in2]."""
MISSING, TOO_MUCH = 45.0, -45.0
Region = list[Point]
Edge = Callable[[float, float], float]


def edges(made: Made, leg: str) -> list[Edge]:
    """The straight edges of a leg's outer face: each is not negative on the side of the metal."""
    width = made.width(leg)
    heels = [made.end_x(end, leg, 0.0) for end in ENDS]
    outs = [ends[LEGS.index(leg)] for ends in (made.out_1, made.out_2)]
    found: list[Edge] = [
        lambda x, h: x - heels[0] - outs[0] * h,
        lambda x, h: heels[1] + outs[1] * h - x,
        lambda x, h: h,
        lambda x, h: width - h,
    ]
    for taper in made.tapers:
        way = 1 if taper.end == 1 else -1
        if taper.leg == leg:
            found.append(lambda x, h, t=taper, way=way: way * (x - made.line_x(t, h)))
        else:  # its cut goes on through this leg
            found.append(lambda x, h, t=taper, way=way: way * (x - made.line_x(t, 0.0, h)))
    return found


def airs(made: Made, leg: str) -> list[Region]:
    """The convex pieces of air that copes and rounded corners take out of a leg's straight outline."""
    far, width = float(made.wanted.length), made.width(leg)
    found: list[Region] = []
    for cope in made.copes:
        if cope.leg == leg:
            found += _cope_air(cope.end, cope.length, cope.left, _relief(made.wanted, cope.leg, cope.end), far)
    for corner in made.corners:
        if corner.leg == leg and corner.radius > 1e-6:
            found += _corner_air(made, leg, corner.end, corner.radius, width)
    return found


def _relief(part: Part, leg: str, end: int) -> float:
    return next((float(c.radius) for c in part.copes if (c.leg, c.end) == (leg, end)), 0.0)


def _cope_air(end: int, length: float, left: float, radius: float, far: float) -> list[Region]:
    """Two rectangles and the fan of the inside corner."""
    radius = max(0.0, min(radius, length))
    boxes = [
        [(-_FAR, left), (length - radius, left), (length - radius, _FAR), (-_FAR, _FAR)],
        [(length - radius, left + radius), (length, left + radius), (length, _FAR), (length - radius, _FAR)],
    ]
    if radius > 1e-6:
        boxes.append([(length - radius, left + radius), *arc_points(length - radius, left + radius, radius, -90, 0, 9)])
    return [piece if end == 1 else [(far - x, h) for x, h in reversed(piece)] for piece in boxes]


def _corner_air(made: Made, leg: str, end: int, radius: float, width: float) -> list[Region]:
    """What lies between a corner and its arc, in triangles from the corner."""
    way, taper = (1.0 if end == 1 else -1.0), made.taper(leg, end)
    slope = taper.slope if taper is not None else 0.0
    at = made.end_x(end, leg, width)
    # Directions from the corner, into the part along the toe and down the end's edge.
    size = hypot(slope, 1.0)
    toe, down = (way, 0.0), (-way * slope / size, -1.0 / size)
    half = acos(max(-1.0, min(1.0, toe[0] * down[0]))) / 2
    reach = radius / tan(half)
    middle = (toe[0] + down[0], toe[1] + down[1])
    long = hypot(*middle)
    centre = (at + middle[0] / long * radius / sin(half), width + middle[1] / long * radius / sin(half))
    start, stop = ((at + d[0] * reach, width + d[1] * reach) for d in (toe, down))
    a0, a1 = (degrees(atan2(p[1] - centre[1], p[0] - centre[0])) for p in (start, stop))
    turn = (a1 - a0 + 180) % 360 - 180
    arc = arc_points(centre[0], centre[1], radius, a0, a0 + turn, 9)
    return [_anticlockwise([(at, width), p, q]) for p, q in zip(arc, arc[1:], strict=False)]


def _anticlockwise(points: Region) -> Region:
    return points if _signed(points) > 0 else points[::-1]


def _signed(points: Sequence[Point]) -> float:
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, [*points[1:], *points[:1]], strict=True)) / 2


def pieces_of(made: Made, leg: str) -> list[Region]:
    """A leg's outer face as made, in convex pieces: (x, h) from where end 1 should be and from the heel [in]."""
    points: Region = [(_FAR, -_FAR), (_FAR, _FAR), (-_FAR, _FAR), (-_FAR, -_FAR)]
    for edge in edges(made, leg):
        points = clip(points, edge)
    pieces = [points]
    for air in airs(made, leg):
        pieces = [rest for piece in pieces for rest in without(piece, air)]
    return pieces


def without(piece: Region, air: Region) -> list[Region]:
    """A convex piece less a convex region (anticlockwise), in convex pieces that do not overlap."""
    rest, found = piece, []
    for (x0, y0), (x1, y1) in zip(air, [*air[1:], *air[:1]], strict=True):
        def inside(x: float, h: float, x0=x0, y0=y0, dx=x1 - x0, dy=y1 - y0) -> float:
            return dx * (h - y0) - dy * (x - x0)

        beyond = clip(rest, lambda x, h, f=inside: -f(x, h)) if len(rest) > 2 else []
        if _area(beyond) > 1e-9:
            found.append(beyond)
        rest = clip(rest, inside) if len(rest) > 2 else []
    return found


def made_outline(made: Made, leg: str) -> list[Point]:
    """A leg's outer face as made: (x, h) from where end 1 should be and from the heel [in]."""
    pieces = pieces_of(made, leg)
    if not (made.copes or made.corners):
        return pieces[0]
    return [point for edge in _around(made, leg) for point in edge]


def _around(made: Made, leg: str) -> list[list[Point]]:
    """The outline of a leg with copes or rounded corners: the outlines of its pieces, joined up."""
    from shapely.geometry import Polygon
    from shapely.ops import unary_union

    whole = unary_union([Polygon(piece).buffer(1e-7) for piece in pieces_of(made, leg) if len(piece) > 2])
    whole = max(getattr(whole, "geoms", [whole]), key=lambda part: part.area)
    return [list(whole.simplify(2e-6).exterior.coords)[:-1]]


def between(one: Made, two: Made, leg: str) -> list[list[Point]]:
    """The metal of a leg that the first part has and the second has not, in pieces that do not overlap."""
    rest, pieces = pieces_of(one, leg), []
    for edge in edges(two, leg):
        kept = []
        for region in rest:
            piece = clip(region, lambda x, h, e=edge: -e(x, h)) if len(region) > 2 else []
            if _area(piece) > _LEAST:
                pieces.append(piece)
            kept.append(clip(region, edge) if len(region) > 2 else [])
        rest = [region for region in kept if len(region) > 2]
    for air in airs(two, leg):
        for region in rest:
            piece = region
            for (x0, y0), (x1, y1) in zip(air, [*air[1:], *air[:1]], strict=True):
                piece = clip(piece, lambda x, h, x0=x0, y0=y0, dx=x1 - x0, dy=y1 - y0: dx * (h - y0) - dy * (x - x0)) if len(piece) > 2 else []
            if _area(piece) > _LEAST / 8:
                pieces.append(piece)
    return pieces


def _area(points: Sequence[Point]) -> float:
    return abs(_signed(points)) if len(points) > 2 else 0.0


@dataclass(frozen=True)
class Laid:
    """Where both legs lie on the paper: leg A hangs from its heel, leg B stands above it."""

    part: Part
    axis: Axis
    gap: float
    low: float

    @classmethod
    def fit(cls, part: Part, wide: float, high: float, left: float, low: float, gap: float = 13.0) -> Laid:
        """As large as the room allows [mm]; a long part is broken."""
        legs = float(part.section.leg_a + part.section.leg_b) + 0.25
        unit = min((high - gap) / legs, 40.0)
        while True:
            axis = Axis.fit(float(part.length), features_along(part), wide, unit, left)
            if axis.right - axis.left <= wide + 0.1 or unit < 6:
                return cls(part, axis, gap, low)
            unit *= 0.94

    def face(self, leg: str) -> Face:
        """A leg's outer face."""
        heel = self.low + (float(self.part.section.leg_a) + 0.125) * self.axis.unit
        return Face(self.axis, heel if leg == "A" else heel + self.gap, direction(leg))

    @property
    def top(self) -> float:
        """The highest that leg B reaches [mm]."""
        return self.face("B").h(float(self.part.section.leg_b) + 0.125)


def made_over_wanted(made: Made, laid: Laid, *, names: bool = True, wanted_only: bool = False) -> Group:
    """The made part over the wanted one; or only the wanted outline, where nothing is known of the part yet."""
    part, wanted = made.wanted, Made.as_wanted(made.wanted)
    items: list[Item] = []
    for leg in ("B", "A"):
        face = laid.face(leg)
        if wanted_only:
            items += face.region(made_outline(wanted, leg), "ghost")
            items += face.breaks(-0.02, float(part.section.leg(leg)) + 0.02)
            continue
        for pieces, angle in ((between(wanted, made, leg), MISSING), (between(made, wanted, leg), TOO_MUCH)):
            for piece in pieces:
                items += face.hatch(piece, angle * face.up, 1.1)
        inside = float(made.section.thickness(other_leg(leg)))
        low, high = made.span(leg, inside)
        if high > low:
            items += face.path([(low, inside), (high, inside)], "hidden")
        items += face.region(made_outline(wanted, leg), "ghost")
        items += face.region(made_outline(made, leg), "outline")
        items += _tilted(made, leg, face)
        items += _holes(made, leg, face)
        items += face.breaks(-0.02, float(part.section.leg(leg)) + 0.02)
    items += _names(laid) if names else ()
    return tuple(items)


def _tilted(made: Made, leg: str, face: Face) -> Group:
    """The inside edge of a taper that was sawn with a leaning blade, where it does not lie under the outside one."""
    items: list[Item] = []
    for taper in made.tapers:
        if taper.leg == leg and abs(taper.tilt) > 1e-6:
            t, width = float(made.section.thickness(leg)), made.width(leg)
            low = max(made.height_at_end(leg, taper.end, inside=True), float(made.section.thickness(other_leg(leg))))
            items += face.path([(made.line_x(taper, h, t), h) for h in (low, width)], "hidden")
    return tuple(items)


def _holes(made: Made, leg: str, face: Face) -> Group:
    items: list[Item] = []
    unit = face.axis.unit
    for hole, wanted in zip(made.holes, made.wanted.holes, strict=True):
        r = float(wanted.diameter) / 2 * unit
        if wanted.leg == leg:
            x, y = face.at(float(wanted.x), float(wanted.y))
            items += [Circle(x, y, r, "ghost"), Line(x - r - 1.5, y, x + r + 1.5, y, "dimension"), Line(x, y - r - 1.5, x, y + r + 1.5, "dimension")]
        if hole.leg == leg:
            items.append(Circle(*face.at(hole.x, hole.y), r, "outline"))
    return tuple(items)


def _names(laid: Laid) -> Group:
    """The legs, and the datum end."""
    items: list[Item] = []
    for leg in ("A", "B"):
        face = laid.face(leg)
        items.append(Label(laid.axis.left - 5, face.h(float(laid.part.section.leg(leg)) * 0.55), f"leg {leg}", 3.5, "end", "middle"))
    middle = (laid.face("A").heel + laid.face("B").heel) / 2
    items.append(Label(laid.axis.left - 5, middle, "end 1", 3.5, "end", "middle"))
    return tuple(items)
