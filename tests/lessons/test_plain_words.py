"""What stands on a page is written for a person: no symbol with an underscore in prose, and what few need is folded away."""

import re

import nbformat
import pytest
from lesson_checks import NOTEBOOKS

CODE = re.compile(r"```.*?```|`[^`]*`|\]\([^)]*\)|\$\$.*?\$\$|\$[^$]*\$", re.S)
"""What is no prose: code, addresses, formulas."""
TAG = re.compile(r"<[^>]*>")
FOLDED = re.compile(r"<details>.*?</details>", re.S)
SYMBOL = re.compile(r"\b[A-Za-z]{1,6}_[A-Za-z0-9]\b")
RARE = ("root of 3", "gauge blocks", "add the squares")


def prose(name):
    """The Markdown of a page, and what its cells show before they are run, without tags and code."""
    for cell in nbformat.read(name, 4).cells:
        if cell.cell_type == "markdown":
            yield CODE.sub("", cell.source)
        for output in cell.get("outputs", ()):
            yield CODE.sub("", FOLDED.sub("", output.get("data", {}).get("text/html", "")))


@pytest.mark.parametrize("name", NOTEBOOKS, ids=lambda path: path.stem)
def test_no_symbol_with_an_underscore(name):
    found = [symbol for text in prose(name) for symbol in SYMBOL.findall(TAG.sub("", text))]
    assert found == [], "write the symbol with <sub>"


@pytest.mark.parametrize("stem", ["05_kerf_and_allowance", "06_taper_outside"])
def test_what_few_need_is_folded_away(stem):
    from anglelib.lessons import kerf_and_allowance, taper_outside

    worked = {"05_kerf_and_allowance": kerf_and_allowance.budget, "06_taper_outside": taper_outside.checks}[stem]()
    shown = worked._repr_html_()
    rare = [words for words in RARE if words in shown]
    assert rare and not [words for words in rare if words in FOLDED.sub("", shown)]


def test_the_guards_see():
    assert SYMBOL.findall(TAG.sub("", CODE.sub("", "*e_s* each, `x_v=` and $n_e$"))) == ["e_s"]
    assert SYMBOL.findall("first_flat") == []
