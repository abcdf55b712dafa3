"""What a scale can say about an alloy: each alloy's span of weights, and where a weighed piece lies.

>>> from fractions import Fraction
>>> from anglelib.section import Section
>>> piece = Weighing(Section("3/4", "3/4", "1/8", fillet="1/8"), Fraction(12), Fraction(1, 1000), Fraction(1, 2))
>>> print(weights_sheet(piece, Fraction(954, 10)).sentence)
A piece 12 in. long, its thickness to 0.001 in., its weight to 0.5 g. In 6063 the scale shows 91.2 to 93.8 g; in 6061 91.7 to 94.3 g; in 2024 94.1 to 96.7 g; in 7075 95.0 to 97.6 g. It weighs 95.4 g: it can be 2024 or 7075.
"""

from __future__ import annotations

import math
from fractions import Fraction

from anglelib.alloy import ALLOYS
from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, Sheet
from anglelib.geometry.weighing import Weighing
from anglelib.lengths import decimal, exact

WIDTH, HEIGHT = 200.0, 88.0
LETTER = 3.5
ORDER = tuple(sorted(ALLOYS, key=lambda alloy: ALLOYS[alloy].density))
_LEFT, _RIGHT = 62.0, 190.0
_AXIS, _TOP, _ROW = 20.0, 70.0, 12.0


def weights_sheet(weighing: Weighing, weighed: Fraction | None = None, *, revealed: bool = True, few: bool = False) -> Sheet:
    """A row an alloy: its weight, and where ``revealed`` its span and whether a piece that weighs ``weighed`` [g] can be it."""
    low, high, step = _range(weighing)
    unit = (_RIGHT - _LEFT) / (high - low)

    def at(grams: float) -> float:
        return _LEFT + (grams - low) * unit

    items: list[Item] = list(_axis(low, high, step, at, few))
    can = weighing.can_be(float(weighed)) if weighed is not None else ()
    shown = weighed is not None and low <= weighed <= high and revealed
    if shown:
        items.append(Line(at(float(weighed)), _AXIS, at(float(weighed)), _TOP + 5, "mark", True))  # type: ignore[arg-type]
    for row, alloy in enumerate(ORDER):
        y = _TOP - row * _ROW
        items.append(Circle(at(weighing.grams(alloy)), y, 1.0, "", "ink"))
        word = alloy
        if revealed:
            items += _span(weighing, alloy, y, at)
            if weighed is not None:
                word += ": can be" if alloy in can else ": cannot be"
        items.append(Label(8, y, word, LETTER, "start", "middle", accent=revealed and alloy in can))
    if shown:
        x = min(max(at(float(weighed)), _LEFT + 18), _RIGHT - 18)  # type: ignore[arg-type]
        items.append(Label(x, _TOP + 8, f"it weighs {_grams(weighed)} g", LETTER, accent=True))
    return Sheet(WIDTH, HEIGHT, tuple(items), "What the scale can say", weights_sentence(weighing, weighed, revealed))


def weights_sentence(weighing: Weighing, weighed: Fraction | None, revealed: bool) -> str:
    """What the picture shows, in words."""
    words = (
        f"A piece {exact(weighing.length)} in. long, its thickness to {decimal(weighing.thickness_error, 4).rstrip('0')} in., its weight to "
        f"{_grams(weighing.scale_error)} g. "
    )
    if not revealed:
        return words + "; ".join(f"in {alloy} it weighs {_grams(weighing.grams(alloy))} g" for alloy in ORDER).capitalize() + "."
    spans = [f"in {alloy} {'the scale shows ' if not row else ''}{_grams(weighing.span(alloy)[0])} to {_grams(weighing.span(alloy)[1])} g"
             for row, alloy in enumerate(ORDER)]  # fmt: skip
    words += "; ".join(spans).replace("in ", "In ", 1) + "."
    if weighed is not None:
        can = weighing.can_be(float(weighed))
        listed = f"{', '.join(can[:-1])} or {can[-1]}" if len(can) > 1 else "".join(can)
        words += f" It weighs {_grams(weighed)} g: it {f'can be {listed}' if can else 'is none of them, or not the section that was measured'}."
    return words


def _grams(value: float | Fraction) -> str:
    return f"{float(value):.1f}"


def _range(weighing: Weighing) -> tuple[float, float, float]:
    """The weights that the axis shows [g], from and to, and the distance of its figures: whole steps round all spans."""
    spans = [weighing.span(alloy) for alloy in ORDER]
    low, high = min(one for one, _ in spans), max(two for _, two in spans)
    step = next(step for step in (1, 2, 5, 10, 20, 50, 100, 200, 500) if (high - low) / step <= 8)
    return math.floor(low / step) * step, math.ceil(high / step) * step, step


def _axis(low: float, high: float, step: float, at, few: bool) -> Group:
    count = round((high - low) / step)
    items: list[Item] = [Line(_LEFT, _AXIS, _RIGHT, _AXIS, "narrow")]
    for n in range(count + 1):
        x = at(low + n * step)
        items.append(Line(x, _AXIS, x, _AXIS - 2, "narrow"))
        if not few or n in (0, count):
            text = f"{low + n * step:g}" + (" g" if few else "")
            items.append(Label(x, _AXIS - 4, text, LETTER, "middle", "top"))
    if not few:
        items.append(Label((_LEFT + _RIGHT) / 2, 4, "what the scale shows, in grams", LETTER))
    return tuple(items)


def _span(weighing: Weighing, alloy: str, y: float, at) -> Group:
    """An alloy's span, with a stop at either end."""
    low, high = weighing.span(alloy)
    return (
        Line(at(low), y, at(high), y, "outline"),
        Line(at(low), y - 2, at(low), y + 2, "outline"),
        Line(at(high), y - 2, at(high), y + 2, "outline"),
    )
