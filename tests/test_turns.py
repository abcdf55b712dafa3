"""The slow tier by turns: what is dealt, what stays where it is, what no turn has; and a turn as pytest runs it, in a project of its own."""

import datetime
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path
from random import Random

import pytest
import turns
from patience import PATIENCE
from turns import FULL, TOO_LONG, TURNS, Row, by_function, committed, deal, loads, may_be_slow, of_commit, of_turn

TESTS = Path(__file__).resolve().parent
PROJECT = TESTS.parent


# --- the rule ----------------------------------------------------------------------------------------------------
def some_rows(lot: int, many: int = 60) -> dict[str, Row]:
    dice = Random(f"turns {lot}")
    return {f"tests/test_{n}.py::test_it": Row(round(dice.expovariate(0.02), 1), dice.choice((1, 1, 5, 100))) for n in range(many)}


@pytest.mark.parametrize("lot", range(20))
def test_each_is_dealt_once_and_no_turn_has_more_than_it_must(lot):
    rows = some_rows(lot)
    dealt = deal(rows)
    assert sorted(dealt) == sorted((name, share) for name, row in rows.items() for share in range(row.shares)) and set(dealt.values()) <= set(range(TURNS))
    taken, whole = loads(rows), sum(row.seconds for row in rows.values())
    assert sum(taken) == pytest.approx(whole)
    # Longest first, each to the least: at most 4/3 of the best that there is, and that is no less than either of these.
    assert max(taken) <= 4 / 3 * max(whole / TURNS, *(row.seconds / row.shares for row in rows.values())) + 1e-9


@pytest.mark.parametrize("lot", range(20))
def test_a_new_test_moves_no_other_one(lot):
    rows, dice = some_rows(lot), Random(lot)
    new = [f"tests/test_{dice.choice('abcz')}{n}.py::test_new" for n in range(5)]
    before, after = deal(rows), deal(rows, new)
    assert {piece: after[piece] for piece in before} == before and {(name, 0) for name in new} <= after.keys()


@pytest.mark.parametrize("more", [0, 1, 7])
def test_a_round_of_turns_runs_every_test_once_but_what_is_left_out(more):
    """Also where a function has got more cases than its row says, or fewer."""
    rows = {f"a.py::f{n}": Row(n, 2) for n in range(30)} | {"a.py::g": Row(400, 13), "a.py::fewer": Row(400, 13)}
    tests = [*(f"a.py::f{n}[{case}]" for n in range(30) for case in "ab"), *(f"a.py::g[{n}]" for n in range(13 + more)), "a.py::fewer[1]", "a.py::fewer[2]"]
    tests += ["b.py::new[1]", "b.py::new[2]", "hub.py::h"]
    of_each = [of_turn(turn, tests, rows, ["hub.py"]) for turn in range(TURNS)]
    assert sorted(sum(of_each, [])) == sorted(test for test in tests if test != "hub.py::h")
    together = {test: n for n, of in enumerate(of_each) for test in of}
    assert together["b.py::new[1]"] == together["b.py::new[2]"] and len({turn for test, turn in together.items() if "::g[" in test}) == 9


# --- the commit ----------------------------------------------------------------------------------------------------
def says(**answers):
    def git(*words):
        answer = answers[words[-1].strip("-").replace("-", "_").lower() if words[0] != "rev-list" else "count"]
        if isinstance(answer, Exception):
            raise answer
        return answer

    return git


def test_the_turn_is_the_commits():
    assert [of_commit(says(is_shallow_repository="false", count=str(n)), turns=10) for n in (744, 745, 750)] == [4, 5, 0]
    assert of_commit(says(is_shallow_repository="true", count="1", head="ff"), turns=10) == 5
    day = datetime.date(2026, 1, 1)
    for error in (FileNotFoundError(), subprocess.CalledProcessError(128, "git")):
        found = [of_commit(says(is_shallow_repository=error), day + datetime.timedelta(days=n), turns=10) for n in range(10)]
        assert sorted(found) == list(range(10))


# --- the table and the list as they are ---------------------------------------------------------------------------
def there(name: str) -> bool:
    """Whether a row's test is in its file: its function, however it is made, and that some test of the file is slow."""
    path, _, function = name.partition("::")
    if not (PROJECT / path).is_file():
        return False
    return not function or re.search(rf"^(?:def {function}\(|{function} = )", (PROJECT / path).read_text(encoding="utf-8"), re.MULTILINE) is not None


def test_the_table_has_no_row_of_a_test_that_is_no_more():
    rows, without = committed()
    assert [name for name in [*rows, *without] if not there(name)] == []
    assert {row.how for row in rows.values()} <= set(turns.HOW) and all(row.seconds >= 0 for row in rows.values())
    assert not there("tests/test_turns.py::test_that_is_gone") and not there("tests/test_gone.py::test_it")
    assert not [name for name in rows if "[" in name] and all(row.cases >= 1 for row in rows.values())


def test_each_turn_has_room_and_what_is_left_out_has_a_reason():
    rows, without = committed()
    assert max(loads(rows)) <= FULL and max(row.seconds / row.cases for row in rows.values()) <= TOO_LONG
    assert [name for name in rows if name.startswith(tuple(without))] == []
    assert all(len(why) > 10 for why in without.values())


def test_developers_says_how_many_turns_there_are_and_how_long_they_take():
    rows, _ = committed()
    said = (PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
    found = re.search(r"The slow tier takes (\d+) minutes of the processor in (\d+) turns of about (\d+) minutes", said)
    whole, longest = sum(row.seconds for row in rows.values()) / 60, max(loads(rows)) / 60
    assert found and int(found[2]) == TURNS
    assert abs(int(found[1]) - whole) <= 0.1 * whole and abs(int(found[3]) - longest) <= 1, (whole, longest)


@pytest.mark.slow
def test_every_row_and_every_line_is_some_slow_tests():
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-m", "slow", "--collect-only", "-p", "no:cacheprovider", "tests"],
        cwd=PROJECT, capture_output=True, text=True, timeout=PATIENCE, check=True,
    )  # fmt: skip
    tests = [line for line in done.stdout.splitlines() if "::" in line]
    rows, without = committed()
    assert all(may_be_slow((PROJECT / path).read_text(encoding="utf-8")) for path in {test.partition("::")[0] for test in tests})
    assert len(tests) > 300 and rows.keys() - by_function(tests).keys() == set()
    assert [line for line in without if not any(test.startswith(line) for test in tests)] == []


# --- as pytest runs them ---------------------------------------------------------------------------------------------
SLOW = """
import os, time, pytest
pytestmark = pytest.mark.slow
@pytest.mark.parametrize("n", range(4))
def test_it(n): time.sleep({rest})
def test_other(): assert not os.environ.get("FAILS")
"""
QUICK = "def test_quick(): assert False, 'no turn has it'\n"


def run(folder, *words, rest=0.0, **environment):
    """A project of its own with five slow tests: of one function four, each a share."""
    tests = folder / "tests"
    tests.mkdir(exist_ok=True)
    for name in ("conftest.py", "turns.py"):
        shutil.copy(TESTS / name, tests)
    (tests / "test_slow.py").write_text(SLOW.format(rest=rest))
    (tests / "test_quick.py").write_text(QUICK)
    (tests / "slow_seconds.csv").write_text("test,cases,seconds,how\ntests/test_slow.py::test_it,4,160,measured\ntests/test_slow.py::test_other,1,1,measured\n")
    (tests / "not_in_turns.txt").write_text("tests/test_slow.py::test_it[3] | it is for this test\n")
    (tests / "allowed_skips.txt").write_text("")
    (folder / "pytest.ini").write_text("[pytest]\ntestpaths = tests\naddopts = -m 'not slow'\nmarkers = slow: long\n")
    clean = {name: value for name, value in os.environ.items() if not name.startswith(("PYTEST_", "ANGLELIB_"))}
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "-rA", *words], cwd=folder, capture_output=True, text=True, timeout=PATIENCE,
        env={**clean, "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1", "ANGLELIB_CI": "1", **environment},
    )  # fmt: skip


def passed(done) -> list[str]:
    return re.findall(r"^PASSED (\S+)", done.stdout, re.MULTILINE)


def test_a_turn_has_its_own_slow_tests_and_nothing_else(tmp_path):
    first = run(tmp_path, "--turn", "0")
    assert first.returncode == 0 and passed(first) == ["tests/test_slow.py::test_it[0]"], first.stdout
    second = run(tmp_path, "--turn", str(TURNS + 1), "-p", "xdist", "-n", "2", "--dist", "worksteal")
    assert second.returncode == 0 and passed(second) == ["tests/test_slow.py::test_it[1]"], second.stdout


def test_a_slow_test_that_fails_fails_its_turn(tmp_path):
    assert [run(tmp_path, "--turn", "4", FAILS=fails).returncode for fails in ("", "1")] == [0, 1]


def test_what_the_time_does_not_reach_is_said_and_is_no_failure(tmp_path):
    late = run(tmp_path, "--turn", "0", ANGLELIB_TURN_ENDS="1")
    assert late.returncode == 0 and passed(late) == []
    assert "1 not reached" in late.stdout and "tests/test_slow.py::test_it[0]" in late.stdout.partition("not reached")[2]


def test_ci_runs_a_turn_after_the_quick_tests():
    script = (PROJECT / ".ci/run").read_text(encoding="utf-8").splitlines()
    assert script[-1] == ".ci/turn" and script[-4].startswith("timeout ") and "set -euo pipefail" in script
    turn = (PROJECT / ".ci/turn").read_text(encoding="utf-8")
    assert "--turn" in turn and "ANGLELIB_CI=1" in turn and turn.rstrip().endswith('exit "$code"')
    assert os.access(PROJECT / ".ci/turn", os.X_OK)
