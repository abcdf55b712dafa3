"""Lesson 11, without a kernel: every control moved over its range, every slip named, the sums counted again by hand."""

import re
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction as F
from itertools import product

import pytest
from lesson_checks import PROJECT, THEMES, Page, texts, told
from lesson_checks import legible as plainly_legible
from patience import PATIENCE

from anglelib.drawing.rack_rows import Row
from anglelib.drawing.sheet import Line, Polyline
from anglelib.drawing.stock_sheets import Batch, batch_sheet
from anglelib.errors import PlanError
from anglelib.job import Shop
from anglelib.lengths import exact
from anglelib.lessons import plan_stock as lesson
from anglelib.lessons import table_game
from anglelib.lessons.live import View
from anglelib.questions import plan_stock as questions
from anglelib.questions.grading import grade
from anglelib.questions.question import ChoiceQuestion
from anglelib.stock.by_hand import by_hand
from anglelib.stock.rack import Stick

PICTURES = {
    "one_part": lesson.one_part, "traps": lesson.traps, "kerf": lesson.kerf, "rack": lesson.rack, "besides": lesson.besides,
    "bears": lesson.bears, "broken": lesson.broken, "possible": lesson.possible, "buy": lesson.buy,
    "game(1)": lambda: lesson.game(1), "game(2)": lambda: lesson.game(2),
}  # fmt: skip
PAGE = Page.of(lesson)


def legible(sheet, theme="screen"):
    """As every picture, with as many labels as there are sticks; no filled block, percentage or yield."""
    plainly_legible(sheet, theme, longest=1200, most=200)
    assert not re.search(r"%|yield|waste|utilis", told(sheet))
    assert not [i for i in sheet.items if isinstance(i, Polyline) and i.kind and i.fill not in ("", "paper")]


# --- the pictures over the range of their controls ---------------------------------------------------------
@pytest.mark.parametrize("theme", THEMES)
def test_one_part_of_every_section_alloy_and_length(theme):
    sections = {part.section for part in lesson.demo_job().parts}
    for section, alloy in product(sections, lesson.ALLOYS):
        for length in lesson.LENGTHS[::23]:
            legible(lesson.draw_one({"section": section, "alloy": alloy, "length": length}, View(theme)), theme)
        for length in {part.length for part in lesson.demo_job().parts if part.section == section}:
            legible(lesson.draw_one({"section": section, "alloy": alloy, "length": length, "list": True}, View(theme)), theme)
        legible(lesson.draw_one({"section": section, "alloy": alloy, "length": F(5)}, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_traps_at_every_length(theme):
    for eighths in range(8, 48 * 8, 5):
        legible(lesson.draw_traps({"length": F(eighths, 8)}, View(theme)), theme)
    legible(lesson.draw_traps({"length": F(20)}, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_batches_of_every_kind(theme):
    for number, kerf, far in product(range(1, 7), lesson.KERFS.values(), lesson.FAR_ENDS):
        for blank, usable in product((F(1), F(41, 16), F(5), F(6)), (F(12), F(121, 8), F(20))):
            values = {"number": number, "blank": blank, "usable": usable, "kerf": kerf, "far": far}
            legible(lesson.draw_batch(values, View(theme)), theme)
    for prediction in (F(0), F(15), F(121, 8), F(400)):
        legible(lesson.draw_batch({**values, "number": 3}, View(theme, prediction=prediction)), theme)


@pytest.mark.parametrize("theme", THEMES)
def test_every_rule_and_every_part_besides_the_list(theme):
    for rule in lesson.RULES:
        legible(lesson.draw_rack({"rule": rule}, View(theme)), theme)
    for part_id in lesson.BESIDES:
        legible(lesson.draw_besides({"part_id": part_id}, View(theme)), theme)
    legible(lesson.draw_rack({"rule": rule}, View(theme, revealed=False)), theme)
    legible(lesson.draw_besides({"part_id": "A3"}, View(theme, revealed=False)), theme)


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("which", table_game.TABLES)
def test_tables_given_out_in_many_ways(theme, which):
    table = table_game.TABLES[which]
    number = len(table.problem.blanks)
    options = (table_game.NOT_YET, *table.sticks)
    for seed in range(60):
        given = {table_game.name(n): options[(seed * (n + 3) + n * n + seed // 7) % len(options)] for n in range(number)}
        for plan in (False, True):
            legible(table_game.draw_table(table, {**given, "plan": plan}, View(theme)), theme)
    for stick in table.sticks:  # everything on one stick
        legible(table_game.draw_table(table, {table_game.name(n): stick for n in range(number)}, View(theme)), theme)


@pytest.mark.parametrize(
    ("name", "secrets"),
    [("one_part", ("left", "17 5/16", "not used")), ("traps", ("serves", "29 1/8", "wants")), ("kerf", ("15 3/16", "TOO LONG", "fits")),
     ("rack", ("NOT MADE", "the plan", "13 3/4")), ("besides", ("NO METAL", "cut it here"))],
)  # fmt: skip
def test_the_answer_is_in_no_word_of_the_picture_before_the_prediction(name, secrets):
    sheet = PICTURES[name]().sheet
    words = [*texts(sheet), sheet.sentence]
    assert not [text for text in words for secret in secrets if secret in text]
    assert not any(getattr(item, "accent", False) for item in sheet.items)


def test_a_table_can_be_touched_only_when_the_part_that_may_not_be_spoiled_is_named():
    live = lesson.game(1)
    control = live.controls[table_game.name(0)]
    assert control.buttons.disabled
    live.ask.entry.value = live.ask.question.answer
    live.ask.check.click()
    assert not control.buttons.disabled and live.ask.grade.right


# --- what n blanks need ------------------------------------------------------------------------------------
def sawn(batch: Batch) -> F:
    """The saw along the stick, blank by blank, in its own words: where the last cut or the last blank ends."""
    at = F(0)
    for number in range(1, batch.number + 1):
        at += batch.blank
        if not (batch.far_end_good and number == batch.number):
            at += batch.kerf
    return at


def test_a_batch_is_what_the_saw_walks():
    for number, blank, kerf, far in product(range(1, 7), (F(2), F(77, 16)), lesson.KERFS.values(), (False, True)):
        for usable in (F(10), number * blank, number * (blank + kerf), number * blank + (number - 1) * kerf):
            batch = Batch(number, blank, usable, kerf, far)
            assert batch.needs == sawn(batch) and batch.left == usable - sawn(batch)
            assert ("fits" in batch_sheet(batch).sentence) is (sawn(batch) <= usable)


def test_each_kerf_is_drawn_as_wide_as_it_is():
    batch = Batch(3, F(5), F(20), F(1, 8))
    unit = (234 - 40) / 20
    edges = sorted(item.x1 for item in batch_sheet(batch).items if isinstance(item, Line) and item.kind == "cut")
    assert len(edges) == 6 and [round((b - a) / unit, 4) for a, b in zip(edges[::2], edges[1::2])] == [0.125] * 3


def test_the_same_stick_serves_when_its_far_end_is_sound():
    values = {"number": 3, "blank": F(5), "usable": F(121, 8), "kerf": F(1, 16)}
    assert lesson.batch_of({**values, "far": False}).left == F(-1, 16) and lesson.batch_of({**values, "far": True}).left == 0
    assert "it fits exactly" in lesson.draw_batch({**values, "far": True}, View()).sentence


@pytest.mark.parametrize("cuts", (1, 2, 12))
def test_the_formula_card_counts_as_a_person_does(cuts):
    """56 1/4 less 55 3/4 is 1/2: one cut of 1/16 leaves 7/16, two leave 3/8; twelve take 3/4 and are 1/4 too many."""
    card = lesson.formula()
    card.controls["n_c"].slider.value = cuts
    assert {1: "7/16 is left", 2: "3/8 is left", 12: "TOO LONG by 1/4"}[cuts] in card.words.value
    assert ("S + n_c k > E" in card.formulas.value.replace("&gt;", ">")) is (cuts == 12)
    for control in card.controls.values():
        for place in (control.slider.min, control.slider.max):
            control.slider.value = place
    card.controls["k"].entry.value = "wide"
    assert "wide" in card.words.value


# --- one part, and the list -----------------------------------------------------------------------------------
def test_the_bar_comes_from_the_stick_that_a_person_would_take():
    """Read off rack.csv by hand: S-09 is the shortest of 3/4 x 3/4 x 1/8, 6061-T6, and 32 5/8 long."""
    sheet = lesson.draw_one({**lesson.job_of("A3"), "alloy": "6061-T6"}, View())
    assert "Cut it from S-09" in sheet.sentence and "Part it off at 17 5/16" in sheet.sentence and "15 1/8 left" in texts(sheet)
    assert all(name in sheet.sentence.split(" Not: ")[1] for name in ("S-10", "S-11", "S-12"))


def test_the_same_bar_with_the_list_behind_it():
    """Any stick that is said to cost a part does cost it: planned with the bar pinned to it, the list is short."""
    from anglelib.stock.planner import plan

    job, part = lesson.listed(), lesson.demo_part("A3")
    sheet = lesson.draw_one({**lesson.job_of("A3"), "alloy": "6061-T6", "list": True}, View())
    named = [text.partition(":")[0] for text in texts(sheet) if "NO METAL" in text]
    assert named and "Every listed part of the section can still be made." in sheet.sentence
    now = lesson.now_for(part.section, "6061-T6", part.length, True)
    for stick in (now.stick, *(other.stick for other in now.others)):
        one, rest = replace(part, id="one", quantity=1, only_stick=stick.id), replace(part, quantity=part.quantity - 1)
        short = plan(replace(job, parts=(one, *(rest if p.id == "A3" else p for p in job.parts))), lesson.demo_rack()).shortages
        assert bool(short) is (exact(stick.length) in named), stick.id


def test_each_trap_is_refused_for_its_reason():
    said = lesson.draw_traps({"length": F(181, 8)}, View()).sentence
    for reason in ("S-10 is 6063-T5", "S-11 carries no mark", "S-12 has a square inside corner", "S-33 looks alike but is thicker", "S-30 serves"):
        assert reason in said
    assert "too short" in lesson.draw_traps({"length": F(30)}, View()).sentence
    last, first = lesson.draw_traps({"length": F(233, 8)}, View()).sentence, lesson.draw_traps({"length": F(234, 8)}, View()).sentence
    assert "S-30 serves" in last and "S-30 is too short" in first  # 29 1/8 is the answer to the question above it


def test_what_the_prose_says_of_the_rules_is_so():
    made = {rule: lesson.made_by(rule) for rule in lesson.RULES}
    assert all(missing for _, missing, _ in made.values())
    assert {"A6L", "A6R"} & {*made["first-that-fits"][1]} and made["longest-first"][1] == ("A3",) and {"A6L", "A6R"} & {*made["small-first"][1]}
    assert made["small-first"][2] > made["longest-first"][2]
    group = lesson.planned()
    assert group.shortages == () and all(proof.proven for proof in group.proofs[:2])
    first = made["first-that-fits"][0][0]
    assert first.length == 144 and {cut.name for cut in first.cuts[:12]} == {"A1L", "A1R"}  # the longest stick for the shortest parts


def test_rows_of_a_rule_are_sawn_as_it_says():
    """Every row counted again: blanks and kerfs from the trim on, in order, none across another or past the end."""
    shop, sizes = Shop(), {part.id: part.length for part in lesson.listed().parts}
    for rule in lesson.RULES:
        rows, missing, _ = lesson.made_by(rule)
        made = 0
        for row in rows:
            stick = lesson.demo_rack().stick(row.id)
            at = stick.trim_1
            for cut in row.cuts:
                assert (cut.start, cut.end - cut.start) == (at, sizes[cut.name] + 2 * shop.allowance)
                at = cut.end + shop.kerf
                made += 1
            assert at <= stick.length - stick.trim_2
        assert made + len(missing) == sum(part.quantity for part in lesson.listed().parts) == 27


def test_the_plan_in_the_picture_passes_the_checker():
    from anglelib.stock.checker import check
    from anglelib.stock.planner import plan

    assert not check(plan(lesson.listed(), lesson.demo_rack()), lesson.listed(), lesson.demo_rack())


def test_nothing_of_the_lesson_fails_without_the_solver():
    """In a Python of its own that has none: the lesson's pictures are there, and what needs the solver says so."""
    code = (
        "import sys; sys.modules['ortools'] = None\n"
        "from anglelib.lessons import plan_stock as lesson\n"
        "boxes = [getattr(lesson, name)() for name in ('recall', 'one_part', 'traps', 'kerf', 'worked', 'rack', 'spoiled', 'besides')]\n"
        "boxes += [getattr(lesson, name)() for name in ('formula', 'bears', 'broken', 'possible', 'buy')]\n"
        "assert all(lesson.NO_SOLVER in box.sheet.sentence for box in boxes[-4:])\n"
        "one = boxes[1]; one.ask.entry.value = one.ask.question.answer; one.ask.check.click()\n"
        "one.controls['list'].buttons.value = True; assert lesson.NO_SOLVER in one.sheet.sentence, one.sheet.sentence\n"
        "one.take({**lesson.job_of('D2L'), 'list': True}); assert 'Every listed part' in one.sheet.sentence, one.sheet.sentence\n"
        "boxes += [lesson.game(1), lesson.game(2)]\n"
        "rack = boxes[5]; rack.ask.entry.value = rack.ask.question.answer; rack.ask.check.click()\n"
        "print(rack.sheet.sentence); print(boxes[7].sheet.sentence)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=PROJECT, timeout=PATIENCE)
    assert done.returncode == 0, done.stderr
    assert done.stdout.count(lesson.NO_SOLVER) == 2 and "NOT MADE" not in done.stderr


# --- the table game --------------------------------------------------------------------------------------
GOOD = {1: "S-04 S-05 S-06 S-06 S-09 S-05", 2: "S-08 S-09 S-04 S-06 S-06 S-06"}
"""The plans, put on the table by hand: A5L alone, A4 and A3 from S-05, and so on."""


def given(which: int, words: str) -> dict:
    return {table_game.name(n): stick for n, stick in enumerate(words.split())}


@pytest.mark.parametrize("which", GOOD)
def test_the_plan_by_hand_is_the_plan(which):
    table, values = table_game.TABLES[which], given(which, GOOD[which])
    assert table.done(values) and "no plan leaves longer pieces" in table.compared(values)
    assert "fewer sticks" not in table.compared(values)


def test_a_table_that_ends_worse_is_told_by_how_much():
    table = table_game.TABLES[1]
    same = given(1, "S-04 S-05 S-06 S-06 S-05 S-09")
    assert table.done(same)
    assert table.compared(same) == "In whole inches no plan leaves longer pieces: every way was tried."  # the other of two equal ways
    worse = given(1, "S-04 S-08 S-05 S-05 S-09 S-09")
    assert not table.done(worse) and "S-09 is TOO LONG by 2 3/16" in table.judged(worse)
    worse = given(1, "S-04 S-08 S-05 S-06 S-09 S-05")
    assert "The plan leaves 38 5/8 and 15 1/8: its longest piece is 38 5/8, yours is 27 7/8." == table.compared(worse)


@pytest.mark.parametrize("which", table_game.TABLES)
def test_both_habits_end_worse_than_the_plan(which):
    """On each table, as its text says: the first that fits, and the longest part first."""
    table = table_game.TABLES[which]
    instance, best = table.problem.instance, table.problem.instance.score(table.plan)
    row = {part_id: n for n, (part_id, _) in enumerate(table.wanted)}
    order = sorted(range(len(table.problem.blanks)), key=lambda n: row[table.problem.blanks[n].part.id])
    for rule in ("first-that-fits", "longest-first"):
        packing = lesson.RULES[rule].pack(instance, [instance.claims[n] for n in order])
        assert instance.score(packing)[:2] < best[:2]


def test_the_plan_is_hidden_until_everything_is_placed():
    table = table_game.TABLES[1]
    part = given(1, "S-04 S-05 S-06")
    sheet = table_game.draw_table(table, {**part, "plan": True}, View())
    assert "Place every part first." in sheet.sentence and "the plan, every way tried" not in texts(sheet)
    sheet = table_game.draw_table(table, {**given(1, GOOD[1]), "plan": True}, View())
    assert "the plan, every way tried" in texts(sheet)


def test_what_is_left_and_too_long_is_counted_again():
    """In whole 64ths, from the trims on: blank, kerf, blank, kerf; the last kerf, of four, may lie in the far trim."""
    table = table_game.TABLES[1]
    for seed in range(40):
        chosen = {n: table.sticks[(seed * (n + 1) + n) % len(table.sticks)] for n in range(6)}
        for hand in by_hand(table.problem, chosen, Shop()):
            room = int((hand.stick.length - hand.stick.trim_1 - hand.stick.trim_2) * 64)
            for n, name in chosen.items():
                if name == hand.stick.id:
                    room -= int(table.problem.blanks[n].part.length * 64) + 4 + 4
            assert (hand.left, hand.over) == (F(max(room, 0), 64), F(max(-room - 4, 0), 64))


def test_a_stick_that_is_not_on_the_table():
    with pytest.raises(PlanError, match="There is no stick S-99 on the table: choose one of S-04, S-05"):
        by_hand(table_game.TABLES[1].problem, {0: "S-99"}, Shop())


# --- the questions -------------------------------------------------------------------------------------
def test_whether_blanks_fit_is_asked_at_the_edge_and_answered_by_the_saw():
    series = questions.EXERCISES["fits"]
    kinds = set()
    for number in range(60):
        batch, question = series.thing(number), series[number]
        assert question.answer == ("yes" if sawn(batch) <= batch.usable else "no")
        assert abs(batch.left) <= batch.kerf + F(1, 32)
        kinds.add((question.answer, batch.far_end_good, question.wrong[0].slip))
    assert len(kinds) >= 4


def test_shelves_are_in_no_order_and_have_every_trap():
    series, places, found = questions.EXERCISES["stick"], set(), set()
    for number in range(40):
        shelf, question = series.thing(number), series[number]
        places.add(question.answer)
        found |= {w.slip for w in question.wrong}
        need = shelf.part.length + F(1, 16) + F(1, 16) + F(1, 8)  # two allowances, a kerf, two trims
        able = [s for s in shelf.sticks if s.alloy == "6061-T6" and s.length >= need]
        assert question.answer == min(able, key=lambda s: s.length).id and len(able) == 3
        legible(lesson._shelf(shelf))
    assert len(places) == 5 and found == {questions.LONG_OPENED, "stick-not-to-use"}


def test_the_numbers_of_the_demo_rack():
    """Counted by hand: 56 1/8 - 38 7/16 - 17 5/16 - 1/8 = 1/4; 53 1/2 - 3 (17 5/16 + 1/16) = 1 3/8; 29 1/4 - 1/16 = 29 3/16."""
    assert grade(lesson.last_step().question, "1/4").right and grade(lesson.all_steps().question, "1 3/8").right
    assert grade(lesson.traps().ask.question, "29 3/16").right and grade(lesson.kerf().ask.question, "15 3/16").right
    assert "53 1/4 (53.250)" in repr(lesson.worked()) and "1 1/4 (1.250)" in repr(lesson.worked())
    assert lesson.rack().ask.question.answer == "A6L" and "Only 3 sticks" in lesson.rack().ask.question.working
    assert lesson.besides().ask.question.answer == "S-04" and lesson.spoiled().question.answer_text == "Floor cleat, left"
    assert lesson.game(1).ask.question.answer == "A5L" and lesson.game(2).ask is None


def test_sums_have_more_than_one_slip():
    sums = [question for make in questions.QUESTIONS.values() if not isinstance(question := make(), ChoiceQuestion)]
    assert all(len(question.wrong) >= 2 and all(len(wrong.sentence) > 20 for wrong in question.wrong) for question in sums)
    for question in (lesson.last_step().question, lesson.all_steps().question, lesson.traps().ask.question, lesson.kerf().ask.question):
        assert len(question.wrong) >= 3


def test_questions_that_cannot_be_asked():
    part, shop = lesson.demo_part("A3"), Shop()
    short = Stick("S-1", part.section, part.alloy, 10)
    with pytest.raises(ValueError, match="no stick serves A3"):
        questions.choose_stick(part, [short], shop)
    with pytest.raises(ValueError, match="exactly one of S-05, S-09"):
        questions.would_spoil(lesson.now_besides("A3"), ("S-05", "S-09"))
    with pytest.raises(ValueError, match="2 parts fit"):
        questions.made_again([part, part], [F(1), F(2)], F(9), F(1, 16))
    with pytest.raises(ValueError, match="0 parts have one stick only"):
        questions.not_to_be_spoiled(table_game.TABLES[2].problem.blanks, table_game.TABLES[2].problem.sticks, shop)
    with pytest.raises(ValueError, match="a row is one of"):
        Row("S-1", F(3), state="sawn")


# --- the notebook ----------------------------------------------------------------------------------------
def test_the_page_speaks_of_no_yield():
    assert not re.search(r"%|\byield|utilis|per cent|percent", PAGE.prose)


def test_numbers_in_the_prose_are_the_demo_kit_s():
    job, prose = lesson.demo_job(), PAGE.prose
    assert f"less than {job.shop.hand_minimum} in. in the hand" in prose
    assert f"in whole inches, and nothing under {job.shop.usable_minimum} in." in prose and job.shop.grain == 1
    cleats = sum(part.quantity for part in job.parts[:2])
    assert ("begins with twelve floor cleats" in prose) and cleats == 12
    assert "four longerons that may not be spliced" in prose and sum(p.quantity for p in lesson.listed().parts if p.one_piece) == 4
    assert "Nine sticks may be used" in prose and len(lesson.asked().sticks) == 9


def test_a_part_of_the_kit_that_is_longer_is_still_the_kit_s():
    """The fairing angle of another length keeps its section, so that the reasons are those of its metal."""
    part = replace(lesson.demo_part("C2L"), tapers=(), holes=(), mirror_of="", hand="neither", length=F(30))
    assert part.section == lesson.demo_part("C2L").section
