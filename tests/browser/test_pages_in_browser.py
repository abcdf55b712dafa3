"""The lessons as plain pages in a real browser: no code, nothing to run, live pictures, the token needed.

One page in the tests, every page in the slow tier.
"""

import re

import pytest
from axe import barriers
from course import PROJECT, answer, move_a_slider, served

from anglelib.questions.answers import Answer, AnswerBook

NAMES = sorted(path.name for path in (PROJECT / "notebooks").glob("*.ipynb"))
FIRST = "03_square_end.ipynb" if "03_square_end.ipynb" in NAMES else NAMES[0]


@pytest.fixture(scope="module")
def address(browser, home):
    with served(home) as found:
        yield found


HOME, LIST = "home.ipynb", 'ul a[href="00_start_here.ipynb"]'
"""The page that has no widgets, and what stands there instead."""


def look(browser, address, name):
    base, token = address.split("|")
    page = browser.new_page(viewport={"width": 1200, "height": 900})
    complaints, outside = [], []
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("request", lambda request: outside.append(request.url) if not re.match(r"(https?|wss?)://127\.0\.0\.1|data:|blob:", request.url) else None)
    page.goto(f"{base}/voila/render/notebooks/{name}?token={token}")
    page.wait_for_selector(LIST if name == HOME else ".jupyter-widgets")
    page.wait_for_timeout(1500)
    assert complaints == [] and outside == []
    return page


def check(page):
    body = page.inner_text("body")
    assert "Run All" not in body and "Traceback" not in body and not re.search(r"lesson\.\w+\(", body)
    for width in page.eval_on_selector_all("img", "pictures => pictures.map(p => p.naturalWidth)"):
        assert width > 0, "a picture that is not there"
    assert move_a_slider(page) in (None, True), "the slider moves nothing"


def test_a_page_is_live_and_has_no_code(browser, address, home):
    page = look(browser, address, FIRST)
    check(page)
    answer(page.get_by_role("button", name="Commit", exact=True).first)
    page.close()
    assert list((home / "answers").glob("*.json")), "what was committed is not kept in the learner's folder"
    assert not (home / "notebooks").exists(), "the pages are the project's own"


def test_no_barrier_on_a_page(browser, address):
    page = look(browser, address, FIRST)
    assert barriers(page) == []
    page.evaluate("document.body.insertAdjacentHTML('beforeend', '<div style=\"color:#bbb;background:#fff\">pale words</div><img src=\"data:,\">')")
    assert {line.partition(":")[0] for line in barriers(page)} >= {"serious color-contrast", "critical image-alt"}, "the check itself is blind"
    page.close()


def test_nothing_without_the_token(browser, address):
    base, token = address.split("|")
    stranger = browser.new_context().new_page()
    stranger.goto(f"{base}/voila/render/notebooks/{FIRST}")
    assert "/login" in stranger.url
    assert stranger.goto(f"{base}/voila/files/notebooks/demo/job.toml").status in (403, 404)
    stranger.close()


def follow(page, words: str, arrives: str) -> None:
    """Goes along a link by keyboard alone, and waits until the page that it leads to is there."""
    link = page.locator("nav.way").first.get_by_role("link", name=words, exact=True)
    for _ in range(12):
        page.keyboard.press("Tab")
        if link.evaluate("link => link === document.activeElement"):
            break
    page.keyboard.press("Enter")
    page.get_by_role("heading", level=1, name=arrives).wait_for()
    page.wait_for_function("document.querySelector('#page-state')?.textContent === ''")  # its outputs are drawn


def test_next_leads_on_and_home_says_where_one_was(browser, address, home):
    page = look(browser, address, "00_start_here.ipynb")
    follow(page, "Next: 01 Identify the stock", "01 Identify the stock")
    (home / "answers").mkdir(exist_ok=True)
    (home / "answers" / "02_read_part.json").write_text("{")
    AnswerBook("01_identify_stock", home / "answers").add(Answer("last-step", 0, "1/8", "wrong"))
    follow(page, "Home", "Home: where you are")
    body = page.inner_text("body")
    assert "Go on where you were last: 01 Identify the stock" in body and "1 of 11 answered" in body and "02_read_part.json" in body
    assert barriers(page) == []
    page.set_viewport_size({"width": 390, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    assert page.evaluate(SMALLEST) >= 14
    page.get_by_role("link", name="03 Square an end").first.click()
    page.wait_for_url("**/03_square_end.ipynb*")  # in the same tab
    assert len(page.context.pages) == 1
    (home / "answers" / "02_read_part.json").unlink()
    page.close()


SMALLEST = """() => Math.min(...[...document.querySelectorAll('#rendered_cells *')]
    .filter(one => [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim()) && one.getClientRects().length)
    .map(one => parseFloat(getComputedStyle(one).fontSize)))"""
"""The height of the smallest letters that are seen [px]."""


@pytest.mark.slow
def test_the_whole_way_there_and_back(browser, address):
    lessons = [name for name in NAMES if name[:2].isdigit()]
    page = look(browser, address, lessons[0])
    for rel, onward in (("next", lessons[1:]), ("prev", lessons[-2::-1])):
        for name in onward:
            page.locator(f"nav.way >> nth=-1 >> a[rel={rel}]").click()
            page.wait_for_url(f"**/{name}")
            page.wait_for_selector("nav.way a")
    page.close()


@pytest.mark.slow
def test_a_section_is_reached_from_the_folded_bar(browser, address):
    page = look(browser, address, FIRST)
    assert page.locator("details.sections").bounding_box()["height"] < 45, "more than a line"
    page.get_by_text("On this page").click()
    page.get_by_role("link", name="At the bench", exact=True).click()
    page.wait_for_timeout(800)
    assert abs(page.locator("h2", has_text="At the bench").bounding_box()["y"]) < 80
    page.close()


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_every_page(browser, address, name):
    page = look(browser, address, name)
    check(page)
    assert barriers(page) == []
    page.close()
