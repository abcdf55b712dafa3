"""Ctrl-C stays with whoever asked: a solver that catches it would leave a process that the next one kills, answers and all."""

import os
import subprocess
import sys

import pytest
from patience import PATIENCE

SOLVES = {
    "anglelib/stock/search.py": """
        from ortools.sat.python import cp_model
        from anglelib.stock.effort import Effort
        from anglelib.stock.search import solve
        model = cp_model.CpModel()
        model.minimize(model.new_int_var(1, 9, "n"))
        solve(model, Effort(), 1.0)
    """,
    "anglelib/workshop/rotation.py": """
        from anglelib.workshop.class_plan import ClassWanted
        from anglelib.workshop.rotation import rotation
        rotation(ClassWanted(learners=2))
    """,
}
THEN = """
import os, signal, time
try:
    os.kill(os.getpid(), signal.SIGINT)
    time.sleep(60)
except KeyboardInterrupt:
    print("Python's own")
"""


def left(solve: str) -> str:
    """What a process says that solves, and then is interrupted."""
    before = "import signal\nsignal.signal(signal.SIGINT, signal.default_int_handler)\n"  # also where the tests run with it ignored
    code = before + "\n".join(line.strip() for line in solve.splitlines()) + THEN
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=PATIENCE).stdout


@pytest.mark.skipif(os.name != "posix", reason="Ctrl-C is sent otherwise there")
@pytest.mark.parametrize("place", SOLVES)
def test_a_solver_leaves_ctrl_c_alone(place):
    assert left(SOLVES[place]) == "Python's own\n"


ASKED = "import signal; print(signal.getsignal(signal.SIGINT) is signal.default_int_handler)"
WHERE_IGNORED = """
import signal, subprocess, sys
signal.signal(signal.SIGINT, signal.SIG_IGN)
{first}
print(subprocess.run([sys.executable, "-c", {asked!r}], capture_output=True, text=True).stdout.strip(), signal.raise_signal(signal.SIGINT))
"""


@pytest.mark.skipif(os.name != "posix", reason="Ctrl-C is sent otherwise there")
@pytest.mark.parametrize(("first", "takes"), [("import conftest; conftest.children_take_ctrl_c()", True), ("", False)], ids=["as the tests do", "as it was"])
def test_what_the_tests_start_takes_ctrl_c_where_they_ignore_it(first, takes):
    """As with nohup: they themselves ignore it still."""
    code = WHERE_IGNORED.format(first=first, asked=ASKED)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=PATIENCE, cwd=os.path.dirname(__file__))
    assert done.stdout == f"{takes} None\n", done.stderr


@pytest.mark.skipif(os.name != "posix", reason="Ctrl-C is sent otherwise there")
def test_the_guard_sees_one_that_does_not():
    caught = """
        from ortools.sat.python import cp_model
        model = cp_model.CpModel()
        model.minimize(model.new_int_var(1, 9, "n"))
        cp_model.CpSolver().solve(model)
    """
    assert left(caught) == ""


def test_every_place_with_a_solver_is_tried(project):
    found = {str(path.relative_to(project)) for path in (project / "anglelib").rglob("*.py") if "CpSolver()" in path.read_text(encoding="utf-8")}
    assert {name.replace(os.sep, "/") for name in found} == set(SOLVES)
