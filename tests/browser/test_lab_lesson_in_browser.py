"""A lesson in JupyterLab as an ordinary person handles it: run too early, keys that slip, code looked at and changed, a fresh copy."""

import pytest
from course import open_notebook
from lab import PANEL, cells_of, copy_of, early, lesson, outputs_of, run_menu, save, shipped, shown, until_idle, until_shown

NAME = "09_holes_and_what_if.ipynb"
pytestmark = pytest.mark.slow
TOP = f"{PANEL} .jp-WindowedPanel-outer"


def test_a_run_that_is_asked_for_too_early_wipes_nothing_and_comes(browser, address):
    with early(browser, address, NAME) as page:
        run_menu(page)
        wanted, least, found = outputs_of(shipped(NAME)), 99, {}
        until_shown(page, lambda now: now["outputs"] == wanted, 20)
        for _ in range(600):
            found = shown(page)
            least = min(least, found["outputs"])
            if found["pictures"] == 0:
                break
            page.wait_for_timeout(50)
        assert found["live"] >= 10 and found["dead"] == 0, found
        assert least >= wanted - 1, f"of {wanted} outputs there were {least} at one time: only one may just be exchanged"


def at_the_top(page) -> str:
    """What the reader has before them: the cell at the top edge of the page, and how far down it begins."""
    return page.evaluate(
        """panel => {
          const edge = document.querySelector(panel).getBoundingClientRect().top;
          const cells = [...document.querySelectorAll(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-Cell")];
          return cells.findIndex(cell => cell.getBoundingClientRect().bottom > edge + 60);
        }""",
        TOP,
    )


@pytest.mark.parametrize("how", ["menu", "button"])
def test_the_reader_stays_where_they_read(how, browser, address):
    with lesson(browser, address, NAME) as page:
        until_idle(page)
        page.locator(TOP).evaluate("panel => panel.scrollTop = 2400")
        page.wait_for_timeout(500)
        before = at_the_top(page)
        run_menu(page) if how == "menu" else page.get_by_role("button", name="Run the page").click()
        seen = set()
        for _ in range(600):
            seen.add(at_the_top(page))
            if shown(page)["pictures"] == 0:
                break
            page.wait_for_timeout(50)
        page.wait_for_timeout(3000)
        seen.add(at_the_top(page))
        assert 3 < before < 30 and max(abs(one - before) for one in seen) <= 1, (before, seen)


def test_keys_that_slip_lose_nothing_of_a_lesson_and_own_cells_go(browser, address, home):
    with lesson(browser, address, NAME) as page:
        until_idle(page)
        page.locator(f"{PANEL} .jp-MarkdownCell").nth(1).click()
        page.keyboard.press("Escape")
        for key in ("d", "d", "x", "Shift+M", "m", "r", "1", "Control+Backspace", "Control+Shift+M"):
            page.keyboard.press(key)
            page.wait_for_timeout(150)
        page.keyboard.press("j")
        for key in ("d", "d", "x", "Shift+M", "m", "r", "1", "Shift+ArrowDown", "Shift+ArrowDown", "d", "d", "x", "Shift+M"):
            page.keyboard.press(key)
            page.wait_for_timeout(150)
        assert page.locator(".Toastify").get_by_text("belongs to the lesson").count()
        page.keyboard.press("b")
        assert cells_of(save(page, home, NAME)) != cells_of(shipped(NAME))
        page.keyboard.press("Escape")
        for _ in range(5):  # on a busy machine two keys may come too far apart
            page.keyboard.press("d")
            page.keyboard.press("d")
            page.wait_for_timeout(500)
        assert cells_of(save(page, home, NAME)) == cells_of(shipped(NAME))


def test_code_on_request_and_a_fresh_copy(browser, address, home):
    with lesson(browser, address, NAME) as page:
        until_idle(page)
        code = page.locator(f"{PANEL} .jp-CodeCell .cm-content")
        assert not any(one.is_visible() for one in code.all())
        page.get_by_role("button", name="Code", exact=True).click()
        page.wait_for_timeout(500)
        first = code.first
        assert first.is_visible() and "import" in first.inner_text()
        for _ in range(5):  # a busy machine takes its time to make a cell one that is written in
            first.click()
            page.keyboard.press("Control+End")
            page.wait_for_timeout(500)
            if first.evaluate("one => one.contains(document.activeElement) || one === document.activeElement"):
                break
        page.keyboard.type("  # mine")
        first.get_by_text("# mine").wait_for()
        page.get_by_role("button", name="Fresh copy", exact=True).click()
        page.locator(".jp-Dialog").get_by_role("button", name="Fresh copy").click()
        said = page.locator(".Toastify").get_by_text("is kept beside it: notebooks/09_holes_and_what_if_mine_")
        said.wait_for()
        first.wait_for(state="hidden")  # the page shows what the course has: its code folded
        (kept,) = (home / "notebooks").glob("09_holes_and_what_if_mine_*.ipynb")
        assert cells_of(copy_of(home, NAME)) == cells_of(shipped(NAME))
        assert [source for _, source in cells_of(copy_of(home, kept.name)) if source.endswith("  # mine")]
        open_notebook(page, address, kept.name)
        assert page.get_by_role("button", name="Fresh copy", exact=True).count() == 0, "a page of the learner's own has no fresh copy"


def test_prose_that_waits_opens_with_its_answer(browser, address):
    with lesson(browser, address, "07_taper_inside.ipynb") as page:
        until_idle(page)
        run_menu(page)
        until_shown(page, lambda now: now["pictures"] == 0)
        folds = page.locator("details.after.predict-the-mark").first, page.locator("details.after.predict-the-thickness").first
        assert [fold.evaluate("one => one.open") for fold in folds] == [False, False]
        question = page.locator(".al-ask").filter(has=page.locator("[data-question=predict-the-mark]"))
        question.locator("input[type=text]").fill("7/32")
        question.locator("input[type=text]").press("Tab")
        question.get_by_role("button", name="Commit").click()
        page.wait_for_function("document.querySelector('details.after.predict-the-mark').open")
        assert not folds[0].locator("summary").is_visible() and not folds[1].evaluate("one => one.open")
