"""How likely readings are, if a slip has gone one way or another: scatter of sound work, errors of reading.

Every case of a slip predicts readings. Sound work scatters them together (a run that is long moves
the taper's start and the toe), which makes a covariance; reading adds its own uncertainty, and now
and then a reading is itself a slip, several times wider. How wide all this is was only guessed, by a
builder or here: what is left when a guess of a standard deviation is averaged over is not a normal cloud
but Student's, whose tails are heavier. So a case gives a mixture of such clouds, and readings that
fit nothing well make nothing sure. Two slips on one part add up what each does to the readings.

>>> from anglelib.section import Section
>>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4")
>>> model = model_of(bar, Shop(), ("heel", "toe.A"), (CALIPER, CALIPER), Workmanship())
>>> alone, _ = model.scores((17.188, 17.186))
>>> model.candidates[alone.index(max(alone))].id
'M01'
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations
from math import dist, exp, fsum, inf, log, log1p, sqrt
from operator import mul

from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.reading_ids import CORNER, WEIGHT, ReadingId
from anglelib.inspection.slips import Case, shorten, with_cope, with_corner
from anglelib.job import Shop
from anglelib.part import Part, in_its_unit

GOOD = "good"
CALIPER = 0.005
"""Standard uncertainty of a caliper or rule reading at the bench [in]; a shop guess: measure your own."""
GAUGE = 0.010
"""Standard uncertainty of a radius read by gauges that step by 1/32 in.; a shop guess."""
WEIGHING = 0.004
"""Relative standard uncertainty of a weighing; a shop guess."""
MISREAD_RATE, MISREAD_SPREAD = 0.1, 4.0
"""How often a reading is itself a slip, and how many times wider it then spreads; shop guesses."""
GUESSED = 6
"""As good as from so many parts measured are the standard deviations, which are guesses: a third too wide or too narrow is usual."""
TWO_SLIPS = 0.1
"""How many of the parts with a slip have a second one; a shop guess."""
APART = 2 * 1.645
"""Cases this many standard deviations apart are told apart nineteen times in twenty: the class limit."""
_FAR = 30.0
_STEP = 1e-4
_HAIR = 1e-9


@dataclass(frozen=True)
class Reading:
    """One reading of a finished part: its id, value [in] (weight [lb]) and standard uncertainty."""

    id: str
    value: float
    uncertainty: float | None = None

    @property
    def spread(self) -> float:
        """Its standard uncertainty."""
        return self.uncertainty if self.uncertainty is not None else usual_spread(self.id, self.value)


def usual_spread(id_: str, value: float) -> float:
    """The standard uncertainty of a reading at the bench, if nothing better is known."""
    kind = ReadingId.of(id_).kind
    return abs(value) * WEIGHING if kind == WEIGHT else GAUGE if kind == CORNER else CALIPER


@dataclass(frozen=True)
class Workmanship:
    """How sound work scatters: standard deviations [in], angles as slopes. Shop guesses; measure your own."""

    length: float = 0.008
    taper: float = 0.010
    hole: float = 0.008
    square: float = 0.006
    width: float = 0.003
    lean: float = 0.005
    radius: float = 0.015
    edge: float = 0.0045
    """An edge is broken by eye, by anything up to 1/64."""


@dataclass(frozen=True)
class Candidate:
    """One case of one mistake (or of a good part): the readings it predicts, and its share of the mistake's cases."""

    id: str
    case: Case
    readings: Mapping[str, float]
    share: float


@lru_cache(maxsize=32)
def candidates(part: Part, shop: Shop) -> tuple[Candidate, ...]:
    """All cases of all mistakes that one part can show, a good part first. H mistakes need a pair or a batch."""
    return tuple(candidate for id_ in (GOOD, *MISTAKES) for candidate in candidates_of(part, shop, id_))


@lru_cache(maxsize=512)
@in_its_unit
def candidates_of(part: Part, shop: Shop, id_: str) -> tuple[Candidate, ...]:
    """All cases of one mistake that one part can show, or the good part."""
    if id_ == GOOD:
        good = Case("", Made.as_wanted(part))
        return (Candidate(GOOD, good, readings_of(good.made), 1.0),)
    mistake = MISTAKES[id_]
    cases = mistake.cases(part, shop) if "P" in mistake.kinds else ()
    total = fsum(case.weight for case in cases)
    return tuple(Candidate(id_, case, readings_of(case.made), case.weight / total) for case in cases)


# --- how sound work scatters the readings ------------------------------------------------------------------
def _strays(made: Made, work: Workmanship) -> list[tuple[float, Made]]:
    """Every way in which sound work strays: its standard deviation, and the part a small step of it makes."""
    h = _STEP
    moved = [(work.length, shorten(made, -h))]
    for i, taper in enumerate(made.tapers):
        height = taper.at_toe / taper.slope
        t = float(made.section.thickness(taper.leg))
        for sigma, new in (
            (work.taper, replace(taper, at_toe=taper.at_toe + h, slope=(taper.at_toe + h) / height)),
            # The width left strays at right angles to the heel: the slope changes, the toe mark stays.
            (work.taper, replace(taper, slope=taper.at_toe / (height - h))),
            (work.lean, replace(taper, tilt=taper.tilt + h / t)),
        ):
            moved.append((sigma, replace(made, tapers=tuple(new if j == i else v for j, v in enumerate(made.tapers)))))
    for cope in made.copes:
        moved += [(work.taper, with_cope(made, cope, length=cope.length + h)), (work.taper, with_cope(made, cope, left=cope.left + h))]
    for corner in made.corners:
        moved.append((work.radius, with_corner(made, corner, corner.radius + h)))
    for i, taper in enumerate(made.tapers):
        if taper.edge:
            broken = replace(taper, edge=taper.edge + h)
            moved.append((work.edge, replace(made, tapers=tuple(broken if j == i else v for j, v in enumerate(made.tapers)))))
    for i, hole in enumerate(made.holes):
        for change in ({"x": hole.x + h}, {"y": hole.y + h}):
            holes = tuple(replace(v, **change) if j == i else v for j, v in enumerate(made.holes))
            moved.append((work.hole, replace(made, holes=holes)))
    for end in ("out_1", "out_2"):
        a, b = getattr(made, end)
        moved += [(work.square, replace(made, **{end: (a + h, b)})), (work.square, replace(made, **{end: (a, b + h)}))]
    a, b = made.filed
    return moved + [(work.width, replace(made, filed=(a + h, b))), (work.width, replace(made, filed=(a, b + h)))]


def scatter(made: Made, names: Sequence[str], work: Workmanship) -> list[list[float]]:
    """The covariance of the readings of sound work about a made part [in2]."""
    base = readings_of(made)
    rows = []
    for sigma, other in _strays(made, work):
        changed = readings_of(other)
        rows.append([sigma * (changed[name] - base[name]) / _STEP for name in names])
    return [[fsum(row[i] * row[j] for row in rows) for j in range(len(names))] for i in range(len(names))]


@lru_cache(maxsize=32)
def usual_scatter(part: Part, work: Workmanship) -> dict[str, float]:
    """The standard deviation of every reading of sound work, without the error of reading."""
    made = Made.as_wanted(part)
    base = readings_of(made)
    rows = [(sigma, readings_of(other)) for sigma, other in _strays(made, work)]
    return {name: sqrt(fsum((sigma * (of[name] - value) / _STEP) ** 2 for sigma, of in rows)) for name, value in base.items()}


def _whitener(cov: list[list[float]], spreads: Sequence[float]) -> tuple[list[list[float]], float]:
    """The matrix that turns residuals into independent unit ones, and the log of its determinant."""
    n = len(spreads)
    low = [[0.0] * n for _ in range(n)]
    for i in range(n):
        for j in range(i + 1):
            rest = cov[i][j] + (spreads[i] ** 2 if i == j else 0.0) - fsum(low[i][k] * low[j][k] for k in range(j))
            low[i][j] = sqrt(max(rest, 1e-18)) if i == j else rest / low[j][j]
    inverse = [[0.0] * n for _ in range(n)]
    for j in range(n):
        for i in range(j, n):
            rest = (1.0 if i == j else 0.0) - fsum(low[i][k] * inverse[k][j] for k in range(j, i))
            inverse[i][j] = rest / low[i][i]
    return inverse, -fsum(log(low[i][i]) for i in range(n))


def _white(matrix: list[list[float]], values: Sequence[float]) -> tuple[float, ...]:
    return tuple(sum(map(mul, row[: i + 1], values)) for i, row in enumerate(matrix))


@dataclass(frozen=True)
class Pair:
    """Two slips together: the places of their likeliest cases among the candidates, and their log score."""

    first: int
    second: int
    score: float


class Model:
    """The likelihood of these readings of this part, for every candidate and every pair of two."""

    def __init__(self, part: Part, shop: Shop, names: tuple[str, ...], spreads: tuple[float, ...], work: Workmanship) -> None:
        self.candidates = candidates(part, shop)
        self.names, self.spreads = names, spreads
        self._scored: dict[tuple[float, ...], tuple[list[float], list[Pair]]] = {}
        self._means = [[c.readings[name] for name in names] for c in self.candidates]
        self._kinds: list[int] = []
        covs: dict[tuple, tuple[int, list[list[float]]]] = {}
        for candidate in self.candidates:
            made = candidate.case.made
            # Cases with like tapers scatter alike; 0.02 is well below what a taper's position can change.
            key = tuple((t.leg, t.end, round(2 * t.slope), t.at(0.0, made.width(t.leg)) > 0) for t in made.tapers)
            if key not in covs:
                covs[key] = (len(covs), scatter(made, names, work))
            self._kinds.append(covs[key][0])
        self._columns = []
        for kind in range(len(covs)):
            places = [i for i, of in enumerate(self._kinds) if of == kind]
            self._columns.append((places, list(zip(*(self._means[i] for i in places), strict=True))))
        # No reading misread, one of them, two of them.
        self._mixture = []
        n = len(names)
        for count in range(min(n, 2) + 1):
            for wide in combinations(range(n), count):
                weight = MISREAD_RATE**count * (1 - MISREAD_RATE) ** (n - count)
                widened = [s * (MISREAD_SPREAD if i in wide else 1.0) for i, s in enumerate(spreads)]
                whiteners = [_whitener(cov, widened) for _, cov in covs.values()]
                white = self._all_white([matrix for matrix, _ in whiteners])
                self._mixture.append((log(weight), whiteners, white))

    def _all_white(self, matrices: list[list[list[float]]]) -> list[tuple[float, ...]]:
        """The means of all candidates, made white; column by column, which is :func:`_white` in the same order, and ten times as quick."""
        found: list[tuple[float, ...]] = [()] * len(self._means)
        for (places, columns), matrix in zip(self._columns, matrices, strict=True):
            rows = []
            for i, row in enumerate(matrix):
                total = [row[0] * v for v in columns[0]]
                for factor, column in zip(row[1 : i + 1], columns[1:], strict=False):
                    total = [t + factor * v for t, v in zip(total, column, strict=True)]
                rows.append(total)
            for i, mean in zip(places, zip(*rows, strict=True), strict=True):
                found[i] = mean
        return found

    def scores(self, values: Sequence[float]) -> tuple[list[float], list[Pair]]:
        """Log likelihood of each candidate times its share; the same of pairs, the best of each two mistakes summed up."""
        if tuple(values) not in self._scored:  # a verdict asks what a diagnosis has asked
            self._scored = {tuple(values): self._scores(values)}
        return self._scored[tuple(values)]

    def _scores(self, values: Sequence[float]) -> tuple[list[float], list[Pair]]:
        rows, half = [], (GUESSED + len(values)) / 2
        for weight, whiteners, white in self._mixture:
            seen = [_white(matrix, values) for matrix, _ in whiteners]
            heads = [weight + determinant for _, determinant in whiteners]
            # Student's density of so many dimensions, without what is the same in all of them.
            rows.append([heads[kind] - half * log1p(dist(seen[kind], mean) ** 2 / GUESSED) for kind, mean in zip(self._kinds, white, strict=True)])
        alone = []
        for column, candidate in zip(zip(*rows, strict=True), self.candidates, strict=True):
            top = max(column)
            alone.append(top + log(fsum(exp(v - top) for v in column if v > top - _FAR)) + log(candidate.share))
        return alone, self._pairs(values)

    def _pairs(self, values: Sequence[float]) -> list[Pair]:
        """Pairs of two different mistakes, by the sum of their likelihoods over all cases."""
        weight, whiteners, white = self._mixture[0]
        kind = self._kinds[0]
        matrix, determinant = whiteners[kind]
        good = _white(matrix, self._means[0])
        moved = [
            mean if self._kinds[i] == kind else _white(matrix, self._means[i]) for i, mean in enumerate(white)
        ]
        seen, half = _white(matrix, values), (GUESSED + len(values)) / 2
        shares = [log(c.share) for c in self.candidates]
        ids = [c.id for c in self.candidates]
        best: dict[tuple[str, str], tuple[float, float, int, int]] = {}
        least = inf
        # In the direction in which the cases spread most: what is too far there is too far.
        way = max(range(len(good)), key=lambda k: _spread([mean[k] for mean in moved]))
        order = sorted(range(len(moved)), key=lambda i: moved[i][way])
        along = [moved[i][way] for i in order]
        for i in range(1, len(moved)):
            rest = tuple(s - m + g for s, m, g in zip(seen, moved[i], good, strict=True))
            reach = least + 4 + _HAIR
            near = order[bisect_left(along, rest[way] - reach) : bisect_right(along, rest[way] + reach)]
            for j in sorted(j for j in near if j > i):
                distance = dist(rest, moved[j])
                if distance < least + 4 and ids[i] != ids[j]:
                    least = min(least, distance)
                    score = weight + determinant - half * log1p(distance**2 / GUESSED) + shares[i] + shares[j]
                    total, top, a, b = best.get((ids[i], ids[j]), (-inf, -inf, i, j))
                    best[ids[i], ids[j]] = (_added(total, score), *((score, i, j) if score > top else (top, a, b)))
        return [Pair(a, b, total) for total, _, a, b in best.values()]

    def distance(self, one: Sequence[float], two: Sequence[float], kind: int = 0) -> float:
        """How many standard deviations apart two sets of readings are."""
        matrix = self._mixture[0][1][self._kinds[kind]][0]
        return dist(_white(matrix, one), _white(matrix, two))

    def nearest(self, values: Sequence[float]) -> list[int]:
        """The candidate that lies nearest to the readings, of each kind of scatter."""
        _, whiteners, white = self._mixture[0]
        seen = [_white(matrix, values) for matrix, _ in whiteners]
        return [min(places, key=lambda place: dist(seen[kind], white[place])) for kind, (places, _) in enumerate(self._columns)]

    def white(self, rest: Sequence[float], place: int) -> tuple[float, ...]:
        """What is left of the readings beside a candidate, in independent standard deviations."""
        return _white(self._mixture[0][1][self._kinds[place]][0], rest)

    def oddest(self, rest: Sequence[float], place: int) -> int:
        """The reading without which the others would lie nearest to a candidate: its number among the names."""
        matrix, white = self._mixture[0][1][self._kinds[place]][0], self.white(rest, place)

        def gain(i: int) -> float:
            column = [row[i] for row in matrix]
            return sum(map(mul, column, white)) ** 2 / sum(map(mul, column, column))

        return max(range(len(rest)), key=gain)

    def predicted(self, *places: int) -> list[float]:
        """The readings that one candidate predicts, or two together."""
        good = self._means[0]
        return [fsum((*(self._means[p][k] for p in places), -(len(places) - 1) * good[k])) for k in range(len(good))]


def _spread(numbers: Sequence[float]) -> float:
    middle = fsum(numbers) / len(numbers)
    return fsum(abs(number - middle) for number in numbers)


def _added(one: float, two: float) -> float:
    """Log of the sum of two numbers given by their logs."""
    high, low = (one, two) if one > two else (two, one)
    return high if low < high - _FAR else high + log(1.0 + exp(low - high))


@lru_cache(maxsize=32)
def model_of(part: Part, shop: Shop, names: tuple[str, ...], spreads: tuple[float, ...], work: Workmanship) -> Model:
    """The likelihood model, kept for the next readings of the same part."""
    return Model(part, shop, names, spreads, work)


def alike(
    part: Part, shop: Shop, names: Sequence[str], spreads: Sequence[float] | None = None, work: Workmanship = Workmanship()
) -> dict[str, tuple[str, ...]]:
    """For each mistake (and "good"): the others that these readings mostly cannot part from it.

    Another cannot be parted when, for at least half of the mistake's cases, it has one within
    :data:`APART` standard deviations of the readings.

    >>> from anglelib.section import Section
    >>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4")
    >>> alike(bar, Shop(), ("heel", "toe.A"))["M24"]
    ('M21', 'M22', 'M23', 'M25', 'good')
    """
    names = tuple(names)
    if spreads is None:
        good = readings_of(Made.as_wanted(part))
        spreads = tuple(usual_spread(name, good[name]) for name in names)
    model = model_of(part, shop, names, tuple(spreads), work)
    white = model._mixture[0][2]
    matrices = [matrix for matrix, _ in model._mixture[0][1]]
    shared: dict[str, dict[str, float]] = {}
    for i, one in enumerate(model.candidates):
        mine = shared.setdefault(one.id, {})
        kind = model._kinds[i]
        met = set()
        for j, two in enumerate(model.candidates):
            if two.id == one.id or two.id in met:
                continue
            mean = white[j] if model._kinds[j] == kind else _white(matrices[kind], model._means[j])
            if dist(white[i], mean) < APART:
                met.add(two.id)
        for id_ in met:
            mine[id_] = mine.get(id_, 0.0) + one.share
    return {id_: tuple(sorted(other for other, part_of in of.items() if part_of >= 0.5 - 1e-9)) for id_, of in shared.items()}
