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
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import LengthError, PlanError
from anglelib.job import Job, Shop
from anglelib.lengths import inches, unit_written
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.blank import Blank, blank_for, blanks
from anglelib.stock.effort import Effort
from anglelib.stock.fit import alike, refusals
from anglelib.stock.instance import Packing
from anglelib.stock.least_change import carry_over
from anglelib.stock.problem import Problem, problem, usable
from anglelib.stock.rack import Interval, Rack, Stick
from anglelib.stock.reasons import Reason
from anglelib.stock.rules import RULES
from anglelib.stock.settle import settle
from anglelib.stock.small import best_packing

BUDGET = 0.4
"""Deterministic work for one question about the whole job: a fraction of a second."""
MOST_OTHERS = 6
"""How many other sticks are tried against the job."""


ONLY, SHORTEST, NAMED, SPARES, LEAVES_MORE = "only", "shortest", "named", "spares", "leaves-more"
"""Why a stick is the one to cut: no other serves; it is the shortest that does; the plans name it; a shorter one would cost
listed parts; a shorter one would leave less in one piece."""
NAMED_GONE, NAMED_UNFIT, NO_STOCK, TOO_LONG = "named-gone", "named-unfit", "no-stock", "too-long"
"""Why none is: the stick that the plans name is not there, or cannot serve; there is no stock of the part; the part is too long."""


@dataclass(frozen=True)
class Lost:
    """Listed parts, in the order of their claims, that cannot be made besides; of those ``several`` more than one is wanted."""

    parts: tuple[str, ...] = ()
    several: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.parts)


@dataclass(frozen=True)
class Other:
    """Another stick that could serve, and what cutting the part from it would cost.

    It would leave ``left`` of the ``usable`` that there is [in], and no metal for the parts ``lost``. ``settled``: no more
    would be lost.
    """

    stick: Stick
    left: Fraction
    usable: Fraction
    costs: Lost = Lost()
    settled: bool = True

    @property
    def lost(self) -> tuple[str, ...]:
        """The listed parts that could then not be made, or not all of them."""
        return self.costs.parts

    @property
    def sentence(self) -> str:
        """In words."""
        from anglelib.stock.one_words import other

        return other(self)


@dataclass(frozen=True)
class OneNow:
    """The answer for one part: the stick and what remains of the piece cut, or None; ``why`` is the id of the reason.

    ``line`` is where to part the blank off, from the squared end [in], ``rough`` by hacksaw; ``blank`` its sawn length, ``needs`` the same with
    its cut (without, where the longest piece needs no room for it), ``extra`` what of it is left for trimming. ``others`` are further sticks that could serve, ``shorter`` the one
    of them that would be taken but for its cost; ``refused`` every reason against the rest. ``lost`` are the listed parts
    that cannot be made besides (None: not settled), ``listed``: there are such parts. Where no stick serves: the ``named``
    stick, the ``against`` it, the ``longest`` piece there is [in].
    """

    part: Part
    blank: Fraction
    needs: Fraction
    why: str
    stick: Stick | None = None
    interval: Interval | None = None
    line: Fraction | None = None
    left: Fraction | None = None
    extra: Fraction = Fraction(0)
    others: tuple[Other, ...] = ()
    refused: tuple[Reason, ...] = ()
    shorter: Other | None = None
    lost: Lost | None = Lost()
    listed: bool = False
    named: str = ""
    against: tuple[Reason, ...] = ()
    longest: Fraction | None = None
    rough: bool = False

    @property
    def sentence(self) -> str:
        """Which stick and why, and what is left; or why none."""
        from anglelib.stock.one_words import sentence

        return sentence(self)


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
    ours = [b for b in listed if b.part.id == part_id]
    piece = next((b for b in ours if not b.pin), ours[0] if ours else None)  # any of its pieces but those that a stick is named for
    of = job.part(part_id) if job is not None and part_id else None
    pin = only_stick or (piece.stick if piece is not None else of.only_stick if of is not None else "")
    barred = of.not_from if of is not None else ()
    part = Part("this-part", "This part", section, alloy, finished + long, only_stick=pin, not_from=barred, unit=unit_written())
    blank = blank_for(part, 1, shop)
    if piece is not None:
        listed.remove(piece)
    asked = problem(section, alloy, [blank, *listed], usable(rack, section, alloy), shop)
    refused = tuple(reason for stick in rack.sticks for reason in refusals(part, stick, shop))
    asks = OneNow(part, blank.length, blank.length + shop.kerf, "", extra=long, refused=refused, listed=bool(listed), named=pin)
    if not _serving(asked):
        return _none(asks, asked, rack, shop)
    best, lost, proven = _cut_from(asked, Effort(BUDGET))
    place = _place(asked, best)
    stick, interval = asked.places[place]
    left = max(Fraction(0), interval.length - blank.length - shop.kerf)
    line, rough = _line(blank, stick, interval, shop)
    others = tuple(_others(asked, best, stick, lost))
    shorter = next((other for other in others if other.left < left), None)
    why = _why(asked, shorter)
    besides = _lost(asked, lost) if proven else None
    return replace(
        asks, why=why, stick=stick, interval=interval, line=line, rough=rough, left=left, others=others, shorter=shorter, lost=besides
    )


def _line(blank: Blank, stick: Stick, interval: Interval, shop: Shop) -> tuple[Fraction, bool]:
    """Where a blank is parted off, from the squared end, and whether by hacksaw: neither piece goes into the throat."""
    sawn = blank.length - blank.rough
    rough = shop.saw is not None and not shop.saw.sawn_across(sawn, stick.length - interval.start - sawn - shop.kerf)
    return sawn + (shop.wander if rough else 0), rough


def _serving(asked: Problem) -> list[int]:
    """The places from which the part can be cut, shortest first."""
    instance = asked.instance
    need = instance.sizes[instance.claims[0]].width
    allows = instance.sizes[instance.claims[0]].allows
    able = [n for n, s in enumerate(instance.spaces) if need <= instance.capacity(s) and allows(s.stick)]
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


def _why(asked: Problem, shorter: Other | None) -> str:
    if asked.blanks[0].part.only_stick:
        return NAMED
    if shorter is None:
        return ONLY if len(_serving(asked)) == 1 else SHORTEST
    return SPARES if shorter.costs else LEAVES_MORE


def _lost(asked: Problem, lost: Sequence[str]) -> Lost:
    pieces = Counter(blank.part.id for blank in asked.blanks)
    return Lost(tuple(lost), tuple(part_id for part_id in lost if pieces[part_id] > 1))


def _others(asked: Problem, best: Packing, chosen: Stick, lost: tuple[str, ...]) -> Iterator[Other]:
    """The other sticks that could serve, shortest piece first, and what each would cost the job."""
    first = asked.blanks[0]
    able = {asked.places[n][0].id: asked.places[n] for n in reversed(_serving(asked))}
    shown = sorted(((s, i) for s, i in able.values() if s.id != chosen.id), key=lambda place: (place[1].length, place[0].id))[:MOST_OTHERS]
    for stick, interval in shown:
        left = max(Fraction(0), interval.length - first.length - asked.instance.kerf * asked.unit)
        more, settled = Lost(), True
        if len(asked.blanks) > 1:
            pinned = _pinned(asked, stick)
            _, then, proven = _cut_from(pinned, Effort(BUDGET / len(shown)), [_moved(asked, best, pinned, stick)], levels=1)
            more = _lost(asked, [part_id for part_id in then if part_id not in lost])
            if more and not proven:
                more, settled = Lost(), False
        yield Other(stick, left, interval.length, more, settled)


def _none(asks: OneNow, asked: Problem, rack: Rack, shop: Shop) -> OneNow:
    """The answer where no stick serves."""
    if asks.named:
        named = next((stick for stick in rack.sticks if stick.id == asks.named), None)
        if named is None:
            return replace(asks, why=NAMED_GONE)
        return replace(asks, why=NAMED_UNFIT, against=refusals(asks.part, named, shop))
    longest = max((interval for _, interval in asked.places), key=lambda interval: interval.holds(shop.kerf), default=None)
    if longest is None:
        return replace(asks, why=NO_STOCK)
    return replace(asks, why=TOO_LONG, longest=longest.length, needs=asks.needs + longest.length - longest.holds(shop.kerf))
