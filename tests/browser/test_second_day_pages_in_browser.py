"""The second day of plain pages: browser and server were closed, both come back; answers are there, nothing is dead, pictures are there.

One page in the tests; five days over four pages in the slow tier.
"""

import pytest
from by_keys import answer_one
from course import answer, browser_path, launched, move_a_slider, served
from glass import opened, settle

FOUR = ("01_identify_stock", "07_taper_inside", "09_holes_and_what_if", "11_plan_the_stock")
DAYS = 5
DEAD = ("Error displaying", "Error creating", "model not found", "Loading widget")
_ANSWERED = """() => [...document.querySelectorAll('.widget-text input[type=text]:disabled, .widget-toggle-button:disabled.mod-active')]
    .map(one => one.value || one.textContent)"""
_PICTURES = """() => [[...document.querySelectorAll('#rendered_cells svg[role=img]')].filter(one => one.getBoundingClientRect().height > 20).length,
    [...document.querySelectorAll('#rendered_cells img')].filter(one => one.complete && one.naturalWidth).length]"""


def seen(page) -> tuple:
    """Widgets, pictures and images of a page; none of them dead."""
    said = page.inner_text("body")
    assert not [word for word in DEAD if word in said]
    return page.locator(".jupyter-widgets").count(), *page.evaluate(_PICTURES)


@pytest.fixture
def day(tmp_path):
    """A browser and a server that are started together for one day of the same learner, and closed at its end."""
    from contextlib import ExitStack, contextmanager

    if browser_path() is None:
        pytest.skip("There is no Chromium or Chrome on this machine: the course was not looked at in a browser.")
    from playwright.sync_api import sync_playwright

    @contextmanager
    def begun():
        with ExitStack() as until_evening:
            player = until_evening.enter_context(sync_playwright())
            browser = launched(player)
            until_evening.callback(browser.close)
            yield browser, until_evening.enter_context(served(tmp_path / "learner"))

    (tmp_path / "learner").mkdir()
    return begun


def first_day(browser, address, name) -> tuple:
    """Answers a question by keys, commits the first prediction, moves a slider; gives what is seen in the evening, and what was committed."""
    with opened(browser, address, name) as page:
        before = seen(page)
        assert answer_one(page)
        answer(page.get_by_role("button", name="Commit", exact=True).first)
        committed = page.evaluate(_ANSWERED)
        settle(page)
        evening = seen(page)  # what is answered has one more button: to be asked again
        assert committed and before[0] and before[1] and evening[0] >= before[0] and evening[1:] == before[1:]
        return evening, committed


def come_back(browser, address, name, before, committed) -> None:
    with opened(browser, address, name) as page:
        assert page.evaluate(_ANSWERED)[: len(committed)] == committed
        assert seen(page) == before
        assert move_a_slider(page)


def test_a_page_on_the_second_day(day):
    with day() as (browser, address):
        left = first_day(browser, address, FOUR[1])
    with day() as (browser, address):
        come_back(browser, address, FOUR[1], *left)


@pytest.mark.slow
def test_five_days(day):
    with day() as (browser, address):
        left = {name: first_day(browser, address, name) for name in FOUR}
    for _ in range(DAYS):
        with day() as (browser, address):
            for name, before in left.items():
                come_back(browser, address, name, *before)
