"""Plain pages on a phone, a tablet, a laptop, a desk and enlarged to 200 %: letters, frames, sliders, targets by measure; axe; keys alone.

Three pages at two sizes in the tests, every page at every size in the slow tier.
"""

import pytest
from axe import barriers
from by_keys import answer_one, lost, slide_one, walk
from course import PROJECT, served
from glass import SIZES, faults, opened
from names import alike, names

NAMES = sorted(path.stem for path in (PROJECT / "notebooks").glob("*.ipynb"))
TOGETHER = (("phone", "tablet"), ("laptop", "desk", "enlarged"))
"""Sizes that one opening serves, the window made larger or smaller: by fingers, by a mouse."""
FINGER = {"phone": 44, "tablet": 44}
"""The least target where there are only fingers [px]; elsewhere 24."""
QUESTIONLESS = {"home", "glossary", "notation"}


@pytest.fixture(scope="module")
def address(browser, home):
    with served(home) as found:
        yield found


def measured(page, size):
    return faults(page, FINGER.get(size, 24)) + barriers(page)


def go_by_keys(page, question=True):
    for key in ("Tab", "Shift+Tab"):
        assert lost(*walk(page, key), key) == []
    assert not question or answer_one(page)
    assert slide_one(page) in (True, None)


def test_a_page_on_a_phone_by_measure_and_by_keys(browser, address):
    with opened(browser, address, "06_taper_outside", "phone") as page:
        go_by_keys(page)
        assert measured(page, "phone") == []
        assert alike(names(page)) == []


def test_the_bench_on_a_tablet(browser, address):
    with opened(browser, address, "builders_bench", "tablet") as page:
        assert measured(page, "tablet") == []
        assert alike(names(page)) == []


def test_the_measures_see(browser, address):
    """Each fault that is measured, made by hand on a page that has none."""
    bad = """() => document.querySelector("#rendered_cells > div").insertAdjacentHTML("beforeend", `
        <p style="font-size:9px">tiny words</p><p style="width:3000px">wide words</p><div style="width:40px;overflow:hidden;white-space:nowrap">words that are cut</div>
        <div style="width:50px;overflow-x:auto"><span style="white-space:nowrap">words that nobody reaches</span></div>
        <button style="width:10px;height:10px"></button><svg role="img" style="min-width:0 !important" width="200" height="100" viewBox="0 0 200 100"><text y="50" font-size="9">a</text></svg>
        <div class="widget-slider"><div class="noUi-target" style="width:40px;height:8px"><i class="noUi-handle" style="display:block;width:8px;height:8px"></i></div></div>
        <img src="data:," width="9" height="9" alt="no picture">`)"""
    with opened(browser, address, "home", "phone") as page:
        assert faults(page, 44) == []
        page.evaluate(bad)
        said = " | ".join(faults(page, 44))
    for words in ("letters of 9px", "wider than the window", "out of the window", "cut: ", "not reached by keys", "a target of 16 x 10", "in a picture", "a track of 40", "a knob of 8", "not there"):
        assert words in said, words


def test_what_is_called_alike_is_heard(browser, address):
    bad = """() => document.querySelectorAll("[role=group]").forEach(one => one.removeAttribute("aria-label"))"""
    with opened(browser, address, "06_taper_outside") as page:
        found = names(page)
        assert len(found) > 60 and {"Commit", "Check", "Reset"} <= {name for _, name, *around in found if around}
        page.evaluate(bad)
        said = " | ".join(alike(names(page)))
    assert "times: button Commit" in said and "times: slider Width left s (in.)" in said and "times: button Reset" in said


def test_the_walk_sees(browser, address):
    bad = """() => { document.querySelectorAll("#rendered_cells a")[2].tabIndex = 5;
        document.body.insertAdjacentHTML("beforeend", "<style>#rendered_cells a:focus-visible { outline: none !important }</style>"); }"""
    with opened(browser, address, "home", "laptop") as page:
        assert lost(*walk(page)) == []
        page.evaluate(bad)
        said = " | ".join(lost(*walk(page)))
    assert "no ring" in said and ("not reached" in said or "out of order" in said)


@pytest.mark.slow
@pytest.mark.parametrize("sizes", TOGETHER, ids="-".join)
@pytest.mark.parametrize("name", NAMES)
def test_every_page_on_every_glass(browser, address, name, sizes):
    found = {}
    with opened(browser, address, name, sizes[0]) as page:
        for size in sizes:
            SIZES[size].take(page)
            found[size] = measured(page, size)
        found["by ear"] = alike(names(page))
    assert {size: wrong for size, wrong in found.items() if wrong} == {}


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_every_page_by_keys(browser, address, name):
    for size in ("phone", "laptop", "enlarged"):
        with opened(browser, address, name, size) as page:
            go_by_keys(page, question=size == "phone" and name not in QUESTIONLESS)
