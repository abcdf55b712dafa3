"""Lesson 13, for whoever likes: the five lines of code behind a picture. The page's own cells are the code; here are its questions.

>>> bracket().id, sorted(figures())
('P1', ['13_behind_the_pictures.png'])
"""

from __future__ import annotations

from dataclasses import replace

from anglelib.drawing.sheet import Sheet
from anglelib.drawing.sheets import outer_sheet
from anglelib.job import Shop
from anglelib.lessons.ask import Ask, Questions
from anglelib.lessons.learned import Learned, learned_in
from anglelib.part import Hole, Part, Taper
from anglelib.questions import behind_the_pictures as ask
from anglelib.questions import recall as earlier
from anglelib.questions.answers import AnswerBook
from anglelib.section import Section

LESSON = "13_behind_the_pictures"


def bracket() -> Part:
    """The part that the page's own lines describe; a test holds the two the same."""
    stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
    return Part("P1", "Door bracket", stock, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")], [Hole("B", "5/8", "11/16", "3/16")])


def figures() -> dict[str, Sheet]:
    """The page's ordinary picture by file name: what its third cell draws."""
    part = bracket()
    return {f"{LESSON}.png": outer_sheet(part, "A", stage="layout", shop=Shop())}


def _book() -> AnswerBook:
    return AnswerBook(LESSON)


def recall() -> Questions:
    """Three questions of earlier lessons."""
    part, book = bracket(), _book()
    return Questions(
        Ask(lambda n: earlier.name_of_vertex(), book),
        Ask(lambda n: earlier.blank_length(part, Shop()), book),
        Ask(lambda n: earlier.height_on_line(part), book),
    )


def predict() -> Ask:
    """The mark that the lines will give once their run is another: the one that they have now stands under the question."""
    longer = replace(bracket(), tapers=(Taper("A", 1, run="2 3/8"),))
    return Ask(lambda n: ask.exact_mark(longer), _book())


def exercise(which: int) -> Ask:
    """A checked exercise with fresh numbers on demand: 1 or 2."""
    series = list(ask.EXERCISES.values())[which - 1]
    return Ask(series.__getitem__, _book(), fresh=True, title=f"Exercise {which}")


def learned() -> Learned:
    """What the lesson was about, and what to carry to the bench."""
    return learned_in(LESSON)
