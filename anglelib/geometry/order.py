"""Any order of work, walked through: what is in the hand at each operation, where the datum is, what a slip costs.

The cards are the operations of :mod:`anglelib.geometry.work`, the marking, sawing and sanding of one taper taken
together. Whatever order they are laid in, each is looked at in turn: a fault cannot come right, a dear place can
but costs more when it fails. The rules are common practice; an order in the kit's plans comes first.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [card.short for card in cards(bracket, Shop())]
['square end 1', 'witness line', 'taper end 1', 'cut to length', 'square end 2', 'finish']
>>> taper = walk(bracket, Shop(), Fraction(24))[2]
>>> str(taper.held), str(taper.metal), taper.again, taper.wrong
('24', '71/32', 6, False)
>>> walk(bracket, Shop(), Fraction(24), ["Cut to length"])
Traceback (most recent call last):
    ...
anglelib.errors.PartError: An order names each operation of part C1L once: Square end 1, Strike the witness line, Taper leg A at end 1, Cut to length, Square end 2, Break the edges and finish.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from anglelib.errors import PartError
from anglelib.geometry.layout import datum_lost, witness_line
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.geometry.work import Operation, first_end, operations
from anglelib.job import Shop
from anglelib.lengths import exact
from anglelib.part import Part

WITNESS, LENGTH, HOLES, FINISH = "Strike the witness line", "Cut to length", "Mark and drill the holes", "Break the edges and finish"
_SHORT = {WITNESS: "witness line", LENGTH: "cut to length", HOLES: "drill holes", FINISH: "finish"}


@dataclass(frozen=True)
class Card:
    """What is done in one go: its title, the operations in it, and the end it is done at (0: none)."""

    title: str
    short: str
    operations: tuple[Operation, ...]
    end: int = 0
    line: TaperLine | None = None

    @property
    def squares(self) -> bool:
        """Whether it makes an end square."""
        return self.title.startswith("Square")


@dataclass(frozen=True)
class Work:
    """What stands on the bench: the end at the stick's free end, and what has been done so far."""

    free: int
    cut: bool = False
    squared: frozenset[int] = frozenset()
    tapers: tuple[TaperLine, ...] = ()
    witness: bool = False
    holes: bool = False
    reach: Fraction = Fraction(0)
    """How far from the free end metal has been worked [in]."""

    @property
    def datum(self) -> str:
        """What lengths are read from: an end, the witness line, or "" where nothing holds."""
        gone = {line.end for line in self.tapers if line.to_vertex}
        if self.witness and gone:
            return "witness line"
        left = self.squared - gone
        return f"end {self.free if self.free in left else min(left)}" if left else ""


@dataclass(frozen=True)
class Step:
    """One card at its place: what is in the hand [in], and what is lost if it fails.

    ``metal`` [in of stick] and ``again``, the operations to be done again. ``fault`` says what cannot come
    right, ``dear`` what can but costs more than it need. ``work`` is what stands on the bench afterwards.
    """

    card: Card
    held: Fraction
    clamped: bool
    metal: Fraction
    again: int
    fault: str
    dear: str
    work: Work = field(repr=False)

    @property
    def wrong(self) -> bool:
        """Whether the card lies in a wrong place."""
        return bool(self.fault or self.dear)


def cards(part: Part, shop: Shop) -> tuple[Card, ...]:
    """The operations of a part as cards, in the order of work. The inspection, always last, is no card."""
    found: list[Card] = []
    for step in operations(part, shop)[:-1]:
        if step.line is not None:
            title = f"Taper leg {step.line.leg} at end {step.line.end}"
            if found and found[-1].title == title:
                found[-1] = replace(found[-1], operations=(*found[-1].operations, step))
                continue
            twin = len({line.leg for line in taper_lines(part) if line.end == step.line.end}) > 1
            short = f"taper {step.line.leg}, end {step.line.end}" if twin else f"taper end {step.line.end}"
            found.append(Card(title, short, (step,), step.line.end, step.line))
        elif step.title.startswith("Square"):
            found.append(Card(step.title, step.title.lower(), (step,), int(step.title[-1])))
        else:
            found.append(Card(step.title, _SHORT.get(step.title, step.title.lower()), (step,)))
    return tuple(found)


def whole(part: Part, shop: Shop) -> Fraction:
    """What one more blank takes off a stick [in]: the part, a sanding allowance at each end, and a kerf."""
    return formulas().blank_length(L=part.length, n_e=2, e_s=shop.allowance) + shop.kerf


def cut_back(reach: Fraction, shop: Shop) -> Fraction:
    """What a fresh start on the stick takes [in]: all that was worked, a kerf, and the allowance to square the new end."""
    return reach + formulas().blade_far_side(e_s=shop.allowance, k=shop.kerf)


def walk(part: Part, shop: Shop, stick: Fraction, order: Sequence[str] = ()) -> tuple[Step, ...]:
    """The cards of a part in some order (the order of work, where none is given), each with what it means there.

    ``stick`` is the length of the stick at the start [in]. PartError for an order that is none.
    """
    by_title = {card.title: card for card in cards(part, shop)}
    order = tuple(order) or tuple(by_title)
    if sorted(order) != sorted(by_title):
        raise PartError(f"An order names each operation of part {part.id} once: {', '.join(by_title)}.")
    laid = [by_title[title] for title in order]
    work = Work(next((card.end for card in laid if card.end), first_end(part)))
    steps, done = [], 0
    for place, card in enumerate(laid):
        done += len(card.operations)
        fault, dear = _judge(part, work, card, laid[place + 1 :])
        held = part.length if work.cut else stick - (whole(part, shop) if card.title == LENGTH else 0)
        metal, again = _cost(part, shop, work, card, done)
        work = _after(part, work, card)
        steps.append(Step(card, held, held < shop.hand_minimum, metal, again, fault, dear, work))
    return tuple(steps)


def _reach(part: Part, work: Work, card: Card) -> Fraction:
    """How far from the free end a card's work reaches [in]."""
    if card.line is not None:
        run = Fraction(card.line.run)
        return run if card.end == work.free else part.length
    if card.title == HOLES:
        return max((h.x if work.free == 1 else part.length - h.x) + h.diameter / 2 for h in part.holes)
    return Fraction(0) if card.squares or card.title == WITNESS else part.length


def _cost(part: Part, shop: Shop, work: Work, card: Card, done: int) -> tuple[Fraction, int]:
    """Inches of stick and operations that are lost when a card fails at its place."""
    if card.title == WITNESS:  # ink is wiped off
        return Fraction(0), 1
    if work.cut or card.title == LENGTH:
        return whole(part, shop), done
    if card.squares:
        return shop.allowance, 1
    return cut_back(max(work.reach, _reach(part, work, card)), shop), done


def _after(part: Part, work: Work, card: Card) -> Work:
    work = replace(work, reach=max(work.reach, _reach(part, work, card)))
    if card.squares:
        return replace(work, squared=work.squared | {card.end})
    if card.line is not None:
        return replace(work, tapers=(*work.tapers, card.line))
    return replace(
        work, cut=work.cut or card.title == LENGTH, witness=work.witness or card.title == WITNESS, holes=work.holes or card.title == HOLES
    )


def _judge(part: Part, work: Work, card: Card, later: Sequence[Card]) -> tuple[str, str]:
    """What cannot come right at a card's place, and what costs more than it need."""
    inside = card.end and not work.cut and card.end != work.free
    cuts = [c for c in later if c.squares or c.line is not None or c.title not in (WITNESS, HOLES, FINISH)]
    if inside:
        return f"End {card.end} is still inside the stick: there is nothing to work on before the cut to length.", ""
    if card.squares:
        if any(line.end == card.end for line in work.tapers):
            return f"End {card.end} is dressed after its taper was laid out: run and width left go with it.", ""
        return "", ""
    if card.line is not None:
        if card.end not in work.squared:
            return f"End {card.end} is not square yet: the taper's marks are read from an end that will be dressed away.", ""
        if card.line.to_vertex and witness_line(part) is not None and not work.witness:
            return f"The taper takes end {card.end} away, and no witness line is struck: nothing is left to measure from.", ""
        if work.cut and card.end == first_end(part):
            return "", f"The part is off the stick: {exact(part.length)} in the hand, and a slip costs all of it."
        return "", ""
    if card.title in (WITNESS, LENGTH, HOLES) and not work.datum:
        return "There is no square end to measure from.", ""
    if card.title == WITNESS and any(datum_lost(part, line.end) for line in work.tapers):
        return "The end it is measured from is gone.", ""
    if card.title == HOLES and cuts:
        return "", "A cut is still to come: if that fails, the drilling is lost with it."
    if card.title == FINISH and later:
        return "Work is still to come: it leaves new edges, and new ink.", ""
    return "", ""
