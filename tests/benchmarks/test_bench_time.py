"""The builder's bench after a slider's move: every row, picture and difference in less time than the part's fold sheets take.

The fold sheets are what the bench draws only when it is asked for. The processor's time, as a ratio: machines differ.
"""

import statistics
import time
from fractions import Fraction

import pytest

from anglelib.lessons.bench_views import VIEWS, templates
from anglelib.lessons.builders_bench import Bench


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
