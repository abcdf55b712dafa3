"""Every notebook in a real JupyterLab: it opens, runs all, shows no error, and its first free slider moves by keys and changes a picture.

The tests have lessons 00, 07 and 11 in files of their own; all others are in the slow tier.
"""

import pytest
from course import PROJECT, move_a_slider, open_notebook, run_all

NAMES = sorted(path.name for path in (PROJECT / "notebooks").glob("*.ipynb"))
ERRORS = '[data-mime-type="application/vnd.jupyter.error"], [data-mime-type="application/vnd.jupyter.stderr"]'


def walk(page) -> int:
    """Scrolls from top to bottom, since JupyterLab draws only what is near; how many errors were met."""
    panel = page.locator(".jp-WindowedPanel-outer").first
    panel.evaluate("panel => panel.scrollTop = 0")
    met = 0
    for _ in range(200):
        met += page.locator(ERRORS).count()
        if panel.evaluate("panel => { const before = panel.scrollTop; panel.scrollTop += 600; return panel.scrollTop === before }"):
            return met
        page.wait_for_timeout(120)
    return met


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_opens_runs_and_moves(browser, address, name):
    page = browser.new_page(viewport={"width": 1366, "height": 2400})
    complaints = []
    page.on("pageerror", lambda error: complaints.append(str(error)))
    open_notebook(page, address, name)
    run_all(page, ".jp-OutputArea-output ul a" if name == "home.ipynb" else ".jp-OutputArea-output .jupyter-widgets")
    page.wait_for_timeout(3000)
    assert walk(page) == 0
    panel = page.locator(".jp-WindowedPanel-outer").first
    panel.evaluate("panel => panel.scrollTop = 0")
    moved = None
    for _ in range(60):
        page.wait_for_timeout(250)
        if page.locator(".jp-OutputArea-output [role=slider]").count():
            moved = move_a_slider(page)
            break
        if panel.evaluate("panel => { const before = panel.scrollTop; panel.scrollTop += 900; return panel.scrollTop === before }"):
            break
    assert moved in (None, True), "the slider moves nothing"
    assert complaints == []
    page.close()


@pytest.mark.slow
def test_links_open_the_lessons_inside_jupyterlab(browser, address):
    """From the list of home, and from a lesson's closing line; the window is not loaded afresh."""
    page = browser.new_page(viewport={"width": 1366, "height": 1600})
    open_notebook(page, address, "home.ipynb")
    page.evaluate("window.same = true")
    page.locator(".jp-OutputArea-output").get_by_role("link", name="05 Kerf and sanding allowance").click()
    page.get_by_role("heading", level=1, name="05 ").wait_for()
    panel = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-WindowedPanel-outer")
    onward = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden)").get_by_role("link", name="06, the taper on the outside face")
    for _ in range(60):
        panel.evaluate("panel => panel.scrollTop = panel.scrollHeight")
        page.wait_for_timeout(250)
        if onward.count() and onward.is_visible():
            break
    onward.click()
    page.get_by_role("heading", level=1, name="06 ").wait_for()
    assert page.evaluate("window.same") is True
    page.close()
