"""The commands on a kit in millimetres and on a mixed one: plan, one part, what is sold, check's form, pack, export."""

from __future__ import annotations

import csv
import io
import re
from fractions import Fraction as F

import pytest

from anglelib.__main__ import main
from anglelib.files import read_both
from anglelib.lengths import MM, read
from anglelib.stock.planner import plan

JOB = """format = 1
name = "{unit} kit"
unit = "{unit}"

[shop]
kerf = "1.6 mm"
allowance = "1 mm"
grain = "25 mm"

[section."30"]
leg_a = "30 mm"
leg_b = "30 mm"
thickness_a = "3 mm"
fillet = "2 mm"

[[part]]
id = "P1"
name = "Bracket"
section = "30"
unit = "mm"
alloy = "6061-T6"
length = "120"
quantity = {many}
tapers = [{{leg = "A", end = 1, run = "54", width_left = "6"}}]
holes = [{{leg = "B", x = "40", y = "15", diameter = "3.2"}}]

[[part]]
id = "Q1"
name = "Cleat"
section = "30"
unit = "in"
alloy = "6061-T6"
length = "3 3/8"
"""
RACK = """format,stick_id,leg_a,leg_b,thickness_a,thickness_b,fillet,toe_radius,heel_radius,alloy,length,kind,trim_1,trim_2,far_end_good,hands_off,dents,note
1,M-1,30 mm,30 mm,3 mm,,2 mm,,,6061-T6,1000 mm,new,6 mm,6 mm,no,no,,
1,M-2,30 mm,30 mm,3 mm,,2 mm,,,6061-T6,9 1/2 in,remnant,1/16 in,2 mm,no,no,100 mm to 110 mm,
"""
BARE_FRACTION = re.compile(r"(?<![\d.])(?:\d+ )?\d+/\d+(?!\d|/| \(\d+\.\d+\) in\.| in\b)")


@pytest.fixture
def kit(tmp_path):
    def made(unit: str = "mm", many: int = 4) -> list[str]:
        (tmp_path / "job.toml").write_text(JOB.format(unit=unit, many=many), encoding="utf-8")
        (tmp_path / "rack.csv").write_text(RACK, encoding="utf-8")
        return [str(tmp_path / "job.toml"), str(tmp_path / "rack.csv")]

    return made


def said(capsys, *words: str, code: int = 0) -> str:
    assert main(list(words)) == code
    out = capsys.readouterr()
    return re.sub(r"\s+", " ", out.out)


def test_a_plan_in_millimetres_says_so_and_a_part_in_inches_says_that(kit, capsys):
    files = kit()
    words = said(capsys, "plan", *files)
    assert "or from the witness line. Millimetres." in words and "M-1, 1000 mm long" in words
    assert not BARE_FRACTION.search(words), BARE_FRACTION.search(words)
    assert "Q1" in words and "3 3/8 in" not in words.split("Q1")[0]
    job, record = read_both(*files)
    for line in {cut.line for stick in plan(job, record.rack).sticks for cut in stick.cuts if cut.line}:
        numbers = [read(text, unit="mm") for text in re.findall(r"(\d+(?:\.\d+)?) \(\d+\.\d{3} in\)", words)]
        assert any(abs(number - line) <= MM / 200 for number in numbers), float(line / MM)


def test_the_same_kit_in_an_inch_job_is_planned_in_inches(kit, capsys):
    words = said(capsys, "plan", *kit("in"))
    assert "Inches." in words and "Millimetres." not in words and "M-1, 1000 mm long" in words
    assert re.search(r"its card: \d+(\.\d)? mm", words)  # a metric part's card is in millimetres, and the plan says so


def test_what_is_short_and_what_is_sold(kit, capsys):
    """Sold in whole metres where the job is metric; lengths that are named bare are in the job's unit."""
    words = said(capsys, "plan", *kit(many=12), "--buy", code=3)
    assert re.search(r"SHORT: \d+ of 12 x Bracket \(P1\), blank 122 mm \(4\.803 in\)", words)
    assert re.search(r"(2000|3000|6000) mm", words.split("To buy")[1]) and not BARE_FRACTION.search(words)
    own = said(capsys, "plan", *kit(many=12), "--buy", "2500", code=3)
    assert "2500 mm" in own.split("To buy")[1]
    inch = said(capsys, "plan", *kit("in", many=12), "--buy", code=3)
    assert re.search(r"\b(72|96|144)\b", inch.split("To buy")[1]) and "6000" not in inch


def test_one_part_is_asked_for_in_the_job_s_unit(kit, capsys):
    words = said(capsys, "plan", *kit(), "--one", "30 x 30 x 3 mm", "6061-T6", "85", code=0)
    assert "The blank is 87 mm (3.425 in) long" in words and not BARE_FRACTION.search(words)
    main(["plan", *kit(), "--one", "30 x 30 x 3 mm", "6061-T6", "3 3/8"])
    assert "is a fraction without a unit, in millimetres: write in or mm behind it" in capsys.readouterr().err


def test_a_stick_that_is_done_is_told_in_millimetres(kit, capsys):
    files = kit()
    said(capsys, "plan", *files)
    words = said(capsys, "plan", *files, "--done", "M-1")
    assert re.search(r"M-1-R1, [\d.]+ mm long", words) and not BARE_FRACTION.search(words)
    again = said(capsys, "plan", *files)
    assert "Millimetres." in again and not BARE_FRACTION.search(again)


def test_a_pack_s_words_are_in_the_job_s_unit(kit, capsys, tmp_path):
    words = said(capsys, "pack", *kit(), "--out", str(tmp_path / "pack"))
    assert "hole B at 40 mm" in words and not BARE_FRACTION.search(words.replace(str(tmp_path), ""))


# --- exports -----------------------------------------------------------------------------------------------
def exported(kit, tmp_path, *more: str) -> dict[str, str]:
    out = tmp_path / "out"
    assert main(["export", kit()[0], "--out", str(out), "--what", "dxf,svg,csv,saddle", *more]) == 0
    return {path.name: path.read_text(encoding="utf-8", errors="replace") for path in out.rglob("*") if path.is_file()}


def drawn_unit(dxf: str) -> str:
    """The unit that a drawing declares: 1 inches, 4 millimetres (AutoCAD DXF reference, HEADER variable $INSUNITS)."""
    return {"1": "in", "4": "mm"}[re.search(r"\$INSUNITS\s+70\s+(\d+)", dxf)[1]]


def test_views_are_in_each_part_s_unit_unless_another_is_asked_for(kit, tmp_path, capsys):
    files = exported(kit, tmp_path)
    assert {drawn_unit(text) for name, text in files.items() if name.startswith("P1") and name.endswith("dxf")} == {"mm"}
    assert {drawn_unit(text) for name, text in files.items() if name.startswith("Q1") and name.endswith("dxf")} == {"in"}
    inch = exported(kit, tmp_path / "again", "--unit", "in") if (tmp_path / "again").mkdir() is None else {}
    assert {drawn_unit(text) for name, text in inch.items() if name.endswith("dxf")} == {"in"}


def test_a_coordinate_table_is_in_the_part_s_unit(kit, tmp_path, capsys):
    """The columns of plain numbers are the same in both; the columns to mark by are on a metric rule."""
    files = exported(kit, tmp_path)
    rows = list(csv.DictReader(io.StringIO(files["P1-coordinates.csv"])))
    for row in rows:
        assert row["x"].endswith(" mm") and abs(read(row["x"]) - F(row["x_mm"]) * MM) <= MM / 4 + MM / 2000
        assert abs(F(row["x_decimal_in"]) - F(row["x_mm"]) * MM) <= F(1, 10000)
        assert not BARE_FRACTION.search(row["where"]), row["where"]
    (hole,) = [row for row in rows if row["what"] == "hole centre"]
    assert (hole["x"], hole["height"], hole["where"]) == ("40 mm", "15 mm", "Centre of the 3.2 mm hole in leg B.")
    inch = list(csv.DictReader(io.StringIO(files["Q1-coordinates.csv"])))
    assert any(row["x"] == "3 3/8 in" for row in inch)
    assert "mm from end 1" in files["P1-saddles.txt"]
