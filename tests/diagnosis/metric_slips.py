"""The bench: how numbers go wrong where the drawing and the rule are in millimetres.

A metric rule has no sixteenths and nothing is halved: one is a millimetre out, or two, or five from the middle line, or a whole
centimetre; the rule is begun at its 1 cm mark; and where another unit is read, it is a sixteenth for a millimetre.
"""

from __future__ import annotations

from dataclasses import replace

import bench_slips as bench
from bench_slips import Way
from sawn_metal import Work

MM = 5 / 127
START, RATIO = 10 * MM, 25.4 / 16


def misread(value: float) -> list[tuple[float, float]]:
    """What a number of millimetres is taken for, and how often: the weights are chosen."""
    return [(value + sign * n * MM, weight) for n, weight in ((1, 1.0), (2, 0.5), (5, 0.7), (10, 1.0)) for sign in (1, -1)]


def metric_ways(work: Work) -> dict[str, list[Way]]:
    """M07, M08 and M27 on a part without copes and corners, in place of those with inches."""
    ways: dict[str, list[Way]] = {"M07": [], "M27": [], "M08": []}
    for by in (-START, START):
        ways["M07"] += bench._ends(1, "length", work, -by)
        ways["M07"] += [Way(1, "run", lambda u, i=i, v=line.run + by: bench._line(work, i, run=v)) for i, line in enumerate(work.lines)]
        every = {i: replace(d, x=d.x + by) for i, d in enumerate(work.dots)}
        ways["M07"] += [Way(1, "all holes", lambda u, e=every: bench._dots(work, e))] if every else []
    ways["M27"] += bench._ends(1, "length", work, work.last * (1 - RATIO))
    ways["M27"] += [Way(1, "run", lambda u, i=i, v=line.run * RATIO: bench._line(work, i, run=v)) for i, line in enumerate(work.lines)]
    if work.dots:
        every = {i: replace(d, x=d.x * RATIO) for i, d in enumerate(work.dots)}
        ways["M27"].append(Way(1, "holes", lambda u: bench._dots(work, every)))
    ways["M08"] = bench._changes_of(work, misread)
    return ways
