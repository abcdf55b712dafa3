"""A leg's outer face with its holes and running dimensions: every figure is from end 1, the datum.

>>> from anglelib.section import Section
>>> from anglelib.part import Hole
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> bar = Part("A3", "Floor bar", stock, "6061-T6", "17 1/4", holes=[Hole("A", "1/2", "3/8", "1/8"), Hole("A", "16 3/4", "3/8", "1/8")])
>>> print(running_sheet(bar).sentence)
Leg A of the floor bar, outer face, end 1 (the datum) at the left. Running dimensions from end 1: hole P 1/2 (0.500), hole Q 16 3/4 (16.750), end 2 17 1/4 (17.250).
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from anglelib.drawing.dimensions import Stop, linear_dimension, running_dimensions
from anglelib.drawing.face import Axis, Face
from anglelib.drawing.outer_view import direction, features_along, outer_view
from anglelib.drawing.sheet import Group, Item, Label, Sheet
from anglelib.drawing.symbols import datum_sign
from anglelib.lengths import both, exact
from anglelib.part import Hole, Part

WIDTH, HEIGHT = 234.0, 77.0
LETTER = 3.5
LEFT, RIGHT = 44.0, 204.0
HEEL = 61.0
LETTERS = "PQRSTUVW"


def lettered(part: Part, leg: str = "A") -> tuple[tuple[str, Hole], ...]:
    """The holes of a leg with their letters, from end 1 on."""
    holes = sorted(part.holes_in(leg), key=lambda hole: hole.x)
    return tuple(zip(LETTERS, holes))


def running_sheet(part: Part, leg: str = "A", span: tuple[Fraction, Fraction] | None = None, few: bool = False) -> Sheet:
    """The face with its running dimensions; ``span`` is a distance drawn in the accent, from one x to another [in].

    ``few``: at most seven labels, for a projector.
    """
    say = exact if few else both
    bare = replace(part, holes=part.holes_in(leg), mirror_of="")
    width = float(part.section.leg(leg))
    unit = min(30.0 / width, 24.0)
    features = features_along(bare, (leg,))
    axis = Axis.fit(float(part.length), features, RIGHT - LEFT, unit, LEFT)
    while axis.right > RIGHT + 0.1:  # the features alone are too long for this scale
        unit *= 0.9
        axis = Axis.fit(float(part.length), features, RIGHT - LEFT, unit, LEFT)
    face = Face(axis, HEEL, direction(leg))
    items: list[Item] = [*outer_view(bare, leg, axis, HEEL, dimensions=False)]
    low = HEEL - width * unit
    stops = [Stop(axis.at(float(hole.x)), face.h(float(hole.y)) - 2.4, say(hole.x)) for _, hole in lettered(part, leg)]
    stops.append(Stop(axis.right, low, say(part.length)))
    items += running_dimensions(LEFT, stops, low - 8, letter=LETTER, low=20, high=WIDTH - 8, foot=low)
    items += _names(part, leg, face, axis, low, few)
    if span is not None:
        one, two = sorted(span)
        text = say(two - one)
        start, end = axis.at(float(one)), axis.at(float(two))
        side = "end" if end < WIDTH - 50 else "start"
        items += linear_dimension((start, HEEL), (end, HEEL), HEEL + 7, text, letter=LETTER, outside=side, accent=True)
    return Sheet(WIDTH, HEIGHT, tuple(items), "Running dimensions", running_sentence(part, leg, span))


def _names(part: Part, leg: str, face: Face, axis: Axis, low: float, few: bool) -> Group:
    items: list[Item] = [*datum_sign(LEFT, low - 8, "end 1")]
    if not few:
        items.append(Label(axis.right + 3, (HEEL + low) / 2, "end 2", LETTER, "start", "middle"))
        items.append(Label(LEFT - 3, HEEL, "heel", LETTER, "end", "middle"))
    for letter, hole in lettered(part, leg):
        x, y = face.at(float(hole.x), float(hole.y))
        items.append(Label(x + 3.4, y + 1.6, letter, LETTER, "start", "bottom", halo=True))
    return tuple(items)


def called(part: Part) -> str:
    """The part's name inside a sentence, without its hand.

    >>> from anglelib.section import Section
    >>> called(Part("E2L", "Step bracket, left", Section(1, 1, "1/8"), "6061-T6", 4))
    'step bracket'
    """
    return (part.name[:1].lower() + part.name[1:]).partition(",")[0]


def running_sentence(part: Part, leg: str = "A", span: tuple[Fraction, Fraction] | None = None) -> str:
    """What the drawing shows, in words."""
    rows = [f"hole {letter} {both(hole.x)}" for letter, hole in lettered(part, leg)] + [f"end 2 {both(part.length)}"]
    words = f"Leg {leg} of the {called(part)}, outer face, end 1 (the datum) at the left. Running dimensions from end 1: {', '.join(rows)}."
    if span is not None:
        one, two = sorted(span)
        words += f" From {both(one)} to {both(two)} it is {both(two - one)}."
    return words
