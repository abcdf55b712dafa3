"""A finished PDF opened by another library than wrote it: each page's words by their letters' ink, and its raster with and without them."""

from __future__ import annotations

import ctypes
import io
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import pypdfium2
import pypdfium2.raw as raw
from judges import Grey, Look, Word

MM = 25.4 / 72
FLAT = re.compile(r"[EFHIKLMNTXZ14]")
"""Letters that are as high as a capital, neither more nor less."""
PRINTER = 6.35
"""The white edge that a printer leaves at each side: a quarter of an inch, the most that office printers ask for [mm]."""


@dataclass(frozen=True)
class Letter:
    """A letter: its box [points], its font size through every matrix [points], its angle [deg], the text object that it is of."""

    text: str
    box: tuple[float, float, float, float]
    size: float
    angle: float
    of: int


def looks(content: bytes, *, dpi: int = 200, clear: float = PRINTER, pages: range | None = None) -> Iterator[Look]:
    """Each page of a PDF, looked at."""
    document = pypdfium2.PdfDocument(io.BytesIO(content))
    for number in pages or range(len(document)):
        yield _look(document[number], f"page {number + 1}", dpi, clear)


def _look(page: pypdfium2.PdfPage, name: str, dpi: int, clear: float) -> Look:
    handles = [raw.FPDFPage_GetObject(page, i) for i in range(raw.FPDFPage_CountObjects(page))]
    read = list(_letters(page))  # before any is put out of sight: what does not show has no text
    texts = {_address(one): one for one in handles if raw.FPDFPageObj_GetType(one) == raw.FPDF_PAGEOBJ_TEXT}
    drawn = [one for one in handles if raw.FPDFPageObj_GetType(one) != raw.FPDF_PAGEOBJ_TEXT]

    def shown(words, others: bool) -> Grey:
        for address, one in texts.items():
            raw.FPDFPageObj_SetIsActive(one, address in words)
        for one in drawn:
            raw.FPDFPageObj_SetIsActive(one, others)
        return page.render(scale=dpi / 72, grayscale=True).to_numpy().copy()

    width, height = page.get_size()
    whole = shown(texts, True)
    letters, drawing = shown(texts, False), shown((), True)
    dots = whole.shape[1] / (width * MM)
    flat = [(letter.box[3] - letter.box[1]) / letter.size for letter in read if FLAT.fullmatch(letter.text) and not letter.angle]
    rise = float(np.median(flat)) if flat else 0.729
    order = {address: n for n, address in enumerate(texts)}
    by_label = list(texts)

    def alone(label: int) -> Grey:
        return shown((by_label[label],), False)

    words = tuple(_word(run, order[run[0].of], texts[run[0].of], rise, height, dots * MM, alone) for run in _runs(read))
    return Look(name, dots, whole, letters, drawing, words, alone, clear)


def _address(handle) -> int:
    return ctypes.cast(handle, ctypes.c_void_p).value or 0


def _letters(page: pypdfium2.PdfPage) -> Iterator[Letter]:
    text, matrix = page.get_textpage(), raw.FS_MATRIX()
    for i in range(text.count_chars()):
        handle = raw.FPDFText_GetTextObject(text, i)
        if raw.FPDFText_IsGenerated(text, i) or not handle:
            continue
        raw.FPDFText_GetMatrix(text, i, matrix)
        size = raw.FPDFText_GetFontSize(text, i) * math.hypot(matrix.c, matrix.d)
        angle = math.degrees(math.atan2(matrix.b, matrix.a))
        yield Letter(chr(raw.FPDFText_GetUnicode(text, i)), text.get_charbox(i), size, round(angle, 3), _address(handle))
    text.close()


def _runs(letters: list[Letter]) -> Iterator[list[Letter]]:
    """Letters of one label up to a space."""
    run: list[Letter] = []
    for letter in letters:
        if run and (letter.text.isspace() or letter.of != run[0].of):
            yield run
            run = []
        if not letter.text.isspace():
            run.append(letter)
    if run:
        yield run


def _word(run: list[Letter], label: int, handle, rise: float, height: float, dots: float, alone) -> Word:
    boxes = np.array([letter.box for letter in run])
    left, low, right, high = boxes[:, 0].min(), boxes[:, 1].min(), boxes[:, 2].max(), boxes[:, 3].max()
    quad = np.array([(left, low), (right, low), (right, high), (left, high)])
    quad = np.column_stack([quad[:, 0], height - quad[:, 1]]) * dots
    if not run[0].angle % 90:
        quad = np.roll(quad, -int(run[0].angle // 90), axis=0)
    else:
        quad = _turned(quad, run[0].angle, alone(label))
    colour = [ctypes.c_uint() for _ in range(4)]
    raw.FPDFPageObj_GetFillColor(handle, *colour)
    r, g, b, _ = (part.value for part in colour)
    return Word("".join(letter.text for letter in run), label, quad, run[0].size * rise * MM, round(0.299 * r + 0.587 * g + 0.114 * b))


def _turned(quad: np.ndarray, angle: float, ink: Grey) -> np.ndarray:
    """The box of a turned word along its own direction, from its ink on the raster."""
    left, top = np.floor(quad.min(0)).astype(int)
    right, bottom = np.ceil(quad.max(0)).astype(int)
    rows, columns = np.nonzero(ink[max(0, top) : bottom, max(0, left) : right] < 128)
    if not len(rows):
        return quad
    points = np.column_stack([columns + max(0, left) + 0.5, rows + max(0, top) + 0.5])
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    along, up = points @ np.array([c, -s]), points @ np.array([-s, -c])
    a, b, low, high = along.min() - 0.5, along.max() + 0.5, up.min() - 0.5, up.max() + 0.5
    return np.array([(u * c - v * s, -u * s - v * c) for u, v in ((a, low), (b, low), (b, high), (a, high))])
