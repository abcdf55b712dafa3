"""What the reasons of :mod:`anglelib.stock.reasons` say: the only place that puts them into words.

>>> from anglelib.stock.reasons import HANDS_OFF
>>> sentence(Reason(HANDS_OFF, "S-7")), brief(Reason(HANDS_OFF, "S-7"))
('S-7 is marked hands-off: it is kept for something else.', 'kept for something else')
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction

from anglelib.lengths import about, own
from anglelib.stock import reasons as r
from anglelib.stock.reasons import Reason
from anglelib.stock.wording import and_more

NAMED = 3
"""How many sticks are named before "and n more"."""
_RADII = {r.FILLET: "fillet", r.TOE_RADIUS: "toe radius", r.HEEL_RADIUS: "heel radius"}
_SQUARE = {r.FILLET: "a square inside corner", r.TOE_RADIUS: "square toes", r.HEEL_RADIUS: "a square heel"}


def sentence(reason: Reason) -> str:
    """A reason as a sentence."""
    return _SENTENCES[reason.id](reason)


def sentences(reasons: Iterable[Reason]) -> str:
    """Reasons as sentences, one after the other."""
    return " ".join(sentence(reason) for reason in reasons)


def grouped(sticks: Sequence[tuple[str, Sequence[Reason]]]) -> list[tuple[str, str]]:
    """Why sticks may not serve, a stick a line; of several that may not for the same reasons the first is said, and that they are alike.

    >>> [said for _, said in grouped([(f"S-{n}", [Reason(r.HANDS_OFF, f"S-{n}")]) for n in range(1, 20)])]
    ['S-1 is marked hands-off: it is kept for something else. So it is with S-2, S-3, S-4, S-5, S-6, S-7, S-8, S-9, S-10, S-11, S-12, S-13 and 6 more.']
    """
    alike: dict[tuple, list[tuple[str, Sequence[Reason]]]] = {}
    for name, reasons in sticks:
        alike.setdefault(tuple((one.id, str(one.have), str(one.want), one.alloy, one.dented) for one in reasons), []).append((name, reasons))
    found = []
    for same in alike.values():
        (name, reasons), rest = same[0], [other for other, _ in same[1:]]
        if len(rest) > 1:
            found.append((name, f"{sentences(reasons)} So it is with {and_more(rest)}."))
        else:
            found += [(other, sentences(why)) for other, why in same]
    return found


def brief(reason: Reason) -> str:
    """A reason against a stick in a few words, as they stand beside it."""
    return _BRIEF[reason.id](reason)


# --- a reason each ------------------------------------------------------------------------------------------
def _thickness(reason: Reason) -> str:
    more = "thicker" if _thick(reason.have) > _thick(reason.want) else "thinner"
    return f"{reason.stick} looks alike but is {more}: {reason.have.size}; the part wants {reason.want.size}."  # type: ignore[union-attr]


def _thick(section) -> tuple[Fraction, Fraction]:
    return section.thickness_a, section.thickness_b


def _radius(reason: Reason) -> str:
    have, want = (_a_radius(reason.id, value) for value in (reason.have, reason.want))
    return f"{reason.stick} has {have}; the part wants {want}."


def _a_radius(id_: str, value) -> str:
    return f"a {_RADII[id_]} of {own(value)}" if value else _SQUARE[id_]


def _too_short(reason: Reason) -> str:
    beside = " beside its dent" if reason.dented else ""
    return (
        f"{reason.stick} is too short: {about(reason.have)} of it can be used{beside}, "  # type: ignore[arg-type]
        f"and the blank {'' if reason.alone else 'with its cut '}takes {about(reason.want)}."  # type: ignore[arg-type]
    )


def _claimed(reason: Reason) -> str:
    doubt = "" if reason.sure else " in the plan found; a better one is not ruled out"
    return f"{_names(reason.sticks)} could serve, but parts with an earlier claim need the metal{doubt}."


def _names(ids: Sequence[str]) -> str:
    shown = list(ids[:NAMED])
    if len(ids) > NAMED:
        return f"{', '.join(shown)} and {len(ids) - NAMED} more"
    return " and ".join(filter(None, [", ".join(shown[:-1]), shown[-1]]))


_SENTENCES: dict[str, Callable[[Reason], str]] = {
    r.OTHER_STICK: lambda reason: f"The plans name {reason.want} for {reason.part}, not {reason.stick}.",
    r.BARRED: lambda reason: f"The job says that {reason.part} may not come from {reason.stick}.",
    r.HANDS_OFF: lambda reason: f"{reason.stick} is marked hands-off: it is kept for something else.",
    r.NO_MARK: lambda reason: f"{reason.stick} carries no mark of its alloy: identify it first.",
    r.ALLOY: lambda reason: f"{reason.stick} is {reason.have}; the part wants {reason.want}.",
    r.SIZE: lambda reason: f"{reason.stick} is {reason.have.size}; the part wants {reason.want.size}.",  # type: ignore[union-attr]
    r.THICKNESS: _thickness,
    **dict.fromkeys(_RADII, _radius),
    r.TOO_SHORT: _too_short,
    r.NO_PART: lambda reason: f"{reason.stick} is {reason.have.size}, {reason.alloy or 'alloy unknown'}: no part of this job is.",  # type: ignore[union-attr]
    r.NOT_THERE: lambda reason: f"The plans name {reason.stick} for {reason.part}, and it is not on the rack.",
    r.CLAIMED: _claimed,
    r.NO_STICK: lambda reason: f"The rack has no stick of {reason.have.size}, {reason.alloy}.",  # type: ignore[union-attr]
}
_BRIEF: dict[str, Callable[[Reason], str]] = {
    r.OTHER_STICK: lambda reason: f"the plans name {reason.want}",
    r.BARRED: lambda reason: f"not for {reason.part}",
    r.HANDS_OFF: lambda reason: "kept for something else",
    r.NO_MARK: lambda reason: "no mark",
    r.ALLOY: lambda reason: str(reason.have),
    r.SIZE: lambda reason: reason.have.size,  # type: ignore[union-attr]
    r.THICKNESS: lambda reason: f"{own(reason.have.thickness_a)} thick",  # type: ignore[union-attr]
    r.FILLET: lambda reason: f"fillet {own(reason.have)}" if reason.have else "square inside",  # type: ignore[arg-type]
    r.TOE_RADIUS: lambda reason: f"toe radius {own(reason.have)}" if reason.have else "square toes",  # type: ignore[arg-type]
    r.HEEL_RADIUS: lambda reason: f"heel radius {own(reason.have)}" if reason.have else "square heel",  # type: ignore[arg-type]
    r.TOO_SHORT: lambda reason: "too short beside its dent" if reason.dented else "too short",
}
