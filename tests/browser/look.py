"""Looking at one page of the course: a cell by its call, its picture's sentence, and what was wrong behind the scenes."""

from __future__ import annotations

import re

from course import open_notebook


def watched(browser, address: str, notebook: str):
    """A new page with the notebook open, which keeps its complaints and every address outside this machine."""
    page = browser.new_page(viewport={"width": 1366, "height": 900})
    page.complaints, page.outside = [], []
    page.on("pageerror", lambda error: page.complaints.append(str(error)))
    page.on("console", lambda message: page.complaints.append(message.text) if message.type == "error" else None)
    page.on("request", lambda request: page.outside.append(request.url) if "127.0.0.1" not in request.url else None)
    open_notebook(page, address, notebook)
    return page


def cell(page, call: str):
    """The code cell that calls this, scrolled to: JupyterLab draws a cell only when it is near."""
    found = page.locator(".jp-CodeCell", has_text=f"lesson.{call}")
    panel = page.locator(".jp-WindowedPanel-outer").first
    panel.evaluate("panel => panel.scrollTop = 0")
    for _ in range(60):
        if found.count():
            break
        panel.evaluate("panel => panel.scrollTop += 500")
        page.wait_for_timeout(100)
    found.evaluate("cell => cell.scrollIntoView()")
    return found


def sentence(part) -> str:
    """What the picture in a cell says to somebody who cannot see it."""
    return part.locator(".widget-html svg").first.get_attribute("aria-label")


def until(part, text: str) -> str:
    """The picture's sentence, once it holds the text."""
    part.locator(f'.widget-html svg[aria-label*="{text}"]').first.wait_for()
    return sentence(part)


def said(part, text: str) -> None:
    """Waits until a text stands in the cell."""
    part.get_by_text(text).first.wait_for()


def press(part, *names: str) -> None:
    """Presses buttons by their exact names, one after another."""
    for name in names:
        part.get_by_role("button", name=name, exact=True).first.click()


def left_this_machine(page) -> list[str]:
    """Requests to anywhere else."""
    return [url for url in page.outside if not re.match(r"(data|blob|about|chrome)", url)]
