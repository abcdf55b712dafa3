"""Every live picture of every lesson on a projector of 1920 x 1080 dots: as it opens, its presets, its controls at their ends and corners.

Smallest letter at least 3 % of the picture's height, lines at least 3 dots, at most seven labels, contrast
4.5 : 1 for text and 3 : 1 for lines (WCAG 2.2).
"""

import pytest
from projector import MOST_LABELS, asked_pictures, contrast, dots, faults, lesson_modules, on_ink, pictures, seen

from anglelib.drawing.sheet import Label, Line, Sheet, polygon
from anglelib.drawing.style import THEMES, Theme
from anglelib.lessons.room import ROOM

RACKS = {
    ("plan_stock", "one_part"), ("plan_stock", "besides"), ("plan_stock", "rack"), ("plan_stock", "traps"), ("plan_stock", "game(1,)"),
    ("plan_stock", "game(2,)"), ("plan_stock", "spoiled"), ("plan_stock", "kerf"), ("plan_breaks", "buy"), ("plan_breaks", "broken"),
    ("plan_breaks", "bears"), ("plan_breaks", "possible"),
}  # fmt: skip
"""Racks to scale: each stick, and what is cut from it, is told by its name or not at all, so their labels are more
than seven; a stick with its cuts counted."""
AT_OWN_SCREEN = {
    ("plan_stock", "exercise(4,)"): "a rack: the length and the mark of every stick",
    ("start_here", "exercise(4,)"): "running dimensions of an exercise, each with its decimal",
    ("read_part", "recall"): "the figures of a caliper's scale",
    ("taper_inside", "ways"): "two stances side by side, each with its dimensions",
    ("taper_outside", "stances"): "three stances side by side, each with its dimensions",
}
"""Pictures of an exercise or a comparison that one person looks at, with more labels than seven, and which they are."""
MORE = {
    "taper_inside": (8, "vertex, fillet, datum and both marks stand beside the names of the legs: each of them is what the lesson is about"),
    "order_of_work": (8, "seven cards, and what the likeliest slip costs"),
}
"""Lessons whose pictures have one label more than seven, and why."""
QUICK, FULL = 2, 48


def complaints(module: str, most: int) -> tuple[int, set[str]]:
    """How many pictures were looked at, and what is wrong with them."""
    count, found = 0, set()
    for name, picture in pictures(module):
        for values, sheet in seen(picture, most):
            count += 1
            for fault in faults(sheet, most=MORE.get(module, (MOST_LABELS, ""))[0]):
                if not (" labels: " in fault and (module, name) in RACKS):
                    found.add(f"{name}: {fault} ({sheet.title})")
            assert sheet.sentence and values is not None
    return count, found


MODULES = lesson_modules()
WITHOUT = {"builders_bench", "glossary", "notation", "make_part", "behind_the_pictures", "instructor", "review"}
"""Pages whose pictures are in boxes of their own, looked at by their own tests, stand still, or are those of the exercises that come back."""


@pytest.mark.parametrize("module", MODULES)
def test_legible_from_the_back_of_the_room(module):
    count, found = complaints(module, QUICK)
    assert found == set()
    assert count or module in WITHOUT, f"no live picture of {module} was found: the check would pass with nothing to check"


def test_pictures_of_questions_and_votes(monkeypatch):
    monkeypatch.setattr(ROOM, "theme", "projector")
    looked, excused = 0, set()
    for module in MODULES:
        for name, sheet in asked_pictures(module, numbers=1):
            looked += 1
            for fault in faults(sheet):
                assert " labels: " in fault and (module, name) in AT_OWN_SCREEN, (module, name, fault)
                excused.add((module, name))
    assert looked > 30 and excused == set(AT_OWN_SCREEN)  # an exception that is not needed any more goes


@pytest.mark.slow
@pytest.mark.parametrize("module", MODULES)
def test_legible_at_every_corner(module):
    assert complaints(module, FULL)[1] == set()


def test_lessons_are_found():
    assert len(MODULES) >= 11 and "taper_inside" in MODULES


def test_contrast_is_that_of_the_definition():
    """Black on white is 21 to 1; #767676 is the best known grey at 4.54 to 1 (WCAG 2.2, understanding 1.4.3)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)
    for theme in ("screen", "projector", "paper"):
        look = THEMES[theme]
        assert contrast(look.ink, look.paper) > 7 and contrast(look.accent, look.paper) > 4.5


@pytest.mark.parametrize(
    ("sheet", "theme", "says"),
    [
        (Sheet(100, 100, (Label(50, 50, "heel", 2.5),), "T", "S 1."), Theme("#000000", "#00469b", "#ffffff"), "2.5 %"),
        (Sheet(400, 100, (Line(0, 0, 9, 9, "narrow"),), "T", "S 1."), None, "dots wide"),
        (Sheet(300, 200, tuple(Label(20, 20 * n + 9, f"mark {n}") for n in range(8)), "T", "S 1."), None, "8 labels"),
        (Sheet(200, 100, (Label(50, 50, "heel"),), "T", "S 1."), Theme("#999999", "#00469b", "#ffffff", 0.03, 3 / 720), "text of #999999"),
        (Sheet(200, 100, (Label(50, 50, "heel"),), "T", "S 1."), Theme("#000000", "#bbbbbb", "#ffffff", 0.03, 3 / 720), "lines of #bbbbbb"),
        (Sheet(200, 100, (polygon([(0, 0), (99, 0), (99, 99), (0, 99)], "", "ink"), Label(50, 50, "heel")), "T", "S 1."), None, "filled shape"),
        (Sheet(200, 100, (Label(50, 50, "heel"), Label(51, 50, "toe")), "T", "S 1."), None, "over"),
    ],
)
def test_the_guard_fails(sheet, theme, says):
    assert any(says in fault for fault in faults(sheet, theme))


def test_a_picture_fills_the_screen_as_far_as_its_shape_allows():
    assert dots(Sheet(192, 50, (Label(9, 9, "x"),), "T", "S 1.")) == 10 and dots(Sheet(100, 108, (Label(9, 9, "x"),), "T", "S 1.")) == 10
    assert not on_ink(Label(50, 50, "heel", halo=True), Sheet(99, 99, (polygon([(0, 0), (99, 0), (99, 99)], "", "ink"),), "T", "S 1."))
