"""Lessons 09 and 12, one's own readings and the bench in millimetres: a switch, what is typed, slider steps, pictures, files, and it stays quick."""

from __future__ import annotations

import html
import re
from dataclasses import replace
from fractions import Fraction as F
from functools import cache

import pytest
from lesson_checks import THEMES, legible, texts

from anglelib.files import read_job, save_job
from anglelib.job import Job, Shop
from anglelib.lengths import MM, read, unit_written
from anglelib.lessons import builders_bench, holes_and_what_if, make_part
from anglelib.lessons.bench_views import HEAVY, VIEW_WORDS, draw
from anglelib.lessons.controls import FractionControl, fractions, in_millimetres
from anglelib.lessons.demo import demo_job, demo_part, demo_rack
from anglelib.lessons.own_part import OwnPart
from anglelib.lessons.own_readings import OwnReadings, PartOfJob
from anglelib.lessons.room import ROOM
from anglelib.lessons.unit_switch import UNIT, in_unit, with_unit
from anglelib.part import Cope, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("30 mm", "30 mm", "3 mm", fillet="2 mm")
BRACKET = Part("P1", "Bracket", STOCK, "6061-T6", "120 mm", [Taper("A", 1, "6 mm", run="54 mm")], [Hole("B", "40 mm", "15 mm", "3.2 mm")], unit="mm")
COPED = Part("P2", "Stop", STOCK, "6061-T6", "85 mm", copes=[Cope("A", 1, "20 mm", "10 mm", "4 mm")], unit="mm")
PICTURES = {name: getattr(holes_and_what_if, name) for name in ("edges", "trap", "region", "bevel", "along")}
FRACTION = re.compile(r"(?<![\d./:])(?:\d+ )?\d+/\d+(?![\d/])(?! in\b)")
THOUSANDTHS = re.compile(r"(?<![\d.])\d+\.\d{3}(?!\d)(?! in\b| lb)")
SOLD = re.compile(r"(?:\d+ )?[\d/]+(?: x (?:\d+ )?[\d/]+)+(?: and [\d/]+)? in\b")

RATIO = re.compile(r"\d\.\d{3} millimetres along the heel for each millimetre|times \d\.\d{3}")
"""A slope is no length."""


def bare(words: str) -> list[str]:
    """Shop fractions and thousandths that say no unit."""
    words = RATIO.sub("", SOLD.sub("", html.unescape(re.sub(r"<[^>]+>", " ", words))))
    return [match[0] for pattern in (FRACTION, THOUSANDTHS) for match in pattern.finditer(words)]


def test_the_guard_sees_inches():
    assert bare("<b>run 1/2</b>") == ["1/2"] and bare("3 1/2") == ["3 1/2"] and bare("it is 0.213 long") == ["0.213"]
    assert bare("54 mm (2.126 in), 1/8 in rivets, 3/4 x 3/4 x 1/8 in, 0.137 lb") == []


# --- a slider ----------------------------------------------------------------------------------------------
def test_steps_in_millimetres_are_round_and_about_as_many():
    for values in (fractions("0", "4", "1/8"), fractions("1", "3", "1/16"), fractions("0", "1/8", "1/64"), fractions("1/4", "12", "1/4"), fractions("1/4", "12", "1/16")):
        steps = in_millimetres(values)
        apart = {b - a for a, b in zip(steps, steps[1:], strict=False)}
        assert len(apart) == 1 and apart <= {MM, MM / 2, MM / 10, MM / 100}
        assert values[0] <= steps[0] and steps[-1] <= values[-1] and len(values) / 4 < len(steps) < 7 * len(values)
        if values[-1] - values[0] >= 1:
            assert apart <= {MM, MM / 2}


def test_a_slider_goes_over_and_comes_back():
    """The value stays exactly; what is typed bare is in the unit that is shown, a bare fraction is asked about."""
    control = FractionControl("Run (in.)", fractions("1/4", "4", "1/16"), F(17, 8))
    control.speak("mm")
    assert (control.label, control.entry.value, control.value) == ("Run (mm)", "53.98", F(17, 8))
    control.entry.value = "60"
    assert control.value == 60 * MM and not control.trouble
    control.slider.value += 1
    assert (control.value / MM * 2).denominator == 1
    control.entry.value = "2 1/8"
    assert control.trouble == 'The Run (mm) "2 1/8" is a fraction without a unit, in millimetres: write in or mm behind it.'
    control.entry.value = "2 1/8 in"
    assert control.value == F(17, 8) and not control.trouble
    control.entry.value = "500"
    assert control.trouble == "Run (mm): 500 is outside 7 to 101." and control.value == F(17, 8)
    control.speak("in")
    assert (control.label, control.entry.value, control.value) == ("Run (in.)", "2 1/8", F(17, 8))
    control.entry.value = "2 1/4"
    assert control.value == F(9, 4)


def test_a_switch_for_a_picture():
    drawn = in_unit(lambda values, view: unit_written())
    assert drawn({}, None) == "in" and drawn({UNIT: "mm"}, None) == "mm"
    controls = with_unit({"run": FractionControl("Run (in.)", fractions("1", "3", "1/8"), F(2))})
    assert list(controls) == ["run", UNIT] and controls[UNIT].value == "in"


# --- lesson 09 ------------------------------------------------------------------------------------------------
def predicted(name: str):
    """The picture with its question answered, so that all of it is shown."""
    picture = PICTURES[name]()
    if picture.ask is not None:
        question = picture.ask.question
        picture.ask.entry.value = "1" if not hasattr(question, "choices") else question.answer
        picture.ask.answer()
    return picture


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_of_lesson_09_in_millimetres(name):
    picture = predicted(name)
    before, labels = picture.sheet.sentence, [c.label for c in picture.controls.values() if isinstance(c, FractionControl)]
    picture.controls[UNIT].value = "mm"
    assert "mm" in picture.sheet.sentence and bare(picture.sheet.sentence) == [] and bare(" ".join(texts(picture.sheet))) == []
    for control in picture.controls.values():
        if isinstance(control, FractionControl):
            assert control.label.endswith("(mm)") and read(control.entry.value, unit="mm") == pytest.approx(float(control.value), abs=0.0003)
            for place in (0, control.slider.max // 2, control.slider.max):
                control.slider.value = place
                legible(picture.sheet)
    picture.controls[UNIT].value = "in"
    assert [c.label for c in picture.controls.values() if isinstance(c, FractionControl)] == labels
    assert "mm" not in predicted(name).sheet.sentence and predicted(name).sheet.sentence == before


@pytest.mark.parametrize("theme", THEMES)
def test_pictures_of_lesson_09_stay_legible_in_millimetres(theme, monkeypatch):
    monkeypatch.setattr(ROOM, "theme", theme)
    for name in PICTURES:
        picture = predicted(name)
        picture.controls[UNIT].value = "mm"
        legible(picture.sheet, theme)


# --- lesson 12 -----------------------------------------------------------------------------------------------------
def metric_work() -> make_part.Work:
    work = make_part.Work()
    work.own.controls[UNIT].value = "mm"
    return work


def test_a_part_of_one_s_own_in_millimetres():
    work = make_part.Work()
    length = work.part.length
    work.own.controls[UNIT].value = "mm"
    assert work.part.unit == "mm" and work.part.length == length
    work.own.controls["length"].entry.value = "120"
    assert work.part.length == 120 * MM
    labels = [c.label for c in work.own.controls.values() if isinstance(c, FractionControl)]
    assert labels and not any("(in.)" in label for label in labels)
    assert "mm" in work.caption.value and bare(work.caption.value + work.saw_words.value) == []


def test_what_is_predicted_in_millimetres_is_graded_in_them():
    work = metric_work()
    work.ready.click()
    told = []
    for box in work.asked:
        question = box.question
        assert bare(question.prompt) == [], question.prompt
        box.entry.value = f"{float(question.answer) * 25.4:.1f}"
        box.check.click()
        assert "Right" in box.feedback.value, box.feedback.value
        told.append(box.feedback.value)
    assert work.known and all(bare(words) == [] for words in told) and any("mm" in words for words in told)
    for shown in (work.table.value, work.steps.value, work.words.value):
        assert bare(re.sub(r"\$[^$]*\$", "", shown)) == [], bare(shown)


def test_a_wrong_prediction_in_millimetres_is_told_in_them():
    work = metric_work()
    work.ready.click()
    box = work.asked[0]
    box.entry.value = f"{float(box.question.answer) * 25.4 + 3:.1f}"
    box.check.click()
    assert bare(box.feedback.value) == [] and "Hint" in box.feedback.value
    box.check.click()
    assert bare(box.feedback.value) == [] and "mm" in box.feedback.value
    again = metric_work()
    again.ready.click()
    again.asked[0].entry.value = "2 1/8"
    again.asked[0].check.click()
    assert "without a unit" in again.asked[0].feedback.value and not again.known


def test_a_prediction_in_one_unit_is_not_the_other_s():
    """The same part asked about in the other unit is asked anew: its answers are other numbers."""
    assert make_part.stem(replace(BRACKET, unit="in"), Shop()) != make_part.stem(BRACKET, Shop())


def test_saved_and_opened_in_millimetres(tmp_path):
    work = metric_work()
    work.own.controls["length"].entry.value = "130"
    work.saving.save.click()
    text = (tmp_path / "my-parts.toml").read_text(encoding="utf-8")
    assert 'unit = "mm"' in text
    part = read_job(tmp_path / "my-parts.toml").part("P1")
    assert part == work.part and part.unit == "mm"
    again = make_part.Work()
    again.file.value = "my-parts.toml"
    again.open.click()
    again.which.buttons.value = "P1"
    assert again.part.unit == "mm" and again.own.controls[UNIT].value == "mm" and again.own.controls["length"].entry.value == "130"
    again.own.controls[UNIT].value = "in"
    assert again.part.unit == "in" and again.own.controls["length"].label == "Length (in.)"


def test_packed_in_millimetres(tmp_path):
    pypdf = pytest.importorskip("pypdf")
    work = metric_work()
    work.packing.make.click()
    (printed,) = (tmp_path / "shop-pack").glob("*.pdf")
    pages = [page.extract_text() for page in pypdf.PdfReader(printed).pages]
    assert any("millimetres, from the datum end" in page for page in pages)
    assert any("Figures are in millimetres" in page for page in pages)


# --- the bench -----------------------------------------------------------------------------------------------------------
@cache
def kit() -> Job:
    return Job("Metric kit", Shop(kerf="1.6 mm", allowance="1 mm"), (BRACKET, COPED), unit="mm")


def metric_bench(tmp_path) -> builders_bench.Bench:
    save_job(kit(), tmp_path / "metric.toml")
    bench = builders_bench.Bench()
    bench.job_file.value = str(tmp_path / "metric.toml")
    bench.open.click()
    return bench


def shown(bench) -> str:
    return " ".join((bench.caption.value, bench.table.value, bench.both.value, bench.opened.value))


def test_the_bench_follows_the_part_that_is_opened(tmp_path):
    bench = metric_bench(tmp_path)
    assert bench.part == BRACKET and bench.own.controls[UNIT].value == "mm"
    assert (bench.kerf.label, bench.kerf.entry.value) == ("Kerf (mm)", "1.6")
    assert bench.own.controls["run"].label == "Run (mm)" and bench.own.controls["run"].entry.value == "54"
    assert bare(shown(bench)) == [], bare(shown(bench))
    assert bench.kept["B"].tapers[0].run == 64 * MM  # variant B is longer by a round length of its own unit
    bench.own.controls["run"].entry.value = "60"
    assert bench.part.tapers[0].run == 60 * MM and bare(shown(bench)) == []
    bench.own.controls["run"].entry.value = "600"
    assert "mm" in bench.own.controls["run"].trouble
    bench.begin(demo_part("C1L"))
    assert bench.own.controls[UNIT].value == "in" and bench.own.controls["run"].entry.value == "2 1/8" and bench.kerf.label == "Kerf (in.)"


@pytest.mark.parametrize("view", VIEW_WORDS)
@pytest.mark.parametrize("part", [BRACKET, COPED], ids=lambda part: part.id)
def test_pictures_of_the_bench_in_millimetres(view, part):
    for few in (False, True):
        sheet = draw(view, part, kit().shop, demo_rack(), few=few)
        assert bare(" ".join([*texts(sheet), sheet.sentence])) == [], (view, texts(sheet))
        legible(sheet, "projector" if few else "screen", longest=900, most=12)


@pytest.mark.parametrize("name", HEAVY)
def test_the_heavy_ones_too(name, tmp_path):
    bench = metric_bench(tmp_path)
    bench.heavy[name].value = True
    assert "<svg" in bench.preview.value
    words = " ".join(re.findall(r">([^<]+)<", bench.preview.value))
    assert bare(words) == [], bare(words)


def test_the_bench_saves_the_unit_and_packs_in_it(tmp_path):
    bench = metric_bench(tmp_path)
    bench.saving.file.value = "mine"
    bench.saving.save.click()
    job = read_job(tmp_path / "mine.toml")
    assert (job.unit, job.part("P1").unit) == ("mm", "mm") and job.part("P1") == bench.part
    save_job(Job("Inch kit", Shop(), (demo_part("A3"),)), tmp_path / "inch.toml")
    bench.saving.file.value = "inch"
    bench.saving.save.click()
    job = read_job(tmp_path / "inch.toml")
    assert (job.unit, job.part("A3").unit, job.part("P1").unit) == ("in", "in", "mm") and job.part("P1") == bench.part
    pypdf = pytest.importorskip("pypdf")
    bench.packing.make.click()
    pages = [page.extract_text() for page in pypdf.PdfReader(tmp_path / "shop-pack" / "shop-pack.pdf").pages]
    assert any("millimetres, from the datum end" in page for page in pages)


def test_inches_are_what_they_were():
    """All that the bench shows of a part of the demo kit, before and after a turn through millimetres."""
    bench = builders_bench.Bench()
    before = shown(bench), bench.kerf.entry.value, [c.entry.value for c in bench.own.controls.values() if isinstance(c, FractionControl)]
    bench.own.controls[UNIT].value = "mm"
    assert shown(bench) != before[0]
    bench.own.controls[UNIT].value = "in"
    assert (shown(bench), bench.kerf.entry.value, [c.entry.value for c in bench.own.controls.values() if isinstance(c, FractionControl)]) == before


# --- one's own readings -------------------------------------------------------------------------------------------------
def test_own_readings_of_a_metric_part(tmp_path):
    save_job(kit(), tmp_path / "metric.toml")
    source = PartOfJob("A3")
    own = OwnReadings(source)
    source.file.value = str(tmp_path / "metric.toml")
    asked = {id_: entry for id_, entry in own.entries.items() if hasattr(entry, "placeholder")}
    assert source.value == BRACKET and "(mm)" in own.unsure.label
    assert asked and all(bare(f"{entry.description} {entry.placeholder}") == [] for entry in asked.values())
    own.fill(["66"])
    own.judge()
    drawn = " ".join(re.findall(r">([^<]+)<", own.picture.value))
    assert bare(own.words.value) == [] and bare(drawn) == [] and "mm" in drawn


def test_every_control_of_a_part_says_its_unit_or_needs_none():
    own = OwnPart(demo_job().part("C1L"))
    for unit in ("mm", "in", "mm"):
        own.controls[UNIT].value = unit
        for control in own.controls.values():
            if isinstance(control, FractionControl):
                assert "(deg.)" in control.label or ("(mm)" in control.label) is (unit == "mm") or "(" not in control.label, control.label
