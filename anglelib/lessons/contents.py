"""The lessons in their order: those that are here, with a link and how far the learner is, and those that are still to come.

>>> LESSONS[7].title, LESSONS[7].file, LESSONS[7].name
('Taper on the inside face', '07_taper_inside.ipynb', '07 Taper on the inside face')
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from anglelib.drawing.escape import escape
from anglelib.lessons.words import TEXT
from anglelib.visiting import visiting

NOTEBOOKS = Path(__file__).resolve().parents[2] / "notebooks"


@dataclass(frozen=True)
class Lesson:
    """One lesson: its number, title, what one can do after it, and its notebook's name without number."""

    number: str
    title: str
    learns: str
    stem: str

    @property
    def file(self) -> str:
        """The notebook's file name."""
        return f"{self.id}.ipynb"

    @property
    def id(self) -> str:
        """The notebook's name, as answer files carry it."""
        return f"{self.number}_{self.stem}" if self.number else self.stem

    @property
    def name(self) -> str:
        """Its number and title, as a link to it says."""
        return f"{self.number} {self.title}".strip()


LESSONS = (
    Lesson("00", "Start here", "recognise heel, toe, leg, fillet, end, datum; work safely", "start_here"),
    Lesson("01", "Identify the stock", "identify a section and its alloy", "identify_stock"),
    Lesson("02", "Read the part", "tell left, right and neither apart", "read_part"),
    Lesson("03", "Square an end", "check an end on both legs", "square_end"),
    Lesson("04", "Mark along the heel", "lay out everything from one datum", "mark_along_heel"),
    Lesson("05", "Kerf and sanding allowance", "calculate a blank", "kerf_and_allowance"),
    Lesson("06", "Taper on the outside face", "construct run, height and angle", "taper_outside"),
    Lesson("07", "Taper on the inside face", "find the mark where the other leg hides the vertex", "taper_inside"),
    Lesson("08", "Order of work", "put the operations in order", "order_of_work"),
    Lesson("09", "Holes and what-if", "evaluate a taper: edge distance, remaining section, weight", "holes_and_what_if"),
    Lesson("10", "Check and diagnose", "name the slip from readings of a finished part", "check_and_diagnose"),
    Lesson("11", "Plan the stock", "plan which stick each blank comes from", "plan_the_stock"),
    Lesson("12", "Make a part", "make a part of your own by the whole chain, to the shop pack", "make_part"),
    Lesson("13", "Behind the pictures", "read the five lines of code behind a picture, if you like", "behind_the_pictures"),
)
REVIEW = Lesson("", "Review", "be asked again, spaced in time, what went wrong", "review")
"""The page where what went wrong comes back."""
BESIDE = (
    REVIEW,
    Lesson("", "Builder's bench", "try a taper of your own: marks, edges, saw settings, template, which stick", "builders_bench"),
    Lesson("", "Notation", "find every letter: its word, its place on a drawing, its name in code", "notation"),
    Lesson("", "Glossary", "look up a word with its drawing", "glossary"),
    Lesson("", "For the instructor", "lead a class of 6 to 20 for a day", "instructor"),
)
"""Pages beside the lessons."""
FOR_OWNER = frozenset({"instructor.ipynb", REVIEW.file})
"""Pages that a visitor of a shared course has no use for: one is for whoever leads the class, the other reads answers that were kept."""
HOME = Lesson("", "Home", "see where you are, and go on from there", "home")
"""The page that the course opens."""
_MINUTES = re.compile(r"(\d+ to \d+) minutes")


@cache
def minutes(lesson: Lesson) -> str:
    """How many minutes a lesson takes, as its page says at its head; "" where it says none.

    Common practice for a lesson that is read and tried alone: an estimate, no learner was timed.

    >>> minutes(LESSONS[7]), minutes(HOME)
    ('25 to 40', '')
    """
    try:
        cells = json.loads((NOTEBOOKS / lesson.file).read_text(encoding="utf-8"))["cells"]
        found = _MINUTES.search("".join(cells[0]["source"]))
    except (OSError, ValueError, LookupError, TypeError):
        return ""
    return found[1] if found else ""


class Contents:
    """The table of lessons; ``here`` are the files that are there, ``standing`` says by lesson how far the learner is."""

    def __init__(self, here: Iterable[str], standing: Mapping[str, str]) -> None:
        self.here, self.standing = frozenset(here), standing
        self.pages = [page for page in (*LESSONS, *BESIDE) if not (visiting() and page.file in FOR_OWNER)]

    def _state(self, lesson: Lesson) -> str:
        return self.standing.get(lesson.id, "") if lesson.file in self.here else "to come"

    def _repr_html_(self) -> str:
        rows = []
        for lesson in self.pages:
            name = escape(lesson.name)
            if lesson.file in self.here:
                name = f'<a href="{escape(lesson.file)}">{name}</a>'
            cells = (name, escape(lesson.learns), self._state(lesson))
            rows.append("<tr>" + "".join(f'<td style="text-align:left">{cell}</td>' for cell in cells) + "</tr>")
        head = "".join(f'<th style="text-align:left">{word}</th>' for word in ("lesson", "after it you can", "questions"))
        return f'<table style="{TEXT}"><thead><tr>{head}</tr></thead><tbody>{"".join(rows)}</tbody></table>'

    def __repr__(self) -> str:
        return "\n".join(self._line(lesson) for lesson in self.pages)

    def _line(self, lesson: Lesson) -> str:
        state = self._state(lesson)
        return f"{lesson.name}: {lesson.learns}{f' ({state})' if state else ''}"


def contents() -> Contents:
    """The table as it is now: what lies beside this package's notebooks, and what was answered."""
    from anglelib.questions.answers import home  # only here is anything read: whoever needs the order alone loads none of it
    from anglelib.workshop.so_far import kept, so_far
    from anglelib.workshop.so_far_words import count_words

    standing = {one.lesson: count_words(one) for one in so_far(kept(home() / "answers")).lessons}
    return Contents((path.name for path in NOTEBOOKS.glob("*.ipynb")), standing)
