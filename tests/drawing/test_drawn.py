"""What a way of writing spoils is what the checks of a whole sheet find more with it than without."""

from random import Random

from anglelib.drawing.checks import APART, Drawn, overlaps, struck
from anglelib.drawing.sheet import Arc, Circle, Hatch, Label, Line, Sheet, polygon


def some(dice: Random, number: int, patches: float) -> tuple:
    def at() -> float:
        return dice.uniform(0, 40)

    def square(fill: str):
        x, y, w, h = at(), at(), dice.uniform(1, 25), dice.uniform(1, 12)
        return ((x, y), (x + w, y), (x + w, y + h), (x, y + h)), fill

    found = []
    for _ in range(number):
        kind = dice.random()
        if kind < 0.45:
            found.append(Label(at(), at(), dice.choice(["toe", "1 5/8", " ", "heel (A)"]), 3.5, dice.choice(["start", "middle", "end"]), "middle",
                               dice.choice([0.0, 0.0, 90.0, 30.0]), dice.random() < 0.3))  # fmt: skip
        elif kind < 0.65:
            found.append(Line(at(), at(), at(), at()))
        elif kind < 0.75:
            found.append(Arc(at(), at(), dice.uniform(1, 9), 0, 90))
        elif kind < 0.8:
            found.append(Circle(at(), at(), 2.0))
        elif kind < 0.85:
            found.append(Hatch(square("")[0], 45, 2.0))
        elif dice.random() < patches:
            points, fill = square("paper")
            found.append(polygon(points, "narrow", fill))
    return tuple(found)


def faults(items: tuple) -> int:
    sheet = Sheet(60, 60, items, "Trial", "A trial.")
    return len(overlaps(sheet, "paper")) + len(struck(sheet, "paper", -APART))


def test_it_counts_what_the_whole_sheet_has_more():
    dice, seen = Random("written on"), set()
    for trial in range(400):
        items, way = some(dice, 12, 0.6), some(dice, 3, 0.4 if trial % 2 else 0.0)
        wanted = faults(items + way) - faults(items)
        assert Drawn(items).faults(way) == wanted, trial
        seen.add(wanted)
    assert {-1, 0, 1, 2} <= seen  # a patch has cleared what was struck without it
