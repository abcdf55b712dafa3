"""A class for a day: its parts and stock, the rotation, its pages; the guide, the votes, who is stuck."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path
from typing import Any

from tests.outcomes.facts import facts, figures

KEPT = Path(__file__).resolve().parents[1] / "data" / "answers_format_1"


def day() -> list[Any]:
    """The day of a small class: who is where and when, what each does between two stations, the stock, the key."""
    from anglelib.workshop.class_plan import ClassWanted
    from anglelib.workshop.day import day_of, watch
    from anglelib.workshop.learner_parts import learners
    from anglelib.workshop.rotation import rotation
    from anglelib.workshop.stock_to_buy import shopping_csv, stock_for

    wanted = ClassWanted(3, date=datetime.date(2024, 5, 1))
    people, made = learners(wanted), day_of(wanted, rotation(wanted))
    stock = stock_for(wanted, people)
    found = [people, made.rotation, made.cutting, made.blocks, made.late, made.over, [made.segments(one.number) for one in people], watch(wanted)]
    found += [stock.job, stock.rack, stock.pieces_rack, [figures(line) for line in shopping_csv(stock).splitlines()]]
    return [facts(one) for one in found]


def votes() -> list[Any]:
    """Every demonstration: what hands are raised for, which is right, what is said for each wrong one."""
    from anglelib.lessons import instructor
    from anglelib.workshop import guide

    found = []
    for number, shown in enumerate(guide.DEMONSTRATIONS, 1):
        vote = instructor.vote(number)
        before = len(vote._sheet(False).items)
        for box in vote.hands.values():
            box.value = 2
        vote.reveal.click()
        found.append([shown.module, shown.function, list(vote.hands), vote.right, sorted(vote.wrong), before, len(vote.told), [figures(line) for line in vote.told]])
    return found


def readings() -> list[Any]:
    """The grid in which readings of made parts are typed: its rows, what is typed, what is found."""
    from anglelib.inspection.made import Made, readings_of
    from anglelib.lessons import instructor

    grid = instructor.readings()
    for (code, part_id), entries in grid.cells.items():
        read = readings_of(Made.as_wanted(grid.job.part(part_id)))
        for id_, entry in entries.items():
            entry.value = "misses" if id_ == "print" else f"{read[id_] - (0.07 if code == 'K01' else 0):.3f}"
    grid.check.click()
    found = [[one.measured.code, one.outcome, [[c.ids, c.second] for c in one.causes], bool(one.to_say)] for one in grid.found.parts]
    return [[[*key, list(of)] for key, of in grid.cells.items()], found, facts([[m.ids, m.count] for m in grid.found.mistakes])]


def stuck() -> list[Any]:
    """Who is stuck: the counts, and the rows of the instructor's table."""
    from anglelib.lessons.instructor import StuckBox, stuck_table
    from anglelib.workshop.who_is_stuck import look

    found = look([KEPT])
    box = StuckBox()
    box.folder.value = str(KEPT)
    box.button.click()
    rows = [[q.lesson, q.question, q.variant, q.learners, q.right, q.tries, q.slips, bool(q.to_say)] for q in box.count.questions]
    most = found.most_frequent
    return [facts(rows), [len(stuck_table(found).rows), most.question if most else "", figures(found.sentence)]]


def home() -> list[Any]:
    """How far two learners are, and where their home pages lead."""
    from anglelib.lessons.contents import LESSONS
    from anglelib.lessons.home import Ways
    from anglelib.workshop.review import review
    from anglelib.workshop.review_words import due_words
    from anglelib.workshop.so_far import kept, so_far

    now = datetime.datetime(2026, 12, 1, 12, tzinfo=datetime.UTC)
    given = [kept(KEPT / who / "answers") for who in "ab"]
    found, back = [so_far(one) for one in given], [review(one.answers, now) for one in given]
    files = [lesson.file for lesson in LESSONS]
    pages = [Ways(one, files, due_words(due, now)) for one, due in zip(found, back, strict=True) if one.next]
    states = [[facts(one), facts(due), [standing.state for standing in one.lessons]] for one, due in zip(found, back, strict=True)]
    return states + [[page.onward[1].file, page._repr_html_().count("<li"), figures(page.due)] for page in pages]


def guide() -> list[Any]:
    """The guide's lessons, and what each reveals."""
    from anglelib.workshop import guide

    return [[lesson.number, figures(lesson.minutes), [figures(words) for words in lesson.reveals]] for lesson in guide.LESSONS]


# --- laid out: to be compared with words as wide as they were -----------------------------------------------------
def class_pack() -> list[Any]:
    """Every page of the pack of a class, laid out."""
    from anglelib.paper.version import version
    from anglelib.workshop.class_pack import make_class_pack
    from anglelib.workshop.class_plan import ClassWanted

    made = make_class_pack(ClassWanted(3, date=datetime.date(2024, 5, 1)))
    this = version(made.stock.job)  # a digest of what the job says, its name too
    return [[name, facts(without(sheet, this))] for name, printed in made.printed.items() for sheet in printed.sheets]


def without(sheet: Any, words: str) -> Any:
    """A sheet without the labels that have some words in them."""
    return replace(sheet, items=tuple(item for item in sheet.items if words not in getattr(item, "text", "")))


def guide_pages() -> list[Any]:
    """The guide's pages, laid out."""
    from anglelib.paper.page import A4
    from anglelib.workshop.guide_pages import sheets

    return [facts(sheet) for sheet in sheets(A4, "2024-05-01")]
