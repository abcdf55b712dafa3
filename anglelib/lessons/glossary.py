"""The glossary: every word of the course with what it means and a small drawing of its own.

>>> [word.name for word in TERMS][:3]
['stick', 'rack', 'remnant']
>>> finder = table()
>>> finder.search.value = "inside radius"
>>> finder.told
'1 of 49: fillet.'
"""

from __future__ import annotations

from anglelib.drawing.escape import escape
from anglelib.drawing.letter_bases import HEIGHT, WIDTH
from anglelib.drawing.sheet import Item, Sheet, move
from anglelib.drawing.svg import image, svg
from anglelib.drawing.word_places import word_sheet
from anglelib.lessons.finder import Entry, Finder
from anglelib.lessons.terms import TERMS, Term
from anglelib.lessons.words import TEXT

LESSON = "glossary"


def drawn(term: Term) -> Sheet:
    """The small drawing of a word."""
    return word_sheet(term.id, term.name, term.meaning)


SHOWN = ("heel", "fillet", "vertex", "run", "kerf", "edge-distance")


def figures() -> dict[str, Sheet]:
    """The page's ordinary picture by file name: six words."""
    terms = {term.id: term for term in TERMS}
    items: list[Item] = []
    for number, id_ in enumerate(SHOWN):
        items += move(drawn(terms[id_]).items, WIDTH * (number % 3), HEIGHT * (1 - number // 3))
    sentence = "Six words, each on its small drawing: " + "; ".join(f"{terms[id_].name}, {terms[id_].meaning}" for id_ in SHOWN) + "."
    return {f"{LESSON}.png": Sheet(3 * WIDTH, 2 * HEIGHT, tuple(items), "Six words", sentence)}


def word_pictures() -> dict[str, str]:
    """The drawing of each word by file name, as SVG: what a page shows of a word that is pointed at."""
    return {f"word-{term.id}.svg": svg(drawn(term)) for term in TERMS}


# --- written ------------------------------------------------------------------------------------------------
def _row(term: Term) -> str:
    words = f"<div><b>{escape(term.name)}</b></div><div>{escape(term.meaning[0].upper() + term.meaning[1:])}.</div>"
    words += f"<div>{escape(term.mind)}</div>" if term.mind else ""
    words += f"<div>lesson {escape(term.lesson)}</div>"
    return (
        f'<div style="display:flex;flex-wrap:wrap;gap:1rem;align-items:center;border-top:1px solid #767676;padding:0.3rem 0;{TEXT}">'
        f'<div style="flex:0 0 15rem">{image(drawn(term))}</div><div style="flex:1 1 18rem">{words}</div></div>'
    )


# --- wired: a function a cell ---------------------------------------------------------------------------------
def table() -> Finder:
    """All words, filtered by what is typed."""
    return Finder([Entry(term.name, term.meaning, _row(term), term.mind) for term in TERMS])
