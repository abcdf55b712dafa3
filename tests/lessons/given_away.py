"""What stands on a page before a question is answered, and what in it gives the answer away.

Read is everything above the question and, below it, as far as the next question: prose, objectives, sentences and labels of pictures, tables,
worked parts. What is folded away does not stand there, but for the prose that earlier questions have opened. Three things give an
answer away: its number (as a rule or a caliper shows it), the words of the right choice, and its point, where a sentence has
all the words of one of its entries in :mod:`points`.
"""

import html
import re
from collections.abc import Iterator
from dataclasses import dataclass

from lesson_checks import Page, asked
from points import COINCIDENCES, NAMES_A_THING, POINTS

from anglelib.after import standing
from anglelib.drawing.sheet import Label
from anglelib.lessons.live import LivePicture, Still
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, NumberQuestion, Question

PICTURE = re.compile(r"!\[([^\]]*)\]\([^)]*\)")
TAG = re.compile(r"<[^>]+>")
NUMBER = re.compile(r"(?<![\w/.])(?:\d+ )?\d+/\d+(?![\w/])|(?<![\w/.])\d+\.\d+(?!\w)")
SENTENCE = re.compile(r"(?<=[.!?:;])\s+|\n\n|(?:^|\n)- |\|")
LEAST_WORDS = 3
"""The words of a choice give it away from so many words on; shorter ones stand everywhere, and have entries in POINTS."""


@dataclass(frozen=True)
class Found:
    """A sentence that gives a question's answer away, and by what."""

    question: str
    by: str
    sentence: str


def plain(text: str) -> str:
    """Markdown or HTML as it is read: without tags and emphasis, the descriptions of pictures in their place."""
    return html.unescape(TAG.sub(" ", PICTURE.sub(r"\n\n\1\n\n", text))).replace("*", "").replace("`", "")


def sentences(text: str) -> list[str]:
    """The sentences of a text, each in one line."""
    return [line for part in SENTENCE.split(plain(text)) if (line := " ".join(part.split()).removeprefix("- "))]


def shown_of(cell: tuple[str, object], answered: set[str]) -> str:
    """What a cell shows when some questions above it are answered and nothing else is, the prompts of questions apart."""
    source, box = cell
    if box is None:
        return standing(source, answered)
    if isinstance(box, LivePicture):
        labels = [item.text for item in box.sheet.items if isinstance(item, Label)]
        return "\n\n".join([box.caption.value, *labels])
    if isinstance(box, Still):
        return box.sheet.sentence
    if next(asked(box), None) is not None:
        return ""
    return standing(box._repr_html_(), answered) if hasattr(box, "_repr_html_") else ""


def number_forms(question: Question) -> set[str]:
    """How the number of an answer is written: those forms that do not stand in the question itself."""
    if not isinstance(question, LengthQuestion | NumberQuestion):
        return set()
    return set(NUMBER.findall(question.answer_text)) - set(NUMBER.findall(question.prompt)) - {*COINCIDENCES.get(question.id, ())}


def gives_away(question: Question, sentence: str, near: bool) -> Iterator[str]:
    """By what a sentence gives an answer away; its number only where it stands near the question, since numbers come again."""
    low = sentence.lower()
    if near:
        yield from number_forms(question) & set(NUMBER.findall(sentence))
    if isinstance(question, ChoiceQuestion) and question.id not in NAMES_A_THING:
        right = question.answer_text.lower()
        if len(right.split()) >= LEAST_WORDS and right in low and right not in question.prompt.lower():
            yield right
    for point in POINTS.get(question.id, ()):
        if all(word in low for word in point):
            yield " + ".join(point)


def cells_of(page: Page) -> list[tuple[str, object]]:
    """Each cell with its text, or with the box that it shows."""
    boxes = list(page.boxes())
    found: list[tuple[str, object]] = []
    for cell in page.cells:
        if cell.cell_type == "markdown":
            found.append((cell.source, None))
        elif boxes and boxes[0][0] == cell.source:
            found.append(("", boxes.pop(0)[1]))
    return found


def given_away(page: Page, cells: list[tuple[str, object]] | None = None) -> list[Found]:
    """Every sentence of a page that gives away the answer of a question that was not answered yet."""
    cells = cells_of(page) if cells is None else cells
    asks = [[question for question in asked(box)] if box is not None else [] for _, box in cells]
    found = []
    for at, questions in enumerate(asks):
        above = next((n for n in range(at - 1, -1, -1) if asks[n]), 0)
        below = next((n for n in range(at + 1, len(cells)) if asks[n]), len(cells))
        earlier = {question.id for row in asks[:at] for question in row}
        read = [(sentence, n == 0 or above <= n) for n in range(below) for sentence in sentences(shown_of(cells[n], earlier))]
        for question in questions:
            for sentence, near in read:
                found += [Found(question.id, by, sentence) for by in gives_away(question, sentence, near)]
    return found
