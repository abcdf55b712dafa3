"""What lies on the bench at the head of each lesson, before anything is asked: the lesson's opening picture.

It shows no exercise, so it gives no answer away, and it is a part in space, never a graph that waits for its data.

>>> opening("07_taper_inside").sentence[:77]
'On the bench, seen in space, end 1 at the left. As the plans draw it, outside'
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from anglelib.drawing.scene import Lying, scene_sheet
from anglelib.drawing.sheet import Sheet
from anglelib.lessons.demo import demo_part
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section

SMALL, MIDDLE = Section("3/4", "3/4", "1/8", fillet="1/8"), Section("1 1/4", "1 1/4", "1/8", fillet="1/8")


def _stick(length: str, section: Section = MIDDLE, name: str = "Angle") -> Part:
    return Part("S1", name, section, "6061-T6", length)


def _row_of_holes() -> Part:
    holes = [Hole("B", Fraction(3, 2) * n, "3/8", "1/8") for n in range(1, 9)]
    return Part("P1", "Stiffener", SMALL, "6061-T6", "13 1/2", (), holes)


def _cleats() -> tuple[Lying, ...]:
    cleat = demo_part("A1L")
    (taper,) = cleat.tapers
    longer = Part(cleat.id, cleat.name, cleat.section, cleat.alloy, cleat.length, [Taper(taper.leg, taper.end, taper.width_left, run="2")], cleat.holes)
    return Lying(cleat, "as the plans have it"), Lying(longer, "as it was made")


SCENES: dict[str, Callable[[], tuple[Lying, ...]]] = {
    "00_start_here": lambda: (
        Lying(demo_part("A1L"), "floor cleat"), Lying(demo_part("C1L"), "door hinge bracket"), Lying(demo_part("E2L"), "step bracket"),
    ),
    "01_identify_stock": lambda: (Lying(_stick("3", SMALL), "3/4 legs"), Lying(_stick("3 1/4"), "1 1/4 legs"), Lying(_stick("3", demo_part("E1").section), "1 1/2 legs")),
    "02_read_part": lambda: (Lying(demo_part("C1L"), "left, 4 pieces"), Lying(demo_part("C1R"), "right, 4 pieces")),
    "03_square_end": lambda: (Lying(_stick("4 3/4"), "sawn at end 1"),),
    "04_mark_along_heel": lambda: (Lying(_row_of_holes(), "eight holes, 1 1/2 apart"),),
    "05_kerf_and_allowance": lambda: (Lying(_stick("10"), "the stick"), Lying(demo_part("C1L"), "the bracket that it is for")),
    "06_taper_outside": lambda: (Lying(demo_part("E2R"), "step bracket: run 2 7/8, width left 9/16", "outside"),),
    "07_taper_inside": lambda: (Lying(demo_part("C1R"), "as the plans draw it, outside", "outside"), Lying(demo_part("C1R"), "as you see it at the saw, inside")),
    "08_order_of_work": lambda: (Lying(_stick("24"), "a stick of 24"), Lying(demo_part("C1L"), "one bracket of 4 3/4")),
    "09_holes_and_what_if": _cleats,
    "10_check_and_diagnose": lambda: (Lying(demo_part("E2L"), "from inside"), Lying(demo_part("E2L"), "from outside", "outside")),
    "11_plan_the_stock": lambda: (Lying(demo_part("A3"), "wanted today: 17 1/4"), Lying(demo_part("A5L"), "wanted later: 91 3/4")),
    "12_make_part": lambda: (Lying(own_first(), "from inside"), Lying(own_first(), "from outside", "outside")),
}  # fmt: skip
"""By the lesson's id."""


def own_first() -> Part:
    """What lesson 12 begins with: a bracket of a section that the demo rack has."""
    holes = [Hole("B", 1 + n * Fraction(5, 4), "11/16", "1/8") for n in range(3)]
    return Part("P1", "My bracket", MIDDLE, "6061-T6", "5", [Taper("A", 1, run="2 1/4")], holes)


def opening(lesson: str) -> Sheet:
    """The opening picture of a lesson."""
    return scene_sheet(SCENES[lesson]())
