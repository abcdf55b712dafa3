"""What a saved notebook must be, so that the strict run compares all of it and a reader sees it before running.

The cadence is the one of good courses: cells that read as sentences.
"""

import copy
import json
import math
import re
import statistics
from html.parser import HTMLParser
from pathlib import Path

import pytest

from anglelib.lab.views import NOT_RUN, VIEW

NOTEBOOKS = Path(__file__).resolve().parent.parent / "notebooks"
FOUND = sorted(path for path in NOTEBOOKS.rglob("*.ipynb") if ".ipynb_checkpoints" not in path.parts)
NAME = re.compile(r"\d\d_[a-z0-9_]+|[a-z][a-z0-9_]+")
MEDIAN, NINETIETH, LONGEST = 3, 8, 15
ABOUT_CODE = "13_behind_the_pictures"
"""The one lesson whose cells show their code, because that code is what it teaches: what is read there is what runs. Its cells that only
call the lesson's questions (``lesson.``) are collapsed as everywhere."""


class Pictures(HTMLParser):
    """The pictures of a piece of HTML: source and alternative text."""

    def __init__(self, text: str):
        super().__init__()
        self.found: list[tuple[str, str]] = []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        if tag == "img":
            given = dict(attributes)
            self.found.append((given.get("src") or "", (given.get("alt") or "").strip()))


def text_of(value) -> str:
    return value if isinstance(value, str) else "".join(value)


def code_cells(notebook: dict) -> list[dict]:
    return [cell for cell in notebook["cells"] if cell["cell_type"] == "code"]


def complaints(notebook: dict, folder: Path, name: str = "") -> list[str]:
    """What is wrong with one notebook, a sentence each."""
    code = code_cells(notebook)
    found = [f"code cell {n}: {what}" for n, cell in enumerate(code, 1) for what in cell_complaints(cell, name == ABOUT_CODE)]
    if not code:
        return ["there is no code cell, so nothing is run"]
    if (counts := [cell.get("execution_count") for cell in code]) != list(range(1, len(code) + 1)):
        found.append(f"execution counts are {counts}, not 1 to {len(code)}: restart the kernel, run all, save")
    lengths = sorted(lines_of(cell) for cell in code)
    if statistics.median(lengths) > MEDIAN or lengths[math.ceil(0.9 * len(lengths)) - 1] > NINETIETH or lengths[-1] > LONGEST:
        found.append(f"code cells of {lengths} lines: the median is at most {MEDIAN}, nine in ten at most {NINETIETH}, all at most {LONGEST}")
    if notebook["metadata"].get("kernelspec", {}).get("name") != "python3":
        found.append("the kernel is not python3")
    if "widgets" in notebook["metadata"]:
        found.append("the widgets' state is saved: it shows old numbers, and is large")
    for n, cell in enumerate(notebook["cells"], 1):
        if cell["metadata"].get("deletable") is not False:
            found.append(f"cell {n} can be deleted by a key that slips: python -m tests.refresh sets deletable to false")
        if cell["metadata"].get("editable") is False:
            found.append(f"cell {n} is not editable: who wants the code may change it")
        if cell["cell_type"] == "markdown":
            found += markdown_complaints(text_of(cell["source"]), folder, cell.get("attachments", {}))
    return found


def lines_of(cell: dict) -> int:
    return sum(1 for line in text_of(cell["source"]).splitlines() if line.strip())


def cell_complaints(cell: dict, about_code: bool = False) -> list[str]:
    source, found = text_of(cell["source"]), []
    hidden = bool(cell["metadata"].get("jupyter", {}).get("source_hidden"))
    shows = about_code and not re.match(r"lesson\.|from anglelib\.lessons import \w+ as lesson$", source)
    if not source.strip():
        found.append("is empty")
    if hidden is shows:
        found.append("is collapsed, but its code is what the lesson is about" if shows else "is not collapsed (jupyter.source_hidden)")
    if re.search(r"^\s*from\s+\S+\s+import\s+\*", source, re.MULTILINE):
        found.append("has a star import")
    if source.rstrip().endswith(";"):
        found.append("ends with a semicolon, on which the strict comparison fails")
    if {"nbval-skip", "nbval-ignore-output", "raises-exception"} & set(cell["metadata"].get("tags", ())):
        found.append("has a tag that takes it out of the strict comparison")
    for output in cell.get("outputs", ()):
        if output["output_type"] == "error":
            found.append(f"has an error saved: {output.get('ename')}")
        if output["output_type"] == "stream" and output.get("name") == "stderr":
            found.append("has a warning saved")
        if output["output_type"] in ("display_data", "execute_result"):
            found += output_complaints(output.get("data", {}))
    return found


def output_complaints(data: dict) -> list[str]:
    html = text_of(data.get("text/html", ""))
    pictures = Pictures(html).found
    found = [f"shows a picture without alt text: {source[:40]}" for source, alt in pictures if len(alt) < 10]
    if any(kind.startswith("image/") for kind in data) and not pictures:
        found.append("shows a picture of its own, which has no alt text: show it as HTML with alt")
    if VIEW in data:
        found.append("saves the view of a widget, which the next kernel does not know: python -m tests.refresh leaves it out")
    if text_of(data.get("text/plain", "")) == NOT_RUN:
        found.append("saves nothing that can be read before the page is run")
    if "<svg" in html:
        found.append("has inline SVG, which an untrusted notebook does not show: use img with a data address")
    return found


def markdown_complaints(text: str, folder: Path, attachments: dict) -> list[str]:
    prose = re.sub(r"```.*?```|`[^`]*`", "", text, flags=re.DOTALL)
    pictures = [(source, alt.strip()) for alt, source in re.findall(r"!\[([^\]]*)\]\(([^)\s]+)[^)]*\)", prose)] + Pictures(prose).found
    found = [f"a picture in the text has no alt text: {source[:60]}" for source, alt in pictures if len(alt) < 10]
    targets = [source for source, _ in pictures] + re.findall(r"(?<!!)\[[^\]]*\]\(([^)\s#]+)[^)]*\)", prose)
    for target in targets:
        if target.startswith("attachment:"):
            if target.removeprefix("attachment:") not in attachments:
                found.append(f"{target} is not attached")
        elif not re.match(r"[a-z]+:|#", target) and not (folder / target).exists():
            found.append(f"the text points to {target}, which is not there")
    return found


def test_there_are_notebooks():
    assert FOUND, f"no notebook in {NOTEBOOKS}: the tests of notebooks would pass with nothing to test"


@pytest.mark.parametrize("path", FOUND, ids=lambda path: path.stem)
def test_saved_as_a_reader_needs_it(path):
    notebook = json.loads(path.read_text(encoding="utf-8"))
    assert (notebook["nbformat"], bool(NAME.fullmatch(path.stem))) == (4, True)
    assert complaints(notebook, path.parent, path.stem) == []


def good(cells: int = 4) -> dict:
    """A notebook without fault, for the guard to be tried on."""
    picture = '<img alt="Leg A with a taper of 3 in." src="data:image/svg+xml;base64,PHN2Zy8+">'
    return {
        "cells": [{"cell_type": "markdown", "metadata": {"deletable": False}, "source": "# Taper a leg"}]
        + [
            {
                "cell_type": "code",
                "execution_count": n,
                "metadata": {"deletable": False, "jupyter": {"source_hidden": True}},
                "source": "lesson.taper()",
                "outputs": [
                    {"output_type": "execute_result", "execution_count": n, "metadata": {}, "data": {"text/html": picture, "text/plain": "x"}}
                ],
            }
            for n in range(1, cells + 1)
        ],
        "metadata": {"kernelspec": {"name": "python3"}},
        "nbformat": 4,
        "nbformat_minor": 5,
    }


def output(data: dict) -> dict:
    return {"output_type": "display_data", "metadata": {}, "data": data}


def change(where, value):
    def do(notebook):
        place = notebook
        for key in where[:-1]:
            place = place[key]
        place[where[-1]] = value

    return do


FAULTS = {
    "not 1 to 4": change(["cells", 2, "execution_count"], None),
    "execution counts": change(["cells", 1, "execution_count"], 7),
    "an error saved": change(["cells", 1, "outputs"], [{"output_type": "error", "ename": "ValueError"}]),
    "a warning saved": change(["cells", 1, "outputs"], [{"output_type": "stream", "name": "stderr", "text": "x"}]),
    "all at most 15": change(["cells", 1, "source"], "x = 1\n" * 16),
    "nine in ten": change(["cells", 1, "source"], "x = 1\n" * 9),
    "the median": lambda notebook: [change(["cells", n, "source"], "x = 1\n" * 4)(notebook) for n in (1, 2, 3)],
    "star import": change(["cells", 1, "source"], "from anglelib.part import *"),
    "semicolon": change(["cells", 1, "source"], "plot();\n"),
    "not python3": change(["metadata", "kernelspec", "name"], "angle"),
    "state is saved": change(["metadata", "widgets"], {}),
    "not collapsed": change(["cells", 1, "metadata"], {"deletable": False}),
    "cell 1 can be deleted": change(["cells", 0, "metadata"], {}),
    "cell 2 can be deleted": change(["cells", 1, "metadata", "deletable"], True),
    "not editable": change(["cells", 1, "metadata", "editable"], False),
    "view of a widget": change(["cells", 1, "outputs", 0, "data", VIEW], {"model_id": "7f"}),
    "takes it out": change(["cells", 1, "metadata", "tags"], ["nbval-skip"]),
    "is empty": change(["cells", 1, "source"], " "),
    "without alt text": change(["cells", 1, "outputs"], [output({"text/html": '<img src="x.png">'})]),
    "of its own": change(["cells", 1, "outputs"], [output({"image/png": "iVBOR", "text/plain": "<Figure>"})]),
    "inline SVG": change(["cells", 1, "outputs"], [output({"text/html": "<svg></svg>"})]),
    "before the page is run": change(["cells", 1, "outputs"], [output({"text/plain": NOT_RUN})]),
    "no alt text": change(["cells", 0, "source"], "![](x.png)"),
    "which is not there": change(["cells", 0, "source"], "[next](07_nowhere.ipynb)"),
    "is not attached": change(["cells", 0, "source"], "![the section of the angle](attachment:x.png)"),
    "no code cell": lambda notebook: notebook.update(cells=notebook["cells"][:1]),
}


def test_the_guard_lets_a_good_notebook_pass(tmp_path):
    assert complaints(good(), tmp_path) == []


def test_only_the_lesson_about_code_shows_code(tmp_path):
    notebook = good()
    notebook["cells"][1] = {**notebook["cells"][1], "metadata": {"deletable": False}, "source": "stock = Section(1, 1, 1)"}
    assert complaints(notebook, tmp_path, ABOUT_CODE) == []
    assert any("not collapsed" in complaint for complaint in complaints(notebook, tmp_path, "07_taper_inside"))
    notebook["cells"][1]["metadata"] = {"deletable": False, "jupyter": {"source_hidden": True}}
    assert any("what the lesson is about" in complaint for complaint in complaints(notebook, tmp_path, ABOUT_CODE))
    notebook["cells"][1] = {**notebook["cells"][2], "execution_count": 1, "metadata": {"deletable": False}}  # a question's cell
    assert any("not collapsed" in complaint for complaint in complaints(notebook, tmp_path, ABOUT_CODE))


@pytest.mark.parametrize("says", FAULTS)
def test_the_guard_fails(says, tmp_path):
    notebook = copy.deepcopy(good())
    FAULTS[says](notebook)
    assert any(says in complaint for complaint in complaints(notebook, tmp_path)), complaints(notebook, tmp_path)


# --- words and skeleton ------------------------------------------------------------------------------------
FEWEST, MOST = 600, 1800
LESSON = re.compile(r"\d\d_")
LISTS = {"home": 120, "review": 240}
"""Pages that teach nothing of their own, with how many words each may have: what the course opens, a list of links, and the questions that come back."""
CODE_IS_THE_LESSON = {"13_behind_the_pictures"}
"""Lessons about the lines of code themselves: their cells may define something."""


def prose(notebook: dict) -> str:
    return "\n\n".join(text_of(cell["source"]) for cell in notebook["cells"] if cell["cell_type"] == "markdown")


def words_of(text: str) -> int:
    """Words that are read: no addresses, tags, signs or descriptions of pictures, and not what a fold says of itself."""
    return len(re.sub(r"<summary>Answered\? Read on</summary>|!\[[^]]*\]\([^)]*\)|<[^>]*>|\]\([^)]*\)|[|#*\[\]-]", " ", text).split())


def page_complaints(notebook: dict, lesson: bool, code: bool = False, at_most: int | None = None) -> list[str]:
    """What is wrong with a page's length, its cells and its skeleton, a sentence each. No page is exempt from the length."""
    text, found = prose(notebook), []
    words = words_of(text)
    fewest, most = (1, at_most) if at_most else (FEWEST, MOST)
    if not fewest <= words <= most:
        found.append(f"{words} words of prose: {fewest} to {most}")
    first = text_of(notebook["cells"][0]["source"])
    if not re.match(r"# \S", first):
        found.append("the first cell does not begin with a title")
    if not at_most and not 3 <= len(re.findall(r"^- \*\*", first, re.MULTILINE)) <= 5:
        found.append("the first cell has no 3 to 5 objectives, each with its verb in bold")
    if "Run All Cells" not in first:
        found.append("the first cell does not say how to run the page")
    for n, cell in enumerate(() if code else code_cells(notebook), 1):
        if re.search(r"^\s*(def|class|for|while) ", text_of(cell["source"]), re.MULTILINE):
            found.append(f"code cell {n} has a definition or a loop: that belongs in a module")
    if lesson:
        heads = re.findall(r"^## (.*)", text, re.MULTILINE)
        for want in ("Exercises", "At the bench", "Sources"):
            if not any(head.startswith(want) for head in heads):
                found.append(f"there is no part {want!r}")
        if not re.search(r"[Tt]hree questions", text):
            found.append("there are no three questions from earlier lessons")
        if heads and not heads[-1].startswith("Sources"):
            found.append("sources do not end the page")
    return found


@pytest.mark.parametrize("path", FOUND, ids=lambda path: path.stem)
def test_length_and_skeleton(path):
    notebook = json.loads(path.read_text(encoding="utf-8"))
    assert page_complaints(notebook, bool(LESSON.match(path.stem)), path.stem in CODE_IS_THE_LESSON, LISTS.get(path.stem)) == []


def good_page() -> dict:
    """A lesson without fault."""
    notebook = good()
    notebook["cells"][0]["source"] = "# 99 Taper a leg\n\n*Run, Run All Cells.*\n\n- **mark** it\n- **saw** it\n- **sand** it"
    text = "## Three questions from earlier lessons\n\n" + "word " * 700 + "\n\n## Exercises\n\n## At the bench\n\n## Sources\n"
    notebook["cells"].append({"cell_type": "markdown", "metadata": {"deletable": False}, "source": text})
    return notebook


PAGE_FAULTS = {
    "words of prose": change(["cells", 5, "source"], "## Three questions\n\n## Exercises\n\n## At the bench\n\n## Sources"),
    "too many": change(["cells", 5, "source"], "## Three questions\n" + "word " * 1850 + "\n\n## Exercises\n\n## At the bench\n\n## Sources"),
    "with a title": change(["cells", 0, "source"], "Taper *Run All Cells* \n- **a**\n- **b**\n- **c**"),
    "objectives": change(["cells", 0, "source"], "# Taper *Run All Cells* \n- **a**"),
    "how to run": change(["cells", 0, "source"], "# Taper\n- **a**\n- **b**\n- **c**"),
    "a definition": change(["cells", 1, "source"], "def f():\n    pass"),
    "'At the bench'": lambda n: n["cells"][5].update(source=n["cells"][5]["source"].replace("## At the bench", "")),
    "three questions": lambda n: n["cells"][5].update(source=n["cells"][5]["source"].replace("Three questions", "Two questions")),
    "do not end": lambda n: n["cells"][5].update(source=n["cells"][5]["source"] + "## More\n"),
}


@pytest.mark.parametrize("says", PAGE_FAULTS)
def test_the_guard_of_pages_fails(says):
    assert page_complaints(good_page(), lesson=True) == []
    notebook = copy.deepcopy(good_page())
    PAGE_FAULTS[says](notebook)
    said = page_complaints(notebook, lesson=True)
    assert any((says in s) or (says == "too many" and re.match(r"18\d\d words", s)) for s in said), said


def test_home_has_few_words_and_the_other_pages_have_not_its_rule():
    page = good_page()
    assert any("words of prose: 1 to 120" in said for said in page_complaints(page, lesson=False, at_most=120))
    page["cells"][5]["source"] = ""
    assert page_complaints(page, lesson=False, at_most=120) == []
    assert any("words of prose: 600" in said for said in page_complaints(page, lesson=False))
