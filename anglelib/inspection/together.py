"""Mistakes that no single part shows: a batch chained on one stick without kerf (M06), a pair of one hand (M26).

>>> from fractions import Fraction
>>> [str(length) for length in chained(Fraction(4), 4, Fraction(1, 16))]
['127/32', '63/16', '63/16', '127/32']
>>> batch_causes([3.970, 3.937, 3.939, 3.968], 4, Shop())[0].ids
('M06',)
>>> batch_causes([3.969, 3.968], 4, Shop())[0].ids
('M02', 'M06')
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import exp, fsum, isfinite, sqrt

from anglelib.errors import PartError
from anglelib.inspection.diagnosis import Cause
from anglelib.inspection.likelihood import APART, CALIPER, GOOD, Workmanship
from anglelib.job import Shop
from anglelib.lengths import inches


def chained(length: Fraction, count: int, kerf: Fraction) -> tuple[Fraction, ...]:
    """Lengths of the pieces of a batch marked end to end with no kerf between, each line split by the saw [in].

    The first piece begins at the stick's clean end and the last ends at its other one: each loses half
    a kerf, the pieces between a whole one.
    """
    if count < 2:
        return (length,) * count
    return (length - kerf / 2, *([length - kerf] * (count - 2)), length - kerf / 2)


def batch_causes(
    lengths: Sequence[float],
    wanted: Fraction | int | str,
    shop: Shop,
    uncertainty: float = CALIPER,
    workmanship: Workmanship = Workmanship(),
) -> tuple[Cause, ...]:
    """What the lengths of a batch, in the order of cutting [in], point to: the likeliest first.

    All as wanted, all a kerf or half a kerf short (M01, M02), or chained without kerf (M06); causes
    that these lengths cannot part are one.
    """
    length = inches(wanted, "length of the part", zero=False)
    if len(lengths) < 2:
        raise PartError("A batch has two pieces or more: for one piece, diagnose its readings.")
    if not all(isfinite(value) for value in lengths) or not uncertainty > 0:
        raise PartError("A length of the batch is not a number with an uncertainty above 0: measure it again.")
    count, spread = len(lengths), sqrt(uncertainty**2 + workmanship.length**2)
    ways = {
        GOOD: [length] * count,
        "M01": [length - shop.kerf] * count,
        "M02": [length - shop.kerf / 2] * count,
        "M06": chained(length, count, shop.kerf),
    }
    logs = {
        id_: -fsum(((value - float(made)) / spread) ** 2 for value, made in zip(lengths, way, strict=True)) / 2
        for id_, way in ways.items()
    }
    top = max(logs.values())
    total = fsum(exp(v - top) for v in logs.values())
    groups: list[list[str]] = []
    for id_ in sorted(logs, key=lambda id_: (-logs[id_], id_)):
        for group in groups:
            gap = sqrt(fsum(float(a - b) ** 2 for a, b in zip(ways[id_], ways[group[0]], strict=True))) / spread
            if gap < APART:
                group.append(id_)
                break
        else:
            groups.append([id_])
    causes = [Cause(tuple(group), fsum(exp(logs[i] - top) for i in group) / total, "") for group in groups]
    return tuple(sorted(causes, key=lambda cause: -cause.probability))


def made_alike(one: Mapping[str, float], two: Mapping[str, float], tolerance: float) -> bool:
    """Whether two finished parts agree in every reading that both have, within a tolerance [in].

    For a left and a right part, which should mirror, agreeing is the mistake M26.
    """
    return all(abs(one[name] - two[name]) <= tolerance for name in one.keys() & two.keys())
