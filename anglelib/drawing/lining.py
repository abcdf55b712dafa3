"""The angle seen from the inside, and a sheet of paper that lines it: folded, on its way down, or flat.

The tapered leg lies flat with its toe towards the viewer, the other leg stands behind it. Where the
tapered end then lies, left or right, is what makes the hand (:func:`way`): a picture that is drawn
with the end at the left is turned into its mirror image for the other hand.

w runs round the inside from the tapered leg's toe, x along the heel from the tapered end; y and z are
those of the section, with the tapered leg along y. All [in].

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> lining = Lining(TaperLine.of(Section(1, 1, "1/8"), Taper("A", 1, run="2")))
>>> lining.path
[(0.0, 2.0), (0.875, 0.25), (1.75, 0.25)]
>>> lining.folded(1.75, opened=0), lining.folded(1.75, opened=1)
((0.125, 1.0), (-0.75, 0.125))
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Arc, Circle, Group, Hatch, Item, Line, Point, Polyline
from anglelib.geometry.taper import Number, TaperLine
from anglelib.lengths import both

Place = tuple[float, float, float]


def way(line: TaperLine) -> int:
    """1 where the tapered end lies at the left of the viewer, -1 where it lies at the right.

    x from end 1, y on leg A and z on leg B are a right-handed frame.

    >>> from anglelib.part import Taper
    >>> from anglelib.section import Section
    >>> [way(TaperLine.of(Section(1, 1, "1/8"), Taper(leg, end, run=2))) for leg in "AB" for end in (1, 2)]
    [-1, 1, 1, -1]
    """
    return -1 if (line.leg == "A") == (line.end == 1) else 1


def mirrored(items: Iterable[Item], width: float) -> Group:
    """The mirror image of a drawing on a sheet so wide; its words stay readable."""
    return tuple(_mirrored(item, width) for item in items)


def _mirrored(item: Item, width: float) -> Item:
    if isinstance(item, Line):
        return replace(item, x1=width - item.x1, x2=width - item.x2)
    if isinstance(item, (Polyline, Hatch)):
        turned = replace(item, points=tuple((width - x, y) for x, y in item.points))
        return replace(turned, angle=180 - item.angle) if isinstance(item, Hatch) else turned
    if isinstance(item, Arc):
        return replace(item, x=width - item.x, start=180 - item.end, end=180 - item.start)
    if isinstance(item, Circle):
        return replace(item, x=width - item.x)
    anchor = {"start": "end", "end": "start"}.get(item.anchor, item.anchor)
    if abs(item.rotation) == 90:  # read from the right it stands beside its line on the other side
        base = {"bottom": "top", "top": "bottom"}.get(item.base, item.base)
        return replace(item, x=width - item.x, base=base)
    return replace(item, x=width - item.x, anchor=anchor)


def mark_text(x: Number) -> str:
    """A mark as it is struck, at its nearest 1/64, and the decimal in brackets.

    >>> from fractions import Fraction
    >>> mark_text(Fraction(17, 80))
    '7/32 (0.213)'
    """
    return both(x)


class Lining:
    """The paper on the inside of one tapered angle."""

    def __init__(self, line: TaperLine) -> None:
        self.line = line
        self.section = line.section if line.leg == "A" else line.section.swapped()
        self.a, self.b = float(self.section.leg_a), float(self.section.leg_b)
        self.ta, self.tb = float(self.section.thickness_a), float(self.section.thickness("B"))
        self.r, self.toe = float(self.section.fillet), float(self.section.toe_radius)

    @cached_property
    def flat(self) -> float:
        """Where the tapered leg's flat ends and the fillet begins."""
        return self.a - self.toe - self.tb - self.r

    @cached_property
    def bend(self) -> float:
        """Where the fillet ends and the other leg's flat begins."""
        return self.flat + self.line.fillet_width

    @cached_property
    def width(self) -> float:
        """The whole width of the paper, to the other leg's toe."""
        return self.bend + self.b - self.toe - self.ta - self.r

    @cached_property
    def path(self) -> list[Point]:
        """The line on the paper as (w, x), from the toe on, ending at the end or at the other leg's toe."""
        line = self.line
        start = (0.0, float(line.last_flat if line.last_flat is not None else line.run))
        if line.ends_in == "flat":
            return [start, (self.a - self.toe - float(line.width_left), 0.0)]
        points = [start, (self.flat, float(line.first_flat))]  # type: ignore[arg-type]
        points += [(self.flat + u, x) for u, x in line.fillet_curve(16)[1:]]
        if line.vertex_projection is not None:
            points.append((self.width, float(line.vertex_projection)))
        return points

    def straight_over(self) -> list[Point] | None:
        """The path of a line carried straight on over the unrolled fillet, then square across; None without a fillet."""
        if not self.r or self.line.first_flat is None:
            return None
        x = float(self.line.first_flat) - self.line.fillet_width * float(self.line.slope)
        start, first = self.path[:2]
        if x >= 0:
            return [start, first, (self.bend, x), (self.width, x)]
        return [start, first, (self.flat + first[1] / float(self.line.slope), 0.0)]

    def folded(self, w: float, opened: float) -> Point:
        """Where a place of the paper is in the section, (y, z), with the paper opened so far (0 to 1)."""
        if w <= self.flat:
            return self.a - self.toe - w, self.ta
        turn = (1 - opened) * math.pi / 2
        arc = self.bend - self.flat
        part = min(w - self.flat, arc)
        y, z = self.tb + self.r, self.ta
        if turn < 1e-9:
            y -= part
        elif arc:
            radius = arc / turn
            y, z = y - radius * math.sin(part / radius), z + radius * (1 - math.cos(part / radius))
        rest = max(0.0, w - self.bend)
        return y - rest * math.cos(turn) if opened else y, z + rest * math.sin(turn)


@dataclass(frozen=True)
class Oblique:
    """Oblique projection: x to the right in true length; what is nearer to the viewer lies further right and lower."""

    left: float
    heel: float
    unit: float
    lean: float = 0.30
    tilt: float = 0.80

    def at(self, x: float, y: float, z: float) -> Point:
        """A place of the metal [in] on the paper [mm]."""
        return self.left + (x + self.lean * y) * self.unit, self.heel + (z - self.tilt * y) * self.unit

    def line(self, one: Place, two: Place, kind: str, accent: bool = False) -> Line:
        """A straight line between two places."""
        return Line(*self.at(*one), *self.at(*two), kind, accent)

    def along(self, y: float, z: float, reach: float, kind: str) -> Line:
        """A line parallel to the heel, from the end to where the drawing breaks off."""
        return self.line((0.0, y, z), (reach, y, z), kind)

    def path(self, places: Iterable[Place], kind: str, accent: bool = False) -> Polyline:
        """Straight pieces through some places."""
        return Polyline(tuple(self.at(*place) for place in places), kind, accent=accent)

    def on_paper(self, lining: Lining, path: Iterable[Point], opened: float, kind: str, accent: bool = False) -> Polyline:
        """A path on the paper, (w, x), with the paper opened so far."""
        return self.path(((x, *lining.folded(w, opened)) for w, x in path), kind, accent)


def metal(lining: Lining, view: Oblique, reach: float, kind: str) -> Group:
    """The angle itself, from its end to where the drawing breaks it off; its heel is hidden behind the other leg."""
    a, b, tb, ta, r = lining.a, lining.b, lining.tb, lining.ta, lining.r
    outline = section_outline(lining.section)
    seam = ((tb + r, ta), (tb, ta + r)) if r else ((tb, ta),)
    items: list[Item] = [
        view.along(0, 0, reach, "hidden"),
        view.path([(0, y, z) for y, z in [*outline, outline[0]]], kind),
        *(view.along(y, z, reach, kind) for y, z in ((a, 0), (a, ta - lining.toe), (0, b), (tb - lining.toe, b))),
        *(view.along(y, z, reach, "tangent" if r else kind) for y, z in seam),
    ]
    seen = outline[outline.index((a, 0.0)) :]
    return (*items, view.path([(reach, y, z) for y, z in seen], "break"))


def paper(lining: Lining, view: Oblique, reach: float, opened: float) -> Group:
    """The paper on the inside, opened so far."""
    arc = lining.bend - lining.flat
    bends = [lining.flat + arc * i / 12 for i in range(1, 12)] if arc else []
    edge = [lining.folded(w, opened) for w in (0.0, lining.flat, *bends, lining.bend, lining.width)]
    seam = dict.fromkeys((lining.flat, lining.bend))
    return (
        view.path([(0, *place) for place in edge], "outline"),
        view.path([(reach, *place) for place in edge], "break"),
        *(view.along(*place, reach, "outline") for place in (edge[0], edge[-1])),
        *(view.along(*lining.folded(w, opened), reach, "tangent") for w in seam),
    )
