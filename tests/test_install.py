"""What is installed to run the course is used by it: each package that the project asks for is imported by its library."""

import ast
import re
import subprocess
import sys
import tomllib
from functools import cache
from pathlib import Path

import pytest

import anglelib

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


@cache
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


@pytest.mark.parametrize(("words", "kind"), [(["-m"], SystemExit), (["pytest", "tests"], ImportError)])
def test_an_old_python_says_what_it_is(words, kind, monkeypatch):
    """Of all modules only this one is read by it: started, one sentence and no traceback; imported, an error like any other."""
    monkeypatch.setattr(sys, "version_info", (3, 8, 18, "final", 0))
    monkeypatch.setattr(sys, "argv", words)
    with pytest.raises(kind, match=r"needs Python 3\.11 or later, and this is Python 3\.8 \(.*remove the folder \.venv"):
        exec(compile(Path(anglelib.__file__).read_text(encoding="utf-8"), anglelib.__file__, "exec"), {})


def test_an_old_python_can_read_that():
    source = Path(anglelib.__file__).read_text(encoding="utf-8")
    ast.parse(source, feature_version=(3, 4))
    assert source.isascii() and not any(isinstance(node, ast.JoinedStr | ast.ImportFrom) for node in ast.walk(ast.parse(source)))
    wanted = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["requires-python"]
    assert wanted == ">=" + ".".join(map(str, anglelib.OLDEST))


def test_the_course_starts_beside_a_folder_of_its_name(tmp_path):
    """In the folder where a clone called anglelib lies that clone is no package: the installation puts the project itself on the path."""
    wanted = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["setuptools"]
    assert wanted["package-dir"] == {"": "."}  # with it, and this alone, setuptools writes a path and no finder
    (tmp_path / "anglelib" / "anglelib").mkdir(parents=True)
    code = f"import sys; sys.path += [{str(PROJECT)!r}]; from anglelib import __version__"
    subprocess.run([sys.executable, "-I", "-c", "import sys; sys.path.insert(0, '');" + code], cwd=tmp_path, check=True)
