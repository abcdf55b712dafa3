"""Blanks in their stick: which leg is seen, where the edges of their cuts are, which number stands at which end."""

from dataclasses import replace
from fractions import Fraction as F

import pytest
from random_parts import part as random_part

from anglelib.drawing.checks import overlaps, struck
from anglelib.drawing.on_stick import on_stick
from anglelib.drawing.rack_view import HEEL, TALL, DrawnStick, stick_view
from anglelib.drawing.sheet import Label, Line, Polyline, Sheet, move
from anglelib.part import Cope, Corner, Part, Taper
from anglelib.section import Section

STOCK = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
STRUT = Part("P1", "Strut", STOCK, "6061-T6", 6, [Taper("B", 2, "1/2", run=2)], copes=[Cope("A", 1, 1, "1/2", "1/8")])
ALLOWANCE = F(1, 32)
START, END = F(10), F(10) + 6 + 2 * ALLOWANCE


def lies(part: Part, left: int, turned: bool = False):
    end = START + part.length + 2 * ALLOWANCE
    return on_stick(part, part.id, START, end, left, ALLOWANCE, True, turned)


def test_by_hand_with_end_1_at_the_left():
    """Leg B is seen: its taper from the toe 2 in. before end 2 to 1/2 in. of 1 1/4 left there; leg A's cope is 1 in. from end 1, behind."""
    cut = lies(STRUT, 1)
    zero = 10 + 1 / 32  # where the part begins: an allowance inside its blank
    assert cut.leg == "B" and cut.behind == (zero + 1,)
    (taper,) = cut.seen
    assert taper[0] == pytest.approx((zero + 6, 0.4)) and taper[1] == pytest.approx((zero + 4, 1.0)) and len(taper) == 2


def test_by_hand_reversed():
    """Leg A is seen: its cope at the right, up from 1/2 at end 1 to the corner of radius 1/8 and out at the toe; leg B's taper is behind."""
    cut = lies(STRUT, 2)
    right = 10 + 1 / 32 + 6
    assert cut.leg == "A" and cut.behind == (10 + 1 / 32 + 2,)
    (cope,) = cut.seen
    assert cope[0] == pytest.approx((right, 0.4)) and cope[-1] == pytest.approx((right - 1, 1.0))
    assert cope[1] == pytest.approx((right - 7 / 8, 0.4)) and cope[-2] == pytest.approx((right - 1, 0.5))


def test_the_allowance_is_at_the_end_that_is_squared():
    """A blank a kerf too long ends unsawn: at the datum's side its part begins an allowance inside, wherever the datum is."""
    long = START + 6 + 2 * ALLOWANCE + F(1, 16)
    near, far = (on_stick(STRUT, "P1", START, long, 1, ALLOWANCE, False, turned) for turned in (False, True))
    assert near.behind == (10 + 1 / 32 + 1,) and far.behind == (float(long) - 1 / 32 - 5,)


@pytest.mark.parametrize("seed", range(40))
def test_reversed_it_looks_like_the_same_metal_turned_end_for_end(seed):
    """What :meth:`Part.turned` describes, with end 1 at the left, is what lies there when end 2 is."""
    part = random_part(seed)
    if not part.section.equal_legs:
        part = replace(part, section=replace(part.section, leg_b=part.section.leg_a, thickness_b=part.section.thickness_a), tapers=(), holes=(), copes=(), corners=())
        part = replace(part, tapers=(Taper("A", 1, part.section.leg_a / 2, run=part.length / 4),))
    one, other = lies(part, 2), lies(part.turned(), 1)
    places = [[point for line in sorted(cut.seen, key=min) for point in sorted(line)] for cut in (one, other)]
    assert places[0] == [pytest.approx(point, abs=1e-9) for point in places[1]]
    assert one.behind == pytest.approx(other.behind)


def test_on_paper():
    unit = 10.0
    near, far = lies(STRUT, 1), on_stick(STRUT, "P2", END + F(1, 16), 2 * END - START + F(1, 16), 2, ALLOWANCE)
    items = stick_view(DrawnStick("S-1", F(40), (near, far), F(10)), unit)
    labels = {item.text: item for item in items if isinstance(item, Label)}
    assert {"P1, leg B", "P2, leg A"} <= set(labels)
    numbers = sorted((item.x, item.text) for item in items if isinstance(item, Label) and item.text in ("1", "2"))
    assert [text for _, text in numbers] == ["1", "2", "2", "1"]
    for x, _ in numbers:
        assert min(abs(x - float(end) * unit) for cut in (near, far) for end in (cut.start, cut.end)) < 3
    seen = [item for item in items if isinstance(item, Polyline) and item.kind == "narrow" and not item.closed]
    assert len(seen) == 2 and max(y for line in seen for _, y in line.points) == pytest.approx(TALL)
    behind = [item for item in items if isinstance(item, Line) and item.kind == "fine-hidden"]
    assert [(line.x1, line.y1, line.x2, line.y2) for line in behind] == [pytest.approx((x * unit, 0, x * unit, HEEL)) for x in (*near.behind, *far.behind)]
    assert [item.y1 for item in items if isinstance(item, Line) and item.kind == "hidden"] == [HEEL]


def test_a_rounded_corner_is_an_edge_too():
    clip = Part("P4", "Clip", STOCK, "6061-T6", 3, corners=[Corner("B", 1, "1/2")])
    (arc,) = lies(clip, 1).seen
    zero = 10 + 1 / 32
    assert arc[0] == pytest.approx((zero, 0.6)) and arc[-1] == pytest.approx((zero + 0.5, 1.0)) and len(arc) > 4
    assert lies(clip, 2).seen == () and lies(clip, 2).behind == ()


@pytest.mark.parametrize("unit", (1.4, 3.0, 9.0, 25.0))
@pytest.mark.parametrize("seed", range(12))
def test_no_edge_runs_through_a_word(seed, unit):
    """Random parts side by side, both ways round, at scales from a 144 in. stick to a short remnant."""
    cuts, at = [], F(0)
    for n in range(4):
        part = random_part(4 * seed + n)
        end = at + part.length + 2 * ALLOWANCE
        cuts.append(on_stick(part, part.id, at, end, 1 + (seed + n) % 2, ALLOWANCE))
        at = end + F(1, 16)
    view = stick_view(DrawnStick("S-1", at + 5, tuple(cuts), F(5)), unit)
    wide = float(at + 5) * unit + 60
    sheet = Sheet(wide + 40, 80, move(view, 20, 40), "Stick", "A stick with four blanks.")
    assert [(label.text, item) for label, item in struck(sheet, "paper")] == [] and overlaps(sheet, "paper") == []
