"""The small drawings on which the notation shows where each letter is, and the ways to show it.

Each base is plain line work on 70 by 44 mm; a place is drawn over it in the accent, with its letter.

>>> [item.text for item in symbol(0, 0, "x_v", "start") if isinstance(item, Label)]
['x', 'v']
>>> plain("\\\\Delta x"), plain("\\\\theta_{min}")
('Δx', 'θmin')
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence

from anglelib.drawing.dimensions import arrow
from anglelib.drawing.letters import text_width
from anglelib.drawing.outline import section_outline
from anglelib.drawing.sheet import Arc, Circle, Group, Hatch, Item, Label, Line, Point, Polyline, polygon
from anglelib.section import Section

WIDTH, HEIGHT = 80.0, 54.0
MARGIN = 5.0
"""White round the drawings, whose own field is 70 by 44 [mm]."""
LARGE, SMALL = 4.2, 2.5
_GREEK = {
    "alpha": "α", "beta": "β", "chi": "χ", "gamma": "γ", "delta": "δ", "Delta": "Δ", "varepsilon": "ε", "theta": "θ", "kappa": "κ", "mu": "μ", "nu": "ν", "rho": "ρ",
    "sigma": "σ", "tau": "τ", "varphi": "φ", "psi": "ψ", "omega": "ω", "ell": "l",
}  # fmt: skip
Place = Callable[[str], Group]
"""Given a letter as LaTeX, the accent items that show it."""


# --- the letter -------------------------------------------------------------------------------------------
def parts_of(latex: str) -> tuple[str, str]:
    """A letter as (what stands on the line, what hangs under it)."""
    text = re.sub(r"\\([A-Za-z]+) ?", lambda found: _GREEK[found[1]], latex)
    head, _, sub = text.partition("_")
    return head, sub.strip("{}")


def plain(latex: str) -> str:
    """A letter without its levels."""
    return "".join(parts_of(latex))


def symbol(x: float, y: float, latex: str, anchor: str = "middle") -> Group:
    """The letter with what hangs under it smaller and lower; y is its foot."""
    if not latex:
        return ()
    head, sub = parts_of(latex)
    one, two = text_width(head, LARGE), text_width(sub, SMALL) + 0.5 if sub else 0.0
    left = x - {"start": 0.0, "middle": (one + two) / 2, "end": one + two}[anchor]
    low = 2.7 if set(sub) & set("gpqy") else 1.7 if sub or set(head) & set("gpqyμρφβψγχQ") else 0.5
    wide = one + two  # paper under it, so that no line strikes it
    patch = polygon(((left - 0.6, y - low), (left + wide + 0.6, y - low), (left + wide + 0.6, y + LARGE + 0.5), (left - 0.6, y + LARGE + 0.5)), "", "paper")
    items: list[Item] = [patch, Label(left, y, head, LARGE, "start", accent=True)]
    if sub:
        items.append(Label(left + one + 0.5, y - 1.3, sub, SMALL, "start", accent=True))
    return tuple(items)


# --- ways to show a place -------------------------------------------------------------------------------
def _ends(p: Point, q: Point) -> Group:
    """A line between two points with arrows at both ends, outside where it is short."""
    turn, long = math.degrees(math.atan2(q[1] - p[1], q[0] - p[0])), math.dist(p, q)
    inside = long > 6
    way = 0.0 if inside else 180.0
    ux, uy = ((q[0] - p[0]) / long, (q[1] - p[1]) / long)
    more = 0.0 if inside else 4.0
    line = Line(p[0] - ux * more, p[1] - uy * more, q[0] + ux * more, q[1] + uy * more, "dimension", True)
    return line, arrow(*p, turn + 180 + way, 2.2, True), arrow(*q, turn + way, 2.2, True)


def across(x1: float, x2: float, y: float, foot: float | None = None, side: int = 1) -> Place:
    """A length along the heel, its extension lines from ``foot``; its letter above (1) or below (-1), right or left where it is short."""

    def draw(latex: str) -> Group:
        extra = tuple(Line(x, foot, x, y, "dimension", True) for x in (x1, x2)) if foot is not None else ()
        if x2 - x1 > 9:
            letter = symbol((x1 + x2) / 2, y + 1.6 if side > 0 else y - 6, latex)
        else:
            letter = symbol(x2 + 5, y - 1, latex, "start") if side > 0 else symbol(x1 - 5, y - 1, latex, "end")
        return (*extra, *_ends((x1, y), (x2, y)), *letter)

    return draw


def up(y1: float, y2: float, x: float, side: int = 1, foot: float | None = None) -> Place:
    """A length across the leg; its letter to the right (1) or the left (-1)."""

    def draw(latex: str) -> Group:
        extra = tuple(Line(foot, y, x, y, "dimension", True) for y in (y1, y2)) if foot is not None else ()
        high = (y1 + y2) / 2 - 1.5 if y2 - y1 > 6 else y2 + 4
        return (*extra, *_ends((x, y1), (x, y2)), *symbol(x + 1.8 * side, high, latex, "start" if side > 0 else "end"))

    return draw


def slant(p: Point, q: Point, off: float = 3.0) -> Place:
    """A length between two points, its letter beside the middle."""

    def draw(latex: str) -> Group:
        long = math.dist(p, q)
        nx, ny = -(q[1] - p[1]) / long, (q[0] - p[0]) / long
        return (*_ends(p, q), *symbol((p[0] + q[0]) / 2 + nx * off, (p[1] + q[1]) / 2 + ny * off - 1.5, latex))

    return draw


def turn(x: float, y: float, radius: float, start: float, end: float, off: float = 4.0) -> Place:
    """An angle [deg] about a point."""

    def draw(latex: str) -> Group:
        middle = math.radians((start + end) / 2)
        at = (x + (radius + off) * math.cos(middle), y + (radius + off) * math.sin(middle) - 1.5)
        return (Arc(x, y, radius, start, end, "dimension", True), *symbol(*at, latex))

    return draw


def point(x: float, y: float, to: Point) -> Place:
    """A leader from a letter to a point."""

    def draw(latex: str) -> Group:
        heading = math.degrees(math.atan2(y - to[1], x - to[0]))
        right = to[0] >= x
        return (Line(x, y, *to, "dimension", True), arrow(x, y, heading, 2.2, True), *symbol(to[0] + (1 if right else -1), to[1] - 1.5, latex, "start" if right else "end"))

    return draw


def field(points: Sequence[Point], at: Point) -> Place:
    """An area, hatched; its letter at a place."""
    return lambda latex: (Hatch(tuple(points), 45, 1.3, accent=True), polygon(points, "narrow", accent=True), *symbol(*at, latex))


def edge(points: Sequence[Point], at: Point) -> Place:
    """A length along an edge that bends."""
    return lambda latex: (Polyline(tuple(points), "outline", accent=True), *symbol(*at, latex))


def both(*places: Place) -> Place:
    """Two ways to show one letter; the first carries it."""
    return lambda latex: (*places[0](latex), *(item for place in places[1:] for item in place("x") if not isinstance(item, Label) and getattr(item, "fill", "") != "paper"))


def counted(places: Sequence[Point], at: Point) -> Place:
    """Things that are counted: a dot at each."""
    return lambda latex: (*(Circle(x, y, 0.9, "", "accent", True) for x, y in places), *symbol(*at, latex))


# --- the bases ----------------------------------------------------------------------------------------------
def words(*texts: tuple[float, float, str]) -> Group:
    """Small words on a base."""
    return tuple(Label(x, y, text, SMALL, "middle") for x, y, text in texts)


def rect(x1: float, y1: float, x2: float, y2: float, kind: str = "outline") -> Polyline:
    """A rectangle."""
    return polygon(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), kind)


L_SHAPE = tuple((18 + 8 * y, 9 + 8 * z) for y, z in section_outline(Section(4, 3, "3/4", fillet="3/4", toe_radius="1/2", heel_radius="1/2")))
SECTION: Group = (polygon(L_SHAPE),)
PLAIN_SECTION: Group = (polygon(tuple((18 + 8 * y, 9 + 8 * z) for y, z in section_outline(Section(4, 3, "3/4", fillet="3/4")))),)
FACE: Group = (
    polygon(((9, 34), (60, 34), (60, 12), (37, 12), (9, 27))),
    Polyline(((9, 27), (9, 12), (37, 12)), "blank"),
)
"""Leg A, outer face: heel at the top, the taper at end 1, its width left 7 of 22, its run 28."""
TWO_TAPERS: Group = (polygon(((6, 34), (64, 34), (64, 30), (38, 12), (30, 12), (6, 26))), Polyline(((6, 26), (6, 12), (64, 12), (64, 30)), "blank"))
PEAK: Group = (polygon(((6, 36), (64, 36), (64, 30), (38, 15.5), (6, 26))), Polyline(((6, 26), (6, 6), (64, 6), (64, 30)), "blank"))
INSIDE: Group = (
    rect(6, 10, 64, 40),
    Line(6, 16, 64, 16, "tangent"), Line(6, 22, 64, 22, "tangent"),
    Polyline(((46, 40), (22.9, 22), (18.5, 19.5), (13.7, 16), (13.7, 10)), "mark"),
    *words((57, 29, "leg A"), (57, 18, "fillet"), (57, 12, "leg B")),
)  # fmt: skip
"""The inside, unrolled: leg A's inner face, the fillet, leg B's inner face; end 1 at the left."""
SAW: Group = (
    Line(8, 6, 56, 38, "mark"), Line(8, 12, 47, 38, "cut"), Line(8, 18, 38, 38, "cut"),
    *words((50, 24, "part"), (16, 32, "waste")),
)  # fmt: skip
"""A finished line, and the band of the saw beside it."""
LINE: Group = (Line(8, 6, 56, 38, "mark"), *words((50, 24, "part"), (16, 32, "waste")))
"""The finished line alone."""
STICK: Group = (
    rect(5, 16, 65, 26), *(Line(x, 16, x, 26, "cut") for x in (8, 22, 24, 38, 40)), *words((15, 20, "1"), (31, 20, "2"), (53, 20, "left")),
)  # fmt: skip
"""A stick with its trim and two blanks parted off."""
HOLE: Group = (
    Polyline(((6, 8), (60, 8), (60, 40), (34, 40), (6, 18), (6, 8))), Line(6, 12, 60, 12, "tangent"), Circle(44, 24, 3),
    Line(39, 24, 49, 24, "narrow"), Line(44, 19, 44, 29, "narrow"),
)  # fmt: skip
"""A leg with a hole, heel below, its taper at the left."""
RIVET: Group = (
    rect(12, 18, 58, 24), rect(12, 24, 58, 30), Polyline(((31, 18), (31, 13), (39, 13), (39, 18))), Arc(35, 30, 8, 0, 180), Line(27, 30, 43, 30),
    Line(32, 13, 32, 30, "hidden"), Line(38, 13, 38, 30, "hidden"),
)  # fmt: skip
CORNER: Group = (Polyline(((60, 34), (26, 34))), Polyline(((12, 20), (12, 6))), Arc(26, 20, 14, 90, 180), Polyline(((26, 34), (12, 34), (12, 20)), "blank"))
ACUTE: Group = (Polyline(((64, 10), (24, 10))), Polyline(((19.3, 19), (64, 34))), Arc(24, 14.5, 4.6, 105, 270), Polyline(((24, 10), (4, 10), (19.3, 15)), "blank"))
END: Group = (Polyline(((64, 8), (14, 8), (20, 36), (64, 36))), Line(14, 8, 14, 40, "hidden"), *words((50, 9.5, "heel"), (50, 32.5, "toe")))
"""An end out of square: the heel below, the square's blade dashed."""
FLIP: Group = (Line(6, 8, 64, 8), Line(34, 8, 31, 40, "mark"), Line(34, 8, 37, 40, "mark"), *words((14, 3, "edge")))
OPEN: Group = (polygon(((16, 8), (58, 8), (58, 13), (21.6, 13), (15, 38), (10, 37))), Line(16, 8, 16, 40, "hidden"))
OPEN_FILLET: Group = (
    Polyline(((20.6, 16.9), (15, 38), (10, 37), (16, 8), (58, 8), (58, 13), (25.6, 13))), Arc(25.6, 18.2, 5.2, 194.7, 270), Line(16, 8, 16, 40, "hidden"),
)  # fmt: skip
CLOSED: Group = (polygon(((16, 8), (58, 8), (58, 13), (22, 13), (26, 35.7), (21, 36.6))), Line(16, 8, 16, 40, "hidden"))
NICKED: Group = (polygon(((8, 10), (64, 10), (64, 34), (26, 34))), Polyline(((8, 10), (8, 34), (26, 34)), "blank"), *words((50, 11.5, "heel"), (50, 30, "toe")))
"""The other leg's outer face, its end sawn back at the toe, since the legs close."""
TWISTED: Group = (Line(4, 8, 66, 8), polygon(((12, 8), (58, 8), (58, 13), (17, 13), (17, 37), (12, 37)), "hidden"), Polyline(((12, 8), (58, 16))), *words((40, 3, "table")))
BEVELLED: Group = (Polyline(((6, 14), (54, 14), (49.5, 24), (45, 28), (6, 28))), Line(54, 14, 54, 34, "hidden"), *words((18, 16, "outer face"), (18, 24, "inner face")))
STANCE: Group = (
    Line(4, 8, 66, 8), Polyline(((8, 10.5), (35, 34), (62, 10.5), (58.5, 8), (35, 28), (11.5, 8), (8, 10.5))), Line(35, 28, 35, 34, "tangent"),
)  # fmt: skip
BLOCKED: Group = (
    Line(4, 6, 66, 6), polygon(((16, 8), (22, 8), (22, 30), (54, 30), (54, 36), (16, 36))), polygon(((24, 6), (54, 6), (54, 30), (26, 30), (24, 28)), "narrow"),
    *words((40, 17, "block")),
)  # fmt: skip
"""A leg on its block, the other leg hanging clear of the table."""
STANDING: Group = (
    Line(4, 6, 66, 6), polygon(((16, 6), (58, 6), (58, 12), (22, 12), (22, 38), (16, 38))),
    polygon((*((28 + d, 8 + 4 * i + h) for i in range(8) for d, h in ((0, 0), (-2, 3.4))), (28, 40), (32, 40), (32, 8)), "narrow", "paper"),
)  # fmt: skip
"""A leg that stands up before the blade."""
ROLLED: Group = (Line(4, 8, 66, 8), polygon(((12, 8), (58, 15), (57.3, 19.9), (16.2, 13.7), (12.6, 37.5), (7.7, 36.7))), *words((58, 3, "table")))
TILTED: Group = (rect(8, 14, 62, 24, "outline"), Line(28, 8, 38, 36, "cut"), Line(32, 8, 32, 38, "hidden"), *words((53, 18, "leg")))
TEETH: Group = (
    polygon((*((8 + 6 * i + d, h) for i in range(9) for d, h in ((0, 22), (5.5, 14))), (62, 22), (62, 34), (8, 34)), "outline"),
    Line(8, 14, 62, 14, "hidden"), Line(8, 22, 62, 22, "hidden"),
)  # fmt: skip
BLADE: Group = (rect(30, 20, 40, 40), polygon(((30, 20), (27, 8), (32, 8), (35, 20)), "narrow"), polygon(((40, 20), (43, 8), (38, 8), (35, 20)), "narrow"))
"""A blade seen along its back: the back, and teeth set to either side."""
MITER: Group = (rect(6, 14, 64, 30), Line(24, 6, 46, 38, "cut"), Line(35, 6, 35, 38, "hidden"), *words((57, 25, "leg A")))
COMPOUND: Group = (
    Line(6, 22, 64, 22), Line(6, 38, 64, 38), Line(6, 6, 64, 6), Polyline(((38, 6), (24, 22), (40, 38)), "cut"), Line(24, 6, 24, 38, "hidden"),
    *words((57, 31, "leg A"), (57, 12, "leg B")),
)  # fmt: skip
STRAY: Group = (Line(8, 14, 62, 14, "mark"), Line(8, 22, 62, 30, "cut"), Line(8, 26, 62, 26, "hidden"), Circle(35, 26, 0.9, "", "ink"), *words((18, 9, "finished line")))
"""A finished line and a cut that has turned about a point."""
SPREAD: Group = (Line(6, 10, 64, 10, "narrow"), Polyline(tuple((6 + i, 10 + 24 * math.exp(-(((i - 29) / 11) ** 2) / 2)) for i in range(59))), Line(35, 10, 35, 34, "hidden"))
FLAT_SPREAD: Group = (Line(6, 10, 64, 10, "narrow"), Polyline(((16, 10), (16, 28), (54, 28), (54, 10))), Line(35, 10, 35, 28, "hidden"))
STEPS: Group = (rect(4, 12, 66, 22), *(Line(x, 12, x, 24, "mark") for x in (4, 19, 34, 49, 64)), *(Line(x, 8, x, 12, "narrow") for x in (18, 32, 46, 60)))
"""Steps along a rule: below where they should be, above where they have come to."""
HEAT: Group = (rect(6, 16, 56, 26), Polyline(((56, 16), (62, 16), (62, 26), (56, 26)), "hidden"), *words((31, 20, "warm")))
DISC: Group = (Arc(22, 12, 20, 0, 180), Line(2, 12, 66, 12), Line(22, 12, 22, 32, "narrow"), rect(40, 12, 62, 18), *words((17, 16, "disc"), (52, 14, "part")))
SINE: Group = (Line(6, 6, 66, 6), polygon(((10, 10), (58.6, 28), (57.6, 30.6), (9, 12.8))), Circle(11, 8, 2), rect(54, 6, 62, 24.5), Circle(58, 26.4, 2))
EAR: Group = (Arc(24, 22, 11, 60, 300), Arc(24, 22, 6, 70, 290), *(Arc(24, 22, r, -22, 22, "narrow") for r in (18, 24, 30)))
CLOCK: Group = (Circle(35, 22, 16), Line(35, 22, 35, 34), Line(35, 22, 44, 22), *(Line(35 + 14 * math.cos(a), 22 + 14 * math.sin(a), 35 + 16 * math.cos(a), 22 + 16 * math.sin(a), "narrow") for a in (math.radians(30 * i) for i in range(12))))  # fmt: skip
NOSE: Group = (Line(6, 36, 64, 36), Polyline(((64, 36), (14, 36))), Polyline(((9.4, 34.2), (50, 10), (64, 10))), Polyline(((14, 36), (4, 36), (9.4, 33)), "blank"))
HALF_SECTION: Group = (polygon(((20, 8), (56, 8), (56, 14), (26, 14), (26, 36), (20, 36))), Line(6, 16.3, 64, 16.3, "narrow"))
