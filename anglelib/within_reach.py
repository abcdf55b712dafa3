"""A script of the plain page: what is wider than the window is reached in a frame of its own, by keys too, and each control has its name.

A picture is never made smaller than its letters can be read: the least width of its drawing follows from its smallest letters, and where
the window has less, its frame moves sideways. So do tables and formulas. A frame that moves can be reached by Tab, and says what it is.
What ipywidgets leaves out for the ear is put in: a slider's and a cell's name, which button is chosen, what is out of reach, and
to which question or picture a control belongs.

>>> "{#" in script() or "{{" in script() or "{%" in script()  # words of the template's own language
False
"""

from __future__ import annotations

import json
import re

from anglelib.drawing.letters import CAPITAL
from anglelib.lessons.look_style import ASK, BOX

LEAST = 11
"""The smallest letters on the glass [px], by their font size."""
FIGURE_DOTS = 150 / 25.4
"""Dots a millimetre of a committed figure."""
FIGURE_LETTERS = 3.5
"""The smallest letters of a committed figure [mm], where it is not among those with fine ones."""
FINE_LETTERS = 2.5
FINE = (
    "01_identify_stock_caliper", "08_order_of_work_costs", "10_check_and_diagnose_causes", "11_plan_the_stock_list", "12_make_part_layout",
    "13_behind_the_pictures", "builders_bench", "builders_bench_longer", "notation",
)  # fmt: skip
"""The figures with letters of 2.5 mm: of a PNG picture the browser cannot know them."""
NOTE = "Wider than this screen: slide it sideways."
WORDS = {"picture": "Picture, slides sideways", "table": "Table, slides sideways", "formula": "Formula, slides sideways", "text": "Text, slides sideways"}
GROUPS = {"question": "Question", "picture": "Picture", "formula": "Formula", "box": "Controls"}
"""What the groups of a page are called, each with its number on the page: controls of one name are in most of them."""
START = 80
"""So many letters of a question, up to the end of a word, name its group."""

_FIGURE = re.compile(r"!\[[^\]]*\]\(figures/(\w+)\.png\)")
_SCRIPT = """
document.documentElement.lang = "en";
document.addEventListener("DOMContentLoaded", () => {
  const words = @words@, groups = @groups@, note = @note@, LEAST = @least@, DOTS = @dots@, USUAL = @usual@, CAPITAL = @capital@, START = @start@;
  const PICTURES = "svg[role=img][viewBox], img", known = new WeakMap();
  const smallest = found => { const sizes = [...found].map(Number).filter(Boolean); return sizes.length ? Math.min(...sizes) : 0; };
  const width = (wide, letters) => letters ? Math.ceil(wide * LEAST / letters) : 0;
  const texts = svg => [...svg.querySelectorAll("text")].map(text => text.getAttribute("font-size"));

  function least(picture) {
    if (picture.localName === "svg") return width(picture.viewBox.baseVal.width, smallest(texts(picture)));
    if (known.has(picture)) return known.get(picture);
    let px = 0;
    if (picture.src.startsWith("data:image/svg+xml;base64,")) {
      const drawn = new DOMParser().parseFromString(atob(picture.src.split(",")[1]), "image/svg+xml").documentElement;
      px = width(Number(drawn.getAttribute("viewBox").split(" ")[2]), smallest(texts(drawn)));
    } else {
      if (!picture.complete) { picture.addEventListener("load", () => later(picture), { once: true }); return 0; }
      px = width(picture.naturalWidth / DOTS, ((picture.closest(".wide") ?? picture).nextElementSibling?.dataset.letters ?? USUAL) / CAPITAL);
    }
    known.set(picture, px);
    return px;
  }

  function framed(one) {
    const around = one.parentElement;
    if (around.classList.contains("wide")) return around;
    if (around.matches(".widget-html-content")) { around.classList.add("wide"); return around; }
    const frame = document.createElement("div");
    frame.className = "wide";
    one.replaceWith(frame);
    frame.append(one);
    return frame;
  }

  const kind = frame => frame.matches("mjx-container, .widget-htmlmath-content") ? "formula" : frame.matches("pre") ? "text" : frame.matches(".widget-gridbox") || frame.querySelector("table") ? "table" : "picture";

  function reach(frame) {
    const moves = frame.scrollWidth > frame.clientWidth + 1;
    frame.classList.toggle("tall", frame.scrollHeight > innerHeight * 0.45);  // it would leave no room for what moves it
    if (moves === frame.classList.contains("moves")) return;
    frame.classList.toggle("moves", moves);
    const said = { tabindex: 0, role: "group", "aria-label": words[kind(frame)], "data-note": note };
    for (const [name, value] of Object.entries(said)) moves ? frame.setAttribute(name, value) : frame.removeAttribute(name);
  }

  function name(part) {
    for (const handle of part.querySelectorAll(".noUi-handle")) {
      const slider = handle.closest(".widget-slider"), row = slider.parentElement;
      const label = slider.querySelector(".widget-label")?.textContent || row?.querySelector(".widget-label")?.textContent;
      if (label && handle.getAttribute("aria-label") !== label) handle.setAttribute("aria-label", label);
      const out = handle.closest(".noUi-target").hasAttribute("disabled");
      handle.tabIndex = out ? -1 : 0;
      handle.setAttribute("aria-disabled", out);
    }
    for (const entry of part.querySelectorAll("input[title]:not([aria-label])"))
      if (![...entry.labels].some(label => label.textContent.trim())) entry.setAttribute("aria-label", entry.title);
    for (const choice of part.querySelectorAll(".widget-toggle-buttons")) {
      const before = choice.previousElementSibling, label = before?.matches(".widget-html, .widget-label") && before.textContent.trim();
      if (label) { choice.setAttribute("role", "group"); choice.setAttribute("aria-label", label); }
    }
    for (const button of part.querySelectorAll(".widget-toggle-button")) button.setAttribute("aria-pressed", button.classList.contains("mod-active"));
  }

  // Each question and each box is a group with a name of its own, since "Commit", "Reset" and "Run (in.)" come again in most of them.
  const QUESTION = ".@ask@", BOX = ".@box@:not(.@ask@)";
  function group(part) {
    for (const [kind, called] of [[QUESTION, question], [BOX, box]])
      [...cells.querySelectorAll(kind)].forEach((one, at) => {
        if (!part.contains(one)) return;
        const label = called(one, at + 1);
        if (one.getAttribute("aria-label") === label) return;
        one.setAttribute("role", "group");
        one.setAttribute("aria-label", label);
      });
  }
  function question(one, number) {
    const lines = [...one.querySelectorAll(":scope > .widget-html > .widget-html-content > div")].map(line => line.textContent);
    const text = lines[lines[0] === one.querySelector("b")?.textContent ? 1 : 0] ?? "";
    const start = text.length > START ? text.slice(0, START).replace(/\\s+\\S*$/, "") + " …" : text;
    return `${text === lines[0] ? `${groups.question} ${number}` : lines[0]}: ${start}`;
  }
  function box(one, number) {
    const title = one.querySelector("svg[role=img] > title")?.textContent;
    const kind = title ? "picture" : one.querySelector(".widget-htmlmath") ? "formula" : "box";
    return `${groups[kind]} ${number}${title ? `: ${title}` : ""}`;
  }

  function fit(part) {
    for (const picture of part.querySelectorAll(PICTURES)) {
      const px = least(picture);
      framed(picture).style.setProperty("--least", px + "px");
    }
    for (const table of part.querySelectorAll("table")) if (!table.parentElement.closest("table")) framed(table);
    for (const frame of part.querySelectorAll(".wide, .widget-gridbox, .widget-htmlmath-content, mjx-container[display=true], pre")) reach(frame);
    name(part);
    group(part);
  }

  const waiting = new Set();
  let asked = 0;
  function later(node) {
    waiting.add((node.nodeType === 1 ? node : node.parentElement)?.closest(".jp-Cell, #rendered_cells"));
    asked ||= requestAnimationFrame(() => { asked = 0; const parts = [...waiting]; waiting.clear(); parts.forEach(part => part && fit(part)); });
  }
  const cells = document.getElementById("rendered_cells");
  new MutationObserver(all => all.forEach(change => later(change.target)))
    .observe(cells, { childList: true, subtree: true, attributes: true, attributeFilter: ["disabled", "class"] });
  new ResizeObserver(() => later(cells)).observe(cells);
  cells.setAttribute("role", "main");
});
"""


def with_letters(text: str) -> str:
    """A cell's Markdown with, behind each figure that has fine letters, what they measure.

    >>> with_letters("![A card.](figures/12_make_part_layout.png)"), with_letters("![A rule.](figures/a.png)")
    ('![A card.](figures/12_make_part_layout.png)<span data-letters="2.5"></span>', '![A rule.](figures/a.png)')
    """
    return _FIGURE.sub(lambda found: f'{found[0]}<span data-letters="{FINE_LETTERS}"></span>' if found[1] in FINE else found[0], text)


def script() -> str:
    """The script, with its words and numbers."""
    filled = {
        "words": json.dumps(WORDS), "groups": json.dumps(GROUPS), "note": json.dumps(NOTE), "least": str(LEAST), "start": str(START), "ask": ASK, "box": BOX,
        "dots": f"{FIGURE_DOTS:.4f}", "usual": str(FIGURE_LETTERS), "capital": str(CAPITAL),
    }  # fmt: skip
    made = _SCRIPT
    for name, text in filled.items():
        made = made.replace(f"@{name}@", text)
    return made
