"""A sheet through matplotlib: figures, and PNG pictures that carry their drawing's fingerprint.

matplotlib is imported only when something is drawn. :func:`draw` is pure: it adds to the axes it is
given. :func:`page` makes a figure of exactly the sheet's size, so that a 100 mm bar prints as 100 mm.
"""

from __future__ import annotations

import contextlib
import io
import pathlib
from typing import TYPE_CHECKING, Any

from anglelib.drawing.letters import font_size, halo
from anglelib.drawing.sheet import Arc, Circle, Hatch, Label, Line, Polyline, Sheet
from anglelib.drawing.style import KINDS, THEMES
from anglelib.drawing.svg import fingerprint

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

MM = 25.4


def draw(ax: Axes, sheet: Sheet, theme: str = "paper") -> None:
    """Draws the sheet on the axes: limits in millimetres, y up, no frame; letters keep to the drawing's size."""
    from matplotlib.collections import LineCollection
    from matplotlib.font_manager import FontProperties
    from matplotlib.patches import Circle as Disc
    from matplotlib.patches import Polygon as Patch

    look = THEMES[theme]
    ax.set_xlim(0, sheet.width)
    ax.set_ylim(0, sheet.height)
    ax.set_aspect("equal")
    ax.set_axis_off()
    area = ax.get_window_extent()
    inches = min(area.width / sheet.width, area.height / sheet.height) / ax.figure.dpi
    points = inches * 72  # points a millimetre of the sheet
    order = 0

    def stroke(kind: str, accent: bool) -> dict[str, Any]:
        style = KINDS[kind]
        width = look.line(style.width, sheet.height) * points
        # a dash pattern is given in points: matplotlib's scaling by the line width is off (see _settings)
        factor = look.line(style.width, sheet.height) / style.width
        dashes = (0, tuple(d * points * factor for d in style.dashes)) if style.dashes else "solid"
        return {"linewidth": width, "linestyle": dashes, "colour": look.accent if accent else look.ink}

    def lines(paths: list[list[tuple[float, float]]], kind: str, accent: bool) -> None:
        how = stroke(kind, accent)
        collection = LineCollection(
            paths,
            colors=how["colour"],
            linewidths=how["linewidth"],
            linestyles=[how["linestyle"]],
            capstyle="butt",
            joinstyle="round",
            zorder=order,
        )
        ax.add_collection(collection, autolim=False)

    def patch(shape: Any, kind: str, fill: str, accent: bool) -> None:
        how = stroke(kind, accent) if kind else {"linewidth": 0, "linestyle": "solid", "colour": "none"}
        shape.set(
            facecolor=getattr(look, fill) if fill else "none",
            edgecolor=how["colour"] if kind else "none",
            linewidth=how["linewidth"],
            linestyle=how["linestyle"],
            capstyle="butt",
            joinstyle="round",
            zorder=order,
        )
        ax.add_patch(shape)

    with _settings():
        for order, item in enumerate(sheet.items, start=1):
            if isinstance(item, Line):
                lines([[(item.x1, item.y1), (item.x2, item.y2)]], item.kind, item.accent)
            elif isinstance(item, Polyline) and not item.closed and not item.fill:
                lines([list(item.points)], item.kind, item.accent)
            elif isinstance(item, Polyline):
                patch(Patch(item.points, closed=item.closed), item.kind, item.fill, item.accent)
            elif isinstance(item, Arc):
                lines([list(item.points(96))], item.kind, item.accent)
            elif isinstance(item, Circle):
                patch(Disc((item.x, item.y), item.radius), item.kind, item.fill, item.accent)
            elif isinstance(item, Hatch):
                cut = item.lines()
                if cut:
                    lines([[(c.x1, c.y1), (c.x2, c.y2)] for c in cut], item.kind, item.accent)
            elif isinstance(item, Label) and item.text:
                high = look.letter(item.height, sheet.height)
                if item.halo:
                    patch(Patch(halo(item, high), closed=True), "", "paper", False)
                x, y = item.baseline(high)
                ax.text(
                    x,
                    y,
                    item.text,
                    fontproperties=FontProperties(family="DejaVu Sans", size=font_size(high) * points),
                    ha={"start": "left", "middle": "center", "end": "right"}[item.anchor],
                    va="baseline",
                    rotation=item.rotation,
                    rotation_mode="anchor",
                    color=look.accent if item.accent else look.ink,
                    parse_math=False,
                    zorder=order,
                )


@contextlib.contextmanager
def _settings() -> Any:
    """Exact lengths and embedded TrueType fonts, without touching anyone's settings for good."""
    import matplotlib

    settings = {
        "lines.scale_dashes": False,
        "path.simplify": False,
        "pdf.fonttype": 42,
        "text.usetex": False,
        "text.hinting": "none",  # hinted letters are wider than the font's own table at low resolution
        "figure.dpi": 100,
    }
    with matplotlib.rc_context(settings):
        yield


def page(sheet: Sheet, theme: str = "paper") -> Figure:
    """A figure exactly as large as the sheet, with the sheet on it at 1:1."""
    from matplotlib.figure import Figure

    with _settings():
        figure = Figure(figsize=(sheet.width / MM, sheet.height / MM), facecolor=THEMES[theme].paper)
        draw(figure.add_axes((0, 0, 1, 1)), sheet, theme)
    return figure


def png(sheet: Sheet, theme: str = "paper", dpi: int = 200) -> bytes:
    """The sheet as a PNG that carries its title, its sentence and the fingerprint of its drawing."""
    out = io.BytesIO()
    words = {
        "Title": sheet.title,
        "Description": sheet.sentence,
        "Fingerprint": fingerprint(sheet),
        "Software": None,
    }
    with _settings():
        page(sheet, theme).savefig(out, format="png", dpi=dpi, metadata=words)
    return out.getvalue()


def save_png(sheet: Sheet, path: str | pathlib.Path, theme: str = "paper", dpi: int = 200) -> None:
    """Writes :func:`png` to a file."""
    pathlib.Path(path).write_bytes(png(sheet, theme, dpi))


def png_fingerprint(path: str | pathlib.Path) -> str:
    """The fingerprint that a PNG carries, "" if none: compare it with that of the drawing."""
    data = pathlib.Path(path).read_bytes()
    place = 8
    while place + 8 <= len(data):
        size = int.from_bytes(data[place : place + 4], "big")
        kind, body = data[place + 4 : place + 8], data[place + 8 : place + 8 + size]
        if kind == b"tEXt" and body.startswith(b"Fingerprint\x00"):
            return body.partition(b"\x00")[2].decode("latin-1")
        place += 12 + size
    return ""
