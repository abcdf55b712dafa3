"""The diagnosis on a bench that the library does not know: heavy tails, drift, habits, other amounts, rare parts, all at once.

Quick tests hold a floor on few parts; the full counts are slow. What is strange is shown to be so, and the tables to be the counted ones.
"""

from __future__ import annotations

import csv
import re
from dataclasses import replace
from random import Random

import bench_slips as bench
import pytest
import strange_bench as strange
import strange_count as counting
from sawn_metal import as_drawn, measure
from strange_parts import KINDS, rare_parts

from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.reading_ids import chosen

KERF, ALLOWANCE = 1 / 16, 1 / 32


# --- the floor ---------------------------------------------------------------------------------------------
FLOOR = {"spoiled": (24, 90), "rare parts": (16, 90), "all": (30, 60)}
"""Parts, and how many of a hundred must be right by class at least: well below the full counts, for so few are drawn."""


@pytest.mark.parametrize("run", sorted(FLOOR))
def test_few_strange_parts(run):
    parts, floor = FLOOR[run]
    outcomes = counting.count(run, parts, seed=3, kinds=1, best=False)
    assert counting.rates(outcomes)["class"] >= floor
    assert counting.rates(outcomes)["three"] >= floor


LEAST = {"student": 78, "small": 68, "large": 58, "millimetres": 85, "all": 62}
"""Right by class of a hundred in the full counts, at least; 90 in all others."""


@pytest.mark.slow
@pytest.mark.parametrize("run", sorted(strange.RUNS))
def test_full_count(run):
    """Never far below what the bench itself could tell, and sure of itself within three in ten: on amounts larger than it knows it is the worst."""
    outcomes = counting.count(run, counting.FULL)
    ours, sure = counting.rates(outcomes), counting.calibration(outcomes)
    assert ours["class"] >= LEAST.get(run, 90)
    if outcomes[0].best and run not in ("small", "large"):
        assert ours["class"] >= counting.rates(outcomes, "best")["class"] - 8
    assert sure["said"] - sure["right"] < 30 and sure["error"] < 16
    assert run != "even" or (sure["said"] - sure["right"] < 8 and sure["nothing"] < 4)


# --- what is strange ---------------------------------------------------------------------------------------
def kind(run: str, part=None) -> strange.Kind:
    part = part or counting.counting.demo().part("E2L")
    return strange.kind_of(Random(7), part, chosen(part), strange.RUNS[run], KERF, ALLOWANCE)


def test_tails_are_as_heavy_as_they_say():
    """Beyond three standard deviations: 0.27 % of a normal; 1 in 20 of them at three times, 1.8 %; of Student's t with 2 degrees, 9.5 %."""
    rng, n = Random(5), 20000
    for tails, share in ((strange.NORMAL, 0.0027), (strange.SPOILED, 0.0184), (strange.STUDENT, 0.0955)):
        beyond = sum(abs(tails.width(rng) * rng.gauss(0, 1)) > 3 for _ in range(n)) / n
        assert beyond == pytest.approx(share, abs=4 * (share / n) ** 0.5)


def test_what_drifts_goes_one_way():
    """A good part of 17 1/4 read without error: the last of a batch longer than the first, long readings too long, short ones off zero."""
    bar = counting.counting.demo().part("A3")
    quiet = {name: 0.0 for name in bench.SCATTER}
    for run, drift in (("stop", strange.Drift(stop=0.03)), ("rule", strange.Drift(worn=0.03)), ("caliper", strange.Drift(zero=0.01))):
        it = replace(strange.RUNS[run], drift=drift, good=1.0)
        made = strange.kind_of(Random(7), bar, ("heel", "width.A.1"), it, KERF, ALLOWANCE)
        plain = measure(as_drawn(bar), made.names)
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(bench, "SCATTER", quiet)
            patch.setattr(strange, "TRADE_LAYOUT", 0.0)
            patch.setattr(strange, "spreads", lambda names, wanted: [0.0] * len(names))
            first, last = (strange.trial(Random(1), made, it, n).values for n in (0, strange.BATCH - 1))
        off = [(f - p, s - p) for f, s, p in zip(first, last, plain)]
        assert off[0] == pytest.approx({"stop": (0, 0.03), "rule": (made.short,) * 2, "caliper": (0, 0)}[run], abs=1e-9)
        assert off[1] == pytest.approx({"stop": (0, 0), "rule": (0, 0), "caliper": (made.zero,) * 2}[run], abs=1e-9)
        assert run != "rule" or 0 < made.short <= 0.03
        assert run != "caliper" or abs(made.zero) > 1e-3


def test_a_worker_has_habits():
    """Three slips make four fifths of the mistakes, always of one sign; told or not."""
    made, it = kind("habit"), strange.RUNS["habit"]
    rng, found = Random(2), {}
    for n in range(600):
        for id_ in strange.trial(rng, made, it, n).ids[:1]:
            found[id_] = found.get(id_, 0) + 1
    slips = sorted((id_ for id_ in found if id_ != bench.GOOD), key=found.__getitem__)
    assert found[bench.GOOD] == pytest.approx(420, abs=45)
    assert sum(found[id_] for id_ in slips[-3:]) / sum(found[id_] for id_ in slips) > 0.7
    amounts = [made.worker.amounts.drawn(rng) for _ in range(50)]
    assert len({sign for sign, _ in amounts}) == 1 and max(share for _, share in amounts) - min(share for _, share in amounts) < 0.11


def test_amounts_lie_where_they_say():
    """M16 dresses the end by 1/32 to 3/16; small: mostly below a twelfth; large: above 3/16."""
    made = kind("even").ways["M16"][0]
    rng = Random(4)
    small, large = ([made.make(strange.RUNS[run].amounts.drawn(rng)).first for _ in range(400)] for run in ("small", "large"))
    assert 0.007 < min(small) < 0.012 and sorted(small)[200] < 1 / 12 and max(small) <= 3 / 16
    assert min(large) >= 3 / 16 and max(large) > 0.33
    twist = next(way for way in kind("even").ways["M14"] if way.free)
    turned = [twist.make(strange.RUNS["large"].amounts.drawn(rng)).lines[0].turned for _ in range(50)]
    assert min(turned) < -6 and max(turned) > 6 and min(map(abs, turned)) >= 6


def test_rare_parts_read_alike_by_the_library_and_on_the_metal():
    """As drawn: every reading that a card asks for, of all kinds of rare part, in both units, left and right."""
    parts = rare_parts(Random(1), 40, ("in", "mm"))
    assert {part.unit for part in parts} == {"in", "mm"} and len(KINDS) == 4
    assert sum(len({t.end for t in part.tapers}) < len(part.tapers) for part in parts) >= 8
    assert sum(bool(part.copes) for part in parts) >= 8 and sum(bool(part.corners) for part in parts) >= 8
    for part in parts:
        names = chosen(part)
        there = readings_of(Made.as_wanted(part))
        assert measure(as_drawn(part), names) == pytest.approx([there[name] for name in names], abs=1e-9), part


def test_the_best_method_knows_the_bench():
    """It is told each worker's habits: on few parts it names the very mistake no more seldom than the library."""
    outcomes = counting.count("no good parts", 36, seed=5, kinds=1)
    best, ours = counting.rates(outcomes, "best"), counting.rates(outcomes)
    assert best["id"] >= ours["id"] and best["class"] >= 90


# --- the count -----------------------------------------------------------------------------------------------
def test_calibration_by_hand():
    """Ten causes said with 80 %, of which six are right: off by 20; squares 6 x 0.04 and 4 x 0.64."""
    outcomes = [
        counting.Outcome(("M01",), frozenset({"M01"}), {"M01": 0.8}, {}, ((("M01" if n < 6 else "M02", "M09"), ()),), (0.8,), True) for n in range(10)
    ]
    found = counting.calibration(outcomes)
    assert found["error"] == pytest.approx(20) and found["brier"] == pytest.approx(0.28)
    assert (found["sure"], found["said"], found["right"]) == pytest.approx((100, 80, 60))
    assert counting.worst(outcomes) == ("M01", 100.0, 10)


def test_a_cause_is_right_where_it_is_just_what_befell():
    """One slip named for two, or two for one, is not what befell the part."""
    named = ((("M01",), ()), (("M01", "M04"), ("M22",)), (("M22",), ("M04", "M01")))
    one, two = (counting.Outcome(ids, frozenset(ids), {}, {}, named, (0.5, 0.3, 0.1), True) for ids in (("M01",), ("M22", "M04")))
    assert [one.right(i) for i in range(3)] == [True, False, False]
    assert [two.right(i) for i in range(3)] == [False, True, True]


def test_tables_on_record_are_of_these_runs():
    text = counting.TABLE.read_text(encoding="utf-8").split(counting.BELOW)[1]
    number = int(re.search(r"(\d+) parts in a run", text)[1])
    assert number >= 100
    for name, it in strange.RUNS.items():
        assert f"## {name}: {it.words}" in text and f"| {name} | {number} |" in text
    rows = list(csv.DictReader(counting.CURVE.read_text(encoding="utf-8").splitlines()))
    assert list(dict.fromkeys(row["run"] for row in rows)) == list(strange.RUNS)
    assert all(int(row["number"]) > 0 and 0 <= float(row["right"]) <= 1 for row in rows)
