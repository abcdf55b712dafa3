"""How a beginner types a number: off a rule, as a decimal, in millimetres. And what must be named of it.

A row is what is typed and what must be named: a slip's id; two with a bar between where the number cannot tell them apart; ``NONE``; ``RIGHT``;
``UNIT`` for a right number in the other unit.
"""

from fractions import Fraction as F

NONE, RIGHT, UNIT = "", "right", "unit"
MM = F(254, 10)

Row = tuple[str, str]
"""What is typed, what must be named."""


def rule(x: float | F, n: int = 64) -> str:
    """The nearest graduation, as it is written: 2 7/8."""
    whole, rest = divmod(F(round(x * n), n), 1)
    return " ".join(text for text in (str(whole) if whole else "", str(rest) if rest else "") if text) or "0"


def dec(x: float | F, places: int = 3) -> str:
    """A decimal."""
    return f"{float(x):.{places}f}"


def mm(x: float | F, places: int = 2) -> str:
    """The same length in millimetres, with its unit."""
    return f"{float(x * 254) / 10:.{places}f} mm"
