"""The best plan of a small rack by trying everything: exact, and without a solver.

For a handful of blanks, as on a table in a class, or where no solver is at hand. Every blank goes to
every stick or nowhere; what is best is what :class:`~anglelib.stock.instance.Score` says.

>>> from anglelib.stock.instance import Size, Space
>>> rack = (Space(96, 0), Space(30, 1))
>>> best_packing(Instance((Size(28),), rack, (0,), kerf=1, grain=1, minimum=0))
((0,), (1,))
>>> best_packing(Instance((Size(2),), rack, (0,) * 40, kerf=1, grain=1, minimum=0))
Traceback (most recent call last):
    ...
anglelib.errors.PlanError: 40 blanks are too many to try everything: at most 9. Use the planner.
"""

from __future__ import annotations

from anglelib.errors import PlanError
from anglelib.stock.instance import Instance, Packing

MOST = 9
"""How many blanks are tried at most; in a stick more or less it grows by a factor for each."""


def best_packing(instance: Instance) -> Packing:
    """The best packing there is; of equals the one that fills the first places.

    Raises :class:`~anglelib.errors.PlanError` where there are more blanks than can be tried.
    """
    claims = instance.claims
    if len(claims) > MOST:
        raise PlanError(f"{len(claims)} blanks are too many to try everything: at most {MOST}. Use the planner.")
    order = sorted(range(len(claims)), key=lambda n: (-instance.sizes[claims[n]].width, claims[n]))
    rooms = [instance.capacity(space) for space in instance.spaces]
    counts = [[0] * len(instance.sizes) for _ in instance.spaces]
    seen: set[tuple] = set()
    best: list = []

    def place(step: int) -> None:
        state = (step, tuple(map(tuple, counts)))
        if state in seen:
            return
        seen.add(state)
        if step == len(order):
            packing = tuple(tuple(pattern) for pattern in counts)
            score = (instance.score(packing), packing)
            if not best or score > best[0]:
                best[:] = [score]
            return
        size = claims[order[step]]
        width = instance.sizes[size].width
        for n, space in enumerate(instance.spaces):
            if instance.sizes[size].allows(space.stick) and width <= rooms[n]:
                counts[n][size] += 1
                rooms[n] -= width
                place(step + 1)
                rooms[n] += width
                counts[n][size] -= 1
        place(step + 1)  # nowhere

    place(0)
    return best[0][1]
