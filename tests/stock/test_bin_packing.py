"""Identical sticks: the sticks opened are the proven optimum of an open set of bin-packing instances.

tests/data/README.md names the set, its licence and the paper to cite. Kerf and allowance are 0, so
that a blank is an item and a stick a bin; two sticks more than needed lie on the rack.
"""

import json
from pathlib import Path

import pytest

from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.section import Section
from anglelib.stock.checker import faults
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick

INSTANCES = json.loads((Path(__file__).parents[1] / "data" / "bin_packing_pm_u.json").read_text(encoding="utf-8"))
STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")


def opens_the_optimum(instance: dict) -> None:
    assert instance["best_lb"] == instance["best_ub"]
    parts = [Part(f"P{n}", "Item", STOCK, "6061-T6", w, quantity=q) for n, (w, q) in enumerate(instance["items"])]
    sticks = [Stick(f"S-{n:03}", STOCK, "6061-T6", instance["capacity"]) for n in range(instance["best_ub"] + 2)]
    job, rack = Job(instance["name"], Shop(kerf=0, allowance=0, usable_minimum=0), parts), Rack(sticks)
    made = plan(job, rack, budget=10)
    assert faults(made, job, rack) == ()
    assert made.shortages == ()
    assert sum(stick.touched for stick in made.sticks) == instance["best_ub"]


def test_the_set_is_complete():
    assert len(INSTANCES) == 50


@pytest.mark.parametrize("instance", [i for i in INSTANCES if sum(q for _, q in i["items"]) <= 60], ids=lambda i: i["name"])
def test_sticks_opened(instance):
    opens_the_optimum(instance)


@pytest.mark.slow
@pytest.mark.parametrize("instance", [i for i in INSTANCES if sum(q for _, q in i["items"]) > 60], ids=lambda i: i["name"])
def test_sticks_opened_of_120_items(instance):
    opens_the_optimum(instance)
