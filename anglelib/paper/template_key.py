"""What the lines of a template are, in one row."""

from __future__ import annotations

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Hatch, Item, Label, polygon
from anglelib.drawing.style import NARROW
from anglelib.job import Shop
from anglelib.lengths import given
from anglelib.paper.page import SMALL

PATCH = 9.0
"""Width of a pattern of the key [mm]."""


def key(x: float, y: float, shop: Shop) -> Group:
    """Finished line, metal to sand, saw, waste; x, y is the row's lower left corner."""
    items: list[Item] = [polygon(_box(x, y + 1, NARROW), "", "accent")]
    at = _word(items, x, y, "finished line")
    if shop.allowance:
        patch = _box(at, y, 2.5)
        items += [Hatch(patch, 45, 1.2), polygon(patch, "cut")]
        at = _word(items, at, y, f"metal to sand, {given(shop.allowance)}")
    if shop.kerf:
        items.append(polygon(_box(at, y, 2.5), "cut", "paper"))
        at = _word(items, at, y, f"saw, kerf {given(shop.kerf)}")
    patch = _box(at, y, 2.5)
    items += [Hatch(patch, -45, 3.6), polygon(patch, "cut")]
    _word(items, at, y, "waste")
    return tuple(items)


def _box(x: float, y: float, high: float) -> tuple[tuple[float, float], ...]:
    return (x, y), (x + PATCH, y), (x + PATCH, y + high), (x, y + high)


def _word(items: list[Item], x: float, y: float, text: str) -> float:
    """Writes a word beside its pattern; where the next begins."""
    items.append(Label(x + PATCH + 2, y, text, SMALL, "start"))
    return x + PATCH + 6 + text_width(text, SMALL)
