"""Lesson 12, without a kernel: a part of one's own described, predicted, shown, saved and packed; every answer graded, its marks against others."""

import math
import random
from dataclasses import replace
from fractions import Fraction as F

import pytest
from lesson_checks import PROJECT, THEMES, Page, legible, named, typed
from lesson_checks import commit as seal

from anglelib.files import read_job
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lessons import make_part as lesson
from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl
from anglelib.lessons.demo import demo_job, demo_part
from anglelib.part import Taper
from anglelib.questions import make_part as ask
from anglelib.questions.grading import grade

SHOP = Shop()


def commit(work: lesson.Work) -> None:
    work.ready.click()
    for box in work.asked:
        box.entry.value = "1"
        seal(box)


# --- the part that runs through the lesson --------------------------------------------------------------------
def test_nothing_of_the_marks_is_shown_before_they_are_predicted():
    work = lesson.Work()
    assert not work.known and work.table.value == work.shown.value == work.steps.value == ""
    work.preview.value = "fold"
    assert work.paper.value == "" and work.view.buttons.disabled
    # nor in the drawing that describes the part: where the saw line meets the toe, and the mark inside
    sheet = lesson.drawing(work.part)
    assert not any(getattr(item, "kind", "") == "hidden" for item in sheet.items)
    assert any(getattr(item, "kind", "") == "hidden" for item in lesson.drawing(work.part, known=True).items)
    sheet_words = " ".join(item.text for item in sheet.items if hasattr(item, "text"))
    for question in ask.three_marks(work.part, work.shop, "own"):
        assert question.answer_text not in sheet_words
    work.ready.click()
    work.asked[0].entry.value = "5 1/16"
    work.asked[0].check.click()
    assert not work.known and work.table.value == ""


def test_predicted_everything_is_shown_and_asked_anew_for_another_part():
    work = lesson.Work()
    commit(work)
    assert work.known and "0.225" in work.formulas.value and "x_v = c" in work.formulas.value
    assert "vertex-projection mark 7/32" in work.table.value and "Strike the witness line" in work.steps.value
    work.own.controls["run"].value = F(3)
    assert not work.known and work.table.value == ""
    work.own.controls["run"].value = F(9, 4)  # the first part again: what was committed for it stands
    work.ready.click()
    assert work.known and work.table.value


@pytest.mark.parametrize("theme", THEMES)
def test_every_view_and_preview(theme, monkeypatch):
    monkeypatch.setattr(lesson.ROOM, "theme", theme)
    work = lesson.Work()
    commit(work)
    for view in lesson.VIEW_WORDS:
        work.view.value = view
        assert work.shown.value.startswith("<svg") or "<svg" in work.shown.value
    for preview in ("none", *lesson.PREVIEWS):
        work.preview.value = preview
        assert bool(work.paper.value) == (preview != "none")


def test_every_control_to_its_ends_and_random_corners_of_them():
    work, rng = lesson.Work(), random.Random(12)
    controls = [*work.own.controls.values(), work.kerf, work.allowance]
    for turn in range(120):
        control = rng.choice(controls)
        if isinstance(control, FractionControl):
            control.value = rng.choice([control.values[0], control.values[-1], rng.choice(control.values)])
        elif isinstance(control, NumberControl):
            control.value = rng.choice([control.slider.min, control.slider.max])
        elif isinstance(control, ChoiceControl):
            control.value = rng.choice([value for _, value in control.buttons._options_full])
        else:
            control.value = rng.choice(["", "Q7", "x/y"])
        assert "<svg" in work.picture.value
        if turn % 12 == 0:
            commit(work)
            assert work.known and work.table.value, work.words.value
        if work.own.value is None and rng.random() < 0.6:
            work.own.value = lesson.own_first()


@pytest.mark.parametrize("part", demo_job().parts, ids=lambda part: part.id)
def test_every_part_of_the_demo_kit_by_the_whole_chain(part):
    rows = {fact.id: fact.words for fact in lesson.chain(part, SHOP, lesson.demo_rack())}
    assert rows["blank"].startswith(lesson.both(part.length + 2 * SHOP.allowance))
    assert rows["stick"] and len([name for name in rows if name.startswith("read-")]) == 7
    marks = ask.three_marks(part, SHOP, "own")
    assert 1 <= len(marks) <= 3 and len({question.id for question in marks}) == len(marks)
    for question in marks:
        assert grade(question, f"{float(question.answer):.6f}").right
    assert len(lesson.formulas_of(part)) == len(part.tapers)
    assert lesson.order_of_work(part, SHOP)[-1].startswith("Inspect")


def test_a_job_file_and_a_rack_of_ones_own(tmp_path):
    work = lesson.Work()
    commit(work)
    work.file.value = "nowhere.toml"
    work.open.click()
    assert "nowhere.toml" in work.opened.value and work.part.id == "P1" and work.known
    target = tmp_path / "mine.toml"
    target.write_text((PROJECT / "notebooks" / "demo" / "job.toml").read_text(encoding="utf-8"), encoding="utf-8")
    work.file.value = "mine.toml"  # in the learner's own folder
    work.open.click()
    assert "Demo kit" in work.opened.value
    work.which.buttons.value = "E1"
    assert work.part.id == "E1" and work.own.value == demo_job().part("E1")
    work.rack_file.value = "no-rack.csv"
    work.open.click()
    assert "no-rack.csv" in work.opened.value
    work.file.value = work.rack_file.value = ""
    work.open.click()
    assert work.part == lesson.own_first() and work.which.reason == lesson.NO_JOB
    work.own.controls["length"].value = F(7)
    work.open.click()  # another rack, perhaps: the part on the controls stays
    assert work.part.length == 7


def test_saved_and_nothing_overwritten_untold(tmp_path):
    work = lesson.Work()
    work.saving.save.click()
    assert work.saving.told.startswith("Saved") and read_job(tmp_path / "my-parts.toml").part("P1") == work.part
    before = (tmp_path / "my-parts.toml").read_bytes()
    work.own.controls["length"].value = F(7)
    work.saving.save.click()
    assert work.saving.told.startswith("Not saved") and (tmp_path / "my-parts.toml").read_bytes() == before
    work.saving.replacing.value = True
    work.saving.save.click()
    assert read_job(tmp_path / "my-parts.toml").part("P1").length == 7
    assert any(path.read_bytes() == before for path in tmp_path.iterdir() if path.is_file() and path.name != "my-parts.toml")


def test_packed_and_told_where(tmp_path):
    pypdf = pytest.importorskip("pypdf")
    work = lesson.Work()
    work.packing.make.click()
    assert "pages:" in work.packing.told and work.packing.bar.value == 1.0
    (printed,) = (tmp_path / "shop-pack").glob("*.pdf")
    assert str(printed.resolve()) in work.packing.told
    text = "".join(page.extract_text() for page in pypdf.PdfReader(printed).pages)
    assert "My bracket" in text and "7/32" in text  # the vertex-projection mark


# --- the marks against others --------------------------------------------------------------------------------
def test_the_saw_line_at_the_toe_by_points():
    """A line parallel to the finished one, the allowance away: found by walking, not by the formula."""
    for number in range(6):
        part = ask.EXERCISES["saw-line"].thing(number)
        line, d = taper_lines(part)[0], float(SHOP.allowance)
        run, height, left = float(line.run), float(line.width - line.width_left), float(line.width_left)
        low, high = 0.0, run  # x on the toe whose distance from the finished line is the allowance
        for _ in range(60):
            middle = (low + high) / 2
            # distance of (middle, W) from the line through (0, left) and (run, W)
            off = abs(run * (left - float(line.width)) - (0.0 - middle) * height) / math.hypot(run, height)
            low, high = (middle, high) if off > d else (low, middle)
        assert float(ask.saw_toe(part, SHOP).answer) == pytest.approx(low, abs=1e-9)


# --- every question ---------------------------------------------------------------------------------------
def test_one_question_of_every_lesson():
    questions = ask.of_every_lesson()
    assert list(questions) == [f"{n:02d}" for n in range(12)]
    for number, question in questions.items():
        assert question.prompt.startswith(f"Lesson {number}. "), number
        assert grade(question, typed(question.answer)).right
    asked = [box.question.prompt[7:9] for box in (*lesson.recall().children, *lesson.before_the_saw().children)]
    assert sorted(asked) == list(questions)


def test_known_mistakes_are_named_here():
    assert {"M04", "M05", "M12", "M13", "M17"} <= named(ask)


# --- the notebook ---------------------------------------------------------------------------------------
def test_figures_are_legible():
    for sheet in lesson.figures().values():
        legible(sheet)


def test_the_allowance_of_the_page_is_the_demo_shops():
    assert "sanding allowance, 1/32" in Page.of(lesson).prose and demo_job().shop.allowance == F(1, 32)


def test_a_prediction_of_last_year_belongs_to_its_part_still():
    """The names that the first answer files have for these parts: written by hand from such a file, never computed."""
    assert lesson.stem(lesson.own_first(), Shop()) == "own-49355153"
    assert lesson.stem(demo_part("C1L"), Shop()) == "own-ded34425"
    part = replace(demo_part("C1L"), tapers=[Taper("A", 1, run="2 1/8", blunt="1/32")])
    assert lesson.stem(part, Shop()) != "own-ded34425"
