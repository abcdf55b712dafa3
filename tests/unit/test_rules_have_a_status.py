"""Each rule of the course that is no arithmetic says what it rests on, beside its default and on the page that teaches it.

A rule has a source that was read, or is common practice, or is from memory: one of these words stands in the docstring beside the
value, and in the page's Sources.
"""

from __future__ import annotations

import ast
import json
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
STATUSES = ("common practice", "from memory", "(seen)", "second-hand", "derived")

# The module, the name whose docstring says it ("" for the module's own), the status.
BESIDE = [
    ("geometry/work.py", "", "common practice"),
    ("geometry/order.py", "", "common practice"),
    ("geometry/ends.py", "", "common practice"),
    ("geometry/layout.py", "witness_line", "common practice"),
    ("geometry/layout.py", "CLEAR", "common practice"),
    ("geometry/layout.py", "ROUND_STEPS", "common practice"),
    ("job.py", "ALLOWANCE", "common practice"),
    ("job.py", "HAND_MINIMUM", "common practice"),
    ("saw.py", "HACKSAW_ALLOWANCE", "common practice"),
    ("saw.py", "HACKSAW_KERF", "from memory"),
    ("lessons/contents.py", "minutes", "common practice"),
    ("workshop/day.py", "LESSON_MINUTES", "common practice"),
    ("workshop/class_plan.py", "MINUTES", "common practice"),
]
# The page, what its Sources call the rule, the status said of it.
ON_THE_PAGE = [
    ("08_order_of_work", "Harder end first, taper on the long piece, datum first", "common practice"),
    ("04_mark_along_heel", "the witness line", "common practice"),
    ("05_kerf_and_allowance", "1/32 by machine, 1/16 by hand", "common practice"),
    ("05_kerf_and_allowance", "A hacksaw's kerf", "from memory"),
    ("00_start_here", "The minutes of a lesson", "common practice"),
    ("instructor", "minutes of a lesson", "common practice"),
]


def said_beside(text: str, name: str) -> str:
    """The docstring of a module, of a function, or of a name that is given a value; one line, plain spaces."""
    tree = ast.parse(text)
    if not name:
        return " ".join((ast.get_docstring(tree) or "").lower().split())
    for here, after in zip(tree.body, [*tree.body[1:], None], strict=True):
        if isinstance(here, ast.FunctionDef | ast.ClassDef) and here.name == name:
            return " ".join((ast.get_docstring(here) or "").lower().split())
        targets = here.targets if isinstance(here, ast.Assign) else []
        named = {n.id for target in targets for n in ast.walk(target) if isinstance(n, ast.Name)}
        if name in named:
            is_text = isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant) and isinstance(after.value.value, str)
            return " ".join(after.value.value.lower().split()) if is_text else ""
    raise AssertionError(f"There is no {name} here any more: name its rule anew.")


def statements(page: str) -> list[str]:
    """What a page's Sources say, a statement each: up to a full stop that ends a sentence, or to the end of a row."""
    cells = json.loads((ROOT / "notebooks" / f"{page}.ipynb").read_text(encoding="utf-8"))["cells"]
    text = "".join("".join(c["source"]) + "\n\n" for c in cells if c["cell_type"] == "markdown" and "## Sources" in "".join(c["source"]))
    sources = text.split("## Sources", 1)[1]
    rows = sources.replace("\n- ", "\n\n- ").split("\n\n")
    return [" ".join(part.split()) for row in rows for part in row.replace(".\n", ". ").split(". ")]


@pytest.mark.parametrize("module, name, status", BESIDE, ids=[f"{module}:{name}" for module, name, _ in BESIDE])
def test_beside_its_default(module, name, status):
    assert status in STATUSES and status in said_beside((ROOT / "anglelib" / module).read_text(encoding="utf-8"), name)


@pytest.mark.parametrize("page, rule, status", ON_THE_PAGE, ids=[f"{page}: {rule}" for page, rule, _ in ON_THE_PAGE])
def test_where_the_reader_sees_it(page, rule, status):
    found = [said for said in statements(page) if rule in said]
    assert found and all(status in said for said in found)


def test_a_value_without_a_docstring_has_no_status():
    assert said_beside('A, B = 1, 2\n"""Lengths; common practice."""\nC = 3\n', "B") == "lengths; common practice."
    assert said_beside("C = 3\nD = 4\n", "C") == ""
    with pytest.raises(AssertionError, match="no E here any more"):
        said_beside("C = 3\n", "E")
