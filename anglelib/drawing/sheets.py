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

from collections.abc import Callable, Sequence
from fractions import Fraction

from anglelib.drawing.checks import bounds
from anglelib.drawing.face import Axis
from anglelib.drawing.frame import EDGE, FINE_SCALES, SCALES, footer, paragraph, scale_text, unbroken_first
from anglelib.drawing.inner_view import inner_view
from anglelib.drawing.inside import inner_extent
from anglelib.drawing.letters import text_width
from anglelib.drawing.outer_view import (
    OVERRUN,
    direction,
    features_along,
    leg_notes,
    name_of,
    outer_view,
    taper_note,
    widths_left,
)
from anglelib.drawing.sheet import Group, Sheet, move
from anglelib.drawing.style import LETTERS
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, exact, figure, own, spoken, to_mm, unit_word
from anglelib.part import Part, in_its_unit

FOOT = 12.0
"""Height of a sheet's foot [mm]."""


def margins(part: Part, legs: str, letter: float) -> tuple[float, float]:
    """Room for the figures left and right of a view [mm]."""
    left = [text_width("datum", letter) + 3.4 * letter]
    right = [text_width("heel", letter)]
    for leg in legs:
        right.append(text_width(f"{figure(part.section.leg(leg))}, toe", letter))
        right += [text_width(figure(hole.y), letter) for hole in part.holes_in(leg)]
        left += [text_width(figure(height), letter) + 12 for height in widths_left(part, leg, 1)]
        right += [text_width(figure(height), letter) + 12 for height in widths_left(part, leg, 2)]
    return EDGE + max(left) + 2, EDGE + max(right) + 14


def _fit(
    build: Callable[[Fraction], Group | None], width: float, low: float, high: float, tall_at_1: float, scales: Sequence[Fraction]
) -> tuple[Fraction, Group] | None:
    """The view at the first scale that fits between heights ``low`` and ``high``, in their middle; None if none does."""
    limit = (high - low) / tall_at_1
    for scale in scales:
        items = build(scale) if scale <= limit else None
        if items is None:
            continue
        left, bottom, right, top = bounds(items)
        if left >= 1 and right <= width - 1 and top - bottom <= high - low:
            return scale, move(items, 0, max(low - bottom, min((low + high - bottom - top) / 2, high - top)))
        # figures take the same room at every scale: what is left is for the metal
        figures = top - bottom - tall_at_1 * float(scale)
        limit = min(limit, max((high - low - figures) / tall_at_1, float(scales[-1])))
    return None


def fit_growing(
    build: Callable[[Fraction], Group | None],
    width: float,
    height: float,
    low: float,
    used: float,
    tall_at_1: float,
    scales: Sequence[Fraction] = SCALES,
) -> tuple[float, Fraction, Group]:
    """The same on a sheet that grows until a legible scale fits: (height, scale, view).

    ``used`` is the height of the title, ``tall_at_1`` that of the metal alone at 1:1, which rules
    out scales before anything is drawn [mm].
    """
    for least in (Fraction(1, 5), scales[-1]):
        tall = height
        for _ in range(6):
            found = _fit(build, width, low, tall - used, tall_at_1, [s for s in scales if s >= least])
            if found is not None:
                return tall, *found
            tall *= 1.25
    raise ValueError("the part fits on no sheet: give the sheet more width")


def axis_of(part: Part, legs: str, scale: Fraction, left: float, room: float, extra: float) -> Axis | None:
    """The axis for a scale, None if the part does not fit even when it is broken."""
    unit = 25.4 * float(scale)
    axis = Axis.fit(float(part.length), features_along(part, tuple(legs)), room - extra * unit, unit, left)
    return axis if axis.right - axis.left <= room - extra * unit + 0.01 else None


@in_its_unit
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
    left, right = margins(part, leg, letter)
    extra = float(shop.allowance + shop.kerf) + OVERRUN if stage == "layout" else 0.0
    room = (EDGE, width - EDGE)

    def build(scale: Fraction) -> Group | None:
        axis = axis_of(part, leg, scale, left, width - left - right, extra)
        if axis is None:
            return None
        return outer_view(part, leg, axis, 0.0, stage=stage, shop=shop, letter=letter, room=room)

    scales = unbroken_first(FINE_SCALES, (width - left - right) / (to_mm(part.length) + 25.4 * extra))
    lines = leg_notes(part, leg)
    title = paragraph(EDGE, -4, [name_of(leg), *(lines if notes else ())], width - 2 * EDGE, letter)
    height, scale, view = fit_growing(build, width, height, FOOT, 3 - bounds(title)[1], to_mm(part.section.leg(leg)), scales)
    title = move(title, 0, height)
    items = title + view + footer(width, foot_words(part, scale, stage, letter), letter=small(letter))
    return Sheet(width, height, items, f"Part {part.id}, {name_of(leg)}", face_sentence(part, leg))


@in_its_unit
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
        axis = axis_of(part, leg, scale, left, width - left - right, 0.0)
        if axis is None:
            return None
        return inner_view(part, leg, axis, 0.0, stage=stage, shop=shop, shown=shown, letter=letter, straight_wrap=straight_wrap, room=room)

    scales = unbroken_first(FINE_SCALES, (width - left - right) / to_mm(part.length))
    lines = leg_notes(part, leg)
    title = paragraph(EDGE, -4, [name_of(leg, True), *(lines if notes else ())], width - 2 * EDGE, letter)
    height, scale, view = fit_growing(
        build,
        width,
        height,
        FOOT,
        3 - bounds(title)[1],
        to_mm(part.section.leg(leg) + part.section.fillet) + 25.4 * inner_extent(part, leg, shown),
        scales,
    )
    title = move(title, 0, height)
    items = title + view + footer(width, foot_words(part, scale, stage, letter), letter=small(letter))
    return Sheet(width, height, items, f"Part {part.id}, {name_of(leg, True)}", inner_sentence(part, leg, shown))


def small(letter: float) -> float:
    """The next smaller letter height for the foot of a sheet [mm]."""
    return max([height for height in LETTERS if height < letter], default=2.5)


@in_its_unit
def foot_words(part: Part, scale: Fraction, stage: str, letter: float = 3.5, measured: bool = False) -> str:
    """What a sheet is to: part, scale, unit, datum; and that a picture is not ``measured``."""
    words = f"part {part.id}, {'scale' if measured else 'drawn'} {scale_text(scale)}, {unit_word()}"
    if letter < 5:
        words += ", all lengths from the datum, end 1"
        words += "" if measured else "; not to be measured"
    return words + (", before the saw" if stage == "layout" else "")


# --- in words ------------------------------------------------------------------------------------------
@in_its_unit
def face_sentence(part: Part, leg: str) -> str:
    """What an outer view shows, in words with its numbers."""
    where = "top" if direction(leg) < 0 else "bottom"
    words = [
        f"Part {part.id}, {name_of(leg)}, end 1 (the datum) at the left, heel at the {where}: "
        f"{spoken(part.section.leg(leg))} wide, {exact(part.length)} long"
    ]
    words += leg_notes(part, leg)
    words += [
        f"hole for a {own(hole.diameter)} fastener {both(hole.x)} from the datum and {both(hole.y)} from the heel"
        for hole in part.holes_in(leg)
    ]
    return "; ".join(words) + "."


@in_its_unit
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
            words.append(f"first flat mark {both(line.first_flat)} from end {line.end}")
        if line.vertex_projection is not None:
            words.append(f"line square across leg {line.other}'s inner face {both(line.vertex_projection)} from end {line.end}")
    return "; ".join(words) + "."
