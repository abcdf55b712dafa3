"""Plans of a shop whose saw has a throat: against every plan there is, and sawn with a hacksaw that wanders as badly as it may."""

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from brute import best, reached
from small_jobs import ALLOY, EQUAL, small_job

from anglelib.errors import RackError
from anglelib.files.plan_file import parse_plan, render_plan
from anglelib.geometry.lazy import formulas
from anglelib.job import Job, Shop
from anglelib.part import Part
from anglelib.saw import Saw
from anglelib.stock.checker import faults
from anglelib.stock.in_hand import Difference, differences, in_hand
from anglelib.stock.one import one_now
from anglelib.stock.plan import TRIM
from anglelib.stock.planner import plan
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.record import Record
from anglelib.stock.set_ups import set_ups, settings


def shop_with_saw(seed: int) -> tuple[Job, Rack]:
    """A small job and rack, and a saw whose throat many of the blanks do not go into."""
    rng, (job, rack) = random.Random(f"throat {seed}"), small_job(seed)
    saw = Saw(rng.choice([2, 4, 6, 9, Fraction(19, 2)]), hacksaw_allowance=rng.choice([0, Fraction(1, 16), Fraction(1, 8)]), hacksaw_kerf=rng.choice([0, Fraction(1, 32), Fraction(1, 8)]))
    return replace(job, shop=replace(job.shop, saw=saw)), rack


def without_saw(job: Job, room: Fraction = Fraction(0)) -> Job:
    """The same for a saw that takes everything, the blanks that do not go into the throat longer by some room."""
    shop = job.shop
    long = [part.length + 2 * shop.allowance > shop.saw.throat for part in job.parts]
    parts = [replace(part, length=part.length + room) if is_long else part for part, is_long in zip(job.parts, long, strict=True)]
    return replace(job, shop=replace(shop, saw=None), parts=tuple(parts))


def strip(shop: Shop) -> Fraction:
    """How much wider the metal between two finished parts is at a rough cut than at the saw's."""
    wander = max(shop.saw.hacksaw_allowance, shop.allowance)
    return (wander + max(shop.saw.hacksaw_kerf, shop.kerf) + wander) - (shop.allowance + shop.kerf + shop.allowance)


def sawn_at_its_worst(planned, shop: Shop) -> int:
    """Saws a stick of a plan: no cut may touch a finished part, however the hacksaw wanders. How many rough cuts it has."""
    finished, rough = [], 0
    for placed in planned.placed:
        length = placed.blank.part.length
        at = placed.end - shop.allowance - length if placed.turned else placed.start + shop.allowance
        finished.append((at, at + length))
    pieces = [(Fraction(0), planned.stick.length)]
    for cut in planned.cuts:
        beyond = (cut.blank is not None) != cut.turned  # the saw runs beyond the struck line, seen from end 1
        struck = planned.turned_datum - cut.mark if cut.turned else planned.datum + cut.mark
        kerf, wander = (shop.saw.hacksaw_kerf, max(shop.saw.hacksaw_allowance, shop.allowance)) if cut.rough else (shop.kerf, shop.allowance)
        low, high = (struck - wander, struck + kerf + wander) if beyond else (struck - kerf - wander, struck + wander)
        assert all(high <= a or b <= low for a, b in finished), (planned.stick.id, cut)
        piece = next((a, b) for a, b in pieces if a <= struck <= b)
        if cut.blank is not None:  # where the saw would run, had it the throat
            saw_line = next(b if not cut.turned else a for (a, b), p in zip(finished, planned.placed, strict=True) if p.blank == cut.blank)
            saw_line += shop.allowance if not cut.turned else -shop.allowance
            sides = (piece[1] - saw_line, saw_line - shop.kerf - piece[0]) if cut.turned else (saw_line - piece[0], piece[1] - saw_line - shop.kerf)
            if abs(min(sides) - shop.saw.throat) > strip(shop):  # what an earlier hacksaw left more on this piece
                assert cut.rough == (min(sides) > shop.saw.throat), (planned.stick.id, cut)
        rough += cut.rough
        pieces.remove(piece)
        gone = (struck, min(struck + kerf, piece[1])) if beyond else (max(piece[0], struck - kerf), struck)  # to dust
        pieces += [(piece[0], gone[0]), (gone[1], piece[1])]
    for n, (a, b) in enumerate(sorted(finished)):
        assert a >= 0 and b <= planned.stick.length and (not n or sorted(finished)[n - 1][1] <= a)
    return rough


def compare(seed: int) -> tuple[int, int]:
    """One random job; how many rough cuts its plan has, and how many it needs no room for."""
    job, rack = shop_with_saw(seed)
    made, rough, smooth = plan(job, rack), 0, 0
    assert faults(made, job, rack) == (), seed
    for group in made.groups:
        rough += sum(sawn_at_its_worst(planned, job.shop) for planned in group.sticks)
        lying = [p for planned in group.sticks for p in (*planned.placed, *planned.held)]
        room = any(p.blank.rough for p in lying)
        other = without_saw(job, strip(job.shop) if room else Fraction(0))
        if room or any(part.length + 2 * job.shop.allowance > job.shop.saw.throat for part in job.parts) and lying:
            # no plan without room is better where none was kept; with room where it was
            found, top = reached(group, other, rack), best(other, rack, group.section, group.alloy)
            if not room and found != top:  # blanks that are only held kept the room: there is no long one that is not
                assert found == best(without_saw(job, strip(job.shop)), rack, group.section, group.alloy), seed
            else:
                assert found == top, seed
            smooth += not room
    return rough, smooth


def test_no_plan_with_room_for_the_hacksaw_is_better():
    found = [compare(seed) for seed in range(60)]
    assert sum(rough for rough, _ in found) > 20 and sum(smooth for _, smooth in found) > 5


@pytest.mark.slow
@pytest.mark.parametrize("block", range(20))
def test_no_plan_with_room_for_the_hacksaw_is_better_in_two_thousand(block):
    for seed in range(1000 + 100 * block, 1100 + 100 * block):
        compare(seed)


def test_the_worst_hacksaw_finds_a_plan_that_keeps_no_room(monkeypatch):
    """The guard itself."""
    monkeypatch.setattr(Shop, "rough_room", lambda shop, blank: Fraction(0))
    bar = Part("A", "Bar", EQUAL, ALLOY, 12, quantity=2)
    made = plan(Job("Trial", Shop(saw=Saw(9, hacksaw_allowance="1/8")), [bar]), Rack([Stick("S-1", EQUAL, ALLOY, 60)]))
    with pytest.raises(AssertionError):
        sawn_at_its_worst(made.sticks[0], made.shop)


def trial(saw: Saw | None = Saw("9", hacksaw_allowance="1/8"), long: object = 60) -> tuple[Job, Rack]:
    parts = [Part("A", "Bar", EQUAL, ALLOY, 12, quantity=2), Part("B", "Clip", EQUAL, ALLOY, 3)]
    return Job("Trial", Shop(saw=saw), parts), Rack([Stick("S-1", EQUAL, ALLOY, long, trim_1="1/4")])


def test_lines_and_pieces_of_a_stick():
    """By hand: 3 1/16 and its kerf; 12 + 1/32 + 1/8; the strip of a rough cut is 1/8 + 1/16 + 1/8."""
    job, rack = trial()
    stick = plan(job, rack).sticks[0]
    assert [(cut.mark, cut.rough) for cut in stick.cuts] == [
        (Fraction(0), False), (3 + Fraction(1, 16), False), (3 + Fraction(1, 8) + 12 + Fraction(5, 32), True), (3 + Fraction(1, 8) + 24 + Fraction(1, 32) * 10 + Fraction(5, 32), True),
    ]  # fmt: skip
    assert [placed.piece for placed in stick.placed] == [3 + Fraction(1, 16), 12 + Fraction(5, 32), 12 + Fraction(1, 4)]


@pytest.mark.parametrize("long, rough", [("12 3/8", False), ("21 3/8", False), ("21 25/64", True)])
def test_a_stick_whose_end_goes_into_the_throat_needs_no_hacksaw(long, rough):
    """A trim of 1/4, the blank of 12 1/16, the kerf, and 9 beyond it."""
    job, rack = trial(long=long)
    stick = plan(replace(job, parts=(replace(job.parts[0], quantity=1),)), rack).sticks[0]
    assert [cut.rough for cut in stick.cuts] == [False, rough] and bool(stick.placed[0].blank.rough) == rough


def test_nobody_said_so_nothing_changes():
    """Without a saw the plan is as it was, its number too; a throat that takes everything changes no line."""
    (bare, rack), (wide, _) = trial(None), trial(Saw(60))
    one, other = plan(bare, rack), plan(wide, rack)
    assert one.groups == other.groups
    assert in_hand(one, bare).number == in_hand(plan(bare, rack), bare).number
    assert '"rough"' not in render_plan(in_hand(one, bare)) and '"saw"' not in render_plan(in_hand(one, bare))


def test_the_plan_in_hand_keeps_rough_cuts():
    job, rack = trial()
    hand = in_hand(plan(job, rack), job)
    again = parse_plan(render_plan(hand), job)
    [stick], [kept] = hand.plan.sticks, again.plan.sticks
    assert [(c.mark, c.rough, c.back) for c in kept.cuts] == [(c.mark, c.rough, c.back) for c in stick.cuts]
    assert [(p.piece, p.blank.rough) for p in kept.placed] == [(p.piece, p.blank.rough) for p in stick.placed]
    assert again.shop == job.shop and again.number == hand.number
    other = replace(job, shop=replace(job.shop, saw=Saw("12", hacksaw_allowance="1/8")))
    assert differences(again, job, Record(rack)) == ()
    assert differences(again, other, Record(rack)) == (Difference("rule", "throat", "9", "12"),)


@pytest.mark.parametrize("spoil, fault", [
    (lambda cut: replace(cut, rough=False), "not-rough"),
    (lambda cut: replace(cut, back=cut.back + Fraction(1, 32)), "struck"),
])  # fmt: skip
def test_the_checker_sees_a_rough_cut_that_is_none(spoil, fault):
    job, rack = trial()
    made = plan(job, rack)
    [group], stick = made.groups, made.groups[0].sticks[0]
    at = next(n for n, cut in enumerate(stick.cuts) if cut.rough)
    spoiled = replace(stick, cuts=tuple(spoil(cut) if n == at else cut for n, cut in enumerate(stick.cuts)))
    found = faults(replace(made, groups=(replace(group, sticks=(spoiled,)),)), job, rack)
    assert fault in {one.id for one in found} and all(one.sentence for one in found)


def test_the_formulas_say_what_the_planner_keeps():
    f = formulas()
    for shop in (Shop(saw=Saw(9)), Shop(kerf="1/32", saw=Saw(9, hacksaw_kerf="1/16", hacksaw_allowance="3/32"))):
        more = shop.by_hacksaw
        kept = f.hacksaw_strip(e_h=more.allowance, e_s=shop.allowance, k=max(more.kerf, shop.kerf))
        assert kept == shop.kerf + shop.rough_more
        assert f.rough_blank(L=Fraction(12), e_s=shop.allowance, e_h=more.allowance) == shop.takes(Fraction(12)) - (kept - shop.kerf - shop.wander)


def test_one_part_now():
    job, rack = trial()
    now = one_now(EQUAL, ALLOY, 12, rack, job)
    assert (now.rough, now.line) == (True, 12 + Fraction(5, 32))
    short = one_now(EQUAL, ALLOY, 12, Rack([Stick("S-1", EQUAL, ALLOY, 20)]), replace(job, parts=job.parts[1:]))
    assert (short.rough, short.line) == (False, 12 + Fraction(1, 16))


def test_a_trim_is_no_rough_cut():
    """A cut that frees the end is one where both sides are longer than the throat: only a dent far in."""
    job, _ = trial()
    stick = Stick("S-1", EQUAL, ALLOY, 60, dents=[(Fraction(20), Fraction(21))])
    made = plan(replace(job, parts=(replace(job.parts[0], length=Fraction(36), quantity=1),)), Rack([stick]))
    kinds = {(cut.kind, cut.rough) for cut in made.sticks[0].cuts}
    assert (TRIM, True) not in kinds and ("clear", True) in kinds and faults(made, replace(job, parts=(replace(job.parts[0], length=Fraction(36), quantity=1),)), Rack([stick])) == ()


def test_a_rough_cut_changes_nothing_at_the_saw():
    """By hand: the clip is sawn against the stop; both bars are parted off by hacksaw."""
    job, rack = trial()
    assert [(one.row, one.at, one.setting.stop) for one in set_ups(plan(job, rack).sticks)] == [(2, "part-off", 3 + Fraction(1, 16))]


def test_the_stop_stands_where_the_line_is_struck():
    """A stop that is said is the length of the piece that its line gives, from a near end that the band saw has left; what is cut by hacksaw has none."""
    stops = rough = shorter = 0
    for seed in range(40):
        job, rack = shop_with_saw(seed)
        for stick in plan(job, rack).sticks:
            said = {row: setting.stop for row, at, setting in settings(stick) if at == "part-off"}
            for row, cut in enumerate(stick.cuts, 1):
                if cut.rough:
                    assert row not in said
                    rough += 1
                elif cut.blank is not None:
                    (lies,) = [p for p in stick.placed if (p.blank.part.id, p.blank.number) == (cut.blank.part.id, cut.blank.number)]
                    assert said[row] == (None if lies.before else lies.piece)
                    stops += 1
                    shorter += said[row] is not None and said[row] < cut.blank.length
    assert stops > 20 and rough > 20 and shorter > 0, (stops, rough, shorter)


def test_the_record_has_the_pieces_as_long_as_they_are_parted_off():
    """As on their tags, by hand: 12 + 1/32 + 1/8, and 3/32 more where the near end is rough too; so no more can be left of a spoiled one."""
    job, rack = trial()
    hand = in_hand(plan(job, rack), job)
    record = Record(rack).marked(hand.mark("S-1"), job)
    assert sorted(piece.length for piece in record.cut[0].pieces) == [3 + Fraction(1, 16), 12 + Fraction(5, 32), 12 + Fraction(1, 4)]
    assert (12 + Fraction(5, 32)) in [s.length for s in record.spoiled("S-1", "A", 12 + Fraction(5, 32)).rack.sticks]
    with pytest.raises(RackError, match="Measure it again"):
        record.spoiled("S-1", "A", 12 + Fraction(3, 16))
