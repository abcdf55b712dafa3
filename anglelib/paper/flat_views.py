"""The flat views of a part that are exported: each face, the unrolled sheets of the templates, the section.

Every face is seen from its own side with end 1 at the left, as on the drawings: outside, leg A hangs
from the heel and leg B stands on it; inside, the other way round. Finished edges, saw line, kerf and
waste are all there, each on its layer.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [view.name for view in flat_views(bracket, Shop())]
['leg-A-outer', 'leg-A-inner', 'leg-B-outer', 'leg-B-inner', 'fold-sheet', 'inside-twin', 'section']
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import groupby

from anglelib.drawing.outer_view import direction, name_of
from anglelib.geometry.cuts import COPE, cuts_of
from anglelib.geometry.edges import Edge, Point, Straight, carried, chain, joined_up
from anglelib.geometry.layout import witness_line
from anglelib.geometry.outlines import face_edges, section_edges
from anglelib.geometry.taper import Number, TaperLine, from_end_1, taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, millimetres, writing
from anglelib.paper.development import taper_path
from anglelib.paper.flat import LETTER, Circle, Flat, Item, Linear, Outline, Words
from anglelib.paper.flat_figures import Mark, figures
from anglelib.paper.hole_rims import arcs_between, middle, rim
from anglelib.paper.unrolled import Unrolled
from anglelib.part import Part
from anglelib.section import Section, other_leg

UNITS = ("in", "mm")


def flat_views(part: Part, shop: Shop, unit: str = "in") -> tuple[Flat, ...]:
    """All flat views of a part; ``unit`` is what the figures are written in."""
    faces = [face_view(part, leg, inner, shop, unit) for leg in ("A", "B") for inner in (False, True)]
    sheets = [unrolled_view(part, inner, shop, unit) for inner in (False, True)]
    return (*faces, *sheets, section_view(part, unit))


def written(value: Number, unit: str) -> str:
    """A length as a figure on the view.

    >>> written(Fraction(13, 8), "in"), written(Fraction(13, 8), "mm")
    ('1 5/8 (1.625)', '41.28')
    """
    if unit == "mm":
        return millimetres(value, 2)
    with writing("in"):  # whatever the part's own unit is
        return both(value)


# --- one face -----------------------------------------------------------------------------------------
def face_view(part: Part, leg: str, inner: bool, shop: Shop, unit: str = "in") -> Flat:
    """A leg's outer or inner face."""
    section, length, up = part.section, float(part.length), direction(leg, inner)
    low = float(section.thickness(other_leg(leg)) + section.fillet) if inner else 0.0
    high = float(section.leg(leg) - (section.toe_radius if inner else 0))
    lines = [line for line in taper_lines(part) if line.leg == leg]
    edges = face_edges(part, leg, inner)
    items: list[Item] = [Outline("FINISHED", edges, True)] if edges else []
    items.append(Outline("BLANK", _box(0.0, low, length, high), True))
    items += [Outline("WASTE", loop, True) for loop in _waste(edges, length, low, high)]
    items.append(Outline("HEEL", chain(((0.0, 0.0), (length, 0.0)))))
    if inner and section.fillet:
        items.append(Outline("TANGENT", chain(((0.0, low), (length, low)))))
    for line in lines:
        items += _saw(part, shop, lambda off, line=line: [(float(line.offset(off).at(h)), h) for h in (low, high)], line.end)
    for line in taper_lines(part) if inner else ():
        if line.other == leg and line.vertex_projection is not None:
            items += _saw(part, shop, lambda off, line=line: _square(line, off, low, high), line.end)
    items += _saw_at_end_2(part, shop, low, high) + _witness(part, low, high) + _holes(part, leg, low, high)
    items = [_flipped(item) for item in items] if up < 0 else items
    marks = _face_marks(part, leg, inner, lines, high)
    heights = _face_heights(part, leg, inner, lines)
    items += figures(part, shop, marks, heights, up, high, lambda value: written(value, unit))
    what = name_of(leg, inner)
    return _flat(part, f"leg-{leg}-{'inner' if inner else 'outer'}", what, items, -up, low=0.0, unit=unit)


def _square(line: TaperLine, off: float, low: float, high: float) -> list[Point]:
    """The line square across the other leg's inner face."""
    x = float(line.offset(off).at(line.other_thickness))
    return [(x, low), (x, high)]


def _box(left: float, low: float, right: float, high: float) -> tuple[Edge, ...]:
    return chain(((left, low), (right, low), (right, high), (left, high), (left, low)))


def _holes(part: Part, leg: str, low: float, high: float) -> list[Item]:
    items: list[Item] = []
    for hole in part.holes_in(leg):
        x, y, r = float(hole.x), float(hole.y), float(hole.diameter) / 2
        if y - r >= low - 1e-12 and y + r <= high + 1e-12:
            items.append(Circle("HOLES", (x, y), r))
        else:
            items += [Outline("HOLES", (arc,)) for arc in arcs_between((x, y), r, low, high)]
        items += _cross((x, y), r)
    return items


def _cross(centre: Point, radius: float) -> list[Item]:
    (x, y), reach = centre, radius + 0.06
    ends = (((x - reach, y), (x + reach, y)), ((x, y - reach), (x, y + reach)))
    return [Outline("CENTRES", chain(pair)) for pair in ends]


def _saw(part: Part, shop: Shop, at, end: int) -> list[Item]:
    """The saw's near and far side along a taper; ``at`` gives the line at a distance, from its own end, as points."""
    items: list[Item] = []
    length = float(part.length)
    near, far = float(shop.allowance), float(shop.allowance + shop.kerf)
    for layer, off, wanted in (("SAW_LINE", near, True), ("KERF", far, bool(shop.kerf))):
        for points in _beyond_end(at(off), length) if wanted else ():
            items.append(Outline(layer, chain((x if end == 1 else length - x, y) for x, y in points)))
    return items


def _saw_at_end_2(part: Part, shop: Shop, low: float, high: float) -> list[Item]:
    """The square saw cut at end 2."""
    length, near, far = float(part.length), float(shop.allowance), float(shop.allowance + shop.kerf)
    items: list[Item] = [Outline("SAW_LINE", chain(((length + near, low), (length + near, high))))]
    if shop.kerf:
        items.append(Outline("KERF", chain(((length + far, low), (length + far, high)))))
    return items


def _witness(part: Part, low: float, high: float) -> list[Item]:
    x = witness_line(part)
    return [] if x is None else [Outline("WITNESS_LINE", chain(((float(x), low), (float(x), high))))]


def _beyond_end(points: Sequence[Point], length: float) -> list[list[Point]]:
    """A chain's stretches between the end (x = 0) and the far end."""
    found: list[list[Point]] = []
    for (x1, y1), (x2, y2) in zip(points, points[1:], strict=False):
        cuts = sorted({0.0, 1.0, *((bound - x1) / (x2 - x1) for bound in (0.0, length) if (x1 - bound) * (x2 - bound) < 0)})
        for a, b in zip(cuts, cuts[1:], strict=False):
            if not -1e-12 <= x1 + (x2 - x1) * (a + b) / 2 <= length + 1e-12:
                continue
            p, q = ((x1 + (x2 - x1) * t, y1 + (y2 - y1) * t) for t in (a, b))
            if found and found[-1][-1] == p:
                found[-1].append(q)
            else:
                found.append([p, q])
    return found


def _waste(edges: Iterable[Edge], length: float, low: float, high: float) -> list[tuple[Edge, ...]]:
    """What the cuts take off a face's blank, each a closed outline: the edges that are not the blank's own, closed round it."""
    def inside(edge: Edge) -> bool:
        if not isinstance(edge, Straight):
            return True
        (x1, y1), (x2, y2) = edge
        near = 1e-9
        return not any(abs(a - v) < near and abs(b - v) < near for a, b, vs in ((x1, x2, (0, length)), (y1, y2, (low, high))) for v in vs)

    listed = list(edges)
    if not listed:
        return [_box(0.0, low, length, high)]
    if all(map(inside, listed)) or not any(map(inside, listed)):
        return []
    while inside(listed[0]) == inside(listed[-1]):  # begin where a cut begins or ends
        listed = [*listed[1:], listed[0]]
    found = []
    for cut, run in groupby(listed, inside):
        if cut:
            run = tuple(run)
            found.append(joined_up((*run, *chain(_round_the_blank(run[-1].last, run[0].first, length, low, high)))))
    return found


def _round_the_blank(start: Point, goal: Point, length: float, low: float, high: float) -> list[Point]:
    """From a place on the blank's edge to another one, clockwise along that edge."""
    corners = [(0.0, low), (0.0, high), (length, high), (length, low)]
    around = [0.0, high - low, high - low + length, 2 * (high - low) + length]
    whole = 2 * (high - low + length)

    def way(p: Point) -> float:
        x, y = p
        if abs(x) < 1e-9:
            return y - low
        if abs(y - high) < 1e-9:
            return around[1] + x
        return around[2] + high - y if abs(x - length) < 1e-9 else around[3] + length - x

    begin, end = way(start), way(goal)
    span = (end - begin) % whole
    passed = sorted((((at - begin) % whole), corner) for at, corner in zip(around, corners, strict=True))
    return [start, *(corner for far, corner in passed if 1e-9 < far < span - 1e-9), goal]


def _flipped(item: Item) -> Item:
    """The same upside down: the heel stays."""
    if isinstance(item, Circle):
        return Circle(item.layer, (item.centre[0], -item.centre[1]), item.radius)
    assert isinstance(item, Outline)
    return Outline(item.layer, carried(item.edges, lambda p: (p[0], -p[1]), True), item.closed)


# --- what has a figure -----------------------------------------------------------------------------------
def _face_marks(part: Part, leg: str, inner: bool, lines: Sequence[TaperLine], high: float) -> list[Mark]:
    marks = [Mark(part.length, 0.0 if inner else high)]
    for line in lines:
        marks.append(Mark(from_end_1(part, line.end, line.last_flat if inner and line.last_flat is not None else line.run), high))
        if inner and line.first_flat is not None:
            low = float(line.other_thickness + part.section.fillet)
            marks.append(Mark(from_end_1(part, line.end, line.first_flat), low))
    for line in taper_lines(part) if inner else ():
        if line.other == leg and line.vertex_projection is not None:
            marks.append(Mark(from_end_1(part, line.end, line.vertex_projection), high))
    marks += [Mark(hole.x, float(hole.y)) for hole in part.holes_in(leg)]
    marks += [Mark(from_end_1(part, cut.end, cut.reach), high) for cut in cuts_of(part, leg) if cut.kind == COPE]
    witness = witness_line(part)
    if witness is not None:
        marks.append(Mark(witness, high))
    return [mark for mark in marks if 0 < float(mark.at) <= float(part.length)]


def _face_heights(part: Part, leg: str, inner: bool, lines: Sequence[TaperLine]) -> list[Mark]:
    section, length = part.section, float(part.length)
    heights = [Mark(section.leg(leg) - (section.toe_radius if inner else 0), length)]
    if inner:
        heights.append(Mark(section.thickness(other_leg(leg)) + section.fillet, length))
    rows: dict[Fraction, float] = {}
    for hole in part.holes_in(leg):
        rows[hole.y] = float(hole.x)
    heights += [Mark(y, x) for y, x in rows.items()]
    for cut in cuts_of(part, leg):
        if cut.left and (not inner or cut.left >= section.thickness(other_leg(leg)) + section.fillet):
            heights.append(Mark(cut.left, 0.0 if cut.end == 1 else length))
    return heights


# --- the unrolled sheets ------------------------------------------------------------------------------------
def unrolled_view(part: Part, inner: bool, shop: Shop, unit: str = "in") -> Flat:
    """Both outer faces hinged on the heel, or both inner faces with the fillet developed between them."""
    sheet, length, up = Unrolled(part, inner), float(part.length), 1 if inner else -1
    low, high = sheet.extent
    items: list[Item] = []
    for piece in sheet.pieces:
        items.append(Outline("FINISHED", piece.outline, True))
    if len(sheet.pieces) == 1:
        items += [Outline("WASTE", loop, True) for loop in _waste(sheet.pieces[0].outline, length, low, high)]
    items.append(Outline("BLANK", _box(0.0, low, length, high), True))
    for zone in sheet.zones:
        if not zone.leg:
            items += [Outline("TANGENT", chain(((0.0, v), (length, v)))) for v in (zone.start, zone.end)]
    items.append(Outline("FOLD", chain(((0.0, 0.0), (length, 0.0)))))
    for line in taper_lines(part):
        items += _saw(part, shop, lambda off, line=line: taper_path(sheet.zones, line, off), line.end)
    items += _saw_at_end_2(part, shop, low, high) + _witness(part, low, high)
    for hole in part.holes:
        centre, edge = middle(sheet, hole), rim(sheet, hole)
        items.append(Circle("HOLES", centre, float(hole.diameter) / 2) if edge is None else Outline("HOLES", edge))
        items += _cross(centre, float(hole.diameter) / 2)
    items = [_flipped(item) for item in items] if up < 0 else items
    upper, lower = ("A", "B") if inner else ("B", "A")
    for leg, way in ((upper, 1), (lower, -1)):
        reach = high if leg == "A" else -low
        marks = _sheet_marks(part, leg, inner, reach)
        items += figures(part, shop, marks, [], way, reach, lambda value: written(value, unit))
    items += _zone_widths(sheet, up, float(shop.allowance + shop.kerf), unit)
    what = "inner faces unrolled, the fillet developed" if inner else "outer faces unrolled, hinged on the heel"
    top = max(item_y for item in items for _, item_y in item.points)
    return _flat(part, "inside-twin" if inner else "fold-sheet", what, items, 1, low=top + LETTER, unit=unit)


def _sheet_marks(part: Part, leg: str, inner: bool, reach: float) -> list[Mark]:
    lines = [line for line in taper_lines(part) if line.leg == leg]
    return [Mark(mark.at, reach) for mark in _face_marks(part, leg, inner, lines, reach)]


def _zone_widths(sheet: Unrolled, up: int, over: float, unit: str) -> list[Item]:
    x = float(sheet.part.length)
    at = x + over + 4 * LETTER
    items: list[Item] = []
    for zone in sheet.zones:
        first, last = sorted((up * zone.start, up * zone.end))
        base = at + (0 if zone.leg else 10 * LETTER)
        items.append(Linear("y", (x, first), (x, last), (base, (first + last) / 2), written(abs(zone.end - zone.start), unit)))
    return items


# --- the section ----------------------------------------------------------------------------------------------
def section_view(part: Part, unit: str = "in") -> Flat:
    """The cross-section, leg A to the right along x, leg B upwards."""
    section: Section = part.section
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb, away = float(section.thickness_a), float(section.thickness("B")), 4 * LETTER
    items: list[Item] = [
        Outline("FINISHED", section_edges(section), True),
        Linear("x", (0.0, 0.0), (a, 0.0), (a / 2, -away), written(section.leg_a, unit)),
        Linear("y", (0.0, 0.0), (0.0, b), (-away, b / 2), written(section.leg_b, unit)),
        Linear("y", (a, 0.0), (a, ta), (a + away, ta / 2), written(section.thickness_a, unit)),
        Linear("x", (0.0, b), (tb, b), (tb / 2, b + away), written(section.thickness("B"), unit)),
    ]
    names = (("fillet", section.fillet), ("toe radius", section.toe_radius), ("heel radius", section.heel_radius))
    words = [f"{name} {written(radius, unit)}" for name, radius in names if radius]
    x = tb + float(section.fillet) + LETTER
    for n, text in enumerate(words):
        items.append(Words((x, ta + float(section.fillet) + LETTER * (1 + 2 * n)), text, LETTER))
    return _flat(part, "section", "section, leg A to the right, leg B up", items, -1, low=0.0, unit=unit)


# --- what every view has ------------------------------------------------------------------------------------------
def _flat(part: Part, name: str, what: str, items: list[Item], side: int, low: float, unit: str) -> Flat:
    """The view with its two lines of words, beyond everything else on ``side`` (1: above, -1: below)."""
    items = [item for item in items if not isinstance(item, Outline) or item.edges]  # a flat may be 0 wide
    drawn = [y for item in items for _, y in item.points]
    edge = max(max(drawn), low) if side > 0 else min(min(drawn), low)
    hand = f", {part.hand}" if part.hand in ("left", "right") else ""
    title = f"{part.id} {part.name}{hand if hand not in part.name else ''}: {what}"
    facts = f"section {part.section.size}, {part.alloy}, length {written(part.length, unit)}; true size, {'inches' if unit == 'in' else 'millimetres'}"
    lines = [title, facts, *_features(part, unit)] if name != "section" else [title, facts]
    tops = [edge + 2 * LETTER * (len(lines) - n) if side > 0 else edge - LETTER * (3 + 2 * n) for n in range(len(lines))]
    items = [*items, *(Words((0.0, y), text, LETTER) for y, text in zip(tops, lines, strict=True))]
    if name != "section":
        ys = [y for item in items if isinstance(item, Outline) and item.layer == "BLANK" for _, y in item.points]
        left, middle = min(x for item in items for x, _ in item.points), (min(ys) + max(ys)) / 2 if ys else 0.0
        items.append(Words((left - 5.5 * LETTER, middle - LETTER / 2), "end 1", LETTER))
    holes = sum(isinstance(item, Circle) for item in items)
    sentence = f"{title[0].upper()}{title[1:]}; {facts}; {holes} round hole{'' if holes == 1 else 's'} shown."
    return Flat(name, title, sentence, tuple(items))


def _features(part: Part, unit: str) -> list[str]:
    """Diameters and radii in words."""
    words = []
    if part.holes:
        words.append("holes at the fastener's diameter: " + ", ".join(written(d, unit) for d in sorted({hole.diameter for hole in part.holes})))
    words += [f"corner of leg {c.leg} at end {c.end}: radius {written(c.radius, unit)}" for c in part.corners]
    words += [f"inside corner of the cope of leg {c.leg} at end {c.end}: radius {written(c.radius, unit)}" for c in part.copes]
    return words
