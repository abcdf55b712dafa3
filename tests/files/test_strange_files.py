"""Whatever file is named, in place of whichever kind, one place says what it is, and the remedy fits the kind that was wanted."""

from __future__ import annotations

import bz2
import csv
import datetime
import gzip
import io
import lzma
import re
import zipfile
from fractions import Fraction as F

import pytest
from spoiled import JOB, RACK, changed

from anglelib.__main__ import main
from anglelib.errors import BenchError, FileProblems
from anglelib.files import open_job, open_rack, parse_job, parse_rack, read_job, read_rack, save_job, save_rack
from anglelib.files.dates import typed_fraction
from anglelib.files.job_text import render_job
from anglelib.files.rack_text import render_rack
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.workshop.readings_file import form, parse_readings, read_readings
from anglelib.workshop.who_is_stuck import look


def zipped(*names: str) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name in names:
            archive.writestr(name, "<x/>" * 50)
    return out.getvalue()


def drawn(kind: str) -> bytes:
    """A picture, by the library that draws the course's."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    out = io.BytesIO()
    figure = Figure((1, 1))
    FigureCanvasAgg(figure)
    figure.savefig(out, format=kind)
    return out.getvalue()


TEXT = "format,code\n1,Ärmel\n" * 40
STRANGE = {
    "UTF-16 (with its byte-order mark)": TEXT.encode("utf-16"),
    "UTF-16 (with its byte-order mark) ": ("\ufeff" + TEXT).encode("utf-16-be"),
    "UTF-16 (without a byte-order mark)": TEXT.encode("utf-16-le"),
    "UTF-16 (without a byte-order mark) ": TEXT.encode("utf-16-be"),
    "UTF-32": TEXT.encode("utf-32"),
    "Latin-1": TEXT.encode("latin-1"),
    "zero bytes": b"format = 1\n\0\0name",
    "a ZIP, a packed folder": zipped("job.toml", "rack.csv"),
    "a spreadsheet's own file": zipped("[Content_Types].xml", "xl/workbook.xml"),
    "a spreadsheet's own file ": b"PK\x03\x04" + b"\0" * 26 + b"mimetypeapplication/vnd.oasis.opendocument.spreadsheet",
    "a word processor's own file": zipped("[Content_Types].xml", "word/document.xml"),
    "an old office file": bytes.fromhex("d0cf11e0a1b11ae1") + b"\0" * 500,
    "a packed file": gzip.compress(TEXT.encode()),
    "a packed file ": lzma.compress(TEXT.encode()),
    "a packed file  ": bz2.compress(TEXT.encode()),
    "a PDF": b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n1 0 obj\n",
    "a picture": lambda: drawn("png"),
    "a picture ": lambda: drawn("jpg"),
    "a PDF ": lambda: drawn("pdf"),
    "a web page (HTML)": b"\n<!DOCTYPE html>\n<html><body>format = 1</body></html>",
    "a web page (HTML) ": b"\xef\xbb\xbf<html><head><title>job.toml</title></head></html>",
    "an XML file": b'<?xml version="1.0"?><job/>',
    "RTF": rb"{\rtf1\ansi format = 1}",
}
REMEDIES = {"job.toml": ("text editor", "job's own file"), "rack.csv": ("CSV UTF-8", "rack's own file"), "readings.csv": ("CSV UTF-8", "readings' own file")}


@pytest.mark.parametrize("what", STRANGE)
@pytest.mark.parametrize("name", REMEDIES)
def test_a_strange_file_is_called_what_it_is_and_the_remedy_fits_the_kind(what, name, tmp_path):
    made = STRANGE[what]
    path = tmp_path / name
    path.write_bytes(made() if callable(made) else made)
    job = parse_job(JOB)
    read = {"job.toml": read_job, "rack.csv": read_rack, "readings.csv": lambda path: read_readings(path, job)}[name]
    with pytest.raises(BenchError) as caught:
        read(path)
    said = str(caught.value)
    assert what.strip() in said and name in said and said.count("\n") == 0 and said.endswith(".")
    encoding, own = REMEDIES[name]
    foreign = {**dict.fromkeys(REMEDIES, own)}[name]
    wanted = encoding if "UTF-" in what or "Latin" in what else None
    if wanted:
        assert wanted in said and (name == "job.toml") is ("spreadsheet" not in said)
    else:
        assert foreign in said or any(word in said for word in ("unpack it", "from the spreadsheet", "from the word processor", "download the file itself"))


@pytest.mark.parametrize("what", STRANGE)
def test_a_strange_answer_file_is_named_and_left_out(what, tmp_path):
    made = STRANGE[what]
    folder = tmp_path / "a" / "answers"
    folder.mkdir(parents=True)
    (folder / "07_taper_inside.json").write_bytes(made() if callable(made) else made)
    (said,) = look([tmp_path]).trouble
    assert what.strip() in said and said.endswith("it is left out.")
    assert AnswerBook("07_taper_inside", folder).add(Answer("07-project", 0, "1", "right")) == ""  # a new file is begun beside it
    assert (folder / "07_taper_inside-2.json").exists()


def test_a_code_page_is_told_with_its_line_and_its_character(tmp_path):
    path = tmp_path / "job.toml"
    path.write_bytes(JOB.replace("Tail cleat, left", "Träger, links").encode("latin-1"))
    with pytest.raises(BenchError, match='job.toml, line 17: the character "ä" is stored as Latin-1'):
        read_job(path)


# --- old line ends ---------------------------------------------------------------------------------------
def test_old_line_ends_are_read_in_every_file(tmp_path):
    for name, text, read, parse in (("j.toml", JOB, read_job, parse_job), ("r.csv", RACK, read_rack, parse_rack)):
        old = text.replace("\n", "\r")
        (tmp_path / name).write_bytes(old.encode())
        assert read(tmp_path / name) == parse(text) == parse(old)
    job = parse_job(JOB)
    filled = form(job, ["K01"], ["T2"])
    rows = list(csv.reader(io.StringIO(filled)))
    rows[1][-1] = "inside"
    text = "\n".join(",".join(f'"{cell}"' for cell in row) for row in rows)
    assert parse_readings(text.replace("\n", "\r"), job) == parse_readings(text, job)


def test_a_problem_in_a_file_with_old_line_ends_has_its_line(tmp_path):
    with pytest.raises(FileProblems) as caught:
        parse_job(changed(JOB, 'kerf = "1/16"', "kerf = yes").replace("\n", "\r"))
    assert caught.value.problems[0].place == "line 6"


def test_a_job_with_old_line_ends_is_saved_with_its_comments(tmp_path):
    path = tmp_path / "job.toml"
    path.write_bytes(JOB.replace("\n", "\r").encode())
    opened = open_job(path)
    save_job(opened.value, path, opened)
    assert path.read_text() == render_job(parse_job(JOB), JOB) and "# A job to spoil." in path.read_text()


# --- separators -------------------------------------------------------------------------------------------
def with_sign(text: str, sign: str) -> str:
    out = io.StringIO()
    csv.writer(out, delimiter=sign, lineterminator="\n").writerows(csv.reader(io.StringIO(text)))
    return out.getvalue()


@pytest.mark.parametrize("sign", [";", "\t", "|", ","])
@pytest.mark.parametrize("note", ["", "sep={}\n", "SEP={}\r\n", '"sep={}"\n', "\ufeffsep={}\n", "sep={};;;\n"])
def test_a_spreadsheets_note_of_its_separator_is_read(sign, note):
    mended = note.format(sign) + with_sign(RACK, sign)
    assert parse_rack(mended.lstrip("\ufeff")) == parse_rack(RACK)
    job = parse_job(JOB)
    filled = form(job, ["K01"], ["T2"])
    assert parse_readings((note.format(sign) + with_sign(filled, sign)).lstrip("\ufeff"), job) == parse_readings(filled, job)


def test_a_row_below_a_note_is_counted_as_the_spreadsheet_shows_it():
    """The spreadsheet hides the note: the head is its row 1."""
    with pytest.raises(FileProblems) as caught:
        parse_rack("sep=;\n" + with_sign(RACK, ";").replace("56 1/4 in", "56 yd"))
    assert caught.value.problems[0].place == "row 3, length"


def test_a_saved_rack_keeps_its_note_and_its_separator(tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text("sep=;\n" + with_sign(RACK, ";"))
    opened = open_rack(path)
    save_rack(opened.value, path, opened)
    assert path.read_text() == "sep=;\n" + render_rack(parse_rack(RACK), ";") and read_rack(path) == parse_rack(RACK)


# --- dates ------------------------------------------------------------------------------------------------
def dates_of(day: datetime.date) -> list[str]:
    """What spreadsheets of several countries show of a day, written by Python's own calendar."""
    serial = (day - datetime.date(1899, 12, 30)).days
    short, long = day.strftime("%b"), day.strftime("%B")
    return [f"{day.day}. {short}", f"{day.day}-{short}", f"{short} {day.day}", f"{day.day}. {long}", f"{day.day:02d}-{short}-{day:%y}", day.isoformat(),
            f"{day.isoformat()} 00:00:00", f"{day:%d.%m.%Y}", f"{day.day}/{day.month}/{day.year}", str(serial), f"{short}. {day.day}", f"{long} {day.day}, {day.year}"]  # fmt: skip


@pytest.mark.parametrize("fraction", ["1/2", "1/4", "3/4", "1/8", "3/8", "5/8", "7/8"])
@pytest.mark.parametrize("month_first", [True, False])
def test_a_fraction_that_became_a_date_is_named_with_its_cell(fraction, month_first):
    """Whichever way round the spreadsheet took it; only 2/4-like pairs that are fractions both ways are left open."""
    above, below = map(int, fraction.split("/"))
    day = datetime.date(2024, *((above, below) if month_first else (below, above)))
    for said in dates_of(day):
        assert typed_fraction(said) == fraction, said
        with pytest.raises(FileProblems) as caught:
            parse_rack(changed(RACK, "56 1/4 in", f'"{said}"'))
        (problem,) = caught.value.problems
        assert problem.place == "row 3, length" and said in problem.message
        assert "spreadsheet's date" in problem.message and f"format the column as text, then write {fraction} in" in problem.message
        job = parse_job(JOB)
        with pytest.raises(FileProblems) as caught:
            parse_readings(f'code,part,id,read\nK01,T2,heel,"{said}"', job)
        assert caught.value.problems[0].place == "row 2, read" and fraction in caught.value.problems[0].message
        with pytest.raises(FileProblems) as caught:
            parse_job(changed(JOB, 'length = "17 1/2"', f'length = "{said}"'))
        assert caught.value.problems[0].place == "part T2, length" and "column" not in caught.value.problems[0].message


@pytest.mark.parametrize("said", ["29 1/2 in to 4. Mrz", "3. Apr to 31 in"])
def test_a_date_among_the_dents_is_named(said):
    with pytest.raises(FileProblems, match="row 3, dents.*spreadsheet's date"):
        parse_rack(changed(RACK, "29 1/2 in to 31 in", said))


@pytest.mark.parametrize("text", ["3 inches", "1-3/4 in", "17 1/4", "3 in", "12 mm", "1.625", "5' 3 1/4\"", "12", "99999", "10000", "3/4", "1 3/8 in."])
def test_a_length_is_no_date(text):
    assert typed_fraction(text) is None


def test_a_bare_date_in_a_job_is_named():
    with pytest.raises(FileProblems, match="part T2, length.*spreadsheet's date"):
        parse_job(changed(JOB, 'length = "17 1/2"', "length = 2024-03-04"))


@pytest.mark.parametrize("name", ["job.toml", "rack.csv"])
def test_the_command_says_it_too(name, tmp_path, capsys):
    for file, text in (("job.toml", JOB), ("rack.csv", RACK)):
        (tmp_path / file).write_text(text)
    (tmp_path / name).write_bytes(TEXT.encode("utf-16"))
    assert main(["plan", str(tmp_path / "job.toml"), str(tmp_path / "rack.csv")]) == 2
    said = capsys.readouterr().err
    assert re.search(rf"{name} is stored as UTF-16", said) and ("spreadsheet" in said) is (name == "rack.csv")


def test_fractions_are_what_they_say():
    assert F(typed_fraction("3-Apr")) == F(3, 4) and typed_fraction("2-Apr") == "2/4"
