"""Set-ups of the saw in words, for a row of a cut sheet.

>>> from fractions import Fraction
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> from anglelib.stock.set_ups import Setting, tapered
>>> cleat = Part("A1", "Cleat", Section("3/4", "3/4", "1/8"), "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")])
>>> ((at, taper),) = tapered(cleat)
>>> row = [SetUp(3, "S-1", 2, at, taper, ("angle", "pose")), SetUp(4, "S-1", 2, "part-off", Setting(Fraction(35, 16)), ("stop", "angle"))]
>>> print(at_row(row)); print(at_row(row, brief=True)); print(at_row(row[1:]))
saw set-ups 3 and 4: taper A at end 1, then square, stop at 2 3/16
set-ups 3, 4
saw set-up 4: square, stop at 2 3/16
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.lengths import about
from anglelib.stock.set_ups import ANGLE, POSE, STOP, SetUp


def at_row(made: Sequence[SetUp], brief: bool = False) -> str:
    """What is set at the saw for a row; "" where nothing is."""
    if not made:
        return ""
    numbers = [str(one.number) for one in made]
    if brief:
        return f"set-up{'s' if len(made) > 1 else ''} {', '.join(numbers)}"
    return f"saw set-up{'s' if len(made) > 1 else ''} {' and '.join(numbers)}: {', then '.join(map(_one, made))}"


def _one(one: SetUp) -> str:
    line = one.setting.line
    if line is not None:
        return f"taper {line.leg} at end {line.end}"
    stop = f"stop at {about(one.setting.stop)}" if STOP in one.changes and one.setting.stop is not None else ""
    if ANGLE in one.changes or POSE in one.changes:
        return f"square, {stop}" if stop else "square again"
    return stop
