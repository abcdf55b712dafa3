"""What is installed to run the course is used by it: each package that the project asks for is imported by its library."""

import ast
import re
import tomllib
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parent.parent


def asked() -> set[str]:
    """The packages that pyproject.toml asks for."""
    listed = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    return {re.match(r"[\w-]+", line)[0] for line in listed}


def imported(source: str) -> set[str]:
    """The packages that a module imports, wherever in it."""
    found = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and not node.level and node.module:
            found.add(node.module.partition(".")[0])
    return found


def used() -> set[str]:
    return set().union(*(imported(path.read_text(encoding="utf-8")) for path in (PROJECT / "anglelib").rglob("*.py")))


def test_everything_that_is_asked_for_is_imported():
    assert asked() - used() == set()


@pytest.mark.parametrize("unused", ["coverage", "scipy"])
def test_a_package_that_nothing_imports_is_seen(unused):
    assert unused not in used()


def test_the_lock_has_all_of_it_at_one_version():
    locked = dict(re.findall(r"^([\w-]+)==(\S+)", (PROJECT / "requirements.txt").read_text(encoding="utf-8"), re.MULTILINE))
    assert asked() - set(locked) == set() and "nbval" in locked
