"""A plain page as it lies on the glass: the sizes of window that it must serve, and what is wrong on it by measure.

Letters are measured as they are seen, those in pictures too, as scaled. What is cut, too small for a finger or wider than the window is said
with the first words of where it stands.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Size:
    """A window: what it measures in the page's own pixels, how many dots each has, and whether fingers use it."""

    width: int
    height: int
    dots: int = 1
    touch: bool = False

    def take(self, page) -> None:
        """Gives the page this window."""
        page.context.new_cdp_session(page).send(
            "Emulation.setDeviceMetricsOverride",
            {"width": self.width, "height": self.height, "deviceScaleFactor": self.dots, "mobile": self.touch},
        )
        settle(page)


SIZES = {
    "phone": Size(390, 844, 2, True),
    "tablet": Size(820, 1180, 2, True),
    "laptop": Size(1440, 900),
    "desk": Size(1920, 1080),
    "enlarged": Size(720, 450, 2),  # a window of 1440 x 900 at 200 %
}
READY = "document.querySelector('#page-state')?.textContent === '' && window.jupyterapp"
PATIENCE = 180_000  # ms


@contextlib.contextmanager
def opened(browser, address: str, name: str, size: str = "laptop") -> Iterator[Any]:
    """A page, ready, in a window of this size; it is closed as a person closes it, which ends its kernel."""
    base, token = address.split("|")
    how = SIZES[size]
    context = browser.new_context(viewport={"width": how.width, "height": how.height}, device_scale_factor=how.dots, has_touch=how.touch, is_mobile=how.touch)
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    page.complaints = []
    page.on("pageerror", lambda error: page.complaints.append(str(error)))
    page.goto(f"{base}/voila/render/notebooks/{name}.ipynb?token={token}", wait_until="commit", timeout=PATIENCE)
    page.wait_for_function(READY, timeout=PATIENCE)
    settle(page)
    try:
        yield page
        assert page.complaints == []
    finally:
        page.close(run_before_unload=True)
        context.close()


def settle(page) -> None:
    """Waits until the outputs are drawn: the height of the page stands still for a second."""
    tall, still = -1, 0
    while still < 2:
        page.wait_for_timeout(500)
        now = page.evaluate("document.querySelector('#rendered_cells').scrollHeight")
        tall, still = now, still + 1 if now == tall else 0


def faults(page, finger: int = 24) -> list[str]:
    """What is wrong on the page by measure, a sentence each; every fold is opened first. ``finger`` is the least target [px]."""
    page.evaluate("document.querySelectorAll('#rendered_cells details').forEach(fold => fold.open = true)")
    page.wait_for_timeout(300)
    return page.evaluate(_FAULTS, finger)


_FAULTS = """finger => {
  const found = [], cells = document.querySelector("#rendered_cells"), window_wide = document.documentElement.clientWidth;
  const say = (what, one) => found.push(`${what}: ${one.localName}.${one.className?.baseVal ?? one.className} "${(one.innerText || one.textContent || one.alt || "").trim().slice(0, 60)}"`);
  const seen = one => { const box = one.getBoundingClientRect(); return box.width > 0 && box.height > 0 && getComputedStyle(one).visibility === "visible"; };
  const own = one => [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim());
  const LEAST = 11 - 0.06;
  const frame = one => { for (let a = one; a && a !== cells; a = a.parentElement)
      if (a.tabIndex === 0 && ["auto", "scroll"].includes(getComputedStyle(a).overflowX)) return a; };

  if (document.documentElement.scrollWidth > innerWidth || cells.scrollWidth > cells.clientWidth + 1) say("the page is wider than the window", cells);
  for (const one of cells.querySelectorAll("*")) {
    if (!seen(one) || one.closest("script, style, mjx-container, mjx-assistive-mml, [aria-hidden=true]")) continue;
    const style = getComputedStyle(one), box = one.getBoundingClientRect();
    if (one.closest("svg")) {
      if (one.localName !== "text") continue;
      const high = parseFloat(one.getAttribute("font-size")) * Math.hypot(one.getScreenCTM().a, one.getScreenCTM().b);
      if (high < LEAST) say(`letters of ${high.toFixed(1)} px in a picture`, one);
      continue;
    }
    if (one.localName === "img") {
      let high = 150 / 25.4 * ((one.closest('.wide') ?? one).nextElementSibling?.dataset.letters ?? 3.5) / 0.729 * box.width / one.naturalWidth, wide = one.naturalWidth;
      if (one.src.startsWith("data:image/svg")) {
        const text = atob(one.src.split(",")[1]), sizes = [...text.matchAll(/font-size="([\\d.]+)"/g)].map(size => +size[1]);
        high = Math.min(...sizes) * box.width / +text.match(/viewBox="0 0 ([\\d.]+)/)[1];
      }
      if (!wide) say("a picture that is not there", one);
      if (high < LEAST) say(`letters of ${high.toFixed(1)} px in an image`, one);
      const ratio = box.height / box.width * one.naturalWidth / one.naturalHeight;
      if (Math.abs(ratio - 1) > .02) say("a picture out of shape", one);
    }
    if (own(one) && parseFloat(style.fontSize) < LEAST) say(`letters of ${style.fontSize}`, one);
    const around = frame(one);
    if (!around && (box.right > window_wide + 1 || box.left < -1) && (own(one) || one.matches("img, input, button, table"))) say("out of the window", one);
    if (own(one) && ["hidden", "clip"].includes(style.overflowX) && one.scrollWidth > one.clientWidth + 1) say("cut", one);
    if (own(one) && ["hidden", "clip"].includes(style.overflowY) && one.scrollHeight > one.clientHeight + 2) say("cut in height", one);
    if (one.matches("input[type=text], input[type=number]") && one.scrollWidth > one.clientWidth + 1) say(`cut, "${one.value}"`, one);
    if (["auto", "scroll"].includes(style.overflowX) && one.scrollWidth > one.clientWidth + 1 && one.tabIndex !== 0 && !one.matches("select"))
      say("moves sideways, and is not reached by keys", one);
  }
  for (const slider of cells.querySelectorAll(".noUi-target")) {
    if (!seen(slider.closest(".widget-slider"))) continue;
    const track = slider.getBoundingClientRect(), knob = slider.querySelector(".noUi-handle").getBoundingClientRect();
    if (track.width < 120 || track.height < 3) say(`a track of ${track.width.toFixed()} x ${track.height.toFixed()} px`, slider.closest(".widget-hbox") ?? slider);
    if (knob.width < 16 || knob.left < 0 || knob.right > window_wide) say(`a knob of ${knob.width.toFixed()} px at ${knob.left.toFixed()}`, slider.closest(".widget-hbox") ?? slider);
  }
  for (const one of document.querySelectorAll("a[href], button, input, select, textarea, summary, .noUi-handle")) {
    if (!seen(one) || !cells.contains(one)) continue;
    if (one.matches("a, button") && getComputedStyle(one).display === "inline") continue;  // a word in a sentence
    let { width, height } = one.getBoundingClientRect();
    const label = one.closest("label");
    if (label) ({ width, height } = label.getBoundingClientRect());
    if (one.matches(".noUi-handle")) { const area = parseFloat(getComputedStyle(one, "::after").height) || height; width = Math.max(width, area); height = Math.max(height, area); }
    if (Math.min(width, height) < finger - .5) say(`a target of ${width.toFixed()} x ${height.toFixed()} px`, one);
  }
  return found;
}"""
