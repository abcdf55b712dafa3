"""The outlines of the finished faces, against shapely's cutting of the faces and against slices of the kernel's solid."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import cutters
import oracle_parts
import pytest
import solids
from shapely import Polygon, box
from shapely.ops import unary_union

from anglelib.geometry.edges import Bend, Straight, corners_of
from anglelib.geometry.outlines import face_edges, section_edges
from anglelib.part import Cope, Corner, Part, Taper
from anglelib.section import Section

FINE = 0.5
"""Arcs as pieces of so many degrees; the areas then differ by less than ROOM [in2]."""
ROOM = 2e-5


def difference(one: Polygon, two: Polygon) -> float:
    return one.symmetric_difference(two).area


def check_outer(part: Part, leg: str) -> None:
    edges = face_edges(part, leg)
    outline = Polygon(corners_of(edges, FINE))
    assert outline.is_valid and outline.exterior.is_ccw, (part, leg)
    assert all(abs(one.last[i] - two.first[i]) < 1e-9 for one, two in zip(edges, [*edges[1:], edges[0]], strict=True) for i in (0, 1))
    assert difference(outline, cutters.face_outline(part, leg, solids.ON, 200)) < ROOM, (part, leg)


def check_inner(part: Part, leg: str) -> None:
    """A slice through the solid just under the inner face, taken between the fillet and a rounded toe."""
    part = replace(part, holes=(), mirror_of="", hand=None)
    section, other = part.section, "B" if leg == "A" else "A"
    depth = float(section.thickness(leg)) - 5e-7  # the kernel slices in single precision
    low, high = float(section.thickness(other) + section.fillet), float(section.leg(leg) - section.toe_radius)
    if high - low < 1e-6:
        return
    solid = cutters.finished(part, solids.ON, 180)
    if leg == "B":  # (x, y, z) -> (x, -z, y): a turn, so that leg B lies flat
        solid = solid.transform([[1, 0, 0, 0], [0, 0, -1, 0], [0, 1, 0, 0]])
    rings = [Polygon(ring if leg == "A" else ring * (1, -1)) for ring in solid.slice(depth).to_polygons()]
    sliced = unary_union(rings).intersection(box(-1, low, 100, high))
    drawn = corners_of(face_edges(part, leg, inner=True), FINE)
    assert difference(Polygon(drawn) if drawn else Polygon(), sliced) < ROOM, (part, leg)


def fuzz(first: int, last: int) -> None:
    for seed in range(first, last):
        part = oracle_parts.part(Random(f"outline {seed}"))
        for leg in "AB":
            try:
                check_outer(part, leg)
                check_inner(part, leg)
            except AssertionError as error:
                raise AssertionError(f"seed {seed}, leg {leg}: {error}") from None


def test_random_faces():
    fuzz(0, 15)


@pytest.mark.slow
@pytest.mark.parametrize("block", range(10))
def test_a_thousand_random_faces(block):
    fuzz(100 * block + 40, 100 * block + 140)


def test_the_check_sees_a_wrong_outline(monkeypatch):
    """A cope that is left out, and a taper of the other leg that does not reach the inner face."""
    stock = Section("1 1/2", "1 1/2", "1/8", fillet="3/16")
    part = Part("P1", "Trial", stock, "6061-T6", 6, tapers=[Taper("B", 2, run=2)], copes=[Cope("A", 1, 1, "1/2", "1/8")])
    check_outer(part, "A")
    check_inner(part, "A")
    module = globals()
    real = face_edges
    monkeypatch.setitem(module, "face_edges", lambda part, leg, inner=False: real(replace(part, copes=()), leg, inner))
    with pytest.raises(AssertionError):
        check_outer(part, "A")
    monkeypatch.setitem(module, "face_edges", lambda part, leg, inner=False: real(replace(part, tapers=()), leg, inner))
    with pytest.raises(AssertionError):
        check_inner(part, "A")


def test_arcs_are_arcs():
    stock = Section("1 1/2", "1 1/2", "1/8", fillet="3/16", toe_radius="1/16")
    part = Part("P1", "Trial", stock, "6061-T6", 6, corners=[Corner("A", 1, "1/4")], copes=[Cope("A", 2, 1, "1/2", "1/8")])
    bends = {(edge.radius, round(abs(edge.turn))) for edge in face_edges(part, "A") if isinstance(edge, Bend)}
    assert bends == {(0.25, 90), (0.125, 90)}
    kinds = [type(edge) for edge in section_edges(stock)]
    assert kinds.count(Bend) == 3 and kinds.count(Straight) == 6


def test_crossing_tapers_meet_in_one_peak():
    stock = Section("1 1/2", "1 1/2", "1/8")
    part = Part("P1", "Trial", stock, "6061-T6", 4, tapers=[Taper("A", 1, run=3), Taper("A", 2, run=3)])
    corners = corners_of(face_edges(part, "A"))
    assert len(corners) == 3 and corners[2] == pytest.approx((2, 1))


def test_nothing_left_is_no_outline():
    """A taper of the other leg whose mark lies beyond the part leaves no inner face."""
    stock = Section("1 1/2", "1 1/2", "1/4")
    part = Part("P1", "Trial", stock, "6061-T6", 1, tapers=[Taper("B", 1, angle=5)])
    assert face_edges(part, "A", inner=True) == ()
