"""The real course, as pages or in JupyterLab, and a real browser that looks at it."""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome")
FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]
TRIES = 6
TAKEN = 240_000
"""So long a page or its kernel may take to do what it was asked for [ms]; on a quiet machine it is tenths of a second."""


def browser_path() -> str | None:
    """The browser on this machine, if there is one."""
    return next((found for name in BROWSERS if (found := shutil.which(name))), None)


def launched(player):
    """The browser; its pages wait for what a busy machine takes its time to do."""
    browser = player.chromium.launch(executable_path=browser_path(), args=FLAGS)

    def patient(new):
        def made(**how):
            opened = new(**how)
            opened.set_default_timeout(TAKEN)
            return opened

        return made

    browser.new_page, browser.new_context = patient(browser.new_page), patient(browser.new_context)
    return browser


def _free_port() -> int:
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        return listening.getsockname()[1]


@contextlib.contextmanager
def served(home: Path, *how: str, tree: Path = PROJECT) -> Iterator[str]:
    """The course as ``python -m anglelib course`` serves it to a learner's folder; gives its address with the token. ``tree`` is the project's folder."""
    port = _free_port()
    environment = {**os.environ, "ANGLELIB_HOME": str(home), "JUPYTER_CONFIG_DIR": str(home / ".jupyter")}
    if tree != PROJECT:
        environment["PYTHONPATH"] = str(tree)
    log = tempfile.TemporaryFile("w+")
    server = subprocess.Popen(
        [sys.executable, "-m", "anglelib", "course", "--no-browser", f"--port={port}", *how],
        cwd=tree, env=environment, stdout=log, stderr=log,
    )  # fmt: skip
    try:
        yield _address(server, log, port)
    finally:
        server.terminate()
        try:
            server.wait(120)
        except subprocess.TimeoutExpired:
            server.kill()
        log.seek(0)
        said = log.read()
        log.close()
    for word in ("encryption", "DeprecationWarning", "Traceback", "ERROR"):
        assert word not in said, f"The terminal of the course is the learner's; it says:\n{said}"


def _address(server: subprocess.Popen, log, port: int) -> str:
    deadline = time.monotonic() + TAKEN / 1000
    while time.monotonic() < deadline:
        log.seek(0)
        said = log.read()
        found = re.search(rf"http://127\.0\.0\.1:{port}/\S*token=(\w+)", said)
        if found:
            return f"http://127.0.0.1:{port}|{found[1]}"
        if server.poll() is not None:
            break
        time.sleep(0.2)
    raise RuntimeError(f"The course gave no address with a token:\n{said}")


def open_notebook(page, address: str, name: str) -> None:
    """Opens a notebook in JupyterLab, alone on the screen, with its kernel connected."""
    base, token = address.split("|")
    page.goto(f"{base}/lab/tree/notebooks/{name}?reset&token={token}")
    page.wait_for_selector(".jp-Notebook .jp-MarkdownOutput h1", timeout=TAKEN)


def run_all(page, ready: str) -> None:
    """Runs all cells until a widget ``ready`` (a CSS selector) shows.

    The kernel says it is idle a little before it is connected, and what is sent then is lost: so the
    command is given again.
    """
    for _ in range(TRIES):
        time.sleep(1.5)
        page.get_by_role("menuitem", name="Run", exact=True).click()
        page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
        with contextlib.suppress(Exception):
            page.wait_for_selector(ready, timeout=30_000, state="attached")
            return
    raise RuntimeError("Run All Cells brought no widget")


_SHOWN = """() => [
    ...[...document.querySelectorAll('.widget-html, .widget-htmlmath')].map(one => one.innerHTML),
    ...[...document.querySelectorAll('.widget-text input')].map(one => one.value),
].join()"""
"""The pictures and the typed entries of a page."""
FREE = ".noUi-target:not([disabled]) [role=slider]"


def move_a_slider(page) -> bool | None:
    """Commits predictions until a slider is free, and moves it by keys: whether its picture changed; None where there is no slider."""
    if page.locator("[role=slider]").count() == 0:
        return None
    for commit in page.get_by_role("button", name="Commit", exact=True).all():
        if page.locator(FREE).count():
            break
        answer(commit)
    slider = page.locator(FREE).first
    slider.scroll_into_view_if_needed()
    slider.focus()
    before = page.evaluate(_SHOWN)
    for key in ("ArrowRight", "ArrowRight", "ArrowLeft", "ArrowLeft", "ArrowLeft"):
        page.keyboard.press(key)
        page.wait_for_timeout(200)
        if page.evaluate(_SHOWN) != before:
            return True
    with contextlib.suppress(Exception):
        page.wait_for_function(f"before => ({_SHOWN})() !== before", arg=before, timeout=TAKEN)
    return page.evaluate(_SHOWN) != before


_SAID = "() => [...document.querySelectorAll('[role=status]')].map(one => one.innerText).join('|')"


def answer(commit) -> None:
    """Gives the prediction beside a Commit button some answer, and commits it; a wrong number has a second try."""
    row = commit.locator("xpath=ancestor::*[contains(@class, 'widget-hbox')][2]")
    if row.locator("input[type=text]").count():
        row.locator("input[type=text]").first.fill("1")
        row.locator("input[type=text]").first.press("Tab")
    else:
        row.locator(".widget-toggle-button").first.click()
    for _ in range(2):
        if commit.is_enabled():
            said, button = commit.page.evaluate(_SAID), commit.element_handle()
            commit.click()
            commit.page.wait_for_function(f"([button, said]) => button.disabled || ({_SAID})() !== said", arg=[button, said], timeout=TAKEN)
            commit.page.wait_for_timeout(300)  # the button's own state comes a message later
