"""All that is needed to make a part on one sheet, in third-angle projection.

>>> from anglelib.section import Section
>>> from anglelib.part import Part, Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1", "Floor cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> sheet = part_sheet(cleat)
>>> sheet.title, sheet.width, sheet.height
('Part A1 Floor cleat', 297, 210)
"""

from __future__ import annotations

from fractions import Fraction

from anglelib.drawing.checks import bounds
from anglelib.drawing.face import Axis
from anglelib.drawing.frame import EDGE, FINE_SCALES, SCALES, footer, paragraph, unbroken_first
from anglelib.drawing.outer_view import OVERRUN, features_along, leg_notes, name_of, outer_view
from anglelib.drawing.outline import section_outline
from anglelib.drawing.pictorial import extent, pictorial
from anglelib.drawing.sheet import Group, Item, Label, Line, Sheet, move, polygon
from anglelib.drawing.sheets import FOOT, axis_of, face_sentence, fit_growing, foot_words, margins, small
from anglelib.drawing.solid_lines import Camera
from anglelib.drawing.symbols import check_bar
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, own, to_mm
from anglelib.part import Part, in_its_unit

_LEFT_COLUMN = 108.0
_BETWEEN = 8.0
"""Paper between the captions of the two faces [mm]."""


@in_its_unit
def part_sheet(
    part: Part,
    *,
    stage: str = "finished",
    shop: Shop | None = None,
    width: float = 297,
    height: float = 210,
    letter: float = 3.5,
    glass: bool = False,
) -> Sheet:
    """All that is needed to make a part, in third-angle projection.

    Leg A's outer face is the front view, leg B's the view from above, the view from end 1 stands at
    the left; the part in space fills the corner. At 1:1 there is a check bar. On ``glass`` nothing is measured
    and the page around it sends the learner to the plans: there is no bar, and no letter is smaller than the others.
    """
    shop = shop or Shop()
    extra = float(shop.allowance + shop.kerf) + OVERRUN if stage == "layout" else 0.0
    right = max(margins(part, leg, letter)[1] for leg in "AB")
    below = 2.1 * letter
    above = below + (3.7 * letter if stage == "layout" else 0.0)
    gap = below + above + _BETWEEN

    def build(scale: Fraction) -> Group | None:
        unit = 25.4 * float(scale)
        if float(part.section.leg_b) * unit > _LEFT_COLUMN - 61 - EDGE:
            return None
        axis = axis_of(part, "AB", scale, _LEFT_COLUMN, width - _LEFT_COLUMN - right, extra)
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
    scales = unbroken_first(SCALES, (width - _LEFT_COLUMN - right) / (to_mm(part.length) + 25.4 * extra))
    # below is room for the check bars of a sheet at 1:1
    height, scale, views = fit_growing(build, width, height, FOOT + 7, used, to_mm(part.section.leg_a + part.section.leg_b), scales)
    title, top = move(title, 0, height), height - used
    items = title + views + footer(width, foot_words(part, scale, stage, letter, measured=not glass), letter=letter if glass else small(letter))
    if scale == 1 and not glass:
        items += check_bar(EDGE, FOOT + 0.5, one_row=True)
    seen_from_end = views[-len(end_view(part, 25.4 * float(scale), (0.0, 0.0), letter)) :]
    items += _corner_pictorial(part, bounds(seen_from_end[:1])[3] + 0.7 * letter + 10, top, _LEFT_COLUMN + EDGE - margins(part, "B", letter)[0] - 4)
    sentence = f"{face_sentence(part, 'A')[:-1]}. {face_sentence(part, 'B')}"
    return Sheet(width, height, items, f"Part {part.id} {part.name}", sentence)


def _corner_pictorial(part: Part, low: float, top: float, wide: float) -> Group:
    """The part in space, in the corner above the view from end 1, from ``low`` to ``top`` [mm]."""
    room = (wide - EDGE, top - low - 2)
    if room[1] < 18:
        return ()
    camera = Camera()
    whole = room[0] / 25.4 / float(part.length + part.section.leg_b / 2)
    for scale in unbroken_first(FINE_SCALES, whole):
        unit = 25.4 * float(scale)
        axis = Axis.fit(float(part.length), features_along(part), room[0] - float(part.section.leg_b) * unit / 2, unit)
        left, bottom, right, high = extent(part, axis, camera=camera)
        if right - left <= room[0] and high - bottom <= room[1]:
            shown = pictorial(part, axis, camera=camera, hidden=False)
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
    stock = f"angle {part.section.size}" + (f", fillet {own(part.section.fillet)}" if part.section.fillet else ", no fillet")
    facts = [stock, part.alloy, f"length {both(part.length)}", f"quantity {part.quantity}"]
    if part.hand:
        facts.append(f"hand: {part.hand}" + (f", mirror image of {part.mirror_of}" if part.mirror_of else ""))
    if part.one_piece:
        facts.append("one piece")
    lines = ["; ".join(facts)]
    lines += [f"leg {leg}: {note}" for leg in "AB" for note in leg_notes(part, leg)]
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
        words.append(f"{count} for {own(diameter)} fasteners" + (" with flush heads" if flush else ""))
    return [f"located holes: {', '.join(words)}; hole and pilot sizes are printed apart"] if words else []
