"""The first start, as a new user meets it: the first lesson, and no question in front of it."""

from course import open_notebook


def test_nothing_stands_before_the_lesson(browser, address):
    page = browser.new_page(viewport={"width": 1366, "height": 900})
    open_notebook(page, address, "00_start_here.ipynb")
    page.wait_for_timeout(4000)  # JupyterLab asks about news some seconds after it has opened
    shown = page.locator("body").inner_text()
    assert "get notified" not in shown and "news" not in shown.lower(), shown[:500]
    page.close()
