"""Lesson 11 as a learner meets it: one part now, the list, and the table game, in a real JupyterLab.

The tests follow one another on one page, in order.
"""

import pytest
from course import run_all
from look import cell, left_this_machine, press, said, until, watched


@pytest.fixture(scope="module")
def page(browser, address):
    return watched(browser, address, "11_plan_the_stock.ipynb")


def test_run_all_brings_the_live_pictures(page):
    run_all(page, ".jp-CodeCell .widget-html svg")
    assert "is not shown yet" in until(cell(page, "one_part()"), "Sticks on the rack")


def test_a_stick_of_another_alloy_is_refused_and_the_right_one_shown(page):
    part = cell(page, "one_part()")
    press(part, "S-10", "Commit")
    said(part, "S-10 is 6063-T5; the part wants 6061-T6.")
    assert "Part it off at 17 5/16" in until(part, "Cut it from S-09")


def test_any_length_is_answered_typed_or_by_keyboard(page):
    part = cell(page, "one_part()")
    part.get_by_label("Length (in.)").fill("38 3/8")
    part.get_by_label("Length (in.)").press("Enter")
    until(part, "Cut it from S-08")
    part.locator(".noUi-handle").first.focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")  # 38 1/2 still takes all of S-08
    until(part, "Cut it from S-07")
    part.get_by_label("Length (in.)").fill("long")
    part.get_by_label("Length (in.)").press("Enter")
    said(part, "is not a length: write it like 1 5/8")
    press(part, "Seat rail")
    until(part, "Cut it from S-41")


def test_a_kerf_forgotten_is_named_and_the_far_end_saves_one(page):
    part = cell(page, "kerf()")
    part.get_by_label("Your answer (in.)").fill("15")
    press(part, "Commit")
    said(part, "That is the blanks alone.")
    assert "TOO LONG by 1/16" in until(part, "TOO LONG")
    press(part, "square and sound")
    until(part, "it fits exactly")


def test_rules_of_thumb_beside_the_proven_plan(page):
    part = cell(page, "rack()")
    press(part, "Upper longeron, left", "Commit")
    assert "The plan makes all 27 pieces" in until(part, "no metal left for A6L")
    press(part, "longest part first")
    until(part, "no metal left for A3 (baggage floor bar)")


def test_the_table_is_played_to_its_end(page):
    part = cell(page, "game(1)")
    assert part.get_by_role("button", name="S-09", exact=True).first.is_disabled()
    press(part, "A5L (91 3/4)", "Commit")
    said(part, "Only S-04 is long enough for it")
    rows = part.locator(".widget-toggle-buttons")
    for row, stick in enumerate(("S-04", "S-09", "S-06", "S-06", "S-09", "S-05"), start=1):
        rows.nth(row).get_by_role("button", name=stick, exact=True).click()
    until(part, "S-09 is TOO LONG by")
    rows.nth(2).get_by_role("button", name="S-08", exact=True).click()
    until(part, "Everything is made. Pieces left: 38 3/4 and 15 1/8")
    press(part, "beside mine")
    assert "The plan cuts into fewer sticks" in until(part, "no plan leaves longer pieces")


def test_a_shelf_of_sticks(page):
    part = cell(page, "exercise(4)")
    part.locator(".widget-toggle-buttons button").first.click()
    part.locator('[role="status"] b').first.wait_for()


def test_nothing_was_wrong_behind_the_scenes_and_nothing_left_this_machine(page):
    assert page.complaints == [] and left_this_machine(page) == []
