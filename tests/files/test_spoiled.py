"""Every spoiled job and rack: one clear message a problem, at its place, quickly, and nothing written."""

from __future__ import annotations

import time

import pytest
from spoiled import ABSENT, FOLDER, INERT_NAMES, JOB, RACK, SPOILED, Spoiled, changed

from anglelib.errors import BenchError, FileProblems
from anglelib.files import parse_job, parse_rack, read_job, read_rack, render_job, render_rack


def read(spoiled: Spoiled, path) -> BenchError:
    with pytest.raises(BenchError) as caught:
        (read_job if spoiled.kind == "job" else read_rack)(path)
    return caught.value


def test_the_files_that_are_spoiled_are_good():
    assert [part.id for part in parse_job(JOB).parts] == ["T1L", "T1R", "T2"]
    assert [stick.id for stick in parse_rack(RACK).sticks] == ["S-01", "S-02", "S-03"]


def test_the_table_is_long_and_its_names_are_different():
    names = [spoiled.name for spoiled in SPOILED]
    assert len(names) >= 100
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("spoiled", SPOILED, ids=lambda spoiled: spoiled.name)
def test_says_what_is_wrong_where_and_what_to_do(spoiled, tmp_path):
    spoiled.write(tmp_path)
    error = read(spoiled, spoiled.path(tmp_path))
    if not isinstance(error, FileProblems):
        assert not spoiled.place
        assert spoiled.wrong in str(error)
        assert spoiled.remedy in str(error)
        return
    at_place = [p for p in error.problems if p.place == spoiled.place]
    assert any(spoiled.wrong in p.message and spoiled.remedy in p.message for p in at_place), str(error)
    assert {p.file for p in error.problems} == {spoiled.path(tmp_path).name}


@pytest.mark.parametrize("spoiled", SPOILED, ids=lambda spoiled: spoiled.name)
def test_one_slip_is_one_message_of_one_line(spoiled, tmp_path):
    """A mirrored pair cannot be spoiled in one part only without the partners differing: that is the exception."""
    spoiled.write(tmp_path)
    lines = str(read(spoiled, spoiled.path(tmp_path))).split("\n")
    beyond = [line for line in lines if "mirror_of" not in line] if spoiled.kind == "job" else lines
    assert len(beyond) <= 1
    assert all(len(line) < 500 and line.isprintable() for line in lines)


@pytest.mark.parametrize("spoiled", SPOILED, ids=lambda spoiled: spoiled.name)
def test_reads_fast_and_writes_nothing(spoiled, tmp_path):
    """Under a second of the processor: a busy machine is no fault of the reader."""
    spoiled.write(tmp_path)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()}
    start = time.process_time()
    read(spoiled, spoiled.path(tmp_path))
    assert time.process_time() - start < 1
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()} == before


def test_all_problems_of_a_job_at_once():
    text = JOB
    for old, new in [
        ('kerf = "1/16"', 'kerf = "thin"'),
        ('length = "2 1/4"', 'lenght = "2 1/4"'),
        ('x = "1 1/2"', 'x = "1 1/2 yd"'),
        ('diameter = "1/8"},\n]\n\n[[part]]\nid = "T2"', 'diameter = "9"},\n]\n\n[[part]]\nid = "T2"'),
        ('hand = "neither"', 'hand = "upper"'),
    ]:
        text = changed(text, old, new)
    with pytest.raises(FileProblems) as caught:
        parse_job(text)
    assert [problem.place for problem in caught.value.problems] == [
        "shop, kerf",
        "part T1L",
        "part T1L, holes 1, x",
        "part T1R, holes 2",
        "part T2, hand",
    ]


def test_all_problems_of_a_rack_at_once():
    text = RACK
    for old, new in [("144 in", "144 yd"), (",new,", ",old,"), ("S-02", "S-01"), ("unknown", "?"), ("yes", "so-so")]:
        text = changed(text, old, new)
    with pytest.raises(FileProblems) as caught:
        parse_rack(text)
    assert [problem.place for problem in caught.value.problems] == [
        "row 2, length",
        "row 2, kind",
        "row 3, far_end_good",
        "row 3, stick_id",
        "row 4, alloy",
    ]


def test_a_file_with_very_many_problems_lists_fifty_and_counts_the_rest():
    rack = RACK.splitlines(True)[0] + RACK.splitlines(True)[1].replace("144 in", "long") * 200
    with pytest.raises(FileProblems) as caught:
        parse_rack(rack)
    assert len(caught.value.problems) == 51
    assert "349 more problems" in str(caught.value.problems[-1])  # 200 lengths, 199 ids that are not new, less 50


# --- what a spreadsheet or an editor does, and is no mistake ------------------------------------------
@pytest.mark.parametrize(
    "mend",
    [
        lambda text: "\ufeff" + text,
        lambda text: text.replace("\n", "\r\n"),
        lambda text: text.rstrip("\n"),
        lambda text: text + "\n\n",
    ],
    ids=["byte-order mark", "CRLF", "no last line end", "blank lines at the end"],
)
def test_both_files_bear_what_editors_do(mend, tmp_path):
    for name, text, read_it, parse in (("j.toml", JOB, read_job, parse_job), ("r.csv", RACK, read_rack, parse_rack)):
        path = tmp_path / name
        path.write_bytes(mend(text).encode("utf-8"))
        assert read_it(path) == parse(text)


@pytest.mark.parametrize(
    "mend",
    [
        lambda text: text.replace("; ", " ; ").replace(",", ";").replace(
            "29 1/2 in to 31 in ; 50 in to 51 in", '"29 1/2 in to 31 in; 50 in to 51 in"').replace("line; leg", "line, leg"),
        lambda text: text.replace(",", "\t").replace("line\t leg", "line, leg"),
        lambda text: "\n".join(line + ",,," for line in text.splitlines()),
        lambda text: text.replace("\n1,S-02", "\n,,,\n\n1,S-02"),
        lambda text: text.replace("\n1,S-02", "\n,S-02"),
        lambda text: text.replace("stick_id", "Stick ID").replace("leg_a", " Leg A "),
        lambda text: text.replace(" in,", ","),
        lambda text: text.replace("1/4 in,1/4 in", '"1/4""",0.25'),
        lambda text: text.replace(",no,", ",FALSE,").replace(",yes,", ",True,"),
        lambda text: "\n" + text,
    ],
    ids=["semicolons", "tabs", "trailing cells", "blank rows", "format once", "headings by hand", "no unit",
         "inch mark and decimal", "spreadsheet flags", "blank line first"],
)  # fmt: skip
def test_a_rack_bears_what_spreadsheets_do(mend):
    mended = mend(RACK)
    assert mended != RACK
    assert parse_rack(mended) == parse_rack(RACK)


def test_rows_are_counted_as_a_spreadsheet_counts_them():
    with pytest.raises(FileProblems) as caught:
        parse_rack(RACK.replace("\n1,S-02", "\n\n,,\n1,S-02").replace("56 1/4 in", "56 yd"))
    assert caught.value.problems[0].place == "row 5, length"


@pytest.mark.parametrize("name", INERT_NAMES)
def test_names_are_only_text(name):
    job = parse_job(changed(JOB, '"Tail bar"', f"'''{name}'''"))
    assert job.part("T2").name == name
    assert parse_job(render_job(job)) == job
    rack = parse_rack(RACK)
    noted = type(rack)((type(rack.sticks[0])(**{**vars(rack.sticks[0]), "note": name}), *rack.sticks[1:]))
    text = render_rack(noted)
    assert parse_rack(text) == noted
    cell = next(cell for cell in text.splitlines()[1].rsplit("no,no,,", 1)[1:])
    assert cell.lstrip('"')[0] not in "=+-@\t\r"


def test_absent_and_folder_are_in_the_table_for_both():
    for content in (ABSENT, FOLDER):
        assert {spoiled.kind for spoiled in SPOILED if spoiled.content is content} == {"job", "rack"}
