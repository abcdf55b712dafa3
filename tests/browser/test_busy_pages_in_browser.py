"""Plain pages on a busy computer: every widget of every page lives, whatever comes late; and a page whose Python ends says so.

What is late is made late here by hand in the quick tier: the browser's short timers, with which the renderer looks for its
model, and the kernel's answer to "which states have you", which is given up after 4 s. The slow tier keeps both cores
busy, and counts the widgets of each page against those of the same page on a computer that is not.
"""

import subprocess
import sys

import psutil
import pytest
from course import served

TWO = ("03_square_end", "10_check_and_diagnose")
FOUR = ("07_taper_inside", "08_order_of_work", "10_check_and_diagnose", "11_plan_the_stock")
ROUNDS = 20
LATE = "{ const given = setTimeout; window.setTimeout = (call, wait, ...more) => given(call, LATE[wait] ?? wait, ...more); }"
TIMERS = {"looks": "{ 100: 2500 }", "looks_and_answer": "{ 100: 2500, 4000: 1 }"}
WIDGETS = ".jupyter-widgets"
DEAD = "Error displaying"
STATE = "#page-state"
ANY_DEAD = f"document.body.innerText.includes('{DEAD}')"
READY = f"document.querySelector('{STATE}')?.textContent === '' && window.jupyterapp"
AT_MOST = 300_000  # ms, under full load


@pytest.fixture(scope="module")
def address(browser, home):
    with served(home, "--pages") as found:
        yield found


def opened(browser, address, name, script=""):
    base, token = address.split("|")
    page = browser.new_page(viewport={"width": 1200, "height": 900})
    page.errors = []
    page.on("console", lambda said: page.errors.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: page.errors.append(str(error)))
    if script:
        page.add_init_script(script)
    page.goto(f"{base}/voila/render/notebooks/{name}.ipynb?token={token}", wait_until="commit", timeout=AT_MOST)
    return page


def count(page, least: int = 1, rest: int = 3000) -> int:
    """The widgets of a page, once there are so many, or one is dead, and their number stands still for ``rest`` [ms]: longer than what is late."""
    page.wait_for_function(READY, timeout=AT_MOST)
    page.wait_for_function(f"document.querySelectorAll('{WIDGETS}').length >= {least} || {ANY_DEAD}", timeout=AT_MOST)
    before, now = -1, page.locator(WIDGETS).count()
    while now != before:
        page.wait_for_timeout(rest)
        before, now = now, page.locator(WIDGETS).count()
    return now


def closed_alive(page) -> None:
    assert DEAD not in page.inner_text("body") and page.errors == []
    page.goto("about:blank")  # which ends its kernel
    page.close()


@pytest.mark.parametrize("late", TIMERS.values(), ids=TIMERS.keys())
def test_no_widget_dies_of_what_comes_late(browser, address, late):
    pages = [opened(browser, address, name, LATE.replace("LATE", late)) for name in TWO]
    for page in pages:
        assert count(page, least=50) > 50
        closed_alive(page)


def test_a_page_says_what_it_waits_for_and_that_its_python_has_ended(browser, address):
    note = f"""window.said = []; new MutationObserver(() => {{
        const now = document.querySelector('{STATE}')?.textContent; if (now && now !== said.at(-1)) said.push(now);
    }}).observe(document, {{ childList: true, subtree: true, characterData: true }});"""
    page = opened(browser, address, TWO[0], note)
    alive = count(page, rest=1000)
    said = page.evaluate("said")
    assert "Python is starting" in said[0] and "part 2 of" in said[2] and "pictures and controls" in said[-1]
    assert not page.locator(STATE).is_visible()
    kernel = page.evaluate("jupyterapp.widgetManager.kernel.id")
    [python] = [one for one in psutil.process_iter(["cmdline"]) if any(kernel in word for word in one.info["cmdline"] or [])]
    python.kill()
    page.wait_for_selector(f"{STATE} button")
    assert "has stopped" in page.inner_text(STATE) and "answers are kept" in page.inner_text(STATE)
    page.get_by_role("button", name="Load the page again").click()
    page.wait_for_function("document.querySelector('#page-state')?.textContent !== '' ", timeout=AT_MOST)
    assert count(page, least=alive, rest=1000) == alive
    page.close(run_before_unload=True)


def test_a_kernel_ends_with_its_page(browser, address):
    base, token = address.split("|")
    page = opened(browser, address, TWO[0])
    count(page)  # a page that is left while it is still asking makes its server complain
    kernel = f"{base}/api/kernels/{page.evaluate('jupyterapp.widgetManager.kernel.id')}"
    assert page.request.get(kernel).status == 200
    page.goto("about:blank")
    for _ in range(600):
        if page.request.get(kernel).status == 404:
            break
        page.wait_for_timeout(500)
    assert page.request.get(kernel).status == 404
    page.close()


@pytest.mark.slow
def test_four_pages_at_once_with_both_cores_busy(browser, address):
    idle = {}
    for name in FOUR:
        page = opened(browser, address, name)
        idle[name] = count(page)
        closed_alive(page)
    busy = [subprocess.Popen([sys.executable, "-c", "while True: pass"]) for _ in range(4)]
    try:
        for _ in range(ROUNDS):
            pages = {name: opened(browser, address, name) for name in FOUR}
            assert {name: count(page, least=idle[name]) for name, page in pages.items()} == idle
            for page in pages.values():
                closed_alive(page)
    finally:
        for process in busy:
            process.kill()
