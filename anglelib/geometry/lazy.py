"""The formulas, imported when the first one is asked for: sympy's import is no part of the library's."""

from types import ModuleType


def formulas() -> ModuleType:
    """The package :mod:`anglelib.geometry.formulas`."""
    from anglelib.geometry import formulas as stated

    return stated
