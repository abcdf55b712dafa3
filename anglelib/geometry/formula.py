"""A formula as the course uses it: called with numbers, turned round, printed with letters or with somebody's numbers.

Each is stated once, symbolically, in :mod:`anglelib.geometry.formulas`. What is computed and printed from there while somebody waits
is written down beforehand, in :mod:`anglelib.geometry.ready_formulas`: the statements need sympy, whose import costs more
than all the rest of a lesson.
"""

from __future__ import annotations

import re
from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache, cached_property
from math import degrees, radians
from types import FunctionType
from typing import Any

from anglelib.geometry.quantities import QUANTITIES, Quantity


def elliptic_e(parameter: float) -> float:
    """Complete elliptic integral of the second kind, of the parameter m = k squared."""
    import mpmath

    return float(mpmath.ellipe(parameter))


class Formula(ABC):
    """One formula: its name, what it gives, from which quantities, from where.

    Call it with the letters as keywords: whole numbers and Fractions give a Fraction where the
    formula is rational, numpy arrays give arrays. Angles go in and come out in degrees.
    """

    name: str
    result: Quantity
    quantities: tuple[Quantity, ...]
    source: str
    inverses: Mapping[str, Any]
    """By letter, what it is turned round from."""
    right_side: str
    """What it is equal to as LaTeX, with the letters that the drawings carry."""
    with_places: str
    """The same for numbers: <letter> is the place of each, and products have their sign."""
    _scalar: Callable[..., Any]
    """What computes it of numbers, in the order of ``quantities``; angles in radians."""
    _array: Callable[..., Any]
    """What computes it of numpy arrays."""

    def __hash__(self) -> int:
        return hash(self.name)

    # --- numbers ------------------------------------------------------------------------------
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
    @abstractmethod
    def _turn(self, letter: str) -> Formula:
        """The formula for another of its quantities."""

    @cached_property
    def _turned(self) -> dict[str, Formula]:
        return {}

    def solved_for(self, letter: str) -> Formula:
        """This formula turned round to give another of its quantities; KeyError if it is not stated."""
        if letter not in self.inverses:
            raise KeyError(f"{self.name} is solved for {', '.join(self.inverses) or 'nothing'}, not for {letter}")
        if letter not in self._turned:  # made once: a slider asks again and again
            self._turned[letter] = self._turn(letter)
        return self._turned[letter]

    def _name_for(self, letter: str) -> str:
        return f"{self.name}, for {QUANTITIES[letter].meaning}"

    # --- print ----------------------------------------------------------------------------------
    @property
    def latex(self) -> str:
        """The formula as LaTeX, with the letters that the drawings carry."""
        return f"{self.result.latex} = {self.right_side}"

    def latex_with(self, shown: Mapping[str, str], result: str) -> str:
        """The formula with somebody's numbers put in: ``shown`` and ``result`` are already LaTeX or plain text."""
        numbers = re.sub(r"<(\w+)>", lambda place: f"{{{shown[place[1]]}}}", self.with_places)
        return f"{self.result.latex} = {numbers} = {result}"


@dataclass(frozen=True, eq=False)
class Ready(Formula):
    """A formula as it was written down from its statement: plain Python and LaTeX, no sympy."""

    name: str
    result: Quantity
    quantities: tuple[Quantity, ...]
    source: str
    _scalar: Callable[..., Any]
    right_side: str
    with_places: str
    inverses: Mapping[str, Turned] = field(default_factory=dict)

    @cached_property
    def _array(self) -> Callable[..., Any]:
        return FunctionType(self._scalar.__code__, _of_numpy())

    def _turn(self, letter: str) -> Formula:
        letters, code, right_side, with_places = self.inverses[letter]
        return Ready(self._name_for(letter), QUANTITIES[letter], _quantities(letters), self.source, code, right_side, with_places)


Turned = tuple[str, Callable[..., Any], str, str]
"""A formula for another quantity: its letters, what computes it, its right side, the same for numbers."""


def _quantities(letters: str) -> tuple[Quantity, ...]:
    return tuple(QUANTITIES[letter] for letter in letters.split())


def ready(
    name: str, result: str, letters: str, source: str, code: Callable[..., Any], right_side: str, with_places: str, **inverses: Turned
) -> Ready:
    """A line of :mod:`anglelib.geometry.ready_formulas`."""
    return Ready(name, QUANTITIES[result], _quantities(letters), source, code, right_side, with_places, inverses)


@cache
def _of_numpy() -> dict[str, Any]:
    """What the names in the ready formulas mean for arrays."""
    import numpy

    names = {"acos": "arccos", "asin": "arcsin", "atan": "arctan", "max": "maximum"}
    same = {name: getattr(numpy, names.get(name, name)) for name in ("acos", "asin", "atan", "cos", "log", "max", "pi", "sin", "sqrt", "tan")}
    return {**same, "Fraction": lambda over, under: over / under, "elliptic_e": numpy.vectorize(elliptic_e, otypes=[float])}
