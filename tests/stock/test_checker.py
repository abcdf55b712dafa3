"""The checker sees every way in which a plan can be wrong: each guard fails once here."""

from dataclasses import replace
from fractions import Fraction

import pytest

from anglelib.errors import PlanError
from anglelib.job import Job, Shop
from anglelib.part import Part, Pinned, Taper
from anglelib.section import Section
from anglelib.stock import checker as c
from anglelib.stock.checker import check, faults
from anglelib.stock.plan import Remnant
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick

STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")
THICK = Section("3/4", "3/4", "3/16", fillet="1/8")
HAIR = Fraction(1, 64)
PARTS = [
    Part("A1", "Bar", STOCK, "6061-T6", 10, quantity=2),
    Part("A2", "Cleat", STOCK, "6061-T6", 4, tapers=[Taper("A", 2, "3/8", run=1)]),
    Part("A3", "Long bar", STOCK, "6061-T6", 20, later=True, only_stick="S-2"),
]
STICKS = [
    Stick("S-1", STOCK, "6061-T6", 48, "1/4", "1/4", dents=[(22, 23)]),
    Stick("S-2", STOCK, "6061-T6", 60, "1/4", "1/4"),
]
JOB, RACK = Job("Test", Shop(), PARTS), Rack(STICKS)


@pytest.fixture(scope="module")
def good():
    made = plan(JOB, RACK)
    assert faults(made, JOB, RACK) == ()
    assert {s.stick.id for s in made.sticks} == {"S-1", "S-2"}
    return made


def with_stick(made, stick_id, **changes):
    (group,) = made.groups
    sticks = tuple(replace(s, **changes) if s.stick.id == stick_id else s for s in group.sticks)
    return replace(made, groups=(replace(group, sticks=sticks),))


def change(items, at, **changes):
    return tuple(replace(item, **changes) if n == at else item for n, item in enumerate(items))


def last_cut(stick):
    return len(stick.cuts) - 1


def last_line(made):
    """How far along S-1 its last cut is: with a hair of the stick beyond, that has no trim, the blade runs out of it."""
    return max(cut.x for cut in made.stick("S-1").cuts)


CASES = {
    c.NO_STICK: lambda m: (m, JOB, Rack(STICKS[1:])),
    c.HANDS_OFF: lambda m: (m, JOB, Rack([replace(STICKS[0], hands_off=True), STICKS[1]])),
    c.NO_ALLOY: lambda m: (m, JOB, Rack([replace(STICKS[0], alloy=""), STICKS[1]])),
    c.ALLOY: lambda m: (m, JOB, Rack([replace(STICKS[0], alloy="6063-T5"), STICKS[1]])),
    c.SECTION: lambda m: (m, JOB, Rack([replace(STICKS[0], section=THICK), STICKS[1]])),
    c.OUT_OF_ZONE: lambda m: (m, JOB, Rack([replace(STICKS[0], dents=((22, 23), (30, 31))), STICKS[1]])),
    c.CUT_OUT_OF_ZONE: lambda m: (m, JOB, Rack([replace(STICKS[0], length=last_line(m) + HAIR, trim_2=Fraction(0)), STICKS[1]])),
    c.OTHER_PART: lambda m: (m, replace(JOB, parts=(replace(PARTS[0], note="new"), *PARTS[1:])), RACK),
    c.OTHER_STICK: lambda m: (m, replace(JOB, parts=(*PARTS[:2], replace(PARTS[2], only_stick="S-1"))), RACK),
    c.BARRED: lambda m: (m, replace(JOB, parts=(*PARTS[:2], replace(PARTS[2], not_from=("S-2",)))), RACK),
    c.ELSEWHERE: lambda m: (m, replace(JOB, parts=(*PARTS[:2], replace(PARTS[2], only_stick="", pinned=(Pinned("S-1"),)))), RACK),
    c.HELD_SAWN: lambda m: (m, replace(JOB, parts=(replace(PARTS[0], later=True), *PARTS[1:])), RACK),
    c.SAWN_HELD: lambda m: (m, replace(JOB, parts=(*PARTS[:2], replace(PARTS[2], later=False))), RACK),
    c.COUNT: lambda m: (m, replace(JOB, parts=(replace(PARTS[0], quantity=3), *PARTS[1:])), RACK),
    c.STRANGER: lambda m: (m, replace(JOB, parts=tuple(PARTS[1:])), RACK),
    c.WAS_LEFT: lambda m: (with_stick(m, "S-1", left=(Fraction(1),)), JOB, RACK),
    c.REMAINS: lambda m: (replace(m, groups=(replace(m.groups[0], left=(143,)),)), JOB, RACK),
    c.MADE_TWICE: lambda m: (with_stick(m, "S-2", placed=m.stick("S-1").placed[:1]), JOB, RACK),
    c.PLANNED_TWICE: lambda m: (replace(m, groups=m.groups * 2), JOB, RACK),
    c.KERF: lambda m: (m, replace(JOB, shop=Shop(kerf="1/8")), RACK),
    c.LENGTH: lambda m: (m, replace(JOB, shop=Shop(allowance="1/16")), RACK),
}


@pytest.mark.parametrize("id_", CASES)
def test_wrong_rack_job_or_claim(good, id_):
    found = faults(*CASES[id_](good))
    assert id_ in {fault.id for fault in found}, found


def spoil(stick, what):
    """One stick of the plan with one thing wrong."""
    cuts, placed, remnants = stick.cuts, stick.placed, stick.remnants
    n = last_cut(stick)
    if what == "line":
        return dict(cuts=change(cuts, n, line=cuts[n].line + HAIR))
    if what == "cut moved":
        return dict(cuts=change(cuts, n, x=cuts[n].x + HAIR, line=cuts[n].line + HAIR))
    if what == "kerf":
        return dict(cuts=change(cuts, n, kerf=Fraction(1, 32)))
    if what == "hand":
        return dict(cuts=change(cuts, n, stays=cuts[n].stays + 1))
    if what == "clamp":
        return dict(cuts=change(cuts, n, clamp=not cuts[n].clamp))
    if what == "order":
        return dict(cuts=(*cuts[:-2], cuts[-1], cuts[-2]))
    if what == "no cut":
        return dict(cuts=cuts[:-1])
    if what == "no trim":
        return dict(cuts=cuts[1:])
    if what == "blank moved":
        return dict(placed=change(placed, 0, start=placed[0].start + HAIR, end=placed[0].end + HAIR))
    if what == "blank short":
        return dict(placed=change(placed, 0, end=placed[0].end - HAIR))
    if what == "taper late":
        at = next(k for k, cut in enumerate(cuts) if cut.made_first)
        return dict(cuts=change(cuts, at, made_first=False))
    if what == "wrong end leads":
        at = next(k for k, cut in enumerate(cuts) if cut.made_first)
        return dict(cuts=change(cuts, at, leading_end=1))
    if what == "still on":
        at = next(k for k, cut in enumerate(cuts) if cut.made_first)
        return dict(cuts=change(cuts, at, still_on=Fraction(1)))
    if what == "remnant of sawn metal":
        return dict(remnants=change(remnants, 0, end=remnants[0].end + 1))
    if what == "remnant too long":
        return dict(remnants=change(remnants, 0, stick=replace(remnants[0].stick, length=remnants[0].stick.length + 1)))
    if what == "remnant without its dent":
        return dict(remnants=change(remnants, 0, stick=replace(remnants[0].stick, dents=(), trim_2=0)))
    if what == "remnant lost":
        return dict(remnants=())
    return dict(remnants=change(remnants, 0, stick=replace(remnants[0].stick, id="S-2")))


WHAT = {
    "line": c.LINE, "cut moved": c.OFF_ITS_CUT, "kerf": c.KERF, "hand": c.IN_HAND, "clamp": c.IN_HAND, "order": c.NOT_SQUARE,
    "no cut": c.NOT_PARTED, "no trim": c.NOT_SQUARE, "blank moved": c.OFF_ITS_CUT, "blank short": c.LENGTH, "taper late": c.MADE_LATE,
    "wrong end leads": c.MADE_LATE, "still on": c.STILL_ON, "remnant of sawn metal": c.REMNANT_USED, "remnant too long": c.REMNANT_OTHER,
    "remnant without its dent": c.REMNANT_SOUND, "remnant lost": c.NOT_KEPT, "remnant's name": c.REMNANT_NAME,
}  # fmt: skip


@pytest.mark.parametrize("what", WHAT)
def test_one_thing_wrong_on_a_stick(good, what):
    stick = good.stick("S-1")
    spoiled = with_stick(good, "S-1", **spoil(stick, what))
    assert WHAT[what] in {fault.id for fault in faults(spoiled, JOB, RACK)}, what


@pytest.mark.parametrize("id_", [value for name, value in vars(c).items() if name.isupper() and isinstance(value, str)])
def test_every_fault_has_words_of_its_own(id_):
    """An id is one word, and what it says begins with the stick where it is one stick's."""
    assert " " not in id_
    given = {
        c.SECTION: (STOCK, THICK), c.OUT_OF_ZONE: (HAIR, (HAIR, HAIR)), c.IN_HAND: ((HAIR, HAIR, HAIR), (HAIR, HAIR)),
        c.KERF: ((HAIR, HAIR), HAIR), c.WAS_LEFT: ((HAIR,), ()), c.REMAINS: ((1, 2), (3,)), c.COUNT: (2, (1, 0)),
        c.ELSEWHERE: (1, ((2, "S-2"),)),
    }  # fmt: skip
    said, found = given.get(id_, (HAIR, HAIR))
    words = c.Fault(id_, "S-1", "A1", said, found).sentence
    assert words.startswith("S-1") and words.endswith(".")


def test_held_metal_may_not_be_cut_away(good):
    held = good.stick("S-2").held
    spoiled = with_stick(good, "S-2", held=change(held, 0, end=held[0].end + HAIR))
    assert any((fault.id, fault.what) == (c.LENGTH, "A3") for fault in faults(spoiled, JOB, RACK))


def test_the_first_fault_is_said_and_the_plan_refused(good):
    with pytest.raises(PlanError, match="The plan does not hold: .* Do not cut from it; plan again."):
        check(good, JOB, Rack(STICKS[1:]))


def test_the_checker_shares_no_code_with_the_planner(project):
    text = (project / "anglelib" / "stock" / "checker.py").read_text(encoding="utf-8")
    body = text.split('"""', 2)[2]
    imported = {line.split()[1] for line in body.splitlines() if line.startswith(("from anglelib", "import anglelib"))}
    assert imported == {"anglelib.errors", "anglelib.job", "anglelib.part", "anglelib.stock.rack"}
    assert ".intervals(" not in body


def test_a_stick_that_serves_without_a_cut_may_leave_nothing_under_a_name_that_is_taken():
    """A blank that is just the stick: no cut; what is said to be left of it has a name, and that is the other stick's."""
    whole = [Stick("S-1", STOCK, "6061-T6", 10 + Fraction(1, 16), far_end_good=True), Stick("S-2", STOCK, "6061-T6", 30)]
    job, rack = Job("Whole", Shop(), [replace(PARTS[0], quantity=1)]), Rack(whole)
    made = plan(job, rack)
    assert faults(made, job, rack) == () and made.stick("S-1").cuts == () and made.stick("S-1").placed
    spoiled = with_stick(made, "S-1", remnants=(Remnant(whole[1], Fraction(0), Fraction(30)),))
    assert c.REMNANT_NAME in {fault.id for fault in faults(spoiled, job, rack)}
