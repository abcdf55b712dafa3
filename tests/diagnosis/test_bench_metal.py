"""The bench's half-spaces against a general-purpose solid kernel (manifold3d): the same planes, other arithmetic.

The kernel cuts an L-shaped prism by the bench's planes; lengths and heights are read off the corners
of the solid. So what the bench measures is what a rule would find on that metal.
"""

from __future__ import annotations

from random import Random

import bench_slips as bench
import diagnosis_count as counting
import manifold3d
import numpy as np
import pytest
import strange_bench
from sawn_metal import AXIS, as_drawn, measure
from strange_parts import rare_parts

CLOSE = 1e-6
SEED = 20


def solid(work):
    """The metal as a solid of the kernel, without fillet and holes."""
    (ta, tb), a, b = work.thick, work.toe("A"), work.toe("B")
    flat = manifold3d.CrossSection([np.array([(0, 0), (a, 0), (a, ta), (tb, ta), (tb, b), (0, b)])])
    # Extruded along z, then turned so that the section's (y, z) is where it belongs and the bar runs along x.
    bar = manifold3d.Manifold.extrude(flat, work.last + 2).transform([[0, 0, 1, -1.0], [1, 0, 0, 0], [0, 1, 0, 0]])
    for x, y, z, limit in work.planes:
        normal = -np.array([x, y, z])
        size = float(np.linalg.norm(normal))
        bar = bar.trim_by_plane(tuple(normal / size), -limit / size)
    return bar


def notched(work):
    """The same with its copes: each takes a leg's metal from the end to its face, from what it leaves outwards."""
    bar = solid(work)
    for notch in work.notches:
        side, thick = AXIS[notch.leg] - 1, work.thick[AXIS[notch.leg] - 1]
        across = [(notch.left, 9.0), (-1.0, thick)] if side == 0 else [(-1.0, thick), (notch.left, 9.0)]
        along = (-9.0, notch.length) if notch.end == 1 else (work.base_2 - notch.length, work.last + 9)
        low, high = zip(along, *across)
        bar -= manifold3d.Manifold.cube([b - a for a, b in zip(low, high)]).translate(low)
    return bar


def corners(work):
    return np.asarray(solid(work).to_mesh64().vert_properties)[:, :3]


def along(points, y, z):
    """From where to where a corner line of the stock still has metal."""
    here = points[np.hypot(points[:, 1] - y, points[:, 2] - z) < CLOSE]
    return float(here[:, 0].min()), float(here[:, 0].max())


def read(work, points):
    """Lengths on the three outside corner lines, and heights of tapered legs in the planes of their ends."""
    heel = along(points, 0, 0)
    found = {"heel": heel[1] - heel[0]}
    for leg in "AB":
        toe = along(points, *work.spot(leg, work.toe(leg), 0.0))
        found[f"toe.{leg}"] = toe[1] - toe[0]
        for line in (v for v in work.lines if v.leg == leg):
            found[f"start.{leg}.{line.end}"] = toe[0] - heel[0] if line.end == 1 else heel[1] - toe[1]
            a, b, c, d = work.planes[line.end - 1]
            if abs(a * heel[line.end - 1] - d) > CLOSE:
                continue  # the end is gone: there is no plane of it left to read in
            side = {"A": 1, "B": 2}[leg]
            root = work.thick[2 - side]
            for name, depth in ((f"width.{leg}", 0.0), (f"inside.{leg}", work.thick[side - 1])):
                face = points[(np.abs(points[:, 3 - side] - depth) < CLOSE) & (np.abs(points @ (a, b, c) - d) < CLOSE)]
                top = float(face[:, side].max()) if len(face) else 0.0
                found[f"{name}.{line.end}"] = top if depth == 0 else max(0.0, top - root)
    return found


@pytest.mark.parametrize("number", range(40))
def test_half_spaces_measure_what_the_kernel_cuts(number):
    rng = Random(SEED + number)
    parts = list(counting.demo().parts)
    part = rng.choice(parts) if number % 2 else counting.random_part(rng, number)
    ways = bench.slips(part, 1 / 16, 1 / 32)
    work = bench.drawn(rng, ways[rng.choice(sorted(ways))])
    work = bench.scattered(work, rng).sawn()
    work = type(work)(**{**vars(work), "shrunk": 0.0})
    kernel = read(work, corners(work))
    names = tuple(kernel)
    assert len(names) >= 3
    for name, value in zip(names, measure(work, names)):
        assert value == pytest.approx(kernel[name], abs=2e-6), (part.id, name)


@pytest.mark.parametrize("number", range(40))
def test_copes_and_two_tapers_at_an_end_measure_what_the_kernel_cuts(number):
    """Toes from cut to cut, what a cope leaves and how far back it goes, on parts spoiled in every way that copes have."""
    rng = Random(SEED + number)
    part = next(p for p in rare_parts(rng, 12, ("in", "mm")) if not p.corners and (p.copes or number % 4 == 0))
    ways = strange_bench.ways_of(part, 1 / 16, 1 / 32)
    work = bench.drawn(rng, ways[rng.choice(sorted(ways))])
    work = bench.scattered(work, rng).sawn()
    work = type(work)(**{**vars(work), "shrunk": 0.0})
    points = np.asarray(notched(work).to_mesh64().vert_properties)[:, :3]
    heel = along(points, 0, 0)
    found = {"heel": heel[1] - heel[0]}
    for leg in "AB":
        toe = along(points, *work.spot(leg, work.toe(leg), 0.0))
        found[f"toe.{leg}"] = toe[1] - toe[0]
        for notch in (v for v in work.notches if v.leg == leg):
            found[f"cope.{leg}.{notch.end}"] = toe[0] - heel[0] if notch.end == 1 else heel[1] - toe[1]
            a, b, c, d = work.planes[notch.end - 1]
            side = AXIS[leg]
            if abs(a * heel[notch.end - 1] - d) < CLOSE and not any((v.leg, v.end) == (leg, notch.end) for v in work.lines):
                face = points[(np.abs(points[:, 3 - side]) < CLOSE) & (np.abs(points @ (a, b, c) - d) < CLOSE)]
                found[f"width.{leg}.{notch.end}"] = float(face[:, side].max())
    for name, value in zip(found, measure(work, tuple(found))):
        assert value == pytest.approx(found[name], abs=2e-6), (part.id, name)


def test_a_plane_moved_by_a_hundredth_is_seen():
    """The comparison can fail."""
    part = counting.demo().part("A1L")
    wanted = as_drawn(part).sawn()
    moved = type(wanted)(**{**vars(wanted), "last": wanted.last + 0.01}).sawn()
    names = ("heel", "toe.A")
    assert measure(moved, names) != pytest.approx([read(wanted, corners(wanted))[n] for n in names], abs=1e-3)
