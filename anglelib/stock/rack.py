"""The rack: the sticks on hand, and the lengths of each that can still be used.

x runs along a stick from its end 1, as it lies on the rack. What cannot be used (a trim at an end, a
dent) splits a stick into usable intervals.

>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> stick = Stick("S-30", stock, "6061-T6", 48, "1/4", "1/4", dents=[("29 1/2", 31)])
>>> [(exact(i.start), exact(i.end)) for i in stick.intervals()]
[('1/4', '29 1/2'), ('31', '47 3/4')]
>>> Stick("S-1", stock, "6061-T6", 48, dents=[(40, 49)])
Traceback (most recent call last):
    ...
anglelib.errors.RackError: Stick S-1 has a dent from 40 to 49, but the stick is 48 long: measure the dent from end 1 again.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

from anglelib.errors import LengthError, RackError
from anglelib.hashed import hashed_once
from anglelib.lengths import exact, inches
from anglelib.names import check_id, check_text
from anglelib.near import did_you_mean
from anglelib.section import Section
from anglelib.stock.equal_sticks import in_rows, runs
from anglelib.stock.wording import and_more

MOST_ALLOY_CHARACTERS = 20
MOST_LOT_CHARACTERS = 40
UNKNOWN = ("", "unknown")
"""How a rack says that a stick carries no mark of its alloy."""


class Interval(NamedTuple):
    """A usable length of a stick, from ``start`` to ``end`` along it from end 1 [in].

    ``freed`` says whether a cut must free its near end first (a trim, or a dent before it),
    ``unsawn`` whether a blank may end at its far end without a cut, and ``spare`` whether what lies
    beyond its far end is lost in any case (a trim, a dent), so that the last cut may run into that.
    """

    start: Fraction
    end: Fraction
    freed: bool
    unsawn: bool
    spare: bool = False

    @property
    def length(self) -> Fraction:
        """How much of it there is [in]."""
        return self.end - self.start

    def holds(self, kerf: Fraction) -> Fraction:
        """How much its blanks may take, each with a kerf [in]: the last one need not leave room for its own."""
        return self.length + (kerf if self.unsawn or self.spare else 0)


@hashed_once
@dataclass(frozen=True)
class Stick:
    """A length of stock on the rack; all lengths [in], exact.

    ``alloy`` is what is stamped on it ("" where nothing is: such a stick is not used until it is
    identified). ``trim_1`` and ``trim_2`` are what each end loses when it is trimmed square, the
    blade included. ``dents`` are unusable from one x to another. ``far_end_good``: end 2 is square
    and sound, so that a blank may end there unsawn; an end with a trim is trimmed all the same.
    ``remnant``: it is left of an earlier stick.
    ``hands_off``: it is kept for something else and never cut. ``lot`` is the lot or heat number that is stamped on it or stands in its
    certificate ("": none is known); what is left of it has the same. ``one_of`` is the row of equal sticks that lists it (S-04 lists
    S-04.1, S-04.2 ...; "": it has a row of its own): where it is written, no part of what it is.
    Raises :class:`~anglelib.errors.RackError` with the remedy.
    """

    id: str
    section: Section
    alloy: str
    length: Fraction
    trim_1: Fraction = Fraction(0)
    trim_2: Fraction = Fraction(0)
    dents: tuple[tuple[Fraction, Fraction], ...] = ()
    far_end_good: bool = False
    remnant: bool = False
    hands_off: bool = False
    note: str = ""
    lot: str = ""
    one_of: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        check_id(self.id, "stick id", RackError)
        if not isinstance(self.section, Section):
            raise RackError(f"Stick {self.id} has no section: give its legs and thickness.")
        check_text(self.alloy, f"alloy of stick {self.id}", RackError, MOST_ALLOY_CHARACTERS)
        if self.alloy.strip().lower() in UNKNOWN:
            object.__setattr__(self, "alloy", "")
        check_text(self.note, f"note of stick {self.id}", RackError)
        check_text(self.lot, f"lot of stick {self.id}", RackError, MOST_LOT_CHARACTERS)
        if self.one_of:
            check_id(self.one_of, f"row of stick {self.id}", RackError)
        for key, what, zero in (
            ("length", f"length of stick {self.id}", False),
            ("trim_1", f"trim at end 1 of stick {self.id}", True),
            ("trim_2", f"trim at end 2 of stick {self.id}", True),
        ):
            object.__setattr__(self, key, _length(getattr(self, key), what, zero))
        object.__setattr__(self, "dents", self._checked_dents(self.dents))
        if self.trim_1 + self.trim_2 >= self.length:
            raise RackError(
                f"Stick {self.id} is {exact(self.length)} long, and its trims of {exact(self.trim_1)} and "
                f"{exact(self.trim_2)} leave nothing: check the trims, or take it off the rack."
            )

    def _checked_dents(self, dents: Iterable) -> tuple[tuple[Fraction, Fraction], ...]:
        found = []
        for dent in dents:
            try:
                begin, end = dent
            except (TypeError, ValueError):
                raise RackError(f"A dent of stick {self.id} needs two lengths: where it begins and where it ends.") from None
            begin = _length(begin, f"start of a dent of stick {self.id}", True)
            end = _length(end, f"end of a dent of stick {self.id}", True)
            if begin >= end:
                raise RackError(f"Stick {self.id} has a dent from {exact(begin)} to {exact(end)}: it must end beyond where it begins.")
            if end > self.length:
                raise RackError(
                    f"Stick {self.id} has a dent from {exact(begin)} to {exact(end)}, but the stick is "
                    f"{exact(self.length)} long: measure the dent from end 1 again."
                )
            found.append((begin, end))
        return tuple(sorted(found))

    @property
    def identified(self) -> bool:
        """Whether its alloy is known."""
        return bool(self.alloy)

    @property
    def square_2(self) -> bool:
        """Whether a blank may end at end 2 without a cut: it is square and sound, and nothing is trimmed off it."""
        return self.far_end_good and not self.trim_2

    def intervals(self, kerf: Fraction = Fraction(0)) -> tuple[Interval, ...]:
        """The usable lengths, from end 1 on.

        A cut beyond a dent turns its kerf to dust in the dent, so that a dent takes at least a kerf; so does one before it.
        """
        found, start, freed = [], self.trim_1, self.trim_1 > 0
        stop = self.length - self.trim_2
        for begin, end in self.dents:
            if begin > start:
                found.append(Interval(start, min(begin, stop), freed, False, True))
                end = max(end, begin + kerf)
            start, freed = max(start, end), True
        if stop > start:
            found.append(Interval(start, stop, freed, self.square_2, self.trim_2 > 0))
        return tuple(i for i in found if i.length > 0)


@hashed_once
@dataclass(frozen=True)
class Rack:
    """The sticks on hand, with ids that are all different; equal ones of one row stand together, by their numbers.

    >>> Rack([]).stick("S-9")
    Traceback (most recent call last):
        ...
    anglelib.errors.RackError: There is no stick "S-9": the rack has none.
    """

    sticks: tuple[Stick, ...] = ()

    def __post_init__(self) -> None:
        object.__setattr__(self, "sticks", in_rows(self.sticks))
        seen: dict[str, str] = {}
        for stick in self.sticks:
            if not isinstance(stick, Stick):
                raise RackError("A rack holds sticks: give each its id, section, alloy and length.")
            other = seen.get(stick.id.lower())
            seen[stick.id.lower()] = stick.id
            if other is not None:
                same = "another stick has it too" if other == stick.id else f"{other} differs only in capitals"
                raise RackError(f"The stick id {stick.id} is not its own: {same}. Rename one.")

    def stick(self, stick_id: str) -> Stick:
        """The stick with this id; raises :class:`~anglelib.errors.RackError` naming those there are."""
        for stick in self.sticks:
            if stick.id == stick_id:
                return stick
        equal = [stick.id for stick in self.sticks if stick.one_of == stick_id]
        if equal:
            raise RackError(f"{stick_id} lists {len(equal)} equal sticks: name the one, as its sheet has it ({and_more(runs(equal))}).")
        meant = did_you_mean(stick_id, [stick.id for stick in self.sticks])
        known = and_more([s.id for s in self.sticks]) or "none"
        raise RackError(f'There is no stick "{stick_id[:32]}": {meant or f"the rack has {known}."}')


def _length(value: object, what: str, zero: bool) -> Fraction:
    try:
        return inches(value, what, zero=zero)  # type: ignore[arg-type]
    except LengthError as error:
        raise RackError(str(error)) from None
