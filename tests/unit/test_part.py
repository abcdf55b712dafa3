"""The part: what is refused, and its hand, of which a second opinion is formed from points in space."""

from __future__ import annotations

from collections import Counter
from dataclasses import FrozenInstanceError, replace
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest

import anglelib
from anglelib.errors import PartError
from anglelib.part import Cope, Corner, Hole, Part, Taper, degrees_of
from anglelib.section import Section

F = Fraction
EQUAL = Section("3/4", "3/4", "1/8", fillet="1/8")
UNEQUAL = Section("1 1/2", "1", "1/8", fillet="1/8")


def part(section=EQUAL, length="6", **features) -> Part:
    return Part("T1", "Trial", section, "6061-T6", length, **features)


# --- the hand, by points in space -------------------------------------------------------------------------
def points(p: Part) -> Counter:
    """Every feature as labelled points in space: x along the heel, y along leg A, z along leg B, from the heel.

    Made without asking the part: a taper is the point of its width left and what sets its slope, at
    its end; a hole is its centre; a corner and a cope are points on the toe.
    """
    found = []

    def at(leg, x, height, label):
        found.append(((x, height, F(0)) if leg == "A" else (x, F(0), height), label))

    def of(end):
        return F(0) if end == 1 else p.length

    for t in p.tapers:
        at(t.leg, of(t.end), t.width_left, ("taper", t.run, t.angle))
    for h in p.holes:
        at(h.leg, h.x, h.y, ("hole", h.diameter, h.flush))
    for c in p.corners:
        at(c.leg, of(c.end), p.section.leg(c.leg), ("corner", c.radius))
    for c in p.copes:
        at(c.leg, of(c.end), c.width_left, ("cope", c.length, c.radius))
    return Counter(found)


def reflected(found: Counter, length: F, *, ends: bool, legs: bool) -> Counter:
    """The points in a mirror across the middle of the length, and in one that exchanges y and z."""
    moved = Counter()
    for ((x, y, z), label), n in found.items():
        x = length - x if ends else x
        moved[((x, z, y) if legs else (x, y, z), label)] += n
    return moved


def handed_in_space(p: Part) -> bool:
    """A part is its own mirror image iff a mirror leaves it as it is.

    The bare angle allows two: the one across its middle and, with equal legs, the one through the
    heel. (On the heel itself a vertex point of leg A and one of leg B are one point: none is used.)
    """
    found = points(p)
    mirrors = [dict(ends=True, legs=False)] + ([dict(ends=False, legs=True)] if p.section.equal_legs else [])
    return all(reflected(found, p.length, **mirror) != found for mirror in mirrors)


def random_part(rng: Random) -> Part:
    """A part with few, coarse features; half of them are made symmetrical, one way or the other."""
    section, length = rng.choice((EQUAL, UNEQUAL)), F(6)
    places = [(leg, end) for leg in "AB" for end in (1, 2)]
    tapers = {place: rng.choice(("1", "1 1/4")) for place in places if rng.random() < 0.4}
    corners = {place for place in places if rng.random() < 0.15}
    copes = {place for place in places if rng.random() < 0.15}
    holes = {(leg, F(x)) for leg in "AB" for x in (1, 3, 5) if rng.random() < 0.3}
    twin = {"A": "B", "B": "A"}
    way = rng.choice(("none", "none", "ends", "legs"))
    if way == "ends":
        tapers.update({(leg, 3 - end): run for (leg, end), run in sorted(tapers.items())})
        corners |= {(leg, 3 - end) for leg, end in corners}
        copes |= {(leg, 3 - end) for leg, end in copes}
        holes |= {(leg, length - x) for leg, x in holes}
    elif way == "legs":
        tapers.update({(twin[leg], end): run for (leg, end), run in sorted(tapers.items())})
        corners |= {(twin[leg], end) for leg, end in corners}
        copes |= {(twin[leg], end) for leg, end in copes}
        holes |= {(twin[leg], x) for leg, x in holes}
    return part(
        section,
        length,
        tapers=[Taper(leg, end, "3/8", run=run) for (leg, end), run in tapers.items()],
        holes=[Hole(leg, x, "7/16", "1/8") for leg, x in sorted(holes)],
        corners=[Corner(leg, end, "1/8") for leg, end in sorted(corners)],
        copes=[Cope(leg, end, "1", "1/4", "1/8") for leg, end in sorted(copes)],
    )


RANDOM = [random_part(Random(f"hand {n}")) for n in range(400)]


def test_hand_agrees_with_mirrors_in_space():
    verdicts = [(p.handed, handed_in_space(p)) for p in RANDOM]
    assert all(ours == theirs for ours, theirs in verdicts)
    assert 50 < sum(ours for ours, _ in verdicts) < 350, "both answers must occur often"


def test_mirrored_and_turned_put_the_features_where_a_mirror_and_a_turn_put_them():
    for p in RANDOM:
        if p.section.equal_legs:
            assert points(p.mirrored()) == reflected(points(p), p.length, ends=False, legs=True)
            assert points(p.turned()) == reflected(points(p), p.length, ends=True, legs=True)
        else:
            assert points(p.mirrored()) == reflected(points(p), p.length, ends=True, legs=False)


def test_mirrored_twice_and_turned_twice_is_the_part():
    for p in RANDOM:
        assert p.mirrored().mirrored()._metal() == p._metal()
        assert p.mirrors(p.mirrored()) and p.mirrored().mirrors(p)
        if p.section.equal_legs:
            assert p.turned().turned()._metal() == p._metal()
            assert p.same_metal_as(p.turned()) and p.turned().same_metal_as(p)
        assert p.handed == (not p.same_metal_as(p.mirrored()))
        assert p.mirrored().handed == p.handed


# --- the demo -----------------------------------------------------------------------------------------------
DEMO = Path(anglelib.__file__).parents[1] / "notebooks" / "demo" / "job.toml"
NEITHER = {"A3", "A4", "B1", "B2", "D1", "E1"}
"""By reasoning on the drawings: square bars and those tapered alike at both ends of one leg."""


def demo_parts() -> list[Part]:
    from anglelib.files import read_job

    return list(read_job(DEMO).parts)


@pytest.mark.parametrize("p", demo_parts(), ids=lambda p: p.id)
def test_every_demo_part_has_its_hand(p):
    assert p.handed is handed_in_space(p) is (p.id not in NEITHER)
    assert p.hand == ("neither" if p.id in NEITHER else {"L": "left", "R": "right"}[p.id[-1]])
    assert p.mirrored().mirrored()._metal() == p._metal()
    if p.section.equal_legs:
        assert p.turned().turned()._metal() == p._metal()


def test_every_handed_demo_part_has_its_partner():
    parts = {p.id: p for p in demo_parts()}
    for p in parts.values():
        if p.handed:
            partner = parts[p.id[:-1] + {"L": "R", "R": "L"}[p.id[-1]]]
            assert p.mirror_of == partner.id and p.mirrors(partner) and not p.same_metal_as(partner)
            assert p.quantity == partner.quantity
        else:
            assert not p.mirror_of


def test_unequal_legs_change_ends_and_equal_legs_change_legs():
    taper = Taper("A", 1, "3/8", run="1 1/4")
    assert part(tapers=[taper]).mirrored().tapers == (Taper("B", 1, "3/8", run="1 1/4"),)
    assert part(UNEQUAL, tapers=[taper]).mirrored().tapers == (Taper("A", 2, "3/8", run="1 1/4"),)
    with pytest.raises(PartError, match="has unequal legs: turned end for end"):
        part(UNEQUAL).turned()


def test_a_claim_is_checked_and_its_absence_is_none():
    tapered = dict(tapers=[Taper("A", 1, "3/8", run="1 1/4")])
    assert part(**tapered).hand is None
    for hand in ("left", "right"):
        assert part(hand=hand, **tapered).handed
        with pytest.raises(PartError, match="its own mirror image: say neither"):
            part(hand=hand)
    with pytest.raises(PartError, match='says "neither", but it is handed'):
        part(hand="neither", **tapered)
    with pytest.raises(PartError, match='hand "L" is unknown: write left, right or neither'):
        part(hand="L", **tapered)


def test_two_equal_holes_are_counted():
    """A bag, not a set: one hole twice is not the same metal description as the hole once."""
    hole = Hole("A", 1, "7/16", "1/8")
    assert not part(holes=[hole, hole]).same_metal_as(part(holes=[hole]))
    other = Hole("A", 5, "7/16", "1/8")
    assert part(holes=[hole, other]).same_metal_as(part(holes=[other, hole]))


def test_alloy_and_section_make_another_metal():
    assert not part().same_metal_as(replace(part(), alloy="6063-T5"))
    assert not part().same_metal_as(part(UNEQUAL))


# --- what is refused ------------------------------------------------------------------------------------------
REFUSED = {
    "id": (dict(id="../x"), "cannot be used"),
    "name": (dict(name="x" * 61), "61 characters long"),
    "note": (dict(note="\n"), "cannot be printed"),
    "length 0": (dict(length=0), "length of the part is 0"),
    "length a float": (dict(length=2.5), 'floating number: write it as text, for example "2.5"'),
    "quantity 0": (dict(quantity=0), "write 1 or more"),
    "quantity a half": (dict(quantity=0.5), "write 1 or more"),
    "quantity true": (dict(quantity=True), "write 1 or more"),
    "quantity 1e9": (dict(quantity=10**9), "over 2000 pieces: split the job"),
    "priority": (dict(priority="high"), "not a whole number from -1000 to 1000"),
    "two tapers in one place": (dict(tapers=[Taper("A", 1, 0, run=1), Taper("A", 1, "1/8", run=2)]), "two entries for a taper"),
    "width left": (dict(tapers=[Taper("A", 1, "3/4", run=1)]), "nothing would be cut"),
    "cope width": (dict(copes=[Cope("A", 1, 1, "3/4", "1/8")]), "nothing would be cut"),
    "cope into the other leg": (dict(copes=[Cope("A", 1, 1, "1/16", "1/8")]), "Leave at least 1/8"),
    "cope deep enough": (dict(copes=[Cope("A", 1, 1, "11/16", "1/8")]), "1/16 deep and its inside radius 1/8: choose a smaller radius"),
    "cope length": (dict(copes=[Cope("A", 1, 6, "1/4", "1/8")]), "shorten the cope"),
    "copes meet": (dict(copes=[Cope("A", 1, "4 1/4", "1/4", "1/8"), Cope("A", 2, "1 3/4", "1/4", "1/8")]), "no toe is left between them. Shorten a cope."),
    "hole before end 1": (dict(holes=[Hole("A", "1/32", "7/16", "1/8")]), "beyond the end"),
    "hole past end 2": (dict(holes=[Hole("A", "5 31/32", "7/16", "1/8")]), "beyond the end of a part 6 long: check its x"),
    "hole off the leg": (dict(holes=[Hole("A", 1, "45/64", "1/8")]), "lies off leg A, which is 3/4 wide: check its y"),
    "hole in the root": (dict(holes=[Hole("A", 1, "11/64", "1/8")]), "runs into leg B, which is 1/8 thick"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refuses_a_part_that_contradicts_itself(name):
    change, says = REFUSED[name]
    with pytest.raises(PartError, match=says):
        Part(**{"id": "T1", "name": "Trial", "section": EQUAL, "alloy": "6061-T6", "length": "6", **change})


def test_the_edge_is_legal():
    assert part(holes=[Hole("A", "1/16", "3/16", "1/8"), Hole("A", "5 15/16", "11/16", "1/8")]).holes


FEATURES = {
    "leg": (lambda: Taper("C", 1, 0, run=1), "write A or B"),
    "end": (lambda: Corner("A", 3, 1), "1 .the datum end. or 2"),
    "end true": (lambda: Corner("A", True, 1), "1 .the datum end. or 2"),
    "run and angle": (lambda: Taper("A", 1, 0, run=1, angle=20), "keep the one that is on the plans"),
    "no slope": (lambda: Taper("A", 1, 0), "one of them sets its slope"),
    "run 0": (lambda: Taper("A", 1, 0, run=0), "run of the taper is 0"),
    "width left": (lambda: Taper("A", 1, "-1/8", run=1), "below 0"),
    "angle 0": (lambda: Taper("A", 1, 0, angle=0), "between 0 and 90"),
    "angle 90": (lambda: Taper("A", 1, 0, angle="90"), "A square cut is no taper"),
    "angle a word": (lambda: Taper("A", 1, 0, angle="steep"), '"steep" is not a number of degrees: write it like 22.5'),
    "angle a power": (lambda: Taper("A", 1, 0, angle="1e99999999"), "is not a number of degrees"),
    "angle long": (lambda: Taper("A", 1, 0, angle="1" * 5000), "is not a number of degrees"),
    "angle a float": (lambda: Taper("A", 1, 0, angle=22.5), 'write it as text, for example "22.5"'),
    "hole diameter": (lambda: Hole("A", 1, 1, 0), "diameter of the hole is 0"),
    "corner radius": (lambda: Corner("A", 1, 0), "radius of the corner is 0"),
    "cope radius": (lambda: Cope("A", 1, "1/8", 0, "1/4"), "lengthen the cope or choose a smaller radius"),
}


@pytest.mark.parametrize("name", FEATURES)
def test_refuses_a_feature_that_cannot_be(name):
    make, says = FEATURES[name]
    with pytest.raises(PartError, match=says):
        make()


def test_angles_are_exact():
    assert degrees_of("22.5", "angle") == degrees_of(F(45, 2), "angle") == degrees_of(" 22.5° ", "angle") == F(45, 2)
    assert degrees_of("0.1", "angle") == F(1, 10)


def test_is_frozen_and_finds_its_features():
    p = part(tapers=[Taper("A", 1, "3/8", run=1)], holes=[Hole("B", 3, "7/16", "1/8"), Hole("B", 1, "7/16", "1/8")])
    with pytest.raises(FrozenInstanceError):
        p.length = F(1)
    assert p.taper_at("A", 1).run == 1 and p.taper_at("A", 2) is None
    assert [h.x for h in p.holes_in("B")] == [1, 3] and p.holes_in("A") == ()
