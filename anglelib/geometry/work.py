"""The order of work for one part as data: from the squared end of a stick to the tagged part.

Which end comes first is :func:`anglelib.geometry.ends.first_end`'s to say. Every line of an end is struck before the
first of its cuts is sawn, while the square end that it is measured from still stands; then the length; then what is
left. All common practice; where the kit's plans give an order, they come first. What an operation says at the bench is
looked up in :mod:`anglelib.geometry.work_words`.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [operation.id for operation in operations(bracket, Shop())][:5]
['square-1', 'witness', 'mark-taper-A-1', 'saw-taper-A-1', 'sand-taper-A-1']
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from anglelib.geometry.ends import first_end, hardness, off_stick, short_piece
from anglelib.geometry.layout import Mark, cope_marks, datum_lost, length_mark, round_marks, taper_marks, witness_line, witness_mark
from anglelib.geometry.setup import Setup, square_cut, taper_cut
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.geometry.throat import shop_for_cope
from anglelib.job import Shop
from anglelib.lengths import both
from anglelib.part import Cope, Part

__all__ = ["Operation", "first_end", "hardness", "operations", "reading_from_datum"]

SQUARE, WITNESS, MARK, SAW, SAND, EDGE, LENGTH = "square", "witness", "mark", "saw", "sand", "edge", "length"
COPE, ROUND, DRILL, FINISH, INSPECT = "cope", "round", "drill", "finish", "inspect"
KINDS = (SQUARE, WITNESS, MARK, SAW, SAND, EDGE, COPE, LENGTH, ROUND, DRILL, FINISH, INSPECT)
"""What an operation is; EDGE breaks or blunts the feather edge that a taper to the vertex leaves."""


@dataclass(frozen=True)
class Operation:
    """One step at the bench: its kind, at which end and leg, the marks it needs, how the angle sits.

    ``on_stick``: it is done while the part is still on its stick; ``clamped``: the piece is too short for the hand.
    ``line`` is the taper that it makes, ``cope`` the cope; ``thick`` [in] what a feather edge is broken or blunted to.
    """

    kind: str
    end: int = 0
    leg: str = ""
    on_stick: bool = False
    clamped: bool = False
    marks: tuple[Mark, ...] = ()
    setup: Setup | None = None
    line: TaperLine | None = None
    cope: Cope | None = None
    thick: Fraction | None = None
    by_plans: bool = False
    """Of a feather edge: whether the plans have it blunted, which shortens the part more than breaking it does."""

    @property
    def id(self) -> str:
        """Its name for a program: the kind, what it makes, the leg, the end."""
        what = "taper" if self.line is not None else "cope" if self.cope is not None and self.kind != COPE else ""
        return "-".join(str(word) for word in (self.kind, what, self.leg, self.end) if word)


def reading_from_datum(part: Part, x: Fraction) -> tuple[str, str]:
    """Where a place along the heel is read from, and the reading: (datum, text).

    From end 1 as long as it stands; from the witness line where a cut has taken it.
    """
    witness = witness_line(part)
    if witness is None:
        return "end 1", both(x)
    side = "towards end 2" if x > witness else "towards end 1"
    return "witness line", f"{both(abs(x - witness))} {side}" if x != witness else both(Fraction(0))


def operations(part: Part, shop: Shop) -> tuple[Operation, ...]:
    """The steps for one part, in order."""
    first, second, short = first_end(part), off_stick(part), short_piece(part, shop)
    steps = [Operation(SQUARE, first, on_stick=True, setup=square_cut(part.section))]
    witness = witness_mark(part, first)
    if witness is not None:
        steps.append(Operation(WITNESS, marks=(witness,), on_stick=True))
    steps += _end(part, first, shop, on_stick=True, clamped=False)
    steps.append(Operation(LENGTH, second, on_stick=True, clamped=short, marks=(length_mark(part, second, shop),), setup=square_cut(part.section)))
    steps.append(Operation(SQUARE, second, clamped=short))
    steps += _end(part, second, shop, on_stick=False, clamped=short)
    if part.corners:
        steps.append(Operation(ROUND, marks=round_marks(part), clamped=short))
    if part.holes:
        steps.append(Operation(DRILL, clamped=True))
    steps += [Operation(FINISH), Operation(INSPECT)]
    return tuple(steps)


def _end(part: Part, end: int, shop: Shop, on_stick: bool, clamped: bool) -> Iterator[Operation]:
    """All that is cut at one end: every line first, then each taper, the feather edge, each cope."""
    lines = [line for line in taper_lines(part) if line.end == end]
    copes = [cope for cope in part.copes if cope.end == end]
    held = {"end": end, "on_stick": on_stick, "clamped": clamped}
    for line in lines:
        yield Operation(MARK, leg=line.leg, marks=taper_marks(line, shop), line=line, **held)
    for cope in copes:
        yield Operation(MARK, leg=cope.leg, marks=cope_marks(cope, shop_for_cope(cope, part, shop)), cope=cope, **held)
    for line in lines:
        yield Operation(SAW, leg=line.leg, setup=taper_cut(line), line=line, **held)
        yield Operation(SAND, leg=line.leg, line=line, **held)
        if line.to_vertex:
            taper = part.taper_at(line.leg, end)
            assert taper is not None
            yield Operation(EDGE, leg=line.leg, line=line, thick=taper.edge, by_plans=taper.blunt is not None, **held)
    for cope in copes:
        yield Operation(COPE, leg=cope.leg, cope=cope, **held)


def fixes_datum(part: Part, operation: Operation) -> bool:
    """Whether squaring an end makes the datum that every x is measured from, and that stays.

    Where a cut takes either end away the witness line is the datum, also for what is marked once end 1 is squared.
    """
    return operation.kind == SQUARE and operation.end == 1 and not datum_lost(part, 1) and witness_line(part) is None
