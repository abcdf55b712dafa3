"""Which stick a piece must come from, and from which none of a part may: 2 of 4 from S-03, not from S-05.

What is asked of a stick is asked of its metal: once it is cut, of what is left of it.

>>> from anglelib.section import Section
>>> from anglelib.part import Pinned
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> bar = Part("A3", "Bar", stock, "6061-T6", "17 1/4", quantity=4, pinned=[Pinned("S-03", 2)], not_from=["S-05"])
>>> pins(bar), may_come_from(bar, Stick("S-05", stock, "6061-T6", 40)), may_come_from(bar, Stick("S-06", stock, "6061-T6", 40))
(('S-03', 'S-03'), False, True)
>>> after = with_less(bar, 3, Counter({"S-03": 1}), lambda stick_id: "S-03-R1", lambda stick_id: ())
>>> after.quantity, after.pinned
(3, (Pinned(stick='S-03-R1', quantity=1),))
>>> [problem.id for problem in contradictions(replace(bar, quantity=1, not_from=["S-03"]))]
['too-many', 'pinned-and-barred']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from anglelib.part import Part, Pinned
from anglelib.stock.rack import Stick

TOO_MANY, TWICE, ONLY_AND_PINNED, PINNED_AND_BARRED = "too-many", "twice", "only-and-pinned", "pinned-and-barred"


@dataclass(frozen=True)
class Contradiction:
    """In what the sticks that a part names contradict one another: the key, the stick, how many pieces."""

    id: str
    key: str
    stick: str = ""
    number: int = 0


def contradictions(part: Part) -> list[Contradiction]:
    """Everything in which a part's sticks contradict one another, or its quantity."""
    named = [pin.stick for pin in part.pinned]
    found = [Contradiction(TWICE, "pinned", stick, number) for stick, number in Counter(named).items() if number > 1]
    if (number := sum(pin.quantity for pin in part.pinned)) > part.quantity:
        found.append(Contradiction(TOO_MANY, "pinned", number=number))
    if part.pinned and part.only_stick:
        found.append(Contradiction(ONLY_AND_PINNED, "pinned", part.only_stick))
    found += [Contradiction(PINNED_AND_BARRED, "not_from", stick) for stick in dict.fromkeys([*named, part.only_stick]) if stick and stick in part.not_from]
    return found


def pins(part: Part) -> tuple[str, ...]:
    """For each piece that must come from a stick, the stick; those that may come from any are not in it."""
    if part.only_stick:
        return (part.only_stick,) * part.quantity
    return tuple(pin.stick for pin in part.pinned for _ in range(pin.quantity))[: part.quantity]


def barred(part: Part, stick: Stick) -> bool:
    """Whether no piece of a part may come from a stick; a row of equal sticks may be named whole."""
    return bool(part.not_from) and (stick.id in part.not_from or bool(stick.one_of) and stick.one_of in part.not_from)


def may_come_from(part: Part, stick: Stick) -> bool:
    """Whether a piece more than those that are pinned may come from a stick."""
    return part.only_stick in ("", stick.id) and not barred(part, stick)


def with_less(
    part: Part, quantity: int, made: Mapping[str, int], follow: Callable[[str], str], left_of: Callable[[str], Iterable[str]]
) -> Part:
    """The part of which so many are still wanted, ``made`` being how many good ones each pinned stick has given.

    ``follow`` names the piece that stands for a stick now, ``left_of`` all that is left of one.
    """
    rest = [Pinned(follow(pin.stick), number) for pin in part.pinned if (number := pin.quantity - made.get(pin.stick, 0)) > 0]
    barred_now = dict.fromkeys(name for stick in part.not_from for name in (stick, *left_of(stick)))
    return replace(part, quantity=quantity, only_stick=follow(part.only_stick), pinned=_at_most(rest, quantity), not_from=tuple(barred_now))


def without(part: Part, stick_id: str, number: int) -> Part:
    """The part without so many pieces that a stick gives in any case; at least one is left."""
    left, rest = number, []
    for pin in part.pinned:
        off = min(left, pin.quantity) if pin.stick == stick_id else 0
        left -= off
        rest += [replace(pin, quantity=pin.quantity - off)] if pin.quantity > off else []
    return replace(part, quantity=part.quantity - number, pinned=_at_most(rest, part.quantity - number))


def _at_most(wanted: Collection[Pinned], quantity: int) -> tuple[Pinned, ...]:
    """No more pieces pinned than are wanted: where others were made instead, the last ones are free."""
    found, room = [], quantity
    for pin in wanted:
        if number := min(pin.quantity, room):
            found.append(replace(pin, quantity=number))
            room -= number
    return tuple(found)
