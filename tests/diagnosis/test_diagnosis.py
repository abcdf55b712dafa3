"""The diagnosis against parts off the bench, and against the best that any method could make of the same readings.

Two mistakes are alike for a part when some case of the other lies within 3.3 standard deviations of
its readings: an even choice between the two would be wrong more than once in twenty. The bench
decides which are, from the metal it cut; the library is not asked.
"""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from random import Random

import bench_slips as bench
import best_method
import diagnosis_count as counting
import pytest
from sawn_metal import as_drawn, measure

from anglelib.drawing.mpl import png_fingerprint
from anglelib.drawing.svg import fingerprint
from anglelib.errors import PartError
from anglelib.inspection.diagnosis import GOOD, Reading, diagnose
from anglelib.inspection.likelihood import alike
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.mistakes import MISTAKES
from anglelib.inspection.reading_ids import chosen
from anglelib.inspection.slips import Case
from anglelib.inspection.together import batch_causes, chained, made_alike
from anglelib.job import Shop
from anglelib.part import Part, Taper
from anglelib.section import Section

HERE = Path(__file__).parent
STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
CLEAT = Part("A1L", "Cleat", STOCK, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
SHOP = Shop()


def one_slip(outcomes):
    return [o for o in outcomes if len(o.ids) == 1]


@pytest.fixture(scope="module")
def few():
    return counting.count(150, "normal", seed=5, kinds=2)


# --- the counts --------------------------------------------------------------------------------------------
def test_few_parts_with_normal_readings(few):
    """150 parts: three parts more or less are the play of the draw."""
    rates = counting.rates(few)
    assert rates["shares class"] >= 93
    assert rates["shares class"] >= rates["best class"] - 2
    assert rates["shares id"] >= rates["best id"] - 4
    assert rates["shares three"] >= 97


def test_the_best_method_is_no_worse_than_blind_and_the_classes_are_not_everything(few):
    """The yardstick itself: by chance one mistake in twenty is named, and a class holds a fifth of them."""
    rates = counting.rates(few)
    assert rates["best id"] > 60 and rates["size"] < 8
    rng = Random(1)
    blind = sum(rng.choice(sorted(o.shares)) in o.alike for o in few) / len(few)
    assert blind < 0.35


def right(outcomes) -> float:
    """How often the class named first holds what befell the part."""
    return sum(any(id_ in o.named[0] for id_ in o.ids) for o in outcomes) / len(outcomes)


def test_sure_when_it_says_so(few):
    sure = [o for o in few if not o.cannot_tell]
    assert len(few) > len(sure) > len(few) / 2 and right(sure) > 0.85
    assert abs(right(sure) - sum(o.probabilities[0] for o in sure) / len(sure)) < 0.08  # as often as it says


@pytest.mark.slow
@pytest.mark.parametrize("run", sorted(counting.RUNS))
def test_two_thousand_parts(run):
    """Within two points of the best method on the same readings; normal readings of single slips: 95 % first-right by class."""
    _, tails, habit = counting.RUNS[run]
    outcomes = counting.count(2000, tails, habit=habit)
    rates = counting.rates(one_slip(outcomes))
    assert rates["shares class"] >= rates["best class"] - 2
    assert rates["shares three"] >= rates["best three"] - 2
    assert rates["shares id"] >= rates["best id"] - (2 if habit == bench.USUAL else 5)
    if run == "normal":
        assert rates["shares class"] >= 95
    sure, unsure = ([o for o in outcomes if o.cannot_tell is not told] for told in (True, False))
    assert right(unsure) < right(sure) - 0.05  # less often right when it cannot tell: some eighty parts
    two = counting.rates([o for o in outcomes if len(o.ids) == 2])
    assert two["shares class"] >= two["best class"] - 5  # some 180 parts: five points are two standard deviations
    for predicted, observed, number in counting.calibration(outcomes):
        # On another bench, where work scatters half as much again as the builder says, it is too sure of itself.
        if number >= 100:
            assert abs(predicted - observed) < (0.15 if habit == bench.USUAL else 0.25), (predicted, observed, number)


def test_the_figure_is_drawn_from_the_results_on_record():
    for name, sheet in counting.figures().items():
        assert png_fingerprint(counting.PROJECT / "figures" / name) == fingerprint(sheet), f"{name} is old: python -m tests.refresh"


def test_results_on_record_are_of_the_size_they_say():
    text = (HERE / "results.md").read_text(encoding="utf-8")
    rows = (HERE / "reliability.csv").read_text(encoding="utf-8").splitlines()
    assert rows[0] == "run,predicted,observed,number" and {row.split(",")[0] for row in rows[1:]} == set(counting.RUNS)
    assert text.count("## 2,000 parts") == len(counting.RUNS)


def test_student_as_two_normals():
    assert best_method.worst_gap() < 0.015


# --- what it says ------------------------------------------------------------------------------------------
def readings(part: Part, work, names=None, by: float = 0.0) -> list[Reading]:
    names = names or chosen(part)
    return [Reading(name, value + by) for name, value in zip(names, measure(work, tuple(names)))]


@pytest.mark.parametrize("id_", ["M01", "M05", "M07", "M09", "M10", "M11", "M13", "M16", "M17", "M19", "M20", "M22", "M23", "M27"])
def test_a_clear_slip_without_scatter_is_named(id_):
    """E2L has everything: a taper, two holes in each leg. Its middle case of each mistake, read without error."""
    part = counting.demo().part("E2L")
    ways = bench.slips(part, 1 / 16, 1 / 32)[id_]
    found = diagnose(part, SHOP, readings(part, ways[0].make(0.8)))
    assert id_ in found.causes[0].ids, found.causes[:3]


def test_a_good_part_is_a_hypothesis_too():
    part = counting.demo().part("E2L")
    found = diagnose(part, SHOP, readings(part, as_drawn(part)))
    assert found.causes[0].ids[0] == GOOD and {"M24", "M25"} <= set(found.causes[0].ids)
    assert found.next_reading and found.next_reading not in chosen(part)
    # Everything read but the weight: the weight is what parts a good part from another alloy.
    bar = counting.demo().part("A3")
    names = tuple(n for n in readings_of(Made.as_wanted(bar)) if n != "weight")
    assert diagnose(bar, SHOP, readings(bar, as_drawn(bar), names)).next_reading == "weight"


def test_two_slips_are_named_together():
    part = counting.demo().part("E2L")
    ways = bench.slips(part, 1 / 16, 1 / 32)
    wanted = as_drawn(part)
    both = bench.both(wanted, ways["M20"][0].make(0.5), ways["M17"][-1].make(0.5))  # all holes from the wrong end
    for slips, work in ((2, both), (1, ways["M20"][0].make(0.5))):
        cause = diagnose(part, SHOP, readings(part, work)).causes[0]
        assert bool(cause.second) == (slips == 2)
    cause = diagnose(part, SHOP, readings(part, both)).causes[0]
    assert {"M20", "M17"} <= {*cause.ids, *cause.second} and "two slips together" in cause.sentence


def test_one_misread_caliper_does_not_decide():
    """A good part whose leg is read 0.04 too thick: no mistake makes that; a slip of the caliper does."""
    part = counting.demo().part("A3")
    read = readings(part, as_drawn(part))
    odd = [Reading(r.id, r.value + 0.04) if r.id == "heel" else r for r in read]
    assert odd != read and diagnose(part, SHOP, odd).causes[0].ids[0] in (GOOD, "M24")


def test_alike_is_stated_and_does_not_depend_on_the_order():
    job = counting.demo()
    for part in (job.part("A3"), job.part("D1")):
        names = chosen(part)
        stated = alike(part, SHOP, names)
        assert {"M24", GOOD} <= set(stated) and "M24" in stated[GOOD] and GOOD in stated["M24"]
        assert stated == alike(part, SHOP, tuple(reversed(names)))
        assert all(id_ not in of for id_, of in stated.items())
    # Without allowance at one end, and the line split by a kerf of 1/16: half of it is the same 1/32.
    assert "M04" in alike(job.part("A3"), SHOP, ("heel",))["M02"]
    # A sharper reading and better work part more.
    fine = alike(job.part("A3"), SHOP, ("heel",), (0.0005,), counting.Workmanship(length=0.0005, square=0.0002))
    assert len(fine["M01"]) < len(alike(job.part("A3"), SHOP, ("heel",))["M01"])


def test_alike_as_the_bench_sees_it():
    """What the library says cannot be parted, the bench cannot part: a mistake's ways mostly lie within reach of the other."""
    part = counting.demo().part("E2L")
    names = chosen(part)
    ways = bench.slips(part, 1 / 16, 1 / 32)
    best = best_method.Best(part, names, ways)
    work = counting.Workmanship(length=0.008, taper=0.010, hole=0.008, square=0.006, width=0.003, lean=0.005)
    stated = alike(part, SHOP, names, tuple(bench.spreads(measure(as_drawn(part), names))), work)
    rng = Random(4)
    agree = total = 0
    for id_ in ("M01", "M02", "M04", "M13", "M17", "M20", "M24", GOOD):
        seen: dict[str, int] = {}
        for _ in range(12):
            for other in best.alike([bench.drawn(rng, ways[id_])]) - {id_}:
                seen[other] = seen.get(other, 0) + 1
        for other in set(ways) - {id_}:
            if seen.get(other, 0) in (0, 12):  # certain on the bench
                total += 1
                agree += (other in stated[id_]) == (seen.get(other, 0) == 12)
    assert total > 100 and agree / total > 0.97


def test_the_next_reading_parts_the_leaders():
    """From the length alone, an end dressed after layout and an end cut short look the same; the holes tell."""
    part = counting.demo().part("A3")
    found = diagnose(part, SHOP, [Reading("heel", 17.25 - 1 / 16)])
    assert {"M01", "M16"} <= set(found.causes[0].ids)
    # M01 and M04 make one and the same part; the likeliest that differs from them is told by a hole.
    assert found.next_reading.startswith("hole")
    ways = bench.slips(part, 1 / 16, 1 / 32)
    # On the bench: of all readings not yet taken, none parts M01 from M16 (dressed by 1/16) better than a hole's x does.
    names = tuple(n for n in readings_of(Made.as_wanted(part)) if n not in ("weight", "heel"))
    cut, dressed = (measure(work, names) for work in (ways["M01"][0].make(0.5), ways["M16"][0].make(0.2)))
    gaps = {n: abs(a - b) for n, a, b in zip(names, cut, dressed)}
    assert max(gaps, key=gaps.__getitem__).startswith("hole")
    second = diagnose(part, SHOP, [Reading("heel", 17.25 - 1 / 16), Reading("hole.1.x", 0.5 - 1 / 16)])
    assert second.causes[0].ids[0] == "M16" and "M01" not in second.causes[0].ids


def test_says_that_it_cannot_tell():
    """From the heel's length alone, all the way from short to long: it says so just where no cause leads by three to one."""
    said = set()
    part = counting.demo().part("A3")
    for found in (diagnose(part, SHOP, [Reading("heel", 17.25 + v / 100)]) for v in range(-30, 31, 3)):
        one, two = found.causes[0], found.causes[1] if len(found.causes) > 1 else None
        said.add(found.cannot_tell)
        if two is not None and one.probability < 3 * two.probability:
            assert found.sentence.startswith("These readings cannot tell: ")
        else:
            assert found.sentence == one.sentence
    assert said == {True, False}
    # Where hole 1 was drilled a sixteenth off in x and in nothing else: a misreading, never a leg or a hand.
    lone = diagnose(part, SHOP, [*readings(part, as_drawn(part))[:-2], Reading("hole.1.x", 9 / 16)])
    assert lone.causes[0].ids[0] in ("M08", "M18") and "M09" not in lone.causes[0].ids


def test_probabilities_are_probabilities(few):
    for o in few:
        assert sum(o.probabilities) <= 1 + 1e-9 and all(a >= b for a, b in pairwise(o.probabilities))
        assert all(-1e-9 <= v <= 1 + 1e-9 for v in o.shares.values())


def test_a_prior_weighs_and_a_zero_rules_out():
    part = counting.demo().part("A3")
    read = [Reading("heel", 17.25 - 1 / 32)]
    plain = diagnose(part, SHOP, read)
    weighed = diagnose(part, SHOP, read, prior={"M02": 20.0})
    assert weighed.causes[0].ids[0] == "M02" and weighed.shares["M02"] > 2 * plain.shares["M02"]
    assert diagnose(part, SHOP, read, prior={"M02": 0.0}).shares["M02"] == 0
    with pytest.raises(PartError, match="weight above 0"):
        diagnose(part, SHOP, read, prior=dict.fromkeys([*MISTAKES, GOOD], 0.0))


@pytest.mark.parametrize(
    ("read", "words"),
    [
        ([], "measure the length at the heel first"),
        ([Reading("shoe size", 9)], "is no reading of part A1L"),
        ([Reading("heel", float("nan"))], "measure it again"),
        ([Reading("heel", 2.1, 0.0)], "measure it again"),
        ([Reading("heel", 2.1), Reading("heel", 2.2)], "There are two readings"),
    ],
)
def test_refusals(read, words):
    with pytest.raises(PartError, match=words):
        diagnose(CLEAT, SHOP, read)


def test_never_says_you_did():
    for mistake in MISTAKES.values():
        assert " you " not in f" {mistake.sentence.lower()} " or mistake.id == ""


# --- a batch and a pair ------------------------------------------------------------------------------------
def sawn_chain(length: float, count: int, kerf: float) -> list[float]:
    """A stick sawn at its lines: each kerf is a stretch of the stick that is gone; what stands between is a piece."""
    gone = [(i * length - kerf / 2, i * length + kerf / 2) for i in range(1, count)]
    edges = [0.0, *(x for band in gone for x in band), count * length]
    return [b - a for a, b in zip(edges[::2], edges[1::2])]


@pytest.mark.parametrize("count", [2, 3, 5, 12])
def test_m06_a_chained_batch(count):
    pieces = sawn_chain(4.0, count, 1 / 16)
    assert [float(v) for v in chained(4, count, SHOP.kerf)] == pytest.approx(pieces)
    exact = batch_causes(pieces, 4, SHOP)[0]
    assert "M06" in exact.ids and ("M02" in exact.ids) == (count == 2)  # two pieces lose half a kerf each, either way
    rng = Random(count)
    read = [[v + rng.gauss(0, 0.009) for v in pieces] for _ in range(40)]
    assert sum("M06" in batch_causes(lengths, 4, SHOP)[0].ids for lengths in read) >= 34
    for id_, lost in ((GOOD, 0.0), ("M01", 1 / 16), ("M02", 1 / 32)):
        if count > 3:
            assert batch_causes([4 - lost] * count, 4, SHOP)[0].ids == (id_,)


def test_m06_naive_every_piece_a_kerf_short_is_not_a_chain():
    assert [float(v) for v in chained(4, 4, SHOP.kerf)] != pytest.approx([4 - 1 / 16] * 4)
    assert sum(chained(4, 5, SHOP.kerf)) == 5 * 4 - 4 * SHOP.kerf  # four cuts, four kerfs


def test_batch_refusals():
    with pytest.raises(PartError, match="two pieces"):
        batch_causes([4.0], 4, SHOP)
    with pytest.raises(PartError, match="measure it again"):
        batch_causes([4.0, float("inf")], 4, SHOP)


@pytest.mark.parametrize("id_", ["A1L", "A2L", "A6L", "C1L", "D2L", "E2L"])
def test_m26_a_pair_of_one_hand(id_):
    """Left and right off the bench mirror each other; two lefts agree where they should mirror."""
    job, rng = counting.demo(), Random(2)
    left, right = job.part(id_), job.part(id_[:-1] + "R")
    names = tuple(f"width.{leg}.{end}" for leg in "AB" for end in (1, 2))

    def off_the_bench(part):
        work = bench.scattered(as_drawn(part), rng)
        return dict(zip(names, measure(work, names)))

    for _ in range(10):
        assert made_alike(off_the_bench(left), off_the_bench(left), 1 / 16)
        assert not made_alike(off_the_bench(left), off_the_bench(right), 1 / 16)


def test_a_case_has_a_weight_and_every_mistake_its_sentence():
    assert Case("", Made.as_wanted(CLEAT)).weight == 1.0
    assert list(MISTAKES) == [f"M{n:02}" for n in range(1, 28)]
    assert {m.id for m in MISTAKES.values() if "P" not in m.kinds} == {"M06", "M26"}
