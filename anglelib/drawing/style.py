"""Line kinds by purpose, letter heights, and the two themes: what every paper draws with.

Two line widths, wide to narrow 2:1 (ISO 128-2); letters 2.5, 3.5, 5 or 7 mm high (ISO 3098-1),
measured on the capitals. A drawing names the *purpose* of a line; its width and dashes are here.
"""

from __future__ import annotations

from dataclasses import dataclass

WIDE = 0.7
NARROW = 0.35
LETTERS = (2.5, 3.5, 5.0, 7.0)
SPACE = 0.7
"""Smallest clear space between parallel lines [mm]."""


@dataclass(frozen=True, slots=True)
class Kind:
    """How a line of one purpose is drawn: width [mm], and dash and gap lengths [mm], empty if solid."""

    width: float
    dashes: tuple[float, ...] = ()


_HIDDEN = (2.8, 1.05)
_HIDDEN_FINE = (0.8, 0.5)
_CHAIN = (6.3, 1.05, 1.05, 1.05)
_CHAIN_TWO = (6.3, 1.05, 1.05, 1.05, 1.05, 1.05)
_DOTS = (0.7, 0.9)

KINDS = {
    "outline": Kind(WIDE),  # visible edge of the metal
    "mark": Kind(WIDE),  # ink struck on the metal
    "fine-mark": Kind(NARROW),  # the same where a wide line would hide the metal to sand
    "narrow": Kind(NARROW),  # anything else that is solid
    "dimension": Kind(NARROW),  # dimension, extension and leader lines
    "hatch": Kind(NARROW),
    "break": Kind(NARROW),  # where a long part is drawn shorter
    "cut": Kind(NARROW),  # edge of the band that the saw removes
    "tangent": Kind(NARROW),  # where a flat face runs into the fillet
    "hidden": Kind(NARROW, _HIDDEN),
    "fine-hidden": Kind(NARROW, _HIDDEN_FINE),  # the same where the edge is too short for long dashes
    "centre": Kind(NARROW, _CHAIN),
    "fold": Kind(NARROW, _CHAIN),  # the heel, where it is a fold of the paper
    "blank": Kind(NARROW, _CHAIN_TWO),  # the metal before cutting
    "ghost": Kind(NARROW, _DOTS),  # a prediction, kept in sight
}


@dataclass(frozen=True, slots=True)
class Theme:
    """Colours, the smallest letters and lines as parts of the picture's height, and the narrowest line [mm]."""

    ink: str
    accent: str
    paper: str
    least_letter: float = 0.0
    least_line: float = 0.0
    narrowest: float = NARROW

    def letter(self, height: float, picture: float) -> float:
        """Letter height [mm] on a picture so many millimetres high."""
        return max(height, self.least_letter * picture)

    def line(self, width: float, picture: float) -> float:
        """Line width [mm]; all widths grow alike, so wide to narrow stays 2:1."""
        return width * max(self.narrowest, self.least_line * picture) / NARROW


THEMES = {
    # The accent has 6.6 to 1 against white and is a dark grey where there is no colour.
    "screen": Theme(ink="#161616", accent="#0b5cad", paper="#ffffff"),
    # Letters 3 % of the picture; 3 pixels a narrow line where the picture fills 720 lines, or where a flat one, up
    # to 268 mm wide, fills 1920 columns.
    "projector": Theme(ink="#000000", accent="#00469b", paper="#ffffff", least_letter=0.03, least_line=3 / 720, narrowest=0.42),
    "paper": Theme(ink="#000000", accent="#0b4f96", paper="#ffffff"),
}
