"""A bench that the library does not know: what is strange about it, each by a name; and parts that come off it.

Its mistakes are those of :mod:`bench_slips` and :mod:`cope_slips`. Where a figure comes from something published, the source
stands beside it; all others are chosen, and say so.

Read for it, and used:

- "Not Normal: the uncertainties of scientific measurements", Royal Society Open Science 4 (2017) 160600, abstract: differences of
  repeated measurements, in units of their stated uncertainty, have heavy Student's t tails, often almost Cauchy's (1 degree of freedom).
- A table of human error rates that puts older studies together, "Human Error in Simple but Nontrivial Cognitive Actions", table 1:
  1.0 % of holes wrongly measured ("measuring and calculating the size of small holes", 1986).
- NIST Handbook 44, section 5.52, maintenance tolerance of metal tapes up to 6 ft: 1/32 in.
- A US state's list of tasks for learners, "Precision Machining Technology I" (course 13204/8539), manual layout of hole centres and
  surfaces: an accuracy of 0.015 in. either way.
- The operating instructions of a 10 by 12 in. metal band saw, adjusting by a test cut (just before section 13.8): no more than
  0.003 in. on a side for an inch of stock.

No study was found that gives the scatter of lengths, runs and angles cut by hand from angle, or how often each mistake is made.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import sqrt
from random import Random

import bench_slips as bench
import cope_slips
import metric_slips
from bench_slips import GOOD, Way
from sawn_metal import Work, as_drawn, measure

BATCH = 20
"""Pieces of a batch (chosen)."""
TRADE_LAYOUT = 0.015 / 2
"""Standard deviation of a hole laid out by hand [in]: the list's 0.015 either way, taken as two of them (that is chosen)."""
TAPE = 1 / 32
"""By so much a tape may be off when it is inspected in use [in] (Handbook 44)."""
SET_SAW = 0.003
"""By so much a cut may lead off for an inch when a band saw is just set [slope] (its operating instructions)."""
GROSS = 0.01
"""One number in so many is grossly misread (the table of error rates)."""
GROSS_BY = (1 / 16, 0.1, 1 / 8, 1 / 4, 1 / 2, 1.0)
"""And then by one of these, either way [in] (chosen)."""
GAUGED = 0.010
"""Standard uncertainty of a radius tried with gauges that step by 1/32 in. (chosen)."""


# --- errors -----------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Tails:
    """How an error is drawn, in units of its standard deviation: normals of several widths, or Student's t."""

    normals: tuple[tuple[float, float], ...] = ((1.0, 1.0),)
    """(how often, how many times as wide)."""
    freedom: int = 0
    """Degrees of freedom of Student's t; 0: the normals."""

    def width(self, rng: Random) -> float:
        """How wide this once."""
        if self.freedom:
            return sqrt(self.freedom / sum(rng.gauss(0, 1) ** 2 for _ in range(self.freedom)))
        return rng.choices([width for _, width in self.normals], [weight for weight, _ in self.normals])[0]


NORMAL = Tails()
SPOILED = Tails(((0.95, 1.0), (0.05, 3.0)))
"""One in twenty three times as wide (chosen)."""
STUDENT = Tails(freedom=2)
"""Heavy, between the published "almost Cauchy" (1) and the old bench's 3; 2 is chosen."""


@dataclass(frozen=True)
class Drift:
    """What is off in the same direction on every part or reading, by its largest amount; all sizes but the named ones are chosen."""

    stop: float = 0.0
    """A stop wears away: the last part of a batch is so much too long [in]."""
    lead: float = 0.0
    """A blade wears on one side: the last part's ends so much out of square on leg A [slope]."""
    zero: float = 0.0
    """A caliper is off zero: standard deviation among calipers [in]."""
    worn: float = 0.0
    """A rule's end is worn: every long reading is too long, by up to so much [in], the same on each part that it measures."""


# --- habits -----------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Amounts:
    """Free amounts: a share of the range from low to high (0 to 1 is the library's), small ones prevailing for a power above 1."""

    low: float = 0.0
    high: float = 1.0
    power: float = 1.0
    sign: int = 0
    """1 or -1: always so; 0: either."""

    def at(self, u: float, sign: int) -> tuple[int, float]:
        return (self.sign or sign, self.low + (self.high - self.low) * u**self.power)

    def drawn(self, rng: Random) -> tuple[int, float]:
        return self.at(rng.random(), rng.choice((1, -1)))

    def nodes(self, count: int) -> list[tuple[float, tuple[int, float]]]:
        """Equally likely amounts that stand for all: (weight, amount)."""
        signs = (self.sign,) if self.sign else (1, -1)
        return [(1 / count / len(signs), self.at((n + 0.5) / count, sign)) for n in range(count) for sign in signs]


@dataclass(frozen=True)
class Worker:
    """How often somebody makes each mistake, in which of its ways and by how much."""

    often: Mapping[str, float]
    """Weights by mistake, those left out 1."""
    favourite: bool = False
    """Nine times in ten a mistake goes the same way."""
    amounts: Amounts = Amounts()

    def ways(self, ways: list[Way], id_: str) -> list[float]:
        """The weights of a mistake's ways."""
        if not self.favourite:
            return [way.weight / sum(w.weight for w in ways) for way in ways]
        best = sum(map(ord, id_)) % len(ways)
        return [0.1 / len(ways) + (0.9 if i == best else 0.0) for i in range(len(ways))]


@dataclass(frozen=True)
class Strange:
    """One strange bench: its words, and everything that is not as the library supposes."""

    words: str
    reading: Tails = NORMAL
    work: Tails = NORMAL
    each: bool = False
    """Every stray of the work has its own width; else a whole part is made well or badly."""
    gross: float = 0.0
    drift: Drift = Drift()
    slips: int = 0
    """So many mistakes make four fifths of all of a worker's; 0: all alike."""
    good: float | None = None
    """The share of good parts; None: as likely as one mistake."""
    narrow: bool = False
    """A worker's amounts are always of one sign and in a tenth of the range; a mistake has its usual way."""
    amounts: Amounts = Amounts()
    only_free: bool = False
    rare: tuple[str, ...] = ()
    """The units of rare parts; none: the usual parts."""
    told: bool = False
    """Whether the library is told how often this worker makes each mistake."""
    two: float = 0.1

    @property
    def known(self) -> bool:
        """Whether the bench's own likelihood can be worked out: not for Student's t or gross misreadings, nor for all kinds of drift at once."""
        drifts = sum(map(bool, (self.drift.stop or self.drift.lead, self.drift.zero, self.drift.worn)))
        return not self.reading.freedom and not self.work.freedom and not self.gross and drifts < 2

    def worker(self, rng: Random, ids: list[str]) -> Worker:
        """Somebody at this bench, who makes these mistakes."""
        slips = [id_ for id_ in ids if id_ != GOOD]
        often = dict.fromkeys(slips, 1.0)
        if self.slips and len(slips) > self.slips:
            usual = rng.sample(slips, self.slips)
            rest = len(slips) - self.slips
            often = {id_: 0.8 / self.slips if id_ in usual else 0.2 / rest for id_ in slips}
        total = sum(often.values())
        good = 1 / (len(slips) + 1) if self.good is None else self.good
        often = {GOOD: good, **{id_: (1 - good) * weight / total for id_, weight in often.items()}}
        amounts = self.amounts
        if self.narrow:
            middle = amounts.low + rng.uniform(0.05, 0.95) * (amounts.high - amounts.low)
            tenth = (amounts.high - amounts.low) / 20
            amounts = Amounts(middle - tenth, middle + tenth, sign=rng.choice((1, -1)))
        return Worker(often, self.narrow, amounts)


EVEN = Strange("nothing strange: normal errors, all mistakes alike; but the library is not told the bench's figures, and supposes its own")
ALL = Strange(
    "all at once", STUDENT, STUDENT, True, GROSS, Drift(TAPE, 4 * SET_SAW, 0.008, TAPE), 3, 0.5, True, Amounts(-0.15, 2.0, 2.0), rare=("in", "mm")
)
RUNS = {
    "even": EVEN,
    "spoiled": replace(EVEN, words="one reading in twenty, and one part in twenty, three times as wide", reading=SPOILED, work=SPOILED),
    "student": replace(
        EVEN, words="errors of reading and of all work as Student's t with 2 degrees of freedom; one reading in 100 grossly misread",
        reading=STUDENT, work=STUDENT, each=True, gross=GROSS,
    ),
    "stop": replace(EVEN, words="a stop and a blade wear along each batch: parts up to 1/32 too long, ends up to 0.012 out of square", drift=Drift(stop=TAPE, lead=4 * SET_SAW)),
    "caliper": replace(EVEN, words="calipers off zero, by 0.008 (standard deviation)", drift=Drift(zero=0.008)),
    "rule": replace(EVEN, words="rules with a worn end: readings over 6 in. too long, by up to 1/32", drift=Drift(worn=TAPE)),
    "habit": replace(EVEN, words="each worker has three slips, always one way, one sign and a narrow amount; seven parts in ten are good", slips=3, good=0.7, narrow=True),
    "habit told": replace(EVEN, words="the same, and the library is told how often that worker makes each mistake", slips=3, good=0.7, narrow=True, told=True),
    "no good parts": replace(EVEN, words="each worker has three slips as above; one part in two hundred is good", slips=3, good=0.005, narrow=True),
    "small": replace(EVEN, words="free amounts small: from somewhat below the library's range to the end of it, as a cube", amounts=Amounts(-0.15, 1.0, 3.0), only_free=True),
    "large": replace(EVEN, words="free amounts larger than the library's range, up to twice", amounts=Amounts(1.0, 2.0), only_free=True),
    "rare parts": replace(EVEN, words="both legs tapered at one end, tapers at both ends, copes, rounded corners, left and right; in inches", rare=("in",)),
    "millimetres": replace(EVEN, words="the same parts drawn and measured in millimetres, misread by millimetres", rare=("mm",)),
    "all": ALL,
}  # fmt: skip


# --- what a part can show -----------------------------------------------------------------------------------
def ways_of(part, kerf: float, allowance: float, only_free: bool = False) -> dict[str, list[Way]]:
    """Every mistake that this part can show on this bench, copes, corners and millimetres included."""
    work = as_drawn(part)
    ways = bench.slips(part, kerf, allowance)
    metric = part.unit == "mm"
    if metric:
        ways.update(metric_slips.metric_ways(work))
    if part.copes or part.corners:
        more = {"misread": metric_slips.misread, "start": metric_slips.START, "ratio": metric_slips.RATIO} if metric else {}
        for id_, further in cope_slips.cope_ways(part, work, kerf, allowance, **more).items():
            ways[id_] = ways.get(id_, []) + further
        ways["M09"] = cope_slips.turned_ways(part, work)
    if only_free:
        ways = {id_: [way for way in of if way.free] for id_, of in ways.items() if id_ != GOOD} | {GOOD: ways[GOOD]}
    return {id_: kept for id_, of in ways.items() if (kept := [way for way in of if bench._can_be(work, way)])}


def spreads(names: tuple[str, ...], wanted: list[float]) -> list[float]:
    """The standard uncertainty of each reading: of a caliper, a rule, a radius gauge."""
    return [GAUGED if name.startswith("corner") else spread for name, spread in zip(names, bench.spreads(wanted))]


def by_rule(names: tuple[str, ...], wanted: list[float]) -> list[float]:
    """1 for each reading that is taken by a rule, 0 for those by caliper; a gauge has no zero to be off."""
    return [1.0 if value > 6 else 0.0 for value in wanted]


def by_caliper(names: tuple[str, ...], wanted: list[float]) -> list[float]:
    return [1.0 if value <= 6 and not name.startswith("corner") else 0.0 for name, value in zip(names, wanted)]


def worn(work: Work, drift: Drift, place: float) -> Work:
    """The work done when the stop and the blade have so much of their wear (0 to 1)."""
    last = work.last + drift.stop * place
    out = 57.29578 * drift.lead * place
    return replace(work, last=last, base_2=work.base_2 + drift.stop * place, out_1=(work.out_1[0] + out, work.out_1[1]), out_2=(work.out_2[0] + out, work.out_2[1]))


@dataclass(frozen=True)
class Kind:
    """One kind of part at a bench: its readings, the ways of its mistakes, who makes it, with which caliper and rule."""

    part: object
    names: tuple[str, ...]
    ways: dict[str, list[Way]]
    worker: Worker
    zero: float
    short: float


def kind_of(rng: Random, part, names: tuple[str, ...], bench_: Strange, kerf: float, allowance: float) -> Kind:
    """A kind of part with somebody who makes it."""
    ways = ways_of(part, kerf, allowance, bench_.only_free)
    worker = bench_.worker(rng, sorted(ways))
    return Kind(part, names, ways, worker, rng.gauss(0, bench_.drift.zero), rng.random() * bench_.drift.worn)


def trial(rng: Random, kind: Kind, bench_: Strange, number: int) -> bench.Trial:
    """The next part of this kind off the bench."""
    wanted = as_drawn(kind.part)
    often = kind.worker.often
    ids_, plain = list(often), measure(wanted, kind.names)
    while True:
        id_ = rng.choices(ids_, list(often.values()))[0]
        ids = (id_,)
        if id_ != GOOD and rng.random() < bench_.two:
            others = [other for other in ids_ if other not in (id_, GOOD)]
            ids = (id_, rng.choices(others, [often[other] for other in others])[0])
        works = tuple(_drawn(rng, kind, one) for one in ids)
        work = works[0] if len(works) == 1 else bench.both(wanted, *works)
        if not bench.sound(work):
            continue
        done = _strayed(rng, worn(work, bench_.drift, number % BATCH / (BATCH - 1)), bench_)
        true = measure(done, kind.names)
        if not all(-1e6 < value < 1e6 for value in true):
            continue
        spread = spreads(kind.names, plain)
        rule, caliper = by_rule(kind.names, plain), by_caliper(kind.names, plain)
        values = [
            value + s * bench_.reading.width(rng) * rng.gauss(0, 1) + kind.short * r + kind.zero * c
            for value, s, r, c in zip(true, spread, rule, caliper)
        ]
        values = [v + rng.choice((1, -1)) * rng.choice(GROSS_BY) if rng.random() < bench_.gross else v for v in values]
        return bench.Trial(kind.part, kind.names, ids, works, tuple(max(0.0, v) for v in values), tuple(spread))


def _drawn(rng: Random, kind: Kind, id_: str) -> Work:
    ways = kind.ways[id_]
    way: Callable = rng.choices(ways, kind.worker.ways(ways, id_))[0].make
    return way(kind.worker.amounts.drawn(rng))


def scatter_of(kind: str) -> float:
    """Standard deviation of sound work: the published one of a hole's place, else the old bench's chosen ones."""
    return TRADE_LAYOUT if kind == "hole" else bench.SCATTER[kind]


def _strayed(rng: Random, work: Work, bench_: Strange) -> Work:
    """The same work done by hand on a good day or a bad one."""
    day = bench_.work.width(rng)
    for kind, stray in bench.strays(work):
        width = bench_.work.width(rng) if bench_.each else day
        # However heavy the tails: nobody passes on a part that is visibly no part any more.
        work = stray(work, max(-8.0, min(8.0, width * rng.gauss(0, 1))) * scatter_of(kind))
    return work
