"""JupyterLab as a learner uses it on two days: what stands in a page's outputs, saving, and what the page's kernel is."""

from __future__ import annotations

import contextlib
import json
import os
import re
import signal
from collections.abc import Iterator
from pathlib import Path

from course import PROJECT, open_notebook

VIEW = "application/vnd.jupyter.widget-view+json"
SHOWN = """() => {
  const outputs = [...document.querySelectorAll(".jp-NotebookPanel:not(.lm-mod-hidden) .jp-OutputArea-output")];
  const count = has => outputs.filter(has).length;
  return {
    outputs: outputs.length,
    dead: count(one => /Error displaying widget|Loading widget|model not found/.test(one.textContent)),
    live: count(one => one.matches(".jupyter-widgets") || one.querySelector(".jupyter-widgets")),
    pictures: outputs.flatMap(one => [...one.querySelectorAll("img")]).length,
  };
}"""
"""What stands on a page: its outputs, those that are dead, those with live widgets, and the saved pictures."""
PANEL = ".jp-NotebookPanel:not(.lm-mod-hidden)"


def shown(page) -> dict[str, int]:
    return page.evaluate(SHOWN)


def shipped(name: str) -> dict:
    """The course's own notebook."""
    return json.loads((PROJECT / "notebooks" / name).read_text(encoding="utf-8"))


def copy_of(home: Path, name: str) -> dict:
    """The learner's."""
    return json.loads((home / "notebooks" / name).read_text(encoding="utf-8"))


def outputs_of(notebook: dict) -> int:
    return sum(len(cell.get("outputs", ())) for cell in notebook["cells"])


def pictures_of(notebook: dict) -> int:
    """How many pictures are saved in a notebook's outputs."""
    outputs = [output for cell in notebook["cells"] for output in cell.get("outputs", ())]
    return sum(len(re.findall("<img ", "".join(output.get("data", {}).get("text/html", "")))) for output in outputs)


def cells_of(notebook: dict) -> list[tuple[str, str]]:
    return [(cell["cell_type"], "".join(cell["source"])) for cell in notebook["cells"]]


def views_in(notebook: dict) -> int:
    return sum(VIEW in output.get("data", {}) for cell in notebook["cells"] for output in cell.get("outputs", ()))


def until_shown(page, wanted, seconds: float = 300) -> dict[str, int]:
    """Waits until what is shown is as wanted; gives what is shown at the end."""
    for _ in range(round(seconds * 5)):
        if wanted(found := shown(page)):
            return found
        page.wait_for_timeout(200)
    return shown(page)


def until_idle(page, seconds: float = 600) -> None:
    """Waits until the kernel is connected and has rested for 4 s; between two cells it rests for a moment only."""
    resting = 0
    for _ in range(round(seconds * 5)):
        idle = page.locator(f'{PANEL} .jp-Notebook-ExecutionIndicator[data-status="idle"]').count()
        resting = resting + 1 if idle else 0
        if resting == 20:
            return
        page.wait_for_timeout(200)


def save(page, home: Path, name: str) -> dict:
    """Saves the page, and gives what is then in the file."""
    path = home / "notebooks" / name
    before = path.stat().st_mtime_ns
    page.keyboard.press("Control+s")
    for _ in range(1200):
        page.wait_for_timeout(100)
        if path.stat().st_mtime_ns != before:
            break
    page.wait_for_timeout(300)
    return copy_of(home, name)


def run_menu(page) -> None:
    """Run All Cells, once."""
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()


def kernels_of(home: Path) -> list[int]:
    """The processes of the kernels that work for this learner's folder; Linux alone lists them so."""
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        with contextlib.suppress(OSError):
            if b"ipykernel" in (process / "cmdline").read_bytes() and f"ANGLELIB_HOME={home}".encode() in (process / "environ").read_bytes():
                found.append(int(process.name))
    return found


def end_kernels(home: Path) -> None:
    for number in kernels_of(home):
        os.kill(number, signal.SIGKILL)


def leave(page) -> None:
    """Closes the page when its kernel rests: a server that is stopped in the middle of a message says so."""
    until_idle(page)
    page.close()


@contextlib.contextmanager
def lesson(browser, address: str, name: str) -> Iterator:
    """A lesson open in a window of its own."""
    page = browser.new_page(viewport={"width": 1366, "height": 900})
    open_notebook(page, address, name)
    yield page
    leave(page)


@contextlib.contextmanager
def early(browser, address: str, name: str) -> Iterator:
    """The same, not waiting for its kernel."""
    base, token = address.split("|")
    page = browser.new_page(viewport={"width": 1366, "height": 900})
    page.goto(f"{base}/lab/tree/notebooks/{name}?reset&token={token}")
    page.wait_for_selector(".jp-Notebook .jp-MarkdownOutput h1")
    yield page
    leave(page)
