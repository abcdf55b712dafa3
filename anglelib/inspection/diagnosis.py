"""Diagnosis: which mistakes a finished part's readings point to, and when they cannot tell.

Every mistake predicts the readings of the parts it makes; sound work scatters about each of them.
A mistake's score is the mean likelihood of the readings over its cases, times its prior; "a good
part" is one of the candidates. The tails are heavier than normal, so that one slip of the caliper
does not decide. Mistakes that the readings cannot part are reported as one class.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> read = [Reading("toe A length", 0.815), Reading("toe B length", 2.063), Reading("heel length", 2.062),
...         Reading("taper start A at end 1", 1.25), Reading("width A at end 1", 0.376)]
>>> found = diagnose(cleat, Shop(), read)
>>> found.leaders[0].ids
('M01', 'M04', 'M08')
>>> diagnose(cleat, Shop(), [Reading("shoe size", 9)])
Traceback (most recent call last):
    ...
anglelib.errors.PartError: "shoe size" is no reading of part A1L: it has heel length, toe A length, width A at end 1, and others.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from math import exp, fsum, isfinite, log, sqrt

from anglelib.errors import PartError
from anglelib.inspection.made import Made, readings_of, seven_readings
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.slips import Case
from anglelib.job import Shop
from anglelib.part import Part

GOOD = "good"
TAIL = 6.0
"""Degrees of freedom of the scatter's tails: 6 lies between normal (many) and wild (1 or 2)."""
APART = 2.5
"""Two cases are told apart when the readings put them this many standard deviations from each other."""
CALIPER = 0.005
"""Standard uncertainty of a caliper or rule reading at the bench [in]; a shop guess: measure your own."""
WEIGHING = 0.004
"""Relative standard uncertainty of a weighing; a shop guess."""


@dataclass(frozen=True)
class Reading:
    """One reading of a finished part: its name, value [in] (weight [lb]) and standard uncertainty."""

    name: str
    value: float
    uncertainty: float | None = None

    @property
    def spread(self) -> float:
        """Its standard uncertainty."""
        if self.uncertainty is not None:
            return self.uncertainty
        return abs(self.value) * WEIGHING if self.name == "weight" else CALIPER


@dataclass(frozen=True)
class Workmanship:
    """How sound work scatters: standard deviations [in], angles as slopes. Shop guesses; measure your own."""

    length: float = 0.008
    taper: float = 0.010
    hole: float = 0.008
    square: float = 0.006
    width: float = 0.003
    lean: float = 0.005


@dataclass(frozen=True)
class Cause:
    """A class of mistakes with its probability and the case that fits best."""

    ids: tuple[str, ...]
    probability: float
    words: str

    @property
    def sentence(self) -> str:
        """What these readings point to; it never says that somebody did it."""
        if self.ids == (GOOD,):
            return "These readings fit a good part."
        told = [f"{id_} {MISTAKES[id_].name}" if id_ != GOOD else "a good part" for id_ in self.ids]
        where = f" ({self.words})" if self.words else ""
        return f"These readings fit {' or '.join(told)}{where}."


@dataclass(frozen=True)
class Diagnosis:
    """The causes by probability, most likely first; each mistake's own share; the next best reading."""

    causes: tuple[Cause, ...]
    shares: Mapping[str, float] = field(repr=False)
    next_reading: str

    @property
    def leaders(self) -> tuple[Cause, ...]:
        """The three likeliest."""
        return self.causes[:3]

    @property
    def cannot_tell(self) -> bool:
        """Whether these readings do not decide: the first cause is less than three times as likely as the second."""
        return len(self.causes) > 1 and self.causes[0].probability < 3 * self.causes[1].probability

    @property
    def sentence(self) -> str:
        """The answer in words."""
        if not self.cannot_tell:
            return self.causes[0].sentence
        more = f" Read the {self.next_reading} too." if self.next_reading else ""
        return f"These readings cannot tell: {self.causes[0].sentence} {self.causes[1].sentence}{more}"


def diagnose(
    part: Part,
    shop: Shop,
    readings: Sequence[Reading],
    prior: Mapping[str, float] | None = None,
    workmanship: Workmanship = Workmanship(),
) -> Diagnosis:
    """The causes of what was read, ranked. ``prior`` weighs mistakes by their number, and "good"; all alike if not given."""
    known = readings_of(Made.as_wanted(part))
    for reading in readings:
        if reading.name not in known:
            some = ", ".join(list(known)[:3])
            raise PartError(f'"{reading.name}" is no reading of part {part.id}: it has {some}, and others.')
        if not isfinite(reading.value) or reading.spread <= 0:
            raise PartError(f"The {reading.name} is not a number with an uncertainty above 0: measure it again.")
    if not readings:
        raise PartError("There is no reading to go by: measure the length at the heel first.")
    names = tuple(reading.name for reading in readings)
    values = [reading.value for reading in readings]
    factor = _factor(_scatter(part, names, workmanship), [reading.spread for reading in readings])
    cases = _cases(part, shop)
    weights = {id_: (prior or {}).get(id_, 1.0) for id_ in cases}
    scores, best = {}, {}
    for id_, of_mistake in cases.items():
        logs = [
            _log_density(factor, [value - case[1][name] for value, name in zip(values, names, strict=True)])
            for case in of_mistake
        ]
        top = max(logs)
        scores[id_] = log(weights[id_]) + top + log(fsum(exp(v - top) for v in logs) / len(logs)) if weights[id_] > 0 else -1e300
        best[id_] = of_mistake[logs.index(top)]
    top = max(scores.values())
    total = fsum(exp(score - top) for score in scores.values())
    shares = {id_: exp(score - top) / total for id_, score in scores.items()}
    causes = _classes(shares, best, names, factor)
    return Diagnosis(causes, shares, _next(part, causes, best, names))


# --- what each mistake predicts -------------------------------------------------------------------------
@lru_cache(maxsize=64)
def _cases(part: Part, shop: Shop) -> dict[str, tuple[tuple[Case, dict[str, float]], ...]]:
    """Each mistake's cases with their readings; a good part among them. H mistakes need a pair and are left out."""
    good = Case("", Made.as_wanted(part))
    found = {GOOD: ((good, readings_of(good.made)),)}
    for mistake in MISTAKES.values():
        if "P" in mistake.kinds:
            cases = mistake.cases(part, shop)
            if cases:
                found[mistake.id] = tuple((case, readings_of(case.made)) for case in cases)
    return found


@lru_cache(maxsize=64)
def _scatter(part: Part, names: tuple[str, ...], work: Workmanship) -> tuple[tuple[float, ...], ...]:
    """How sound work moves the readings: one row a source of scatter, one column a reading."""
    made = Made.as_wanted(part)
    moved = [(work.length, replace(made, stop=made.stop + 1e-4))]
    for i, taper in enumerate(made.tapers):
        def with_taper(new, i=i):
            return replace(made, tapers=tuple(new if j == i else t for j, t in enumerate(made.tapers)))

        height = taper.at_toe / taper.slope
        moved.append((work.taper, with_taper(replace(taper, at_toe=taper.at_toe + 1e-4, slope=(taper.at_toe + 1e-4) / height))))
        # The width left strays at right angles to the heel: the slope changes, the toe mark stays.
        moved.append((work.taper, with_taper(replace(taper, slope=taper.at_toe / (height - 1e-4)))))
        moved.append((work.lean, with_taper(replace(taper, tilt=1e-4))))
    for i, hole in enumerate(made.holes):
        for change in ({"x": hole.x + 1e-4}, {"y": hole.y + 1e-4}):
            moved.append((work.hole, replace(made, holes=tuple(replace(h, **change) if j == i else h for j, h in enumerate(made.holes)))))
    for end in ("out_1", "out_2"):
        moved += [(work.square, replace(made, **{end: (1e-4, 0.0)})), (work.square, replace(made, **{end: (0.0, 1e-4)}))]
    moved += [(work.width, replace(made, filed=(1e-4, 0.0))), (work.width, replace(made, filed=(0.0, 1e-4)))]
    base = readings_of(made)
    return tuple(
        tuple(sigma * (changed[name] - base[name]) / 1e-4 for name in names)
        for sigma, changed in ((sigma, readings_of(other)) for sigma, other in moved)
    )


def _factor(scatter: Sequence[Sequence[float]], spreads: Sequence[float]) -> list[list[float]]:
    """The Cholesky factor of the readings' covariance: scatter of the work plus uncertainty of reading."""
    n = len(spreads)
    cov = [[fsum(row[i] * row[j] for row in scatter) + (spreads[i] ** 2 if i == j else 0.0) for j in range(n)] for i in range(n)]
    low = [[0.0] * n for _ in range(n)]
    for i in range(n):
        for j in range(i + 1):
            rest = cov[i][j] - fsum(low[i][k] * low[j][k] for k in range(j))
            low[i][j] = sqrt(max(rest, 1e-18)) if i == j else rest / low[j][j]
    return low


def _distance(factor: list[list[float]], residual: Sequence[float]) -> float:
    """Squared distance of a residual in standard deviations."""
    solved: list[float] = []
    for i, row in enumerate(factor):
        solved.append((residual[i] - fsum(row[k] * solved[k] for k in range(i))) / row[i])
    return fsum(v * v for v in solved)


def _log_density(factor: list[list[float]], residual: Sequence[float]) -> float:
    """Log of a many-variable Student density, up to what all cases share."""
    return -(TAIL + len(residual)) / 2 * log(1 + _distance(factor, residual) / TAIL)


# --- classes, and what to read next --------------------------------------------------------------------
def _classes(shares, best, names, factor) -> tuple[Cause, ...]:
    """Mistakes whose best-fitting cases the readings cannot part, as one cause each."""
    order = sorted(shares, key=lambda id_: (-shares[id_], id_))
    classes: list[list[str]] = []
    for id_ in order:
        mine = best[id_][1]
        for group in classes:
            theirs = best[group[0]][1]
            if shares[id_] > 0.01 and _distance(factor, [mine[n] - theirs[n] for n in names]) < APART**2 / 4:
                group.append(id_)
                break
        else:
            classes.append([id_])
    causes = [Cause(tuple(sorted(group)), fsum(shares[i] for i in group), best[group[0]][0].words) for group in classes]
    return tuple(sorted(causes, key=lambda cause: -cause.probability))


def _next(part: Part, causes: tuple[Cause, ...], best, names: tuple[str, ...]) -> str:
    """The reading, not yet taken, that parts the two likeliest causes most; empty if none does."""
    if len(causes) < 2:
        return ""
    one, two = (best[cause.ids[0]][1] for cause in causes[:2])
    gaps = {}
    for name in one.keys() & two.keys() - set(names):
        spread = abs(one[name]) * WEIGHING if name == "weight" else CALIPER
        gaps[name] = abs(one[name] - two[name]) / spread
    order = list(seven_readings(part))
    ranked = sorted(gaps, key=lambda name: (-gaps[name], order.index(name) if name in order else 99, name))
    return ranked[0] if ranked and gaps[ranked[0]] > 1 else ""
