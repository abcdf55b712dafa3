"""For which pieces metal is bought: those of the jobs that are cut now, not those of a job that is only held.

A held job keeps the metal that the rack has for it, so that a purchase may not rely on that; what the rack has no metal for is said, and not
bought. It is told on the rack without what came by the same purchase, since that was bought for others.

>>> from anglelib.job import Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.rack import Stick
>>> from anglelib.stock.several_jobs import holding
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> tail = Job("Tail", Shop(), [Part("A3", "Bar", stock, "6061-T6", 40)])
>>> wing = Job("Wing", Shop(), [Part("A3", "Bar", stock, "6061-T6", 40, quantity=2)])
>>> found = bought_for(holding(tail, [("wing", wing)]), Rack([Stick("S-1", stock, "6061-T6", 60)]))
>>> [(part.id, part.quantity) for part in found.job.parts], found.short
([('A3', 1), ('wing.A3', 1)], (HeldShort(part_id='wing.A3', missing=1, first=False),))
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from anglelib.job import Job
from anglelib.part import Part
from anglelib.stock.plan import Plan
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack

BUDGET = 6.0
"""Deterministic work for the question what the rack has for the jobs that are held, about seconds of one core."""


@dataclass(frozen=True)
class HeldShort:
    """A part of a job that is held, of which so many pieces have no metal on the rack.

    ``first``: it may not be spliced, so that a plan with its job held gives it metal before all others, what was bought for them too.
    """

    part_id: str
    missing: int
    first: bool


@dataclass(frozen=True)
class BoughtFor:
    """The ``job`` with what is held of others as far as the rack has metal for it, and what of them is ``short``."""

    job: Job
    short: tuple[HeldShort, ...] = ()


def bought_for(job: Job, rack: Rack, *, seconds: float | None = None) -> BoughtFor:
    """For what is bought of what a job still wants, the rack being without what was bought for it already.

    ``seconds`` is that of :func:`~anglelib.stock.planner.plan`.
    """
    held = tuple(part for part in job.parts if job.held_for(part.id) is not None)
    if not held:
        return BoughtFor(job)
    alone = plan(replace(job, parts=_partners(held)), rack, budget=BUDGET, seconds=seconds)
    kept = {part.id: part for part in (_as_planned(part, alone) for part in held) if part is not None}
    short = [
        HeldShort(part.id, missing, part.one_piece)
        for part in held
        if (missing := part.quantity - (kept[part.id].quantity if part.id in kept else 0))
    ]  # fmt: skip
    parts = [kept.get(part.id) if job.held_for(part.id) is not None else part for part in job.parts]
    return BoughtFor(replace(job, parts=_partners([part for part in parts if part is not None])), tuple(short))


def _as_planned(part: Part, made: Plan) -> Part | None:
    """The pieces of a part that a plan makes, with the sticks that are named for them; None where it makes none."""
    pins = Counter(p.blank.pin for planned in made.sticks for p in (*planned.placed, *planned.held) if p.blank.part.id == part.id)
    if not pins:
        return None
    return replace(part, quantity=sum(pins.values()), pinned=tuple(replace(pin, quantity=pins[pin.stick]) for pin in part.pinned if pins[pin.stick]))


def _partners(parts: list[Part] | tuple[Part, ...]) -> tuple[Part, ...]:
    """The parts without mirror images that are not among them."""
    here = {part.id for part in parts}
    return tuple(replace(part, mirror_of=part.mirror_of if part.mirror_of in here else "") for part in parts)
