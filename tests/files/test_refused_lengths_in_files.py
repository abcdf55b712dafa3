"""A length that a job, a rack or a readings file has wrong is refused with its remedy, and with the file, the part or row, and the key or column."""

from __future__ import annotations

import csv
import io
import json
from fractions import Fraction

import pytest

from anglelib.errors import FileProblems
from anglelib.files import parse_job, parse_rack
from anglelib.lengths import MM
from anglelib.paper.commands import DEMO
from anglelib.workshop.readings_file import parse_readings
from tests.unit.refused_lengths import REMEDIES

JOB = """format = 1
name = "Trial"
{unit}
limits = {limits}

[shop]
kerf = {kerf}

[section.heavy]
leg_a = {leg_a}
leg_b = "3/4 in"
thickness_a = "1/8 in"
fillet = "0"

[[part]]
id = "T2"
name = "Bar"
section = "heavy"
alloy = "6061-T6"
length = {length}
tapers = [{{leg = "A", end = 1, run = {run}, width_left = "1/4 in"}}]
holes = [{{leg = "A", x = {x}, y = "3/8 in", diameter = "1/8 in"}}]
"""
GOOD = {"limits": "inch", "kerf": "1/16 in", "leg_a": "3/4 in", "length": "17 1/2 in", "run": "2 in", "x": "9 in"}
PLACES = {
    "kerf": "shop, kerf: the ", "leg_a": 'section "heavy", leg_a: the ', "length": "part T2, length: the ", "run": "part T2, tapers 1, run: the ",
    "x": "part T2, holes 1, x: the ",
}  # fmt: skip
RACK = """format,stick_id,leg_a,leg_b,thickness_a,thickness_b,fillet,toe_radius,heel_radius,alloy,length,kind,trim_1,trim_2,far_end_good,hands_off,dents,note
1,S-01,3/4 in,3/4 in,1/8 in,,1/8 in,,,6061-T6,144 in,new,1/4 in,1/4 in,no,no,,
1,S-02,{leg_a},3/4 in,1/8 in,,1/8 in,,,6061-T6,{length},new,{trim_1},1/4 in,no,no,{dents},
"""
IN_ORDER = {"leg_a": "3/4 in", "length": "144 in", "trim_1": "1/4 in", "dents": ""}


def job(unit: str = "", **said: str):
    return parse_job(JOB.format(unit=f'unit = "{unit}"' if unit else "", **{key: json.dumps(text) for key, text in (GOOD | said).items()}))


def rack(**said: str):
    def cell(text: str) -> str:
        found = io.StringIO()
        csv.writer(found).writerow([text])
        return found.getvalue().rstrip("\r\n")

    return parse_rack(RACK.format(**{column: cell(text) for column, text in (IN_ORDER | said).items()}))


def refusal(read, *given, **said) -> str:
    with pytest.raises(FileProblems) as caught:
        read(*given, **said)
    return str(caught.value)


@pytest.mark.parametrize("key", PLACES)
def test_a_job_names_file_part_and_key(key):
    for text, remedy in REMEDIES.items():
        sentence = refusal(job, **{key: text})
        assert sentence.startswith(f"job.toml, {PLACES[key]}") and remedy in sentence and sentence.isprintable(), (text, sentence)


@pytest.mark.parametrize("text", ["0,5", "½5", "1--1/2", "1,100", "5' 15", "30 -1/4"])
def test_limits_are_refused_as_the_length_that_they_were_meant_as(text):
    sentence = refusal(job, limits=text)
    remedy = REMEDIES.get(text, "write the decimal with a point, 0.5")
    assert sentence.startswith(f'job.toml, limits: the limit "{text}"') and remedy in sentence


def test_limits_in_a_job_in_millimetres_say_their_unit():
    """0.5 was half an inch in a job in millimetres, and passed anything."""
    assert job(limits="0.02").limits.own == Fraction(1, 50) and job("mm", limits="0.5 mm").limits.own == MM / 2
    for text in ("0.5", "1/32", "½", "+ 1"):
        assert "have no unit, in a job in millimetres: write mm or in behind the number" in refusal(job, "mm", limits=text)


@pytest.mark.parametrize("text", ["1\u00a01/2", "1–1/2", "+1/2", "½", "1\u2009⁄\u20092", "1 - 1/2"])
def test_a_fraction_is_asked_about_in_millimetres_however_it_is_spaced(text):
    assert "is a fraction without a unit, in millimetres: write in or mm behind it" in refusal(job, "mm", run=text)


@pytest.mark.parametrize(("text", "says"), [("1,250", "may be 1.250 or 1250"), ("1'000", "write 1000, or"), ("1 000", "write 1000"), ("1.250,5", "write 1250.5")])
def test_marks_of_thousands_in_a_job_in_millimetres(text, says):
    sentence = refusal(job, "mm", length=text)
    assert sentence.startswith("job.toml, part T2, length: the ") and says in sentence


@pytest.mark.parametrize("column", ["leg_a", "length", "trim_1"])
def test_a_rack_names_file_row_and_column(column):
    for text, remedy in REMEDIES.items():
        sentence = refusal(rack, **{column: text})
        assert sentence.startswith(f"rack.csv, row 3, {column}: ") and remedy in sentence and sentence.isprintable(), (text, sentence)


def test_a_dent_names_its_column():
    for text in ("½5", "1'000", "30 -1/4", "1--1/2", "1,100", "3 1/2m", "5' 15"):
        sentence = refusal(rack, dents=f"{text} to 100")
        assert sentence.startswith(f'rack.csv, row 3, dents: the start of the dent "{text}"') and REMEDIES[text] in sentence


@pytest.mark.parametrize(("text", "value"), [("12 feet", 144), ("8 ft.", 96), ("60 inches", 60), ("3000 thou", 3), ("2 1/2 feet", 30), ("400 mm.", 400 * MM)])
def test_a_unit_in_words_is_no_date(text, value):
    assert rack(length=text).sticks[1].length == value
    assert "spreadsheet's date" in refusal(rack, length="3-Apr") and "spreadsheet's date" in refusal(rack, length="4 May 2026")


def test_a_readings_file_names_row_and_column():
    demo = parse_job((DEMO / "job.toml").read_text(encoding="utf-8"))
    for text, remedy in REMEDIES.items():
        if text in ("1 5/8 (1.625)", "85 mm (3.346 in)"):  # as a dimension is printed: read there
            continue
        found = io.StringIO()
        csv.writer(found).writerows([["format", "code", "part", "id", "reading", "wanted", "low", "high", "read"], ["1", "K01", "A3", "heel", "", "", "", "", text]])
        sentence = refusal(parse_readings, found.getvalue(), demo)
        assert sentence.startswith("readings.csv, row 2, read: ") and sentence.isprintable(), (text, sentence)
        assert remedy in sentence or text in ("-1", "-½'", "-1'000", "30 −¼"), (text, sentence)
