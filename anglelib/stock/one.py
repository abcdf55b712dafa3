"""One part now: which stick, why, what remains, and what another choice would cost.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 96), Stick("S-2", stock, "6061-T6", 30)])
>>> print(one_now(stock, "6061-T6", 28, rack).sentence)
Cut it from S-2: it is the shortest piece that serves. Of the 30 that can be used there, 1 7/8 is left.
>>> print(one_now(stock, "6061-T6", 100, rack).sentence)
No stick on the rack serves: the longest piece is 96, and the blank with its cut takes 100 1/8.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import LengthError, PlanError
from anglelib.job import Job, Shop
from anglelib.lengths import exact, inches
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.blank import Blank, blanks
from anglelib.stock.effort import Effort
from anglelib.stock.fit import alike, refusals
from anglelib.stock.instance import ANY
from anglelib.stock.problem import Problem, problem, usable
from anglelib.stock.rack import Interval, Rack, Stick
from anglelib.stock.rules import RULES
from anglelib.stock.settle import settle
from anglelib.stock.small import best_packing

BUDGET = 0.4
"""Deterministic work for one question about the whole job: a fraction of a second."""
MOST_OTHERS = 6
"""How many other sticks are tried against the job."""


@dataclass(frozen=True)
class Other:
    """Another stick that could serve, and what cutting the part from it would cost, in words."""

    stick: Stick
    left: Fraction
    lost: tuple[str, ...]
    sentence: str


@dataclass(frozen=True)
class OneNow:
    """The answer for one part: the stick and what remains of the piece cut, or None and why not.

    ``line`` is where to part the blank off, from the squared end [in]; ``blank`` its sawn length.
    ``others`` are further sticks that could serve; ``refused`` every reason against the rest.
    """

    blank: Fraction
    stick: Stick | None
    interval: Interval | None
    line: Fraction | None
    left: Fraction | None
    sentence: str
    others: tuple[Other, ...]
    refused: tuple[str, ...]


def one_now(
    section: Section,
    alloy: str,
    length: object,
    rack: Rack,
    job: Job | None = None,
    shop: Shop | None = None,
    part_id: str = "",
) -> OneNow:
    """Which stick to cut one part from, now.

    ``length`` is the finished length [in]; the shop's kerf and allowance are the job's where one is
    given. With a ``job`` the stick is the one that leaves most for it: first all of its parts that
    could be made without this one, then the longest remnants. ``part_id`` says that the part is one
    piece of a listed part (and must come from the stick that the plans name for it); without it the
    part is cut besides all that is listed. Raises :class:`~anglelib.errors.PlanError` for a length
    that cannot be read, and JobError for a part that is not listed.
    """
    shop = shop or (job.shop if job is not None else Shop())
    try:
        finished = inches(length, "length of the part", zero=False)  # type: ignore[arg-type]
    except LengthError as error:
        raise PlanError(str(error)) from None
    listed = [b for b in blanks(job) if b.part.alloy == alloy and alike(b.part.section, section)] if job is not None else []
    pin = job.part(part_id).only_stick if job is not None and part_id else ""
    part = Part("this-part", "This part", section, alloy, finished, only_stick=pin)
    blank = Blank(part, 1, finished + 2 * shop.allowance)
    piece = next((b for b in listed if b.part.id == part_id), None)
    if piece is not None:
        listed.remove(piece)
    asked = problem(section, alloy, [blank, *listed], usable(rack, section, alloy), shop)
    refused = tuple(reason for stick in rack.sticks for reason in refusals(part, stick, shop))
    if not _serving(asked):
        return OneNow(blank.length, None, None, None, None, _none(asked, blank, shop), (), refused)
    best, lost = _cut_from(asked, None, levels=2)
    place = _place(asked, best)
    stick, interval = asked.places[place]
    left = max(Fraction(0), interval.length - blank.length - shop.kerf)
    others = tuple(_others(asked, stick, lost))
    sentence = _why(asked, place, left, lost, others)
    return OneNow(blank.length, stick, interval, blank.length, left, sentence, others, refused)


def _serving(asked: Problem) -> list[int]:
    """The places from which the part can be cut, shortest first."""
    instance = asked.instance
    need = instance.sizes[instance.claims[0]].width
    pin = instance.sizes[instance.claims[0]].pin
    able = [n for n, s in enumerate(instance.spaces) if need <= instance.capacity(s) and pin in (ANY, s.stick)]
    return sorted(able, key=lambda n: (instance.spaces[n].length, n))


def _cut_from(asked: Problem, stick: Stick | None, levels: int):
    """The best packing with the part in it (from one stick), and the parts of the job it then lacks."""
    first = asked.blanks[0]
    if stick is not None:
        first = replace(first, part=replace(first.part, only_stick=stick.id))
        asked = _again(asked, first)
    instance = asked.instance
    if len(asked.blanks) == 1:  # no list to think of: every place is tried, in less time than a slider takes
        packing = best_packing(instance)
    else:
        packing = settle(instance, [rule.pack(instance) for rule in RULES], Effort(BUDGET), levels).packing
    made = instance.made(packing)
    lost = [b.part.id for b, done in zip(asked.blanks, made) if not done]
    return packing, tuple(dict.fromkeys(lost))


def _again(asked: Problem, first: Blank) -> Problem:
    shop = Shop(
        kerf=asked.instance.kerf * asked.unit,
        grain=asked.instance.grain * asked.unit,
        usable_minimum=asked.instance.minimum * asked.unit,
    )
    return problem(asked.section, asked.alloy, [first, *asked.blanks[1:]], asked.sticks, shop)


def _place(asked: Problem, packing) -> int:
    """The place that the part comes from: of several with its size the shortest, of equals the first."""
    instance, size = asked.instance, asked.instance.claims[0]
    place = next(n for n in _serving(asked) if packing[n][size])
    return instance.kinds[instance.kind(instance.spaces[place])][0]


def _why(asked: Problem, place: int, left: Fraction, lost: tuple[str, ...], others: tuple[Other, ...]) -> str:
    stick, interval = asked.places[place]
    serving = _serving(asked)
    shorter = [o for o in others if o.left < left]
    if not shorter:
        why = "it is the only piece that serves" if len(serving) == 1 else "it is the shortest piece that serves"
    elif shorter[0].lost:
        why = f"{shorter[0].stick.id} is shorter, but {_and(shorter[0].lost)} could then not all be made"
    else:
        why = f"{shorter[0].stick.id} is shorter, but then less would be left in one piece after the whole job"
    said = [f"Cut it from {stick.id}: {why}."]
    if left:
        said.append(f"Of the {exact(interval.length)} that can be used there, {exact(left)} is left.")
    else:
        said.append(f"It takes all of the {exact(interval.length)} that can be used there.")
    if lost:
        said.append(f"Of the job, {_and(lost)} cannot all be made besides.")
    elif len(asked.blanks) > 1:
        said.append("Every listed part of the section can still be made.")
    return " ".join(said)


def _others(asked: Problem, chosen: Stick, lost: tuple[str, ...]):
    """The other sticks that could serve, shortest piece first, and what each would cost the job."""
    seen = {chosen.id}
    first = asked.blanks[0]
    for n in _serving(asked):
        stick, interval = asked.places[n]
        if stick.id in seen:
            continue
        seen.add(stick.id)
        left = max(Fraction(0), interval.length - first.length - asked.instance.kerf * asked.unit)
        more: tuple[str, ...] = ()
        if len(asked.blanks) > 1:
            _, then = _cut_from(asked, stick, levels=1)
            more = tuple(part_id for part_id in then if part_id not in lost)
        said = f"{stick.id} would leave {exact(left)} of {exact(interval.length)}"
        said += f", and {_and(more)} could then not all be made." if more else "."
        yield Other(stick, left, more, said)
        if len(seen) > MOST_OTHERS:
            return


def _none(asked: Problem, blank: Blank, shop: Shop) -> str:
    longest = max((interval.length for _, interval in asked.places), default=None)
    if longest is None:
        return f"No stick on the rack serves: there is none of {asked.section.size}, {asked.alloy}, that may be used."
    need = exact(blank.length + shop.kerf)
    return f"No stick on the rack serves: the longest piece is {exact(longest)}, and the blank with its cut takes {need}."


def _and(names) -> str:
    names = list(names)
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
