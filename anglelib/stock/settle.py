"""The levels of one section settled: by the solver, or, where there is none, by trying everything.

In a browser or on an old computer the solver may be missing. A small rack needs none: then every
packing is tried, which proves all levels. A larger one is refused, in words.
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.errors import PlanError
from anglelib.stock.effort import Effort
from anglelib.stock.instance import Instance, Packing
from anglelib.stock.levels import improve, settle_claims
from anglelib.stock.outcome import Outcome
from anglelib.stock.small import MOST, best_packing


def settle(instance: Instance, start: Sequence[Packing], effort: Effort, levels: int = 4) -> Outcome:
    """The best packing there is, from the best of some packings on, and what is proven of it.

    Raises :class:`~anglelib.errors.PlanError` where there is no solver and too much to try.
    """
    try:
        return improve(instance, start, effort, levels)
    except ImportError:
        if len(instance.claims) > MOST:
            raise PlanError(
                f"The solver (ortools) is not in this Python, and {len(instance.claims)} blanks of one section are too many to try "
                f"every way: at most {MOST}. Install the project's requirements, or plan fewer parts at a time."
            ) from None
        return tried(instance)


def tried(instance: Instance) -> Outcome:
    """Every packing tried: all levels are proven.

    >>> from anglelib.stock.instance import Size, Space
    >>> found = tried(Instance((Size(28),), (Space(96, 0), Space(30, 1)), (0,), kerf=1, grain=1, minimum=0))
    >>> found.packing, found.left, sorted(found.settled)
    (((0,), (1,)), [(96, 96), (2, 2)], [1, 2, 3, 4])
    """
    packing = best_packing(instance)
    outcome = Outcome(packing, instance.output(packing), ruled_out=set(instance.claims), fewest_cuts=True)
    settle_claims(instance, outcome)
    outcome.left = [(piece, piece) for piece in instance.left(packing)]
    outcome.settled = {1, 2, 3, 4}
    return outcome
