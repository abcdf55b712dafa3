"""A wrong line on the inside beside the right one, and what it does to the metal.

Two mistakes: the line aimed at the inside corner, which leaves metal standing at the end; and the
line carried straight on over the rounded fillet, which strikes the other leg too near the end.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> line = TaperLine.of(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), Taper("B", 1, run="2 1/8"))
>>> print(wrong_line_sheet(line, CORNER).sentence)
A line aimed at the inside corner, beside the right one. It meets the end 1/8 from the heel instead of at the vertex: 1/8 (0.125) of leg B is left standing there, and the angle comes out 27.9 degrees instead of 30.5.
"""

from __future__ import annotations

from anglelib.drawing.dimensions import leader, linear_dimension
from anglelib.drawing.lining import Lining, Oblique, mark_text, mirrored, way
from anglelib.drawing.see_through import FLAT_LEFT, FLAT_TOE, HEIGHT, LEFT, WIDTH, Shown, seen, unit_for
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Point, Polyline, Sheet
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.taper import TaperLine
from anglelib.inspection.taper_mistakes import inside_corner_line, straight_over_fillet
from anglelib.lengths import both, exact

MISTAKES = {"corner": "aimed at the inside corner", "straight": "straight over the fillet"}
"""The wrong lines by id, in words."""
CORNER, STRAIGHT = MISTAKES


def wrong_line_sheet(line: TaperLine, mistake: str, *, reach: float = 3.75, few: bool = False) -> Sheet:
    """The right and a wrong line of a taper to the vertex: on the inside, and what comes of it."""
    if mistake not in MISTAKES:
        raise ValueError(f"no wrong line {mistake!r}: there are {' and '.join(MISTAKES)}")
    if not line.to_vertex:
        raise ValueError("the wrong lines are drawn for a taper to the vertex")
    lining = Lining(line)
    unit = unit_for(lining, reach)
    view = Oblique(LEFT, HEIGHT - 17 - lining.b * unit, unit)
    if mistake == CORNER:
        wrong = Lining(inside_corner_line(line)).path
    else:
        wrong = (lining.straight_over() or lining.path)[1:]
    items: list[Item] = [
        *seen(lining, view, Shown(reach=reach)),
        view.on_paper(lining, wrong, 0.0, "blank"),
        Label(LEFT, HEIGHT - 6, MISTAKES[mistake], anchor="start", base="middle"),
        *(_left_standing(line, unit, reach, few) if mistake == CORNER else _unrolled(lining, wrong, unit, reach, few)),
    ]
    if way(line) < 0:
        items = list(mirrored(items, WIDTH))
    return Sheet(WIDTH, HEIGHT, tuple(items), f"A line {MISTAKES[mistake]}", wrong_line_sentence(line, mistake))


def _left_standing(line: TaperLine, unit: float, reach: float, few: bool) -> Group:
    """The outer face of the tapered leg: the wanted edge, the made edge, and the metal between them hatched."""
    wrong = inside_corner_line(line)
    width, run, left = float(line.width), float(line.run), float(wrong.width_left)
    low = FLAT_TOE + 16

    def at(x: float, y: float) -> Point:
        return FLAT_LEFT + x * unit, low + y * unit

    end = at(reach, 0)[0]
    sliver = (at(0, 0), at(run, width), at(0, left))
    items: list[Item] = [
        Hatch(sliver, -45, 1.2),
        Polyline((at(reach, 0), at(0, 0), at(run, width), at(reach, width)), "outline"),
        Line(*at(0, 0), *at(run, width), "mark", True),
        Polyline((at(0, 0), at(0, left), at(run, width)), "blank"),
        zigzag(end, at(0, 0)[1], at(0, width)[1]),
        *(i for i in linear_dimension(at(0, 0), at(0, left), FLAT_LEFT - 6, "", "y") if not isinstance(i, Label)),
        Label(FLAT_LEFT - 6, low - 9.5, f"{both(wrong.width_left)} left standing", anchor="start", base="middle", accent=True),
        *linear_dimension(at(0, width), at(run, width), at(0, width)[1] + 8, mark_text(line.run)),
    ]
    if not few:
        items.append(Label(FLAT_LEFT, HEIGHT - 6, f"leg {line.leg}, outer face", anchor="start", base="middle"))
        items.append(Label(end - 4, at(0, 0)[1] + 4, "heel", anchor="end", base="middle"))
    return tuple(items)


def _unrolled(lining: Lining, wrong: list[Point], unit: float, reach: float, few: bool) -> Group:
    """The inside laid flat with both lines, and how far apart they strike the other leg."""
    line = lining.line

    def at(x: float, w: float) -> Point:
        return FLAT_LEFT + x * unit, FLAT_TOE + w * unit

    end, top = at(reach, lining.width)
    mark = float(line.vertex_projection)  # type: ignore[arg-type]
    struck = wrong[-1][1]
    items: list[Item] = [
        Polyline(((end, FLAT_TOE), at(0, 0), at(0, lining.width), (end, top)), "outline"),
        zigzag(end, FLAT_TOE, top),
        *(Line(*at(0, w), *at(reach, w), "tangent") for w in dict.fromkeys((lining.flat, lining.bend))),
        Polyline(tuple(at(x, w) for w, x in lining.path), "mark", accent=True),
        Polyline(tuple(at(x, w) for w, x in wrong), "blank"),
        *linear_dimension(at(0, lining.width), at(mark, lining.width), top + 8, mark_text(line.vertex_projection), accent=True),
    ]
    if wrong[-1][0] == lining.width and struck > 0:
        middle = lining.bend + 0.45 * (lining.width - lining.bend)
        items += leader(at(struck, middle), (at(mark, middle)[0] + 6, at(0, middle)[1]), f"wrong {both(struck)}", end="")
    if not few:
        rows = (
            (lining.flat / 2, f"leg {line.leg}"),
            ((lining.flat + lining.bend) / 2, "fillet"),
            ((lining.bend + lining.width) / 2, f"leg {line.other}"),
        )
        items += [Label(end + 2.5, at(0, w)[1], text, anchor="start", base="middle") for w, text in rows]
        items.append(Label(FLAT_LEFT, HEIGHT - 6, "the inside, unrolled", anchor="start", base="middle"))
    return tuple(items)


def wrong_line_sentence(line: TaperLine, mistake: str) -> str:
    """What the wrong line does, in words."""
    a, b = f"leg {line.leg}", f"leg {line.other}"
    if mistake == CORNER:
        wrong = inside_corner_line(line)
        return (
            f"A line aimed at the inside corner, beside the right one. It meets the end {exact(wrong.width_left)} from "
            f"the heel instead of at the vertex: {both(wrong.width_left)} of {a} is left standing there, and the angle "
            f"comes out {wrong.angle:.1f} degrees instead of {line.angle:.1f}."
        )
    if not line.section.fillet:
        return f"The inside corner is square: there is no fillet to carry a line over, and the right line strikes {b} true."
    struck = straight_over_fillet(line)
    where = f"strikes {b} at {both(struck)}" if struck is not None else f"leaves through the end before it reaches {b}"
    return (
        f"A line carried straight on over the unrolled fillet, beside the right one. It {where} instead of "
        f"{both(line.vertex_projection)}: {both(line.straight_wrap_error)} too near the end."  # type: ignore[arg-type]
    )
