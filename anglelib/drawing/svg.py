"""A sheet as SVG text: for live widgets, notebook outputs and the browser edition.

Only text is made, in well under a millisecond, and the same text on every Python. Runs of lines of
one kind become one path.
"""

from __future__ import annotations

import base64
import hashlib
import math
from collections.abc import Callable
from functools import lru_cache

from anglelib.drawing.escape import escape
from anglelib.drawing.letters import font_size, halo, text_width
from anglelib.drawing.sheet import Arc, Circle, Hatch, Label, Line, Polyline, Sheet, hundredths
from anglelib.drawing.style import KINDS, THEMES, Theme

PIXELS = 4
"""Pixels a millimetre on a screen that has room: letters of 3.5 mm then stand 14 pixels high."""
FONTS = "DejaVu Sans, Verdana, sans-serif"
_PARTS = tuple(f".{n:02d}".rstrip("0").rstrip(".") for n in range(100))


@lru_cache(maxsize=8192)  # most of a picture stays where it was when a slider moves
def number(value: float) -> str:
    """A coordinate as text, to the hundredth of a millimetre, without idle noughts.

    >>> number(41.275), number(-0.001), number(2.5)
    ('41.28', '0', '2.5')
    """
    n = hundredths(value)
    if n < 0:
        whole, part = divmod(-n, 100)
        return f"-{whole}{_PARTS[part]}"
    whole, part = divmod(n, 100)
    return f"{whole}{_PARTS[part]}"


class _Writer:
    """Collects the elements; open strokes of one look wait in ``_path`` until the look changes."""

    def __init__(self, sheet: Sheet, theme: Theme) -> None:
        self.sheet, self.theme, self.top = sheet, theme, sheet.height
        self.elements: list[str] = []
        self._look = ""
        self._path: list[str] = []
        self._looks: dict[tuple[str, bool], str] = {}

    def look(self, kind: str, accent: bool) -> str:
        """Stroke attributes of a line kind."""
        key = (kind, accent)
        found = self._looks.get(key)
        if found is None:
            style = KINDS[kind]
            colour = self.theme.accent if accent else self.theme.ink
            found = f'stroke="{colour}" stroke-width="{number(self.theme.line(style.width, self.top))}"'
            if style.dashes:
                factor = self.theme.line(style.width, self.top) / style.width
                found += f' stroke-dasharray="{" ".join(number(d * factor) for d in style.dashes)}"'
            self._looks[key] = found
        return found

    def stroke(self, look: str, path: str) -> None:
        if look != self._look:
            self.flush()
            self._look = look
        self._path.append(path)

    def flush(self) -> None:
        if self._path:
            self.elements.append(f'<path {self._look} d="{"".join(self._path)}"/>')
            self._path = []

    def paint(self, fill: str, look: str, path: str) -> None:
        """A filled shape, with or without an edge."""
        self.flush()
        colour = getattr(self.theme, fill)
        self.elements.append(f'<path fill="{colour}" {look or "stroke=" + chr(34) + "none" + chr(34)} d="{path}"/>')

    def line(self, item: Line) -> None:
        top = self.top
        self.stroke(
            self.look(item.kind, item.accent),
            f"M{number(item.x1)} {number(top - item.y1)}L{number(item.x2)} {number(top - item.y2)}",
        )

    def polyline(self, item: Polyline) -> None:
        top = self.top
        path = "M" + "L".join([f"{number(x)} {number(top - y)}" for x, y in item.points]) + ("Z" if item.closed else "")
        look = self.look(item.kind, item.accent) if item.kind else ""
        if item.fill:
            self.paint(item.fill, look, path)
        else:
            self.stroke(look, path)

    def arc(self, item: Arc) -> None:
        r = number(item.radius)
        a, b = math.radians(item.start), math.radians(item.end)
        x1, y1 = item.x + item.radius * math.cos(a), item.y + item.radius * math.sin(a)
        x2, y2 = item.x + item.radius * math.cos(b), item.y + item.radius * math.sin(b)
        large = 1 if item.end - item.start > 180 else 0
        self.stroke(
            self.look(item.kind, item.accent),
            f"M{number(x1)} {number(self.top - y1)}A{r} {r} 0 {large} 0 {number(x2)} {number(self.top - y2)}",
        )

    def circle(self, item: Circle) -> None:
        r, y = number(item.radius), number(self.top - item.y)
        right, left = number(item.x + item.radius), number(item.x - item.radius)
        path = f"M{right} {y}A{r} {r} 0 1 0 {left} {y}A{r} {r} 0 1 0 {right} {y}Z"
        look = self.look(item.kind, item.accent) if item.kind else ""
        if item.fill:
            self.paint(item.fill, look, path)
        else:
            self.stroke(look, path)

    def hatch(self, item: Hatch) -> None:
        for line in item.lines():
            self.line(line)

    def label(self, item: Label) -> None:
        if not item.text:
            return
        self.flush()
        high = self.theme.letter(item.height, self.top)
        if item.halo:
            path = "M" + "L".join([f"{number(x)} {number(self.top - y)}" for x, y in halo(item, high)]) + "Z"
            self.paint("paper", "", path)
        x, y = item.baseline(high)
        x, y = number(x), number(self.top - y)
        turn = f' transform="rotate({number(-item.rotation)} {x} {y})"' if item.rotation else ""
        colour = self.theme.accent if item.accent else self.theme.ink
        anchor = "" if item.anchor == "start" else f' text-anchor="{item.anchor}"'
        self.elements.append(
            f'<text x="{x}" y="{y}" font-size="{number(font_size(high))}" fill="{colour}"{anchor}{turn}'
            f' textLength="{number(text_width(item.text, high))}" lengthAdjust="spacingAndGlyphs">'
            f"{escape(item.text)}</text>"
        )


_WRITE: dict[type, Callable] = {
    Line: _Writer.line,
    Polyline: _Writer.polyline,
    Arc: _Writer.arc,
    Circle: _Writer.circle,
    Hatch: _Writer.hatch,
    Label: _Writer.label,
}


def svg(sheet: Sheet, theme: str = "screen", *, true_size: bool = False) -> str:
    """The sheet as one ``<svg>`` element: a picture with its sentence as name and description.

    ``true_size`` gives it its size in millimetres, for printing; else it takes up to four pixels a
    millimetre and shrinks to its place.
    """
    look = THEMES[theme]
    writer = _Writer(sheet, look)
    for item in sheet.items:
        _WRITE[type(item)](writer, item)
    writer.flush()
    wide, high = number(sheet.width), number(sheet.height)
    if true_size:
        size = f'width="{wide}mm" height="{high}mm"'
    else:
        size = f'width="{number(sheet.width * PIXELS)}" height="{number(sheet.height * PIXELS)}" style="max-width:100%;height:auto"'
    sentence = escape(sheet.sentence)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{sentence}" {size} '
        f'viewBox="0 0 {wide} {high}" font-family="{FONTS}" fill="none" stroke-linejoin="round">'
        f"<title>{escape(sheet.title)}</title><desc>{sentence}</desc>"
        f'<path fill="{look.paper}" d="M0 0H{wide}V{high}H0Z"/>{"".join(writer.elements)}</svg>'
    )


def image(sheet: Sheet, theme: str = "screen") -> str:
    """The sheet as an ``<img>`` with its picture inside: it outlives an untrusted or unrun notebook."""
    data = base64.b64encode(svg(sheet, theme).encode("utf-8")).decode("ascii")
    return (
        f'<img alt="{escape(sheet.sentence)}" style="max-width:100%" '
        f'width="{number(sheet.width * PIXELS)}" src="data:image/svg+xml;base64,{data}">'
    )


def fingerprint(sheet: Sheet) -> str:
    """Sixteen figures that change when the drawing does; a committed picture carries them."""
    return hashlib.sha256(svg(sheet, "paper").encode("utf-8")).hexdigest()[:16]
