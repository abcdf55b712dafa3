"""Set-ups of the saw: how often stop, angle or pose are changed while the sticks are cut in the order of the plan.

A setting is where the stop stands (the length of the blank that comes off), at which angle from the heel the saw meets the angle, and how the
angle sits for it. Only a parting cut wants a stop; what else is sawn leaves it where it is. A taper that is made while the stick holds
its blank is sawn before that cut. A cope is cut by hand, and so is a rough cut by hacksaw: neither changes the saw. A blank whose near end
a hacksaw has left is cut by its line, since a rough end against the stop says nothing. At the beginning the saw stands square, the heel is up, and no stop is set.

>>> from anglelib.job import Job, Shop
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1", "Cleat", stock, "6061-T6", 8, [Taper("A", 1, "3/8", run="1 1/4")])
>>> made = plan(Job("Demo", Shop(), [cleat, Part("A2", "Bar", stock, "6061-T6", 8)]), Rack([Stick("S-1", stock, "6061-T6", 40)]))
>>> [(one.row, one.at, one.changes) for one in set_ups(made.sticks)]
[(1, 'taper-A-1', ('angle', 'pose')), (1, 'part-off', ('stop', 'angle', 'pose'))]
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from anglelib.geometry.ends import first_end
from anglelib.geometry.setup import HEEL_UP, taper_cut
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.part import Part
from anglelib.stock.blank import Blank
from anglelib.stock.plan import PART_OFF, StickPlan

STOP, ANGLE, POSE = "stop", "angle", "pose"
NEAR, FAR = "near", "far"
"""Which leg is sawn, seen with the datum end at the left and the heel down: the one towards you, or the other."""


@dataclass(frozen=True)
class Pose:
    """How the angle sits: a stance of :mod:`anglelib.geometry.setup`, and which leg lies flat for it ("": neither)."""

    stance: str = HEEL_UP
    side: str = ""


@dataclass(frozen=True)
class Setting:
    """What the saw is set to: the ``stop`` [in] (None: none is wanted), the ``slope`` of the cut (run for each inch of height; 0: square), the pose.

    ``line`` is the taper's, whose leg and end the pose has in the part's own words; None for a square cut.
    """

    stop: Fraction | None
    slope: float = 0.0
    pose: Pose = Pose()
    line: TaperLine | None = None


SQUARE = Setting(None)


@dataclass(frozen=True)
class SetUp:
    """One change at the saw: the ``number``-th in the order of the plan, before what is sawn ``at`` a row of a stick's sheet.

    ``at`` is the taper (``taper-A-1``), or the id of the cut; ``changes`` are ids of what is set otherwise.
    """

    number: int
    stick_id: str
    row: int
    at: str
    setting: Setting
    changes: tuple[str, ...]


def set_ups(sticks: Iterable[StickPlan]) -> tuple[SetUp, ...]:
    """Every set-up, for the sticks of one section in the order in which they are cut."""
    found: list[SetUp] = []
    now = SQUARE
    for planned in sticks:
        for row, at, setting in settings(planned):
            changes = changed(now, setting)
            if changes:
                found.append(SetUp(len(found) + 1, planned.stick.id, row, at, setting, changes))
            now = after(now, setting)
    return tuple(found)


def settings(planned: StickPlan) -> list[tuple[int, str, Setting]]:
    """What the saw is set to for everything that is sawn of a stick: the row of its sheet, what is sawn, the setting."""
    found: list[tuple[int, str, Setting]] = []
    rough_end = {(placed.blank.part.id, placed.blank.number) for placed in planned.placed if placed.before}
    for row, cut in enumerate(planned.cuts, 1):
        if cut.blank is not None:
            found += [(row, at, setting) for at, setting in tapered(cut.blank.part)]
        if cut.rough:
            continue
        if cut.blank is None:
            found.append((row, cut.kind, SQUARE))
        elif (cut.blank.part.id, cut.blank.number) in rough_end:
            found.append((row, PART_OFF, SQUARE))
        else:  # the room for a hacksaw that is not needed comes off with the cut
            found.append((row, PART_OFF, Setting(cut.blank.length - cut.back)))
    ends = [placed.blank for placed in planned.placed if not placed.sawn]
    for row, blank in enumerate(ends, len(planned.cuts) + 1):
        found += [(row, at, setting) for at, setting in tapered(blank.part)]
    return found


def changed(now: Setting, then: Setting) -> tuple[str, ...]:
    """What has to be set otherwise, by id."""
    found = [STOP] if then.stop is not None and then.stop != now.stop else []
    found += [ANGLE] if then.slope != now.slope else []
    return (*found, *([POSE] if then.pose != now.pose else []))


def after(now: Setting, then: Setting) -> Setting:
    """How the saw stands once something was sawn: the stop stays where it is."""
    return then if then.stop is not None else Setting(now.stop, then.slope, then.pose, then.line)


@lru_cache(1024)
def tapered(part: Part) -> tuple[tuple[str, Setting], ...]:
    """What is sawn of a part while the stick holds its blank: the tapers of the end that is made first."""
    end = first_end(part)
    return tuple((f"taper-{line.leg}-{end}", _taper(line)) for line in taper_lines(part) if line.end == end)


def _taper(line: TaperLine) -> Setting:
    side = FAR if (line.leg == "A") == (line.end == 1) else NEAR
    return Setting(None, round(float(line.slope), 9), Pose(taper_cut(line).stance, side), line)


def counted(blanks: Sequence[Sequence[Blank]]) -> int:
    """How many set-ups it takes to saw blanks, all of them, stick by stick in this order."""
    now, number = SQUARE, 0
    for lot in blanks:
        for blank in lot:
            for setting in (*(one for _, one in tapered(blank.part)), Setting(blank.length)):
                number += bool(changed(now, setting))
                now = after(now, setting)
        now = after(now, SQUARE)
    return number
