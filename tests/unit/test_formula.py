"""The formula objects themselves: letters, prints, inverses, exactness, arrays. No geometry."""

from __future__ import annotations

import re
from fractions import Fraction
from random import Random

import mpmath
import numpy as np
import pytest
import sympy

from anglelib.geometry.formulas import ALL, taper_mark
from anglelib.geometry.formulas.quantities import SYMBOLS
from anglelib.geometry.formulas.statement import Statement
from anglelib.geometry.formulas.taper import angle_from_slope, fillet_length, vertex_projection
from anglelib.geometry.quantities import QUANTITIES

by_name = pytest.mark.parametrize("formula", ALL, ids=lambda formula: formula.name)
INVERSES = [(formula, letter) for formula in ALL for letter in formula.inverses]


def numbers_for(formula: Statement, rng: Random) -> dict[str, Fraction]:
    """A positive number for every letter, chosen so that no root or arc sine leaves its range.

    Widths are largest, then thicknesses and radii, then what is left; angles are whole degrees.
    """
    found = {}
    for quantity in formula.quantities:
        if quantity.unit == "deg":
            found[quantity.letter] = Fraction(rng.randint(5, 80))
        else:
            low, high = SIZES.get(quantity.letter, (20, 60))
            found[quantity.letter] = Fraction(rng.randint(low, high), 64)
    return found


SIZES = {
    "W": (150, 200), "a": (150, 200), "b": (150, 200), "L": (900, 1300), "t": (20, 25), "tA": (20, 25), "tB": (20, 25),
    "r": (30, 40), "s": (1, 9), "s_1": (1, 9), "s_2": (1, 9), "r2": (1, 9), "y": (25, 45), "u": (5, 40), "v": (1, 9),
    "x": (150, 200), "e": (5, 15), "f_p": (10, 50), "A": (60, 90), "Q": (1, 20), "H": (10, 60), "B": (150, 300),
    "Rh": (20, 25), "H_d": (5, 9),
}  # fmt: skip


# --- letters ----------------------------------------------------------------------------------------------
def test_one_letter_one_meaning_and_one_meaning_one_letter():
    quantities = {q for formula in ALL for q in (*formula.quantities, formula.result)}
    assert len(quantities) > 40
    for field in ("letter", "latex", "meaning"):
        texts = [getattr(q, field) for q in quantities]
        assert len(set(texts)) == len(texts), field
    assert all(QUANTITIES[q.letter] is q for q in quantities)


def test_every_formula_has_a_name_of_its_own():
    assert len({formula.name for formula in ALL}) == len(ALL)


@by_name
def test_symbols_and_quantities_agree(formula):
    assert formula.expression.free_symbols == {SYMBOLS[q.letter] for q in formula.quantities}
    assert formula.result not in formula.quantities
    assert formula.name and formula.source
    for q in (*formula.quantities, formula.result):
        assert q.letter == SYMBOLS[q.letter].name and q.meaning and q.latex
    for letter, inverse in formula.inverses.items():
        assert letter in {q.letter for q in formula.quantities}
        known = {SYMBOLS[q.letter] for q in (*formula.quantities, formula.result)} - {SYMBOLS[letter]}
        assert inverse.free_symbols <= known and SYMBOLS[formula.result.letter] in inverse.free_symbols


def test_a_formula_that_states_other_letters_than_it_uses_is_refused():
    x, y = QUANTITIES["x"], QUANTITIES["y"]
    with pytest.raises(ValueError, match=r"states \['x', 'y'\], uses \['x'\]"):
        Statement("wrong", QUANTITIES["r"], (x, y), 2 * SYMBOLS[x.letter], "none")


# --- print ------------------------------------------------------------------------------------------------
@by_name
def test_latex_is_complete_and_balanced(formula):
    left, _, right = formula.latex.partition(" = ")
    assert left == formula.result.latex and right
    for opening, closing in ("{}", (r"\left(", r"\right)")):
        assert formula.latex.count(opening) == formula.latex.count(closing)
    for q in formula.quantities:
        assert q.latex in right, q
    assert "Symbol" not in formula.latex and r"\mathtt" not in formula.latex


@by_name
def test_latex_with_numbers_shows_every_number_and_no_letter(formula):
    shown = {q.letter: str(1001 + i) for i, q in enumerate(formula.quantities)}
    text = formula.latex_with(shown, "9999")
    assert text.startswith(formula.result.latex + " = ") and text.endswith(" = 9999")
    middle = text.removeprefix(formula.result.latex + " = ").removesuffix(" = 9999")
    assert all(number in middle for number in shown.values())
    assert not any(q.latex in middle for q in formula.quantities if q.latex.startswith("\\"))
    words = re.sub(r"\\[a-zA-Z]+", "", middle).replace("E", "")  # E is the elliptic integral's sign
    assert not re.search("[A-Za-z]", words), words


def test_signs_are_printed_as_a_person_writes_them():
    assert vertex_projection.latex == r"x_v = c \left(t - s\right)"


# --- turned round -------------------------------------------------------------------------------------------
def test_inverses_are_stated_for_most_formulas():
    assert len(INVERSES) > len(ALL)


@pytest.mark.parametrize("formula, letter", INVERSES, ids=lambda value: getattr(value, "name", value))
def test_an_inverse_put_back_gives_the_formula(formula, letter):
    """Algebra by high-precision numbers: choose the letters, compute the result, and solve back."""
    rng = Random(f"{formula.name} {letter}")
    for _ in range(5):
        given = numbers_for(formula, rng)
        values = {}
        for q in formula.quantities:
            number = sympy.Rational(given[q.letter].numerator, given[q.letter].denominator)
            values[SYMBOLS[q.letter]] = (number * sympy.pi / 180).evalf(60) if q.unit == "deg" else number
        result = formula.expression.evalf(40, subs=values)
        assert result.is_real, (formula.name, given)
        back = formula.inverses[letter].evalf(40, subs={**values, SYMBOLS[formula.result.letter]: result})
        wanted = values[SYMBOLS[letter]]
        assert abs(back - wanted) < sympy.Float("1e-30") * (1 + abs(wanted)), given
        # and the compiled inverse, in degrees, agrees to double precision
        solved = formula.solved_for(letter)
        use = {**given, formula.result.letter: formula(**given)}
        found = solved(**{q.letter: use[q.letter] for q in solved.quantities})
        assert float(found) == pytest.approx(float(given[letter]), rel=1e-9)


def test_a_formula_is_not_solved_for_what_it_does_not_state():
    with pytest.raises(KeyError, match="not for Q"):
        vertex_projection.solved_for("Q")


# --- numbers ------------------------------------------------------------------------------------------------
def is_rational(formula: Statement) -> bool:
    """Only sums, products and quotients of letters and rational numbers, no angle."""
    expression = formula.expression
    angles = [q for q in (*formula.quantities, formula.result) if q.unit == "deg"]
    roots = [power for power in expression.atoms(sympy.Pow) if not power.exp.is_integer]
    irrational = expression.atoms(sympy.NumberSymbol, sympy.Float) or roots
    return not angles and not irrational and expression.is_rational_function(*expression.free_symbols)


RATIONAL = [f for f in ALL if is_rational(f)]
RATIONAL_INVERSES = [
    solved for f, letter in INVERSES if is_rational(f) and is_rational(solved := f.solved_for(letter))
]


def test_there_are_rational_formulas():
    assert len(RATIONAL) >= 15 and len(RATIONAL_INVERSES) >= 30
    assert vertex_projection in RATIONAL and angle_from_slope not in RATIONAL


@pytest.mark.parametrize("formula", RATIONAL + RATIONAL_INVERSES, ids=lambda formula: formula.name)
def test_rational_formulas_stay_exact(formula):
    rng = Random(formula.name)
    for _ in range(5):
        given = numbers_for(formula, rng)
        found = formula(**given)
        assert type(found) is Fraction
        exact = formula.expression.subs(
            {SYMBOLS[q.letter]: sympy.Rational(given[q.letter].numerator, given[q.letter].denominator) for q in formula.quantities}
        )
        assert found == Fraction(int(exact.p), int(exact.q))
        whole = {letter: i + 2 + 7 * len(letter) for i, letter in enumerate(given)}
        assert type(formula(**whole)) is Fraction


@by_name
def test_a_scalar_agrees_with_high_precision(formula):
    """The compiled formula, against the same expression in 40 digits."""
    rng = Random(formula.name)
    for _ in range(5):
        given = numbers_for(formula, rng)
        with mpmath.workdps(40):
            numbers = [mpmath.mpf(given[q.letter].numerator) / given[q.letter].denominator for q in formula.quantities]
            turned = [mpmath.radians(n) if q.unit == "deg" else n for q, n in zip(formula.quantities, numbers, strict=True)]
            exact = sympy.lambdify([SYMBOLS[q.letter] for q in formula.quantities], formula.expression, "mpmath")(*turned)
            if formula.result.unit == "deg":
                exact = mpmath.degrees(exact)
        assert float(formula(**given)) == pytest.approx(float(exact), rel=1e-12)


@by_name
def test_arrays_give_the_same_numbers_as_scalars(formula):
    rng = Random(formula.name)
    rows = [numbers_for(formula, rng) for _ in range(7)]
    arrays = {letter: np.array([float(row[letter]) for row in rows]) for letter in rows[0]}
    found = formula(**arrays)
    assert isinstance(found, np.ndarray) and found.shape == (7,)
    assert found == pytest.approx([float(formula(**row)) for row in rows], rel=1e-12)
    # One array and the rest scalars: every letter in turn.
    for letter in arrays:
        mixed = {other: arrays[other] if other == letter else rows[0][other] for other in arrays}
        found = formula(**mixed)
        assert np.shape(found) == (7,)
        expected = [float(formula(**{**rows[0], letter: row[letter]})) for row in rows]
        assert found == pytest.approx(expected, rel=1e-12)


def test_arrays_of_two_directions_make_a_table():
    heights, slopes = np.linspace(0.1, 1.5, 4)[:, None], np.array([1.0, 2.0, 5.67])[None, :]
    table = taper_mark(y=heights, s=0, c=slopes)
    assert table.shape == (4, 3)
    assert table[2, 1] == pytest.approx(taper_mark(y=float(heights[2, 0]), s=0, c=2.0))


def test_a_constant_formula_is_a_number():
    quarter = Statement("a quarter turn", QUANTITIES["theta"], (), sympy.pi / 2, "definition")
    half = Statement("a half", QUANTITIES["c"], (), sympy.Rational(1, 2), "definition")
    assert quarter() == pytest.approx(90)
    assert half() == Fraction(1, 2) and type(half()) is Fraction


def test_wrong_letters_are_named():
    with pytest.raises(TypeError, match="give c, s, t, not c, t"):
        vertex_projection(t=1, c=2)


def test_the_elliptic_integral_is_that_of_the_parameter():
    """Square to the heel the fillet's edge is a quarter circle, near the heel it is stretched by the slope."""
    assert fillet_length(r=1, theta=90) == pytest.approx(np.pi / 2)
    assert fillet_length(r=1.0, theta=1.0) == pytest.approx(1 / np.tan(np.radians(1.0)), rel=1e-3)
