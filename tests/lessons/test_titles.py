"""A lesson has one title, in contents: its page begins with it, and the guide, the handouts and the day's plan say no other."""

import json

import pytest

from anglelib.lessons.contents import LESSONS, NOTEBOOKS
from anglelib.workshop import day, guide
from anglelib.workshop.handout_words import WORDS

NAMES = {lesson.number: lesson for lesson in LESSONS}


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.id)
def test_the_page_begins_with_the_lessons_title(lesson):
    cells = json.loads((NOTEBOOKS / lesson.file).read_text(encoding="utf-8"))["cells"]
    heading = "".join(cells[0]["source"]).partition("\n")[0]
    title, _, what = heading.partition(": ")
    assert title == f"# {lesson.name}" and (what == "" or what[0].islower()), heading


def test_what_a_class_is_given_says_the_same():
    assert {of.number: of.title for of in guide.LESSONS} == {number: NAMES[number].title for number in (of.number for of in guide.LESSONS)}
    assert {number: words.title for number, words in WORDS.items()} == {number: NAMES[number].title for number in WORDS}
    said = [what for what, *_ in (*day._MORNING, *day._AFTER) if what[:2].isdigit()]
    assert said and said == [NAMES[what[:2]].name for what in said]
