"""What the course costs whoever opens it: a lesson's cells and its kernel, and the time from the command to the first live picture.

The cells are the processor's time, so another program on the machine weighs little; the first picture is by the clock, on a quiet machine.
"""

import statistics
import sys
import tempfile
import time
from pathlib import Path

import pytest
from page_cost import MOST_CELLS, MOST_MEMORY, PROJECT, asked

sys.path.append(str(Path(__file__).resolve().parents[1] / "browser"))

from course import FLAGS, browser_path, served  # noqa: E402

PAGES = sorted(path.stem for path in (PROJECT / "notebooks").glob("*.ipynb"))
INSTRUCTOR = 1.1
"""The instructor's page, which draws the whole guide [s]."""
FIRST_PICTURE = 6.0
"""From the command to the first live picture, on two cores that rest [s]."""
TRIES = 3


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="memory and processor time are read as Linux gives them")
@pytest.mark.parametrize("page", PAGES)
def test_a_pages_cells_and_its_kernel(page):
    """The least of some runs: what the page itself needs."""
    most = INSTRUCTOR if page == "instructor" else MOST_CELLS
    runs = []
    for _ in range(TRIES):
        runs.append(asked(PROJECT, "page", f"notebooks/{page}.ipynb"))
        cells, memory = min(run["cells"] for run in runs), statistics.median(run["memory"] for run in runs)
        if cells <= most and memory <= MOST_MEMORY:
            break
    print(f"\n{page}: cells {cells:.2f} s, kernel {memory:.0f} MB")
    assert cells <= most and memory <= MOST_MEMORY, runs


def first_picture(browser, page: str) -> float:
    """From the command to the first live picture of a page [s]."""
    with tempfile.TemporaryDirectory() as home:
        begun = time.monotonic()
        with served(Path(home)) as address:
            base, token = address.split("|")
            opened = browser.new_page(viewport={"width": 1366, "height": 900})
            opened.goto(f"{base}/voila/render/notebooks/{page}.ipynb?token={token}", wait_until="commit")
            opened.wait_for_selector(".jupyter-widgets .widget-html svg[role=img]", timeout=120_000)
            taken = time.monotonic() - begun
            opened.wait_for_function("document.querySelector('#page-state')?.textContent === ''", timeout=120_000)
            opened.goto("about:blank")
            opened.close()
            return taken


def test_the_first_live_picture_comes_in_six_seconds(quiet):
    if browser_path() is None:
        pytest.skip("There is no Chromium or Chrome on this machine: no picture was waited for.")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=browser_path(), args=FLAGS)
        first_picture(browser, "00_start_here")  # not counted: Python and the browser read what they keep
        taken = [first_picture(browser, "07_taper_inside") for _ in range(TRIES)]
        browser.close()
    print(f"\nthe first live picture after {', '.join(f'{one:.1f}' for one in taken)} s")
    assert min(taken) < FIRST_PICTURE, taken


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="processor time is read as Linux gives it")
def test_the_server_has_its_address_in_a_second_of_the_processor():
    asked(PROJECT, "start")
    assert min(asked(PROJECT, "start") for _ in range(TRIES)) < 1.0
