"""Holes on an unrolled sheet: whole circles on a flat face, and rims that run into a bend or a rounded toe.

>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> part = Part("P1", "Trial", stock, "6061-T6", 4, holes=[Hole("A", 1, "3/4", "1/4"), Hole("B", 2, "5/16", "1/4")])
>>> sheet = Unrolled(part, inner=True)
>>> [(place[0], whole) for _, place, whole in on_flats(sheet)]
[(1.0, True), (2.0, False)]
>>> [rim(sheet, hole) is None for hole in part.holes]
[True, False]
"""

from __future__ import annotations

import math

from anglelib.geometry.edges import Bend, Edge, Point, carried, chain
from anglelib.paper.unrolled import Unrolled
from anglelib.part import Hole


def on_flats(sheet: Unrolled) -> list[tuple[Hole, Point, bool]]:
    """The holes whose centre lies on a flat face: hole, place (x, v), and whether all of it clears the bend."""
    found = []
    for hole in sheet.part.holes:
        zone = sheet.flat(hole.leg)
        if zone.rise < hole.y and (not sheet.inner or hole.y < sheet.part.section.leg(hole.leg) - sheet.part.section.toe_radius):
            whole = float(hole.y - hole.diameter / 2) >= zone.rise - 1e-9
            found.append((hole, (float(hole.x), zone.place(float(hole.y))), whole))
    return found


def rim(sheet: Unrolled, hole: Hole) -> tuple[Edge, ...] | None:
    """A hole's edge on the sheet where it is no whole circle: it runs into a bend or a rounded toe. None: a circle."""
    zone = sheet.flat(hole.leg)
    high = zone.rise + zone.end - zone.start
    x, y, r = float(hole.x), float(hole.y), float(hole.diameter) / 2
    if y - r >= zone.rise - 1e-12 and y + r <= high + 1e-12:
        return None
    arcs = arcs_between((x, y), r, zone.rise, high)
    edges = carried(arcs, lambda p: (p[0], zone.place(p[1])), hole.leg == "B")
    if y - r < zone.rise - 1e-12 and len(sheet.zones) == 3:
        low = math.asin(min(1.0, (zone.rise - y) / r))  # as high as the bend goes, or the circle
        steps = max(8, math.ceil((2 * low + math.pi) / math.radians(2)))
        points = []
        for i in range(steps + 1):
            a = math.pi - low + (math.pi + 2 * low) * i / steps
            points.append((x + r * math.cos(a), _on_bend(sheet, hole.leg, min(zone.rise, y + r * math.sin(a)))))
        edges = (*edges, *chain(points))
    return edges


def middle(sheet: Unrolled, hole: Hole) -> Point:
    """Where a hole's centre lies on the sheet, on a flat face or on a bend."""
    y, zone = float(hole.y), sheet.flat(hole.leg)
    return float(hole.x), zone.place(y) if y >= zone.rise else _on_bend(sheet, hole.leg, y)


def _on_bend(sheet: Unrolled, leg: str, height: float) -> float:
    """v of a height on a leg, on the bend."""
    radius, (cy, cz) = sheet.circle
    end = sheet.zones[1].end
    if leg == "A":
        return end - radius * math.asin(min(1.0, (cy - height) / radius))
    return end - radius * math.acos(min(1.0, (cz - height) / radius))


def arcs_between(centre: Point, radius: float, low: float, high: float) -> tuple[Bend, ...]:
    """What of a circle lies between two heights, as arcs; none where all of it is below or above."""
    if centre[1] + radius <= low or centre[1] - radius >= high:
        return ()
    cuts = [180 / math.pi * math.asin(max(-1.0, min(1.0, (level - centre[1]) / radius))) for level in (low, high)]
    bottom, top = cuts
    if bottom <= -90 and top >= 90:
        return (Bend(centre, radius, 0.0, 360.0),)
    if top >= 90:
        return (Bend(centre, radius, bottom, 180 - 2 * bottom),)
    if bottom <= -90:
        return (Bend(centre, radius, 180 - top, 180 + 2 * top),)
    return Bend(centre, radius, bottom, top - bottom), Bend(centre, radius, 180 - top, top - bottom)
