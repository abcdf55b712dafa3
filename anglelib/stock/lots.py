"""The lots of a plan's sticks as the rack has them now: a lot that is put right after the plan was made is right on its sheets too.

>>> from anglelib.job import Job, Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 96)])
>>> made = plan(Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 28)]), rack)
>>> now = with_lots(made, [replace(rack.sticks[0], lot="4711")]).sticks[0]
>>> now.stick.lot, now.remnants[0].stick.lot
('4711', '4711')
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from anglelib.stock.plan import Plan, StickPlan
from anglelib.stock.rack import Stick


def with_lots(plan: Plan, sticks: Iterable[Stick]) -> Plan:
    """The plan with the lots of these sticks, and of what is left of them."""
    lots = {stick.id: stick.lot for stick in sticks}

    def put_right(planned: StickPlan) -> StickPlan:
        lot = lots.get(planned.stick.id, planned.stick.lot)
        if lot == planned.stick.lot:
            return planned
        left = tuple(replace(remnant, stick=replace(remnant.stick, lot=lot)) for remnant in planned.remnants)
        return replace(planned, stick=replace(planned.stick, lot=lot), remnants=left)

    return replace(plan, groups=tuple(replace(group, sticks=tuple(map(put_right, group.sticks))) for group in plan.groups))
