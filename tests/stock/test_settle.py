"""Without the solver: a small rack is planned by trying everything, a larger one is refused in words."""

import subprocess
import sys
from pathlib import Path

import pytest
from brute import best, reached, scratched
from patience import PATIENCE
from small_jobs import small_job

from anglelib.errors import PlanError
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock import settle as module
from anglelib.stock.checker import faults
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick


@pytest.fixture
def no_solver(monkeypatch):
    def missing(*_, **__):
        raise ImportError("No module named 'ortools'")

    monkeypatch.setattr(module, "improve", missing)


def test_small_racks_are_planned_as_well_as_with_it(no_solver):
    for seed in range(120):
        job, rack = small_job(seed)
        made = plan(job, rack)
        assert faults(made, job, rack) == (), seed
        for group in made.groups:
            assert reached(group, job, rack) == best(job, rack, group.section, group.alloy), seed
            clear = not scratched(job, rack, group.section, group.alloy)
            assert [proof.proven for proof in group.proofs[:4]] == [True, True, True, clear] and all(s.proven for s in group.shortages), seed


def test_a_larger_rack_is_refused_in_words(no_solver):
    stock = Section("3/4", "3/4", "1/8", fillet="1/8")
    job = Job("Demo", Shop(), [Part("A", "A", stock, "6061-T6", 3, quantity=10)])
    with pytest.raises(PlanError, match=r"The solver \(ortools\) is not in this Python, and 10 blanks .* at most 9. Install"):
        plan(job, Rack([Stick("S-1", stock, "6061-T6", 40)]))


def test_a_python_that_has_none():
    """In a Python of its own, in which the import fails as it does where nothing is installed."""
    code = (
        f"import sys; sys.modules['ortools'] = None; sys.path.insert(0, {str(Path(__file__).parent)!r})\n"
        "from small_jobs import small_job\n"
        "from anglelib.stock.planner import plan\n"
        "print(plan(*small_job(3)).groups[0].sentence)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=PATIENCE)
    assert done.returncode == 0, done.stderr
    assert "proven" in done.stdout
