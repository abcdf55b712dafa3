"""Holes: how far each lies from every edge, in diameters, and where a hole may lie at all.

Edge distance is measured from the hole's centre, on the face where the edge comes nearest: near a
taper of the other leg that is the inner face, where the bevel has taken more. It is compared with
2 diameters (2.5 for a flush head); AL0992 and AC 43.13-1B 4-57 are the sources, the kit's plans rule.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")],
...              holes=[Hole("A", "1 7/16", "7/16", "1/8")])
>>> worst = worst_edge(cleat, cleat.holes[0])
>>> worst.to, round(worst.distance, 4), worst.verdict
('toe', 0.3125, 'edge kept, 2.50 diameters')
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from math import cos, hypot, pi

from anglelib.errors import PartError
from anglelib.geometry.lazy import formulas
from anglelib.geometry.rounding import SharpCorner, rounded_corners
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lengths import own, show
from anglelib.part import Hole, Part
from anglelib.section import Section, other_leg

PLAIN = Fraction(2)
"""Least edge distance in diameters, protruding heads (AL0992; AC 43.13-1B 4-57, second-hand)."""
FLUSH = Fraction(5, 2)
"""The same for flush heads (AL0992)."""
HEAD = Fraction(2)
"""Diameter of a universal head in rivet diameters (from memory: MS20470)."""
TAIL = Fraction(1, 2)
"""Height of a driven rivet's tail in diameters (from memory); common practice."""

FAR = Fraction(4)
"""Most edge distance in diameters (AL0992): information, never an error against a part."""
_ARC = 64
"""Straight pieces of a quarter circle round a cope."""

Point = tuple[float, float]


def least_edge(hole: Hole) -> Fraction:
    """The edge distance that this hole is compared with [in]: 2 or, flush, 2.5 diameters."""
    return hole.diameter * (FLUSH if hole.flush else PLAIN)


@dataclass(frozen=True)
class EdgeDistance:
    """From a hole's centre to one edge: which edge, how far [in], in diameters, and by how much it is short [in]."""

    hole: Hole
    to: str
    distance: float

    @property
    def diameters(self) -> float:
        """The distance in diameters of the fastener."""
        return formulas().edge_in_diameters(e=self.distance, D=float(self.hole.diameter))

    @property
    def short_by(self) -> float:
        """By how much it falls short of the least edge distance [in]; 0 where it does not."""
        return max(0.0, float(least_edge(self.hole)) - self.distance)

    @property
    def verdict(self) -> str:
        """In words, never by a colour alone."""
        if self.short_by > 1e-9:
            return f"EDGE SHORT by {show(self.short_by, 64, 'up')} ({self.diameters:.2f} diameters)"
        return f"edge kept, {self.diameters:.2f} diameters"


def edge_distances(part: Part, hole: Hole) -> tuple[EdgeDistance, ...]:
    """Every edge that a hole could be near, nearest first. The toe counts where it is sharp, on the outer face."""
    x, y, length = float(hole.x), float(hole.y), float(part.length)
    found = [
        EdgeDistance(hole, "toe", float(part.section.leg(hole.leg)) - y),
        EdgeDistance(hole, "end 1", x),
        EdgeDistance(hole, "end 2", length - x),
    ]
    for line in taper_lines(part):
        from_end = x if line.end == 1 else length - x
        if line.leg == hole.leg:
            found.append(EdgeDistance(hole, f"taper at end {line.end}", _to_taper(line, from_end, y)))
        elif line.vertex_projection is not None:
            found.append(EdgeDistance(hole, f"bevel of the inner face at end {line.end}", from_end - float(line.vertex_projection)))
    for cope in part.copes:
        if cope.leg == hole.leg:
            from_end = x if cope.end == 1 else length - x
            distance = _to_cope(from_end, y, float(cope.length), float(cope.width_left), float(cope.radius))
            found.append(EdgeDistance(hole, f"cope at end {cope.end}", distance))
    for corner in rounded_corners(part):
        if corner.leg == hole.leg:
            distance = corner.distance(x, y)
            if distance is not None:
                found.append(EdgeDistance(hole, f"rounded corner at end {corner.end}", distance))
    return tuple(sorted(found, key=lambda edge: edge.distance))


def worst_edge(part: Part, hole: Hole) -> EdgeDistance:
    """The nearest edge: the one that decides."""
    return edge_distances(part, hole)[0]


def _to_taper(line: TaperLine, x: float, y: float) -> float:
    """Distance to the tapered edge, which stops at the toe and at the end; negative beyond it."""
    run, width, left = float(line.run), float(line.width), float(line.width_left)
    along = (x * run + (y - left) * (width - left)) / hypot(run, width - left)
    if 0 <= along <= line.edge_length:
        return line.clearance(x, y)
    corner = (0.0, left) if along < 0 else (run, width)
    return hypot(x - corner[0], y - corner[1])


def _to_cope(x: float, y: float, length: float, left: float, radius: float) -> float:
    """Distance to the air of a cope, whose inside corner is rounded."""
    if x < length - radius:
        return left - y
    if y > left + radius:
        return x - length
    # Beside the rounded inside corner: the nearest air lies on its arc.
    return hypot(x - (length - radius), (left + radius) - y) - radius


# --- rows, runs and regions -----------------------------------------------------------------------------
def row_band(section: Section, leg: str, diameter: Fraction, flush: bool = False) -> tuple[Fraction, Fraction]:
    """(nearest, furthest) height from the heel for a row of holes on a leg [in]: head clear of the fillet, edge kept at the toe.

    The second may be below the first: then there is no legal row, which is an answer.

    >>> from anglelib.section import Section
    >>> row_band(Section("3/4", "3/4", "1/8", fillet="1/8"), "A", Fraction(5, 32))
    (Fraction(13, 32), Fraction(7, 16))
    """
    f = formulas()
    t = section.thickness(other_leg(leg))
    nearest = f.row_start(t=t, r=section.fillet, H_d=HEAD * diameter)
    band = f.row_band(W=section.leg(leg), e=(FLUSH if flush else PLAIN) * diameter, t=t, r=section.fillet, H_d=HEAD * diameter)
    return nearest, nearest + band


def largest_run(part: Part, line: TaperLine) -> float | None:
    """The longest run that keeps the edge distance of every hole, the width left unchanged [in].

    None where no hole limits it. A longer run brings the tapered edge nearer to every hole of its
    leg, and the bevel of the other leg's inner face nearer to every hole of that leg.
    """
    f = formulas()
    start, slopes = float(line.width_left), []
    for hole in part.holes:
        x = float(hole.x) if line.end == 1 else float(part.length - hole.x)
        reach = float(least_edge(hole))
        place = f"The {own(hole.diameter)} hole of leg {hole.leg} at x = {show(hole.x)}"
        if hole.leg != line.leg:
            if line.vertex_projection is None:
                continue
            if x <= reach:
                raise PartError(f"{place} is nearer than its edge distance to the end: no run keeps its edge. Move the hole.")
            t = float(line.other_thickness)
            slopes.append(f.behind_bevel.solved_for("c")(x_n=x, e=reach, t=t, s=start))
            continue
        if hypot(x, float(hole.y) - start) <= reach:
            raise PartError(
                f"{place} is nearer than its edge distance to the taper's start: no run keeps its edge. Leave more width, or move the hole."
            )
        angle = f.least_angle(e=reach, x=x, y=float(hole.y), s=start)
        if angle >= 90:
            raise PartError(f"{place} leaves no room for a taper: move the hole away from the end.")
        if angle > 0:
            slopes.append(f.slope_from_angle(theta=angle))
    return f.run_from_slope(W=float(line.width), s=start, c=min(slopes)) if slopes else None


def largest_radius(part: Part, leg: str, end: int) -> float:
    """The largest radius of a rounded corner that fits and keeps the edge distance of every hole of its leg [in].

    A radius up to the edge distance costs no hole anything, as long as both straight edges keep it.
    PartError where they do not.

    >>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    >>> cleat = Part("A1L", "Cleat", stock, "6061-T6", 3, holes=[Hole("A", "5/16", "7/16", "1/8")])
    >>> round(largest_radius(cleat, "A", 1), 4)
    0.4634
    """
    sharp = SharpCorner.of(part, leg, end)
    largest = sharp.largest_fit
    for hole in part.holes_in(leg):
        x, y, reach = float(hole.x if end == 1 else part.length - hole.x), float(hole.y), float(least_edge(hole))
        n_1, n_2 = sharp.distances(x, y)
        if min(n_1, n_2) < reach - 1e-12:
            raise PartError(
                f"The {own(hole.diameter)} hole of leg {leg} at x = {show(hole.x)} is nearer to the corner's straight edges than its "
                "edge distance: move the hole first."
            )
        limit = formulas().largest_radius(n_1=max(n_1, reach), n_2=max(n_2, reach), phi=sharp.angle, e=reach)
        largest = min(largest, limit)
    return largest


def legal_region(part: Part, leg: str, diameter: Fraction, flush: bool = False) -> tuple[Point, ...]:
    """The corners of the region of a leg in which the centre of a hole may lie, in order; empty if there is none.

    (x from end 1, y from the heel) [in]: every edge at least the edge distance away, the head clear
    of the fillet. Arcs of large rounded corners and of copes are replaced by straight pieces inside the
    region. It is always one piece: every cut takes the more the higher above the heel, so where a hole
    may lie, it may also lie lower, down to the row whose head clears the fillet.

    >>> from anglelib.section import Section
    >>> bar = Part("A3", "Bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", 6)
    >>> legal_region(bar, "A", Fraction(1, 8))
    ((0.25, 0.375), (5.75, 0.375), (5.75, 0.5), (0.25, 0.5))
    >>> legal_region(bar, "A", Fraction(3, 16))
    ()
    """
    e = float((FLUSH if flush else PLAIN) * diameter)
    nearest, _ = row_band(part.section, leg, diameter, flush)
    length, width = float(part.length), float(part.section.leg(leg))
    first, last = e, length - e
    for line in taper_lines(part):
        if line.leg != leg and line.vertex_projection is not None:
            bevel = formulas().behind_bevel(
                e=e, t=float(line.other_thickness), s=float(line.width_left), c=float(line.slope)
            )
            first, last = (max(first, bevel), last) if line.end == 1 else (first, min(last, length - bevel))
    region: list[Point] = [(first, float(nearest)), (last, float(nearest)), (last, width - e), (first, width - e)]
    if first >= last or float(nearest) >= width - e:
        return ()
    for line in taper_lines(part):
        if line.leg == leg:
            region = _clip(region, lambda x, y, line=line: line.clearance(x if line.end == 1 else length - x, y) - e)
    for corner in rounded_corners(part):
        if corner.leg == leg:
            for half_plane in corner.inner_half_planes(e):
                region = _clip(region, half_plane)
    if any(cope.leg == leg for cope in part.copes) and region:
        return _less_copes(part, leg, region, e)
    return tuple(region)


def _clip(region: list[Point], inside: Callable[[float, float], float]) -> list[Point]:
    """The part of a convex polygon where a linear function is not negative."""
    kept: list[Point] = []
    for (x0, y0), (x1, y1) in zip(region, region[1:] + region[:1], strict=True):
        v0, v1 = inside(x0, y0), inside(x1, y1)
        if v0 >= 0:
            kept.append((x0, y0))
        if (v0 < 0) != (v1 < 0):
            share = v0 / (v0 - v1)
            kept.append((x0 + share * (x1 - x0), y0 + share * (y1 - y0)))
    return kept


def _less_copes(part: Part, leg: str, region: list[Point], e: float) -> tuple[Point, ...]:
    from shapely.geometry import Polygon, box

    shape = Polygon(region)
    length, width = float(part.length), float(part.section.leg(leg))
    for cope in part.copes:
        if cope.leg != leg:
            continue
        far, left, radius = float(cope.length), float(cope.width_left), float(cope.radius)
        # Tangents instead of chords round the air: a little more of it.
        wide = (radius + e) / cos(pi / (4 * _ARC))
        air = box(-2 * e, left + radius, far - radius, width + 2 * e).buffer(wide, quad_segs=_ARC)
        if cope.end == 2:
            air = Polygon([(length - x, y) for x, y in air.exterior.coords])
        shape = shape.difference(air)
    if shape.is_empty:
        return ()
    whole = max(getattr(shape, "geoms", [shape]), key=lambda piece: piece.area)  # beside it at most a speck of rounding
    return tuple(whole.exterior.coords)[:-1]


# --- holes with one another -------------------------------------------------------------------------------
def pitches(part: Part, leg: str) -> tuple[tuple[Hole, Hole, float], ...]:
    """Neighbouring holes of a leg with the distance of their centres in diameters of the larger. Information, no verdict."""
    row = part.holes_in(leg)
    return tuple(
        (one, two, hypot(float(two.x - one.x), float(two.y - one.y)) / float(max(one.diameter, two.diameter)))
        for one, two in zip(row, row[1:], strict=False)
    )


@dataclass(frozen=True)
class Facing:
    """Two fasteners that face each other across the heel, and the room [in] between their heads or tails inside.

    Negative room: they collide. It says nothing of the room that a tool needs.
    """

    on_a: Hole
    on_b: Hole
    room: float


def facing(part: Part) -> tuple[Facing, ...]:
    """Fasteners of leg A and leg B near enough along the heel for their heads to meet inside the angle."""
    found = []
    for one, two in combinations(part.holes, 2):
        if one.leg == two.leg:
            continue
        on_a, on_b = (one, two) if one.leg == "A" else (two, one)
        radii = [float(HEAD * hole.diameter) / 2 for hole in (on_a, on_b)]
        if abs(float(on_a.x - on_b.x)) >= sum(radii):
            continue
        tails = [float(TAIL * hole.diameter) for hole in (on_a, on_b)]
        across = float(on_a.y) - radii[0] - (float(part.section.thickness("B")) + tails[1])
        along = float(on_b.y) - radii[1] - (float(part.section.thickness("A")) + tails[0])
        found.append(Facing(on_a, on_b, hypot(across, along) if across > 0 and along > 0 else max(across, along)))
    return tuple(found)


@dataclass(frozen=True)
class DrillSize:
    """What is drilled for a fastener: the number drill for the hole and the pilot drilled first; sizes [in]."""

    fastener: Fraction
    drill: str
    size: Fraction
    pilot: str


_NUMBER_DRILLS = "number drill sizes; pairing with rivets from memory, the plans rule"
DRILLS = {
    drill.fastener: drill
    for drill in (
        DrillSize(Fraction(3, 32), "no. 40", Fraction(98, 1000), "no. 51"),
        DrillSize(Fraction(1, 8), "no. 30", Fraction(1285, 10000), "no. 40"),
        DrillSize(Fraction(5, 32), "no. 21", Fraction(159, 1000), "no. 30"),
        DrillSize(Fraction(3, 16), "no. 11", Fraction(191, 1000), "no. 21"),
    )
}


def drill_for(diameter: Fraction) -> DrillSize | None:
    """What to drill for a fastener; None where the table has no row: then the plans say."""
    return DRILLS.get(diameter)


def rivet_length(grip: Fraction, diameter: Fraction) -> Fraction:
    """Length of a rivet for a grip [in]: grip plus one and a half diameters.

    >>> rivet_length(Fraction(1, 4), Fraction(1, 8))
    Fraction(7, 16)
    """
    return formulas().rivet_length(G=grip, D=diameter)
