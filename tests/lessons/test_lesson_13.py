"""Lesson 13: every line of code on the page is run here too, and what it gives is held against something else than itself."""

import re
from contextlib import redirect_stdout
from fractions import Fraction
from io import StringIO
from types import SimpleNamespace

import nbformat
import pytest
from lesson_checks import Page

from anglelib import pages
from anglelib.geometry.lazy import formulas
from anglelib.lessons import behind_the_pictures as lesson
from anglelib.lessons.ask import Ask, Questions
from anglelib.questions import behind_the_pictures as ask
from anglelib.stock.checker import check

PAGE = Page.of(lesson)
CODE = [cell for cell in PAGE.cells if cell.cell_type == "code"]
SHOWN = [cell for cell in CODE if not cell.metadata.get("jupyter", {}).get("source_hidden")]


@pytest.fixture(scope="module")
def ran() -> tuple[dict, list[tuple[object, str]]]:
    """The names that the page's lines leave, and of each cell the last value and what it printed."""
    names: dict = {}
    results = []
    for cell in SHOWN:
        body, _, last = cell.source.rpartition("\n")
        printed = StringIO()
        with redirect_stdout(printed):
            try:
                code = compile(last, "cell", "eval")
                exec(body, names)
                value = eval(code, names)
            except SyntaxError:  # the last line is no expression
                exec(cell.source, names)
                value = None
        results.append((value, printed.getvalue()))
    return names, results


def test_cells_are_few_lines():
    assert len(SHOWN) == 13 and all(len(cell.source.splitlines()) <= 8 for cell in SHOWN)
    assert sorted(len(cell.source.splitlines()) for cell in SHOWN)[6] <= 5


def test_the_part_is_the_lessons_own(ran):
    names, results = ran
    assert names["bracket"] == lesson.bracket() and results[0][0] == (Fraction(19, 4), True)


def test_the_mark_by_similar_triangles(ran):
    """The mark is where a line from (0, 0) to the toe (2 1/8, 1 1/4) is 1/8 high."""
    assert ran[1][1][0] == (Fraction(17, 8) / Fraction(5, 4) * Fraction(1, 8), "7/32 (0.213)")
    assert ran[1][3][0] is True and "x_v" in ran[1][3][1]
    assert ran[1][2][0] == (30.5, 59.5)  # tan 30.5 degrees is 0.589, 1 1/4 over 2 1/8 is 0.588


def test_the_drawing_and_the_live_picture(ran):
    names, results = ran
    assert results[4][0].sheet == names["sheet"] and "2 1/8" in results[4][1]
    live = results[6][0]
    control = live.controls["run"]
    for value in control.values:
        control.value = value
        assert "<svg" in live.picture.value
    assert "run 3," in live.sheet.sentence


def test_the_twelve_variants(ran):
    """The bevel at x_v = run / 10 is 5/8 - run / 10 from the hole; 2 diameters of 3/16 are 3/8: the run may be 2 1/2."""
    lines = ran[1][7][1].splitlines()
    assert len(lines) == 12
    for line in lines:
        run = float(re.search(r"\((\d\.\d+)\) to", line)[1])
        assert ("EDGE SHORT" in line) == (0.625 - run / 10 < 0.375 - 1e-9), line
        assert f"{(0.625 - run / 10) / 0.1875:.2f} diameters" in line


def test_the_refusal_and_the_mirror_image(ran):
    names, results = ran
    assert "nothing would be cut" in results[8][1]
    assert names["right"].length == Fraction(23, 4) and names["right"].tapers[0].leg == "B" and names["right"].holes[0].leg == "A"
    assert results[11][0] == [("run", "2 1/8 (2.125)"), ("width left", "3/8 (0.375)")]
    assert results[12][0] == "edge kept, 3.00 diameters"  # 1 1/4 - 11/16 are 9/16, three times 3/16


def test_the_plan_passes_the_checker_that_knows_no_planner(ran):
    names, results = ran
    job = names["Job"]("Four brackets", names["Shop"](), [names["replace"](names["bracket"], quantity=4)])
    check(names["made"], job, names["rack"])
    assert "All 4 pieces" in results[9][1]
    assert results[10][0] == [("S-1-R1", "20 1/4 (20.250)")]  # 30 less two blanks of 4 13/16 and two kerfs of 1/16
    blank, kerf = Fraction(19, 4) + Fraction(1, 16), Fraction(1, 16)
    second = f"{float(2 * blank + kerf):.3f}"
    assert all(len(cuts) == 2 and second in cuts[1] for cuts in results[9][0].values())


def test_what_is_saved_is_what_the_lines_give(ran):
    for cell, (_value, printed) in zip(SHOWN, ran[1], strict=True):
        assert "".join(out.text for out in cell.outputs if out.output_type == "stream") == printed


def test_every_cell_of_the_lesson_builds():
    boxes = [lesson.recall(), lesson.predict(), lesson.exercise(1), lesson.exercise(2)]
    assert isinstance(boxes[0], Questions) and all(isinstance(box, Ask) for box in boxes[1:])


def test_plain_pages_show_the_code_too():
    """Voila leaves code out; here the lines stand as text before what they give, and only here."""
    page = pages.prepared(None, nbformat.read(PAGE.path, as_version=4), "")
    texts = [cell.source for cell in page.cells if cell.cell_type == "markdown" and cell.source.startswith("```python")]
    assert texts == [f"```python\n{cell.source}\n```" for cell in SHOWN]
    other = SimpleNamespace(cell_type="code", metadata={"jupyter": {"source_hidden": True}}, source="lesson.recall()")
    assert pages.with_its_code(other) == [other]


def test_the_printed_mark_is_of_the_part_that_is_drawn():
    for number in range(6):
        part, question = ask.EXERCISES["printed-mark"].thing(number), ask.EXERCISES["printed-mark"][number]
        names: dict = {}
        section, taper = re.search(r"stock = (Section\(.*?\)) and (Taper\(.*?\))\.", question.prompt).groups()
        exec(f"from anglelib.part import Taper\nfrom anglelib.section import Section\nstock, taper = {section}, {taper}", names)
        assert (names["stock"], names["taper"]) == (part.section, part.tapers[0])
    assert set(ask.LETTERS) | {letter for row in ask.LETTERS.values() for letter in row} <= set(formulas().QUANTITIES)


def test_the_prose():
    assert "2 1/2 is the longest of these runs" in PAGE.prose and "approves nothing" in PAGE.prose


def test_the_saw_setting_in_the_prose_is_one():
    """What the prose names runs as it stands, and sets the saw back: the same miter and tilt come out, heel up."""
    told = re.search(r"`(from anglelib.geometry.sawing import [^`]*)`, the line\s+`(CompoundCut[^`]*)`", PAGE.prose)
    names = {"stock": lesson.bracket().section}
    exec(told[1], names)
    cut = eval(told[2], names)
    (heel_up,) = (s for s in cut.settings(lesson.bracket().section) if s.lies == "heel-up")
    assert (heel_up.miter, heel_up.tilt) == pytest.approx((12.5, 30)) and "miter of 12.5" in " ".join(PAGE.prose.split())
