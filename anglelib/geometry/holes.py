"""Holes: how far each lies from every edge, in diameters, and where a hole may lie at all.

Edge distance is measured from the hole's centre, on the face where the edge comes nearest: near a
taper of the other leg that is the inner face, where the bevel has taken more. It is compared with
2 diameters (2.5 for a flush head): US Army subcourse AL0992, "Rivet Spacing and Edge Distance"; the kit's plans rule.
(AC 43.13-1B 4-57b asks that a minimum be kept; its own numbers, in 4-57c, are second-hand here.)
What an edge distance comes to at the worst of the job's limits is :mod:`anglelib.geometry.hole_check`'s to say, what
it is called :mod:`anglelib.geometry.hole_words`'s.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")],
...              holes=[Hole("A", "1 7/16", "7/16", "1/8")])
>>> worst = worst_edge(cleat, cleat.holes[0])
>>> str(worst.to), round(worst.distance, 4), worst.diameters, worst.outcome
('toe', 0.3125, 2.5, 'kept')
>>> [str(edge.to) for edge in edge_distances(cleat, cleat.holes[0])]
['toe', 'taper.1', 'end.2', 'end.1']
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import cos, hypot, pi
from typing import NamedTuple

from anglelib.errors import PartError
from anglelib.geometry.fasteners import HEAD, head_clear
from anglelib.geometry.lazy import formulas
from anglelib.geometry.leg_shape import blunted
from anglelib.geometry.rounding import SharpCorner, rounded_corners
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lengths import exact, own
from anglelib.part import ENDS, Hole, Part
from anglelib.section import Section, other_leg

PLAIN = Fraction(2)
"""Least edge distance in diameters, protruding heads (AL0992, seen)."""
FLUSH = Fraction(5, 2)
"""The same for flush heads (AL0992, seen)."""
FAR = Fraction(4)
"""Most edge distance in diameters (AL0992): information, never an error against a part."""
TOE, END, TAPER, BEVEL, COPE, CORNER = "toe", "end", "taper", "bevel", "cope", "corner"
"""Kinds of edge: the toe and the ends, what a cut of the hole's own leg leaves, and what the other leg's taper takes of the inner face."""
KEPT, SHORT, NONE = "kept", "short", "none"
"""How an edge distance comes out: the least is kept, it falls short of it, or the hole reaches the edge."""
OUTER, INNER = "outer", "inner"
HAIR = 1e-9
"""Numbers from an angle are floats: what is nearer to a rule than this keeps it [in]."""
_ARC = 64
"""Straight pieces of a quarter circle round a cope."""

Point = tuple[float, float]


def least_diameters(hole: Hole) -> Fraction:
    """The edge distance that this hole is compared with, in diameters: 2 or, flush, 2.5."""
    return FLUSH if hole.flush else PLAIN


def least_edge(hole: Hole) -> Fraction:
    """The same as a length [in]."""
    return hole.diameter * least_diameters(hole)


class EdgeId(NamedTuple):
    """Which edge of a leg: its kind, and the end that it belongs to (0: the toe's, which belongs to none)."""

    kind: str
    end: int = 0

    @property
    def face(self) -> str:
        """The face on which it comes nearest to a hole: the inner one where the other leg's taper has bevelled it."""
        return INNER if self.kind == BEVEL else OUTER

    def __str__(self) -> str:
        return f"{self.kind}.{self.end}" if self.end else self.kind


@dataclass(frozen=True)
class EdgeDistance:
    """From a hole's centre to one edge: which edge, and how far [in]; below 0 where the centre lies beyond it."""

    hole: Hole
    to: EdgeId
    distance: float

    @property
    def diameters(self) -> float:
        """The distance in diameters of the fastener."""
        return formulas().edge_in_diameters(e=self.distance, D=float(self.hole.diameter))

    @property
    def margin(self) -> float:
        """How much more it is than the least edge distance [in]; below 0 where it is less."""
        return self.distance - float(least_edge(self.hole))

    @property
    def short_by(self) -> float:
        """By how much it falls short of the least edge distance [in]; 0 where it does not."""
        return max(0.0, -self.margin)

    @property
    def outcome(self) -> str:
        """``KEPT``, ``SHORT``, or ``NONE`` where the hole's own edge reaches it."""
        if self.distance <= float(self.hole.diameter) / 2 + HAIR:
            return NONE
        return SHORT if self.short_by > HAIR else KEPT


def edge_distances(part: Part, hole: Hole) -> tuple[EdgeDistance, ...]:
    """Every edge that a hole could be near, nearest first. The toe counts where it is sharp, on the outer face."""
    found = distances(part, hole.leg, float(hole.x), float(hole.y))
    return tuple(EdgeDistance(hole, to, distance) for to, distance in found)


def distances(part: Part, leg: str, x: float, y: float) -> list[tuple[EdgeId, float]]:
    """From a place on a leg (x from end 1, y from the heel) [in] to every edge of it, nearest first.

    What the metal is left of is what no cut takes, so that the nearest of these is the nearest edge of the finished leg.
    """
    length = float(part.length)
    from_ends = {1: x, 2: length - x}
    found = [(EdgeId(TOE), float(part.section.leg(leg)) - y)]
    found += [(EdgeId(END, end), from_ends[end] - blunted(part, end)) for end in ENDS]
    for line in taper_lines(part):
        from_end = from_ends[line.end]
        if line.leg == leg:
            found.append((EdgeId(TAPER, line.end), _to_taper(line, from_end, y)))
        elif line.vertex_projection is not None:
            found.append((EdgeId(BEVEL, line.end), from_end - float(line.vertex_projection)))
    for cope in part.copes:
        if cope.leg == leg:
            distance = _to_cope(from_ends[cope.end], y, float(cope.length), float(cope.width_left), float(cope.radius))
            found.append((EdgeId(COPE, cope.end), distance))
    for corner in rounded_corners(part):
        if corner.leg == leg:
            arc = corner.distance(x, y)
            if arc is not None:
                found.append((EdgeId(CORNER, corner.end), arc))
    return sorted(found, key=lambda one: one[1])


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
    t = section.thickness(other_leg(leg))
    nearest = head_clear(section, leg, diameter)
    edge = (FLUSH if flush else PLAIN) * diameter
    return nearest, nearest + formulas().row_band(W=section.leg(leg), e=edge, t=t, r=section.fillet, H_d=HEAD * diameter)


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
        place = f"The {own(hole.diameter)} hole of leg {hole.leg} at x = {exact(hole.x)}"
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
                f"The {own(hole.diameter)} hole of leg {leg} at x = {exact(hole.x)} is nearer to the corner's straight edges than its "
                "edge distance: move the hole first."
            )
        limit = formulas().largest_radius(n_1=max(n_1, reach), n_2=max(n_2, reach), phi=sharp.angle, e=reach)
        largest = min(largest, limit)
    return largest


@lru_cache(maxsize=64)
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
