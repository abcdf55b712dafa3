"""A leg's outer face: what is finished, or what is laid out on it before the saw.

Seen from outside with end 1 at the left, so leg A hangs from its heel and leg B stands on it: one
above the other they are the two views of a third-angle drawing, heel to heel.

In a *layout* the metal is uncut; the finished lines are struck on it, their ink on the waste side, the
edge of the ink next to the part on the dimension. Metal to sand is hatched, and the saw's band lies
beyond it. *Finished*, the part has its outline and the blank is a chain line.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from anglelib.drawing.dimensions import Stop, leader, running_dimensions
from anglelib.drawing.face import Axis, Face
from anglelib.drawing.outline import leg_outline, rectangle, strip
from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, Point
from anglelib.drawing.style import KINDS, WIDE
from anglelib.drawing.symbols import datum_sign, zigzag
from anglelib.geometry.cuts import cuts_of, stretch
from anglelib.geometry.taper import Number, TaperLine, from_end_1, taper_lines
from anglelib.job import Shop
from anglelib.lengths import about, both, figure, given, printed, show, unit_written
from anglelib.part import Hole, Part
from anglelib.section import other_leg

STAGES = ("finished", "layout")
OVERRUN = 0.45
"""How much of the stick is drawn past end 2 in a layout [in], beyond kerf and allowance."""


def name_of(leg: str, inner: bool = False) -> str:
    """A face in words, as every view is titled."""
    return f"leg {leg}, inner face, seen from inside" if inner else f"leg {leg}, outer face, seen from outside"


def direction(leg: str, inner: bool = False) -> int:
    """Whether a face runs up (1) or down (-1) from its heel, with end 1 at the left and the face towards the reader."""
    return (1 if leg == "A" else -1) if inner else (-1 if leg == "A" else 1)


def features_along(part: Part, legs: Sequence[str] = ("A", "B")) -> list[float | Point]:
    """What a broken view must show: the places of holes, and tapers and copes whole, as (from, to) [in]."""
    shown: list[float | Point] = [float(hole.x) for hole in part.holes if hole.leg in legs]
    return shown + [stretch(cut, part.length) for cut in cuts_of(part) if cut.leg in legs]


def mark_kind(face: Face, shop: Shop) -> str:
    """A struck line is drawn wide unless it would hide the metal to sand."""
    return "mark" if float(shop.allowance) * face.axis.unit >= 2 * WIDE or not shop.allowance else "fine-mark"


def struck_line(face: Face, part: Part, line: TaperLine, low: float, high: float, kind: str = "mark") -> Group:
    """The finished line of a taper from height ``low`` to ``high`` [in], its ink wholly on the waste side."""
    shift = float(line.shift_along(KINDS[kind].width / 2 / face.axis.unit))
    length, at_heel, slope = float(part.length), float(line.at(0)), float(line.slope)
    high = min(high, (length - at_heel) / slope)  # a run longer than the part leaves at the other end
    if high <= low:
        return ()
    points = [(at_heel + slope * h - shift, h) for h in (low, high)]
    return face.path([(x if line.end == 1 else length - x, h) for x, h in points], kind, accent=True)


def bands(face: Face, part: Part, line: TaperLine, shop: Shop, low: float = 0.0) -> Group:
    """The metal to sand, hatched, and the saw's band beside a taper's line."""
    items: list[Item] = []
    d, k = float(shop.allowance), float(shop.kerf)
    sand = strip(part, line, 0.0, d, low)
    if len(sand) > 2 and d:
        items += face.hatch(sand, 45 if face.up > 0 else -45, 1.2)
    kerf = strip(part, line, d, d + k, low)
    if len(kerf) > 2 and k:
        items += face.region(kerf, "cut", "paper")
    return tuple(items)


def end_bands(face: Face, part: Part, shop: Shop, low: float, high: float) -> Group:
    """The same at end 2: the line at the length, metal to sand, the saw's band, and the stick going on."""
    length, d, k = float(part.length), float(shop.allowance), float(shop.kerf)
    kind = mark_kind(face, shop)
    ink = KINDS[kind].width / 2 / face.axis.unit
    items: list[Item] = []
    if d:
        items += face.hatch(rectangle(length, length + d, low, high), 45 if face.up > 0 else -45, 1.2)
    if k:
        items += face.region(rectangle(length + d, length + d + k, low, high), "cut", "paper")
    items += face.path([(length + ink, low), (length + ink, high)], kind, accent=True)
    return tuple(items)


def band_notes(face: Face, part: Part, shop: Shop, letter: float) -> Group:
    """Names beyond the heel for the finished line, the metal to sand and the saw's band at end 2."""
    axis, out = face.axis, -face.up
    d, k = float(shop.allowance), float(shop.kerf)
    x = axis.at(float(part.length))
    edge, inside = face.h(0), face.h(1.5 / axis.unit)

    def note(at: float, way: float, rise: float, text: str) -> Group:
        tip = (axis.at(float(part.length) + at), inside)
        return leader(tip, (x + way, edge + out * rise), text, letter=letter, end="dot" if k and at else "")

    items = list(note(0.0, -5.0, 1.5 * letter, "finished line"))
    if k:
        items += note(d + k / 2, 7.0 + k * axis.unit, 1.5 * letter, f"kerf {given(shop.kerf)}")
    if d:
        items += note(d / 2, 7.0 + k * axis.unit, 3.2 * letter, f"sand {given(shop.allowance)}")
    return tuple(items)


def holes_on(face: Face, holes: Sequence[Hole], *, centres_only: bool = False) -> Group:
    """Holes with their centre lines; before drilling only the crossed centre lines."""
    items: list[Item] = []
    unit = face.axis.unit
    for hole in holes:
        x, y = face.at(float(hole.x), float(hole.y))
        r = float(hole.diameter) / 2 * unit
        reach = max(r + 1.4, 2.0)
        if not centres_only:
            items.append(Circle(x, y, r, "outline"))
        items += [Line(x - reach, y, x + reach, y, "narrow"), Line(x, y - reach, x, y + reach, "narrow")]
    return tuple(items)


def outer_view(
    part: Part,
    leg: str,
    axis: Axis,
    heel: float,
    *,
    stage: str = "finished",
    shop: Shop | None = None,
    letter: float = 3.5,
    dimensions: bool = True,
    notes: bool = True,
    room: tuple[float, float] = (0.0, 1e9),
) -> Group:
    """One leg's outer face with its heel at height ``heel`` [mm]; ``room`` bounds the figures left and right."""
    if stage not in STAGES:
        raise ValueError(f"stage is one of {', '.join(STAGES)}")
    face = Face(axis, heel, direction(leg))
    width, length = float(part.section.leg(leg)), float(part.length)
    lines = [line for line in taper_lines(part) if line.leg == leg]
    items: list[Item] = []
    if stage == "layout":
        items += _layout(face, part, leg, lines, shop or Shop())
    else:
        items += _finished(face, part, leg, lines)
    items += holes_on(face, part.holes_in(leg), centres_only=stage == "layout")
    over = OVERRUN + float((shop or Shop()).allowance + (shop or Shop()).kerf) if stage == "layout" else 0.0
    items += face.breaks(0, width)
    if stage == "layout" and notes:
        items += band_notes(face, part, shop or Shop(), letter)
    if dimensions:
        items += _dimensions(face, part, leg, lines, letter, room, length + over)
    return tuple(items)


def _finished(face: Face, part: Part, leg: str, lines: Sequence[TaperLine]) -> Group:
    width, length = float(part.section.leg(leg)), float(part.length)
    items: list[Item] = []
    for line in lines:  # the metal that was there
        run = min(float(line.run), length)
        corner = [(0.0, float(line.width_left)), (0.0, width), (run, width)]
        items += face.path([(x if line.end == 1 else length - x, h) for x, h in corner], "blank")
    items += hidden_edges(face, part, leg)
    items += face.region(leg_outline(part, leg), "outline")
    return tuple(items)


def _layout(face: Face, part: Part, leg: str, lines: Sequence[TaperLine], shop: Shop) -> Group:
    width, length = float(part.section.leg(leg)), float(part.length)
    stock_end = length + float(shop.allowance + shop.kerf) + OVERRUN
    items: list[Item] = []
    root = float(part.section.thickness(other_leg(leg)))
    items += face.path([(0.0, root), (stock_end, root)], "hidden")
    for line in lines:
        items += bands(face, part, line, shop)
    items += end_bands(face, part, shop, 0.0, width)
    items += face.path([(stock_end, 0.0), (0.0, 0.0), (0.0, width), (stock_end, width)], "outline")
    bottom, top = sorted((face.h(0), face.h(width)))
    items.append(zigzag(face.axis.at(stock_end), bottom, top))
    for line in lines:
        items += struck_line(face, part, line, float(line.width_left), width, mark_kind(face, shop))
    return tuple(items)


def hidden_edges(face: Face, part: Part, leg: str) -> Group:
    """What lies behind an outer face: the other leg's inner face, edge on, and the cuts of its tapers."""
    width, length = float(part.section.leg(leg)), float(part.length)
    other = other_leg(leg)
    t = float(part.section.thickness(other))
    start, stop = 0.0, length
    items: list[Item] = []
    for line in taper_lines(part):
        x = lambda v, e=line.end: v if e == 1 else length - v  # noqa: E731
        if line.leg == leg:
            here = max(0.0, float(line.at(t)))
            start, stop = (max(start, here), stop) if line.end == 1 else (start, min(stop, length - here))
        else:
            run = min(float(line.run), length)
            items += face.path([(x(run), 0.0), (x(run), t)], "hidden")
            if line.vertex_projection is not None and float(line.vertex_projection) > 1e-9:
                mark = float(line.vertex_projection)
                items += face.path([(x(mark), t + float(part.section.fillet)), (x(mark), width)], "hidden")
    items += face.path([(start, t), (stop, t)], "hidden")
    return tuple(items)


def stops_along(part: Part, leg: str, lines: Sequence[TaperLine], face: Face) -> list[Stop]:
    """The running dimensions of a leg: runs, holes, copes, length; one figure for places that coincide."""
    width = float(part.section.leg(leg))
    at: dict[Number, float] = {}

    def add(x: Number, h: float) -> None:
        at[x] = max(h, at.get(x, 0.0))

    for cut in cuts_of(part, leg):
        add(from_end_1(part, cut.end, cut.reach), width)
    for hole in part.holes_in(leg):
        add(hole.x, float(hole.y + hole.diameter / 2))
    ends2 = [line for line in lines if line.end == 2]
    add(part.length, float(ends2[0].width_left) if ends2 else width)
    return [Stop(face.axis.at(float(x)), face.h(h), figure(x)) for x, h in at.items() if 0 < float(x) <= float(part.length)]


def _dimensions(
    face: Face, part: Part, leg: str, lines: Sequence[TaperLine], letter: float, room: tuple[float, float], stock_end: float
) -> Group:
    width = float(part.section.leg(leg))
    toe = face.h(width)
    at = toe + face.up * 3.4 * letter
    left = float(lines[0].width_left) if lines and lines[0].end == 1 else width
    items: list[Item] = list(
        running_dimensions(
            face.axis.left,
            stops_along(part, leg, lines, face),
            at,
            letter=letter,
            low=room[0],
            high=min(room[1], face.axis.at(stock_end) + 10.5),  # beyond stand the heights
            foot=face.h(left),
        )
    )
    items += datum_sign(face.axis.left, (toe + at) / 2 + face.up * 0.3, letter=letter)
    items += heights(face, part, leg, letter, stock_end)
    near = [Stop(face.h(h), face.axis.left, figure(h)) for h in widths_left(part, leg, 1)]
    x = face.axis.left
    items += running_dimensions(heel_stop(face), near, x - 8, "y", letter=letter, foot=x)
    return tuple(items)


def widths_left(part: Part, leg: str, end: int) -> list[Fraction]:
    """What tapers and copes leave of a leg at an end."""
    return list(dict.fromkeys(cut.left for cut in cuts_of(part, leg, end) if cut.left))


def heel_stop(face: Face) -> float:
    """The heel's height on the paper [mm]."""
    return face.h(0)


def heights(face: Face, part: Part, leg: str, letter: float, stock_end: float) -> Group:
    """Running dimensions from the heel at the right: rows of holes, the width left at end 2, the toe."""
    edge = face.axis.at(stock_end)
    at = edge + 9.0
    items: list[Item] = []
    rows: dict[Fraction, Hole] = {}
    for hole in part.holes_in(leg):  # from end 1 on: the first of each row stays
        rows.setdefault(hole.y, hole)
    stops = []
    for y, hole in rows.items():
        clear = (max(float(hole.diameter) / 2 * face.axis.unit + 1.4, 2.0) + 0.7) / face.axis.unit
        items += face.path([(float(hole.x) + clear, float(y)), (stock_end - 1 / face.axis.unit, float(y))], "centre")
        stops.append(Stop(face.h(y), edge, figure(y)))
    for height in widths_left(part, leg, 2):
        if height not in rows:
            stops.append(Stop(face.h(height), face.axis.right, figure(height)))
    stops.append(Stop(face.h(part.section.leg(leg)), edge, f"{figure(part.section.leg(leg))}, toe"))
    # figures that crowd are moved away from the heel, where other things are written
    low, high = (heel_stop(face) - letter / 2, 1e9) if face.up > 0 else (-1e9, heel_stop(face) + letter / 2)
    items += running_dimensions(heel_stop(face), stops, at, "y", letter=letter, foot=edge, origin_text="heel", low=low, high=high)
    return tuple(items)


def caption(x: float, y: float, leg: str, letter: float = 3.5, inner: bool = False) -> Item:
    """The view's name in words, its lower left corner at x, y."""
    return Label(x, y, name_of(leg, inner), letter, "start")


def taper_note(line: TaperLine) -> str:
    """A taper in words and numbers."""
    left = f"width left {_short(line.width_left)}" if line.width_left else "to the vertex"
    return (
        f"taper at end {line.end}: run {_short(line.run)}, {left}, "
        f"{line.angle:.1f}° from the heel, {line.from_square:.1f}° from square"
    )


def leg_notes(part: Part, leg: str) -> list[str]:
    """A leg's tapers, copes and rounded corners in words and numbers, one line each."""
    notes = [taper_note(line) for line in taper_lines(part) if line.leg == leg]
    notes += [
        f"cope at end {cope.end}: {_short(cope.length)} long, width left {_short(cope.width_left)}, "
        f"inside radius {_short(cope.radius)}"
        for cope in part.copes
        if cope.leg == leg
    ]
    notes += [
        f"corner at end {corner.end} rounded, radius {_short(corner.radius)}" for corner in part.corners if corner.leg == leg
    ]
    return notes


def _short(value: Number) -> str:
    """A fraction where it is one of a rule's, else fraction and decimal."""
    if unit_written() == "mm":
        return about(value)
    text = printed(value)
    return both(value) if text.lost else show(value)
