"""The stock of a class: the pieces that pairs cut from, spares, off-cuts for lesson 01, and what to buy for them.

A pair's two cleats come from one piece. It is so long that each taper is sawn on at least 10 in. and
that 6 in. are left in the hand at the last cut. The instructor saws the pieces from sticks before the
class; both cuttings are planned by the planner and gone over by its checker.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> from anglelib.workshop.learner_parts import learners
>>> wanted = ClassWanted(2, lengths=(48, 72))
>>> bought = stock_for(wanted, learners(wanted))
>>> [(stick.section.fillet > 0, int(stick.length)) for stick in bought.rack.sticks]
[(False, 48), (True, 48)]
>>> float(min(cut.still_on for stick in bought.cuts.sticks for cut in stick.cuts if cut.made_first)) >= 10
True
"""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import BenchError
from anglelib.job import Job
from anglelib.lengths import exact
from anglelib.part import Part
from anglelib.stock.checker import check
from anglelib.stock.plan import Plan
from anglelib.stock.planner import plan
from anglelib.stock.purchase import USUAL_TRIM, Purchase, smallest_purchase
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reason_words import sentences
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.learner_parts import ALLOY, OTHER_ALLOY, SECTION, SQUARE_INSIDE, Learner, piece_id

TAPER_ON = Fraction(10)
"""The least length on which a class part's taper is sawn [in]; common practice."""
OFF_CUT = Fraction(4)
"""Length of an off-cut of lesson 01 [in]."""
SPARE, SQUARE, ROUND = "KX", "Q1", "Q2"


@dataclass(frozen=True)
class ClassStock:
    """What to buy, and both cuttings: sticks to pieces (``pieces``, ``rack``, ``sawn``), pieces to cleats (``job``, ``pieces_rack``, ``cuts``)."""

    pieces: Job
    purchase: Purchase
    sawn: Plan
    job: Job
    pieces_rack: Rack
    cuts: Plan

    @property
    def rack(self) -> Rack:
        """The sticks to buy, as the rack will list them."""
        return self.purchase.rack


def stock_for(wanted: ClassWanted, people: Sequence[Learner]) -> ClassStock:
    """The stock of a class, planned and checked."""
    pieces = pieces_job(wanted, people)
    purchase = smallest_purchase(pieces, Rack(()), wanted.lengths, (USUAL_TRIM, USUAL_TRIM))
    lost = [reason for group in purchase.groups for reason in group.not_for_sale]
    if lost:
        raise BenchError(f"The lengths to buy are too short for a class: {lost[0].sentence} Give longer ones.")
    sawn = plan(pieces, purchase.rack)
    check(sawn, pieces, purchase.rack)
    job = Job(f"Class of {wanted.learners}, seed {wanted.seed}"[:60], wanted.shop, tuple(one.part for one in people))
    rack = _pieces_rack(pieces, wanted)
    cuts = plan(job, rack)
    check(cuts, job, rack)
    for made in (sawn, cuts):
        if made.shortages:
            raise BenchError(f"The stock of this class does not come out: {sentences(made.shortages[0].reasons)} Choose another seed.")
    return ClassStock(pieces, purchase, sawn, job, rack, cuts)


def pieces_job(wanted: ClassWanted, people: Sequence[Learner]) -> Job:
    """What is sawn from the sticks before the class: a piece a pair, spares, two off-cuts a table."""
    lengths = []
    for one in people:
        if one.first:
            lengths.append(piece_length(wanted, one.part, 2 if one.partner else 1))
    parts = [
        Part(piece_id(n), f"Piece for {2 * n - 1:02d}" + (f" and {2 * n:02d}" if 2 * n <= wanted.learners else ""), SECTION, ALLOY, length, hand="neither")
        for n, length in enumerate(lengths, 1)
    ]
    parts.append(Part(SPARE, "Spare piece", SECTION, ALLOY, max(lengths), hand="neither", quantity=wanted.spare_pieces))
    parts.append(Part(SQUARE, "Off-cut, square inside", SQUARE_INSIDE, OTHER_ALLOY, OFF_CUT, hand="neither", quantity=wanted.tables))
    parts.append(Part(ROUND, "Off-cut, with a fillet", SECTION, ALLOY, OFF_CUT, hand="neither", quantity=wanted.tables))
    return Job("Pieces for the class", wanted.shop, tuple(parts))


def piece_length(wanted: ClassWanted, part: Part, number: int) -> Fraction:
    """Length of the piece for one cleat or two, in whole eighths [in]."""
    taken = part.length + 2 * wanted.shop.allowance + wanted.shop.kerf
    least = max(number * taken + wanted.shop.hand_minimum, (number - 1) * taken + TAPER_ON)
    return Fraction(math.ceil(least * 8), 8)


def _pieces_rack(pieces: Job, wanted: ClassWanted) -> Rack:
    """The pieces as sticks: the end that is held is never a part, so it counts as trim."""
    sticks = []
    for part in pieces.parts:
        if part.section == SECTION and part.id != ROUND:
            names = [part.id] if part.quantity == 1 and part.id != SPARE else [f"{part.id}{n}" for n in range(1, part.quantity + 1)]
            note = "spare" if part.id == SPARE else f"{exact(wanted.shop.hand_minimum)} in. stay in the hand"
            sticks += [Stick(name, SECTION, ALLOY, part.length, 0, wanted.shop.hand_minimum, note=note) for name in names]
    return Rack(sticks)


def as_listed(job: Job) -> Job:
    """The job without claims on a stick, for a rack of one's own."""
    return replace(job, parts=tuple(replace(part, only_stick="") for part in job.parts))


# --- the list ---------------------------------------------------------------------------------------------
HEADS = ("number", "length_in", "section", "inside", "alloy", "what for")


def shopping_rows(stock: ClassStock) -> list[tuple[str, ...]]:
    """What to buy: number, length, section, fillet or square inside, alloy, what is cut from it."""
    rows = []
    for group in stock.purchase.groups:
        inside = f"fillet {exact(group.section.fillet)}" if group.section.fillet else "square inside"
        made = [part for part in stock.pieces.parts if (part.section, part.alloy) == (group.section, group.alloy)]
        count = sum(part.quantity for part in made)
        what = f"{count} pieces, spares and off-cuts" if group.section == SECTION else f"{count} off-cut{'' if count == 1 else 's'} of lesson 01"
        rows += [(str(number), exact(length), group.section.size, inside, group.alloy, what) for length, number in group.bought]
    return rows


def shopping_csv(stock: ClassStock) -> str:
    """The list as CSV."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADS)
    writer.writerows((number, f"{length} in", *rest) for number, length, *rest in shopping_rows(stock))
    return out.getvalue()
