"""What each lesson asks of its own, by ids in the order of its page: its predictions and steps, and its exercises.

What it asks again of earlier lessons is not among them. A test runs every page and holds this list to it.

>>> len(OWN["07_taper_inside"].asked), OWN["07_taper_inside"].exercises[0]
(10, '07-project')
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Own:
    """A lesson's questions: those that are asked once on the page, and the exercises, which have other numbers as often as one likes."""

    page: tuple[str, ...]
    exercises: tuple[str, ...]

    @property
    def asked(self) -> tuple[str, ...]:
        """All of them."""
        return (*self.page, *self.exercises)


OWN = {
    "00_start_here": Own(
        (
            "longest-fraction", "from-the-1-inch-mark", "how-many-corners", "which-is-the-heel", "how-many-vertices",
            "from-where", "predict-the-hole", "predict-the-gap", "seat-rail", "floor-stiffener-gap", "floor-stiffener-end",
            "predict-the-half",
        ),
        (
            "00-name-the-place", "00-the-wrong-corner", "00-the-fillet-edge", "00-running-dimensions",
        ),
    ),
    "01_identify_stock": Own(
        (
            "which-of-two", "predict-the-reading", "behind-the-shank", "scale-tells", "last-step", "inside-reading",
            "which-stick",
        ),
        (
            "01-vernier", "01-dial", "01-which-section", "01-weight",
        ),
    ),
    "02_read_part": Own(
        (
            "end-for-end", "how-many-parts", "is-it-a-pair", "last-step", "other-hand-equal-legs", "other-hand-unequal-legs",
        ),
        (
            "02-handed-or-neither", "02-two-pieces", "02-name-the-slip",
        ),
    ),
    "03_square_end": Own(
        (
            "predict-whether-it-is-square", "predict-the-angle", "predict-the-trim", "predict-the-lines", "predict-the-end",
            "seat-rail-trim", "floor-cleat-angle", "floor-cleat-trim", "floor-cleat-enough",
        ),
        (
            "03-light", "03-trim", "03-error-of-the-square", "03-datum",
        ),
    ),
    "04_mark_along_heel": Own(
        (
            "predict-the-last-mark", "predict-mixed-errors", "predict-the-length", "a-mark-set-by-the-misprint",
            "predict-the-side", "what-to-strike-with", "a-rule-hooked-inside", "predict-from-the-witness-line", "tray-bar",
            "panel-strip-running", "panel-strip-stepped",
        ),
        (
            "04-set", "04-from-one", "04-name", "04-millimetres",
        ),
    ),
    "05_kerf_and_allowance": Own(
        (
            "predict-the-piece", "predict-the-kerf", "kerf-from-a-test-cut", "predict-the-blank", "predict-the-cuts",
            "predict-the-mark", "middle-piece", "predict-the-metal", "coarsest-blade", "battery-foot-blank", "floor-bar-kerf",
            "floor-bar-blank", "floor-bar-third-mark", "cold-length",
        ),
        (
            "05-blank", "05-batch", "05-slip",
        ),
    ),
    "06_taper_outside": Own(
        (
            "predict-the-run", "predict-the-toe-mark", "predict-the-reading", "miter-saw", "predict-the-angle",
            "step-bracket-which-line", "floor-cleat-angle", "side-stiffener-height", "side-stiffener-angle",
            "side-stiffener-from-square",
        ),
        (
            "06-angle", "06-toe-mark", "06-line", "06-slip",
        ),
    ),
    "07_taper_inside": Own(
        (
            "predict-the-mark", "predict-the-thickness", "predict-a-longer-run", "predict-what-is-left", "battery-foot",
            "fairing-angle-where", "fairing-angle-mark",
        ),
        (
            "07-project", "07-two-thicknesses", "07-in-the-fillet",
        ),
    ),
    "08_order_of_work": Own(
        (
            "predict-the-loss-cut-first", "predict-the-loss-on-the-stick", "in-the-hand", "predict-the-end", "which-end-is-free",
            "taper-after-both-ends", "alloy-before-the-cut", "predict-the-dressed-end", "trim-link-cost", "trim-link-order",
            "trim-link-operations", "order-of-a-batch", "left-long", "pair-check",
        ),
        (
            "08-order", "08-cost", "08-end-first", "08-dressed",
        ),
    ),
    "09_holes_and_what_if": Own(
        (
            "predict-the-diameters", "still-kept", "it-fits", "predict-the-metal-beyond", "by-the-trap", "predict-the-band",
            "predict-the-least-section", "why-tapered", "four-diameters", "step-bracket-to-the-taper", "hinge-bracket-row",
            "hinge-bracket-end-2", "hinge-bracket-flush",
        ),
        (
            "09-edge", "09-row", "09-rivet",
        ),
    ),
    "10_check_and_diagnose": Own(
        (
            "predict-what-the-length-says", "predict-the-short-part", "predict-the-vertex-part", "predict-the-next-reading",
            "which-hand", "cold-length", "the-batch", "predict-the-glance", "cleat-which-slip", "bracket-off-by",
            "bracket-what-is-proven",
        ),
        (
            "10-name-the-slip", "10-seven-readings", "10-off-by", "10-what-is-proven",
        ),
    ),
    "11_plan_the_stock": Own(
        (
            "predict-the-stick", "predict-the-longest-part", "predict-what-blanks-need", "left-of-S-05", "left-of-S-07",
            "predict-the-first", "made-again", "predict-the-cost", "not-to-be-spoiled", "predict-how-short",
            "predict-what-is-lost", "predict-what-is-possible", "predict-what-to-buy",
        ),
        (
            "11-blank", "11-batch", "11-fits", "11-stick",
        ),
    ),
    "12_make_part": Own(
        (
            "step-bracket-saw-line", "fairing-angle-blank", "fairing-angle-saw-line-at-the-toe", "fairing-angle-inside-mark",
        ),
        (
            "12-saw-line", "12-inside-mark", "12-blank",
        ),
    ),
    "13_behind_the_pictures": Own(
        (
            "predict-the-printed-mark",
        ),
        (
            "13-printed-mark", "13-name-of-an-argument",
        ),
    ),
}  # fmt: skip
"""By lesson, as answer files name it."""
