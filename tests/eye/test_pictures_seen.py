"""Every picture of every lesson, read back from its finished SVG and drawn by another hand: no word over another, cut, hidden, struck, too small or pale.

A page in the tests; every page at every place of its controls, on the screen and for a room, in the slow tier.
"""

from pathlib import Path

import numpy as np
import page_reader
import pytest
import shown
import svg_reader
from judges import faults
from tolerated import not_tolerated

from anglelib.drawing.pdf import pdf
from anglelib.drawing.sheet import Label, Line, Sheet
from anglelib.drawing.svg import svg
from anglelib.lessons.look import page_style, projector_switch

page_style()  # the two that a page has once, which watch the room as long as the tests run
projector_switch()
FIGURES = sorted((Path(__file__).resolve().parents[2] / "figures").glob("*.svg"))


@pytest.fixture(autouse=True)
def own_folder(monkeypatch, tmp_path):
    """The learner's folder, empty."""
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))


def unfit(found, theme: str = "screen") -> tuple[list[str], int]:
    """What is wrong in some drawings, each looked at once, and how many there are."""
    wrong, seen = [], set()
    for name, text in found:
        if text not in seen:
            seen.add(text)
            look = svg_reader.look(text, name, least=shown.least(text, theme))
            wrong += [f"{name}: {fault}" for fault in not_tolerated(f"{name} ({theme})", faults(look))]
    return wrong, len(seen)


def of_page(page, theme: str, **how):
    return unfit(shown.in_room(theme, lambda: shown.of_page(page, theme, **how)), theme)


WITHOUT = {"home", "review", "glossary", "notation"}
"""Pages without a drawing of this kind."""


@pytest.mark.parametrize("page", [page for page in shown.PAGES if page.path.stem[:2] == "07"], ids=lambda page: page.path.stem)
def test_a_page_as_it_opens_and_answered(page):
    wrong, count = of_page(page, "screen", most=1)
    assert wrong == [] and count > 20


@pytest.mark.slow
@pytest.mark.parametrize("theme", ["screen", "projector"])
@pytest.mark.parametrize("page", shown.PAGES, ids=lambda page: page.path.stem)
def test_every_page_at_every_place(page, theme):
    wrong, count = of_page(page, theme, every=True)
    assert wrong == [] and (count or page.path.stem in WITHOUT)


@pytest.mark.parametrize("paths", [FIGURES[:6], pytest.param(FIGURES, marks=pytest.mark.slow)], ids=["some", "all"])
def test_drawings_of_words(paths):
    assert unfit((path.name, path.read_text(encoding="utf-8")) for path in paths) == ([], len(paths))


def test_two_readers_agree_where_words_are():
    """The same drawing as PDF and as SVG: two libraries that share no line of code find each word's ink at the same place, to a dot or two."""
    labels = (
        Label(12, 10, "Cleat (1) 5/8", 2.5, "start"), Label(50, 30, "turned, going up", 3.5, rotation=30), Label(90, 52, "end", 3.5, "end", "top"),
        Label(20, 30, "upward", 3.5, rotation=90), Label(70, 15, "middle", 5, base="middle"),
    )  # fmt: skip
    sheet = Sheet(100, 60, (*labels, Line(5, 40, 20, 55)), "Trial", "A trial 1.")
    (one,), two = page_reader.looks(pdf([sheet], "Trial")), svg_reader.look(svg(sheet))
    assert [word.text for word in one.words] == [word.text for word in two.words]
    for first, second in zip(one.words, two.words, strict=True):
        assert np.abs(first.quad / one.dots - second.quad / two.dots).max() < 0.3, (first, second)
