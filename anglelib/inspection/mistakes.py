"""Mistakes: slips with a signature that can be computed, each with its number and a sentence.

Kinds: N shows in a number that is asked for, P in one finished part, H only in a pair or a batch.

>>> from anglelib.section import Section
>>> from anglelib.part import Part, Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> [case.words for case in MISTAKES["M10"].cases(cleat, Shop())], MISTAKES["M10"].kinds
([''], 'P')
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache

from anglelib.errors import PartError
from anglelib.inspection import mark_slips, slips
from anglelib.inspection.slips import Case
from anglelib.job import Shop
from anglelib.lengths import unit_written
from anglelib.near import did_you_mean
from anglelib.part import Part


@dataclass(frozen=True)
class Mistake:
    """One mistake: its number, name, the kinds it shows in, and the sentence that names it.

    ``cases`` gives the parts it makes of a wanted part; it is empty where the mistake cannot be made
    on that part, or shows in a batch only.
    """

    id: str
    name: str
    kinds: str
    sentence: str
    remedy: str
    slip: Callable[[Part, Shop], Iterable[Case]] | None = None

    def cases(self, part: Part, shop: Shop) -> tuple[Case, ...]:
        """Every way the mistake may have gone on this part, as far as there is metal for it."""
        return _cases(self.slip, part, shop, unit_written()) if self.slip else ()  # their words have lengths in them


@lru_cache(maxsize=512)
def _cases(slip: Callable[[Part, Shop], Iterable[Case]], part: Part, shop: Shop, unit: str) -> tuple[Case, ...]:
    return tuple(case for case in slip(part, shop) if case.made.can_be)


_TABLE = (
    Mistake("M01", "cut on the keep side of the line", "NP", "The whole kerf came out of the part: the saw ran on the keep side of the line.",
            "Mark the waste with a cross, and saw on that side.", slips.keep_side),
    Mistake("M02", "saw split the line", "P", "Half the kerf came out of the part: the saw split the line.",
            "Saw beside the line; the line stays.", slips.split_line),
    Mistake("M03", "kerf lost at both ends", "P", "Both ends lost kerf after everything was laid out.",
            "Square one end first, then lay out from it.", slips.both_ends),
    Mistake("M04", "no allowance left, then sanded", "NP", "The sanding allowance came off the part: it was sawn on the line and sanded past it.",
            "Saw outside the line by the allowance, then sand to the line.", slips.no_allowance),
    Mistake("M05", "allowance left on, or counted twice", "NP", "The sanding allowance is still on the part, or was counted twice.",
            "Sand to the line.", slips.allowance_left),
    Mistake("M06", "batch chained without kerf", "NH", "The batch was marked end to end with no kerf between: the first and last piece lost half a kerf, the others a whole one.",
            "Leave a kerf between two blanks, or mark each after the last is cut."),
    Mistake("M07", "1-inch start not subtracted", "NP", "An inch is missing or too much: the rule began at its 1-inch mark and the inch was not taken off.",
            "Say the start aloud; check one mark from the rule's end.", slips.one_inch),
    Mistake("M08", "fraction misread", "NP", "A fraction was misread: by whole sixteenths, or a numerator or denominator by a factor of two.",
            "Read it back as a decimal.", slips.misread),
    Mistake("M09", "wrong leg, or the other hand", "P", "The features are on the wrong leg: this is the other hand, or the angle was turned over.",
            "Write the leg and the hand on the metal before marking.", slips.wrong_leg),
    Mistake("M10", "taper or cope at the other end", "P", "The taper, or the cope, is at the other end.",
            "Write the end on the metal before marking.", slips.other_end_slip),
    Mistake("M11", "measured from the inside face", "NP", "A height was measured from the inside face or the fillet's edge in place of the heel.",
            "Heights are from the heel: hook the square on the outside.", mark_slips.from_inside),
    Mistake("M12", "inside line aimed at the inside corner", "NP", "The inside line was aimed at the inside corner: the other leg's thickness is left at the end.",
            "Aim it at the vertex-projection mark on the other leg.", mark_slips.inside_corner),
    Mistake("M13", "taper cut on the wrong side of the line", "P", "The taper was cut on the part's side of the line: the angle is right, the edge a kerf too low.",
            "Hatch the waste side before sawing.", mark_slips.wrong_side),
    Mistake("M14", "saw drifted", "P", "The saw drifted: one end of the cut is right, its angle is not.",
            "Slower feed, sharper blade, guide just clear of the work.", mark_slips.drifted),
    Mistake("M15", "saw tilted", "P", "The saw leaned: inside and outside edge of the taper do not lie over each other.",
            "Set the blade square to the table.", mark_slips.tilted),
    Mistake("M16", "datum lost", "NP", "End 1 was dressed after layout: everything measured from it is off by the same amount.",
            "Fix the datum first; dress it no more.", mark_slips.datum_dressed),
    Mistake("M17", "measured from the wrong end", "NP", "A place was measured from end 2 in place of end 1.",
            "Write 1 on the datum end.", mark_slips.wrong_end),
    Mistake("M18", "stepped off with a wrong pitch", "NP", "The error grows from hole to hole: they were stepped off with a wrong pitch.",
            "Running dimensions from one datum.", mark_slips.wrong_pitch),
    Mistake("M19", "run laid along the slope", "NP", "The run was laid along the sloping edge; it is measured along the toe.",
            "The run is along the toe.", mark_slips.along_slope),
    Mistake("M20", "run and height exchanged, or angle from square", "NP", "Run and height were exchanged, or the angle was set from square.",
            "Say both angles: from the heel, from square.", mark_slips.exchanged),
    Mistake("M21", "end out of square", "P", "An end is out of square in one leg or in both.",
            "Try the square on both legs, then turn it over.", mark_slips.out_of_square),
    Mistake("M22", "toe over-filed", "P", "A toe was filed too far over its whole length.",
            "Break edges only: 1/64.", mark_slips.over_filed),
    Mistake("M23", "wrong section", "P", "The part is of another section.",
            "Caliper on the stick before the first cut.", mark_slips.wrong_section),
    Mistake("M24", "wrong alloy", "P", "No length is off, but the weight is another alloy's.",
            "Read the mark on the stick; write it back on every piece.", mark_slips.wrong_alloy),
    Mistake("M25", "measured hot", "NP", "The part was measured warm and has shrunk since.",
            "Let it cool to the hand before measuring.", mark_slips.measured_hot),
    Mistake("M26", "pair made both of one hand", "H", "Both parts of the pair are one hand: they agree where they should mirror.",
            "Mark the pair out heel to heel."),
    Mistake("M27", "inch for millimetre", "NP", "A number was read in the wrong unit.",
            "Write the unit with every number.", mark_slips.inch_for_mm),
)  # fmt: skip
MISTAKES = {mistake.id: mistake for mistake in _TABLE}


def refuse_unknown(id_: str) -> None:
    """Nothing, where there is a mistake with this id.

    >>> refuse_unknown("m07")
    Traceback (most recent call last):
        ...
    anglelib.errors.PartError: There is no mistake "m07": did you mean M07?
    """
    if id_ not in MISTAKES:
        raise PartError(f'There is no mistake "{id_[:20]}": {did_you_mean(id_, MISTAKES) or f"write one of {min(MISTAKES)} to {max(MISTAKES)}."}')
