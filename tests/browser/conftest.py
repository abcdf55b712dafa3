"""A course and a page for the browser tests of one file; without a browser they are skipped, and say so."""

import pytest
from course import browser_path, launched, served


@pytest.fixture(scope="module")
def browser():
    if browser_path() is None:
        pytest.skip("There is no Chromium or Chrome on this machine: the course was not looked at in a browser.")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as player:
        opened = launched(player)
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    """The learner's folder."""
    return tmp_path_factory.mktemp("learner")


@pytest.fixture(scope="module")
def address(browser, home):
    with served(home, "--lab") as found:
        yield found
