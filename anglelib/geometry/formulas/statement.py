"""A formula stated with sympy: its expression, from which its code and its LaTeX are written down.

It is a :class:`anglelib.geometry.formula.Formula` too, computed by sympy's own ``lambdify``: against it the tests hold what was written down.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import Any

import sympy
from sympy.printing.latex import LatexPrinter
from sympy.printing.pycode import PythonCodePrinter

from anglelib.geometry.formula import Formula, elliptic_e
from anglelib.geometry.formulas.quantities import SYMBOLS
from anglelib.geometry.quantities import QUANTITIES, Quantity


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


def _plain(expression: sympy.Expr) -> sympy.Expr:
    """The expression with cotangents written as 1/tan, which every number module knows."""
    return expression.replace(sympy.cot, lambda angle: 1 / sympy.tan(angle))


def _printer() -> _ExactPrinter:
    return _ExactPrinter({"fully_qualified_modules": False})


@dataclass(frozen=True, eq=False)
class Statement(Formula):
    """A formula with its expression; ``inverses`` states the expression for each quantity that it is solved for."""

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

    # --- numbers ------------------------------------------------------------------------------
    @property
    def _symbols(self) -> list[sympy.Symbol]:
        return [SYMBOLS[quantity.letter] for quantity in self.quantities]

    @cached_property
    def _scalar(self) -> Callable[..., Any]:
        modules = [{"Fraction": Fraction, "elliptic_e": elliptic_e}, "math"]
        return sympy.lambdify(self._symbols, _plain(self.expression), modules=modules, printer=_printer())

    @cached_property
    def _array(self) -> Callable[..., Any]:
        modules: list[Any] = ["numpy"]
        if self.expression.has(sympy.elliptic_e):
            import numpy

            modules.insert(0, {"elliptic_e": numpy.vectorize(elliptic_e, otypes=[float])})
        return sympy.lambdify(self._symbols, _plain(self.expression), modules=modules)

    @property
    def code(self) -> str:
        """The expression as Python, its numbers exact."""
        return _printer().doprint(_plain(self.expression))

    def _turn(self, letter: str) -> Statement:
        used = {symbol.name for symbol in self.inverses[letter].free_symbols}
        rest = tuple(q for q in (*self.quantities, self.result) if q.letter in used)
        return Statement(self._name_for(letter), QUANTITIES[letter], rest, self.inverses[letter], self.source)

    # --- print ----------------------------------------------------------------------------------
    @property
    def right_side(self) -> str:
        return self.written_with({q.letter: q.latex for q in self.quantities})

    @property
    def with_places(self) -> str:
        return self.written_with({q.letter: f"<{q.letter}>" for q in self.quantities}, times=True)

    def written_with(self, names: Mapping[str, str], times: bool = False) -> str:
        """The expression as LaTeX, with these names for its letters; products with a sign, if ``times``."""
        symbols = {SYMBOLS[quantity.letter]: names[quantity.letter] for quantity in self.quantities}
        settings = {"symbol_names": symbols, "inv_trig_style": "full", "mul_symbol": "times" if times else None}
        return _BenchPrinter(settings).doprint(self.expression)
