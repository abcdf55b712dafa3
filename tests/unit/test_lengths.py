"""Lengths: every way a person types one, every refusal with its remedy, and printing that states its loss."""

from __future__ import annotations

import re
import time
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from anglelib import lengths
from anglelib.errors import LengthError
from anglelib.lengths import (
    GRADUATIONS,
    LONGEST,
    MM,
    about,
    both,
    decimal,
    exact,
    inches,
    millimetres,
    own,
    printed,
    read,
    show,
    to_mm,
)
from anglelib.lengths.plain import quoted
from tests.unit.refused_lengths import REMEDIES

F = Fraction

READ = {
    # shop fractions
    "1 5/8": F(13, 8), "1-5/8": F(13, 8), "13/8": F(13, 8), "5/8": F(5, 8), "1  5/8": F(13, 8), " 1 5/8 ": F(13, 8),
    "1 5 / 8": F(13, 8), "1 - 5/8": F(13, 8), "01 05/08": F(13, 8), "1 5/8\t": F(13, 8), "3/1024": F(3, 1024),
    # the same with an inch mark or a word
    '1 5/8"': F(13, 8), "1 5/8 in": F(13, 8), "1 5/8 in.": F(13, 8), "1 5/8 INCH": F(13, 8), "2 inches": F(2),
    "1 5/8''": F(13, 8), "1 5/8”": F(13, 8), "1 5/8″": F(13, 8), "1 5/8′′": F(13, 8),
    # one character for a fraction, and the marks of a word processor
    "1⅝": F(13, 8), "1 ⅝": F(13, 8), "⅝": F(5, 8), "⅓": F(1, 3), "1-⅝": F(13, 8), "1⁄2": F(1, 2), "1–5/8": F(13, 8),
    "1\u00a05/8": F(13, 8), "1\u202f5∕8": F(13, 8), "1\u20095/8 in": F(13, 8),
    # decimals
    "1.625": F(13, 8), ".625": F(5, 8), "2.": F(2), "0.000001": F(1, 10**6), "+2": F(2), "1200": LONGEST,
    # feet
    "5'": F(60), "5 ft": F(60), "5ft 3in": F(63), "5' 3 1/4\"": F(253, 4), "5'3": F(63), "5'-3 1/4\"": F(253, 4),
    "5’ 3”": F(63), "0.5 ft": F(6), "5 feet 3 inches": F(63), "1 foot": F(12), "5'3⅛\"": F(505, 8),
    # millimetres
    "41.275 mm": F(13, 8), "41.275mm": F(13, 8), "25.4 MM": F(1), "6 cm": 60 * MM, "0.254 m": F(10), "1/2 mm": MM / 2,
    # a full stop behind a unit, a part of a foot, thousandths
    "6 mm.": 6 * MM, "6mm.": 6 * MM, "1 5/8in.": F(13, 8), "6 cm.": 60 * MM, "3 ft.": F(36), "5 ft. 3 in.": F(63), "2 inches.": F(2), "0.254 m.": F(10),
    "1/2 ft": F(6), "½'": F(6), "0.5'": F(6), ".5 ft": F(6), "½ ft.": F(6), "5½'": F(66), "5 1/2 feet": F(66), "½′": F(6),
    "66 thou": F(66, 1000), "66thou": F(66, 1000), "1/2 thou": F(1, 2000), "66 thou.": F(66, 1000), "66 thousandths": F(66, 1000), "1 thousandth": F(1, 1000),
    "5' 103/128": F(7783, 128), "5'03": F(63), "5' 11 63/64": F(4607, 64), "5' 13/8": F(493, 8),
    "0": F(0), "0 mm": F(0), "0/8": F(0), "-0": F(0),
}  # fmt: skip


@pytest.mark.parametrize("text", READ)
def test_reads(text):
    value = read(text)
    assert value == READ[text]
    assert type(value) is Fraction


REFUSED = {
    "": "is empty: write a length",
    "   ": "is empty: write a length",
    "\u00a0\t": "is empty: write a length",
    "one": '"one" is not a length: write it like 1 5/8',
    "1 5": "is not a length",
    "1/2/3": "is not a length",
    "1 5/8 yd": "is not a length",
    "1.5.2": "is not a length",
    "5/8 1": "is not a length",
    "1 1/2 1/4": "is not a length",
    "inf": "is not a length",
    "nan": "is not a length",
    "1e3": "is not a length",
    "1e99999999": "is not a length",
    "1_000": "is not a length",
    "0x10": "is not a length",
    "1+1": "is not a length",
    "2*3": "is not a length",
    "__import__('os').system('x')": "is not a length",
    "sqrt(2)": "is not a length",
    "pi": "is not a length",
    "mm": "is not a length",
    "/8": "is not a length",
    "1 /": "is not a length",
    ".": "is not a length",
    "٣": "is not a length",  # a digit, but not one that a rule carries
    "1\n5/8 x": "has a line break in it: write one length, on one line",
    "1,625": "has a comma: write the decimal with a point, 1.625",
    "1,625.5": "has a comma: write one length, with a point for its decimals",  # 1625.5 is over 100 ft
    "1,625.5 mm": "has a comma and a point: write 1625.5 mm",
    "41,3 mm": "has a comma: write the decimal with a point, 41.3 mm",
    "1/0": "divides by 0: check the number under the bar",
    "1 5/0": "divides by 0: check the number under the bar",
    "1 9/8": "not below 1: write 9/8 or 2 1/8",
    "1/4096": "has 4096 under the bar: no rule is that fine",
    "1.1234567": "has 7 decimals: at most 6",
    "-1": "is below 0: leave out the minus sign",
    "-1 5/8": "is below 0: leave out the minus sign",
    "−1": "is below 0: leave out the minus sign",
    "1201": "is over 100 ft: no stick is that long; check the number and its unit",
    "101 ft": "is over 100 ft",
    "99999 mm": "is over 100 ft",
    "9" * 40: "is over 100 ft",
    "5' 3 mm": "mixes feet with mm: use one or the other",
    "1" * 41: "is 41 characters long: write it in at most 40",
    "1/" * 5000: "is 10000 characters long",
}


@pytest.mark.parametrize("text", REMEDIES, ids=lambda text: ascii(text[:20]))
def test_each_refusal_names_its_remedy(text):
    with pytest.raises(LengthError) as caught:
        read(text, what="run")
    sentence = str(caught.value)
    assert REMEDIES[text] in sentence and sentence.startswith('The run "') and sentence.endswith(".")
    assert len(sentence) < 250 and sentence.isprintable()


def test_every_remedy_that_is_a_length_is_read():
    """What a sentence tells a person to write is not refused in its turn."""
    found = 0
    for remedy in REMEDIES.values():
        for said in re.findall(r"(?:write(?: the decimal with a point,)?|or|may be) ((?:[-.0-9][-0-9 ./'\"]*(?: ?(?:mm|in|ft|m)\b)?))(?=[,:]| or| for| where|$)", remedy):
            assert read(said.strip(), unit="mm" if "mm" in remedy else "in") > 0, (said, remedy)
            found += 1
    assert found > 45


@pytest.mark.parametrize("text", REFUSED, ids=lambda text: text[:20])
def test_refuses_with_the_remedy(text):
    with pytest.raises(LengthError) as caught:
        read(text, what="run")
    sentence = str(caught.value)
    assert REFUSED[text] in sentence
    assert sentence.startswith("The run ")
    assert len(sentence) < 250 and sentence.isprintable()


def test_what_was_typed_is_quoted_in_what_can_be_seen():
    """Any space is a space, what has no sign is a question mark; from the 41st character on it is left out."""
    assert quoted("1\u00a0x\ty\u2009z\u200b!\x00") == '"1 x y z?!?"'
    assert quoted("1" * 40) == f'"{"1" * 40}"' and quoted("1" * 41) == f'"{"1" * 40}..."'
    assert read("1 5/8" + " " * 35) == F(13, 8)
    with pytest.raises(LengthError, match="41 characters"):
        read("1 5/8" + " " * 36)


@pytest.mark.parametrize("sign", ["9", "1/", " ", "(", "9e9", "⅝"])
def test_refuses_a_million_characters_at_once(sign):
    start = time.process_time()
    with pytest.raises(LengthError):
        read(sign * (1_000_000 // len(sign)))
    assert time.process_time() - start < 0.5


@pytest.mark.parametrize("pattern", ["{n} ", "{n}' ", "{n}-", "{n}/", "{n}ft", "⅝{n}", ".{n}", "{n}'{n}-"])
def test_no_text_of_forty_characters_keeps_the_reader_busy(pattern):
    text = (pattern.format(n=7) * 40)[:40]
    start = time.process_time()
    try:
        read(text)
    except LengthError:
        pass
    assert time.process_time() - start < 0.5


@given(st.text(max_size=50))
def test_any_text_is_a_length_or_a_sentence(text):
    try:
        value = read(text)
    except LengthError as error:
        assert str(error).isprintable()
    else:
        assert type(value) is Fraction and 0 <= value <= LONGEST


@given(st.text(alphabet="0123456789 /.'\"-+ftinmc½⅝′″", max_size=14))
def test_what_looks_like_a_length_is_one_or_a_sentence(text):
    test_any_text_is_a_length_or_a_sentence.hypothesis.inner_test(text)


def test_what_a_bare_number_means_can_be_set():
    assert read("50", unit="mm") == 50 * MM
    assert read("2 in", unit="mm") == 2
    assert read("5' 3", unit="mm") == 63, "after feet come inches, whatever the unit"


def test_a_sign_and_zero_are_allowed_where_they_make_sense():
    assert read("-1 5/8", negative=True) == F(-13, 8)
    with pytest.raises(LengthError, match="The kerf is 0: give a length above 0"):
        read("0", what="kerf", zero=False)


@pytest.mark.parametrize("thing", [None, 3, 1.5, b"1", ["1"]])
def test_refuses_what_is_no_text(thing):
    with pytest.raises(LengthError, match="is not text: write it in quotes"):
        read(thing)


def test_inches_takes_exact_numbers_only():
    assert inches("1 5/8") == inches(F(13, 8)) == F(13, 8)
    assert inches(2) == 2 and type(inches(2)) is Fraction
    for wrong, says in ((0.1, "floating number"), (True, "is not a length"), (None, "is not a length"), (-1, "below 0"), (1201, "over 100 ft")):
        with pytest.raises(LengthError, match=says):
            inches(wrong)
    with pytest.raises(LengthError, match="is 0: give a length above 0"):
        inches(0, zero=False)
    assert inches(-1, negative=True) == -1


# --- there and back -----------------------------------------------------------------------------------
sixty_fourths = st.integers(0, 1200 * 64).map(lambda n: F(n, 64))


@given(sixty_fourths, st.sampled_from(["{}", '{}"', "{} in", "{}in."]))
def test_what_is_shown_is_read_back(value, form):
    assert read(form.format(show(value))) == value


@given(st.integers(0, 99), st.integers(0, 11 * 64 + 63).map(lambda n: F(n, 64)))
def test_feet_and_inches_are_read(feet, rest):
    assert read(f"{feet}' {show(rest)}\"") == 12 * feet + rest


@given(st.decimals(0, 1200, places=4))
def test_decimals_are_read_exactly(value):
    assert read(str(value)) == Fraction(value)


@given(st.decimals(0, 30000, places=3))
def test_millimetres_are_read_exactly(value):
    assert read(f"{value} mm") * 254 == Fraction(value) * 10


@given(st.one_of(sixty_fourths, st.decimals(0, 1200, places=6).map(Fraction), st.decimals(0, 30480, places=5).map(lambda d: F(d) * MM)))
def test_exact_text_loses_nothing(value):
    assert read(exact(value)) == value


# --- printing -------------------------------------------------------------------------------------------
@given(st.fractions(0, 1200, max_denominator=10**6), st.sampled_from(GRADUATIONS), st.sampled_from(["nearest", "up", "down"]))
def test_a_rounding_states_its_loss_and_keeps_its_direction(value, graduation, rounding):
    shown = printed(value, graduation, rounding)
    assert shown.value + shown.lost == value
    assert (shown.value * graduation).denominator == 1
    assert abs(shown.lost) < F(1, graduation)
    if rounding == "up":
        assert shown.lost <= 0
    elif rounding == "down":
        assert shown.lost >= 0
    else:
        assert -F(1, 2 * graduation) <= shown.lost < F(1, 2 * graduation)
    assert read(shown.text) == shown.value


def test_halves_of_a_graduation_go_up():
    assert show(F(1, 128)) == "1/64"
    assert show(F(1, 128), rounding="down") == "0"
    assert show(F(-13, 8)) == "-1 5/8"


def test_a_float_that_is_a_graduation_within_its_own_error_is_that_graduation():
    assert show(0.1 + 0.025, 64, "up") == "1/8"  # 0.125 + 1.4e-17
    assert printed(0.12500001, 64, "up").text == "9/64"


@pytest.mark.parametrize("value", [float("inf"), float("nan"), float("-inf")])
def test_refuses_to_print_what_has_no_end(value):
    with pytest.raises(LengthError, match="has no end"):
        show(value)


def test_refuses_a_graduation_or_rounding_that_no_rule_has():
    with pytest.raises(LengthError, match="no 1/10 in. graduation here: choose one of"):
        show(1, 10)
    with pytest.raises(LengthError, match='Rounding "away" is unknown: choose nearest, up or down'):
        show(1, 16, "away")


@given(st.fractions(0, 1200, max_denominator=10**6), st.integers(0, 6))
def test_decimals_round_half_up(value, places):
    """Python's decimal module is the other opinion, at a precision where its quotient's own rounding cannot matter."""
    from decimal import localcontext

    with localcontext() as context:
        context.prec = 60
        quotient = Decimal(value.numerator) / Decimal(value.denominator)
        expected = quotient.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
    assert decimal(value, places) == f"{expected:f}"


def test_no_minus_zero():
    assert decimal(F(-1, 4000)) == "0.000"
    assert decimal(-0.0) == "0.000"
    assert millimetres(F(-1, 10**6)) == "0.0"


def test_millimetres_and_both():
    assert (millimetres(F(13, 8)), both(F(13, 8)), to_mm(F(13, 8))) == ("41.3", "1 5/8 (1.625)", 41.275)
    assert to_mm(1.625) == pytest.approx(41.275) and to_mm(2) == 50.8


@pytest.mark.parametrize("text", ["0.05", "0.35", "0.45", "1.15", "2.05", "0.005"])
def test_decimal_inches_stay_inches_where_inches_are_written(text):
    """0.35 in. is 8.89 mm, as many places: whoever draws in decimal inches is not shown millimetres."""
    value = Fraction(text)
    assert exact(value) == own(value) == about(value) == lengths.given(value) == text
    assert exact(Fraction(889, 100) * MM, "mm") == "8.89 mm"


def test_a_kerf_is_not_rounded_to_a_graduation_that_it_has_not():
    assert [lengths.given(Fraction(n, 1000)) for n in (40, 47, 62)] == ["0.04", "0.047", "0.062"]
    assert lengths.given(Fraction(3, 128)) == "3/128 (0.023)"
