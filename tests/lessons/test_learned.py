"""The end of each lesson: short, its numbers reckoned here by hand, and folded until the page's own questions are answered."""

import math
import re

import pytest
from lesson_checks import PAGES

from anglelib.after import folds
from anglelib.lessons.learned import learned_in
from anglelib.workshop.own_questions import OWN

LESSONS = [page for page in PAGES if page.path.stem[:2].isdigit()]
BY_HAND = {
    "00_start_here": ["1/8"],  # a leg 1/8 thick
    "01_identify_stock": [f"{100 * (0.101 / 0.0975 - 1):.1f} percent", f"{100 * (1 - 0.097 / 0.0975):.1f} percent"],  # lb a cubic inch
    "02_read_part": [],
    "03_square_end": [f"{math.degrees(math.asin(1 / 40)):.1f} degrees", "take 1/16 off"],  # 1/32 in 1 1/4; so thin that sine and tangent agree
    "04_mark_along_heel": ["end 1/8 too far", f"{math.sqrt(8 * 0.015625**2):.3f}"],
    "05_kerf_and_allowance": ["1/32 outside", "blank of 4 13/16", "1/16 a cut"],
    "06_taper_outside": ["2 7/8", "9/16", f"{math.degrees(math.atan2(1.5 - 0.5625, 2.875)):.1f}", f"{math.degrees(math.atan2(2.875, 1.5 - 0.5625)):.1f}"],
    "07_taper_inside": [f"({0.125 * 2.125 / 1.25 + 1e-9:.3f})", "7/32", f"({0.25 * 2.125 / 1.25:.3f})", "1/64"],
    "08_order_of_work": ["2 7/32", "4 7/8", "6 in."],  # 2 1/8 + 1/16 + 1/32; 4 3/4 + 2/32 + 1/16
    "09_holes_and_what_if": [f"{_e:.2f} diameters" for _e in [((0.375 + 1.4375 * 0.375 / 2 - 0.4375) * math.cos(math.atan(0.375 / 2))) / 0.125]],
    "10_check_and_diagnose": ["7 readings"],
    "11_plan_the_stock": ["15 3/16"],
    "12_make_part": [f"{0.03125 * math.hypot(2.875, 0.9375) / 0.9375:.3f}"],
    "13_behind_the_pictures": ["17/80", "7/32"],
}
"""What must stand there: reckoned from the sizes of the demo kit as they stand in its job file."""


@pytest.mark.parametrize("page", LESSONS, ids=lambda page: page.path.stem)
def test_the_end_of_a_lesson(page):
    found = learned_in(page.path.stem)
    assert 3 <= len(found.lines) <= 4 and all(len(line) < 200 for line in (*found.lines, found.carry))
    assert [number for number in BY_HAND[page.path.stem] if number not in repr(found)] == []
    (fold,) = folds(found._repr_html_())
    assert fold.questions == OWN[page.path.stem].page and "To the bench: " in fold.text
    assert re.search(r"## What you have learned$", page.cells[-3].source) and page.cells[-2].source == "lesson.learned()"
    assert page.cells[-1].source.startswith("## Sources")
