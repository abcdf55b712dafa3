"""The checker sees every way in which a plan can be wrong: each guard fails once here."""

from dataclasses import replace
from fractions import Fraction

import pytest

from anglelib.errors import PlanError
from anglelib.job import Job, Shop
from anglelib.part import Part, Taper
from anglelib.section import Section
from anglelib.stock.checker import check, faults
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


CASES = {
    "not on the rack": lambda m: (m, JOB, Rack(STICKS[1:])),
    "marked hands-off": lambda m: (m, JOB, Rack([replace(STICKS[0], hands_off=True), STICKS[1]])),
    "alloy is not known": lambda m: (m, JOB, Rack([replace(STICKS[0], alloy=""), STICKS[1]])),
    "6061-T6": lambda m: (m, JOB, Rack([replace(STICKS[0], alloy="6063-T5"), STICKS[1]])),
    "wants 3/4 x 3/4 x 1/8": lambda m: (m, JOB, Rack([replace(STICKS[0], section=THICK), STICKS[1]])),
    "can be used only from": lambda m: (m, JOB, Rack([replace(STICKS[0], dents=((22, 23), (30, 31))), STICKS[1]])),
    "runs out of": lambda m: (m, JOB, Rack([replace(STICKS[0], trim_2=Fraction(21, 32)), STICKS[1]])),
    "not the part that the job describes": lambda m: (m, replace(JOB, parts=(replace(PARTS[0], note="new"), *PARTS[1:])), RACK),
    "must come from S-1": lambda m: (m, replace(JOB, parts=(*PARTS[:2], replace(PARTS[2], only_stick="S-1"))), RACK),
    "made later": lambda m: (m, replace(JOB, parts=(replace(PARTS[0], later=True), *PARTS[1:])), RACK),
    "should be sawn": lambda m: (m, replace(JOB, parts=(*PARTS[:2], replace(PARTS[2], later=False))), RACK),
    "is wanted 3 times": lambda m: (m, replace(JOB, parts=(replace(PARTS[0], quantity=3), *PARTS[1:])), RACK),
    "the job does not want it": lambda m: (m, replace(JOB, parts=tuple(PARTS[1:])), RACK),
    "is said to be left": lambda m: (with_stick(m, "S-1", left=(Fraction(1),)), JOB, RACK),
    "is said to remain": lambda m: (replace(m, groups=(replace(m.groups[0], left=(143,)),)), JOB, RACK),
    "made twice": lambda m: (with_stick(m, "S-2", placed=m.stick("S-1").placed[:1]), JOB, RACK),
    "planned twice": lambda m: (replace(m, groups=m.groups * 2), JOB, RACK),
    "the blade takes": lambda m: (m, replace(JOB, shop=Shop(kerf="1/8")), RACK),
    "it takes 10 1/8": lambda m: (m, replace(JOB, shop=Shop(allowance="1/16")), RACK),
}


@pytest.mark.parametrize("said", CASES)
def test_wrong_rack_job_or_claim(good, said):
    found = faults(*CASES[said](good))
    assert any(said in fault for fault in found), found


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
        return dict(cuts=change(cuts, n, in_hand=cuts[n].in_hand + 1))
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
        return dict(remnants=change(remnants, 0, start=remnants[0].start - 1))
    if what == "remnant too long":
        return dict(remnants=change(remnants, 0, stick=replace(remnants[0].stick, length=remnants[0].stick.length + 1)))
    if what == "remnant without its dent":
        return dict(remnants=change(remnants, 0, stick=replace(remnants[0].stick, dents=(), trim_2=0)))
    if what == "remnant lost":
        return dict(remnants=())
    return dict(remnants=change(remnants, 0, stick=replace(remnants[0].stick, id="S-2")))


WHAT = """line; cut moved; kerf; hand; clamp; order; no cut; no trim; blank moved; blank short; taper late; wrong end leads;
still on; remnant of sawn metal; remnant too long; remnant without its dent; remnant lost; remnant's name"""


@pytest.mark.parametrize("what", [w.strip() for w in WHAT.replace("\n", " ").split(";")])
def test_one_thing_wrong_on_a_stick(good, what):
    stick = good.stick("S-1")
    spoiled = with_stick(good, "S-1", **spoil(stick, what))
    assert faults(spoiled, JOB, RACK), what


def test_held_metal_may_not_be_cut_away(good):
    held = good.stick("S-2").held
    spoiled = with_stick(good, "S-2", held=change(held, 0, end=held[0].end + HAIR))
    assert any("A3 is" in fault for fault in faults(spoiled, JOB, RACK))


def test_the_first_fault_is_said_and_the_plan_refused(good):
    with pytest.raises(PlanError, match="The plan does not hold: .* Do not cut from it; plan again."):
        check(good, JOB, Rack(STICKS[1:]))


def test_the_checker_shares_no_code_with_the_planner(project):
    text = (project / "anglelib" / "stock" / "checker.py").read_text(encoding="utf-8")
    body = text.split('"""', 2)[2]
    imported = {line.split()[1] for line in body.splitlines() if line.startswith(("from anglelib", "import anglelib"))}
    assert imported == {"anglelib.errors", "anglelib.job", "anglelib.lengths", "anglelib.part", "anglelib.stock.rack"}
    assert ".intervals(" not in body
