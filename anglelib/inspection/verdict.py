"""The verdict on a made part: accept, rework and by how much, or scrap and which shorter part it can become.

A reading outside its limits is judged by whether metal can still come off. Conformity is proven
only where a reading lies inside its limits by more than its uncertainty (ISO 14253-1); nearer to the limit the
verdict says so. The plans and a licensed inspector decide; this compares numbers.

>>> from anglelib.section import Section
>>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4")
>>> judge(bar, [Reading("heel", 17.32)]).sentence
'Rework: length along the heel, take off 1/16 (0.070).'
>>> judge(bar, [Reading("heel", 17.2)]).sentence
'Scrap as A3: length along the heel is short by 3/64 (0.050), and metal cannot be put back.'
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from anglelib.errors import PartError
from anglelib.geometry.layout import clear_zone
from anglelib.inspection import reading_ids as ids
from anglelib.inspection.likelihood import Reading
from anglelib.inspection.reading_ids import ReadingId
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.wanted import Wanted, all_wanted, toe_beyond_heel
from anglelib.job import Job
from anglelib.lengths import both, fine, unit_written, writing
from anglelib.names import visible
from anglelib.part import Part
from anglelib.section import LEGS
from anglelib.tolerances import Limits

ACCEPT, DOUBTFUL, REWORK, SCRAP = "accept", "doubtful", "rework", "scrap"
OUTCOMES = (ACCEPT, DOUBTFUL, REWORK, SCRAP)
"""What a reading, or a part, can come to, the best first."""
_SENSE = {ids.START: -1, ids.COPE: -1, ids.CORNER: -1, ids.THICKNESS: 0, ids.HOLE_X: 0, ids.HOLE_Y: 0, ids.WEIGHT: 0}


@dataclass(frozen=True)
class Judged:
    """One reading against what is wanted, and what follows."""

    reading: Reading
    wanted: Wanted
    outcome: str

    @property
    def deviation(self) -> float:
        """Read less wanted."""
        return self.reading.value - self.wanted.value


@dataclass(frozen=True)
class OutOfSquare:
    """A leg whose toe runs out of the heel by more than its ends may lean [in]: by how much, and what is allowed."""

    leg: str
    off: float
    allowed: float
    outcome: str


@dataclass(frozen=True)
class Verdict:
    """All readings judged; ``outcome`` is the worst of them; ``can_become`` names other parts."""

    part: Part
    judged: tuple[Judged, ...]
    square: tuple[OutOfSquare, ...] = ()
    can_become: tuple[str, ...] = ()
    limits: Limits = field(default_factory=Limits, repr=False)

    @property
    def outcome(self) -> str:
        """The worst of the readings decides."""
        return max((j.outcome for j in (*self.judged, *self.square)), key=OUTCOMES.index)

    def _those(self, outcome: str) -> list[Judged]:
        return [j for j in self.judged if j.outcome == outcome]

    def _name(self, judged: Judged) -> str:
        return reading_words(judged.reading.id, self.part)

    @property
    def sentence(self) -> str:
        """The verdict in words, in the part's unit."""
        with writing(self.part.unit):
            return self._sentence()

    def _sentence(self) -> str:
        if self.outcome == ACCEPT:
            return "Pass: every reading is within its limits."
        if self.outcome == DOUBTFUL:
            names = [self._name(j) for j in self._those(DOUBTFUL)]
            near = "lies nearer to its limit" if len(names) == 1 else "lie nearer to their limits"
            return f"Read again: {'; '.join(names)} {near} than the reading is sure."
        leaning = "; ".join(f"leg {one.leg}'s toe is {_by(one.off)} {'longer' if one.off > 0 else 'shorter'} than the heel allows" for one in self.square)
        if self.outcome == REWORK:
            steps = [f"{self._name(j)}, take off {_by(j.deviation)}" for j in self._those(REWORK)]
            steps += [f"square the ends: {leaning}"] if leaning else []
            return f"Rework: {'; '.join(steps)}."
        told = "; ".join([*(self._scrapped(j) for j in self._those(SCRAP)), *([f"an end is out of square: {leaning}"] if leaning else [])])
        other = f" It can still become {' or '.join(self.can_become)}." if self.can_become else ""
        return f"Scrap as {self.part.id}: {told}, and metal cannot be put back.{other}"

    def _scrapped(self, judged: Judged) -> str:
        off, sense = _by(judged.deviation), sense_of(judged.reading.id)
        word = "off" if sense == 0 else "short" if sense > 0 else "long"
        return f"{self._name(judged)} is {word} by {off}"


def _by(deviation: float) -> str:
    """By how much a reading is off; what is less than a rule shows only as a caliper shows it."""
    off = abs(deviation)
    return both(off) if unit_written() == "mm" or off >= 1 / 64 else fine(off)


def sense_of(id_: str) -> int:
    """+1 where a larger reading means more metal, -1 where it means less, 0 where sanding changes nothing."""
    return _SENSE.get(ReadingId.of(id_).kind, 1)


def judge(part: Part, readings: Sequence[Reading], limits: Limits | None = None, job: Job | None = None) -> Verdict:
    """The verdict on a part by its readings; ``limits`` are the job's (else those usual for the part's unit).

    With a job, a scrapped part says which of the shorter ones it can become.
    """
    limits = limits or (job.limits if job is not None and job.limits is not None else Limits.usual(part.unit))
    wanted = all_wanted(part, limits)
    judged = []
    for reading in readings:
        if reading.id not in wanted:
            raise PartError(f'"{visible(reading.id)[:40]}" is no reading of part {part.id}: choose one that its card names.')
        want = wanted[reading.id]
        judged.append(Judged(reading, want, outcome_of(reading, want)))
    if not judged:
        raise PartError("There is no reading to judge by: measure the length at the heel first.")
    square = _square(part, limits, {j.reading.id: j for j in judged})
    verdict = Verdict(part, tuple(judged), square, (), limits)
    if verdict.outcome == SCRAP and job is not None:
        made_length = next((r.value for r in readings if r.id == ids.HEEL), float(part.length))
        return Verdict(part, verdict.judged, square, can_become(part, made_length, job), limits)
    return verdict


def outcome_of(reading: Reading, wanted: Wanted) -> str:
    """What one reading comes to."""
    beyond = max(wanted.low - reading.value, reading.value - wanted.high)
    off_middle = abs(reading.value - (wanted.low + wanted.high) / 2)
    if beyond <= -2 * reading.spread or (wanted.keeps(reading.value) and off_middle <= wanted.within / 2):
        return ACCEPT
    if wanted.keeps(reading.value):
        return DOUBTFUL if abs(reading.value - wanted.value) > wanted.grain else ACCEPT
    sense = sense_of(reading.id)
    return REWORK if sense and (reading.value - wanted.value) * sense > 0 else SCRAP


def _square(part: Part, limits: Limits, read: dict[str, Judged]) -> tuple[OutOfSquare, ...]:
    """The legs whose toe and heel differ by more than on any part that keeps its dimensions and whose ends are square. It needs both lengths."""
    heel = read.get(ids.HEEL)
    found = []
    for leg in LEGS:
        toe = read.get(str(ReadingId(ids.TOE, leg)))
        if heel is None or toe is None:
            continue
        low, high = toe_beyond_heel(part, limits, leg)
        wanted = toe.wanted.value - heel.wanted.value
        off = toe.deviation - heel.deviation
        sure = 2 * (toe.reading.spread**2 + heel.reading.spread**2) ** 0.5
        if not low - wanted - sure <= off <= high - wanted + sure:
            outcome = SCRAP if SCRAP in (toe.outcome, heel.outcome) else REWORK  # the longer one comes off, where the other is long enough
            found.append(OutOfSquare(leg, off, (high - wanted) if off > 0 else wanted - low, outcome))
    return tuple(found)


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
