"""A finished part's readings as its card asks for them, carried over to the readings that the diagnosis knows.

The card reads some parts from a witness line, or half-way along a taper (:mod:`anglelib.paper.readings`);
the diagnosis reads every part from its ends. What was read is carried over by how far it is off.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> first = card_readings(bracket)[0]
>>> print(first.name, first.text)
taper start A, from witness 3/8 (0.375)
>>> first.read(bracket, 0.4, 0.005)  # 0.025 farther from the witness line is 0.025 less from the end
Reading(name='taper start A at end 1', value=2.1, uncertainty=0.005)
"""

from __future__ import annotations

from dataclasses import dataclass

from anglelib.geometry.layout import witness_line
from anglelib.geometry.taper import taper_lines
from anglelib.inspection.diagnosis import Reading
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.verdict import tolerance_of
from anglelib.paper.readings import readings
from anglelib.part import Part


@dataclass(frozen=True)
class CardReading:
    """A reading as the card asks for it [in]; ``key`` is the diagnosis's name, ``factor`` how far that one is off for 1 off here.

    ``limit`` is how far off it may be, either way [in].
    """

    name: str
    text: str
    key: str
    wanted: float
    factor: float
    limit: float

    def read(self, part: Part, value: float, unsure: float) -> Reading:
        """What was read, as the diagnosis takes it."""
        base = readings_of(Made.as_wanted(part))[self.key]
        return Reading(self.key, base + self.factor * (value - self.wanted), abs(self.factor) * unsure)

    def shown(self, made: Made) -> float:
        """What this reading is on a made part [in]: the way back."""
        base = readings_of(Made.as_wanted(made.wanted))[self.key]
        return self.wanted + (readings_of(made)[self.key] - base) / self.factor


def card_readings(part: Part) -> tuple[CardReading, ...]:
    """The readings of a finished part in the order of its card."""
    wanted = readings_of(Made.as_wanted(part))
    found = []
    for r in readings(part):
        # An inside width is nought at a taper to the vertex, and stays so: there the outside one tells.
        key = r.key.removeprefix("inside ") if r.name.startswith("mid-taper") else r.key
        factor = _factor(part, r.name, key)
        limit = tolerance_of(key, wanted[key]) / abs(factor)
        found.append(CardReading(r.name, r.text, key, float(r.wanted), factor, limit))
    return tuple(found)


def _factor(part: Part, name: str, key: str) -> float:
    words = key.split()
    if name.startswith("mid-taper"):
        return 2.0  # half-way along, a width is off by half of what it is off at the end
    if not name.endswith("from witness"):
        return 1.0
    witness = float(witness_line(part) or 0)
    if words[0] == "hole":
        return 1.0 if float(part.holes[int(words[1]) - 1].x) > witness else -1.0
    end = int(words[-1])
    line = next(line for line in taper_lines(part) if (line.leg, line.end) == (words[2], end))
    x = float(line.run) if end == 1 else float(part.length - line.run)
    return (1.0 if x > witness else -1.0) * (1.0 if end == 1 else -1.0)
