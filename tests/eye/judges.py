"""What an eye finds wrong on a finished page or picture, from its raster and where its words' ink is: it asks nothing of the boxes that placed them.

A page is looked at three times: as it is, its words alone, its drawing alone. A word's ink that the whole does not show is hidden; ink of the
drawing under a word, or inside its letters' box, strikes it; what lies under its letters is what they must stand out from.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

Grey = NDArray[np.uint8]
DARK = 128
"""A dot that ink covers by half or more is darker than this."""
TOUCHED = 160
"""A dot that ink covers by three eighths or more is darker than this."""
LEAST_CAPITAL = 2.5
"""The smallest capitals of a drawing [mm] (ISO 3098-1, nominal sizes)."""
LEAST_CONTRAST = 4.5
"""Of letters against what is under them (WCAG 2.2, 1.4.3)."""
TOUCH = 0.1
"""Ink that is nearer than this runs together on a printer [mm]: a dot of 254 to the inch."""
WORD_SPACE = 0.35
"""Two labels on one line with less between them read as one word [heights of a capital]; a space of the font leaves 0.6, letters of a word 0.1 to 0.3."""
STRUCK = 0.06
"""So much ink of the drawing inside a word's letters strikes it [mm2]: a narrow line's width, by as much."""
ON_LINE = 0.02
"""So much of a word's ink may lie on ink of the drawing, as a part of it."""
LOST = 0.005
"""So much of a word's ink may be missing in the whole, as a part of it: what the edges of dots do."""
STRETCHED = 0.04
"""A word may be set narrower or wider than its font has it by this part."""


@dataclass(frozen=True)
class Word:
    """A word as it is on the raster: its text, whose label it is of, the box of its ink, turned as it is, its capitals' height [mm], its grey."""

    text: str
    label: int
    quad: NDArray[np.float64]
    """Lower left, lower right, upper right, upper left, as it is read [dots, y down]."""
    capital: float
    grey: int = 0
    stretch: float = 1.0
    """The width it is set in, by the width that its font gives it."""

    @cached_property
    def frame(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of its ink [dots]."""
        (left, top), (right, bottom) = self.quad.min(0), self.quad.max(0)
        return float(left), float(top), float(right), float(bottom)

    @cached_property
    def along(self) -> NDArray[np.float64]:
        """The direction in which it is read, of length 1."""
        way = self.quad[1] - self.quad[0]
        return way / (math.hypot(*way) or 1.0)

    @property
    def upright(self) -> bool:
        """Whether its box has level and plumb sides."""
        return min(abs(self.along)) < 1e-3


@dataclass(frozen=True)
class Fault:
    """What is wrong with a word, by id, the other thing that it has to do with, how much of it, where [mm from the left and the top]."""

    kind: str
    word: str
    other: str = ""
    much: float = 0.0
    at: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class Look:
    """A finished page or picture, looked at."""

    name: str
    dots: float
    """Dots a millimetre."""
    whole: Grey
    letters: Grey
    """The words alone, on white."""
    drawing: Grey
    """All but the words."""
    words: tuple[Word, ...]
    alone: Callable[[int], Grey] = field(repr=False)
    """One label alone, on white."""
    clear: float = 0.0
    """The white edge that a printer leaves, which nothing may reach into [mm]."""
    least: float = LEAST_CAPITAL

    def place(self, word: Word) -> tuple[float, float]:
        """Where the middle of a word is [mm from the left and the top]."""
        x, y = word.quad.mean(0) / self.dots
        return round(float(x), 1), round(float(y), 1)


def faults(look: Look) -> list[Fault]:
    """Everything that the eye finds, word by word."""
    found = [fault for judge in JUDGES for fault in judge(look)]
    return sorted(found, key=lambda fault: (fault.kind, fault.at))


# --- one word --------------------------------------------------------------------------------------------
def cut(look: Look) -> Iterator[Fault]:
    """Words that the edge, or the white edge of the printer, cuts; words that left no ink at all."""
    high, wide = look.whole.shape
    room = look.clear * look.dots
    for word in look.words:
        left, top, right, bottom = word.frame
        over = max(room - left, room - top, right - (wide - room), bottom - (high - room))
        if over > 0.5:
            yield Fault("cut", word.text, "edge", over / look.dots, look.place(word))
        elif not _ink(look.letters, word).any():
            yield Fault("cut", word.text, "no ink", 0.0, look.place(word))


def hidden(look: Look) -> Iterator[Fault]:
    """Words of which something is covered: ink that they have alone and the whole has not."""
    for word in look.words:
        ink = _ink(look.letters, word)
        gone = ink & (_window(look.whole, word) > _window(look.letters, word).astype(np.int16) + 60)
        if (many := int(ink.sum())) and gone.sum() > max(2, LOST * many):
            yield Fault("hidden", word.text, "", float(gone.sum()) / many, look.place(word))


def struck(look: Look) -> Iterator[Fault]:
    """Words with ink of the drawing under their letters or between them."""
    for word in look.words:
        inside, window = _inside(look.drawing, word), _window(look.drawing, word)
        lines = inside & (window < DARK)
        ink = _ink(look.letters, word)
        area = float(lines.sum()) / look.dots**2
        on = float((lines & ink).sum()) / max(1, int(ink.sum()))
        if area > STRUCK or on > ON_LINE:
            yield Fault("struck", word.text, f"{on:.2f} of its ink", area, look.place(word))


def touched(look: Look) -> Iterator[Fault]:
    """Words whose letters' ink and a line's have no white dot between them."""
    shape, reach = look.drawing.shape, TOUCH * look.dots
    for word in look.words:
        left, top, right, bottom = word.frame
        frame = _joint((0, 0, shape[1], shape[0]), (left, top, right, bottom), shape, reach + 1)
        lines = _cut_out(look.drawing, frame) < TOUCHED
        if not lines.any():
            continue
        ink = np.zeros_like(lines)
        rows, columns = _slices(word, shape)
        ink[rows.start - frame[1] : rows.stop - frame[1], columns.start - frame[0] : columns.stop - frame[0]] = _ink(look.letters, word)
        if (many := int((_grown(ink, reach) & lines).sum())) > 3:
            yield Fault("touched", word.text, "", many / look.dots**2, look.place(word))


def small(look: Look) -> Iterator[Fault]:
    """Words whose capitals are lower than the least."""
    for word in look.words:
        if word.capital < look.least * 0.985:
            yield Fault("small", word.text, "", word.capital, look.place(word))


def stretched(look: Look) -> Iterator[Fault]:
    """Words that are squeezed or pulled into a width that is not theirs."""
    for word in look.words:
        if abs(word.stretch - 1) > STRETCHED and len(word.text) > 2:
            yield Fault("stretched", word.text, "", word.stretch, look.place(word))


def faint(look: Look) -> Iterator[Fault]:
    """Words whose letters do not stand out, in a picture of greys, from what is under and beside them."""
    for word in look.words:
        ground = _window(look.drawing, word)[_inside(look.drawing, word)]
        if ground.size and (found := contrast(word.grey, float(np.median(ground)))) < LEAST_CONTRAST:
            yield Fault("faint", word.text, "", found, look.place(word))


def contrast(one: float, two: float) -> float:
    """The contrast ratio of two greys, 0 to 255 (WCAG 2.2, from its definition of relative luminance)."""
    high, low = sorted((_luminance(one), _luminance(two)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _luminance(grey: float) -> float:
    part = grey / 255
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4


# --- two words -------------------------------------------------------------------------------------------
def overlapping(look: Look) -> Iterator[Fault]:
    """Words of two labels whose ink touches."""
    alone: dict[int, Grey] = {}
    reach = TOUCH * look.dots
    for one, two in _near(look, reach):
        if not _meet(one.quad, two.quad, reach):
            continue
        for word in (one, two):
            if word.label not in alone:
                alone[word.label] = look.alone(word.label)
        frame = _joint(one.frame, two.frame, look.whole.shape, reach + 2)
        first, second = (_cut_out(alone[word.label], frame) < DARK for word in (one, two))
        if (_grown(first, reach) & second).any():
            yield Fault("overlap", one.text, two.text, float((first & second).sum()) / look.dots**2, look.place(one))


def together(look: Look) -> Iterator[Fault]:
    """Words of two labels on one line, so near that they read as one."""
    for one, two in _near(look, max((word.capital for word in look.words), default=0) * WORD_SPACE * look.dots):
        if one.along @ two.along < 0.999:
            continue
        up = np.array([one.along[1], -one.along[0]])
        (a1, a2), (b1, b2) = (((quad := word.quad @ one.along).min(), quad.max()) for word in (one, two))
        (c1, c2), (d1, d2) = (((quad := word.quad @ up).min(), quad.max()) for word in (one, two))
        level = min(c2, d2) - max(c1, d1) > 0.5 * min(c2 - c1, d2 - d1)
        gap = max(b1 - a2, a1 - b2) / look.dots
        if level and 0 <= gap < WORD_SPACE * min(one.capital, two.capital):
            yield Fault("together", one.text, two.text, float(gap), look.place(one))


def _near(look: Look, reach: float) -> Iterator[tuple[Word, Word]]:
    """Pairs of words of two labels, whose upright frames come nearer than ``reach`` [dots]."""
    if not look.words:
        return
    frames, labels = np.array([word.frame for word in look.words]), np.array([word.label for word in look.words])
    left, top, right, bottom = (frames[:, i] for i in range(4))
    near = (left[:, None] < right + reach) & (left < right[:, None] + reach) & (top[:, None] < bottom + reach) & (top < bottom[:, None] + reach)
    near &= labels[:, None] != labels
    for i, k in zip(*np.nonzero(np.triu(near, 1))):
        yield look.words[i], look.words[k]


def _meet(one: NDArray, two: NDArray, reach: float) -> bool:
    """Whether no straight line parts two boxes by ``reach``."""
    for quad in (one, two):
        for a, b in ((0, 1), (1, 2)):
            way = quad[b] - quad[a]
            across = np.array([way[1], -way[0]]) / (math.hypot(*way) or 1.0)
            first, second = one @ across, two @ across
            if first.max() + reach < second.min() or second.max() + reach < first.min():
                return False
    return True


# --- the page --------------------------------------------------------------------------------------------
def outside(look: Look) -> Iterator[Fault]:
    """Ink in the white edge that a printer leaves, of whatever kind."""
    room = math.floor(look.clear * look.dots)
    if not room:
        return
    ink = look.whole < 200
    for side, strip in {"left": ink[:, :room], "right": ink[:, -room:], "top": ink[:room], "bottom": ink[-room:]}.items():
        if strip.any():
            y, x = (float(v.mean()) / look.dots for v in np.nonzero(strip))
            yield Fault("outside", side, "", float(strip.sum()) / look.dots**2, (round(x, 1), round(y, 1)))


JUDGES = (cut, hidden, struck, touched, small, stretched, faint, overlapping, together, outside)


# --- dots ------------------------------------------------------------------------------------------------
def _slices(word: Word, shape: tuple[int, ...]) -> tuple[slice, slice]:
    left, top, right, bottom = word.frame
    return (
        slice(min(shape[0], max(0, math.floor(top))), min(shape[0], max(0, math.ceil(bottom)))),
        slice(min(shape[1], max(0, math.floor(left))), min(shape[1], max(0, math.ceil(right)))),
    )


def _window(of: Grey, word: Word) -> Grey:
    return of[_slices(word, of.shape)]


def _inside(of: Grey, word: Word) -> NDArray[np.bool_]:
    """The dots of a word's window that lie in its turned box."""
    rows, columns = _slices(word, of.shape)
    shape = rows.stop - rows.start, columns.stop - columns.start
    if word.upright or not all(shape):
        return np.ones(shape, bool)
    mask = Image.new("1", shape[::-1])
    ImageDraw.Draw(mask).polygon([(x - columns.start - 0.5, y - rows.start - 0.5) for x, y in word.quad], fill=1)
    return np.array(mask, bool)


def _ink(of: Grey, word: Word) -> NDArray[np.bool_]:
    """The dots of a word's window that its letters cover by half or more."""
    return (_window(of, word) < (255 + word.grey) / 2) & _inside(of, word)


def _joint(one: tuple, two: tuple, shape: tuple[int, ...], reach: float) -> tuple[int, int, int, int]:
    """Where two frames meet, with a rim."""
    left, top = (max(0, math.floor(max(one[i], two[i]) - reach)) for i in (0, 1))
    right, bottom = (max(0, min(end, math.ceil(min(one[i], two[i]) + reach))) for i, end in ((2, shape[1]), (3, shape[0])))
    return left, top, right, bottom


def _cut_out(of: Grey, frame: tuple[int, int, int, int]) -> Grey:
    left, top, right, bottom = frame
    return of[top:bottom, left:right]


def _grown(mask: NDArray[np.bool_], by: float) -> NDArray[np.bool_]:
    """A shape made wider all round, by whole dots."""
    steps = max(1, round(by))
    out = mask.copy()
    for down in range(-steps, steps + 1):
        for right in range(-steps, steps + 1):
            if down**2 + right**2 > by**2 + 0.5 or not (down or right):
                continue
            moved = np.zeros_like(mask)
            rows, columns = mask.shape
            moved[max(0, down) : rows + min(0, down), max(0, right) : columns + min(0, right)] = mask[
                max(0, -down) : rows + min(0, -down), max(0, -right) : columns + min(0, -right)
            ]
            out |= moved
    return out
