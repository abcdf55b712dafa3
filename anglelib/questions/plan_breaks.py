"""The questions of lesson 11 about a plan that breaks: how short a stick may be, what is left, what to buy.

>>> ask = how_short(Stick("S-04", _STOCK, "6061-T6", "92 1/8", "1/16", "1/16"), _part("A5L", "91 3/4"), Shop())
>>> ask.answer_text, [wrong.slip for wrong in ask.wrong]
('3/16 (0.188)', ['one-kerf-too-many', 'no-allowance', 'no-trim', 'no-trims-kerf-allowance'])
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.part import Part
from anglelib.questions.choice import number_id
from anglelib.questions.question import MUCH, ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.section import Section
from anglelib.stock.rack import Stick

FINE = Fraction(1, 128)
_STOCK = Section("3/4", "3/4", "1/8", fillet="1/8")


def _part(part_id: str, length: str) -> Part:
    return Part(part_id, part_id, _STOCK, "6061-T6", length)


def how_short(stick: Stick, part: Part, shop: Shop, id: str = "how-short") -> LengthQuestion:
    """By how much a stick that gives one part may be shorter than its tag says."""
    (interval,) = stick.intervals(shop.kerf)
    answer = interval.length - part.length - 2 * shop.allowance  # the last cut may run into the trim
    slips = (
        ("one-kerf-too-many", answer - shop.kerf, "The last cut may run into what is trimmed off that end."),
        ("no-allowance", interval.length - part.length, "That is usable stick less part: nothing for the sander."),
        ("no-trim", answer + stick.trim_1, f"Each end loses {exact(stick.trim_1)} to its trim."),
        ("no-trims-kerf-allowance", stick.length - part.length, "That is stick less part: nothing for trims and sander."),
    )
    return LengthQuestion(
        id,
        f"The plan cuts {part.name.lower()} ({part.id}), {exact(part.length)}, from {stick.id}, {exact(stick.length)} long, trims {exact(stick.trim_1)} and "
        f"{exact(stick.trim_2)}; allowance {exact(shop.allowance)} at each end, kerf {exact(shop.kerf)}. By how much may the stick be shorter than its tag says?",
        answer,
        tolerance=FINE,
        wrong=tuple(WrongAnswer(*slip) for slip in slips),
        hints=(f"Of the stick {exact(interval.length)} can be used.", f"The blank is {exact(part.length + 2 * shop.allowance)}. Its cut is the one that trims the far end."),
        working=f"{exact(interval.length)} less the blank, {exact(part.length + 2 * shop.allowance)}: {both(answer)}. Its cut runs into the trim.",
        sides=MUCH,
    )


def longest_further(left: Fraction, stick: str, shop: Shop, id: str = "longest-further-part") -> LengthQuestion:
    """How long a part the longest piece that a plan leaves could still give."""
    answer = left - 2 * shop.allowance
    slips = (
        ("one-kerf-too-many", answer - shop.kerf, "The far end is trimmed off in any case: the cut may run into that."),
        ("no-allowance", left, "That is the piece. Both ends of a part are sanded."),
    )
    return LengthQuestion(
        id,
        f"When all is cut, the longest piece left is {exact(left)}, of {stick}. Beyond that its far end is still to be trimmed off. How long a part could it still give? "
        f"Kerf {exact(shop.kerf)}, allowance {exact(shop.allowance)} at each end.",
        answer,
        tolerance=FINE,
        wrong=tuple(WrongAnswer(*slip) for slip in slips),
        hints=("What comes out of the piece besides the part?",),
        working=f"The cut is the one that trims the far end; {exact(left)} less two allowances: {both(answer)}.",
    )


NOTHING = "nothing"


def without_metal(change: str, offered: Mapping[str, str], lost: str, others: Mapping[str, str], id: str = "without-metal") -> ChoiceQuestion:
    """Which part has no metal after a change of the rack.

    ``offered`` are parts by their ids, and NOTHING, with their words; ``others`` says why each but the ``lost`` one is wrong.
    """
    return ChoiceQuestion(
        id,
        f"{change} Everything is planned again. Which part can then not be made?",
        offered,
        lost,
        wrong=tuple(WrongAnswer("stick-thought-free" if id_ == NOTHING else "part-with-sticks", id_, why) for id_, why in others.items()),
        hints=("Which sticks are long enough for it, and what do they give already?",),
        working="The plan leaves no other stick for it: it was the one that may not be spoiled.",
    )


def what_to_buy(part: Part, lengths: Sequence[Fraction], enough: Fraction, usable: Mapping[Fraction, Fraction], need: Fraction, id: str = "what-to-buy") -> ChoiceQuestion:
    """The shortest length sold that gives one more of a part; ``usable`` is what each gives between its trims [in]."""
    wrong = []
    for length in lengths:
        if usable[length] < need:
            said = f"Of {exact(length)}, {exact(usable[length])} can be used, and the blank takes {exact(need)}."
            wrong.append(WrongAnswer("bought-too-short", number_id(length), said))
        elif length != enough:
            wrong.append(WrongAnswer("bought-too-much", number_id(length), f"It would do, and so does {exact(enough)}."))
    return ChoiceQuestion(
        id,
        f"One more {part.name.lower()}, {exact(part.length)}, is wanted besides the whole list. Sold are {', '.join(map(exact, lengths))}. What is the least to buy?",
        {number_id(length): exact(length) for length in lengths},
        number_id(enough),
        wrong=tuple(wrong),
        hints=("Could planning again free a stick for it?", "Count the sticks that are long enough, and the parts that want one."),
        working=f"Every stick that is long enough gives a longeron already. Of {exact(enough)}, {exact(usable[enough])} can be used, and {exact(need)} is needed.",
    )


def _sold() -> ChoiceQuestion:
    lengths = (Fraction(72), Fraction(96), Fraction(144))
    return what_to_buy(_part("A5L", "91 3/4"), lengths, lengths[1], {length: length - Fraction(1, 2) for length in lengths}, Fraction("91.8125"))


QUESTIONS = {
    "how-short": lambda: how_short(Stick("S-04", _STOCK, "6061-T6", "92 1/8", "1/16", "1/16"), _part("A5L", "91 3/4"), Shop()),
    "longest-further-part": lambda: longest_further(Fraction(55, 4), "S-06", Shop()),
    "without-metal": lambda: without_metal(
        "S-04 is short.", {"A5": "a lower longeron", NOTHING: "nothing: another stick takes over"}, "A5", {NOTHING: "No other is free."}
    ),
    "what-to-buy": _sold,
}
