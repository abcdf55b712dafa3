"""The quick tests of a module, the nearest first: those that import it, then those that import what imports it."""

from __future__ import annotations

import ast
from collections.abc import Mapping
from functools import cache
from pathlib import Path

AREAS = {
    "files": ("tests/files", "tests/terminal", "tests/unit"),
    "geometry": ("tests/unit", "tests/oracle", "tests/published", "tests/test_imports.py"),
    "inspection": ("tests/diagnosis", "tests/oracle", "tests/published"),
    "lengths": ("tests/unit", "tests/published"),
    "paper": ("tests/paper", "tests/drawing"),
    "questions": ("tests/questions",),
    "stock": ("tests/stock", "tests/files", "tests/terminal"),
}
"""Which folders hold an area's tests."""


def modules(area: str, project: Path) -> tuple[Path, ...]:
    """The modules of an area in which faults are planted: what only speaks (``*_words``) and what is generated has none."""
    found = sorted(project.joinpath("anglelib", area).rglob("*.py"))
    return tuple(path for path in found if path.name not in ("__init__.py", "ready_formulas.py") and not path.stem.endswith("words"))


def nearest(module: Path, area: str, project: Path) -> tuple[str, ...]:
    """The area's test files by how many imports lie between them and a module; those that do not reach it are not there.

    Where none reaches it (a command imports it when it is called), they are all there.
    """
    away = _away(_name(module, project), project)
    found, others = [], []
    for place in AREAS[area]:
        path = project / place
        for test in sorted(path.rglob("test_*.py")) if path.is_dir() else [path]:
            steps = [away[name] for name in _imports(test, project) if name in away]
            name = test.relative_to(project).as_posix()
            if steps:
                found.append((min(steps), name))
            else:
                others.append(name)
    return tuple(test for _, test in sorted(found)) or tuple(others)


def _name(path: Path, project: Path) -> str:
    name = ".".join(path.relative_to(project).with_suffix("").parts)
    return name.removesuffix(".__init__")


def _away(name: str, project: Path) -> Mapping[str, int]:
    """How many imports each module is away from one, up the imports."""
    above = _above(project)
    away, last, steps = {name: 0}, {name}, 0
    while last:
        steps += 1
        last = {up for one in last for up in above.get(one, ())} - away.keys()
        away.update(dict.fromkeys(last, steps))
    return away


@cache
def _above(project: Path) -> Mapping[str, set[str]]:
    above: dict[str, set[str]] = {}
    for path in project.joinpath("anglelib").rglob("*.py"):
        for name in _imports(path, project):
            above.setdefault(name, set()).add(_name(path, project))
    return above


@cache
def _imports(path: Path, project: Path) -> frozenset[str]:
    """What a file imports of the library, a neighbour's own imports with it: what the tests of one folder share."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and (beside := path.with_name(f"{node.module}.py")).is_file() and beside != path:
            found |= _imports(beside, project)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found.add(node.module)
            found |= {f"{node.module}.{alias.name}" for alias in node.names if _is_module(f"{node.module}.{alias.name}", project)}
        elif isinstance(node, ast.Call) and node.args and getattr(node.func, "id", "") == "import_module":
            found |= _by_name(node.args[0], project)
    return frozenset(name for name in found if name.startswith(("anglelib", "tests")))


def _by_name(name: ast.AST, project: Path) -> set[str]:
    """What ``import_module`` may import: the module that is named, or every one of the package whose name the text begins with."""
    if isinstance(name, ast.Constant):
        return {name.value}
    first = name.values[0] if isinstance(name, ast.JoinedStr) else None
    if not isinstance(first, ast.Constant):
        return set()
    package = first.value.rpartition(".")[0]
    return {f"{package}.{path.stem}" for path in project.joinpath(*package.split(".")).glob("*.py") if path.stem != "__init__"}


@cache
def _is_module(name: str, project: Path) -> bool:
    return project.joinpath(*name.split(".")).with_suffix(".py").is_file()

