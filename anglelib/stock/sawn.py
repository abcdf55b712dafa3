"""What a stick that is there can have given: which pieces, where they lie in it, what is left; and what cannot be."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from anglelib.errors import PlanError, RackError
from anglelib.job import Job, Shop
from anglelib.lengths import about, exact
from anglelib.part import Part
from anglelib.stock.blank import Blank
from anglelib.stock.cutting import lay_out
from anglelib.stock.fit import alike, refusals
from anglelib.stock.instance import count
from anglelib.stock.pieces import OTHER, Piece
from anglelib.stock.plan import StickPlan
from anglelib.stock.problem import problem
from anglelib.stock.rack import Stick
from anglelib.stock.small import best_packing
from anglelib.stock.versions import part_version


def used_whole(stick: Stick, pieces: tuple[Piece, ...]) -> bool:
    """Whether the stick went as it is, unsawn, into something else."""
    return len(pieces) == 1 and pieces[0].part_id == OTHER and pieces[0].length == stick.length


def refuse_changed(planned: Stick, now: Stick) -> None:
    """Raise RackError where a stick is not any more as it was planned, with what differs."""
    differs = changes(planned, now)
    if differs:
        raise RackError(
            f"{now.id} is not any more as it was when its cuts were planned: {'; '.join(differs)}. Say what was cut, like "
            f'"{now.id}: 2 x A3", or plan anew and look at it before you cut.'
        )


def changes(planned: Stick, now: Stick) -> list[str]:
    """In what a stick differs from what was planned, in words; its notes do not count."""
    said = []
    for what, name in (("length", "long"), ("trim_1", "to trim at end 1"), ("trim_2", "to trim at end 2")):
        was, is_ = getattr(planned, what), getattr(now, what)
        if was != is_:
            said.append(f"it was {exact(was)} {name}, and is {exact(is_)}")
    if planned.section != now.section:
        said.append(f"it was {planned.section.size}, and is {now.section.size}" if planned.section.size != now.section.size else "its radii are others")
    if planned.alloy != now.alloy:
        said.append(f"it was {planned.alloy or 'without a mark'}, and is {now.alloy or 'without a mark'}")
    if planned.dents != now.dents:
        said.append("its dents are others")
    if planned.far_end_good != now.far_end_good:
        said.append(f"its end 2 is {'now' if now.far_end_good else 'no longer'} square and sound")
    return said


def refuse_another(pieces: Iterable[Piece], stick: Stick, job: Job) -> None:
    """Pieces that cannot be the parts that they are marked as: the part would count as made, and never be made."""
    parts = {part.id: part for part in job.parts}
    for piece in pieces:
        part = parts.get(piece.part_id)
        if part is None and any(known.lower() == piece.part_id.lower() for known in parts):
            job.part(piece.part_id)  # says which was meant; another name altogether is a piece for something else
        if part is None or piece.spoiled or piece.version not in ("", part_version(part)):
            continue  # what was made to another version of the part is what its own plan says, and counts for nothing until somebody takes it
        if not alike(part.section, stick.section) or (stick.identified and stick.alloy != part.alloy):
            why = next(reason for reason in refusals(replace(part, only_stick="", not_from=()), replace(stick, hands_off=False)))
            raise RackError(f"No {part.id} comes from {stick.id}: {why.sentence} Check the tag, or mark the piece as spoiled: {part.id} spoiled.")
        if piece.length is not None and piece.length < part.length:
            raise RackError(
                f"{part.id} is {exact(part.length)} long when finished, and {exact(piece.length)} was sawn: check the length, "
                f"or mark the piece as spoiled: {part.id} at {exact(piece.length)} spoiled."
            )


def sawn(stick: Stick, pieces: tuple[Piece, ...], shop: Shop) -> StickPlan:
    """The stick sawn into pieces: where they lie, and what is left."""
    lying = []
    for piece in pieces:
        part = Part(piece.part_id, piece.part_id, stick.section, stick.alloy or "unknown", piece.length, quantity=piece.number)
        lying += [Blank(part, n, piece.length) for n in range(1, piece.number + 1)]  # type: ignore[arg-type]
    asked = problem(stick.section, stick.alloy, lying, [stick], shop)
    demand = count(asked.instance.claims, len(asked.instance.sizes))
    if len(asked.places) == 1:
        packing = (demand,)
        whole = asked.instance.fits(demand, asked.instance.spaces[0])
    else:
        try:
            packing = best_packing(asked.instance)
        except PlanError:
            raise RackError(f"{stick.id} has a dent, and {len(lying)} pieces lie about it in too many ways: mark a few of them at a time.") from None
        whole = asked.instance.output(packing) == demand
    if not whole:
        needs = sum(((piece.length + shop.kerf) * piece.number for piece in pieces), Fraction(0))  # type: ignore[operator]
        usable = " and ".join(about(interval.length) for _, interval in asked.places) or "nothing"
        raise RackError(
            f"{stick.id} cannot have given {', '.join(map(str, pieces))}: with its cuts that takes {about(needs)}, and of the stick "
            f"{usable} can be used. Check the tag, and measure what is left of it."
        )
    return lay_out(asked, packing, shop, ())[0]
