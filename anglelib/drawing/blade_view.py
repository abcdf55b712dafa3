"""The blade: its teeth set to both sides make the kerf; how many of them are in the metal at once.

>>> blade_sheet(Blade(Fraction(35, 1000), Fraction(12, 1000))).sentence.split(". ")[-1]
'The slot they cut, the kerf, is 0.059 wide.'
>>> teeth_sheet(Teeth(Fraction(1, 8), 14)).sentence.split(". ")[-1]
'A blade of 14 teeth to the inch has 1.75 of them in the metal flat, and 2.47 heel up.'
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi, sin

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Polyline, Sheet, polygon
from anglelib.geometry.lazy import formulas
from anglelib.lengths import decimal, exact

WIDTH, HEIGHT = 220.0, 92.0
LETTER = 3.5
UNIT = 700.0
"""Millimetres of paper an inch, across the blade."""
TEETH_UNIT = 190.0


# --- gauge and set --------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Blade:
    """A blade: the thickness of its back (its gauge), and the set of its teeth to each side [in]."""

    gauge: Fraction
    set: Fraction

    @property
    def kerf(self) -> Fraction:
        """Width of the slot it cuts [in]."""
        return formulas().kerf_of_blade(g_b=self.gauge, s_t=self.set)


def blade_sheet(blade: Blade, *, answer: bool = True, prediction: Fraction | None = None, few: bool = False) -> Sheet:
    """The blade seen from in front, its teeth coming towards the viewer, in the slot that it cuts."""
    middle, gauge, kerf = 100.0, float(blade.gauge) * UNIT, float(blade.kerf) * UNIT
    top, metal, foot = 80.0, 56.0, 16.0
    items: list[Item] = []
    for side in (-1, 1):
        wall, far = middle + side * kerf / 2, middle + side * 62
        if answer:
            left, right = sorted((wall, far))
            items += [Hatch(((left, foot), (right, foot), (right, metal), (left, metal)), 45, 3.5)]
            items += [Line(wall, foot, wall, metal, "outline"), Line(wall, metal, far, metal, "outline")]
    items += _teeth(middle, gauge, float(blade.set) * UNIT, top, foot)
    items += linear_dimension((middle - gauge / 2, top), (middle + gauge / 2, top), top + 3.5, f"gauge {decimal(blade.gauge)}", letter=LETTER)
    if blade.set:
        low = foot + 14
        text = f"set {decimal(blade.set)}"
        items += [Line(middle + gauge / 2, low, middle + gauge / 2, metal + 12, "dimension")]
        items += linear_dimension((middle + gauge / 2, metal + 10), (middle + kerf / 2, metal + 10), metal + 10, text, letter=LETTER, bare=True)
        items += [Line(middle + kerf / 2, metal, middle + kerf / 2, metal + 12, "dimension")]
    if answer:
        items += linear_dimension(
            (middle - kerf / 2, foot), (middle + kerf / 2, foot), foot - 9, f"kerf {decimal(blade.kerf)}", letter=LETTER, accent=True
        )
    if prediction is not None:
        half = min(float(prediction) * UNIT / 2, 60)
        items += [Line(middle + side * half, foot, middle + side * half, metal, "ghost") for side in (-1, 1)]
        items.append(Label(14, 22, f"you: {decimal(prediction)}", LETTER, "start", "middle", halo=True))
    if answer and not few:
        items.append(Label(170, 48, "metal", LETTER, "start", "middle"))
    return Sheet(WIDTH, HEIGHT, tuple(items), "Gauge and set", blade_sentence(blade, answer, prediction))


def _teeth(x: float, gauge: float, out: float, top: float, foot: float) -> Group:
    """The blade's back, and two teeth one behind the other, bent to either side."""
    half, bend = gauge / 2, 38.0
    behind = polygon(((x - half, bend), (x - half - out, foot), (x - out + half * 0.9, foot), (x + half, bend)), "narrow", "paper")
    front = polygon(((x - half, bend), (x + out - half * 0.9, foot), (x + half + out, foot), (x + half, bend)), "outline", "paper")
    back = Polyline(((x - half, bend), (x - half, top), (x + half, top), (x + half, bend)), "outline")
    return (
        behind,
        front,
        polygon(((x - half, bend), (x - half, top), (x + half, top), (x + half, bend)), "", "paper"),
        back,
        Line(x - half, bend, x + half, bend, "tangent"),
    )


def blade_sentence(blade: Blade, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    words = (
        f"A saw blade from in front: its back is {decimal(blade.gauge)} thick, and its teeth are set {decimal(blade.set)} out, one to "
        "the left, the next to the right."
    )
    if prediction is not None:
        words += f" Your prediction for the kerf is {decimal(prediction)}."
    return f"{words} The slot they cut, the kerf, is {decimal(blade.kerf)} wide." if answer else f"{words} The slot is not shown yet."


# --- a test cut -----------------------------------------------------------------------------------------
def test_cut_sheet(before: Fraction, pieces: tuple[Fraction, Fraction]) -> Sheet:
    """A scrap before a test cut and its two pieces after it, each with the caliper's reading; the slot is not named."""
    left, long, high = 34.0, 140.0, 14.0
    gap = 7.0  # drawn wider than it is, so that it is seen
    one = long * float(pieces[0] / before) - gap / 2
    two = long - one - gap
    items: list[Item] = []
    for low, stretches in ((62.0, ((left, long),)), (18.0, ((left, one), (left + one + gap, two)))):
        for x, wide in stretches:
            items.append(polygon(((x, low), (x + wide, low), (x + wide, low + high), (x, low + high)), "outline"))
            items.append(Line(x, low + 3, x + wide, low + 3, "narrow"))  # the leg's inner face, behind its thickness
    items += linear_dimension((left, 62), (left + long, 62), 53, decimal(before), letter=LETTER)
    items += linear_dimension((left, 18), (left + one, 18), 9, decimal(pieces[0]), letter=LETTER)
    items += linear_dimension((left + one + gap, 18), (left + long, 18), 9, decimal(pieces[1]), letter=LETTER)
    items.append(Label(left + one + gap / 2, 36, "?", 5.0, "middle", "bottom", accent=True))
    items += [Label(left - 4, 69, "before", LETTER, "end", "middle"), Label(left - 4, 25, "after", LETTER, "end", "middle")]
    sentence = (
        f"A piece of scrap by the caliper: {decimal(before)} long before a test cut; after it two pieces, {decimal(pieces[0])} and {decimal(pieces[1])} long. "
        "The slot between them is drawn wider than it is."
    )
    return Sheet(WIDTH, HEIGHT, tuple(items), "A test cut", sentence)


test_cut_sheet.__test__ = False  # type: ignore[attr-defined]


# --- teeth in the metal ---------------------------------------------------------------------------------
@dataclass(frozen=True)
class Teeth:
    """A leg's thickness [in] and a blade's teeth to the inch."""

    thickness: Fraction
    per_inch: int

    @property
    def heel_up(self) -> float:
        """Metal in front of the blade where the angle stands heel up on both toes, legs alike [in]."""
        return formulas().heel_up_metal(t=float(self.thickness), gamma=45.0)

    def in_metal(self, metal: float) -> float:
        """Teeth that are in so much metal at once."""
        return float(metal) * self.per_inch


def teeth_sheet(teeth: Teeth, *, answer: bool = True, few: bool = False) -> Sheet:
    """A leg lying flat and a leg sloping heel up, each with the same blade through it."""
    flat, sloping = float(teeth.thickness), teeth.heel_up
    items: list[Item] = []
    for x, metal, slope, title in ((58.0, flat, 0.0, "leg flat on the table"), (160.0, sloping, pi / 4, "heel up, on both toes")):
        items += _leg(x, flat * TEETH_UNIT, slope)
        items += _blade(x, teeth.per_inch)
        items.append(Label(x, HEIGHT - 5, title, LETTER, "middle", "middle"))
        high = metal * TEETH_UNIT / 2
        if answer:
            dimension = linear_dimension((x + 4, 42 - high), (x + 4, 42 + high), x + 22, "", "y", letter=LETTER, accent=True)
            items += [i for i in dimension if not isinstance(i, Label)]
            items.append(Label(x + 24.5, 42, decimal(metal), LETTER, "start", "middle", halo=True, accent=True))
            many = teeth.in_metal(metal)
            verdict = f"{many:.2f} teeth" + (": TOO FEW" if many < 2 else "")
            items.append(Label(x, 3, verdict, LETTER, "middle"))
    if not few:
        items.append(Label(4, 42, f"{exact(teeth.thickness)} thick", LETTER, "start", "middle", halo=True))
    return Sheet(WIDTH, HEIGHT, tuple(items), "Teeth in the metal", teeth_sentence(teeth, answer))


def _leg(x: float, thick: float, slope: float) -> Group:
    """A piece of a leg through the blade's middle, hatched, its ends broken off."""
    long, (c, s) = 27.0, (cos(slope), sin(slope))

    def at(u: float, v: float) -> tuple[float, float]:
        return x + u * c - v * s, 42 + u * s + v * c

    corners = (at(-long, -thick / 2), at(long, -thick / 2), at(long, thick / 2), at(-long, thick / 2))
    return (
        Hatch(corners, 45 if not slope else 0, 3.0),
        Line(*corners[0], *corners[1], "outline"),
        Line(*corners[3], *corners[2], "outline"),
        Line(*corners[0], *corners[3], "break"),
        Line(*corners[1], *corners[2], "break"),
    )


def _blade(x: float, per_inch: int) -> Group:
    """A band blade seen from the side, its teeth at the left, a gullet behind each."""
    pitch = TEETH_UNIT / per_inch
    deep, low, high = min(0.45 * pitch, 7.0), 12.0, 78.0
    left = x - 4
    points: list[tuple[float, float]] = [(x + 5, low), (left + deep, low)]
    y = 42 - pitch * int((42 - low) / pitch)
    while y < high - 0.2 * pitch:
        points += [(left, y), (left + deep, y + 0.25 * pitch), (left + deep, y + 0.65 * pitch)]
        y += pitch
    points = [p for p in points if p[1] <= high] + [(left + deep, high), (x + 5, high)]
    return (polygon(points, "outline", "paper"),)


def teeth_sentence(teeth: Teeth, answer: bool = True) -> str:
    """What the picture shows, in words."""
    words = f"The same blade in a leg {exact(teeth.thickness)} thick: at the left the leg lies flat, at the right it slopes at 45 degrees, heel up."
    if not answer:
        return f"{words} How much metal the blade sees there is not shown yet."
    return (
        f"{words} Flat the blade sees {decimal(teeth.thickness)} of metal, heel up {decimal(teeth.heel_up)}. A blade of {teeth.per_inch} teeth to "
        f"the inch has {teeth.in_metal(float(teeth.thickness)):.2f} of them in the metal flat, and {teeth.in_metal(teeth.heel_up):.2f} heel up."
    )
