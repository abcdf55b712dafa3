"""JupyterLab as the course opens it: what a saved lesson keeps, how the server reads and saves it, what the script in the browser is told."""

import asyncio
import copy
import json
import re
from pathlib import Path

import nbformat
import pytest
from nbformat import v4
from nbformat.sign import MemorySignatureStore

from anglelib import after, course, explained
from anglelib.copies import PROJECT, Filled, Kept, shipped
from anglelib.lab import handlers, views
from anglelib.lab.page_words import page_words
from anglelib.lab.words import WORDS

EXTENSION = course.LAB / "anglelib-lab"
SCRIPT = (EXTENSION / "lessons.js").read_text(encoding="utf-8")
PICTURE = {"text/html": '<img alt="A taper." src="data:image/svg+xml;base64,PHN2Zy8+">', "text/plain": "A taper."}


def lesson() -> dict:
    """A lesson as JupyterLab holds it after a run, with the state of its widgets."""
    shown = {**PICTURE, views.VIEW: {"version_major": 2, "version_minor": 0, "model_id": "7f"}}
    cells = [
        v4.new_markdown_cell("# 07"),
        v4.new_code_cell("lesson.a()", execution_count=1, outputs=[v4.new_output("execute_result", shown, execution_count=1)]),
        v4.new_code_cell("x", execution_count=2, outputs=[v4.new_output("display_data", {views.VIEW: {"model_id": "8a"}}), v4.new_output("stream", text="x")]),
    ]  # fmt: skip
    state = {"application/vnd.jupyter.widget-state+json": {"state": {}, "version_major": 2, "version_minor": 0}}
    return v4.new_notebook(cells=cells, metadata={"widgets": state, "kernelspec": {"name": "python3", "display_name": "Python 3"}})


def data_of(notebook) -> list[dict]:
    return [dict(output["data"]) for cell in notebook["cells"] for output in cell.get("outputs", ()) if "data" in output]


def test_a_view_is_set_aside_and_the_picture_stays():
    notebook = lesson()
    assert views.set_aside(notebook) == 2
    assert data_of(notebook) == [PICTURE, {"text/plain": views.NOT_RUN}] and "widgets" not in notebook.metadata
    assert [output["metadata"] for cell in notebook.cells for output in cell.get("outputs", ()) if "data" in output] == [
        {views.ASIDE: "7f"}, {views.ASIDE: "8a"}
    ]  # fmt: skip
    nbformat.validate(notebook)
    again = copy.deepcopy(notebook)
    assert views.set_aside(again) == 0 and again == notebook
    views.forget(notebook)
    assert views.ASIDE not in json.dumps(notebook)


ODD = [None, [], {}, "x", {"cells": None}, {"cells": [None, {"outputs": 3}, {"outputs": [None, {"data": 4}, {"data": {views.VIEW: 5}}]}], "metadata": 6}]


@pytest.mark.parametrize("notebook", ODD, ids=str)
def test_what_is_no_notebook_is_let_be(notebook):
    views.set_aside(notebook)
    views.forget(notebook)
    assert views.VIEW not in json.dumps(notebook)


@pytest.fixture
def server_side(tmp_path):
    """The contents of a learner's folder as the course's JupyterLab reads and saves them."""
    from anglelib.lab.lessons import Lessons

    made = Lessons(root_dir=str(tmp_path))
    made.notary.store = MemorySignatureStore()
    return made


def test_a_saved_file_has_no_view_and_is_still_the_learners_own(server_side, tmp_path):
    run = lesson()
    for cell in run.cells[1:]:
        cell.metadata["trusted"] = True  # as JupyterLab says of what ran
    asyncio.run(server_side.save({"type": "notebook", "content": run}, "07.ipynb"))
    written = json.loads((tmp_path / "07.ipynb").read_text(encoding="utf-8"))
    assert data_of(written)[0].keys() == PICTURE.keys() and "widgets" not in written["metadata"] and views.VIEW not in json.dumps(written)
    read = asyncio.run(server_side.get("07.ipynb"))
    assert read["content"]["cells"][1]["metadata"]["trusted"] is True, "the saved page is no stranger's: its own signature holds"


def test_a_file_that_was_saved_with_its_views_is_read_without(server_side, tmp_path):
    nbformat.write(lesson(), tmp_path / "07.ipynb")
    before = (tmp_path / "07.ipynb").read_bytes()
    for more in ({}, {"type": "notebook"}, {"require_hash": True}):
        content = asyncio.run(server_side.get("07.ipynb", **more))["content"]
        assert data_of(content)[0] == PICTURE and "widgets" not in content["metadata"]
    assert (tmp_path / "07.ipynb").read_bytes() == before, "reading changes nothing"


def test_other_files_are_as_anywhere(server_side, tmp_path):
    asyncio.run(server_side.save({"type": "file", "format": "text", "content": views.VIEW}, "a.txt"))
    assert asyncio.run(server_side.get("a.txt"))["content"] == views.VIEW
    assert [one["name"] for one in asyncio.run(server_side.get(""))["content"]] == ["a.txt"]
    assert asyncio.run(server_side.get("a.txt", content=False))["content"] is None


# --- the script in the browser -------------------------------------------------------------------------------------------
def test_the_script_and_the_server_use_the_same_names():
    for name in (views.VIEW, views.ASIDE):
        assert f'"{name}"' in SCRIPT
    used = set(re.findall(r"(?<!\")\bwords\.(\w+)", re.sub(r"(?s)  // --- words of the glossary.*?(?=  // ---)", "", SCRIPT.partition("(() => {")[2]))) | set(re.findall(r'\bsay\("(\w+)"\)', SCRIPT))
    assert used == set(WORDS), "a word that is not said, or one that there is not"


def test_jupyterlab_finds_the_script_and_leaves_its_own_way_of_running_out():
    from jupyterlab_server.config import get_federated_extensions

    (found,) = get_federated_extensions([str(course.LAB)]).values()
    assert (EXTENSION / found["jupyterlab"]["_build"]["load"]).is_file()
    assert found["jupyterlab"]["disabledExtensions"] == ["@jupyterlab/notebook-extension:cell-executor"]
    assert f'NAME = "{found["name"]}"' in SCRIPT


def test_what_opens_the_folds_and_shows_the_words_lies_where_the_script_looks():
    (names,) = re.findall(r'\[([^]]+)\].map\(name => new URL\(name, document.currentScript.src\)\)', SCRIPT)
    assert [(EXTENSION / name).read_text(encoding="utf-8") for name in re.findall(r'"([^"]+)"', names)] == [after.script(), explained.script()]


def test_the_words_of_a_page_are_those_of_the_plain_page_and_of_no_other_file():
    found = page_words("notebooks/07_taper_inside.ipynb")
    texts = ["".join(cell["source"]) for cell in json.loads(Path(PROJECT, "notebooks", "07_taper_inside.ipynb").read_text())["cells"] if cell["cell_type"] == "markdown"]
    marked, used = explained.explained(texts, "07_taper_inside")
    assert sum(len(cell["words"]) for cell in found["cells"]) == sum(text.count("data-word=") for text in marked) > 20
    assert [cell["text"] for cell in found["cells"]] == [text for text, one in zip(texts, marked, strict=True) if "data-word=" in one]
    assert set(found["meanings"]) == set(used) and "button.word" in found["style"]
    for name in ("", "notebooks/home.ipynb", "notebooks/07_taper_inside", "../README.md", "notebooks/../README.md", "figures/word-heel.svg", "/etc/passwd", "notebooks/07_taper_inside_mine_2026-05-04.ipynb"):
        assert page_words(name) == {}, name


def test_the_buttons_are_for_the_courses_pages():
    names = [name for name in shipped(PROJECT) if name.endswith(".ipynb")]
    assert {f"notebooks/{path.name}" for path in (PROJECT / "notebooks").glob("*.ipynb")} == set(names) and names


def test_the_server_is_told_of_each_part(tmp_path):
    given = course.options(tmp_path, "notebooks/00.ipynb", browser=False)
    assert "--ServerApp.contents_manager_class=anglelib.lab.lessons.Lessons" in given
    assert f"--ServerApp.jpserver_extensions={handlers.__name__}=True" in given and f"--LabApp.extra_labextensions_path={course.LAB}" in given


def test_what_became_of_the_copies_is_said_in_jupyterlab_too_and_once(monkeypatch, tmp_path):
    kept = Filled(kept=(Kept("notebooks/07_a.ipynb", "notebooks/07_a_mine_2026-05-04.ipynb"),))
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "mine"))
    monkeypatch.setattr(course, "fill", lambda folder, project: kept)
    monkeypatch.setattr(course, "_open_lab", lambda *how: None)
    assert course.main(["--lab", "--no-browser"]) == 0
    [notice] = handlers.notices()
    assert "kept beside it: notebooks/07_a_mine_2026-05-04.ipynb" in notice and handlers.notices() == []
    assert "told.notices" in SCRIPT and "Notification.emit(notice" in SCRIPT
