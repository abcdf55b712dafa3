"""Unequal legs: the two hands are sawn from the two ends of a stick. What the plan says is laid out in space and looked at.

Oracle: three directions of the metal as the plan's own words lay it (to the right, up, away from you), and the rule that a
part's directions from end 1, along leg A and along leg B turn like those of every angle here: the right hand's.
"""

import random
import re
from dataclasses import replace
from fractions import Fraction as F

import pytest
from small_jobs import UNEQUAL, small_job

from anglelib.files import read_job, read_rack
from anglelib.job import Job, Shop
from anglelib.lengths import read
from anglelib.paper.plan_pages import drawn_stick
from anglelib.part import Cope, Hole, Part, Taper
from anglelib.section import Section
from anglelib.stock import checker, cutting
from anglelib.stock.after import rack_after
from anglelib.stock.checker import faults
from anglelib.stock.cut_list import laid_words
from anglelib.stock.planner import plan
from anglelib.stock.progress import Progress, all_cuts, job_left, planned_from, rack_after_cuts
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.replan import replan
from anglelib.terminal.words import stick_lines

ALLOY = "6061-T6"
RIGHT, UP, AWAY = (1, 0, 0), (0, 0, 1), (0, 1, 0)
RAIL = Section("1 1/2", 1, "1/8", fillet="1/8")


def turn(x, a, b) -> int:
    """The sign of the volume of three directions: 1 where they turn like a right hand's."""
    cross = (x[1] * a[2] - x[2] * a[1], x[2] * a[0] - x[0] * a[2], x[0] * a[1] - x[1] * a[0])
    return sum(p * q for p, q in zip(cross, b))


def made_as_said(planned, shop, limits) -> list[tuple[str, int]]:
    """Every part that the terminal's lines make of a stick: its id, and how its directions turn."""
    towards, found = None, []
    rows = re.split(r"\n(?= *\d+  |     Laid |     Turn )", "\n".join(stick_lines(planned, shop, limits)))
    ends, parts = {}, {p.blank.part.id: p.blank.part for p in planned.placed}
    for row in (re.sub(r"\s+", " ", row) for row in rows):
        if leg := re.search(r"its leg of ([\d /]+) (?:now )?towards you", row):
            towards = read(leg[1])
        name = re.match(r" ?\d+ (\S+)", row)
        if name is None or name[1] not in parts:
            continue
        if end := re.search(r"from end (\d), squared|end (\d) first", row):  # a row like the one before it does not say it again
            ends[name[1], towards] = int(end[1] or end[2])
        part, left = parts[name[1]], ends[name[1], towards]
        along = RIGHT if left == 1 else (-1, 0, 0)
        leg_a, leg_b = (UP, AWAY) if part.section.leg_a == towards else (AWAY, UP)
        found.append((part.id, turn(along, leg_a, leg_b)))
    return found


def test_the_words_of_the_demo_make_both_hands(project):
    """D2L and D2R, with a taper of the long leg at end 1 and at end 2: sawn from one end they would be one hand."""
    folder = project / "notebooks" / "demo"
    job, rack = read_job(folder / "job.toml"), read_rack(folder / "rack.csv")
    made = plan(job, rack)
    seen = []
    for planned in made.sticks:
        if not planned.stick.section.equal_legs:
            seen += made_as_said(planned, job.shop, job.limits)
    assert {name for name, _ in seen} == {"D1", "D2L", "D2R"} and len(seen) == 8
    assert all(hand == 1 for name, hand in seen if name != "D1")


def rails(left: int, right: int, **more) -> list[Part]:
    return [
        Part("L", "Rail, left", RAIL, ALLOY, 10, [Taper("A", 1, "5/8", run=2)], quantity=left, **more),
        Part("R", "Rail, right", RAIL, ALLOY, 10, [Taper("A", 2, "5/8", run=2)], quantity=right, **more),
    ]


def test_by_hand_where_the_cuts_lie():
    """40 in., trims of 1/4: two blanks of 10 1/16 from each end, a kerf of 1/16 after each; 2 lefts and 1 right leave 9 1/8."""
    job = Job("Rails", Shop(), rails(2, 1))
    rack = Rack([Stick("S-1", RAIL, ALLOY, 40, "1/4", "1/4")])
    planned = plan(job, rack).stick("S-1")
    lines = [(cut.kind, cut.turned, cut.line, cut.dust) for cut in planned.cuts]
    blank, kerf = F(161, 16), F(1, 16)
    assert lines == [
        ("trim", False, 0, (F(3, 16), F(1, 4))),
        ("part-off", False, blank, (F(1, 4) + blank, F(1, 4) + blank + kerf)),
        ("part-off", False, 2 * blank + kerf, (F(1, 4) + 2 * blank + kerf, F(1, 4) + 2 * (blank + kerf))),
        ("trim", True, 0, (F(159, 4), F(159, 4) + kerf)),
        ("part-off", True, blank, (F(159, 4) - blank - kerf, F(159, 4) - blank)),
    ]
    assert planned.left == (F(159, 4) - F(1, 4) - 3 * (blank + kerf),)
    (remnant,) = planned.remnants
    assert (remnant.start, remnant.end) == (F(1, 4) + 2 * (blank + kerf), F(159, 4) - blank - kerf)
    assert remnant.stick.trim_1 == remnant.stick.trim_2 == 0


@pytest.mark.parametrize("swapped", [False, True])
def test_a_stick_listed_with_its_legs_the_other_way_round_is_worked_from_its_other_end(swapped):
    stick = Stick("S-1", RAIL.swapped() if swapped else RAIL, ALLOY, 40, "1/4", "1/8")
    for n, part in enumerate(rails(1, 1)):
        (planned,) = plan(Job("Rail", Shop(), [part]), Rack([stick])).sticks
        assert all(cut.turned == ((n == 1) != swapped) for cut in planned.cuts)


def test_what_is_its_own_mirror_image_lies_as_one_likes():
    both = Part("N", "Stop", RAIL, ALLOY, 8, [Taper("A", 1, "5/8", run=1), Taper("A", 2, "5/8", run=1)], [Hole("B", 4, "1/2", "1/8")])
    bare = Part("M", "Bar", RAIL, ALLOY, 6)
    (planned,) = plan(Job("Stops", Shop(), [both, bare]), Rack([Stick("S-1", RAIL, ALLOY, 40)])).sticks
    assert not any(cut.turned for cut in planned.cuts)


@pytest.mark.parametrize("swapped", [False, True])
def test_the_bar_shows_the_leg_that_its_words_lay_towards_you(swapped):
    """Handed parts and a part that is its own mirror image, on a stick that names its legs either way: one leg is seen, by its width."""
    both = Part("N", "Stop", RAIL, ALLOY, 8, [Taper("A", 1, "5/8", run=1), Taper("A", 2, "5/8", run=1)])
    for parts in ([both], rails(1, 1)[:1], rails(1, 1)[1:], [*rails(1, 1), both]):
        job, rack = Job("Rails", Shop(), parts), Rack([Stick("S-1", RAIL.swapped() if swapped else RAIL, ALLOY, 60)])
        (planned,) = plan(job, rack).sticks
        towards = read(re.search(r"its leg of ([\d /]+) towards you", laid_words(planned))[1])
        for cut in drawn_stick(planned, job.shop).cuts:
            assert RAIL.leg(cut.leg) == towards, (cut.name, swapped)


def test_the_checker_finds_what_was_planned_from_one_end_alone(monkeypatch):
    """Planned as it was before: both hands from the stick's end 1."""
    job, rack = Job("Rails", Shop(), rails(1, 1)), Rack([Stick("S-1", RAIL, ALLOY, 40)])
    with monkeypatch.context() as patch:
        patch.setattr(cutting, "from_other_end", lambda part, section: False)
        made = plan(job, rack)
        assert [hand for _, hand in made_as_said(made.stick("S-1"), job.shop, job.limits)] != [1, 1]
    assert [(fault.id, fault.what) for fault in faults(made, job, rack)] == [(checker.WRONG_WAY, "R")]


def test_the_checker_finds_a_wrong_line_of_a_turned_stick():
    job, rack = Job("Rails", Shop(), rails(1, 1)), Rack([Stick("S-1", RAIL, ALLOY, 40, "1/4", "1/4")])
    made = plan(job, rack)
    assert faults(made, job, rack) == ()
    (group,) = made.groups

    def spoiled(**changes):
        return replace(made, groups=(replace(group, sticks=tuple(replace(s, **changes) for s in group.sticks)),))

    planned = made.stick("S-1")
    last = planned.cuts[-1]
    assert last.turned
    for id_, cuts in (
        (checker.LINE, (*planned.cuts[:-1], replace(last, line=last.line + F(1, 64)))),
        (checker.OFF_ITS_CUT, (*planned.cuts[:-1], replace(last, turned=False, line=last.x))),
        (checker.IN_HAND, (*planned.cuts[:-1], replace(last, stays=last.stays + 1))),
        (checker.NOT_SQUARE, tuple(cut for cut in planned.cuts if not (cut.turned and cut.blank is None))),
    ):
        assert id_ in {fault.id for fault in faults(spoiled(cuts=cuts), job, rack)}, id_
    assert checker.DATUM in {fault.id for fault in faults(spoiled(turned_datum=F(40)), job, rack)}


def test_a_blank_that_ends_unsawn_where_the_turned_stick_does():
    """Two rights of 10 1/16 and one kerf are all of 20 3/16: end 2 is sound, the second blank ends where the stick does."""
    job = Job("Rails", Shop(), rails(1, 2)[1:])
    rack = Rack([Stick("S-1", RAIL, ALLOY, "20 13/64", far_end_good=True)])
    made = plan(job, rack)
    planned = made.stick("S-1")
    assert faults(made, job, rack) == () and len(planned.cuts) == 1 and planned.remnants == ()
    assert [(p.turned, p.sawn, p.surplus) for p in planned.placed] == [(True, True, 0), (True, False, F(1, 64))]


# --- at random --------------------------------------------------------------------------------------------------
def unequal_job(seed: int) -> tuple[Job, Rack]:
    """A small job whose parts are handed, on sticks with every trap; some sticks and parts name their legs the other way round."""
    job, rack = next((job, rack) for job, rack in map(small_job, range(1000 * seed, 1000 * seed + 99)) if job.parts[0].section == UNEQUAL)
    dice = random.Random(f"unequal {seed}")

    def feature(part: Part) -> Part:
        section = part.section if dice.random() < 0.8 else part.section.swapped()
        kind, leg, end = dice.random(), dice.choice("AB"), dice.choice((1, 2))
        part = replace(part, section=section)
        if kind < 0.6:
            return replace(part, tapers=(Taper(leg, end, "3/8", run=min(part.length / 2, F(1))),))
        if kind < 0.75 and part.length > 2:
            return replace(part, copes=(Cope(leg, end, 1, "3/8", "1/16"),))
        if kind < 0.9:
            return replace(part, holes=(Hole(leg, part.length / 3, "1/2", "1/8"),))
        return part

    parts = tuple(map(feature, job.parts))
    sticks = tuple(replace(s, section=s.section if dice.random() < 0.8 else s.section.swapped()) for s in rack.sticks)
    return replace(job, parts=parts), Rack(sticks)


@pytest.mark.parametrize("block", range(4))
def test_plans_of_handed_parts_pass_the_checker_and_their_words_make_them(block):
    turned = mixed = 0
    for seed in range(block * 25, block * 25 + 25):
        job, rack = unequal_job(seed)
        made = plan(job, rack)
        assert faults(made, job, rack) == (), seed
        for planned in made.sticks:
            ways = {cut.turned for cut in planned.cuts if cut.blank is not None}
            turned, mixed = turned + (True in ways), mixed + (len(ways) == 2)
            handed = {p.blank.part.id for p in planned.placed if p.blank.part.handed and p.sawn}
            said = made_as_said(planned, job.shop, job.limits)
            assert all(hand == 1 for name, hand in said if name in handed), (seed, planned.stick.id)
    assert turned > 3 and mixed > 1


@pytest.mark.parametrize("block", range(4))
def test_after_every_cut_the_rack_is_what_the_plan_says(block):
    """Cut by cut: the pieces lie apart from one another and from all that is sawn, and each blank to come lies in one of them."""
    for seed in range(block * 25, block * 25 + 25):
        job, rack = unequal_job(seed)
        made = plan(job, rack)
        assert rack_after_cuts(made, rack, all_cuts(made)) == rack_after(made, rack)
        for planned in made.sticks:
            gone = F(0)
            for n, cut in enumerate(planned.cuts, 1):
                done = Progress({planned.stick.id: n})
                now = rack_after_cuts(made, rack, done)
                mine = [stick for stick in now.sticks if stick not in rack.sticks]
                gone += cut.kerf + (cut.blank.length if cut.blank is not None else 0)
                assert sum(stick.length for stick in mine) <= planned.stick.length - gone, (seed, n)
                lying = planned_from(made, done)
                coming = sorted(str(b.blank) for stick in mine for b in lying[stick.id])
                later = [c.blank for c in planned.cuts[n:] if c.blank is not None] + [p.blank for p in planned.held]
                later += [p.blank for p in planned.placed if not p.sawn and n < len(planned.cuts)]
                assert coming == sorted(map(str, later)), (seed, planned.stick.id, n)
                for stick in mine:
                    for blank, start in lying[stick.id]:
                        inside = [i for i in stick.intervals(job.shop.kerf) if i.start <= start and start + blank.length <= i.end]
                        assert inside, (seed, stick.id, str(blank))


def test_planning_again_in_the_middle_of_a_turned_stick_changes_nothing():
    seen = 0
    for seed in range(24):
        job, rack = unequal_job(seed)
        made = plan(job, rack)
        for planned in made.sticks:
            for n in range(1, len(planned.cuts)):
                done = Progress({planned.stick.id: n})
                if planned.turned_datum is None or job_left(job, made, done) is None:
                    continue
                again = replan(job, rack, made, done, budget=1)
                assert again.moves == () and faults(again.plan, again.job, again.rack) == (), (seed, planned.stick.id, n)
                seen += 1
    assert seen > 20
