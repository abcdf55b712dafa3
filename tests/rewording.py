"""The course with every English sentence reworded at its source, in a Python of its own: whatever words steer, breaks.

An import hook rewords each string of a package that is English (it has a space between letters, or is one word with a
capital), and each such piece of an f-string: the letters of its words get another order, and a mark is put to it that has
no width. So it stays as wide, and a picture or a page is laid out as before. Every place in the source is reworded in a
way of its own, so that two places that say the same no longer agree: who compares, splits, searches, looks up or keys on
a sentence goes another way, and who goes by ids does not.

A test names functions that return what JSON can hold, ids and numbers, and compares what they give:

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
import traceback
from collections.abc import Mapping, Sequence
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from pathlib import Path
from typing import Any

PROJECT = Path(__file__).resolve().parent.parent
WORDS = r"[A-Za-z] [A-Za-z]"
NAMES = ("Fraction", "Delta")
"""Words with a capital that are names: of a class that sympy's functions know, of a Greek letter in LaTeX."""
ENGLISH = re.compile(rf"{WORDS}|^(?!(?:{'|'.join(NAMES)})$)[A-Z][a-z]{{2,}}\W*$")
PIECE = re.compile(rf"{WORDS}|[A-Za-z]{{3,}}[,:;.]? (?!=)| [A-Za-z]{{3,}}")
"""What a string has that is English (two words, or one with a capital), and what a piece of an f-string has."""

TECHNICAL = {
    "anglelib.drawing.pdf_tags": "words of the PDF format",
    "anglelib.geometry.ready_formulas": "written from the statements, whose names are reworded there; the rest is code and LaTeX",
    "anglelib.inspection.old_names": "yesterday's names of readings, by which readings files of the first format are read",
    "anglelib.questions.format_1_words": "yesterday's words: the table from which answer files are read, which no rewording may touch",
}
"""Modules and packages that are left as they are."""

CALLS = {
    r"compile|fullmatch|match|search|sub|finditer|findall": "a regular expression",
    r"Layout": "CSS",
    r"setViewerPreference": "words of the PDF format",
    r"fresh_\w+|seeds|_unlike|practice|Numbers|Random": "a seed, from which numbers are drawn: nobody reads it",
}
"""Functions whose arguments are left."""

KEYWORDS = {"seed": "a seed", "family": "the name of a font"}
"""Arguments by name that are left."""


# --- the source --------------------------------------------------------------------------------------------
_KEPT = r"<[^<>]*>?|\{[^{}]*\}|&\w+;|\\\w+"
_WORD = re.compile(rf"{_KEPT}|[A-Za-z]{{3,}}")
_LAST = re.compile(r"(?<=[A-Za-z])(?=[^A-Za-z]*$)")
"""Behind the last letter."""


def mark(place: str) -> str:
    """The mark of a place in the source, its line and its column: four signs without a width, which stand over the letter before them.

    >>> mark("anglelib/part.py:3:7") == mark("anglelib/part.py:3:7") != mark("anglelib/part.py:3:8")
    True
    """
    return "".join(chr(0x300 + byte % 0x70) for byte in hashlib.sha256(place.encode()).digest()[:4])


def other_words(text: str, place: str) -> str:
    """The text with the letters of its words in an order of the place's own, and its mark; first letters, tags and fields stay.

    >>> text = "Strike the <b>line</b> at end {end}"
    >>> other = other_words(text, "anglelib/part.py:3:7").replace(mark("anglelib/part.py:3:7"), "")
    >>> sorted(other) == sorted(text), other == text, other[0], other[-5:]
    (True, False, 'S', '{end}')
    """

    def word(found: re.Match[str]) -> str:
        first, *rest = found[0]
        if not found[0].isalpha():
            return found[0]
        lots = hashlib.sha256(f"{place}:{found.start()}".encode()).digest()
        drawn = [letter for _, letter in sorted(zip(lots, rest, strict=False))] + rest[len(lots) :]
        return first + "".join(drawn if drawn != rest else [*rest[1:], rest[0]])

    end = [found.end() for found in _WORD.finditer(text) if found[0].isalpha()]
    at = end[-1] if end else _LAST.search(text).start()  # type: ignore[union-attr]
    return _WORD.sub(word, text[:at]) + mark(place) + text[at:]


class Reworder(ast.NodeTransformer):
    """Rewords every English string in the way of its place."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.count = 0

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

    def visit_JoinedStr(self, node: ast.JoinedStr) -> ast.AST:
        node.values = [self._reworded(part, PIECE) if isinstance(part, ast.Constant) else self.visit(part) for part in node.values]
        return node

    def visit_Constant(self, node: ast.Constant) -> ast.AST:
        return self._reworded(node, ENGLISH)

    def _reworded(self, node: ast.Constant, english: re.Pattern[str]) -> ast.AST:
        text = node.value
        if not isinstance(text, str) or not english.search(text):
            return node
        self.count += 1  # the pieces of an f-string may begin in one column
        return ast.copy_location(ast.Constant(other_words(text, f"{self.path}:{node.lineno}:{node.col_offset}:{self.count}")), node)


def reworded(source: str, path: str) -> ast.Module:
    """The module with every English string reworded.

    >>> print(ast.unparse(reworded('title = "Strike the line"; heel = "heel"', "a.py")).replace(mark("a.py:1:8:1"), "*"))
    title = 'Skreit teh lnei*'
    heel = 'heel'
    >>> print(ast.unparse(reworded('title = f"{end} first: {leg}"', "a.py")).replace(mark("a.py:1:8:1"), "*"))
    title = f'{end} frsit*: {leg}'
    """
    return ast.fix_missing_locations(Reworder(path).visit(ast.parse(source)))


# --- the import --------------------------------------------------------------------------------------------
Planted = Mapping[str, Sequence[tuple[str, str]]]
"""By module: pieces of its source, and what is put in their place before it is imported."""


class _Loader(SourceFileLoader):
    reword, planted = False, ()

    def get_code(self, fullname: str):
        path = self.get_filename(fullname)  # never from the cache, and never into it
        source = self.get_data(path).decode("utf-8")
        for old, new in self.planted:
            if old not in source:
                raise ImportError(f"{fullname} has no {old!r} any more, in whose place something is planted")
            source = source.replace(old, new)
        tree = reworded(source, os.path.relpath(path, PROJECT)) if self.reword else ast.parse(source)
        return compile(tree, path, "exec", dont_inherit=True)


class _Finder:
    def __init__(self, package: str, reword: bool, planted: Planted) -> None:
        self.package, self.reword, self.planted = package, reword, planted

    def find_spec(self, name: str, path: Sequence[str] | None, target: Any = None) -> ModuleSpec | None:
        reword = self.reword and not any(name == left or name.startswith(f"{left}.") for left in TECHNICAL)
        if name.split(".")[0] != self.package or not (reword or name in self.planted):
            return None
        spec = PathFinder.find_spec(name, path, target)
        if spec is not None and isinstance(spec.loader, SourceFileLoader):
            spec.loader = _Loader(spec.loader.name, spec.loader.path)
            spec.loader.reword, spec.loader.planted = reword, self.planted.get(name, ())
        return spec


def install(package: str = "anglelib", reword: bool = True, planted: Planted | None = None) -> None:
    """From here on the package is imported reworded, or with something planted; it must not have been imported before."""
    if package in sys.modules:
        raise RuntimeError(f"{package} is imported already: what is to be reworded has to be imported afterwards")
    sys.meta_path.insert(0, _Finder(package, reword, planted or {}))  # type: ignore[arg-type]


# --- a Python of its own --------------------------------------------------------------------------------------
class Raised(str):
    """The end of the traceback of a function that raised."""


def outcomes(
    functions: Sequence[str], *, reword: bool = False, planted: Planted | None = None, package: str = "anglelib", root: Path = PROJECT, seconds: float = 900
) -> dict[str, Any]:
    """What each "module:function" returns in one Python of its own, run in ``root``, with the package reworded or as it is.

    One that raises is :class:`Raised`, with the end of its traceback.
    """
    asked = json.dumps([list(functions), package, reword, planted or {}])
    path = os.pathsep.join(dict.fromkeys(map(str, (root, PROJECT))))
    words = [sys.executable, str(Path(__file__).resolve())]
    done = subprocess.run(
        words, input=asked, capture_output=True, text=True, encoding="utf-8", cwd=root, env={**os.environ, "PYTHONPATH": path}, timeout=seconds
    )
    if done.returncode:
        raise AssertionError(f"{'reworded' if reword else 'as it is'}: {done.stderr[-3000:]}")
    told = json.loads(done.stdout.splitlines()[-1])
    return {name: found if raised is None else Raised(raised) for name, found, raised in told}


def outcome(function: str, **how: Any) -> Any:
    """The same of one function; one that raises is an AssertionError."""
    found = outcomes([function], **how)[function]
    if isinstance(found, Raised):
        raise AssertionError(f"{function}, {'reworded' if how.get('reword') else 'as it is'}: {found}")
    return found


def _main() -> None:
    functions, package, reword, planted = json.loads(sys.stdin.read())
    if reword or planted:
        install(package, reword, planted)
    told = []
    for function in functions:
        module, _, name = function.partition(":")
        try:
            told.append([function, getattr(importlib.import_module(module), name)(), None])
        except Exception:
            told.append([function, None, traceback.format_exc()[-3000:]])
    print(json.dumps(told))


if __name__ == "__main__":
    _main()
