"""The planter of faults: each kind once, none where only words stand, and the list of those that change nothing."""

import ast

import pytest

from tests.mutants.faults import faults, planted
from tests.mutants.nearest import AREAS, modules, nearest, seconds
from tests.mutants.same import same

KINDS = {
    "a < b": "a <= b", "a == b": "a != b", "a in b": "a not in b", "a is b": "a is not b", "a + b": "a - b", "a * b": "a / b", "a // b": "a * b",
    "a ** b": "a * b", "a and b": "a or b", "not a": "a", "-a": "a", "f(True)": "f(False)", "f(2.5)": "f(3.5)", "min(a, b)": "max(a, b)", "math.floor(a)": "math.ceil(a)",
}  # fmt: skip


@pytest.mark.parametrize("here", KINDS)
def test_each_kind_of_fault(here):
    source = f"x = {here}"
    assert KINDS[here] in [ast.unparse(ast.parse(planted(source, fault.number)).body[0].value) for fault in faults(source)]


def test_what_only_speaks_has_none():
    source = '''
"""A module of 2."""
__all__ = ["f"]
from a import b
if TYPE_CHECKING:
    c = 1 + 1
def f(a: "int < 3" = None) -> Literal[3]:
    """Gives 3."""
    raise ValueError(f"{a + 1} is not 3")
def __repr__(self):
    return 1 + 1
words = "a" + b
rows = zip(a, b, strict=True)
'''
    assert faults(source) == ()


def test_a_statement_is_left_out():
    assert [planted("a += b", fault.number) for fault in faults("a += b")] == ["pass"]
    assert planted("def f():\n    g(a)", 0) == "def f():\n    pass"


def test_each_area_has_modules_and_tests_that_reach_them(project):
    for area in AREAS:
        found = modules(area, project)
        assert len(found) > 5
        for path in found:
            assert all((project / test).is_file() for test in nearest(path, area, project)) and nearest(path, area, project), path


def test_the_nearest_tests_import_the_module_itself(project):
    first = nearest(project / "anglelib/stock/checker.py", "stock", project)[0]
    assert "stock.checker import" in (project / first).read_text(encoding="utf-8")


def test_what_a_test_imports_by_its_name_is_near_to_it_too(project):
    """The table of beginners' answers asks every lesson's questions, whose modules it imports by the names of a list."""
    found = [nearest(project / f"anglelib/questions/{name}.py", "questions", project) for name in ("read_part", "plan_stock", "check_and_diagnose")]
    assert all(tests[0] == "tests/questions/test_beginners.py" for tests in found), found


def test_what_a_package_hands_on_is_reached(project):
    """``from anglelib.files import parse_job`` imports anglelib.files.job_file, though no import statement says so."""
    assert "tests/files/test_round_trip.py" in nearest(project / "anglelib/files/job_file.py", "files", project)
    assert "tests/files/test_round_trip.py" in nearest(project / "anglelib/files/rack_text.py", "files", project)


def test_of_those_that_are_as_near_the_quick_ones_come_first(project):
    found, costs = nearest(project / "anglelib/stock/checker.py", "stock", project), seconds()
    assert found.index("tests/stock/test_checker.py") < found.index("tests/stock/test_bin_packing.py") < found.index("tests/stock/test_steady.py")
    assert costs["tests/stock/test_checker.py"] < costs["tests/stock/test_bin_packing.py"] < costs["tests/stock/test_steady.py"]


def test_what_was_measured_is_there_still(project):
    assert seconds() and all((project / name).is_file() for name in seconds())


def test_what_is_listed_as_the_same_stands_there_still(project):
    for module, here, there in same():
        assert any((fault.here, fault.there) == (here, there) for fault in faults((project / module).read_text(encoding="utf-8"))), (module, here)
