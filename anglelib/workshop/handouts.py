"""A handout for each lesson: one sheet, two sides. In front a question and its picture, on the back what to keep.

>>> from anglelib.paper.page import A4
>>> front, back = handout("06", A4)
>>> front.title, back.title
('06 Taper on the outside face, front', '06 Taper on the outside face, back')
"""

from __future__ import annotations

from anglelib.drawing.sheet import Group, Item, Label, Line, move
from anglelib.inspection.mistakes import MISTAKES
from anglelib.paper.page import FIGURE, SMALL, TITLE, Page, Paper, block, heading, wrapped
from anglelib.workshop.handout_words import WORDS, Words
from anglelib.workshop.pictures import fitted, pictures

LESSONS = tuple(WORDS)
LINE = 8.6
"""From line to line of what is written by hand [mm]."""
STEP = 5.2
"""From line to line of a text in large letters [mm]."""


def handouts(on: Paper) -> list[Page]:
    """Every lesson's sheet, front and back."""
    return [page for lesson in LESSONS for page in handout(lesson, on)]


def handout(lesson: str, on: Paper) -> tuple[Page, Page]:
    """Both sides of a lesson's sheet."""
    words = WORDS[lesson]
    question, answer = pictures(lesson)
    title = f"{lesson} {words.title}"
    front = Page(f"{title}, front", f"Handout {title}. {words.ask} {question.sentence}", _front(lesson, words, question, on), f"Handout {title}")
    back = Page(f"{title}, back", f"Handout {title}, what to keep: {' '.join(words.keep)} {answer.sentence}", _back(lesson, words, answer, on))
    return front, back


def _head(lesson: str, words: Words, side: str, on: Paper) -> tuple[list[Item], float]:
    y = on.top
    items: list[Item] = [Label(on.left, y, f"{lesson} {words.title}", TITLE, "start", "top"), Label(on.right, y, side, SMALL, "end", "top")]
    y -= 8.4
    text, y = block(on.left, y, f"After it you can: {words.learns[0].lower()}{words.learns[1:]}", on.room)
    y -= 0.6
    return [*items, *text, Line(on.left, y, on.right, y, "outline")], y - 4.0


def _front(lesson: str, words: Words, picture, on: Paper) -> Group:
    """The question, its picture without the answer, room to predict and to note."""
    items, y = _head(lesson, words, "write first, then turn over", on)
    text, y = large(on.left, y, words.ask, on.room)
    items += text
    drawn, deep = fitted(picture, on.room)
    items += move(drawn, on.left, y - 2)
    y -= deep + 6
    items.append(Label(on.left, y, "My answer, before the talk:", SMALL, "start", "top"))
    items += lines(on, y - 4, 3)
    y -= 4 + 3 * LINE + 4
    items.append(Label(on.left, y, "Notes:", SMALL, "start", "top"))
    items += lines(on, y - 4, int((y - 7 - on.bottom) / LINE))
    return tuple(items)


def _back(lesson: str, words: Words, picture, on: Paper) -> Group:
    """The picture with its answer, what to keep, what to do, the slips, a last question."""
    items, y = _head(lesson, words, "to keep", on)
    drawn, deep = fitted(picture, on.room)
    items += move(drawn, on.left, y)
    y -= deep + 3
    for title, rows in (("To keep", words.keep), ("At the bench", words.bench)):
        text, y = heading(on.left, y, title, on.room)
        items += text
        for row in rows:
            text, y = marked(on.left, y, row, on.room)
            items += text
        y -= 2.5
    if words.slips:
        text, y = heading(on.left, y, "Slips to look for", on.room)
        items += text
        for name in words.slips:
            slip = MISTAKES[name]
            text, y = marked(on.left, y, f"{slip.name[0].upper()}{slip.name[1:]}. {slip.remedy}", on.room, SMALL)
            items += text
        y -= 2.5
    text, y = large(on.left, y, words.again, on.room)
    items += text
    items += lines(on, y, min(2, int((y - on.bottom) / LINE)))
    return tuple(items)


# --- text ---------------------------------------------------------------------------------------------------
def large(x: float, y: float, text: str, width: float) -> tuple[Group, float]:
    """Text in large letters from its top down, and the y below it [mm]."""
    rows = wrapped(text, width, FIGURE)
    return tuple(Label(x, y - i * STEP, row, FIGURE, "start", "top") for i, row in enumerate(rows)), y - len(rows) * STEP


def marked(x: float, y: float, text: str, width: float, letter: float = 3.0) -> tuple[Group, float]:
    """A sentence behind a short stroke."""
    step = 1.55 * letter
    rows = wrapped(text, width - 5, letter)
    items: list[Item] = [Line(x, y - letter / 2, x + 2.6, y - letter / 2, "narrow")]
    items += [Label(x + 5, y - i * step, row, letter, "start", "top") for i, row in enumerate(rows)]
    return tuple(items), y - len(rows) * step - 0.8


def lines(on: Paper, y: float, number: int) -> Group:
    """Lines to write on, the first LINE under y."""
    return tuple(Line(on.left, y - (i + 1) * LINE, on.right, y - (i + 1) * LINE, "narrow") for i in range(number))
