"""The saw beside the line, sixteen times full size: what each way of guiding it leaves of the part.

The line stands where the finished part ends. The blade takes a band as wide as its kerf; where that
band lies is the whole question.

>>> cut = SawLine(Fraction(19, 4), Fraction(1, 16), Fraction(1, 32))
>>> [(way, str(cut.length(way))) for way in WAYS]
[('outside', '153/32'), ('along', '19/4'), ('split', '151/32'), ('keep', '75/16')]
>>> saw_line_sheet(cut, SPLIT).sentence.split(". ")[-1]
'Splitting the line: the band takes 1/32 (0.031) of the part, which comes out 4 23/32 (4.719) long, SHORT.'
>>> crosses(cut, OUTSIDE, Fraction(1, 64)), crosses(cut, ALONG, Fraction(1, 64))
(False, True)
>>> cut.length("by-eye")
Traceback (most recent call last):
    ...
ValueError: no way to guide the saw 'by-eye': there are outside, along, split, keep
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import arrow, linear_dimension
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Polyline, Sheet
from anglelib.drawing.symbols import kerf_band, zigzag
from anglelib.lengths import both, exact

WIDTH, HEIGHT = 226.0, 96.0
LETTER = 3.5
UNIT = 16 * 25.4
"""Millimetres of paper an inch: sixteen times full size."""
LEFT, LINE, RIGHT = 12.0, 104.0, 214.0
LOW, TOP = 34.0, 72.0

WAYS = {"outside": "outside the line", "along": "along the line", "split": "splitting the line", "keep": "on the keep side"}
OUTSIDE, ALONG, SPLIT, KEEP = WAYS
"""Where the blade runs, by id, in words: outside by the allowance, touching the line on the waste side, its middle on the line, touching it on the part's side."""


@dataclass(frozen=True)
class SawLine:
    """A line at a length from end 1, and the saw that is to cut beside it; all [in]."""

    line: Fraction
    kerf: Fraction
    allowance: Fraction

    def length(self, way: str) -> Fraction:
        """How long the piece comes off the saw [in]."""
        if way not in WAYS:
            raise ValueError(f"no way to guide the saw {way!r}: there are {', '.join(WAYS)}")
        return self.line + {OUTSIDE: self.allowance, ALONG: Fraction(0), SPLIT: -self.kerf / 2, KEEP: -self.kerf}[way]


def saw_line_sheet(
    cut: SawLine, way: str, *, wander: Fraction = Fraction(0), answer: bool = True, prediction: Fraction | None = None, few: bool = False
) -> Sheet:
    """The end of the part with its line, the band that the saw takes, and the length that comes of it.

    ``wander`` [in]: how far to either side the band may lie; dashed lines show where its near side then is.
    """
    items: list[Item] = [
        Line(LEFT, TOP, RIGHT, TOP, "outline"),
        Line(LEFT, LOW, RIGHT, LOW, "outline"),
        zigzag(LEFT, LOW, TOP),
        zigzag(RIGHT, LOW, TOP),
        Label(LEFT + 8, TOP - 9, "part", LETTER, "start", "middle"),
        Label(RIGHT - 8, TOP - 9, "waste", LETTER, "end", "middle"),
        *_cross(RIGHT - 15, LOW + 12, 5),
    ]
    if answer:
        items += _band(cut, way)
    items += [Line(LINE, LOW, LINE, TOP, "mark", True)]
    if answer and wander:
        items += _wander(cut, way, wander)
    rows = [(cut.line, f"line {both(cut.line)}", False)]
    if answer and way != ALONG:
        rows.append((cut.length(way), f"sawn {both(cut.length(way))}", True))
    for y, (length, text, accent) in zip((LOW - 9, LOW - 20), sorted(rows)):  # the shorter above: no line then crosses its words
        items += _from_end_1(LINE + float(length - cut.line) * UNIT, y, text, accent)
    if prediction is not None:
        items += _ghost(prediction - cut.line, f"you: {exact(prediction)}")
    if not few:
        items.append(Label(LEFT, 5, "lengths from end 1; 16 times full size", LETTER, "start", "bottom"))
    return Sheet(WIDTH, HEIGHT, tuple(items), "The saw beside the line", saw_line_sentence(cut, way, wander, answer, prediction))


def made_sheet(off: Fraction, taper: bool = False) -> Sheet:
    """What was made over what was wanted, sixteen times full size: an end, or a taper's edge, off by so much (below 0: metal lost)."""
    over = both(abs(off))
    turn = -22.0 if taper else 0.0  # how far the edge leans from bottom to top on the paper
    slant = math.hypot(2 * turn, TOP - LOW) / (TOP - LOW)
    shift = float(off) * UNIT * slant  # off is square to the edge
    wanted = (LINE - turn, LOW, LINE + turn, TOP)
    made = (wanted[0] + shift, LOW, wanted[2] + shift, TOP)
    middle = (LINE, (LOW + TOP) / 2)
    foot = (middle[0] + float(off) * UNIT / slant, middle[1] - float(off) * UNIT / slant * 2 * turn / (TOP - LOW))
    what = "the taper's edge" if taper else "end 2"
    items: list[Item] = [
        Polyline(((LEFT, LOW), made[:2], made[2:], (LEFT, TOP)), "outline"),
        zigzag(LEFT, LOW, TOP),
        Line(*wanted, "blank", True),
        Label(LEFT + 5, LOW + 6, "the part", LETTER, "start", "middle"),
        *(
            (
                *(i for i in linear_dimension(foot, middle, 0.0, "", "line", letter=LETTER, bare=True) if not isinstance(i, Label)),
                Label(LINE + 30, TOP - 9, f"LOW by {over}", LETTER, "start", "middle"),
            )
            if taper
            else linear_dimension(*sorted((wanted[2:], made[2:])), TOP + 8, f"{'SHORT' if off < 0 else 'LONG'} by {over}", letter=LETTER)
        ),
        Label(LEFT, LOW - 12, f"{what}: made, and dashed as wanted; 16 times full size", LETTER, "start", "middle"),
    ]
    amount = f"{over} too low, all along, the angle right" if taper else f"{over} too {'short' if off < 0 else 'long'}, at the heel and at both toes alike"
    sentence = f"{what[0].upper()}{what[1:]} as wanted and as made, sixteen times full size: {amount}."
    return Sheet(WIDTH, HEIGHT, tuple(items), "Made over wanted", sentence)


def _cross(x: float, y: float, half: float) -> Group:
    """The cross that marks the waste."""
    return (Line(x - half, y - half, x + half, y + half, "mark", True), Line(x - half, y + half, x + half, y - half, "mark", True))


def _band(cut: SawLine, way: str) -> Group:
    """The kerf, the metal to sand or the metal lost, and their dimensions above."""
    off = float(cut.length(way) - cut.line)
    near, wide = LINE + off * UNIT, float(cut.kerf) * UNIT
    row = TOP + 8
    items: list[Item] = []
    if off > 0:
        items.append(Hatch(((LINE, LOW), (near, LOW), (near, TOP), (LINE, TOP)), 45, 2.0))
    items += kerf_band((near, TOP), (near, LOW), wide)
    if wide > 6:
        x = near + (0.75 if off < 0 else 0.5) * wide  # clear of the line, where the band lies on it
        items += [Line(x, LOW + 5, x, LOW + 10, "narrow"), arrow(x, LOW + 13, 90, 4)]
    upper = row + 9 if off < 0 else row
    items += linear_dimension((near, TOP), (near + wide, TOP), upper, f"kerf {both(cut.kerf)}", letter=LETTER)
    if off > 0:
        items += linear_dimension((LINE, TOP), (near, TOP), row, f"to sand {both(cut.allowance)}", letter=LETTER, outside="start", accent=True)
    elif off < 0:
        items += linear_dimension((near, TOP), (LINE, TOP), row, f"SHORT by {both(Fraction(cut.line - cut.length(way)))}", letter=LETTER, outside="start", accent=True)
    return tuple(items)


def crosses(cut: SawLine, way: str, wander: Fraction) -> bool:
    """Whether a saw that wanders so far may take metal of the finished part."""
    return cut.length(way) - wander < cut.line


def _wander(cut: SawLine, way: str, wander: Fraction) -> Group:
    """Where the band's near side lies at the worst, to either side, and whether that crosses the line."""
    near, far = LINE + float(cut.length(way) - cut.line) * UNIT, float(wander) * UNIT
    if cut.length(way) < cut.line:
        words = "CUTS INTO THE PART"
    else:
        words = "MAY CROSS THE LINE" if crosses(cut, way, wander) else "stays clear of the line"
    return (
        Line(near - far, LOW, near - far, TOP, "hidden"),
        Line(near + far, LOW, near + far, TOP, "hidden"),
        Label(RIGHT, 5, words, LETTER, "end", "bottom"),
    )


def _from_end_1(x: float, y: float, text: str, accent: bool) -> Group:
    """A length from end 1, which is far off the paper: an arrow at its far side only."""
    return (
        Line(x, LOW - 1, x, y - 1.5, "dimension", accent),
        Line(LEFT, y, x, y, "dimension", accent),
        arrow(x, y, 0, 3, accent),
        zigzag(LEFT, y - 1.5, y + 1.5),
        Label(LEFT + 4, y + 2.2, text, LETTER, "start", "bottom", accent=accent),
    )


def _ghost(off: Fraction, text: str) -> Group:
    """A predicted end of the part, dotted."""
    x = max(LEFT + 22, min(LINE + float(off) * UNIT, RIGHT - 30))
    wide = text_width(text, LETTER)
    left = x - 3 - wide if x - 3 - wide > LEFT + 4 else x + 3
    return (Line(x, LOW, x, TOP, "ghost"), Label(left, LOW + 21, text, LETTER, "start", "middle", halo=True))


def saw_line_sentence(cut: SawLine, way: str, wander: Fraction = Fraction(0), answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    words = f"The end of a part, sixteen times full size: the line stands {both(cut.line)} from end 1, the waste is crossed."
    if prediction is not None:
        words += f" Your prediction is {both(prediction)}."
    if not answer:
        return f"{words} Where the saw runs, {exact(cut.kerf)} wide, is not shown yet."
    length, lost = cut.length(way), cut.line - cut.length(way)
    said = {
        OUTSIDE: f"Outside the line: the piece comes off {both(length)} long, with {both(cut.allowance)} to sand.",
        ALONG: f"Along the line, the band on the waste side: {both(length)}, with nothing left to sand.",
        SPLIT: f"Splitting the line: the band takes {both(lost)} of the part, which comes out {both(length)} long, SHORT.",
        KEEP: f"On the keep side: the whole kerf, {both(lost)}, comes out of the part, which is {both(length)} long, SHORT.",
    }[way]
    if wander:
        risk = "it stays clear of the line" if not crosses(cut, way, wander) else "it may cross the line" if cut.length(way) >= cut.line else "the part is spoiled"
        said += f" It wanders by up to {both(wander)} either way, dashed: {risk}."
    return f"{words} The saw takes a band {both(cut.kerf)} wide. {said}"
