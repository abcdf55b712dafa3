"""Sheets as the pages of one PDF whose millimetres are millimetres: what is printed for the bench.

Written through reportlab's canvas straight from the sheet's data, about fifty times as fast as
through matplotlib; of matplotlib only its font file is used (DejaVu Sans, the font that the layout
is measured with), embedded, so that the text can be searched and copied. Each page has its tags, for
those who hear it. The viewer is asked not to scale. The same sheets and date make the same bytes.

>>> from anglelib.drawing.sheet import Label
>>> pdf([Sheet(210, 297, (Label(20, 20, "Cleat"),), "Trial", "One word.")], "Trial")[:5]
b'%PDF-'
"""

from __future__ import annotations

import contextlib
import datetime
import functools
import io
import math
import pathlib
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Mapping
from importlib.util import find_spec
from typing import TYPE_CHECKING

from anglelib.drawing.escape import clean
from anglelib.drawing.letters import font_size, halo
from anglelib.drawing.pdf_tags import FIGURE, PARAGRAPH, Tags
from anglelib.drawing.sheet import Arc, Circle, Hatch, Label, Line, Point, Polyline, Sheet
from anglelib.drawing.style import KINDS, THEMES, Theme

if TYPE_CHECKING:
    from reportlab.lib.colors import Color
    from reportlab.pdfgen.canvas import Canvas

POINTS = 72 / 25.4
"""Points in a millimetre."""
FONT = "DejaVuSans"


def font_file() -> pathlib.Path:
    """DejaVu Sans as it ships with matplotlib, found without importing matplotlib."""
    found = find_spec("matplotlib")
    if found is None or not found.submodule_search_locations:
        raise ModuleNotFoundError("matplotlib is not installed; its font file is needed to print")
    return pathlib.Path(found.submodule_search_locations[0], "mpl-data", "fonts", "ttf", "DejaVuSans.ttf")


@functools.cache
def _register() -> str:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    pdfmetrics.registerFont(TTFont(FONT, str(font_file())))
    return FONT


@functools.cache
def _ink_of(colour: str) -> Color:
    """A colour as the canvas takes it; reading it off its text takes longer than drawing a line with it."""
    from reportlab.lib.colors import toColor

    return toColor(colour)


@functools.cache
def _set(letter: str) -> bool:
    from reportlab.pdfbase import pdfmetrics

    there = ord(letter) in pdfmetrics.getFont(_register()).face.charToGlyph
    return there and unicodedata.bidirectional(letter) not in ("R", "AL", "AN")


def lacking(text: str) -> str:
    """The letters of a text that cannot be printed, each once: the font has none for them, or they are written from the right.

    >>> lacking("Bügel, Δ Д ế"), lacking("床バ bar 床")
    ('', '床バ')
    """
    return "".join(dict.fromkeys(letter for letter in clean(text) if not (letter.isspace() or _set(letter))))


def as_printed(text: str) -> str:
    """The text with "?" for each letter that cannot be printed, instead of an empty box."""
    lacks = "" if text.isascii() else lacking(text)
    return text.translate({ord(letter): "?" for letter in lacks}) if lacks else text


def pdf(
    sheets: Iterable[Sheet],
    title: str,
    *,
    date: datetime.date | None = None,
    subject: str = "",
    bookmarks: Mapping[int, str] | None = None,
    theme: str = "paper",
    drawn: Callable[[int], None] | None = None,
) -> bytes:
    """The sheets as pages of one PDF, each exactly of its sheet's size, to be printed at 1:1.

    ``bookmarks`` name pages (counted from 0) in the viewer's outline; ``drawn`` is called with the
    number of pages that are done after each.
    """
    with _bytes_as_they_are():
        return _pdf(sheets, title, date, subject, bookmarks, theme, drawn)


@contextlib.contextmanager
def _bytes_as_they_are() -> Iterator[None]:
    """Compressed streams are written as bytes, not spelled in letters for old mail, which takes a quarter more room and its time to read."""
    from reportlab import rl_config

    usual, rl_config.useA85 = rl_config.useA85, 0
    try:
        yield
    finally:
        rl_config.useA85 = usual


def _pdf(
    sheets: Iterable[Sheet],
    title: str,
    date: datetime.date | None,
    subject: str,
    bookmarks: Mapping[int, str] | None,
    theme: str,
    drawn: Callable[[int], None] | None,
) -> bytes:
    from reportlab.pdfgen.canvas import Canvas

    out = io.BytesIO()
    font = _register()
    canvas = Canvas(out, pageCompression=1, invariant=1, lang="en", initialFontName=font)
    canvas.setTitle(clean(title))
    canvas.setSubject(clean(subject))
    canvas.setAuthor("")
    canvas.setCreator("anglelib")
    canvas.setProducer("anglelib")
    day = date or datetime.date(2000, 1, 1)
    canvas.setDateFormatter(lambda *_: f"D:{day:%Y%m%d}000000Z")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    tags = Tags(canvas)
    for number, sheet in enumerate(sheets):
        tags.page(sheet)
        canvas.setPageSize((sheet.width * POINTS, sheet.height * POINTS))
        if bookmarks and number in bookmarks:
            canvas.bookmarkPage(f"page{number}")
            canvas.addOutlineEntry(clean(bookmarks[number]), f"page{number}", 0, 0)
        canvas.scale(POINTS, POINTS)
        _Page(canvas, sheet, THEMES[theme]).draw(tags)
        canvas.showPage()
        if drawn is not None:
            drawn(number + 1)
    if bookmarks:
        canvas.showOutline()
    tags.write()
    canvas.save()
    return out.getvalue()


def save_pdf(sheets: Iterable[Sheet], path: str | pathlib.Path, title: str, **settings) -> None:
    """Writes :func:`pdf` to a file."""
    pathlib.Path(path).write_bytes(pdf(sheets, title, **settings))


class _Page:
    """One sheet on the canvas, in millimetres."""

    def __init__(self, canvas: Canvas, sheet: Sheet, theme: Theme) -> None:
        self.canvas, self.sheet, self.theme = canvas, sheet, theme
        self._stroke: tuple[str, bool] | None = None
        self._fill = ""

    def draw(self, tags: Tags) -> None:
        self.canvas.setLineCap(0)
        self.canvas.setLineJoin(1)
        for item in self.sheet.items:
            tags.mark(PARAGRAPH if isinstance(item, Label) else FIGURE)
            if isinstance(item, Line):
                self._lines([((item.x1, item.y1), (item.x2, item.y2))], item.kind, item.accent)
            elif isinstance(item, Polyline):
                self._shape(item.points, item.closed, item.kind, item.fill, item.accent)
            elif isinstance(item, Arc):
                self._arc(item)
            elif isinstance(item, Circle):
                stroke, fill = self._ready(item.kind, item.fill, item.accent)
                self.canvas.circle(item.x, item.y, item.radius, stroke, fill)
            elif isinstance(item, Hatch):
                cut = [((c.x1, c.y1), (c.x2, c.y2)) for c in item.lines()]
                if cut:
                    self._lines(cut, item.kind, item.accent)
            elif item.text:
                self._label(item)
        tags.mark("")

    # --- how ------------------------------------------------------------------------------------
    def _colour(self, name: str) -> Color:
        return _ink_of(getattr(self.theme, name))

    def _ready(self, kind: str, fill: str, accent: bool) -> tuple[int, int]:
        """Sets the pen and the ink; whether to stroke and to fill, as the canvas wants it."""
        canvas = self.canvas
        if kind and self._stroke != (kind, accent):
            style = KINDS[kind]
            width = self.theme.line(style.width, self.sheet.height)
            canvas.setStrokeColor(self._colour("accent" if accent else "ink"))
            canvas.setLineWidth(width)
            canvas.setDash([dash * width / style.width for dash in style.dashes] if style.dashes else [])
            self._stroke = (kind, accent)
        if fill and self._fill != fill:
            canvas.setFillColor(self._colour(fill))
            self._fill = fill
        return int(bool(kind)), int(bool(fill))

    # --- what -----------------------------------------------------------------------------------
    def _lines(self, pieces: list[tuple[Point, Point]], kind: str, accent: bool) -> None:
        self._ready(kind, "", accent)
        self.canvas.lines([(*p, *q) for p, q in pieces])

    def _shape(self, points: tuple[Point, ...], closed: bool, kind: str, fill: str, accent: bool) -> None:
        stroke, filled = self._ready(kind, fill, accent)
        path = self.canvas.beginPath()
        path.moveTo(*points[0])
        for point in points[1:]:
            path.lineTo(*point)
        if closed:
            path.close()
        self.canvas.drawPath(path, stroke, filled)

    def _arc(self, item: Arc) -> None:
        self._ready(item.kind, "", item.accent)
        r = item.radius
        path = self.canvas.beginPath()
        path.arc(item.x - r, item.y - r, item.x + r, item.y + r, item.start, item.end - item.start)
        self.canvas.drawPath(path, 1, 0)

    def _label(self, item: Label) -> None:
        high = self.theme.letter(item.height, self.sheet.height)
        if item.halo:
            self._shape(halo(item, high), True, "", "paper", False)
        self._ready("", "accent" if item.accent else "ink", item.accent)
        size = font_size(high)
        words = as_printed(item.text)
        wide = self.canvas.stringWidth(words, FONT, size)
        back = {"start": 0.0, "middle": wide / 2, "end": wide}[item.anchor]
        x, y = item.baseline(high)
        c, s = math.cos(math.radians(item.rotation)), math.sin(math.radians(item.rotation))
        text = self.canvas.beginText()
        text.setFont(FONT, size)
        text.setTextTransform(c, s, -s, c, x - back * c, y - back * s)
        text.textOut(words)
        self.canvas.drawText(text)
