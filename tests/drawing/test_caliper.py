"""The caliper's picture: legible at every reading, its scales where a caliper has them, the reading hidden until it is revealed."""

from fractions import Fraction as F

import pytest

from anglelib.drawing.caliper import KINDS, Caliper, Held, caliper_sheet
from anglelib.drawing.checks import clipped, overlaps, struck
from anglelib.drawing.sheet import Label, Line
from anglelib.section import Section

SECTIONS = (Section("3/4", "3/4", "1/16", fillet="1/16"), Section("1 1/2", 1, "1/8", fillet="1/8"), Section(2, 2, "1/4", fillet="1/4", toe_radius="1/8"))
EDGE = 24.0
"""Height of the line between beam and vernier in the enlarged scale [mm]."""


def legible(sheet, theme):
    assert overlaps(sheet, theme) == [] and clipped(sheet, theme) == [] and struck(sheet, theme) == [], sheet.sentence
    if theme == "projector":
        assert sum(isinstance(item, Label) for item in sheet.items) <= 7, sheet.sentence


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("theme", ["screen", "projector"])
def test_every_reading_is_legible(kind, theme):
    few = theme == "projector"
    for section in SECTIONS:
        for held, size in ((Held.leg(section, "A"), section.leg_a), (Held.leg(section, "B"), section.leg_b), (Held.thickness(section, "B"), section.thickness_b)):
            for steps in (-7, -3, -1, 0, 2, 4, 6):
                reading = size + steps * (F(1, 128) if kind == "fraction" else F(7, 1000))
                for revealed in (False, True):
                    legible(caliper_sheet(Caliper(reading, kind), held, revealed=revealed, few=few, prediction=size if revealed else None), theme)
    for long in (F(0), F(1, 16), F(1), F(47, 16), F(619, 128), F(6)):
        legible(caliper_sheet(Caliper(long, kind), Held.length("a blank", long or F(1), F(3, 4)), revealed=True, few=few), theme)


@pytest.mark.parametrize("numerator", range(0, 129, 5))
def test_the_line_that_meets_the_beam_is_the_one_that_counts(numerator):
    """Read like a person: the beam's division left of the vernier's 0, and the vernier's line that lies nearest to a beam's line."""
    lines = [item for item in caliper_sheet(Caliper(F(numerator, 128))).items if isinstance(item, Line) and item.x1 == item.x2]
    beam = sorted(line.x1 for line in lines if line.y1 == EDGE and line.y2 > EDGE)
    vernier = sorted(line.x1 for line in lines if line.y1 == EDGE and line.y2 < EDGE)
    assert len(vernier) == 9
    best = min(range(8), key=lambda n: min(abs(vernier[n] - x) for x in beam))
    assert min(abs(vernier[best] - x) for x in beam) < 1e-6
    sixteenths, rest = divmod(numerator, 8)
    assert best == rest
    spacing = beam[1] - beam[0]
    assert vernier[8] - vernier[0] == pytest.approx(7 * spacing)
    if sixteenths >= 2:  # two divisions left of the 0 are in the picture
        passed = [x for x in beam if x <= vernier[0] + 1e-6]
        assert vernier[0] - passed[-1] == pytest.approx(spacing * rest / 8, abs=1e-6)


def test_the_reading_is_nowhere_before_it_is_revealed():
    for kind, reading, told in (("fraction", F(99, 128), "99/128"), ("decimal", F(773, 1000), "0.773")):
        hidden, shown = (caliper_sheet(Caliper(reading, kind), revealed=revealed) for revealed in (False, True))
        for sheet, wanted in ((hidden, False), (shown, True)):
            words = sheet.sentence + " ".join(item.text for item in sheet.items if isinstance(item, Label))
            assert (told in words) is wanted


def test_the_dial_goes_round_once_in_a_tenth():
    tips = []
    for reading in ("0.2", "0.225", "0.25", "0.275", "0.3"):
        hand = next(item for item in caliper_sheet(Caliper(reading, "decimal")).items if getattr(item, "fill", "") == "ink" and len(getattr(item, "points", ())) == 4)
        (x, y), base = hand.points[0], hand.points[2]
        tips.append((round(x - base[0]), round(y - base[1])))
    (_, up), (right, _), (_, down), (left, _), again = tips
    assert up > 15 and right > 15 and down < -15 and left < -15 and again == tips[0]
