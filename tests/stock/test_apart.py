"""The solver in a process of its own: the same answers and errors, a small page, and a helper whose end loses nothing."""

import os
import signal
import subprocess
import sys
import threading
import time
from dataclasses import dataclass
from pathlib import Path

import pytest
from opened import until

from anglelib.errors import PlanError
from anglelib.hashed import hashed_once
from anglelib.lengths import unit_written, writing
from anglelib.stock import apart as module
from anglelib.stock.apart import HELPER, LIGHT, apart

PROJECT = Path(__file__).resolve().parents[2]
PAGE = """
import sys
from anglelib.lessons import kit_plan, plan_breaks
from anglelib.stock.apart import HELPER
made = kit_plan.whole_plan()
now = kit_plan.now_besides("A3")
then = plan_breaks.again("S-01-short")
print([stick.stick.id for stick in made.sticks], made.groups[0].sentence, now.sentence, then.sentence, sep="\\n")
print(sorted({"ortools", "numpy", "pandas"} & set(sys.modules)))
HELPER.end()
"""


def page(light: str) -> list[str]:
    """What a page prints that plans the kit; its last line is what of the solver it has loaded."""
    environment = {**os.environ, LIGHT: light, "PYTHONPATH": str(PROJECT)}
    done = subprocess.run([sys.executable, "-c", PAGE], env=environment, capture_output=True, text=True, check=True)
    return done.stdout.splitlines()


def test_a_page_that_is_to_stay_small_has_the_same_plans_and_no_solver():
    *same, loaded = page("1")
    *here, in_it = page("")
    assert same == here and len(same) == 4
    assert loaded == "[]" and "ortools" in in_it  # the guard: without the helper it is seen


# --- the helper by itself, asked for functions of this module -------------------------------------------------
def refuses(words: str) -> None:
    raise PlanError(words)


def process_and_unit() -> tuple[int, str]:
    return os.getpid(), unit_written()


def calls(function):
    return function()


def sleeps(begun: Path) -> None:
    begun.touch()
    time.sleep(60)


def leaves() -> None:
    os._exit(3)


@hashed_once
@dataclass(frozen=True)
class Stub:
    id: str


def stub(words: str) -> Stub:
    found = Stub(words)
    hash(found)
    return found


@pytest.fixture(scope="module")
def light():
    """A process that is to stay small, whose helper finds this module, whatever else the tests have loaded."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(LIGHT, "1")
        patch.delitem(sys.modules, "ortools", raising=False)
        patch.syspath_prepend(str(Path(__file__).parent))
        yield
        HELPER.end()


def test_errors_and_the_unit_go_along(light):
    with writing("mm"):
        process, unit = apart(process_and_unit)()
    assert process != os.getpid() and unit == "mm"
    with pytest.raises(PlanError, match="too long by 3"):
        apart(refuses)("too long by 3")
    assert apart(process_and_unit)()[0] == process  # an error does not end it


def test_a_value_that_comes_back_is_found_in_a_dictionary(light):
    """Words have other hashes in another process: a kept hash must not go along."""
    assert {Stub("C1L"): "there"}[apart(stub)("C1L")] == "there"


def test_what_cannot_be_sent_runs_here(light):
    assert apart(calls)(os.getpid) != os.getpid()
    assert apart(calls)(lambda: os.getpid()) == os.getpid()


def test_a_helper_that_ends_loses_nothing(light, monkeypatch):
    process = apart(process_and_unit)()[0]
    ran = []
    monkeypatch.setattr(os, "_exit", ran.append)  # here; the helper has its own
    apart(leaves)()
    assert ran == [3]
    assert apart(process_and_unit)()[0] not in (process, os.getpid())


def test_it_ends_when_it_rests(light, monkeypatch):
    monkeypatch.setattr(module, "REST", 0.05)
    apart(process_and_unit)()
    assert until(lambda: HELPER._process is None)


@pytest.mark.skipif(os.name != "posix", reason="a kernel is interrupted otherwise there")
def test_an_interrupted_question_leaves_no_answer_for_the_next(light, tmp_path):
    begun = tmp_path / "begun"

    def ctrl_c() -> None:
        if until(begun.exists):
            os.kill(os.getpid(), signal.SIGINT)

    before = signal.signal(signal.SIGINT, signal.default_int_handler)  # also where the tests run with it ignored
    try:
        apart(process_and_unit)()
        with pytest.raises(KeyboardInterrupt):
            threading.Thread(target=ctrl_c, daemon=True).start()
            apart(sleeps)(begun)
        assert apart(process_and_unit)()[0] != os.getpid()
    finally:
        signal.signal(signal.SIGINT, before)
