"""Cards of work and what is wrong with their places, in words: what :mod:`anglelib.geometry.order` knows by ids.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> from anglelib.geometry.order import cards
>>> from anglelib.job import Shop
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [short(card, bracket) for card in cards(bracket, Shop())]
['square end 1', 'witness line', 'taper end 1', 'cut to length', 'square end 2', 'finish']
"""

from __future__ import annotations

from anglelib.geometry import order
from anglelib.geometry.order import COPE, FINISH, HOLES, LENGTH, ROUND, SQUARE, TAPER, WITNESS, Card, Step, unsquared
from anglelib.lengths import exact
from anglelib.part import Part

_TITLES = {
    SQUARE: "Square end {end}",
    WITNESS: "Strike the witness line",
    TAPER: "Taper leg {leg} at end {end}",
    COPE: "Cope leg {leg} at end {end}",
    LENGTH: "Cut to length",
    ROUND: "Round the corners",
    HOLES: "Mark and drill the holes",
    FINISH: "Break the edges and finish",
}
_SHORT = {
    SQUARE: "square end {end}",
    WITNESS: "witness line",
    TAPER: "taper end {end}",
    COPE: "cope end {end}",
    LENGTH: "cut to length",
    ROUND: "round corners",
    HOLES: "drill holes",
    FINISH: "finish",
}
_ONE_WORD = {SQUARE: "square {end}", TAPER: "taper {end}", COPE: "cope {end}", WITNESS: "witness", LENGTH: "length", ROUND: "round", HOLES: "holes", FINISH: "finish"}
_REASONS = {
    order.INSIDE_STICK: "End {end} is still inside the stick: there is nothing to work on before the cut to length.",
    order.DRESSED_AFTER: "End {end} is dressed after its {cut} was laid out: {goes} with it.",
    order.NOT_SQUARE: "End {end} is not square yet: the {kind}'s marks are read from an end that will be dressed away.",
    order.NO_WITNESS: "The taper takes end {end} away, and no witness line is struck: nothing is left to measure from.",
    order.NO_DATUM: "There is no square end to measure from.",
    order.DATUM_GONE: "The end it is measured from is gone.",
    order.OFF_STICK: "The part is off the stick: {length} in the hand, and a slip costs all of it.",
    order.CUT_TO_COME: "A cut is still to come: if that fails, the {work} is lost with it.",
    order.WORK_TO_COME: "Work is still to come: it leaves new edges, and new ink.",
}


def title(card: Card) -> str:
    """A card's name.

    >>> title(Card(SQUARE, (), 2))
    'Square end 2'
    """
    return _TITLES[card.kind].format(end=card.end, leg=card.leg)


def short(card: Card, part: Part) -> str:
    """A card's name in few words; with its leg where both legs are tapered, or coped, at one end."""
    cuts = part.tapers if card.kind == TAPER else part.copes if card.kind == COPE else ()
    if len({cut.leg for cut in cuts if cut.end == card.end}) > 1:
        return f"{card.kind} {card.leg}, end {card.end}"
    return _SHORT[card.kind].format(end=card.end)


def one_word(card: Card) -> str:
    """A card's name for a projector."""
    return _ONE_WORD[card.kind].format(end=card.end)


def reason(step: Step, part: Part) -> str:
    """Why a card lies wrong where it lies; "" where it lies right."""
    if not step.wrong:
        return ""
    tapered = any(line.end == step.card.end for line in step.work.tapers)
    cut, goes = ("taper", "run and width left go") if tapered else ("cope", "its length goes")
    end = step.card.end or unsquared(part, step.work)
    return _REASONS[step.fault or step.dear].format(end=end, kind="rounding" if step.card.kind == ROUND else step.card.kind, length=exact(part.length), cut=cut, goes=goes, work="drilling" if step.card.kind == HOLES else "rounding")
