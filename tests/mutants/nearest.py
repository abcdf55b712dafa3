"""The quick tests of a module: those that are near, and of these the quickest, come first.

Near are those that import it, then those that import what imports it. What each test file costs is in ``seconds.txt`` beside this
module, as ``python -m tests.mutants --measure`` has measured it; a new one that is not in it yet is taken for a quick one.
"""

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
SECONDS = Path(__file__).with_name("seconds.txt")
NEW = 1.0
"""What a test file is taken to cost that nobody has measured [s]."""


def modules(area: str, project: Path) -> tuple[Path, ...]:
    """The modules of an area in which faults are planted: what only speaks (``*_words``) and what is generated has none."""
    found = sorted(project.joinpath("anglelib", area).rglob("*.py"))
    return tuple(path for path in found if path.name not in ("__init__.py", "ready_formulas.py") and not path.stem.endswith("words"))


def nearest(module: Path, area: str, project: Path) -> tuple[str, ...]:
    """The area's test files that reach a module, by what they cost times how many imports lie between.

    Where none reaches it (a command imports it when it is called), they are all there.
    """
    away, costs = _away(_name(module, project), project), seconds()
    found, others = [], []
    for test in test_files(area, project):
        steps = [away[name] for name in _imports(test, project) if name in away]
        name = test.relative_to(project).as_posix()
        cost = costs.get(name, NEW)
        if steps:
            found.append(((1 + min(steps)) * cost, name))
        else:
            others.append((cost, name))
    return tuple(test for _, test in sorted(found)) or tuple(test for _, test in sorted(others))


@cache
def test_files(area: str, project: Path) -> tuple[Path, ...]:
    """The test files of an area."""
    places = [project / place for place in AREAS[area]]
    return tuple(test for path in places for test in (sorted(path.rglob("test_*.py")) if path.is_dir() else [path]))


@cache
def seconds() -> Mapping[str, float]:
    """What each test file costs of processor time [s]."""
    if not SECONDS.is_file():
        return {}
    return {name: float(cost) for cost, name in (line.split() for line in SECONDS.read_text(encoding="utf-8").splitlines() if line and line[0] != "#")}


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
            found |= {f"{node.module}.{place}" for alias in node.names for place, names in _offered(node.module, project).items() if alias.name in names}
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


@cache
def _offered(package: str, project: Path) -> Mapping[str, tuple[str, ...]]:
    """What a package takes from which of its modules once somebody asks for it."""
    path = project.joinpath(*package.split("."), "__init__.py")
    if not path.is_file():
        return {}
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Assign) and any(isinstance(name, ast.Name) and name.id == "_WHERE" for name in node.targets):
            return ast.literal_eval(node.value)
    return {}
