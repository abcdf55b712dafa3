"""The verdict on a made part: accept, rework and by how much, or scrap and which shorter part it can become.

A reading outside its tolerance is judged by whether metal can still come off. Conformity is proven
only where a reading lies inside its limits by more than its uncertainty (ISO 14253-1, second-hand);
nearer to the limit the verdict says so. The plans and a licensed inspector decide; this compares numbers.

>>> from anglelib.section import Section
>>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4")
>>> judge(bar, [Reading("heel length", 17.29)]).sentence
'Rework: heel length, take off 3/64 (0.040).'
>>> judge(bar, [Reading("heel length", 17.2)]).sentence
'Scrap as A3: heel length is short by 3/64 (0.050), and metal cannot be put back.'
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import LengthError, PartError
from anglelib.geometry.layout import clear_zone
from anglelib.inspection.diagnosis import Reading
from anglelib.inspection.made import Made, readings_of
from anglelib.job import Job
from anglelib.lengths import both
from anglelib.part import Part
from anglelib.tolerances import linear

LEAST_TOLERANCE = Fraction(1, 64)
"""What a rule can still show [in]; no reading is judged more sharply. Common practice."""


@dataclass(frozen=True)
class Judged:
    """One reading against what is wanted: deviation and tolerance [in], and what follows."""

    reading: Reading
    wanted: float
    tolerance: float
    outcome: str

    @property
    def deviation(self) -> float:
        """Read less wanted."""
        return self.reading.value - self.wanted


@dataclass(frozen=True)
class Verdict:
    """All readings judged; ``outcome`` is "accept", "doubtful", "rework" or "scrap"; ``can_become`` names other parts."""

    part: Part
    judged: tuple[Judged, ...]
    can_become: tuple[str, ...] = ()

    @property
    def outcome(self) -> str:
        """The worst of the readings decides."""
        return max((j.outcome for j in self.judged), key=("accept", "doubtful", "rework", "scrap").index)

    def _those(self, outcome: str) -> list[Judged]:
        return [j for j in self.judged if j.outcome == outcome]

    @property
    def sentence(self) -> str:
        """The verdict in words."""
        if self.outcome == "accept":
            return "Accept: every reading is within its tolerance."
        if self.outcome == "doubtful":
            names = ", ".join(j.reading.name for j in self._those("doubtful"))
            return f"Read again: {names} lies nearer to its limit than the reading is sure."
        if self.outcome == "rework":
            steps = "; ".join(f"{j.reading.name}, take off {both(abs(j.deviation))}" for j in self._those("rework"))
            return f"Rework: {steps}."
        told = "; ".join(_scrapped(j) for j in self._those("scrap"))
        other = f" It can still become {' or '.join(self.can_become)}." if self.can_become else ""
        return f"Scrap as {self.part.id}: {told}, and metal cannot be put back.{other}"


def _scrapped(judged: Judged) -> str:
    off = both(abs(judged.deviation))
    if _sense(judged.reading.name) == 0:
        return f"{judged.reading.name} is off by {off}"
    return f"{judged.reading.name} is {'short' if _sense(judged.reading.name) > 0 else 'long'} by {off}"


def _sense(name: str) -> int:
    """+1 where a larger reading means more metal, -1 where it means less, 0 where sanding changes nothing."""
    if name.startswith("taper start"):
        return -1
    if name.startswith(("hole", "thickness", "weight")):
        return 0
    return 1


def tolerance_of(name: str, wanted: float, grade: str = "m") -> float:
    """The tolerance of a reading, either way [in]: ISO 2768-1, and never sharper than a rule shows.

    A weight is judged to 2 % (common practice).
    """
    if name == "weight":
        return 0.02 * wanted
    try:
        return float(max(LEAST_TOLERANCE, linear(float(wanted), grade)))
    except LengthError:
        return float(LEAST_TOLERANCE)


def judge(part: Part, readings: Sequence[Reading], job: Job | None = None, grade: str = "m") -> Verdict:
    """The verdict on a part by its readings; with a job, which of its shorter parts a scrapped one can become."""
    wanted = readings_of(Made.as_wanted(part))
    judged = []
    for reading in readings:
        if reading.name not in wanted:
            raise PartError(f'"{reading.name}" is no reading of part {part.id}: choose one that its card names.')
        judged.append(_judge_one(reading, wanted[reading.name], tolerance_of(reading.name, wanted[reading.name], grade)))
    if not judged:
        raise PartError("There is no reading to judge by: measure the length at the heel first.")
    verdict = Verdict(part, tuple(judged))
    if verdict.outcome == "scrap" and job is not None:
        made_length = next((r.value for r in readings if r.name == "heel length"), float(part.length))
        return Verdict(part, verdict.judged, can_become(part, made_length, job))
    return verdict


def _judge_one(reading: Reading, wanted: float, tolerance: float) -> Judged:
    deviation = reading.value - wanted
    beyond = abs(deviation) - tolerance
    if beyond <= -2 * reading.spread or (beyond <= 0 and abs(deviation) <= tolerance / 2):
        outcome = "accept"
    elif beyond <= 0:
        outcome = "doubtful"
    else:
        sense = _sense(reading.name)
        outcome = "rework" if sense and deviation * sense > 0 else "scrap"
    return Judged(reading, wanted, tolerance, outcome)


def clean_length(part: Part, length: float) -> float:
    """The longest stretch of a part, cut to a length so far, that no taper, cope or hole touches [in]."""
    first, last = (float(x) for x in clear_zone(part))
    last = min(last, length)
    edges = [first]
    for hole in sorted(part.holes, key=lambda h: h.x):
        edges += [min(last, max(first, float(x))) for x in (hole.x - hole.diameter / 2, hole.x + hole.diameter / 2)]
    edges.append(last)
    return max([0.0, *(high - low for low, high in zip(edges[::2], edges[1::2], strict=True))])


def can_become(part: Part, length: float, job: Job) -> tuple[str, ...]:
    """The parts of a job, longest first, whose blank fits in the clean stretch of a spoiled part.

    Same section and alloy; the blank needs its sanding allowance and a kerf at each end.
    """
    room, shop = clean_length(part, length), job.shop
    fitting = [
        other
        for other in job.parts
        if other.id != part.id
        and (other.section, other.alloy) == (part.section, part.alloy)
        and float(other.length + 2 * (shop.allowance + shop.kerf)) <= room
    ]
    return tuple(other.id for other in sorted(fitting, key=lambda p: (-p.length, p.id)))

