"""One way that each mistake goes, and the same slip by more or less: for pictures on which a slip's amount is moved.

At 100 % a slip is as a shop makes it (the whole kerf, the other end, a degree or two); at 0 % the part
is good. What is all or nothing (a hand, an end, a section, an alloy) does not change by degrees.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> case = one_way("M01", cleat, Shop())
>>> [round(by_amount(case, share).stop, 4) for share in (0, 0.5, 1)]
[2.125, 2.0938, 2.0625]
>>> one_way("M11", Part("A3", "Bar", stock, "6061-T6", "17 1/4"), Shop())
Traceback (most recent call last):
    ...
anglelib.errors.PartError: M11 (measured from the inside face) cannot be made on part A3: choose another part or another slip.
"""

from __future__ import annotations

from dataclasses import replace

from anglelib.errors import PartError
from anglelib.inspection.made import Made
from anglelib.inspection.mistakes import MISTAKES, refuse_unknown
from anglelib.inspection.slips import Case, shortened
from anglelib.job import Shop
from anglelib.part import Part

_USUAL: dict[str, tuple[str, float]] = {
    "M03": ("whole", 0.0),
    "M05": ("twice", 0.0),
    "M09": ("hand", 0.0),
    "M14": ("toe", 3.08),
    "M15": ("", 7.4),
    "M16": ("", 0.067),
    "M18": ("", 0.03),
    "M21": ("2-B", -2.4),
    "M22": ("A", 0.06),
    "M24": ("2024", 0.0),
    "M25": ("", 58.0),
}
"""Way of the case that is shown, and about how much of it, where a mistake has several; else its first."""


def one_way(id_: str, part: Part, shop: Shop) -> Case:
    """One case of a mistake on a part; of a batch (M06) a middle piece, of a pair (M26) the one made wrong.

    Raises PartError where the mistake cannot be made on this part.
    """
    refuse_unknown(id_)
    if id_ == "M06":
        cases = [case for case in shortened("a middle piece of the batch", Made.as_wanted(part), float(shop.kerf))]
    elif id_ == "M26" and part.handed:
        other = Made.as_wanted(part.mirrored())
        cases = [Case("the one that should have been its mirror image", replace(Made.as_wanted(part), tapers=other.tapers, holes=other.holes, copes=other.copes, corners=other.corners))]
    else:
        cases = list(MISTAKES[id_].cases(part, shop))
    cases = [case for case in cases if case.made.can_be]
    if not cases:
        raise PartError(f"{id_} ({MISTAKES[id_].name}) cannot be made on part {part.id}: choose another part or another slip.")
    way, much = _USUAL.get(id_, ("", 0.0))
    if id_ == "M11" and part.holes:  # the hole that a height is read on
        way = f"holes-{min(part.holes, key=lambda hole: hole.x).leg}"
    likely = [case for case in cases if not way or case.way == way] or cases
    return min(likely, key=lambda case: abs(case.amount - much))


def all_or_nothing(case: Case) -> bool:
    """Whether the slip has no amount: the features lie elsewhere, or the stock is another."""
    made, wanted = case.made, Made.as_wanted(case.made.wanted)
    same_place = all(
        [(c.leg, c.end) for c in of_made] == [(c.leg, c.end) for c in of_wanted]
        for of_made, of_wanted in ((made.tapers, wanted.tapers), (made.copes, wanted.copes), (made.corners, wanted.corners))
    )
    return not same_place or [h.leg for h in made.holes] != [h.leg for h in wanted.holes] or made.section != wanted.section or made.alloy != wanted.alloy


def by_amount(case: Case, share: float) -> Made:
    """The part with so much of the slip: 0 none, 1 as the case has it, 2 twice; never more than there is metal for."""
    wanted = Made.as_wanted(case.made.wanted)
    if share <= 0:
        return wanted
    if all_or_nothing(case):
        return case.made
    while share > 1:
        made = _between(wanted, case.made, share)
        if made.can_be:
            return made
        share = max(1.0, share - 0.05)
    return _between(wanted, case.made, share)


def _between(wanted: Made, made: Made, share: float) -> Made:
    def mix(a: float, b: float) -> float:
        return a + (b - a) * share

    def pair(a: tuple[float, float], b: tuple[float, float]) -> tuple[float, float]:
        return mix(a[0], b[0]), mix(a[1], b[1])

    tapers = tuple(
        replace(m, at_toe=mix(w.at_toe, m.at_toe), slope=max(1e-3, mix(w.slope, m.slope)), tilt=mix(w.tilt, m.tilt))
        for w, m in zip(wanted.tapers, made.tapers, strict=True)
    )
    copes = tuple(
        replace(m, length=mix(w.length, m.length), left=mix(w.left, m.left)) for w, m in zip(wanted.copes, made.copes, strict=True)
    )
    corners = tuple(replace(m, radius=max(0.0, mix(w.radius, m.radius))) for w, m in zip(wanted.corners, made.corners, strict=True))
    holes = tuple(replace(m, x=mix(w.x, m.x), y=mix(w.y, m.y)) for w, m in zip(wanted.holes, made.holes, strict=True))
    return replace(
        made, start=mix(wanted.start, made.start), stop=mix(wanted.stop, made.stop), tapers=tapers, holes=holes, copes=copes, corners=corners,
        out_1=pair(wanted.out_1, made.out_1), out_2=pair(wanted.out_2, made.out_2), filed=pair(wanted.filed, made.filed),
        scale=mix(wanted.scale, made.scale),
    )  # fmt: skip
