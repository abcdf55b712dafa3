"""The search that tries everything against the planner, and against a count of all ways by itself."""

from itertools import product

import pytest

from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance, Size, Space
from anglelib.stock.levels import improve
from anglelib.stock.rules import RULES
from anglelib.stock.small import best_packing

SIZES = (Size(41), Size(27), Size(18), Size(6))
RACKS = (
    (Space(92, 0, full=True), Space(54, 1), Space(38, 2), Space(32, 3)),
    (Space(60, 0), Space(45, 0, facing=1), Space(30, 1, unsawn=True)),
    (Space(40, 0, unsawn=True), Space(40, 1), Space(18, 2)),
)
CLAIMS = ((0, 1, 1, 2, 3), (0, 0, 2, 2), (1, 2, 3, 3), (0, 1, 2, 2, 3))


def instances():
    for rack, claims in product(RACKS, CLAIMS):
        yield Instance(SIZES, rack, claims, kerf=1, grain=1, minimum=3)
    yield Instance((Size(41, 1), Size(27)), RACKS[0], (0, 1, 1), kerf=1, grain=4, minimum=3)  # one is pinned to its stick


def every_score(instance):
    """The scores of all ways to send each blank to a space or nowhere, one blank after another."""
    places = [*range(len(instance.spaces)), None]
    for way in product(places, repeat=len(instance.claims)):
        packing = tuple(
            tuple(sum(1 for size, to in zip(instance.claims, way) if to == n and size == s) for s in range(len(instance.sizes)))
            for n in range(len(instance.spaces))
        )
        if all(instance.fits(pattern, space) for pattern, space in zip(packing, instance.spaces)):
            yield instance.score(packing)


@pytest.mark.parametrize(
    "instance", list(instances()), ids=lambda instance: f"{len(instance.spaces)}-{len(instance.claims)}-{instance.spaces[0].length}"
)
def test_nothing_is_better(instance):
    found = instance.score(best_packing(instance))
    assert found == max(every_score(instance))
    outcome = improve(instance, [rule.pack(instance) for rule in RULES], Effort(5))
    assert instance.score(outcome.packing) == found and outcome.settled == {1, 2, 3, 4}
