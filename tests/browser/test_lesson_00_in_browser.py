"""Lesson 00 as a learner meets it: the first page of the course, before and after it is run.

Each test stands alone: those of the page that has run share one, which is run when the first of them asks for it, and none leaves
what another looks for.
"""

import json

import pytest
from course import run_all
from look import cell, left_this_machine, press, said, sentence, until, watched

from anglelib.lessons.look import PROJECTOR_ENDS


@pytest.fixture
def fresh(browser, address, home):
    """The page before it is run, for somebody who has answered nothing."""
    for kept in (home / "answers").glob("00_start_here*.json"):
        kept.unlink()
    opened = watched(browser, address, "00_start_here.ipynb")
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def page(browser, address):
    """The page after it was run."""
    opened = watched(browser, address, "00_start_here.ipynb")
    opened.locator(".jp-WindowedPanel-outer").first.evaluate("panel => panel.scrollTop = 0")
    run_all(opened, ".jp-CodeCell .widget-html svg")
    yield opened
    assert opened.complaints == [] and left_this_machine(opened) == []
    opened.close()


@pytest.fixture
def guessed(page):
    """The picture of the places, its guess committed."""
    part = cell(page, "places()")
    if part.get_by_role("button", name="vertex", exact=True).is_disabled():
        press(part, "2", "Commit")
    said(part, "2 is the fillet, the rounded inside corner")
    return part


@pytest.fixture
def priced(page):
    """The picture of what a wrong corner costs, its guess committed."""
    part = cell(page, "cost()")
    if part.get_by_role("button", name="Commit", exact=True).is_enabled():
        part.get_by_label("Your answer (in.)").fill("11/16")
        press(part, "Commit")
    said(part, "11/16 is what was wanted. The rule began 1/8 further in")
    return part


def test_the_first_screen_says_how_to_run_the_page(fresh):
    page = fresh
    words = page.locator(".jp-MarkdownOutput strong", has_text="How to run this page.")
    words.wait_for()
    assert words.bounding_box()["y"] < 500
    saved = cell(page, "places()").locator(".jp-OutputArea-output img").first
    saved.wait_for()
    assert "Four lines that run along the part are numbered" in saved.get_attribute("alt")


def test_run_all_brings_the_live_pictures_and_says_that_all_is_here(page):
    said(cell(page, "ready()"), "Everything that the course needs is here")


def test_a_guess_comes_before_the_places(fresh):
    run_all(fresh, ".jp-CodeCell .widget-html svg")
    part = cell(fresh, "places()")
    assert part.get_by_role("button", name="vertex", exact=True).is_disabled()


def test_a_committed_guess_names_every_place(guessed):
    part = guessed
    press(part, "vertex")
    assert "Pointed at: the vertex, the one point of an end that lies on the heel" in until(part, "Pointed at")
    press(part, "Floor cleat")
    assert "floor cleat" in until(part, "floor cleat")


def test_the_wrong_corner_costs_the_other_leg_s_thickness(priced):
    part = priced
    assert "1/8 (0.125) too far" in until(part, "too far")
    press(part, "the fillet's edge", "3/16")
    assert "5/16 (0.313) too far" in until(part, "5/16 (0.313)")


def test_the_keyboard_moves_the_hole(page, priced):
    part = priced
    part.locator(".noUi-handle").first.focus()
    page.keyboard.press("ArrowLeft")
    assert "wanted 21/32" in until(part, "21/32")


def test_a_place_is_named_and_kept(page, home):
    part = cell(page, "exercise(1)")
    before = sentence(part)
    press(part, "Hint")
    said(part, "Hint 1 of 1")
    press(part, "Other numbers")
    part.locator(f'.widget-html svg:not([aria-label="{before}"])').first.wait_for()
    part.locator(".widget-toggle-buttons button").first.click()
    part.locator('[role="status"] b').first.wait_for()
    kept = json.loads((home / "answers" / "00_start_here.json").read_text(encoding="utf-8"))["answers"]
    assert [a["variant"] for a in kept if a["question"] == "00-name-the-place"] == [1]


def test_the_disc_turns_round(page):
    part = cell(page, "disc()")
    press(part, "the right half", "Commit", "anticlockwise")
    assert "its left half runs down" in until(part, "anticlockwise: its left half")


def test_the_projector_has_few_words(page, guessed):
    part = guessed
    press(part, "nothing", "Projector")
    page.wait_for_timeout(800)
    assert part.locator(".widget-html svg text").count() <= 7
    press(part, PROJECTOR_ENDS)


def test_the_lessons_that_are_here_are_linked(page):
    part = cell(page, "contents()")
    links = part.locator("a").all_inner_texts()
    assert "07 Taper on the inside face" in links and "11 Plan the stock" in links
