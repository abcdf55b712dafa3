"""Compound cuts: set a saw on the table as the library says, cut a solid angle, read the lines off its outer faces."""

from __future__ import annotations

from random import Random
from statistics import fmean, pstdev

import numpy as np
import oracle_parts
import pytest
import solids
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

from anglelib.errors import PartError
from anglelib.geometry.sawing import CompoundCut, Kerf, SawSetting, protractor
from anglelib.section import Section

MIDDLE = 20.0
SECTIONS = {
    "1x1x1/8": Section(1, 1, "1/8"),
    "2x1x3/16": Section(2, 1, "3/16"),
    "rounded, unequal": Section("1 1/2", "1 1/4", "1/8", "3/16", fillet="3/16", toe_radius="3/32", heel_radius="1/16"),
}
CUTS = [(60, 75), (45, 90), (90, 60), (30, 20), (100, 70), (75, 120), (110, 130)]


def blade(setting: SawSetting, sense: int) -> tuple[np.ndarray, np.ndarray]:
    """Two directions in the blade's plane (along the fence, across the table, up): its line on the table and its slope.

    The blade starts square to the fence and upright, is turned by the miter, then leaned about its
    line on the table; ``sense`` is +1 where a positive tilt leans it with the stock's growing x.
    """
    line = Rotation.from_euler("z", -setting.miter, degrees=True).apply([0.0, 1.0, 0.0])
    up = Rotation.from_rotvec(np.radians(sense * setting.tilt) * line).apply([0.0, 0.0, 1.0])
    return line, up


def sawn_lines(section: Section, to_table: np.ndarray, setting: SawSetting, sense: int) -> tuple[float, float]:
    """Angles to the heel of the lines that the blade leaves on the outer faces of leg A and of leg B [deg].

    ``to_table`` takes (x, y, z) of the stock to (along the fence, across, up).
    """
    line, up = blade(setting, sense)
    back = to_table.T  # rows are unit vectors
    through = np.array([MIDDLE, 0.0, 0.0])
    saw = solids.Saw(through, through + back @ line, through + back @ up, keep=(1e4, 0, 0))
    solid = saw.cut(solids.bar(section, 2 * MIDDLE))

    def angle(y: float, z: float, width: float) -> float:
        toe = solids.starts_at(solid, 2 * MIDDLE, 1, y, z) - MIDDLE
        return float(np.degrees(np.arctan2(width, toe)))

    a, b = float(section.leg_a), float(section.leg_b)
    return angle(a, 0.0, a), angle(0.0, b, b)


def rest_on_toes(section: Section) -> float:
    """How far leg A slopes [deg] when the angle stands on both inner toes: turned until both are equally low."""
    outline = np.array(solids.outline(section, steps=2000))
    on_a = outline[:, 0] > outline[:, 1]

    def difference(slope: float) -> float:
        across_a, down_a = np.cos(np.radians(slope)), np.sin(np.radians(slope))
        depth = outline @ np.array([down_a, across_a])  # below the heel, legs down on either side
        return depth[on_a].max() - depth[~on_a].max()

    return brentq(difference, 1, 89, xtol=1e-12)


@pytest.mark.parametrize("cut", CUTS, ids=str)
@pytest.mark.parametrize("name", SECTIONS)
def test_settings_give_the_lines(name, cut):
    section = SECTIONS[name]
    on_a, on_b, heel_up = CompoundCut(*cut).settings(section)
    assert (on_a.lies, on_b.lies, heel_up.lies) == ("on-A", "on-B", "heel-up")
    flat_a = np.eye(3)
    flat_b = np.array([[1, 0, 0], [0, 0, 1], [0, 1, 0]])  # across is along leg B, up along leg A
    slope = np.radians(rest_on_toes(section))
    # Heel on top: leg A goes down one side of it, leg B down the other.
    standing = np.array([[1, 0, 0], [0, np.cos(slope), -np.sin(slope)], [0, -np.sin(slope), -np.cos(slope)]])
    for setting, table, sense in ((on_a, flat_a, 1), (on_b, flat_b, 1), (heel_up, standing, -1)):
        # The toes' arcs are polygons: where they stand is known to six figures.
        assert sawn_lines(section, table, setting, sense) == pytest.approx(cut, abs=2e-6), setting


def lies(section: Section) -> dict[str, tuple[np.ndarray, int]]:
    """For each way to lie: the stock's turn to the table, and the sense of the tilt there."""
    slope = np.radians(rest_on_toes(section))
    standing = np.array([[1, 0, 0], [0, np.cos(slope), -np.sin(slope)], [0, -np.sin(slope), -np.cos(slope)]])
    return {"on-A": (np.eye(3), 1), "on-B": (np.array([[1, 0, 0], [0, 0, 1], [0, 1, 0]]), 1), "heel-up": (standing, -1)}


@pytest.mark.parametrize("way", ["on-A", "on-B", "heel-up"])
@pytest.mark.parametrize("name", SECTIONS)
def test_a_setting_gives_the_lines_that_the_saw_leaves(name, way):
    """Any setting at all, sawn through the solid angle: its lines, and its marks at the toes, are those foretold."""
    section, rng = SECTIONS[name], Random(f"setting {name} {way}")
    table, sense = lies(section)[way]
    for _ in range(12):
        setting = SawSetting(way, rng.uniform(-55, 55), rng.uniform(-40, 40))
        cut = CompoundCut.from_setting(setting, section)
        sawn = sawn_lines(section, table, setting, sense)
        assert (cut.on_a, cut.on_b) == pytest.approx(sawn, abs=2e-6), setting
        widths = float(section.leg_a), float(section.leg_b)
        marks = [width * np.cos(np.radians(angle)) / np.sin(np.radians(angle)) for width, angle in zip(widths, sawn, strict=True)]
        assert cut.toe_marks(section) == pytest.approx(marks, abs=1e-6)


def test_settings_there_and_back():
    rng = Random("there and back")
    for _ in range(200):
        section, cut = rng.choice(list(SECTIONS.values())), CompoundCut(rng.uniform(5, 175), rng.uniform(5, 175))
        for setting in cut.settings(section):
            back = CompoundCut.from_setting(setting, section)
            assert (back.on_a, back.on_b) == pytest.approx((cut.on_a, cut.on_b), abs=1e-8)


def test_a_square_setting_gives_square_lines():
    for way in ("on-A", "on-B", "heel-up"):
        cut = CompoundCut.from_setting(SawSetting(way, 0, 0), SECTIONS["2x1x3/16"])
        assert (cut.on_a, cut.on_b) == pytest.approx((90, 90))


@pytest.mark.parametrize(
    "setting, match",
    [
        (SawSetting("heel-up", 90, 0), "between -90 and 90, from square"),
        (SawSetting("heel-up", 0, -91), "between -90 and 90, from upright"),
        (SawSetting("on-A", float("nan"), 0), "read it off the saw again"),
        (SawSetting("heel down", 0, 0), "give one of on-A, on-B, heel-up"),
    ],
)
def test_settings_that_cannot_be_set(setting, match):
    with pytest.raises(PartError, match=match):
        CompoundCut.from_setting(setting, SECTIONS["1x1x1/8"])


def test_worked_cut():
    section = SECTIONS["1x1x1/8"]
    printed = {"on-A": (30.000, 13.064), "on-B": (15.000, 29.147), "heel-up": (12.341, 30.281)}
    for setting in CompoundCut(60, 75).settings(section):
        assert (setting.miter, setting.tilt) == pytest.approx(printed[setting.lies], abs=5e-4)


def test_rest_angle_is_not_that_of_the_legs():
    """2 x 1 x 3/16 stands on its inner toes at 24.1455 degrees; atan(1/2), 26.57, spoils both lines."""
    section = SECTIONS["2x1x3/16"]
    assert rest_on_toes(section) == pytest.approx(24.1455, abs=5e-5)
    naive = np.arctan(0.5)
    table = np.array([[1, 0, 0], [0, np.cos(naive), -np.sin(naive)], [0, -np.sin(naive), -np.cos(naive)]])
    _, _, heel_up = CompoundCut(60, 75).settings(section)
    on_a, on_b = sawn_lines(section, table, heel_up, -1)
    assert abs(on_a - 60) > 0.3 and abs(on_b - 75) > 0.3


def test_tilt_set_by_the_line_on_the_other_leg_fails():
    """The naive tilt, 90 less leg B's angle, misses leg B's line by degrees: the blade leans across a mitered line."""
    section = SECTIONS["1x1x1/8"]
    (on_a, _, _) = CompoundCut(45, 45).settings(section)
    naive = SawSetting("on-A", on_a.miter, 45.0)
    assert on_a.tilt == pytest.approx(35.264, abs=5e-4)
    assert abs(sawn_lines(section, np.eye(3), naive, 1)[1] - 45) > 9


@pytest.mark.parametrize("cut", [(0, 75), (60, 180), (60, -5)])
def test_lines_that_are_none(cut):
    with pytest.raises(PartError, match="it must lie between 0 and 180"):
        CompoundCut(*cut)
    with pytest.raises(PartError, match="measure it again"):
        CompoundCut(60, float("nan"))


def test_what_a_miter_saw_cannot_reach():
    """A taper of 10 degrees is a miter of 80: no miter saw turns so far."""
    on_a, on_b, _ = CompoundCut(10, 90).settings(SECTIONS["1x1x1/8"])
    assert on_a.miter == pytest.approx(80) and "band saw" in on_a.beyond()
    assert on_b.miter == pytest.approx(0) and "lay the angle another way" in on_b.beyond()
    assert CompoundCut(60, 75).settings(SECTIONS["1x1x1/8"])[0].beyond() == ""
    assert protractor(10) == (10, 80)


# --- kerf ---------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("cuts", [1, 2, 5])
def test_kerf_and_its_uncertainty_by_measuring_many_times(cuts):
    rng, true, reading = Random(f"kerf {cuts}"), 0.062, 0.002
    lengths = [rng.uniform(1, 3) for _ in range(cuts + 1)]
    before = sum(lengths) + cuts * true
    found = [Kerf.from_test_cut(rng.gauss(before, reading), tuple(rng.gauss(v, reading) for v in lengths), reading) for _ in range(20_000)]
    assert fmean(k.width for k in found) == pytest.approx(true, abs=5e-5)
    assert pstdev(k.width for k in found) == pytest.approx(found[0].uncertainty, rel=0.02)


def test_test_cuts_that_tell_nothing():
    with pytest.raises(PartError, match="at least two pieces"):
        Kerf.from_test_cut(8, (8,), 0.001)
    with pytest.raises(PartError, match="measure them again"):
        Kerf.from_test_cut(8, (4, 4), 0.001)


def test_random_cuts_of_random_sections():
    for seed in range(25):
        rng = Random(f"compound {seed}")
        stock = oracle_parts.section(rng)
        stock = Section(stock.leg_a, stock.leg_b, stock.thickness_a, stock.thickness_b, stock.fillet)  # sharp heel and toes
        cut = rng.uniform(15, 160), rng.uniform(15, 160)
        slope = np.radians(rest_on_toes(stock))
        standing = np.array([[1, 0, 0], [0, np.cos(slope), -np.sin(slope)], [0, -np.sin(slope), -np.cos(slope)]])
        on_a, on_b, heel_up = CompoundCut(*cut).settings(stock)
        assert sawn_lines(stock, np.eye(3), on_a, 1) == pytest.approx(cut, abs=1e-8), seed
        assert sawn_lines(stock, standing, heel_up, -1) == pytest.approx(cut, abs=1e-7), seed
