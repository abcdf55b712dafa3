"""Words of the glossary in a lesson in JupyterLab: the same as on the plain page, nothing else of the prose changed, and a cell that was rewritten has none."""

import html
import re

import nbformat
import pytest
from course import PROJECT
from lab import PANEL, lesson
from nbconvert.filters import markdown2html

from anglelib.explained import explained

NAME = "06_taper_outside.ipynb"
pytestmark = pytest.mark.slow
MARKED = f"""() => [...document.querySelectorAll("{PANEL} .jp-MarkdownCell")].map(cell =>
  [...cell.querySelectorAll(".jp-RenderedMarkdown button.word")].map(word => [word.dataset.word, word.textContent]))"""


def sources() -> list[str]:
    return [cell.source for cell in nbformat.read(PROJECT / "notebooks" / NAME, as_version=4).cells if cell.cell_type == "markdown"]


def letters(text: str) -> str:
    """What is left of a text however it was rendered: its formulas are not."""
    return re.sub(r"\W", "", re.sub(r"\$[^$]*\$", "", html.unescape(text)))


def on_the_plain_page() -> list[list[list[str]]]:
    mark = re.compile(r'<button type="button" class="word"[^>]*data-word="([^"]+)">([^<]*)</button>')
    return [[list(found) for found in mark.findall(text)] for text in explained(sources(), NAME.removesuffix(".ipynb"))[0]]


def test_the_words_of_the_plain_page_show_their_drawing(browser, address):
    with lesson(browser, address, NAME) as page:
        wanted, errors = on_the_plain_page(), []
        page.on("pageerror", lambda error: errors.append(str(error)))
        for number, words in enumerate(wanted):  # what is far from the reader is rendered when they come near
            cell = page.locator(f"{PANEL} .jp-MarkdownCell").nth(number)
            cell.scroll_into_view_if_needed()
            if words:
                cell.locator("button.word").first.wait_for(state="attached", timeout=60_000)  # it may be in a fold
        assert errors == [] and page.evaluate(MARKED) == wanted and sum(map(len, wanted)) > 10
        told = page.locator(f"{PANEL} .jp-MarkdownCell .jp-RenderedMarkdown").evaluate_all("all => all.map(one => one.textContent)")
        assert [letters(text) for text in told] == [letters(re.sub("<[^>]+>", "", markdown2html(text))) for text in sources()]
        words, box = page.locator(f"{PANEL} button.word"), page.locator("#word-shown")
        word = words.nth(3)
        word.scroll_into_view_if_needed()
        word.hover()
        box.wait_for(timeout=10_000)
        page.wait_for_function("() => document.querySelector('#word-shown img').naturalWidth > 0", timeout=10_000)
        assert box.inner_text().strip() == page.locator(f"#{word.get_attribute('aria-describedby')}").text_content()
        page.mouse.move(3, 3)
        box.wait_for(state="detached", timeout=10_000)
        word.click()  # as by a tap: the cell is chosen, and the box stays
        box.wait_for(timeout=10_000)
        page.wait_for_timeout(500)
        assert box.count() == 1
        page.keyboard.press("Escape")
        box.wait_for(state="detached", timeout=10_000)


def test_a_cell_rendered_again_has_its_words_and_a_rewritten_one_none(browser, address):
    with lesson(browser, address, NAME) as page:
        number = next(at for at, words in enumerate(on_the_plain_page()) if len(words) > 1)
        cell = page.locator(f"{PANEL} .jp-MarkdownCell").nth(number)
        cell.locator("button.word").first.wait_for(timeout=60_000)
        many = cell.locator("button.word").count()
        cell.locator(".jp-RenderedMarkdown p").last.dblclick(position={"x": 3, "y": 3})
        cell.locator(".cm-content").wait_for(timeout=10_000)
        page.keyboard.press("Shift+Enter")
        cell.locator("button.word").first.wait_for(timeout=10_000)
        assert cell.locator("button.word").count() == many
        cell.locator(".jp-RenderedMarkdown p").last.dblclick(position={"x": 3, "y": 3})
        cell.locator(".cm-content").click()
        page.keyboard.press("Control+End")
        page.keyboard.type(" The heel is mine.")
        page.keyboard.press("Shift+Enter")
        page.wait_for_timeout(1500)
        assert "The heel is mine." in cell.inner_text() and cell.locator("button.word").count() == 0
