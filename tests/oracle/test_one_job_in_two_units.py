"""One job described twice, in inches and in millimetres: every number is the same, and only the words say another unit.

All numbers are on 64ths of an inch, which six decimals of a millimetre say exactly (25.4 / 64 = 0.396875). The texts are
written here, not by the library.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction as F
from functools import cache
from pathlib import Path
from random import Random
from typing import NamedTuple

import pytest

from anglelib.errors import BenchError, FileProblems
from anglelib.files import parse_job
from anglelib.geometry.hole_refusals import refuse_broken
from anglelib.geometry.layout import FROM_WITNESS, WITNESS, Mark, witness_line
from anglelib.geometry.work import operations
from anglelib.inspection.diagnosis import diagnose
from anglelib.inspection.likelihood import Reading, candidates
from anglelib.inspection.reading_ids import WITNESS as AT_WITNESS
from anglelib.inspection.reading_ids import chosen, origin, takeable
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.verdict import judge
from anglelib.inspection.wanted import all_wanted
from anglelib.job import Job
from anglelib.lengths import MM, writing
from anglelib.part import Part
from anglelib.stock.plan_words import shortage_words
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.terminal.words import stick_lines

sys.path.append(str(Path(__file__).resolve().parents[1] / "drawing"))
from random_parts import part_on_64ths  # noqa: E402

HEAD = """format = 1
name = "Twice"
unit = "{unit}"
limits = "{limits}"

[shop]
kerf = {kerf}
allowance = {allowance}
"""


# --- the two texts ---------------------------------------------------------------------------------------
def text_of(parts: list[Part], unit: str, limits: str = "ISO 2768-1 m") -> str:
    """A job file, every length a plain decimal without its unit."""

    def n(value: F) -> str:
        number = value if unit == "in" else value / MM
        text = f"{number.numerator * 10**6 // number.denominator:07d}"
        assert F(int(text), 10**6) == number, value
        return f'"{text[:-6]}.{text[-6:]}"'

    def table(**entries: str) -> str:
        return "{" + ", ".join(f"{key} = {value}" for key, value in entries.items()) + "}"

    lines = [HEAD.format(unit=unit, limits=limits, kerf=n(F(1, 16)), allowance=n(F(1, 32)))]
    for number, part in enumerate(parts):
        s = part.section
        lines += [f'[section."s{number}"]', *(f"{field.name} = {n(getattr(s, field.name))}" for field in fields(s))]
        lines += ["[[part]]", f'id = "{part.id}"', f'name = "{part.name}"', f'section = "s{number}"', 'alloy = "6061-T6"', f"length = {n(part.length)}", "quantity = 2"]
        tapers = [
            table(leg=f'"{t.leg}"', end=str(t.end), width_left=n(t.width_left), **({"run": n(t.run)} if t.run is not None else {"angle": f'"{float(t.angle)}"'}))
            for t in part.tapers
        ]
        holes = [table(leg=f'"{h.leg}"', x=n(h.x), y=n(h.y), diameter=n(h.diameter)) for h in part.holes]
        corners = [table(leg=f'"{c.leg}"', end=str(c.end), radius=n(c.radius)) for c in part.corners]
        copes = [table(leg=f'"{c.leg}"', end=str(c.end), length=n(c.length), width_left=n(c.width_left), radius=n(c.radius)) for c in part.copes]
        for name, rows in (("tapers", tapers), ("holes", holes), ("corners", corners), ("copes", copes)):
            lines += [f"{name} = [{', '.join(rows)}]"] if rows else []
    return "\n".join(lines)


def twins(parts: list[Part], limits: str = "ISO 2768-1 m") -> tuple[Job, Job]:
    return parse_job(text_of(parts, "in", limits)), parse_job(text_of(parts, "mm", limits))


@cache
def drawn(seed: int) -> tuple[Job, Job]:
    """The two jobs of one random part; the next seed where a job file refuses its holes."""
    while True:
        try:
            return twins([part_on_64ths(seed)])
        except FileProblems:
            seed += 500


SEEDS = range(40)


# --- equal numbers ------------------------------------------------------------------------------------------
def plain(value: object) -> object:
    """Data without the parts in it, which know their unit, and without the last place to which a reading is typed in it."""
    if isinstance(value, Part):
        return value.id
    if is_dataclass(value):
        return (type(value).__name__, *(plain(getattr(value, f.name)) for f in fields(value) if f.name != "grain"))
    if isinstance(value, tuple | list):
        return [plain(one) for one in value]
    if isinstance(value, Mapping):
        return {key: plain(one) for key, one in value.items()}
    return value


def absolute(mark: Mark, part: Part) -> tuple:
    """A mark by its place from end 1: the witness line stands at the first round number of its own unit, and marks from it move with it."""
    if mark.kind == WITNESS:
        return (WITNESS,)
    if mark.origin != FROM_WITNESS:
        return (plain(mark),)
    line, way = witness_line(part), 1 if mark.end == 2 else -1
    place = [None if value is None else line + way * value for value in (mark.at, mark.saw)]
    return (plain(replace(mark, at=0, saw=None)), place)


def marks(job: Job) -> list[tuple]:
    (part,) = job.parts
    return [(step.kind, step.end, step.leg, step.on_stick, step.clamped, [absolute(mark, part) for mark in step.marks]) for step in operations(part, job.shop)]


@pytest.mark.parametrize("seed", SEEDS)
def test_parts_marks_and_readings_are_the_same(seed):
    inch, metric = drawn(seed)
    one, two = inch.parts[0], metric.parts[0]
    assert (one.unit, two.unit, inch.limits, inch.shop) == ("in", "mm", metric.limits, metric.shop)
    assert replace(one, unit="mm") == two
    assert marks(inch) == marks(metric)
    assert takeable(one) == takeable(two) and chosen(one) == chosen(two)
    if origin(one).kind != AT_WITNESS:
        assert plain(all_wanted(one, inch.limits)) == plain(all_wanted(two, metric.limits))


def test_the_guard_sees_a_mark_that_moved():
    inch, metric = drawn(3)
    moved = replace(metric, shop=replace(metric.shop, allowance=F(1, 31)))
    assert marks(inch) != marks(moved)


def rack_for(parts: tuple[Part, ...], seed: int) -> Rack:
    """A stick or two of each section, some too short, so that shortages are told too."""
    rng, sticks = Random(seed), []
    for number, part in enumerate(parts):
        longest = float(part.length)
        for more in (rng.choice((0.9, 1.5, 2.6)), rng.choice((1.01, 3.4))):
            sticks.append(Stick(f"R-{number}{len(sticks)}", part.section, part.alloy, F(round(longest * more * 16), 16) + 1, F(1, 4), F(1, 8)))
    return Rack(sticks)


# --- equal words ------------------------------------------------------------------------------------------------
BRACKETS = re.compile(r" \((?:\d+(?: \d+/\d+|/\d+|\.\d+)?(?: (?:in|mm)\b\.?)?)\)")
"""What stands in brackets behind a length: the same again, to a decimal or in the other unit."""
NUMBER = re.compile(r"(?P<n>\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+)(?P<unit> ?(?:mm|in)\b)?(?P<again>~)?\.?")


class Number(NamedTuple):
    """A number of a sentence; ``unit``: "" where none is said; ``length``: whether it can only be one, by its fraction or its brackets."""

    value: F
    unit: str
    length: bool


def taken_apart(text: str) -> tuple[str, list[Number]]:
    """The words with # for each number, and the numbers; a rule's "full" and "bare" go with its graduations."""
    text, found = re.sub(r" (?:full|bare)\b", "", BRACKETS.sub("~", text)), []
    for match in NUMBER.finditer(text):
        number = sum((F(piece) for piece in match["n"].split()), F(0))
        found.append(Number(number, (match["unit"] or "").strip(), "/" in match["n"] or bool(match["again"])))
    words = NUMBER.sub("#", text)
    return re.sub(r"\b(?:inches|millimetres)\b", "(unit)", words.replace("the fraction of an inch", "the fraction")), found


def differences(inch: str, metric: str, said_above: bool = False) -> list[str]:
    """Where two texts differ in more than their unit, or a length does not say it; empty if all is well.

    ``said_above``: a head or a note may have said millimetres.
    """
    (one_words, one), (two_words, two) = taken_apart(inch), taken_apart(metric)
    if one_words != two_words:
        return [f"{inch!r} | {metric!r}"]
    wrong = []
    for a, b in zip(one, two, strict=True):
        if a.value == b.value and (b.unit == "in" or (b.unit == a.unit and not (a.length and not b.unit and a.value))):
            continue  # a count, an angle, a number of the trade's own that says its unit
        # what is struck at a graduation is off by up to half a step of its rule, whatever its text looks like
        if (b.unit != "mm" and not said_above) or abs(a.value - b.value * MM) > F(1, 128) + MM / 4:
            wrong.append(f"{float(a.value)} is {float(b.value)} {b.unit}: {inch!r} | {metric!r}")
    return wrong


def test_the_guard_sees_another_number_a_missing_unit_and_another_word():
    assert differences("take off 1/16 (0.060).", "take off 1.5 mm (0.060 in).") == []
    assert differences("end 1, 2 tapers, 22.5 degrees", "end 1, 2 tapers, 22.5 degrees") == []
    assert differences("take off 1/16 (0.060).", "take off 1.5 (0.060 in).")
    assert differences("take off 1/16 (0.060).", "take off 3 mm (0.060 in).")
    assert differences("take off 1/16 (0.060).", "takes off 1.5 mm (0.060 in).")
    assert differences("off 1/16.", "off 1/16.") and differences("off 2 (2.000).", "off 2 (2.000).") and differences("off 1/16.", "off 1/16 in.") == []
    assert differences("hole at 2", "hole at 2") == [] != differences("hole at 2", "hole at 2 mm")
    assert differences("hole at 2", "hole at 50.8", said_above=True) == [] != differences("hole at 2", "hole at 51.8", said_above=True)


def without_witness(lines: list[str]) -> str:
    """Lines as one text, without what is read from the witness line, which stands elsewhere in another unit."""
    return re.sub(r"[\d /.]+(?: mm)?(?: full| bare)? from the witness line", "", " ".join(" ".join(lines).split()))


def test_plans_are_the_same_and_their_words_say_their_unit():
    cuts, short = zip(*map(planned_alike, range(26)), strict=True)
    assert sum(cuts) > 100 and sum(short) >= 10  # both kinds of words are told


def planned_alike(seed: int) -> tuple[int, int]:
    """How many cuts and shortages the two plans of three parts have, which must be the same."""
    parts = [replace(drawn(1000 + seed * 3 + n)[0].parts[0], id=f"P{n}") for n in range(3)]
    inch, metric = twins(parts)
    rack = rack_for(inch.parts, seed)
    one, two = plan(inch, rack), plan(metric, rack)
    assert plain(one) == plain(two)
    for a, b in zip(one.sticks, two.sticks, strict=True):
        said = stick_lines(a, inch.shop, inch.limits)
        with writing("mm"):
            told = stick_lines(b, metric.shop, metric.limits)
        assert differences(without_witness(said), without_witness(told), said_above=True) == []
    for a, b in zip(one.shortages, two.shortages, strict=True):
        with writing("mm"):
            told = shortage_words(b, metric)
        assert differences(shortage_words(a, inch), told) == []
    return sum(len(stick.cuts) for stick in one.sticks), len(one.shortages)


def read_off(part: Part, job: Job, seed: int) -> tuple[Reading, ...]:
    """What its card asks for, read on a part as one of its slips leaves it; a hair of scatter."""
    rng = Random(f"read {seed}")
    case = rng.choice(candidates(part, job.shop)[1:])
    return tuple(Reading(id_, case.readings[id_] + rng.gauss(0, 0.002)) for id_ in chosen(part) if id_ in case.readings)


@pytest.mark.parametrize("seed", range(12))
def test_what_was_read_is_judged_and_diagnosed_alike(seed):
    inch, metric = drawn(seed)
    (one,), (two,) = inch.parts, metric.parts
    readings = read_off(one, inch, seed)
    first, second = judge(one, readings, inch.limits, inch), judge(two, readings, metric.limits, metric)
    assert plain(first) == plain(second)
    assert differences(first.sentence, second.sentence) == []
    found, again = diagnose(one, inch.shop, readings), diagnose(two, metric.shop, readings)
    assert [(c.ids, c.second, c.probability) for c in found.causes] == [(c.ids, c.second, c.probability) for c in again.causes]
    assert (found.shares, found.next_reading) == (again.shares, again.next_reading)
    for cause, other in zip(found.causes, again.causes, strict=True):
        assert differences(cause.words, other.words) == []
    for id_ in takeable(one):
        assert differences(reading_words(id_, one), reading_words(id_, two)) == []


def test_every_case_of_every_mistake_says_its_part_s_unit():
    """All cases, also those that no reading above pointed to: the same part, the same weight, and the unit."""
    several = 0
    for seed in range(8):
        inch, metric = drawn(seed)
        for a, b in zip(candidates(inch.parts[0], inch.shop), candidates(metric.parts[0], metric.shop), strict=True):
            assert (a.id, a.share, a.readings) == (b.id, b.share, b.readings)
            assert differences(a.case.words, b.case.words) == [], a.id
            several += "mm" in b.case.words and "mm" not in a.case.words
    assert several > 50


SPOILED = [
    (r'(length = )"[\d.]+"', r'\1"{short}"'),
    (r'(width_left = )"[\d.]+"', r'\1"{wide}"'),
    (r'(run = )"[\d.]+"', r'\1"{long}"'),
    (r'(diameter = )"[\d.]+"', r'\1"{wide}"'),
    (r"(y = )\"[\d.]+\"", r'\1"{wide}"'),
    (r"(radius = )\"[\d.]+\"", r'\1"{wide}"'),
    (r'(thickness_a = )"[\d.]+"', r'\1"{wide}"'),
]
SIZES = {"short": F(1, 2), "wide": F(3), "long": F(160)}


def refusal(text: str) -> str:
    try:
        parse_job(text)
    except BenchError as error:
        return str(error)
    return ""


def test_refusals_are_in_the_job_s_unit():
    told = set()
    for seed in range(24):
        part = drawn(seed)[0].parts[0]
        for pattern, spoiled in SPOILED:
            said = []
            for unit in ("in", "mm"):
                sizes = {name: f"{float(value if unit == 'in' else value / MM):.4f}" for name, value in SIZES.items()}
                said.append(refusal(re.sub(pattern, spoiled.format(**sizes), text_of([part], unit), count=1)))
            assert differences(*said) == [], said
            if "mm" in said[1]:
                told.add(pattern)
    assert told == {pattern for pattern, _ in SPOILED}


def test_a_hole_that_is_not_whole_is_refused_in_the_part_s_unit():
    """Every hole of the drawn parts, moved into the end or the toe or another hole."""
    told = 0
    for seed in range(30):
        inch, metric = drawn(seed)
        for n, hole in enumerate(inch.parts[0].holes):
            said = []
            for part in (inch.parts[0], metric.parts[0]):
                near = replace(hole, x=part.holes[n - 1].x + hole.diameter / 4 if len(part.holes) > 1 else hole.diameter / 4, leg=part.holes[n - 1].leg)
                try:
                    refuse_broken([replace(part, holes=(*part.holes[:n], near, *part.holes[n + 1 :]))])
                except BenchError as error:
                    said.append(str(error))
            told += len(said) == 2
            assert len(said) != 1 and (not said or differences(*said) == []), said
    assert told > 20
