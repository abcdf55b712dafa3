"""The job: parts that agree with one another, and a shop whose numbers can be."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from anglelib.errors import JobError
from anglelib.job import Job, Shop, contradictions
from anglelib.part import Part, Taper
from anglelib.section import Section

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
LEFT = Part("T1L", "Cleat", STOCK, "6061-T6", 2, tapers=[Taper("A", 1, "3/8", run=1)], hand="left", mirror_of="T1R")
RIGHT = replace(LEFT, id="T1R", tapers=[Taper("B", 1, "3/8", run=1)], hand="right", mirror_of="T1L")
BAR = Part("T2", "Bar", STOCK, "6061-T6", 17, quantity=4, hand="neither")


def test_a_job_counts_and_finds_its_parts():
    job = Job("Tail", Shop(), [LEFT, RIGHT, BAR])
    assert job.pieces == 6
    assert job.part("T2") is job.parts[2]
    with pytest.raises(JobError, match='no part "T3": the job has T1L, T1R, T2'):
        job.part("T3")


REFUSED = {
    "no parts": ([], "has no parts: add at least one"),
    "same id": ([BAR, BAR], "not its own: another part has it too. Rename one"),
    "ids by capitals": ([BAR, replace(BAR, id="t2")], "T2 differs only in capitals"),
    "no partner": ([LEFT], "names T1R as its mirror image, which is not in the job"),
    "its own partner": ([replace(LEFT, mirror_of="T1L")], "names itself as its mirror image"),
    "no mirror": ([replace(LEFT, mirror_of="T2"), BAR], "T2 is not the mirror image of T1L: compare"),
    "twins": ([LEFT, replace(LEFT, id="T1R", mirror_of="")], "T1R is not the mirror image of T1L"),
    "both left": ([LEFT, replace(RIGHT, hand="left")], "both say left: one is the other hand"),
    "too many": ([replace(BAR, quantity=2000), replace(BAR, id="T3")], "2004 pieces in all: at most 2000"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refuses_parts_that_contradict_one_another(name):
    parts, says = REFUSED[name]
    with pytest.raises(JobError, match=says):
        Job("Tail", Shop(), parts)


def test_every_contradiction_is_found_with_its_part_and_key():
    found = contradictions((LEFT, BAR, replace(BAR, quantity=2000)))
    assert [(part, key) for part, key, _ in found] == [("T2", "id"), ("T1L", "mirror_of"), ("", "quantity")]


def test_a_partner_turned_end_for_end_is_a_partner():
    assert Job("Tail", Shop(), [LEFT, replace(RIGHT.turned(), hand="right", mirror_of="T1L")])


def test_the_shop_reads_text_and_is_exact():
    shop = Shop(kerf="1.5 mm", allowance=0)
    assert shop.kerf == Fraction(15, 254) and shop.allowance == 0
    assert Shop() == Shop("1/16", "1/32", 1, 3, 6)


SHOPS = {
    "kerf": (dict(kerf="2"), "no blade is that thick"),
    "kerf text": (dict(kerf="thin"), 'The kerf "thin" is not a length'),
    "kerf negative": (dict(kerf="-1/16"), "below 0"),
    "allowance": (dict(allowance="1 1/2"), "sanding allowance is over 1 in."),
    "grain 0": (dict(grain=0), "grain is 0"),
    "a float": (dict(kerf=0.0625), "floating number"),
}


@pytest.mark.parametrize("name", SHOPS)
def test_refuses_a_shop_that_cannot_be(name):
    change, says = SHOPS[name]
    with pytest.raises(JobError, match=says):
        Shop(**change)


def test_the_name_is_text():
    assert Job('"><img src=x onerror=alert(1)>', Shop(), [BAR]).name.startswith('"><img')
    with pytest.raises(JobError, match="61 characters long"):
        Job("x" * 61, Shop(), [BAR])
