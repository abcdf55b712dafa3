"""The reliability curve: how often it was so, over how probable it was said to be.

>>> sheet = reliability_sheet({"parts of the bench": [(0.1, 0.12, 40), (0.9, 0.88, 60)]})
>>> print(sheet.sentence)
How often a mistake had been made, over the probability that the diagnosis gave it. Parts of the bench: 0.12 where it said 0.10, 0.88 where it said 0.90.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, Polyline, Sheet, polygon

WIDTH, HEIGHT = 140.0, 132.0
SIZE = 100.0
LEFT, LOW = 28.0, 22.0
LETTER = 3.5
MARK = 1.7
KINDS = ("narrow", "hidden", "centre")

Rows = Sequence[tuple[float, float, int]]


def _mark(shape: int, x: float, y: float) -> Item:
    """A dot, a ring, a square: told apart without colour."""
    if shape == 0:
        return Circle(x, y, MARK, "narrow", "ink")
    if shape == 1:
        return Circle(x, y, MARK, "narrow", "paper")
    return polygon([(x - MARK, y - MARK), (x + MARK, y - MARK), (x + MARK, y + MARK), (x - MARK, y + MARK)], "narrow", "paper")


def _axes() -> Group:
    items: list[Item] = [polygon([(LEFT, LOW), (LEFT + SIZE, LOW), (LEFT + SIZE, LOW + SIZE), (LEFT, LOW + SIZE)], "narrow")]
    for tenth in range(0, 11, 2):
        at, text = SIZE * tenth / 10, f"{tenth / 10:.1f}"
        items += [Line(LEFT + at, LOW, LEFT + at, LOW - 1.5, "narrow"), Line(LEFT, LOW + at, LEFT - 1.5, LOW + at, "narrow")]
        items += [Label(LEFT + at, LOW - 3, text, LETTER, base="top"), Label(LEFT - 3, LOW + at, text, LETTER, "end", "middle")]
    items.append(Label(LEFT + SIZE / 2, LOW - 11, "probability that the diagnosis gave", LETTER, base="top"))
    items.append(Label(LEFT - 15, LOW + SIZE / 2, "how often it was so", LETTER, base="bottom", rotation=90))
    items.append(Line(LEFT, LOW, LEFT + SIZE, LOW + SIZE, "ghost"))
    return tuple(items)


def reliability_sheet(runs: Mapping[str, Rows]) -> Sheet:
    """Up to three runs, each rows of (probability, observed, number); the dotted line is a diagnosis that is right as often as it says."""
    items: list[Item] = [*_axes()]
    for shape, (name, rows) in enumerate(runs.items()):
        points = [(LEFT + SIZE * p, LOW + SIZE * f) for p, f, _ in rows]
        items.append(Polyline(tuple(points), KINDS[shape]))
        items += [_mark(shape, x, y) for x, y in points]
        # Names stand low on the right, where a diagnosis that can be used has no points.
        level = LOW + 19 - 7 * shape
        items += [Line(LEFT + 32, level, LEFT + 43, level, KINDS[shape]), _mark(shape, LEFT + 37.5, level)]
        items.append(Label(LEFT + 46, level, name, LETTER, "start", "middle"))
    told = "; ".join(
        f"{name[:1].upper()}{name[1:]}: " + ", ".join(f"{f:.2f} where it said {p:.2f}" for p, f, _ in (rows[0], rows[-1]))
        for name, rows in runs.items()
    )
    sentence = f"How often a mistake had been made, over the probability that the diagnosis gave it. {told}."
    return Sheet(WIDTH, HEIGHT, tuple(items), "Reliability of the diagnosis", sentence)
