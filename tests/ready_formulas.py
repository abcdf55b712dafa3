"""Write the ready formulas from their statements: plain Python and LaTeX, so that nobody who learns waits for sympy.

    python -m tests.ready_formulas

writes ``anglelib/geometry/ready_formulas.py``, which is never edited by hand; ``tests/unit/test_ready_formulas.py`` holds it to the statements.
"""

from __future__ import annotations

import hashlib
import re
import sys
from pathlib import Path

from anglelib.geometry import formulas
from anglelib.geometry.formulas.statement import Statement

GEOMETRY = Path(__file__).resolve().parents[1] / "anglelib" / "geometry"
READY = GEOMETRY / "ready_formulas.py"
MATH = ("acos", "asin", "atan", "cos", "log", "pi", "sin", "sqrt", "tan")
HEAD = '''"""The formulas as they run: written by ``python -m tests.ready_formulas`` from their statements, never by hand.

Statements: {digest}
"""

from __future__ import annotations

from fractions import Fraction
from math import {math}

from anglelib.geometry.formula import elliptic_e, ready
from anglelib.geometry.quantities import QUANTITIES

'''


def digest() -> str:
    """What was stated, in 16 signs: the statements, the quantities, and how they are written down."""
    sources = [GEOMETRY / "quantities.py", *sorted((GEOMETRY / "formulas").glob("*.py"))]
    return hashlib.sha256(b"".join(path.read_bytes() for path in sources)).hexdigest()[:16]


def _written(formula: Statement) -> tuple[str, str, str, str]:
    """Its letters, what computes it, its right side, the same for numbers: each as Python."""
    letters = [quantity.letter for quantity in formula.quantities]
    latex = (f'r"{text}"' for text in (formula.right_side, formula.with_places))
    return f'"{" ".join(letters)}"', f"lambda {', '.join(letters)}: {formula.code}", *latex


def _line(name: str, formula: Statement) -> str:
    letters, *written = _written(formula)
    rows = [f'"{formula.name}", "{formula.result.letter}", {letters}, "{formula.source}"', *written]
    for letter in formula.inverses:
        letters, code, *latex = _written(formula.solved_for(letter))
        rows.append(f"{letter}=(\n        {letters}, {code},\n        {', '.join(latex)},\n    )")
    return f"{name} = ready(\n    " + ",\n    ".join(rows) + ",\n)\n"


def text() -> str:
    """The whole module."""
    named = {id(value): name for name, value in vars(formulas).items() if isinstance(value, Statement)}
    body = "".join(_line(named[id(formula)], formula) for formula in formulas.ALL)
    used = [name for name in MATH if re.search(rf"\b{name}\b", re.sub(r'r?"[^"]*"', "", body))]
    names = ", ".join(named[id(formula)] for formula in formulas.ALL)
    head = HEAD.format(digest=digest(), math=", ".join(used))
    return f'{head}{body}\nALL = ({names})\n\n__all__ = ["ALL", "QUANTITIES"]\n'


def main() -> int:
    READY.write_text(text(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
