"""A formula: stated once with sympy, printed from that statement and evaluated from it.

The objects themselves are in :mod:`anglelib.geometry.formulas`; importing either costs sympy's
import, so both are imported inside the functions that need a formula.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache, cached_property
from math import degrees, radians
from typing import Any

import sympy
from sympy.printing.latex import LatexPrinter
from sympy.printing.pycode import PythonCodePrinter


@dataclass(frozen=True)
class Quantity:
    """A quantity of the trade: the letter that stands for it, what it is on the metal, its unit.

    ``unit`` is "in", "deg", "in2", "in3", "in/ft" or "" (a plain number).
    """

    letter: str
    latex: str
    meaning: str
    unit: str

    @property
    def symbol(self) -> sympy.Symbol:
        return _symbol(self.letter)


@cache
def _symbol(letter: str) -> sympy.Symbol:
    # Real, not positive: a positive symbol would let sympy drop a sign that the metal may have.
    return sympy.Symbol(letter, real=True)


class _ExactPrinter(PythonCodePrinter):
    """Writes rational numbers as Fractions: sympy's own printer writes 1/2, which Python makes a float."""

    def _print_Rational(self, expr):  # noqa: N802 (sympy's naming)
        return f"Fraction({expr.p}, {expr.q})"

    def _print_Half(self, expr):  # noqa: N802
        return "Fraction(1, 2)"

    def _print_elliptic_e(self, expr):  # noqa: N802
        return f"elliptic_e({self._print(expr.args[0])})"


class _BenchPrinter(LatexPrinter):
    """Writes what is added before what is taken off: t - s, as a person would, not -s + t."""

    def _as_ordered_terms(self, expr, order=None):
        terms = super()._as_ordered_terms(expr, order=order)
        return sorted(terms, key=lambda term: term.could_extract_minus_sign())


def _elliptic_e(parameter: float) -> float:
    """Complete elliptic integral of the second kind, of the parameter m = k squared."""
    import mpmath

    return float(mpmath.ellipe(parameter))


def _plain(expression: sympy.Expr) -> sympy.Expr:
    """The expression with cotangents written as 1/tan, which every number module knows."""
    return expression.replace(sympy.cot, lambda angle: 1 / sympy.tan(angle))


@dataclass(frozen=True)
class Formula:
    """One formula: its name, what it gives, from which quantities, by which expression, from where.

    Call it with the letters as keywords: whole numbers and Fractions give a Fraction where the
    formula is rational, numpy arrays give arrays. Angles go in and come out in degrees.
    ``inverses`` states the expression for each quantity that it is solved for; nothing is solved
    while somebody waits.
    """

    name: str
    result: Quantity
    quantities: tuple[Quantity, ...]
    expression: sympy.Expr
    source: str
    inverses: Mapping[str, sympy.Expr] = field(default_factory=dict)

    def __post_init__(self) -> None:
        used = {symbol.name for symbol in self.expression.free_symbols}
        stated = {quantity.letter for quantity in self.quantities}
        if used != stated:
            raise ValueError(f"formula {self.name!r}: states {sorted(stated)}, uses {sorted(used)}")

    def __hash__(self) -> int:
        return hash(self.name)

    # --- numbers ------------------------------------------------------------------------------
    @cached_property
    def _scalar(self) -> Callable[..., Any]:
        names = [quantity.symbol for quantity in self.quantities]
        return sympy.lambdify(
            names,
            _plain(self.expression),
            modules=[{"Fraction": Fraction, "elliptic_e": _elliptic_e}, "math"],
            printer=_ExactPrinter({"fully_qualified_modules": False}),
        )

    @cached_property
    def _array(self) -> Callable[..., Any]:
        modules: list[Any] = ["numpy"]
        if self.expression.has(sympy.elliptic_e):
            import numpy

            modules.insert(0, {"elliptic_e": numpy.vectorize(_elliptic_e, otypes=[float])})
        return sympy.lambdify([quantity.symbol for quantity in self.quantities], _plain(self.expression), modules=modules)

    def __call__(self, **values: Any) -> Any:
        stated = [quantity.letter for quantity in self.quantities]
        if set(values) != set(stated):
            raise TypeError(f"{self.name}: give {', '.join(stated)}, not {', '.join(sorted(values))}")
        if any(hasattr(value, "__array__") for value in values.values()):
            return self._of_arrays(values)
        numbers = []
        for quantity in self.quantities:
            value = values[quantity.letter]
            if quantity.unit == "deg":
                value = radians(value)
            elif isinstance(value, int):
                value = Fraction(value)  # an int would divide into a float
            numbers.append(value)
        result = self._scalar(*numbers)
        if self.result.unit == "deg":
            return degrees(result)
        return Fraction(result) if isinstance(result, int) else result

    def _of_arrays(self, values: Mapping[str, Any]) -> Any:
        import numpy

        arrays = []
        for quantity in self.quantities:
            value = values[quantity.letter]
            if not hasattr(value, "__array__"):
                value = float(value)
            arrays.append(numpy.radians(value) if quantity.unit == "deg" else value)
        result = self._array(*arrays)
        return numpy.degrees(result) if self.result.unit == "deg" else result

    # --- the same formula for another quantity --------------------------------------------------
    def solved_for(self, letter: str) -> Formula:
        """This formula turned round to give another of its quantities; KeyError if it is not stated."""
        if letter not in self.inverses:
            raise KeyError(f"{self.name} is solved for {', '.join(self.inverses) or 'nothing'}, not for {letter}")
        if letter not in self._turned:  # compiled once: a slider asks again and again
            self._turned[letter] = self._turn(letter)
        return self._turned[letter]

    @cached_property
    def _turned(self) -> dict[str, Formula]:
        return {}

    def _turn(self, letter: str) -> Formula:
        result = next(quantity for quantity in self.quantities if quantity.letter == letter)
        used = {symbol.name for symbol in self.inverses[letter].free_symbols}
        rest = tuple(q for q in (*self.quantities, self.result) if q.letter in used)
        return Formula(f"{self.name}, for {result.meaning}", result, rest, self.inverses[letter], self.source)

    # --- print ----------------------------------------------------------------------------------
    @property
    def latex(self) -> str:
        """The formula as LaTeX, with the letters that the drawings carry."""
        return f"{self.result.latex} = {self._latex({q.letter: q.latex for q in self.quantities})}"

    def latex_with(self, shown: Mapping[str, str], result: str) -> str:
        """The formula with somebody's numbers put in: ``shown`` and ``result`` are already LaTeX or plain text."""
        numbers = {letter: f"{{{text}}}" for letter, text in shown.items()}
        return f"{self.result.latex} = {self._latex(numbers, times=True)} = {result}"

    def _latex(self, names: Mapping[str, str], times: bool = False) -> str:
        symbols = {quantity.symbol: names[quantity.letter] for quantity in self.quantities}
        settings = {"symbol_names": symbols, "inv_trig_style": "full", "mul_symbol": "times" if times else None}
        return _BenchPrinter(settings).doprint(self.expression)
