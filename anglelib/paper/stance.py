"""Small pictures of how the angle sits at the saw: across it, and for a taper also from above.

Each shows what is flat on the table, which faces carry the line (thick), where the blade goes in and
comes out, what height the guide clears, and which blades suit. The blade is a band saw's: upright, its table level. Not
to scale; the shapes are the section's own.

>>> from anglelib.geometry.setup import square_cut
>>> from anglelib.section import Section
>>> picture = square_picture(square_cut(Section("3/4", "3/4", "1/8", fillet="1/8")), Section("3/4", "3/4", "1/8", fillet="1/8"))
>>> [item.text for item in picture if isinstance(item, Label)]
['guide', '5/8', '(0.619)', 'B', 'A', 'in', 'out', 'teeth 18 or 24']
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from anglelib.drawing.dimensions import arrow
from anglelib.drawing.face import clip
from anglelib.drawing.letters import text_width
from anglelib.drawing.outline import arc_points, section_outline
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Point, Polyline, move, polygon, scale
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.setup import INSIDE_UP, OUTSIDE_UP, Setup
from anglelib.geometry.taper import TaperLine
from anglelib.geometry.throat import mirrored
from anglelib.job import Shop
from anglelib.lengths import decimal, show, unit_written
from anglelib.paper.page import FIGURE, SMALL, clearest
from anglelib.section import Section

LARGEST = 15.5
"""The wider leg on the paper [mm]."""
BLADE = 1.6
"""Thickness of the blade on the paper, seen edge on [mm]; as wide as a line would hide it."""
_LIFT = 2.0
"""Clear height under the guide on the paper [mm]."""


def _unit(section: Section) -> float:
    return min(25.4, LARGEST / float(max(section.leg_a, section.leg_b)))


def _table(left: float, right: float) -> Group:
    """The table at y = 0, hatched under its top."""
    return (Line(left, 0, right, 0, "outline"), Hatch(((left, -1.8), (right, -1.8), (right, 0), (left, 0)), 45, 1.6))


def _blade(x: float, top: float, foot: float) -> Group:
    """The blade from its guide down through the table, teeth towards the left, and the guide."""
    teeth: list[Point] = []
    y = foot
    while y < top + 0.01:
        teeth += [(x - BLADE / 2, y), (x - BLADE / 2 - 0.7, y + 0.5)]
        y += 1.5
    return (
        polygon([*teeth, (x - BLADE / 2, top + 1), (x + BLADE / 2, top + 1), (x + BLADE / 2, foot)], "narrow", "paper"),
        polygon(((x - 3.2, top), (x + 3.2, top), (x + 3.2, top + 4.5), (x - 3.2, top + 4.5)), "narrow", "paper"),
        Hatch(((x - 3.2, top), (x + 3.2, top), (x + 3.2, top + 4.5), (x - 3.2, top + 4.5)), 135, 1.2),
    )


def _height(x: float, high: float, height: Fraction, start: float) -> Group:
    """The height that the guide clears, from the table to y = ``high``, in rows right of the line; in inches its decimal too."""
    tip, row = min(2.5, high * 0.35), max(high / 2, 9.0)
    rows = [show(height, 64, "up"), *([f"({decimal(height)})"] if unit_written() == "in" else [])]
    return (
        Line(start, high, x + 1.5, high, "dimension"),
        Line(x, 0, x, high, "dimension"),
        arrow(x, high, 90, tip),
        arrow(x, 0, -90, tip),
        Label(x + 2, row + 4.9, "guide", SMALL, "start", "middle"),
        *(Label(x + 2, row - 5.4 * n, text, FIGURE, "start", "middle") for n, text in enumerate(rows)),
    )


def square_picture(setup: Setup, section: Section) -> Group:
    """The angle heel up on both toes, seen along the heel; the table is y = 0, the heel's foot x = 0 [mm]."""
    unit = _unit(section)
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb = float(section.thickness_a), float(section.thickness("B"))
    high = float(setup.height)
    gamma = math.atan2(b - ta, a - tb)

    def place(y: float, z: float) -> Point:
        # across: from leg B's toe to leg A's; up: the heel's height less what the point lies below it
        across = y * math.cos(gamma) - z * math.sin(gamma)
        down = y * math.sin(gamma) + z * math.cos(gamma)
        return across * unit, (high - down) * unit

    outline = [place(y, z) for y, z in section_outline(section)]
    toe_a, toe_b, heel = place(a, 0), place(0, b), place(0, 0)
    left, right = toe_b[0] - 5, toe_a[0] + 20
    items: list[Item] = list(_table(left, right))
    x = toe_a[0] + 6.6
    items += _blade(x, heel[1] + _LIFT, -3.2)
    items += [polygon(outline, "outline", "paper"), Hatch(tuple(outline), 45, 1.4)]
    names: list[list[Group]] = []
    for toe in (toe_b, toe_a):  # the line on both outer faces
        dx, dy = toe[0] - heel[0], toe[1] - heel[1]
        long = math.hypot(dx, dy)
        nx, ny = (-dy / long, dx / long) if toe is toe_a else (dy / long, -dx / long)
        names.append(
            [
                (Label(heel[0] + t * dx + nx * off, heel[1] + t * dy + ny * off, "A" if toe is toe_a else "B", FIGURE, "middle", "middle"),)
                for t in (0.62, 0.75, 0.45, 0.3, 0.9, 0.1, 1.1)
                for off in (3.7, 4.6, 6.0, 3.2, 2.8)
            ]
        )
        items.append(Line(heel[0] + nx * 0.9, heel[1] + ny * 0.9, toe[0] + nx * 0.9, toe[1] + ny * 0.9, "mark", True))
    items += _height(x + 6, heel[1], setup.height, heel[0] + 1.5)
    for ways in names:
        items += clearest(items, ways)
    items += [Label(toe_a[0] + 1.2, -6.4, "in", SMALL, "end"), Label(toe_b[0] - 1, -6.4, "out", SMALL, "start")]
    items.append(Label(toe_a[0] + 4.4, -6.4, _teeth(setup), SMALL, "start"))
    return tuple(items)


# --- tapers ---------------------------------------------------------------------------------------------
def toe_side(line: TaperLine, stance: str) -> int:
    """Whether the toe lies right (1) or left (-1) of the heel, seen from the tapered end along the heel."""
    return 1 if mirrored(line.leg, line.end, stance) else -1


def _seen(line: TaperLine) -> Section:
    """The section with the tapered leg as leg A."""
    return line.section if line.leg == "A" else line.section.swapped()


def taper_picture(setup: Setup, line: TaperLine) -> Group:
    """The angle across, seen from the tapered end; the table is y = 0, the section's middle x = 0 [mm]."""
    section = _seen(line)
    unit = _unit(section)
    w, b, t = float(section.leg_a), float(section.leg_b), float(section.thickness_a)
    other = float(section.thickness("B"))
    block = float(setup.block.height) * unit if setup.block else 0.0
    side = toe_side(line, setup.stance)
    top = float(setup.height) * unit

    def place(u: float, z: float) -> Point:
        """u from the heel towards the toe, z from the flat leg's outer face towards its inner one."""
        return side * (u - w / 2) * unit, z * unit if setup.stance == INSIDE_UP else block + (t - z) * unit

    outline = [place(u, z) for u, z in section_outline(section)]
    half = w / 2 * unit
    left, right = -half - 6, half + 6
    items: list[Item] = list(_table(left, right))
    x = place(0.62 * w, 0)[0]
    if setup.block:
        items += _block(place(other, 0)[0], place(w, 0)[0], block, 1.3 * float(setup.block.relief) * unit)
    items += _blade(x, top + _LIFT, -3.2)
    items += [polygon(outline, "outline", "paper"), Hatch(tuple(outline), 45, 1.4)]
    items += _marked(setup, line, section, place, unit)
    foot = place(w, 0)[0]
    stand = place(other / 2, b)
    names: list[list[Group]] = []
    beside = half
    if setup.stance == INSIDE_UP:
        names.append([(Label(stand[0] + dx, stand[1] + 1.4, line.other, FIGURE, "middle"),) for dx in (0, -side * 4, side * 4)])
        names.append([(Label(foot + side * dx, 1.0 + dy, line.leg, FIGURE, "middle"),) for dx, dy in ((3.0, 0), (4.5, 0), (3.0, 2), (-2, t * unit + 1))])
    else:
        names.append([(Label(stand[0] - side * dx, b * unit / 2, line.other, FIGURE, "middle", "middle"),) for dx in (4.4, 6.0)])
        names.append([(Label(foot + side * dx, block + 0.9 + dy, line.leg, FIGURE, "middle"),) for dx, dy in ((3.4, 0), (5.0, 0), (3.4, 2), (5, 3))])
        under = f"block {show(setup.block.height, 64, 'up')}"
        items.append(Label(left, -6.4, under, SMALL, "start"))
        beside = left + text_width(under, SMALL) + 2
    name = 6.0 if side > 0 else 1.5  # clear of the flat leg's name
    items += _height(half + 9, top, setup.height, half + name)
    items.append(Label(max(half + 1.5, beside), -6.4, _teeth(setup), SMALL, "start"))
    for ways in names:
        items += clearest(items, ways)
    return tuple(items)


def _block(inner: float, toe: float, high: float, relief: float) -> Group:
    """The block from the hanging leg's inner face to the toe, its edge taken off beside the fillet."""
    side = 1 if toe > inner else -1
    corners = ((inner, 0), (toe, 0), (toe, high), (inner + side * relief, high), (inner, high - relief))
    return (polygon(corners, "narrow", "paper"), Hatch(corners, 15, 2.4))


def _teeth(setup: Setup) -> str:
    """The blades that suit a way of cutting."""
    from anglelib.geometry.teeth import teeth_of  # a lesson shows how the angle sits, and no blade

    return f"teeth {teeth_of(setup).words}"


def side_by_side(line: TaperLine, setups: Sequence[tuple[Setup, str]], words: float) -> list[Item]:
    """Ways to lay the angle for one cut, next to one another, each with its title ``words`` high on the picture [mm]."""
    items: list[Item] = []
    for number, (setup, title) in enumerate(setups):
        x = 42.0 + 100 * number
        items += move(scale(taper_picture(setup, line), 1.5), x, 14)
        items.append(Label(x - 16, words, title, 3.5, "start"))
    return items


def _marked(setup: Setup, line: TaperLine, section: Section, place, unit: float) -> Group:
    """The faces that carry the line, thick beside the metal."""
    w, t, other = float(section.leg_a), float(section.thickness_a), float(section.thickness("B"))
    r, toe = float(section.fillet), float(section.toe_radius)
    off = 0.9 / unit
    if setup.stance == OUTSIDE_UP:
        path = [(float(line.width_left), -off), (w, -off)]
    else:
        path = [(w - toe, t + off)]
        if line.ends_in == "flat":
            path.append((float(line.width_left), t + off))
        elif r > off:
            path += arc_points(other + r, t + r, r - off, 270, 180)
        else:
            path.append((other + off, t + off))
        if line.vertex_projection is not None:
            path.append((other + off, float(section.leg_b)))
    return (Polyline(tuple(place(u, z) for u, z in path), "mark", accent=True),)


def plan_picture(setup: Setup, line: TaperLine, shop: Shop, width: float, height: float, turned: bool = False) -> Group:
    """The same from above: the line, the saw's band, the blade; within a box from (0, 0) [mm]. ``turned``: it goes in at the toe."""
    section = _seen(line)
    w, other = float(section.leg_a), float(section.thickness("B"))
    end_room, far_room = 16.0, 2.0
    rise = math.sin(math.radians(line.angle))
    comes_out, goes_in = 7.0 * rise + 2.0, 11.2 * rise + 2.0
    beyond_toe, below_heel = (goes_in, comes_out) if turned else (comes_out, goes_in)
    unit = min(_unit(section), (height - beyond_toe - below_heel) / w, (width - end_room - 15.0) / float(line.run))  # beyond the run: where the blade comes out
    below_heel = max(2.0, below_heel - float(line.width_left) * unit)
    way = 1 if line.end == 1 else -1
    up = -toe_side(line, setup.stance) * way
    x0 = end_room if way > 0 else width - end_room
    spare = (height - w * unit - beyond_toe - below_heel) / 2
    heel = below_heel + spare if up > 0 else height - below_heel - spare
    far = (width - end_room - far_room) / unit

    def place(d: float, h: float) -> Point:
        return x0 + way * d * unit, heel + up * h * unit

    items: list[Item] = []
    if setup.block:  # underneath
        corners = ((-4 / unit, other), (float(line.run) + 3 / unit, w))
        (d1, h1), (d2, h2) = corners
        items.append(polygon([place(d1, h1), place(d2, h1), place(d2, h2), place(d1, h2)], "hidden"))
    metal = [place(far, 0), place(0, 0), place(0, w), place(far, w)]
    items.append(polygon(metal, "", "paper"))
    items.append(Polyline(tuple(metal), "outline"))
    bottom, top = sorted((place(0, 0)[1], place(0, w)[1]))
    items.append(zigzag(place(far, 0)[0], bottom, top))
    items.append(Line(*place(0, other), *place(far, other), "outline" if setup.stance == INSIDE_UP else "hidden"))
    allowance, kerf = float(shop.allowance), float(shop.kerf)

    def inside(off: float):
        shift = line.shift_along(off)
        return lambda d, h: float(line.at(h)) - shift - d

    # the saw's plane is upright: from above it is one straight line over both legs
    waste = clip([(0.0, 0.0), (far, 0.0), (far, w), (0.0, w)], inside(allowance))
    past = inside(allowance + kerf)
    band = clip(waste, lambda d, h: -past(d, h))
    if len(band) > 2:
        items.append(polygon([place(d, h) for d, h in band], "cut", "paper"))
    items.append(Line(*place(0, float(line.width_left)), *place(float(line.run), w), "mark", True))
    # the blade: in at the end, out at the toe
    off = allowance + kerf / 2
    enter_h = float(line.width_left) + line.shift_across(off)
    run = float(line.at(w)) - line.shift_along(off)
    slope = math.atan2(up * (w - enter_h), way * run)
    ex, ey = place(0, enter_h)
    ox, oy = place(run, w)
    if turned:
        (ex, ey), (ox, oy), slope = (ox, oy), (ex, ey), slope + math.pi
    c, s = math.cos(slope), math.sin(slope)
    items += _saw(ex - c * 6.5, ey - s * 6.5, slope)
    items.append(Label(ex - c * 11.2, ey - s * 11.2, "in", SMALL, "end" if c > 0 else "start", "middle", halo=True))
    items += [
        Line(ox + c * 1.0, oy + s * 1.0, ox + c * 4.5, oy + s * 4.5, "dimension"),
        arrow(ox + c * 5.5, oy + s * 5.5, math.degrees(slope), 2.2),
        Label(ox + c * 6.4, oy + s * 6.4, "out", SMALL, "start" if c > 0 else "end", "middle", halo=True),
    ]
    return tuple(items)


def _saw(x: float, y: float, slope: float) -> Group:
    """The blade from above: a small bar along the cut, and the way it goes through the work."""
    c, s = math.cos(slope), math.sin(slope)
    long, thin = 3.6, 0.55

    def at(u: float, v: float) -> Point:
        return x + u * c - v * s, y + u * s + v * c

    bar = polygon([at(-long, -thin), at(0, -thin), at(0, thin), at(-long, thin)], "", "ink")
    return (bar, Line(*at(0.6, 0), *at(4.4, 0), "dimension"), arrow(*at(5.6, 0), math.degrees(slope), 2.2))


def pictured(tapers: Sequence[tuple[Setup, TaperLine]]) -> list[tuple[Setup, TaperLine, list[TaperLine]]]:
    """The setups that look different, each with the tapers that it serves."""
    found: list[tuple[Setup, TaperLine, list[TaperLine]]] = []
    for setup, line in tapers:
        for kept, first, served in found:
            alike = (kept.stance, first.leg, first.width_left, first.slope) == (
                setup.stance, line.leg, line.width_left, line.slope
            )  # fmt: skip
            if alike:
                served.append(line)
                break
        else:
            found.append((setup, line, [line]))
    return found


def picture_sentence(setup: Setup, line: TaperLine) -> str:
    """What a taper's picture shows, in words."""
    return f"{setup.words}: the blade goes in {setup.enters} and comes out {setup.leaves}"


