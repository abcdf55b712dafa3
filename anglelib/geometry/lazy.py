"""The formulas, read when the first one is asked for."""

from types import ModuleType


def formulas() -> ModuleType:
    """The module :mod:`anglelib.geometry.ready_formulas`."""
    from anglelib.geometry import ready_formulas

    return ready_formulas
