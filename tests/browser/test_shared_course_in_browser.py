"""The shared course on a phone, in a real browser: through the door, a lesson answered, nothing kept on the owner's disk; and a class at once (slow)."""

import re
import sys
import time
from pathlib import Path

import psutil
import pytest
from course import FREE, answer, move_a_slider

sys.path.append(str(Path(__file__).resolve().parents[1] / "visitors"))
from shared import shared  # noqa: E402

PHONE = {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 2, "is_mobile": True, "has_touch": True}
READY = "document.querySelector('#page-state')?.textContent === '' && window.jupyterapp"
PATIENCE = 240_000
STRANGE = "no control sends"


@pytest.fixture(scope="module")
def shared_course(browser, home):
    with shared(home, "--visitors", "8") as running:
        yield running


def on_a_phone(browser, course, file=""):
    page = browser.new_context(**PHONE).new_page()
    page.outside = []
    page.on("request", lambda request: page.outside.append(request.url) if not request.url.startswith((course.url, "data:", "blob:")) else None)
    page.goto(f"{course.url}/?token={course.code}")
    if file:
        page.goto(f"{course.url}/voila/render/notebooks/{file}", wait_until="commit", timeout=PATIENCE)
    return page


def ready(page) -> None:
    """Waits for the page's own word that it is; one that never is has said why."""
    try:
        page.wait_for_function(READY, timeout=PATIENCE)
    except Exception as error:  # playwright is asked for by the fixture alone
        raise AssertionError(f"{page.url} is not ready, and says: {page.inner_text('body')[:400]}") from error


def leave(page) -> None:
    """Closes a page as a person does, and waits until its Python has ended: until then it takes one of the places."""
    kernel = page.evaluate("jupyterapp.widgetManager.kernel.id")
    page.close(run_before_unload=True)
    until = time.monotonic() + 300
    while any(kernel in " ".join(one.info["cmdline"] or []) for one in psutil.process_iter(["cmdline"])):
        assert time.monotonic() < until, "a page that was left keeps its place"
        time.sleep(0.3)
    page.context.close()


def drawn(page) -> int:
    ready(page)
    page.wait_for_selector(".jupyter-widgets", timeout=PATIENCE)
    before, now = -1, page.locator(".jupyter-widgets").count()
    while now != before:
        page.wait_for_timeout(2000)
        before, now = now, page.locator(".jupyter-widgets").count()
    assert "Error displaying" not in page.inner_text("body")
    return now


def files_of(home: Path) -> set[str]:
    return {path.relative_to(home).as_posix() for path in home.rglob("*") if path.is_file() and ".pages" not in path.parts}


def no_box_for_files(page) -> None:
    """No entry for a path, no file to choose, no button that opens, saves or packs; an answer to choose may have such a word."""
    labels = " ".join(page.locator(".widget-label, input[placeholder]").evaluate_all("all => all.map(one => one.textContent + one.placeholder)")).lower()
    assert not re.search(r"\b(file|folder|rack|save|path)\b", labels), labels
    buttons = [name.lower() for name in page.locator("button:not(.word, .widget-toggle-button)").all_inner_texts()]
    assert not any(re.search(r"\b(open|save|pack|write|class)\b", name) for name in buttons), buttons
    assert page.locator("input[type=file], .widget-upload").count() == 0


def test_a_phone_goes_in_reads_and_answers_and_leaves_nothing(browser, shared_course, home):
    page = browser.new_context(**PHONE).new_page()
    page.goto(f"{shared_course.url}/voila/render/notebooks/03_square_end.ipynb")
    page.get_by_label("Code").fill(shared_course.code.upper())
    page.get_by_role("button", name="Open").click()
    page.get_by_role("link", name=re.compile("03 Square an end")).wait_for()
    assert "token" not in page.url and page.evaluate("document.documentElement.scrollWidth") <= 390
    page.get_by_role("link", name=re.compile("03 Square an end")).click()
    drawn(page)
    body = page.inner_text("body")
    assert "A shared page: your answers stay on it" in body and "30 minutes" in body and "your own folder" not in body
    commit = page.get_by_role("button", name="Commit", exact=True).first
    answer(commit)
    assert move_a_slider(page) and page.locator(FREE).count()
    no_box_for_files(page)
    assert files_of(home) == set() and STRANGE not in shared_course.said
    page.locator("nav.way").first.get_by_role("link", name="Home").click()
    page.get_by_role("heading", level=1, name="Making parts").wait_for()
    page.context.close()


def test_the_bench_has_no_box_for_files_and_says_so(browser, shared_course, home):
    page = on_a_phone(browser, shared_course, "builders_bench.ipynb")
    drawn(page)
    no_box_for_files(page)
    assert page.get_by_text("nothing is opened, saved or printed").count() == 2
    assert page.outside == [] and files_of(home) == set()
    [python] = [one for one in psutil.process_iter(["cmdline"]) if page.evaluate("jupyterapp.widgetManager.kernel.id") in " ".join(one.info["cmdline"] or [])]
    python.kill()
    page.wait_for_selector("#page-state button")
    assert "has stopped" in page.inner_text("#page-state") and "kept" not in page.inner_text("#page-state")
    page.context.close()


SIX = ("00_start_here", "03_square_end", "07_taper_inside", "08_order_of_work", "10_check_and_diagnose", "12_make_part")


@pytest.mark.slow
def test_a_class_of_six_opens_six_lessons_at_once(browser, shared_course, home):
    alone = {}
    for name in SIX:
        page = on_a_phone(browser, shared_course, f"{name}.ipynb")
        alone[name] = drawn(page)
        leave(page)
    pages = {name: on_a_phone(browser, shared_course, f"{name}.ipynb") for name in SIX}
    assert {name: drawn(page) for name, page in pages.items()} == alone
    for page in pages.values():
        move_a_slider(page)
        no_box_for_files(page)
        assert page.outside == []
    assert files_of(home) == set() and STRANGE not in shared_course.said
    for page in pages.values():
        page.context.close()


@pytest.mark.slow
def test_every_page_works_for_a_visitor_and_sends_nothing_strange(browser, shared_course, home):
    from anglelib.visitors.leaf import FILES

    for file in sorted(FILES):
        page = on_a_phone(browser, shared_course, file)
        drawn(page) if file not in ("notation.ipynb",) else ready(page)
        body = page.inner_text("body")
        assert "There was an error" not in body and "Traceback" not in body, file
        assert move_a_slider(page) in (None, True), file
        for button in page.get_by_role("button", name=re.compile("^(Hint|Check|Other numbers|Reset|Projector)$")).all()[:12]:
            if button.is_visible() and button.is_enabled():
                button.click()
        for entry in page.locator("input[type=text]:visible:not([disabled])").all()[:4]:
            entry.fill("1 5/8")
            entry.press("Tab")
        page.wait_for_timeout(1500)
        no_box_for_files(page)
        leave(page)
        assert STRANGE not in shared_course.said, file
    assert files_of(home) == set()
