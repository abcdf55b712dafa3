"""Hypothesis strategies for jobs and racks: everything that a file can say, legal by construction."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import strategies as st

from anglelib.errors import PartError
from anglelib.geometry.rounding import rounded_corners
from anglelib.job import Job, Shop
from anglelib.lengths import MM
from anglelib.part import HANDS, Cope, Corner, Hole, Part, Pinned, Taper
from anglelib.section import Section
from anglelib.stock.equal_sticks import names as names_in_a_row
from anglelib.stock.rack import Rack, Stick

F = Fraction


def lengths(low, high):
    """Sixty-fourths, thousandths, or tenths of a millimetre."""
    return st.one_of(
        *(st.integers(-(-F(low) // grain), F(high) // grain).map(lambda n, g=grain: n * g) for grain in (F(1, 64), F(1, 1000), MM / 10))
    )


# What a person can type: no control or direction characters, but every quote and sign that could mislead.
_letters = st.one_of(
    st.characters(exclude_categories=("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")), st.sampled_from("\"'\\=+-@#,;[]{}|$_&<> ⅝é角")
)
ids = st.from_regex(r"[A-BD-KO0-9][A-Za-z0-9_-]{2,8}", fullmatch=True).filter(lambda text: text[:3].upper() != "AUX")
alloys = st.sampled_from(["6061-T6", "6063-T5", "2024-T3", "7075-T651", "3003"])


def texts(most, least=0):
    return st.text(_letters, min_size=least, max_size=most)


names = texts(60, 1).filter(str.strip)


@st.composite
def sections(draw):
    a, b = draw(lengths(F(1, 2), 3)), draw(lengths(F(1, 2), 3))
    thick = lengths(F(1, 16), F(3, 16))
    ta, tb = draw(thick), draw(thick)
    if draw(st.booleans()):
        b, tb = a, ta
    toe, heel = draw(st.sampled_from([(F(0), F(0)), (F(1, 32), F(0)), (F(1, 32), F(1, 64))]))
    return Section(a, b, ta, tb, draw(st.sampled_from([F(0), F(1, 16), 2 * MM])), toe, heel)


@st.composite
def parts(draw, section, part_id):
    length = draw(lengths(12, 140))
    places = st.lists(st.sampled_from([(leg, end) for leg in "AB" for end in (1, 2)]), unique=True, max_size=2)
    tapers = [
        Taper(leg, end, draw(lengths(0, F(3, 8))), run=draw(lengths(F(1, 2), 3)))
        if draw(st.booleans())
        else Taper(leg, end, draw(lengths(0, F(3, 8))), angle=F(draw(st.integers(200, 899)), 10))
        for leg, end in draw(places)
    ]
    # In the middle third no taper of ours reaches them.
    holes = [
        Hole(leg, draw(lengths(length / 3 + 2, 2 * length / 3)) if not tapers else length / 2,
             section.leg(leg) - F(9, 64), F(1, 8), draw(st.booleans()))
        for leg in draw(st.lists(st.sampled_from("AB"), max_size=3))
        if not tapers and section.thickness("B" if leg == "A" else "A") + F(13, 64) <= section.leg(leg)
    ]  # fmt: skip
    holes = [hole for n, hole in enumerate(holes) if all(other.leg != hole.leg or abs(other.x - hole.x) >= F(1, 4) for other in holes[:n])]
    copes = [Cope(leg, end, draw(lengths(F(1, 2), 2)), draw(lengths(F(3, 16), F(3, 8))), draw(lengths(F(1, 64), F(1, 8)))) for leg, end in draw(places)]
    coped = {(cope.leg, cope.end) for cope in copes}  # a cope takes the corner away that would be rounded
    part = Part(
        part_id, draw(names), section, draw(alloys), length, tapers=tapers, holes=holes,
        corners=[Corner(leg, end, draw(lengths(F(1, 64), F(1, 4)))) for leg, end in draw(places) if (leg, end) not in coped],
        copes=copes,
        quantity=draw(st.integers(1, 99)), one_piece=draw(st.booleans()), later=draw(st.booleans()),
        priority=draw(st.integers(-1000, 1000)), note=draw(texts(120)), **draw(named_sticks()),
    )  # fmt: skip
    try:
        rounded_corners(part)
    except PartError:  # the cuts leave no edge there to round
        part = replace(part, corners=())
    hand = draw(st.sampled_from([None, *(HANDS[:2] if part.handed else HANDS[2:])]))
    return replace(part, hand=hand)


@st.composite
def named_sticks(draw):
    """What a part says of sticks: one for all of it, or some for a piece each, and some that may give none."""
    one, others, barred = draw(st.one_of(st.just(""), ids)), draw(st.lists(ids, max_size=1)), draw(st.lists(ids, max_size=2))
    pinned = [] if one else [Pinned(stick) for stick in others]
    return {"only_stick": one, "pinned": tuple(pinned), "not_from": tuple(stick for stick in barred if stick not in (one, *others))}


@st.composite
def jobs(draw):
    stock = draw(st.lists(sections(), min_size=1, max_size=3, unique=True))
    listed = [
        draw(parts(draw(st.sampled_from(stock)), part_id))
        for part_id in draw(st.lists(ids, min_size=1, max_size=5, unique_by=str.lower))
    ]
    if draw(st.booleans()) and listed[0].handed and listed[0].hand:
        twin = listed[0].mirrored()
        hand = {"left": "right", "right": "left"}[listed[0].hand]
        listed.append(replace(twin, id="TWIN-of-it", hand=hand, mirror_of=listed[0].id))
    shop = Shop(draw(lengths(0, 1)), draw(lengths(0, 1)), draw(lengths(F(1, 64), 4)), draw(lengths(0, 9)), draw(lengths(0, 9)))
    return Job(draw(names), shop, listed)


@st.composite
def sticks(draw, stick_id):
    length = draw(lengths(24, 240))
    ends = sorted(draw(st.lists(lengths(2, 20), max_size=6, unique=True)))
    return Stick(
        stick_id, draw(sections()), draw(st.one_of(st.just(""), alloys)), length, draw(lengths(0, 1)), draw(lengths(0, 1)),
        dents=list(zip(ends[::2], ends[1::2], strict=False)), far_end_good=draw(st.booleans()), remnant=draw(st.booleans()),
        hands_off=draw(st.booleans()), note=draw(texts(120)), lot=draw(texts(40)),
    )  # fmt: skip


@st.composite
def racks(draw):
    listed = [draw(sticks(stick_id)) for stick_id in draw(st.lists(ids, max_size=5, unique_by=str.lower))]
    found = []
    for stick in listed:
        number = draw(st.integers(1, 4)) if len(stick.id) < 30 else 1
        taken = {other.id.lower() for other in (*listed, *found) if other is not stick}
        found += [stick] if number == 1 else [replace(stick, id=name, one_of=stick.id) for name in names_in_a_row(stick.id, number, taken)]
    return Rack(found)
