"""Which stick to cut for one part, why, and what another choice costs, in words; the answer is data in :mod:`anglelib.stock.one`.

>>> from fractions import Fraction
>>> from anglelib.section import Section
>>> from anglelib.stock.one import Lost, Other
>>> from anglelib.stock.rack import Stick
>>> stick = Stick("S-2", Section("3/4", "3/4", "1/8"), "6061-T6", 30)
>>> print(other(Other(stick, Fraction(15, 8), Fraction(30), Lost(("A5R", "A3"), ("A3",)))))
S-2 would leave 1 7/8 of 30, and A5R could then not be made, and not all of A3 could then be made.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from anglelib.lengths import about, exact
from anglelib.stock import one
from anglelib.stock.reason_words import sentences
from anglelib.stock.wording import and_

if TYPE_CHECKING:
    from anglelib.stock.one import Lost, OneNow, Other


def sentence(now: OneNow) -> str:
    """Which stick and why, and what is left; or why none."""
    return _none(now) if now.stick is None else _chosen(now)


def other(other: Other) -> str:
    """What cutting the part from another stick would cost."""
    said = f"{other.stick.id} would leave {about(other.left)} of {about(other.usable)}"
    if not other.settled:
        return f"{said}; whether every listed part could then be made is not settled."
    return f"{said}, and {_impossible(other.costs, then=True)}." if other.costs else f"{said}."


def _chosen(now: OneNow) -> str:
    assert now.stick is not None and now.interval is not None
    said = [f"Cut it from {now.stick.id}: {_why(now)}."]
    usable = about(now.interval.length)
    if now.extra:
        said.append(f"The {exact(now.extra)} left for trimming is in the blank of {about(now.blank)}.")
    if now.left:
        said.append(f"Of the {usable} that can be used there, {about(now.left)} is left.")
    else:
        said.append(f"It takes all of the {usable} that can be used there.")
    if now.lost is None:
        said.append("Whether every listed part can be made besides is not settled: make the whole plan.")
    elif now.lost:
        said.append(f"Besides it, {_impossible(now.lost)}.")
    elif now.listed:
        said.append("Every listed part of the section can still be made.")
    return " ".join(said)


def _why(now: OneNow) -> str:
    shorter = now.shorter.stick.id if now.shorter is not None else ""
    return {
        one.NAMED: lambda: "the plans name it for this part",
        one.ONLY: lambda: "it is the only piece that serves",
        one.SHORTEST: lambda: "it is the shortest piece that serves",
        one.SPARES: lambda: f"{shorter} is shorter, but {_impossible(now.shorter.costs, then=True)}",  # type: ignore[union-attr]
        one.LEAVES_MORE: lambda: f"{shorter} is shorter, but then less would be left in one piece after the whole job",
    }[now.why]()


def _impossible(lost: Lost, then: bool = False) -> str:
    """That parts cannot be made: "A5R could then not be made", "not all of A3 can be made"."""
    single = [part_id for part_id in lost.parts if part_id not in lost.several]
    said = []
    if single:
        said.append(f"{and_(single)} {'could then not' if then else 'cannot'} be made")
    if lost.several:
        said.append(f"not all of {and_(lost.several)} {'could then' if then else 'can'} be made")
    return ", and ".join(said)


def _none(now: OneNow) -> str:
    part = now.part
    return {
        one.NAMED_GONE: lambda: f"The plans name {now.named} for it, and {now.named} is not on the rack: nothing else may serve.",
        one.NAMED_UNFIT: lambda: f"The plans name {now.named} for it, and it cannot serve. {sentences(now.against)}".rstrip(),
        one.NO_STOCK: lambda: f"No stick on the rack serves: there is none of {part.section.size}, {part.alloy}, that may be used.",
        one.TOO_LONG: lambda: (
            f"No stick on the rack serves: the longest piece is {about(now.longest)}, and the blank {'with its cut ' if now.needs > now.blank else ''}takes {about(now.needs)}."  # type: ignore[arg-type]
        ),
    }[now.why]()
