"""Sticks in elevation: one scale, cuts where they are, names that can be read."""

import random
from fractions import Fraction as F

import pytest

from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.rack_view import Cut, DrawnStick, rack_sheets, stick_view
from anglelib.drawing.sheet import Label, Line, Polyline


def stick(rng, number):
    length = F(rng.randint(6 * 64, 144 * 64), 64)
    cuts, x = [], F(1, 4)
    while True:
        blank = F(rng.choice((23, 47, 92, 300, 1100, 2000)), 16)
        for _ in range(rng.choice((1, 1, 2, 6, 12))):
            if x + blank + F(1, 16) > length:
                break
            cuts.append(Cut(f"P{int(blank * 16)}", x, x + blank))
            x += blank + F(1, 16)
        else:
            if rng.random() < 0.7:
                continue
        break
    remains = length - x if length - x > 0 else None
    dents = ((length / 3, length / 3 + 1),) if rng.random() < 0.2 else ()
    return DrawnStick(f"S-{number:02d}", length, tuple(cuts), remains, dents, "3/4 x 3/4 x 1/8, 6061-T6")


@pytest.mark.parametrize("seed", range(15))
def test_racks_are_legible(seed):
    rng = random.Random(seed)
    sticks = [stick(rng, n) for n in range(rng.randint(1, 14))]
    sheets = rack_sheets(sticks, f"Rack {seed}")
    for sheet in sheets:
        assert [(a.text, b.text) for a, b in overlaps(sheet)] == []
        assert [label.text for label in clipped(sheet)] == []
        assert [(label.text, item) for label, item in struck(sheet)] == []
    shown = [item.text for sheet in sheets for item in sheet.items if isinstance(item, Label)]
    assert all(any(text.startswith(s.id) for text in shown) for s in sticks)


def test_every_cut_stands_where_it_is_and_carries_its_distance():
    cuts = (Cut("A", F(1, 4), F(5)), Cut("B", F(81, 16), F(10)), Cut("C", F(161, 16), F(16), sawn=False))
    items = stick_view(DrawnStick("S-1", F(16), cuts), 10.0)
    lines = sorted(i.x1 for i in items if isinstance(i, Line) and i.kind == "cut")
    assert lines == [2.5, 50, 100]  # the trimmed end, then two saw cuts; the last blank ends with the stick
    texts = [i.text for i in items if isinstance(i, Label)]
    assert {"A", "B", "C", "5", "10", "16"} <= set(texts)


def test_all_sticks_have_one_scale_and_nothing_is_filled_with_colour():
    sheets = rack_sheets([DrawnStick("S-1", F(144)), DrawnStick("S-2", F(36))], "Rack")
    bars = [i for i in sheets[0].items if isinstance(i, Polyline) and i.kind == "outline"]
    long, short = (bar.points[1][0] - bar.points[0][0] for bar in bars)
    assert long / short == pytest.approx(4)
    assert not [i for s in sheets for i in s.items if isinstance(i, Polyline) and i.kind and i.fill not in ("", "paper")]
    assert "stick S-1, 144 in. long: not cut" in sheets[0].sentence
