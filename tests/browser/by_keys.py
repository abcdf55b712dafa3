"""A page walked by keys alone: what Tab reaches, in which order, whether one sees where one is, and one question and one slider used so."""

from __future__ import annotations

from typing import Any

_STOPS = """() => {
  const seen = one => one.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true }) && one.getClientRects().length;
  const all = [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex]")]
    .filter(one => document.querySelector("#rendered_cells").contains(one) && !one.disabled && one.tabIndex >= 0 && seen(one));
  all.forEach((one, at) => one.dataset.stop = at);
  return all.map(one => one.outerHTML.slice(0, 140));
}"""
_HERE = """() => {
  const one = document.activeElement, box = one.getBoundingClientRect(), style = getComputedStyle(one);
  if (!document.querySelector("#rendered_cells").contains(one)) return null;
  const x = (Math.max(box.left, 0) + Math.min(box.right, innerWidth)) / 2, y = (Math.max(box.top, 0) + Math.min(box.bottom, innerHeight)) / 2;
  const there = document.elementFromPoint(x, y), covered = !!there && !one.contains(there) && !there.contains(one);
  return { covered, what: one.outerHTML.slice(0, 140), stop: +(one.dataset.stop ?? -1), inside: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
    ring: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2 };
}"""


def walk(page, key: str = "Tab", most: int = 600) -> tuple[list[str], list[dict[str, Any]]]:
    """All stops of the page, in the order of the page, and those that the key comes by until it leaves the page."""
    stops = page.evaluate(_STOPS)
    met: list[dict[str, Any]] = []
    if key == "Tab":
        start(page)
    else:
        page.locator("[data-stop]").last.focus()
        met.append(page.evaluate(_HERE))
    for _ in range(most):
        page.keyboard.press(key)
        here = page.evaluate(_HERE)
        if here is None or (met and here["stop"] == met[0]["stop"]):  # out of the page, or once round it
            break
        met.append(here)
    started(page)
    return stops, met


def lost(stops: list[str], met: list[dict[str, Any]], key: str = "Tab") -> list[str]:
    """What is wrong with a walk: not reached, out of order, out of sight, nothing to see where one is."""
    order = [one["stop"] for one in met]
    wanted = list(range(len(stops)))
    found = [f"not reached: {stops[at]}" for at in wanted if at not in order] + [f"came later: {one['what']}" for one in met if one["stop"] < 0]
    if not found and order != (wanted if key == "Tab" else wanted[::-1]):
        found.append(f"out of order: {order}")
    found += [f"out of sight: {one['what']}" for one in met if not one["inside"]]
    found += [f"covered: {one['what']}" for one in met if one["covered"]]
    return found + [f"no ring: {one['what']}" for one in met if not one["ring"]]


def go_to(page, selector: str, most: int = 600) -> bool:
    """Tabs on from where one is until something of this kind has the focus."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("kind => document.activeElement.matches(kind)", selector):
            return True
        if page.evaluate("document.activeElement === document.body"):
            return False
    return False


def start(page) -> None:
    """Back to the top of the page, before its first stop."""
    page.evaluate("""() => { document.body.insertAdjacentHTML("afterbegin", '<a id="before" href="#">before</a>');
        document.querySelector("#before").focus(); }""")


def started(page) -> None:
    """Takes away what the start needed."""
    page.evaluate("document.querySelector('#before')?.remove()")


ENTRY, CHOICE = "#rendered_cells .widget-text input[type=text]", "#rendered_cells .widget-toggle-button"
_SAID = "() => [...document.querySelectorAll('[role=status]')].map(one => one.innerText).join('|')"


def answer_one(page) -> str:
    """Answers the first question of the page by keys: types or chooses, then Enter or Space; gives the words that are new."""
    before = page.evaluate(_SAID)
    start(page)
    found = go_to(page, f":is({ENTRY}, {CHOICE})")
    started(page)
    if not found:
        return ""
    if page.evaluate("kind => document.activeElement.matches(kind)", ENTRY):
        page.keyboard.type("1 1/8")
        page.keyboard.press("Enter")
    else:
        page.keyboard.press("Space")
    page.wait_for_timeout(700)
    if page.evaluate(_SAID) == before and go_to(page, "#rendered_cells button:not(.widget-toggle-button)", 12):  # a prediction waits for Commit
        page.keyboard.press("Enter")
    page.wait_for_function(f"before => ({_SAID})() !== before", arg=before)
    return page.evaluate(_SAID)


_PREDICTION = """() => { for (let one = document.activeElement.parentElement, up = 0; one && up < 6; one = one.parentElement, up++)
    if ([...one.querySelectorAll("button")].some(button => button.textContent.trim() === "Commit" && !button.disabled)) return true;
  return false; }"""


def commit_next(page) -> bool:
    """Goes on to the next prediction that waits, gives some answer, and commits it: all by keys. False where there is none."""
    while go_to(page, f":is({ENTRY}, {CHOICE})"):
        if not page.evaluate(_PREDICTION):
            continue
        if page.evaluate("kind => document.activeElement.matches(kind)", ENTRY):
            page.keyboard.type("1")
        else:
            page.keyboard.press("Space")
        for _ in range(12):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.textContent.trim()") == "Commit":
                break
        for _ in range(2):  # a wrong number has a second try
            page.keyboard.press("Enter")
            page.wait_for_timeout(1000)
        return True
    return False


def slide_one(page) -> bool | None:
    """Moves the first free slider by arrow keys, after the predictions that it waits for: whether something changed; None where there is none."""
    shown = "() => [...document.querySelectorAll('.widget-html, .widget-htmlmath')].map(one => one.innerHTML).join() + [...document.querySelectorAll('input')].map(one => one.value).join()"
    if not page.locator("[role=slider]").count():
        return None
    for _ in range(8):
        start(page)
        found = go_to(page, "[role=slider]")
        if not found:
            start(page)
        committed = not found and commit_next(page)
        started(page)
        if found:
            break
        if not committed:
            return None
    for key, tenths in (("ArrowRight", 30), ("ArrowLeft", 30), ("ArrowLeft", 600)):
        before = page.evaluate(shown)
        page.keyboard.press(key)
        for _ in range(tenths):
            page.wait_for_timeout(100)
            if page.evaluate(shown) != before:
                return True
    return False
