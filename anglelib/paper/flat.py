"""A flat view as data, in inches: what DXF and SVG are written from, each thing on its layer.

x runs along the heel from end 1, the datum; y is 0 on the heel (on an unrolled sheet: in the middle
of the fold). Everything is true size, arcs are arcs, and nothing is broken or shortened.

>>> line = Outline("FINISHED", (Straight((0.0, 0.0), (1.0, 0.0)),))
>>> Flat("P1-leg-A-outer", "A line", "A line 1 in long.", (line,)).box
(0.0, 0.0, 1.0, 0.0)
>>> Outline("finished", ())
Traceback (most recent call last):
    ...
ValueError: no layer 'finished'; the layers are FINISHED, BLANK, SAW_LINE, KERF, WASTE, HOLES, CENTRES, HEEL, FOLD, TANGENT, WITNESS_LINE, DIMENSIONS, TEXT
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from anglelib.drawing.letters import text_width
from anglelib.geometry.edges import Edge, Point, Straight, points_along

__all__ = ["LAYERS", "Circle", "Flat", "Layer", "Linear", "Ordinate", "Outline", "Straight", "Words"]


class Layer(NamedTuple):
    """How a layer is drawn: colour (AutoCAD's index, and as seen on white), width [mm], dashes [mm], and what is on it."""

    colour: int
    seen: str
    width: float
    dashes: tuple[float, ...]
    holds: str


LAYERS = {
    "FINISHED": Layer(7, "#000000", 0.5, (), "the finished edges of the metal"),
    "BLANK": Layer(8, "#5a5a5a", 0.25, (6.3, 1.0, 1.0, 1.0, 1.0, 1.0), "the metal before the cuts, cut to length"),
    "SAW_LINE": Layer(5, "#0b4f96", 0.25, (), "the near side of the saw's cut: the sanding allowance off the finished line"),
    "KERF": Layer(4, "#3c7896", 0.25, (2.8, 1.0), "the far side of the saw's cut"),
    "WASTE": Layer(8, "#5a5a5a", 0.18, (0.7, 0.9), "what the cuts take off, as closed outlines"),
    "HOLES": Layer(7, "#000000", 0.35, (), "holes at the fastener's diameter"),
    "CENTRES": Layer(3, "#2e6b34", 0.18, (6.3, 1.0, 1.0, 1.0), "crossed centre lines of the holes"),
    "HEEL": Layer(6, "#7a3b7a", 0.25, (6.3, 1.0, 1.0, 1.0), "the heel, from which heights are measured"),
    "FOLD": Layer(6, "#7a3b7a", 0.25, (6.3, 1.0, 1.0, 1.0), "the heel or the middle of a bend, where paper folds"),
    "TANGENT": Layer(8, "#5a5a5a", 0.18, (), "where a flat face runs into a bend"),
    "WITNESS_LINE": Layer(1, "#9a2b1c", 0.25, (2.8, 1.0), "the witness line, which is the datum where a cut takes end 1"),
    "DIMENSIONS": Layer(7, "#000000", 0.18, (), "dimensions"),
    "TEXT": Layer(7, "#000000", 0.18, (), "words"),
}


def _known(layer: str) -> None:
    if layer not in LAYERS:
        raise ValueError(f"no layer {layer!r}; the layers are {', '.join(LAYERS)}")


@dataclass(frozen=True)
class Outline:
    """Edges end to end on a layer; closed, the last one ends where the first begins."""

    layer: str
    edges: tuple[Edge, ...]
    closed: bool = False

    def __post_init__(self) -> None:
        _known(self.layer)

    @property
    def points(self) -> list[Point]:
        return points_along(self.edges)


@dataclass(frozen=True)
class Circle:
    """A whole circle on a layer."""

    layer: str
    centre: Point
    radius: float

    def __post_init__(self) -> None:
        _known(self.layer)

    @property
    def points(self) -> list[Point]:
        (x, y), r = self.centre, self.radius
        return [(x - r, y - r), (x + r, y + r)]


@dataclass(frozen=True)
class Words:
    """A line of text on TEXT, its lower left corner at a point; height of its capitals [in]."""

    at: Point
    text: str
    height: float

    @property
    def points(self) -> list[Point]:
        return [self.at, (self.at[0] + text_width(self.text, self.height), self.at[1] + self.height)]


@dataclass(frozen=True)
class Ordinate:
    """A running dimension: how far a feature is along ``axis`` ("x" or "y") from 0, and where its figures stand."""

    axis: str
    feature: Point
    foot: Point
    text: str

    @property
    def points(self) -> list[Point]:
        n = 1 if self.axis == "x" else 0
        reach = (text_width(self.text, LETTER) + LETTER) * (1 if self.foot[n] > self.feature[n] else -1)
        x, y = self.foot
        return [self.feature, self.foot, (x, y + reach) if n else (x + reach, y)]


@dataclass(frozen=True)
class Linear:
    """A dimension between two points along ``axis``; its line goes through ``base``."""

    axis: str
    first: Point
    last: Point
    base: Point
    text: str

    @property
    def points(self) -> list[Point]:
        (x, y), wide = self.base, text_width(self.text, LETTER) + LETTER
        if self.axis == "x":
            middle, out = (self.first[0] + self.last[0]) / 2, LETTER * (2 if y > self.first[1] else -2)
            return [self.first, self.last, (middle - wide / 2, y + out), (middle + wide / 2, y)]
        return [self.first, self.last, self.base, (x + (wide if x > self.first[0] else -wide), y)]


Item = Outline | Circle | Words | Ordinate | Linear
LETTER = 0.12
"""Height of figures and words [in]: 3 mm."""


@dataclass(frozen=True)
class Flat:
    """One view: the name of its file, its title, the sentence for those who cannot see it, its items."""

    name: str
    title: str
    sentence: str
    items: tuple[Item, ...]

    def on(self, layer: str) -> tuple[Outline | Circle, ...]:
        """The shapes on a layer."""
        return tuple(item for item in self.items if isinstance(item, Outline | Circle) and item.layer == layer)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The smallest upright rectangle round everything: left, low, right, high [in]."""
        xs, ys = zip(*(point for item in self.items for point in item.points), strict=True)
        return min(xs), min(ys), max(xs), max(ys)
