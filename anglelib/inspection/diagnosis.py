"""Diagnosis: which mistakes a finished part's readings point to, and when they cannot tell.

A mistake's score is the mean likelihood of the readings over its cases, times its prior; "a good
part" is one of the candidates, and so are two slips together. Mistakes that the readings cannot part
are reported as one class.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> read = [Reading("toe.A", 0.815), Reading("toe.B", 2.063), Reading("heel", 2.062),
...         Reading("start.A.1", 1.25), Reading("width.A.1", 0.376)]
>>> found = diagnose(cleat, Shop(), read)
>>> found.leaders[0].ids
('M01', 'M04', 'M08', 'M03')
>>> diagnose(cleat, Shop(), [Reading("shoe-size", 9)])
Traceback (most recent call last):
    ...
anglelib.errors.PartError: "shoe-size" is no reading of part A1L: it has length along the heel; toe A, taper to end 2; leg A width, end 1; and others.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import exp, fsum, hypot, isfinite, log

from anglelib.errors import PartError
from anglelib.inspection.likelihood import (
    APART,
    GOOD,
    TWO_SLIPS,
    Model,
    Reading,
    Workmanship,
    model_of,
    usual_scatter,
    usual_spread,
)
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.misfit import read_again
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.reading_ids import chosen
from anglelib.inspection.reading_words import reading_words
from anglelib.job import Shop
from anglelib.names import visible
from anglelib.part import Part

__all__ = ["Cause", "Diagnosis", "GOOD", "Reading", "Workmanship", "diagnose"]

MOST_NAMED = 3
PARTS = 2.0
"""A further reading is worth taking when it puts two causes this many standard deviations apart."""


@dataclass(frozen=True)
class Cause:
    """A class of mistakes with its probability, and the case that fits best in words.

    ``ids`` are the mistakes that the readings cannot part, the likeliest first. For two slips together
    ``second`` names the other's, again with what cannot be parted from it.
    """

    ids: tuple[str, ...]
    probability: float
    words: str
    second: tuple[str, ...] = ()

    @property
    def sentence(self) -> str:
        """What these readings point to; it never says that somebody did it."""
        if self.ids == (GOOD,):
            return "These readings fit a good part."
        where = f" ({self.words})" if self.words else ""
        if self.second:
            return f"These readings fit two slips together: {_told(self.ids)}; and {_told(self.second)}{where}."
        return f"These readings fit {_told(self.ids)}{where}."


def _told(ids: tuple[str, ...]) -> str:
    """The likeliest three by name, the others of the class by number."""
    named = [f"{id_} {MISTAKES[id_].name}" if id_ != GOOD else "a good part" for id_ in ids[:MOST_NAMED]]
    others = ", ".join(id_ if id_ != GOOD else "a good part" for id_ in ids[MOST_NAMED:])
    return " or ".join(named) + (f" (nor can they rule out {others})" if others else "")


@dataclass(frozen=True)
class Diagnosis:
    """The causes by probability, most likely first, and the id of the next best reading ("" if none would help).

    ``shares``: how likely it is that each mistake took part, alone or with another; "good" that none did. ``misfit``: the reading to
    take again first, where no cause fits: the causes are then only the nearest; "" where one does.
    """

    causes: tuple[Cause, ...]
    shares: Mapping[str, float] = field(repr=False)
    next_reading: str
    part: Part = field(repr=False)
    misfit: str = ""

    @property
    def leaders(self) -> tuple[Cause, ...]:
        """The three likeliest."""
        return self.causes[:3]

    @property
    def cannot_tell(self) -> bool:
        """Whether these readings do not decide: the first cause is less than three times as likely as the second."""
        return len(self.causes) > 1 and self.causes[0].probability < 3 * self.causes[1].probability

    @property
    def doubt(self) -> str:
        """What to do where the readings fit nothing; empty where something fits."""
        if not self.misfit:
            return ""
        return f"These readings fit no known mistake, nor two together, nor a good part: take them again. First: {reading_words(self.misfit, self.part)}."

    @property
    def sentence(self) -> str:
        """The answer in words."""
        if self.misfit:
            return self.doubt
        if not self.cannot_tell:
            return self.causes[0].sentence
        more = f" Read the {reading_words(self.next_reading, self.part)} too." if self.next_reading else ""
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
        if reading.id not in known:
            some = "; ".join(reading_words(id_, part) for id_ in list(known)[:3])
            raise PartError(f'"{visible(reading.id)[:40]}" is no reading of part {part.id}: it has {some}; and others.')
        if not isfinite(reading.value) or not isfinite(reading.spread) or reading.spread <= 0:
            raise PartError(f"The reading of {reading_words(reading.id, part)} is not a number with an uncertainty above 0: measure it again.")
    if not readings:
        raise PartError("There is no reading to go by: measure the length at the heel first.")
    names = tuple(reading.id for reading in readings)
    if twice := next((name for name in names if names.count(name) > 1), ""):
        raise PartError(f"There are two readings of {reading_words(twice, part)}: give one, their mean.")
    model = model_of(part, shop, names, tuple(reading.spread for reading in readings), workmanship)
    values = [reading.value for reading in readings]
    found = _hypotheses(model, values, prior or {})
    shares = dict.fromkeys((c.id for c in model.candidates), 0.0)
    for hypothesis in found:
        for id_ in hypothesis.ids:
            shares[id_] += hypothesis.probability
    classes = _classes(found, model)
    odd = read_again(model, values, (h.places for h in found))
    return Diagnosis(tuple(_cause(group, model, shares) for group in classes), shares, _next(part, classes, model, workmanship), part, odd)


# --- hypotheses: one mistake, or two together ---------------------------------------------------------------
@dataclass(frozen=True)
class _Hypothesis:
    """One mistake or two, the places of the cases that fit best among the candidates, and the probability."""

    ids: tuple[str, ...]
    places: tuple[int, ...]
    probability: float


def _hypotheses(model: Model, values: list[float], prior: Mapping[str, float]) -> list[_Hypothesis]:
    """All of them, the likeliest first."""
    ids = list(dict.fromkeys(c.id for c in model.candidates))
    weights = {id_: max(0.0, prior.get(id_, 1.0)) for id_ in ids}
    total = fsum(weights.values())
    slips = fsum(w for id_, w in weights.items() if id_ != GOOD)
    alone, pairs = model.scores(values)
    groups: dict[str, list[int]] = {id_: [] for id_ in ids}
    for place, candidate in enumerate(model.candidates):
        groups[candidate.id].append(place)
    scored: list[tuple[tuple[str, ...], tuple[int, ...], float]] = []
    for id_, places in groups.items():
        if weights[id_] > 0:
            top = max(places, key=lambda place: alone[place])
            score = alone[top] + log(fsum(exp(alone[place] - alone[top]) for place in places))
            single = 1.0 if id_ == GOOD else 1 - TWO_SLIPS
            scored.append(((id_,), (top,), score + log(weights[id_] / total * single)))
    for pair in pairs:
        one, two = (model.candidates[place].id for place in (pair.first, pair.second))
        w, v = weights[one], weights[two]
        if w > 0 and v > 0:
            # Either may have been the first of the two.
            chance = TWO_SLIPS * w * v / total * (1 / (slips - w) + 1 / (slips - v))
            scored.append(((one, two), (pair.first, pair.second), pair.score + log(chance)))
    if not scored:
        raise PartError("The priors leave no mistake to weigh: give at least one of them a weight above 0.")
    top = max(score for _, _, score in scored)
    whole = fsum(exp(score - top) for _, _, score in scored)
    found = [_Hypothesis(names, places, exp(score - top) / whole) for names, places, score in scored]
    return sorted(found, key=lambda h: (-h.probability, h.ids))


# --- classes, and what to read next --------------------------------------------------------------------
LEAST = 0.002
"""Less likely hypotheses are left out of the classes."""


def _classes(found: list[_Hypothesis], model: Model) -> list[list[_Hypothesis]]:
    """Hypotheses whose best-fitting cases the readings cannot part, together; one slip is never put with two."""
    classes: list[list[_Hypothesis]] = []
    for hypothesis in found:
        if hypothesis.probability < LEAST and classes:
            break
        mine = model.predicted(*hypothesis.places)
        for group in classes:
            lead = group[0]
            if len(lead.ids) == len(hypothesis.ids) and model.distance(mine, model.predicted(*lead.places)) < APART:
                group.append(hypothesis)
                break
        else:
            classes.append([hypothesis])
    return sorted(classes, key=lambda group: -fsum(h.probability for h in group))


def _cause(group: list[_Hypothesis], model: Model, shares: Mapping[str, float]) -> Cause:
    lead = group[0]
    places = sorted(lead.places, key=lambda place: -shares[model.candidates[place].id])
    words = "; ".join(w for place in places if (w := model.candidates[place].case.words))
    probability = fsum(h.probability for h in group)
    if len(lead.ids) == 1:
        return Cause(tuple(h.ids[0] for h in group), probability, words)
    # The surer of the two first.
    one, two = (model.candidates[place].id for place in places)
    firsts = dict.fromkeys([one, *(next(iter(set(h.ids) - {two})) for h in group if two in h.ids)])
    seconds = dict.fromkeys([two, *(next(iter(set(h.ids) - {one})) for h in group if one in h.ids)])
    return Cause(tuple(firsts), probability, words, tuple(seconds))


def _next(part: Part, classes: list[list[_Hypothesis]], model: Model, work: Workmanship) -> str:
    """The reading, not yet taken, that parts the two likeliest causes most; empty if none does.

    Where they are one class, or one class is all there is, it parts the two likeliest in the class.
    """
    leads = [group[0] for group in classes]
    choices = [(leads[0], other) for other in leads[1:2]]
    choices += [(classes[0][0], other) for other in classes[0][1:]]
    if len(classes) > 1 and fsum(h.probability for h in classes[1]) < 0.1:
        choices = choices[1:] + choices[:1]
    order = list(chosen(part))
    for one, two in choices:
        readings = [[model.candidates[place].readings for place in h.places] for h in (one, two)]
        gaps = {}
        for name in sorted(set.intersection(*(set(r) for of in readings for r in of)) - set(model.names)):
            wanted = model.candidates[0].readings[name]
            values = [fsum((*(r[name] for r in of), -(len(of) - 1) * wanted)) for of in readings]
            spread = hypot(usual_spread(name, wanted), usual_scatter(part, work)[name])
            gaps[name] = abs(values[0] - values[1]) / spread
        ranked = sorted(gaps, key=lambda name: (-round(gaps[name], 6), order.index(name) if name in order else 99, name))
        if ranked and gaps[ranked[0]] > PARTS:
            return ranked[0]
    return ""
