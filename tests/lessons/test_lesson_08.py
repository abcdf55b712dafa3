"""Lesson 08, without a kernel: every order of the cards, every control, both themes, every answer, every cell's box built.

Outside the lesson: a slip's cost is found by cutting a stick into pieces and adding them up, and what is wrong with an
order by the question's rules, which know nothing of the walk.
"""

import random
import re
from dataclasses import replace
from fractions import Fraction as F
from itertools import permutations
from pathlib import Path

import nbformat
import pytest
from lesson_figures import check_figures

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.dressed import WAYS, Dressing, dressed_sheet
from anglelib.drawing.sheet import Label
from anglelib.drawing.svg import svg
from anglelib.drawing.work_cards import Laid, Shown, work_cards_sheet, worst
from anglelib.geometry.order import cards, walk, whole
from anglelib.job import Shop
from anglelib.lessons import order_of_work as lesson
from anglelib.lessons.ask import Ask
from anglelib.lessons.controls import FractionControl, NumberControl
from anglelib.lessons.demo import demo_part
from anglelib.lessons.live import LivePicture, View
from anglelib.questions import order_of_work as ask
from anglelib.questions.dressing import HINGE
from anglelib.questions.grading import grade
from anglelib.questions.question import SEPARATOR, ChoiceQuestion, LengthQuestion, OrderQuestion

NOTEBOOK = Path(__file__).resolve().parents[2] / "notebooks" / f"{lesson.LESSON}.ipynb"
THEMES = ("screen", "projector")
PICTURES = {"cut_first": lesson.cut_first, "on_the_stick": lesson.on_the_stick, "harder_end": lesson.harder_end, "dressed": lesson.dressed}
SHOP = Shop()
PARTS = (ask.BRACKET, ask.LINK, *(demo_part(id) for id in ("E1", "A1L", "C2R")), *(ask.fresh_work(f"a seed {n}") for n in range(6)))


@pytest.fixture(autouse=True)
def own_folder(monkeypatch, tmp_path):
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path))


def legible(sheet, theme):
    assert overlaps(sheet, theme) == [] and clipped(sheet, theme) == [] and struck(sheet, theme) == [], sheet.sentence
    svg(sheet, theme)
    assert re.search(r"\d", sheet.sentence) and len(sheet.sentence) < 600
    if theme == "projector":
        assert sum(isinstance(item, Label) and bool(item.text) for item in sheet.items) <= 7


def orders(part, most):
    found = list(permutations(card.title for card in cards(part, SHOP)))
    return found if len(found) <= most else random.Random(8).sample(found, most)


# --- the walk -------------------------------------------------------------------------------------------
@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.id)
def test_the_walk_and_the_rules_find_fault_with_the_same_orders(part):
    """Two accounts of the same thing: one looks at the bench card by card, the other compares pairs of titles."""
    question = ask.order(part, SHOP)
    assert list(question.answer) == [card.title for card in cards(part, SHOP)]  # the order of work is the only one in which nothing is wrong
    for order in orders(part, 120):
        wrong = any(step.wrong for step in walk(part, SHOP, F(24), order))
        assert wrong == (question.broken(order) is not None), order
    assert not any(step.wrong for step in walk(part, SHOP, F(24)))
    assert any(step.wrong for step in walk(part, SHOP, F(24), ask.cut_first(part, SHOP)))


@pytest.mark.slow
@pytest.mark.parametrize("part", PARTS[:5], ids=lambda part: part.id)
def test_the_walk_and_the_rules_agree_on_thousands_of_orders(part):
    question = ask.order(part, SHOP)
    for order in orders(part, 6_000):
        assert any(step.wrong for step in walk(part, SHOP, F(24), order)) == (question.broken(order) is not None), order


@pytest.mark.parametrize("part", [ask.BRACKET, ask.LINK, demo_part("C1L")], ids=lambda part: part.id)
def test_a_slip_costs_what_is_missing_from_the_stick(part):
    """Pieces laid end to end: what the stick has lost when the same good part comes off it after a slip, less what it loses without one."""
    e, k = SHOP.allowance, SHOP.kerf
    run = max((taper.run for taper in part.tapers if taper.width_left == 0), default=part.tapers[0].run)
    good = [e, part.length, e, k]  # squared, the part, its other end squared, the saw
    hard = worst(walk(part, SHOP, F(24)), part)
    spoiled_on_stick = [e, run, k, *good]  # the first squaring stays lost with the run
    assert hard.metal == sum(spoiled_on_stick) - sum(good)
    late = worst(walk(part, SHOP, F(24), ask.cut_first(part, SHOP)), part)
    assert late.metal == sum([*good, *good]) - sum(good) == whole(part, SHOP)
    assert late.again > hard.again and late.metal > hard.metal


def test_the_longer_the_part_the_more_the_order_saves():
    for length in (F(5), F(11), F(22)):
        part = replace(ask.BRACKET, length=length, holes=())
        on, off = (worst(walk(part, SHOP, F(48), order), part) for order in ((), ask.cut_first(part, SHOP)))
        assert on.metal == F(71, 32) and off.metal == length + F(1, 8)


def test_what_is_in_the_hand():
    steps = {step.card.short: step for step in walk(ask.BRACKET, SHOP, F(10))}
    assert steps["taper end 1"].held == 10 and not steps["taper end 1"].clamped
    assert steps["cut to length"].held == 10 - F(39, 8) and steps["cut to length"].clamped  # 5 1/8 is under 6
    assert steps["square end 2"].held == F(19, 4) and steps["square end 2"].clamped
    assert [step.work.datum for step in steps.values()] == ["end 1", "end 1", *["witness line"] * 5]


def test_the_part_is_that_of_the_demo_kit():
    kept = demo_part("C1L")
    assert (kept.section, kept.length, kept.tapers, kept.holes, kept.name) == (
        ask.BRACKET.section, ask.BRACKET.length, ask.BRACKET.tapers, ask.BRACKET.holes, ask.BRACKET.name
    )  # fmt: skip


# --- the pictures -----------------------------------------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
def test_every_kind_of_order_is_legible(theme):
    for part in (ask.BRACKET, ask.LINK):
        for n, order in enumerate(orders(part, 30)):
            for stick in (lesson.STICKS[0 if n % 2 else -1],):
                legible(work_cards_sheet(Laid(part, order, stick), Shown(few=theme == "projector")), theme)
    for part in PARTS:
        if theme == "screen" or len(cards(part, SHOP)) <= 7:
            legible(work_cards_sheet(Laid(part), Shown(few=theme == "projector")), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_any_prediction_is_drawn(theme):
    for order in ((), ask.cut_first(ask.BRACKET, SHOP)):
        for guess in (F(0), F(71, 32), F(39, 8), F(555)):
            legible(work_cards_sheet(Laid(ask.BRACKET, order), Shown(True, guess, theme == "projector")), theme)
            legible(work_cards_sheet(Laid(ask.BRACKET, order), Shown(False, guess, theme == "projector")), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_the_dressed_end(theme):
    for taken in lesson.DRESSINGS:
        for way in WAYS:
            legible(dressed_sheet(Dressing(HINGE.at, taken, way), few=theme == "projector"), theme)
    legible(dressed_sheet(Dressing(HINGE.at, F(1, 16)), False, F(40), theme == "projector"), theme)


@pytest.mark.parametrize("name", PICTURES)
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name):
    live = PICTURES[name]()
    words = [item.text for item in live.sheet.items if isinstance(item, Label)] + [live.sheet.sentence]
    assert not any(hint in text for text in words for hint in ("2 7/32", "4 7/8", "4 3/16", "again", "CLAMP", "held", "lies wrong"))


@pytest.mark.parametrize("name", PICTURES)
def test_every_control_of_the_live_pictures(name):
    live = PICTURES[name]()
    choice = getattr(live.ask.question, "choices", None)
    live.ask.entry.value = choice[0] if choice else "2"
    live.ask.check.click()
    assert live.view.revealed
    for key, control in live.controls.items():
        if key == "order":
            control.listed.index = len(control.items) - 1
            for _ in control.items:
                control.earlier.click()
            for _ in control.items:
                control.later.click()
        elif isinstance(control, (FractionControl, NumberControl)):
            for place in range(control.slider.min, control.slider.max + 1, 4):
                control.slider.value = place
            control.slider.value = control.slider.max
        else:
            for value in control.buttons.options:
                control.buttons.value = value
        legible(live.sheet, "screen")
    live.reset.click()
    assert isinstance(live, LivePicture) and live.values == live.start and len(live.picture.value) < 30_000


def test_cards_are_moved_by_buttons_and_the_picture_follows():
    live = lesson.cut_first()
    live.ask.entry.value = "4 7/8"
    live.ask.check.click()
    before = live.picture.value
    entry = live.controls["order"]
    entry.listed.index = 5  # the taper
    for _ in range(4):
        entry.earlier.click()
    assert live.picture.value != before and "2 7/32 (2.219)" in live.sheet.sentence


def test_formulas_with_any_numbers():
    card = lesson.formula()
    for control in card.controls.values():
        for place in range(control.slider.min, control.slider.max + 1, 3):
            control.slider.value = place
    for name, value in {"X": F(17, 8), "L": F(19, 4), "e_s": F(1, 32), "k": F(1, 16)}.items():
        card.controls[name].value = value
    assert "costs 4 7/8 (4.875) off the stick, 2 7/32 (2.219) on it" in card.write(card.values)[1]


# --- the questions ------------------------------------------------------------------------------------------
def answers(question):
    if isinstance(question, OrderQuestion):
        return SEPARATOR.join(question.answer)
    return question.answer if isinstance(question, ChoiceQuestion) else str(question.answer)


EVERY = {**ask.QUESTIONS, **{f"exercise {name} {n}": (lambda s=series, n=n: s[n]) for name, series in ask.EXERCISES.items() for n in range(4)}}


@pytest.mark.parametrize("name", EVERY)
def test_right_is_right_and_every_wrong_answer_is_named(name):
    question = EVERY[name]()
    assert grade(question, answers(question)).right
    assert question.wrong
    for wrong in question.wrong:
        given = str(wrong.answer) if isinstance(wrong.answer, F) else wrong.answer
        found = grade(question, str(given))
        assert not found.right and found.mistake, (wrong, found)
    if isinstance(question, LengthQuestion):
        assert {grade(question, str(w.answer)).mistake for w in question.wrong} <= {w.mistake for w in question.wrong}


def test_mistakes_by_their_names():
    named = {wrong.mistake for make in ask.QUESTIONS.values() for wrong in make().wrong}
    assert {"datum lost", "taper at the other end", "pair made both of one hand", "wrong alloy", ask.LENGTH_FIRST} <= named


def test_operations_done_again_are_counted_on_the_cards():
    """Counted by hand on the bracket's cards: three cards of one, the witness line, the hole, then mark, saw, sand, blunt."""
    assert ask.done_again(ask.BRACKET, SHOP).answer == 5 + 4


# --- the notebook -------------------------------------------------------------------------------------------
def notebook():
    return nbformat.read(NOTEBOOK, as_version=4)


def page():
    return " ".join(cell.source for cell in notebook().cells if cell.cell_type == "markdown")


def test_every_cell_calls_a_function_that_is_there_and_builds():
    cells = [cell.source for cell in notebook().cells if cell.cell_type == "code"]
    assert cells[0] == "from anglelib.lessons import order_of_work as lesson"
    called = []
    for source in cells[1:]:
        name, given = re.fullmatch(r"lesson\.(\w+)\((\d?)\)", source).groups()
        called.append(name)
        box = getattr(lesson, name)(*([int(given)] if given else []))
        assert box._repr_mimebundle_() if hasattr(box, "_repr_mimebundle_") else box._repr_html_()
        if isinstance(box, Ask):
            box.check.click()
    assert set(PICTURES) <= set(called)


def test_the_page_is_as_long_as_a_lesson():
    assert 600 <= len(re.sub(r"!\[[^]]*\]\([^)]*\)|<[^>]*>|[|#*-]", " ", page()).split()) <= 1800


def test_numbers_of_the_prose():
    text = page()
    steps = walk(ask.BRACKET, SHOP, F(24), ask.cut_first(ask.BRACKET, SHOP))
    assert len(steps) == 7 and "Seven cards" in text
    assert next(i for i, step in enumerate(steps, 1) if step.card.line) == 6 and "At the sixth card" in text
    assert walk(ask.BRACKET, SHOP, F(10))[3].held < SHOP.hand_minimum == 6 and "Set the stick to 10 in." in text and "under 6 in. is clamped" in text
    assert demo_part("C2R").length > 22 and "a part of 22 in." in text
    assert exact_allowance() in text


def exact_allowance():
    assert SHOP.allowance == F(1, 32)
    return "by the allowance, 1/32 here"


def test_figures_are_current_and_the_page_has_their_sentences():
    check_figures(lesson, page())


def test_the_view_that_a_projector_gets():
    for make in (lesson.cut_first, lesson.on_the_stick, lesson.harder_end):
        live = make()
        legible(live.draw(live.start, View("projector")), "projector")


def test_the_hinge_bracket_of_the_dressed_end_is_the_same_bracket():
    assert (HINGE.long, HINGE.at) == (ask.BRACKET.length, ask.BRACKET.holes[1].x)
