"""The notation page: every letter of a formula once, with one meaning and one drawing of its own; the search; the page as saved."""


import pytest
import sympy
from lesson_checks import THEMES, Page, legible

from anglelib.drawing import letter_bases as base
from anglelib.drawing.letter_places import PLACES
from anglelib.drawing.sheet import Label
from anglelib.drawing.svg import svg
from anglelib.geometry.formulas import ALL
from anglelib.lessons import notation as lesson


def in_formulas() -> set[str]:
    """The letters as sympy finds them in the expressions themselves, inverses too, and those of the results."""
    found = set()
    for formula in ALL:
        for expression in (formula.expression, *formula.inverses.values()):
            found |= {symbol.name for symbol in sympy.sympify(expression).free_symbols}
        found.add(formula.result.letter)
    return found


def test_every_letter_of_a_formula_is_in_it_once_with_one_meaning():
    listed = [quantity.letter for quantity in lesson.letters()]
    assert set(listed) == in_formulas() == set(PLACES) and len(listed) == len(set(listed))
    meanings = [quantity.meaning for quantity in lesson.letters()]
    assert len(meanings) == len(set(meanings))
    written = [quantity.latex for quantity in lesson.letters()]
    assert len(written) == len(set(written))  # nor do two letters look the same
    assert len({entry.word for entry in lesson.entries()}) == len(listed)


def test_every_letter_has_its_own_legible_drawing():
    drawn = {}
    for quantity in lesson.letters():
        sheet = lesson.place(quantity)
        for theme in THEMES:
            legible(sheet, theme, number=False)
        items = [item for item in sheet.items if getattr(item, "accent", False)]
        assert "".join(item.text for item in items if isinstance(item, Label)) == base.plain(quantity.latex)
        assert any(not isinstance(item, Label) for item in items), f"{quantity.letter} is written on its drawing, but nothing shows where it is"
        drawn[quantity.letter] = svg(sheet)
    assert len(set(drawn.values())) == len(drawn)


def test_the_guard_sees_a_new_letter():
    with pytest.raises(KeyError):
        lesson.letter_sheet("new_letter", "Z", "something new")


def test_lengths_on_the_face_are_to_one_scale():
    """W, s, X and the angle of the base drawing agree with one another: tan(theta) = (W - s) / X."""
    assert sympy.atan(sympy.Rational(22 - 7, 28)).evalf() * 180 / sympy.pi.evalf() == pytest.approx(180 - 152, abs=0.3)


def test_search():
    finder = lesson.table()
    assert len(finder.found) == len(lesson.letters())
    for sought, first in (("theta_q", "θq"), ("sanding allowance", "es"), ("vertex-projection", "xv"), ("kerf", "k")):
        finder.search.value = sought
        assert first in [entry.word for entry in finder.found] and len(finder.found) < 30, sought
    finder.search.value = "<b>"
    assert finder.found == () and "&lt;b&gt;" in finder.status.value


def test_page():
    page = Page.of(lesson)
    assert "approves nothing" in page.prose
    saved = next(cell.outputs[0]["data"] for cell in page.cells if cell.source == "lesson.table()")
    finder = lesson.table()
    assert saved["text/html"] == finder.snapshot and saved["text/plain"] == finder.words
    assert saved["text/html"].count("<img ") == len(lesson.letters())
