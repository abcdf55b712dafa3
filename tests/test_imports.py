"""The direction of imports, read from every module: DEVELOPERS.md lists the order, top to bottom."""

import ast
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parent.parent
FORMULAS = re.compile(r"anglelib\.geometry\.formulas(\..*)?")
"""The statements, which need sympy; what runs asks the ready formulas."""
SAVING = re.compile(r"anglelib\.files\.job_text")
"""Writes a job's text back with tomlkit; the files package imports it when something is saved."""
LESSONS = re.compile(r"anglelib\.lessons(\..*)?")
LOADED = re.compile(r"anglelib\.lab\.(handlers|lessons)")
"""What JupyterLab's server loads by its name; nobody else does, so it may import the server."""
WIDGETS = {"ipywidgets", "IPython", "traitlets"}


def layout(text: str) -> list[str]:
    """The modules and folders in DEVELOPERS.md's list, as dotted names, in its order."""
    found = re.findall(r"^(anglelib/\S+?)(?:\.py|/)  ", text, re.MULTILINE)
    return [name.replace("/", ".") for name in found]


def place(module: str, order: list[str]) -> int | None:
    """The line of the list that a module belongs to; None where it has none."""
    return next((n for n, name in enumerate(order) if module == name or module.startswith(name + ".")), None)


def imports(source: str, module: str, package: bool) -> list[tuple[str, bool, int]]:
    """What a module imports: the dotted name, whether at module level, the line."""
    found = []

    def visit(node: ast.AST, top: bool) -> None:
        if isinstance(node, ast.Import):
            found.extend((alias.name, top, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                parts = module.split(".")
                parts = parts[: len(parts) - node.level + (1 if package else 0)]
                base = ".".join([*parts, base] if base else parts)
            found.extend((f"{base}.{alias.name}", top, node.lineno) for alias in node.names)
        elif isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING"):
            return
        inside = isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
        for child in ast.iter_child_nodes(node):
            visit(child, top and not inside)

    visit(ast.parse(source), True)
    return found


def complaints(source: str, module: str, order: list[str], package: bool = False) -> list[str]:
    """What is wrong with one module's imports, one sentence each."""
    found = []
    own = place(module, order)
    if own is None and module != "anglelib":
        found.append(f"{module} is not in DEVELOPERS.md's list of modules: give it a line, above all that import it")
    for name, top, line in imports(source, module, package):
        where = f"{module}, line {line}: "
        root = name.split(".")[0]
        if root == "anglelib":
            there = place(name, order)
            if own is not None and there is not None and there > own:
                found.append(f"{where}imports {name}, which stands below it in DEVELOPERS.md's list")
            if LOADED.match(name):
                found.append(f"{where}imports {name}, which JupyterLab's server alone loads")
            if FORMULAS.fullmatch(name) and not FORMULAS.fullmatch(module):
                found.append(f"{where}imports {name}: only what was written from the statements runs, see lazy.formulas")
            if top and SAVING.match(name) and not SAVING.match(module):
                found.append(f"{where}imports {name} at module level: it is loaded when a job is saved")
        elif root == "sympy":
            if not FORMULAS.fullmatch(module):
                found.append(f"{where}imports {root}: only the statements of formulas do")
        elif root in WIDGETS:
            own_option = root == "traitlets" and not top and module == "anglelib.kernels"
            if not LESSONS.fullmatch(module) and not own_option:
                found.append(f"{where}imports {root}: only the lessons do")
        elif root == "tomlkit" and SAVING.fullmatch(module) or root in ("jupyter_server", "tornado") and LOADED.fullmatch(module):
            continue
        elif top and root not in sys.stdlib_module_names:
            found.append(f"{where}imports {root} at module level: import it inside the function that uses it")
    return found


@cache
def modules() -> dict[str, Path]:
    found = {}
    for path in sorted((PROJECT / "anglelib").rglob("*.py")):
        parts = path.relative_to(PROJECT).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


ORDER = layout((PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8"))


def test_the_list_is_read_and_names_what_exists():
    assert ORDER[0] == "anglelib.errors" and ORDER[-1] == "anglelib.__main__" and len(ORDER) == len(set(ORDER))
    known = modules()
    assert [name for name in ORDER if name not in known and not (PROJECT / name.replace(".", "/")).is_dir()] == []


@pytest.mark.parametrize("module", modules())
def test_imports_go_one_way(module):
    path = modules()[module]
    assert complaints(path.read_text(encoding="utf-8"), module, ORDER, path.name == "__init__.py") == []


@pytest.mark.parametrize(
    ("module", "source", "says"),
    [
        ("anglelib.section", "from anglelib.part import Part", "stands below"),
        ("anglelib.hub", "from anglelib.lab.lessons import Lessons", "alone loads"),
        ("anglelib.course", "import tornado", "at module level"),
        ("anglelib.section", "def f():\n    import anglelib.part", "stands below"),
        ("anglelib.geometry.taper", "from ..stock import rack", "stands below"),
        ("anglelib.geometry.taper", "from anglelib.geometry import formulas", "lazy.formulas"),
        ("anglelib.geometry.taper", "def f():\n    from anglelib.geometry.formulas import ALL", "lazy.formulas"),
        ("anglelib.geometry.taper", "def f():\n    import sympy", "only the statements"),
        ("anglelib.drawing.mpl", "import matplotlib.pyplot as plt", "inside the function"),
        ("anglelib.drawing.mpl", "try:\n    import numpy\nexcept ImportError:\n    pass", "inside the function"),
        ("anglelib.questions.grading", "def f():\n    from ipywidgets import HTML", "only the lessons"),
        ("anglelib.brand_new", "", "not in DEVELOPERS.md's list"),
    ],
)
def test_the_guard_fails(module, source, says):
    assert any(says in complaint for complaint in complaints(source, module, ORDER)), complaints(source, module, ORDER)


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("anglelib.part", "from anglelib.section import Section\nimport re"),
        ("anglelib.stock.planner", "from .rack import Rack\ndef plan():\n    from ortools.sat.python import cp_model"),
        ("anglelib.geometry.formulas", "import sympy"),
        ("anglelib.lessons.live", "import ipywidgets as widgets"),
    ],
)
def test_the_guard_lets_pass(module, source):
    assert complaints(source, module, ORDER) == []


def test_nothing_heavy_comes_in_by_a_back_door():
    """Reading the imports misses what a module loads through others: so all of them are imported, in a new Python."""
    loaded_later = (FORMULAS, SAVING, LESSONS)
    names = [name for name in modules() if name != "anglelib.__main__" and not any(late.fullmatch(name) for late in loaded_later)]
    code = (
        "import sys, importlib\n"
        f"for name in {names!r}: importlib.import_module(name)\n"
        "heavy = {'sympy', 'mpmath', 'numpy', 'scipy', 'pandas', 'matplotlib', 'ortools', 'ezdxf', 'shapely', 'pypdf',"
        " 'tomlkit', 'ipywidgets', 'IPython', 'jupyterlab'}\n"
        "print(*sorted(heavy & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=PROJECT)
    assert (done.returncode, done.stdout.split()) == (0, []), done.stderr


def test_the_checker_shares_nothing_with_the_planner():
    """The checker refuses a wrong plan, so it may not take over the planner's idea of a right one; nor may the words of its faults."""
    for module, also in (("checker", "section|part|job|stock.rack|stock.checker_words"), ("checker_words", "stock.checker")):
        path = PROJECT / f"anglelib/stock/{module}.py"
        named = [name for name, _, _ in imports(path.read_text(encoding="utf-8"), f"anglelib.stock.{module}", False)]
        allowed = re.compile(rf"anglelib\.(errors|lengths|{also})(\..*)?")
        assert [name for name in named if name.startswith("anglelib") and not allowed.fullmatch(name)] == []
