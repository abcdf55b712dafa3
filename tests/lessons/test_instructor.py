"""The instructor's page: votes hide the answer, the grid says what it finds, nobody is named where the class looks, the pack is written."""

import json

import pytest
from lesson_checks import THEMES, Page, legible

from anglelib.inspection.by_amount import by_amount, one_way
from anglelib.inspection.made import readings_of
from anglelib.inspection.reading_ids import chosen
from anglelib.lessons import instructor as lesson
from anglelib.lessons.demo import demo_job
from anglelib.lessons.live import View
from anglelib.lessons.readings_grid import MOST_PARTS, ReadingsGrid
from anglelib.lessons.room import ROOM
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.workshop.guide import DEMONSTRATIONS


@pytest.fixture(autouse=True)
def here(monkeypatch, tmp_path):
    """What is written is written into the test's folder."""
    monkeypatch.chdir(tmp_path)


# --- votes ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("which", range(1, len(DEMONSTRATIONS) + 1))
def test_a_vote_shows_its_answer_only_when_revealed(which):
    vote = lesson.vote(which)
    assert vote.right in vote.hands and 2 <= len(vote.options) <= 4 and vote.told == ()
    hidden, after = vote._sheet(False), vote._sheet(True)
    assert hidden != after and vote.question.working not in vote.words.value
    for n, option in enumerate(vote.options):
        vote.hands[option.id].value = n + 1
    vote.reveal.click()
    total = sum(range(1, len(vote.options) + 1))
    assert f" of {total} hands for {vote.question.answer_text}" in vote.told[0]
    for option in vote.options:  # every wrong answer that hands went up for is answered
        if option.id != vote.right:
            line = next(line for line in vote.told if f" for {option.words}: " in line)
            assert len(line.split(": ", 1)[1]) > 10 and "not so" not in line
    assert all(box.disabled for box in vote.hands.values())
    vote.again.click()
    assert vote.told == () and not any(box.disabled or box.value for box in vote.hands.values())


@pytest.mark.parametrize("theme", THEMES)
def test_votes_are_legible(theme):
    for which in range(1, len(DEMONSTRATIONS) + 1):
        vote = lesson.vote(which)
        for revealed in (False, True):
            legible(vote.draw(vote.start, View(theme, revealed)), theme, number=False)


def test_the_switch_is_that_of_all_pages():
    switch, vote = lesson.projector(), lesson.vote(1)
    before = vote.picture.value
    try:
        switch.button.value = True
        assert ROOM.theme == "projector" and vote.picture.value != before
    finally:
        switch.button.value = False
    assert ROOM.theme == "screen" and vote.picture.value == before


# --- readings -----------------------------------------------------------------------------------------------
def rows(code, part_id, slip):
    part = demo_job().part(part_id)
    made = by_amount(one_way(slip, part, demo_job().shop), 1)
    return [(code, part_id, id_, f"{readings_of(made)[id_]:.3f}") for id_ in chosen(part)]


def test_typed_readings_are_judged_and_nobody_is_named_to_the_class():
    grid = lesson.readings()
    grid.fill(rows("K01", "A1L", "M01") + rows("K02", "A1R", "M10") + [("K03", "A1L", "print", "inside")])
    grid.check.click()
    assert grid.found is not None and len(grid.found.parts) == 3  # what nothing was typed of is left out
    assert "M01" in grid.of_class.value and "M10" in grid.of_class.value
    assert "K0" not in grid.of_class.value + grid.words.value and grid.of_parts.value == ""
    grid.each.value = True
    assert "K01" in grid.of_parts.value and "Scrap" in grid.of_parts.value
    grid.each.value = False
    assert grid.of_parts.value == ""


def test_bad_entries_are_all_said_at_once():
    grid = ReadingsGrid("K01 A1L")
    names = list(grid.cells["K01", "A1L"])
    grid.check.click()
    assert "No reading is typed in yet" in grid.words.value
    grid.fill([("K01", "A1L", "print", "maybe"), ("K01", "A1L", names[1], "one"), ("K01", "A1L", names[2], "22.2")])
    grid.check.click()
    assert grid.found is None and all(word in grid.words.value for word in ("inside or misses", "not a length", "millimetres"))
    grid.made.value = "K01"
    assert "no code with its part" in grid.words.value
    grid.made.value = "K01 Z9"
    assert "no part" in grid.words.value
    grid.made.value = ", ".join(f"K{n} A3" for n in range(MOST_PARTS + 1))
    assert "load them from a file" in grid.words.value
    grid.job_file.value = "nowhere.toml"
    assert "no file" in grid.words.value


def test_what_was_typed_stays_when_a_part_is_added():
    grid = ReadingsGrid("K01 A1L")
    grid.fill(rows("K01", "A1L", "M01"))
    typed = {name: entry.value for name, entry in grid.cells["K01", "A1L"].items()}
    grid.made.value = "K01 A1L, K02 A3"
    assert {name: entry.value for name, entry in grid.cells["K01", "A1L"].items()} == typed and ("K02", "A3") in grid.cells


def test_readings_from_a_file(tmp_path):
    (tmp_path / "readings.csv").write_text("code,part,reading,read\nK01,A1L,check print,inside\n")
    grid = lesson.readings()
    grid.file.value = "readings.csv"
    grid.check.click()
    assert grid.found.sentence == "1 part: 1 pass."
    grid.file.value = "nowhere.csv"
    grid.check.click()
    assert grid.found is None and "no file nowhere.csv" in grid.words.value


# --- the rest of the page -----------------------------------------------------------------------------------
def test_who_is_stuck_without_names(tmp_path):
    for name in ("anna", "bert"):
        AnswerBook("07_taper_inside", tmp_path / "share" / name / "answers").add(
            Answer("predict-the-mark", 0, "1/8", "mistake", ("offset-as-thickness",))
        )
    box = lesson.stuck()
    box.button.click()
    assert "Name the folder" in box.words.value
    box.folder.value = str(tmp_path / "share")
    box.button.click()
    shown = box.words.value + box.table.value
    assert "2 x offset taken to be the thickness" in shown and "0 of 2" in shown and "To say to the class" in shown
    assert "anna" not in shown and "bert" not in shown
    box.folder.value = str(tmp_path / "nowhere")
    box.button.click()
    assert "no folder" in box.words.value and box.table.value == ""


def test_the_guide_is_written(tmp_path):
    box = lesson.print_guide()
    box.buttons["a4"].click()
    assert (tmp_path / "guide.pdf").read_bytes()[:5] == b"%PDF-" and "guide.pdf" in box.words.value


def test_the_class_pack_is_made_from_controls(tmp_path):
    box = lesson.pack()
    box.controls["learners"].value = 1
    box.folder.value = str(tmp_path / "pack")
    box.date.value = "tomorrow"
    box.make.click()
    assert "not a day" in box.trouble and not (tmp_path / "pack").exists()
    box.date.value = "2026-01-01"
    (tmp_path / "file").write_text("")
    box.folder.value = str(tmp_path / "file")
    box.make.click()
    assert "is a file" in box.trouble
    box.folder.value = str(tmp_path / "pack")
    box.make.click()
    assert box.trouble == "" and (tmp_path / "pack" / "class-job.toml").is_file()
    grid = lesson.readings()  # the pack's job is what its parts are checked by
    grid.made.value = "K01 C01"
    grid.job_file.value = str(tmp_path / "pack" / "class-job.toml")
    assert ("K01", "C01") in grid.cells


def test_the_table_on_the_page_has_at_least_twenty_four():
    shown = lesson.mistakes().rows
    assert len(shown) == 27 and sum("in no lesson" not in row[2] for row in shown) >= 24


def test_what_is_saved_can_be_read_unrun():
    text = json.dumps(Page.of(lesson).cells)
    assert "Say first" in text and "M27" in text and "Freeman" in text and "Hands counted?" in text


def test_what_is_written_goes_to_the_learners_folder_wherever_the_page_runs(tmp_path, monkeypatch):
    """A page's kernel may run beside the project's notebooks, which nobody shall write to."""
    own, elsewhere = tmp_path / "own", tmp_path / "elsewhere"
    own.mkdir()
    elsewhere.mkdir()
    monkeypatch.setenv("ANGLELIB_HOME", str(own))
    monkeypatch.chdir(elsewhere)
    guide = lesson.print_guide()
    guide.write("a4")
    pack = lesson.pack()
    pack.controls["learners"].value = 6
    pack.make.click()
    assert pack.trouble == "" and "guide.pdf" in guide.words.value
    assert sorted(path.name for path in own.iterdir()) == ["class-pack", "guide.pdf"] and list(elsewhere.iterdir()) == []
