"""Versions: a few letters and figures computed from what something says, so that two of a kind that differ are told apart.

A part's version is that of its metal: section, alloy, length, tapers, holes, corners, copes. Another name, quantity or note is the
same version; a revised drawing is another. So is a stick's: its metal, without what is noted about it. They are read from paper
and typed, and therefore have no two signs that look alike; one that is mistyped so is understood.

>>> from dataclasses import replace
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> bar = Part("A3", "Floor bar", stock, "6061-T6", "17 1/4", quantity=4)
>>> part_version(bar), part_version(replace(bar, name="Bar", quantity=2)) == part_version(bar), part_version(replace(bar, length="17 1/2")) == part_version(bar)
('QRE7K6', True, False)
>>> as_typed(" gn4-vr7 "), as_typed("s8z")
('GN4VR7', '582')
"""

from __future__ import annotations

import dataclasses
import hashlib
import re
import secrets
from fractions import Fraction
from functools import lru_cache

from anglelib.job import Job
from anglelib.part import Part
from anglelib.stock.rack import Stick

SIGNS = "23456789ACDEFGHJKMNPQRTVWXY"
"""No 0, 1, B, I, L, O, S, U, Z: each looks like another sign in somebody's hand."""
LONG = 6
"""Of a thousand versions one pair in eight hundred would share six signs; a workshop has a few dozen."""
_MEANT = str.maketrans("SBZU", "582V")
_OF_A_PART = ("section", "alloy", "length", "tapers", "holes", "corners", "copes")
_OF_A_STICK = ("section", "alloy", "length", "trim_1", "trim_2", "dents", "far_end_good")


def short(text: str, long: int = LONG) -> str:
    """The version of a text."""
    number, signs = int.from_bytes(hashlib.sha256(text.encode("utf-8")).digest(), "big"), ""
    for _ in range(long):
        number, sign = divmod(number, len(SIGNS))
        signs += SIGNS[sign]
    return signs


def as_typed(text: str) -> str:
    """A version as a person types it, off paper: capitals or not, with or without dashes."""
    return re.sub(r"[\s-]", "", text).upper().translate(_MEANT)


def new_id() -> str:
    """The id of a new job: its own, whatever its name."""
    return "".join(secrets.choice(SIGNS) for _ in range(8))


def written(value: object) -> str:
    """A value as text in which different values differ, and which no Python version spells in its own way.

    What is at its default is left out: a field that a later version of this library adds makes no part another one.
    """
    if dataclasses.is_dataclass(value):
        said = ((field, getattr(value, field.name)) for field in dataclasses.fields(value))
        return written([(field.name, found) for field, found in said if found != field.default])
    if isinstance(value, tuple | list):
        return "(" + ",".join(written(item) for item in value) + ")"
    if isinstance(value, Fraction):
        return f"{value.numerator}/{value.denominator}"
    text = str(value)
    return f"{len(text)}:{text}"


@lru_cache(4096)
def part_version(part: Part) -> str:
    """The version of a part: of its metal."""
    return short(written([getattr(part, field) for field in _OF_A_PART]))


def stick_version(stick: Stick) -> str:
    """The version of a stick: of its metal, and of what of it can be used."""
    return short(written([getattr(stick, field) for field in _OF_A_STICK]))


def _sticks(part: Part) -> list:
    """What is said of sticks for some of a part's pieces; nothing where nothing is, so that such a job has the version it always had."""
    return [part.pinned, part.not_from] if part.pinned or part.not_from else []


def job_version(job: Job) -> str:
    """The version of a whole job as it is planned: parts, quantities, what steers the plan; names, notes and limits aside."""
    parts = [
        [part.id, part_version(part), part.quantity, part.later, part.priority, part.one_piece, part.only_stick, *_sticks(part)] for part in job.parts
    ]
    return short(written([job.shop, sorted(parts)]))
