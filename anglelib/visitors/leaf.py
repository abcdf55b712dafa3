"""The visitors' pages that need no Python of their own: the door, the list of pages, a sentence; and the sheet for the wall.

>>> "<h1>No &lt;b&gt;</h1>" in leaf("No <b>", "")
True
"""

from __future__ import annotations

from anglelib.drawing.escape import escape
from anglelib.lessons.contents import BESIDE, FOR_OWNER, HOME, LESSONS, Lesson
from anglelib.visitors import words
from anglelib.visitors.code import LENGTH, Square, grouped

BESIDE_HERE = tuple(page for page in BESIDE if page.file not in FOR_OWNER)
FILES = frozenset(page.file for page in (*LESSONS, *BESIDE_HERE))
"""The notebooks that a visitor opens."""
HOME_FILE = HOME.file
"""The owner's home; a visitor's is the list."""
RENDER = "/voila/render/notebooks/"

STYLE = """
:root { color-scheme: light dark; }
body { font: 1.0625rem/1.45 system-ui, sans-serif; max-width: 42rem; margin: 0 auto; padding: 1rem 1.25rem 4rem; overflow-wrap: break-word; }
h1 { font-size: 1.5rem; line-height: 1.25; } h2 { font-size: 1.125rem; margin: 1.75rem 0 .25rem; }
ul { list-style: none; margin: 0; padding: 0; }
li { border-bottom: 1px solid #8886; } li a { display: block; padding: .7rem 0; text-decoration: none; }
li a b { text-decoration: underline; font-weight: 600; } li span { display: block; color: CanvasText; font-size: .9375rem; }
label { display: block; margin: 1rem 0 .25rem; }
input { font: inherit; font-family: ui-monospace, monospace; letter-spacing: .08em; width: 100%; max-width: 20rem; box-sizing: border-box; padding: .6rem; }
button, a.button { font: inherit; display: inline-block; margin-top: 1rem; padding: .6rem 1.25rem; min-height: 2.75rem; box-sizing: border-box; }
p.wrong { border-left: 4px solid #b3261e; padding-left: .75rem; }
"""
WALL_STYLE = """
:root { color-scheme: light; }
body { color: #000; background: #fff; text-align: center; max-width: 44rem; }
h1 { font-size: 2.25rem; margin: .5rem 0; }
.square { display: block; width: min(80vw, 58vh, 26rem); margin: 1rem auto; }
.typed { font: 600 1.5rem/1.5 ui-monospace, monospace; margin: .25rem 0; }
.owner { text-align: left; border-top: 1px solid #888; margin-top: 2rem; font-size: 1rem; }
@media print { .owner { display: none; } .square { width: 12cm; } body { padding: 0; } }
@page { margin: 15mm; }
"""


def leaf(title: str, body: str, style: str = STYLE) -> str:
    """A whole page of HTML around a body."""
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<meta name="referrer" content="no-referrer"><title>{escape(title)}</title><style>{style}</style></head>'
        f"<body><main><h1>{escape(title)}</h1>{body}</main></body></html>\n"
    )


def paragraph(text: str, kind: str = "") -> str:
    """A paragraph of a page."""
    return f'<p class="{kind}">{escape(text)}</p>' if kind else f"<p>{escape(text)}</p>"


def contents() -> str:
    """The list of the pages that a visitor may open."""
    parts = [paragraph(words.LIST_LEAD)]
    for head, pages in ((words.LESSONS_HEAD, LESSONS), (words.BESIDE_HEAD, BESIDE_HERE)):
        parts.append(f"<h2>{escape(head)}</h2><ul>{''.join(map(_row, pages))}</ul>")
    return leaf(words.TITLE, "".join(parts))


def _row(page: Lesson) -> str:
    said = f"{page.learns[0].upper()}{page.learns[1:]}."
    return f'<li><a href="{RENDER}{escape(page.file)}"><b>{escape(page.name)}</b><span>{escape(said)}</span></a></li>'


def door(wrong: bool = False) -> str:
    """Where the code is typed."""
    said = f'<p class="wrong" role="alert">{escape(words.DOOR_WRONG)}</p>' if wrong else ""
    form = (
        f'<form method="post" action="/"><label for="code">{escape(words.DOOR_LABEL)}</label>'
        f'<input id="code" name="token" maxlength="{3 * LENGTH}" autocomplete="off" autocapitalize="none" autocorrect="off" spellcheck="false" required>'
        f"<div><button>{escape(words.DOOR_BUTTON)}</button></div></form>"
    )
    return leaf(words.DOOR_TITLE, paragraph(words.DOOR) + said + form)


def nowhere() -> str:
    """No such page."""
    return leaf(words.NOWHERE_TITLE, paragraph(words.NOWHERE) + f'<p><a class="button" href="/">{escape(words.TO_LIST)}</a></p>')


def full(most: int) -> str:
    """No place is free."""
    links = f'<p><a class="button" href="">{escape(words.AGAIN)}</a> <a class="button" href="/">{escape(words.TO_LIST)}</a></p>'
    return leaf(words.FULL_TITLE, paragraph(words.FULL.format(most)) + links)


def wall(url: str, with_code: str, code: str, for_owner: tuple[str, ...]) -> str:
    """The sheet for the wall: the square, the address and the code in large letters; what is for the owner is not printed."""
    parts = [
        paragraph(words.WALL_SCAN), Square(with_code).svg(words.SQUARE_NAME.format(url)),
        paragraph(words.WALL_TYPE), paragraph(url, "typed"), paragraph(grouped(code), "typed"),
        paragraph(words.WALL_NETWORK), paragraph(words.WALL_UNTIL),
        f'<div class="owner">{paragraph(words.WALL_OWNER)}{"".join(map(paragraph, for_owner))}</div>',
    ]  # fmt: skip
    return leaf(words.WALL_TITLE, "".join(parts), STYLE + WALL_STYLE)
