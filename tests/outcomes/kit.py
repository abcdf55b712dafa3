"""A kit with every feature, for what must not go by English: unequal legs, millimetres, copes, corners, tapers on both legs and ends."""

from __future__ import annotations

from dataclasses import replace

from anglelib.job import Job, Shop
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section
from anglelib.stock.rack import Rack, Stick

ALLOY = "6061-T6"
EQUAL = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
UNEQUAL = Section("1 1/2", 1, "1/8", fillet="1/8", toe_radius="1/16")
METRIC = Section("30 mm", "30 mm", "3 mm", fillet="2 mm")


def _pair(part: Part, other: str) -> list[Part]:
    mirror = replace(part.mirrored(), id=other, name="The other hand of it", hand="right", mirror_of=part.id)
    return [replace(part, hand="left", mirror_of=other), mirror]


PARTS = [
    Part("P1", "Post, coped", EQUAL, ALLOY, 5, [Taper("A", 1, "3/4", run=1)], copes=[Cope("A", 2, 1, "1/2", "1/8")], quantity=2),
    Part("P2", "Rail", EQUAL, ALLOY, 60, [Taper("A", 1, "1/2", run="1 1/2"), Taper("B", 2, run="2", blunt="1/32")], one_piece=True),
    Part("P3", "Foot", EQUAL, ALLOY, "5 1/2", [Taper("B", 1, run="1 5/8"), Taper("B", 2, run="1 5/8")], [Hole("A", "2 3/4", "11/16", "3/16")]),
    Part("P4", "Rounded clip", EQUAL, ALLOY, "3/4", corners=[Corner("A", 1, "1/4"), Corner("A", 2, "1/4")], quantity=3),
    Part("P5", "Held for later", EQUAL, ALLOY, 20, [Taper("A", 2, run="2 1/2")], later=True),
    *_pair(Part("U1L", "Stop", UNEQUAL, ALLOY, 4, [Taper("B", 1, "3/8", run="1 1/4")], [Hole("A", "5/8", "11/16", "1/8"), Hole("B", 3, "1/2", "1/8")], quantity=2), "U1R"),
    Part("K1", "Skin angle", METRIC, ALLOY, "120 mm", [Taper("A", 2, "10 mm", run="32 mm")], [Hole("B", "20 mm", "6 mm", "3.2 mm", True)], copes=[Cope("B", 1, "8 mm", "14 mm", "4 mm")], unit="mm"),
]  # fmt: skip
RACK = Rack([
    Stick("S-1", EQUAL, ALLOY, 96, "1/4", "1/4"), Stick("S-2", EQUAL, ALLOY, 30, "1/4", "1/4", dents=[(12, "13 1/2")]),
    Stick("S-3", UNEQUAL, ALLOY, 40, "1/4", "1/4"), Stick("S-4", METRIC, ALLOY, 24, "1/16", "1/16", far_end_good=True),
    Stick("S-5", EQUAL, "", 60), Stick("S-6", EQUAL, ALLOY, 60, hands_off=True), Stick("S-7", UNEQUAL, "6063-T5", 30),
])  # fmt: skip
JOB = Job("Every feature", Shop(), PARTS)
