"""Constructions for the formulas of the shop: saw, squaring, compound cuts, allowance, holes, rounding."""

from __future__ import annotations

import cmath
from itertools import pairwise, product
from math import dist, log, radians

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq
from shapely import LineString, Point, Polygon
from shapely.affinity import rotate, scale, translate
from straightedge import (
    CONSTRUCTIONS,
    along_heel,
    at_distance,
    at_height,
    between,
    fillet_point,
    meet,
    of,
    richardson,
    taper_by_slope,
    turned,
)  # fmt: skip


# --- kerf and allowance ---------------------------------------------------------------------------------
def _moved_off(theta, distance):
    """A line through the vertex, and the same moved to its waste side by a distance."""
    line = LineString([(0, 0), along_heel(theta)])
    x, y = turned((distance, 0), theta + 90)
    return line.coords, translate(line, x, y).coords


@of("shift of a mark along the heel or the toe")
def _(e_s, theta):
    line, moved = _moved_off(theta, e_s)
    return at_height(*line, 1) - at_height(*moved, 1)


@of("shift of a mark on the end")
def _(e_s, theta):
    line, moved = _moved_off(theta, e_s)
    return at_distance(*moved, 0) - at_distance(*line, 0)


@of("saw line on the other leg's inner face")
def _(t, s, e_s, theta):
    """The finished line through the width left, moved to its waste side; where it meets the inner face's height."""
    _, moved = _moved_off(theta, e_s)
    return at_height(*translate(LineString(moved), 0, s).coords, t)


@of("middle of the kerf, from the finished line")
def _(e_s, k):
    return LineString([(e_s, 0), (e_s + k, 0)]).centroid.x


@of("far side of the kerf, from the finished line")
def _(e_s, k):
    return translate(LineString([(0, 0), (k, 0)]), e_s).bounds[2]


@of("length of a blank")
def _(L, n_e, e_s):
    """The finished part with a strip left on at one end, or at both."""
    left, right = (-e_s if n_e == 2 else 0), (L + e_s if n_e >= 1 else L)
    return LineString([(0, 0), (L, 0)]).union(LineString([(left, 0), (right, 0)])).length


@of("saw mark of a piece in a batch")
def _(n_p, L_b, k):
    """Blank and kerf laid end to end on the stick: where the last blank ends."""
    laid = [(0.0, L_b)]
    for _ in range(n_p - 1):
        laid.append(translate(LineString([(0, 0), (L_b, 0)]), laid[-1][1] + k).bounds[0::2])
    return laid[-1][1]


@of("kerf of a blade whose teeth are set")
def _(g_b, s_t):
    """The teeth seen from the front: two of them, bent to their sides; how wide they are together."""
    back = Polygon([(0, 0), (g_b, 0), (g_b, 1), (0, 1)])
    return translate(back, s_t).union(translate(back, -s_t)).bounds[2] - translate(back, -s_t).bounds[0]


@of("shift of the line by an error of a mark along the heel")
def _(m, theta):
    line = LineString([turned((x, 0), theta) for x in (-100, 100)])
    return line.distance(Point(m, 0))


@of("shift of the line by an error of a mark across the leg")
def _(m, theta):
    line = LineString([turned((x, 0), theta) for x in (-100, 100)])
    return line.distance(Point(0, m))


# --- how the angle sits ---------------------------------------------------------------------------------
def _on_its_toes(a, b, tA, tB, r2):
    """The L as a polygon and its hull's long edge: the table, when the heel is up."""
    arc = [turned((r2, 0), angle) for angle in np.linspace(0, 90, 7201)]
    toe_a = [(a - r2 + x, tA - r2 + y) for x, y in arc]
    toe_b = [(tB - r2 + x, b - r2 + y) for x, y in arc]
    hull = Polygon([(0, 0), (a, 0), *toe_a, (tB, tA), *toe_b, (0, b)]).convex_hull
    ring = list(hull.exterior.coords)
    return max(pairwise(ring), key=lambda edge: dist(*edge) * (min(map(min, edge)) > 0))


@of("height of the heel above the table, heel up on both toes")
def _(a, b, tA, tB, r2):
    # The table goes on beyond the toes: a long leg's heel may stand over it outside them.
    table = scale(LineString(_on_its_toes(a, b, tA, tB, r2)), 1e3, 1e3, origin="center")
    return table.distance(Point(0, 0))


@of("slope of leg A on the table, heel up on both toes")
def _(a, b, tA, tB):
    (y0, z0), (y1, z1) = _on_its_toes(a, b, tA, tB, 0.0)
    return between((abs(y1 - y0), abs(z1 - z0)), (1, 0))


@of("metal in front of the blade in a sloping leg")
def _(t, gamma):
    leg = rotate(Polygon([(-50, 0), (50, 0), (50, t), (-50, t)]), gamma, origin=(0, 0))
    return leg.intersection(LineString([(0, -99), (0, 99)])).length


def _on_its_block(b, tA, high):
    """The L outside up, leg A on a block so high: its flat leg as one rectangle, its hanging leg as another."""
    top = high + tA
    return Polygon([(0, high), (9, high), (9, top), (0, top)]).union(Polygon([(0, top - b), (0.05, top - b), (0.05, top), (0, top)]))


@of("how far the hanging leg reaches below the block's top")
def _(b, tA):
    return -_on_its_block(b, tA, 0).bounds[1]


@of("least height of the block under a leg")
def _(b, tA, c_b):
    """The height at which the lowest metal is just so far above the table: found, not solved."""
    return brentq(lambda high: _on_its_block(b, tA, high).bounds[1] - c_b, -9, 9, xtol=1e-14)


@of("highest metal above the table, a leg on its block")
def _(h_b, tA):
    return _on_its_block(0.5, tA, h_b).bounds[3]


# --- squaring -------------------------------------------------------------------------------------------
@of("slope of an end out of square")
def _(e_A):
    return at_height((0, 0), turned((0, 1), -e_A), 1)


@of("gap of light at the toe")
def _(W, e_A):
    return at_height((0, 0), turned((0, 1), -e_A), W)


@of("out of square from the gap of light")
def _(g, W):
    return between((g, W), (0, 1))


@of("gap between the lines of the flip test")
def _(h_q, e_q):
    return at_height((0, 0), turned((0, 1), -e_q), h_q) - at_height((0, 0), turned((0, 1), e_q), h_q)


def _opened(beta, tB):
    """Leg B opened beyond 90 degrees: two points of its inner face, tB from its outer one, as (y, z)."""
    direction, inward = turned((0, 1), beta), turned((tB, 0), beta)
    return inward, (inward[0] + direction[0], inward[1] + direction[1])


@of("inside corner where the legs are not at 90 degrees")
def _(tA, tB, beta):
    return meet((0, tA), (1, tA), *_opened(beta, tB))[0]


@of("where the fillet begins, legs not at 90 degrees")
def _(tA, tB, r, beta):
    """A circle that lies on leg A's inner face is pushed towards leg B until it touches that one's."""
    (y0, z0), (y1, z1) = _opened(beta, tB)
    face = LineString([(y0 - 99 * (y1 - y0), z0 - 99 * (z1 - z0)), (y0 + 99 * (y1 - y0), z0 + 99 * (z1 - z0))])
    touching = meet((0, tA + r), (1, tA + r), (y0, z0), (y1, z1))[0]  # its centre on the face itself
    return brentq(lambda y: face.distance(Point(y, tA + r)) - r, touching, touching + 9, xtol=1e-14)


@of("gap of light beside a square set in the inside")
def _(y, y_t, beta):
    """Two places on a leg, leaned with it: how far the outer one lies from the upright through the inner one."""
    (inner, low), outer = turned((0, y_t), beta), turned((0, y), beta)
    blade = LineString([(inner, low - 99), (inner, low + 99)])
    return blade.distance(Point(outer)) * np.sign(y - y_t)


@of("nick in the other leg's toe, legs closed")
def _(c, tB, b, r2, chi, s):
    """Leg B's round toe leans over leg A; where does the saw cross the place of it that reaches furthest?"""
    arc = [turned((r2, 0), angle) for angle in np.linspace(0, 90, 72001)]
    leaned = [turned((tB - r2 + y, b - r2 + z), -chi) for y, z in arc]
    return at_height(*taper_by_slope(s, c), max(y for y, _ in leaned))


def _line_on_leg_b(c, leg_b):
    """How far out of square the saw's line on leg B is: the plane x = c y, and leg B's direction (y, z)."""
    y, z = leg_b
    saw = np.cross([c, 1, 0], [0, 0, 1])  # normal of the plane through its line on leg A and the upright
    face = np.cross([1, 0, 0], [0, y, z])
    line = np.cross(saw, face)
    square = np.array([0, y, z])
    return between(line if line @ square > 0 else -line, square)


@of("line on the other leg, legs not at 90 degrees")
def _(c, beta):
    return _line_on_leg_b(c, turned((0, 1), beta))


@of("line on the other leg, stock rolled at the saw")
def _(c, psi):
    return _line_on_leg_b(c, turned((0, 1), psi))


@of("slope of a taper sawn in rolled stock")
def _(c, psi):
    """One inch up leg A, which lies psi off the table: how far along the heel is the saw plane?"""
    y, _ = turned((1, 0), psi)
    return at_height((0, 0), (c, 1), y)


@of("vertex-projection mark, stock rolled at the saw")
def _(c, tA, tB, psi):
    """The inside corner turned with the stock; how far along the heel is the saw plane over that place?"""
    y, _ = turned((tB, tA), psi)
    return at_height((0, 0), (c, 1), y)


def _twisted(leg, omega, x):
    """A leg from the heel, turned slice by slice along a twisted stick."""
    for _ in range(64):
        leg = rotate(leg, omega * (x / 64) / 12, origin=(0, 0))
    return leg


@of("roll of a twisted stick between two places")
def _(omega, x):
    return between(_twisted(LineString([(0, 0), (1, 0)]), omega, x).coords[1], (1, 0))


@of("how far a twisted leg's toe stands off a flat table")
def _(W, omega, x):
    return _twisted(LineString([(0, 0), (W, 0)]), omega, x).bounds[3]


@of("how much less of a leg the inner face shows, toe bevelled or round")
def _(tA, r2, kappa):
    """The toe's edge leans in from the outer corner at 0; a circle under the inner face is pushed out until it touches the edge."""
    away = turned((0, 9), kappa)
    edge = LineString([(-away[0], -away[1]), away])
    crossing = at_height((0, 0), away, tA - r2)
    centre = brentq(lambda y: edge.distance(Point(y, tA - r2)) - r2, crossing - 9, crossing, xtol=1e-14)
    return -centre


@of("inside edge minus outside edge of a tilted cut")
def _(t, tau):
    blade = (0, 0), turned((0, 1), -tau)
    return at_height(*blade, t) - at_height(*blade, 0)


# --- compound cuts --------------------------------------------------------------------------------------
def _on_the_table(p, q, gamma):
    """The saw plane x = p y + q z seen from the table: its trace (along, across) and its normal's upright share.

    Stock with its heel up slopes by gamma: leg A falls away from the heel. Flat stock has gamma = 0.
    """
    across, up = turned((1, 0), -gamma), turned((0, 1), -gamma)
    in_plane_a, in_plane_b = np.array([p, 1, 0]), np.array([q, 0, 1])
    normal = np.cross(in_plane_a, in_plane_b)
    upright = np.array([0, *up])
    trace = np.cross(normal, upright)
    along_across = np.array([trace[0], trace[1:] @ np.array(across)])
    return along_across, between(normal, upright)


@of("miter, the leg flat on the table")
def _(p):
    trace, _ = _on_the_table(p, 0.3, 0)
    return between(trace * np.sign(trace[1]), (0, 1))


@of("tilt, the leg flat on the table")
def _(q, mu):
    p = at_distance((0, 0), along_heel(mu), 1)
    _, normal_to_upright = _on_the_table(p, q, 0)
    return abs(90 - normal_to_upright)


@of("miter, heel up on both toes")
def _(p, q, gamma):
    trace, _ = _on_the_table(p, q, gamma)
    trace = trace * np.sign(trace[1])
    return between(trace, (0, 1)) * np.sign(trace[0])


@of("tilt, heel up on both toes")
def _(p, q, gamma):
    _, normal_to_upright = _on_the_table(p, q, gamma)
    return abs(90 - normal_to_upright)


def _sawn_heel_up(mu, nu, gamma, leg):
    """One inch up a leg: how far along the heel is the blade? The leg as (across, down) on the table, the blade by two of its directions.

    The blade's line on the table is turned by the miter; its slope is leaned by the tilt, square to that line.
    """
    along, across = turned((0, 1), -mu)
    line, waste = np.array([along, across, 0]), np.array([across, -along, 0])
    lean, upright = turned((0, 1), -nu)
    blade = lean * waste + upright * np.array([0, 0, 1])
    one, two = np.linalg.solve([[line[1], blade[1]], [line[2], blade[2]]], turned(leg, gamma))
    return float(one * line[0] + two * blade[0])


@of("slope of the line on leg A that heel-up settings give")
def _(mu, nu, gamma):
    return _sawn_heel_up(mu, nu, gamma, (1, 0))


@of("slope of the line on leg B that heel-up settings give")
def _(mu, nu, gamma):
    return _sawn_heel_up(mu, nu, gamma, (0, 1))


@of("angle of the cut's line on a leg, from its slope")
def _(p):
    """From the heel to the place an inch up the leg: its angle to the heel."""
    return between((p, 1), (1, 0))


@of("least teeth to the inch")
def _(z_n, t):
    return 1 / (t / z_n)  # the pitch at which z_n teeth just span the thickness


@of("most teeth to the inch")
def _(z_m, h_o):
    return 1 / (h_o / z_m)  # the pitch at which z_m teeth just span the height of the leg


# --- allowance ------------------------------------------------------------------------------------------
def _spread(*parts: float) -> float:
    """Standard deviation of a sum of independent parts, each plus or minus its own, all cases counted."""
    cases = [sum(signs) for signs in product(*[(part, -part) for part in parts])]
    return float(np.std(cases))


@of("how far a turned cut strays")
def _(l_p, delta):
    return at_distance((0, 0), along_heel(delta), l_p)


@of("least allowance, worst case")
def _(e_p, f_p, l_e, delta):
    """The cut runs along x; it may be off by e_p and turned either way about a point of it."""
    pivot = f_p * l_e
    strays = []
    for turn in (delta, -delta):
        x, y = along_heel(turn)
        line = (pivot, e_p), (pivot + x, e_p + y)
        strays += [at_distance(*line, 0), at_distance(*line, l_e)]
    return max(strays)


@of("uncertainty of the gap at an end of the cut")
def _(sigma_p, l_p, sigma_a):
    return _spread(sigma_p, at_distance((0, 0), (1, sigma_a), l_p))


@of("standard uncertainty from limits")
def _(a_l):
    return quad(lambda x: x * x / (2 * a_l), -a_l, a_l)[0] ** 0.5


@of("growth by heat")
def _(alpha, L, dT):
    return quad(lambda degree: alpha * L, 0, dT)[0]


@of("temperature rise with no loss")
def _(P_w, t_s, m_k, c_p):
    joules = quad(lambda second: P_w, 0, t_s)[0]
    return brentq(lambda rise: m_k * c_p * rise - joules, 0, 1e7, xtol=1e-12, rtol=1e-15)


# --- holes ----------------------------------------------------------------------------------------------
@of("edge distance in diameters")
def _(e, D):
    return brentq(lambda number: number * D - e, 0, 1e3, xtol=1e-14)


def _lowest_row(t, r, H_d):
    """The head, a circle, is pushed towards the heel until its rim stands over the fillet's tangent."""
    return brentq(lambda y: Point(y, 0).buffer(H_d / 2).bounds[0] - fillet_point(t, r, 0.0), 0, 10, xtol=1e-14)


@of("nearest row of holes to the heel")
def _(t, r, H_d):
    return _lowest_row(t, r, H_d)


@of("band for a row of holes")
def _(W, e, t, r, H_d):
    highest = brentq(lambda y: Point(W, 0).distance(Point(y, 0)) - e, W - 2 * e, W, xtol=1e-14)
    return highest - _lowest_row(t, r, H_d)


@of("least angle that keeps the edge distance")
def _(x, y, s, e):
    clearance = CONSTRUCTIONS["distance from a point to the taper line"]
    through_the_hole = between((x, y - s), (1, 0))
    return brentq(lambda theta: clearance(x, y, s, theta) - e, through_the_hole, min(through_the_hole + 90, 179), xtol=1e-12)


def _from_toe(X, W, theta):  # noqa: N803 (the formulas' letters)
    """The taper's line through its mark on the toe, long to both sides."""
    x, y = along_heel(theta)
    return LineString([(X - 999 * x, W - 999 * y), (X + 999 * x, W + 999 * y)])


@of("largest angle that keeps the edge distance, run fixed")
def _(x, X, y, W, e):  # noqa: N803
    """The line turns about the toe mark, from where the hole is furthest from it until it comes within the edge distance."""
    furthest = between((W - y, x - X), (1, 0)) * np.sign(x - X)
    return brentq(lambda theta: _from_toe(X, W, theta).distance(Point(x, y)) - e, furthest, furthest + 90, xtol=1e-12)


@of("largest run that keeps the edge distance, angle fixed")
def _(x, y, W, theta, e):  # noqa: N803
    """The line is pushed along the toe, from where it runs through the hole back to where the hole keeps its distance."""
    through = at_height((x, y), tuple(np.add((x, y), along_heel(theta))), W)
    return brentq(lambda X: _from_toe(X, W, theta).distance(Point(x, y)) - e, through - 99, through, xtol=1e-13)  # noqa: N803


@of("largest run whose bevel keeps the other leg's hole, slope fixed")
def _(x_n, e, W, t, c):  # noqa: N803
    """From the bevel, an edge distance before the hole at the other leg's inner face, up the line to the toe."""
    return at_height((x_n - e, t), (x_n - e + c, t + 1), W)


@of("nearest hole to the end behind a taper of the other leg")
def _(e, t, s, c):
    """From where the saw leaves the inner face, the edge distance along the heel."""
    bevel = at_height((0, s), (c, s + 1), t)
    return brentq(lambda x: Point(x, 0).distance(LineString([(bevel, -9), (bevel, 9)])) - e, bevel, bevel + 9, xtol=1e-14)


@of("length of a rivet")
def _(G, D):
    return LineString([(0, 0), (G, 0), (G + D, 0), (G + D + D / 2, 0)]).length


# --- rounding -------------------------------------------------------------------------------------------
def _rounded(phi, rho):
    """A corner at the origin, one side along x, rounded: the arc's centre and its two tangent points."""
    bisector = turned((1, 0), phi / 2)
    side = LineString([(0, 0), (1e3, 0)])
    reach = brentq(lambda d: side.distance(Point(d * bisector[0], d * bisector[1])) - rho, 1e-9, 900, xtol=1e-14)
    centre = reach * bisector[0], reach * bisector[1]
    tangent = centre[0], 0.0
    return centre, tangent, turned(tangent, phi)


def _arc_between(centre, one, two, steps=4000):
    start = complex(one[0] - centre[0], one[1] - centre[1])
    turn = -between((start.real, start.imag), (two[0] - centre[0], two[1] - centre[1]))
    swung = [start * cmath.exp(1j * radians(turn * i / steps)) for i in range(steps + 1)]
    return np.array([(centre[0] + z.real, centre[1] + z.imag) for z in swung])


@of("length lost from a rounded corner")
def _(rho, phi):
    return dist((0, 0), _rounded(phi, rho)[0]) - rho


@of("where the rounding begins")
def _(rho, phi):
    return dist((0, 0), _rounded(phi, rho)[1])


@of("length of the arc")
def _(rho, phi):
    return richardson(lambda n: LineString(_arc_between(*_rounded(phi, rho), n)).length)


@of("area lost by rounding")
def _(rho, phi):
    return richardson(lambda n: Polygon([(0, 0), *_arc_between(*_rounded(phi, rho), n)]).area)


@of("largest radius that keeps a hole's edge distance")
def _(n_1, n_2, phi, e):
    """The hole lies where both edges moved inwards meet; the radius grows until the arc comes within the edge distance."""
    hole = meet((0.0, n_1), (1.0, n_1), turned((0.0, -n_2), phi), turned((1.0, -n_2), phi))

    def slack(rho):
        # The centre: both edges moved inwards by the radius.
        other = turned((0.0, -rho), phi), turned((1.0, -rho), phi)
        return rho - dist(hole, meet((0.0, rho), (1.0, rho), *other)) - e

    # From where the hole has most room the arc only comes nearer.
    best = max(np.geomspace(e, 1e5, 4000), key=slack)
    return brentq(slack, best, 1e6, xtol=1e-13)


@of("length lost at the nose of a vertex taper")
def _(rho, theta):
    (x, _), *_ = _rounded(theta, rho)
    return x - rho


@of("largest radius of the nose of a vertex taper")
def _(W, theta):  # noqa: N803 (the formulas' letters)
    """The radius grows until the arc begins on the tapered edge at the toe's height."""
    return brentq(lambda rho: _rounded(theta, rho)[2][1] - W, 1e-3, 2 * W, xtol=1e-14)


@of("error of stepping off, all steps alike")
def _(n_s, e_1):
    return float(np.cumsum([e_1] * n_s)[-1])


@of("error of stepping off, steps independent")
def _(n_s, e_1):
    return _spread(*[e_1] * n_s)


# --- noise ----------------------------------------------------------------------------------------------
@of("hours allowed at a sound level")
def _(L_A):
    """Every 5 dBA halve the time, evenly: the hours fall at a rate in proportion to themselves, walked from 8 h at 90."""
    fall = -log(2) / 5
    walk = solve_ivp(lambda level, hours: fall * hours, (90.0, L_A), [8.0], rtol=1e-12, atol=1e-13, method="DOP853")
    return walk.y[0, -1]


# --- the stick ---------------------------------------------------------------------------------------------
@of("what is left of a usable length")
def _(E_l, S_b, n_c, k):  # noqa: N803 (the formulas' letters)
    """Metal laid on a stick, blank by blank, each with its kerf behind it; what no part of it covers."""
    stick = LineString([(0, 0), (E_l, 0)])
    at = 0.0
    for _ in range(n_c):
        stick = stick.difference(LineString([(at, 0), (at + S_b / n_c, 0)]))
        at += S_b / n_c
        stick = stick.difference(LineString([(at, 0), (at + k, 0)]))
        at += k
    return stick.length


# --- rough cuts ----------------------------------------------------------------------------------------------
@of("what a rough cut takes between two blanks, besides their sanding allowances")
def _(e_h, e_s, k):
    """The strip between two finished lines, less the allowances that both blanks have anyway."""
    return LineString([(0, 0), (e_h, 0), (e_h + k, 0), (e_h + k + e_h, 0)]).length - LineString([(0, 0), (e_s, 0), (2 * e_s, 0)]).length


@of("length of a blank that a hacksaw parts off")
def _(L, e_s, e_h):
    return LineString([(-e_s, 0), (0, 0), (L, 0), (L + e_h, 0)]).length
