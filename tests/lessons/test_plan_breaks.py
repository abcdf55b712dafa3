"""Lesson 11, when the plan breaks: every control moved, and what is said held against plans made anew."""

from dataclasses import replace
from fractions import Fraction as F
from itertools import product

import pytest
from lesson_checks import THEMES, texts
from test_plan_stock import legible

from anglelib.lessons import plan_breaks as lesson
from anglelib.lessons.kit_plan import listed, whole_plan
from anglelib.lessons.live import View
from anglelib.questions import plan_breaks as questions
from anglelib.questions.grading import grade
from anglelib.stock.checker import check
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick

RACK = lesson.demo_rack()


@pytest.mark.parametrize("theme", THEMES)
def test_every_picture_over_its_controls(theme):
    shown = [(lesson.draw_bears, {"part_id": part_id}) for part_id in lesson.SPOILED]
    shown += [(lesson.draw_broken, {"happened": happened}) for happened in lesson.HAPPENED]
    shown += [(lesson.draw_possible, {"length": length}) for length in lesson.BESIDES[::9]]
    wants = product(lesson.ALSO, (1, 4), lesson.SOLD)
    shown += [(lesson.draw_buy, {"also": part_id, "number": number, "sold": sold}) for part_id, number, sold in wants]
    for draw, values in shown:
        legible(draw(values, View(theme)), theme)
    for draw, values in {draw: values for draw, values in shown}.items():
        legible(draw(values, View(theme, revealed=False)), theme)


@pytest.mark.parametrize(
    ("make", "secrets"),
    [(lesson.bears, ("1/8 shorter", "SPOILED", "may be 1/8")), (lesson.broken, ("NOT MADE: ", "S-04 is")), (lesson.possible, ("yes", "proven")), (lesson.buy, ("BUY", "buy 1", "96;"))],
)  # fmt: skip
def test_the_answer_is_in_no_word_before_the_prediction(make, secrets):
    live = make()
    assert live.ask is not None and not live.view.revealed
    words = [*texts(live.sheet), live.sheet.sentence]
    assert not [text for text in words for secret in secrets if secret in text]


def walked(planned, shop) -> F:
    """What a stick without a dent needs, from the near trim to the far one, blank by blank; the last cut runs into the far trim."""
    return sum((placed.end - placed.start + shop.kerf for placed in planned.placed), planned.stick.trim_1 + planned.stick.trim_2) - shop.kerf


def test_each_stick_bears_what_is_written_beside_it():
    sheet = lesson.draw_bears({"part_id": "A5L"}, View())
    notes = [text for text in texts(sheet) if "shorter" in text and "may be" in text]
    sticks = sorted(whole_plan().sticks, key=lambda s: s.stick.id)
    assert [note.split()[2:-1] for note in notes] == [str(lesson.exact(s.stick.length - walked(s, listed().shop))).split() for s in sticks]


def test_a_part_that_may_not_be_spoiled_cannot_be_made_once_more():
    """Planned with one more of it, the list is short; of a part that may be spoiled there is one more."""
    for part_id in lesson.SPOILED:
        more = [replace(part, quantity=part.quantity + (part.id == part_id)) for part in listed().parts]
        short = plan(replace(listed(), parts=tuple(more)), RACK).shortages
        assert bool(short) is (f"{part_id} MAY NOT BE SPOILED" in texts(lesson.draw_bears({"part_id": part_id}, View())))


@pytest.mark.parametrize("happened", [name for name, what in lesson.HAPPENED.items() if what])
def test_what_happens_is_planned_soundly_and_as_well_as_from_the_start(happened):
    then, what = lesson.again(happened), lesson.HAPPENED[happened]
    check(then.plan, then.job, then.rack)
    if what[0] == "stick":
        rack = Rack([replace(s, length=then.rack.stick(s.id).length) if s.id == what[1] else s for s in RACK.sticks])
        fresh = plan(listed(), rack)
    elif what[0] == "kerf":
        fresh = plan(replace(listed(), shop=replace(listed().shop, kerf=F(what[1]))), RACK)
    else:
        fresh = plan(then.job, then.rack)
    assert [(s.part_id, s.missing) for s in fresh.shortages] == [(s.part_id, s.missing) for s in then.plan.shortages]
    assert fresh.groups[0].left == then.plan.groups[0].left
    sheet = lesson.draw_broken({"happened": happened}, View())
    assert bool(fresh.shortages) is any("NOT MADE" in text for text in texts(sheet))


def test_one_more_part_up_to_what_is_left_and_no_longer():
    """13 3/4 is left beside the trim: less two allowances of 1/32, 13 11/16."""
    assert "yes, from what is left" in lesson.draw_possible({"length": F(219, 16)}, View()).sentence.lower()
    assert "NO, no plan makes it" in lesson.draw_possible({"length": F(219, 16) + F(1, 64)}, View()).sentence
    more = replace(lesson.demo_part("A3"), id="more", length=F(219, 16) + F(1, 64), holes=(), quantity=1)
    assert [s.part_id for s in plan(replace(listed(), parts=(*listed().parts, more)), RACK).shortages]
    assert grade(lesson.possible().ask.question, "13 11/16").right


@pytest.mark.parametrize(("part_id", "number", "sold"), [("A5L", 1, (72, 96, 144)), ("A4", 4, (72, 96, 144)), ("A3", 4, (48, 72)), ("A1L", 4, (48, 72))])
def test_nothing_smaller_than_what_is_bought_is_enough(part_id, number, sold):
    """Every smaller purchase is planned: something is short each time; with what is bought nothing is."""
    found, job = lesson.bought(part_id, number, sold), listed()
    job = replace(job, parts=(*job.parts, lesson._more(part_id, number)))
    assert not plan(job, found.rack).shortages
    section, alloy = job.parts[0].section, job.parts[0].alloy
    for counts in product(range(4), repeat=len(sold)):
        if sum(n * length for n, length in zip(counts, sold)) < found.inches:
            lengths = [length for n, length in zip(counts, sold) for _ in range(n)]
            new = [Stick(f"B-{k}", section, alloy, length, "1/4", "1/4") for k, length in enumerate(lengths)]
            assert plan(job, Rack([*RACK.sticks, *new])).shortages, counts


def test_the_questions_by_hand():
    """92 1/8 less two trims of 1/16 is 92; less 91 3/4 and two allowances of 1/32: 3/16."""
    assert grade(lesson.bears().ask.question, "3/16").right
    assert lesson.broken().ask.question.answer == "A5" and lesson.buy().ask.question.answer == "96"
    for make in (lesson.broken, lesson.buy):
        question = make().ask.question
        assert {w.answer for w in question.wrong} == set(question.words) - {question.answer}
    assert questions.QUESTIONS["what-to-buy"]().wrong[0].sentence == "Of 72, 71 1/2 can be used, and the blank takes 91 13/16."
