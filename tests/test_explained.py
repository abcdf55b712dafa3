"""Words of the glossary in the prose of the plain pages: where they are marked, that nothing else of a page changes, that pictures and meanings are there."""

import re
from pathlib import Path

import nbformat
import pytest
from nbconvert.filters import markdown2html

from anglelib.explained import ALSO_OF_EVERY_DAY, HELD, NOT_ON, explained, meanings, places
from anglelib.lessons.glossary import TERMS, word_pictures
from anglelib.pages import prepared
from anglelib.served import FIGURE

PROJECT = Path(__file__).resolve().parents[1]
PAGES = [path for path in sorted((PROJECT / "notebooks").glob("*.ipynb")) if path.stem not in NOT_ON]
BUTTON = re.compile(r'<button type="button" class="word" aria-describedby="word-([\w-]+)" data-word="\1">([^<]+)</button>')
KEPT = re.compile(r'<span class="word-kept">(.*?</button>[^<]*)</span>')


def texts(path: Path) -> list[str]:
    return [cell.source for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == "markdown"]


def plain(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", "", html).split())


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_a_page_reads_as_before_and_has_each_word_once_a_section(path):
    before = texts(path)
    after, used = explained(before, path.stem)
    assert 1 <= len(used) and {id for text in after for id, _ in BUTTON.findall(text)} == set(used)
    for one, other in zip(before, after, strict=True):
        assert BUTTON.sub(r"\2", KEPT.sub(r"\1", other)) == one  # nothing but marks
        assert plain(markdown2html(other)) == plain(markdown2html(one))
    names = {term.id: term.name for term in TERMS}
    for section in re.split(r"^## .*$", "\n\n".join(after), flags=re.MULTILINE):
        found = [id for id, _ in BUTTON.findall(section)]
        assert len(found) == len(set(found)) and all(word in (names[id], names[id] + "s") for id, word in BUTTON.findall(section))
    marks = sum(text.count("<button") for text in after)
    assert marks <= 0.03 * sum(len(text.split()) for text in before), "a field of dotted lines"


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_no_mark_in_a_heading_a_link_code_or_sources(path):
    for text in explained(texts(path), path.stem)[0]:
        html = markdown2html(text)
        for inner in re.findall(r"<(h\d|a|code|pre|summary)\b[^>]*>(.*?)</\1>", html, re.DOTALL):
            assert "<button" not in inner[1]
        assert "<button" not in text.partition("## Sources")[2]


def test_what_means_something_else_is_left_alone():
    said = "Run it by hand and mark plans, 6 in. in the hand, as the plans say; its mark, the mark printed on it. The run; the mark; the other hand; a plan."
    assert BUTTON.findall(explained(["## 1\n\n## 2\n\n" + said], "12_make_part")[0][0]) == [("run", "run"), ("mark", "mark"), ("hand", "hand"), ("plan", "plan")]
    assert BUTTON.findall(explained(["## 1\n\n## 2\n\n" + said], "01_identify_stock")[0][0]) == []  # not before their lessons
    assert {term.id for term in TERMS} >= ALSO_OF_EVERY_DAY and all({*held} <= {term.id for term in TERMS} for held in HELD.values())


def test_every_drawing_is_there_is_current_and_may_be_fetched():
    wanted = word_pictures()
    assert {path.name for path in (PROJECT / "figures").glob("word-*")} == set(wanted) and len(wanted) == len(TERMS) == 49
    for name, text in wanted.items():
        assert (PROJECT / "figures" / name).read_text(encoding="utf-8") == text, f"{name}: python -m tests.refresh glossary"
        assert re.fullmatch(FIGURE, f"figures/{name}") and len(text) < 4000 and "<script" not in text
    assert not re.fullmatch(FIGURE, "figures/../notebooks/a.svg") and not re.fullmatch(FIGURE, "figures/a.html")


def test_a_page_has_the_meanings_of_its_words_once():
    page = prepared(None, nbformat.read(PAGES[7], as_version=4), "")
    assert "<button" not in page.cells[0].source  # nobody asked by an address: it is no page of the course

    class Asked:
        xsrf_token = b""

        class request:
            path = f"/voila/render/notebooks/{PAGES[7].name}"

    page = prepared(Asked, nbformat.read(PAGES[7], as_version=4), "")
    text = "\n\n".join(cell.source for cell in page.cells if cell.cell_type == "markdown")
    described = {id for id, _ in BUTTON.findall(text)}
    assert described and sorted(re.findall(r'<span id="word-([\w-]+)">', text)) == sorted(described)
    assert meanings(()) == "" and "\n\n" not in meanings(described)


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("It is at (the heel).", 'heel</button>).</span>'),
        ("At the heel, then.", 'heel</button>,</span>'),
        ("At the *heel*, then.", 'heel</button>*,</span>'),
        ("The corner (heel) is it.", '<span class="word-kept">(<button'),
        ("The heel's line.", "heel</button>'s</span>"),
    ],
)
def test_a_word_stays_with_its_bracket_and_comma(text, kept):
    made = explained([text], "09_holes_and_what_if")[0][0]
    assert kept in made and re.sub("<[^>]+>", "", made) == text


def test_a_word_by_itself_is_by_itself():
    assert "word-kept" not in explained(["The heel is out.", "At the *heel* it is."], "09_holes_and_what_if")[0][0]


def without_tags(html: str) -> str:
    return re.sub(r"<[^>]*>", "", html)


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_a_word_is_found_again_in_prose_that_someone_else_renders(path):
    before = texts(path)
    for one, marked in zip(before, explained(before, path.stem)[0], strict=True):
        rendered, with_marks = markdown2html(one), markdown2html(marked)
        plain = re.sub(r"<(h\d|a|code|pre|summary)\b.*?</\1>", lambda kept: "\0" * len(kept[0]), rendered, flags=re.DOTALL)
        plain = re.sub(r"<[^>]+>|\$[^$]+\$", lambda kept: "\0" * len(kept[0]), plain)
        marks, found = [*BUTTON.finditer(with_marks)], places(marked)
        assert [(mark[1], mark[2]) for mark in marks] == [(place.term, place.word) for place in found]
        for mark, place in zip(marks, found, strict=True):
            at = [equal.start() for equal in re.finditer(rf"(?<![\w/-]){re.escape(place.word)}(?![\w-])", plain)][place.before]
            assert without_tags(rendered[:at]) == without_tags(with_marks[: mark.start()])
