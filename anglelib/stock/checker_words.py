"""What the faults of :mod:`anglelib.stock.checker` say: a fault is for whoever mends the program, and for a test.

>>> from anglelib.stock.checker import FREES_NOTHING, NO_STICK, Fault
>>> sentence(Fault(NO_STICK, "S-1")), sentence(Fault(FREES_NOTHING, "S-1", said=Fraction(31)))
('S-1 is not on the rack.', 'S-1: the cut at 31 frees nothing.')
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING

from anglelib.lengths import about
from anglelib.stock import checker as c

if TYPE_CHECKING:
    from anglelib.stock.checker import Fault

_OF_THE_STICK = {c.NO_STICK: "is not on the rack.", c.PLANNED_TWICE: "is planned twice."}


def sentence(fault: Fault) -> str:
    """The fault in words, after the stick where it is one stick's."""
    if fault.id in _OF_THE_STICK:
        return f"{fault.stick} {_OF_THE_STICK[fault.id]}"
    said = _WORDS[fault.id](fault)
    return f"{fault.stick}: {said}" if fault.stick else said


def _at(value: object) -> str:
    return about(value)  # type: ignore[arg-type]


def _lengths(values: object) -> str:
    return " and ".join(map(_at, values)) or "nothing"  # type: ignore[call-overload]


def _zone(fault: Fault) -> str:
    begin, end = fault.found  # type: ignore[misc]
    return f"{fault.what} ends at {_at(fault.said)}, and the stick can be used only from {_at(begin)} to {_at(end)}."


def _hand(fault: Fault) -> str:
    x, off, stays = fault.said  # type: ignore[misc]
    found = " and ".join(map(_at, fault.found))  # type: ignore[call-overload]
    return f"the cut at {_at(x)} leaves {found} in the hand; the plan says {_at(off)} and {_at(stays)}, or clamps it wrongly."


def _kerf(fault: Fault) -> str:
    x, kerf = fault.said  # type: ignore[misc]
    return f"the cut at {_at(x)} takes {_at(kerf)}; the blade takes {_at(fault.found)}."


def _count(fault: Fault) -> str:
    made, missing = fault.found  # type: ignore[misc]
    return f"{fault.what} is wanted {fault.said} times; {made} are made or held and {missing} said to be missing."


def _datum(fault: Fault) -> str:
    said = _at(fault.said) if isinstance(fault.said, Fraction) else "nowhere"
    return f"the stick is turned, and its datum end is said to lie {said}; it lies at {_at(fault.found)}."


_WORDS: dict[str, Callable[[Fault], str]] = {
    c.HANDS_OFF: lambda f: "it is marked hands-off.",
    c.NO_ALLOY: lambda f: "its alloy is not known.",
    c.ALLOY: lambda f: f"it is {f.said}, and {f.what} wants {f.found}.",
    c.SECTION: lambda f: f"it is {f.said.size}, and {f.what} wants {f.found.size}, or other radii.",  # type: ignore[attr-defined]
    c.OTHER_STICK: lambda f: f"{f.what} must come from {f.found}.",
    c.BARRED: lambda f: f"{f.what} may not come from it.",
    c.ELSEWHERE: lambda f: f"{f.said} of {f.what} come from other sticks than they should: {', '.join(f'{number} from {stick}' for number, stick in f.found)}.",  # type: ignore[attr-defined]
    c.OTHER_PART: lambda f: f"{f.what} is not the part that the job describes.",
    c.MADE_TWICE: lambda f: f"{f.what} is made twice.",
    c.HELD_SAWN: lambda f: f"{f.what} is made later and must be held, not sawn.",
    c.SAWN_HELD: lambda f: f"{f.what} is held, and should be sawn.",
    c.LENGTH: lambda f: f"{f.what} is {_at(f.said)} long; it takes {_at(f.found)}.",
    c.OUT_OF_ZONE: _zone,
    c.NO_ROOM: lambda f: f"there is no room for the blade between {f.found} and {f.what}.",
    c.LINE: lambda f: f"the line {_at(f.said)} is not {_at(f.found)} from end 1.",
    c.CUT_TWICE: lambda f: f"the cut at {_at(f.said)} goes back over metal already cut away.",
    c.FREES_NOTHING: lambda f: f"the cut at {_at(f.said)} frees nothing.",
    c.IN_HAND: _hand,
    c.NOT_PARTED: lambda f: f"no cut parts off {f.what}.",
    c.HELD_CUT: lambda f: f"{f.what} is held in metal that is cut away.",
    c.NOT_PLACED: lambda f: f"the cut at {_at(f.said)} parts off {f.what}, which is not placed there.",
    c.OFF_ITS_CUT: lambda f: f"{f.what} ends at {_at(f.said)}, and its cut is at {_at(f.found)}.",
    c.NOT_SQUARE: lambda f: f"{f.what} begins at {_at(f.said)}, where no square end is.",
    c.KERF: _kerf,
    c.CUT_OUT_OF_ZONE: lambda f: f"the cut at {_at(f.said)} runs out of the stick's usable length.",
    c.MADE_LATE: lambda f: f"{f.what} has its taper or cope cut too late, or at the wrong end.",
    c.STILL_ON: lambda f: f"{f.what} is said to be worked on {_at(f.said)} of stick.",
    c.WRONG_WAY: lambda f: f"{f.what} is sawn from the wrong end: with unequal legs its other hand would be made.",
    c.DATUM: _datum,
    c.WAS_LEFT: lambda f: f"{_lengths(f.said)} is said to be left; walking the stick leaves {_lengths(f.found)}.",
    c.REMNANT_NAME: lambda f: f"the name {f.what} is taken.",
    c.REMNANT_PLACE: lambda f: f"the remnant {f.what} lies where there is no metal.",
    c.REMNANT_USED: lambda f: f"the remnant {f.what} is metal that the saw has used.",
    c.REMNANT_OTHER: lambda f: f"the remnant {f.what} is listed as another piece than it is.",
    c.REMNANT_SOUND: lambda f: f"the remnant {f.what} is listed with sound metal where there is none.",
    c.NOT_KEPT: lambda f: f"{_at(f.said)} is left, and no remnant keeps it.",
    c.REMAINS: lambda f: f"{f.what}: {list(f.said)} is said to remain; walking the sticks leaves {list(f.found)}.",  # type: ignore[call-overload]
    c.COUNT: _count,
    c.NOT_ROUGH: lambda f: f"the cut at {_at(f.said)} is planned with the wrong saw: the throat is {_at(f.found)}.",
    c.NO_WANDER: lambda f: f"the rough cut of {f.what} at {_at(f.said)} leaves the hacksaw no room to wander.",
    c.STRUCK: lambda f: f"a line {f'of {f.what} ' if f.what else ''}is struck {_at(f.said)} before its place; it belongs {_at(f.found)} before it.",
    c.STRANGER: lambda f: f"{f.what} is made, and the job does not want it.",
}
