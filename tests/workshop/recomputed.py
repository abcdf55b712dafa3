"""Every answer of a worksheet once more, by another path: polygons, walks along a stick, points turned in space.

Numbers are read from what is printed where the question prints them, else from the thing that is asked about.
None of these uses a formula of the library.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import numpy as np
from shapely import LineString, Point, Polygon, box
from shapely.affinity import translate

FAR = 100.0


def number(text: str) -> Fraction:
    """A length as it is printed: 4 3/8."""
    return sum((Fraction(word) for word in text.split()), Fraction(0))


def printed(pattern: str, prompt: str) -> list[Fraction]:
    """The lengths that a pattern finds in the prompt; # is a length."""
    found = re.search(pattern.replace("#", r"(\d+ \d+/\d+|\d+/\d+|\d+)"), prompt)
    assert found is not None, prompt
    return [number(text) for text in found.groups()]


def leg(part, name: str) -> Polygon:
    """A leg's outer face, laid flat, with its taper cut off: x from end 1, y from the heel."""
    length, width = float(part.length), float(part.section.leg(name))
    face = box(0, 0, length, width)
    for taper in part.tapers:
        if taper.leg == name:
            ends = [(0.0, float(taper.width_left)), (float(taper.run), width), (0.0, width)]
            face = face.difference(Polygon([(x if taper.end == 1 else length - x, y) for x, y in ends]))
    return face


def edge_of(part) -> tuple[np.ndarray, np.ndarray]:
    """The sloping edge of the part's one taper: from the foot on the end to the toe."""
    taper = part.tapers[0]
    x = 0.0 if taper.end == 1 else float(part.length)
    toe = float(taper.run) if taper.end == 1 else float(part.length - taper.run)
    return np.array([x, float(taper.width_left)]), np.array([toe, float(part.section.leg(taper.leg))])


# --- the own part -------------------------------------------------------------------------------------------
def own_blank(part, prompt):
    (length, sand) = printed("is to be # long.* gets # to sand", prompt)
    finished = LineString([(0, 0), (float(length), 0)])
    return finished.buffer(float(sand), cap_style="square").bounds[2] - finished.buffer(float(sand), cap_style="square").bounds[0]


def own_height(part, prompt):
    foot, toe = edge_of(part)
    return toe[1] - leg(part, part.tapers[0].leg).intersection(LineString([(foot[0], -1), (foot[0], FAR)])).length


def own_angle(part, prompt):
    foot, toe = edge_of(part)
    along = toe - foot
    return float(np.degrees(np.arctan2(abs(along[1]), abs(along[0]))))


def own_inside(part, prompt):
    (thick,) = printed("which is # thick", prompt)
    foot, _ = edge_of(part)
    inside = leg(part, part.tapers[0].leg).difference(box(-1, -1, FAR, float(thick)))
    return inside.intersection(LineString([(foot[0], -1), (foot[0], FAR)])).length


def own_edge(part, prompt):
    d, x, y = printed("The # hole of leg . stands # from end 1 and # from the heel", prompt)
    outline = leg(part, part.tapers[0].leg)
    edges = [LineString(pair) for pair in zip(outline.exterior.coords, outline.exterior.coords[1:])]
    free = [edge for edge in edges if not all(y == 0 for _, y in edge.coords)]  # the heel is no edge
    return min(edge.distance(Point(float(x), float(y))) for edge in free) / float(d)


def own_hand(part, prompt):
    """The taper's foot as a point in space, turned half round about the line that halves the corner."""
    foot, _ = edge_of(part)
    out = np.array([foot[0], foot[1], 0.0] if part.tapers[0].leg == "A" else [foot[0], 0.0, foot[1]])
    x, a, b = float(part.length) - out[0], out[2], out[1]
    return f"{'A' if a > b else 'B'}{1 if x < float(part.length) / 2 else 2}"


# --- the lessons --------------------------------------------------------------------------------------------
def gap(thing, prompt):
    p, q = printed("hole P at #, hole Q at #", prompt)
    return LineString([(float(p), 0), (float(q), 0)]).length


def weight(section, prompt):
    a, b, t = (float(v) for v in printed("Angle # x # x #,", prompt))
    (r,) = (float(v) for v in printed("fillet #", prompt))
    corner = box(t, t, t + r, t + r).difference(Point(t + r, t + r).buffer(r, quad_segs=20_000))
    metal = box(0, 0, t, a).union(box(0, 0, b, t)).union(corner)
    return metal.area * 12 * 0.0975


def handed(part, prompt):
    """Mirrored in a plane across the heel; then whether a turn end for end brings it back, where the legs are equal."""
    cuts = {(taper.leg, taper.end, taper.width_left, taper.run) for taper in part.tapers}
    image = {(name, 3 - end, *rest) for name, end, *rest in cuts}
    turned = {({"A": "B", "B": "A"}[name], 3 - end, *rest) for name, end, *rest in cuts}
    same = image == cuts or (part.section.leg_a == part.section.leg_b and image == turned)
    return "neither" if same else "handed"


def trim(end, prompt):
    """The end's plane through the heel and both toes, over every corner of the section."""
    section, (out_a, out_b) = end.section, end.out
    wide_a, wide_b = float(section.leg_a), float(section.leg_b)
    plane = np.linalg.solve([[wide_a, 0.0], [0.0, wide_b]], [float(out_a), float(out_b)])
    t_a, t_b = float(section.thickness_a), float(section.thickness("B"))
    corners = [(0, 0), (wide_a, 0), (wide_a, t_a), (t_b, t_a), (t_b, wide_b), (0, wide_b)]
    heights = [float(np.dot(plane, corner)) for corner in corners]
    return max(heights) - min(heights)


def millimetres(thing, prompt):
    found = re.search(r"(\d+) mm", prompt)
    return float(Decimal(found.group(1)) / Decimal("25.4"))


def blank(thing, prompt):
    length, sand = printed("to be # long", prompt)[0], printed("gets # to sand", prompt)[0]
    piece = LineString([(0, 0), (float(length), 0)])
    left = translate(piece, -float(sand)) if "Both ends" in prompt else piece
    return left.union(translate(piece, float(sand))).bounds[2] - left.bounds[0]


def batch(thing, prompt):
    each, kerf, mark = printed("each # long", prompt)[0], printed("kerf is #", prompt)[0], printed("Where is mark #", prompt)[0]
    at = Fraction(0)
    for piece in range(int(mark)):
        at += each if not piece else kerf + each
    return at


def angle(part, prompt):
    return own_angle(part, prompt)


def project(part, prompt):
    """Where the line from the vertex to the toe mark crosses the other leg's inner face."""
    taper = part.tapers[0]
    width, thick = float(part.section.leg(taper.leg)), float(part.section.thickness({"A": "B", "B": "A"}[taper.leg]))
    (run,) = printed("run #, to the vertex", prompt)
    line = LineString([(0, 0), (float(run), width)])
    return line.intersection(LineString([(-1, thick), (FAR, thick)])).x


def dressed(thing, prompt):
    """The mark is put where it will be right once the end has gone back."""
    at, dressing = printed("is wanted # from", prompt)[0], printed("# is still to come off", prompt)[0]
    return LineString([(-float(dressing), 0), (float(at), 0)]).length


def what_is_proven(thing, prompt):
    wanted, limit, unsure, read = (Fraction(text) for text in re.findall(r"\d+\.\d+", prompt))
    low, high = read - unsure, read + unsure  # where the part may be
    if wanted - limit <= low and high <= wanted + limit:
        return "within"
    if high < wanted - limit or low > wanted + limit:
        return "outside"
    return "open"


def needs(thing, prompt):
    found = re.search(r"(\d+) blanks", prompt)
    (each,), (kerf,) = printed("blanks of # are", prompt), printed("kerf #;", prompt)
    at = Fraction(0)
    for _ in range(int(found.group(1))):
        at += each + kerf
    return at


AGAIN = {
    "own-blank": own_blank, "own-height": own_height, "own-angle": own_angle, "own-inside": own_inside, "own-edge": own_edge, "own-hand": own_hand,
    "gap": gap, "weight": weight, "handed": handed, "trim": trim, "millimetres": millimetres, "blank": blank, "batch": batch, "angle": angle,
    "project": project, "dressed": dressed, "what-is-proven": what_is_proven, "needs": needs,
}  # fmt: skip
"""By the question's name; the keys of the class pack must all be here."""
