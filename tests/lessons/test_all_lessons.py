"""What holds for every page: each cell's box is built without a kernel, and nothing tells the answer before it is predicted."""

import importlib
import re
from fractions import Fraction

import pytest
from lesson_checks import PAGES, commit

from anglelib.lengths import both, exact
from anglelib.lessons.controls import FractionControl, NumberControl
from anglelib.lessons.live import LivePicture, View
from anglelib.questions.question import LengthQuestion


def told(picture: LivePicture) -> list[str]:
    """Where a picture tells its answer before it is predicted."""
    question = picture.ask.question
    if not isinstance(question, LengthQuestion):
        return []
    found = []
    for name, control in picture.controls.items():
        if name in picture.waits:
            continue
        if isinstance(control, NumberControl) and "64ths" in control.label:
            given = Fraction(abs(control.value), 64)
            if abs(float(given) - float(question.answer)) < float(question.tolerance) and exact(given) not in question.prompt:
                found.append(f"the control {name} stands at the answer")
            continue
        asked = re.search(rf"(?<![\d/ ]){re.escape(exact(control.value))}(?![\d/])", question.prompt) if isinstance(control, FractionControl) else True
        if not asked and abs(float(control.value) - float(question.answer)) < float(question.tolerance):
            found.append(f"the control {name} stands at the answer")
    sentence = picture.draw(picture.start, View(revealed=False)).sentence
    if any(text in sentence and text not in question.prompt for text in (question.answer_text, both(question.answer))):
        found.append("its sentence has the answer")
    return found


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.path.stem)
def test_nothing_tells_the_answer_before_it_is_predicted(page):
    for call, box in page.boxes():
        if isinstance(box, LivePicture) and box.ask is not None:
            assert told(box) == [], call


def test_the_guard_sees_a_control_that_tells():
    from anglelib.drawing.sheet import Label, Sheet
    from anglelib.lessons.ask import Predict
    from anglelib.lessons.controls import fractions
    from anglelib.questions.answers import AnswerBook

    ask = LengthQuestion("mark", "The rule shows 3 3/8 from its 1-inch mark on. How far is it?", Fraction(19, 8))

    def draw(values, view):
        return Sheet(60, 20, (Label(5, 5, "x"),), "A rule", "The mark is at 2 3/8 (2.375).")

    picture = LivePicture(
        draw, {"x": FractionControl("Mark (in.)", fractions("0", "4", "1/8"), Fraction(19, 8))}, ask=Predict(lambda n: ask, AnswerBook("trial"))
    )
    assert told(picture) == ["the control x stands at the answer", "its sentence has the answer"]

    counted = NumberControl("Mark (64ths)", 0, 200, 152)
    picture = LivePicture(draw, {"x": counted}, ask=Predict(lambda n: ask, AnswerBook("trial")))
    assert told(picture)[0] == "the control x stands at the answer"


WAITING = {
    "check_and_diagnose": {"short": {"slip"}, "to_the_vertex": {"slip"}, "at_a_glance": {"slip"}},
    "identify_stock": {"caliper": {"off"}, "gauge": {"fillet"}},
    "mark_along_heel": {"ink": {"side"}},
    "read_part": {"pair": {"made"}},
    "start_here": {"corner": {"place"}},
    "square_end": {"light": {"leg", "toe_a", "toe_b"}, "turned": {"toe_a", "lean"}},
}
"""Controls whose place would tell a choice, or one sum short of the answer."""


@pytest.mark.parametrize(("stem", "call"), [(stem, call) for stem, calls in WAITING.items() for call in calls])
def test_a_control_that_would_tell_is_out_of_sight_until_the_prediction(stem, call):
    picture = getattr(importlib.import_module(f"anglelib.lessons.{stem}"), call)()
    names = WAITING[stem][call]

    def seen():
        return {name: control.layout.display for name, control in picture.controls.items() if name in names}

    assert set(picture.waits) == names and set(seen().values()) == {"none"}
    assert all(control.layout.display is None for name, control in picture.controls.items() if name not in names)
    picture.ask.entry.value = picture.ask.question.choices[0].id if hasattr(picture.ask.question, "choices") else "1/64"
    commit(picture.ask)
    assert picture.view.revealed and set(seen().values()) == {""}


def test_nothing_under_the_caliper_reads_it_out_before_the_prediction():
    picture = importlib.import_module("anglelib.lessons.identify_stock").caliper()
    assert "3/4" not in picture.caption.value and "line 1" not in picture.caption.value and "line 1" in picture.picture.value
    picture.ask.entry.value = "97/128"
    picture.ask.check.click()
    assert "97/128" in picture.caption.value


def test_the_cards_of_two_tapered_ends_do_not_lie_in_the_answers_order():
    lesson = importlib.import_module("anglelib.lessons.order_of_work")
    picture = lesson.harder_end()
    assert picture.ask.question.answer == "end-2" and picture.values["order"][0] == "square-1"
