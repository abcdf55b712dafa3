"""Where the saw is set otherwise: cut sheet and terminal number the same set-ups, as many as the plan says, in inches and in millimetres."""

from __future__ import annotations

import re

import pytest
from whole_kit import whole_job, whole_rack

from anglelib.drawing.sheet import Label
from anglelib.paper.page import A4
from anglelib.paper.plan_pages import plan_pages
from anglelib.stock.plan import SET_UPS
from anglelib.stock.planner import plan
from anglelib.stock.record import Record
from anglelib.stock.set_ups import POSE, STOP, set_ups
from anglelib.stock.standing import Standing
from anglelib.terminal.words import plan_lines

SAID = re.compile(r"set-ups? ((?:\d+(?:, | and )?)+)")


def numbers(words: str) -> list[list[int]]:
    """The numbers of the set-ups that are said, section by section: each begins with 1 again."""
    found: list[list[int]] = []
    for said in SAID.findall(words):
        for number in map(int, re.findall(r"\d+", said)):
            if number == 1:
                found.append([])
            found[-1].append(number)
    return found


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_sheets_number_the_set_ups_as_the_plan_counts_them(unit):
    job, rack = whole_job(unit), whole_rack()
    made = plan(job, rack)
    counts = [next((p.set_ups for p in group.proofs if p.id == SET_UPS), 0) for group in made.groups]
    wanted = [list(range(1, count + 1)) for count in counts if count]
    assert sum(counts) > 20
    pages = plan_pages(made, job, rack, A4)
    printed = " ".join(item.text for page in pages for item in page.items if isinstance(item, Label))
    assert numbers(printed) == wanted
    told = " ".join(line.strip() for line in plan_lines(Standing(job, rack, made, made), Record(rack)))
    assert numbers(told) == wanted
    # whatever the sheets are written in, the saw is set as often, and by the same pieces
    other = plan(whole_job("mm" if unit == "in" else "in"), rack)
    assert [[(s.stick_id, s.row, s.at, s.changes) for s in set_ups(g.sticks)] for g in made.groups] == [
        [(s.stick_id, s.row, s.at, s.changes) for s in set_ups(g.sticks)] for g in other.groups
    ]


def test_a_left_taper_and_a_right_one_are_two_poses():
    """A part that lies reversed is sawn as its mirror image that does not: what counts is which leg is towards the saw."""
    from anglelib.part import Part, Taper
    from anglelib.section import Section
    from anglelib.stock.set_ups import changed, tapered

    stock = Section("3/4", "3/4", "1/8", fillet="1/8")

    def pose(leg: str, end: int):
        ((_, setting),) = tapered(Part("A", "Bar", stock, "6061-T6", 20, [Taper(leg, end, "3/8", run=1)]))
        return setting

    left, right = pose("A", 1), pose("B", 1)
    assert changed(left, right) == (POSE,) and STOP not in changed(left, right)
    assert changed(left, pose("B", 2)) == () and changed(right, pose("A", 2)) == ()
