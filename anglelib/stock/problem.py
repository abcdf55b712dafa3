"""From job and rack to whole numbers, one problem for each section and alloy.

Lengths are brought to one exact unit: a 64th of an inch, or whatever measures every length of the
section, where millimetres or decimals are mixed in. Nothing is rounded. Everything is sorted, so
that the order of rows in a file changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from math import lcm

from anglelib.job import Job, Shop
from anglelib.section import Section
from anglelib.stock.blank import Blank, blanks, without_room
from anglelib.stock.fit import alike
from anglelib.stock.instance import ANY, Instance, Size, Space
from anglelib.stock.pins import barred
from anglelib.stock.rack import Interval, Rack, Stick

FINEST_OF_A_RULE = 64
NOWHERE = -2
"""The pin of a blank whose stick is not there, or may not be used for it."""


@dataclass(frozen=True)
class Problem:
    """One section and alloy of a job: its blanks, the sticks that may serve, and both in integers.

    ``blanks[i]`` is the i-th claim of the instance; ``places[n]`` the stick and interval of its n-th
    space. ``unit`` is the length of the integer 1 [in].
    """

    section: Section
    alloy: str
    blanks: tuple[Blank, ...]
    sticks: tuple[Stick, ...]
    places: tuple[tuple[Stick, Interval], ...]
    unit: Fraction
    instance: Instance


def problems(job: Job, rack: Rack) -> tuple[Problem, ...]:
    """The problems of a job: one for each section and alloy that its parts want, long blanks with the room for rough cuts."""
    groups: dict[tuple, list[Blank]] = {}
    for blank in blanks(job):
        section = upright(blank.part.section)
        groups.setdefault((_order(section), section, blank.part.alloy), []).append(blank)
    found = []
    for (_, section, alloy), wanted in sorted(groups.items(), key=lambda group: (group[0][0], group[0][2])):
        sticks = usable(rack, section, alloy)
        found.append(problem(section, alloy, wanted, sticks, job.shop))
    return tuple(found)


def smooth(asked: Problem, shop: Shop) -> Problem | None:
    """The same without room for rough cuts by hacksaw; None where none is kept, or where a blank with it is only held for later.

    A plan of it that has no rough cut is a plan of the problem itself, and no other can be better.
    """
    if not any(blank.rough for blank in asked.blanks) or any(blank.rough and blank.held for blank in asked.blanks):
        return None
    return problem(asked.section, asked.alloy, [without_room(blank) for blank in asked.blanks], asked.sticks, shop)


def upright(section: Section) -> Section:
    """The section with its wider (then thicker) leg as leg A: how an L lies does not change its metal."""
    return max(section, section.swapped(), key=lambda s: (s.leg_a, s.thickness_a))


def usable(rack: Rack, section: Section, alloy: str) -> tuple[Stick, ...]:
    """The sticks that may serve a section and alloy, by id."""
    found = (s for s in rack.sticks if s.alloy == alloy and s.identified and not s.hands_off and alike(s.section, section))
    return tuple(sorted(found, key=lambda s: s.id))


def problem(section: Section, alloy: str, wanted: Iterable[Blank], sticks: Iterable[Stick], shop: Shop) -> Problem:
    """The problem of some blanks, in the order of their claims, and the sticks that may serve them."""
    wanted, sticks = tuple(wanted), tuple(sticks)
    places = tuple((stick, interval) for stick in sticks for interval in stick.intervals(shop.kerf))
    lengths = [shop.kerf, shop.grain, shop.usable_minimum, *(b.length for b in wanted), *(i.length for _, i in places)]
    unit = Fraction(1, lcm(FINEST_OF_A_RULE, *(length.denominator for length in lengths)))

    def whole(length: Fraction) -> int:
        return int(length / unit)

    ids = {stick.id: n for n, stick in enumerate(sticks)}
    wants = [Size(whole(b.length + shop.kerf), _pin(b, ids), _barred(b, sticks)) for b in wanted]
    sizes = sorted(set(wants), key=lambda s: (-s.width, s.pin, s.barred))
    spaces = [Space(whole(i.length), ids[stick.id], i.unsawn, not stick.remnant, int(i.freed), i.spare) for stick, i in places]
    instance = Instance(
        tuple(sizes),
        tuple(spaces),
        tuple(sizes.index(size) for size in wants),
        whole(shop.kerf),
        whole(shop.grain),
        whole(shop.usable_minimum),
        ranks=_ranks(wanted),
    )
    return Problem(section, alloy, wanted, sticks, places, unit, instance)


def _ranks(wanted: Sequence[Blank]) -> tuple[int, ...]:
    """Blanks that follow one another with equal claims have one number."""
    ranks = {claim: n for n, (claim, _) in enumerate(groupby((b.part.claim, b.part.priority, b.length) for b in wanted))}
    return tuple(ranks[b.part.claim, b.part.priority, b.length] for b in wanted)


def _pin(blank: Blank, ids: dict[str, int]) -> int:
    return ids.get(blank.stick, NOWHERE) if blank.stick else ANY


def _barred(blank: Blank, sticks: Sequence[Stick]) -> tuple[int, ...]:
    return tuple(n for n, stick in enumerate(sticks) if barred(blank.part, stick)) if blank.part.not_from else ()


def _order(section: Section) -> tuple:
    return (
        section.leg_a, section.leg_b, section.thickness_a, section.thickness_b,
        section.fillet, section.toe_radius, section.heel_radius,
    )  # fmt: skip
