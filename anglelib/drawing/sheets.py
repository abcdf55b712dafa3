"""Whole sheets of a part: one face for a lesson, or all its views for the bench.

Each picks the largest usual scale at which its views and figures fit, and says it.

>>> from anglelib.section import Section
>>> from anglelib.part import Part, Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1", "Floor cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> outer_sheet(cleat, "A").sentence
'Part A1, leg A, outer face, seen from outside, end 1 (the datum) at the left, heel at the top: 3/4 in. wide, 2 1/8 long; taper at end 1: run 1 1/4, width left 3/8, 16.7° from the heel, 73.3° from square.'
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from anglelib.drawing.checks import bounds
from anglelib.drawing.face import Axis
from anglelib.drawing.frame import EDGE, SCALES, footer, paragraph, scale_text
from anglelib.drawing.inner_view import inner_view
from anglelib.drawing.letters import text_width
from anglelib.drawing.outer_view import (
    OVERRUN,
    direction,
    features_along,
    name_of,
    outer_view,
    taper_note,
)
from anglelib.drawing.outline import section_outline
from anglelib.drawing.pictorial import pictorial
from anglelib.drawing.sheet import Group, Item, Label, Line, Sheet, move, polygon
from anglelib.drawing.solid_lines import Camera
from anglelib.drawing.style import LETTERS
from anglelib.drawing.symbols import check_bar
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.part import Part

FOOT = 12.0
"""Height of a sheet's foot [mm]."""


def _margins(part: Part, legs: str, letter: float) -> tuple[float, float]:
    """Room for the figures left and right of a view [mm]."""
    left = [text_width("datum", letter) + 3.4 * letter]
    right = [text_width("heel", letter)]
    for leg in legs:
        right.append(text_width(f"{both(part.section.leg(leg))}, toe", letter))
        right += [text_width(both(hole.y), letter) for hole in part.holes_in(leg)]
        for line in taper_lines(part):
            if line.leg == leg and line.width_left:
                (left if line.end == 1 else right).append(text_width(both(line.width_left), letter) + 12)
    return EDGE + max(left) + 2, EDGE + max(right) + 14


def _fit(
    build: Callable[[Fraction], Group | None], width: float, low: float, high: float, least: Fraction = Fraction(1, 5)
) -> tuple[Fraction, Group] | None:
    """The view at the largest scale that fits between heights ``low`` and ``high``, in their middle; None if none does."""
    for scale in SCALES[: SCALES.index(least) + 1]:
        items = build(scale)
        if items is None:
            continue
        left, bottom, right, top = bounds(items)
        if left >= 1 and right <= width - 1 and top - bottom <= high - low:
            return scale, move(items, 0, max(low - bottom, min((low + high - bottom - top) / 2, high - top)))
    return None


def _fit_growing(
    build: Callable[[Fraction], Group | None], width: float, height: float, low: float, used: float
) -> tuple[float, Fraction, Group]:
    """The same on a sheet that grows until a legible scale fits: (height, scale, view). ``used``: the title's height."""
    for least in (Fraction(1, 5), SCALES[-1]):
        tall = height
        for _ in range(6):
            found = _fit(build, width, low, tall - used, least)
            if found is not None:
                return tall, *found
            tall *= 1.25
    raise ValueError("the part fits on no sheet: give the sheet more width")


def _axis(part: Part, legs: str, scale: Fraction, left: float, room: float, extra: float) -> Axis | None:
    """The axis for a scale, None if the part does not fit even when it is broken."""
    unit = 25.4 * float(scale)
    axis = Axis.fit(float(part.length), features_along(part, tuple(legs)), room - extra * unit, unit, left)
    return axis if axis.right - axis.left <= room - extra * unit + 0.01 else None


def outer_sheet(
    part: Part,
    leg: str,
    *,
    stage: str = "finished",
    shop: Shop | None = None,
    width: float = 220,
    height: float = 116,
    letter: float = 3.5,
    notes: bool = True,
) -> Sheet:
    """One leg's outer face, 'finished' or as a 'layout'."""
    shop = shop or Shop()
    left, right = _margins(part, leg, letter)
    extra = float(shop.allowance + shop.kerf) + OVERRUN if stage == "layout" else 0.0
    room = (EDGE, width - EDGE)

    def build(scale: Fraction) -> Group | None:
        axis = _axis(part, leg, scale, left, width - left - right, extra)
        if axis is None:
            return None
        return outer_view(part, leg, axis, 0.0, stage=stage, shop=shop, letter=letter, room=room)

    lines = [taper_note(line) for line in taper_lines(part) if line.leg == leg]
    title = paragraph(EDGE, -4, [name_of(leg), *(lines if notes else ())], width - 2 * EDGE, letter)
    height, scale, view = _fit_growing(build, width, height, FOOT, 3 - bounds(title)[1])
    title = move(title, 0, height)
    items = title + view + footer(width, _foot_words(part, scale, stage, letter), letter=_small(letter))
    return Sheet(width, height, items, f"Part {part.id}, {name_of(leg)}", face_sentence(part, leg))


def inner_sheet(
    part: Part,
    leg: str,
    *,
    stage: str = "layout",
    shop: Shop | None = None,
    width: float = 220,
    height: float = 150,
    letter: float = 3.5,
    shown: float | None = 0.4,
    straight_wrap: bool = False,
    notes: bool = True,
) -> Sheet:
    """The inside of a leg over the unrolled fillet and the other leg's inner face."""
    shop = shop or Shop()
    left = EDGE + text_width("datum", letter) + 3.4 * letter + 2
    right = EDGE + text_width("leg A, inner face", letter) + 5
    room = (EDGE, width - EDGE)

    def build(scale: Fraction) -> Group | None:
        axis = _axis(part, leg, scale, left, width - left - right, 0.0)
        if axis is None:
            return None
        return inner_view(part, leg, axis, 0.0, stage=stage, shop=shop, shown=shown, letter=letter, straight_wrap=straight_wrap, room=room)

    lines = [taper_note(line) for line in taper_lines(part) if line.leg == leg]
    title = paragraph(EDGE, -4, [name_of(leg, True), *(lines if notes else ())], width - 2 * EDGE, letter)
    height, scale, view = _fit_growing(build, width, height, FOOT, 3 - bounds(title)[1])
    title = move(title, 0, height)
    items = title + view + footer(width, _foot_words(part, scale, stage, letter), letter=_small(letter))
    return Sheet(width, height, items, f"Part {part.id}, {name_of(leg, True)}", inner_sentence(part, leg, shown))


def _small(letter: float) -> float:
    """The next smaller letter height for the foot of a sheet [mm]."""
    return max([height for height in LETTERS if height < letter], default=2.5)


def _foot_words(part: Part, scale: Fraction, stage: str, letter: float = 3.5) -> str:
    words = f"part {part.id}, scale {scale_text(scale)}, inches"
    if letter < 5:
        words += ", all lengths from the datum, end 1"
    return words + (", before the saw" if stage == "layout" else "")


# --- all views ---------------------------------------------------------------------------------------
_LEFT_COLUMN = 108.0
_BETWEEN = 8.0
"""Paper between the captions of the two faces [mm]."""


def part_sheet(
    part: Part,
    *,
    stage: str = "finished",
    shop: Shop | None = None,
    width: float = 297,
    height: float = 210,
    letter: float = 3.5,
) -> Sheet:
    """All that is needed to make a part, in third-angle projection.

    Leg A's outer face is the front view, leg B's the view from above, the view from end 1 stands at
    the left; the part in space fills the corner. At 1:1 there is a check bar.
    """
    shop = shop or Shop()
    extra = float(shop.allowance + shop.kerf) + OVERRUN if stage == "layout" else 0.0
    right = max(_margins(part, leg, letter)[1] for leg in "AB")
    below = 2.1 * letter
    above = below + (3.7 * letter if stage == "layout" else 0.0)
    gap = below + above + _BETWEEN

    def build(scale: Fraction) -> Group | None:
        unit = 25.4 * float(scale)
        if float(part.section.leg_b) * unit > _LEFT_COLUMN - 61 - EDGE:
            return None
        axis = _axis(part, "AB", scale, _LEFT_COLUMN, width - _LEFT_COLUMN - right, extra)
        if axis is None:
            return None
        room = (_LEFT_COLUMN - 12, width - EDGE)
        how = {"stage": stage, "shop": shop, "letter": letter, "room": room}
        items = outer_view(part, "A", axis, 0.0, **how) + outer_view(part, "B", axis, gap, notes=False, **how)
        items += (
            Label(axis.left, gap - below + 0.35 * letter, name_of("B"), letter, "start"),
            Label(axis.left, above - letter, name_of("A"), letter, "start"),
        )
        return items + end_view(part, unit, (_LEFT_COLUMN - 53, 0.0), letter)

    title = _title_block(part, width, letter)
    used = 3 - bounds(title)[1]
    # below is room for the check bars of a sheet at 1:1
    height, scale, views = _fit_growing(build, width, height, FOOT + 7, used)
    title, top = move(title, 0, height), height - used
    items = title + views + footer(width, _foot_words(part, scale, stage, letter), letter=_small(letter))
    if scale == 1:
        items += check_bar(EDGE, FOOT + 0.5, one_row=True)
    items += _corner_pictorial(part, views, top, _LEFT_COLUMN + EDGE - _margins(part, "B", letter)[0] - 4)
    sentence = f"{face_sentence(part, 'A')[:-1]}. {face_sentence(part, 'B')}"
    return Sheet(width, height, items, f"Part {part.id} {part.name}", sentence)


def _corner_pictorial(part: Part, views: Group, top: float, wide: float) -> Group:
    """The part in space, in the corner above the view from end 1."""
    seen_from_end = [item for item in views if isinstance(item, Label) and item.text == "seen from end 1"]
    low = seen_from_end[0].y + 10
    room = (wide - EDGE, top - low - 2)
    if room[1] < 18:
        return ()
    camera = Camera()
    for scale in SCALES:
        unit = 25.4 * float(scale)
        axis = Axis.fit(float(part.length), features_along(part), room[0] - float(part.section.leg_b) * unit / 2, unit)
        shown = pictorial(part, axis, camera=camera, hidden=False)
        left, bottom, right, high = bounds(shown)
        if right - left <= room[0] and high - bottom <= room[1]:
            return move(shown, EDGE - left, low + (room[1] - high - bottom) / 2)
    return ()


def end_view(part: Part, unit: float, heel: tuple[float, float], letter: float) -> Group:
    """The part seen from end 1: leg A hangs from the heel, leg B runs to the left."""
    x, y = heel
    items: list[Item] = [polygon([(x - z * unit, y - w * unit) for w, z in section_outline(part.section)], "outline")]
    for line in taper_lines(part):
        if line.end == 1 and line.width_left:  # where the end's flat stops and the taper begins
            s = float(line.width_left)
            t = float(part.section.thickness(line.leg))
            ends = ((0.0, s), (t, s)) if line.leg == "A" else ((s, 0.0), (s, t))
            (z1, w1), (z2, w2) = ends
            items.append(Line(x - z1 * unit, y - w1 * unit, x - z2 * unit, y - w2 * unit, "outline"))
    items.append(Label(x, y + 0.7 * letter, "seen from end 1", letter, "end"))
    items.append(Label(x - 0.5 * float(part.section.thickness_a) * unit, y - float(part.section.leg_a) * unit - letter, "A", letter, "middle", "top"))  # fmt: skip
    items.append(Label(x - float(part.section.leg_b) * unit - letter, y - 0.5 * float(part.section.thickness("B")) * unit, "B", letter, "end", "middle"))  # fmt: skip
    return tuple(items)


def _title_block(part: Part, width: float, letter: float) -> Group:
    """Who the part is, what it is made of, and its tapers and holes in words, from y = 0 down."""
    stock = f"angle {part.section.size}" + (f", fillet {exact(part.section.fillet)}" if part.section.fillet else ", no fillet")
    facts = [stock, part.alloy, f"length {both(part.length)}", f"quantity {part.quantity}"]
    if part.hand:
        facts.append(f"hand: {part.hand}" + (f", mirror image of {part.mirror_of}" if part.mirror_of else ""))
    if part.one_piece:
        facts.append("one piece")
    lines = ["; ".join(facts)]
    lines += [f"leg {line.leg}: {taper_note(line)}" for line in taper_lines(part)]
    lines += _holes_in_words(part)
    room = width - 2 * EDGE
    big = 5.0
    return paragraph(EDGE, -5, f"{part.id}  {part.name}", room, big) + paragraph(EDGE, -5 - 1.75 * big, lines, room, letter)


def _holes_in_words(part: Part) -> list[str]:
    """One line for all holes, by the fastener's diameter."""
    sizes = sorted({(hole.diameter, hole.flush) for hole in part.holes})
    words = []
    for diameter, flush in sizes:
        count = sum((hole.diameter, hole.flush) == (diameter, flush) for hole in part.holes)
        words.append(f"{count} for {exact(diameter)} fasteners" + (" with flush heads" if flush else ""))
    return [f"located holes: {', '.join(words)}; hole and pilot sizes are printed apart"] if words else []


# --- in words ------------------------------------------------------------------------------------------
def face_sentence(part: Part, leg: str) -> str:
    """What an outer view shows, in words with its numbers."""
    where = "top" if direction(leg) < 0 else "bottom"
    words = [
        f"Part {part.id}, {name_of(leg)}, end 1 (the datum) at the left, heel at the {where}: "
        f"{exact(part.section.leg(leg))} in. wide, {exact(part.length)} long"
    ]
    words += [taper_note(line) for line in taper_lines(part) if line.leg == leg]
    words += [
        f"hole for a {exact(hole.diameter)} fastener {both(hole.x)} from the datum and {both(hole.y)} from the heel"
        for hole in part.holes_in(leg)
    ]
    words += [
        f"cope at end {cope.end}: {exact(cope.length)} long, width left {exact(cope.width_left)}" for cope in part.copes if cope.leg == leg
    ]
    words += [f"corner at end {corner.end} rounded to radius {exact(corner.radius)}" for corner in part.corners if corner.leg == leg]
    return "; ".join(words) + "."


def inner_sentence(part: Part, leg: str, shown: float | None = None) -> str:
    """What the inside view shows, in words with its marks."""
    where = "bottom" if direction(leg, True) > 0 else "top"
    words = [
        f"Part {part.id}, {name_of(leg, True)}, end 1 (the datum) at the left, heel at the {where}; beside it the fillet "
        "unrolled and the other leg's inner face"
    ]
    for line in taper_lines(part):
        if line.leg != leg:
            continue
        words.append(taper_note(line))
        if line.first_flat is not None:
            words.append(f"first flat mark {both(line.first_flat, 64, 'down')} from end {line.end}")
        if line.vertex_projection is not None:
            words.append(f"line square across leg {line.other}'s inner face {both(line.vertex_projection, 64, 'down')} from end {line.end}")
    return "; ".join(words) + "."
