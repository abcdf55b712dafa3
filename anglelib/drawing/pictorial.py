"""The finished part in space: a parallel projection, hidden edges dashed, long parts broken.

'inside': leg A stands at the back, leg B lies towards the reader, and both inner faces show.
'outside': the same part rolled half round the heel's direction, so that both outer faces show. End 1
is at the left either way, so left- and right-hand parts look different, as they do on the bench.

>>> from anglelib.section import Section
>>> from anglelib.part import Part, Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1", "Floor cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> pictorial_sheet(cleat).sentence
'Part A1 in space, seen from the inside, end 1 (the datum) at the left: leg A stands at the back, leg B lies towards you; leg A is tapered at end 1.'
"""

from __future__ import annotations

import math
from typing import Protocol

from anglelib.drawing.checks import bounds
from anglelib.drawing.dimensions import leader
from anglelib.drawing.face import Axis
from anglelib.drawing.frame import EDGE, SCALES, footer, paragraph, scale_text, unbroken_first
from anglelib.drawing.letters import text_width
from anglelib.drawing.outer_view import features_along
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Group, Item, Line, Point, Polyline, Sheet, move, polygon
from anglelib.drawing.solid_lines import Camera, Hider, Place, drawn, edges_of, faces_of
from anglelib.geometry.taper import taper_lines
from anglelib.part import Part

SIDES = ("inside", "outside")
DIMETRIC = Camera()


class View(Protocol):
    """What lines are drawn through: a place of the part in the space that the camera looks at, mirrored or not."""

    camera: Camera
    mirrored: bool

    def turned(self, place: Place) -> Place:
        """A place of the part in that space, in millimetres."""


class Projection:
    """From a place of the part [in] to the paper [mm]: the break squeezed, the part rolled, the camera, the scale."""

    mirrored = False

    def __init__(self, axis: Axis, side: str = "inside", camera: Camera = DIMETRIC) -> None:
        if side not in SIDES:
            raise ValueError(f"side is one of {', '.join(SIDES)}")
        self.axis, self.side, self.camera, self.unit = axis, side, camera, axis.unit

    def turned(self, place: Place) -> Place:
        """A place of the part in the space that the camera looks at, in millimetres."""
        x, y, z = place
        x = self.axis.at(x)
        if self.side == "inside":
            return x, y * self.unit, z * self.unit
        return x, -y * self.unit, -z * self.unit

    def at(self, place: Place) -> Point:
        """A place of the part on the paper."""
        x, y, _ = self.camera.paper(self.turned(place))
        return x, y


def pictorial(part: Part, axis: Axis, *, side: str = "inside", hidden: bool = True, camera: Camera = DIMETRIC) -> Group:
    """The part's edges, wide where seen and dashed where hidden; holes on the faces that are seen."""
    view = Projection(axis, side, camera)
    return (*in_view(part, view, hidden), *_breaks(part, view))


def in_view(part: Part, view: View, hidden: bool = True) -> Group:
    """The part's edges as any view shows them: turned in space, or in a mirror."""
    raw = faces_of(part)
    faces = [[view.turned(place) for place in (face[::-1] if view.mirrored else face)] for face in raw]
    hider = Hider(faces, view.camera)
    edges = [edge for edge in edges_of(faces) if drawn(edge, view.camera)]
    seen: list[Item] = []
    dashed: list[Item] = []
    for edge in edges:
        for one, two, visible in hider.pieces(edge.start, edge.end):
            if visible:
                seen.append(Line(*one, *two, "outline"))
            elif hidden:
                dashed.append(Line(*one, *two, "hidden"))
    narrow: list[Item] = []
    for start, end in _tangents(part, raw):
        pieces = hider.pieces(view.turned(start), view.turned(end))
        narrow += [Line(*one, *two, "tangent") for one, two, visible in pieces if visible]
    narrow += _holes(part, view, hider)
    return (*_chained(dashed, "hidden"), *narrow, *_chained(seen, "outline"))


def extent(part: Part, axis: Axis, *, side: str = "inside", camera: Camera = DIMETRIC) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the picture, before it is drawn [mm]: those of the uncut angle."""
    view = Projection(axis, side, camera)
    a, b = float(part.section.leg_a), float(part.section.leg_b)
    places = [view.at((x, y, z)) for x in (0.0, float(part.length)) for y, z in ((0.0, 0.0), (a, 0.0), (0.0, b))]
    xs, ys = [x for x, _ in places], [y for _, y in places]
    return min(xs), min(ys), max(xs), max(ys)


def _tangents(part: Part, faces: list[list[Place]]) -> list[tuple[Place, Place]]:
    """Where the flats run into the fillet: narrow lines that end at the cuts."""
    section = part.section
    if not section.fillet:
        return []
    ta, tb, r = float(section.thickness_a), float(section.thickness("B")), float(section.fillet)
    lines = []
    for y, z in ((tb + r, ta), (tb, ta + r)):
        for face in faces:
            on = [p for p in face if math.dist(p[1:], (y, z)) < 1e-6]
            if len(on) == 2 and math.dist(*on) > 1e-6:
                lines.append((on[0], on[1]))
                break
    return lines


def _holes(part: Part, view: View, hider: Hider) -> Group:
    """Each hole's rim on the face that is seen."""
    items: list[Item] = []
    for hole in part.holes:
        thick = float(part.section.thickness(hole.leg))
        x, y, r = float(hole.x), float(hole.y), float(hole.diameter) / 2
        across = [(x, y, d) if hole.leg == "A" else (x, d, y) for d in (0.0, thick)]
        outer, inner = (view.camera.paper(view.turned(place))[2] for place in across)
        depth = thick if inner > outer else 0.0
        run: list[Point] = []
        rim: list[tuple[Place, bool]] = []
        for i in range(33):
            turn = 2 * math.pi * i / 32
            u, h = x + r * math.cos(turn), y + r * math.sin(turn)
            place = view.turned((u, h, depth) if hole.leg == "A" else (u, depth, h))
            paper = view.camera.paper(place)
            rim.append((paper, not hider.hides(paper[0], paper[1], paper[2] + 1e-4)))
        for (paper, visible), (_, after) in zip(rim, [*rim[1:], rim[0]]):
            if visible:
                run.append((paper[0], paper[1]))
            if run and not (visible and after):
                if len(run) > 1:
                    items.append(Polyline(tuple(run), "narrow"))
                run = []
        if len(run) > 1:
            items.append(Polyline(tuple(run), "narrow"))
    return tuple(items)


def _chained(lines: list[Item], kind: str) -> Group:
    """Lines that meet end to end as polylines, so that corners are closed and dashes run on."""
    chains: list[list[Point]] = []
    ends: dict[tuple[int, int], list[Point]] = {}

    def key(point: Point) -> tuple[int, int]:
        return round(point[0] * 1000), round(point[1] * 1000)

    for line in lines:
        one, two = (line.x1, line.y1), (line.x2, line.y2)
        chain = ends.pop(key(one), None)
        if chain is None:
            one, two = two, one
            chain = ends.pop(key(one), None)
        if chain is None:
            chain = [one, two]
            chains.append(chain)
            ends[key(one)] = chain
        elif key(chain[-1]) == key(one):
            chain.append(two)
        else:
            chain.insert(0, two)
        ends[key(two)] = chain
    return tuple(Line(*chain[0], *chain[1], kind) if len(chain) == 2 else Polyline(tuple(chain), kind) for chain in chains)


def _breaks(part: Part, view: Projection) -> Group:
    """A band of paper across the part where it is drawn shorter, between two narrow lines."""
    outline = section_outline(part.section, 15)
    a, b = float(part.section.leg_a), float(part.section.leg_b)
    if view.side == "inside":
        profile = outline[outline.index((a, 0.0)) :]
    else:
        profile = [(0.0, b), *outline[: outline.index((a, 0.0)) + 1], (a, float(part.section.thickness_a))]
        profile.insert(0, (float(part.section.thickness("B")), b))
    items: list[Item] = []
    for before, after in zip(view.axis.stretches, view.axis.stretches[1:]):
        one = [view.at((before.end, y, z)) for y, z in profile]
        two = [view.at((after.start, y, z)) for y, z in profile]
        items.append(polygon([*one, *reversed(two)], "", "paper"))
        items += [Polyline(tuple(one), "break"), Polyline(tuple(two), "break")]
    return tuple(items)


def _names(part: Part, view: Projection, letter: float) -> Group:
    """The heel, the toes where they are at full width, and the datum end."""
    section = part.section
    a, b = float(section.leg_a), float(section.leg_b)
    ta, tb = float(section.thickness_a), float(section.thickness("B"))
    inside = view.side == "inside"
    up = 1 if inside else -1
    toe_a = view.at((_on_toe(part, "A", view.axis), a, 0.0 if inside else ta))
    toe_b = view.at((_on_toe(part, "B", view.axis), tb if inside else 0.0, b))
    items: list[Item] = []
    for tip, name, way in ((toe_a, "toe of leg A", up), (toe_b, "toe of leg B", -up)):
        items += leader(tip, (tip[0] - way * 7, tip[1] + way * 9), name, letter=letter)
    start = view.at((0.0, 0.0, 0.0))
    if inside:
        left = next((float(t.width_left) for t in taper_lines(part) if (t.end, t.leg) == (1, "A")), a)
        face = view.at((0.0, left / 2, 0.0))
        items += leader(face, (start[0] - 7, max(start[1], face[1]) + 7), "end 1, datum", letter=letter)
    else:
        items += leader(start, (start[0] - 7, start[1] - 7), "end 1, datum", letter=letter)
    if inside:
        items += leader(start, (start[0] - 7, start[1] - 5), "heel", letter=letter)
    else:
        end = view.at((float(part.length), 0.0, 0.0))
        items += leader(end, (end[0] + 7, end[1]), "heel", letter=letter)
    return tuple(items)


def _on_toe(part: Part, leg: str, axis: Axis) -> float:
    """A place along the heel where a leg still has its full width: the middle of the longest stretch shown [in]."""
    low, high = 0.0, float(part.length)
    for line in taper_lines(part):
        if line.leg == leg:
            low, high = (max(low, float(line.run)), high) if line.end == 1 else (low, min(high, high - float(line.run)))
    spans = [(max(low, s.start), min(high, s.end)) for s in axis.stretches]
    first, last = max(spans, key=lambda span: span[1] - span[0])
    return (first + last) / 2


def pictorial_sheet(
    part: Part,
    *,
    side: str = "inside",
    width: float = 200,
    height: float = 116,
    letter: float = 3.5,
    names: bool = True,
    camera: Camera = DIMETRIC,
) -> Sheet:
    """The part in space on a sheet of its own."""
    title = paragraph(EDGE, height - 4, f"{part.id} {part.name}, seen from the {side}", width - 2 * EDGE, letter)
    low, high = 12.0, bounds(title)[1] - 2
    wide, tall = width - 2 * EDGE, high - low
    if names:
        wide, tall = wide - 2 * text_width("end 1, datum", letter), tall - 8
    shown: Group = ()
    along = wide / math.cos(math.radians(camera.around))
    for scale in unbroken_first(SCALES, along / 25.4 / float(part.length + part.section.leg_b / 2)):
        unit = 25.4 * float(scale)
        room = along - float(part.section.leg_b) * unit / 2
        axis = Axis.fit(float(part.length), features_along(part), room, unit)
        left, bottom, right, top = extent(part, axis, side=side, camera=camera)
        if scale != SCALES[-1] and (right - left > wide or top - bottom > tall):
            continue
        shown = pictorial(part, axis, side=side, camera=camera)
        if names:
            shown += _names(part, Projection(axis, side, camera), letter)
        left, bottom, right, top = bounds(shown)
        if right - left <= width - 2 * EDGE and top - bottom <= high - low:
            break
    shown = move(shown, width / 2 - (left + right) / 2, (low + high) / 2 - (bottom + top) / 2)
    words = f"part {part.id}, about {scale_text(scale)}, in space: not to be measured"
    items = title + shown + footer(width, words, projection=False)
    return Sheet(width, height, items, f"Part {part.id} in space", pictorial_sentence(part, side))


def pictorial_sentence(part: Part, side: str = "inside") -> str:
    """What the picture shows, in words."""
    words = f"Part {part.id} in space, seen from the {side}, end 1 (the datum) at the left: "
    words += (
        "leg A stands at the back, leg B lies towards you"
        if side == "inside"
        else "leg A hangs towards you, leg B lies on top, away from you"
    )
    words += "".join(f"; leg {line.leg} is tapered at end {line.end}" for line in taper_lines(part))
    if part.holes:
        words += f"; {len(part.holes)} hole{'s' if len(part.holes) > 1 else ''}"
    return words + "."
