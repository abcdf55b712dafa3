"""What a check print passes: the wanted part, and parts that are off by their limits in one dimension; what it does not: more than that, or a cut left out.

Parts are made of polygons here (shapely), from the dimensions of the kit's files, and laid on the ink: what lies inside the
wanted part has to lie inside every part that passes, what lies outside it outside.
"""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from shapely import Polygon, box
from shapely.affinity import scale, translate
from whole_kit import whole_job

from anglelib.drawing.sheet import Polyline
from anglelib.paper.check_print import BETWEEN, View
from anglelib.part import Part
from anglelib.tolerances import Limits

INCH = 25.4
KIT = {part.id: part for part in whole_job().parts}
BROKEN = 1 / 64
CHORD, HAIR = 0.0008, 1e-6
"""What the chords of an arc may be off [in], by which the ink is made thinner; what may then lie on the other side of an edge [in2]."""


def bench(size: float) -> float:
    """How far off a length may be either way in an inch job (common practice): 1/64 up to 6 in., 1/32 up to 24, 1/16 above."""
    return 1 / 64 if size <= 6 else 1 / 32 if size <= 24 else 1 / 16


# --- the metal -----------------------------------------------------------------------------------------------------
def made(part: Part, leg: str, edge: float | None = None) -> Polygon:
    """A leg's outer face as (x, h) [in]: the blank less each cut; ``edge``: to what thickness every feather edge is taken off (None: as wanted at most)."""
    long, width = float(part.length), float(part.section.leg(leg))

    def at_end(shape: Polygon, end: int) -> Polygon:
        return shape if end == 1 else scale(shape, -1, 1, origin=(long / 2, 0))

    found = box(0, 0, long, width)
    for taper in part.tapers:
        high = float(part.section.leg(taper.leg) - taper.width_left)
        run = float(taper.run) if taper.run is not None else high / math.tan(math.radians(float(taper.angle)))
        left = float(taper.width_left)
        if taper.leg == leg:
            far = left - high / run
            found = found.difference(at_end(Polygon([(-1, far), (run, width), (run + 1, width + high / run), (-1, width + 9)]), taper.end))
        if not taper.width_left:  # the other leg is a wedge there: as thick as the tapered leg is high
            thick = (float(taper.edge) if edge is None else edge) if taper.blunt is None else float(taper.blunt)
            found = found.difference(at_end(box(-1, -1, thick * run / high, width + 1), taper.end))
    for cope in part.copes:
        if cope.leg == leg:
            long_, left, r = float(cope.length), float(cope.width_left), float(cope.radius)
            corner = box(long_ - r, left, long_, left + r).difference(_disc(long_ - r, left + r, r))
            found = found.difference(at_end(box(-1, left, long_, width + 1).difference(corner), cope.end))
    for round_ in part.corners:
        if round_.leg == leg:
            assert part.taper_at(leg, round_.end) is None
            r = float(round_.radius)
            found = found.difference(at_end(box(-1, width - r, r, width + 1).difference(_disc(r, width - r, r)), round_.end))
    return found


def _disc(x: float, y: float, radius: float) -> Polygon:
    return Polygon([(x + radius * math.cos(math.radians(d)), y + radius * math.sin(math.radians(d))) for d in range(360)])


# --- the paper -----------------------------------------------------------------------------------------------------
def ink(part: Part, limits: Limits, stop: int) -> dict[str, list[Polygon]]:
    """The ink about each leg, brought back to (x, h) [in]."""
    found: dict[str, list[Polygon]] = {"A": [], "B": []}
    for item in View(part, limits, 0.0, float(part.length), stop, 0.0).drawn():
        if isinstance(item, Polyline) and item.fill == "ink":
            low = min(y for _, y in item.points)
            leg = "A" if low > -BETWEEN / 2 else "B"
            points = [(x / INCH, y / INCH if leg == "A" else (-BETWEEN - y) / INCH) for x, y in item.points]
            found[leg].append(Polygon(points).buffer(0).buffer(-CHORD))
    return found


def inside(shape: Polygon, marks: list[Polygon]) -> list[bool | None]:
    """Of each ink whether it lies inside a shape; None where it does neither."""
    return [True if mark.difference(shape).area < HAIR else False if mark.intersection(shape).area < HAIR else None for mark in marks]


def stops(part: Part) -> list[int]:
    """The ends that a part can be set against; 0 where both are lost."""
    lost = {taper.end for taper in part.tapers if not taper.width_left}
    return [end for end in (1, 2) if end not in lost] or [0]


def passes(part: Part, other: Part, stop: int, limits: Limits, edge: float | None = None) -> bool:
    """Whether another part lies in the white of a part's check print, set against an end."""
    marks, grown = ink(part, limits, stop), float(other.length - part.length)
    shift = {1: 0.0, 2: -grown, 0: -grown / 2}[stop]
    return all(
        None not in (sound := inside(made(part, leg), marks[leg])) and sound == inside(translate(made(other, leg, edge), shift), marks[leg]) for leg in ("A", "B")
    )


@pytest.mark.parametrize("limits", [Limits(), Limits("iso-m"), Limits.named("1/32")], ids=lambda limits: limits.name)
@pytest.mark.parametrize("id_", KIT)
def test_the_wanted_part_passes_sharp_or_broken(id_, limits):
    part = KIT[id_]
    for stop in stops(part):
        assert all(passes(part, part, stop, limits, edge) for edge in (0.0, BROKEN / 2, BROKEN))


def strays(part: Part) -> list[tuple[str, int, Part, Part]]:
    """A part with one dimension off by its limits, either way, and by 0.012 in. more; the end that the dimension is at (0: the length)."""
    found = []

    def add(what: str, end: int, size: Fraction, change) -> None:
        for way in (1, -1):
            good, bad = (Fraction(size + Fraction(way * (bench(size) + more))).limit_denominator(10**6) for more in (0.0, 0.012))
            found.append((f"{what} {'+' if way > 0 else '-'}", end, change(good), change(bad)))

    bare = replace(part, holes=(), hand=None, mirror_of="")
    add("length", 0, part.length, lambda value: replace(bare, length=value))
    for kind, key in (("tapers", "run"), ("tapers", "width_left"), ("copes", "length"), ("copes", "width_left")):
        cuts = getattr(part, kind)
        for i, cut in enumerate(cuts):
            if getattr(cut, key):
                add(f"{kind} {i} {key}", cut.end, getattr(cut, key), lambda value, i=i, cut=cut, cuts=cuts, kind=kind, key=key: replace(
                    bare, **{kind: (*cuts[:i], replace(cut, **{key: value}), *cuts[i + 1:])}))  # fmt: skip
    return found


@pytest.mark.parametrize("id_", [id_ for id_ in KIT if id_ not in ("X1", "H34")])
def test_a_part_is_passed_up_to_its_limits_and_no_further(id_):
    """Of the gable the angle is held; the half-round clip's arcs end with its length.

    What is wrong is seen where nothing else is off: at the end that the part is set against, or on its length with the
    feather edge that shows it, sharp on a part that is long; an edge that the plans have blunted is off by more than that.
    """
    part = KIT[id_]
    blunted = any(taper.blunt is not None for taper in part.tapers)
    for what, end, good, bad in strays(part):
        for stop in stops(part):
            assert all(passes(part, good, stop, Limits(), edge) for edge in (0.0, BROKEN)), (what, stop)
            if stop and (stop == end or not end and not blunted):
                assert not passes(part, bad, stop, Limits(), 0.0 if what[-1] == "+" else BROKEN), (what, stop)


@pytest.mark.parametrize("id_", [id_ for id_, part in KIT.items() if part.tapers or part.copes or part.corners])
def test_a_cut_that_is_left_out_never_passes_and_a_print_without_it_passes_no_part(id_):
    part = KIT[id_]
    for kind in ("tapers", "copes", "corners"):
        for i in range(len(getattr(part, kind))):
            cuts = getattr(part, kind)
            other = replace(part, holes=(), hand=None, mirror_of="", **{kind: (*cuts[:i], *cuts[i + 1 :])})
            for stop in set(stops(part)) & set(stops(other)) or {0}:
                assert not passes(part, other, stop, Limits()), (kind, i)
                assert not passes(other, part, stop, Limits()), f"a print that forgets {kind} {i} is found"


@pytest.mark.parametrize("id_", [id_ for id_, part in KIT.items() if part.holes])
def test_a_hole_passes_where_its_readings_pass(id_):
    """At the four corners of its limits, and no further; against end 2 the part's length is off too."""
    part = KIT[id_]
    for stop in stops(part):
        marks = ink(part, Limits(), stop)
        for hole in part.holes:
            x, y, r = float(hole.x), float(hole.y), float(hole.diameter) / 2
            along = bench(x) + {0: 0.5, 1: 0.0, 2: 1.0}[stop] * bench(part.length)
            rings = [mark for mark in marks[hole.leg] if mark.convex_hull.centroid.distance(_disc(x, y, r).centroid) < 0.005 and mark.bounds[3] < y + 3 * r]
            assert 1 <= len(rings) <= 2 and (len(rings) == 2 or r - along < 0.02)
            sound = inside(_disc(x, y, r), rings)
            for u in (along, -along):
                for v in (bench(y), -bench(y)):
                    assert inside(_disc(x + u, y + v, r), rings) == sound and None not in sound
                assert inside(_disc(x + u + math.copysign(0.012, u), y, r), rings) != sound
