"""A learner's copies of the lessons: untouched ones follow the course, changed ones are kept, and nothing of a learner's is lost."""

import json
import os
import random
from datetime import date
from pathlib import Path

import nbformat
import pytest
from nbformat import v4

from anglelib import copies
from anglelib.__main__ import main
from anglelib.copies import CourseError, Filled, Fresh, Kept, follow, fresh
from anglelib.copies_words import filled_words, fresh_words

DAY = date(2026, 5, 4)
LESSON, RACK, FIGURE = "notebooks/07_taper_inside.ipynb", "notebooks/demo/rack.csv", "figures/section.png"
BESIDE = "notebooks/07_taper_inside_mine_2026-05-04.ipynb"


def lesson(*words: str, outputs: bool = False) -> str:
    """A lesson with a cell of text and cells of code, as nbformat writes it."""
    cells = [v4.new_markdown_cell(f"# 07 {words[0]}"), *(v4.new_code_cell(word) for word in words)]
    for number, cell in enumerate(cells):
        cell.id = f"07-{number:02}"
        if outputs and cell.cell_type == "code":
            cell.execution_count, cell.outputs = number, [v4.new_output("display_data", {"text/html": "<img>", "text/plain": "seen"})]
    return v4.writes(v4.new_notebook(cells=cells))


@pytest.fixture
def project(tmp_path):
    put(tmp_path / "project", {LESSON: lesson("lesson.a()"), "notebooks/home.ipynb": lesson("home"), RACK: "one", FIGURE: "a picture"})
    return tmp_path / "project"


@pytest.fixture
def own(tmp_path):
    return tmp_path / "own"


def put(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")


def all_of(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8")
        for path in folder.rglob("*") if path.is_file() and path.name != copies.RECORD
    }  # fmt: skip


def changed(folder: Path, change) -> str:
    """The lesson in the folder after a change by nbformat's own means, written back as JupyterLab writes it."""
    notebook = nbformat.read(folder / LESSON, as_version=4)
    change(notebook)
    text = nbformat.writes(notebook) + "\n"
    (folder / LESSON).write_text(text, encoding="utf-8")
    return text


def run(notebook) -> None:
    for cell in notebook.cells:
        if cell.cell_type == "code":
            cell.execution_count, cell.outputs = 41, [v4.new_output("stream", text="run")]


def unfold(notebook) -> None:
    for cell in notebook.cells:
        cell.metadata["jupyter"] = {"source_hidden": False}
        cell.metadata["collapsed"] = True


NO_CHANGE = {
    "run": run,
    "unfolded": unfold,
    "an empty cell at the foot": lambda notebook: notebook.cells.append(v4.new_code_cell(" \n")),
    "another kernel's words": lambda notebook: notebook.metadata.update(language_info={"name": "python", "version": "3.14"}),
}
CHANGE = {
    "a word": lambda notebook: notebook.cells[0].update(source="# 07 mine"),
    "a line of code": lambda notebook: notebook.cells[1].update(source="lesson.a(2)"),
    "a cell more": lambda notebook: notebook.cells.append(v4.new_code_cell("1 + 1")),
    "a cell less": lambda notebook: notebook.cells.pop(),
    "another order": lambda notebook: notebook.cells.reverse(),
    "another kind of cell": lambda notebook: notebook.cells.append(v4.new_markdown_cell(notebook.cells.pop().source)),
    "a picture in the text": lambda notebook: notebook.cells[0].update(attachments={"a.png": {"image/png": "aGk="}}),
}


@pytest.mark.parametrize("what", NO_CHANGE)
def test_an_untouched_copy_follows_the_course(what, project, own):
    follow(own, project, DAY)
    changed(own, NO_CHANGE[what])
    new = lesson("lesson.b()")
    put(project, {LESSON: new})
    assert follow(own, project, DAY) == Filled(renewed=(LESSON,))
    assert all_of(own) == all_of(project)
    assert follow(own, project, DAY) == Filled(), "said twice"


@pytest.mark.parametrize("what", CHANGE)
def test_a_changed_copy_is_kept_beside_the_new_one_and_said_once(what, project, own):
    follow(own, project, DAY)
    mine = changed(own, CHANGE[what])
    assert follow(own, project, DAY) == Filled(), "the course has nothing new"
    put(project, {LESSON: lesson("lesson.b()")})
    filled = follow(own, project, DAY)
    assert filled == Filled(kept=(Kept(LESSON, BESIDE),))
    assert all_of(own) == all_of(project) | {BESIDE: mine}
    (said,) = filled_words(filled)
    assert LESSON in said and BESIDE in said
    assert follow(own, project, DAY) == Filled() and filled_words(Filled()) == ()


def test_new_pictures_of_the_same_lesson_leave_the_learners_changes(project, own):
    """The course's saved outputs are no reason to move what a learner works on."""
    follow(own, project, DAY)
    mine = changed(own, CHANGE["a line of code"])
    put(project, {LESSON: lesson("lesson.a()", outputs=True)})
    assert follow(own, project, DAY) == Filled() and (own / LESSON).read_text(encoding="utf-8") == mine


def test_each_change_is_kept_under_a_name_of_its_own(project, own):
    follow(own, project, DAY)
    mine = []
    for number in range(3):
        mine.append(changed(own, lambda notebook, n=number: notebook.cells[0].update(source=f"# mine {n}")))
        put(project, {LESSON: lesson(f"lesson.b({number})")})
        follow(own, project, DAY)
    kept = {name: text for name, text in all_of(own).items() if "_mine_" in name}
    assert sorted(kept.values()) == sorted(mine) and len(kept) == 3


def test_a_data_file_of_the_learners_keeps_its_name_and_is_named_once(project, own):
    follow(own, project, DAY)
    put(own, {RACK: "my sticks"})
    put(project, {RACK: "two", FIGURE: "a better picture"})
    filled = follow(own, project, DAY)
    assert filled == Filled(renewed=(FIGURE,), left=(RACK,)) and "course --fresh demo/rack.csv" in "".join(filled_words(filled))
    assert (own / RACK).read_text() == "my sticks" and (own / FIGURE).read_text() == "a better picture"
    assert follow(own, project, DAY) == Filled()
    put(project, {RACK: "three"})
    assert follow(own, project, DAY).left == (RACK,)
    assert fresh(own, project, "demo/rack.csv", DAY).kept == Kept(RACK, "notebooks/demo/rack_mine_2026-05-04.csv")
    assert follow(own, project, DAY) == Filled()


@pytest.mark.parametrize("record", [None, "", "{", "[]", '{"format": 2}', '{"format": 2, "files": 3}', f'{{"{LESSON}": 7}}', "\udcff"])
def test_a_lost_or_spoiled_record_loses_nothing(record, project, own):
    follow(own, project, DAY)
    mine = changed(own, CHANGE["a word"])
    (own / copies.RECORD).unlink() if record is None else (own / copies.RECORD).write_bytes(record.encode(errors="surrogateescape"))
    assert follow(own, project, DAY).kept == (Kept(LESSON, BESIDE),)
    assert (own / BESIDE).read_text(encoding="utf-8") == mine


def test_the_record_of_the_first_format_is_read(project, own):
    follow(own, project, DAY)
    digests = {name: copies.digest((project / name).read_bytes()) for name in (LESSON, RACK, FIGURE)}
    (own / copies.RECORD).write_text(json.dumps(digests), encoding="utf-8")
    assert follow(own, project, DAY) == Filled()
    (own / copies.RECORD).write_text(json.dumps(digests), encoding="utf-8")
    put(project, {LESSON: lesson("lesson.b()"), RACK: "two"})
    assert follow(own, project, DAY).renewed == (FIGURE, LESSON, RACK)[1:]


def said_in(folder: Path) -> set[str]:
    """What every cell of every notebook in the folder says."""
    found = [nbformat.read(path, as_version=4) for path in (folder / "notebooks").glob("*.ipynb")]
    return {cell.source for notebook in found for cell in notebook.cells}


def test_whatever_happens_every_text_of_the_learners_is_still_there(project, own):
    """Random days: the learner runs and changes, the course changes, a fresh copy is asked for, the record is lost."""
    rng, mine = random.Random(7), set()
    follow(own, project, DAY)
    for day in range(150):
        deed = rng.choice(("run", "change", "course", "fresh", "follow", "lose the record"))
        if deed == "run":
            changed(own, run)
        elif deed == "change":
            changed(own, lambda notebook, d=day: notebook.cells[0].update(source=f"# mine on day {d}"))
            mine = mine & said_in(own) | {f"# mine on day {day}"}  # what the learner overwrites is theirs to overwrite
        elif deed == "course":
            put(project, {LESSON: lesson(f"lesson.b({day})")})
        elif deed == "fresh":
            fresh(own, project, "07", DAY)
        elif deed == "follow":
            follow(own, project, DAY)
        else:
            (own / copies.RECORD).unlink(missing_ok=True)
        assert mine <= said_in(own), f"lost on day {day} by {deed}"
    assert len(mine) > 5


@pytest.mark.parametrize("asked", ["07", "07_taper_inside", "07_taper_inside.ipynb", LESSON, " 07 ", "notebooks\\07_taper_inside.ipynb"])
def test_a_fresh_copy_by_any_of_its_names(asked, project, own):
    follow(own, project, DAY)
    mine = changed(own, CHANGE["a word"])
    made = fresh(own, project, asked, DAY)
    assert made == Fresh(LESSON, Kept(LESSON, BESIDE)) and BESIDE in fresh_words(made)
    assert all_of(own) == all_of(project) | {BESIDE: mine}
    assert follow(own, project, DAY) == Filled()


def test_a_fresh_copy_of_what_was_only_run_or_deleted_keeps_nothing(project, own):
    follow(own, project, DAY)
    changed(own, run)
    assert fresh(own, project, "07", DAY) == Fresh(LESSON) and all_of(own) == all_of(project)
    (own / LESSON).unlink()
    assert fresh(own, project, "07", DAY) == Fresh(LESSON) and all_of(own) == all_of(project)


@pytest.mark.parametrize("asked", ["", "99", "../07", "/etc/passwd", "..\\..\\x", "7\0", "x" * 5000, "tests/secret", "notebooks", "07_taper_outside"])
def test_a_fresh_copy_of_what_there_is_not_is_one_sentence(asked, project, own):
    follow(own, project, DAY)
    before = all_of(own)
    with pytest.raises(CourseError, match="has no lesson") as raised:
        fresh(own, project, asked, DAY)
    assert "\n" not in str(raised.value) and len(str(raised.value)) < 300 and all_of(own) == before


def test_a_class_has_the_courses_own(project, own):
    own.mkdir()
    try:
        (own / "notebooks").symlink_to(project / "notebooks", target_is_directory=True)
    except OSError:
        pytest.skip("this system lets nobody make links")
    before = all_of(project)
    with pytest.raises(CourseError, match="the course's own"):
        fresh(own, project, "07", DAY)
    assert all_of(project) == before


@pytest.mark.parametrize("call", ["rename", "write_bytes"])
def test_a_disk_that_is_full_loses_nothing(call, project, own, monkeypatch):
    follow(own, project, DAY)
    mine = changed(own, CHANGE["a word"])
    put(project, {LESSON: lesson("lesson.b()")})
    real, calls = os.rename, []

    def full(*given, **more):
        calls.append(given)
        if call == "write_bytes" or len(calls) == 2:
            raise OSError(28, "No space left on device", str(own))
        return real(*given, **more)

    monkeypatch.setattr(*((os, "rename") if call == "rename" else (Path, "write_bytes")), full)
    with pytest.raises(OSError):
        follow(own, project, DAY)
    assert mine in all_of(own).values() and calls


def test_the_command_makes_a_fresh_copy(project, own, monkeypatch, capfd):
    from anglelib import course

    monkeypatch.setattr(course, "PROJECT", project)
    monkeypatch.setenv("ANGLELIB_HOME", str(own))
    course.fill(own, project)
    changed(own, CHANGE["a word"])
    assert main(["course", "--fresh", "07"]) == 0
    said = " ".join(capfd.readouterr().out.split())
    assert "is now as the course has it" in said and "kept beside it: notebooks/07_taper_inside_mine_" in said
    assert main(["course", "--fresh", "77"]) == 2
    assert "has no lesson '77'" in capfd.readouterr().err
