"""The inside of a tapered leg: why the mark is where it is, and where to strike it.

Above, the leg's inner face seen from inside, the other leg edge on and seen through: the taper's line
is straight, comes into sight at the fillet, and runs on, hidden, to the outer face. Below, on the same
x, the fillet unrolled and the other leg's inner face: the line is a quarter sine in the fillet and
square across on the other leg. Lines dropped from one to the other carry the marks.

The tapered leg's inner face has its heel at the bottom for leg A; for leg B the whole picture is
upside down, because end 1 stays at the left.
"""

from __future__ import annotations

from anglelib.drawing.dimensions import Stop, leader, running_dimensions, spread
from anglelib.drawing.face import Axis
from anglelib.drawing.inside import Inside, curve, inner_extent, span_at, wrong_points
from anglelib.drawing.outer_view import (
    bands,
    holes_on,
    mark_kind,
    struck_line,
)
from anglelib.drawing.outline import inner_outline, leg_outline, rectangle
from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, Point, Polyline
from anglelib.drawing.style import KINDS
from anglelib.drawing.symbols import datum_sign, zigzag
from anglelib.geometry.taper import TaperLine, from_end_1
from anglelib.job import Shop
from anglelib.lengths import figure
from anglelib.part import Part
from anglelib.section import other_leg


def inner_view(
    part: Part,
    leg: str,
    axis: Axis,
    heel: float,
    *,
    stage: str = "layout",
    shop: Shop | None = None,
    shown: float | None = None,
    letter: float = 3.5,
    dimensions: bool = True,
    straight_wrap: bool = False,
    room: tuple[float, float] = (0.0, 1e9),
) -> Group:
    """The inside of a leg with its heel at height ``heel`` [mm], and below it (leg B: above) the unrolled strip.

    ``shown`` [in]: how much of the other leg's inner face is drawn, all if not given. ``straight_wrap``
    adds, dotted, the line that is wrong: carried straight over the unrolled fillet.
    """
    inside = Inside(part, leg, axis, heel, inner_extent(part, leg, shown))
    shop = shop or Shop()
    items: list[Item] = []
    items += _seen_through(inside, stage, shop)
    items += _strip(inside, stage, shop)
    for line in inside.lines:
        items += _dropped(inside, line)
        if straight_wrap and part.section.fillet:
            items += _straight(inside, line, letter if dimensions else 0.0)
    items += inside.face.breaks(0.0, float(part.section.leg(leg)))
    items += inside.unrolled.breaks(0.0, inside.strip_end)
    if dimensions:
        items += _names(inside, letter, straight_wrap)
        items += _dimensions(inside, letter, room)
    return tuple(items)


# --- the leg, the other leg edge on --------------------------------------------------------------------
def _seen_through(inside: Inside, stage: str, shop: Shop) -> Group:
    part, leg, face = inside.part, inside.leg, inside.face
    width, length = float(part.section.leg(leg)), float(part.length)
    toe = float(part.section.toe_radius)
    items: list[Item] = []
    if stage == "layout":
        for line in inside.lines:
            items += bands(face, part, line, shop, inside.root)
        outline = rectangle(0.0, length, 0.0, width)
        lower = (0.0, length)
        items += face.region(outline, "outline")
    else:
        items += face.region(leg_outline(part, leg), "outline")
        for line in inside.lines:
            run = min(float(line.run), length)
            corner = [(0.0, float(line.width_left)), (0.0, width), (run, width)]
            items += face.path([(inside.x(line, x), h) for x, h in corner], "blank")
        lower = span_at(inside, inside.root)
    # the other leg's inner face, edge on; the fillet's tangent and the rounded toe as narrow lines
    if lower[1] > lower[0]:
        items += face.path([(lower[0], inside.root), (lower[1], inside.root)], "outline")
    for h in ([inside.tangent] if part.section.fillet else []) + ([width - toe] if toe else []):
        start, stop = (0.0, length) if stage == "layout" else span_at(inside, h)
        if stop > start:
            items += face.path([(start, h), (stop, h)], "tangent")
    items += holes_on(face, part.holes_in(leg), centres_only=stage == "layout")
    for line in inside.lines:
        low = float(line.width_left)
        if stage == "layout":
            items += struck_line(face, part, line, max(low, inside.root), width, mark_kind(face, shop))
        if low < inside.root:  # behind the other leg the line is on the outer face only
            points = [(inside.x(line, float(line.at(h))), h) for h in (low, inside.root)]
            items += face.path(points, "hidden", accent=True)
    return tuple(items)


# --- the unrolled fillet and the other leg ---------------------------------------------------------------
def _strip(inside: Inside, stage: str, shop: Shop) -> Group:
    part, strip = inside.part, inside.unrolled
    length = float(part.length)
    items: list[Item] = []
    if stage == "layout":
        for line in inside.lines:
            items += _strip_bands(inside, line, shop)
        items += strip.path([(0.0, 0.0), (length, 0.0)], "tangent")
        if part.section.fillet:
            items += strip.path([(0.0, inside.fillet_width), (length, inside.fillet_width)], "tangent")
        items += strip.path([(0.0, 0.0), (0.0, inside.strip_end)], "outline")
        items += strip.path([(length, 0.0), (length, inside.strip_end)], "outline")
        start, stop = 0.0, length
        ink = KINDS[mark_kind(strip, shop)].width / 2 / strip.axis.unit
        for line in inside.lines:
            points = curve(inside, line, float(line.shift_along(0)) + ink)
            items += strip.path(points, mark_kind(strip, shop), accent=True)
    else:
        items += _finished_strip(inside)
        start, stop = 0.0, length
        for line in inside.lines:
            mark = float(line.vertex_projection or 0)
            start, stop = (max(start, mark), stop) if line.end == 1 else (start, min(stop, length - mark))
    for hole in part.holes_in(other_leg(inside.leg)):
        items += _strip_hole(inside, hole, stage)
    if inside.whole:
        items += strip.path([(start, inside.strip_end), (stop, inside.strip_end)], "outline") if stage == "layout" else ()
    else:
        items += _torn(inside, start, stop)
    return tuple(items)


def _strip_bands(inside: Inside, line: TaperLine, shop: Shop) -> Group:
    """Metal to sand and the saw's band on the strip: curves moved along the heel."""
    strip = inside.unrolled
    d, k = float(shop.allowance), float(shop.kerf)
    near, far = (float(line.shift_along(v)) for v in (d, d + k))
    finished, sawn, beyond = (curve(inside, line, v) for v in (0.0, near, far))
    items: list[Item] = []

    def between(one: list[Point], two: list[Point]) -> list[Point]:
        if len(one) < 2:
            return []
        end = inside.edge(line.end)
        back = list(reversed(two)) if len(two) > 1 else []
        if not back or back[0][1] < one[-1][1] - 1e-9:  # the far line leaves through the end first
            back = [(end, one[-1][1]), *([(end, back[0][1])] if back else [(end, one[0][1])]), *back]
        return [*one, *back]

    if d and len(finished) > 1:
        items += strip.hatch(between(finished, sawn), 45 if strip.up > 0 else -45, 1.2)
    if k:
        region = between(sawn, beyond)
        if len(region) > 2:
            items += strip.region(region, "cut", "paper")
    return tuple(items)


def _finished_strip(inside: Inside) -> Group:
    """The strip of the finished part: the fillet between its cut edges, and the other leg's inner face."""
    part, strip = inside.part, inside.unrolled
    length = float(part.length)
    left: list[Point] = [(0.0, 0.0), (0.0, inside.fillet_width)]
    right: list[Point] = [(length, 0.0), (length, inside.fillet_width)]
    for line in inside.lines:
        points = [p for p in curve(inside, line) if p[1] <= inside.fillet_width + 1e-9]
        if points:
            edge = [*points]
            if edge[-1][1] < inside.fillet_width - 1e-9:
                edge.append((inside.edge(line.end), inside.fillet_width))
            if line.end == 1:
                left = edge
            else:
                right = edge
    items: list[Item] = []
    items += strip.path([left[0], right[0]], "tangent")
    if part.section.fillet:
        items += strip.path(left, "outline")
        items += strip.path(right, "outline")
        items += strip.path([left[-1], right[-1]], "tangent")
    other = other_leg(inside.leg)
    shift = inside.fillet_width - inside.other_flat
    face = [(x, h + shift) for x, h in inner_outline(part, other)]
    cut = [(x, min(h, inside.strip_end)) for x, h in face] if inside.whole else None
    if cut:
        items += strip.region(cut, "outline")
    else:
        ends = sorted({x for x, h in face if abs(h - inside.fillet_width) < 1e-6})
        for x in (ends[0], ends[-1]) if ends else ():
            items += strip.path([(x, inside.fillet_width), (x, inside.strip_end)], "outline")
    return tuple(items)


def _strip_hole(inside: Inside, hole, stage: str) -> Group:
    """A hole of the other leg, on its inner face."""
    u = float(hole.y) - inside.other_flat + inside.fillet_width
    if u + float(hole.diameter) / 2 > inside.strip_end:
        return ()
    x, y = inside.unrolled.at(float(hole.x), u)
    r = float(hole.diameter) / 2 * inside.axis.unit
    reach = max(r + 1.4, 2.0)
    cross = (Line(x - reach, y, x + reach, y, "narrow"), Line(x, y - reach, x, y + reach, "narrow"))
    return cross if stage == "layout" else (Circle(x, y, r, "outline"), *cross)


def _torn(inside: Inside, start: float, stop: float) -> Group:
    """The other leg goes on: a break along its whole length, drawn as a narrow line with teeth."""
    y = inside.unrolled.h(inside.strip_end)
    a, b = inside.axis.at(start), inside.axis.at(stop)
    flipped = zigzag(0.0, a, b)
    points = tuple((v, y + u) for u, v in flipped.points)
    return (type(flipped)(points, "break"),)


# --- what carries the marks -------------------------------------------------------------------------------
def _dropped(inside: Inside, line: TaperLine) -> Group:
    """Narrow lines from the marks on the leg to the same marks on the strip."""
    axis, items = inside.axis, []
    pairs = []
    if line.first_flat is not None:
        pairs.append((float(line.first_flat), inside.tangent, 0.0))
    if line.vertex_projection is not None:
        pairs.append((float(line.vertex_projection), inside.root, inside.fillet_width))
    for distance, h, u in pairs:
        x = axis.at(inside.x(line, distance))
        y1, y2 = inside.face.h(h), inside.unrolled.h(u)
        if abs(y1 - y2) > 2:
            items.append(Line(x, y1, x, y2, "dimension"))
    return tuple(items)


def _straight(inside: Inside, line: TaperLine, letter: float) -> Group:
    """The wrong way to carry the line over the fillet; at end 1 with its name, which at end 2 stands with the others."""
    if line.first_flat is None:
        return ()
    points, tip = wrong_points(inside, line)
    items = inside.unrolled.path(points, "ghost")
    if letter and line.end == 1:
        x, y = inside.unrolled.at(*tip)
        items += leader((x, y), (inside.axis.left - 6, y), "wrong line", letter=letter, end="")
    return items


# --- names and figures ---------------------------------------------------------------------------------------
def _names(inside: Inside, letter: float, straight_wrap: bool) -> Group:
    """What each strip is, at its right end; and the wrong line, if only end 2 has one."""
    x = inside.axis.right + 3.0
    other = other_leg(inside.leg)
    face, strip = inside.face, inside.unrolled
    rows: list[tuple[float, str, Point | None]] = [
        (face.h((inside.tangent + float(inside.part.section.leg(inside.leg))) / 2), f"leg {inside.leg}, inner face", None),
        (face.h(inside.root / 2), f"leg {other}, edge on", None),
        (strip.h(inside.fillet_width + inside.shown / 2), f"leg {other}, inner face", None),
    ]
    if inside.part.section.fillet:
        rows.append((strip.h(inside.fillet_width / 2), "fillet, unrolled", None))
        named = [line for line in inside.lines if line.first_flat is not None]
        if straight_wrap and named and named[0].end == 2:
            tip = strip.at(*wrong_points(inside, named[0])[1])
            rows.append((tip[1] - 0.01 * inside.up, "wrong line", tip))
    rows.sort(key=lambda row: row[0])
    heights = spread([row[0] for row in rows], [1.5 * letter] * (len(rows) - 1), -1e9, 1e9)
    items: list[Item] = []
    for y, (_, text, tip) in zip(heights, rows):
        if tip:
            items.append(Polyline((tip, (x - 1.5, y), (x - 0.6, y)), "dimension"))
        items.append(Label(x, y, text, letter, "start", "middle"))
    return tuple(items)


def inner_stops(inside: Inside) -> tuple[list[Stop], list[Stop]]:
    """Running dimensions: on the toe's side (runs, holes, length) and on the strip's side (the inside marks)."""
    part, axis = inside.part, inside.axis
    width = float(part.section.leg(inside.leg))
    outer: dict = {part.length: width}
    inner: dict = {}
    for line in inside.lines:
        outer[from_end_1(part, line.end, line.run)] = width
        if line.first_flat is not None:
            inner[from_end_1(part, line.end, line.first_flat)] = 0.0
        if line.last_flat is not None and part.section.toe_radius:
            outer[from_end_1(part, line.end, line.last_flat)] = width - float(part.section.toe_radius)
        if line.vertex_projection is not None:
            inner[from_end_1(part, line.end, line.vertex_projection)] = inside.strip_end
    face, strip = inside.face, inside.unrolled
    inside_stops = [
        Stop(axis.at(float(x)), strip.h(u), figure(x), True) for x, u in inner.items() if 0 < float(x) <= float(part.length)
    ]
    length = float(part.length)
    toe_stops = [Stop(axis.at(float(x)), face.h(h), figure(x)) for x, h in outer.items() if 0 < float(x) <= length]
    return toe_stops, inside_stops


def _dimensions(inside: Inside, letter: float, room: tuple[float, float]) -> Group:
    axis, face, strip = inside.axis, inside.face, inside.unrolled
    toe = face.h(float(inside.part.section.leg(inside.leg)))
    foot = strip.h(inside.strip_end)
    above, below = inner_stops(inside)
    items: list[Item] = []
    at = toe + inside.up * 3.2 * letter
    left = axis.left
    start = next((float(line.width_left) for line in inside.lines if line.end == 1), 0.0)
    items += running_dimensions(left, above, at, letter=letter, low=room[0], high=room[1], foot=toe)
    items += datum_sign(left, face.h(max(start, inside.root) + (float(inside.part.section.leg(inside.leg)) - max(start, inside.root)) / 2), letter=letter)  # fmt: skip
    if below:
        at = foot - inside.up * 2.2 * letter
        items += running_dimensions(left, below, at, letter=letter, low=room[0], high=room[1], foot=foot)
    return tuple(items)
