"""What a lesson is about stays on its picture for the projector: each lesson's own list of labels, as its pictures open and when they have told.

The lists say what a room has to be able to read off, lesson by lesson; what they are is a matter of teaching, so it stands here and not in the code.
"""

import pytest
from projector import lesson_modules, pictures
from test_projector import WITHOUT

from anglelib.drawing.sheet import Label
from anglelib.lessons.live import View

KEEPS = {
    ("start_here", "places"): ("heel", "fillet", "vertex", "taper", "end 1, the datum"),
    ("start_here", "cost"): ("heel", "inside corner", "fillet's edge", "too far"),
    ("start_here", "running"): ("3 3/8", "4 1/2", "5 3/8", "end 1"),
    ("identify_stock", "trap"): ("square inside", "fillet 1/8"),
    ("identify_stock", "caliper"): ("97/128 (0.758)",),
    ("identify_stock", "gauge"): ("shank, radius 3/16", "fillet 1/8"),
    ("identify_stock", "scale"): ("95.4 g", "6061", "7075"),
    ("read_part", "turning"): ("NOT LIKE ITS IMAGE", "A", "B", "1"),
    ("read_part", "pair"): ("TWO OF ONE HAND",),
    ("square_end", "light"): ("heel", "toe", "1/32 (0.031)", "1.4°"),
    ("square_end", "trim"): ("highest", "lowest", "1/16 (0.063)"),
    ("mark_along_heel", "stepping"): ("end 1", "datum: 1/64", "worst: 1/8"),
    ("mark_along_heel", "ink"): ("part", "waste", "the edge next to the part"),
    ("mark_along_heel", "witness"): ("witness line", "9/16"),
    ("kerf_and_allowance", "beside_the_line"): ("part", "waste", "kerf 1/16 (0.063)", "line 4 3/4 (4.750)"),
    ("kerf_and_allowance", "blank"): ("kerf", "to sand", "blank 4 7/8", "part 4 3/4"),
    ("kerf_and_allowance", "scatter"): ("part", "waste", "the line", "OVER THE LINE"),
    ("taper_outside", "triangle"): ("run 2 7/8 (2.875)", "height 15/16 (0.938)", "left 9/16 (0.563)", "toe", "heel", "18.1°"),
    ("taper_outside", "swung"): ("toe", "run 2 7/8 (2.875)", "struck 2 23/32 (2.718)"),
    ("taper_outside", "protractor"): ("18.1°", "71.9°"),
    ("taper_inside", "project"): ("vertex", "fillet", "datum", "27/64 (0.425)", "7/32 (0.213)", "2 1/8 (2.125)"),
    ("taper_inside", "thicknesses"): ("vertex", "fillet", "datum", "27/64 (0.425)", "7/32 (0.213)"),
    ("taper_inside", "slopes"): ("vertex", "fillet", "datum", "27/64 (0.425)", "7/32 (0.213)"),
    ("order_of_work", "cut_first"): ("taper 1", "length", "4 7/8"),
    ("order_of_work", "dressed"): ("laid out 4 1/4", "comes out 4 3/16"),
    ("holes_and_what_if", "edges"): ("heel", "toe", "end 1", "1.63 D", "EDGE SHORT by 3/64"),
    ("holes_and_what_if", "region"): ("toe", "EDGE SHORT by 1/16", "to the toe"),
    ("holes_and_what_if", "along"): ("0.147 in2",),
    ("check_and_diagnose", "right_length"): ("taper start A -2.875", "toe A length +2.875", "M09"),
    ("check_and_diagnose", "ranked"): ("83 %", "heel length -0.063"),
    ("check_and_diagnose", "at_a_glance"): ("leg A, outer face down", "leg B, outer face down"),
    ("plan_stock", "one_part"): ("144", "92 1/8", "15 1/8 left", "6063-T5", "no mark", "1/16 thick"),
    ("plan_stock", "traps"): ("no: 6063-T5", "no: no mark", "square inside", "serves", "no: 3/16 thick"),
    ("plan_stock", "besides"): ("NO METAL then for A5R", "15 1/8 left: cut it here", "126 1/8 left"),
    ("plan_stock", "rack"): ("NOT MADE: A6L, A6R, A5R", "longest piece left: 66 1/2", "longest piece left: 13 3/4"),
    ("plan_breaks", "bears"): ("may be 13/16 shorter", "A5L MAY NOT BE SPOILED"),
}
"""Lesson's module and picture: parts of labels."""
LESSONS = sorted({module for module, _ in KEEPS})


def texts(sheet) -> list[str]:
    return [item.text for item in sheet.items if isinstance(item, Label)]


@pytest.mark.parametrize("module", LESSONS)
def test_what_the_lesson_is_about_stays(module):
    made = dict(pictures(module))
    for of, name in KEEPS:
        if of != module:
            continue
        shown = texts(made[name].draw(made[name].start, View("projector", True)))
        missing = [words for words in KEEPS[of, name] if not any(words in text for text in shown)]
        assert not missing, f"{module}, {name}: {missing} gone; there are {shown}"


def test_the_rack_has_its_lengths_before_anything_is_told():
    made = dict(pictures("plan_stock"))
    for name in ("one_part", "rack", "besides"):
        shown = " ".join(texts(made[name].draw(made[name].start, View("projector", False))))
        assert all(length in shown for length in ("144", "92 1/8", "32 5/8")), name


def test_every_lesson_with_pictures_has_its_list():
    assert set(LESSONS) == set(lesson_modules()) - WITHOUT and all(KEEPS.values())
