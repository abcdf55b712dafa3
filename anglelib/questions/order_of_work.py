"""The questions of lesson 08: what comes before what, what is in the hand, and what a failed operation costs.

>>> ask = lost_when_cut_first(BRACKET, Shop())
>>> ask.answer_text, [wrong.slip for wrong in ask.wrong][:2]
('4 7/8 (4.875)', ['only-cut-lost', 'no-allowance-no-kerf'])
>>> cut_first(BRACKET, Shop())[:3]
('square-1', 'length', 'square-2')
>>> order(BRACKET, Shop()).broken(cut_first(BRACKET, Shop())).slip
'length-first'
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from anglelib.geometry.ends import first_end, hardness
from anglelib.geometry.order import COPE, FINISH, HOLES, LENGTH, ROUND, TAPER, WITNESS, Card, cards, cut_back, walk, whole
from anglelib.geometry.order_words import title
from anglelib.geometry.taper import taper_lines
from anglelib.geometry.work_words import verb
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.part import ENDS, Hole, Part, Taper, other_end
from anglelib.questions.dressing import DATUM, before_dressing, dressed_after, fresh_dressed
from anglelib.questions.fresh import ENDINGS, Numbers, fresh_part
from anglelib.questions.named import name_of
from anglelib.questions.question import MUCH, Before, ChoiceQuestion, LengthQuestion, NumberQuestion, OrderQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.questions.trial_and_batch import batch_order, pair_check, trimmed_at_fitting, write_alloy
from anglelib.section import Section

LENGTH_FIRST = "length-first"
OTHER_END, WRONG_ALLOY = "M10", "M24"
HALF = Fraction(1, 128)
STICK = Fraction(24)
"""The stick that the pictures begin with [in]."""
_SMALL = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
_HOLES = [Hole(leg, x, "11/16", "3/16") for leg, x in (("A", "2 7/16"), ("A", "4 1/4"), ("B", "5/8"), ("B", "3 3/8"))]
BRACKET = Part("C1L", "Door hinge bracket, left", _SMALL, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")], _HOLES)
"""The part that the questions are asked of where no other is named."""
LINK = Part("P2", "Trim link", _SMALL, "6061-T6", "5 1/8", [Taper("A", 1, "3/4", run="1"), Taper("A", 2, run="1 7/8")])
"""A part whose harder end is end 2."""
STRUT = Part("P3", "Seat strut", _SMALL, "6061-T6", "7 1/2", [Taper("B", 2, "1/2", run="1 1/2")])
"""A part with one taper, at end 2."""


# --- the cards -----------------------------------------------------------------------------------------
def card_words(part: Part, shop: Shop) -> dict[str, str]:
    """What a person reads on a part's cards, by id, in the order of work."""
    return {card.id: title(card) for card in cards(part, shop)}


def _cuts(laid: Mapping[str, Card], end: int) -> list[str]:
    """The cards that cut at an end: its tapers and its copes."""
    return [id_ for id_, card in laid.items() if card.kind in (TAPER, COPE) and card.end == end]


# --- the rules -----------------------------------------------------------------------------------------
def rules(part: Part, shop: Shop) -> tuple[Before, ...]:
    """What comes before what on a part, each with its reason, the gravest first."""
    laid = {card.id: card for card in cards(part, shop)}
    first = first_end(part)
    second = other_end(first)
    square = {card.end: id_ for id_, card in laid.items() if card.squares}
    datum = "Until an end is square there is nothing to measure from: what is dressed off it later goes off every length."
    found = [Before(square[first], id_, datum, DATUM) for id_ in laid if id_ in (WITNESS, LENGTH)]
    found += [Before(square[end], id_, datum, DATUM) for end in ENDS for id_ in _cuts(laid, end)]
    if WITNESS in laid:
        lost = "That taper takes the end away. Without a witness line struck before it, nothing is left to measure from."
        found += [Before(WITNESS, id_, lost, DATUM) for id_, card in laid.items() if card.line is not None and card.line.to_vertex]
    found += [
        Before(id_, LENGTH, f"While the part is on the stick, there is length to hold, and a spoiled {laid[id_].kind} costs a re-cut end. Cut off, it costs the part.", LENGTH_FIRST)
        for id_ in _cuts(laid, first)
    ]
    found.append(Before(LENGTH, square[second], f"End {second} is still inside the stick: the cut to length makes it.", "end-not-there"))
    if ROUND in laid:
        found += [Before(square[end], ROUND, "An arc is laid off from the square end that it rounds.", DATUM) for end in sorted({c.end for c in part.corners})]
    cuts = [id_ for id_ in laid if id_ not in (WITNESS, HOLES, FINISH)]
    for sure, done in ((ROUND, "rounding"), (HOLES, "drilling")):
        early = f"A cut is still to come; if it fails, the {done} is lost with it. What is risky comes before what is sure."
        found += [Before(cut, sure, early, "sure-before-risky") for cut in cuts if sure in laid and cut != sure]
    late = "Every cut and every hole leaves new burrs, and ink: they come off last, once."
    return (*found, *(Before(id_, FINISH, late, "finished-early") for id_ in laid if id_ not in (FINISH, WITNESS)))


def order(part: Part, shop: Shop, id: str = "order-of-work") -> OrderQuestion:
    """The operations of a part, offered as somebody lays them who cuts to length first."""
    words = card_words(part, shop)
    return OrderQuestion(
        id,
        f"{described(part)} Put the operations in order.",
        {id_: words[id_] for id_ in cut_first(part, shop)},
        rules(part, shop),
        hints=(
            "First something to measure from. Last what makes no more burrs.",
            f"End {first_end(part)} is the harder one: it is made while the part is still on the stick.",
        ),
        working="First the datum, then the harder end on the long stick, then the length, the easier end, the holes, the finish.",
    )


def cut_first(part: Part, shop: Shop) -> tuple[str, ...]:
    """The tempting order: both ends sawn to length and squared, the holes drilled, then tapers and copes, the easier end's first."""
    laid = {card.id: card for card in cards(part, shop)}
    first = first_end(part)
    square = {card.end: id_ for id_, card in laid.items() if card.squares}
    cuts = [*_cuts(laid, other_end(first)), *_cuts(laid, first)]
    start = [square[first], LENGTH, square[other_end(first)]]
    rest = [id_ for id_ in laid if id_ not in start and id_ not in cuts and id_ != FINISH]
    return (*start, *rest, *cuts, FINISH)


def easier_first(part: Part, shop: Shop) -> tuple[str, ...]:
    """The easier end made on the stick, and the harder one last, on the cut part."""
    hard = first_end(part)
    easy = other_end(hard)
    laid = {card.id: card for card in cards(part, shop)}
    square = {card.end: id_ for id_, card in laid.items() if card.squares}
    start = [square[easy], *_cuts(laid, easy), LENGTH, square[hard]]
    return (*start, *(id_ for id_ in laid if id_ not in start))


def described(part: Part) -> str:
    """What the order depends on: the length and the ends."""
    lines = taper_lines(part)
    ends = []
    for end in (1, 2):
        here = [line for line in lines if line.end == end]
        words = " and ".join(
            f"leg {line.leg} tapered, run {exact(Fraction(line.run))}, "
            + ("to the vertex" if line.to_vertex else f"width left {exact(Fraction(line.width_left))}")
            for line in here
        )
        ends.append(f"End {end}: {words or 'square'}.")
    holes = f" {len(part.holes)} hole{'s' if len(part.holes) > 1 else ''}." if part.holes else ""
    return f"{part.name}, {part.section.size}, {exact(part.length)} long. {' '.join(ends)}{holes}"


# --- the cost of failing -----------------------------------------------------------------------------------
def lost_when_cut_first(part: Part, shop: Shop, id: str = "lost-when-cut-first") -> LengthQuestion:
    """How much of the stick goes with a taper that fails on a part already cut to length."""
    line = next(line for line in taper_lines(part) if line.end == first_end(part))
    run, e, k = Fraction(line.run), shop.allowance, shop.kerf
    right = whole(part, shop)
    return LengthQuestion(
        id,
        f"A {part.name.split(',')[0].lower()}, {exact(part.length)} long, is cut to length. Only then its taper is sawn, run {exact(run)}, and the saw drifts into the part. Another "
        f"must be made: each end gets {exact(e)} to sand, the kerf is {exact(k)}. How much of the stick does the slip cost?",
        right,
        tolerance=HALF,
        wrong=(
            WrongAnswer("only-cut-lost", cut_back(run, shop), "That would be so on the stick: the end is cut back and squared again. Off the stick there is nothing behind the taper to cut back to."),
            WrongAnswer("no-allowance-no-kerf", part.length, "That is the finished part. Its blank has an allowance at each end, and the saw takes a kerf."),
            WrongAnswer("no-kerf", part.length + 2 * e, "That is the blank. The stick loses the kerf too."),
            WrongAnswer("M05", part.length + 4 * e + k, "That counts the allowance twice at each end."),
            WrongAnswer("run-only", run, "That is the run. The part behind it is of no use any more: it is too short."),
        ),
        hints=("What has to be cut from the stick to begin again?", f"A blank, {exact(part.length)} and twice {exact(e)}, and a kerf."),
        working=f"{exact(part.length)}, twice {exact(e)}, and {exact(k)}: {both(right)}.",
        sides=MUCH,
    )


def lost_on_the_stick(part: Part, shop: Shop, id: str = "lost-on-the-stick") -> LengthQuestion:
    """How much of the stick goes with a taper that fails while its part is on the stick."""
    line = next(line for line in taper_lines(part) if line.end == first_end(part))
    run, e, k = Fraction(line.run), shop.allowance, shop.kerf
    right = cut_back(run, shop)
    return LengthQuestion(
        id,
        f"The saw drifts into the part while it is still on the stick: taper at end {line.end}, run {exact(run)}. The spoiled end is sawn off square just behind the toe mark, kerf "
        f"{exact(k)}, and the new end gets {exact(e)} to square it. How much of the stick does the slip cost?",
        right,
        tolerance=HALF,
        wrong=(
            WrongAnswer(LENGTH_FIRST, whole(part, shop), "That is what it costs once the part is cut to length. Here the metal behind the run is still whole."),
            WrongAnswer("run-only", run, "Sawing it off takes a kerf, and the new end must be squared."),
            WrongAnswer("no-kerf", run + e, "The saw takes its kerf as well."),
            WrongAnswer("no-squaring", run + k, "The new end is rough: it takes the sanding allowance to square it."),
            WrongAnswer("M05", run + k + 2 * e, "One new end is squared, not two."),
        ),
        hints=("How far into the stick does the spoiled metal reach?", f"The run, {exact(run)}; then kerf and allowance."),
        working=f"{exact(run)}, {exact(k)} and {exact(e)}: {both(right)}. A whole blank would have been {both(whole(part, shop))}.",
        sides=MUCH,
    )


def done_again(part: Part, shop: Shop, id: str = "operations-done-again") -> NumberQuestion:
    """How many operations a taper's failing sets back when it comes last."""
    laid, words = cut_first(part, shop), card_words(part, shop)
    last = next(step for step in walk(part, shop, STICK, laid) if step.card.line is not None and step.card.end == first_end(part))
    best = next(step for step in walk(part, shop, STICK) if step.card.id == last.card.id)
    return NumberQuestion(
        id,
        f"Every card is one operation, but {_tapers(part, shop)}. The order is: {'; '.join(words[id_] for id_ in laid)}. The taper of the "
        f"harder end fails at its last operation. How many operations are to be done again?",
        Fraction(last.again),
        "count",
        tolerance=Fraction(0),
        wrong=(
            WrongAnswer("only-failed-counted", Fraction(len(last.card.operations)), "All that was done to this piece before is lost with it, too."),
            WrongAnswer("cards-as-operations", Fraction(next(i for i, id_ in enumerate(laid, 1) if id_ == last.card.id)), f"Those are the cards. A taper is {len(last.card.operations)} operations."),
            WrongAnswer(LENGTH_FIRST, Fraction(best.again), "So many it would be in the right order: the taper made while the part is on the stick."),
        ),
        hints=("A new blank starts at the first card.", "Count the cards up to the taper, then its own operations."),
        working=f"{last.again - len(last.card.operations)} before it, and its own {len(last.card.operations)}. In the order of work it would be {best.again}.",
        places=0,
    )


def _tapers(part: Part, shop: Shop) -> str:
    """Of how many operations a part's tapers are."""
    found = [(c.end, ", ".join(verb(o) for o in c.operations), len(c.operations)) for c in cards(part, shop) if c.line is not None]
    if len(found) == 1:
        return f"the taper is {found[0][2]}: {found[0][1]}"
    return ", ".join(f"the taper of end {end} is {n} ({listed})" for end, listed, n in sorted(found))


# --- what is in the hand --------------------------------------------------------------------------------------
def in_the_hand(part: Part, shop: Shop, id: str = "in-the-hand") -> ChoiceQuestion:
    """How a part cut to length is held for its taper."""
    return ChoiceQuestion(
        id,
        f"The part is {exact(part.length)} long and cut to length. Now the taper of its end {first_end(part)} is to be sawn. How is it held?",
        {"hand": "in the hand, slowly", "clamped": "clamped to a longer carrier", "gloves": "in the hand, with gloves"},
        "clamped",
        wrong=(
            WrongAnswer("short-hand-held", "hand", f"Under {exact(shop.hand_minimum)} in. the fingers are near the blade and the piece is too light to be held still. Slow does not help."),
            WrongAnswer("gloves-at-blade", "gloves", "A glove that the blade catches takes the hand with it. No gloves at a running blade, belt or disc."),
        ),
        hints=(f"The rule is {exact(shop.hand_minimum)} in.",),
        working=f"A cut with under {exact(shop.hand_minimum)} in. in the hand is clamped. On the stick the same taper would be held by {exact(STICK)} in. of metal.",
    )


def end_id(end: int) -> str:
    """The id of an end that is offered."""
    return f"end-{end}"


def which_end_first(part: Part, id: str = "which-end-first") -> ChoiceQuestion:
    """The harder end is made first, whatever its number."""
    first = first_end(part)
    hard, easy = end_id(first), end_id(other_end(first))
    alike = hardness(part, 1) == hardness(part, 2)
    wrong = [WrongAnswer("easier-end-first", easy, "Then the harder cut is made on a short piece that already carries the work of the easier end: if it fails, all is lost.")]
    wrong.append(WrongAnswer("ends-alike", "either", "They are not alike: a line that reaches the other leg is harder than one that stays on the flat, and that is harder than a square cut."))
    if alike:
        raise ValueError("both ends are as hard")
    return ChoiceQuestion(
        id,
        f"{described(part)} Which end is made first, on the stick?",
        {end_id(1): "end 1", end_id(2): "end 2", "either": "either"},
        hard,
        wrong=tuple(wrong),
        hints=("At which end is a slip likelier?",),
        working="The harder one. A slip there, with the part still on the stick, costs a re-cut end.",
    )


def which_end_is_free(part: Part, id: str = "which-end-is-free") -> ChoiceQuestion:
    """Which end of a part with one taper stands at the stick's free end."""
    first = first_end(part)
    easy = other_end(first)
    return ChoiceQuestion(
        id,
        f"{described(part)} The stick lies before you, its right end squared and free. Which end of the part is that?",
        {end_id(easy): f"end {easy}", end_id(first): f"end {first}", "either": "either"},
        end_id(first),
        wrong=(
            WrongAnswer(OTHER_END, end_id(easy), "The only end that can be tapered on the stick is the free one. Whoever calls it so and saws, makes the taper at the other end."),
            WrongAnswer("ends-alike", "either", "Only the free end can be tapered on the stick. It has to be the one that has the taper."),
        ),
        hints=("Which end can be worked on while the part is on the stick?",),
        working=f"Write {first} on it, and the leg, before any mark.",
    )


def which_end_after(id: str = "taper-after-both-ends") -> ChoiceQuestion:
    """What a part with two finished ends invites."""
    return ChoiceQuestion(
        id,
        "Both ends are sawn and squared, the part lies on the bench, no taper yet. Which slip is possible now that was not while it was on the stick?",
        {"kerf": "the kerf may be forgotten", "other-end": "the taper may be laid on the other end", "alloy": "the alloy may be the wrong one"},
        "other-end",
        wrong=(
            WrongAnswer("kerf-after-cut", "kerf", "The kerf is gone already, at the cut to length."),
            WrongAnswer(WRONG_ALLOY, "alloy", "It was wrong before, if it is wrong. What can be lost here is the print that says so: write the alloy back on every piece before the cut."),
        ),
        hints=("On the stick only one end is free.",),
        working=f"Two ends that look alike: {name_of(OTHER_END)}. On the stick there is only one end to work on. Off it, write 1 and 2 on the metal.",
    )


# --- with fresh numbers -------------------------------------------------------------------------------------
def fresh_work(seed: str, ends: str = "any") -> Part:
    """A practice part for an order of work: a taper at one end or both, sometimes a hole; ``ends`` "unlike" gives tapers at both.

    >>> len(cards(fresh_work("lesson 08, 0"), Shop())) <= 7
    True
    """
    numbers = Numbers(f"{seed}, work")
    hard = numbers.pick(ENDINGS)
    part = fresh_part(seed, ends_in=hard, legs="AB")
    tapers, holes = list(part.tapers), []
    if ends == "unlike" or (hard != "vertex" and numbers.pick((True, False))):
        line = taper_lines(part)[0]
        left = numbers.length(line.width * Fraction(5, 8), line.width * Fraction(3, 4), Fraction(1, 16))
        tapers.append(Taper(line.leg, 2, left, run=numbers.length(Fraction(1), Fraction(2), Fraction(1, 8))))
    elif numbers.pick((True, False)):
        leg = tapers[0].leg
        holes.append(Hole(leg, part.length - Fraction(1, 2), part.section.leg(leg) / 2, Fraction(1, 8)))
    run = sum((Fraction(line.run) for line in taper_lines(replace(part, tapers=tuple(tapers)))), Fraction(0))
    part = replace(part, name=numbers.pick(("Practice link", "Practice brace", "Practice foot")), length=max(part.length, run + 2), tapers=tuple(tapers), holes=tuple(holes))
    if holes or numbers.pick((True, False)):
        return part
    return part.turned() if part.section.equal_legs else part.mirrored()


def _unlike(seed: str) -> Part:
    part = fresh_work(seed, "unlike")
    while hardness(part, 1) == hardness(part, 2):
        seed += "'"
        part = fresh_work(seed, "unlike")
    return part


def taper_at_end_1(seed: str) -> Part:
    """A practice part with one taper, at end 1."""
    return fresh_part(seed, ends_in=Numbers(f"{seed}, ending").pick(ENDINGS), legs="AB")


_SHOP = Shop()
EXERCISES = {
    "order": Series(lambda part, id: order(part, _SHOP, id), "08-order", fresh=fresh_work),
    "cost": Series(lambda part, id: lost_on_the_stick(part, _SHOP, id), "08-cost", (LENGTH_FIRST, "no-squaring"), fresh=taper_at_end_1),
    "end-first": Series(which_end_first, "08-end-first", fresh=_unlike),
    "dressed": Series(before_dressing, "08-dressed", (DATUM,), fresh=fresh_dressed),
}
"""The lesson's exercises by name, in order."""

QUESTIONS = {
    "order": lambda: order(BRACKET, _SHOP),
    "order-of-both-ends": lambda: order(LINK, _SHOP),
    "lost-when-cut-first": lambda: lost_when_cut_first(BRACKET, _SHOP),
    "lost-on-the-stick": lambda: lost_on_the_stick(BRACKET, _SHOP),
    "done-again": lambda: done_again(BRACKET, _SHOP),
    "in-the-hand": lambda: in_the_hand(BRACKET, _SHOP),
    "which-end-first": lambda: which_end_first(LINK),
    "which-end-is-free": lambda: which_end_is_free(STRUT),
    "which-end-after": which_end_after,
    "dressed-after": dressed_after,
    "before-dressing": before_dressing,
    "batch": batch_order,
    "left-long": trimmed_at_fitting,
    "pair-check": pair_check,
    "alloy": write_alloy,
}
"""Every question of the lesson by name, for the table of mistakes."""
