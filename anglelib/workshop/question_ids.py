"""The ids of the questions that stand on the lessons' pages beside their exercises: predictions, and what earlier lessons asked.

An exercise has its id in the lesson's own questions (:mod:`anglelib.workshop.lesson_questions`); these are made where a page is, and
the count of a class has no pages. A test runs every page and holds this list to them; ids that older pages had stay in it.
"""

from __future__ import annotations

import re

from anglelib.workshop.lesson_questions import find_question

ON_PAGES = {
    "00_start_here": (
        "floor-stiffener-end", "floor-stiffener-gap", "seat-rail",
    ),
    "03_square_end": (
        "floor-cleat-angle", "floor-cleat-enough", "floor-cleat-trim", "name-of-the-vertex", "predict-the-angle",
        "predict-the-end", "predict-the-lines", "predict-the-trim", "predict-whether-it-is-square", "seat-rail-trim",
        "what-weight-tells",
    ),
    "04_mark_along_heel": (
        "datum-end", "panel-strip-running", "panel-strip-stepped", "predict-from-the-witness-line",
        "predict-mixed-errors", "predict-the-last-mark", "predict-the-length", "predict-the-side", "tray-bar",
        "turned-end-for-end",
    ),
    "05_kerf_and_allowance": (
        "battery-foot-blank", "datum-end", "floor-bar-blank", "floor-bar-kerf", "floor-bar-third-mark",
        "predict-the-blank", "predict-the-cuts", "predict-the-kerf", "predict-the-mark", "predict-the-metal",
        "predict-the-piece", "square-to-one-leg", "what-weight-tells",
    ),
    "06_taper_outside": (
        "blank-length", "floor-cleat-angle", "name-of-the-vertex", "predict-the-angle", "predict-the-reading",
        "predict-the-run", "predict-the-toe-mark", "side-stiffener-angle", "side-stiffener-from-square",
        "side-stiffener-height", "square-to-one-leg", "step-bracket-which-line",
    ),
    "07_taper_inside": (
        "battery-foot", "blank-length", "fairing-angle-mark", "fairing-angle-where", "height-on-the-line",
        "name-of-the-vertex",
    ),
    "08_order_of_work": (
        "blank-length", "predict-the-dressed-end", "predict-the-end", "predict-the-loss-cut-first",
        "predict-the-loss-on-the-stick", "trim-link-cost", "trim-link-operations", "trim-link-order", "turned-hand",
        "vertex-projection",
    ),
    "09_holes_and_what_if": (
        "dressed-after-layout", "height-on-the-line", "hinge-bracket-end-2", "hinge-bracket-flush", "hinge-bracket-row",
        "predict-the-band", "predict-the-diameters", "predict-the-least-section", "predict-the-metal-beyond",
        "step-bracket-to-the-taper", "what-weight-tells",
    ),
    "10_check_and_diagnose": (
        "blank-length", "bracket-off-by", "bracket-what-is-proven", "cleat-which-slip", "height-on-the-line",
        "predict-the-glance", "predict-the-next-reading", "predict-the-short-part", "predict-the-vertex-part",
        "predict-what-the-length-says", "turned-hand",
    ),
    "11_plan_the_stock": (
        "blank-length", "datum-end", "predict-how-short", "predict-the-cost", "predict-the-first",
        "predict-the-longest-part", "predict-the-stick", "predict-what-blanks-need", "predict-what-is-lost",
        "predict-what-is-possible", "predict-what-to-buy", "what-weight-tells",
    ),
    "12_make_part": (
        "blank-length", "by-the-trap", "fairing-angle-blank", "fairing-angle-inside-mark",
        "fairing-angle-saw-line-at-the-toe", "height-on-the-line", "is-it-square", "name-of-the-vertex",
        "order-of-work", "side-of-the-square", "step-bracket-saw-line", "turned-hand", "vertex-projection",
        "what-weight-tells", "which-hand",
    ),
    "13_behind_the_pictures": (
        "13-name-of-an-argument", "13-printed-mark", "blank-length", "height-on-the-line", "name-of-an-argument",
        "name-of-the-vertex", "predict-the-printed-mark", "printed-mark",
    ),
}  # fmt: skip
"""By lesson."""

_MADE = {
    "11_plan_the_stock": re.compile(r"left-of-[A-Za-z0-9._-]{1,32}"),
    "12_make_part": re.compile(r"own-(?:[0-9a-f]{8}-)?(?:blank|inside-mark|saw-line-at-the-toe)"),
}
"""Ids that a page makes of what is at hand: a stick, a part of one's own."""


def is_asked(lesson: str, id: str, variant: int = 0) -> bool:
    """Whether a lesson asks a question of this id, in its exercises or on its page.

    >>> is_asked("07_taper_inside", "07-project"), is_asked("03_square_end", "predict-the-trim"), is_asked("03_square_end", "who-is-best")
    (True, True, False)
    """
    if id in ON_PAGES.get(lesson, ()) or (lesson in _MADE and _MADE[lesson].fullmatch(id) is not None):
        return True
    return find_question(lesson, id, variant) is not None
