"""The part in space: a closed solid of the right volume, and lines hidden where they should be."""

import math
from collections import Counter
from dataclasses import replace

import pytest
from random_parts import part as random_part

from anglelib.drawing.face import Axis
from anglelib.drawing.pictorial import Projection, pictorial, pictorial_sheet
from anglelib.drawing.sheet import Line, Polyline
from anglelib.drawing.solid_lines import Camera, Hider, drawn, edges_of, faces_of, normal
from anglelib.geometry.solid import solid_of
from anglelib.part import Cope, Corner, Part, Taper
from anglelib.section import Section

SEEDS = range(40)


def volume(faces):
    """By the divergence theorem, each face fanned into triangles."""
    total = 0.0
    for face in faces:
        a = face[0]
        for b, c in zip(face[1:], face[2:]):
            total += a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])
    return total / 6


@pytest.mark.parametrize("seed", SEEDS)
def test_the_faces_close_and_look_outward(seed):
    """Every edge has two faces, run through in opposite senses; so the volume is that of one closed body."""
    part = random_part(seed)
    faces = faces_of(part)
    seen = Counter()
    for face in faces:
        for one, two in zip(face, face[1:] + face[:1]):
            key = (tuple(round(v, 6) + 0.0 for v in one), tuple(round(v, 6) + 0.0 for v in two))
            if key[0] != key[1]:
                seen[key] += 1
    unpaired = [key for key in seen if seen[key] != seen[key[::-1]]]
    assert unpaired == []
    assert volume(faces) > 0


def test_the_volume_is_that_of_a_reference_worked_by_hand():
    """L 1 x 1 x 1/8, sharp corners, 6 long, leg A tapered to the vertex over run 2.

    Leg A beyond leg B: its area is 7/8 high; what is cut off is the prism of the triangle above the
    line over the whole leg (1 x 2 / 2 on thickness 1/8), and leg B's bevel, a wedge 1/4 long at the
    heel's side over 7/8 of height: 1/2 (1/8)(1/4)(7/8).
    """
    part = Part("P", "P", Section(1, 1, "1/8"), "6061-T6", 6, tapers=[Taper("A", 1, 0, run=2)])
    whole = 6 * (1 * 0.125 + 0.875 * 0.125)
    leg_a = 0.125 * 1.0  # 1/8 thick, triangle 1 x 2 / 2
    leg_b = 0.5 * 0.125 * 0.25 * 0.875
    assert volume(faces_of(part)) == pytest.approx(whole - leg_a - leg_b)


def test_a_cope_takes_its_block():
    part = Part("P", "P", Section(1, 1, "1/8"), "6061-T6", 6, copes=[Cope("A", 2, "1 1/4", "1/2", "1/8")])
    whole = 6 * (1 * 0.125 + 0.875 * 0.125)
    # its inside radius leaves the metal between a square corner and six chords of a quarter circle
    left = (1 - 0.5 * 6 * math.sin(math.radians(15))) / 64
    assert volume(faces_of(part)) == pytest.approx(whole - (1.25 * 0.5 - left) * 0.125)
    # the leg stays one face: no line runs along it where the cope's floor would be
    camera = Camera()
    lines = [e for e in edges_of(faces_of(part)) if drawn(e, camera)]
    assert not [e for e in lines if e.start[1] == e.end[1] == 0.5 and min(e.start[0], e.end[0]) < 4.75 - 1e-9]


@pytest.mark.parametrize("leg", ["A", "B"])
@pytest.mark.parametrize("end", [1, 2])
def test_rounded_corners_and_copes_are_those_of_the_solid(leg, end):
    """Volumes beside those integrated over the true arcs; chords of 15 degrees lose a little at a corner, and add a little in a cope."""
    other = "B" if leg == "A" else "A"
    square = Part("P", "P", Section("1 1/2", "1 1/2", "1/8", fillet="1/8"), "6061-T6", 5)
    cut = replace(square, tapers=[Taper(leg, end, "1/2", run=2)], corners=[Corner(leg, end, "1/2"), Corner(other, 3 - end, "3/8")])
    coped = replace(square, copes=[Cope(leg, end, 1, "1/2", "1/4")], corners=[Corner(other, end, "1/4")])
    for part in (cut, coped):
        sharp = replace(part, corners=[])
        exact, drawn_volume = solid_of(part).volume, volume(faces_of(part))
        arcs = volume(faces_of(sharp)) - drawn_volume
        # what the fillet's chords add is in both
        fillet = volume(faces_of(square)) - solid_of(square).volume
        assert drawn_volume - fillet == pytest.approx(exact, rel=5e-4)
        assert arcs > 1e-4


def test_normals_of_a_plain_angle():
    faces = faces_of(Part("P", "P", Section(1, 1, "1/8"), "6061-T6", 6))
    assert len(faces) == 8
    found = sorted(tuple(round(v, 9) + 0.0 for v in normal(face)) for face in faces)
    want = [(-1, 0, 0), (1, 0, 0), (0, -1, 0), (0, 1, 0), (0, 1, 0), (0, 0, -1), (0, 0, 1), (0, 0, 1)]
    assert found == sorted(want)
    assert len(edges_of(faces)) == 18


def test_a_point_behind_a_face_is_hidden_and_one_before_it_is_not():
    camera = Camera(0.0001, 0.0001)
    wall = [(0.0, 0.0, 1.0), (4.0, 0.0, 1.0), (4.0, 3.0, 1.0), (0.0, 3.0, 1.0)]
    hider = Hider([wall], camera)
    pieces = hider.pieces((-1.0, 1.0, 0.0), (6.0, 1.0, 0.0))
    assert [seen for *_, seen in pieces] == [True, False, True]
    assert pieces[1][0][0] == pytest.approx(0, abs=1e-3) and pieces[1][1][0] == pytest.approx(4, abs=1e-3)
    assert [seen for *_, seen in hider.pieces((-1.0, 1.0, 2.0), (6.0, 1.0, 2.0))] == [True]


def _sampled(part, side):
    """What is seen, by brute force: many points on each edge, each against every triangle of every face."""
    axis = Axis.fit(float(part.length), (), 1e9, 25.4)
    view = Projection(axis, side)
    faces = [[view.turned(p) for p in face] for face in faces_of(part)]
    camera = view.camera
    flat = [[camera.paper(p) for p in face] for face in faces]
    triangles = [(f[0], b, c) for f in flat for b, c in _ears(f)]
    return faces, flat, triangles, view


def _ears(face):
    """Only for convex faces: a fan."""
    return list(zip(face[1:], face[2:]))


def test_what_is_seen_agrees_with_brute_force():
    """A plain tapered angle without fillet: its concave end faces are split in two convex ones for the check."""
    part = Part("P", "P", Section(1, 1, "1/8"), "6061-T6", 3, tapers=[Taper("A", 1, "1/4", run="1 1/2")])
    faces, _, _, view = _sampled(part, "inside")
    camera = view.camera
    convex = []
    for face in faces:
        if len(face) == 6:  # an L: two rectangles
            xs = {round(p[0], 6) for p in face}
            x = xs.pop() if len(xs) == 1 else None
            if x is not None:
                t, w = 0.125 * 25.4, max(p[1] for p in face)
                b = max(p[2] for p in face)
                convex.append([(x, 0, 0), (x, w, 0), (x, w, t), (x, 0, t)])
                convex.append([(x, 0, t), (x, t, t), (x, t, b), (x, 0, b)])
                continue
        convex.append(face)
    triangles = [tuple(map(camera.paper, (f[0], b, c))) for f in convex for b, c in _ears(f)]

    def covered(x, y, depth):
        for (x1, y1, d1), (x2, y2, d2), (x3, y3, d3) in triangles:
            det = (y2 - y3) * (x1 - x3) + (x3 - x2) * (y1 - y3)
            if abs(det) < 1e-9:
                continue
            u = ((y2 - y3) * (x - x3) + (x3 - x2) * (y - y3)) / det
            v = ((y3 - y1) * (x - x3) + (x1 - x3) * (y - y3)) / det
            if min(u, v, 1 - u - v) > 1e-6 and u * d1 + v * d2 + (1 - u - v) * d3 > depth + 1e-3:
                return True
        return False

    hider = Hider(faces, camera)
    checked = 0
    for edge in edges_of(faces):
        a, b = camera.paper(edge.start), camera.paper(edge.end)
        pieces = hider.pieces(edge.start, edge.end)
        for i in range(1, 40):
            t = i / 40 + 0.0031
            x, y, d = (p + t * (q - p) for p, q in zip(a, b))
            for one, two, seen in pieces:
                long = math.dist(one, two)
                if long and math.dist(one, (x, y)) + math.dist((x, y), two) < long + 1e-9:
                    assert seen == (not covered(x, y, d))
                    checked += 1
                    break
    assert checked > 500


def test_hands_look_different_and_hidden_edges_are_dashed():
    left = Part("L", "L", Section(1, 1, "1/8", fillet="1/8"), "6061-T6", 3, tapers=[Taper("A", 1, 0, run="1 1/2")])
    axis = Axis.fit(3, (), 1e9, 25.4)
    one, two = pictorial(left, axis), pictorial(left.mirrored(), axis)
    assert one != two
    kinds = {item.kind for item in one if isinstance(item, (Line, Polyline))}
    assert kinds == {"outline", "hidden", "tangent"}
    assert not [item for item in pictorial(left, axis, hidden=False) if item.kind == "hidden"]


def test_the_other_side_is_the_same_part_rolled_half_round():
    part = Part("L", "L", Section(1, 1, "1/8"), "6061-T6", 3, tapers=[Taper("A", 1, 0, run="1 1/2")])
    axis = Axis.fit(3, (), 1e9, 25.4)
    inside, outside = Projection(axis, "inside"), Projection(axis, "outside")
    x, y, z = inside.turned((1.0, 0.5, 0.25))
    assert outside.turned((1.0, 0.5, 0.25)) == (x, -y, -z)  # a rotation, not a reflection
    assert "seen from the outside" in pictorial_sheet(part, side="outside").sentence
    with pytest.raises(ValueError, match="side is one of inside, outside"):
        pictorial_sheet(part, side="top")
