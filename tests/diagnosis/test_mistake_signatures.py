"""Every mistake of the course's table: what it does to the readings, worked by hand, on the bench and in the library.

The cleat: 3/4 x 3/4 x 1/8 with a fillet of 1/8, 2 1/8 long; leg A tapered at end 1, run 1 1/4, width
left 3/8, so tan = 0.3; holes at x 1 7/16 in leg A, 7/16 and 1 11/16 in leg B, all at y 7/16. Kerf
1/16, allowance 1/32. The bracket: 1 1/4 x 1 1/4 x 1/8, 4 3/4 long, run 2 1/8 to the vertex.
"""

from __future__ import annotations

from math import atan, cos, degrees, hypot, isclose, radians, sin, sqrt, tan

import bench_slips as bench
import diagnosis_count as counting
import pytest
from sawn_metal import as_drawn, measure

from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.job import Shop
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
CLEAT = Part(
    "A1L", "Cleat", STOCK, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")],
    holes=[Hole("A", "1 7/16", "7/16", "1/8"), Hole("B", "7/16", "7/16", "1/8"), Hole("B", "1 11/16", "7/16", "1/8")],
)  # fmt: skip
BRACKET = Part("C1L", "Bracket", Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
SHOP = Shop()
K, E, T = 1 / 16, 1 / 32, 1 / 8
COS = 1.25 / hypot(1.25, 0.375)
SIN = 0.375 / hypot(1.25, 0.375)
ALL = tuple(name for name in readings_of(Made.as_wanted(CLEAT)) if name != "weight")
EXACT = 2e-6


def shifts_of_library(part: Part, id_: str) -> list[tuple[str, dict[str, float]]]:
    """What each case of a mistake does to each reading, in the library; nothing where it does nothing."""
    wanted = readings_of(Made.as_wanted(part))
    found = []
    for case in MISTAKES[id_].cases(part, SHOP):
        made = readings_of(case.made)
        shifts = {name: made[name] - wanted[name] for name in made.keys() & wanted.keys() if name != "weight"}
        found.append((case.words, {name: v for name, v in shifts.items() if abs(v) > 1e-9}))
    return found


def shifts_on_bench(part: Part, id_: str, amounts=(0.5,)) -> list[dict[str, float]]:
    """The same on the bench."""
    names = tuple(name for name in readings_of(Made.as_wanted(part)) if name != "weight")
    wanted = measure(as_drawn(part), names)
    found = []
    for way in bench.slips(part, K, E)[id_]:
        for u in amounts if way.free else (0.5,):
            made = measure(way.make(u), names)
            found.append({n: v - w for n, v, w in zip(names, made, wanted) if abs(v - w) > 1e-9})
    return found


def same(one: dict[str, float], two: dict[str, float]) -> bool:
    return all(isclose(one.get(n, 0.0), two.get(n, 0.0), abs_tol=EXACT) for n in one.keys() | two.keys())


def lengths(by: float) -> dict[str, float]:
    return {"heel": by, "toe.A": by, "toe.B": by}


def dressed(by: float, last: float = 0.0) -> dict[str, float]:
    """End 1 dressed by so much after layout, end 2 cut short by ``last``."""
    up = by * 0.3
    return {
        "heel": -by - last, "toe.B": -by - last, "toe.A": -last, "start.A.1": -by,
        "width.A.1": up, "inside.A.1": up, "hole.1.x": -by, "hole.2.x": -by, "hole.3.x": -by,
    }  # fmt: skip


def half_way(run: float, left: float) -> float:
    """The width 5/8 in. behind where the taper starts on the toe, of a line from (run, 3/4) to (0, left); wanted 9/16."""
    return {"mid.A.1": (0.75 - 0.625 * (0.75 - left) / run if run > 0.625 else 0.0) - 0.5625}


def run(by: float) -> dict[str, float]:
    return {"start.A.1": by, "toe.A": -by, **half_way(1.25 + by, 0.375)}


def left(by: float) -> dict[str, float]:
    return {"width.A.1": by, "inside.A.1": by, **half_way(1.25, 0.375 + by)}


OTHER_LEG = {
    "width.A.1": 0.375, "inside.A.1": 0.375, "mid.A.1": 0.1875, "width.B.1": -0.375,
    "start.A.1": -1.25, "toe.A": 1.25, "toe.B": -1.25,
}  # fmt: skip
OTHER_END = {"width.A.1": 0.375, "inside.A.1": 0.375, "mid.A.1": 0.1875, "width.A.2": -0.375, "start.A.1": -1.25}
BY_HAND = [
    ("M01", lengths(-K)),
    ("M02", lengths(-K / 2)),
    ("M03", dressed(K, K)),  # -2 k over all
    ("M03", dressed(K / 2, K / 2)),  # -k over all
    ("M04", lengths(-E)),
    ("M04", lengths(-2 * E)),
    ("M05", lengths(E)),
    ("M05", lengths(2 * E)),
    ("M07", run(-1)),
    ("M08", run(1 / 16)),
    ("M08", run(0.25)),  # 1 1/4 as 1 1/2 (and four sixteenths more)
    ("M08", run(-0.125)),  # 1 1/4 as 1 1/8
    ("M08", left(-3 / 16)),  # 3/8 as 3/16
    ("M08", {"hole.1.y": 1 / 16}),
    ("M08", {"hole.2.x": -7 / 32}),  # 7/16 as 7/32
    ("M09", OTHER_LEG),
    ("M10", OTHER_END),
    ("M11", {"hole.1.y": T}),
    ("M11", {"hole.2.y": T, "hole.3.y": T}),  # every hole on that leg
    ("M11", {"hole.1.y": 2 * T}),  # from the fillet's edge: t + r
    ("M11", left(T)),
    ("M13", {**run(K / SIN), **left(-K / COS), "mid.A.1": 0.0}),  # a parallel line
    ("M17", {"hole.1.x": 2.125 - 2 * 1.4375}),
    ("M17", {"hole.2.x": 2.125 - 2 * 0.4375}),
    ("M19", run(sqrt(1.25**2 - 0.375**2) - 1.25)),
    ("M20", run(0.375**2 / 1.25 - 1.25)),
    ("M23", {"thickness.A": 1 / 16, "thickness.B": 1 / 16, "inside.A": -1 / 16, "inside.B": -1 / 16,
             "inside.A.1": -1 / 16}),
    ("M27", run(1.25 * 16 / 25.4 - 1.25)),
]  # fmt: skip
NAIVE = [
    ("M02", lengths(-K)),  # the whole kerf where the saw split the line
    ("M03", lengths(-2 * K)),  # a kerf at both ends cannot leave the holes where they are
    ("M09", {**OTHER_LEG, "width.A.1": -0.375}),  # d with the wrong sign
    ("M10", {**OTHER_END, "toe.A": 1.25}),  # the toe is as long with the taper at its other end
    ("M11", {"hole.2.y": T}),  # one hole of a leg alone
    ("M13", {**run(K), **left(-K * 0.3)}),  # the kerf along the heel in place of square to the line
    ("M13", {**run(K / COS), **left(-K / SIN)}),  # sine and cosine exchanged
    ("M16", {**dressed(K), "width.A.1": -K * 0.3}),  # end 1 dressed leaves more width, not less
    ("M17", {"hole.1.x": 2.125 - 1.4375}),  # the place for the shift
    ("M19", run(hypot(1.25, 0.375) - 1.25)),  # longer in place of shorter
    ("M20", run(0.375 - 1.25)),  # the height as run
    ("M23", {"thickness.A": 1 / 16, "thickness.B": 1 / 16}),  # thicker, and as wide inside
]


@pytest.mark.parametrize(("id_", "shifts"), BY_HAND)
def test_signature_by_hand_is_the_library_s_and_the_bench_s(id_, shifts):
    assert any(same(shifts, found) for _, found in shifts_of_library(CLEAT, id_)), shifts_of_library(CLEAT, id_)
    assert any(same(shifts, found) for found in shifts_on_bench(CLEAT, id_)), shifts_on_bench(CLEAT, id_)


@pytest.mark.parametrize(("id_", "shifts"), NAIVE)
def test_naive_signature_is_nobody_s(id_, shifts):
    assert not any(same(shifts, found) for _, found in shifts_of_library(CLEAT, id_))
    assert not any(same(shifts, found) for found in shifts_on_bench(CLEAT, id_, (0.1, 0.2, 0.5)))


def test_m07_and_m27_of_a_length():
    """An inch, or 0.63 of it, from a bar whose holes stay where they are; from the cleat there is no metal left for them."""
    bar = Part("A3", "Bar", STOCK, "6061-T6", 17, holes=[Hole("A", "1/2", "3/8", "1/8")])
    for id_, lost in (("M07", -1.0), ("M07", 1.0), ("M27", 17 * 16 / 25.4 - 17)):
        assert any(same(lengths(lost), found) for found in everywhere(bar, id_))
        assert sum(same(lengths(lost), found) for found in everywhere(bar, id_)) == 2  # the library's, and the bench's
    assert not any(same(lengths(-1), found) for found in everywhere(CLEAT, "M07"))
    assert not any(same(lengths(2.125 * 16 / 25.4 - 2.125), found) for found in everywhere(CLEAT, "M27"))
    assert any(same({"hole.1.x": 1.0}, found) for found in everywhere(bar, "M07"))


# --- mistakes with a free amount: what holds for every amount ----------------------------------------------
def everywhere(part: Part, id_: str) -> list[dict[str, float]]:
    return [shifts for _, shifts in shifts_of_library(part, id_)] + shifts_on_bench(part, id_, (0.1, 0.4, 0.6, 0.9))


def test_m14_one_end_of_the_line_stays_and_the_angle_is_wrong():
    for s in everywhere(CLEAT, "M14"):
        start, up = s.get("start.A.1", 0.0), s.get("width.A.1", 0.0)
        assert (abs(start) < EXACT) != (abs(up) < EXACT)
        slope = (0.375 - up) / (1.25 + start)
        assert 1.4 < abs(degrees(atan(slope) - atan(0.3))) < 6.1
        assert isclose(s.get("toe.A", 0.0), -start, abs_tol=EXACT)
        assert isclose(s.get("inside.A.1", 0.0), up, abs_tol=EXACT)


def test_m15_inside_edge_leaves_the_outside_one_by_t_tan_delta():
    for words, s in shifts_of_library(CLEAT, "M15"):
        delta = float(words.split(", ")[1].split()[0])
        # Square to the line: across the leg times the cosine.
        assert isclose(abs(s["inside.A.1"]) * COS, T * tan(radians(abs(delta))), rel_tol=0.06)
        assert "width.A.1" not in s and "start.A.1" not in s
    for s in shifts_on_bench(CLEAT, "M15", (0.1, 0.9)):
        assert T * tan(radians(4)) <= abs(s["inside.A.1"]) * COS <= T * tan(radians(15))


def test_m16_takes_as_much_off_every_x_and_leaves_more_width():
    for s in everywhere(CLEAT, "M16"):
        u = -s["heel"]
        assert 1 / 32 <= u <= 3 / 16 and same(s, dressed(u))


def test_m18_grows_with_the_step():
    for s in everywhere(CLEAT, "M18"):
        by = [s.get(f"hole.{n}.x", 0.0) for n in (2, 1, 3)]  # in the order of x
        moved = [v for v in by if abs(v) > EXACT]
        assert all(name.startswith("hole") for name in s) and abs(moved[-1]) >= 1 / 64 - EXACT
        step = by[2] - (by[1] if abs(by[1]) > EXACT else by[0])
        assert any(isclose(by[2], n * step, abs_tol=EXACT) for n in (1, 2, 3)), by


def test_m21_toe_and_heel_differ_by_the_width_times_the_tangent():
    seen = set()
    for words, s in shifts_of_library(CLEAT, "M21"):
        delta = tan(radians(abs(float(words.split(", ")[-1].split()[0]))))
        assert "heel" not in s
        if words.startswith("end 2"):
            for leg in "AB":
                if f"leg {leg}" in words or "both" in words:
                    assert isclose(abs(s[f"toe.{leg}"]), 0.75 * delta, rel_tol=0.05)
        if "like senses" in words and "end 2" in words:
            seen.add("like")
            assert s["toe.A"] * s["toe.B"] > 0
        if "opposite" in words and "end 2" in words:
            seen.add("opposite")
            assert s["toe.A"] * s["toe.B"] < 0
    assert seen == {"like", "opposite"}
    assert all("heel" not in s for s in shifts_on_bench(CLEAT, "M21", (0.1, 0.9)))


def test_m22_takes_width_over_the_whole_length():
    for s in everywhere(CLEAT, "M22"):
        leg = "A" if "width.A.2" in s else "B"
        u = -s[f"width.{leg}.2"]
        assert 1 / 32 <= u + EXACT and u - EXACT <= 1 / 8
        assert isclose(s[f"inside.{leg}"], -u, abs_tol=EXACT)
        if leg == "A":
            assert same(s, {"width.A.2": -u, "inside.A": -u, **run(-u / 0.3), "mid.A.1": -u})  # read from where it starts now
        else:
            assert same(s, {"width.B.1": -u, "width.B.2": -u, "inside.B": -u})


def test_m12_leaves_the_other_leg_s_thickness_at_the_end():
    for s in everywhere(BRACKET, "M12"):
        # Half-way the width grows by half of it; what is left is no feather edge, which nobody breaks.
        unbroken = 2.125 / 1.25 / 128
        assert same(s, {"mid.A.1": T / 2, "heel": unbroken, "toe.B": unbroken})
    made = MISTAKES["M12"].cases(BRACKET, SHOP)[0].made.tapers[0]
    assert isclose(1 / made.slope, (1.25 - T) / 2.125)
    assert not MISTAKES["M12"].cases(CLEAT, SHOP)  # 3/8 is left there: nobody aims at the corner


def test_m13_on_a_vertex_taper_shortens_the_heel():
    """The edge moved by a kerf leaves through the heel: the part begins later, on leg B too."""
    moved = K / sin(atan(1.25 / 2.125))
    for s in everywhere(BRACKET, "M13"):
        assert same(s, {"heel": -moved, "toe.A": -moved, "toe.B": -moved})


def test_m23_wrong_width():
    for s in everywhere(CLEAT, "M23"):
        if "thickness.A" not in s:
            by = s["width.A.2"]
            assert abs(by) == pytest.approx(0.25) and s["width.B.1"] == pytest.approx(by) and "width.A.1" not in s


def test_m24_shows_in_the_weight_alone():
    """2024 is 1.026 times as heavy as 6061, 7075 1.036 times, 6063 hardly lighter."""
    wanted = readings_of(Made.as_wanted(CLEAT))
    ratios = {c.words: readings_of(c.made)["weight"] / wanted["weight"] for c in MISTAKES["M24"].cases(CLEAT, SHOP)}
    assert ratios == pytest.approx({"2024": 1.0256, "7075": 1.0359, "6063": 0.9949}, abs=1e-4)
    assert all(not s for s in everywhere(CLEAT, "M24"))


def test_m25_shrinks_by_length_and_warming():
    """23.6e-6 for a kelvin: 40 K take 0.0251 in. off 26 1/2 in. and nothing that shows off a hole's height."""
    bar = counting.demo().part("A2L")
    for words, s in shifts_of_library(bar, "M25"):
        kelvin = float(words.split()[0])
        assert s["heel"] == pytest.approx(-26.5 * 23.6e-6 * kelvin, rel=0.03)
        assert s["hole.2.x"] == pytest.approx(-25.5 * 23.6e-6 * kelvin, rel=0.03)
    assert 26.5 * 23.6e-6 * 40 == pytest.approx(0.0250, abs=1e-4)


def test_m11_of_unequal_thickness_is_the_other_leg_s():
    """A height on leg A is measured over leg B: its thickness is what goes missing."""
    stock = Section("1 1/2", 1, "3/16", "1/8", fillet="1/8")
    part = Part("X", "X", stock, "6061-T6", 6, holes=[Hole("A", 2, "3/4", "1/8")])
    raised = [s["hole.1.y"] for s in everywhere(part, "M11")]
    assert sorted({round(v, 6) for v in raised}) == [0.125, 0.25]


@pytest.mark.parametrize("id_", [id_ for id_, m in MISTAKES.items() if "P" in m.kinds])
def test_every_case_of_the_bench_is_near_a_case_of_the_library(id_):
    """For all parts of the demo job and ten random ones: no way of going wrong is unknown, none has a wrong sign."""
    rng = counting.Random(3)
    for part in [*counting.demo().parts, *(counting.random_part(rng, n) for n in range(10))]:
        ways = bench.slips(part, K, E).get(id_, [])
        names = tuple(name for name in readings_of(Made.as_wanted(part)) if name != "weight")
        cases = [readings_of(case.made) for case in MISTAKES[id_].cases(part, SHOP)] if ways else []
        for way in ways:
            for u in (0.1, 0.6) if way.free else (0.5,):
                made = measure(way.make(u), names)
                gap = min(max(abs(case[name] - value) for name, value in zip(names, made)) for case in cases)
                assert gap < 0.06, (part.id, way.words, u, gap)


def test_cosine_and_sine_of_the_cleat():
    assert isclose(cos(atan(0.3)), COS) and isclose(sin(atan(0.3)), SIN)
