"""The ready formulas are what was written from the statements, and give and print what sympy makes of those."""

from __future__ import annotations

import subprocess
import sys
from random import Random

import numpy as np
import pytest
from test_formula import numbers_for

from anglelib.geometry import ready_formulas
from anglelib.geometry.formulas import ALL
from tests import ready_formulas as writer

READY = {formula.name: formula for formula in ready_formulas.ALL}
PAIRS = [(formula, READY[formula.name]) for formula in ALL]
PAIRS += [(formula.solved_for(letter), READY[formula.name].solved_for(letter)) for formula in ALL for letter in formula.inverses]


def test_the_module_is_the_one_that_is_written_from_the_statements():
    text = writer.READY.read_text(encoding="utf-8")
    assert text.split("Statements: ")[1].startswith(writer.digest()), "python -m tests.ready_formulas"
    assert text == writer.text(), "python -m tests.ready_formulas"


def test_all_are_there_under_their_names():
    assert [formula.name for formula in ready_formulas.ALL] == [formula.name for formula in ALL]
    for name in set(dir(ready_formulas)) - {"ALL"}:
        value = getattr(ready_formulas, name)
        assert not hasattr(value, "latex_with") or value in ready_formulas.ALL, name


@pytest.mark.parametrize(("stated", "ready"), PAIRS, ids=lambda formula: formula.name)
def test_it_gives_and_prints_what_the_statement_does(stated, ready):
    for field in ("name", "result", "quantities", "source", "latex"):
        assert getattr(ready, field) == getattr(stated, field), field
    assert list(ready.inverses) == list(stated.inverses)
    rng = Random(stated.name)
    for numbers in (numbers_for(stated, rng) for _ in range(3)):
        try:
            wanted = stated(**numbers)
        except ValueError:  # an inverse at numbers that no part has
            with pytest.raises(ValueError):
                ready(**numbers)
            continue
        found = ready(**numbers)
        assert found == wanted and type(found) is type(wanted)  # to the last bit: a saved output is the same
    # as lessons put numbers in: fractions, angles, roots
    shown = {q.letter: (rf"{n}^\circ" if q.unit == "deg" else r"1\,\tfrac{3}{16}") for n, q in enumerate(stated.quantities)}
    sympys = stated.written_with({letter: f"{{{text}}}" for letter, text in shown.items()}, times=True)
    assert ready.latex_with(shown, "9") == f"{stated.result.latex} = {sympys} = 9"


@pytest.mark.parametrize(("stated", "ready"), PAIRS[: len(ALL)], ids=lambda formula: formula.name)
def test_arrays_give_what_the_statement_gives(stated, ready):
    rng = Random(stated.name)
    rows = [numbers_for(stated, rng) for _ in range(4)]
    arrays = {letter: np.array([float(row[letter]) for row in rows]) for letter in rows[0]}
    with np.errstate(all="ignore"):
        wanted, found = stated(**arrays), ready(**arrays)
    assert found == pytest.approx(wanted, rel=1e-12, nan_ok=True)


def test_an_altered_line_is_seen(monkeypatch):
    """The guard: a number or a sign that somebody changes in the written module."""
    text = writer.text()
    altered = text.replace("lambda delta, l_p: l_p*tan(delta)", "lambda delta, l_p: l_p*sin(delta)", 1)
    assert altered != text
    names: dict = {}
    exec(compile(altered, "altered", "exec"), names)
    with pytest.raises(AssertionError):
        test_it_gives_and_prints_what_the_statement_does(PAIRS[0][0], names["ALL"][0])


def test_nothing_of_sympy_is_loaded_with_them():
    code = "import sys; from anglelib.geometry.lazy import formulas; formulas().taper_mark(y=1, s=0, c=2); print('sympy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip() == "False"
