"""A part of one's own from controls: a part or a sentence in every corner, and every part of the demo kit taken and given back."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from lesson_checks import corners

from anglelib.drawing.part_sheet import part_sheet
from anglelib.lessons.demo import demo_job
from anglelib.lessons.own_part import BOTH, KEPT, OwnPart, first_part
from anglelib.part import Part, Taper


def check(own: OwnPart) -> None:
    assert (own.value is None) == bool(own.trouble)
    if own.trouble:
        assert own.trouble[0].isupper() and own.trouble.endswith("."), own.trouble
        assert own.trouble.split(":")[0].split(" ")[0] in own.told.value


def test_every_control_to_its_ends_and_back():
    own = OwnPart()
    for name, control in own.controls.items():
        before = control.value
        for value in corners(control):
            control.value = value
            check(own)
        control.value = before
        assert own.value is not None, name
    assert own.value == first_part()


def test_random_corners_give_a_part_that_can_be_drawn_or_a_sentence():
    rng, own, drawn, refused = random.Random(5), OwnPart(), 0, 0
    for turn in range(150):
        name = rng.choice(list(own.controls))
        own.controls[name].value = rng.choice(corners(own.controls[name]))
        check(own)
        refused += own.value is None
        if own.value is not None and turn % 10 == 0:
            assert part_sheet(own.value).items
            drawn += 1
        if own.value is None and rng.random() < 0.5:
            own.take(first_part())
            assert own.value == first_part()
    assert drawn > 3 and refused > 10


@pytest.mark.parametrize("part", demo_job().parts, ids=lambda part: part.id)
def test_a_part_of_the_demo_kit_goes_in_and_comes_out_the_same(part):
    own = OwnPart()
    own.value = part
    assert own.value == part and not own.trouble
    own.controls["length"].value = part.length + Fraction(1, 4)
    assert own.value is not None and own.value.length == part.length + Fraction(1, 4), own.trouble
    assert own.value.copes == part.copes and own.value.corners == part.corners


def test_a_length_beyond_the_slider_is_taken_all_the_same():
    long = Part("L1", "Longeron", first_part().section, "7075-T6", "141 3/8", quantity=80)
    own = OwnPart()
    own.value = long
    assert own.value == long
    assert own.controls["alloy"].value == "7075-T6"


def test_what_the_controls_cannot_say_stays_as_it_came():
    two = [Taper("A", 1, "1/4", run="1 1/2"), Taper("B", 2, "3/8", run="2")]
    part = Part("T2", "Two tapers", first_part().section, "6061-T6", "9", two)
    own = OwnPart(part)
    assert own.controls["tapers"].value == KEPT and own.value == part
    own.controls["tapers"].value = BOTH
    assert {(t.leg, t.end) for t in own.value.tapers} == {("A", 1), ("A", 2)}


def test_a_hand_is_claimed_only_while_the_metal_is_the_same():
    part = replace(first_part(), holes=(), hand="left")
    own = OwnPart(part)
    assert own.value.hand == "left"
    own.controls["taper_leg"].value = "B"
    assert own.value.hand is None and own.value.mirror_of == ""


def test_an_entry_that_cannot_be_read_is_said():
    own = OwnPart()
    own.controls["run"].entry.value = "one and a half"
    assert "Run (in.)" in own.told.value
