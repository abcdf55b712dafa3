"""Pairs and look-alikes in space: what was made beside what was wanted, four descriptions of one taper, two pieces to compare.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> bracket = Part("C1L", "Door hinge bracket", Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")])
>>> verdict(bracket, image_of(bracket)), verdict(bracket, bracket.turned())
('A PAIR', 'TWO OF ONE HAND')
>>> [name for name, _ in four_ways(bracket)]
['leg A, end 1', 'leg A, end 2', 'leg B, end 1', 'leg B, end 2']
"""

from __future__ import annotations

from dataclasses import replace

from anglelib.drawing.hands import LETTER, features, ghost, image_of, mirror_plane, named, posed, unit_for
from anglelib.drawing.pose import END_FOR_END, Pose
from anglelib.drawing.sheet import Item, Label, Sheet
from anglelib.part import Part

WIDTH, HEIGHT = 234.0, 122.0
_MIDDLES = ((60.0, 62.0), (174.0, 62.0))


def bare(part: Part) -> Part:
    """The part's metal without what the plans claim about it."""
    return replace(part, hand=None, mirror_of="", note="")


# --- a pair ---------------------------------------------------------------------------------------------
def verdict(part: Part, made: Part) -> str:
    """What a part and what was made as its other hand are together."""
    if made.same_metal_as(image_of(part)):
        return "A PAIR"
    return "TWO OF ONE HAND" if made.same_metal_as(bare(part)) else "NOT THE OTHER HAND"


def pair_sheet(part: Part, made: Part, turn: float = 0.0, *, revealed: bool = True, few: bool = False) -> Sheet:
    """A part, and behind the mirror what was made as its other hand, turned so far; what was wanted is dotted."""
    unit = unit_for((part,), 43.0)
    letters = "AB" if few else "AB12"
    items: list[Item] = [*mirror_plane(WIDTH / 2, _MIDDLES[0][1])]
    items += posed(Pose(part, unit, middle=_MIDDLES[0]), letters)
    if revealed:
        items += ghost(Pose(part, unit, mirrored=True, middle=_MIDDLES[1]))
        items += posed(Pose(made, unit, turn=turn, middle=_MIDDLES[1]), letters)
        items.append(Label(WIDTH / 2, 5, verdict(part, made), LETTER, accent=True))
    else:
        items.append(Label(*_MIDDLES[1], "?", 7.0, "middle", "middle"))
    items.append(Label(_MIDDLES[0][0], HEIGHT - 5, "the part", LETTER, "middle", "top"))
    words = "made as its other hand" + ("" if few or not revealed else "; wanted: dotted")
    items.append(Label(_MIDDLES[1][0], HEIGHT - 5, words, LETTER, "middle", "top"))
    return Sheet(WIDTH, HEIGHT, tuple(items), "A part and its other hand", _pair_sentence(part, made, turn, revealed))


def _pair_sentence(part: Part, made: Part, turn: float, revealed: bool) -> str:
    words = f"{named(part)}. {features(part)}"
    if not revealed:
        return f"{words} Beside it, behind a mirror, there is room for its other hand."
    turned = f", turned {turn:g} degrees end for end" if turn else ""
    return (
        f"{words} Behind the mirror the other hand is dotted, as it is wanted. What was made lies over it{turned}. {features(made)} "
        f"Together they are: {verdict(part, made).lower()}."
    )


# --- four descriptions -------------------------------------------------------------------------------------
def four_ways(part: Part) -> tuple[tuple[str, Part], ...]:
    """The part's first taper on either leg at either end, all else left out."""
    taper = part.tapers[0]
    plain = replace(bare(part), holes=(), corners=(), copes=())
    return tuple((f"leg {leg}, end {end}", replace(plain, tapers=(replace(taper, leg=leg, end=end),))) for leg in "AB" for end in (1, 2))


def metals(parts: tuple[Part, ...]) -> tuple[str, ...]:
    """A letter for each part: the same for the same metal."""
    found: list[Part] = []
    letters = []
    for part in parts:
        at = next((i for i, known in enumerate(found) if known.same_metal_as(part)), len(found))
        if at == len(found):
            found.append(part)
        letters.append("PQRS"[at])
    return tuple(letters)


def four_sheet(part: Part, turn: float = 0.0, *, revealed: bool = True, few: bool = False) -> Sheet:
    """Four descriptions in a square, those of leg B turned so far; ``revealed`` says which are one metal."""
    ways = four_ways(part)
    letters = metals(tuple(way for _, way in ways))
    unit = unit_for((part,), 33.0)
    items: list[Item] = []
    for place, ((name, way), letter) in enumerate(zip(ways, letters, strict=True)):
        row, column = divmod(place, 2)
        middle = (60.0 + 114.0 * column, 124.0 - 83.0 * row)
        items += posed(Pose(way, unit, turn=turn if row else 0.0, middle=middle), "" if few else "AB1")
        words = f"{name}: metal {letter}" if revealed else name
        items.append(Label(middle[0] - 46, middle[1] + 36, words, LETTER, "start", accent=revealed))
    return Sheet(WIDTH, 168, tuple(items), "One taper, four descriptions", _four_sentence(part, turn, revealed, letters))


def _four_sentence(part: Part, turn: float, revealed: bool, letters: tuple[str, ...]) -> str:
    legs = "equal" if part.section.equal_legs else "unequal"
    words = f"The same taper on either leg at either end of an angle with {legs} legs: four pictures"
    words += f", the two of leg B turned {turn:g} degrees end for end." if turn else "."
    if not revealed:
        return words
    said = ", ".join(f"{name} is metal {letter}" for (name, _), letter in zip(four_ways(part), letters, strict=True))
    return f"{words} {said[0].upper()}{said[1:]}: {len(set(letters))} different parts."


# --- to compare -------------------------------------------------------------------------------------------
def one_sheet(part: Part) -> Sheet:
    """A part alone, its legs and ends named."""
    unit = unit_for((part,), 42.0)
    return Sheet(124, 92, posed(Pose(part, unit, middle=(60, 46))), "A part", f"{named(part)} in space. {features(part)}")


def two_sheet(p: Part, q: Part) -> Sheet:
    """Two pieces side by side, P and Q, without the names of their legs: each lies as it was picked up."""
    unit = unit_for((p, q), 44.0)
    items: list[Item] = []
    for name, part, x in (("P", p, 56.0), ("Q", q, 168.0)):
        items += posed(Pose(part, unit, middle=(x, 48)), "")
        items.append(Label(x - 46, 92, name, 5.0, "start", "top"))
    words = "; ".join(f"{name}: {_lying(part)}" for name, part in (("P", p), ("Q", q)))
    return Sheet(WIDTH, 98, tuple(items), "Two pieces", f"Two pieces of equal-legged angle lie alike, one leg standing at the back. {words}.")


def _lying(part: Part) -> str:
    """Where the tapers of a piece are as it lies."""
    places = [f"the {'standing' if t.leg == 'A' else 'lying'} leg tapered at the {'left' if t.end == 1 else 'right'} end" for t in part.tapers]
    return " and ".join(places)


__all__ = ("END_FOR_END", "bare", "four_sheet", "four_ways", "image_of", "metals", "one_sheet", "pair_sheet", "two_sheet", "verdict")
