"""The rack after a plan has been sawn: remnants are sticks with names of their own."""

from __future__ import annotations

from anglelib.stock.plan import Plan
from anglelib.stock.rack import Rack


def rack_after(plan: Plan, rack: Rack) -> Rack:
    """The rack once every cut of the plan is done: sawn sticks gone, their remnants in their place."""
    pieces = {s.stick.id: [r.stick for r in s.remnants] for s in plan.sticks if s.touched}
    return Rack(tuple(new for stick in rack.sticks for new in pieces.get(stick.id, [stick])))
