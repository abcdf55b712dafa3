"""Lesson 08, without a kernel: every order of the cards, every control, both themes, every answer, every cell's box built.

Outside the lesson: a slip's cost is found by cutting a stick into pieces and adding them up, and what is wrong with an
order by the question's rules, which know nothing of the walk.
"""

import random
from dataclasses import replace
from fractions import Fraction as F
from itertools import permutations

import pytest
from lesson_checks import THEMES, Page, legible, move_all, named, same_in_the_kit, texts

from anglelib.drawing.dressed import WAYS, Dressing, dressed_sheet
from anglelib.drawing.work_cards import Laid, Shown, work_cards_sheet, worst
from anglelib.geometry.order import cards, walk, whole
from anglelib.job import Shop
from anglelib.lessons import order_of_work as lesson
from anglelib.lessons.demo import demo_part
from anglelib.lessons.live import View
from anglelib.part import Cope, Corner
from anglelib.questions import order_of_work as ask
from anglelib.questions.dressing import HINGE

MOST = 8
"""Labels on a projector's picture: one more than elsewhere, each of which the lesson is about."""
PICTURES = {"cut_first": lesson.cut_first, "on_the_stick": lesson.on_the_stick, "harder_end": lesson.harder_end, "dressed": lesson.dressed}
SHOP = Shop()
COPED = replace(ask.BRACKET, id="P7", copes=(Cope("B", 1, "3/4", "1/2", "1/8"), Cope("B", 2, "3/4", "1/2", "1/8")), holes=())
ROUNDED = replace(ask.STRUT, id="P8", corners=(Corner("A", 1, "1/4"), Corner("A", 2, "3/8")), copes=(Cope("B", 1, "3/4", "1/2", "1/8"),))
PARTS = (COPED, ROUNDED, ask.BRACKET, ask.LINK, *(demo_part(id) for id in ("E1", "A1L", "C2R")), *(ask.fresh_work(f"a seed {n}") for n in range(6)))


def orders(part, most):
    found = list(permutations(card.id for card in cards(part, SHOP)))
    return found if len(found) <= most else random.Random(8).sample(found, most)


def cut_first(part):
    """The tempting order."""
    return ask.cut_first(part, SHOP)


# --- the walk -------------------------------------------------------------------------------------------
@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.id)
def test_the_walk_and_the_rules_find_fault_with_the_same_orders(part):
    """Two accounts of the same thing: one looks at the bench card by card, the other compares pairs of ids."""
    question = ask.order(part, SHOP)
    assert list(question.answer) == [card.id for card in cards(part, SHOP)]  # the order of work is the only one in which nothing is wrong
    for order in orders(part, 120):
        wrong = any(step.wrong for step in walk(part, SHOP, F(24), order))
        assert wrong == (question.broken(order) is not None), order
    assert not any(step.wrong for step in walk(part, SHOP, F(24)))
    assert any(step.wrong for step in walk(part, SHOP, F(24), cut_first(part)))


@pytest.mark.slow
@pytest.mark.parametrize("part", PARTS[:7], ids=lambda part: part.id)
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
    late = worst(walk(part, SHOP, F(24), cut_first(part)), part)
    assert late.metal == sum([*good, *good]) - sum(good) == whole(part, SHOP)
    assert late.again > hard.again and late.metal > hard.metal


def test_the_longer_the_part_the_more_the_order_saves():
    for length in (F(5), F(11), F(22)):
        part = replace(ask.BRACKET, length=length, holes=())
        on, off = (worst(walk(part, SHOP, F(48), order), part) for order in ((), cut_first(part)))
        assert on.metal == F(71, 32) and off.metal == length + F(1, 8)


def test_what_is_in_the_hand():
    steps = {step.card.id: step for step in walk(ask.BRACKET, SHOP, F(10))}
    assert steps["taper-A-1"].held == 10 and not steps["taper-A-1"].clamped
    assert steps["length"].held == 10 - F(39, 8) and steps["length"].clamped  # 5 1/8 is under 6
    assert steps["square-2"].held == F(19, 4) and steps["square-2"].clamped
    assert [step.work.datum for step in steps.values()] == ["end-1", "end-1", *["witness"] * 5]


def test_the_part_is_that_of_the_demo_kit():
    same_in_the_kit(ask.BRACKET)


# --- the pictures -----------------------------------------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
def test_every_kind_of_order_is_legible(theme):
    for part in (ask.BRACKET, ask.LINK):
        for n, order in enumerate(orders(part, 30)):
            for stick in (lesson.STICKS[0 if n % 2 else -1],):
                legible(work_cards_sheet(Laid(part, order, stick), Shown(few=theme == "projector")), theme, most=MOST)
    for part in PARTS:
        if theme == "screen" or len(cards(part, SHOP)) <= 7:
            legible(work_cards_sheet(Laid(part), Shown(few=theme == "projector")), theme, most=MOST)


@pytest.mark.parametrize("theme", THEMES)
def test_any_prediction_is_drawn(theme):
    for order in ((), cut_first(ask.BRACKET)):
        for guess in (F(0), F(71, 32), F(39, 8), F(555)):
            legible(work_cards_sheet(Laid(ask.BRACKET, order), Shown(True, guess, theme == "projector")), theme, most=MOST)
            legible(work_cards_sheet(Laid(ask.BRACKET, order), Shown(False, guess, theme == "projector")), theme, most=MOST)


@pytest.mark.parametrize("theme", THEMES)
def test_the_dressed_end(theme):
    for taken in lesson.DRESSINGS:
        for way in WAYS:
            legible(dressed_sheet(Dressing(HINGE.at, taken, way), few=theme == "projector"), theme, most=MOST)
    legible(dressed_sheet(Dressing(HINGE.at, F(1, 16)), False, F(40), theme == "projector"), theme, most=MOST)


@pytest.mark.parametrize("name", PICTURES)
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name):
    live = PICTURES[name]()
    words = [*texts(live.sheet), live.sheet.sentence]
    assert not any(hint in text for text in words for hint in ("2 7/32", "4 7/8", "4 3/16", "again", "CLAMP", "held", "lies wrong"))


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
    move_all(card)
    for name, value in {"X": F(17, 8), "L": F(19, 4), "e_s": F(1, 32), "k": F(1, 16)}.items():
        card.controls[name].value = value
    assert "costs 4 7/8 (4.875) off the stick, 2 7/32 (2.219) on it" in card.write(card.values)[1]


# --- the questions ------------------------------------------------------------------------------------------
def test_mistakes_by_their_names():
    assert {"M16", "M10", "M26", "M24", ask.LENGTH_FIRST} <= named(ask)


def test_operations_done_again_are_counted_on_the_cards():
    """Counted by hand on the bracket's cards: three cards of one, the witness line, the hole, then mark, saw, sand, blunt."""
    assert ask.done_again(ask.BRACKET, SHOP).answer == 5 + 4


# --- the notebook -------------------------------------------------------------------------------------------
def test_numbers_of_the_prose():
    text = Page.of(lesson).prose
    steps = walk(ask.BRACKET, SHOP, F(24), cut_first(ask.BRACKET))
    assert len(steps) == 7 and "Seven cards" in text
    assert next(i for i, step in enumerate(steps, 1) if step.card.line) == 6 and "At the sixth card" in text
    assert walk(ask.BRACKET, SHOP, F(10))[3].held < SHOP.hand_minimum == 6 and "Set the stick to 10 in." in text and "under 6 in. is clamped" in text
    assert demo_part("C2R").length > 22 and "a part of 22 in." in text
    assert exact_allowance() in text


def exact_allowance():
    assert SHOP.allowance == F(1, 32)
    return "by the allowance, 1/32 here"


def test_the_view_that_a_projector_gets():
    for make in (lesson.cut_first, lesson.on_the_stick, lesson.harder_end):
        live = make()
        legible(live.draw(live.start, View("projector")), "projector", most=MOST)


def test_the_hinge_bracket_of_the_dressed_end_is_the_same_bracket():
    assert (HINGE.long, HINGE.at) == (ask.BRACKET.length, ask.BRACKET.holes[1].x)
