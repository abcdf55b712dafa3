"""Lesson 02, without a kernel: every part turned through every angle in both themes, hands judged by the drawn lines themselves."""

from dataclasses import replace
from itertools import product

import pytest
from lesson_checks import THEMES, hides, named, same_in_the_kit
from lesson_checks import legible as plainly_legible

from anglelib.drawing.hand_sheets import bare, four_ways, metals, one_sheet, two_sheet, verdict
from anglelib.drawing.hands import fits_at, image_of
from anglelib.drawing.pictorial import in_view
from anglelib.drawing.pose import AXES, END_FOR_END, Pose
from anglelib.drawing.sheet import Line, Polyline
from anglelib.drawing.solid_lines import faces_of, normal
from anglelib.lessons import read_part as lesson
from anglelib.lessons.demo import demo_part
from anglelib.lessons.live import View
from anglelib.part import Hole
from anglelib.questions import read_part as ask

PICTURES = {"turning": lesson.turning, "four": lesson.four, "pair": lesson.pair}
PARTS = [job.sets["part"] for job in lesson.jobs().values()]


def legible(sheet, theme):
    """As every picture (some have no number to say), and nothing of the part leaves the sheet."""
    plainly_legible(sheet, theme, number=False)
    for item in sheet.items:
        points = item.points if isinstance(item, Polyline) else ((item.x1, item.y1), (item.x2, item.y2)) if isinstance(item, Line) else ()
        assert all(0 <= x <= sheet.width and 0 <= y <= sheet.height for x, y in points), sheet.sentence


# --- every control, both themes ---------------------------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
def test_turning(theme):
    for part, turn in product(PARTS, range(0, 181, 30)):
        legible(lesson.draw_turning({"part": part, "turn": turn, "about": END_FOR_END}, View(theme)), theme)
    for about, turn in product(AXES, (0, 45, 95, 180)):
        legible(lesson.draw_turning({"part": PARTS[0], "turn": turn, "about": about}, View(theme)), theme)
    for turn in range(0, 181, 5):
        legible(lesson.draw_turning({"part": PARTS[0], "turn": turn, "about": END_FOR_END}, View(theme)), theme)
    legible(lesson.draw_turning({"part": PARTS[0], "turn": 0, "about": END_FOR_END}, View(theme, False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_four_descriptions(theme):
    for equal, turn, revealed in product((True, False), (0, 30, 60, 90, 120, 150, 180), (True, False)):
        legible(lesson.draw_four({"equal": equal, "turn": turn}, View(theme, revealed)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_pairs(theme):
    for _, values in lesson.pair().presets.values():
        for made, turn in product(lesson.MADE_AS, (0, 40, 90, 135, 180)):
            legible(lesson.draw_pair({**values, "made": made, "turn": turn}, View(theme)), theme)
        legible(lesson.draw_pair({**values, "made": lesson.COPY, "turn": 0}, View(theme, False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_pictures_of_the_exercises(theme):
    for number in range(8):
        legible(one_sheet(ask.EXERCISES["handed"].thing(number)), theme)
        legible(one_sheet(ask.EXERCISES["slip"].thing(number).made), theme)
        two = ask.EXERCISES["compare"].thing(number)
        legible(two_sheet(two.p, two.q), theme)


@pytest.mark.parametrize(("name", "answers"), [("turning", ("IMAGE", "handed")), ("four", ("metal", "different parts")), ("pair", ("HAND", "of one hand"))])
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name, answers):
    hides(PICTURES[name](), *answers)


# --- hands, judged by the drawn lines -----------------------------------------------------------------------
def drawn_points(pose):
    """Where the corners of the drawn lines lie, to a hundredth of a millimetre."""
    found = set()
    for item in in_view(pose.part, pose, hidden=False):
        points = item.points if isinstance(item, Polyline) else ((item.x1, item.y1), (item.x2, item.y2))
        found |= {(round(x * 50), round(y * 50)) for x, y in points}
    return found


def covers(one, two):
    """Whether two drawings lie on one another: every corner of each has one of the other beside it."""
    near = [(dx, dy) for dx in (-1, 0, 1) for dy in (-1, 0, 1)]
    return all(any((x + dx, y + dy) in q for dx, dy in near) for p, q in ((one, two), (two, one)) for x, y in p)


@pytest.mark.parametrize("part", [*PARTS, demo_part("D1"), demo_part("D2L"), demo_part("B1"), demo_part("E2R")], ids=lambda part: part.id)
def test_the_picture_falls_on_its_image_just_where_the_description_says(part):
    image = drawn_points(Pose(part, 20, mirrored=True))
    fits = {str(turn): covers(drawn_points(Pose(part, 20, turn=turn)), image) for turn in (0, 180)}
    assert [turn for turn, lies in fits.items() if lies] == ([fits_at(part)] if fits_at(part) else []) or fits_at(part) == "0" and fits["0"]
    assert any(fits.values()) is not part.handed


def test_a_hole_out_of_place_makes_it_handed_and_the_lines_say_so():
    foot = ask.FOOT
    assert fits_at(foot) == "0" and not foot.handed
    off = replace(foot, holes=(Hole("B", 1, "7/8", "1/4"),))
    assert off.handed and fits_at(off) == ""
    assert not covers(drawn_points(Pose(off, 20)), drawn_points(Pose(off, 20, mirrored=True)))


@pytest.mark.parametrize("about", AXES)
def test_a_turn_keeps_every_distance_and_the_mirror_turns_the_metal_inside_out(about):
    part = PARTS[0]
    places = [(0, 0, 0), (1, 0.5, 0), (2, 0, 1), (4.75, 1.25, 0.125)]
    pose = Pose(part, 10, turn=77, about=about)
    for one, two in product(places, places):
        before = sum((a - b) ** 2 for a, b in zip(one, two, strict=True)) ** 0.5
        after = sum((a - b) ** 2 for a, b in zip(pose.turned(one), pose.turned(two), strict=True)) ** 0.5
        assert after == pytest.approx(10 * before)

    def volume(pose):
        a, b, c, d = (pose.turned(p) for p in ((0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)))
        u, v, w = ([q - p for p, q in zip(a, e, strict=True)] for e in (b, c, d))
        return u[0] * (v[1] * w[2] - v[2] * w[1]) - u[1] * (v[0] * w[2] - v[2] * w[0]) + u[2] * (v[0] * w[1] - v[1] * w[0])

    assert volume(pose) == pytest.approx(1000) and volume(Pose(part, 10, turn=77, about=about, mirrored=True)) == pytest.approx(-1000)
    face = faces_of(part)[0]
    assert normal(face)  # a face has an outside


def test_the_slips():
    bracket, cleat = (preset.sets["part"] for preset in lesson.pair().presets.values())
    assert [verdict(bracket, lesson.made_as(bracket, name)) for name in lesson.MADE_AS] == ["A PAIR", "TWO OF ONE HAND", "TWO OF ONE HAND", "TWO OF ONE HAND"]
    assert [verdict(cleat, lesson.made_as(cleat, name)) for name in lesson.MADE_AS] == ["A PAIR", "TWO OF ONE HAND", "NOT THE OTHER HAND", "NOT THE OTHER HAND"]
    wanted = image_of(bracket)
    both = replace(wanted, tapers=(replace(wanted.tapers[0], leg="B", end=1),))  # wrong leg and wrong end: right by luck
    assert wanted.tapers[0].leg == "A" and wanted.tapers[0].end == 2 and verdict(bracket, both) == "A PAIR"


def test_four_descriptions_are_as_many_metals_as_turning_leaves():
    """By turning the drawn lines, not by the descriptions."""
    for equal, count in ((True, 2), (False, 4)):
        ways = [way for _, way in four_ways(ask.sample(equal))]
        kinds = []
        for way in ways:
            poses = [drawn_points(Pose(way, 20, turn=turn)) for turn in (0, 180)]
            if not any(covers(pose, known) for pose in poses for known in kinds):
                kinds.append(poses[0])
        assert len(kinds) == count == len(set(metals(tuple(ways)))) == ask.how_many(equal).answer


# --- every question ---------------------------------------------------------------------------------------
@pytest.mark.parametrize("name", ask.EXERCISES)
def test_fresh_parts_have_every_answer(name):
    series = ask.EXERCISES[name]
    asked = [series[number] for number in range(24)]
    assert len({question.prompt for question in asked}) == 24
    assert {question.answer for question in asked} == set(asked[0].words)


def test_the_mistakes_of_this_lesson_are_named():
    assert {ask.WRONG_LEG, ask.OTHER_END, ask.BOTH_ONE_HAND} <= named(ask, 12)


def test_the_parts_are_those_of_the_demo_kit():
    for part in (ask.BRACKET, ask.FOOT, ask.STIFFENER, ask.RAIL):
        same_in_the_kit(part, "holes")


def test_the_rule_of_the_mirror_is_told():
    assert "leg B, end 2 | leg B, end 1, or turned: leg A, end 2" in repr(lesson.rules())


# --- the notebook ---------------------------------------------------------------------------------------
def test_what_the_page_says_of_the_jobs():
    jobs = lesson.jobs()
    assert [(job.words, fits_at(job.sets["part"])) for job in list(jobs.values())[:4]] == [
        ("Door hinge bracket", ""), ("Battery foot", "0"), ("Corner clip", "180"), ("Crossed clip", ""),
    ]  # fmt: skip
    crossed = jobs["P3"].sets["part"]
    assert crossed.turned().tapers[0] in bare(crossed).tapers and crossed.handed
