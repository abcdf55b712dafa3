"""The rotation, gone over minute by minute: nobody and no machine twice at once, somebody competent, the break, the day."""

from dataclasses import replace

import pytest

from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.day import day_of, watch
from anglelib.workshop.rotation import SAWN, STEPS, Rotation, rotation

MACHINES = {"saw", "disc", "wheel"}


def clashes(wanted: ClassWanted, made: Rotation) -> list[str]:
    """What is wrong with a rotation, found by walking through its minutes."""
    found = []
    for minute in range(made.length):
        now = [visit for visit in made.visits if visit.start <= minute < visit.end]
        places = [(visit.station, visit.place) for visit in now]
        if len(set(places)) < len(places):
            found.append(f"minute {minute}: a place is used twice")
        if any(place > wanted.count(station) for station, place in places):
            found.append(f"minute {minute}: a place that is not there")
        if len({visit.learner for visit in now}) < len(now):
            found.append(f"minute {minute}: somebody in two places")
        if sum(visit.station in MACHINES for visit in now) > 2 * wanted.competent:
            found.append(f"minute {minute}: a machine that nobody competent has in sight")
        if now and made.pause and made.pause[0] <= minute < made.pause[1]:
            found.append(f"minute {minute}: work in the break")
    for learner in range(1, wanted.learners + 1):
        visits = made.of(learner)
        if [visit.step for visit in visits] != list(range(len(STEPS))):
            found.append(f"learner {learner}: not every step, in order")
        if any(one.end > two.start for one, two in zip(visits, visits[1:])):
            found.append(f"learner {learner}: a step before the last is done")
        for station, minutes in wanted.minutes.items():
            if sum(visit.end - visit.start for visit in visits if visit.station == station) != minutes:
                found.append(f"learner {learner}: not the minutes at the {station}")
        if learner % 2 == 0 and visits[0].start < made.of(learner - 1)[SAWN].end:
            found.append(f"learner {learner}: the neighbour still has the piece")
    if max(visit.end for visit in made.visits) != made.length:
        found.append("the length is not the end of the last visit")
    return found


def named(wanted: ClassWanted) -> str:
    minutes = "-".join(f"{name}{number}" for name, number in wanted.minutes.items())
    return f"{wanted.learners}-{wanted.saws}{wanted.discs}{wanted.wheels}-{wanted.competent}-{wanted.places}-{minutes}"


@pytest.mark.parametrize("wanted", [
    ClassWanted(1), ClassWanted(2), ClassWanted(5), ClassWanted(6), ClassWanted(6, saws=2, discs=2, competent=2, minutes={"disc": 14}),
    ClassWanted(6, places=2, minutes={"bench": 30}),
], ids=named)  # fmt: skip
def test_nothing_clashes_in_a_small_class(wanted):
    assert clashes(wanted, rotation(wanted)) == []


@pytest.mark.slow
@pytest.mark.parametrize("wanted", [
    ClassWanted(12), ClassWanted(20), ClassWanted(40), ClassWanted(20, saws=2, discs=2, competent=2), ClassWanted(12, wheels=2, competent=3),
    ClassWanted(20, minutes={"disc": 5, "saw": 12}), ClassWanted(13, places=2),
], ids=named)  # fmt: skip
def test_nothing_clashes_in_a_large_class(wanted):
    assert clashes(wanted, rotation(wanted)) == []


def test_each_clash_is_seen():
    wanted = ClassWanted(4)
    good = rotation(wanted)

    def spoiled(change, number=0, **more):
        visits = list(good.visits)
        visits[number] = change(visits[number])
        return clashes(wanted, replace(good, visits=tuple(visits), **more))

    saws = [n for n, visit in enumerate(good.visits) if visit.station == "saw"]
    first, second = good.visits[saws[0]], good.visits[saws[1]]
    assert any("used twice" in said for said in spoiled(lambda v: replace(v, start=first.start, end=first.end), saws[1]))
    assert any("not there" in said for said in spoiled(lambda v: replace(v, place=9), saws[0]))
    assert any("before the last" in said for said in spoiled(lambda v: replace(v, start=0, end=8), saws[0]))
    assert any("not the minutes" in said for said in spoiled(lambda v: replace(v, end=v.end + 1), saws[0]))
    assert any("in the break" in said for said in clashes(wanted, replace(good, pause=(first.start, first.end))))
    assert any("competent" in said for said in clashes(replace(wanted, competent=1), replace(good, visits=tuple(
        replace(v, start=0, end=v.end - v.start, place=n + 1) for n, v in enumerate(good.visits[:12])))))  # fmt: skip
    assert second != first


def test_the_least_is_a_bound_and_is_reached_where_it_is_proven():
    """One learner cannot be quicker than the sum of the steps; of two the second waits for the piece."""
    assert rotation(ClassWanted(1)).length == rotation(ClassWanted(1)).least == 8 + 10 + 3 + 20
    two = rotation(ClassWanted(2))
    assert two.proven and two.length == (3 + 10 + 8) + (8 + 10 + 3 + 20)
    six = rotation(ClassWanted(6))
    assert six.proven and six.least >= 6 * 10 + 8 + 3 + 2  # the disc, then holes, wheel and check print of the last


def test_the_same_class_has_the_same_rotation():
    assert rotation(ClassWanted(6)) == rotation(ClassWanted(6))


def test_the_day_runs_without_gaps_and_says_what_the_others_do():
    wanted = ClassWanted(6)
    day = day_of(wanted, rotation(wanted))
    assert all(one.end == two.start for one, two in zip(day.blocks, day.blocks[1:]))
    said = " ".join(block.words for block in day.blocks)
    assert all(lesson in said for lesson in ("00", "01", "02", "03", "04", "05", "06", "07", "08", "10", "11"))
    assert sum(block.words in ("Break", "Lunch") for block in day.blocks) == 2
    for learner in range(1, 7):
        segments = day.segments(learner)
        assert segments[0].start == 0 and segments[-1].end == day.rotation.length
        assert all(one.end == two.start and one.words for one, two in zip(segments, segments[1:]))
    assert "Nobody leads the bench" in watch(wanted) and "2 competent people" in watch(ClassWanted(6, competent=2))


def test_a_day_that_is_too_short_says_by_how_much_and_what_to_give_up():
    made = rotation(ClassWanted(6))
    assert day_of(ClassWanted(6), made).fits
    short = day_of(ClassWanted(6, hours=5), made)
    assert short.over == short.minutes - 300 and "makes it fit" in short.sentence
    assert "split the class" in day_of(ClassWanted(6, hours=3), made).sentence
