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
from dataclasses import dataclass
from functools import cache
from pathlib import Path

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

_SCRIPT = Path(__file__).resolve().parent / "lab" / "extensions" / "anglelib-lab" / "words.js"
"""Where JupyterLab finds it as a file; a plain page has it in its head."""


def script() -> str:
    """The script that shows the box of a word."""
    return _SCRIPT.read_text(encoding="utf-8")


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


@dataclass(frozen=True)
class Place:
    """A word of a text that is explained: the term, the word as it stands there, and how many equal words stand before it."""

    term: str
    word: str
    before: int


_BUTTON = re.compile(r'<button type="button" class="word"[^>]*data-word="([^"]+)">([^<]*)</button>')
_PIECES = re.compile(rf"{_BUTTON.pattern}|(?P<kept>{_PROTECTED.pattern})", re.DOTALL | re.MULTILINE)
ALONE = ("(?<![\\w/-])", "(?![\\w-])")
"""What may not stand before and after a word."""


def places(marked: str) -> tuple[Place, ...]:
    """Where the words of a text stand that ``explained`` has marked: for a page that was rendered by someone else.

    Words in headings, links, code and formulas are not counted.

    >>> places(explained(["`heel`, [a heel](x) and wheel: the heel, *heel* and toe."], "09_holes_and_what_if")[0][0])
    (Place(term='heel', word='heel', before=0), Place(term='toe', word='toe', before=0))
    """
    found, plain, at = [], "", 0
    for piece in _PIECES.finditer(marked):
        plain += marked[at : piece.start()]
        at = piece.end()
        if piece["kept"]:
            plain += "\0"
            continue
        term, word = piece[1], piece[2]
        found.append(Place(term, word, len(re.findall(f"{ALONE[0]}{re.escape(word)}{ALONE[1]}", plain))))
        plain += word
    return tuple(found)


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
    return re.compile(rf"{ALONE[0]}(?:{'|'.join(some)}){ALONE[1]}")


def meaning(id: str) -> str:
    """What is said of a word where it is pointed at."""
    term = next(term for term in TERMS if term.id == id)
    return f"{term.name}: {term.meaning}"


def meanings(used: Collection[str]) -> str:
    """The meanings of some words, unseen: what describes the words of a page."""
    rows = (f'<span id="word-{term.id}">{escape(meaning(term.id))}</span>' for term in TERMS if term.id in used)
    return f"<div hidden>{''.join(rows)}</div>" if used else ""
