"""How the angle sits, measured on the pictures: what touches the table, what the guide clears, which way it lies."""

from __future__ import annotations

import pytest
from printed_pages import PARTS

from anglelib.drawing.sheet import Hatch, Label, Polyline
from anglelib.geometry.setup import inside_up, outside_up, square_cut, taper_cut
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.geometry.teeth import teeth_of
from anglelib.job import Shop
from anglelib.lengths import both
from anglelib.paper.stance import _unit, plan_picture, square_picture, taper_picture
from anglelib.part import Taper
from anglelib.section import Section

SECTIONS = [
    Section("3/4", "3/4", "1/8", fillet="1/8"),
    Section("1 1/2", 1, "1/8", fillet="1/8"),
    Section(2, "1 1/4", "3/16", "1/8", fillet="3/16", toe_radius="1/16"),
]


def metal(picture) -> Polyline:
    """The cut section: the closed shape with a visible edge."""
    (found,) = [item for item in picture if isinstance(item, Polyline) and item.closed and item.kind == "outline"]
    return found


@pytest.mark.parametrize("section", SECTIONS, ids=lambda s: s.size)
def test_heel_up_it_stands_on_both_toes_and_the_heel_is_what_the_guide_clears(section):
    setup = square_cut(section)
    points = metal(square_picture(setup, section)).points
    low = min(y for _, y in points)
    assert low == pytest.approx(0, abs=0.03)  # a rounded toe is drawn in short straight pieces
    standing = sorted(x for x, y in points if y < 0.05)
    assert standing[-1] - standing[0] > 0.5 * float(section.leg_a) * _unit(section)
    assert max(y for _, y in points) == pytest.approx(float(setup.height) * _unit(section), abs=0.03)


@pytest.mark.parametrize("name", [name for name, part in PARTS.items() if part.tapers])
def test_a_taper_lies_on_its_leg_and_the_guide_clears_what_stands_up(name):
    for line in taper_lines(PARTS[name]):
        unit = _unit(line.section)
        for setup in (inside_up(line), outside_up(line)):
            picture = taper_picture(setup, line)
            points = metal(picture).points
            assert max(y for _, y in points) == pytest.approx(float(setup.height) * unit, abs=0.03)
            assert min(y for _, y in points) == pytest.approx(0, abs=0.03) or setup.block
            assert min(y for _, y in points) >= -0.03  # nothing is drawn below the table
            texts = [item.text for item in picture if isinstance(item, Label)]
            assert both(setup.height, 64, "up").partition(" (")[0] in texts
            assert {"A", "B"} <= set(texts)
            assert f"teeth {teeth_of(setup).words}" in texts


@pytest.mark.parametrize("section", SECTIONS, ids=lambda s: s.size)
@pytest.mark.parametrize("leg", "AB")
def test_on_its_block_the_hanging_toe_is_drawn_clear_of_the_table_and_the_block_clear_of_the_fillet(section, leg):
    shapely = pytest.importorskip("shapely", reason="shapely is an oracle of the tests: pip install -r tests/requirements.txt")
    line = TaperLine.of(section, Taper(leg, 1, "3/8", run=1))
    setup, unit = outside_up(line), _unit(section)
    picture = taper_picture(setup, line)
    angle = shapely.Polygon(metal(picture).points)
    hatched = next(item for item in picture if isinstance(item, Hatch) and item.angle == 15)
    block = shapely.Polygon(hatched.points)
    assert angle.bounds[1] == pytest.approx(unit / 16, abs=0.03)  # the clearance, common practice
    assert block.bounds[1] == 0 and block.bounds[3] == pytest.approx(float(setup.block.height) * unit, abs=0.03)
    assert angle.intersection(block).area < 0.02  # a fillet is drawn in short straight pieces
    assert angle.distance(block) < 0.03
    wide = block.bounds[2] - block.bounds[0]
    assert wide == pytest.approx(float(setup.block.width) * unit, abs=0.03)
    # it carries the flat of the leg and nothing else: its top begins beyond the fillet
    top = [x for x, y in hatched.points if y > block.bounds[3] - 0.01]
    assert wide - (max(top) - min(top)) > float(section.fillet) * unit
    assert f"block {both(setup.block.height, 64, 'up').partition(' (')[0]}" in [item.text for item in picture if isinstance(item, Label)]


@pytest.mark.parametrize("leg, end, right", [("A", 1, False), ("A", 2, True), ("B", 1, True), ("B", 2, False)])
def test_seen_from_its_end_the_toe_lies_where_the_hand_of_the_angle_puts_it(leg, end, right):
    """Leg A flat, inside up, end 1 before the eye: x goes away, z up, so y (to the toe) goes to the left."""
    line = TaperLine.of(SECTIONS[0], Taper(leg, end, run=1))
    points = metal(taper_picture(taper_cut(line), line)).points
    high = max(y for _, y in points)
    standing = [x for x, y in points if y > 0.9 * high]
    assert (sum(standing) / len(standing) < 0) == right
    # from above the same toe lies on the other side of the way the eye looked
    plan = plan_picture(taper_cut(line), line, Shop(), 70, 30)
    labels = {item.text: item for item in plan if isinstance(item, Label)}
    assert (labels["out"].x > labels["in"].x) == (end == 1)
    assert (labels["out"].y > labels["in"].y) == (right == (end == 2))
