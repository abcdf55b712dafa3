"""How much of a slip is thought of, in which steps, and how likely each of its ways is: the shop's ranges, by hand."""

from __future__ import annotations

from fractions import Fraction as F
from math import cos, isclose, radians, sin

import pytest

from anglelib.inspection.likelihood import candidates_of
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.job import Shop
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

SHOP = Shop()
STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
BAR = Part("A3", "Bar", STOCK, "6061-T6", 17, holes=[Hole("A", 3, "3/8", "1/8"), Hole("A", 5, "3/8", "1/8"), Hole("B", 6, "3/8", "1/8")])
CLEAT = Part("A1L", "Cleat", STOCK, "6061-T6", "6 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
POST = Part("P1", "Post", Section("1 1/2", "1 1/2", "1/8", fillet="1/8"), "6061-T6", 6, copes=[Cope("A", 1, "1 1/4", "3/4", "1/8")], corners=[Corner("B", 2, "3/8")])
K, E = 1 / 16, 1 / 32

RANGES = {  # from, to, in so many equal steps, both ways or one; of [in], degrees, kelvin
    "M14": (CLEAT, 1.5, 6, 15, True), "M15": (CLEAT, 3, 15, 12, True), "M16": (CLEAT, 1 / 32, 6 / 32, 15, False), "M18": (BAR, 1 / 64, 4 / 64, 8, True),
    "M21": (CLEAT, 1.5, 4, 6, True), "M22": (CLEAT, 1 / 32, 4 / 32, 14, False), "M25": (CLEAT, 20, 60, 8, False),
}  # fmt: skip


@pytest.mark.parametrize("id_", RANGES)
def test_an_amount_that_is_free_fills_its_range_evenly(id_):
    """The middles of equal steps: half a step from either end of the range."""
    part, low, high, count, both = RANGES[id_]
    found = sorted({round(case.amount, 9) for case in MISTAKES[id_].cases(part, SHOP)})
    up = [low + (i + 0.5) * (high - low) / count for i in range(count)]
    assert found == pytest.approx(sorted([*up, *(-v for v in up)]) if both else up, abs=1e-8)


@pytest.mark.parametrize(("run", "width_left"), [("1 1/4", "3/8"), ("1 1/2", "1/4"), ("3/4", "3/8"), (4, "1/2")])
def test_a_drift_goes_in_steps_that_the_toe_mark_hardly_shows(run, width_left):
    """A fortieth of an inch on the toe, where the line is turned by a step at its own angle; nine steps at least, thirty at most."""
    part = Part("P1", "Trial", STOCK, "6061-T6", 12, tapers=[Taper("A", 1, width_left, run=run)])
    steps = len({case.amount for case in MISTAKES["M14"].cases(part, SHOP) if case.amount > 0})
    height, turned = 0.75 - float(F(part.tapers[0].width_left)), radians(4.5 / steps)
    angle = float(part.tapers[0].run) / height
    angle = 1 / (angle**2 + 1)  # sin squared
    moved = height * sin(turned) / cos(turned) / angle
    assert steps == 9 or steps == 30 or (moved <= 0.0251 and moved * steps / (steps - 1) > 0.0249)


def weights(part: Part, id_: str, *names: str) -> dict:
    """What each case does to some readings, with its weight among the cases, together 1."""
    wanted, found = readings_of(Made.as_wanted(part)), {}
    for one in candidates_of(part, SHOP, id_):
        key = tuple(round(one.readings[name] - wanted[name], 6) + 0.0 for name in names)
        found[key] = found.get(key, 0.0) + one.share
    assert isclose(sum(found.values()), 1)
    return {key if len(names) > 1 else key[0]: share for key, share in found.items()}




def test_an_inch_too_little_is_twice_as_likely_as_one_too_much():
    """Of the length, of every hole, of a run, of a cope; not where no metal would be left."""
    assert weights(BAR, "M07", "heel", "hole.1.x") == pytest.approx({(-1, 0): 1 / 3, (1, 0): 1 / 6, (0, -1): 1 / 3, (0, 1): 1 / 6})
    near = Part("P1", "Bar", STOCK, "6061-T6", 2, holes=[Hole("A", "3/4", "3/8", "1/8")])
    assert weights(near, "M07", "heel", "hole.1.x") == pytest.approx({(1, 0): 1 / 2, (0, 1): 1 / 2})  # 1 in. is not more than an inch, and -1/4 is nowhere
    assert weights(CLEAT, "M07", "heel", "start.A.1") == pytest.approx({(-1, 0): 1 / 3, (1, 0): 1 / 6, (0, -1): 1 / 3, (0, 1): 1 / 6})
    assert weights(POST, "M07", "heel", "cope.A.1") == pytest.approx({(-1, 0): 1 / 3, (1, 0): 1 / 6, (0, -1): 1 / 3, (0, 1): 1 / 6})
    shallow = Part("P1", "Post", POST.section, "6061-T6", 6, copes=[Cope("A", 1, 1, "3/4", "1/8")])
    assert weights(shallow, "M07", "heel", "cope.A.1") == pytest.approx({(-1, 0): 1 / 2, (1, 0): 1 / 4, (0, 1): 1 / 4})


SIXTEENTHS = {n / 16: 1 / abs(n) for n in (-4, -3, -2, -1, 1, 2, 3, 4)}
"""The farther beside the right one, the rarer."""
HALVES = {  # the fraction of the length, and what it is read as when it is halved or doubled
    "17": {}, "17 3/8": {-3 / 16: 1, 3 / 8: 1}, "17 5/8": {-5 / 16: 1}, "17 1/2": {-1 / 4: 1, 1 / 2: 1},
}  # fmt: skip


@pytest.mark.parametrize("length", HALVES)
def test_a_fraction_is_misread_by_sixteenths_or_by_two(length):
    found = weights(Part("P1", "Bar", STOCK, "6061-T6", length), "M08", "heel")
    wanted = dict(SIXTEENTHS)
    for by, weight in HALVES[length].items():
        wanted[by] = wanted.get(by, 0) + weight
    total = sum(wanted.values())
    assert found == pytest.approx({by: weight / total for by, weight in wanted.items()})


def test_every_number_of_a_drawing_may_be_misread():
    """A number of each kind, each as likely: of the bar its length and six of its holes; of the post its cope's two and its radius; of the cleat its run and width left."""
    three = Part("A3", "Bar", STOCK, "6061-T6", 17, holes=[Hole(hole.leg, hole.x, "11/32", "1/8") for hole in BAR.holes])
    bar = weights(three, "M08", "heel", "hole.1.x", "hole.1.y", "hole.3.x", "hole.3.y")
    for place, share in enumerate((1 / 7, 1 / 7, 1 / 7, 1 / 7, 1 / 7)):
        assert sum(v for key, v in bar.items() if key[place]) == pytest.approx(share)
    post = weights(POST, "M08", "heel", "cope.A.1", "width.A.1", "corner.B.2")
    for place in range(4):
        assert sum(v for key, v in post.items() if key[place]) == pytest.approx(1 / 4, abs=0.03)  # a radius of 3/8 cannot be misread by more than itself
    cleat = weights(CLEAT, "M08", "heel", "start.A.1", "width.A.1")
    left = 1 - 1 / (25 / 6 + 2)  # 3/8 doubled is the whole leg, and no taper
    for place, share in enumerate((1, 1, left)):
        assert sum(v for key, v in cleat.items() if key[place]) == pytest.approx(share / (2 + left))
    low = Part("P1", "Bar", STOCK, "6061-T6", 17, holes=[Hole("A", "3/16", "5/8", "1/8")])
    by = {key: v for key, v in weights(low, "M08", "hole.1.x", "hole.1.y").items()}
    assert min(x for x, _ in by) == -1 / 8 and max(y for _, y in by) == 1 / 16 and min(y for _, y in by) == -5 / 16  # 3/16 less is at the end; a sixteenth more is below the toe


def test_a_radius_or_a_cope_misread_as_nothing_is_none():
    post = Part("P1", "Post", POST.section, "6061-T6", 6, copes=[Cope("A", 1, "1/4", "3/4", "1/8")], corners=[Corner("B", 2, "1/4")])
    made = [case.made for case in MISTAKES["M08"].cases(post, SHOP)]
    assert min(one.corners[0].radius for one in made) == 1 / 16 and min(one.copes[0].length for one in made) == 1 / 16


def test_a_height_is_taken_from_the_inside_face_or_half_as_often_from_the_fillet_s_edge():
    assert weights(BAR, "M11", "hole.1.y", "hole.2.y", "hole.3.y") == pytest.approx(
        {(1 / 8, 1 / 8, 0): 1 / 3, (0, 0, 1 / 8): 1 / 3, (1 / 4, 1 / 4, 0): 1 / 6, (0, 0, 1 / 4): 1 / 6}
    )
    high = Part("P1", "Bar", STOCK, "6061-T6", 6, holes=[Hole("A", 3, "1/2", "1/8")])
    assert weights(high, "M11", "hole.1.y") == {1 / 8: 1}  # a quarter more, and it would be at the toe
    tall = Part("P1", "Bar", Section(2, 2, "1/8", fillet="1/4"), "6061-T6", 6, holes=[Hole("A", 3, 1, "1/8")])
    assert weights(tall, "M11", "hole.1.y") == pytest.approx({1 / 8: 2 / 3, 3 / 8: 1 / 3})
    sharp = Part("P1", "Bar", Section(2, 2, "1/8"), "6061-T6", 6, holes=[Hole("A", 3, 1, "1/8")])
    assert weights(sharp, "M11", "hole.1.y") == {1 / 8: 1}
    assert weights(POST, "M11", "width.A.1") == {1 / 8: 1}


def test_what_is_lost_at_a_cope_is_half_as_likely():
    """Each of a cope's two lines, beside the length; on the line or a kerf into the part."""
    for id_, by in (("M01", K), ("M02", K / 2)):
        assert weights(POST, id_, "heel", "cope.A.1", "width.A.1") == pytest.approx({(-by, 0, 0): 1 / 2, (0, by, 0): 1 / 4, (0, 0, -by): 1 / 4})
    assert weights(POST, "M04", "heel", "cope.A.1", "width.A.1") == pytest.approx({(-E, 0, 0): 1 / 3, (-2 * E, 0, 0): 1 / 3, (0, E, 0): 1 / 6, (0, 0, -E): 1 / 6})
    assert weights(POST, "M05", "heel", "cope.A.1", "width.A.1") == pytest.approx({(E, 0, 0): 1 / 3, (2 * E, 0, 0): 1 / 3, (0, -E, 0): 1 / 6, (0, 0, E): 1 / 6})
    thin = Part("P1", "Post", POST.section, "6061-T6", 6, copes=[Cope("A", 1, "1/32", "3/4", "1/64")])
    assert {case.made.copes[0].length for case in MISTAKES["M05"].cases(thin, SHOP)} == {E}  # less by the whole of it, and there is no cope
    low = Part("P1", "Post", POST.section, "6061-T6", 6, copes=[Cope("A", 1, 1, "1/8", "1/64")])
    assert {case.made.copes[0].left for case in MISTAKES["M01"].cases(low, Shop(kerf="1/8"))} == {1 / 8}


@pytest.mark.parametrize("part", [
    Part("P1", "Strut", STOCK, "6061-T6", 6, tapers=[Taper("A", 2, "3/8", run="1 1/4")]),
    Part("P1", "Post", STOCK, "6061-T6", 6, copes=[Cope("A", 2, "1 1/4", "3/8", "1/8")]),
], ids=["taper", "cope"])  # fmt: skip
def test_what_belongs_to_end_2_was_laid_out_before_or_after_the_slip(part):
    """Afterwards it keeps its distance from the end that is there; before, it stays and its distance shrinks."""
    reading = "start.A.2" if part.tapers else "cope.A.2"
    found = weights(part, "M02", "heel", reading)
    total = 1 + (0 if part.tapers else 1)  # the cope's own two lines
    what = "taper" if part.tapers else "cope"
    assert [case.words.endswith(f"after its {what} was laid out") for case in MISTAKES["M02"].cases(part, SHOP)][:2] == [False, True]
    assert found[-K / 2, 0] >= 0.5 / total - 1e-9 and found[-K / 2, -K / 2] == pytest.approx(0.5 / total)


def test_end_1_is_lost_with_all_that_was_laid_out_from_it():
    """The whole kerf or half of it at both ends, as likely."""
    assert weights(BAR, "M03", "heel", "hole.1.x") == pytest.approx({(-2 * K, -K): 1 / 2, (-K, -K / 2): 1 / 2})


def test_a_pitch_goes_wrong_in_all_holes_or_in_one_leg_s():
    """From the end on or from the first hole on; in leg A alone, as only there are two; eight steps each way."""
    found = candidates_of(BAR, SHOP, "M18")
    wanted = readings_of(Made.as_wanted(BAR))
    moved = {tuple(round((one.readings[f"hole.{n}.x"] - wanted[f"hole.{n}.x"]) / one.case.amount) for n in (1, 2, 3)) for one in found}
    assert moved == {(1, 2, 3), (0, 1, 2), (1, 2, 0), (0, 1, 0)} and len(found) == 4 * 16
    one_leg = Part("P1", "Bar", STOCK, "6061-T6", 17, holes=BAR.holes[:2])
    assert len(candidates_of(one_leg, SHOP, "M18")) == 2 * 16  # both legs' holes and leg A's are the same row
    assert candidates_of(Part("P1", "Bar", STOCK, "6061-T6", 17, holes=BAR.holes[:1]), SHOP, "M18") == ()


def test_a_hole_from_the_wrong_end_by_itself_or_with_all_of_them():
    found = weights(BAR, "M17", "hole.1.x", "hole.2.x", "hole.3.x")
    assert found == pytest.approx({(11, 0, 0): 1 / 4, (0, 7, 0): 1 / 4, (0, 0, 5): 1 / 4, (11, 7, 5): 1 / 4})
    middle = Part("P1", "Bar", STOCK, "6061-T6", 16, holes=[Hole("A", 8, "3/8", "1/8"), Hole("A", 3, "3/8", "1/8")])
    assert weights(middle, "M17", "hole.1.x", "hole.2.x") == {(0, 10): 1}  # from either end 8


def test_a_number_read_in_the_wrong_unit():
    """A sixteenth is 1.5875 mm: of the length, of a run, a cope, all holes, 16/25.4 is left."""
    assert weights(BAR, "M27", "heel", "hole.1.x", "hole.3.x") == pytest.approx({(round(17 * (16 / 25.4 - 1), 6), 0, 0): 1 / 2, (0, round(3 * (16 / 25.4 - 1), 6), round(6 * (16 / 25.4 - 1), 6)): 1 / 2})
    assert weights(POST, "M27", "heel", "cope.A.1") == pytest.approx({(round(6 * (16 / 25.4 - 1), 6), 0): 1 / 2, (0, round(1.25 * (16 / 25.4 - 1), 6)): 1 / 2})


def test_another_section_is_a_sixteenth_thicker_or_thinner_a_quarter_wider_or_narrower():
    found = weights(CLEAT, "M23", "thickness.A", "thickness.B", "width.A.2", "width.B.1")
    assert found == pytest.approx({(K, K, 0, 0): 1 / 4, (-K, -K, 0, 0): 1 / 4, (0, 0, 1 / 4, 1 / 4): 1 / 4, (0, 0, -1 / 4, -1 / 4): 1 / 4})
    narrow = Part("P1", "Cleat", STOCK, "6061-T6", "6 1/8", tapers=[Taper("A", 1, "1/2", run="1 1/4")])  # 1/2 wide, nothing is left to taper
    assert weights(narrow, "M23", "width.B.1", "thickness.A") == pytest.approx({(0, K): 1 / 3, (0, -K): 1 / 3, (1 / 4, 0): 1 / 3})
    thin = Part("P1", "Bar", Section("3/4", "3/4", "1/16"), "6061-T6", 6)
    assert set(weights(thin, "M23", "thickness.A", "width.A.1")) == {(K, 0), (0, 1 / 4), (0, -1 / 4)}
    # The taper's line keeps its run and width left: on a wider leg it starts as far from the end.
    for one in candidates_of(CLEAT, SHOP, "M23"):
        assert one.readings["start.A.1"] == pytest.approx(1.25) and one.readings["width.A.1"] == pytest.approx(3 / 8)


def test_the_alloy_that_a_weighing_tells_best_stands_first():
    """From 6061 at 0.0975: 7075 is 0.0035 away, 2024 0.0025, 6063 0.0005; from 2024 6063 is 0.003 away."""
    assert [one.case.way for one in candidates_of(BAR, SHOP, "M24")] == ["7075", "2024", "6063"]
    other = Part("A3", "Bar", STOCK, "2024-T3", 17)
    assert [one.case.way for one in candidates_of(other, SHOP, "M24")] == ["6063", "6061", "7075"]
