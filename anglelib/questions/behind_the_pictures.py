"""The questions of lesson 13: what the lines of code give, and what an argument is called.

>>> ask = printed_mark(practice("a seed"))
>>> ask.answer_text, ask.prompt[:52]
('5/16 (0.313)', 'The two lines are changed to stock = Section("1 1/2"')
>>> named("e_s").answer
'e_s'
"""

from __future__ import annotations

from dataclasses import replace

from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import taper_lines
from anglelib.lengths import exact
from anglelib.part import Part
from anglelib.questions.fresh import fresh_part
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.questions.taken_for import LETTERS, slip_of
from anglelib.questions.taper_inside import vertex_projection


def practice(seed: str) -> Part:
    """A part with one taper to the vertex, on leg A at end 1: what two lines of code can describe."""
    return fresh_part(seed, ends_in="vertex")


def lines_of(part: Part) -> str:
    """The two lines that describe a practice part: its section, and its taper."""
    section, line = part.section, taper_lines(part)[0]
    sizes = ", ".join(f'"{exact(v)}"' for v in (section.leg_a, section.leg_b, section.thickness_a))
    left = f'"{exact(line.width_left)}", ' if line.width_left else ""
    return f'stock = Section({sizes}, fillet="{exact(section.fillet)}") and Taper("{line.leg}", {line.end}, {left}run="{exact(line.run)}")'  # type: ignore[arg-type]


def printed_mark(part: Part, id: str = "printed-mark") -> LengthQuestion:
    """What the lines print for the mark on the other leg, for another part."""
    asked = vertex_projection(part, id)
    line = taper_lines(part)[0]
    return replace(asked, prompt=f"The two lines are changed to {lines_of(part)}. Which mark on leg {line.other} do they give? Work it out, then run the cell.")


def exact_mark(part: Part, id: str = "predict-the-printed-mark") -> LengthQuestion:
    """The same where only the run of the page's own part is another, before its cells are run again."""
    asked = vertex_projection(part, id)
    run = exact(taper_lines(part)[0].run)  # type: ignore[arg-type]
    return replace(asked, prompt=f'In the lines of 1 the run becomes "{run}". Which mark on leg B will the next lines give then? {asked.prompt}')


def named(letter: str, id: str = "name-of-an-argument") -> ChoiceQuestion:
    """By which name a quantity is handed to a formula."""
    stated = formulas().QUANTITIES
    choices = sorted((letter, *LETTERS[letter]), key=str.lower)
    wrong = tuple(WrongAnswer(slip_of(other, letter), other, f"{other} is the {stated[other].meaning}.") for other in LETTERS[letter])
    return ChoiceQuestion(
        id,
        f"A formula wants the {stated[letter].meaning}. By which name is it handed over?",
        choices,
        letter,
        wrong,
        ("The notation page has every letter with its place on a drawing.",),
        f"{letter}= is the {stated[letter].meaning}.",
    )


def which(seed: str) -> str:
    """A letter to be asked for."""
    from anglelib.questions.fresh import Numbers

    return Numbers(seed).pick(tuple(LETTERS))


EXERCISES = {
    "printed-mark": Series(printed_mark, "13-printed-mark", ("offset-as-thickness", "straight-over-fillet"), fresh=practice),
    "name-of-an-argument": Series(named, "13-name-of-an-argument", fresh=which),
}
QUESTIONS = {
    "printed-mark": lambda: printed_mark(practice("a question")),
    "exact-mark": lambda: exact_mark(practice("a question")),
    **{f"name-of-{letter}": (lambda letter=letter: named(letter)) for letter in LETTERS},
}
