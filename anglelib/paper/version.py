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

import hashlib

from anglelib.job import Job
from anglelib.stock.versions import written

DIGITS = 8
"""Of a million versions of one job about a hundred pairs would share eight digits; a workshop has a handful."""


def version(job: Job) -> str:
    """The version of a job, eight digits in two groups: the same numbers give the same ones on every machine."""
    parts = sorted(job.parts, key=lambda part: part.id)
    said = written((job.name, job.shop, job.unit, job.limits, *parts))
    digits = hashlib.sha256(said.encode("utf-8")).hexdigest()[:DIGITS]
    return f"{digits[:4]}-{digits[4:]}"
