"""The part: the one frozen description from which every mark, drawing, card and plan is computed.

x runs along the heel from end 1, the datum; y on a leg is measured from the heel on its outer face.

>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Floor cleat, left", stock, "6061-T6", "2 1/8",
...              tapers=[Taper("A", 1, "3/8", run="1 1/4")], hand="left")
>>> cleat.handed
True
>>> Part("A1", "Floor cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")], hand="neither")
Traceback (most recent call last):
    ...
anglelib.errors.PartError: Part A1 says "neither", but it is handed: its mirror image is another part. Say left or right, as the plans do.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property, wraps
from typing import Any, TypeVar

from anglelib.errors import LengthError, PartError
from anglelib.hashed import hashed_once
from anglelib.lengths import UNITS, exact, inches, own, writing
from anglelib.names import MOST_NAME_CHARACTERS, check_id, check_text, visible
from anglelib.section import LEGS, Section, other_leg

ENDS = (1, 2)
HANDS = ("left", "right", "neither")
MOST_QUANTITY = 2000
"""The most pieces of one part, and of a whole job."""
BROKEN = Fraction(1, 64)
"""By how much an edge is broken [in], a feather edge too; common practice."""


_Made = TypeVar("_Made")


def other_end(end: int) -> int:
    """The end that is not this one.

    >>> other_end(1)
    2
    """
    return 3 - end


def _length(value: object, what: str, **allowed: bool) -> Fraction:
    try:
        return inches(value, what, **allowed)  # type: ignore[arg-type]
    except LengthError as error:
        raise PartError(str(error)) from None


def _where(leg: object, end: object | None = None) -> None:
    if leg not in LEGS:
        raise PartError(f'There is no leg "{leg}": write A or B.')
    if end is not None and (end not in ENDS or isinstance(end, bool)):
        raise PartError(f'There is no end "{end}": write 1 (the datum end) or 2.')


def degrees_of(value: object, what: str) -> Fraction:
    """An angle from the heel [deg], exact, between 0 and 90: whole numbers, Fractions or text like "22.5".

    >>> degrees_of("22.5", "angle of the taper")
    Fraction(45, 2)
    >>> degrees_of(90, "angle of the taper")
    Traceback (most recent call last):
        ...
    anglelib.errors.PartError: The angle of the taper is 90 degrees: it must lie between 0 and 90, measured from the heel. A square cut is no taper.
    """
    if isinstance(value, str):
        text = value.strip().removesuffix("°").removesuffix("deg").strip()
        whole, _, tail = text.partition(".")
        if not (text.isascii() and (whole + tail).isdigit() and len(text) <= 12):
            raise PartError(f'The {what} "{visible(value)[:20]}" is not a number of degrees: write it like 22.5.')
        number = Fraction(int(whole + tail), 10 ** len(tail))
    elif isinstance(value, (int, Fraction)) and not isinstance(value, bool):
        number = Fraction(value)
    else:
        raise PartError(f"The {what} is not a number of degrees: write it as text, for example \"22.5\".")
    if not 0 < number < 90:
        raise PartError(
            f"The {what} is {float(number):g} degrees: it must lie between 0 and 90, measured from the heel. "
            "A square cut is no taper."
        )
    return number


@hashed_once
@dataclass(frozen=True)
class Taper:
    """One leg cut away towards an end, by a saw cut square to the leg's faces.

    ``width_left`` [in] is what is left of the leg at the end (0: the cut runs to the vertex, where
    the heel meets the end). The slope is given by ``run`` [in], the length along the toe over which
    the taper falls, or by ``angle`` [deg] from the heel; never by both. ``blunt`` [in] is for a cut to
    the vertex, which leaves the other leg a feather edge: to what thickness the plans have it blunted,
    where they do; left out, the edge is only broken.

    >>> Taper("A", 1, run="1 1/4", width_left="3/8").run
    Fraction(5, 4)
    >>> Taper("A", 1, run="1 1/4", angle="20")
    Traceback (most recent call last):
        ...
    anglelib.errors.PartError: This taper gives both a run and an angle: keep the one that is on the plans.
    """

    leg: str
    end: int
    width_left: Fraction = Fraction(0)
    run: Fraction | None = None
    angle: Fraction | None = None
    blunt: Fraction | None = None

    def __post_init__(self) -> None:
        _where(self.leg, self.end)
        if self.run is not None and self.angle is not None:
            raise PartError("This taper gives both a run and an angle: keep the one that is on the plans.")
        if self.run is None and self.angle is None:
            raise PartError("This taper gives neither a run nor an angle: one of them sets its slope.")
        object.__setattr__(self, "width_left", _length(self.width_left, "width left"))
        if self.run is not None:
            object.__setattr__(self, "run", _length(self.run, "run of the taper", zero=False))
        else:
            object.__setattr__(self, "angle", degrees_of(self.angle, "angle of the taper"))
        if self.blunt is not None:
            object.__setattr__(self, "blunt", _length(self.blunt, "thickness that the feather edge is blunted to", zero=False))
            if self.width_left:
                raise PartError(
                    f"This taper leaves {exact(self.width_left)} at its end and is to be blunted: only a taper to the vertex leaves a "
                    "feather edge. Leave blunt out, or write a width left of 0."
                )

    @property
    def edge(self) -> Fraction:
        """How thick the feather edge of a cut to the vertex is when it is finished [in]: blunted as the plans say, else broken."""
        return BROKEN if self.blunt is None else self.blunt


@hashed_once
@dataclass(frozen=True)
class Hole:
    """A located hole: its leg, its centre x from end 1 and y from the heel, the fastener's diameter [in].

    ``flush`` is a countersunk hole for a flush head. What is drilled first (a pilot, the hole's own
    size) is printed from a table, apart from this number.
    """

    leg: str
    x: Fraction
    y: Fraction
    diameter: Fraction
    flush: bool = False

    def __post_init__(self) -> None:
        _where(self.leg)
        object.__setattr__(self, "x", _length(self.x, "distance of the hole from end 1"))
        object.__setattr__(self, "y", _length(self.y, "distance of the hole from the heel"))
        object.__setattr__(self, "diameter", _length(self.diameter, "diameter of the hole", zero=False))


@hashed_once
@dataclass(frozen=True)
class Corner:
    """A corner at the toe of one leg at one end, rounded with a radius [in]."""

    leg: str
    end: int
    radius: Fraction

    def __post_init__(self) -> None:
        _where(self.leg, self.end)
        object.__setattr__(self, "radius", _length(self.radius, "radius of the corner", zero=False))


@hashed_once
@dataclass(frozen=True)
class Cope:
    """One leg cut back square at an end: by ``length`` along the heel, down to ``width_left``; all [in].

    ``radius`` is the radius of the inside corner: a cope never ends in a saw-cut corner.
    """

    leg: str
    end: int
    length: Fraction
    width_left: Fraction
    radius: Fraction

    def __post_init__(self) -> None:
        _where(self.leg, self.end)
        object.__setattr__(self, "length", _length(self.length, "length of the cope", zero=False))
        object.__setattr__(self, "width_left", _length(self.width_left, "width left beside the cope"))
        object.__setattr__(self, "radius", _length(self.radius, "inside radius of the cope", zero=False))
        if self.radius > self.length:
            raise PartError(
                f"The inside radius {exact(self.radius)} is longer than the cope {exact(self.length)}: "
                "lengthen the cope or choose a smaller radius."
            )


_FEATURES = ("tapers", "holes", "corners", "copes")


@dataclass(frozen=True)
class Pinned:
    """So many of a part's pieces that are to come from one stick, by its id."""

    stick: str
    quantity: int = 1

    def __post_init__(self) -> None:
        check_id(self.stick, "stick id", PartError)
        if isinstance(self.quantity, bool) or not isinstance(self.quantity, int) or not 1 <= self.quantity <= MOST_QUANTITY:
            raise PartError(f"{self.quantity!r} is no number of pieces to come from {self.stick}: write 1 or more.")


@hashed_once
@dataclass(frozen=True)
class Part:
    """One part of a job: everything that decides its metal, and what the plans claim about it.

    ``length`` [in] is the finished length along the heel. ``hand`` is the plans' claim (the side of
    the aircraft): "left", "right", "neither", or None where nothing is claimed; a claim that the
    geometry contradicts is refused. ``mirror_of`` names the partner. ``one_piece`` may not be
    spliced; ``later`` reserves its length instead of cutting it now; a larger ``priority`` is made
    first when not all can be; ``only_stick`` is the stick that the plans name; ``pinned`` are those of which a stick is to give a number
    of its pieces, ``not_from`` the sticks from which none of it may come, nor from what is left of them; ``claim`` goes before
    ``priority`` and is never in a file: it is set where several jobs are cut from one rack. ``unit`` is the one that
    the plans give it in, and its sheets are written in.
    Raises :class:`~anglelib.errors.PartError` with the remedy.
    """

    id: str
    name: str
    section: Section
    alloy: str
    length: Fraction
    tapers: tuple[Taper, ...] = ()
    holes: tuple[Hole, ...] = ()
    corners: tuple[Corner, ...] = ()
    copes: tuple[Cope, ...] = ()
    quantity: int = 1
    hand: str | None = None
    mirror_of: str = ""
    one_piece: bool = False
    later: bool = False
    priority: int = 0
    only_stick: str = ""
    note: str = ""
    unit: str = "in"
    pinned: tuple[Pinned, ...] = ()
    not_from: tuple[str, ...] = ()
    claim: int = 0

    def __post_init__(self) -> None:
        check_id(self.id, "part id", PartError)
        check_text(self.name, "name of the part", PartError, MOST_NAME_CHARACTERS)
        check_text(self.note, "note", PartError)
        object.__setattr__(self, "length", _length(self.length, "length of the part", zero=False))
        for field in (*_FEATURES, "pinned", "not_from"):
            object.__setattr__(self, field, tuple(getattr(self, field)))
        self._check_numbers()
        with writing(self.unit):
            self._check_features()
        self._check_hand()

    # --- what is refused --------------------------------------------------------------------
    def _check_numbers(self) -> None:
        if isinstance(self.quantity, bool) or not isinstance(self.quantity, int) or self.quantity < 1:
            raise PartError(f"The quantity {self.quantity!r} is not a number of pieces: write 1 or more.")
        if self.quantity > MOST_QUANTITY:
            raise PartError(f"The quantity {self.quantity} is over {MOST_QUANTITY} pieces: split the job.")
        if isinstance(self.priority, bool) or not isinstance(self.priority, int) or abs(self.priority) > 1000:
            raise PartError(f"The priority {self.priority!r} is not a whole number from -1000 to 1000.")
        if self.hand is not None and self.hand not in HANDS:
            raise PartError(f'The hand "{self.hand}" is unknown: write left, right or neither.')
        if self.unit not in UNITS:
            raise PartError(f'The unit "{self.unit}" is unknown: write in or mm.')

    def _check_features(self) -> None:
        for kind, features in (("taper", self.tapers), ("rounded corner", self.corners), ("cope", self.copes)):
            places = [(f.leg, f.end) for f in features]
            for leg, end in places:
                if places.count((leg, end)) > 1:
                    raise PartError(f"Leg {leg} has two entries for a {kind} at end {end}: keep one.")
        for cut, kind in [(t, "taper") for t in self.tapers] + [(c, "cope") for c in self.copes]:
            width = self.section.leg(cut.leg)
            if cut.width_left >= width:
                raise PartError(
                    f"The {kind} at end {cut.end} leaves {exact(cut.width_left)} of leg {cut.leg}, which is only "
                    f"{exact(width)} wide: nothing would be cut. Check the width left."
                )
        for taper in self.tapers:
            root = self.section.thickness(other_leg(taper.leg))
            if taper.blunt is not None and taper.blunt >= root:
                raise PartError(
                    f"The feather edge at end {taper.end} is to be blunted to {exact(taper.blunt)}, and leg {other_leg(taper.leg)} is only "
                    f"{exact(root)} thick: write less."
                )
        for cope in self.copes:
            other, root = other_leg(cope.leg), self.section.thickness(other_leg(cope.leg))
            place = f"The cope of leg {cope.leg} at end {cope.end}"
            if cope.width_left < root:
                raise PartError(
                    f"{place} leaves {exact(cope.width_left)}, but leg {other} is {exact(root)} thick there: "
                    f"it would cut into leg {other}. Leave at least {exact(root)}."
                )
            if cope.radius > (deep := self.section.leg(cope.leg) - cope.width_left):
                raise PartError(
                    f"{place} is {exact(deep)} deep and its inside radius {exact(cope.radius)}: choose a smaller radius."
                )
            if cope.length >= self.length:
                raise PartError(
                    f"The cope at end {cope.end} is {exact(cope.length)} long and the part {exact(self.length)}: "
                    "shorten the cope."
                )
        for leg in LEGS:
            both = [cope.length for cope in self.copes if cope.leg == leg]
            if len(both) == 2 and sum(both) >= self.length:
                raise PartError(
                    f"The copes of leg {leg} are {exact(both[0])} and {exact(both[1])} long and the part {exact(self.length)}: "
                    "no toe is left between them. Shorten a cope."
                )
        for hole in self.holes:
            self._check_hole(hole)

    def _check_hole(self, hole: Hole) -> None:
        r = hole.diameter / 2
        if hole.x - r < 0 or hole.x + r > self.length:
            raise PartError(f"{_place_of(hole)} lies beyond the end of a part {exact(self.length)} long: check its x.")
        width, root = self.section.leg(hole.leg), self.section.thickness(other_leg(hole.leg))
        if hole.y + r > width:
            raise PartError(f"{_place_of(hole)} lies off leg {hole.leg}, which is {exact(width)} wide: check its y.")
        if hole.y - r < root:
            raise PartError(
                f"{_place_of(hole)} runs into leg {other_leg(hole.leg)}, which is {exact(root)} thick: measure y from the heel."
            )

    def _check_hand(self) -> None:
        if self.hand == "neither" and self.handed:
            raise PartError(
                f'Part {self.id} says "neither", but it is handed: its mirror image is another part. '
                "Say left or right, as the plans do."
            )
        if self.hand in ("left", "right") and not self.handed:
            raise PartError(
                f'Part {self.id} says "{self.hand}", but it is its own mirror image: say neither, '
                "or check on which leg and end the plans draw its features."
            )

    # --- hand -------------------------------------------------------------------------------
    def _features(self, swap_legs: bool, swap_ends: bool) -> dict[str, tuple]:
        """The features by field, as they lie where legs or ends have changed places."""
        if not (swap_legs or swap_ends):
            return {field: getattr(self, field) for field in _FEATURES}

        def leg(name: str) -> str:
            return other_leg(name) if swap_legs else name

        def end(number: int) -> int:
            return other_end(number) if swap_ends else number

        changed = {
            field: tuple(replace(f, leg=leg(f.leg), end=end(f.end)) for f in getattr(self, field))
            for field in ("tapers", "corners", "copes")
        }
        changed["holes"] = tuple(
            replace(h, leg=leg(h.leg), x=self.length - h.x if swap_ends else h.x) for h in self.holes
        )
        return changed

    def _moved(self, swap_legs: bool, swap_ends: bool) -> Part:
        # Hand and partner are claims about this part, not about the moved one.
        return replace(self, hand=None, mirror_of="", **self._features(swap_legs, swap_ends))

    def turned(self) -> Part:
        """The same metal turned end for end: leg A at end 1 becomes leg B at end 2.

        Only an angle with equal legs looks the same after the turn; with unequal legs leg A would
        lie where leg B was, and that is refused.
        """
        if not self.section.equal_legs:
            raise PartError(
                f"Part {self.id} has unequal legs: turned end for end its legs would change places, "
                "so there is only one way to describe it."
            )
        return self._moved(swap_legs=True, swap_ends=True)

    def mirrored(self) -> Part:
        """The mirror image, as the plans would draw it.

        Equal legs: the features change legs. Unequal legs: they stay on their leg and change ends.
        """
        return self._mirrored

    @cached_property
    def _mirrored(self) -> Part:
        return self._moved(swap_legs=self.section.equal_legs, swap_ends=not self.section.equal_legs)

    def _metal(self, swap_legs: bool = False, swap_ends: bool = False) -> tuple:
        """All that decides the finished shape, where legs or ends have changed places; no other part is made for it."""
        features = self._features(swap_legs, swap_ends)
        return (self.section, self.alloy, self.length, *(_bag(features[field]) for field in _FEATURES))

    def same_metal_as(self, other: Part) -> bool:
        """Whether the two descriptions are of one finished shape, perhaps turned end for end."""
        metal = other._metal()
        return self._metal() == metal or (self.section.equal_legs and self._metal(swap_legs=True, swap_ends=True) == metal)

    def mirrors(self, other: Part) -> bool:
        """Whether this part is the mirror image of the other, perhaps turned end for end."""
        metal, equal = other._metal(), self.section.equal_legs
        # Mirrored and turned, the features of equal legs are back on their legs, at the other ends.
        return self._metal(equal, not equal) == metal or (equal and self._metal(swap_ends=True) == metal)

    @cached_property
    def handed(self) -> bool:
        """Whether the mirror image is another part: then left and right must be told apart."""
        return not self.mirrors(self)

    # --- by place ---------------------------------------------------------------------------
    def taper_at(self, leg: str, end: int) -> Taper | None:
        """The taper of a leg at an end, if there is one."""
        return next((t for t in self.tapers if (t.leg, t.end) == (leg, end)), None)

    def holes_in(self, leg: str) -> tuple[Hole, ...]:
        """The holes of a leg, from end 1 on."""
        return tuple(sorted((h for h in self.holes if h.leg == leg), key=lambda h: (h.x, h.y, h.diameter)))


def in_its_unit(function: Callable[..., _Made]) -> Callable[..., _Made]:
    """Whatever writes lengths of the part that is its first argument writes them in the part's unit.

    Outside a cache by the part: so it never holds another unit's text.
    """

    @wraps(function)
    def written(part: Part, *more: Any, **named: Any) -> _Made:
        with writing(part.unit):
            return function(part, *more, **named)

    return written


def _place_of(hole: Hole) -> str:
    return f"The {own(hole.diameter)} hole in leg {hole.leg} at x = {exact(hole.x)}, y = {exact(hole.y)}"


def _bag(features: Iterable) -> frozenset:
    """The features with their number, in no order."""
    listed = tuple(features)
    return frozenset((feature, listed.count(feature)) for feature in listed)
