"""Every choice of the lessons, solved by a person: what is right, and which slip lies behind each of the others.

Oracle: the table. Each row was answered from the question as it stands on the page and from its drawing, with none of the
course's own code; a right answer is worked out by the library from parts, marks and plans.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from importlib import import_module

import pytest

from anglelib.lengths import read
from anglelib.questions.grading import grade
from anglelib.questions.question import ChoiceQuestion, OrderQuestion
from anglelib.workshop.lesson_questions import MODULES

# (lesson, question): (right, the others each with its slip)
TABLE = {
    ("00", "longest-fraction"): ("11-16", "39-64 large-figures, 5-8 coarse-as-longest"),
    ("00", "how-many-corners"): ("four", "one one-corner, two two-corners"),
    ("00", "which-is-the-heel"): ("4", "1 toe-A.for.heel, 2 fillet.for.heel, 3 toe-B.for.heel"),
    ("00", "how-many-vertices"): ("two", "one vertex-of-one-end, any heel.for.vertex"),
    ("00", "from-where"): ("heel", "inside-corner inside-corner.for.heel, fillet-edge fillet-edge.for.heel, toe toe.for.heel"),
    ("00", "which-half"): ("left", "right half-coming-up, middle disc-middle"),
    ("00", "name"): ("outer-B", "outer-A outer-A.for.outer-B, inner-B inner-B.for.outer-B, toe-B toe-B.for.outer-B"),
    ("01", "name-of-the-vertex"): ("vertex", "toe toe.for.vertex, fillet fillet.for.vertex, datum datum.for.vertex"),
    ("01", "from-where"): ("heel", "inside-corner inside-corner.for.heel, fillet-edge fillet-edge.for.heel, toe toe.for.heel"),
    ("01", "datum-end"): ("datum", "before running-as-chain, nearer two-datums"),
    ("01", "which-of-two"): ("neither", "P M23, Q M24, either M24"),
    ("01", "behind-the-shank"): ("smaller", "larger light-wrong-way, same light-not-seen"),
    ("01", "scale-tells"): ("7075", "6063 M24, both M24, neither M24"),
    ("01", "which-stick"): ("S-09", "S-10 M24, S-11 M24, S-12 M23, S-21 M23"),
    ("01", "section"): ("3-2x3-2x1-8", "3-2x3-2x1-16 M23, 3-2x3-2x3-16 M23, 7-4x7-4x1-8 M23"),
    ("02", "datum-end"): ("datum", "before running-as-chain, nearer two-datums"),
    ("02", "which-of-two"): ("neither", "P M23, Q M24, either M24"),
    ("02", "end-for-end"): ("same", "other turned-as-mirrored, neither turn-changes-metal"),
    ("02", "is-it-a-pair"): ("one-hand", "pair M26, scrap second-as-scrap"),
    ("02", "last-step"): ("neither", "handed neither-as-handed"),
    ("02", "other-hand-equal-legs"): ("B1", "B2 M26, A1 M26"),
    ("02", "other-hand-unequal-legs"): ("A2", "B2 M09, B1 M09"),
    ("02", "handed"): ("neither", "handed neither-as-handed"),
    ("02", "compare"): ("same", "other-hand turned-as-mirrored, different turned-as-another"),
    ("02", "slip"): ("right", "M09 good-as-bad, M10 good-as-bad"),
    ("03", "turned-end-for-end"): ("left", "right turned-as-other-hand, neither turned-as-neither"),
    ("03", "is-it-square"): ("unknown", "yes M21, no square-leg-as-fault"),
    ("03", "where-the-light-is"): ("out", "back light-as-high, worn light-as-wear"),
    ("03", "enough"): ("saw", "sand allowance-not-compared, leave M21"),
    ("04", "when-mixed"): ("root", "all worst-as-usual, none errors-cancel"),
    ("04", "which-side"): ("part", "waste square-on-waste, either no-ink-width"),
    ("04", "which-tool"): ("marker", "scriber scribed-to-stay, pencil graphite"),
    ("04", "name"): ("M18", "M07 M07, M16 M16, M17 M17"),
    ("05", "coarsest_blade"): ("18", "10 too-few-teeth, 14 too-few-teeth, 24 too-fine"),
    ("05", "which_slip-M01"): ("M01", "M02 M02, M03 M03, M04 M04, M05 M05, M13 M13"),
    ("05", "which_slip-M02"): ("M02", "M01 M01, M03 M03, M04 M04, M05 M05, M13 M13"),
    ("05", "which_slip-M03"): ("M03", "M01 M01, M02 M02, M04 M04, M05 M05, M13 M13"),
    ("05", "which_slip-M04"): ("M04", "M01 M01, M02 M02, M03 M03, M05 M05, M13 M13"),
    ("05", "which_slip-M05"): ("M05", "M01 M01, M02 M02, M03 M03, M04 M04, M13 M13"),
    ("05", "which_slip-M13"): ("M13", "M01 M01, M02 M02, M03 M03, M04 M04, M05 M05"),
    ("06", "which_is_the_run"): ("P", "Q M19, R M20"),
    ("06", "miter_saw"): ("no", "yes M20"),
    ("06", "which_line"): ("R", "P M09, Q wrong-leg-and-end, S M10"),
    ("06", "which_slip-M13"): ("M13", "M14 M14, M15 M15, M19 M19, M20 M20"),
    ("06", "which_slip-M14"): ("M14", "M13 M13, M15 M15, M19 M19, M20 M20"),
    ("06", "which_slip-M15"): ("M15", "M13 M13, M14 M14, M19 M19, M20 M20"),
    ("06", "which_slip-M19"): ("M19", "M13 M13, M14 M14, M15 M15, M20 M20"),
    ("06", "which_slip-M20"): ("M20", "M13 M13, M14 M14, M15 M15, M19 M19"),
    ("07", "predict-the-thickness"): ("A", "B own-thickness, both both-thicknesses"),
    ("07", "predict-a-longer-run"): ("away", "stays offset-as-thickness, nearer M20"),
    ("07", "leaves-through"): ("fillet", "other-leg width-left-from-inside, flat width-left-from-inside"),
    ("08", "in-the-hand"): ("clamped", "hand short-hand-held, gloves gloves-at-blade"),
    ("08", "which-end-first"): ("end-2", "end-1 easier-end-first, either ends-alike"),
    ("08", "which-end-is-free"): ("end-2", "end-1 M10, either ends-alike"),
    ("08", "which-end-after"): ("other-end", "kerf kerf-after-cut, alloy M24"),
    ("08", "left-long"): ("long", "nominal trim-to-fit-missed, short short-as-safe"),
    ("08", "pair-check"): ("mirror", "alike M26, length length-as-check"),
    ("08", "alloy"): ("before", "after M24, tag alloy-from-memory"),
    ("09", "still-kept"): ("short", "kept fits-so-fine"),
    ("09", "it-fits"): ("measure", "fine fits-so-fine, drill larger-rivet"),
    ("09", "four-diameters"): ("information", "error information-as-error, better more-as-better"),
    ("09", "band"): ("no", "on-fillet head-on-fillet, yes any-rivet-any-leg"),
    ("09", "why-tapered"): ("load", "weight weight-as-reason, looks looks-as-reason"),
    ("09", "where-least"): ("end", "hole hole-over-taper, bend bend-as-weak"),
    ("10", "length-alone"): ("length", "part M09, nothing reading-as-nothing"),
    ("10", "next-reading"): ("hole.2.x", "start.A.1 reading-parts-nothing, hole.3.y reading-parts-nothing"),
    ("10", "which-hand"): ("unknown", "M09 M09, M26 M26"),
    ("10", "the-batch"): ("M06", "M01 M01, M02 M02, M05 M05"),
    ("10", "seen-on-the-print"): ("leaves", "toe M13, other-end M01, nowhere M25"),
    ("10", "name-M01"): ("M01", "M03 M03, M16 M16, M11 M11"),
    ("10", "name-M03"): ("M03", "M16 M16, M01 M01, M21 M21"),
    ("10", "name-M05"): ("M05", "M11 M11, M15 M15, M18 M18"),
    ("10", "name-M09"): ("M09", "M16 M16, M03 M03, M01 M01"),
    ("10", "name-M10"): ("M10", "M14 M14, M22 M22, M16 M16"),
    ("10", "name-M11"): ("M11", "M01 M01, M03 M03, M05 M05"),
    ("10", "name-M13"): ("M13", "M14 M14, M01 M01, M05 M05"),
    ("10", "name-M14"): ("M14", "M23 M23, M15 M15, M21 M21"),
    ("10", "name-M15"): ("M15", "M11 M11, M18 M18, M22 M22"),
    ("10", "name-M16"): ("M16", "M03 M03, M01 M01, M11 M11"),
    ("10", "name-M18"): ("M18", "M01 M01, M05 M05, M11 M11"),
    ("10", "name-M21"): ("M21", "M01 M01, M03 M03, M16 M16"),
    ("10", "name-M22"): ("M22", "M14 M14, M16 M16, M03 M03"),
    ("10", "name-M23"): ("M23", "M14 M14, M21 M21, M01 M01"),
    ("10", "name-M02"): ("M02", "M01 M01, M03 M03, M11 M11"),
    ("10", "name-M04"): ("M04", "M01 M01, M03 M03, M11 M11"),
    ("10", "name-M12"): ("M12", "M01 M01, M03 M03, M05 M05"),
    ("10", "name-the-slip"): ("M01", "M03 M03, M16 M16, M11 M11"),
    ("10", "seven-readings"): ("M16", "M03 M03, M01 M01, good good"),
    ("10", "what-is-proven"): ("open", "within no-uncertainty, outside no-uncertainty"),
    ("11", "choose-the-stick"): ("T-1", "T-2 stick-not-to-use, T-3 long-stick-opened, T-4 long-stick-opened, T-5 stick-not-to-use"),
    ("11", "would-spoil"): ("S-04", "S-09 right-stick-feared"),
    ("11", "fits"): ("no", "yes one-kerf-too-few"),
    ("11", "first-to-place"): ("A5L", "A3 more-sticks-first"),
    ("11", "made-again"): ("A3", "A5L part-not-to-spoil"),
    ("11", "not-to-be-spoiled"): ("A5L", "A3 more-than-one-stick"),
    ("11", "without-metal"): ("A5", "nothing stick-thought-free"),
    ("11", "what-to-buy"): ("96", "72 bought-too-short, 144 bought-too-much"),
    ("12", "stick-for-one-short-part"): ("shortest", "longest long-stick-opened, first first-that-fits"),
    ("13", "name-of-e_s"): ("e_s", "k k.for.e_s, d_w d_w.for.e_s, e e.for.e_s"),
    ("13", "name-of-X"): ("X", "x x.for.X, L L.for.X, l_e l_e.for.X"),
    ("13", "name-of-s"): ("s", "e_s e_s.for.s, W W.for.s, r r.for.s"),
    ("13", "name-of-t"): ("t", "tA tA.for.t, k k.for.t, W W.for.t"),
    ("13", "name-of-k"): ("k", "e_s e_s.for.k, c c.for.k, d_f d_f.for.k"),
    ("13", "name-of-e"): ("e", "e_s e_s.for.e, D D.for.e, r r.for.e"),
    ("13", "name-of-theta"): ("theta", "theta_q theta_q.for.theta, delta delta.for.theta, phi phi.for.theta"),
    ("13", "name-of-r"): ("r", "rho rho.for.r, r2 r2.for.r, Rh Rh.for.r"),
}

_LAST = "finished-early"
ORDERS = {
    # a right order; and what must come before what, with the slip of the reverse, the gravest first
    ("08", "order"): (
        "square-1 witness taper-A-1 length square-2 drill finish",
        [
            ("square-1", "witness length taper-A-1", "M16"), ("witness", "taper-A-1", "M16"), ("taper-A-1", "length", "length-first"), ("length", "square-2", "end-not-there"),
            *((cut, "drill", "sure-before-risky") for cut in ("square-1", "taper-A-1", "length", "square-2")),
            *((cut, "finish", _LAST) for cut in ("square-1", "taper-A-1", "length", "square-2", "drill")),
        ],
    ),
    # end 2 has the vertex taper: it is the harder one, and made on the stick
    ("08", "order-of-both-ends"): (
        "square-2 witness taper-A-2 length square-1 taper-A-1 finish",
        [
            ("square-2", "witness length", "M16"), ("square-1", "taper-A-1", "M16"), ("square-2", "taper-A-2", "M16"), ("witness", "taper-A-2", "M16"),
            ("taper-A-2", "length", "length-first"), ("length", "square-1", "end-not-there"),
            *((cut, "finish", _LAST) for cut in ("square-2", "taper-A-2", "length", "square-1", "taper-A-1")),
        ],
    ),
    ("08", "batch"): (
        "trial fit batch pair ink-off prime",
        [
            ("trial", "fit", ""), ("trial", "batch", "batch-before-trial"), ("fit", "batch", "batch-before-fit"), ("batch", "pair", ""), ("pair", "prime", "M26"),
            ("ink-off", "prime", "primed-over-ink"), ("pair", "ink-off", "ink-off-early"),
        ],
    ),
}  # fmt: skip


@cache
def asked() -> dict:
    """Every choice and every order, by its lesson and its name there."""
    found = {}
    for lesson, name in {**MODULES, "13_behind_the_pictures": "behind_the_pictures"}.items():
        for key, make in import_module(f"anglelib.questions.{name}").QUESTIONS.items():
            question = make()
            if isinstance(question, ChoiceQuestion | OrderQuestion):
                found[lesson[:2], key] = question
    return found


def test_the_tables_have_every_choice_and_every_order():
    assert set(asked()) == {*TABLE, *ORDERS}


@pytest.mark.parametrize("key", TABLE, ids=" ".join)
def test_the_right_choice_is_right_and_each_other_one_has_its_slip(key):
    question, (right, others) = asked()[key], TABLE[key]
    slips = dict(other.split(" ") for other in others.split(", "))
    assert set(question.words) == {right, *slips}
    assert grade(question, right).right
    for choice, slip in slips.items():
        found = grade(question, choice)
        assert (found.status, found.slips) == ("mistake", (slip,)), (choice, found)


@pytest.mark.parametrize("key", ORDERS, ids=" ".join)
def test_an_order_is_right_if_it_keeps_every_rule_and_else_the_gravest_is_named(key):
    """All neighbours exchanged, and each operation moved behind each other one."""
    question, (right, rows) = asked()[key], ORDERS[key]
    best = right.split()
    rules = [(first, then, slip) for first, thens, slip in rows for then in thens.split()]
    moved = [[*best[:i], *best[i + 1 : j + 1], best[i], *best[j + 1 :]] for i in range(len(best)) for j in range(i, len(best))]
    for order in [*moved, best[::-1]]:
        slip = next((slip for first, then, slip in rules if order.index(first) > order.index(then)), None)
        found = grade(question, tuple(order))
        wanted = ("right", ()) if slip is None else ("mistake", (slip,)) if slip else ("wrong", ())
        assert (found.status, found.slips) == wanted, (order, found)
    assert grade(question, tuple(question.words)).status in ("mistake", "wrong")


def test_the_working_names_the_slip_that_a_part_was_made_with():
    """Of a good part's readings no slip is said, and never another part's."""
    from anglelib.questions.check_and_diagnose import EXERCISES, name_slip

    slip = EXERCISES["seven-readings"].thing(0)
    good = replace(slip, id="good", others=(slip.id, *(other for other in slip.others if other != "good"))[:3])
    for question in (name_slip(slip, readings=True), name_slip(good, readings=True)):
        assert [id_ for id_, words in question.words.items() if words in question.working] == ([] if question.answer == "good" else [question.answer])
        assert "good" in question.words and len(question.words) >= 3


def test_no_text_speaks_of_an_end_or_a_leg_that_there_is_not():
    """In every question, choices and numbers alike; and the other hand of a bracket tapered on leg A at end 1 is, turned, leg A at end 2."""
    from tests.questions.test_beginners import asked as numbered

    for key, question in {**asked(), **numbered()}.items():
        texts = [question.prompt, question.working, *question.hints, *(wrong.sentence for wrong in question.wrong), *getattr(question, "words", {}).values()]
        assert not [text for text in texts if re.search(r"(?<!the )\b[Ee]nd [03-9](?![/0-9])|\b[Ll]eg [C-Z]\b|None", text)], key
    assert "leg A, end 2" in asked()["02", "other-hand-equal-legs"].working


def test_a_bracket_of_which_nobody_says_the_hand_is_the_left_one():
    from anglelib.questions.read_part import BRACKET, end_for_end, other_hand

    for hand, said, other in ((None, "left", "right"), ("left", "left", "right"), ("right", "right", "left")):
        question = end_for_end(replace(BRACKET, hand=hand))
        assert (said in question.words["same"], other in question.words["other"], f"the {said} one" in question.prompt) == (True, True, True)
        assert f"the {said} one" in other_hand(replace(BRACKET, hand=hand)).prompt


@pytest.mark.parametrize(
    ("usable", "far_end_good", "right", "slip"),
    [
        ("15", False, "no", "no-kerf"), ("15 1/16", False, "no", "no-kerf"), ("15 1/8", False, "no", "one-kerf-too-few"), ("15 11/64", False, "no", "one-kerf-too-few"),
        ("15 3/16", False, "yes", "hair-feared"), ("15 1/16", True, "no", "no-kerf"), ("15 7/64", True, "no", "no-kerf"), ("15 1/8", True, "yes", "one-kerf-too-many"),
    ],
)  # fmt: skip
def test_whether_three_blanks_of_five_fit(usable, far_end_good, right, slip):
    """15, and 1/16 for each cut: three of them, or two where the far end may be a blank's."""
    from anglelib.questions.plan_stock import Batch, fits

    question = fits(Batch(3, Fraction(5), read(usable), Fraction(1, 16), far_end_good))
    assert (question.answer, [wrong.slip for wrong in question.wrong]) == (right, [slip])


BY = {"M01": "1/16 too short", "M02": "1/32 too short", "M03": "1/8 too short", "M04": "3/64 too short", "M05": "3/64 too long"}
"""Kerf 1/16, allowance 3/64: what each slip of lesson 05 does to a length."""


@pytest.mark.parametrize("slip", [*BY, "M13"])
def test_what_each_slip_does_to_a_length_is_said(slip):
    question = asked()["05", f"which_slip-{slip}"]
    for wrong in question.wrong:
        if wrong.slip in BY:
            assert f" {BY[wrong.slip]}" in wrong.sentence, wrong
        else:
            assert "length right" in wrong.sentence and "1/16 too low" in wrong.sentence
    much, _, sense = BY.get(slip, "1/16 too low").partition(" ")
    assert f" {much} (" in question.prompt and question.prompt.partition(") ")[2].startswith(sense)


def test_what_is_too_long_for_what_is_left_says_how_long_it_is():
    """A lower longeron of 91 3/4 with a thirty-second to sand at each end."""
    (wrong,) = asked()["11", "made-again"].wrong
    assert " 91 13/16:" in wrong.sentence
