"""What is kept by a part holds that part's unit, whatever unit was written when it was first asked for."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest

import anglelib
from anglelib.inspection.likelihood import Workmanship
from anglelib.job import Shop
from anglelib.lengths import writing
from anglelib.lessons import bench_facts
from anglelib.part import Cope, Hole, Part, Taper
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick
from anglelib.tolerances import Limits

STOCK = Section("30 mm", "30 mm", "3 mm", fillet="2 mm")
BRACKET = Part(
    "P1", "Bracket", STOCK, "6061-T6", "120 mm", [Taper("A", 1, "6 mm", run="54 mm")],
    [Hole("B", "60 mm", "15 mm", "3.2 mm"), Hole("A", "100 mm", "26 mm", "3.2 mm")], copes=[Cope("B", 2, "20 mm", "10 mm", "3 mm")],
)  # fmt: skip
FILLED = {
    "shop": Shop(), "limits": Limits(), "stock": STOCK, "work": Workmanship(), "names": ("toe.B",), "spreads": (0.005,), "leg": "A", "diameter": Fraction(1, 8), "side": "outside",
    "id_": "M01",
}  # fmt: skip
"""What else such functions take, by the name of the argument."""


@cache
def kept_by_part() -> dict[str, object]:
    """Every cached function of the library whose first argument is a part."""
    found = {}
    for module in pkgutil.walk_packages(anglelib.__path__, "anglelib."):
        if module.name.endswith("__main__"):
            continue
        for name, value in vars(importlib.import_module(module.name)).items():
            if hasattr(value, "cache_clear") and getattr(value, "__module__", "") == module.name:
                first = next(iter(inspect.signature(value).parameters.values()), None)
                if first is not None and "Part" == str(first.annotation).removeprefix("anglelib.part."):
                    found[f"{module.name}.{name}"] = value
    return found


def asked(function) -> list:
    """The other arguments that have no value of their own; an argument of another name has to be given one above."""
    more = list(inspect.signature(function).parameters.values())[1:]
    return [FILLED[one.name] for one in more if one.default is one.empty]


def test_they_are_found():
    assert len(kept_by_part()) > 8
    assert {"anglelib.inspection.likelihood.candidates", "anglelib.drawing.edges_view.edges_sheet"} <= set(kept_by_part())


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("name", sorted(kept_by_part()))
def test_whatever_was_written_first(name, unit):
    function, part = kept_by_part()[name], replace(BRACKET, unit=unit)
    seen = []
    for outside in ("in", "mm"):
        function.cache_clear()
        with writing(outside):
            seen.append(re.sub(r" at 0x[0-9a-f]+", "", repr(function(part, *asked(function)))))
    function.cache_clear()
    assert seen[0] == seen[1]


def test_the_same_metal_in_the_other_unit_has_its_own_words():
    """One after the other, without clearing: the unit is part of what a part is."""
    for unit, own in (("in", "1/"), ("mm", " mm")):
        words = " ".join(case.case.words for case in kept_by_part()["anglelib.inspection.likelihood.candidates"](replace(BRACKET, unit=unit), Shop()))
        assert own in words
    sheets = [repr(kept_by_part()["anglelib.drawing.edges_view.edges_sheet"](replace(BRACKET, unit=unit))) for unit in ("in", "mm", "in")]
    assert sheets[0] == sheets[2] != sheets[1]


def test_the_stick_for_a_part_at_the_bench():
    rack = Rack([Stick("M-1", STOCK, "6061-T6", "900 mm")])
    said = []
    for unit in ("mm", "in", "mm"):
        rows = {fact.id: fact.words for fact in bench_facts.facts(replace(BRACKET, unit=unit), Shop(), rack)}
        said.append(rows["stick"])
    assert said[0] == said[2] != said[1] and " mm" in said[0] and " mm" not in said[1]
