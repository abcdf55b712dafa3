"""The questions of a learner's worksheet: some about the own part, one from each lesson with numbers that nobody else has.

The lessons' own questions are asked, drawn from a series whose seed is the class's: its numbers come
never twice, and each learner has the next ones.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> from anglelib.workshop.learner_parts import learners
>>> wanted = ClassWanted(2)
>>> sheets = worksheets_of(wanted, learners(wanted))
>>> len(sheets[0].own), len(sheets[0].lessons), sheets[0].own[0].question.answer == sheets[0].learner.part.length + Fraction(1, 16)
(6, 12, True)
>>> sheets[0].lessons[0].question.prompt != sheets[1].lessons[0].question.prompt
True
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from anglelib.geometry.hole_words import edge_name
from anglelib.geometry.holes import worst_edge
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.part import ENDS
from anglelib.questions import (
    check_and_diagnose,
    identify_stock,
    kerf_and_allowance,
    mark_along_heel,
    order_of_work,
    plan_stock,
    read_part,
    square_end,
    start_here,
    taper_inside,
    taper_outside,
)
from anglelib.questions.kerf_and_allowance import Cut
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, NumberQuestion, Question
from anglelib.questions.series import Series
from anglelib.section import LEGS
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.learner_parts import Learner

ASKED: tuple[tuple[str, str, dict[str, Series]], ...] = (
    ("00", "gap", start_here.EXERCISES),
    ("01", "weight", identify_stock.EXERCISES),
    ("02", "handed", read_part.EXERCISES),
    ("03", "trim", square_end.EXERCISES),
    ("04", "millimetres", mark_along_heel.EXERCISES),
    ("05", "blank", kerf_and_allowance.EXERCISES),
    ("05", "batch", kerf_and_allowance.EXERCISES),
    ("06", "angle", taper_outside.EXERCISES),
    ("07", "project", taper_inside.EXERCISES),
    ("08", "dressed", order_of_work.EXERCISES),
    ("10", "what-is-proven", check_and_diagnose.EXERCISES),
    ("11", "needs", plan_stock.EXERCISES),
)
"""Lesson, exercise: those that need no picture."""


@dataclass(frozen=True)
class Asked:
    """One question on paper: its lesson, its name, the question, and the thing that it is about."""

    lesson: str
    name: str
    question: Question
    thing: Any


@dataclass(frozen=True)
class Worksheet:
    """All questions of one learner."""

    learner: Learner
    own: tuple[Asked, ...]
    lessons: tuple[Asked, ...]

    @property
    def asked(self) -> tuple[Asked, ...]:
        """Every question, in the order of the sheet."""
        return (*self.own, *self.lessons)


def worksheets_of(wanted: ClassWanted, people: Sequence[Learner]) -> tuple[Worksheet, ...]:
    """A worksheet for each learner, no two alike."""
    series = [(lesson, name, _again(exercises[name], wanted.seed)) for lesson, name, exercises in ASKED]
    return tuple(
        Worksheet(one, own_questions(one, wanted.shop), tuple(Asked(lesson, name, each[n], each.thing(n)) for lesson, name, each in series))
        for n, one in enumerate(people)
    )


def _again(series: Series, seed: str) -> Series:
    """The same exercise with the class's own numbers."""
    return Series(series.make, series.id, series.needs, seed=f"{series.seed}, class {seed}", fresh=series.fresh, **series.kind)


# --- about the own part -------------------------------------------------------------------------------------
def own_questions(one: Learner, shop: Shop) -> tuple[Asked, ...]:
    """What is asked about the part that the learner makes."""
    part = one.part
    line = taper_lines(part)[0]
    blank = kerf_and_allowance.blank(Cut(part.length, shop.kerf, shop.allowance), "own-blank")
    angle = taper_outside.angle(part, "own-angle")
    found = [
        ("05", "own-blank", blank),
        ("06", "own-height", own_height(line)),
        ("06", "own-angle", angle),
        ("07", "own-inside", own_inside(line)),
        ("09", "own-edge", own_edge(one)),
        ("02", "own-hand", own_hand(one)),
    ]
    return tuple(Asked(lesson, name, question, part) for lesson, name, question in found)


def own_height(line: TaperLine) -> LengthQuestion:
    """The taper's height."""
    height = line.width - line.width_left
    return LengthQuestion(
        "own-height",
        f"Your taper: leg {line.leg}, {exact(line.width)} wide, width left {exact(line.width_left)}. How high is it, from the line's end at end {line.end} to the toe?",
        height,
        Fraction(1, 128),
        working=f"{exact(line.width)} less {exact(line.width_left)}: {both(height)}.",
    )


def own_inside(line: TaperLine) -> LengthQuestion:
    """The width left as the rule reads it inside, from the other leg's face."""
    inside = line.width_left - line.other_thickness
    return LengthQuestion(
        "own-inside",
        f"A rule stands inside, on the inner face of leg {line.other}, which is {exact(line.other_thickness)} thick. What does it read where your line meets end {line.end}?",
        inside,
        Fraction(1, 128),
        working=f"{exact(line.width_left)} from the heel, less the thickness {exact(line.other_thickness)}: {both(inside)}.",
        mark=True,
    )


def own_edge(one: Learner) -> NumberQuestion:
    """The edge distance of the hole in the tapered leg, in diameters."""
    part = one.part
    leg = part.tapers[0].leg
    hole = part.holes_in(leg)[0]
    worst = worst_edge(part, hole)
    return NumberQuestion(
        "own-edge",
        f"The {exact(hole.diameter)} hole of leg {leg} stands {exact(hole.x)} from end 1 and {exact(hole.y)} from the heel; the part is {exact(part.length)} "
        f"long, the leg {exact(part.section.leg(leg))} wide. How many diameters is its centre from the nearest edge?",
        worst.diameters,
        "D",
        tolerance=Fraction(1, 20),
        working=f"Nearest: {edge_name(worst.to)}, {both(worst.distance)} away, {worst.diameters:.2f} diameters; 2 are enough.",
        places=2,
    )


def own_hand(one: Learner) -> ChoiceQuestion:
    """Where the taper is when the part is turned end for end: the same metal, described anew."""
    turned = one.part.turned().tapers[0]
    return ChoiceQuestion(
        "own-hand",
        "You turn your part end for end and name legs and ends anew, as it lies. Where is its taper now?",
        {read_part.where_id(leg, end): read_part.where_words(leg, end) for leg in LEGS for end in ENDS},
        read_part.where_id(turned.leg, turned.end),
        working="Turned end for end, leg A lies where leg B was, and end 1 where end 2 was. It is the same part still, not the other hand.",
    )
