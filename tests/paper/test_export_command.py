"""``python -m anglelib export``: what it writes, what it refuses, and that nothing is lost; the coordinate table."""

from __future__ import annotations

import csv
import io
import re
import subprocess
import sys
from fractions import Fraction as F
from pathlib import Path
from random import Random

import numpy as np
import pytest
from exported import bare, cutters, opened, oracle_parts, solids, svg_scale

from anglelib.__main__ import main
from anglelib.job import Shop
from anglelib.lengths import read
from anglelib.paper.coordinates import COLUMNS, coordinates_csv
from anglelib.part import Corner, Hole, Part, Taper
from anglelib.section import Section
from anglelib.tolerances import Limits

sys.path.insert(0, str(Path(__file__).parents[1] / "files"))
from spoiled import JOB, SPOILED  # noqa: E402

sys.path.pop(0)

VIEWS = ("fold-sheet", "inside-twin", "leg-A-inner", "leg-A-outer", "leg-B-inner", "leg-B-outer", "section")
BRACKET = Part(
    "C1L", "Bracket", Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")],
    holes=[Hole("A", "2 7/16", "11/16", "3/16"), Hole("B", "5/8", "3/4", "1/8", flush=True)],
)  # fmt: skip


def job_file(folder: Path, text: str = JOB) -> str:
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def found(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


# --- what is written -------------------------------------------------------------------------------------
def test_one_part_of_the_demo(tmp_path, capsys):
    out = tmp_path / "out"
    assert main(["export", "--part", "C1L", "--out", str(out)]) == 0
    said = capsys.readouterr()
    assert "19 files of 1 part: " in said.out and said.err == ""
    files = found(out)
    wanted = {f"C1L/C1L-{view}.{kind}" for view in VIEWS for kind in ("dxf", "svg")}
    wanted |= {"C1L/C1L-coordinates.csv", "C1L/C1L-part-left.stl", "C1L/C1L-saddles.txt"}
    wanted |= {f"C1L/C1L-saddle-end-1-{side}-left.stl" for side in ("inside", "outside")}
    assert set(files) == wanted and all(files.values())
    assert opened(files["C1L/C1L-leg-A-outer.dxf"]).header["$INSUNITS"] == 1
    assert b"square end 2 3/4 in from end 1" in files["C1L/C1L-saddles.txt"]


def test_only_what_is_asked_for_and_in_millimetres(tmp_path, capsys):
    assert main(["export", "--part", "C1R", "--part", "C1R", "--part", "A3", "--what", " SVG, csv ", "--unit", "mm", "--out", str(tmp_path / "o")]) == 0
    files = found(tmp_path / "o")
    assert {Path(name).suffix for name in files} == {".svg", ".csv"} and {name.split("/")[0] for name in files} == {"C1R", "A3"}
    assert svg_scale(files["C1R/C1R-section.svg"].decode())[0] == "mm"
    assert "16 files of 2 parts" in capsys.readouterr().out


def test_a_job_of_ones_own(tmp_path, capsys):
    assert main(["export", job_file(tmp_path), "--what", "dxf", "--out", str(tmp_path / "o")]) == 0
    assert len(found(tmp_path / "o")) % 7 == 0
    for content in found(tmp_path / "o").values():
        opened(content)


def test_an_older_file_is_kept(tmp_path):
    words = ["export", "--part", "C1L", "--what", "csv", "--out", str(tmp_path / "o")]
    assert main(words) == 0
    first = found(tmp_path / "o")["C1L/C1L-coordinates.csv"]
    assert main(words) == 0
    assert found(tmp_path / "o")["C1L/C1L-coordinates.previous.csv"] == first


# --- what is refused -----------------------------------------------------------------------------------------
@pytest.mark.parametrize("spoiled", [s for s in SPOILED if s.name.startswith("job")][::4], ids=lambda s: s.name)
def test_a_spoiled_job_is_a_sentence_and_nothing_is_written(spoiled, tmp_path, capsys):
    job, _ = spoiled.write(tmp_path)
    assert main(["export", str(job), "--what", "csv", "--out", str(tmp_path / "out")]) == 2
    said = capsys.readouterr()
    assert said.out == "" and "Traceback" not in said.err
    assert spoiled.wrong in said.err and spoiled.remedy in said.err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--part", "C9"], 'There is no part "C9"'),
        (["--what", "dwg"], '"dwg" cannot be exported'),
        (["--what", ","], "Nothing is asked for"),
        (["--error", "0"], "between 0.00001 and 1 mm"),
        (["--error", "nan"], "between 0.00001 and 1 mm"),
        (["--wall", "0.1"], "thinner than 0.8 mm"),
        (["--wall", "inf"], "between 0 and 50 mm"),
        (["--clearance", "2"], "below half the wall"),
        (["--length", "1/8"], "make it at least"),
        (["--length", "long"], "long"),
    ],
)
def test_a_wrong_word_is_a_sentence_and_nothing_is_written(words, says, tmp_path, capsys):
    assert main(["export", "--part", "C1L", *words, "--out", str(tmp_path / "out")]) == 2
    said = capsys.readouterr()
    assert says in said.err and said.err.count("\n") == 1 and said.out == "" and not (tmp_path / "out").exists()


def test_the_folder_is_looked_at_before_anything_is_made(tmp_path, capsys):
    (tmp_path / "file").write_text("mine")
    (tmp_path / "out" / "C1L" / "C1L-coordinates.csv").mkdir(parents=True)
    (tmp_path / "two").mkdir()
    (tmp_path / "two" / "C1L").write_text("mine")
    for out, says in (("file", "is a file"), ("no/where", "is not there"), ("out", "is a folder"), ("two", "is a file")):
        before = found(tmp_path)
        assert main(["export", "--part", "C1L", "--out", str(tmp_path / out)]) == 2
        assert says in capsys.readouterr().err and found(tmp_path) == before


@pytest.mark.parametrize(("missing", "what"), [("ezdxf", "dxf"), ("manifold3d", "mesh"), ("manifold3d", "saddle")])
def test_a_missing_package_is_a_sentence(missing, what, tmp_path, monkeypatch, capsys):
    monkeypatch.setitem(sys.modules, missing, None)
    assert main(["export", "--part", "C1L", "--what", what, "--out", str(tmp_path / "out")]) == 2
    assert f"pip install {missing}" in capsys.readouterr().err and not (tmp_path / "out").exists()
    assert main(["export", "--part", "C1L", "--what", "svg,csv", "--out", str(tmp_path / "out")]) == 0


def test_nothing_heavy_is_imported_before_it_is_needed():
    code = "import sys, anglelib.paper.export; print(sorted({'ezdxf', 'numpy', 'manifold3d', 'sympy'} & set(sys.modules)))"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"


# --- the coordinate table ----------------------------------------------------------------------------------------
def rows(part: Part) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(coordinates_csv(part, Shop()))))


def test_the_numbers_of_the_bracket():
    """From the drawing: the line climbs 1 1/4 in. over a run of 2 1/8; the fillet ends at 1/4, leg B's inner face is at 1/8."""
    table = {(row["face"], row["what"], row["x_decimal_in"]): row for row in rows(BRACKET)}
    assert tuple(next(iter(table.values()))) == COLUMNS
    run = table["leg A, toe's edge", "run", "2.1250"]
    assert (run["x"], run["x_mm"], run["height"], run["height_mm"]) == ("2 1/8 in", "53.975", "1 1/4 in", "31.750")
    assert table["leg A, inner face", "first flat mark", "0.4250"]["height"] == "1/4 in"
    vertex = table["leg B, inner face", "vertex-projection mark", "0.2125"]
    assert (vertex["x"], vertex["height"]) == ("7/32 in", "")
    hole = table["leg B, outer face", "hole centre", "0.6250"]
    assert hole["height_decimal_in"] == "0.7500" and hole["where"] == "Centre of the 1/8 hole, for a flush head in leg B."
    assert table["both outer faces", "witness line", "3.0000"]


def test_fraction_decimal_and_millimetres_agree():
    for seed in range(10):
        part = oracle_parts.part(Random(f"table {seed}"))
        for row in rows(part):
            for name in ("x", "height"):
                if not row[name]:
                    continue
                inch, mm = F(row[f"{name}_decimal_in"]), F(row[f"{name}_mm"])
                assert abs(inch - mm / F("25.4")) <= F(1, 10000) and abs(read(row[name]) - inch) < F(1, 64) + F(1, 10000), row
                assert 0 <= inch


def check_corners(part: Part) -> None:
    """Every corner of a finished face is a corner of the kernel's solid, arcs' ends included."""
    part = bare(part)
    corners = solids.vertices(cutters.finished(part, solids.ON, 64))
    for row in rows(part):
        if row["what"] not in ("corner", "end of an arc"):
            continue
        leg, inner = row["face"][4], "inner" in row["face"]
        x, height = float(row["x_decimal_in"]), float(row["height_decimal_in"])
        depth = float(part.section.thickness(leg)) if inner else 0.0
        if not inner and height < float(part.section.heel_radius):
            continue  # a rounded heel has no corner there
        if inner and any(cope.leg != leg and cope.width_left == part.section.thickness(leg) for cope in part.copes):
            continue  # the cope's floor runs on flush with this face: the solid has no corner between them
        place = (x, height, depth) if leg == "A" else (x, depth, height)
        assert np.linalg.norm(corners - place, axis=1).min() < 2e-4, (part, row)


def test_corners_are_the_solids():
    check_corners(BRACKET)
    for seed in range(20):
        try:
            check_corners(oracle_parts.part(Random(f"corners {seed}")))
        except AssertionError as error:
            raise AssertionError(f"seed {seed}: {error}") from None


@pytest.mark.slow
@pytest.mark.parametrize("block", range(5))
def test_five_hundred_parts_corners(block):
    for seed in range(20 + 100 * block, 120 + 100 * block):
        try:
            check_corners(oracle_parts.part(Random(f"corners {seed}")))
        except AssertionError as error:
            raise AssertionError(f"seed {seed}: {error}") from None


def test_a_wrong_corner_is_noticed(monkeypatch):
    from anglelib.paper import coordinates

    right = coordinates._tidy
    monkeypatch.setattr(coordinates, "_tidy", lambda point: (right(point)[0] + F(1, 1000), right(point)[1]))
    with pytest.raises(AssertionError):
        check_corners(BRACKET)


def test_an_arc_has_its_ends_and_its_centre():
    part = Part("P1", "Trial", Section("1 1/2", "1 1/2", "1/8"), "6061-T6", 6, corners=[Corner("A", 1, "1/4")])
    kinds = [(row["what"], row["x"], row["height"]) for row in rows(part) if row["face"] == "leg A, outer face"]
    assert ("arc centre", "1/4 in", "1 1/4 in") in kinds
    assert {("end of an arc", "1/4 in", "1 1/2 in"), ("end of an arc", "0 in", "1 1/4 in")} <= set(kinds)


def test_no_cell_is_computed_by_a_spreadsheet():
    for seed in range(10):
        for row in rows(oracle_parts.part(Random(f"cells {seed}"))):
            for cell in row.values():
                assert not re.match(r"\s*[=+\-@\t\r]", cell) and not re.fullmatch(r"\d+/\d+", cell), cell
            assert row["where"].endswith(".") and len(row["where"]) > 20


def test_a_graduation_is_full_or_bare_as_on_the_card():
    """87.3 mm is 0.2 short of the rule's 87.5; by the standard's 0.3 it is bare, by the trade's 1/64 in. it is as well, by 1 mm it is not."""
    part = Part("M1", "Clip", Section("30 mm", "30 mm", "3 mm"), "6061-T6", "87.3 mm", holes=[Hole("A", "20 mm", "15 mm", "4 mm")], unit="mm")

    def ends(limits: str) -> set[str]:
        table = csv.DictReader(io.StringIO(coordinates_csv(part, Shop(), Limits.named(limits))))
        return {row["x"] for row in table if row["x_mm"] == "87.300"}

    assert ends("m") == ends("inch") == {"87.5 mm bare"} and ends("1 mm") == {"87.5 mm"}


@pytest.mark.parametrize("length, says", [("500", "A saddle 500 in. long is longer than C1L, 4 3/4 in.: 2 3/4 in. will do at end 1; check the unit."), ("1/4", "would not reach past")])
def test_a_saddle_of_another_unit_is_refused(length, says, tmp_path, capsys):
    assert main(["export", "--part", "C1L", "--what", "saddle", "--length", length, "--out", str(tmp_path / "out")]) == 2
    assert says in capsys.readouterr().err and not (tmp_path / "out").exists()
