"""Readings of a part in millimetres: the form is in them, what is typed bare is in them, what is judged is said in them."""

from __future__ import annotations

import csv
import io
import re
import sys
from pathlib import Path

import pytest

from anglelib.errors import FileProblems
from anglelib.inspection.by_amount import by_amount, one_way
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Job, Shop
from anglelib.lengths import MM, read
from anglelib.part import Hole, Part, Taper
from anglelib.section import Section
from anglelib.workshop.check_command import part_lines
from anglelib.workshop.check_parts import REWORK, SCRAP, check_parts
from anglelib.workshop.readings_file import PRINT, form, parse_readings

sys.path.append(str(Path(__file__).resolve().parents[1] / "drawing"))
from random_parts import part_in_mm  # noqa: E402

STOCK = Section("30 mm", "30 mm", "3 mm", fillet="2 mm")
BRACKET = Part("P1", "Bracket", STOCK, "6061-T6", "120 mm", [Taper("A", 1, "6 mm", run="54 mm")], [Hole("B", "40 mm", "15 mm", "3.2 mm")], unit="mm")
INCH = Part("Q1", "Cleat", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")])
METRIC = Job("Metric kit", Shop(kerf="1.6 mm", allowance="1 mm"), [BRACKET], unit="mm")
MIXED = Job("Mixed kit", Shop(), [BRACKET, INCH])


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def filled(text: str, values: dict[str, str]) -> str:
    """The form with what was read typed into it, by the id of the reading."""
    found = rows(text)
    for row in found:
        row["read"] = values.get(row["id"], "")
    out = io.StringIO()
    writer = csv.DictWriter(out, found[0], lineterminator="\n")
    writer.writeheader()
    writer.writerows(found)
    return out.getvalue()


def typed(made: Made, places: int = 2) -> dict[str, str]:
    """What a metric caliper shows, as it is typed: no unit."""
    return {id_: f"{value * 25.4:.{places}f}" for id_, value in readings_of(made).items() if id_ != "weight"}


@pytest.mark.parametrize("seed", range(8))
def test_a_form_s_numbers_read_back(seed):
    part = part_in_mm(seed)
    job = Job("Trial", Shop(), [part], unit="mm")
    wanted = {one.id: one for one in wanted_readings(part, job.limits)}
    asked = [row for row in rows(form(job, ["K01"])) if row["id"] != PRINT]
    assert {row["id"] for row in asked} == set(wanted)
    for row in asked:
        one = wanted[row["id"]]
        for name, value in (("wanted", one.value), ("low", one.low), ("high", one.high)):
            assert row[name].endswith(" mm") and abs(float(read(row[name])) - value) <= float(MM) / 200 + 1e-9
        assert not re.search(r"\d/\d|\bin\b\.?", row["reading"].replace("in the", "")), row["reading"]


@pytest.mark.parametrize("job", [METRIC, MIXED], ids=["metric job", "inch job"])
def test_what_is_typed_bare_is_millimetres_and_all_of_it_is_said_in_them(job):
    """A part that is 1 mm too long at the heel and the toes, whatever unit its job is in: by hand, 121 for 120."""
    values = typed(Made.as_wanted(BRACKET))
    long = {**values, **{id_: f"{float(values[id_]) + 1:.2f}" for id_ in values if id_ == "heel" or id_.startswith("toe")}}
    (one,) = check_parts(parse_readings(filled(form(job, ["K01"], ["P1"]), long), job), job).parts
    assert one.outcome == REWORK
    assert "take off 1 mm (0.039 in)" in one.sentence and not re.search(r"\d/\d", one.sentence)
    (good,) = check_parts(parse_readings(filled(form(job, ["K01"], ["P1"]), values), job), job).parts
    assert good.sentence.startswith("Accept") or good.outcome == "pass"


def test_a_slip_is_named_in_millimetres():
    """Wrong leg's features and a short length: verdict, causes and what to say have no shop fraction but an inch rule's."""
    for slip in ("M01", "M07", "M13"):
        made = by_amount(one_way(slip, BRACKET, METRIC.shop), 1)
        (one,) = check_parts(parse_readings(filled(form(METRIC, ["K01"]), typed(made)), METRIC), METRIC).parts
        assert one.outcome in (REWORK, SCRAP)
        assert slip in {id_ for cause in one.causes for id_ in (*cause.ids, *cause.second)}
        said = " ".join(part_lines(check_parts(parse_readings(filled(form(METRIC, ["K01"]), typed(made)), METRIC), METRIC)))
        assert re.search(r"\d mm", said) and not re.search(r"\d/\d+(?! in\b)", said), said


@pytest.mark.parametrize(
    "text, mm", [("120", 120), ("120.0", 120), ("12 cm", 120), ("120 mm", 120), ("4.7244 in", 4.7244 * 25.4), ("120 mm (4.724 in)", 4.724 * 25.4), ("120 (4.724 in)", 4.724 * 25.4)]
)
def test_what_may_be_typed(text, mm):
    (measured,) = parse_readings(filled(form(METRIC, ["K01"]), {"toe.B": text}), METRIC)
    (reading,) = measured.readings
    assert reading.id == "toe.B" and reading.value * 25.4 == pytest.approx(mm, abs=0.006)


@pytest.mark.parametrize(
    "text, said",
    [
        ("4 3/4", r'"4 3/4" is a fraction without a unit, in millimetres: write in or mm behind it'),
        ("1/2", r'"1/2" is a fraction without a unit'),
        ("4.7244", r'"4.7244" mm, and 120.00 mm is wanted: is it inches\? Write in behind it'),
        ("1200", r'"1200" is ten times of what is wanted, 120.00 mm: look where the decimal point stands'),
        ("120 mm (4.9 in)", "says two lengths: write one"),
    ],
)
def test_what_is_asked_about(text, said):
    with pytest.raises(FileProblems, match=said):
        parse_readings(filled(form(METRIC, ["K01"]), {"toe.B": text}), METRIC)


def test_two_units_in_one_form():
    """A mixed kit: each part's rows in its own unit, each number typed as its card has it."""
    found = rows(form(MIXED, ["K01"]))
    assert {row["wanted"].split()[-1] for row in found if row["part"] == "P1" and row["id"] != PRINT} == {"mm"}
    assert {row["wanted"].split()[-1] for row in found if row["part"] == "Q1" and row["id"] != PRINT} == {"in"}
    values = {("P1", id_): text for id_, text in typed(Made.as_wanted(BRACKET)).items()}
    values |= {("Q1", id_): f"{value:.3f}" for id_, value in readings_of(Made.as_wanted(INCH)).items()}
    text = "code,part,id,read\n" + "".join(f"K01,{part},{id_},{values[part, id_]}\n" for part, id_ in ((row["part"], row["id"]) for row in found) if id_ != PRINT)
    assert [one.outcome for one in check_parts(parse_readings(text, MIXED), MIXED).parts] == ["pass", "pass"]
