"""The rack's record: the sticks on hand, and every stick that was cut: when, for which job, into what.

A stick that is cut leaves the rack. What is left of it are sticks of their own, with tags made from
its id: S-01 leaves S-01-R1, and what is left of that is S-01-R2. A tag is given once: the record
keeps those of all sticks that were ever cut, so that no two pieces of metal ever had the same.

>>> from anglelib.section import Section
>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A3", "Bar", stock, "6061-T6", "17 1/4", quantity=4)])
>>> record = Record(Rack([Stick("S-1", stock, "6061-T6", 56)]))
>>> record = record.marked(Mark("S-1", pieces_from("2 x A3")), job, on="2024-05-01")
>>> [(stick.id, exact(stick.length)) for stick in record.rack.sticks], dict(record.made("Demo"))
([('S-1-R1', '21 1/4')], {'A3': 2})
>>> print(record.cut[0])
S-1, 56: cut on 2024-05-01 for Demo: 2 x A3 at 17 5/16
>>> record.marked(Mark("S-1", pieces_from("A3")), job)
Traceback (most recent call last):
    ...
anglelib.errors.RackError: S-1 is cut already (on 2024-05-01 for Demo: 2 x A3 at 17 5/16); what is left of it is S-1-R1: mark the cuts on that, or undo the earlier ones first.
>>> record.undone("S-1").rack.sticks[0].id
'S-1'
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.errors import BenchError, PlanError, RackError
from anglelib.job import Job, Shop
from anglelib.lengths import about, exact, read
from anglelib.names import check_id, check_text
from anglelib.near import did_you_mean
from anglelib.part import MOST_QUANTITY, Part
from anglelib.stock.blank import Blank
from anglelib.stock.cutting import lay_out, remnant_name
from anglelib.stock.fit import alike, refusals
from anglelib.stock.instance import count
from anglelib.stock.plan import StickPlan
from anglelib.stock.problem import problem
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.small import best_packing

MOST_DAY_CHARACTERS = 20
_PIECE = re.compile(r"(?:(\d{1,4})\s*x\s+)?(\S+)(?:\s+at\s+(\S.*?))?(\s+spoiled)?", re.IGNORECASE)
_BETWEEN = re.compile(r"[;,]")


@dataclass(frozen=True)
class Piece:
    """So many equal pieces that were sawn: the part they are for, their sawn length [in], and whether they are spoiled.

    A length of None stands for the blank of the part as the job has it.
    """

    part_id: str
    number: int = 1
    length: Fraction | None = None
    spoiled: bool = False

    def __post_init__(self) -> None:
        check_id(self.part_id, "part id", RackError)
        if not 1 <= self.number <= MOST_QUANTITY:
            raise RackError(f"{self.number} x {self.part_id} cannot be cut: write a number from 1 to {MOST_QUANTITY}.")

    def __str__(self) -> str:
        times = f"{self.number} x " if self.number > 1 else ""
        at = f" at {exact(self.length)}" if self.length is not None else ""
        return f"{times}{self.part_id}{at}{' spoiled' if self.spoiled else ''}"


def pieces_from(text: str, unit: str = "in") -> tuple[Piece, ...]:
    """Pieces as a person writes them; ``unit`` is what a bare number means.

    >>> print(*pieces_from("A4, 2 x A3 at 17 5/16 in; A2L spoiled"), sep=" | ")
    A4 | 2 x A3 at 17 5/16 | A2L spoiled
    >>> pieces_from("2 of A3")
    Traceback (most recent call last):
        ...
    anglelib.errors.RackError: "2 of A3" says of no part how many were cut: write it like 2 x A3, or A3 spoiled.
    """
    found = []
    for words in filter(None, (words.strip() for words in _BETWEEN.split(text))):
        read_ = _PIECE.fullmatch(words)
        if read_ is None:
            raise RackError(f'"{words[:40]}" says of no part how many were cut: write it like 2 x A3, or A3 spoiled.')
        number, part_id, length, spoiled = read_.groups()
        at = read(length, what=f"sawn length of {part_id[:40]}", zero=False, unit=unit) if length else None
        found.append(Piece(part_id, int(number or 1), at, bool(spoiled)))
    if not found:
        raise RackError("No part is named: write what was cut, for example 2 x A3.")
    return tuple(found)


@dataclass(frozen=True)
class Mark:
    """What a builder says was cut from a stick; ``planned`` is the stick as the plan has it, where it was cut so."""

    stick_id: str
    pieces: tuple[Piece, ...]
    planned: StickPlan | None = None


@dataclass(frozen=True)
class CutStick:
    """A stick that is no longer there: on which day, for which job and into which pieces it was cut."""

    stick: Stick
    on: str
    job: str
    pieces: tuple[Piece, ...]

    def __post_init__(self) -> None:
        check_text(self.on, "day of the cut", RackError, MOST_DAY_CHARACTERS)
        check_text(self.job, "name of the job", RackError)

    @property
    def words(self) -> str:
        """When, for what, into what."""
        day, job = f"on {self.on}" if self.on else "", f"for {self.job}" if self.job else ""
        return f"{' '.join(filter(None, (day, job))) or 'earlier'}: {', '.join(map(str, self.pieces))}"

    def __str__(self) -> str:
        return f"{self.stick.id}, {exact(self.stick.length)}: cut {self.words}"


@dataclass(frozen=True)
class Record:
    """The rack, the sticks that were cut, and for each remnant the stick that it is left of.

    Raises :class:`~anglelib.errors.RackError` where two sticks, there or cut, have one id.
    """

    rack: Rack
    cut: tuple[CutStick, ...] = ()
    origins: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        Rack((*self.rack.sticks, *(old.stick for old in self.cut)))
        object.__setattr__(self, "origins", tuple(sorted(self.origins)))

    def left_of(self, stick_id: str) -> tuple[Stick, ...]:
        """What is on the rack of a stick that was cut, however often, longest first."""
        family = [stick_id]
        for name in family:  # it grows while it is walked
            family += [child for child, parent in self.origins if parent == name and child not in family]
        here = [stick for stick in self.rack.sticks if stick.id in family[1:]]
        return tuple(sorted(here, key=lambda stick: (-stick.length, stick.id)))

    def made(self, job: str) -> Counter[str]:
        """How many pieces of each part of a job are made, without the spoiled ones."""
        found: Counter[str] = Counter()
        for old in self.cut:
            for piece in old.pieces:
                if old.job == job and not piece.spoiled:
                    found[piece.part_id] += piece.number
        return found

    def still_wanted(self, job: Job) -> Job | None:
        """The job without what is made; None where everything is.

        A part that the plans give to a stick comes from what is left of that stick.
        """
        made = self.made(job.name)
        rest = [replace(part, quantity=part.quantity - made[part.id]) for part in job.parts if part.quantity > made[part.id]]
        kept = {part.id for part in rest}
        rest = [replace(p, mirror_of=p.mirror_of if p.mirror_of in kept else "", only_stick=self._follow(p.only_stick)) for p in rest]
        return replace(job, parts=tuple(rest)) if rest else None

    def _follow(self, stick_id: str) -> str:
        if stick_id and any(old.stick.id == stick_id for old in self.cut):
            return next((stick.id for stick in self.left_of(stick_id)), stick_id)
        return stick_id

    # --- cuts done -----------------------------------------------------------------------------------
    def marked(self, mark: Mark, job: Job | None = None, on: str = "", shop: Shop | None = None) -> Record:
        """The record once a stick is cut: the stick gone, what is left of it in its place.

        Raises :class:`~anglelib.errors.BenchError` for a stick that is not there, for pieces that it
        cannot have given, for a piece that cannot be the part (another section or alloy, or sawn too
        short; a spoiled one may be), and for more pieces of a part than the job wants.
        """
        stick = self.on_hand(mark.stick_id)
        if mark.planned is not None and mark.planned.stick != stick:
            raise RackError(f"{stick.id} is not any more as it was when its cuts were planned: plan again, and look at it before you cut.")
        pieces = tuple(self._sized(piece, job) for piece in mark.pieces)
        if job is not None:
            _refuse_another(pieces, stick, job)
            self._refuse_too_many(pieces, job)
        planned = mark.planned
        if planned is None:
            planned = _sawn(stick, pieces, shop or (job.shop if job is not None else Shop()))
        left, origins = [], []
        taken = {s.id.lower() for s in self.rack.sticks} | {old.stick.id.lower() for old in self.cut}
        for remnant in planned.remnants:
            name = remnant.stick.id if remnant.stick.id.lower() not in taken else remnant_name(stick.id, taken)
            taken.add(name.lower())
            left.append(replace(remnant.stick, id=name))
            origins.append((name, stick.id))
        sticks = [new for old in self.rack.sticks for new in (left if old is stick else [old])]
        done = CutStick(stick, on, job.name if job is not None else "", pieces)
        return Record(Rack(tuple(sticks)), (*self.cut, done), (*self.origins, *origins))

    def undone(self, stick_id: str) -> Record:
        """The record without a cut that was marked by mistake: the stick is back, what was left of it gone."""
        old = self._cut_stick(stick_id)
        children = [child for child, parent in self.origins if parent == stick_id]
        again = next((other for other in self.cut if other.stick.id in children), None)
        if again is not None:
            raise RackError(f"{again.stick.id}, which was left of {stick_id}, is cut too ({again.words}): undo that first.")
        sticks = [stick for stick in self.rack.sticks if stick.id not in children]
        place = next((n for n, stick in enumerate(self.rack.sticks) if stick.id in children), len(sticks))
        sticks.insert(place, old.stick)
        origins = tuple(pair for pair in self.origins if pair[1] != stick_id)
        return Record(Rack(tuple(sticks)), tuple(other for other in self.cut if other is not old), origins)

    def spoiled(self, stick_id: str, part_id: str) -> Record:
        """The record with one piece of a part, cut from a stick, found to be spoiled: it is wanted again."""
        old = self._cut_stick(stick_id)
        good = next((piece for piece in old.pieces if piece.part_id == part_id and not piece.spoiled), None)
        if good is None:
            meant = did_you_mean(part_id, [piece.part_id for piece in old.pieces if not piece.spoiled and piece.part_id != part_id])
            raise RackError(f"No good piece of {part_id[:40]} is marked on {stick_id} ({old.words}): {meant or 'check the part and the stick.'}")
        less = [replace(good, number=good.number - 1)] if good.number > 1 else []
        pieces = [new for piece in old.pieces for new in ([*less, replace(good, number=1, spoiled=True)] if piece is good else [piece])]
        now = replace(old, pieces=tuple(pieces))
        return replace(self, cut=tuple(now if other is old else other for other in self.cut))

    # --- what cannot be meant --------------------------------------------------------------------------
    def on_hand(self, stick_id: str) -> Stick:
        """The stick with this id, if it is not cut yet."""
        old = next((old for old in self.cut if old.stick.id.lower() == stick_id.lower()), None)
        if old is None:
            return self.rack.stick(stick_id)
        left = self.left_of(old.stick.id)
        rest = f"what is left of it is {', '.join(s.id for s in left)}" if left else "nothing is left of it"
        do = "mark the cuts on that, or undo the earlier ones first" if left else "check the stick's tag, or undo those cuts first"
        raise RackError(f"{old.stick.id} is cut already ({old.words}); {rest}: {do}.")

    def _cut_stick(self, stick_id: str) -> CutStick:
        old = next((old for old in self.cut if old.stick.id == stick_id), None)
        if old is None:
            known = ", ".join(old.stick.id for old in self.cut[-20:])
            which = f"those that are cut are {known}" if known else "no stick is marked as cut"
            meant = did_you_mean(stick_id, [old.stick.id for old in self.cut])
            raise RackError(f'No cut of a stick "{stick_id[:40]}" is marked: {meant or f"{which}."}')
        return old

    def _sized(self, piece: Piece, job: Job | None) -> Piece:
        if piece.length is not None:
            return piece
        if job is None:
            raise RackError(f"How long {piece.part_id} was sawn is not said: write it like {piece.part_id} at 17 5/16.")
        return replace(piece, length=job.part(piece.part_id).length + 2 * job.shop.allowance)

    def _refuse_too_many(self, pieces: Iterable[Piece], job: Job) -> None:
        made, now = self.made(job.name), Counter()
        for piece in pieces:
            if not piece.spoiled:
                now[piece.part_id] += piece.number
        for part in job.parts:
            if now[part.id] and made[part.id] + now[part.id] > part.quantity:
                raise RackError(
                    f"Of {part.id} {part.quantity} {'is' if part.quantity == 1 else 'are'} wanted, and {made[part.id]} marked as made: "
                    f"{now[part.id]} more is too many. Check the part; if one was spoiled, mark that first."
                )


def _refuse_another(pieces: Iterable[Piece], stick: Stick, job: Job) -> None:
    """Pieces that cannot be the parts that they are marked as: the part would count as made, and never be made."""
    parts = {part.id: part for part in job.parts}
    for piece in pieces:
        part = parts.get(piece.part_id)
        if part is None and any(known.lower() == piece.part_id.lower() for known in parts):
            job.part(piece.part_id)  # says which was meant; another name altogether is a piece for something else
        if part is None or piece.spoiled:
            continue
        if not alike(part.section, stick.section) or (stick.identified and stick.alloy != part.alloy):
            why = next(reason for reason in refusals(replace(part, only_stick=""), replace(stick, hands_off=False)))
            raise RackError(f"No {part.id} comes from {stick.id}: {why.sentence} Check the tag, or mark the piece as spoiled: {part.id} spoiled.")
        if piece.length is not None and piece.length < part.length:
            raise RackError(
                f"{part.id} is {exact(part.length)} long when finished, and {exact(piece.length)} was sawn: check the length, "
                f"or mark the piece as spoiled: {part.id} at {exact(piece.length)} spoiled."
            )


def _sawn(stick: Stick, pieces: tuple[Piece, ...], shop: Shop) -> StickPlan:
    """The stick sawn into pieces: where they lie, and what is left."""
    sawn = []
    for piece in pieces:
        part = Part(piece.part_id, piece.part_id, stick.section, stick.alloy or "unknown", piece.length, quantity=piece.number)
        sawn += [Blank(part, n, piece.length) for n in range(1, piece.number + 1)]  # type: ignore[arg-type]
    asked = problem(stick.section, stick.alloy, sawn, [stick], shop)
    demand = count(asked.instance.claims, len(asked.instance.sizes))
    if len(asked.places) == 1:
        packing = (demand,)
        whole = asked.instance.fits(demand, asked.instance.spaces[0])
    else:
        try:
            packing = best_packing(asked.instance)
        except PlanError:
            raise RackError(f"{stick.id} has a dent, and {len(sawn)} pieces lie about it in too many ways: mark a few of them at a time.") from None
        whole = asked.instance.output(packing) == demand
    if not whole:
        needs = sum(((piece.length + shop.kerf) * piece.number for piece in pieces), Fraction(0))  # type: ignore[operator]
        usable = " and ".join(about(interval.length) for _, interval in asked.places) or "nothing"
        raise RackError(
            f"{stick.id} cannot have given {', '.join(map(str, pieces))}: with its cuts that takes {about(needs)}, and of the stick "
            f"{usable} can be used. Check the tag, and measure what is left of it."
        )
    return lay_out(asked, packing, shop, ())[0]


def pieces_of(planned: StickPlan) -> tuple[Piece, ...]:
    """What a planned stick gives, in the order of its cuts."""
    found: dict[tuple[str, Fraction], int] = {}
    for placed in planned.placed:
        key = placed.blank.part.id, placed.blank.length
        found[key] = found.get(key, 0) + 1
    return tuple(Piece(part_id, number, length) for (part_id, length), number in found.items())


def mark_from(text: str, unit: str = "in") -> tuple[str, tuple[Piece, ...]]:
    """The stick and its pieces, "S-05: A4, 2 x A3"; no pieces where only the stick is named. ``unit`` is what a bare number means.

    >>> mark_from("S-05")
    ('S-05', ())
    """
    stick_id, colon, rest = text.partition(":")
    try:
        check_id(stick_id.strip(), "stick id", RackError)
    except BenchError:
        raise RackError(f'"{text[:40]}" does not begin with a stick: write it like "S-05: A4, 2 x A3".') from None
    return stick_id.strip(), pieces_from(rest, unit) if colon else ()
