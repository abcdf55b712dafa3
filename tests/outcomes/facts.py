"""Ids and numbers of whatever the course makes: what must stay when every sentence is said otherwise.

>>> facts(("end-1", "clamp: the piece is 3 1/4 (3.250)", Fraction(13, 4), 2 / 3))
['end-1', ['3', '1/4', '3.250'], '13/4', 0.666667]
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.sheet import Arc, Circle, Hatch, Item, Label, Line, Polyline, Sheet

FIGURE = re.compile(r"\d+(?:[./]\d+)*")


def facts(value: Any) -> Any:
    """The value as JSON has it: an id and a number as they are, of English only the numbers in it."""
    if value is None or isinstance(value, bool | int):
        return value
    if isinstance(value, float):
        return round(value, 6) + 0.0
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, str):
        return figures(value) if english(value) else value
    if isinstance(value, Sheet):
        return drawn(value)
    if is_dataclass(value):
        return [facts(getattr(value, field.name)) for field in fields(value)]
    if isinstance(value, Mapping):
        return [[facts(key), facts(of)] for key, of in value.items()]
    if isinstance(value, set | frozenset):
        return sorted((facts(one) for one in value), key=str)
    if isinstance(value, Iterable):
        return [facts(one) for one in value]
    return type(value).__name__


def english(text: str) -> bool:
    """Whether a text is English: it has a space, or is one word with a capital.

    >>> [english(text) for text in ("heel", "hole.2.x", "M07", "A1L", "Bar", "to end 2")]
    [False, False, False, False, True, True]
    """
    return " " in text or bool(re.fullmatch(r"[A-Z][a-z]{2,}[\u0300-\u036f]*\W?", text))


def figures(text: str) -> list[str]:
    """The numbers in a text, in their order."""
    return FIGURE.findall(text)


# --- drawings ---------------------------------------------------------------------------------------------------
def drawn(sheet: Sheet) -> list[Any]:
    """A sheet by its size and its items; of its words the numbers."""
    return [facts(sheet.width), facts(sheet.height), figures(sheet.title), figures(sheet.sentence), [item(one) for one in sheet.items]]


def item(one: Item) -> list[Any]:
    """An item by its places."""
    if isinstance(one, Label):
        return ["label", figures(one.text), *facts((one.x, one.y, one.height, one.anchor, one.base, one.rotation, one.halo, one.accent))]
    return [type(one).__name__.lower(), *(facts(getattr(one, field.name)) for field in fields(one))]


def metal(sheet: Sheet) -> list[Any]:
    """A sheet by what is drawn with lines: no words, nor what depends on where they find room."""
    kinds = (Line, Polyline, Arc, Circle, Hatch)
    return [facts(sheet.width), [item(one) for one in sheet.items if isinstance(one, kinds) and one.kind not in ("narrow", "dimension")]]


def faults(sheet: Sheet, theme: str = "screen") -> list[int]:
    """How many of its words hide others, leave the sheet, are struck."""
    return [len(overlaps(sheet, theme)), len(clipped(sheet, theme)), len(struck(sheet, theme))]
