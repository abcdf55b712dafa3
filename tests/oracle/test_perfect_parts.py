"""A part that is made as it is drawn passes: by its readings, by the numbers that are printed of it, and by its check print.

The metal is a polygon of the drawing's numbers and is measured by intersecting lines (``caliper``); the library has no part in
it. The parts (``whole_parts``) have copes, rounded corners, holes and tapers in every way that they stand in each other's way,
in inches and in millimetres. What holds for the exact part holds for each one at the corners of its limits, too.
"""

from __future__ import annotations

import csv
import io
from collections import Counter
from dataclasses import replace
from fractions import Fraction as F
from functools import lru_cache
from itertools import product
from random import Random

import caliper
import pytest
import solids
import whole_parts
from cutters import corner_arc
from shapely import Point, Polygon, box, make_valid, unary_union
from shapely.affinity import affine_transform

from anglelib.errors import PartError
from anglelib.geometry import at_limits
from anglelib.geometry.at_limits import EVERY
from anglelib.geometry.layout import witness_line
from anglelib.geometry.rounding import rounded_corners
from anglelib.geometry.whole_holes import broken_holes
from anglelib.inspection import made, reading_edges, reading_ids, verdict, wanted
from anglelib.inspection.likelihood import Reading
from anglelib.inspection.reading_ids import WEIGHT, chosen, origin, takeable
from anglelib.inspection.verdict import ACCEPT, REWORK, SCRAP, judge
from anglelib.inspection.wanted import all_wanted
from anglelib.job import Job, Shop
from anglelib.lengths import writing
from anglelib.paper import check_print
from anglelib.paper.card_check import boxes
from anglelib.paper.check_print import FINE, views
from anglelib.paper.page import A4, LETTER
from anglelib.part import Part
from anglelib.tolerances import Limits
from anglelib.workshop.check_parts import PASS, check_parts
from anglelib.workshop.readings_file import form, parse_readings

QUICK, FULL = 60, 600
SAME = 2e-6
"""Two numbers for one place may differ by this: lines across a polygon are laid a skin's depth inside its edge [in]."""
THIN = 0.02
"""How far a drawn arc, which is made of chords, may miss its circle [mm]."""
CLOSE = 0.06
"""How near to its true place the ink of a limit lies [mm]."""


@lru_cache(maxsize=FULL)
def part_of(seed: int) -> Part:
    return whole_parts.drawn(seed)[1]


def limits_of(seed: int, part: Part) -> Limits:
    """The rule that its unit has, and now and then another one."""
    return {4: Limits("iso-f"), 9: Limits("iso-m")}.get(seed // 10 % 10, Limits.usual(part.unit))


def readings(metal: caliper.Metal, part: Part, ids=None) -> dict[str, float]:
    """What is read on metal that was to be this part: everything but the weight."""
    ids = [id_ for id_ in (takeable(part) if ids is None else ids) if id_ != WEIGHT]
    witness = witness_line(part)
    return caliper.read(metal, part, ids, origin(part), None if witness is None else float(witness))


# --- by its readings ------------------------------------------------------------------------------------------
def reads_right(seed: int) -> Counter:
    """Every reading that can be taken on the exact part is what is wanted, and all of them pass it."""
    part = part_of(seed)
    limits = limits_of(seed, part)
    assert not broken_holes(part), seed
    found = readings(caliper.made(part), part)
    want = all_wanted(part, limits)
    for id_, value in found.items():
        assert value == pytest.approx(want[id_].value, abs=SAME), (seed, id_)
    judged = judge(part, [Reading(id_, value) for id_, value in found.items()], limits)
    assert judged.outcome == ACCEPT, (seed, judged.sentence)
    for edge in (0.0, 1 / 64):  # a feather edge as sawn, and broken as far as it may be; read with a finer tool
        other = [Reading(id_, value, 1e-4) for id_, value in readings(caliper.made(part, edge), part).items()]
        assert judge(part, other, limits).outcome not in (REWORK, SCRAP), (seed, edge, judge(part, other, limits).sentence)
    return Counter(id_.partition(".")[0] for id_ in found)


KINDS = {"heel", "toe", "width", "inside", "start", "mid", "peak", "cope", "corner", "thickness", "hole"}


def test_sixty_exact_parts_pass_by_their_readings():
    kinds = sum((reads_right(seed) for seed in range(QUICK)), Counter())
    assert set(kinds) == KINDS and min(kinds.values()) >= 5, kinds


@pytest.mark.slow
@pytest.mark.parametrize("block", range(6))
def test_six_hundred_exact_parts_pass_by_their_readings(block):
    kinds = sum((reads_right(seed) for seed in range(100 * block, 100 * (block + 1))), Counter())
    assert set(kinds) == KINDS and min(kinds.values()) >= 10, kinds


def weighs_right(seed: int) -> None:
    """Weighed: the kernel's solid by the density of 6061 (Aluminum Association, standard tables: 0.0975 lb to the cubic inch)."""
    part = part_of(seed)
    weight = solids.part_solid(part, solids.ON, 48).volume() * 0.0975
    assert judge(part, [Reading(WEIGHT, weight)]).outcome == ACCEPT, seed


def test_exact_parts_pass_the_scale():
    for seed in range(0, QUICK, 5):
        weighs_right(seed)


# --- by the numbers that are printed ----------------------------------------------------------------------------
def typed(part: Part, limits: Limits, which: str) -> tuple[Job, dict[str, str]]:
    """What the form prints of each reading that it asks for, in one of its columns."""
    job = Job("Trial", Shop(), [part], unit=part.unit, limits=limits)
    rows = csv.DictReader(io.StringIO(form(job, ["K01"])))
    return job, {row["id"]: row[which] for row in rows if row["id"] != "print"}


def prints_right(seed: int) -> int:
    """Typed as it is printed, what is wanted passes, and so does each limit; the card has the form's numbers."""
    part = part_of(seed)
    limits = limits_of(seed, part)
    job, wanted_cells = typed(part, limits, "wanted")
    assert tuple(wanted_cells) == tuple(id_ for id_ in chosen(part) if id_ != WEIGHT), seed
    rows = [f"K01,{part.id},{id_},{cell}" for id_, cell in wanted_cells.items()]
    (checked,) = check_parts(parse_readings("\n".join(["code,part,id,read", *rows]), job), job).parts
    assert checked.outcome == PASS, (seed, checked.sentence)
    columns = {which: typed(part, limits, which)[1] for which in ("low", "high")}
    for cells in columns.values():
        for id_, cell in cells.items():
            (one,) = check_parts(parse_readings(f"code,part,id,read\nK01,{part.id},{id_},{cell}", job), job).parts
            assert one.verdict.outcome not in (REWORK, SCRAP), (seed, id_, cell, one.sentence)
    with writing(part.unit):
        printed = [(figure, low, high) for _, figure, (low, high) in boxes(part, limits)]
    of_form = [tuple(cells[id_].split()[0] for cells in (wanted_cells, columns["low"], columns["high"])) for id_ in wanted_cells]
    assert printed == of_form, seed
    return len(of_form)


def test_what_is_printed_of_sixty_parts_passes_as_it_is_printed():
    counts = [prints_right(seed) for seed in range(QUICK)]
    assert min(counts) >= 5 and max(counts) == reading_ids.MOST


@pytest.mark.slow
@pytest.mark.parametrize("block", range(6))
def test_what_is_printed_of_six_hundred_parts_passes_as_it_is_printed(block):
    assert min(prints_right(seed) for seed in range(100 * block, 100 * (block + 1))) >= 5


def typed_as_fine_prints(seed: int) -> None:
    """The readings that no card asks for, too: the exact part's, with three places of an inch or two of a millimetre."""
    part = part_of(seed)
    limits = limits_of(seed, part)
    step = 0.001 if part.unit == "in" else 0.01 / 25.4
    rounded = [Reading(id_, round(value / step) * step) for id_, value in readings(caliper.made(part), part).items()]
    judged = judge(part, rounded, limits)
    assert judged.outcome == ACCEPT, (seed, judged.sentence)


def test_rounded_as_a_caliper_shows_them_all_readings_pass():
    for seed in range(QUICK):
        typed_as_fine_prints(seed)


@pytest.mark.slow
def test_rounded_as_a_caliper_shows_them_all_readings_of_six_hundred_parts_pass():
    for seed in range(FULL):
        typed_as_fine_prints(seed)


# --- by its check print -----------------------------------------------------------------------------------------
def placed(view, leg: str, face: Polygon, along: float = 0.0) -> Polygon:
    """A face as it lies on the paper [mm], ``along`` [in] farther from end 1."""
    (x0, y0), (x1, y1), (x2, y2) = view.at(leg, along, 0), view.at(leg, along + 1, 0), view.at(leg, along, 1)
    return affine_transform(face, [x1 - x0, x2 - x0, y1 - y0, y2 - y0, x0, y0]).buffer(0)


def beside_bars(view, leg: str) -> Polygon:
    """The paper on the part's side of the bars that it is set against; on the bars no ink of a limit is seen."""
    x1, heel = view.at(leg, 0, 0)
    x2 = view.at(leg, view.length, 0)[0]
    left, right = x1 if view.stop == 1 else -1e4, x2 if view.stop == 2 else 1e4
    return box(left, heel, right, 1e4) if leg == "A" else box(left, -1e4, right, heel)


def lies_in_the_white(view, metals: list[tuple[caliper.Metal, float]], seed: int) -> None:
    """No ink of the largest part, nor a bar, lies on the metal, and all ink of the least does. ``metals``: each with how much longer the part is."""
    for leg, (metal, grown) in product("AB", metals):
        along = {1: 0.0, 2: -grown, 0: -grown / 2}[view.stop]
        face = placed(view, leg, metal.outer[leg], along)
        for most in (True, False):
            for points in view.lines(leg, most):
                ink = make_valid(Polygon(points)).intersection(beside_bars(view, leg))
                wrong = ink.intersection(face.buffer(-THIN)) if most else ink.difference(face.buffer(THIN))
                assert wrong.area < 1e-6, (seed, leg, "largest" if most else "least", view.stop, wrong.area)
        for bar in view.bars(leg):
            assert make_valid(Polygon(bar.points)).intersection(face.buffer(-THIN)).area < 1e-6, (seed, leg)


def ink_is_at_the_limit(view, part: Part, limits: Limits, seed: int) -> int:
    """All round, the ink of each limit lies where the drawing's numbers at that limit put it, rounded corners included."""
    seen = 0
    for most, leg in product((True, False), "AB"):
        at_limit = at_limits.at_limit(part, limits, most)
        metal = caliper.made(at_limit, 0.0)
        # A radius at its limit, whatever the other arc of the toe leaves room for.
        sharp = metal.sharp_face(leg)
        width, off = float(part.section.leg(leg)), -1 if most else 1
        radii = {c.end: float(c.radius) + off * float(limits.radius(c.radius)) for c in part.corners if c.leg == leg}
        rounds = tuple(caliper.Round(leg, c.end, max(radii[c.end], float(c.radius) / 2)) for c in part.corners if c.leg == leg)
        # One that would come down to the other leg is the largest that does not: its size is not held here.
        if any(lowest(sharp, width, one) < max(on_edge(sharp, one.end), metal.thick[whole_parts.other(leg)]) - 1e-9 for one in rounds):
            continue
        face = replace(metal, rounds=rounds).outer[leg]
        grown = float(at_limit.length - part.length)
        rim = placed(view, leg, face, {1: 0.0, 2: -grown, 0: -grown / 2}[view.stop]).exterior
        ink = unary_union([make_valid(Polygon(points)) for points in view.lines(leg, most)])
        heel = view.at(leg, 0, 0)[1]
        stop = {1: view.at(leg, 0, 0)[0], 2: view.at(leg, view.length, 0)[0]}.get(view.stop)
        left = view.at(leg, view.low, 0)[0] + 0.5 if view.low > 0 else -1e4
        right = view.at(leg, view.high, 0)[0] - 0.5 if view.high < view.length else 1e4
        for step in range(int(rim.length)):
            point = rim.interpolate(step + 0.5)
            if abs(point.y - heel) > 0.5 and left < point.x < right and (stop is None or abs(point.x - stop) > 0.5):
                assert ink.distance(point) < CLOSE, (seed, leg, "largest" if most else "least", point)
                seen += 1
    return seen


def lowest(face: Polygon, width: float, one: caliper.Round) -> float:
    """How near to the heel an arc comes."""
    return min(y for _, y in corner_arc(face, width, one.end, one.radius)[2])


def on_edge(face: Polygon, end: int) -> float:
    """Where the edge ends that goes down from a sharp face's toe at an end."""
    ring = list(face.exterior.coords)[:-1]
    top = max(y for _, y in ring)
    at = ring.index((min if end == 1 else max)(p for p in ring if p[1] > top - 1e-9))
    return min(ring[at - 1][1], ring[(at + 1) % len(ring)][1])


def rings_are_right(view, part: Part, limits: Limits, seed: int) -> int:
    """A hole of the fastener's size, where it is drawn or as far off as it may be, shows the whole inner ring and none of the outer one."""
    seen = 0
    length = float(limits.length(part.length)) * {1: 0.0, 2: 1.0, 0: 0.5}[view.stop]
    for hole in part.holes:
        if not view.shows(hole):
            continue
        rings = [make_valid(Polygon(points)) for points in view.rings(hole)]
        along, up = float(limits.length(hole.x)) + length, float(limits.length(hole.y))
        for right, high in ((0, 0), *product((1, -1), repeat=2)):
            disc = Point(float(hole.x) + right * along, float(hole.y) + high * up).buffer(float(hole.diameter) / 2, quad_segs=64)
            disc = placed(view, hole.leg, disc)
            assert rings[0].intersection(disc.buffer(-THIN)).area < 1e-6, (seed, hole)
            for inner in rings[1:]:
                assert inner.difference(disc.buffer(THIN)).area < 1e-6, (seed, hole)
        # They are no farther away than that: a hole off by a little more along shows some of the outer ring.
        disc = placed(view, hole.leg, Point(float(hole.x) + along + 0.01, float(hole.y)).buffer(float(hole.diameter) / 2, quad_segs=64))
        assert rings[0].intersection(disc).area > 0.01, (seed, hole)
        seen += 1
    return seen


def laid_on_its_print(seed: int) -> tuple[int, int]:
    """The exact part on each stretch of its check print; how many places and how many rings were looked at."""
    part = part_of(seed)
    limits = limits_of(seed, part)
    points = rings = 0
    for view in views(part, (A4, LETTER)[seed % 2], limits):
        assert FINE < 0.2
        exact = [(caliper.made(part, edge), 0.0) for edge in (caliper.BROKEN, 0.0, 1 / 64)]
        lies_in_the_white(view, exact, seed)
        points += ink_is_at_the_limit(view, part, limits, seed)
        rings += rings_are_right(view, part, limits, seed)
    return points, rings


def test_sixty_exact_parts_lie_in_the_white_of_their_check_prints():
    counts = [laid_on_its_print(seed) for seed in range(QUICK)]
    assert sum(points for points, _ in counts) > 15_000 and sum(rings for _, rings in counts) > 60


@pytest.mark.slow
@pytest.mark.parametrize("block", range(6))
def test_six_hundred_exact_parts_lie_in_the_white_of_their_check_prints(block):
    counts = [laid_on_its_print(seed) for seed in range(100 * block, 100 * (block + 1))]
    assert sum(points for points, _ in counts) > 25_000 and sum(rings for _, rings in counts) > 100


# --- at the corners of its limits -------------------------------------------------------------------------------
def strayed(part: Part, limits: Limits, rng: Random) -> Part | None:
    """The part with each dimension at one end of its limits, each its own way; None where that is no part. Holes stay: see ``stray_metal``."""

    def way() -> int:
        return rng.choice((1, -1))

    tapers = []
    for taper in part.tapers:
        width, left = part.section.leg(taper.leg), taper.width_left
        left = max(F(0), left + way() * limits.length(left or width / 2))
        blunt = None if left or taper.blunt is None else max(taper.blunt + way() * limits.length(taper.blunt), taper.blunt / 8)
        if taper.angle is not None:
            rise = float(width - taper.width_left)
            shorter = min(rise, caliper._run(part, taper))
            angle = taper.angle + way() * limits.angle(shorter)
            tapers.append(replace(taper, angle=angle, width_left=left, blunt=blunt))
        else:
            tapers.append(replace(taper, run=taper.run + way() * limits.length(taper.run), width_left=left, blunt=blunt))
    try:
        copes = [
            replace(c, length=(back := c.length + way() * limits.length(c.length)), width_left=(left := max(c.width_left + way() * limits.length(c.width_left), part.section.thickness(whole_parts.other(c.leg)))),
                    radius=min(c.radius, back, part.section.leg(c.leg) - left))
            for c in part.copes
        ]  # fmt: skip
        corners = [replace(c, radius=c.radius + way() * limits.radius(c.radius)) for c in part.corners]
        length = part.length + way() * limits.length(part.length)
        found = replace(part, length=length, tapers=tapers, copes=copes, corners=corners, holes=(), hand=None, mirror_of="")
        rounded_corners(found)
    except PartError:
        return None
    return found


def stray_metal(part: Part, stray: Part, limits: Limits, rng: Random) -> caliper.Metal:
    """Its metal, the feather edges sharp or broken as far as they may be, its holes off both ways as far as they may be."""
    metal = caliper.made(stray, rng.choice((0.0, 1 / 64)))
    drilled = [
        caliper.Drilled(h.leg, float(h.x + rng.choice((1, -1)) * limits.length(h.x)), float(h.y + rng.choice((1, -1)) * limits.length(h.y))) for h in part.holes
    ]
    return caliper.replace(metal, drilled=tuple(drilled))


def strays(part: Part, limits: Limits, seed: int, many: int):
    """The part at the eight corners where all dimensions of a kind stray one way, and at random ones where each strays its own."""
    rng = Random(f"stray {seed}")
    for ways in EVERY:
        one = at_limits.strayed(part, limits, ways)
        yield one, stray_metal(part, one, limits, rng)
    for _ in range(many):
        one = strayed(part, limits, rng)
        if one is not None:
            yield one, stray_metal(part, one, limits, rng)


def passes_at_its_limits(seed: int, many: int) -> int:
    """No reading of a part that keeps its dimensions calls for rework or scrap, and it lies on its check print."""
    part = part_of(seed)
    limits = limits_of(seed, part)
    want, count = all_wanted(part, limits), 0
    metals = []
    for stray, metal in strays(part, limits, seed, many):
        found = readings(metal, part)
        for id_, value in found.items():
            assert want[id_].low - SAME < value < want[id_].high + SAME, (seed, id_, value, want[id_])
        judged = judge(part, [Reading(id_, value, 1e-4) for id_, value in found.items()], limits)
        assert judged.outcome not in (REWORK, SCRAP), (seed, judged.sentence)
        metals.append((metal, float(stray.length - part.length)))
        count += 1
    for view in views(part, A4, limits):
        lies_in_the_white(view, metals, seed)
    return count


def test_parts_at_the_corners_of_their_limits_pass():
    counts = [passes_at_its_limits(seed, 4) for seed in range(0, QUICK, 2)] + [passes_at_its_limits(seed, 4) for seed in range(1, QUICK, 6)]
    assert len(counts) == 40 and min(counts) >= 8 and sum(counts) > 440


@pytest.mark.slow
@pytest.mark.parametrize("block", range(6))
def test_six_hundred_parts_at_the_corners_of_their_limits_pass(block):
    counts = [passes_at_its_limits(seed, 8) for seed in range(100 * block, 100 * (block + 1))]
    assert sum(counts) > 1400


def test_every_family_is_there_with_what_it_is_for():
    """What is rare is in the quick sixty: both units, crossing cuts, a cope and a corner on one leg, 3/4 in. and 60 in., unequal legs."""
    parts = [part_of(seed) for seed in range(QUICK)]
    assert {part.unit for part in parts} == {"in", "mm"}

    def count(what) -> int:
        return sum(bool(what(part)) for part in parts)

    def opposite(part: Part, one: str, two: str) -> bool:
        return any(a.leg == b.leg and a.end != b.end for a in getattr(part, one) for b in getattr(part, two))

    assert count(lambda p: opposite(p, "copes", "corners")) >= 5
    assert count(lambda p: opposite(p, "copes", "tapers")) >= 5
    assert count(lambda p: any((t.leg, t.end) == (c.leg, c.end) for t in p.tapers for c in p.corners)) >= 5
    assert count(lambda p: any(t.leg != c.leg and t.end == c.end for t in p.tapers for c in p.copes)) >= 5
    assert count(lambda p: any(id_.startswith("peak") for id_ in takeable(p))) >= 5
    assert count(lambda p: p.length < 1) >= 5 and count(lambda p: p.length > 59) >= 5
    assert count(lambda p: not p.section.equal_legs) >= 20 and count(lambda p: p.section.thickness_a != p.section.thickness("B")) >= 10
    assert count(lambda p: p.section.toe_radius) >= 10 and count(lambda p: p.section.fillet) >= 20
    assert count(lambda p: any(not t.width_left and t.blunt is None for t in p.tapers)) >= 5 and count(lambda p: any(t.blunt for t in p.tapers)) >= 5


# --- the guards are seen to fail ------------------------------------------------------------------------------
CACHES = (reading_ids.takeable, reading_ids.chosen, all_wanted, wanted._made_at_limits, made._asked, made._volume)


@pytest.fixture
def planted(monkeypatch):
    """A fault in the library, for one test: nothing that was kept before is asked, and nothing of it is kept."""
    for cache in CACHES:
        cache.cache_clear()
    yield monkeypatch
    monkeypatch.undo()
    for cache in CACHES:
        cache.cache_clear()


def fails(check, *more) -> bool:
    """Whether a check fails on some of the quick sixty."""
    for seed in range(QUICK):
        try:
            check(seed, *more)
        except AssertionError:
            return True
    return False


def test_a_cope_that_is_forgotten_on_the_made_part_is_noticed(planted):
    as_wanted = made.Made.as_wanted
    planted.setattr(made.Made, "as_wanted", classmethod(lambda cls, part: replace(as_wanted(part), copes=())))
    assert fails(reads_right)


def test_a_reading_from_an_edge_that_is_not_there_is_noticed(planted):
    planted.setattr(reading_edges, "toe_is_left", lambda part, leg: True)
    assert fails(reads_right)


def test_one_edge_for_both_tapers_of_an_end_is_noticed(planted):
    """The feather edges of one end are broken or blunted each for itself."""
    planted.setattr(made, "usual_edge", lambda taper: 0.0)
    assert fails(reads_right)


def test_a_limit_that_is_not_met_as_it_is_printed_is_noticed(planted):
    planted.setattr(wanted, "LAST_PLACE", {"in": F(0), "mm": F(0)})
    assert fails(prints_right)


def test_a_limit_that_is_rounded_inwards_is_noticed(planted):
    keeps = verdict.outcome_of
    planted.setattr(verdict, "outcome_of", lambda reading, want: keeps(reading, replace(want, low=want.low + 0.001, high=want.high - 0.001)))
    assert fails(prints_right)


def test_limits_of_the_length_alone_are_noticed(planted):
    planted.setattr(wanted, "EVERY", ((at_limits.Ways(1, 0, 0)), (at_limits.Ways(-1, 0, 0))))
    assert fails(passes_at_its_limits, 0)


def test_a_corner_that_is_dropped_from_the_check_print_is_noticed(planted):
    outline = at_limits.outline_at_limit
    planted.setattr(check_print, "outline_at_limit", lambda part, *more: replace(outline(part, *more), corners=()))
    assert fails(laid_on_its_print)


def test_the_least_part_with_arcs_that_give_way_to_each_other_is_noticed(planted):
    """The least outline of a half-round clip with the largest radii that fit together: no clip covers it at both ends."""
    from anglelib.geometry.leg_shape import LegShape

    planted.setattr(check_print, "outline_at_limit", lambda part, limits, most, leg: LegShape.of(at_limits.at_limit(part, limits, most), leg))
    assert fails(laid_on_its_print)


def test_ink_on_the_wrong_side_of_a_limit_is_noticed(planted):
    planted.setattr(check_print, "FINE", -FINE)
    assert fails(laid_on_its_print)


def test_rings_without_the_limits_of_the_length_are_noticed(planted):
    rings = check_print.View.rings
    planted.setattr(check_print.View, "rings", lambda self, hole: rings(replace(self, stop=1) if self.stop != 1 else self, hole))
    assert fails(laid_on_its_print)
