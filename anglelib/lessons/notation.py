"""The notation: every letter of the formulas, its word, its name in the library, its unit, and its place on a drawing.

All of it is read off the Formula objects, so that it cannot go stale: a letter that no formula uses is not here.

>>> len(letters()) > 100, letters()[0].letter
(True, 'a')
>>> [formula.name for formula in used_by("s_1")]
['where the tapers of both ends meet']
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING

from anglelib.drawing.escape import escape
from anglelib.drawing.letter_bases import HEIGHT, WIDTH, parts_of, plain
from anglelib.drawing.letter_places import letter_sheet
from anglelib.drawing.sheet import Item, Sheet, move
from anglelib.drawing.svg import image
from anglelib.geometry.lazy import formulas
from anglelib.lessons.finder import Entry, Finder
from anglelib.lessons.words import TEXT

if TYPE_CHECKING:
    from anglelib.geometry.formula import Formula, Quantity

LESSON = "notation"
UNITS = {"": "a number", "deg": "degrees", "in": "in.", "in2": "square in.", "in3": "cubic in.", "in4": "in. to the fourth"}


def letters() -> tuple[Quantity, ...]:
    """Every quantity that a formula uses or gives, in the order in which they are stated."""
    f = formulas()
    return tuple(quantity for quantity in f.QUANTITIES.values() if quantity.letter in _uses())


@cache
def _uses() -> Mapping[str, tuple[Formula, ...]]:
    found: dict[str, list[Formula]] = {}
    for formula in formulas().ALL:
        for quantity in dict.fromkeys((formula.result, *formula.quantities)):
            found.setdefault(quantity.letter, []).append(formula)
    return {letter: tuple(those) for letter, those in found.items()}


def used_by(letter: str) -> tuple[Formula, ...]:
    """The formulas in which a letter stands."""
    return _uses()[letter]


def place(quantity: Quantity) -> Sheet:
    """The small drawing that shows where a letter is."""
    return letter_sheet(quantity.letter, quantity.latex, quantity.meaning)


SHOWN = ("X", "s", "theta", "x_v", "e_s", "e")
"""The letters of the page's ordinary picture."""


def figures() -> dict[str, Sheet]:
    """The page's ordinary picture by file name: six letters that every taper has."""
    shown = [formulas().QUANTITIES[letter] for letter in SHOWN]
    items: list[Item] = []
    for number, quantity in enumerate(shown):
        items += move(place(quantity).items, WIDTH * (number % 3), HEIGHT * (1 - number // 3))
    sentence = "Six letters, each in its place on a small drawing: " + "; ".join(f"{plain(q.latex)}, {q.meaning}" for q in shown) + "."
    return {f"{LESSON}.png": Sheet(3 * WIDTH, 2 * HEIGHT, tuple(items), "Six letters", sentence)}


# --- written ------------------------------------------------------------------------------------------------
def _symbol(quantity: Quantity) -> str:
    head, sub = parts_of(quantity.latex)
    return f"<i>{escape(head)}</i>" + (f"<sub>{escape(sub)}</sub>" if sub else "")


def _row(quantity: Quantity) -> str:
    unit = UNITS.get(quantity.unit, quantity.unit)
    named = [formula.name for formula in used_by(quantity.letter)]
    shown = "; ".join(named[:4]) + (f"; and {len(named) - 4} more" if len(named) > 4 else "")
    words = (
        f'<div style="font-size:150%">{_symbol(quantity)}</div><div><b>{escape(quantity.meaning)}</b></div>'
        f"<div>{escape(unit)}; in the library <code>{escape(quantity.letter)}</code></div><div>in: {escape(shown)}</div>"
    )
    return (
        f'<div style="display:flex;flex-wrap:wrap;gap:1rem;align-items:center;border-top:1px solid #767676;padding:0.3rem 0;{TEXT}">'
        f'<div style="flex:0 0 15rem">{image(place(quantity))}</div><div style="flex:1 1 18rem">{words}</div></div>'
    )


def entries() -> list[Entry]:
    """The rows of the page."""
    return [
        Entry(plain(quantity.latex), quantity.meaning, _row(quantity), f"{quantity.letter} {' '.join(f.name for f in used_by(quantity.letter))}")
        for quantity in letters()
    ]


# --- wired: a function a cell ---------------------------------------------------------------------------------
def table() -> Finder:
    """All letters, filtered by what is typed."""
    return Finder(entries())
