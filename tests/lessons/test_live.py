"""The live picture: drawn in place, gated by a prediction, and an ordinary image where nothing runs."""

import base64
import re
import threading
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from lesson_checks import commit, predict

from anglelib.drawing.sheet import Label, Sheet
from anglelib.lessons.ask import Predict
from anglelib.lessons.controls import FractionControl, NumberControl, fractions, leaves
from anglelib.lessons.live import LivePicture, Preset, Still
from anglelib.lessons.look import page_style
from anglelib.lessons.look_style import shown_by
from anglelib.lessons.room import ROOM
from anglelib.questions.answers import AnswerBook
from anglelib.questions.question import LengthQuestion

SECRET = "seven turns"


def draw(values, view):
    text = f"{values['turns']} turns of {values['of']}" if view.revealed else "how many?"
    if view.prediction is not None:
        text += f", you said {view.prediction}"
    items = (Label(5, 5, f"{text} {view.theme}", anchor="start"),)
    return Sheet(80, 20, items, "Turns", f"{text}." if view.revealed else "A question.")


def picture(tmp_path=None, **how) -> LivePicture:
    ask = None
    if tmp_path is not None:
        ask = Predict(lambda n: LengthQuestion("turns", "How many?", Fraction(7)), AnswerBook("07_taper_inside", tmp_path))
    return LivePicture(draw, {"turns": NumberControl("Turns", 0, 9, 7)}, fixed={"of": "wire"}, ask=ask, **how)


@pytest.fixture(autouse=True)
def _screen():
    yield
    ROOM.unobserve_all()  # pictures of other tests live on: widgets are never forgotten
    ROOM.theme = "screen"


def test_a_control_changes_the_picture_and_its_sentence_in_place():
    live = picture()
    for turns in range(10):
        live.controls["turns"].slider.value = turns
        assert f">{turns} turns of wire screen</text>" in live.picture.value
        assert f"{turns} turns of wire." in live.caption.value
        assert f'aria-label="{turns} turns of wire."' in live.picture.value
    assert 'role="status" aria-live="polite"' in live.caption.value


def test_one_move_draws_once(monkeypatch):
    live, drawn = picture(), []
    monkeypatch.setattr(live, "draw", lambda values, view: drawn.append(values["turns"]) or draw(values, view))
    live.controls["turns"].slider.value = 3
    live.controls["turns"].entry.value = 4
    assert drawn == [3, 4]


def test_an_error_in_the_drawing_is_not_swallowed():
    def broken(values, view):
        if values["turns"] == 3:
            raise ZeroDivisionError
        return draw({**values, "of": "wire"}, view)

    live = LivePicture(broken, {"turns": NumberControl("Turns", 0, 9, 2)})
    with pytest.raises(ZeroDivisionError):
        live.controls["turns"].slider.value = 3


def test_two_controls_at_once_leave_the_last_picture():
    """The first drawing takes long; the second control moves while it is at it."""
    drawing, moved = threading.Event(), threading.Event()

    def slow(values, view):
        if (values["turns"], values["more"]) == (3, 0):
            drawing.set()
            moved.wait(0.5)
        return draw({"turns": values["turns"] * 10 + values["more"], "of": "wire"}, view)

    live = LivePicture(slow, {"turns": NumberControl("Turns", 0, 9, 2), "more": NumberControl("More", 0, 9, 0)})
    first = threading.Thread(target=lambda: setattr(live.controls["turns"].slider, "value", 3))
    first.start()
    drawing.wait(5)
    live.controls["more"].slider.value = 8
    moved.set()
    first.join()
    assert ">38 turns of wire" in live.picture.value and "38 turns of wire." in live.caption.value


def test_nothing_shows_and_nothing_moves_before_the_prediction(tmp_path):
    live = picture(tmp_path)
    assert "how many?" in live.picture.value and "7" not in live.caption.value
    locked = set(leaves(live.panel)) - {live.projector}
    assert locked and all(part.disabled for part in locked)
    live.ask.entry.value = "6"
    assert "how many?" in live.picture.value
    commit(live.ask)
    assert "7 turns of wire, you said 6" in live.picture.value
    assert not any(part.disabled for part in locked)


def test_what_the_page_says_before_the_prediction_holds_no_answer(tmp_path):
    bundle = picture(tmp_path)._repr_mimebundle_()
    shown, _, _ = bundle["text/html"].partition("<details>")
    assert "7" not in re.sub(r'src="[^"]*"', "", shown) and "7" not in bundle["text/plain"]


def test_presets_set_everything_and_draw_once(monkeypatch):
    live = picture(presets={"rope": Preset("nine of rope", {"turns": 9, "of": "rope"}), "string": Preset("two of string", {"turns": 2, "of": "string"})})
    assert live.sheet.sentence == "9 turns of rope."  # the first is shown first
    drawn = []
    monkeypatch.setattr(live, "draw", lambda values, view: drawn.append(values) or draw(values, view))
    live.job.value = "string"
    assert drawn == [{"of": "string", "turns": 2}]
    live.controls["turns"].slider.value = 5
    live.reset.click()
    assert live.sheet.sentence == "2 turns of string." and live.job.value == "string"


def test_reset_keeps_a_committed_prediction(tmp_path):
    live = picture(tmp_path)
    live.ask.entry.value = "6"
    commit(live.ask)
    live.controls["turns"].slider.value = 1
    live.reset.click()
    assert live.sheet.sentence == "7 turns of wire, you said 6."


def test_a_refused_entry_is_said_under_the_picture():
    live = LivePicture(
        lambda values, view: draw({"turns": values["run"], "of": "wire"}, view),
        {"run": FractionControl("Run (in.)", fractions("1", "2", "1/4"), Fraction(1))},
    )
    before = live.picture.value
    live.controls["run"].entry.value = "nine"
    assert "is not a length" in live.caption.value and live.picture.value == before
    live.controls["run"].entry.value = "1 1/2"
    assert "3/2 turns" in live.caption.value


def test_the_room_s_theme_is_one_for_all_pictures():
    one, two = picture(), picture()
    one.projector.value = True
    assert two.projector.value and "projector</text>" in two.picture.value
    assert page_style().value == shown_by("projector") != shown_by("screen")
    two.projector.value = False
    assert "screen</text>" in one.picture.value and page_style().value == shown_by("screen")


def images(html: str) -> list[tuple[str, str]]:
    return [
        (re.search(r'alt="([^"]*)"', tag)[1], base64.b64decode(re.search(r"base64,([^\"]*)", tag)[1]).decode())
        for tag in re.findall(r"<img [^>]*>", html)
    ]


def test_the_saved_page_has_images_with_their_sentences(tmp_path):
    ((alt, svg),) = images(picture()._repr_mimebundle_()["text/html"])
    assert alt == "7 turns of wire." and "7 turns of wire screen" in svg
    ElementTree.fromstring(svg)
    (before, _), (after, _) = images(picture(tmp_path)._repr_mimebundle_()["text/html"])
    assert (before, after) == ("A question.", "7 turns of wire.")
    assert picture()._repr_mimebundle_()["text/plain"] == "7 turns of wire."
    assert "application/vnd.jupyter.widget-view+json" in picture()._repr_mimebundle_()


def test_the_saved_page_does_not_depend_on_who_answered_what(tmp_path):
    live = picture(tmp_path)
    before = live._repr_mimebundle_()["text/html"]
    live.ask.entry.value = "6"
    commit(live.ask)
    live.controls["turns"].slider.value = 1
    assert live._repr_mimebundle_()["text/html"] == before == picture(tmp_path)._repr_mimebundle_()["text/html"]


def test_a_still_is_an_image_with_its_sentence():
    still = Still(Sheet(20, 10, (), "Nothing", "A blank sheet."))
    assert images(still._repr_html_())[0][0] == "A blank sheet." == repr(still)


def test_a_prediction_that_is_put_back_hides_the_answer_and_what_was_made_of_it(tmp_path):
    live = picture(tmp_path)
    before = live.picture.value
    live.ask.entry.value = "7"
    commit(live.ask)
    live.controls["turns"].slider.value = 2
    live.ask.again.click()
    assert live.picture.value == before and live.locked and live.controls["turns"].value == 7
    live.ask.entry.value = "7"
    commit(live.ask)
    assert ">7 turns of wire, you said 7" in live.picture.value and not live.locked


def test_a_control_that_does_nothing_says_why_once_the_prediction_is_made(tmp_path):
    live = picture(tmp_path, idle=lambda values: {"turns": "it is wound"} if values["turns"] > 8 else {})
    turns = live.controls["turns"]
    live.take({"turns": 9})
    assert turns.reason == "" and turns.slider.disabled  # before the prediction everything is out of reach, and needs no reason
    live.take({"turns": 7})
    predict(live, "7")
    assert turns.reason == "" and not turns.slider.disabled
    live.take({"turns": 9})
    assert turns.reason == "it is wound" and turns.slider.disabled and turns.entry.disabled
    live.ask.put_back()
    assert turns.reason == "" and turns.slider.disabled
    predict(live, "7")
    assert turns.reason == "" and not turns.slider.disabled and turns.value == 7
