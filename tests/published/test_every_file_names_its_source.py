"""A file of this folder names the publication it checks against, and what was read of it; what is only derived or remembered lies elsewhere."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

HERE = Path(__file__)
FILES = [path for path in sorted(HERE.parent.glob("test_*.py")) if path != HERE]


def faults(text: str) -> list[str]:
    """What a test file lacks, or says that belongs elsewhere."""
    said = " ".join((ast.get_docstring(ast.parse(text)) or "").split())
    found = []
    if not re.search(r"\bSources?(:|, )", said):
        found.append("names no source")
    if not re.search(r"\bseen\b", said):
        found.append("says of nothing that it was seen")
    if re.search(r"Status: (derived|from memory)", text):
        found.append("is derived or remembered")
    return found


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_source_is_named(path):
    assert faults(path.read_text(encoding="utf-8")) == []


def test_the_guard_finds_what_does_not_belong_here():
    assert faults('"""Sizes.\n\nSource: a table, page 3. Status: seen.\n"""\n') == []
    assert faults('"""Sizes. Status: derived."""\n') == ["names no source", "says of nothing that it was seen", "is derived or remembered"]
