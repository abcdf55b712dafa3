"""The builder's bench after a slider's move: every row, picture and difference in less time than the part's fold sheets take.

The fold sheets are what the bench draws only when it is asked for. The processor's time, as a ratio: machines differ.
"""

import statistics
import time
from fractions import Fraction

import pytest

from anglelib.lessons.bench_views import VIEWS, templates
from anglelib.lessons.builders_bench import Bench
from anglelib.lessons.unit_switch import UNIT


def timed(do) -> float:
    start = time.process_time()
    do()
    return time.process_time() - start


@pytest.mark.parametrize("view", VIEWS)
def test_a_move_costs_less_than_the_fold_sheets(view):
    bench = Bench()
    bench.view.value = view
    moves, sheets = [], []
    for n in range(16):
        run = Fraction(3, 2) + Fraction(n, 16)
        moves.append(timed(lambda run=run: setattr(bench.own.controls["run"], "value", run)))
        sheets.append(timed(lambda: templates(bench.part, bench.shop)))
    assert statistics.median(moves) < statistics.median(sheets), f"{statistics.median(moves) * 1000:.1f} ms"


def test_a_move_is_as_quick_in_millimetres():
    """The middle of many moves, against the same part's in inches, taking turns; a unit costs no more than noise."""
    benches, moves = {}, {"in": [], "mm": []}
    for unit in moves:
        benches[unit] = Bench()
        benches[unit].own.controls[UNIT].value = unit
    for place in range(8, 40):
        for unit, bench in benches.items():
            moves[unit].append(timed(lambda bench=bench, place=place: setattr(bench.own.controls["run"].slider, "value", place)))
    took = {unit: statistics.median(row) for unit, row in moves.items()}
    assert took["mm"] < 1.6 * took["in"], took
