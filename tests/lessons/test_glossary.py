"""The glossary: every word of the vocabulary has an entry, every entry a drawing of its own; the search; the page as saved."""

import re

import pytest
from lesson_checks import PROJECT, THEMES, Page, legible

from anglelib.drawing.svg import svg
from anglelib.drawing.word_places import WORDS, word_sheet
from anglelib.lessons import glossary as lesson
from anglelib.lessons.contents import LESSONS


def vocabulary(text: str) -> list[str]:
    """The words of the vocabulary table of DEVELOPERS.md."""
    table = text.partition("## Vocabulary")[2].partition("\n## ")[0]
    rows = re.findall(r"^\| ([^|]+) \| [^|]+ \|$", table, re.MULTILINE)
    return [word.strip() for row in rows if row not in ("word", "---") for word in re.split("[,;]", row)]


def test_every_word_of_the_vocabulary_has_an_entry():
    words = vocabulary((PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8"))
    assert {"stick", "leg B", "witness line", "slip", "shop pack"} <= set(words) and len(words) > 30
    assert [word for word in words if word not in {term.name for term in lesson.TERMS}] == []


def test_the_guard_sees_a_new_word():
    assert vocabulary("## Vocabulary\n\n| word | meaning |\n|---|---|\n| jig, shim; stop | holds the part |\n\n## Next\n") == ["jig", "shim", "stop"]
    with pytest.raises(KeyError):
        word_sheet("jig", "jig", "holds the part")


def test_every_entry_has_its_own_legible_drawing():
    assert [term.name for term in lesson.TERMS] == list(dict.fromkeys(term.name for term in lesson.TERMS))
    assert all(re.fullmatch(r"[\w-]+", term.id) for term in lesson.TERMS)
    assert set(WORDS) == {term.id for term in lesson.TERMS}
    pictures = {}
    for term in lesson.TERMS:
        sheet = lesson.drawn(term)
        for theme in THEMES:
            legible(sheet, theme, number=False)
        assert any(getattr(item, "accent", False) and not hasattr(item, "text") for item in sheet.items), f"nothing shows the {term.name}"
        assert any(getattr(item, "text", "").startswith(term.name) for item in sheet.items), f"the word {term.name} is not on its drawing"
        assert term.meaning in sheet.sentence
        pictures[term.name] = svg(sheet)
    assert len(set(pictures.values())) == len(pictures)


def test_no_meaning_needs_its_own_word_and_every_lesson_is_there():
    numbers = {one.number for one in LESSONS}
    for term in lesson.TERMS:
        assert term.lesson in numbers
        assert not re.search(rf"\b{term.name}\b", term.meaning), term.name
        assert not term.meaning.endswith(".") and (not term.mind or term.mind.endswith("."))


def test_search():
    finder = lesson.table()
    for sought, first in (("ker", "kerf"), ("HEEL", "heel"), ("mirror image", "hand"), ("dust saw", "kerf")):
        finder.search.value = sought
        assert finder.found[0].word == first and finder.list.value.count("<img ") == len(finder.found), sought
    finder.search.value = "zzz"
    assert finder.list.value == "" and "zzz" in finder.status.value
    finder.search.value = ""
    assert len(finder.found) == len(lesson.TERMS)


def test_page():
    page = Page.of(lesson)
    assert "approves nothing" in page.prose
    saved = next(cell.outputs[0]["data"] for cell in page.cells if cell.source == "lesson.table()")
    finder = lesson.table()
    assert saved["text/html"] == finder.snapshot and saved["text/plain"] == finder.words
    assert all(term.name in saved["text/plain"] for term in lesson.TERMS)
