"""The version of a job: a few letters on every page, so that sheets of two versions are not mixed.

They are computed from what the job says, not from its file: another comment or another order of rows
is the same version, another length is another. On the second day the job is the same, and so is its version;
how many pieces are made by then stands beside it.

>>> from anglelib.job import Job, Shop
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> def job(length):
...     return Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", length)])
>>> len(version(job("17 1/4"))), version(job("17.25")) == version(job("17 1/4")), version(job("17 5/16")) == version(job("17 1/4"))
(9, True, False)
"""

from __future__ import annotations

import dataclasses
import hashlib
from fractions import Fraction

from anglelib.job import Job

DIGITS = 8
"""Of a million versions of one job about a hundred pairs would share eight digits; a workshop has a handful."""


def version(job: Job) -> str:
    """The version of a job, eight digits in two groups: the same numbers give the same ones on every machine."""
    parts = sorted(job.parts, key=lambda part: part.id)
    said = _written((job.name, job.shop, job.unit, job.limits, *parts))
    digits = hashlib.sha256(said.encode("utf-8")).hexdigest()[:DIGITS]
    return f"{digits[:4]}-{digits[4:]}"


def _written(value: object) -> str:
    """A value as text in which different values differ, and which no Python version spells in its own way."""
    if dataclasses.is_dataclass(value):
        return _written(tuple((field.name, getattr(value, field.name)) for field in dataclasses.fields(value)))
    if isinstance(value, tuple):
        return "(" + ",".join(_written(item) for item in value) + ")"
    if isinstance(value, Fraction):
        return f"{value.numerator}/{value.denominator}"
    text = str(value)
    return f"{len(text)}:{text}"
