"""The faults that can be planted in a module: where, and what stands there instead."""

from __future__ import annotations

import ast
import copy
from collections.abc import Iterator
from dataclasses import dataclass

COMPARED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
RECKONED = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult, ast.Pow: ast.Mult}
NAMED = {
    "min": "max", "max": "min", "floor": "ceil", "ceil": "floor", "any": "all", "all": "any",
    "sin": "cos", "cos": "sin", "asin": "acos", "acos": "asin",
}  # fmt: skip
DROPPED = (ast.AugAssign, ast.Continue, ast.Break)
"""Statements that are left out; and calls whose value nobody takes."""
WORDS = {"__repr__", "__str__"}
"""Functions that only speak."""
GUARDS = {"strict", "repr"}
"""Arguments that only hold what holds already (rows of one length), or only speak."""


@dataclass(frozen=True)
class Fault:
    """One fault: the line, what stands there and what is put in its place; ``number`` finds it again in the same source."""

    number: int
    line: int
    here: str
    there: str


def faults(source: str) -> tuple[Fault, ...]:
    """All that can be planted, in the order of the tree.

    >>> [(fault.line, fault.here, fault.there) for fault in faults("def f(a):\\n    return a < 3")]
    [(2, 'a < 3', 'a <= 3'), (2, '3', '4')]
    """
    tree = ast.parse(source)
    found = []
    for number, (node, new) in enumerate(_places(tree)):
        there = ast.unparse(new) if new is not None else "pass"
        found.append(Fault(number, node.lineno, ast.unparse(node), there))
    return tuple(found)


def planted(source: str, number: int) -> str:
    """The source with one of its ``faults``; comments and the breaks of lines are lost.

    >>> print(planted("def f(a):\\n    return a < 3", 1))
    def f(a):
        return a < 4
    """
    tree = ast.parse(source)
    for at, (node, new) in enumerate(_places(tree)):
        if at == number:
            return ast.unparse(_Put(node, new).visit(tree))
    raise IndexError(number)


class _Put(ast.NodeTransformer):
    def __init__(self, old: ast.AST, new: ast.AST | None) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        if node is self.old:
            return self.new if self.new is not None else ast.Pass()
        return self.generic_visit(node)


def _places(node: ast.AST) -> Iterator[tuple[ast.AST, ast.AST | None]]:
    """Each node that can be replaced, with what replaces it; nothing in words, types, refusals and what a module offers."""
    for field, value in ast.iter_fields(node):
        if field in ("annotation", "returns", "decorator_list", "type_comment", "bases", "keywords") and not isinstance(node, ast.Call):
            continue
        for child in value if isinstance(value, list) else [value]:
            if not isinstance(child, ast.AST) or _silent(child):
                continue
            for new in _instead(child):
                yield child, new
            yield from _places(child)


def _silent(node: ast.AST) -> bool:
    if isinstance(node, (ast.Raise, ast.Assert, ast.Import, ast.ImportFrom, ast.JoinedStr, ast.Delete)):
        return True
    if isinstance(node, ast.FunctionDef) and node.name in WORDS or isinstance(node, ast.keyword) and node.arg in GUARDS:
        return True
    if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
        return True
    return isinstance(node, ast.Assign) and any(isinstance(name, ast.Name) and name.id.startswith("__") for name in node.targets)


def _instead(node: ast.AST) -> Iterator[ast.AST | None]:
    if isinstance(node, ast.Compare):
        for at, op in enumerate(node.ops):
            new = copy.deepcopy(node)
            new.ops[at] = COMPARED[type(op)]()
            yield new
    elif isinstance(node, ast.BinOp) and type(node.op) in RECKONED and not any(map(_text, (node.left, node.right))):
        new = copy.deepcopy(node)
        new.op = RECKONED[type(node.op)]()
        yield new
    elif isinstance(node, ast.BoolOp):
        new = copy.deepcopy(node)
        new.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        yield new
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, (ast.Not, ast.USub)):
        yield copy.deepcopy(node.operand)
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield ast.Constant(not node.value)
    elif isinstance(node, ast.Constant) and isinstance(node.value, (int, float)):
        yield ast.Constant(node.value + 1)
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in NAMED:
        new = copy.deepcopy(node)
        new.func.id = NAMED[node.func.id]  # type: ignore[attr-defined]
        yield new
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in NAMED:
        new = copy.deepcopy(node)
        new.func.attr = NAMED[node.func.attr]  # type: ignore[attr-defined]
        yield new
    elif isinstance(node, DROPPED) or (isinstance(node, ast.Expr) and isinstance(node.value, ast.Call)):
        yield None


def _text(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))
