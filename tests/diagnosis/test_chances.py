"""The diagnosis' likelihoods against scipy's clouds, Student's of six degrees of freedom, summed over every case and every pair without any short way.

What the library takes from its own cases here is only which readings each predicts (the signatures are held by
``test_mistake_signatures``). How sound work scatters is worked by hand.
"""

from __future__ import annotations

from itertools import combinations
from math import exp, hypot, log, sqrt

import numpy as np
import pytest
from scipy.stats import multivariate_t, norm

from anglelib.errors import PartError
from anglelib.inspection.diagnosis import Reading, diagnose
from anglelib.inspection.likelihood import GOOD, Workmanship, alike, candidates, model_of, scatter, usual_scatter, usual_spread
from anglelib.inspection.made import Made
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.together import batch_causes, made_alike
from anglelib.job import Shop
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
BAR = Part("A3", "Floor bar", STOCK, "6061-T6", "17 1/4", holes=[Hole("A", "1/2", "3/8", "1/8"), Hole("B", 16, "7/16", "1/8")])
CLEAT = Part("A1L", "Cleat", STOCK, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")], holes=[Hole("A", "1 7/16", "7/16", "1/8")])
BRACKET = Part("C1L", "Bracket", Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
CLIP = Part("P1", "Clip", Section("1 1/2", "1 1/2", "1/8", fillet="1/8"), "6061-T6", 6, copes=[Cope("A", 2, 1, "3/4", "1/8")], corners=[Corner("B", 1, "1/4")])
SHOP, WORK = Shop(), Workmanship(length=0.008, taper=0.010, hole=0.007, square=0.006, width=0.003, lean=0.005, radius=0.015, edge=0.0045)


# --- how sound work scatters, by hand ----------------------------------------------------------------------
C = 1.25 / 0.375  # the cleat's slope: run over height
HAND = [
    (BAR, "heel", [0.008]),
    (BAR, "toe.A", [0.008, 0.75 * 0.006, 0.75 * 0.006]),  # both ends may lean over a leg of 3/4
    (BAR, "width.A.1", [0.003]),
    (BAR, "hole.1.x", [0.007]),
    (BAR, "hole.2.y", [0.007]),
    (BAR, "thickness.A", [0.0]),
    (CLEAT, "start.A.1", [0.010, C * 0.003]),  # a toe filed lower meets the line nearer to the end
    (CLEAT, "width.A.1", [0.010, 0.375 / C * 0.006]),  # the line's height where a leaning end is met
    (CLEAT, "toe.A", [0.008, 0.010, C * 0.003, 0.75 * 0.006]),  # only end 2 may lean: at end 1 the taper is the toe's end
    (CLEAT, "toe.B", [0.008, 0.75 * 0.006, 0.75 * 0.006]),
    (CLEAT, "inside.A", [0.003]),
    # An edge broken by more makes the part shorter by that times run over height; so does a line laid lower at the end, turned about its toe mark.
    (BRACKET, "heel", [0.008, 1.7 * 0.0045, 1.7 * 0.010 * (1 - 1 / 128 / 1.25), 0.010 / 128 / 1.25]),
    (CLIP, "cope.A.2", [0.010]),
    (CLIP, "width.A.2", [0.010]),
    (CLIP, "corner.B.1", [0.015]),
]


@pytest.mark.parametrize(("part", "name", "ways"), HAND, ids=lambda v: v if isinstance(v, str) else getattr(v, "id", ""))
def test_each_reading_scatters_as_by_hand(part, name, ways):
    assert usual_scatter(part, WORK)[name] == pytest.approx(sqrt(sum(way**2 for way in ways)), rel=1e-3, abs=1e-9)


def test_readings_scatter_together():
    """A length that is long is long at the heel and at the toe; a run that is long makes the toe short; nothing else has them in common."""
    found = scatter(Made.as_wanted(CLEAT), ("heel", "toe.A", "start.A.1", "hole.1.y"), WORK)
    assert found[0][1] == found[1][0] == pytest.approx(0.008**2, rel=1e-3)
    assert found[1][2] == found[2][1] == pytest.approx(-(0.010**2) - (C * 0.003) ** 2, rel=1e-3)
    assert found[0][2] == pytest.approx(0, abs=1e-12) and found[0][3] == pytest.approx(0, abs=1e-12)


def test_a_lean_of_the_saw_shows_on_the_inside_only():
    """The lean is a slope at right angles to the line; the inside edge of the tapered end is read 1/8 behind the outside one."""
    tilted = scatter(Made.as_wanted(CLEAT), ("width.A.1", "inside.A.1"), Workmanship(0, 0, 0, 0, 0, 0.005, 0, 0))
    assert tilted[0][0] == pytest.approx(0, abs=1e-15)
    assert sqrt(tilted[1][1]) == pytest.approx(0.005 * hypot(1.25, 0.375) / 1.25, rel=1e-3)


# --- the chances, by scipy ---------------------------------------------------------------------------------
def clouds(part: Part, names, spreads, rate=0.1, wide=4.0) -> tuple[list, list]:
    """The log likelihood of every candidate as a function of the readings: clouds with none, one or two readings misread."""
    found, means, covs = candidates(part, SHOP), [], {}
    logs = []
    for one in found:
        mean = np.array([one.readings[name] for name in names])
        key = tuple((t.leg, t.end, round(2 * t.slope), t.at(0.0, one.case.made.width(t.leg)) > 0) for t in one.case.made.tapers)
        if key not in covs:
            covs[key] = np.array(scatter(one.case.made, names, WORK))
        means.append((mean, covs[key]))
        mixture = []
        for count in (0, 1, 2):
            for misread in combinations(range(len(names)), count):
                own = np.diag([(s * (wide if i in misread else 1.0)) ** 2 for i, s in enumerate(spreads)])
                mixture.append((rate**count * (1 - rate) ** (len(names) - count), multivariate_t(mean, covs[key] + own, df=DEGREES)))
        logs.append((one, mixture))
    return logs, means


DEGREES = 6
"""The standard deviations are guesses, as good as from so many parts."""


def left_out(count: int) -> float:
    """What the library leaves out of every score: the density in the middle of a cloud that has one standard deviation each way."""
    return float(multivariate_t(np.zeros(count), np.eye(count), df=DEGREES).pdf(np.zeros(count)))


CASES = {
    "a bar a kerf short": (BAR, ("heel", "toe.A", "hole.1.x"), (0.005, 0.005, 0.004), (17.19, 17.183, 0.502)),
    "a bar, good": (BAR, ("heel", "hole.2.x"), (0.005, 0.003), (17.252, 15.99)),
    "a bar a kerf short, or half of one more": (BAR, ("heel", "toe.A"), (0.005, 0.005), (17.17, 17.171)),
    "a cleat": (CLEAT, ("heel", "start.A.1", "width.A.1"), (0.005, 0.006, 0.004), (2.128, 1.19, 0.381)),
}


@pytest.mark.parametrize("case", CASES)
def test_scores_of_single_slips_are_those_of_the_clouds(case):
    part, names, spreads, read = CASES[case]
    logs, _ = clouds(part, names, spreads)
    alone, _ = model_of(part, SHOP, names, spreads, WORK).scores(read)
    compared = 0
    for score, (one, mixture) in zip(alone, logs, strict=True):
        wanted = sum(weight * cloud.pdf(read) for weight, cloud in mixture) / left_out(len(names)) * one.share
        if wanted > 1e-250:
            assert score == pytest.approx(log(wanted), abs=2e-3), one
            compared += 1
    assert compared > len(alone) / 3


FEW = {**dict.fromkeys(MISTAKES, 0.0), "M01": 1.0, "M02": 5.0, "M05": 1.0, GOOD: 2.0}
"""Of few slips the second is drawn from still fewer."""


@pytest.mark.parametrize("prior", [{}, {"M02": 5.0, GOOD: 20.0, "M08": 0.0}, FEW], ids=["all alike", "some", "few"])
@pytest.mark.parametrize("case", CASES)
def test_the_shares_are_those_of_every_case_and_every_pair(case, prior):
    """Bayes' theorem term by term: a part is good or has one slip, in one part of ten with a slip a second one, whose shifts add up."""
    part, names, spreads, read = CASES[case]
    logs, means = clouds(part, names, spreads)
    ids = list(dict.fromkeys(one.id for one, _ in logs))
    weights = {id_: prior.get(id_, 1.0) for id_ in ids}
    total, slips = sum(weights.values()), sum(w for id_, w in weights.items() if id_ != GOOD)
    chances: dict[frozenset, float] = {}
    for one, mixture in logs:
        single = weights[one.id] / total * (1 if one.id == GOOD else 0.9) * one.share
        chances[frozenset([one.id])] = chances.get(frozenset([one.id]), 0) + single * sum(weight * cloud.pdf(read) for weight, cloud in mixture)
    good, cov = means[0][0], means[0][1] + np.diag(np.square(spreads))
    cloud, sound = multivariate_t(np.zeros(len(names)), cov, df=DEGREES), 0.9 ** len(names)
    all_means = np.array([mean for mean, _ in means])
    shares, of = np.array([one.share for one, _ in logs]), np.array([one.id for one, _ in logs])
    for i in range(1, len(logs)):
        rest = np.asarray(read) - all_means[i] - all_means[i + 1 :] + good
        density = sound * np.atleast_1d(cloud.pdf(rest)) * shares[i] * shares[i + 1 :]
        for other in set(of[i + 1 :]) - {of[i]}:
            w, v = weights[of[i]], weights[other]
            if w > 0 and v > 0:  # the second slip is drawn from those that are left
                chance = 0.1 * (w / total * v / (slips - w) + v / total * w / (slips - v))
                key = frozenset([of[i], other])
                chances[key] = chances.get(key, 0) + chance * density[of[i + 1 :] == other].sum()
    whole = sum(chances.values())
    found = diagnose(part, SHOP, [Reading(n, v, s) for n, v, s in zip(names, read, spreads)], prior, WORK)
    for id_ in ids:
        wanted = sum(chance for key, chance in chances.items() if id_ in key) / whole
        assert found.shares[id_] == pytest.approx(wanted, abs=0.002, rel=0.005), id_
    best = max(chances, key=chances.__getitem__)
    assert best <= {*found.causes[0].ids, *found.causes[0].second}


def test_one_reading_of_each_and_none_that_is_no_number():
    """Two of one are refused, as is one without an uncertainty; two of two are not."""
    assert diagnose(BAR, SHOP, [Reading("heel", 17.25), Reading("toe.A", 17.25)]).causes
    for read, words in (([Reading("heel", 17.25), Reading("heel", 17.2)], "two readings"), ([Reading("heel", float("inf"))], "measure it again"), ([Reading("heel", 17.2, -1.0)], "measure it again"), ([], "no reading to go by")):
        with pytest.raises(PartError, match=words):
            diagnose(BAR, SHOP, read)


@pytest.mark.parametrize(("part", "names"), [(BAR, ("heel",)), (CLEAT, ("heel", "toe.A")), (CLEAT, ("start.A.1",)), (BAR, ("heel", "hole.1.x"))])
def test_the_next_reading_parts_the_two_likeliest_most(part, names):
    """Of all that can be read and were not: by how far the two cases lie apart there, in what work and reading scatter together; more than two of that."""
    every, scattered, asked = candidates(part, SHOP), usual_scatter(part, WORK), 0
    good = every[0].readings
    for off in (-0.3, -0.21, -0.11, -0.06, -0.03, 0.03, 0.06, 0.13, 0.25):
        found = diagnose(part, SHOP, [Reading(name, good[name] + off, 0.005) for name in names], workmanship=WORK)
        if len(found.causes) < 2 or any(cause.second for cause in found.causes[:2]) or found.causes[1].probability < 0.1:
            continue
        one, two = (next(c for c in every if (c.id, c.case.words) == (cause.ids[0], cause.words)) for cause in found.causes[:2])
        gaps = {
            name: abs(one.readings[name] - two.readings[name]) / hypot(usual_spread(name, good[name]), scattered[name])
            for name in one.readings.keys() & two.readings.keys() - set(names)
        }
        if max(gaps.values()) > 2:
            assert found.next_reading and gaps[found.next_reading] == pytest.approx(max(gaps.values()), abs=1e-5), (off, found.next_reading, gaps)
            asked += 1
    assert asked


def test_what_is_not_known_better_has_the_bench_s_uncertainty():
    """A rule's 0.005 in., a radius gauge's 0.010, a scale's 4 in a thousand; what is given counts before it."""
    assert [usual_spread(id_, 2.0) for id_ in ("heel", "width.A.1", "hole.1.x", "corner.B.1", "weight")] == pytest.approx([0.005, 0.005, 0.005, 0.010, 0.008])
    assert Reading("heel", 2.0).spread == 0.005 and Reading("heel", 2.0, 0.001).spread == 0.001


@pytest.mark.parametrize("part, names", [(BAR, ("heel", "toe.A")), (CLEAT, ("heel", "start.A.1", "width.A.1")), (BAR, ("hole.1.x", "hole.2.x", "weight"))])
def test_what_cannot_be_parted_lies_within_3_3_standard_deviations(part, names):
    """By Mahalanobis' distance, numpy's inverse: for half of a mistake's cases, by weight, the other has one so near."""
    good = {one.id: one for one in candidates(part, SHOP)}[GOOD].readings
    spreads = tuple(usual_spread(name, good[name]) for name in names)
    logs, means = clouds(part, names, spreads)
    stated, ids = alike(part, SHOP, names, spreads, WORK), [one.id for one, _ in logs]
    all_means, own = np.array([mean for mean, _ in means]), np.diag(np.square(spreads))
    near = {limit: {} for limit in (3.25, 3.33)}  # 3.29, twice the point that a normal number passes once in twenty, and a hair to either side
    for (one, _), (mean, cov) in zip(logs, means):
        off = all_means - mean
        away = np.sqrt(np.einsum("ij,jk,ik->i", off, np.linalg.inv(cov + own), off))
        for limit, found in near.items():
            for other in {id_ for id_, d in zip(ids, away) if d < limit} - {one.id}:
                found[one.id, other] = found.get((one.id, other), 0.0) + one.share
    compared = 0
    for one in dict.fromkeys(ids):
        for other in set(ids) - {one}:
            least, most = (near[limit].get((one, other), 0.0) for limit in (3.25, 3.33))
            if least >= 0.5 - 1e-6 or most < 0.5 - 1e-3:
                assert (other in stated[one]) == (least >= 0.5 - 1e-6), (one, other, least)
                compared += 1
    assert compared > 100 and norm.cdf(-3.29 / 2) == pytest.approx(0.05, abs=1e-3)


# --- a batch --------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("read", [[3.970, 3.937, 3.939, 3.968], [3.99, 3.96, 3.97, 3.985], [4.001, 3.998, 4.003], [3.93, 3.94], [3.95, 3.955, 3.96]])
@pytest.mark.parametrize("spread", [0.005, 0.002, 0.03])
def test_the_causes_of_a_batch_are_weighed_by_the_normal_law(read, spread):
    """Four ways to lose metal, all alike before anything is read: each piece is off by what work and reading scatter, 0.008 and the caliper's."""
    k = 1 / 16
    lost = {GOOD: [0] * len(read), "M01": [k] * len(read), "M02": [k / 2] * len(read), "M06": [k / 2, *[k] * (len(read) - 2), k / 2]}
    sigma = hypot(spread, 0.008)
    chances = {id_: exp(sum(norm.logpdf(v, 4 - by, sigma) for v, by in zip(read, off))) for id_, off in lost.items()}
    causes = batch_causes(read, 4, SHOP, spread)
    assert sorted(id_ for cause in causes for id_ in cause.ids) == sorted(lost)
    for cause in causes:
        assert cause.probability == pytest.approx(sum(chances[id_] for id_ in cause.ids) / sum(chances.values()), abs=1e-9)
        lead = cause.ids[0]
        assert chances[lead] == max(chances[id_] for id_ in cause.ids)
        for id_ in cause.ids:
            assert sqrt(sum((a - b) ** 2 for a, b in zip(lost[id_], lost[lead]))) / sigma < 3.29
    assert [c.probability for c in causes] == sorted((c.probability for c in causes), reverse=True)
    for one, two in combinations(causes, 2):  # what is told apart is apart
        assert sqrt(sum((a - b) ** 2 for a, b in zip(lost[one.ids[0]], lost[two.ids[0]]))) / sigma >= 3.29


def test_two_pieces_are_a_batch_already_and_no_length_is_beyond_doubt():
    assert batch_causes([4.0, 4.0], 4, SHOP)[0].ids[0] == GOOD
    for uncertainty in (0.0, -0.005):
        with pytest.raises(PartError, match="measure it again"):
            batch_causes([4.0, 4.0], 4, SHOP, uncertainty)


def test_a_pair_is_alike_up_to_the_tolerance_in_what_both_have():
    assert made_alike({"heel": 2.0, "toe.A": 1.0}, {"heel": 2.25, "width.A.1": 9.0}, 0.25)
    assert not made_alike({"heel": 2.0, "toe.A": 1.0}, {"heel": 2.25, "toe.A": 1.0}, 0.125)
