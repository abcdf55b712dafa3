"""A caliper closed on the metal: what a person reads off it, and its picture, the scale enlarged.

Two plain kinds. "fraction": the beam in sixteenths, with a vernier of 8 divisions on 7 sixteenths, so that each of
its lines is worth 1/128. "decimal": the beam in tenths, and a dial whose hand goes round once in a tenth, in
thousandths: a vernier of thousandths moves its lines by a third of their own width, which no screen shows. The
reading is printed only where it is revealed; the sentence says what the scales show, and leaves
the adding up to the reader.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> print(caliper_sheet(Caliper("97/128"), Held.leg(stock, "A")).sentence)
A caliper with a vernier, closed on leg A of angle 3/4 x 3/4 x 1/8, heel to toe. The vernier's 0 stands past 3/4 on the beam, short of 13/16. Of its lines, each 1/128, line 1 meets a line of the beam.
>>> print(caliper_sheet(Caliper("0.127", "decimal"), Held.thickness(stock, "A"), revealed=True).sentence)
A caliper with a dial, closed on leg A of angle 3/4 x 3/4 x 1/8, across its thickness. The slide has passed 0.1 on the beam. The dial's hand stands at 27 thousandths. It reads 0.127.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.caliper_reading import KINDS, LINES, OPENS, SIXTEENTH, TENTH, THOUSANDTH, Caliper
from anglelib.drawing.letters import text_width
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Polyline, Sheet, polygon
from anglelib.drawing.symbols import zigzag
from anglelib.lengths import decimal, exact
from anglelib.section import Section

__all__ = ("KINDS", "Caliper", "Held", "caliper_sentence", "caliper_sheet")

WIDTH, HEIGHT = 200.0, 132.0
LETTER = 3.5
_ZERO = 24.0
"""Where the fixed jaw's face lies [mm]."""
_BEAM = (105.0, 117.0)
"""The beam's lower and upper edge [mm]."""
_TIP = 75.0
"""How low the jaws reach [mm]."""
_OFFSET = 6.0
"""How far behind the jaws' faces both zeros lie [mm]."""
_END = 190.0
_WINDOW = (8.0, 6.0, 192.0, 45.0)
"""The enlarged scale: left, low, right, high [mm]."""
_LARGE = 232.0
"""Millimetres an inch in the enlarged scale."""


@dataclass(frozen=True)
class Held:
    """What the jaws are closed on: its name, and its outline [in] across the jaws (from the fixed one) and down.

    ``deep`` is how much of it lies between the jaws [in], None for as much as there is room; ``cut`` where the
    section is seen, and not a face.
    """

    name: str = ""
    outline: tuple[Point, ...] = ()
    deep: float | None = None
    cut: bool = True

    @classmethod
    def leg(cls, section: Section, leg: str) -> Held:
        """A leg from heel to toe; the other leg hangs down beside the fixed jaw."""
        shape = section if leg == "A" else section.swapped()
        points = tuple((y, z) for y, z in section_outline(shape))
        return cls(f"leg {leg} of angle {section.size}, heel to toe", points, float(section.thickness(leg)))

    @classmethod
    def thickness(cls, section: Section, leg: str) -> Held:
        """A leg's thickness, at its toe; the other leg lies below."""
        shape = section if leg == "A" else section.swapped()
        wide = float(shape.leg_a)
        points = tuple((z, wide - y) for y, z in section_outline(shape))
        return cls(f"leg {leg} of angle {section.size}, across its thickness", points)

    @classmethod
    def length(cls, name: str, length: Fraction, width: Fraction) -> Held:
        """A piece so long between the jaws and so wide, seen on its face."""
        long, wide = float(length), float(width)
        return cls(name, ((0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide)), cut=False)


def caliper_sheet(
    caliper: Caliper, held: Held = Held(), *, revealed: bool = False, few: bool = False, prediction: Fraction | None = None
) -> Sheet:
    """The caliper on what it holds, and under it its scale enlarged.

    ``revealed`` prints the reading and points at the lines that give it; ``prediction`` [in] is kept as a dotted line.
    """
    unit = _unit(caliper, held)
    items: list[Item] = [*_detail(caliper, unit), *_held(held, unit), *_fixed(caliper, unit, few), *_slide(caliper, unit)]
    if prediction is not None:
        x = min(_ZERO + float(prediction) * unit, _END - 2)
        items.append(Line(x, _TIP - 3, x, _BEAM[0], "ghost"))
    items += _vernier_enlarged(caliper, revealed, few) if caliper.kind == "fraction" else _dial_enlarged(caliper, revealed, few)
    if revealed:
        items.append(Label(_END, 124.5, caliper.words, LETTER, "end", accent=True))
    title = "A caliper" if not held.name else f"A caliper on {held.name}"
    return Sheet(WIDTH, HEIGHT, tuple(items), title, caliper_sentence(caliper, held, revealed))


def caliper_sentence(caliper: Caliper, held: Held = Held(), revealed: bool = False) -> str:
    """What the scales show, in words; the reading itself only where it is revealed."""
    on = f"closed on {held.name}" if held.name else "seen from the front"
    if caliper.kind == "fraction":
        words = f"A caliper with a vernier, {on}. "
        if caliper.steps:
            words += (
                f"The vernier's 0 stands past {exact(caliper.beam)} on the beam, short of {exact(caliper.beam + SIXTEENTH)}. "
                f"Of its lines, each 1/128, line {caliper.steps} meets a line of the beam."
            )
        else:
            words += f"The vernier's 0 stands on {exact(caliper.beam)} of the beam."
    else:
        words = (
            f"A caliper with a dial, {on}. The slide has passed {decimal(caliper.beam, 1)} on the beam. "
            f"The dial's hand stands at {caliper.steps} thousandths."
        )
    if revealed:
        words += f" It reads {exact(caliper.read) + f' ({decimal(caliper.read)})' if caliper.kind == 'fraction' else decimal(caliper.read)}."
    return words


# --- the caliper --------------------------------------------------------------------------------------
def _unit(caliper: Caliper, held: Held) -> float:
    """Millimetres an inch in the upper picture."""
    tall = max((v for _, v in held.outline), default=0.5)
    reach = max([float(caliper.reading), *(x for x, _ in held.outline)])
    return min(50.0, 37.0 / tall, (_END - _ZERO - 52.0) / max(reach, 0.1))


def _held(held: Held, unit: float) -> Group:
    """The metal between the jaws, cut."""
    if not held.outline:
        return ()
    deep = 15.0 if held.deep is None else max(held.deep * unit + 2.0, 8.0)
    tall = max(v for _, v in held.outline) * unit
    top = _TIP + min(deep, tall + 2.0)
    points = tuple((_ZERO + x * unit, top - v * unit) for x, v in held.outline)
    return (polygon(points, "", "paper"), *((Hatch(points, 45, 2.0),) if held.cut else ()), polygon(points, "outline"))


def _jaw(x: float, way: float, top: float) -> list[Point]:
    """A jaw from its face at x, its back on the side ``way``: from its face's top, round the tip, to its back."""
    return [(x, top), (x, _TIP), (x + way * 2.5, _TIP), (x + way * 10, _BEAM[0] - 12), (x + way * 14, _BEAM[0] - 5)]


def _slide_at(caliper: Caliper, unit: float) -> tuple[float, float]:
    """Where the sliding jaw's face lies, and where the slide ends [mm]."""
    x = _ZERO + float(caliper.reading) * unit
    return x, x + max(30.0, _OFFSET + 7 / 16 * unit + 6)


def _vernier_at(caliper: Caliper, unit: float) -> tuple[float, float]:
    """From where to where the enlarged piece of the vernier lies [mm]."""
    zero = _ZERO + _OFFSET + float(caliper.reading) * unit
    return zero - 3.5, zero + 7 / 16 * unit + 3.5


def _detail(caliper: Caliper, unit: float) -> Group:
    """Which piece of the vernier is drawn enlarged; the lines run behind the metal."""
    if caliper.kind == "decimal":
        return ()
    left, right = _vernier_at(caliper, unit)
    low = _BEAM[0] - 6.5
    return Line(left, low, _WINDOW[0], _WINDOW[3], "dimension"), Line(right, low, _WINDOW[2], _WINDOW[3], "dimension")


def _fixed(caliper: Caliper, unit: float, few: bool) -> Group:
    """The beam with its scale, and the fixed jaw."""
    low, high = _BEAM
    face = _jaw(_ZERO, -1, low)
    zero = _ZERO + _OFFSET
    covered = _slide_at(caliper, unit) if caliper.kind == "decimal" else _vernier_at(caliper, unit)
    whole = max(zero + float(OPENS) * unit + 8, _slide_at(caliper, unit)[1] + 4)
    end, last = min(_END, whole), min(float(OPENS), (_END - 3 - zero) / unit)
    outline = [(end, low), *face, (_ZERO - 14, high), (end, high)]
    items: list[Item] = [polygon(outline[1:7], "", "paper"), Polyline(tuple(outline), "outline")]
    items.append(zigzag(_END, low, high) if whole > _END else Line(end, low, end, high, "outline"))
    for place, tall in _divisions(caliper.kind, 0.0, last):
        x = zero + float(place) * unit
        items.append(Line(x, low, x, low + tall * 6.5, "narrow"))
        if place.denominator == 1 and not few and not covered[0] - 2 < x < covered[1] + 2:
            items.append(Label(x, low + 7.1, str(place), 2.5))
    return tuple(items)


def _divisions(kind: str, low: float, high: float) -> Iterable[tuple[Fraction, float]]:
    """The beam's divisions between two places [in], each with its length as a part of the longest."""
    step = SIXTEENTH if kind == "fraction" else TENTH
    for n in range(max(0, math.ceil(low / float(step) - 1e-9)), math.floor(high / float(step) + 1e-9) + 1):
        place = n * step
        if kind == "fraction":
            yield place, {1: 1.0, 2: 0.86, 4: 0.72, 8: 0.58, 16: 0.42}[place.denominator]
        else:
            yield place, 1.0 if place.denominator == 1 else 0.78 if place.denominator == 2 else 0.55


def _slide(caliper: Caliper, unit: float) -> Group:
    """The sliding jaw, with its vernier or its dial."""
    low, high = _BEAM
    x, end = _slide_at(caliper, unit)
    long = end - x
    items: list[Item] = [
        polygon([*_jaw(x, 1, low)[:-1], (x + 14, low - 8), (x + long, low - 8), (x + long, low)], "outline", "paper"),
        polygon([(x, high), (x, high + 4), (x + long, high + 4), (x + long, high)], "outline", "paper"),
    ]
    if caliper.kind == "decimal":
        cx, cy = x + long / 2 + 2, (low + high) / 2 - 1
        turn = math.radians(90 - 3.6 * float((caliper.reading - caliper.reading // TENTH * TENTH) / THOUSANDTH))
        items += [
            polygon([(x, low), (x, high), (x + long, high), (x + long, low)], "outline", "paper"),
            Circle(cx, cy, 9.5, "outline", "paper"),
            Line(cx, cy, cx + 7.5 * math.cos(turn), cy + 7.5 * math.sin(turn), "mark"),
            Circle(cx, cy, 0.8, "", "ink"),
        ]
        return tuple(items)
    zero = x + _OFFSET
    step = 7 / 128 * unit
    for n in range(LINES + 1) if step > 1.2 else (0, LINES):
        items.append(Line(zero + n * step, low, zero + n * step, low - (4.5 if n in (0, 4, 8) else 3.0), "narrow"))
    left, right = _vernier_at(caliper, unit)
    items.append(polygon([(left, low - 6.5), (right, low - 6.5), (right, low + 8.5), (left, low + 8.5)], "dimension"))
    return tuple(items)


# --- the scale, enlarged --------------------------------------------------------------------------------
def _vernier_enlarged(caliper: Caliper, revealed: bool, few: bool) -> Group:
    """The vernier against the beam."""
    left, low, right, high = _WINDOW
    zero, edge = left + 41.0, low + 18.0
    reading = float(caliper.reading)
    step = 7 / 128 * _LARGE
    items: list[Item] = [
        polygon([(left, low), (right, low), (right, high), (left, high)], "dimension", "paper"),
        Line(left, edge, right, edge, "outline"),
        Line(zero - 14, low, zero - 14, edge, "outline"),
    ]
    first, last = reading + (left + 1 - zero) / _LARGE, reading + (right - 1 - zero) / _LARGE
    for place, tall in _divisions("fraction", first, last):
        x = zero + (float(place) - reading) * _LARGE
        items.append(Line(x, edge, x, edge + 12 * tall, "narrow"))
        if place.denominator in (1, 2, 4) and (not few or place < caliper.reading + Fraction(1, 2)):
            wide = text_width(exact(place), 4.2) / 2 + 1.0
            items.append(Label(min(max(x, left + wide), right - wide), edge + 13.5, exact(place), LETTER))
    for n in range(LINES + 1):
        x = zero + n * step
        items.append(Line(x, edge, x, edge - (8.5 if n in (0, 4, 8) else 6.0), "narrow"))
        if n in (0, 4, 8) or not few and n % 2 == 0:
            items.append(Label(x, edge - 10, str(n), LETTER, "middle", "top"))
    if revealed:
        met = zero + caliper.steps * step
        items.append(Line(met, edge + 5.0, met, edge - 6.0, "mark", True))
        if caliper.steps:
            beam = zero - (reading - float(caliper.beam)) * _LARGE
            items.append(Line(beam, edge + 0.6, beam, edge + 5.0, "mark", True))
    return tuple(items)


def _dial_enlarged(caliper: Caliper, revealed: bool, few: bool) -> Group:
    """The slide's edge on the beam, and the dial."""
    left, low, _, high = _WINDOW
    right, edge, scale = 104.0, low + 14.0, 190.0
    slide = left + 70.0
    reading = float(caliper.reading)
    items: list[Item] = [polygon([(left, low), (right, low), (right, high - 6), (left, high - 6)], "dimension", "paper"),
                         Line(left, edge, slide, edge, "outline")]  # fmt: skip
    for place, tall in _divisions("decimal", reading - (slide - left - 1) / scale, reading):
        x = slide + (float(place) - reading) * scale
        told = revealed and place == caliper.beam
        items.append(Line(x, edge, x, edge + 10 * tall, "mark" if told else "narrow", told))
        if x > left + 4 and (not few or caliper.beam - place < Fraction(15, 100)):
            items.append(Label(min(x, slide - 5.2), edge - 2, exact(place) if place.denominator == 1 else decimal(place, 1), LETTER, "middle", "top"))
    items.append(polygon([(slide, low), (right, low), (right, high - 6), (slide, high - 6)], "outline", "paper"))
    cx, cy, radius = 160.0, 29.0, 20.5
    items.append(Circle(cx, cy, radius, "outline", "paper"))
    for n in range(100):
        c, s = _direction(n)
        inner = radius - (5.0 if n % 10 == 0 else 3.6 if n % 5 == 0 else 2.2)
        items.append(Line(cx + radius * c, cy + radius * s, cx + inner * c, cy + inner * s, "narrow"))
        if n % (25 if few else 10) == 0:
            anchor = "middle" if abs(c) < 0.2 else "start" if c > 0 else "end"
            items.append(Label(cx + (radius + 1.6) * c, cy + (radius + 3.2) * s, str(n), LETTER, anchor, "middle"))
    turn = float((caliper.reading - caliper.reading // TENTH * TENTH) / THOUSANDTH)
    c, s = _direction(turn)
    hand = polygon(
        [(cx + (radius - 2.6) * c, cy + (radius - 2.6) * s), (cx + 1.1 * s, cy - 1.1 * c), (cx - 4 * c, cy - 4 * s), (cx - 1.1 * s, cy + 1.1 * c)],
        "", "accent" if revealed else "ink", revealed,
    )  # fmt: skip
    return (*items, hand, Circle(cx, cy, 1.6, "outline", "paper"))


def _direction(thousandths: float) -> Point:
    """Where on the dial so many thousandths lie: 0 at the top, clockwise."""
    turn = math.radians(90 - 3.6 * thousandths)
    return math.cos(turn), math.sin(turn)
