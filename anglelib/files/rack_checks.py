"""What the rows of a rack's record cannot say together: more metal than a stick had, a remnant of nothing, of itself, in a circle."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from anglelib.files.report import Report, quoted
from anglelib.lengths import about, exact
from anglelib.near import did_you_mean
from anglelib.stock.rack import Stick
from anglelib.stock.record import CutStick

TAPE = Fraction(1, 4)
"""By how much what is left of a stick may measure longer than it was reckoned: two tapes differ [in]."""


def check_rows(report: Report, rows: Mapping[str, int], sticks: Sequence[Stick], cut: Sequence[CutStick], origins: Sequence[tuple[str, str]]) -> None:
    """Report what cannot be, each in its row; ``rows`` has the row of each stick."""
    _check_origins(report, rows, [old.stick.id for old in cut], origins)
    lengths = {stick.id: stick.length for stick in (*sticks, *(old.stick for old in cut))}
    for old in cut:
        sawn = sum(((piece.length or 0) * piece.number for piece in old.pieces), Fraction(0))
        back = sum((piece.left * piece.number for piece in old.pieces), Fraction(0))
        left = sum((lengths[child] for child, parent in origins if parent == old.stick.id), Fraction(0))
        at, whole = f"row {rows[old.stick.id]}", old.stick.length
        if sawn > whole:
            report.add(f"{at}, cut_into", f"the pieces come to {about(sawn)}, and {old.stick.id} was {exact(whole)} long: put right which were cut, or its length.")
        elif sawn - back + left > whole + TAPE:
            rest = ", ".join(child for child, parent in origins if parent == old.stick.id)
            report.add(
                f"{at}, length",
                f"its pieces and what is left of it ({rest}) come to {about(sawn - back + left)}, and {old.stick.id} was {exact(whole)} long: "
                "measure what is left, and put its length right.",
            )


def _check_origins(report: Report, rows: Mapping[str, int], cut: Sequence[str], origins: Sequence[tuple[str, str]]) -> None:
    parents = dict(origins)
    for child, parent in origins:
        at = f"row {rows[child]}, cut_from"
        if parent == child:
            report.add(at, f"{child} cannot be left of itself: name the stick that it was sawn from, or leave the cell empty.")
        elif parent not in rows:
            meant = did_you_mean(parent, cut) or "write the row of that stick again, or leave the cell empty."
            report.add(at, f"there is no stick {quoted(parent)} in this rack: {meant}")
        elif parent not in cut:
            report.add(at, f"{parent} is not marked as cut, so that nothing is left of it: put its kind right, or leave the cell empty.")
        elif _in_circle(child, parents):
            report.add(at, f"{child} would be left of a stick that is left of it: put one of the two right.")


def _in_circle(stick_id: str, parents: Mapping[str, str]) -> bool:
    at, seen = parents.get(stick_id), set()
    while at is not None and at not in seen:
        if at == stick_id:
            return True
        seen.add(at)
        at = parents.get(at)
    return False
