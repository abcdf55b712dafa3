"""How the plain pages look on a desk and on a projector, measured in a real browser: pictures in view, looks, distances, contrast.

Two lessons in the tests and a third on the projector, every page in the slow tier.
"""

import json
from collections import Counter

import layout
import pytest
from course import PROJECT, served

NAMES = sorted(path.stem for path in (PROJECT / "notebooks").glob("*.ipynb"))
QUICK = ("06_taper_outside", "12_make_part")
SECOND = "00_start_here"
PAGES = [pytest.param(name, marks=() if name in QUICK else pytest.mark.slow) for name in NAMES]
READY = "document.querySelector('#page-state')?.textContent === ''"
PAPER = "rgb(255, 255, 255)"
MOST_EMPTY = 48
"""The highest empty strip between two questions [px]."""
IN_LINE = 4
"""By how much the rows of one picture's controls may begin apart [px]."""


@pytest.fixture(scope="module")
def address(browser, home):
    with served(home) as found:
        yield found


def look(browser, address, name, wide=1440, high=900):
    """A page that is ready, in a window of so many pixels."""
    base, token = address.split("|")
    page = browser.new_context(viewport={"width": wide, "height": high}).new_page()
    page.goto(f"{base}/voila/render/notebooks/{name}.ipynb?token={token}")
    page.wait_for_function(READY)
    page.wait_for_timeout(500)
    return page


def out_of_view(page, least=0.75):
    return [box for box in page.evaluate(layout.IN_VIEW) if box["worst"] < least]


@pytest.mark.parametrize("name", PAGES)
def test_a_page_on_a_desk(browser, address, name):
    page = look(browser, address, name)
    assert page.evaluate(layout.WIDER) <= 0
    assert out_of_view(page) == [], "a picture leaves while one of its controls is used"
    assert max(page.evaluate(layout.HOLES), default=0) <= MOST_EMPTY
    looks = page.evaluate(layout.LOOKS)
    kinds = [tuple(found) for found in looks.values() if found]
    assert all(len(found) == 1 for found in kinds) and len(set(kinds)) == len(kinds), f"two kinds look alike: {looks}"
    for knob in page.evaluate(layout.KNOBS):
        assert layout.contrast(knob["edge"] if knob["out"] else knob["colour"], PAPER) >= 3 and knob["width"] >= 16
        assert layout.contrast(knob["track"], PAPER) >= 3
    for rows in page.evaluate(layout.ROWS):
        assert max(rows, default=0) - min(rows, default=0) <= IN_LINE, "controls are not in line"
    for names in page.evaluate(layout.NAMES):
        assert [name for name, count in Counter(names).items() if count > 1] == [], "two controls of one name in a box"
    usual = widths(page)
    resized(page, 1024, 768)
    assert page.evaluate(layout.WIDER) <= 0 and out_of_view(page) == []
    resized(page, 720, 450)  # the first window enlarged twice: as many dots, half as many of the page's pixels
    assert page.evaluate(layout.WIDER) <= 0
    for before, after in zip(usual, widths(page), strict=True):
        assert 2 * after > 1.2 * before, f"{before} dots, and enlarged twice {2 * after}"
    page.context.close()


def resized(page, wide, high):
    page.set_viewport_size({"width": wide, "height": high})
    page.wait_for_timeout(300)


def widths(page):
    return [box["width"] for box in page.evaluate(layout.IN_VIEW)]


SIZES = """() => ({ prose: parseFloat(getComputedStyle(document.querySelector('.jp-RenderedMarkdown p')).fontSize),
  asked: parseFloat(getComputedStyle(document.querySelector('.al-ask [style*=font-size]')).fontSize),
  button: parseFloat(getComputedStyle(document.querySelector('button.al-do')).fontSize),
  choice: parseFloat(getComputedStyle(document.querySelector('.al-choice button')).fontSize),
  picture: document.querySelector('.al-picture svg').getBoundingClientRect().width })"""


def test_on_a_projector_everything_grows_and_the_page_says_so(browser, address, home):
    page = look(browser, address, QUICK[0], 1920, 1080)
    before = page.evaluate(SIZES)
    assert not page.locator("#room-state").is_visible()
    page.get_by_role("button", name="Projector", exact=True).first.click()
    page.locator("#room-state").wait_for()
    page.wait_for_timeout(500)
    after = page.evaluate(SIZES)
    assert all(after[what] > 1.5 * before[what] for what in before), (before, after)
    assert page.evaluate(layout.WIDER) <= 0 and out_of_view(page) == []
    assert json.loads((home / "room.json").read_text())["theme"] == "projector"
    page.context.close()
    page = look(browser, address, SECOND, 1920, 1080)
    page.locator("#room-state").wait_for()
    page.locator("#room-state button").click()
    page.locator("#room-state").wait_for(state="hidden")
    assert json.loads((home / "room.json").read_text())["theme"] == "screen"
    page.context.close()


SPOILS = {
    "al-picture { position: static !important; }": out_of_view,
    "al-ask { margin-bottom: 60px !important; }": lambda page: max(page.evaluate(layout.HOLES)) > MOST_EMPTY,
    "al-help { background: #0b4f96 !important; text-decoration: none !important; border-color: #0b4f96 !important; }": lambda page: (
        page.evaluate(layout.LOOKS)["help"] == page.evaluate(layout.LOOKS)["doing"]
    ),
    "noUi-connects { background: #eee !important; }": lambda page: layout.contrast(page.evaluate(layout.KNOBS)[0]["track"], PAPER) < 3,
    "al-row > .widget-html:first-child { flex-basis: 4rem !important; }": lambda page: any(max(rows) - min(rows) > IN_LINE for rows in page.evaluate(layout.ROWS) if rows),
}


@pytest.mark.slow
def test_the_measures_see_what_is_spoiled(browser, address):
    pages = [look(browser, address, name) for name in QUICK]
    for rule, seen in SPOILS.items():
        page = pages[seen is out_of_view]  # where the controls are longer than the window
        assert not seen(page)
        spoiled = page.add_style_tag(content=f".jp-Notebook .jupyter-widgets .{rule} .jp-Notebook .jupyter-widgets.{rule}")
        assert seen(page), f"not seen: {rule}"
        spoiled.evaluate("one => one.remove()")
    for page in pages:
        page.context.close()
