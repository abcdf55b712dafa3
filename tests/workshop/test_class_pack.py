"""The class pack as printed: what is in it, that nothing hides or leaves the page, that the same seed gives the same, bad folders."""

import datetime
import io
import os
from dataclasses import replace

import pytest
from pypdf import PdfReader

from anglelib import whole_sets
from anglelib.__main__ import main
from anglelib.drawing.checks import bounds, clipped, overlaps, struck
from anglelib.errors import BenchError, StorageError
from anglelib.files import read_job, read_rack
from anglelib.paper.page import A4, FOOT, LETTER, MARGIN
from anglelib.stock.checker import faults
from anglelib.stock.planner import plan
from anglelib.workshop.class_pack import KEY, PACK, WORKSHEETS, make_class_pack, write_class_pack
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.day import day_of
from anglelib.workshop.handouts import LESSONS, handouts
from anglelib.workshop.rotation import rotation
from anglelib.workshop.timetable import timetable_pages

DAY = datetime.date(2024, 5, 1)


@pytest.fixture(scope="module")
def two():
    return make_class_pack(ClassWanted(2, date=DAY))


@pytest.fixture(scope="module")
def six():
    return make_class_pack(ClassWanted(6, date=DAY, paper="a4"))


def unreadable(sheets) -> list[str]:
    """Words that hide one another, that a line strikes, or that leave the page or run into its foot."""
    found = []
    for sheet in sheets:
        line = next(n for n, item in enumerate(sheet.items) if getattr(item, "y1", 0) == getattr(item, "y2", 1) == MARGIN + FOOT)
        foot = sheet.items[line : line + 4]
        found += [f"{sheet.title}: {a.text} / {b.text}" for a, b in overlaps(sheet, "paper")]
        # the pictures of the lessons are drawn smaller here, their lines as wide as ever: a little is touched sooner
        found += [f"{sheet.title}: {label.text} is struck" for label, _ in struck(sheet, "paper", 0.3)]
        found += [f"{sheet.title}: {label.text} is cut off" for label in clipped(sheet, "paper", 2.0)]
        above = [item for item in sheet.items if item not in foot]
        found += [f"{sheet.title}: something runs into the foot" for item in above if bounds((item,))[1] < MARGIN + FOOT]
    return found


def test_every_page_of_six_is_readable_on_a4(six):
    assert [said for printed in six.printed.values() for said in unreadable(printed.sheets)] == []
    assert max(len(handouts(on)) for on in (A4, LETTER)) == 26


def test_a_pack_on_letter_is_readable(two):
    assert [said for printed in two.printed.values() for said in unreadable(printed.sheets)] == []


@pytest.mark.slow
@pytest.mark.parametrize("number", [12, 20, 40])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_page_of_a_large_class_is_readable(number, paper):
    pack = make_class_pack(ClassWanted(number, date=DAY, paper=paper, saws=2, discs=2, competent=2))
    assert [said for printed in pack.printed.values() for said in unreadable(printed.sheets)] == []


def test_what_is_in_it(six):
    titles = [sheet.title for sheet in six.printed[PACK].sheets]
    for name in ("Class pack for 6 learners", "Timetable of the day", "The rotation", "Who is where", "Stock to buy", "Safety briefing", "Sign-off",
                 "Inspection of the parts"):  # fmt: skip
        assert any(title.startswith(name) for title in titles), name
    fronts = [n for n, title in enumerate(titles) if title.endswith(", front")]
    assert len(fronts) == len(LESSONS) == 13
    assert all(n % 2 == 0 and titles[n + 1].endswith(", back") for n in fronts)  # counted from 0: a front lies on an odd page
    own = [sheet.title for sheet in six.printed[WORKSHEETS].sheets]
    for one in six.people:
        for what in ("Card of", "Fold sheet of", "Check print of"):
            assert f"{what} {one.part.name}" in own
    assert sum(title.startswith("Worksheet of") for title in own) == 12


def test_the_key_is_in_its_own_file_only(six):
    files = six.files()
    texts = {name: " ".join(page.extract_text() for page in PdfReader(io.BytesIO(files[name])).pages) for name in (PACK, WORKSHEETS, KEY)}
    weights = [asked.question.answer_text for sheet in six.worksheets for asked in sheet.lessons if asked.name == "weight"]
    assert all(answer in texts[KEY] for answer in weights)
    assert not any(answer in texts[name] for answer in weights for name in (PACK, WORKSHEETS))
    assert all(f"page {n} of" in texts[PACK] for n in (1, 2))


def test_the_same_seed_gives_the_same_pack_and_the_day_only_its_date(two):
    again = make_class_pack(ClassWanted(2, date=DAY))
    assert again.printed == two.printed and again.files() == two.files()
    later = make_class_pack(ClassWanted(2, date="2025-06-01"))
    assert later.people == two.people and later.worksheets == two.worksheets and later.day.rotation == two.day.rotation
    dated = [(a.text, b.text) for name in two.printed for one, other in zip(two.printed[name].sheets, later.printed[name].sheets, strict=True)
             for a, b in zip(one.items, other.items, strict=True) if a != b]  # fmt: skip
    assert {b.replace("2025-06-01", "2024-05-01") == a for a, b in dated} == {True}
    assert make_class_pack(ClassWanted(2, date=DAY, seed="2")).printed != two.printed


def test_the_rotation_is_drawn_true_to_the_clock():
    day = day_of(ClassWanted(2), rotation(ClassWanted(2)))
    page = next(page for page in timetable_pages(day) if page.title == "The rotation")
    boxes = [item for item in page.items if getattr(item, "closed", False)]
    drawn = sorted(round((max(x for x, _ in box.points) - min(x for x, _ in box.points)), 3) for box in boxes)
    machines = [v.end - v.start for v in day.rotation.visits if v.station != "bench"]
    unit = drawn[-1] / max(machines)
    assert drawn == pytest.approx(sorted(2 * [minutes * unit for minutes in machines]), abs=0.01)  # a row a machine and a row a learner


def test_written_read_back_and_planned(two, tmp_path, capsys):
    heard = []
    paths = write_class_pack(two, tmp_path / "pack", lambda share, words: heard.append(share))
    assert sorted(path.name for path in paths) == sorted(os.listdir(tmp_path / "pack")) and heard == sorted(heard)
    for name in ("class", "pieces"):
        job, rack = read_job(tmp_path / "pack" / f"{name}-job.toml"), read_rack(tmp_path / "pack" / f"{name}-rack.csv")
        made = plan(job, rack)
        assert not made.shortages and not faults(made, job, rack)


def test_from_the_command_line(tmp_path, capsys):
    out = tmp_path / "day"
    assert main(["class", "--learners", "1", "--out", str(out), "--date", "2024-05-01", "--hours", "8"]) == 0
    said = capsys.readouterr().out
    assert "1 learner, 1 part of their own." in said and "proven the shortest" in said and "buy one 72" in said
    assert main(["class", "--learners", "1", "--out", str(out), "--date", "2024-05-01", "--hours", "4"]) == 3
    assert (out / "key.previous.pdf").is_file()


@pytest.mark.parametrize("words, said", [
    (["--learners", "0"], "needs learners"), (["--learners", "500"], "at most 40"), (["--learners", "ten"], "not a whole number"),
    (["--learners", "6", "--date", "soon"], "not a day"), (["--learners", "6", "--minutes", "saw=x"], "minutes"), (["--learners", "6", "--lengths", ""], "length"),
])  # fmt: skip
def test_bad_words_are_a_sentence_and_nothing_is_written(words, said, tmp_path, capsys):
    assert main(["class", *words, "--out", str(tmp_path / "out")]) == 2
    error = capsys.readouterr().err
    assert said in error and error.count("\n") == 1 and not (tmp_path / "out").exists()


def test_a_folder_that_cannot_be_used(two, tmp_path):
    (tmp_path / "file").write_text("mine")
    with pytest.raises(BenchError, match="is a file"):
        write_class_pack(two, tmp_path / "file")
    with pytest.raises(BenchError, match="is not there"):
        write_class_pack(two, tmp_path / "no" / "such")
    assert (tmp_path / "file").read_text() == "mine" and not (tmp_path / "no").exists()


def test_nothing_is_left_half_written(two, tmp_path, monkeypatch):
    (tmp_path / "pack").mkdir()
    (tmp_path / "pack" / "mine.txt").write_text("mine")
    count, written = [0], whole_sets.write_new

    def full(path, content, like):
        count[0] += 1
        if count[0] % 3 == 0:
            raise OSError(28, "No space left on device")
        return written(path, content, like)

    monkeypatch.setattr(whole_sets, "write_new", full)
    for folder in ("pack", "fresh"):
        with pytest.raises(StorageError, match="the disk is full. Nothing was written"):
            write_class_pack(two, tmp_path / folder)
    assert os.listdir(tmp_path / "pack") == ["mine.txt"] and not (tmp_path / "fresh").exists()


def test_words_that_hide_or_leave_the_page_are_seen(two):
    sheet = two.printed[KEY].sheets[0]
    label = next(item for item in sheet.items if getattr(item, "text", "") == "Key to the worksheets")
    assert unreadable([sheet]) == []
    assert any("/" in said for said in unreadable([sheet.with_items(replace(label, text="over it"))]))
    assert any("cut off" in said for said in unreadable([sheet.with_items(replace(label, x=208.0, y=150.0))]))
    assert any("foot" in said for said in unreadable([sheet.with_items(replace(label, y=19.0))]))
