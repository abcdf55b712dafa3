"""A stick that is cut part-way: what there is of it once the first rows of its sheet are done.

The sheet of a stick lists its cuts, numbered, and last a blank that ends where the stick does. Whoever has sawn to row 3 has the pieces
of rows 1 to 3 and one piece, or more, in which the rest still lies.
"""

from __future__ import annotations

from dataclasses import replace

from anglelib.stock.plan import StickPlan
from anglelib.stock.progress import Lying, Progress, Span, spans_at
from anglelib.stock.rack import Stick


def rows_of(planned: StickPlan) -> int:
    """How many rows the sheet of a stick has."""
    return len(planned.cuts) + sum(not placed.sawn for placed in planned.placed)


def finished(planned: StickPlan, rows: int) -> bool:
    """Whether nothing is left to saw once so many rows are done (0 stands for all)."""
    return not rows or rows >= len(planned.cuts)


def left_after(planned: StickPlan, rows: int) -> list[tuple[Stick, tuple[Lying, ...]]]:
    """What is left of a stick, and the blanks that still lie in each piece; the piece to be sawn next has the stick's own id."""
    return [(there.stick, there.lying) for there in spans_after(planned, rows)]


def spans_after(planned: StickPlan, rows: int) -> list[Span]:
    """The same, with where in the stick each piece lay, and whether its cuts are still to be made."""
    return spans_at(planned, Progress({planned.stick.id: len(planned.cuts) if finished(planned, rows) else rows}))


def still_lying(planned: StickPlan, rows: int) -> StickPlan:
    """The plan of a stick without what its first rows have given: the rows that are left keep nothing but their order."""
    cuts = planned.cuts[rows:]
    waiting = {(cut.blank.part.id, cut.blank.number) for cut in cuts if cut.blank is not None}
    placed = tuple(p for p in planned.placed if not p.sawn or (p.blank.part.id, p.blank.number) in waiting)
    return replace(planned, cuts=cuts, placed=placed)
