"""Words of the glossary in the prose of a page: each shows its meaning and its small drawing when it is pointed at, focused or tapped.

A word is marked once a section, and never in a heading, a link, code or a formula. Some words of the shop are words of every day too
("run", "mark", "hand"): they are marked only where a word before them says that the thing is meant, and not before the lesson that brings
them. A word that a question of the page asks for is not explained down to the end of that question's section (``HELD``).

The drawings are files beside the figures, which a browser fetches when one is first shown; the meanings stand in the page, unseen, as the
descriptions of the words. No message of the kernel is needed.

>>> texts, used = explained(["The heel is at the *heel*.\\n\\n## The heel\\n\\nBy hand, the run; `heel`."], "09_holes_and_what_if")
>>> used
('heel', 'run')
>>> texts[0].count("<button"), texts[0].partition("<button")[2].partition(">")[0]
(2, ' type="button" class="word" aria-describedby="word-heel" data-word="heel"')
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from functools import cache

from anglelib.drawing.escape import escape
from anglelib.lessons.terms import TERMS, Term

NOT_ON = frozenset({"home", "glossary", "notation", "instructor"})
"""Pages whose words are not explained: they are lists, or explain words themselves."""
SILENT = "Sources"
"""A section whose words are not explained: it is read by those who check."""
_ONE = r"(?:(?<=\bthe )|(?<=\bits )|(?<=\ba )|(?<=\bThe )|(?<=\bone )|(?<=\bother )|(?<=\bwhich )|(?<=\beach ))"
_HAND = r"(?:(?<=\bother )|(?<=\bwhich )|(?<=\bwrong )|(?<=\bone )|(?<=\bsame ))"
"""What stands before a hand that is left or right: what is in the hand is another one."""
ALSO_OF_EVERY_DAY = frozenset({"run", "mark", "hand", "plan", "job", "section", "trim", "reading", "pitch", "offset", "waste", "blank", "throat", "column", "offer", "purchase", "pick"})
"""Words that mean something else in common speech too."""
HELD: dict[str, dict[str, int]] = {
    "00_start_here": {"heel": 3, "toe": 3, "fillet": 3, "vertex": 3, "leg-A": 3, "leg-B": 3, "outer-face": 3, "inner-face": 3},
    "05_kerf_and_allowance": {"saw-line": 3, "finished-line": 3, "sanding-allowance": 3},
    "06_taper_outside": {"run": 3},
    "12_make_part": {"vertex": 99},
}
"""By page, from which section on a word is explained, where the page asks for it; the first section with a heading is 1."""
RECALLED: dict[str, int] = {"vertex": 2, "datum": 2, "end-1": 2, "hand": 2}
"""The same on every page, for words that the questions from earlier lessons ask for, which stand in section 1."""

_PROTECTED = re.compile(
    r"```.*?```|~~~.*?~~~|`[^`]*`|!\[[^\]]*\]\([^)]*\)|\[[^\]]*\]\([^)]*\)|<summary>.*?</summary>|<[^>]+>|\$[^$]+\$|^#[^\n]*$",
    re.DOTALL | re.MULTILINE,
)
_WITH_ITS_SIGNS = re.compile(
    r"""(?P<before>[(“‘"]*)(?P<emphasis>\*{0,2})<button type="button" class="word"[^>]*>[^<]*</button>(?P=emphasis)(?P<after>(?:['’]s\b|[).,;:!?’”"…])*)"""
)
"""A marked word, also an emphasised one, with what may not stand apart from it."""
_HEADING = re.compile(r"## +(.+)")

STYLE = """
.word-kept { white-space: nowrap; }
button.word { all: unset; display: inline; white-space: normal; cursor: help; text-decoration: underline dotted; text-underline-offset: .2em; }
button.word:focus-visible { outline: 2px solid #0b5cad; outline-offset: 2px; }
#word-shown { position: fixed; z-index: 102; box-sizing: border-box; width: 17rem; max-width: calc(100vw - 1rem); padding: .6rem .8rem;
  font: 1rem/1.4 sans-serif; color: #161616; background: #fff; border: 1px solid #767676; border-radius: 4px; box-shadow: 0 2px 8px #0004; }
#word-shown img { display: block; width: 100%; height: auto; }
#word-shown p { margin: .3rem 0 0; }
"""

SCRIPT = """
(() => {
  const box = document.createElement("div");
  box.id = "word-shown";
  box.setAttribute("role", "tooltip");
  box.setAttribute("aria-hidden", "true");
  let word = null, since = 0, leaving = 0;
  const hide = () => { clearTimeout(leaving); word = null; box.remove(); };
  const place = () => {
    const at = word.getBoundingClientRect(), own = box.getBoundingClientRect();
    box.style.left = `${Math.max(8, Math.min(at.left, document.documentElement.clientWidth - own.width - 8))}px`;
    const below = at.bottom + 6, fits = below + own.height <= document.documentElement.clientHeight;
    box.style.top = `${fits || at.top < own.height + 6 ? below : at.top - own.height - 6}px`;
  };
  const show = button => {
    clearTimeout(leaving);
    if (word === button) return;
    word = button;
    since = Date.now();
    const picture = document.createElement("img"), words = document.createElement("p");
    picture.alt = "";
    picture.width = 320;
    picture.height = 216;
    picture.src = `${location.pathname.replace(/\\/render\\/.*/, "/files/")}figures/word-${button.dataset.word}.svg`;
    words.textContent = document.getElementById(`word-${button.dataset.word}`).textContent;
    box.replaceChildren(picture, words);
    document.body.append(box);
    place();
  };
  const of = target => target.closest?.("button.word");
  document.addEventListener("pointerover", event => {
    if (event.pointerType !== "mouse") return;
    const button = of(event.target);
    if (button) show(button);
    else if (word && box.contains(event.target)) clearTimeout(leaving);
  });
  document.addEventListener("pointerout", event => {
    if (event.pointerType !== "mouse" || !word || word === document.activeElement) return;
    if (event.target === word || box.contains(event.target)) { clearTimeout(leaving); leaving = setTimeout(hide, 250); }
  });
  document.addEventListener("focusin", event => { const button = of(event.target); if (button) show(button); else if (word) hide(); });
  document.addEventListener("focusout", event => { if (event.target === word) hide(); });
  document.addEventListener("click", event => {
    const button = of(event.target);
    if (!button) { if (word && !box.contains(event.target)) hide(); return; }
    if (word === button && event.pointerType === "touch" && Date.now() - since > 500) hide(); else show(button);
  });
  document.addEventListener("keydown", event => { if (event.key === "Escape" && word) { event.stopPropagation(); hide(); } }, true);
  document.addEventListener("scroll", () => { if (word) place(); }, true);
})();
"""
"""One box for all words. It stays while the pointer is on it, and goes with Escape, a tap elsewhere, or when the word loses the focus."""


def explained(texts: Sequence[str], page: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The Markdown texts of a page with their words marked, and which words these are."""
    made: list[str] = []
    used: set[str] = set()
    section, silent = 0, False
    seen: set[str] = set()
    for text in texts:
        parts, at = [], 0
        for kept in _PROTECTED.finditer(text):
            parts += [text[at : kept.start()] if silent else _marked(text[at : kept.start()], page, section, seen), kept[0]]
            at = kept.end()
            if heading := _HEADING.fullmatch(kept[0]):
                section, silent = section + 1, heading[1].startswith(SILENT)
                used |= seen
                seen.clear()
        parts.append(text[at:] if silent else _marked(text[at:], page, section, seen))
        made.append("".join(parts))
    return tuple(made), tuple(sorted(used | seen))


def _marked(text: str, page: str, section: int, seen: set[str]) -> str:
    """A stretch of plain text with its words marked that were not seen in this section."""

    def mark(found: re.Match) -> str:
        term = _term(found.lastgroup or "")
        if term.id in seen or not _is_explained(term, page, section):
            return found[0]
        seen.add(term.id)
        return f'<button type="button" class="word" aria-describedby="word-{term.id}" data-word="{term.id}">{found[0]}</button>'

    return _WITH_ITS_SIGNS.sub(_together, _words().sub(mark, text))


def _together(found: re.Match) -> str:
    """A marked word with the bracket or comma at it: a browser breaks lines on either side of a button, whatever stands there."""
    before, after = found["before"], found["after"]
    return f'<span class="word-kept">{found[0]}</span>' if before or after else found[0]


def _is_explained(term: Term, page: str, section: int) -> bool:
    if term.id in ALSO_OF_EVERY_DAY and page[:2].isdigit() and page[:2] < term.lesson:
        return False
    return section >= max(HELD.get(page, {}).get(term.id, 0), RECALLED.get(term.id, 0))


def _term(group: str) -> Term:
    return TERMS[int(group[1:])]


def _pattern(term: Term) -> str:
    """A word as it stands in a sentence that means the thing: no kit's plans, no mark that is printed on a stick."""
    name = re.escape(term.name)
    if term.id == "hand":
        return f"{_HAND}{name}"
    if term.id == "mark":
        return rf"(?<!\bits ){_ONE}{name}s?(?! printed)"
    if term.id in ALSO_OF_EVERY_DAY:
        return f"{_ONE}{name}{'' if term.id == 'plan' else 's?'}"
    return f"{name}s?"


@cache
def _words() -> re.Pattern:
    """Every word, the longest first; each in a group of its own."""
    order = sorted(range(len(TERMS)), key=lambda n: -len(TERMS[n].name))
    some = (f"(?P<t{n}>{_pattern(TERMS[n])})" for n in order)
    return re.compile(rf"(?<![\w/-])(?:{'|'.join(some)})(?![\w-])")


def meanings(used: Collection[str]) -> str:
    """The meanings of some words, unseen: what describes the words of a page."""
    rows = (f'<span id="word-{term.id}">{escape(term.name)}: {escape(term.meaning)}</span>' for term in TERMS if term.id in used)
    return f"<div hidden>{''.join(rows)}</div>" if used else ""
