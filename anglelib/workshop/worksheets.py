"""The worksheets on paper: two sides a learner, then the part's card, its fold sheet and its check print; and the key.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> from anglelib.workshop.day import day_of
>>> from anglelib.workshop.learner_parts import learners
>>> from anglelib.workshop.rotation import rotation
>>> wanted = ClassWanted(2)
>>> sheet = worksheets_of(wanted, learners(wanted))[0]
>>> [page.title for page in worksheet_pages(sheet, day_of(wanted, rotation(wanted)))]
['Worksheet of learner 01, own part', 'Worksheet of learner 01, lessons']
>>> key_pages([sheet], wanted.on)[0].title
'Key to the worksheets'
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, Line
from anglelib.lengths import both, exact
from anglelib.paper.cards import card_pages
from anglelib.paper.check_print import check_pages
from anglelib.paper.page import SMALL, TITLE, Block, Column, Page, Paper, block, box, flow, heading, table, wrapped
from anglelib.paper.template import template_pages
from anglelib.questions.choice import words_of
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, NumberQuestion, Question
from anglelib.workshop.class_plan import STATION_WORDS
from anglelib.workshop.day import Day
from anglelib.workshop.worksheet_questions import Asked, Worksheet, worksheets_of

__all__ = ["key_pages", "learner_pages", "worksheet_pages", "worksheets_of"]

TEXT = 3.5
"""Height of a question's letters [mm]."""
PITCH = 1.4 * TEXT
TICK = 3.2


def learner_pages(sheet: Worksheet, day: Day) -> list[Page]:
    """Everything that one learner gets for the own part."""
    part, shop, on = sheet.learner.part, day.wanted.shop, day.wanted.on
    note = f"Sawn from piece {part.only_stick}, tapered before it is cut to length."
    return [
        *worksheet_pages(sheet, day),
        *card_pages(part, shop, on, blanks=(part.only_stick,), note=note),
        *template_pages(part, shop, on, scale=day.wanted.scale),
        *check_pages(part, on, scale=day.wanted.scale),
    ]


def worksheet_pages(sheet: Worksheet, day: Day) -> tuple[Page, Page]:
    """Both sides of a worksheet."""
    on, name = day.wanted.on, sheet.learner.name
    part = sheet.learner.part
    title = f"Worksheet of {name.lower()}"
    own = f"{title}: {part.name}, {exact(part.length)} long. {' '.join(asked.question.prompt for asked in sheet.own)}"
    rest = f"{title}, questions of the lessons: {' '.join(asked.question.prompt for asked in sheet.lessons)}"
    return (
        Page(f"{title}, own part", own, _own_side(sheet, day, on), f"{name}, {part.id}"),
        Page(f"{title}, lessons", rest, _lessons_side(sheet, on)),
    )


def _head(sheet: Worksheet, on: Paper, words: str) -> tuple[list[Item], float]:
    y = on.top
    items: list[Item] = [Label(on.left, y, sheet.learner.name, TITLE, "start", "top")]
    x = on.left + text_width(sheet.learner.name, TITLE) + 8
    items += [Label(x, y - 1.4, "name", SMALL, "start", "top"), Line(x + 12, y - 5.4, x + 72, y - 5.4, "narrow")]
    items.append(Label(on.right, y, words, SMALL, "end", "top"))
    y -= 8.6
    return [*items, Line(on.left, y, on.right, y, "outline")], y - 3.5


def _own_side(sheet: Worksheet, day: Day, on: Paper) -> Group:
    part, one = sheet.learner.part, sheet.learner
    items, y = _head(sheet, on, "own part")
    taper = part.tapers[0]
    holes = ", ".join(f"leg {hole.leg} at {exact(hole.x)}, {exact(hole.y)} from the heel" for hole in part.holes)
    words = (
        f"{part.name} ({part.id}), {part.section.size}, fillet {exact(part.section.fillet)}, {part.alloy}: {both(part.length)} long; leg {taper.leg} tapered "
        f"at end {taper.end}, run {both(taper.run)}, width left {both(taper.width_left)}; 1/8 holes {holes}. From piece {part.only_stick}"
        + (f", which you share with learner {one.partner:02d}: theirs is the other hand." if one.partner else ".")
    )
    text, y = _text(on.left, y, words, on.room)
    items += text
    y -= 2
    for number, asked in enumerate(sheet.own, 1):
        text, y = _question(on.left, y, number, asked, on.room)
        items += text
    text, y = heading(on.left, y - 1, f"My way through the stations, from {day.at(0)}", on.room)
    items += text
    rows = [(f"{day.at(s.start)} to {day.at(s.end)}", _where(s), s.words) for s in day.segments(one.number)]
    columns = [Column("", 30, SMALL), Column("", 34, SMALL), Column("", on.room - 64, SMALL)]
    drawn, y = table(on.left, y + 1.4, columns, rows, pad=0.5, row_lines=len(rows) < 16)
    return (*items, *drawn)


def _where(segment) -> str:
    if segment.visit is None:
        return ""
    several = segment.visit.place
    return f"{STATION_WORDS[segment.visit.station]} {several}"


def _lessons_side(sheet: Worksheet, on: Paper) -> Group:
    items, y = _head(sheet, on, "numbers nobody else has; within 1/64 is near enough")
    for number, asked in enumerate(sheet.lessons, len(sheet.own) + 1):
        text, y = _question(on.left, y, number, asked, on.room, asked.lesson)
        items += text
    return tuple(items)


def _question(x: float, y: float, number: int, asked: Asked, width: float, lesson: str = "") -> tuple[Group, float]:
    """A question with its number, and where its answer is written."""
    question = asked.question
    items: list[Item] = [Label(x, y, str(number), TEXT, "start", "top")]
    before = f"Lesson {lesson}. " if lesson else ""
    rows = wrapped(before + question.prompt, width - 8, TEXT)
    items += [Label(x + 8, y - i * PITCH, row, TEXT, "start", "top") for i, row in enumerate(rows)]
    y -= len(rows) * PITCH
    if isinstance(question, ChoiceQuestion):
        at = x + 8
        for words in words_of(question.choices):
            items += [box(at, y - 4.6, TICK, TICK), Label(at + TICK + 1.6, y - 4.2, words, SMALL, "start")]
            at += TICK + 8 + text_width(words, SMALL)
        return tuple(items), y - 8.6
    unit = _unit(question)
    end = x + width
    last = text_width(rows[-1], TEXT) + 12 if rows else 0
    low = y + 0.2 if last < width - 66 else y - 4.6  # beside the last line where there is room
    items += [Line(end - 60, low, end - text_width(unit, SMALL) - 2, low, "narrow"), Label(end, low + 0.4, unit, SMALL, "end")]
    return tuple(items), min(y, low) - 4.6


def _unit(question: Question) -> str:
    if isinstance(question, NumberQuestion):
        return question.unit if question.unit in ("D", "lb/ft") else question.of.words
    return "in."


def _text(x: float, y: float, text: str, width: float) -> tuple[Group, float]:
    rows = wrapped(text, width, TEXT)
    return tuple(Label(x, y - i * PITCH, row, TEXT, "start", "top") for i, row in enumerate(rows)), y - len(rows) * PITCH


# --- the key ------------------------------------------------------------------------------------------------
KEY = (
    "Numbers within 1/64 are right, angles within a quarter of a degree, unless a drawing asks for more. What stands under “instead” is what a "
    "known slip gives: ask how it came about before you name it."
)


def key_pages(sheets: Sequence[Worksheet], on: Paper) -> list[Page]:
    """The answers of every worksheet, and what the likeliest slip gives in its place."""
    text, low = block(0, 0, KEY, on.room)
    blocks: list[Block] = [(text, -low)]
    for sheet in sheets:
        items, y = heading(0, 0, f"{sheet.learner.name}, {sheet.learner.part.id}, {sheet.learner.part.hand}", on.room)
        rows = [(str(n), a.lesson, a.question.answer_text, instead(a.question)) for n, a in enumerate(sheet.asked, 1)]
        columns = [Column("", 8), Column("lesson", 13), Column("answer", 46), Column("instead", on.room - 67)]
        drawn, y = table(0, y, columns, rows, pad=0.45, row_lines=False)
        blocks.append(((*items, *drawn), -y))
    return flow("Key to the worksheets", "for the instructor; computed, not typed", blocks, on, f"Answers to the worksheets of {len(sheets)} learners.")


def instead(question: Question, most: int = 1) -> str:
    """What known slips give in place of the answer, the first ones."""
    if isinstance(question, LengthQuestion):
        found = [f"{both(w.answer, 64)}: {w.name}" for w in question.wrong]  # type: ignore[arg-type]
    elif isinstance(question, NumberQuestion):
        found = [f"{question.of.show(w.answer, question.places)}: {w.name}" for w in question.wrong]  # type: ignore[arg-type]
    else:
        return ""
    return "; ".join(found[:most])
