"""What an end out of square costs: the outside unfolded at the heel, the trim line, and the metal that comes off.

On the left leg B lies above the heel and leg A below it, end 1 at the left, so that the end's edge on
both outer faces is one bent line. On the right the end is looked at, heel at the lower right, with its
highest and its lowest place. What the end is out of square is drawn ``MAGNIFIED`` times.

>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> print(trim_sheet(stock, (Fraction(1, 32), Fraction(-1, 32))).sentence)
Angle 1 1/4 x 1 1/4 x 1/8, the outside unfolded at the heel, end 1 at the left. Leg A: the toe stands out 1/32 (0.031). Leg B: the toe falls back 1/32 (0.031). Opposite senses, a twisted end: 1/16 (0.063) must come off to clean it up. Drawn 6 times as far out of square as it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Polyline, Sheet, polygon
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.squaring import End
from anglelib.lengths import both, decimal
from anglelib.section import Section

WIDTH, HEIGHT = 234.0, 116.0
LETTER = 3.5
MAGNIFIED = 6
HEEL: Point = (58.0, 60.0)
"""Where the heel meets end 1 in the unfolded view."""
FAR = 122.0
"""Where the unfolded view is broken off."""
MOST = 30.0
"""How far a predicted trim is drawn at most [mm]."""


@dataclass(frozen=True)
class Shown:
    """What the picture shows: ``answer``, whether the trim is drawn; ``prediction`` [in], kept as a ghost; ``few`` labels."""

    answer: bool = True
    prediction: Fraction | None = None
    few: bool = False


def trim_of(section: Section, out: tuple[Fraction, Fraction]) -> float:
    """What must come off along the heel of an end whose toes stand out by so much (leg A, leg B) [in]."""
    return End.from_gaps(section, float(out[0]), float(out[1])).trim(section)


def trim_sheet(section: Section, out: tuple[Fraction, Fraction], shown: Shown = Shown()) -> Sheet:
    """The unfolded outside with its trim line, and the end itself."""
    items = (*_unfolded(section, out, shown), *_end_on(section, out, shown))
    return Sheet(WIDTH, HEIGHT, items, "What squaring takes", trim_sentence(section, out, shown))


def _sizes(section: Section) -> tuple[float, float, float, float]:
    return tuple(float(v) for v in (section.leg_a, section.leg_b, section.thickness_a, section.thickness("B")))  # type: ignore[return-value]


def heights(section: Section, out: tuple[Fraction, Fraction]) -> list[tuple[float, Point]]:
    """How far each place of the section's outline stands out of the end [in], lowest first, with its place (y, z)."""
    a, b, _, _ = _sizes(section)
    p, q = float(out[0]) / a, float(out[1]) / b
    return sorted((p * y + q * z, (y, z)) for y, z in section_outline(section))


# --- the outside, unfolded ----------------------------------------------------------------------------
def _unfolded(section: Section, out: tuple[Fraction, Fraction], shown: Shown) -> Group:
    a, b, ta, tb = _sizes(section)
    unit = min(34.0, 40.0 / max(a, b))
    p, q = float(out[0]) / a, float(out[1]) / b

    def at(stands: float, w: float) -> Point:
        """A place that stands out so far, so high over the heel (leg A: below it) [in]."""
        return HEEL[0] - MAGNIFIED * stands * unit, HEEL[1] + w * unit

    toe_b, heel, toe_a = at(q * b, b), at(0, 0), at(p * a, -a)
    places = heights(section, out)
    low, high = places[0][0], places[-1][0]
    items: list[Item] = []
    if shown.answer and high > low:
        x = at(low, 0)[0]
        waste = (toe_b, heel, toe_a, (x, toe_a[1]), (x, toe_b[1]))
        items += [Hatch(waste, 45, 1.8, accent=True)]
    items += [
        Polyline(((FAR, toe_b[1]), toe_b, heel, toe_a, (FAR, toe_a[1])), "outline"),
        Line(*heel, FAR, heel[1], "fold"),
        zigzag(FAR, toe_a[1], toe_b[1]),
        # the end's edge on the inner faces, seen through the metal
        Line(*at(q * b + p * tb, b), *at(q * ta + p * tb, ta), "hidden"),
        Line(*at(q * ta + p * a, -a), *at(q * ta + p * tb, -tb), "hidden"),
    ]
    if shown.prediction is not None:
        ghost = at(high, 0)[0] + min(MAGNIFIED * float(shown.prediction) * unit, MOST)
        items.append(Line(ghost, toe_a[1] - 4, ghost, toe_b[1] + 4, "ghost"))
    if shown.answer:
        x = at(low, 0)[0]
        items.append(Line(x, toe_a[1] - 3, x, toe_b[1] + 3, "mark", True))
        if high > low:
            items += linear_dimension((at(high, 0)[0], toe_a[1] - 2), (x, toe_a[1] - 3), toe_a[1] - 9, trim_text(high - low), letter=LETTER, accent=True)
    items.append(Label(FAR - 22, heel[1] + b * unit * 0.6, "leg B", LETTER, "middle", "middle", halo=True))
    items.append(Label(FAR - 22, heel[1] - a * unit * 0.6, "leg A", LETTER, "middle", "middle", halo=True))
    items.append(Label(FAR + 4, heel[1], "heel", LETTER, "start", "middle"))
    if not shown.few:
        items.append(Label(8, HEIGHT - 6, f"the outside unfolded; end drawn {MAGNIFIED} times as far out", LETTER, "start", "middle"))
    return tuple(items)


def trim_text(trim: float) -> str:
    """A trim in words: as a fraction where it is one, else its decimal alone.

    >>> trim_text(1 / 32), trim_text(0.034375)
    ('1/32 (0.031)', '0.034')
    """
    return both(trim) if abs(trim * 64 - round(trim * 64)) < 1e-6 else decimal(trim)


# --- the end, looked at ---------------------------------------------------------------------------------
def _end_on(section: Section, out: tuple[Fraction, Fraction], shown: Shown) -> Group:
    a, b, _, _ = _sizes(section)
    unit = min(40.0, 50.0 / max(a, b))
    right, low = 208.0, 32.0

    def at(y: float, z: float) -> Point:
        return right - y * unit, low + z * unit

    points = tuple(at(y, z) for y, z in section_outline(section))
    items: list[Item] = [Hatch(points, 45, 2.2), polygon(points, "outline")]
    places = heights(section, out)
    if shown.answer and places[-1][0] > places[0][0]:
        top, foot = at(*places[-1][1]), at(*places[0][1])
        for height, place in places:
            if height > places[-1][0] - 1e-9:
                items.append(Circle(*at(*place), 1.5, "", "accent", True))
            elif height < places[0][0] + 1e-9:
                items.append(Circle(*at(*place), 1.5, "mark", "paper", True))
        items += [*_called(top, "highest", (a, b), at), *_called(foot, "lowest", (a, b), at)]
    if not shown.few:
        items += [
            Label(at(a, 0)[0] - 3, at(0, 0)[1] + 1.8, "A", LETTER, "end", "middle"),
            Label(at(0, 0)[0], at(0, b)[1] + 3, "B", LETTER, "middle", "bottom"),
            Label(154, HEIGHT - 6, "end 1, looked at", LETTER, "start", "middle"),
        ]
    return tuple(items)


def _called(place: Point, name: str, legs: tuple[float, float], at) -> Group:
    """The name of a place of the end, clear of the metal."""
    x, y = place
    corner = at(0, 0)
    if y > corner[1] + 8:  # on leg B
        return (Label(x - 9 if x > corner[0] - 8 else x - 4, y - 4, name, LETTER, "end", "middle"),)
    if x < corner[0] - 8:  # on leg A
        return (Label(x, corner[1] - 4, name, LETTER, "middle", "top"),)
    return (Label(corner[0], corner[1] - 4, f"{name}: heel" if name else "", LETTER, "middle", "top"),)


# --- in words -------------------------------------------------------------------------------------------
def _stands(leg: str, out: Fraction) -> str:
    if not out:
        return f"Leg {leg}: square."
    return f"Leg {leg}: the toe {'stands out' if out > 0 else 'falls back'} {both(abs(out))}."


def trim_sentence(section: Section, out: tuple[Fraction, Fraction], shown: Shown = Shown()) -> str:
    """What the picture shows, in words."""
    words = f"Angle {section.size}, the outside unfolded at the heel, end 1 at the left. {_stands('A', out[0])} {_stands('B', out[1])}"
    if shown.prediction is not None:
        words += f" Your prediction is {both(shown.prediction)}."
    if not shown.answer:
        return f"{words} What must come off is not shown yet."
    trim = trim_of(section, out)
    if trim < 1e-9:
        return f"{words} Nothing has to come off."
    sense = ""
    if out[0] and out[1]:
        sense = "Opposite senses, a twisted end: " if out[0] * out[1] < 0 else "The same sense: "
    return f"{words} {sense}{trim_text(trim)} must come off to clean it up. Drawn {MAGNIFIED} times as far out of square as it is."
