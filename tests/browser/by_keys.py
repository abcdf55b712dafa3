"""A page walked by keys alone: what Tab reaches, in which order, whether one sees where one is, and one question and one slider used so."""

from __future__ import annotations

from typing import Any

_STOPS = """() => {
  const seen = one => one.getClientRects().length && getComputedStyle(one).visibility === "visible";
  const all = [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex]")]
    .filter(one => document.querySelector("#rendered_cells").contains(one) && !one.disabled && one.tabIndex >= 0 && seen(one));
  all.forEach((one, at) => one.dataset.stop = at);
  return all.map(one => one.outerHTML.slice(0, 140));
}"""
_HERE = """() => {
  const one = document.activeElement, box = one.getBoundingClientRect(), style = getComputedStyle(one);
  if (!one.dataset.stop) return null;
  return { stop: +one.dataset.stop, inside: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
    ring: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2 };
}"""


def walk(page, key: str = "Tab", most: int = 600) -> tuple[list[str], list[dict[str, Any]]]:
    """All stops of the page, in the order of the page, and those that the key comes by until it leaves the page."""
    stops = page.evaluate(_STOPS)
    page.evaluate("""key => { const stops = document.querySelectorAll('[data-stop]');
        if (key === 'Tab') document.body.insertAdjacentHTML('afterbegin', '<a id="before" href="#">before</a>'), document.querySelector('#before').focus();
        else stops[stops.length - 1].focus(); }""", key)
    met = [] if key == "Tab" else [page.evaluate(_HERE)]
    for _ in range(most):
        page.keyboard.press(key)
        here = page.evaluate(_HERE)
        if here is None:
            break
        met.append(here)
    page.evaluate("document.querySelector('#before')?.remove()")
    return stops, met


def lost(stops: list[str], met: list[dict[str, Any]], key: str = "Tab") -> list[str]:
    """What is wrong with a walk: not reached, out of order, out of sight, nothing to see where one is."""
    order = [one["stop"] for one in met]
    wanted = list(range(len(stops)))
    found = [f"not reached: {stops[at]}" for at in wanted if at not in order]
    if not found and order != (wanted if key == "Tab" else wanted[::-1]):
        found.append(f"out of order: {order}")
    found += [f"out of sight: {stops[one['stop']]}" for one in met if not one["inside"]]
    return found + [f"no ring: {stops[one['stop']]}" for one in met if not one["ring"]]


def go_to(page, selector: str, most: int = 600) -> bool:
    """Tabs on from where one is until something of this kind has the focus."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("kind => document.activeElement.matches(kind)", selector):
            return True
        if page.evaluate("document.activeElement === document.body"):
            return False
    return False


ENTRY, CHOICE = "#rendered_cells .widget-text input[type=text]", "#rendered_cells .widget-toggle-button"
_SAID = "() => [...document.querySelectorAll('[role=status]')].map(one => one.innerText).join('|')"


def answer_one(page) -> str:
    """Answers the first question of the page by keys: types or chooses, then Enter or Space; gives the words that are new."""
    before = page.evaluate(_SAID)
    page.evaluate("document.activeElement.blur()")
    if not go_to(page, f":is({ENTRY}, {CHOICE})"):
        return ""
    if page.evaluate("kind => document.activeElement.matches(kind)", ENTRY):
        page.keyboard.type("1 1/8")
        page.keyboard.press("Enter")
    else:
        page.keyboard.press("Space")
    page.wait_for_timeout(700)
    if page.evaluate(_SAID) == before and go_to(page, "#rendered_cells button:not(.widget-toggle-button)", 12):  # a prediction waits for Commit
        page.keyboard.press("Enter")
    page.wait_for_function(f"before => ({_SAID})() !== before", arg=before, timeout=30_000)
    return page.evaluate(_SAID)


def slide_one(page) -> bool | None:
    """Moves the first free slider by arrow keys: whether its picture or its entry changed; None where there is none."""
    shown = "() => [...document.querySelectorAll('.widget-html, .widget-htmlmath')].map(one => one.innerHTML).join() + [...document.querySelectorAll('input')].map(one => one.value).join()"
    page.evaluate("document.activeElement.blur()")
    if not go_to(page, "[role=slider]"):
        return None
    for key in ("ArrowRight", "ArrowLeft", "ArrowLeft"):
        before = page.evaluate(shown)
        page.keyboard.press(key)
        for _ in range(30):
            page.wait_for_timeout(100)
            if page.evaluate(shown) != before:
                return True
    return False
