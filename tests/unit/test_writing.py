"""Lengths written in millimetres: read back within what is printed, the unit said once, inches told apart, one's own unit kept."""

from __future__ import annotations

import threading
from decimal import ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from anglelib.errors import LengthError
from anglelib.lengths import (
    LAST_PLACE,
    MM,
    about,
    apart,
    area,
    area_sign,
    both,
    decimal,
    exact,
    figure,
    fine,
    head,
    in_one_unit,
    in_unit,
    labelled,
    marked,
    marked_both,
    own,
    own_spoken,
    read,
    show,
    spoken,
    typed,
    unit_in_head,
    unit_word,
    unit_written,
    writing,
)

lengths_in = st.fractions(0, 200, max_denominator=10**5)
shop_fractions = st.integers(0, 200 * 128).map(lambda n: F(n, 128))
in_hundredths = st.integers(0, 500_000).map(lambda n: n * MM / 100)

PRINTED = {
    "show": (show, MM / 20), "fine": (fine, MM / 200), "both": (both, MM / 200), "exact": (exact, MM / 200), "about": (about, MM / 200),
    "figure": (figure, MM / 200), "spoken": (spoken, MM / 200), "marked": (lambda v: marked(v, F(1)), MM / 4),
}  # fmt: skip
"""How each prints, and the half of its last step [in]."""


def split(text: str) -> tuple[str, str]:
    """What is printed, and what stands in its brackets."""
    first, _, more = text.partition(" (")
    return first, more.rstrip(")")


@pytest.mark.parametrize("name", PRINTED)
@given(lengths_in)
def test_what_is_printed_in_millimetres_is_read_back_within_its_rounding(name, value):
    """A bare number is millimetres to whoever reads in them; what stands in brackets is inches, and says so."""
    write, half = PRINTED[name]
    for said in (True, False):
        with writing("mm"), unit_in_head(said):
            first, brackets = split(write(value))
        assert abs(read(first, unit="mm") - value) <= half, first
        if name == "both":
            assert brackets.endswith(" in") and abs(read(brackets, unit="mm") - value) <= F(1, 2000)


@given(lengths_in)
def test_a_caliper_s_two_decimals_round_half_up(value):
    """Python's decimal module is the other opinion: a length in inches times 25.4."""
    with localcontext() as context:
        context.prec = 60
        expected = (Decimal(value.numerator) / Decimal(value.denominator) * Decimal("25.4")).quantize(Decimal("0.01"), ROUND_HALF_UP)
    with writing("mm"), unit_in_head():
        assert fine(value) == f"{expected:f}"


@pytest.mark.parametrize("rounding", ["nearest", "up", "down"])
def test_tenths_of_a_millimetre_are_themselves_however_they_are_rounded(rounding):
    """As floats, too: 7.6 / 25.4 lies a hair below 7.6 mm, others a hair above."""
    with writing("mm"):
        assert [show(n / 254, rounding=rounding) for n in range(1, 400)] == [f"{n // 10}{f'.{n % 10}' if n % 10 else ''} mm" for n in range(1, 400)]


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_last_place_is_what_a_caliper_s_last_digit_is_worth(unit):
    with writing(unit):
        assert read(fine(2 + LAST_PLACE[unit]), unit=unit) - read(fine(2), unit=unit) == LAST_PLACE[unit]


def test_what_a_metric_file_keeps_is_metric_where_it_can_be():
    """To a hundredth of a millimetre, also what a rule of inches has; else the inches, which say so; nothing is lost."""
    kept = {F(5, 2): "63.5 mm", F(1): "25.4 mm", 50 * MM: "50 mm", F(1, 8): "1/8 in", F(1, 1000): "0.001 in", F(7, 20): "8.89 mm", MM / 1000: "0.001 mm", F(1, 3): "1/3 in", F(43, 10000): "0.0043 in"}
    assert {value: exact(value, "mm") for value in kept} == kept and all(read(text, unit="mm") == value for value, text in kept.items())
    plain = {F(5, 2): "2 1/2", 50 * MM: "50 mm", F(1, 8): "1/8", F(1, 1000): "0.001", F(7, 20): "0.35", MM / 1000: "0.001 mm", F(1, 3): "1/3", F(43, 10000): "0.0043"}
    assert {value: exact(value) for value in plain} == {value: exact(value, "in") for value in plain} == plain


def test_a_float_a_hair_off_a_graduation_or_a_hundredth_is_that_number():
    """1/8 is 3.175 mm, and half a hundredth is rounded up, on whichever side of it a float came to lie."""
    with writing("mm"):
        for off in (-1e-16, 0.0, 1e-16):
            assert fine(0.125 + off) == "3.18 mm"
            assert show(1 / 25.4 * 7.25 + off) == "7.3 mm"
        assert fine(0.1249999) == "3.17 mm"


@pytest.mark.parametrize("value", [F(1, 16), F(1), F(3, 2), 50 * MM, F(8, 5) * MM, F(43, 1000), 0.2165])
def test_inches_are_what_they_were(value):
    """Neither a head nor another context's end changes what is written in inches; millimetres among inches always say so."""
    plain = [show(value), both(value), fine(value), *([exact(F(value)), own(F(value))] if isinstance(value, F) else [])]
    with writing("mm"), writing("in"), unit_in_head():
        assert plain == [show(value), both(value), fine(value), *([exact(F(value)), own(F(value))] if isinstance(value, F) else [])]
        assert exact(50 * MM) == "50 mm"
    assert unit_written() == "in" and (unit_word(), unit_word(one=True), area_sign(), head("at"), labelled("Run")) == ("inches", "inch", "in2", "at", "Run (in.)")


def test_a_context_ends_with_its_block_and_is_no_other_thread_s():
    seen = []
    with pytest.raises(ZeroDivisionError), writing("mm"):
        worker = threading.Thread(target=lambda: seen.append(show(1)))
        worker.start()
        worker.join()
        seen.append(show(1))
        raise ZeroDivisionError
    assert (seen, show(1)) == (["1", "25.4 mm"], "1")


def test_a_head_says_the_unit_of_its_own_sheet_only():
    """A part's own lengths inside a table of another unit say theirs: the head above does not speak of them."""
    with writing("mm"), unit_in_head():
        assert (show(2), head("length")) == ("50.8", "length, mm")
        with writing("mm"):
            assert show(2) == "50.8 mm"
        assert in_unit(F(3, 4), "in") == "3/4 in." and in_unit(50 * MM, "mm") == "50"
    with writing("in"), unit_in_head():
        assert in_unit(50 * MM, "mm") == "50 mm" and in_unit(F(3, 4), "in") == "3/4"


def test_a_length_of_another_unit_says_its_own_once():
    """Whatever writes it: a shop fraction that stays one among millimetres, millimetres among inches, a mark with what is said behind it."""
    assert in_unit(F(1, 16), "mm", own) == "1/16 in" and in_unit(30 * MM, "mm", own) == "30 mm" and in_unit(F(113, 10) * MM, "mm", lambda v: marked(v, MM / 5)) == "11.5 mm bare"
    with writing("mm"):
        assert in_unit(30 * MM, "in", own) == "30 mm" and in_unit(F(1, 16), "in", own) == "1/16 in." and in_unit(F(1, 16), "mm", own) == "1/16 in"


def test_inches_among_sheets_in_millimetres_are_told_apart():
    assert apart() == ""
    with writing("in"):
        assert apart() == ""
    with writing("mm"):
        assert apart() == ""
        with writing("in"):
            assert apart() == "all lengths in inches"
            with writing("in"):
                assert apart() == "all lengths in inches"
            with writing("mm"):
                assert apart() == ""
    assert apart() == ""


@given(shop_fractions)
def test_a_shop_fraction_keeps_its_inches_in_a_job_in_millimetres(value):
    """What is whole or half in millimetres is in them, else the fraction that somebody gave; nothing is lost either way."""
    with writing("mm"):
        text = own(value)
        assert read(text, unit="mm") == value and text.endswith((" in", " mm"))
    assert read(own(value)) == value == read(exact(value, unit="mm"), unit="mm")


@given(in_hundredths)
def test_hundredths_of_a_millimetre_lose_nothing_in_either_unit(value):
    with writing("mm"):
        assert read(own(value), unit="mm") == read(exact(value), unit="mm") == value
    assert read(own(value)) == read(exact(value)) == value


def test_lengths_that_belong_together_are_in_one_unit():
    with writing("mm"):
        assert in_one_unit([F(3, 4), F(3, 4), F(1, 8)]) == (["3/4", "3/4", "1/8"], " in")
        assert in_one_unit([30 * MM, 30 * MM, 3 * MM]) == (["30", "30", "3"], " mm")
        assert in_one_unit([F(1), F(2)]) == (["1", "2"], " in")  # 25.4 and 50.8 mm are no metric section's
        assert in_one_unit([30 * MM, F(1, 8)]) == (["30 mm", "3.18 mm"], "")
        assert in_one_unit([F(5, 2), F(1, 8)]) == (["2 1/2", "1/8"], " in")  # 63.5 mm is a metric number, 3.175 none
        assert in_one_unit([F(5, 2), F(5)]) == (["63.5", "127"], " mm") and in_one_unit([F(12, 5) * MM, F(1, 8)]) == (["2.4 mm", "3.18 mm"], "")
    assert in_one_unit([30 * MM, F(1, 8)]) == (["30 mm", "1/8"], "") and in_one_unit([F(5, 2), F(5)]) == (["2 1/2", "5"], "")


@pytest.mark.parametrize("value, own_words, words", [(F(6), "6 in.", "152.4 mm"), (150 * MM, "150 mm", "150 mm"), (F(1, 2), "1/2 in.", "12.7 mm")])
def test_running_text_always_says_the_unit(value, own_words, words):
    with writing("mm"), unit_in_head():
        assert (own_spoken(value), spoken(value)) == (own_words, words)


def test_a_mark_on_a_metric_rule():
    """Half millimetres, "full" and "bare" where the graduation is off by more than half of the limit, by hand."""
    with writing("mm"):
        assert [marked(F(n, 100) * MM, MM / 5) for n in (1130, 1140, 1150, 1160, 1165)] == ["11.5 mm bare", "11.5 mm", "11.5 mm", "11.5 mm", "11.5 mm full"]
        assert marked_both(F(113, 10) * MM, MM / 5) == "11.5 mm bare (11.3)" and marked_both(50 * MM, MM / 5) == "50 mm"
        assert marked(F(1125, 100) * MM, MM / 2) == "11.5 mm"  # halves of a graduation go up, a quarter is within half the limit
        with unit_in_head():
            assert marked_both(F(113, 10) * MM, MM / 5) == "11.5 bare (11.3)"


def test_an_area_in_square_millimetres():
    """1 in2 is 25.4 x 25.4 = 645.16 mm2."""
    with writing("mm"):
        assert (area(1.0), area_sign()) == ("645.2", "mm2")


@pytest.mark.parametrize("text", ["1/8", "3 1/2", "½", "12 ¾", "1-1/2", " 7/16 ", "1⁄2"])
def test_a_bare_fraction_typed_in_millimetres_is_asked_about(text):
    with pytest.raises(LengthError, match="^The run .* is a fraction without a unit, in millimetres: write in or mm behind it.$"):
        typed(text, "mm", what="run")
    assert typed(text, "in") == read(text) and typed(f"{text.strip()} in", "mm") == read(text)


@pytest.mark.parametrize("text, mm", [("85", 85), ("85.5", F(171, 2)), ("8.5 cm", 85), ("85 mm", 85), ("1/2 mm", F(1, 2))])
def test_a_number_typed_in_millimetres(text, mm):
    assert typed(text, "mm") == mm * MM


@given(lengths_in)
def test_decimal_is_inches_whatever_is_written(value):
    """It is for what is always in inches, and for numbers that are no lengths."""
    plain = decimal(value)
    with writing("mm"), unit_in_head():
        assert decimal(value) == plain and abs(read(plain) - value) <= F(1, 2000)
