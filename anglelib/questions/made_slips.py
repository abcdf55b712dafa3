"""A part made with one slip, its readings, and the other slips that come near it: what lesson 10 asks about.

>>> slip = fresh_slip("a seed")
>>> slip.id in POOL, len(slip.others)
(True, 3)
>>> [row.name for row in slip.rows][:3]
['taper start B, end 1', 'toe A length', 'toe B length']
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from math import inf

from anglelib.drawing.deviations import Row
from anglelib.errors import PartError
from anglelib.inspection.by_amount import by_amount, one_way
from anglelib.inspection.diagnosis import GOOD
from anglelib.inspection.likelihood import candidates_of, usual_spread
from anglelib.inspection.made import Made, readings_of
from anglelib.inspection.reading_ids import chosen
from anglelib.inspection.reading_words import brief_words, short_words
from anglelib.inspection.wanted import all_wanted
from anglelib.job import Shop
from anglelib.part import Hole, Part, Taper
from anglelib.questions.fresh import Numbers, fresh_part
from anglelib.questions.slips import slip_name
from anglelib.section import other_leg
from anglelib.tolerances import Limits

SHOP, LIMITS = Shop(), Limits()
POOL = ("M01", "M03", "M05", "M09", "M10", "M11", "M13", "M14", "M15", "M16", "M18", "M21", "M22", "M23")
"""The slips that the pictures of the exercises show: all can be seen on one part."""
CLEAR = 1.5
"""Two parts can be told apart where one of the seven readings differs by so many of its tolerances."""


# --- readings of a slip ------------------------------------------------------------------------------------
@cache
def rows_of(made: Made, keys: tuple[str, ...] = (), errors: tuple[float, ...] = ()) -> tuple[Row, ...]:
    """The readings of a made part that its card asks for (or those named) against their limits; ``errors`` of reading are added [in]."""
    part, read = made.wanted, readings_of(made)
    wanted, names = all_wanted(part, LIMITS), keys or chosen(part)
    errors = errors or (0.0,) * len(names)
    return tuple(
        Row.of(wanted[key], short_words(key, part), read[key] + error, usual_spread(key, wanted[key].value), brief_words(key, part))
        for key, error in zip(names, errors, strict=True)
    )


@dataclass(frozen=True)
class Slip:
    """A part, the slip that it was made with (or "good"), and what else is offered as an answer."""

    part: Part
    id: str
    others: tuple[str, ...]

    @property
    def made(self) -> Made:
        """The part as made."""
        return made_with(self.part, self.id)

    @property
    def rows(self) -> tuple[Row, ...]:
        """Its seven readings; a good part's are a few thousandths off."""
        if self.id != GOOD:
            return rows_of(self.made)
        n = len(chosen(self.part))
        return rows_of(self.made, errors=tuple((0.002, -0.003, 0.001, 0.004, -0.002, 0.003, -0.001)[i % 7] for i in range(n)))


@cache
def made_with(part: Part, id_: str) -> Made:
    """The part made with a slip; as wanted for "good"."""
    return Made.as_wanted(part) if id_ == GOOD else by_amount(one_way(id_, part, SHOP), 1)


def name(id_: str) -> str:
    """A slip in words, or a good part."""
    return slip_name(id_)


def apart(part: Part, one: str, two: str) -> float:
    """How many tolerances two slips lie apart in the reading that parts them most."""
    rows, wanted = zip(rows_of(made_with(part, one)), rows_of(made_with(part, two)), strict=True), all_wanted(part, LIMITS)
    return max(abs(a.read - b.read) / wanted[a.id].within for a, b in rows)


def can_be_made(part: Part, id_: str) -> bool:
    """Whether a slip can be made on a part."""
    try:
        made_with(part, id_)
    except PartError:
        return False
    return True


@cache
def near_ones(part: Part, id_: str, pool: tuple[str, ...] = POOL, number: int = 3) -> tuple[str, ...]:
    """The slips that come nearest to one on a part and cannot make it whatever their amount, nearest first."""
    read, wanted = readings_of(made_with(part, id_)), all_wanted(part, LIMITS)
    limits = {key: wanted[key].within for key in chosen(part)}
    gaps: dict[str, float] = {}
    for other in dict.fromkeys((*pool, GOOD)):
        for candidate in candidates_of(part, SHOP, other) if other != id_ else ():
            gap = _gap(candidate.readings, read, limits, gaps.get(other, inf))
            gaps[other] = min(gap, gaps.get(other, gap))
            if gap < CLEAR:
                break  # it can make it
    clear = [other for other, gap in gaps.items() if gap >= CLEAR and apart(part, other, GOOD) >= CLEAR * (other != GOOD)]
    return tuple(sorted(clear, key=lambda other: (round(gaps[other], 3), other))[:number])


def _gap(one: Mapping[str, float], two: Mapping[str, float], limits: dict[str, float], best: float) -> float:
    """How many tolerances apart two parts are read, by the reading that parts them most; where it is more than the ``best``, no further reading is asked."""
    gap = 0.0
    for key, limit in limits.items():
        gap = max(gap, abs(one[key] - two[key]) / limit)
        if gap > best:
            break
    return gap


def asked_slip(part: Part, id_: str) -> Slip:
    """A slip on a given part with the three nearest others that can be told from it."""
    return Slip(part, id_, near_ones(part, id_))


# --- fresh parts ------------------------------------------------------------------------------------------------
def fresh_bracket(seed: str) -> Part:
    """A practice bracket with one taper and four holes, on which the pool's slips can be told apart."""
    numbers = Numbers(f"{seed}, holes")
    plain = fresh_part(seed, ends_in="flat", legs="AB")
    taper: Taper = plain.tapers[0]
    section = plain.section
    leg, other = taper.leg, other_leg(taper.leg)
    length = max(Fraction(4), min(plain.length, taper.run + 3))
    step = numbers.length(Fraction(3, 4), Fraction(5, 4), Fraction(1, 8))

    def height(of: str) -> Fraction:
        low = section.thickness(other_leg(of)) + section.fillet + Fraction(1, 8)
        return (low + section.leg(of) - Fraction(1, 4)) / 2 // Fraction(1, 16) * Fraction(1, 16)

    first = min(taper.run + Fraction(1, 4), length - Fraction(1, 2) - step)
    holes = [
        Hole(leg, first, height(leg), "1/8"), Hole(leg, first + step, height(leg), "1/8"),
        Hole(other, "5/8", height(other), "1/8"), Hole(other, Fraction(5, 8) + step, height(other), "1/8"),
    ]  # fmt: skip
    return replace(plain, length=length, holes=tuple(holes))


def fresh_slip(seed: str, good: bool = False) -> Slip:
    """A made bracket with its slip, and three others that can be told from it."""
    numbers = Numbers(f"{seed}, slip")
    for turn in range(40):
        part = fresh_bracket(f"{seed}, {turn}")
        pool = (*POOL, GOOD) if good else POOL
        id_ = numbers.pick(pool)
        if not can_be_made(part, id_) or (id_ != GOOD and apart(part, id_, GOOD) < 2):
            continue  # a slip that the seven readings do not see
        others = near_ones(part, id_)
        if len(others) == 3:
            if good and GOOD not in others and id_ != GOOD:
                others = (*others[:2], GOOD)
            return Slip(part, id_, others)
    raise ValueError(f"no part for {seed!r} on which slips can be told apart")
