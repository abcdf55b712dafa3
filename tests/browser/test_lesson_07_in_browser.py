"""Lesson 07 as a learner meets it: a real JupyterLab on this machine, a real browser, one page from top to bottom.

The tests follow one another on one page, in order.
"""

import json
import re

import pytest
from course import open_notebook, run_all

from anglelib.lengths import exact, millimetres
from anglelib.questions.taper_inside import EXERCISES

NOTEBOOK = "07_taper_inside.ipynb"


@pytest.fixture(scope="module")
def page(browser, address):
    page = browser.new_page(viewport={"width": 1366, "height": 900})
    page.complaints = []
    page.on("pageerror", lambda error: page.complaints.append(str(error)))
    page.on("console", lambda message: page.complaints.append(message.text) if message.type == "error" else None)
    page.outside = []
    page.on("request", lambda request: page.outside.append(request.url) if "127.0.0.1" not in request.url else None)
    open_notebook(page, address, NOTEBOOK)
    return page


def cell(page, call: str):
    """The code cell that calls this, scrolled to: JupyterLab draws a cell only when it is near."""
    found = page.locator(".jp-CodeCell", has_text=f"lesson.{call}")
    for _ in range(40):
        if found.count():
            break
        page.locator(".jp-WindowedPanel-outer").first.evaluate("panel => panel.scrollTop += 500")
        page.wait_for_timeout(100)
    found.evaluate("cell => cell.scrollIntoView()")
    return found


def sentence(part) -> str:
    """What the picture in a cell says to somebody who cannot see it."""
    return part.locator(".widget-html svg").get_attribute("aria-label")


def until(part, text: str) -> str:
    """The picture's sentence, once it holds the text."""
    part.locator(f'.widget-html svg[aria-label*="{text}"]').wait_for()
    return sentence(part)


def test_the_saved_page_can_be_read_before_it_is_run(page):
    part = cell(page, "project()")
    picture = part.locator(".jp-OutputArea-output img").first
    picture.wait_for()
    assert picture.get_attribute("alt").endswith("Its marks on the inside are not shown yet.")
    assert picture.bounding_box()["width"] > 500
    folded = part.locator("details img")
    assert "7/32" in folded.get_attribute("alt") and not folded.is_visible()


def test_run_all_brings_the_live_pictures(page):
    page.locator(".jp-WindowedPanel-outer").first.evaluate("panel => panel.scrollTop = 0")
    run_all(page, ".jp-CodeCell .widget-html svg")
    assert "not shown yet" in until(cell(page, "project()"), "Angle 1 1/4")


def test_a_committed_prediction_shows_the_mark(page):
    part = cell(page, "project()")
    part.get_by_label("Your answer (in.)").fill("1/8")
    part.get_by_role("button", name="Commit").click()
    assert "inner face of leg A at 7/32 (0.213). Your prediction for the mark on leg A is 1/8" in until(part, "7/32")
    said = part.get_by_role("status").all_inner_texts()
    assert any("The mark lies a thickness from the end at 45 degrees only" in text for text in said)
    assert part.get_by_role("button", name="Commit").is_disabled()


def test_dragging_the_slider_unrolls_the_inside(page):
    part = cell(page, "project()")
    before = part.locator(".widget-html svg").inner_html()
    handle = part.locator(".noUi-handle").bounding_box()
    x, y = handle["x"] + handle["width"] / 2, handle["y"] + handle["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 150, y, steps=8)
    page.mouse.up()
    entry = part.get_by_label("Unrolled (%)")
    page.wait_for_function("entry => Number(entry.value) > 45", arg=entry.element_handle())
    assert part.locator(".widget-html svg").inner_html() != before


def test_a_typed_fraction_moves_the_line(page):
    part = cell(page, "slopes()")
    assert part.get_by_label("Run X (in.)").is_disabled()
    part.get_by_role("button", name="moves away from the end").click()
    part.get_by_role("button", name="Commit").click()
    until(part, "7/32")
    part.get_by_label("Run X (in.)").fill("1 1/4")
    part.get_by_label("Run X (in.)").press("Enter")
    assert "inner face of leg A at 1/8 (0.125)" in until(part, "from the toe, 1 1/4")
    part.get_by_label("Run X (in.)").fill("a bit more")
    part.get_by_label("Run X (in.)").press("Enter")
    part.get_by_text("is not a length: write it like 1 5/8").wait_for()
    assert "1 1/4 (1.250)" in sentence(part)


def test_the_keyboard_moves_the_slider(page):
    part = cell(page, "slopes()")
    part.locator(".noUi-handle").first.focus()
    page.keyboard.press("ArrowRight")
    until(part, "from the toe, 1 5/16")


def test_a_job_and_a_reset(page):
    part = cell(page, "slopes()")
    part.get_by_role("button", name="Fairing angle").click()
    assert "there is no mark on leg A" in until(part, "2 3/8 (2.375)")
    part.get_by_role("button", name="Door hinge bracket, left").click()
    assert "leg A lies flat, leg B stands behind it, end 1 is at the right" in until(part, "7/32")
    part.get_by_role("button", name="Door hinge bracket, right").click()
    until(part, "end 1 is at the left")


def test_the_projector_has_larger_lines_and_few_words(page):
    part = cell(page, "slopes()")
    words = part.locator(".widget-html svg text").count()
    part.get_by_role("button", name="Projector").click()
    page.wait_for_timeout(800)
    assert part.locator(".widget-html svg text").count() <= min(8, words - 1)
    part.get_by_role("button", name="Projector").click()


def test_a_wrong_answer_is_told_its_slip_and_a_right_one_is_right(page, home):
    part = cell(page, "exercise(1)")
    question = EXERCISES["project"][0]
    slip = next(wrong for wrong in question.wrong if wrong.slip == "offset-as-thickness")
    thickness, mm = exact(slip.answer), millimetres(question.answer, 2)
    part.get_by_label("Your answer (in.)").fill(thickness)
    part.get_by_role("button", name="Check").click()
    part.get_by_text(f"inches. {thickness} is the thickness of leg ").wait_for()
    part.get_by_label("Your answer (in.)").fill(mm)
    part.get_by_role("button", name="Check").click()
    part.get_by_text("right number in millimetres").wait_for()
    part.get_by_label("Your answer (in.)").fill(f"{mm} mm")
    part.get_by_role("button", name="Check").click()
    part.get_by_text(re.compile(rf"Understood as {mm} mm, which is .*\. Right")).wait_for()
    kept = json.loads((home / "answers" / "07_taper_inside.json").read_text(encoding="utf-8"))["answers"]
    given = [(a["typed"], a["status"]) for a in kept if a["question"] == "07-project"]
    assert given == [(thickness, "mistake"), (mm, "unit"), (f"{mm} mm", "right")]


def test_other_numbers(page):
    part = cell(page, "exercise(1)")
    before = part.locator(".widget-html").first.inner_text()
    part.get_by_role("button", name="Other numbers").click()
    page.wait_for_function("([box, text]) => box.innerText !== text", arg=[part.locator(".widget-html").first.element_handle(), before])
    assert part.get_by_label("Your answer (in.)").input_value() == ""


def test_formulas_are_set_as_mathematics(page):
    part = cell(page, "formula()")
    part.locator("mjx-container").first.wait_for()
    assert part.locator("mjx-container").count() == 3


def test_nothing_was_wrong_behind_the_scenes_and_nothing_left_this_machine(page):
    assert page.complaints == []
    assert [url for url in page.outside if not re.match(r"(data|blob|about|chrome)", url)] == []
