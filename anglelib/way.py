"""The way through the course, from page to page: before, home and after, and the sections of one page.

The order is the one of :data:`anglelib.lessons.contents.LESSONS`. Links are relative, so they hold wherever the pages are served.

>>> [(way.id, way.file, way.words) for way in ways("07_taper_inside.ipynb")][::2]
[('previous', '06_taper_outside.ipynb', 'Previous: 06 Taper on the outside face'), ('next', '08_order_of_work.ipynb', 'Next: 08 Order of work')]
>>> [way.words for way in ways("glossary.ipynb")], ways("home.ipynb"), ways("my_own.ipynb")
(['Home'], (), ())
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from anglelib.drawing.escape import escape
from anglelib.lessons.contents import BESIDE, HOME, LESSONS

PREVIOUS, HOMEWARD, NEXT = "previous", "home", "next"
WORDS = {PREVIOUS: "Previous: {}", HOMEWARD: "{}", NEXT: "Next: {}"}
ARROWS = {PREVIOUS: ("← ", ""), HOMEWARD: ("", ""), NEXT: ("", " →")}
STYLE = (
    "<style>.way{display:flex;flex-wrap:wrap;justify-content:space-between;gap:.25rem 1.5rem;font-size:1rem;margin:.5rem 0}"
    ".way a{padding:.35rem 0;min-height:1.5rem}.sections summary{cursor:pointer;padding:.35rem 0}.sections ol{margin:.25rem 0 1rem}"
    ".sections li{list-style:none;padding:.15rem 0}.sections{font-size:1rem}"
    "@media (max-width:40rem){.way{gap:0 1rem}.way [aria-hidden]{display:none}}</style>"
)
_FENCE = re.compile(r"^\s*(```|~~~)")
_HEADING = re.compile(r"## +(.+?)\s*#*\s*$")


@dataclass(frozen=True)
class Way:
    """One link from a page to another: its id, the file, the words."""

    id: str
    file: str
    words: str


@dataclass(frozen=True)
class Section:
    """A section of a page: its anchor and its heading."""

    anchor: str
    heading: str


def ways(file: str) -> tuple[Way, ...]:
    """Where one can go from a page: from a lesson to its neighbours and home, from a page beside the lessons home, from home or another page nowhere."""
    files = [lesson.file for lesson in LESSONS]
    if file not in files:
        return (_way(HOMEWARD, HOME),) if file in {page.file for page in BESIDE} else ()
    at = files.index(file)
    before = [_way(PREVIOUS, LESSONS[at - 1])] if at else []
    after = [_way(NEXT, LESSONS[at + 1])] if at + 1 < len(LESSONS) else []
    return (*before, _way(HOMEWARD, HOME), *after)


def _way(id_: str, lesson) -> Way:
    return Way(id_, lesson.file, WORDS[id_].format(lesson.name))


def bar(links: Sequence[Way], name: str) -> str:
    """The links as one line of HTML, with a name for those who go through a page by its landmarks; "" where there are none."""
    if not links:
        return ""
    made = [f'<a rel="{_rel(way)}" href="{escape(way.file)}">{_arrowed(way)}</a>' for way in links]
    return f'<nav class="way" aria-label="{escape(name)}">{"".join(made)}</nav>'


def _rel(way: Way) -> str:
    return {PREVIOUS: "prev", HOMEWARD: "up", NEXT: "next"}[way.id]


def _arrowed(way: Way) -> str:
    """The words between their arrow, which is for the eye alone."""
    before, after = (f'<span aria-hidden="true">{arrow}</span>' if arrow else "" for arrow in ARROWS[way.id])
    return f"{before}{escape(way.words)}{after}"


def anchored(texts: Sequence[str]) -> tuple[tuple[str, ...], tuple[Section, ...]]:
    """Markdown texts with an anchor in each heading of the second level, and the sections that they begin.

    >>> anchored(["# 07 Taper", "## 1 *Which* side?\\n\\nThis one.\\n\\n```\\n## no heading\\n```"])[1]
    (Section(anchor='section-1', heading='1 Which side?'),)
    """
    made: list[str] = []
    sections: list[Section] = []
    for text in texts:
        lines, fenced = [], False
        for line in text.split("\n"):
            fenced ^= bool(_FENCE.match(line))
            found = None if fenced else _HEADING.match(line)
            if found:
                sections.append(Section(f"section-{len(sections) + 1}", re.sub(r"[*`]|\\(?=\W)", "", found[1])))
                line = f'## <span id="{sections[-1].anchor}"></span>{found[1]}'
            lines.append(line)
        made.append("\n".join(lines))
    return tuple(made), tuple(sections)


def sections_bar(sections: Sequence[Section]) -> str:
    """The sections, folded into one line; "" where there are none."""
    if not sections:
        return ""
    items = "".join(f'<li><a href="#{section.anchor}">{escape(section.heading)}</a></li>' for section in sections)
    return f'<details class="sections"><summary>On this page</summary><nav aria-label="Sections of this page"><ol>{items}</ol></nav></details>'
