"""Readings that fit nothing, and a likelihood that allows for its own guesses: against scipy's distributions and by hand."""

from __future__ import annotations

from itertools import pairwise

import diagnosis_count as counting
import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import chi2, norm
from scipy.stats import gamma as gamma_of

from anglelib.inspection import likelihood
from anglelib.inspection.diagnosis import GOOD, Reading, diagnose
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.misfit import farthest
from anglelib.inspection.reading_ids import chosen
from anglelib.inspection.verdict import judge
from anglelib.inspection.wanted import wanted_readings
from anglelib.job import Shop
from anglelib.lessons.own_readings import told
from anglelib.tolerances import Limits
from anglelib.workshop.check_parts import CheckedPart

SHOP = Shop()


def good_but(part, name: str, by: float) -> list[Reading]:
    """A good part read without error, but one number wrongly."""
    read = readings_of(Made.as_wanted(part))
    return [Reading(n, read[n] + (by if n == name else 0.0)) for n in chosen(part)]


@pytest.mark.parametrize("count", range(1, 11))
def test_the_limit_is_near_scipys_and_not_below_it(count):
    assert chi2.ppf(1 - 1e-4, count) <= farthest(count) <= 1.08 * chi2.ppf(1 - 1e-4, count)


@pytest.mark.parametrize(("id_", "name"), [("A3", "heel"), ("A3", "hole.2.x"), ("C1L", "heel")])
def test_one_number_an_inch_off_fits_nothing(id_, name):
    """No mistake moves one of two toes, or a hole by 1.1: whatever is nearest is not named, the number is to be read again."""
    part = counting.demo().part(id_)
    found = diagnose(part, SHOP, good_but(part, name, 1.1))
    assert found.misfit == name and found.sentence == found.doubt and "no known mistake" in found.doubt
    assert not any(cause.sentence in found.sentence for cause in found.causes)


def test_what_a_mistake_makes_fits_it():
    """A good part, an end cut short, two slips, a slight misreading: nothing is doubted."""
    part = counting.demo().part("A3")
    for by in (0.0, 0.04):
        assert diagnose(part, SHOP, good_but(part, "heel", by)).doubt == ""
    short = [Reading("heel", 17.25 - 1 / 16), Reading("toe.A", 17.25 - 1 / 16), Reading("toe.B", 17.25 - 1 / 16)]
    assert diagnose(part, SHOP, short).misfit == "" and diagnose(part, SHOP, short).causes[0].ids[0] == "M01"


def test_page_and_class_sheet_say_so_and_name_no_cause():
    part = counting.demo().part("E2L")
    read = good_but(part, "toe.B", 1.1)
    found, verdict = diagnose(part, SHOP, read), judge(part, read)
    lines = told(verdict, found, wanted_readings(part, Limits()))
    assert lines[-1] == found.doubt and not any("Cause" in line for line in lines)

    class Measured:
        """A made part as it was typed."""

    checked = CheckedPart(Measured(), verdict, found)
    assert checked.causes == () and checked.to_say == (found.doubt,)


def test_in_millimetres_it_names_the_reading_in_the_parts_own_words():
    from dataclasses import replace

    part = replace(counting.demo().part("A3"), unit="mm", mirror_of="")
    found = diagnose(part, SHOP, good_but(part, "hole.2.x", 1.1))
    assert "425.45" in found.doubt and '"' not in found.doubt


def averaged(value: float, mean: float, spread: float) -> float:
    """A normal density averaged over what its standard deviation may be, guessed as from so many parts: by scipy's integrator."""
    nu = likelihood.GUESSED

    def weighed(w: float) -> float:
        return gamma_of.pdf(w, nu / 2, scale=2 / nu) * norm.pdf(value, mean, spread / np.sqrt(w))

    edges = (0, 1e-4, 1e-3, 0.01, 0.1, 1, 10)
    return sum(quad(weighed, low, high)[0] for low, high in pairwise(edges))


@pytest.mark.parametrize("value", [17.2, 16.9])
def test_scores_are_normals_averaged_over_the_guess(value):
    """One reading: for each candidate the averaged normals, one reading in ten four times as wide; what they have in common left out."""
    part = counting.demo().part("A3")
    model = likelihood.model_of(part, SHOP, ("heel",), (0.005,), likelihood.Workmanship())
    alone, _ = model.scores((value,))
    work = likelihood.scatter(Made.as_wanted(part), ("heel",), likelihood.Workmanship())[0][0]
    places = [next(i for i, c in enumerate(model.candidates) if c.id == id_) for id_ in (GOOD, "M01", "M05")]
    expected = [
        np.log(
            model.candidates[i].share
            * sum(w * averaged(value, model.candidates[i].readings["heel"], (work + s * s) ** 0.5) for w, s in ((0.9, 0.005), (0.1, 0.02)))
        )
        for i in places
    ]
    for i, wanted in zip(places, expected):
        assert alone[i] - alone[places[0]] == pytest.approx(wanted - expected[0], abs=1e-6)
