"""What a part lacks and why, by hand: by how much the metal is too short with the earlier claims sawn, which sticks could serve, which are said not to."""

from dataclasses import replace
from fractions import Fraction as F

from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reasons import ALLOY as ANOTHER_ALLOY
from anglelib.stock.reasons import BARRED, CLAIMED, FILLET, HANDS_OFF, NO_STICK, NOT_THERE, TOO_SHORT, Reason

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
SQUARE = Section("3/4", "3/4", "1/8")
OTHER = Section(1, 1, "1/8", fillet="1/8")
ALLOY = "6061-T6"
BARE = Shop(kerf=0, allowance=0, hand_minimum=0, usable_minimum=0)
SAWN = Shop(kerf="1/16", allowance="1/32")


def bar(id_: str, length, **more) -> Part:
    return Part(id_, "Bar", STOCK, ALLOY, length, **more)


def stick(id_: str, length, **about) -> Stick:
    return replace(Stick(id_, STOCK, ALLOY, length), **about)


def lacks(parts, *sticks, shop=BARE):
    return {one.part_id: one for one in plan(Job("Trial", shop, parts), Rack(sticks)).shortages}


def test_by_how_much_it_is_short_with_the_earlier_claim_sawn():
    """30 from a stick of 40 leaves 10: of a bar of 15 the metal lacks 5; the other stick of 8 lacks 7."""
    found = lacks([bar("A", 30), bar("B", 15)], stick("S-1", 40), stick("S-2", 8))
    assert list(found) == ["B"] and (found["B"].short_by, found["B"].missing, found["B"].of, found["B"].blank, found["B"].proven) == (5, 1, 1, 15, True)


def test_blade_and_sanding_are_reckoned():
    """30 1/16 and its blade, 15 1/16 and its blade: 45 1/4 of 40."""
    assert lacks([bar("A", 30), bar("B", 15)], stick("S-1", 40), shop=SAWN)["B"].short_by == F(21, 4)


def test_a_later_claim_is_not_in_the_way():
    """Two bars of 25 and one of 10 from 40: the second bar lacks 25 + 25 - 40, whatever the 10 takes; it comes after."""
    found = lacks([bar("A", 25, quantity=2), bar("B", 10)], stick("S-1", 40))
    assert (found["A"].short_by, found["A"].missing, found["A"].of) == (10, 1, 2) and "B" not in found


def test_only_the_sticks_that_may_give_it_count():
    """A bar of 20 named for S-2 of 15 lacks 5, though S-1 has 19 left; barred from S-1, the same; of S-9, that is not there, there is nothing to say how much."""
    one, two = stick("S-1", 39), stick("S-2", 15)
    assert lacks([bar("A", 20, only_stick="S-1"), bar("B", 20, only_stick="S-2")], one, two)["B"].short_by == 5
    assert lacks([bar("A", 20, only_stick="S-1"), bar("B", 20, not_from=["S-1"])], one, two)["B"].short_by == 5
    gone = lacks([bar("B", 20, only_stick="S-9")], one)["B"]
    assert gone.short_by is None and gone.reasons == (Reason(NOT_THERE, "S-9", "B"),)


def test_how_many_are_missing_of_how_many():
    found = lacks([bar("A", 20, quantity=5)], stick("S-1", 41), stick("S-2", 23))
    assert (found["A"].missing, found["A"].of, found["A"].short_by) == (2, 5, 17)  # 3 x 20 - 41 = 19; 2 x 20 - 23 = 17


def test_why_every_reason_once_in_the_order_of_the_rack():
    """By hand: S-1 could serve but is claimed; S-2 is too short; S-3 of another alloy; S-4 has a square corner; S-5 is not to be touched; a wider angle is not worth a word."""
    sticks = [
        stick("S-1", 40), stick("S-2", 10), stick("S-3", 60, alloy="6063-T5"), stick("S-4", 60, section=SQUARE), stick("S-5", 60, hands_off=True), stick("S-6", 60, section=OTHER),
    ]  # fmt: skip
    found = lacks([bar("A", 30), bar("B", 15)], *sticks)["B"].reasons
    assert [(reason.id, reason.stick) for reason in found] == [(CLAIMED, ""), (TOO_SHORT, "S-2"), (ANOTHER_ALLOY, "S-3"), (FILLET, "S-4"), (HANDS_OFF, "S-5")]
    assert found[0] == Reason(CLAIMED, part="B", sticks=("S-1",), sure=True)
    named = lacks([bar("A", 30), bar("B", 15, only_stick="S-2")], *sticks)["B"].reasons
    assert [(reason.id, reason.stick) for reason in named] == [(TOO_SHORT, "S-2")]  # the others are not asked for it
    barred = lacks([bar("A", 30), bar("B", 15, not_from=["S-1"])], *sticks[:1])["B"].reasons
    assert [(reason.id, reason.stick) for reason in barred] == [(BARRED, "S-1")]


def test_a_rack_without_any_such_stick_says_so():
    found = lacks([bar("B", 15)], stick("S-6", 60, section=OTHER))["B"]
    assert found.reasons == (Reason(NO_STICK, part="B", have=STOCK, alloy=ALLOY),) and found.short_by is None
    turned = Section(1, "3/4", "1/8", fillet="1/8")
    part = Part("U", "Bar", turned, ALLOY, 15)
    assert [reason.id for reason in lacks([part], Stick("S-1", turned.swapped(), ALLOY, 10))["U"].reasons] == [TOO_SHORT]  # the same metal, listed the other way round
