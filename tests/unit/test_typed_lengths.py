"""Random lengths as people type them, with slips of the finger: read as a second reader reads them, or refused in a sentence; printed and read back."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from random import Random

import pytest

from anglelib import lengths
from anglelib.errors import LengthError
from anglelib.lengths import LONGEST, MM, read, unit_in_head, writing
from tests.unit.second_reader import second_reading
from tests.unit.typed_lengths import ACCEPTED, QUESTIONED, slipped

FORMS = {**ACCEPTED, **QUESTIONED}
SLIPPED = 0.6
"""The share of texts with a slip in them."""


def reading(text: str, unit: str = "in") -> Fraction | None:
    """The library's reading, or None where it refuses in a sentence; anything else that it raises fails the test."""
    try:
        return read(text, negative=True, unit=unit)
    except LengthError as error:
        assert str(error).isprintable() and str(error).startswith("The length ") and str(error).endswith("."), str(error)
        assert "\n" not in str(error) and len(str(error)) < 250
        return None


def compared(number: int, seed: int, by=reading) -> tuple[Counter, list[tuple]]:
    """How often each form was read, with and without a slip, and the texts that the two readers read differently."""
    r, seen, differ = Random(seed), Counter(), []
    names = list(FORMS)
    for _ in range(number):
        form, slip, unit = r.choice(names), r.random() < SLIPPED, r.choice(("in", "in", "mm"))
        text = FORMS[form](r)
        text = slipped(text, r) if slip else text
        value, second = by(text, unit), second_reading(text, unit)
        seen[form, slip, value is not None] += 1
        if value != second:
            differ.append((form, text, unit, value, second))
    return seen, differ


def hold(number: int, seed: int) -> None:
    """The readers agree, and neither does so by refusing: each form that is read is read every time, a questioned one never."""
    seen, differ = compared(number, seed)
    assert not differ, differ[:10]
    least = number // len(FORMS) // 4  # of every form, by chance far more
    for form in ACCEPTED:
        assert seen[form, False, True] > least and not seen[form, False, False], (form, seen)
        read_, refused = seen[form, True, True], seen[form, True, False]
        assert 0.15 < read_ / (read_ + refused) < 0.75, (form, read_, refused)
    for form in QUESTIONED:
        assert seen[form, False, False] > least and not seen[form, False, True], (form, seen)


def test_twenty_thousand_typed_lengths():
    hold(20_000, 1)


@pytest.mark.slow
def test_a_million_typed_lengths():
    hold(1_000_000, 2)


def test_a_reader_that_guesses_is_found():
    """Each of the ways in which lengths were misread differs from the second reader."""
    guesses = {
        "½5": lambda text: re.sub("½(?=[0-9])", "1/2", text), "1'000": lambda text: re.sub("'00(?=[0-9])", "'", text),
        "3 1/2m": lambda text: re.sub(" ?m$", "", text), "30 -1/4": lambda text: text.replace(" -", " "), "1--1/2": lambda text: text.replace("--", "-"),
        "a line break": lambda text: text.replace("\n", " "), "1,250": lambda text: text.replace(",", "."), "1,2,3": lambda text: text.replace(",", ""),
    }  # fmt: skip
    for misread, guess in guesses.items():
        _, differ = compared(5_000, 3, lambda text, unit, guess=guess: reading(guess(text), unit))
        assert any(second is None for *_, second in differ), misread
    assert second_reading("½5") is second_reading("1'000") is second_reading("1,250 mm") is None
    assert [second_reading(text) for text in ("5' 3 1/4\"", "1-⅝", "½'", "6 mm.", "66 thou")] == [
        Fraction(253, 4), Fraction(13, 8), Fraction(6), 6 * MM, Fraction(66, 1000),
    ]  # fmt: skip


# --- printed and read back ----------------------------------------------------------------------------------
def both_parts(text: str) -> tuple[str, str]:
    """What is printed, and what stands in its brackets."""
    first, _, more = text.partition(" (")
    assert not more or more.endswith(")"), text
    return first, more.removesuffix(")")


THOUSANDTH, HUNDREDTH = Fraction(1, 1000), MM / 100
MARK = Fraction(1, 250)
NOTHING = Fraction(0)
WRITERS = {
    # how it writes, and what it may lose [in]: in inches, in millimetres
    "exact": (lengths.exact, NOTHING, HUNDREDTH / 2),
    "exact for a file in inches": (lambda v: lengths.exact(v, "in"), NOTHING, NOTHING),
    "exact for a file in millimetres": (lambda v: lengths.exact(v, "mm"), NOTHING, NOTHING),
    "own": (lengths.own, NOTHING, HUNDREDTH / 2),
    "given": (lengths.given, NOTHING, HUNDREDTH / 2),
    "both": (lengths.both, Fraction(1, 128), HUNDREDTH / 2),
    "figure": (lengths.figure, Fraction(1, 128), HUNDREDTH / 2),
    "show": (lengths.show, Fraction(1, 128), MM / 20),
    "fine": (lengths.fine, THOUSANDTH / 2, HUNDREDTH / 2),
    "place": (lengths.place, THOUSANDTH / 2, HUNDREDTH / 2),
    "about": (lengths.about, THOUSANDTH / 2, HUNDREDTH / 2),
    "spoken": (lengths.spoken, NOTHING, HUNDREDTH / 2),
    "own, spoken": (lengths.own_spoken, NOTHING, HUNDREDTH / 2),
    "marked": (lambda v: lengths.marked(v, MARK), Fraction(1, 128), MM / 4),
    "marked, both": (lambda v: lengths.marked_both(v, MARK), Fraction(1, 128), MM / 4),
    "of the other unit": (lambda v: lengths.in_unit(v, "in" if lengths.unit_written() == "mm" else "mm"), HUNDREDTH / 2, THOUSANDTH / 2),
}  # fmt: skip


def values(r: Random) -> Fraction:
    """A length as a person gives it, or one that was reckoned to the last place of a decimal."""
    kind = r.randrange(5)
    if kind == 0:
        return Fraction(r.randrange(200 * 128), 128)
    if kind == 1:
        return Fraction(r.randrange(500_000), 100) * MM
    if kind == 2:
        return Fraction(r.randrange(200_000), 1000)
    if kind == 3:
        return Fraction(r.randrange(10**6 * 100), 10**6)
    return Fraction(r.randrange(30_480 * 10**3), 10**3) * MM


def written_and_read(number: int, seed: int) -> None:
    """Each writer's text is read back, in the unit that is written, within what the writer may lose; its brackets too."""
    r, exactly = Random(seed), Counter()
    for _ in range(number):
        value, sign = values(r), r.choice((1, 1, 1, -1))
        value *= sign
        name, unit, head = r.choice(list(WRITERS)), r.choice(("in", "mm")), r.random() < 0.5
        unit = "in" if name == "exact for a file in inches" else unit
        write, lost_in, lost_mm = WRITERS[name]
        with writing(unit), unit_in_head(head):
            text = write(value)
        lost = lost_in if unit == "in" else lost_mm
        first, brackets = both_parts(text)
        word = next((word for word in ("full", "bare") if f" {word}" in first), "")
        if word:
            # a mark is no input unless its word is left out
            with pytest.raises(LengthError, match=f'is a mark, and "{word}" is no number: write'):
                read(first, unit=unit, negative=True)
            first = first.replace(f" {word}", "")
        back = read(first, unit=unit, negative=True)
        assert abs(back - value) <= lost, (name, unit, value, text)
        if word:
            assert (value > back) == (word == "full"), (name, unit, value, text)
        exactly[name, back == value] += 1
        if brackets:
            inside = read(brackets, unit=unit, negative=True)
            last = HUNDREDTH if brackets.endswith("mm") or unit == "mm" and not brackets.endswith("in") else THOUSANDTH
            assert abs(inside - value) <= last / 2, (name, unit, value, text)
            with pytest.raises(LengthError, match="says a length twice: write one|is a mark"):
                read(text, unit=unit, negative=True)
    assert {name for name, same in exactly if same} == set(WRITERS), exactly


def test_three_thousand_printed_lengths_are_read_back():
    written_and_read(3_000, 1)


@pytest.mark.slow
def test_a_hundred_thousand_printed_lengths_are_read_back():
    written_and_read(100_000, 2)


def test_the_longest_length_is_read_and_the_next_refused():
    assert read("100 ft") == read("30480 mm.") == LONGEST and reading("1200 1/64") is None is second_reading("1200 1/64")
