"""Words of the glossary in the lines of a page: none parts from its bracket or comma; and a picture that once was wider than its column."""

import pytest
from course import served
from glass import SIZES, opened, settle

PARTED = r"""() => [...document.querySelectorAll("button.word")].flatMap(word => {
  const walk = document.createTreeWalker(document.querySelector("#rendered_cells"), NodeFilter.SHOW_TEXT), found = [];
  let before = null, after = null;
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    if (word.contains(node)) continue;
    if (word.compareDocumentPosition(node) & Node.DOCUMENT_POSITION_PRECEDING) before = node;
    else { after = node; break; }
  }
  const line = (node, at) => {
    const range = document.createRange();
    range.setStart(node, at);
    range.setEnd(node, at + 1);
    return range.getBoundingClientRect();
  };
  const box = word.getBoundingClientRect();
  if (after && /^[),.;:!?]/.test(after.data) && line(after, 0).top >= box.bottom - 2) found.push(`${word.textContent}|${after.data.slice(0, 9)}`);
  if (before && /[(]$/.test(before.data) && line(before, before.length - 1).bottom <= box.top + 2) found.push(`${before.data.slice(-9)}|${word.textContent}`);
  return found;
})"""


@pytest.fixture(scope="module")
def address(browser, home):
    with served(home) as found:
        yield found


@pytest.mark.slow
def test_no_word_parts_from_its_bracket_or_comma(browser, address):
    with opened(browser, address, "00_start_here", "laptop") as page:
        assert page.locator(".word-kept").count() > 3
        for size in (SIZES["phone"], SIZES["laptop"]):
            for less in range(0, 120, 5):  # each width breaks the lines at other words
                page.set_viewport_size({"width": size.width - less, "height": size.height})
                settle(page)
                assert page.evaluate(PARTED) == []
        page.add_style_tag(content=".word-kept { white-space: normal !important; }")
        seen = []
        for less in range(0, 120, 5):
            page.set_viewport_size({"width": 390 - less, "height": 844})
            settle(page)
            seen += page.evaluate(PARTED)
        assert seen  # without the rule some do


@pytest.mark.slow
@pytest.mark.parametrize(("wide", "high"), [(1024, 768), (1280, 800), (1440, 900)])
def test_the_picture_of_lesson_12_fits(browser, address, wide, high):
    with opened(browser, address, "12_make_part", "laptop") as page:
        page.set_viewport_size({"width": wide, "height": high})
        settle(page)
        assert page.evaluate("[...document.querySelectorAll('.al-picture .moves, .al-picture.moves')].length") == 0
        assert page.evaluate(LETTERS) >= 11


LETTERS = """() => Math.min(...[...document.querySelectorAll('.al-picture svg')].filter(svg => svg.getBoundingClientRect().width).flatMap(svg => {
  const box = svg.getBoundingClientRect(), drawn = svg.viewBox.baseVal, scale = Math.min(box.width / drawn.width, box.height / drawn.height);
  return [...svg.querySelectorAll('text')].map(text => text.getAttribute('font-size') * scale).filter(Boolean);
}))"""
"""The smallest letters of the pictures, as they are scaled [px]."""
