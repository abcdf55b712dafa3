"""What every sheet says besides its views: scale, units, datum, projection, caution; and the way to set it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, Line
from anglelib.drawing.symbols import third_angle

CAUTION = "Computed from the description of the part. The kit's plans and instructions come first; this approves nothing."
SCALES = tuple(Fraction(s) for s in ("10", "5", "4", "3", "2", "1", "1/2", "1/4", "1/5", "1/10", "1/20", "1/50"))
"""Scales to choose from, as paper over metal."""
FINE_SCALES = tuple(sorted({*SCALES, Fraction(5, 2), Fraction(3, 2), Fraction(3, 4), Fraction(2, 5)}, reverse=True))
"""For pictures that nobody measures, such as those of a lesson."""
EDGE = 6.0
"""White edge of a sheet [mm]."""


def scale_text(scale: Fraction) -> str:
    """A scale as it is written.

    >>> scale_text(Fraction(2)), scale_text(Fraction(1, 2))
    ('2:1', '1:2')
    """
    return f"{scale.numerator}:{scale.denominator}"


def largest_scale(*needs: tuple[float, float], scales: Sequence[Fraction] = SCALES) -> Fraction:
    """The largest scale at which each length [mm] fits its room [mm].

    >>> largest_scale((38.1, 100))
    Fraction(2, 1)
    """
    for scale in scales:
        if all(length * scale <= room + 1e-9 for length, room in needs):
            return scale
    return scales[-1]


def unbroken_first(scales: Sequence[Fraction], whole: float) -> list[Fraction]:
    """The scales without those at which a part must be broken though a little smaller it is whole.

    ``whole`` is the largest scale at which it need not be broken.

    >>> [str(s) for s in unbroken_first(SCALES[3:7], 1.2)]
    ['3', '2', '1', '1/2']
    >>> [str(s) for s in unbroken_first((Fraction(3, 2), Fraction(1)), 1.2)]
    ['1']
    """
    return [s for s in scales if s <= whole or not any(s * 3 / 5 <= other <= whole for other in scales)]


def wrap(text: str, width: float, letter: float) -> list[str]:
    """The text in lines not wider than ``width`` [mm]; a word alone may be wider."""
    lines: list[str] = []
    for word in text.split():
        if lines and text_width(f"{lines[-1]} {word}", letter) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def paragraph(x: float, y: float, text: str | Sequence[str], width: float, letter: float = 3.5, accent: bool = False) -> Group:
    """Text from its top left corner down, wrapped to a width [mm]."""
    lines = [line for part in ([text] if isinstance(text, str) else text) for line in wrap(part, width, letter)]
    return tuple(Label(x, y - i * 1.65 * letter, line, letter, "start", "top", accent=accent) for i, line in enumerate(lines))


def footer(width: float, words: str, *, letter: float = 2.5, projection: bool = True, caution: bool = True) -> Group:
    """The foot of a sheet, 12 mm high: what it is to, and the caution; the projection's sign at the right.

    With larger letters, for a projector, there is one line: the caution then stands on the page.
    """
    items: list[Item] = [Line(EDGE, 11.2, width - EDGE, 11.2, "narrow")]
    room = width - 2 * EDGE - (20 if projection else 0)
    small = letter <= 2.5
    lines = wrap(words, room, letter)
    if small and caution:
        lines += wrap(CAUTION, room, letter)
    items += [Label(EDGE, 9.2 - i * 1.7 * letter, line, letter, "start", "top") for i, line in enumerate(lines[:2])]
    if projection:
        items += third_angle(width - EDGE - 3.4 * letter, 5.4, letter)
    return tuple(items)
