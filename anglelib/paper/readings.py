"""What is measured on the finished part: the readings that tell most, what they should be, how far off they may be.

Which readings those are is :func:`anglelib.inspection.made.seven_readings`. Here they are put as the
bench takes them: from the witness line where the datum end is gone, after a feather edge is blunted,
and the width half-way along a taper where the width left at its end cannot be measured.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> for reading in readings(bracket)[:3]:
...     print(reading.name, reading.text)
taper start A, from witness 3/8 (0.375)
toe A length 2 5/8 (2.625)
toe B length, blunted 4 45/64 (4.697)
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from anglelib import tolerances
from anglelib.errors import LengthError
from anglelib.geometry.layout import BLUNT, datum_lost, witness_line
from anglelib.geometry.taper import Number, TaperLine, taper_lines
from anglelib.inspection.made import Made, readings_of, seven_readings
from anglelib.lengths import both, decimal, inches
from anglelib.part import Part

COUNT = 7
SPARE = ("heel length", "width B at end 2", "width A at end 2", "inside width A", "inside width B", "thickness A", "thickness B")


@dataclass(frozen=True)
class Reading:
    """One reading: its name at the bench, the wanted value [in], how far off it may be [in] (None: no value given).

    ``key`` is what :func:`anglelib.inspection.made.readings_of` calls it.
    """

    name: str
    wanted: Number
    tolerance: Fraction | None
    key: str = ""

    @property
    def text(self) -> str:
        """The wanted value to 1/64, with its decimal."""
        return both(self.wanted)

    @property
    def limits(self) -> str:
        """The wanted value and its tolerance as decimals."""
        if self.tolerance is None:
            return f"{decimal(self.wanted)}, plans"
        places = 2 if self.wanted >= 100 else 3  # what a tape shows, and what a caliper shows
        return f"{decimal(self.wanted, places)} ±{decimal(self.tolerance, places).lstrip('0')}"


@dataclass(frozen=True)
class Tolerance:
    """How far off a reading may be, and whose rule that is."""

    words: str
    of: Callable[[Number], Fraction | None]


def tolerance(setting: str = "m") -> Tolerance:
    """The tolerance that a setting names: grade "m" or "f" of ISO 2768-1, or one length for all readings.

    >>> tolerance("1/32").of(3)
    Fraction(1, 32)
    """
    if setting in tolerances.GRADES:
        return Tolerance(f"ISO 2768-1 {setting}", lambda value: _iso(value, setting))
    fixed = inches(setting, "tolerance", zero=False)
    return Tolerance(f"± {both(fixed)}, this shop's own", lambda _: fixed)


def _iso(value: Number, grade: str) -> Fraction | None:
    try:
        return tolerances.linear(value, grade)
    except LengthError:
        return None


def readings(part: Part, allowed: Tolerance | None = None) -> tuple[Reading, ...]:
    """The readings of a finished part, in the order in which they are taken."""
    allowed = allowed or tolerance()
    wanted = readings_of(Made.as_wanted(part))
    found: dict[str, Reading] = {}
    for key in (*seven_readings(part), *SPARE):
        name, value = _put(part, key, wanted[key])
        if len(found) < COUNT and name not in found:  # two keys may come to one reading at the bench
            found[name] = Reading(name, value, allowed.of(value), key)
    return tuple(found.values())


def _put(part: Part, key: str, value: float) -> tuple[str, Number]:
    """A reading's name and value as the bench takes it."""
    witness = witness_line(part)
    words = key.split()
    if words[0] == "taper":
        line = _line(part, words[2], int(words[-1]))
        name = f"taper start {line.leg}"
        if witness is None:
            return f"{name}, from end {line.end}", line.run
        x = line.run if line.end == 1 else part.length - line.run
        return f"{name}, from witness", abs(x - witness)
    if words[0] == "hole":
        hole = part.holes[int(words[1]) - 1]
        if words[2] == "y":
            return f"near hole {hole.leg}, from heel", hole.y
        if witness is None:
            return f"far hole {hole.leg}, from end 1", hole.x
        return f"far hole {hole.leg}, from witness", abs(hole.x - witness)
    if words[0] == "toe":
        lost = _blunted(part, words[1])
        exact_length = _toe(part, words[1])
        return f"toe {words[1]} length" + (", blunted" if lost else ""), exact_length - lost
    if words[0] == "heel":
        lost = _blunted(part, "")
        return "length along the heel" + (", blunted" if lost else ""), part.length - lost
    if key.startswith("inside width") and "end" in words:
        line = _line(part, words[2], int(words[-1]))
        inside = line.width_left - line.other_thickness
        if inside > line.section.fillet:
            return f"leg {line.leg} inside, at end {line.end}", inside
        return f"mid-taper leg {line.leg}, end {line.end}", (line.width + line.width_left) / 2
    if words[0] == "width":
        two = part.taper_at(words[1], int(words[-1]))
        if two is not None and (two.width_left == 0 or datum_lost(part, int(words[-1]))):  # there is no end to read it on
            line = _line(part, words[1], int(words[-1]))
            return f"mid-taper leg {line.leg}, end {line.end}", (line.width + line.width_left) / 2
        place = two.width_left if two is not None else part.section.leg(words[1])
        return f"leg {words[1]} width, at end {words[-1]}", place
    if words[0] == "inside":
        return f"leg {words[2]}, inside width", part.section.leg(words[2]) - part.section.thickness("B" if words[2] == "A" else "A")
    return key.replace(" A", " of leg A").replace(" B", " of leg B"), part.section.thickness(words[1]) if words[0] == "thickness" else value


def _line(part: Part, leg: str, end: int) -> TaperLine:
    return next(line for line in taper_lines(part) if (line.leg, line.end) == (leg, end))


def _toe(part: Part, leg: str) -> Number:
    """Length of a leg's toe between its tapers [in]."""
    cut = sum((min(line.run, part.length) for line in taper_lines(part) if line.leg == leg), Fraction(0))
    return max(part.length - cut, Fraction(0))


def _blunted(part: Part, leg: str) -> Number:
    """What blunting feather edges takes off a leg's toe, or off the heel ("") [in]."""
    return sum(
        (line.blunting(BLUNT) for line in taper_lines(part) if line.to_vertex and line.leg != leg), Fraction(0)
    )
