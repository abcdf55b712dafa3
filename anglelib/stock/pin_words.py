"""What a job says of sticks for its parts, and in what that contradicts itself, in words.

>>> from anglelib.part import Pinned
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> bar = Part("A3", "Bar", stock, "6061-T6", "17 1/4", quantity=4, pinned=[Pinned("S-03", 2)], not_from=["S-05"])
>>> sticks_words([bar])
'2 of A3 come from S-03, none of it from S-05 (by the job).'
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from anglelib.part import Part
from anglelib.stock import pins as p
from anglelib.stock.wording import and_more

_WORDS: dict[str, Callable[[p.Contradiction, Part], str]] = {
    p.TOO_MANY: lambda one, part: f"{one.number} are to come from the sticks named here, and {part.quantity} {'is' if part.quantity == 1 else 'are'} wanted: name fewer, or put the quantity right.",
    p.TWICE: lambda one, part: f"{one.stick} stands here {one.number} times: name it once, with the whole number.",
    p.ONLY_AND_PINNED: lambda one, part: f"all of it is to come from {one.stick} (only_stick): leave one of the two out.",
    p.PINNED_AND_BARRED: lambda one, part: f"{one.stick} is to give pieces of it, and none may come from there: leave one of the two out.",
}


def contradiction(one: p.Contradiction, part: Part) -> str:
    """In what a part's sticks contradict one another."""
    return _WORDS[one.id](one, part)


def sticks_words(parts: Iterable[Part]) -> str:
    """What a job says of sticks, in a sentence; "" where it says nothing."""
    found = []
    for part in parts:
        said = [f"{pin.quantity} of {part.id} come{'s' if pin.quantity == 1 else ''} from {pin.stick}" for pin in part.pinned]
        if part.not_from:
            said.append(f"none of {'it' if said else part.id} from {and_more(part.not_from)}" if said else f"none of {part.id} comes from {and_more(part.not_from)}")
        found += [", ".join(said)] if said else []
    return f"{'; '.join(found)} (by the job)." if found else ""
