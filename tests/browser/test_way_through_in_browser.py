"""A plain page in a real browser: prose opens with its answer and closes when the question is put back; words show their drawing by mouse, key and tap."""

import json

import pytest
from course import served


@pytest.fixture(scope="module")
def address(browser, home):
    with served(home) as found:
        yield found


def opened(browser, address: str, name: str, **how):
    base, token = address.split("|")
    page = browser.new_context(**how).new_page()
    page.errors = []
    page.on("pageerror", lambda error: page.errors.append(str(error)))
    page.on("response", lambda answer: page.errors.append(answer.url) if answer.status >= 400 else None)
    page.goto(f"{base}/voila/render/notebooks/{name}?token={token}")
    page.wait_for_function("() => document.querySelector('#page-state')?.textContent === ''")
    return page


def fold(page, question: str, open_: bool) -> None:
    page.wait_for_function(
        "([question, open]) => document.querySelector(`details.after.${question}`).open === open", arg=[question, open_]
    )


@pytest.mark.parametrize("size", [(1440, 900), (390, 844)], ids=["1440", "390"])
def test_prose_opens_with_its_answer_is_open_tomorrow_and_closes_when_it_is_put_back(browser, address, home, size):
    (home / "answers" / "07_taper_inside.json").unlink(missing_ok=True)
    page = opened(browser, address, "07_taper_inside.ipynb", viewport={"width": size[0], "height": size[1]})
    waits = page.locator("details.after.predict-the-mark").first  # the end of the lesson waits for it too
    for question in ("predict-the-mark", "predict-the-thickness", "predict-what-is-left"):
        fold(page, question, False)
    assert not waits.get_by_text("vertex-projection mark").is_visible()
    commit = page.get_by_role("button", name="Commit", exact=True).first
    entry = commit.locator("xpath=ancestor::*[contains(@class, 'widget-hbox')][2]").locator("input[type=text]").first
    entry.fill("7/32")
    entry.press("Tab")
    commit.click()
    fold(page, "predict-the-mark", True)
    assert waits.get_by_text("vertex-projection mark").is_visible() and not waits.locator("summary").is_visible()
    fold(page, "predict-the-thickness", False)
    page.reload()
    fold(page, "predict-the-mark", True)
    page.get_by_role("button", name="Ask again", exact=True).first.click()
    fold(page, "predict-the-mark", False)
    rows = json.loads((home / "answers" / "07_taper_inside.json").read_text())["answers"]
    assert [row["status"] for row in rows][-2:] == ["right", "put-back"] and all(row["at"].endswith("Z") for row in rows)
    page.locator("details.after.predict-the-thickness > summary").first.click()  # who does not want to answer reads on all the same
    fold(page, "predict-the-thickness", True)
    assert page.errors == []
    page.context.close()


def test_a_word_shows_its_drawing_by_mouse_and_key(browser, address):
    page = opened(browser, address, "06_taper_outside.ipynb", viewport={"width": 1440, "height": 900})
    word, box = page.locator("button.word").nth(3), page.locator("#word-shown")
    id_ = word.get_attribute("data-word")
    meaning = page.locator(f"#{word.get_attribute('aria-describedby')}")
    assert meaning.count() == 1 and not meaning.is_visible()
    word.scroll_into_view_if_needed()
    word.hover()
    box.wait_for()
    page.wait_for_function("() => document.querySelector('#word-shown img').naturalWidth > 0")
    assert box.inner_text().strip() == meaning.text_content() and f"word-{id_}.svg" in box.locator("img").get_attribute("src")
    box.hover()  # it stays while one looks at it
    page.wait_for_timeout(500)
    assert box.count() == 1
    page.mouse.move(3, 3)
    box.wait_for(state="detached")
    word.focus()
    box.wait_for()
    page.keyboard.press("Escape")
    assert box.count() == 0 and word.evaluate("word => word === document.activeElement")
    page.keyboard.press("Enter")
    assert box.count() == 1
    page.keyboard.press("Tab")
    page.wait_for_timeout(200)
    assert box.count() == (1 if page.evaluate("() => document.activeElement.className") == "word" else 0)
    assert page.errors == []
    page.context.close()


def test_a_word_shows_its_drawing_by_tap_within_the_glass(browser, address):
    page = opened(browser, address, "06_taper_outside.ipynb", viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    box = page.locator("#word-shown")
    for number in (2, 3, 4):
        word = page.locator("button.word:visible").nth(number)
        word.scroll_into_view_if_needed()
        word.tap()
        box.wait_for()
        at = box.bounding_box()
        assert at["x"] >= 0 and at["x"] + at["width"] <= 390 and at["y"] + at["height"] <= 844
    page.wait_for_timeout(700)
    word.tap()
    box.wait_for(state="detached")
    word.tap()
    box.wait_for()
    page.touchscreen.tap(10, 400)
    box.wait_for(state="detached")
    assert page.errors == []
    page.context.close()


def test_review_asks_and_home_says_so(browser, address, home):
    folder = home / "answers"
    folder.mkdir(exist_ok=True)
    row = {"question": "09-edge", "variant": 0, "typed": "1", "status": "wrong", "slips": [], "at": "2026-01-05T10:00:00Z"}
    (folder / "09_holes_and_what_if.json").write_text(json.dumps({"format": 2, "lesson": "09_holes_and_what_if", "answers": [row]}))
    page = opened(browser, address, "home.ipynb", viewport={"width": 390, "height": 844})
    page.get_by_text("One question is due.").wait_for()
    page.get_by_role("link", name="Review", exact=True).first.click()
    page.get_by_text("09 Holes and what-if").wait_for()
    assert page.get_by_text("It comes back because the last answer to it was not right").is_visible()
    assert page.get_by_role("button", name="Next question").is_visible()
    assert page.evaluate("() => document.documentElement.scrollWidth") <= 390
    page.context.close()
