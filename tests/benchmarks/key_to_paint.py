"""From an arrow key on a slider to the painted picture: every slider of every page, this commit against an earlier one, in one run.

    python tests/benchmarks/key_to_paint.py COMMIT [PAGE ...]     writes the table key_to_paint.md beside this file, of all pages or of those

PRESSES=5 in the environment is quicker. The plain pages of both commits are served as to a learner, and opened in one headless Chromium, one
after the other; which commit is first changes with every page. Predictions are answered, folds opened, and of groups of controls each is chosen.

What is measured. A slider gets the focus by Tab from its entry, and the browser a real key. The clock runs from the key's own time stamp until the
frame is painted in which the last of what that press changes has changed: picture, sentence, formula, whatever the kernel sends. A frame counts as painted
when a message sent from within it arrives, as in slider.md. The next key waits until nothing has changed for a while and the kernel is idle.
A press that moves the slider and changes nothing to see has no time; a slider of which all are such is listed, with what is known of it.
The browser's work a press is the processor's time of the page's main thread, the measuring with it: other programs hardly touch it, so it says
what the page itself costs even on a machine that is busy.
"""

from __future__ import annotations

import datetime
import os
import platform
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import ExitStack, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / "browser")]

from course import FLAGS, browser_path, served  # noqa: E402
from two_commits import PROJECT, cell_name, code, earlier, git, pages, part  # noqa: E402

TABLE = Path(__file__).with_suffix(".md")
PRESSES = int(os.environ.get("PRESSES", 20))
ONE_WAY = 6
"""So many presses to one side, then as many back."""
BUSY = ": the machine was busy, so the times are far too long, and only the browser's work can be compared with another run's"
AIM = 100
"""What a press may take until all is painted [ms]."""
READY = "document.querySelector('#page-state')?.textContent === '' && window.jupyterapp"
PATIENCE = 120_000  # ms

SCRIPT = """(() => {
  const QUIET = 100, NOTHING = 1500, LATEST = 20000;  // ms
  const all = () => [...document.querySelectorAll('#rendered_cells .noUi-handle')];
  const cells = () => [...document.querySelectorAll('#rendered_cells .jp-CodeCell')];
  const rowOf = handle => handle.closest('.widget-slider').parentElement;
  const seen = one => one.getClientRects().length > 0;
  const out = handle => handle.closest('.noUi-target').hasAttribute('disabled');
  const idle = () => window.jupyterapp.widgetManager.kernel.status === 'idle';
  const rest = ms => new Promise(done => setTimeout(done, ms));
  const tool = window.sliders = {};

  tool.list = () => all().map(handle => {
    const row = rowOf(handle), note = row.querySelector(':scope > .widget-html:last-child');
    return { cell: cells().indexOf(handle.closest('.jp-CodeCell')), label: row.querySelector('.widget-label')?.textContent ?? '', shown: seen(handle),
      out: out(handle), why: note && note.previousElementSibling?.matches('.widget-slider') ? note.textContent.trim() : '' };
  });
  tool.handle = at => all()[at];
  tool.entry = at => { const row = rowOf(all()[at]), own = all()[at].closest('.widget-slider'); return [...row.querySelectorAll('input')].find(one => !own.contains(one)) ?? null; };
  tool.place = at => Number(all()[at].getAttribute('aria-valuenow'));
  tool.focused = at => document.activeElement === all()[at];
  tool.still = async () => { let was = ''; for (;;) { await rest(QUIET); const now = document.querySelector('#rendered_cells').innerHTML.length; if (now === was && idle()) return; was = now; } };
  tool.unfold = () => document.querySelectorAll('#rendered_cells details:not([open])').forEach(one => one.open = true);
  tool.choices = (cell) => [...cells()[cell].querySelectorAll('.widget-toggle-buttons')].filter(one => seen(one) && !one.closest('.al-ask:not(.al-box)'));

  // Listens for one key; what comes of it is in tool.result: the times [ms] of the first and the last change painted, or null, and whether the slider moved.
  tool.listen = at => {
    const handle = all()[at], place = handle.getAttribute('aria-valuenow'), own = handle.closest('.widget-slider');
    let start = 0, changed = false, last = 0, first = 0, touched = 0, frames = 0, going = false;
    const watch = new MutationObserver(changes => {
      if (start && changes.some(one => !own.contains(one.target))) { changed = true; touched = performance.now(); follow(6); }
    });
    watch.observe(document.querySelector('#rendered_cells'), { childList: true, characterData: true, subtree: true });
    const channel = new MessageChannel();
    channel.port1.onmessage = () => { if (changed) { changed = false; last = performance.now(); first ||= last; } };
    const frame = () => { channel.port2.postMessage(0); going = frames-- > 0; if (going) requestAnimationFrame(frame); };
    const follow = most => { frames = most; if (!going) { going = true; requestAnimationFrame(frame); } };
    const pressed = event => { start = event.timeStamp; follow(60); };
    document.addEventListener('keydown', pressed, { capture: true, once: true });
    tool.result = (async () => {
      for (;;) {
        await rest(25);
        const now = performance.now();
        if (!start) continue;
        if (now - start > LATEST) break;
        if (changed || !idle()) continue;
        if (last ? now - Math.max(last, touched) > QUIET : now - start > NOTHING) break;
      }
      frames = 0;
      watch.disconnect();
      document.removeEventListener('keydown', pressed, { capture: true });
      return { first: last ? first - start : null, last: last ? last - start : null, moved: handle.getAttribute('aria-valuenow') !== place };
    })();
  };
})();
"""
"""What the page is asked; it finds sliders anew each time, since a view may be made again."""


@dataclass
class Slider:
    """What was measured of a slider: milliseconds to its first and to its last change painted, or why there are none; the browser's work a press [ms]."""

    first: list[float] = field(default_factory=list)
    last: list[float] = field(default_factory=list)
    work: float = 0
    reason: str = ""


def opened(browser: Any, address: str, name: str) -> Any:
    """A page whose pictures and controls live, its predictions answered and its folds open."""
    base, token = address.split("|")
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    page.set_default_timeout(PATIENCE)
    page.inside = page.context.new_cdp_session(page)
    page.inside.send("Performance.enable", {"timeDomain": "threadTicks"})
    page.add_init_script(SCRIPT)
    page.goto(f"{base}/voila/render/notebooks/{name}.ipynb?token={token}", wait_until="commit")
    page.wait_for_function(READY)
    page.evaluate("sliders.still()")
    for commit in page.get_by_role("button", name="Commit", exact=True).all():
        predict(page, commit)
    page.evaluate("sliders.unfold()")
    page.evaluate("sliders.still()")
    return page


def predict(page: Any, commit: Any) -> None:
    """Gives a prediction some answer; a wrong number has a second try."""
    row = commit.locator("xpath=ancestor::*[contains(@class, 'widget-hbox')][2]")
    if row.locator("input[type=text]").count():
        row.locator("input[type=text]").first.fill("1")
        row.locator("input[type=text]").first.press("Tab")
    else:
        row.locator(".widget-toggle-button").first.click()
    for _ in range(2):
        page.evaluate("sliders.still()")
        if commit.is_enabled():
            commit.click()
    page.evaluate("sliders.still()")


def measure(page: Any, sources: list[str], presses: int) -> dict[str, Slider]:
    """Every slider of an opened page by its name; those that are out of sight are brought there by the choices of their box."""
    found: dict[str, Slider] = {}
    free(page, sources, presses, found)
    for cell in {one["cell"] for name, one, _ in listed(page, sources) if name not in found}:
        for at in range(page.evaluate("cell => sliders.choices(cell).length", cell)):
            choice = page.evaluate_handle("([cell, at]) => sliders.choices(cell)[at]", [cell, at]).as_element()
            buttons = choice.query_selector_all("button") if choice else []
            begun = next((button for button in buttons if "mod-active" in (button.get_attribute("class") or "")), None)
            for button in [*buttons, begun]:
                if button is not None and all(name in found for name, one, _ in listed(page, sources) if one["cell"] == cell):
                    break
                with suppress(Exception):  # what an earlier choice took away
                    button.click(timeout=2000)
                    page.evaluate("sliders.still()")
                    free(page, sources, presses, found)
    for name, one, _ in listed(page, sources):
        if name not in found:
            found[name] = Slider(reason=one["why"] or ("out of reach" if one["out"] else "out of sight, whatever is chosen"))
    return found


def listed(page: Any, sources: list[str]) -> list[tuple[str, dict[str, Any], int]]:
    """The sliders of a page as it stands: name, what is known, place among them."""
    met: dict[str, int] = {}
    rows = []
    for at, one in enumerate(page.evaluate("sliders.list()")):
        name = f"{cell_name(sources[one['cell']])}: {one['label'].replace(' (mm)', ' (in.)')}"  # a choice may change the unit
        met[name] = met.get(name, 0) + 1
        rows.append((name + (f" ({met[name]})" if met[name] > 1 else ""), one, at))
    return rows


def free(page: Any, sources: list[str], presses: int, found: dict[str, Slider]) -> None:
    """Measures the sliders that can be moved now and were not yet; one may set another free."""
    while waiting := next(((name, at) for name, one, at in listed(page, sources) if name not in found and one["shown"] and not one["out"]), None):
        name, at = waiting
        found[name] = pressed(page, at, presses)


def worked(page: Any) -> float:
    """The processor's time of the page's main thread until now [ms]: script, style, layout, painting."""
    return next(one["value"] for one in page.inside.send("Performance.getMetrics")["metrics"] if one["name"] == "TaskDuration") * 1000


def pressed(page: Any, at: int, presses: int) -> Slider:
    """One slider: so many presses of an arrow key, to and fro, after two that do not count; it ends where it began."""
    entry = page.evaluate_handle("at => sliders.entry(at)", at).as_element()
    if entry is not None:
        entry.scroll_into_view_if_needed()
        entry.focus()
        page.keyboard.press("Tab")
    if not page.evaluate("at => sliders.focused(at)", at):
        return Slider(reason="the keys do not reach it")
    page.evaluate("sliders.still()")
    begun = page.evaluate("at => sliders.place(at)", at)
    slider, way, run, still, before = Slider(), "ArrowRight", 0, 0, 0.0
    for press in range(presses + 2):
        if press == 2:
            before = worked(page)
        page.evaluate("at => sliders.listen(at)", at)
        page.keyboard.press(way)
        told = page.evaluate("sliders.result")
        run += 1
        if told["last"] is None:
            still += 1
        elif press >= 2:
            slider.first.append(told["first"])
            slider.last.append(told["last"])
        if run >= ONE_WAY or not told["moved"]:
            way, run = ("ArrowLeft" if way == "ArrowRight" else "ArrowRight"), 0
        if still >= 6 and not slider.last:
            break
    slider.work = (worked(page) - before) / max(press - 1, 1)
    while (off := page.evaluate("at => sliders.place(at)", at) - begun) and run < 4 * ONE_WAY:
        page.keyboard.press("ArrowLeft" if off > 0 else "ArrowRight")
        run += 1
    page.evaluate("sliders.still()")
    if not slider.last:
        slider.reason = "a press changes nothing to see but its own number"
    return slider


def closed(page: Any) -> None:
    """A page is left, which ends its kernel."""
    page.goto("about:blank")
    page.close()


Found = dict[str, tuple[dict[str, Slider], dict[str, Slider]]]
"""By page: the sliders of the earlier commit and of this one."""


def measured(before: Path, now: Path, names: list[str], presses: int = PRESSES) -> Iterator[Found]:
    """What is found, after each page: a run that is broken off leaves what it has."""
    from playwright.sync_api import sync_playwright

    found: Found = {}
    with ExitStack() as stack:
        homes = [Path(stack.enter_context(tempfile.TemporaryDirectory())) for _ in range(2)]
        addresses = [stack.enter_context(served(home, "--pages", tree=tree)) for home, tree in zip(homes, (before, now), strict=True)]
        browser = stack.enter_context(sync_playwright()).chromium.launch(executable_path=browser_path(), args=FLAGS)
        stack.callback(browser.close)
        for number, notebook in enumerate(pages(names)):
            start, both = time.monotonic(), [{}, {}]
            for turn in (0, 1) if number % 2 else (1, 0):
                there = (before, now)[turn] / "notebooks" / notebook.name
                if not there.exists():  # a page may be newer than the earlier commit
                    continue
                page = opened(browser, addresses[turn], notebook.stem)
                both[turn] = measure(page, code(there), presses)
                closed(page)
            found[notebook.stem] = (both[0], both[1])
            print(f"{notebook.stem}: {len(both[1])} sliders, {time.monotonic() - start:.0f} s", file=sys.stderr, flush=True)
            yield found


# --- the table -------------------------------------------------------------------------------------------------
def rows(found: Found) -> list[str]:
    """A row a slider."""
    lines = []
    for name, (before, now) in found.items():
        for slider in [*now, *(one for one in before if one not in now)]:
            then, since = before.get(slider, Slider(reason="not there")), now.get(slider, Slider(reason="no longer there"))
            ratio = f"{part(since.last, 50) / part(then.last, 50):.2f}" if then.last and since.last else "-"
            work = " / ".join(f"{one.work:.0f}" if one.last else "-" for one in (then, since))
            lines.append(f"| {name} | {slider} | {_told(then)} | {_told(since)} | {ratio} | {work} |")
    return lines


def _told(slider: Slider) -> str:
    if not slider.last:
        return slider.reason
    return f"{part(slider.last, 50):.0f} / {part(slider.last, 95):.0f}"


def summary(found: Found) -> list[str]:
    """The share under the aim, the slowest, those that could not be measured."""
    lines, timed = [], {}
    for at, when in enumerate(("before", "now")):
        all_ = {f"{name}, {slider}": one for name, both in found.items() for slider, one in both[at].items()}
        timed = {name: one for name, one in all_.items() if one.last}
        if not timed:
            continue
        every = [time for one in timed.values() for time in one.last]
        quick = sum(part(one.last, 95) <= AIM for one in timed.values())
        lines.append(
            f"- {when}: {len(timed)} of {len(all_)} sliders measured, {len(every)} presses, median {statistics.median(every):.0f} ms; under {AIM} ms: "
            f"{100 * sum(time <= AIM for time in every) / len(every):.0f} % of the presses, and 95 % of the presses of {quick} of {len(timed)} sliders"
        )
    slow = sorted(timed, key=lambda name: -part(timed[name].last, 50))[:5]
    lines.append(f"- the browser's work a press, all sliders that both have: {_work(found)}")
    if not timed:
        return [*lines, "- none could be measured now"]
    lines.append("- the slowest now, by their medians: " + "; ".join(f"{name}, {part(timed[name].last, 50):.0f} ms" for name in slow))
    unequal = [name for name, one in timed.items() if part(one.last, 50) - part(one.first, 50) > 30]
    lines.append("- of these something else follows the first change by more than 30 ms: " + ("; ".join(unequal) or "none"))
    return lines


def _work(found: Found) -> str:
    both = [(before[name].work, now[name].work) for before, now in found.values() for name in now if name in before and before[name].last and now[name].last]
    return " / ".join(f"{statistics.mean(row):.1f}" for row in zip(*both, strict=True)) + " ms" if both else "none"


def table(found: Found, begun: str, load: float, minutes: float) -> str:
    """What is found, as a page; ``begun`` says which commits these are."""
    head = f"""# From a slider's key to the painted picture, every slider of every page

Made by `python tests/benchmarks/key_to_paint.py {begun.split()[0]}` with {PRESSES} presses a slider and commit, in {minutes:.0f} minutes: plain pages, headless Chromium, both
commits in one run. Milliseconds from the key's time stamp until the frame with the last of what it changes has been painted, median / 95 %, and now's median over
that before. The browser's work is the processor's time of the page's main thread for a press, which other programs on the machine hardly touch.

- machine: {platform.system()} {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}; load at the start {load:.1f}, at the end {os.getloadavg()[0]:.1f}{BUSY if load > os.cpu_count() / 2 else ""}
- date: {datetime.date.today().isoformat()}; commits {begun}
"""
    left = [path.stem for path in pages(sys.argv[2:]) if path.stem not in found]
    lines = [f"- broken off before {', '.join(left)}"] if left else []
    lines += ["", "| page | slider | before, ms | now, ms | ratio | the browser's work, ms: before / now |", "|---|---|---|---|---|---|", *rows(found), ""]
    return head + "\n".join([*summary(found), *lines])


def main() -> int:
    before, now = git("rev-parse", "--short", sys.argv[1]), git("rev-parse", "--short", "HEAD")
    load, start = os.getloadavg()[0], time.monotonic()
    with earlier(before) as tree:
        for found in measured(tree, PROJECT, sys.argv[2:]):
            TABLE.write_text(table(found, f"{before} and {now}", load, (time.monotonic() - start) / 60), encoding="utf-8")
    print(TABLE.read_text(encoding="utf-8"))
    return 0


if __name__ == "__main__":
    sys.exit(main())
