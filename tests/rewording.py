"""The course with every English sentence reworded at its source, in a Python of its own: whatever words steer, breaks.

An import hook appends a mark to each string of a package that has a space between letters, and to each such piece of an
f-string. Every place in the source has a mark of its own, so that two places that say the same no longer agree: who
compares, splits, looks up or keys on a sentence goes another way, and who goes by ids does not.

A test names a function that returns what JSON can hold, ids and numbers, and compares what it gives:

    assert outcome("tests.questions.graded:gradings") == outcome("tests.questions.graded:gradings", reword=True)

Docstrings are left. What else is left is listed below, each with its reason.
"""

from __future__ import annotations

import ast
import hashlib
import importlib
import json
import os
import re
import subprocess
import sys
from collections.abc import Sequence
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from pathlib import Path
from typing import Any

PROJECT = Path(__file__).resolve().parent.parent
ENGLISH = re.compile(r"[A-Za-z] [A-Za-z]")

TECHNICAL = {
    "anglelib.questions.format_1_words": "yesterday's words: the table from which answer files are read, which no rewording may touch",
}
"""Modules and packages that are left as they are."""

CALLS = {
    r"compile|fullmatch|match|search|sub|finditer|findall": "a regular expression",
    r"Layout": "CSS",
    r"fresh_\w+|_unlike|practice|Numbers|Random": "a seed, from which numbers are drawn: nobody reads it",
}
"""Functions whose arguments are left."""

KEYWORDS = {"seed": "a seed", "family": "the name of a font"}
"""Arguments by name that are left."""


# --- the source --------------------------------------------------------------------------------------------
def mark(place: str) -> str:
    """The mark of a place in the source, its line and its column: short, so that names stay names.

    >>> mark("anglelib/part.py:3:7") == mark("anglelib/part.py:3:7") != mark("anglelib/part.py:3:8")
    True
    """
    return f" ~{hashlib.sha256(place.encode()).hexdigest()[:10]}"


class Reworder(ast.NodeTransformer):
    """Appends to every English string the mark of its place; ``marks`` says which place each stands for."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.marks: dict[str, str] = {}

    def visit_Expr(self, node: ast.Expr) -> ast.AST:
        return node if isinstance(node.value, ast.Constant) else self.generic_visit(node)  # a docstring

    def visit_Call(self, node: ast.Call) -> ast.AST:
        name = ast.unparse(node.func).rpartition(".")[2]
        if not any(re.fullmatch(pattern, name) for pattern in CALLS):
            return self.generic_visit(node)
        node.func = self.visit(node.func)
        return node

    def visit_keyword(self, node: ast.keyword) -> ast.AST:
        return node if node.arg in KEYWORDS else self.generic_visit(node)

    def visit_FormattedValue(self, node: ast.FormattedValue) -> ast.AST:
        node.value = self.visit(node.value)  # how it is written is no English
        return node

    def visit_Constant(self, node: ast.Constant) -> ast.AST:
        text = node.value
        if not isinstance(text, str) or not ENGLISH.search(text):
            return node
        place = f"{self.path}:{node.lineno}:{node.col_offset}:{len(self.marks)}"  # the pieces of an f-string may begin in one column
        added = mark(place)
        self.marks[added] = place
        return ast.copy_location(ast.Constant(f"{text}{added}"), node)


def reworded(source: str, path: str) -> ast.Module:
    """The module with every English string reworded.

    >>> print(ast.unparse(reworded('title = "Strike the line"; heel = "heel"', "a.py")).replace(mark("a.py:1:8:0"), " *"))
    title = 'Strike the line *'
    heel = 'heel'
    """
    return ast.fix_missing_locations(Reworder(path).visit(ast.parse(source)))


# --- the import --------------------------------------------------------------------------------------------
class _Loader(SourceFileLoader):
    def get_code(self, fullname: str):
        path = self.get_filename(fullname)  # never from the cache, and never into it
        source = self.get_data(path).decode("utf-8")
        return compile(reworded(source, os.path.relpath(path, PROJECT)), path, "exec", dont_inherit=True)


class _Finder:
    def __init__(self, package: str) -> None:
        self.package = package

    def find_spec(self, name: str, path: Sequence[str] | None, target: Any = None) -> ModuleSpec | None:
        if name.split(".")[0] != self.package or any(name == left or name.startswith(f"{left}.") for left in TECHNICAL):
            return None
        spec = PathFinder.find_spec(name, path, target)
        if spec is not None and isinstance(spec.loader, SourceFileLoader):
            spec.loader = _Loader(spec.loader.name, spec.loader.path)
        return spec


def install(package: str = "anglelib") -> None:
    """From here on the package is imported reworded; it must not have been imported before."""
    if package in sys.modules:
        raise RuntimeError(f"{package} is imported already: what is to be reworded has to be imported afterwards")
    sys.meta_path.insert(0, _Finder(package))  # type: ignore[arg-type]


# --- a Python of its own --------------------------------------------------------------------------------------
def outcome(function: str, *, reword: bool = False, package: str = "anglelib", root: Path = PROJECT, seconds: float = 600) -> Any:
    """What "module:function" returns in a Python of its own, run in ``root``, with the package reworded or as it is."""
    words = [sys.executable, str(Path(__file__).resolve()), function, package, "reworded" if reword else "as-it-is"]
    path = os.pathsep.join(dict.fromkeys(map(str, (root, PROJECT))))
    done = subprocess.run(words, capture_output=True, text=True, encoding="utf-8", cwd=root, env={**os.environ, "PYTHONPATH": path}, timeout=seconds)
    if done.returncode:
        raise AssertionError(f"{function}, {words[-1]}: {done.stderr[-3000:]}")
    return json.loads(done.stdout.splitlines()[-1])


def _main(function: str, package: str, how: str) -> None:
    if how == "reworded":
        install(package)
    module, _, name = function.partition(":")
    print(json.dumps(getattr(importlib.import_module(module), name)()))


if __name__ == "__main__":
    _main(*sys.argv[1:])
