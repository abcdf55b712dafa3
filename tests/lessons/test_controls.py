"""Controls: a slider and its typed entry say the same, and what is refused changes nothing."""

from fractions import Fraction

import pytest

from anglelib.lessons.controls import ChoiceControl, FractionControl, NumberControl, PressButton, fractions, leaves

GRID = fractions("1", "3 1/2", "1/8")


def control() -> FractionControl:
    return FractionControl("Run (in.)", GRID, Fraction(17, 8))


def test_the_grid_is_exact_and_whole():
    assert GRID[0] == 1 and GRID[-1] == Fraction(7, 2) and len(GRID) == 21
    assert all(b - a == Fraction(1, 8) for a, b in zip(GRID, GRID[1:], strict=False))


def test_every_place_of_the_slider():
    run = control()
    for place, value in enumerate(GRID):
        run.slider.value = place
        assert (run.value, type(run.value), run.entry.value) == (value, Fraction, run.entry.value)
        assert Fraction(sum(Fraction(word) for word in run.entry.value.split())) == value


def test_a_typed_length_between_two_steps_is_kept_exactly():
    run = control()
    run.entry.value = "1.63"
    assert run.value == Fraction(163, 100) and run.slider.value == 5 and run.trouble == ""
    run.slider.value = 6
    assert run.value == GRID[6]


@pytest.mark.parametrize("typed", ["", "much", "9", "1,5", "-1", "1/0", "<b>"])
def test_what_cannot_be_is_refused_in_a_sentence(typed):
    run = control()
    run.entry.value = typed
    assert run.value == Fraction(17, 8) and run.trouble.endswith(".")
    run.entry.value = "2"
    assert run.value == 2 and run.trouble == ""


def test_one_change_is_told_once():
    run, told = control(), []
    run.observe(lambda change: told.append(change["new"]), "value")
    run.slider.value = 0
    run.entry.value = "2 1/2"
    assert told == [Fraction(1), Fraction(5, 2)]


def test_a_start_off_the_grid_is_a_mistake_of_the_lesson():
    with pytest.raises(ValueError, match="outside 1 to 7/2"):
        FractionControl("Run", GRID, Fraction(9))


def test_number_and_choice_follow_their_parts():
    number = NumberControl("Unrolled (%)", 0, 100, 40, 5)
    for value in range(0, 101, 5):
        number.slider.value = value
        assert (number.value, number.entry.value) == (value, value)
    number.entry.value = 35
    assert (number.value, number.slider.value) == (35, 35)
    grams = NumberControl("It weighs (g)", 900, 990, 954, of=10)
    assert grams.entry.value == 95.4
    grams.entry.value = 96.26
    assert (grams.value, grams.entry.value, grams.slider.value) == (963, 96.3, 963)
    grams.slider.value = 901
    assert (grams.value, grams.entry.value) == (901, 90.1)
    which = ChoiceControl("Thick", {"1/8": Fraction(1, 8), "1/4": Fraction(1, 4)}, Fraction(1, 8))
    which.buttons.value = Fraction(1, 4)
    assert which.value == Fraction(1, 4)
    which.value = Fraction(1, 8)
    assert which.buttons.label == "1/8"


def test_an_error_in_a_press_is_not_swallowed():
    button = PressButton(description="Check")
    button.on_press(lambda: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        button.click()


def test_every_entry_has_its_name_for_a_screen_reader():
    """A slider of ipywidgets has none, so the entry beside it carries it."""
    for made in (control(), NumberControl("Unrolled (%)", 0, 100, 40)):
        assert made.entry.description == made.label
        assert set(leaves(made)) == {made.entry, made.slider}
