"""A course and a page for the browser tests of one file; without a browser they are skipped, and say so."""

import pytest
from course import FLAGS, TAKEN, browser_path, served


@pytest.fixture(scope="module")
def browser():
    path = browser_path()
    if path is None:
        pytest.skip("There is no Chromium or Chrome on this machine: the course was not looked at in a browser.")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as player:
        opened = player.chromium.launch(executable_path=path, args=FLAGS)
        opened.new_page, opened.new_context = patient(opened.new_page), patient(opened.new_context)
        yield opened
        opened.close()


def patient(new):
    """Pages that wait for what a busy machine takes its time to do."""

    def made(**how):
        opened = new(**how)
        opened.set_default_timeout(TAKEN)
        return opened

    return made


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    """The learner's folder."""
    return tmp_path_factory.mktemp("learner")


@pytest.fixture(scope="module")
def address(browser, home):
    with served(home, "--lab") as found:
        yield found
