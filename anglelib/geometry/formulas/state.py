"""Stating a formula: the quantities are read off the expression, so none can be forgotten."""

from __future__ import annotations

import sympy

from anglelib.geometry.formulas.statement import Statement
from anglelib.geometry.quantities import QUANTITIES

DERIVED = "derived from the drawing; checked against a solid"
STATED: list[Statement] = []


def state(
    name: str, result: sympy.Symbol, expression: sympy.Expr, source: str = DERIVED, **inverses: sympy.Expr
) -> Statement:
    """A formula for ``result``, and the same turned round for each quantity that is named."""
    letters = sorted(symbol.name for symbol in expression.free_symbols)
    formula = Statement(
        name,
        QUANTITIES[result.name],
        tuple(QUANTITIES[letter] for letter in letters),
        expression,
        source,
        inverses,
    )
    STATED.append(formula)
    return formula


def formula_names(names: dict[str, object]) -> list[str]:
    """The names that hold formulas: what a module of formulas offers, without its letters."""
    return [name for name, value in names.items() if isinstance(value, Statement)]
