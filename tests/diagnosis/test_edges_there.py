"""Which readings a finished part has, by hand: each margin just kept, and by a sixty-fourth or less not kept.

Stock 2 x 2 x 1/4 with a fillet of 1/4, so a leg comes clear of the other and of the fillet 1/2 from the heel; 8 in. long. Edges of a
vertex taper are broken by 1/64, so where run : height is 4 : 2 the part begins 1/32 from its end.
"""

from __future__ import annotations

import pytest

from anglelib.inspection.old_names import from_witness, old_id
from anglelib.inspection.reading_edges import MOST_TURNED, edge_gone, toe_left
from anglelib.inspection.reading_ids import MOST, Origin, ReadingId, chosen, origin, takeable
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

STOCK = Section(2, 2, "1/4", fillet="1/4")
HOLES = [Hole("A", 5, 1, "3/16"), Hole("B", 3, 1, "3/16"), Hole("B", 3, "1 1/2", "3/16")]


def made(*tapers, length=8, **features) -> Part:
    return Part("P1", "Trial", STOCK, "6061-T6", length, tapers=tapers, **features)


def taper(leg, end, left, run, **more) -> Taper:
    return Taper(leg, end, left, run=run, **more)


VERTEX_B = taper("B", 1, 0, 4)
"""The part begins 1/32 from end 1, on both legs."""
MARGINS = {  # the reading; on the first part it is there, on the second it is not
    "an eighth of the toe is left": ("toe.A", made(taper("A", 1, "1/2", 4), taper("A", 2, "1/2", "3 7/8")), made(taper("A", 1, "1/2", 4), taper("A", 2, "1/2", "3 57/64"))),
    "a cope as wide as an edge, and a sixteenth": ("toe.A", made(VERTEX_B, copes=[Cope("A", 1, "3/32", 1, "1/32")]), made(VERTEX_B, copes=[Cope("A", 1, "5/64", 1, "1/32")])),
    "a taper that starts a sixteenth behind an edge": ("toe.A", made(VERTEX_B, taper("A", 1, 1, "3/32")), made(VERTEX_B, taper("A", 1, 1, "5/64"))),
    "a cope's straight edge begins at the broken one": ("width.A.1", made(VERTEX_B, copes=[Cope("A", 1, "3/32", 1, "1/16")]), made(VERTEX_B, copes=[Cope("A", 1, "3/32", 1, "5/64")])),
    "the far taper stays a sixteenth off the end": ("width.A.1", made(taper("A", 1, "1/2", 1), taper("A", 2, 0, "31 3/4")), made(taper("A", 1, "1/2", 1), taper("A", 2, 0, 32))),
    "what a taper leaves stands, where the end does": ("width.A.1", made(taper("A", 1, "1/64", 1)), made(taper("A", 1, 0, 1))),
    "one cut leaves a width, two do not": ("width.A.1", made(copes=[Cope("A", 1, 1, 1, "1/8")]), made(taper("A", 1, 1, 2), copes=[Cope("A", 1, 1, 1, "1/8")])),
    "clear of the fillet": ("inside.A.1", made(taper("A", 1, "33/64", 4)), made(taper("A", 1, "1/2", 4))),
    "the other leg rests beside its cope": (
        "inside.A.1", made(taper("A", 1, 1, 4), copes=[Cope("B", 1, 1, "9/16", "1/8")]), made(taper("A", 1, 1, 4), copes=[Cope("B", 1, 1, "35/64", "1/8")]),
    ),
    "the other leg is not tapered there": ("inside.A.1", made(taper("A", 1, 1, 4), taper("B", 2, 1, 4)), made(taper("A", 1, 1, 4), taper("B", 1, 1, 4))),
    "an eighth of the inner toe": ("inside.A", made(taper("A", 1, 1, 4), taper("A", 2, 1, "3 7/8")), made(taper("A", 1, 1, 4), taper("A", 2, 1, "3 57/64"))),
    # leg B's taper, run 1/2 to 2 in. of height, has bevelled the inner face of leg A as far as 1/16
    "an eighth of a bevelled inner toe": ("inside.A", made(taper("B", 1, 0, "1/2"), taper("A", 2, 1, "7 13/16")), made(taper("B", 1, 0, "1/2"), taper("A", 2, 1, "7 53/64"))),
    # leg B rises from 1/4 at end 1 by 1 3/4 in its run: 9/16 at end 2 where the run is 44.8
    "an inner face under the toe": ("inside.A", made(taper("B", 1, "1/4", "44 3/4")), made(taper("B", 1, "1/4", "44 7/8"))),
    # leg B rises from 1/4 at both ends, 5/16 as far as the middle, 4 in., where the run is 22.4
    "an inner face under the middle of the toe": ("inside.A", made(taper("B", 1, "1/4", 22), taper("B", 2, "1/4", 22)), made(taper("B", 1, "1/4", 23), taper("B", 2, "1/4", 23))),
    "an eighth behind a toe's arc": ("inside.A", made(taper("A", 2, 1, "6 7/8"), corners=[Corner("A", 1, 1)]), made(taper("A", 2, 1, "6 57/64"), corners=[Corner("A", 1, 1)])),
    "half a run is a sixteenth": ("mid.A.1", made(taper("A", 1, 1, "1/8")), made(taper("A", 1, 1, "7/64"))),
    "half a run is a sixteenth behind the edge": ("mid.A.1", made(VERTEX_B, taper("A", 1, 1, "3/16")), made(VERTEX_B, taper("A", 1, 1, "11/64"))),
    # a 3-4-5 taper: the arc begins a third of its radius from the corner, so a fifth of it below the toe; half-way is 1 1/4
    "an arc a sixteenth above the half": (
        "mid.A.1", made(taper("A", 1, "1/2", 2), corners=[Corner("A", 1, "3 27/64")]), made(taper("A", 1, "1/2", 2), corners=[Corner("A", 1, "3 29/64")]),
    ),
    "half a run under an arc needs the end": ("mid.A.1", made(taper("A", 1, "1/2", 2), corners=[Corner("A", 1, 1)]), made(taper("A", 1, 0, 2), corners=[Corner("A", 1, 1)])),
    "three quarters of an arc": ("corner.B.1", made(taper("A", 1, 0, 4), corners=[Corner("B", 1, "1/8")]), made(taper("A", 1, 0, 4), corners=[Corner("B", 1, "7/64")])),
    "a start needs its end": ("start.A.1", made(taper("A", 1, "1/64", 4)), made(taper("A", 1, 0, 4))),
    "a cope is read from an end": ("cope.A.1", made(taper("B", 2, 0, 4), copes=[Cope("A", 1, 1, 1, "1/8")]), made(VERTEX_B, copes=[Cope("A", 1, 1, 1, "1/8")])),
    "a cope is read at the toe": (
        "cope.A.1", made(taper("A", 2, 1, "6 7/8"), copes=[Cope("A", 1, 1, 1, "1/8")]), made(taper("A", 2, 1, "6 57/64"), copes=[Cope("A", 1, 1, 1, "1/8")]),
    ),
    # taper A rises one in three, the cope of the other end begins 5 from end 1: they meet 1 2/3 up
    "a peak a sixteenth over a cope's arc": ("peak.A", made(taper("A", 1, 0, 6), copes=[Cope("A", 2, 3, "1 15/32", "1/8")]), made(taper("A", 1, 0, 6), copes=[Cope("A", 2, 3, "1 31/64", "1/8")])),
    "a peak where there is no toe": ("peak.A", made(taper("A", 1, 0, 5), taper("A", 2, 0, 5)), made(taper("A", 1, 0, "3 7/8"), taper("A", 2, 0, 4))),
    "places of holes": ("hole.1.x", made(holes=HOLES[:1]), made(taper("A", 1, 0, 8), taper("A", 2, 0, 8), holes=[Hole("A", 4, "3/4", "3/16")])),
}  # fmt: skip


@pytest.mark.parametrize("name", MARGINS)
def test_a_margin_just_kept_and_not_kept(name):
    id_, there, not_there = MARGINS[name]
    assert id_ in takeable(there) and id_ not in takeable(not_there)


def test_all_of_a_plain_and_of_a_tapered_part():
    plain = ("heel", "toe.A", "width.A.1", "width.A.2", "thickness.A", "inside.A", "toe.B", "width.B.1", "width.B.2", "thickness.B", "inside.B")
    assert takeable(made()) == (*plain, "weight")
    assert takeable(made(holes=HOLES[:2])) == (*plain, "hole.1.x", "hole.1.y", "hole.2.x", "hole.2.y", "weight")
    assert set(takeable(made(taper("A", 1, 1, 4)))) == {*plain, "weight", "inside.A.1", "mid.A.1", "start.A.1"}
    # To the vertex: end 1 is gone, with every width and start there.
    assert set(takeable(made(taper("A", 1, 0, 4)))) == {*plain, "weight", "mid.A.1"} - {"width.A.1"}
    assert set(takeable(made(copes=[Cope("B", 2, 1, 1, "1/8")], corners=[Corner("A", 1, "1/4")]))) == {*plain, "weight", "cope.B.2", "corner.A.1"}


def test_an_edge_takes_off_what_is_thinner_than_it():
    assert edge_gone(made(), 1) == edge_gone(made(taper("A", 1, 1, 4)), 1) == 0
    assert edge_gone(made(taper("A", 1, 0, 4)), 1) == 1 / 32 and edge_gone(made(taper("A", 1, 0, 4)), 2) == 0
    # Blunted to 1/16 by the plans, and broken by 1/64 besides: 5/64 at 4 : 2.
    assert edge_gone(made(taper("A", 1, 0, 4, blunt="1/16")), 1) == 5 / 32
    assert edge_gone(made(taper("A", 1, 0, 4), taper("B", 1, 0, 6)), 1) == 3 / 64


def test_what_is_left_of_a_toe():
    assert toe_left(made(), "A") == 8 and toe_left(made(VERTEX_B), "A") == 8 - 1 / 32 and toe_left(made(VERTEX_B), "B") == 4
    assert toe_left(made(taper("A", 1, 1, 6), taper("A", 2, 1, 6)), "A") == -4
    assert toe_left(made(copes=[Cope("A", 1, 1, 1, "1/8"), Cope("A", 2, "1/2", 1, "1/8")]), "A") == 6.5
    # Held to its angle, a taper may be a degree flatter: 1 in. at 9 degrees for 10.
    from math import radians, tan

    assert MOST_TURNED == 1 and toe_left(made(Taper("A", 1, 1, angle=10)), "A") == pytest.approx(8 - 1 / tan(radians(9)))
    assert toe_left(made(Taper("A", 1, 1, angle="1.5"), length=96), "A") == pytest.approx(96 - 1 / tan(radians(0.75)))


VERTICES = (taper("A", 1, 0, 3), taper("B", 2, 0, 3))
ORIGINS = [
    (made(holes=HOLES), Origin("end", 1)),
    (made(taper("A", 1, 0, 3), holes=HOLES), Origin("end", 2)),
    (made(*VERTICES, holes=HOLES), Origin("toe-corner", 1, "A")),
    (made(*VERTICES, holes=HOLES, corners=[Corner("A", 1, "1/4")]), Origin("toe-corner", 2, "B")),
    (made(taper("B", 1, 0, 3), taper("A", 2, 0, 3), taper("B", 2, 0, 3)), Origin("toe-corner", 1, "B")),
    (made(*VERTICES, holes=HOLES, corners=[Corner("A", 1, "1/4"), Corner("B", 2, "1/4")]), Origin("hole", number=2)),  # the nearest to end 1, the first of two
    (made(*VERTICES, holes=HOLES[:1], corners=[Corner("A", 1, "1/4"), Corner("B", 2, "1/4")]), Origin("witness")),
]  # fmt: skip


@pytest.mark.parametrize(("part", "place"), ORIGINS, ids=lambda v: v.kind if isinstance(v, Origin) else "")
def test_what_holes_are_read_from(part, place):
    assert origin(part) == place
    along = [id_ for id_ in takeable(part) if id_.endswith(".x")]
    assert along == [f"hole.{n + 1}.x" for n in range(len(part.holes)) if place != Origin("hole", number=n + 1)]


CHOSEN = [
    (made(), ("toe.A", "toe.B", "heel", "width.A.1", "width.B.1", "inside.A", "inside.B")),
    (made(holes=HOLES), ("toe.A", "toe.B", "hole.1.x", "hole.2.y", "heel", "width.A.1", "width.B.1")),  # the far one along, the near one across
    (made(taper("A", 1, 1, 4), holes=HOLES), ("start.A.1", "toe.A", "toe.B", "hole.1.x", "hole.2.y", "inside.A.1", "width.A.2")),
    (made(taper("A", 1, 0, 4), holes=HOLES), ("toe.A", "toe.B", "hole.2.x", "hole.2.y", "mid.A.1", "width.A.2", "heel")),  # from end 2 the far one is the other
    (made(taper("B", 2, 1, 4), taper("A", 2, 1, 4), taper("B", 1, "1/2", 2)), ("start.B.1", "toe.A", "toe.B", "mid.B.1", "width.B.2", "heel", "width.A.1")),  # end 1's taper is asked for
    (made(copes=[Cope("A", 1, 1, 1, "1/8")]), ("toe.A", "toe.B", "cope.A.1", "width.A.1", "heel", "width.B.1", "inside.A")),
    (
        made(copes=[Cope("A", 1, 1, 1, "1/8"), Cope("B", 2, 1, 1, "1/8")], corners=[Corner("B", 1, "1/4"), Corner("A", 2, "1/4")], holes=HOLES),
        ("toe.A", "toe.B", "cope.A.1", "width.A.1", "cope.B.2", "width.B.2", "corner.B.1", "hole.1.x", "hole.2.y"),  # one corner of each radius
    ),
    (
        made(copes=[Cope(leg, end, 1, 1, "1/8") for leg in "AB" for end in (1, 2)], holes=HOLES),
        ("toe.A", "toe.B", "cope.A.1", "width.A.1", "cope.A.2", "width.A.2", "cope.B.1", "width.B.1", "cope.B.2", "width.B.2"),
    ),
]  # fmt: skip


@pytest.mark.parametrize(("part", "wanted"), CHOSEN)
def test_what_a_card_asks_for(part, wanted):
    assert chosen(part) == wanted
    assert len(wanted) <= MOST and set(wanted) <= set(takeable(part))


def test_ids_are_taken_apart_and_put_together():
    for id_, one in {"hole.12.y": ReadingId("hole.y", number=12), "heel": ReadingId("heel"), "toe.B": ReadingId("toe", "B"), "mid.A.2": ReadingId("mid", "A", 2)}.items():
        assert ReadingId.of(id_) == one and str(one) == id_


# --- the names of the first form --------------------------------------------------------------------------------
CLEAT = Part(
    "A1L", "Cleat", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "4 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")],
    holes=[Hole("A", "1 7/16", "7/16", "1/8"), Hole("B", "7/16", "3/8", "1/8"), Hole("B", "3 1/2", "7/16", "1/8")],
)  # fmt: skip
OLD = {
    "Heel length": "heel", "length along the heel": "heel", "heel length, blunted": "heel", "toe A length": "toe.A", " Toe  B length, blunted": "toe.B",
    "taper start A, from end 1": "start.A.1", "taper start a at end 1": "start.A.1", "taper start A, at end 1": "start.A.1", "Inside width A at end 1": "inside.A.1", "leg A inside, at end 1": "inside.A.1",
    "mid-taper leg A, end 1": "mid.A.1", "width A at end 1": "width.A.1", "leg B width, at end 2": "width.B.2", "inside width B": "inside.B", "leg B, inside width": "inside.B",
    "thickness A": "thickness.A", "thickness of leg B": "thickness.B", "hole 1 x": "hole.1.x", "hole 3 y": "hole.3.y", "hole 2 X": "hole.2.x",
    "far hole A, from end 1": "hole.3.x", "near hole B, from heel": "hole.2.y",
    "taper start B, from end 1": "", "inside width A at end 2": "", "hole 4 x": "", "hole 0 y": "", "hole 1 z": "", "shoe size": "", "toe C length": "", "heel lengths": "",
}  # fmt: skip


@pytest.mark.parametrize("name", OLD)
def test_an_old_name_is_today_s_id(name):
    assert old_id(name, CLEAT) == OLD[name]


def test_an_old_name_of_a_place_that_is_read_from_elsewhere_now_is_none():
    """Without its end 1 a part's holes are read from end 2; heights are what they were."""
    part = made(taper("A", 1, 0, 3), holes=HOLES)
    assert old_id("hole 1 x", part) == old_id("far hole A, from end 1", part) == "" and old_id("hole 1 y", part) == "hole.1.y"
    assert old_id("near hole B, from heel", part) == "hole.2.y" and old_id("hole 1 y", made()) == ""


def test_old_readings_from_the_witness_line():
    assert from_witness("Taper start A, from  witness") and from_witness("far hole B, from witness")
    assert not from_witness("far hole A, from end 1") and not from_witness("near hole A, from witness")
