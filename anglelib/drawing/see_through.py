"""A taper seen through the angle, and the same line with the inside unrolled and laid flat.

On the left one looks from the tapered end on the inside: the tapered leg lies flat, the other leg
stands behind it, and the line on the outer face shows through the metal. A sheet of paper lines the
inside; ``opened`` takes its standing half down. On the right it lies flat, with its dimensions.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> line = TaperLine.of(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), Taper("B", 1, run="2 1/8"))
>>> print(see_through_sheet(line, Shown(answer=False)).sentence)
Angle 1 1/4 x 1 1/4 x 1/8, seen from the inside: leg B lies flat, leg A stands behind it, end 1 is at the left. The line on the outer face of leg B shows through: from the toe, 2 1/8 (2.125) from end 1, to the vertex. Its marks on the inside are not shown yet.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from anglelib.drawing.dimensions import leader, linear_dimension
from anglelib.drawing.letters import text_width
from anglelib.drawing.lining import Lining, Oblique, mark_text, metal, mirrored, paper, way
from anglelib.drawing.sheet import Circle, Group, Item, Label, Line, Point, Polyline, Sheet
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.taper import Number, TaperLine
from anglelib.lengths import both, exact

WIDTH, HEIGHT = 234.0, 96.0
LEFT, FLAT_LEFT, FLAT_TOE = 24.0, 132.0, 16.0
LETTER = 3.5


@dataclass(frozen=True)
class Shown:
    """What the picture shows of a line.

    ``opened``: how far the paper on the inside is unrolled, 0 to 1. ``answer``: whether the line and
    its marks on the inside are drawn. ``prediction`` [in]: a mark on the other leg that somebody
    expects, kept as a ghost. ``reach`` [in]: how much of the angle is drawn. ``few``: at most seven
    labels, for a projector.
    """

    opened: float = 0.0
    answer: bool = True
    prediction: Number | None = None
    reach: float = 3.75
    few: bool = False


def see_through_sheet(line: TaperLine, shown: Shown = Shown()) -> Sheet:
    """The two pictures on one sheet, whose size and scale do not change with the line."""
    lining = Lining(line)
    unit = unit_for(lining, shown.reach)
    view = Oblique(LEFT, HEIGHT - 17 - lining.b * unit, unit)
    items = (
        *seen(lining, view, shown),
        *_names(lining, view, shown),
        *laid_flat(lining, unit, shown),
    )
    if way(line) < 0:
        items = mirrored(items, WIDTH)
    return Sheet(WIDTH, HEIGHT, items, "A taper on the inside", see_through_sentence(line, shown))


def unit_for(lining: Lining, reach: float) -> float:
    """Millimetres an inch at which both pictures fit."""
    view = Oblique(0, 0, 1)
    return min(23.0, 84 / reach, 68 / lining.width, 72 / (lining.b + view.tilt * lining.a))


# --- the angle ----------------------------------------------------------------------------------------
def seen(lining: Lining, view: Oblique, shown: Shown) -> Group:
    """The angle with the line on its outer face, and, with the answer, on its inside."""
    line = lining.line
    s, run = float(line.width_left), float(line.run)
    opened = shown.opened if shown.answer else 0.0
    items: list[Item] = [*metal(lining, view, shown.reach, "narrow" if opened else "outline")]
    if opened:
        items += paper(lining, view, shown.reach, opened)
    # the line on the outer face, through the metal, and up the toe's edge
    items.append(view.line((0, s, 0), (run, lining.a, 0), "hidden", True))
    items.append(view.line((run, lining.a, 0), (run, lining.a, lining.ta), "mark", True))
    if shown.answer:
        items.append(view.on_paper(lining, lining.path, opened, "mark", True))
        if line.vertex_projection is not None and not opened:  # over the other leg's toe to where the line ends
            foot = max(0.0, float(line.at(0)))
            items.append(view.line((float(line.vertex_projection), lining.tb, lining.b), (foot, s, lining.b), "mark", True))
    if shown.prediction is not None:
        x = min(float(shown.prediction), shown.reach)
        items.append(view.on_paper(lining, [(lining.bend, x), (lining.width, x)], opened, "ghost"))
    items.append(Circle(*view.at(0, s, 0), 1.1, "", "accent", True))
    return tuple(items)


def _names(lining: Lining, view: Oblique, shown: Shown) -> Group:
    line = lining.line
    far = 0.78 * shown.reach  # beside the fillet no line of a run that is drawn comes so far
    items: list[Item] = [Label(*view.at(far, lining.a * 0.42, lining.ta), f"leg {line.leg}", base="middle")]
    if not shown.answer or shown.opened < 0.5:
        items.append(Label(*view.at(far, lining.tb, lining.b * 0.62), f"leg {line.other}", base="middle", halo=True))
    foot = view.at(0, float(line.width_left), 0)
    items += leader(
        foot, (foot[0] - 2, foot[1] - 12), "vertex" if line.to_vertex else f"{exact(line.width_left)}", accent=True, end=""
    )
    if not shown.few:
        for x, text in ((LEFT, f"leg {line.leg} flat, inside up"), (FLAT_LEFT, "the inside, unrolled")):
            items.append(Label(x, HEIGHT - 6, text, anchor="start", base="middle"))
    return tuple(items)


# --- the paper laid flat ----------------------------------------------------------------------------
def laid_flat(lining: Lining, unit: float, shown: Shown) -> Group:
    """The inside unrolled: the tapered leg's toe at the bottom, the other leg's at the top."""
    line = lining.line

    def at(x: float, w: float) -> Point:
        return FLAT_LEFT + x * unit, FLAT_TOE + w * unit

    end, top = at(shown.reach, lining.width)
    run = float(line.run)
    items: list[Item] = [
        Polyline(((end, FLAT_TOE), at(0, 0), at(0, lining.width), (end, top)), "outline"),
        zigzag(end, FLAT_TOE, top),
        *(Line(*at(0, w), *at(shown.reach, w), "tangent") for w in dict.fromkeys((lining.flat, lining.bend))),
        *_rows(lining, at, end, shown),
        *linear_dimension(at(0, 0), at(run, 0), FLAT_TOE - 9, mark_text(line.run)),
    ]
    if shown.answer:
        items.append(Polyline(tuple(at(x, w) for w, x in lining.path), "mark", accent=True))
        items += _marks(lining, at, top, shown)
    else:
        items.append(Line(*at(run, 0), *at(run, 0.12), "mark", True))
    if shown.prediction is not None:
        items += _predicted(lining, at, shown)
    return tuple(items)


def _rows(lining: Lining, at: Callable[[float, float], Point], end: float, shown: Shown) -> Group:
    """The name of each strip, right of it, and the end's, left."""
    line = lining.line
    middles = (lining.flat / 2, (lining.flat + lining.bend) / 2, (lining.bend + lining.width) / 2)
    names = (f"leg {line.leg}", "fillet" if lining.r else "", f"leg {line.other}")
    if shown.few:  # the legs have their names on the other view
        names = ("", names[1], "")
    items: list[Item] = [
        Label(end + 2.5, at(0, w)[1], text, anchor="start", base="middle") for w, text in zip(middles, names, strict=True) if text
    ]
    datum = "" if line.end != 1 else "datum" if shown.few else "end 1, the datum"
    return (*items, Label(at(0, 0)[0] - 2.5, at(0, lining.width / 2)[1], datum or f"end {line.end}", rotation=90))


def _marks(lining: Lining, at: Callable[[float, float], Point], top: float, shown: Shown) -> Group:
    """The figures of the marks on the inside."""
    line = lining.line
    items: list[Item] = []
    if line.vertex_projection is not None:
        mark = line.vertex_projection
        items += linear_dimension(
            at(0, lining.width), at(float(mark), lining.width), top + 8, mark_text(mark), accent=True
        )
    if line.first_flat is not None:
        x, y = at(float(line.first_flat), lining.flat)
        items += leader((x, y), (x + 19, y - 3.4), mark_text(line.first_flat), end="dot", accent=True)
    return tuple(items)


def _predicted(lining: Lining, at: Callable[[float, float], Point], shown: Shown) -> Group:
    """The ghost of a prediction on the other leg, and its figure."""
    x = min(float(shown.prediction), shown.reach)  # type: ignore[arg-type]
    if shown.few:  # dotted, as everywhere; its figure stands under the picture
        return (Line(*at(x, lining.bend), *at(x, lining.width), "ghost"),)
    middle = lining.bend + 0.45 * (lining.width - lining.bend)
    text = f"you: {exact(shown.prediction)}"  # type: ignore[arg-type]
    mark = lining.line.vertex_projection if shown.answer else None
    tip = at(x, middle)
    right = at(max(x, float(mark or 0)), middle)[0] + 5
    if right + text_width(text, LETTER) + 4 > at(shown.reach, 0)[0]:
        right = tip[0] - 5
    elbow = (right, tip[1])
    return (
        Line(*at(x, lining.bend), *at(x, lining.width), "ghost"),
        *leader(tip, elbow, text, end=""),
    )


# --- words ------------------------------------------------------------------------------------------
def see_through_sentence(line: TaperLine, shown: Shown) -> str:
    """What the two pictures show, in words."""
    a, b = f"leg {line.leg}", f"leg {line.other}"
    foot = "the vertex" if line.to_vertex else f"{exact(line.width_left)} from the heel at the end"
    words = (
        f"Angle {line.section.size}, seen from the inside: {a} lies flat, {b} stands behind it, end {line.end} is at "
        f"the {'left' if way(line) > 0 else 'right'}. The line on the outer face of {a} shows through: from the toe, "
        f"{mark_text(line.run)} from end {line.end}, to {foot}."
    )
    if not shown.answer:
        words += " Its marks on the inside are not shown yet."
    elif line.vertex_projection is not None:
        words += (
            f" On the inside it reaches the fillet {mark_text(line.first_flat)} from the end, bends round the fillet, "  # type: ignore[arg-type]
            f"and runs square across the inner face of {b} at {mark_text(line.vertex_projection)}."
        )
    elif line.first_flat is not None:
        words += (
            f" On the inside it reaches the fillet {mark_text(line.first_flat)} from the end and leaves through the end "
            f"inside the fillet: there is no mark on {b}."
        )
    else:
        words += f" On the inside it leaves through the end on the flat of {a}: there is no mark in the fillet or on {b}."
    if shown.prediction is not None:
        words += f" Your prediction for the mark on {b} is {both(shown.prediction)}."
    return words
