"""A marking saddle: a printed angle that sits on the stock's outer or inner faces, its end the line to strike.

It lies on the part's side of the cut, so the line is struck with the saddle on the part side, as with
a square. Set it by its square far end: that stands ``length`` from the tapered end. The outside
saddle also begins flush with the squared end; stand stick and saddle on a flat plate. Its faces touch
the metal (a gap there would move the line); only its corner stays clear, of the heel or the fillet.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")], hand="left")
>>> Saddle.of(bracket, 1, "inside").name
'C1L-saddle-end-1-inside-left'
>>> Saddle.of(bracket, 2, "inside")
Traceback (most recent call last):
    ...
anglelib.errors.PartError: C1L has no taper at end 2: there is no line to strike there.
"""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, isfinite
from typing import TYPE_CHECKING

from anglelib.errors import PartError
from anglelib.geometry.edges import Bend, Edge, Point, Straight, joined_up
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lengths import MM as MILLIMETRE
from anglelib.lengths import exact, fine, own_spoken, spoken, unit_written
from anglelib.paper.mesh import ERROR, MM, check_error, drawn_out, kernel, polygon
from anglelib.part import Part
from anglelib.section import LEGS, other_leg

if TYPE_CHECKING:
    from manifold3d import Manifold

SIDES = ("outside", "inside")
WALL, CLEARANCE = 3.0, 0.5
"""Thickness of the walls, and how far the corner stays clear of the heel or the fillet [mm]."""
LEAST_FLAT = 0.1
"""The narrowest flat that an inside saddle can sit on [in]."""
STEPS = {"in": Fraction(1, 4), "mm": 5 * MILLIMETRE}
"""On what a saddle ends, by the unit of its part [in]."""
BEYOND = Fraction(1, 2)
"""How far the saddle goes on past the longest run, at least [in]."""


@dataclass(frozen=True)
class Saddle:
    """One saddle: for an end of a part, on one side of the metal. ``wall`` and ``clearance`` [mm], ``length`` [in]."""

    part: Part
    end: int
    side: str
    wall: float
    clearance: float
    length: Fraction

    @classmethod
    def of(
        cls, part: Part, end: int, side: str = "outside", *, wall: float = WALL, clearance: float = CLEARANCE, length: Fraction | None = None
    ) -> Saddle:
        """A saddle for a tapered end; without a ``length`` it ends on a quarter inch (on 5 mm), past the longest run. PartError where it cannot be."""
        lines = [line for line in taper_lines(part) if line.end == end]
        if not lines:
            raise PartError(f"{part.id} has no taper at end {end}: there is no line to strike there.")
        if side not in SIDES:
            raise PartError(f'There is no "{side}" saddle: say {" or ".join(SIDES)}.')
        for what, value in (("wall of the saddle", wall), ("clearance of the saddle", clearance)):
            if not (isfinite(value) and 0 <= value <= 50):
                raise PartError(f"The {what} is {value:g} mm: give it between 0 and 50 mm.")
        if wall < 0.8:
            raise PartError(f"The wall of the saddle is {wall:g} mm: thinner than 0.8 mm it does not print; make it about 3 mm.")
        if clearance > wall / 2:
            raise PartError(
                f"The clearance of the saddle is {clearance:g} mm and its wall {wall:g} mm: keep the clearance below half the wall."
            )
        section = part.section
        if side == "inside":
            for leg in LEGS:
                flat = float(section.leg(leg) - section.thickness(other_leg(leg)) - section.fillet - section.toe_radius)
                if flat - clearance / MM < LEAST_FLAT:
                    raise PartError(
                        f"Leg {leg} of {part.id} has no flat inside for a saddle: {_decimal(max(flat, 0))} beside the fillet. Use the outside one."
                    )
            if all(line.width_left >= line.width - section.toe_radius for line in lines):
                raise PartError(f"The taper at end {end} of {part.id} does not reach the inner face below the rounded toe: use the outside saddle.")
        longest = max(float(line.run) for line in lines)
        usual = _rounded_up(longest + float(BEYOND), part)
        if length is None:
            length = usual
        if length > max(usual, part.length):
            raise PartError(
                f"A saddle {own_spoken(length)} long is longer than {part.id}, {own_spoken(part.length)}: "
                f"{own_spoken(usual)} will do at end {end}; check the unit."
            )
        least = max(float(line.at(line.other_thickness)) for line in lines) + float(BEYOND) / 2
        if float(length) < least:
            raise PartError(
                f"A saddle {exact(length)} long would not reach past the marks at end {end} of {part.id}: "
                f"make it at least {exact(_rounded_up(least, part))} long."
            )
        return cls(part, end, side, float(wall), float(clearance), Fraction(length))

    @property
    def name(self) -> str:
        """The name of its file: part, end, side of the metal, hand."""
        hand = f"-{self.part.hand}" if self.part.hand in ("left", "right") else ""
        return f"{self.part.id}-saddle-end-{self.end}-{self.side}{hand}"

    @property
    def lines(self) -> tuple[TaperLine, ...]:
        """The taper's lines that its end stands for."""
        return tuple(line for line in taper_lines(self.part) if line.end == self.end)

    @property
    def sentence(self) -> str:
        """How it is set on the stock."""
        flush = f", or flush with the squared end {self.end}" if self.side == "outside" else ""
        return (
            f"{self.name}: sits on the {self.side} of {self.part.section.size}; square end {spoken(self.length).removesuffix('.')} from end {self.end}{flush}; "
            f"strike along its other end, on the side of the waste."
        )

    # --- its shape --------------------------------------------------------------------------------
    def section_edges(self) -> tuple[Edge, ...]:
        """Its own cross-section in (y, z) [in], anticlockwise."""
        section, w, c = self.part.section, self.wall / MM, self.clearance / MM
        a, b = float(section.leg_a), float(section.leg_b)
        if self.side == "outside":
            relief: list[Edge] = [Bend((0.0, 0.0), c, 0.0, -270.0)] if c else _stops([(0.0, 0.0)])
            return _closed([*_stops([(-w, -w), (a, -w), (a, 0.0)]), *relief, *_stops([(0.0, b), (-w, b)])])
        ta, tb = float(section.thickness_a), float(section.thickness("B"))
        r = float(section.fillet) + c
        a, b = a - float(section.toe_radius), b - float(section.toe_radius)
        corner: list[Edge] = [Bend((tb + r, ta + r), r, 180.0, 90.0)] if r else _stops([(tb, ta)])
        return _closed([*corner, *_stops([(a, ta), (a, ta + w)]), *self._hollow(tb, ta, w, r), *_stops([(tb + w, b), (tb, b)])])

    def _hollow(self, tb: float, ta: float, w: float, r: float) -> list[Edge]:
        """The saddle's own inside corner, round the same centre where its wall leaves room for it."""
        if r > w:
            return [Bend((tb + r, ta + r), r - w, 270.0, -90.0)]
        return _stops([(tb + w, ta + w)])

    def solid(self, error: float = ERROR) -> Manifold:
        """The saddle where it sits on the stock: x from end 1, y along leg A, z along leg B [mm]."""
        check_error(error)
        whole, reach = float(self.part.length) * MM, float(self.length) * MM
        start, stop = (0.0, reach) if self.end == 1 else (whole - reach, whole)
        solid = drawn_out(polygon(self.section_edges(), error), start, stop)
        for line in self.lines:
            # The part's side of x = (y - s) c, y on the tapered leg; from end 2 the other way round.
            slope, way = float(line.slope), 1.0 if self.end == 1 else -1.0
            normal = (way, -slope, 0.0) if line.leg == "A" else (way, 0.0, -slope)
            long = (1 + slope**2) ** 0.5
            at = -float(line.width_left) * MM * slope + (0.0 if self.end == 1 else -whole)
            solid = solid.trim_by_plane(tuple(n / long for n in normal), at / long)
        return solid

    def printed(self, error: float = ERROR) -> Manifold:
        """The saddle as it is printed, a long wall flat on the bed: the tapered leg's, whose line then stands upright and sharp.

        Where it would tip over on that one it lies on the other, or stands on its square end.
        """
        solid, leg = self.solid(error), self.lines[0].leg
        laid = (_laid(solid, down) for down in (leg, other_leg(leg), f"end {self.end}"))
        return next(found for found in laid if _stands(found))


_TURNS = {
    "A": [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0]],
    "B": [[1, 0, 0, 0], [0, 0, -1, 0], [0, 1, 0, 0]],
    "end 1": [[0, 0, 1, 0], [0, 1, 0, 0], [-1, 0, 0, 0]],
    "end 2": [[0, 1, 0, 0], [0, 0, 1, 0], [1, 0, 0, 0]],
}
"""How a saddle is turned to lie on a leg's wall, or to stand on its square end with the end that it marks up."""


def _laid(solid: Manifold, down: str) -> Manifold:
    """The solid turned, in the corner of the bed."""
    solid = solid.transform(_TURNS[down])
    low = solid.bounding_box()
    return solid.translate([-low[0], -low[1], -low[2]])


def _stands(solid: Manifold) -> bool:
    """Whether the solid's centre of mass is over its base."""
    import numpy

    mesh = solid.to_mesh64()
    faces = numpy.asarray(mesh.vert_properties)[:, :3][numpy.asarray(mesh.tri_verts).astype(int)]
    volumes = numpy.einsum("ij,ij->i", faces[:, 0], numpy.cross(faces[:, 1], faces[:, 2]))
    centre = (volumes @ faces.sum(axis=1))[:2] / volumes.sum() / 4
    corners = faces[(numpy.abs(faces[:, :, 2]) < 1e-9).all(axis=1)].reshape(-1, 3)[:, :2]
    if not len(corners):
        return False
    hull = numpy.asarray(kernel().CrossSection.hull_points(corners).to_polygons()[0])
    along, away = numpy.roll(hull, -1, axis=0) - hull, centre - hull
    return bool((along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0] > 0).all())  # the centre is left of every edge


def saddles(part: Part, **sizes) -> list[Saddle]:
    """The saddles of every tapered end: the outside one, and the inside one where the flats have room for it."""
    found = []
    for end in sorted({taper.end for taper in part.tapers}):
        found.append(Saddle.of(part, end, "outside", **sizes))
        with suppress(PartError):  # for the sizes the outside one has spoken already
            found.append(Saddle.of(part, end, "inside", **sizes))
    return found


def _rounded_up(value: float, part: Part) -> Fraction:
    """A length up to the next step of the part's unit [in]."""
    step = STEPS[part.unit]
    return ceil(value / float(step) - 1e-9) * step


def _decimal(value: float) -> str:
    return fine(value) if unit_written() == "mm" else f"{fine(value)} in"


def _stops(points: Iterable[Point]) -> list[Edge]:
    """Corners, as edges without length."""
    return [Straight(p, p) for p in points]


def _closed(stops: list[Edge]) -> tuple[Edge, ...]:
    """Corners and arcs joined to a closed outline."""
    first = stops[0].first
    return tuple(edge for edge in joined_up([*stops, Straight(first, first)]) if edge.first != edge.last)
