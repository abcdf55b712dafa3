"""A flat view as a DXF file: true size, one layer a purpose, arcs as arcs, dimensions that measure.

One file a view: x = 0 is end 1 and y = 0 the heel, so the coordinates in the file are the shop's
numbers. Closed outlines are light polylines (arcs as bulges), lone arcs ARC, holes CIRCLE, running
dimensions ordinate dimensions from the file's origin. The header says inches or millimetres.
"""

from __future__ import annotations

import io
import math
from typing import TYPE_CHECKING

from anglelib.drawing.letters import text_width
from anglelib.errors import BenchError
from anglelib.geometry.edges import Bend, Edge, Point
from anglelib.paper.flat import LAYERS, LETTER, Circle, Flat, Linear, Ordinate, Outline, Words

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts import Modelspace

FACTORS = {"in": 1.0, "mm": 25.4}
"""Drawing units for an inch."""
STYLE = "BENCH"


def dxf(view: Flat, unit: str = "in") -> bytes:
    """The view as the content of a DXF file, in inches or millimetres."""
    try:
        import ezdxf
    except ImportError:
        raise BenchError("A DXF file needs the package ezdxf: install it with pip install ezdxf, or leave dxf out of --what.") from None
    document = ezdxf.new("R2010")
    _set_up(document, unit)
    writer = _Writer(document.modelspace(), FACTORS[unit])
    for item in view.items:
        writer.put(item)
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode("utf-8")


def _set_up(document: Drawing, unit: str) -> None:
    """Units, layers with their dashes, and the dimension style."""
    factor, inch = FACTORS[unit], unit == "in"
    document.header["$INSUNITS"] = 1 if inch else 4
    document.header["$MEASUREMENT"] = 0 if inch else 1
    document.header["$LUNITS"] = 2
    document.header["$LUPREC"] = 4 if inch else 3
    document.header["$LTSCALE"] = 1.0
    for name, layer in LAYERS.items():
        dashes = "CONTINUOUS"
        if layer.dashes:
            dashes = f"{name}_DASHES"
            pattern = [length / 25.4 * factor * (-1 if n % 2 else 1) for n, length in enumerate(layer.dashes)]
            document.linetypes.add(dashes, [math.fsum(map(abs, pattern)), *pattern], description=layer.holds)
        made = document.layers.add(name, color=layer.colour, linetype=dashes, lineweight=round(layer.width * 100))
        made.description = layer.holds
    letter = LETTER * factor
    document.dimstyles.new(
        STYLE,
        dxfattribs={
            "dimtxt": letter,
            "dimasz": 0.8 * letter,
            "dimexo": 0.4 * letter,
            "dimexe": 0.5 * letter,
            "dimgap": 0.4 * letter,
            "dimdec": 4 if inch else 3,
            "dimlunit": 2,
            "dimzin": 8,
            "dimtad": 0,
            "dimtih": 0,
            "dimtoh": 0,
        },
    )


class _Writer:
    """Puts items into a model space, in its unit."""

    def __init__(self, space: Modelspace, factor: float) -> None:
        self.space, self.factor = space, factor

    def at(self, point: Point) -> Point:
        return point[0] * self.factor, point[1] * self.factor

    def put(self, item: Outline | Circle | Words | Ordinate | Linear) -> None:
        if isinstance(item, Outline):
            self.outline(item)
        elif isinstance(item, Circle):
            self.space.add_circle(self.at(item.centre), item.radius * self.factor, dxfattribs={"layer": item.layer})
        elif isinstance(item, Words):
            text = item.text.replace("%%", "% %").replace("^", "^ ")  # what DXF takes for a code
            self.space.add_text(
                text, height=item.height * self.factor, dxfattribs={"layer": "TEXT", "insert": self.at(item.at)}
            )
        else:
            self.dimension(item)

    def outline(self, item: Outline) -> None:
        look = {"layer": item.layer}
        if len(item.edges) == 1 and not item.closed:
            edge = item.edges[0]
            if isinstance(edge, Bend):
                start, end = sorted((edge.start, edge.start + edge.turn))
                self.space.add_arc(self.at(edge.centre), edge.radius * self.factor, start, end, dxfattribs=look)
            else:
                self.space.add_line(self.at(edge.first), self.at(edge.last), dxfattribs=look)
            return
        vertices = [(*self.at(edge.first), bulge(edge)) for edge in item.edges]
        if not item.closed:
            vertices.append((*self.at(item.edges[-1].last), 0.0))
        self.space.add_lwpolyline(vertices, format="xyb", close=item.closed, dxfattribs=look)

    def dimension(self, item: Ordinate | Linear) -> None:
        look = {"layer": "DIMENSIONS"}
        if isinstance(item, Ordinate):
            add = self.space.add_ordinate_x_dim if item.axis == "x" else self.space.add_ordinate_y_dim
            (x, y), (u, v) = self.at(item.feature), self.at(item.foot)
            add((x, y), offset=(u - x, v - y), origin=(0, 0), text=item.text, dimstyle=STYLE, dxfattribs=look).render()
            return
        along, beside = {"x": (0, None), "y": (90, self.beside(item))}[item.axis]
        self.space.add_linear_dim(
            base=self.at(item.base), p1=self.at(item.first), p2=self.at(item.last), angle=along, location=beside,
            text_rotation=None if beside is None else 0, text=item.text, dimstyle=STYLE, dxfattribs=look,
        ).render()  # fmt: skip

    def beside(self, item: Linear) -> Point:
        """The middle of a level figure beside an upright dimension, away from the part."""
        away = text_width(item.text, LETTER) / 2 + LETTER
        x = item.base[0] + (away if item.base[0] > item.first[0] else -away)
        return self.at((x, (item.first[1] + item.last[1]) / 2))


def bulge(edge: Edge) -> float:
    """A polyline's measure of an arc: the tangent of a quarter of its angle; 0 for a straight piece.

    >>> round(bulge(Bend((0.0, 0.0), 1.0, 0.0, 180.0)), 9)
    1.0
    """
    return math.tan(math.radians(edge.turn) / 4) if isinstance(edge, Bend) else 0.0
