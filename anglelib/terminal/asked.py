"""What was asked for on the command line: files, sections, lengths; each said in words where it cannot be."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from anglelib.errors import BenchError, SectionError
from anglelib.files import plan_home
from anglelib.files.offers_file import offers_path, read_offers
from anglelib.files.rack_of_plan import rack_asked
from anglelib.job import Job
from anglelib.lengths import named_unit, own, read, several
from anglelib.paper.commands import DEMO
from anglelib.section import Section
from anglelib.section_sizes import section_given
from anglelib.stock.offers import Offers
from anglelib.stock.problem import upright
from anglelib.stock.rack import Rack

_FILLET = re.compile(r"(.*?)[\s,]+(?:fillet\s+(\S.*)|square(?:\s+inside)?)", re.IGNORECASE)
_TIMES = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)


def files(job_file: str | None, rack_file: str | None, beside: Sequence[str] = (), command: str = "plan") -> tuple[str, str]:
    """The job's and the rack's file; the rack of the plan or purchase in hand (with the jobs ``beside`` it) where only the job is named, the demo kit where neither is."""
    if job_file is not None:
        return job_file, rack_file if rack_file is not None else rack_asked(plan_home(job_file, beside), f"python -m anglelib {command} JOB RACK")
    return demo_files()


def demo_files() -> tuple[str, str]:
    """The demo kit's job and rack."""
    if not (DEMO / "job.toml").is_file():
        raise BenchError("The demo kit is not beside the package: name a job file and a rack file.")
    return str(DEMO / "job.toml"), str(DEMO / "rack.csv")


def lengths(text: str, what: str, unit: str = "in") -> list[Fraction]:
    """Lengths with commas between them [in]; ``unit`` is what a bare number means."""
    return several(text, unit, what=what) or _none(what)


SOLD = {"in": "72,96,144", "mm": "2000,3000,6000"}
"""Lengths that are usually sold, by a job's unit; common practice."""


def sold(text: str, offers_file: str, rack_file: str, unit: str) -> tuple[list[Fraction], Offers | None]:
    """What can be bought: lengths that are typed, or a list of offers; the one beside the rack where nothing is named, else what is usually sold."""
    if text and offers_file:
        raise BenchError("Lengths and a list of offers are two ways to say what is sold: give one of them.")
    if text:
        return lengths(text, "length to buy", unit), None
    if offers_file or offers_path(rack_file).is_file():
        return [], read_offers(offers_file or offers_path(rack_file))
    return lengths(SOLD[unit], "length to buy", unit), None


def _none(what: str) -> list[Fraction]:
    raise BenchError(f"No {what} is given: write it like 72,96,144.")


def section(text: str, alloy: str, rack: Rack, job: Job | None) -> Section:
    """The section that a text means: "3/4 x 3/4 x 1/8", with its fillet taken from the list or the rack.

    >>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    >>> from anglelib.stock.rack import Stick
    >>> rack = Rack([Stick("S-1", stock, "6061-T6", 96)])
    >>> section("3/4x3/4x1/8", "6061-T6", rack, None) == stock
    True
    >>> section("3/4 x 3/4 x 1/8 square inside", "6061-T6", rack, None).fillet
    Fraction(0, 1)
    >>> section("30 x 30 x 3 mm, fillet 2 mm", "6061-T6", rack, None).size
    '30 x 30 x 3 mm'
    >>> section("1 x 1 x 1/8", "6061-T6", rack, None)
    Traceback (most recent call last):
        ...
    anglelib.errors.SectionError: Neither list nor rack has a section 1 x 1 x 1/8: they have 3/4 x 3/4 x 1/8. Check it with the caliper, or write its fillet too, like "1 x 1 x 1/8 fillet 1/8" or "1 x 1 x 1/8 square inside".
    """
    stated = _FILLET.fullmatch(text.strip())
    size_text = stated[1] if stated else text.strip()
    # a unit behind the last size is all sizes'; a fraction is of an inch
    words = [word for word in _TIMES.split(size_text) if word]
    named = named_unit(words[-1]) if words else ""
    unit = "mm" if named == "mm" else "in" if job is None or "/" in size_text or named == "in" else job.unit
    sizes = [read(word, what="size of the section", zero=False, unit=unit) for word in words]
    if len(sizes) not in (3, 4):
        raise SectionError(f'"{text[:40]}" is no section: write leg x leg x thickness, like "3/4 x 3/4 x 1/8".')
    fillet = read(stated[2], what="fillet radius", unit=unit) if stated and stated[2] else Fraction(0)
    wanted, like = section_given(*sizes, fillet=fillet), "2 mm" if unit == "mm" else "1/8"
    if stated:
        return wanted
    size = replace(upright(wanted), fillet=Fraction(0))
    listed = [part.section for part in job.parts if part.alloy == alloy] if job is not None else []
    for among in (listed, [s.section for s in rack.sticks if s.alloy == alloy], [s.section for s in rack.sticks]):
        found = _alike(among, size)
        if len(found) == 1:
            return found[0]
        if found:
            radii = " and ".join(f"a fillet of {own(s.fillet)}" if s.fillet else "a square inside corner" for s in found)
            raise SectionError(f'{wanted.size} is there with {radii}: say which, like "{wanted.size} fillet {like}" or "{wanted.size} square inside".')
    known = ", ".join(sorted({s.size for s in [*listed, *(stick.section for stick in rack.sticks)]})) or "none"
    raise SectionError(
        f"Neither list nor rack has a section {wanted.size}: they have {known}. Check it with the caliper, or write its fillet too, "
        f'like "{wanted.size} fillet {like}" or "{wanted.size} square inside".'
    )


def _alike(among: Iterable[Section], size: Section) -> list[Section]:
    """The different sections of a size, whatever their radii."""
    found = (upright(s) for s in among)
    same = {s for s in found if replace(s, fillet=Fraction(0), toe_radius=Fraction(0), heel_radius=Fraction(0)) == size}
    return sorted(same, key=lambda s: (s.fillet, s.toe_radius, s.heel_radius))
