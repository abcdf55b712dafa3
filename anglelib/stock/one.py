"""One part now: which stick, why, what remains, and what another choice would cost.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 96), Stick("S-2", stock, "6061-T6", 30)])
>>> print(one_now(stock, "6061-T6", 28, rack).sentence)
Cut it from S-2: it is the shortest piece that serves. Of the 30 that can be used there, 1 7/8 is left.
>>> print(one_now(stock, "6061-T6", 100, rack).sentence)
No stick on the rack serves: the longest piece is 96, and the blank with its cut takes 100 1/8.
>>> print(one_now(stock, "6061-T6", 28, rack, extra="1 7/8").sentence)
Cut it from S-2: it is the shortest piece that serves. The 1 7/8 left for trimming is in the blank of 29 15/16. It takes all of the 30 that can be used there.
>>> print(one_now(stock, "6061-T6", 28, rack, only_stick="S-1").sentence)
Cut it from S-1: the plans name it for this part. Of the 96 that can be used there, 67 7/8 is left.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import LengthError, PlanError
from anglelib.job import Job, Shop
from anglelib.lengths import about, exact, inches, unit_written
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.blank import Blank, blanks
from anglelib.stock.effort import Effort
from anglelib.stock.fit import alike, refusals
from anglelib.stock.instance import ANY, Packing
from anglelib.stock.least_change import carry_over
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
    *,
    extra: object = 0,
    only_stick: str = "",
) -> OneNow:
    """Which stick to cut one part from, now.

    ``length`` is the finished length [in]; the shop's kerf and allowance are the job's where one is
    given. With a ``job`` the stick is the one that leaves most for it: first all of its parts that
    could be made without this one, then the longest remnants. ``part_id`` says that the part is one
    piece of a listed part; without it the part is cut besides all that is listed. ``extra`` is what
    the part is left long, to be trimmed at fitting [in]: it is reserved with the blank. ``only_stick``
    is the stick that the plans name for the part (a listed part brings its own): nothing outranks it.
    Raises :class:`~anglelib.errors.PlanError` for a length that cannot be read, and JobError for a
    part that is not listed.
    """
    shop = shop or (job.shop if job is not None else Shop())
    try:
        finished = inches(length, "length of the part", zero=False)  # type: ignore[arg-type]
        long = inches(extra, "length left for trimming at fitting")  # type: ignore[arg-type]
    except LengthError as error:
        raise PlanError(str(error)) from None
    listed = [b for b in blanks(job) if b.part.alloy == alloy and alike(b.part.section, section)] if job is not None else []
    pin = only_stick or (job.part(part_id).only_stick if job is not None and part_id else "")
    part = Part("this-part", "This part", section, alloy, finished + long, only_stick=pin, unit=unit_written())
    blank = Blank(part, 1, part.length + 2 * shop.allowance)
    piece = next((b for b in listed if b.part.id == part_id), None)
    if piece is not None:
        listed.remove(piece)
    asked = problem(section, alloy, [blank, *listed], usable(rack, section, alloy), shop)
    refused = tuple(reason for stick in rack.sticks for reason in refusals(part, stick, shop))
    if not _serving(asked):
        return OneNow(blank.length, None, None, None, None, _none(asked, blank, shop, rack), (), refused)
    best, lost, proven = _cut_from(asked, Effort(BUDGET))
    place = _place(asked, best)
    stick, interval = asked.places[place]
    left = max(Fraction(0), interval.length - blank.length - shop.kerf)
    others = tuple(_others(asked, best, stick, lost))
    sentence = _why(asked, place, left, lost if proven else None, others, long)
    return OneNow(blank.length, stick, interval, blank.length, left, sentence, others, refused)


def _serving(asked: Problem) -> list[int]:
    """The places from which the part can be cut, shortest first."""
    instance = asked.instance
    need = instance.sizes[instance.claims[0]].width
    pin = instance.sizes[instance.claims[0]].pin
    able = [n for n, s in enumerate(instance.spaces) if need <= instance.capacity(s) and pin in (ANY, s.stick)]
    return sorted(able, key=lambda n: (instance.spaces[n].length, n))


def _cut_from(asked: Problem, effort: Effort, start: Sequence[Packing] = (), levels: int = 2) -> tuple[Packing, tuple[str, ...], bool]:
    """The best packing with the part in it, the parts of the job that it then lacks, and whether that is proven."""
    instance = asked.instance
    if len(asked.blanks) == 1:  # no list to think of: every place is tried, in less time than a slider takes
        return best_packing(instance), (), True
    outcome = settle(instance, [*start, *(rule.pack(instance) for rule in RULES)], effort, levels)
    made = instance.made(outcome.packing)
    lost = [b.part.id for b, done in zip(asked.blanks, made) if not done]
    return outcome.packing, tuple(dict.fromkeys(lost)), not outcome.doubtful


def _moved(asked: Problem, packing: Packing, pinned: Problem, stick: Stick) -> Packing:
    """The packing with the part cut from another stick, and what was there beside it as far as it goes."""
    sizes = {size: n for n, size in enumerate(pinned.instance.sizes)}
    first, same = pinned.instance.claims[0], asked.instance.claims[0]
    old = []
    taken = False
    for pattern in packing:
        row = [0] * len(sizes)
        for size, number in enumerate(pattern):
            if size == same and number and not taken:
                taken, number = True, number - 1
            if number:
                row[sizes[asked.instance.sizes[size]]] += number
        old.append(tuple(row))
    able = [n for n in _serving(pinned) if pinned.places[n][0].id == stick.id]
    return carry_over(pinned.instance, tuple(old), [(able[0], first)])


def _pinned(asked: Problem, stick: Stick) -> Problem:
    """The same with the part cut from one stick."""
    first = asked.blanks[0]
    first = replace(first, part=replace(first.part, only_stick=stick.id))
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


def _why(asked: Problem, place: int, left: Fraction, lost: tuple[str, ...] | None, others: tuple[Other, ...], long: Fraction) -> str:
    stick, interval = asked.places[place]
    serving = _serving(asked)
    shorter = [o for o in others if o.left < left]
    if asked.blanks[0].part.only_stick:
        why = "the plans name it for this part"
    elif not shorter:
        why = "it is the only piece that serves" if len(serving) == 1 else "it is the shortest piece that serves"
    elif shorter[0].lost:
        why = f"{shorter[0].stick.id} is shorter, but {_impossible(asked, shorter[0].lost, 'could then')}"
    else:
        why = f"{shorter[0].stick.id} is shorter, but then less would be left in one piece after the whole job"
    said = [f"Cut it from {stick.id}: {why}."]
    if long:
        said.append(f"The {exact(long)} left for trimming is in the blank of {about(asked.blanks[0].length)}.")
    if left:
        said.append(f"Of the {about(interval.length)} that can be used there, {about(left)} is left.")
    else:
        said.append(f"It takes all of the {about(interval.length)} that can be used there.")
    if lost is None:
        said.append("Whether every listed part can be made besides is not settled: make the whole plan.")
    elif lost:
        said.append(f"Besides it, {_impossible(asked, lost, 'cannot')}.")
    elif len(asked.blanks) > 1:
        said.append("Every listed part of the section can still be made.")
    return " ".join(said)


def _others(asked: Problem, best: Packing, chosen: Stick, lost: tuple[str, ...]):
    """The other sticks that could serve, shortest piece first, and what each would cost the job."""
    first = asked.blanks[0]
    able = {asked.places[n][0].id: asked.places[n] for n in reversed(_serving(asked))}
    shown = sorted(((s, i) for s, i in able.values() if s.id != chosen.id), key=lambda place: (place[1].length, place[0].id))[:MOST_OTHERS]
    for stick, interval in shown:
        left = max(Fraction(0), interval.length - first.length - asked.instance.kerf * asked.unit)
        said, more = f"{stick.id} would leave {about(left)} of {about(interval.length)}", ()
        if len(asked.blanks) > 1:
            pinned = _pinned(asked, stick)
            _, then, proven = _cut_from(pinned, Effort(BUDGET / len(shown)), [_moved(asked, best, pinned, stick)], levels=1)
            more = tuple(part_id for part_id in then if part_id not in lost)
            if more and not proven:
                more, said = (), f"{said}; whether every listed part could then be made is not settled"
        yield Other(stick, left, more, f"{said}, and {_impossible(asked, more, 'could then')}." if more else f"{said}.")


def _impossible(asked: Problem, lost: Sequence[str], verb: str) -> str:
    """That parts cannot be made: "A5R could then not be made", "not all of A3 could then be made"."""
    pieces = Counter(blank.part.id for blank in asked.blanks)
    single = [part_id for part_id in lost if pieces[part_id] == 1]
    several = [part_id for part_id in lost if pieces[part_id] > 1]
    said = []
    if single:
        said.append(f"{_and(single)} {verb} not be made".replace("cannot not", "cannot"))
    if several:
        said.append(f"not all of {_and(several)} {verb.replace('cannot', 'can')} be made")
    return ", and ".join(said)


def _none(asked: Problem, blank: Blank, shop: Shop, rack: Rack) -> str:
    need = about(blank.length + shop.kerf)
    pin = blank.part.only_stick
    if pin:
        named = next((stick for stick in rack.sticks if stick.id == pin), None)
        if named is None:
            return f"The plans name {pin} for it, and {pin} is not on the rack: nothing else may serve."
        return " ".join([f"The plans name {pin} for it, and it cannot serve.", *refusals(blank.part, named, shop)])
    longest = max((interval.length for _, interval in asked.places), default=None)
    if longest is None:
        return f"No stick on the rack serves: there is none of {asked.section.size}, {asked.alloy}, that may be used."
    return f"No stick on the rack serves: the longest piece is {about(longest)}, and the blank with its cut takes {need}."


def _and(names: Sequence[str]) -> str:
    names = list(names)
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
