"""A spreadsheet's date where a length was typed: every fraction of a rule that a spreadsheet can take for a day, in every form that it may come back in."""

import datetime
from fractions import Fraction

import pytest

from anglelib.files.dates import date_said, typed_fraction

RULE = {f"{a}/{b}" for b in (2, 4, 8, 16, 32, 64) for a in range(1, b)}
"""What stands on a rule, reduced or not."""
MONTHS = [datetime.date(2024, month, 1).strftime("%b") for month in range(1, 13)]


def could_be(day: int, month: int) -> str:
    """The fraction that was typed: the one of the two ways round that is on a rule; none where both are, or neither."""
    ways = {f"{a}/{b}" for a, b in ((day, month), (month, day))} & RULE
    return ways.pop() if len(ways) == 1 else ""


def days():
    first = datetime.date(2024, 1, 1)
    return [first + datetime.timedelta(n) for n in range(366)]


def test_every_day_of_a_leap_year_in_every_form():
    seen = set()
    for day in days():
        wanted, name = could_be(day.day, day.month), MONTHS[day.month - 1]
        number = (day - datetime.date(1899, 12, 30)).days
        forms = [
            f"{day.day}-{name}", f"{name} {day.day}", f"{day.day}. {name}", f"{day.day} {name} 24", f"{day.day}-{name}-2024", f"{name} {day.day}, 2024",
            f"{day:%Y-%m-%d}", f"{day:%Y-%m-%d} 00:00:00", f"{day.day}/{day.month}/2024", f"{day:%d.%m.%Y}", f"{day.month}/{day.day}/24", f"{number}", f"{number},0", f" {number}.00 ",
        ]  # fmt: skip
        for form in forms:
            assert typed_fraction(form) == wanted, (form, typed_fraction(form), wanted)
        seen.add(wanted)
    assert {"3/4", "1/2", "5/8", "12/16", ""} <= seen and not seen - RULE - {""}


def test_days_by_number_from_2000_to_2099_only():
    """As spreadsheets count: 1 January 2000 is day 36526, 31 December 2099 day 73050."""
    assert typed_fraction("36525") is None and typed_fraction("36526") == "" and typed_fraction("73051") is None and typed_fraction("73050") == could_be(31, 12)
    assert typed_fraction("036526") is None and typed_fraction("36526.5") is None


@pytest.mark.parametrize("text, wanted", [
    ("Mar-64", "3/64"), ("Mrz 16", "3/16"), ("Mar 1964", "3/64"), ("Mar 32", "3/32"), ("31-Mar", ""), ("Mar 31", ""), ("Jan 2", "1/2"), ("1964-03-04", "3/4"), ("31/12/99", could_be(31, 12)), ("31/03/64", ""), ("31.01.32", ""), ("Apr 2000", ""), ("Feb 1900", ""), ("32/03/04", "3/4"),
    ("2032-03-04", "3/4"), ("04.03.32", "3/4"), ("32.03.04", "3/4"), ("3. Avr", "3/4"), ("févr. 4", "2/4"), ("8 Août", ""), ("5 août", "5/8"),
])  # fmt: skip
def test_by_hand(text, wanted):
    assert typed_fraction(text) == wanted


@pytest.mark.parametrize("text", ["17 1/4", "3 inches", "1/2", "3/4", "0.75", "12", "19.05", "8 feet", "3 m", "", "1-2-3", "2024", "123456", "3 Xyz", "Xyz 3", "1 5/8 in"])
def test_what_is_no_date(text):
    assert typed_fraction(text) is None and date_said(text) == ""


def test_what_is_said_names_the_fraction_and_the_remedy():
    assert "(3/4 perhaps)" in date_said("3. Apr") and "write 3/4 in." in date_said("3. Apr") and "format the column as text" in date_said("3. Apr")
    assert "perhaps" not in date_said("31-Mar") and "write 3/4 in." in date_said("31-Mar")  # an example, where it is not certain
    assert '"3/4 in"' in date_said("3. Apr", cells=False) and "column" not in date_said("3. Apr", cells=False)
    assert Fraction(typed_fraction("Mar-64")) == Fraction(3, 64)
