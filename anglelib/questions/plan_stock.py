"""The questions of lesson 11: which stick, what blanks need, what is left, which part may not be spoiled.

>>> ask = batch_needs(Batch(3, Fraction(5), Fraction(20), Fraction(1, 16)))
>>> ask.answer_text, [wrong.slip for wrong in ask.wrong]
('15 3/16 (15.188)', ['no-kerf', 'one-kerf-too-few', 'one-kerf-too-many'])
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.stock_sheets import Batch
from anglelib.job import Job, Shop
from anglelib.lengths import both, exact
from anglelib.part import Part
from anglelib.questions import plan_breaks
from anglelib.questions.fresh import Numbers
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.questions.recall import blank_length
from anglelib.questions.series import Series
from anglelib.section import Section
from anglelib.stock.apart import apart
from anglelib.stock.blank import Blank
from anglelib.stock.fit import refusals
from anglelib.stock.one import OneNow, one_now
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reason_words import sentences

LONG_OPENED = "long-stick-opened"
FINE = Fraction(1, 128)
"""How near a sum of lengths must come [in]: less than half a kerf."""


# --- which stick ------------------------------------------------------------------------------------------
def choose_stick(part: Part, sticks: Sequence[Stick], shop: Shop, id: str = "choose-the-stick") -> ChoiceQuestion:
    """Which of some sticks one part is cut from, with nothing else to make."""
    now = one_now(part.section, part.alloy, part.length, Rack(sticks), shop=shop)
    right = now.stick
    if right is None:
        raise ValueError(f"question {id!r}: no stick serves {part.id}")
    wrong = []
    for stick in sticks:
        reasons = refusals(part, stick, shop)
        if reasons:
            wrong.append(WrongAnswer("stick-not-to-use", stick.id, sentences(reasons)))
        elif stick != right:
            told = f"{stick.id} would serve, but {right.id} is shorter and serves too: no long stick is opened for a short part."
            wrong.append(WrongAnswer(LONG_OPENED, stick.id, told))
    return ChoiceQuestion(
        id,
        f"{part.name}, {exact(part.length)} long, {part.section.size}, {part.alloy}. Allowance {exact(shop.allowance)} at each end, kerf "
        f"{exact(shop.kerf)}. Nothing else is to be made today. Which stick do you cut it from?",
        tuple(stick.id for stick in sticks),
        right.id,
        wrong=tuple(wrong),
        hints=(
            "Cross out what may not be used: another alloy, no mark, another section.",
            f"The blank is {exact(now.blank)} and its cut {exact(shop.kerf)}; a stick loses its trims first.",
        ),
        working=now.sentence,
    )


def would_spoil(now: OneNow, offered: Sequence[str], id: str = "would-spoil") -> ChoiceQuestion:
    """Which stick, cut for this part, would leave a listed part without metal."""
    costs = {other.stick.id: other for other in now.others}
    bad = [name for name in offered if name in costs and costs[name].lost]
    if len(bad) != 1 or now.stick is None:
        raise ValueError(f"question {id!r}: exactly one of {', '.join(offered)} must cost a listed part, not {len(bad)}")
    wrong = []
    for name in offered:
        if name == now.stick.id:
            wrong.append(WrongAnswer("right-stick-feared", name, f"{name} is the one to cut: the whole list can still be made."))
        elif name != bad[0]:
            wrong.append(WrongAnswer("long-stick-feared", name, f"{costs[name].sentence} The list can still be made, though less is left in one piece."))
    return ChoiceQuestion(
        id,
        "The whole list is still to be made after this one bar. Which stick, if you cut the bar from it, leaves a listed part without metal?",
        tuple(offered),
        bad[0],
        wrong=tuple(wrong),
        hints=("Which listed parts are nearly as long as one of these sticks?",),
        working=costs[bad[0]].sentence,
    )


# --- what may not be used ----------------------------------------------------------------------------------
def longest_part(stick: Stick, shop: Shop, id: str = "longest-part") -> LengthQuestion:
    """The longest part that a stick with one dent still gives."""
    (begin, end), *_ = stick.dents  # the cut that parts it off may run into the dent
    usable = max(stick.intervals(shop.kerf), key=lambda interval: interval.length)
    costs = 2 * shop.allowance
    answer = usable.length - costs
    slips = (
        ("no-dent", stick.length - stick.trim_1 - stick.trim_2 - costs, "That would lie across the dent."),
        ("no-dent-kerf-allowance", stick.length - stick.trim_1 - stick.trim_2, "That is all between the trims. The dent lies in it, and no part may lie across the dent."),
        ("no-trim-kerf-allowance", begin, "That is where the dent begins. The trim and two allowances come out of it."),
        ("no-dent-no-trims", stick.length, "That is the whole stick, dent and all."),
        ("no-trim", answer + stick.trim_1, f"The first {exact(stick.trim_1)} is trimmed off: end 1 is not square yet."),
        ("one-kerf-too-many", answer - shop.kerf, "The cut that parts it off may run into the dent: that metal is lost in any case."),
        ("no-allowance", answer + 2 * shop.allowance, f"That much can be used. The blank is longer than the part by {exact(shop.allowance)} at each end."),
        ("shorter-side", stick.length - stick.trim_2 - end - costs, "That is beyond the dent. The other side is longer."),
    )
    return LengthQuestion(
        id,
        f"Stick {stick.id} is {exact(stick.length)} long and has a dent from {exact(begin)} to {exact(end)}. Each end is trimmed by "
        f"{exact(stick.trim_1)}; the kerf is {exact(shop.kerf)}, the allowance {exact(shop.allowance)} at each end. How long a part can it still give?",
        answer,
        tolerance=FINE,
        wrong=tuple(WrongAnswer(*slip) for slip in slips),
        hints=(f"From the trim to the dent it is {exact(usable.length)}.", "Where does the blade run that parts it off? And the part is shorter than its blank."),
        working=f"{exact(usable.length)} can be used, and the cut may run into the dent; less two allowances, {exact(costs)}: {both(answer)}.",
    )


# --- kerf by kerf -----------------------------------------------------------------------------------------
def batch_needs(batch: Batch, id: str = "batch-needs") -> LengthQuestion:
    """How much usable stick some equal blanks take when both ends are sawn."""
    n, b, k = batch.number, batch.blank, batch.kerf
    slips = (
        ("no-kerf", n * b, f"That is the blanks alone. Each is parted off by a cut that turns {exact(k)} to dust."),
        ("one-kerf-too-few", n * b + (n - 1) * k, "That counts the cuts between the blanks. The last blank is parted off too, unless the stick ends there."),
        ("one-kerf-too-many", n * b + (n + 1) * k, "The trim at the squared end is counted already: what is usable begins behind it."),
    )
    return LengthQuestion(
        id,
        f"{n} blanks of {exact(b)} are sawn from a squared stick, kerf {exact(k)}; the last is parted off as well. How much of the stick do they take?",
        n * b + n * k,
        tolerance=FINE,
        wrong=tuple(WrongAnswer(*slip) for slip in slips),
        hints=("How many cuts are there?", f"{n} cuts, {exact(k)} each."),
        working=f"{n} times {exact(b)} and {n} times {exact(k)}: {both(n * b + n * k)}.",
    )


def fits(batch: Batch, id: str = "fits") -> ChoiceQuestion:
    """Whether some equal blanks fit a stick."""
    n, b, k, usable = batch.number, batch.blank, batch.kerf, batch.usable
    far = "its far end is square and sound, so a blank may end there" if batch.far_end_good else "its far end is rough and must be sawn off"
    right = "yes" if batch.left >= 0 else "no"
    sums = f"{n} times {exact(b)} is {exact(n * b)}; {n - batch.far_end_good} kerfs make it {exact(batch.needs)}, and {exact(usable)} can be used."
    if right == "no":
        slip = "no-kerf" if n * b <= usable < n * b + (n - 1) * k else "one-kerf-too-few"
        wrong = WrongAnswer(slip, "yes", f"Not with every kerf: {sums}")
    else:
        slip = "one-kerf-too-many" if batch.far_end_good else "hair-feared"
        wrong = WrongAnswer(slip, "no", f"They do: {sums}")
    return ChoiceQuestion(
        id,
        f"A squared stick of which {exact(usable)} can be used; {far}. {n} blanks of {exact(b)}, kerf {exact(k)}. Do they fit?",
        {"yes": "they fit", "no": "they do not fit"},
        right,
        wrong=(wrong,),
        hints=("Count the cuts first: is the last blank parted off?", f"The blanks alone take {exact(n * b)}."),
        working=sums,
    )


def left_of_stick(stick: Stick, parts: Sequence[Part], shop: Shop, done: bool = False, id: str = "left-of-a-stick") -> LengthQuestion:
    """What is left of a stick after some parts; ``done`` gives all steps but the last."""
    (interval,) = stick.intervals(shop.kerf)
    e, k = shop.allowance, shop.kerf
    blanks = [part.length + 2 * e for part in parts]
    answer = interval.length - sum(blanks) - len(blanks) * k
    trims = stick.length - interval.length
    slips = (
        ("no-trim", answer + trims, f"The stick loses {exact(trims)} to its trims before anything is laid out."),
        ("no-kerf", answer + len(parts) * k, f"Each cut takes {exact(k)}." if len(parts) > 1 else f"The cut that parts it off takes {exact(k)}."),
        ("no-allowance", answer + 2 * e * len(parts), "The blanks are longer than the parts."),
        ("no-trims-kerfs-allowances", stick.length - sum(part.length for part in parts), "That is stick less parts: nothing for saw and sander."),
        ("one-kerf-too-few", answer + k, "The last part is parted off as well."),
    )
    named = " and ".join(f"{part.id} ({exact(part.length)})" for part in parts)
    longs = ", ".join(exact(blank) for blank in blanks)
    steps = f"Of {exact(stick.length)}, {exact(interval.length)} can be used. The blanks are {longs}."
    given = f" Done already: {steps} Your step: what is left?" if done else " How much of it is left in one piece?"
    return LengthQuestion(
        id,
        f"From {stick.id}, {exact(stick.length)} long, trims {exact(stick.trim_1)} and {exact(stick.trim_2)}, you cut {named}; allowance "
        f"{exact(e)} at each end, kerf {exact(k)}.{given}",
        answer,
        tolerance=FINE,
        wrong=tuple(WrongAnswer(*slip) for slip in slips),
        hints=("What can be used, less each blank, less each kerf.", steps),
        working=f"{steps} With {len(parts)} kerfs {both(answer)} is left.",
    )


# --- the whole list -----------------------------------------------------------------------------------------
def first_to_place(parts: Sequence[Part], serving: Sequence[int], id: str = "first-to-place") -> ChoiceQuestion:
    """Which part to find a stick for first: the one that the fewest sticks can serve."""
    counts = dict(zip((part.id for part in parts), serving))
    right = min(counts, key=counts.__getitem__)
    return ChoiceQuestion(
        id,
        "Nothing is cut yet. For which of these do you find a stick first?",
        {part.id: part.name for part in parts},
        right,
        wrong=tuple(
            WrongAnswer("more-sticks-first", id_, f"{number} sticks can serve it. For another part there are fewer.")
            for id_, number in counts.items()
            if id_ != right
        ),
        hints=("Not the first on the list, and not the one of which there are most: count the sticks that are long enough for each.",),
        working=f"Only {counts[right]} sticks are long enough for it, and it may not be spliced.",
    )


def made_again(parts: Sequence[Part], blanks: Sequence[Fraction], left: Fraction, kerf: Fraction, id: str = "made-again") -> ChoiceQuestion:
    """After the plan: which part could be made a second time from the longest piece left."""
    able = [part.id for part, blank in zip(parts, blanks) if blank + kerf <= left]
    if len(able) != 1:
        raise ValueError(f"question {id!r}: {len(able)} parts fit what is left, not one")
    return ChoiceQuestion(
        id,
        f"When all is cut by the plan, the longest piece left is {exact(left)}. One part is spoiled on the sander. Which could be made again?",
        {part.id: part.name for part in parts},
        able[0],
        wrong=tuple(
            WrongAnswer("part-not-to-spoil", part.id, f"Its blank takes {exact(blank)}: there is no such piece any more.")
            for part, blank in zip(parts, blanks)
            if part.id != able[0]
        ),
        hints=("Compare each blank with the longest piece left.",),
        working="All the others may not be spoiled: they are cut first, while another stick could still take over.",
    )


def not_to_be_spoiled(blanks: Sequence[Blank], sticks: Sequence[Stick], shop: Shop, id: str = "not-to-be-spoiled") -> ChoiceQuestion:
    """Which part has one stick only."""
    serving = {blank.part.id: [s.id for s in sticks if not refusals(blank.part, s, shop)] for blank in blanks}
    names = {blank.part.id: f"{blank.part.id} ({exact(blank.part.length)})" for blank in blanks}
    only = [part_id for part_id, found in serving.items() if len(found) == 1]
    if len(only) != 1:
        raise ValueError(f"question {id!r}: {len(only)} parts have one stick only, not one")
    return ChoiceQuestion(
        id,
        "Before you give out any metal: which part may not be spoiled?",
        names,
        only[0],
        wrong=tuple(
            WrongAnswer("more-than-one-stick", part_id, f"{len(found)} of the sticks could give it.")
            for part_id, found in serving.items()
            if part_id != only[0]
        ),
        hints=("For each part count the sticks that are long enough.",),
        working=f"Only {serving[only[0]][0]} is long enough for it: give it that stick before anybody else takes it.",
    )


# --- with fresh numbers ---------------------------------------------------------------------------------
_STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")


@dataclass(frozen=True)
class Shelf:
    """A part and some sticks to choose from."""

    part: Part
    sticks: tuple[Stick, ...]


def fresh_bar(seed: str) -> Part:
    """A square bar of some length."""
    length = Numbers(f"{seed}, bar").length(Fraction(5), Fraction(30), Fraction(1, 16))
    return Part("P1", "Floor bar", _STOCK, "6061-T6", length)


def fresh_batch(seed: str) -> Batch:
    """Equal blanks and a stick that is just enough, or just not, by a kerf or less."""
    numbers = Numbers(f"{seed}, batch")
    number, kerf = numbers.pick((2, 3, 4, 5)), numbers.pick((Fraction(1, 16), Fraction(3, 32), Fraction(1, 8)))
    blank = numbers.length(Fraction(2), Fraction(9), Fraction(1, 16))
    far = numbers.pick((False, False, True))
    cuts, spare = numbers.pick(((number, Fraction(0)), (number - 1, Fraction(0)), (number, -Fraction(1, 32)), (number - 1, -Fraction(1, 32))))
    return Batch(number, blank, number * blank + cuts * kerf + spare, kerf, far)


def fresh_shelf(seed: str) -> Shelf:
    """A bar and five sticks in no order: one that is right, two that are too good, one too short by a kerf, one of another alloy; the last cut may run into a trim."""
    numbers, shop, part = Numbers(f"{seed}, shelf"), Shop(), fresh_bar(seed)
    trim = Fraction(1, 16)
    need = part.length + 2 * shop.allowance + shop.kerf + 2 * trim
    right = need + numbers.length(Fraction(3), Fraction(5), Fraction(1, 8))
    lengths = [
        (right, "6061-T6"),
        (right + numbers.length(Fraction(4), Fraction(20), Fraction(1, 8)), "6061-T6"),
        (numbers.pick((Fraction(96), Fraction(144))), "6061-T6"),
        (need - 2 * shop.kerf, "6061-T6"),
        (need + numbers.length(Fraction(1, 2), Fraction(2), Fraction(1, 8)), numbers.pick(("6063-T5", "unknown"))),
    ]
    order: list[tuple[Fraction, str]] = []
    while lengths:
        order.append(lengths.pop(int(numbers.pick(range(len(lengths))))))
    sticks = [Stick(f"T-{n}", _STOCK, alloy, length, trim, trim, remnant=True) for n, (length, alloy) in enumerate(order, start=1)]
    return Shelf(part, tuple(sticks))


EXERCISES = {
    "blank": Series(lambda part, id: blank_length(part, Shop(), id, ""), "11-blank", ("allowance-one-end", "kerf-in-blank"), fresh=fresh_bar),
    "needs": Series(batch_needs, "11-batch", ("no-kerf", "one-kerf-too-few"), fresh=fresh_batch),
    "fits": Series(fits, "11-fits", fresh=fresh_batch),
    "stick": Series(lambda shelf, id: choose_stick(shelf.part, shelf.sticks, Shop(), id), "11-stick", (LONG_OPENED,), fresh=fresh_shelf),
}
"""The lesson's exercises by name, in order: ``EXERCISES["stick"][3]`` is the fourth set of numbers."""


# --- all of them --------------------------------------------------------------------------------------------
_SHELF = fresh_shelf("11 questions")
_BATCH = Batch(3, Fraction(5), Fraction(121, 8), Fraction(1, 16))
_BAR = Part("A3", "Floor bar", _STOCK, "6061-T6", "17 1/4")
_LONG = Part("A5L", "Lower longeron", _STOCK, "6061-T6", "91 3/4", one_piece=True)
_RACK = (
    Stick("S-04", _STOCK, "6061-T6", "92 1/8", "1/16", "1/16"),
    Stick("S-09", _STOCK, "6061-T6", "32 5/8", "1/16", "1/16", remnant=True),
)


def _would_spoil() -> ChoiceQuestion:
    job = Job("Two parts", Shop(), (_BAR, _LONG))
    return would_spoil(apart(one_now)(_STOCK, "6061-T6", _BAR.length, Rack(_RACK), job, part_id="A3"), ("S-04", "S-09"))


def _not_to_be_spoiled() -> ChoiceQuestion:
    return not_to_be_spoiled([Blank(part, 1, part.length + Fraction(1, 16)) for part in (_BAR, _LONG)], _RACK, Shop())


QUESTIONS = {
    "choose-the-stick": lambda: choose_stick(_SHELF.part, _SHELF.sticks, Shop()),
    "would-spoil": _would_spoil,
    "longest-part": lambda: longest_part(Stick("S-30", _STOCK, "6061-T6", 48, "1/4", "1/4", dents=[("29 1/2", 31)]), Shop()),
    "batch-needs": lambda: batch_needs(_BATCH),
    "fits": lambda: fits(_BATCH),
    "left-of-a-stick": lambda: left_of_stick(_RACK[1], [_BAR], Shop()),
    "first-to-place": lambda: first_to_place([_BAR, _LONG], [2, 1]),
    "made-again": lambda: made_again([_BAR, _LONG], [_BAR.length + Fraction(1, 16), _LONG.length + Fraction(1, 16)], Fraction(20), Fraction(1, 16)),
    "not-to-be-spoiled": _not_to_be_spoiled,
    **plan_breaks.QUESTIONS,
}
"""Every question of the lesson with default things, for the table of mistakes."""
