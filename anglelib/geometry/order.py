"""Any order of work, walked through: what is in the hand at each operation, where the datum is, what a slip costs.

The cards are the operations of :mod:`anglelib.geometry.work`, the marking, sawing and sanding of one taper taken
together, and those of one cope. Whatever order they are laid in, each is looked at in turn: a fault cannot come right,
a dear place can but costs more when it fails. The rules are common practice; an order in the kit's plans comes first.
Cards, orders and reasons go by ids; :mod:`anglelib.geometry.order_words` puts them into words.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [card.id for card in cards(bracket, Shop())]
['square-1', 'witness', 'taper-A-1', 'length', 'square-2', 'finish']
>>> taper = walk(bracket, Shop(), Fraction(24))[2]
>>> str(taper.held), str(taper.metal), taper.again, taper.wrong
('24', '71/32', 6, False)
>>> walk(bracket, Shop(), Fraction(24), ["length"])
Traceback (most recent call last):
    ...
anglelib.errors.PartError: An order names each operation of part C1L once: square-1, witness, taper-A-1, length, square-2, finish.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from anglelib.errors import PartError
from anglelib.geometry import work as ops
from anglelib.geometry.ends import first_end
from anglelib.geometry.layout import datum_lost, witness_line
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import TaperLine, from_end_1
from anglelib.geometry.work import Operation, operations
from anglelib.job import Shop
from anglelib.part import Cope, Part

SQUARE, WITNESS, LENGTH, ROUND, HOLES, FINISH = ops.SQUARE, ops.WITNESS, ops.LENGTH, ops.ROUND, ops.DRILL, ops.FINISH
TAPER, COPE = "taper", "cope"
INSIDE_STICK, DRESSED_AFTER, NOT_SQUARE, NO_WITNESS, NO_DATUM, DATUM_GONE = (
    "inside-stick", "dressed-after", "not-square", "no-witness", "no-datum", "datum-gone",
)  # fmt: skip
"""Why a card lies where it cannot come right."""
OFF_STICK, CUT_TO_COME, WORK_TO_COME = "off-stick", "cut-to-come", "work-to-come"
"""Why a card lies where it costs more than it need."""


@dataclass(frozen=True)
class Card:
    """What is done in one go: its kind, the operations in it, and the end it is done at (0: none)."""

    kind: str
    operations: tuple[Operation, ...]
    end: int = 0
    leg: str = ""
    line: TaperLine | None = None
    cope: Cope | None = None

    @property
    def id(self) -> str:
        """Its name for a program: "square-1", "taper-A-2", "length"."""
        at = self.end if self.kind != LENGTH else ""
        return "-".join(str(word) for word in (self.kind, self.leg, at) if word)

    @property
    def squares(self) -> bool:
        """Whether it makes an end square."""
        return self.kind == SQUARE


@dataclass(frozen=True)
class Work:
    """What stands on the bench: the end at the stick's free end, and what has been done so far."""

    free: int
    cut: bool = False
    squared: frozenset[int] = frozenset()
    tapers: tuple[TaperLine, ...] = ()
    copes: tuple[Cope, ...] = ()
    witness: bool = False
    holes: bool = False
    reach: Fraction = Fraction(0)
    """How far from the free end metal has been worked [in]."""

    @property
    def datum(self) -> str:
        """What lengths are read from: "end-1", "end-2", "witness", or "" where nothing holds."""
        gone = {line.end for line in self.tapers if line.to_vertex}
        if self.witness and gone:
            return WITNESS
        left = self.squared - gone
        return f"end-{self.free if self.free in left else min(left)}" if left else ""


@dataclass(frozen=True)
class Step:
    """One card at its place: what is in the hand [in], and what is lost if it fails.

    ``metal`` [in of stick] and ``again``, the operations to be done again. ``fault`` is the id of why it cannot come
    right there, ``dear`` of why it costs more than it need ("": neither). ``work`` is what stands on the bench afterwards.
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
    found: dict[tuple[str, str, int], Card] = {}
    for step in operations(part, shop)[:-1]:
        kind = TAPER if step.line is not None else COPE if step.cope is not None else step.kind
        key = (kind, step.leg, step.end)
        if key in found:
            found[key] = replace(found[key], operations=(*found[key].operations, step))
        else:
            end = 0 if kind == LENGTH else step.end  # the cut to length is done on the stick, not at an end of the part
            found[key] = Card(kind, (step,), end, step.leg, step.line, step.cope)
    return tuple(found.values())


def whole(part: Part, shop: Shop) -> Fraction:
    """What one more blank takes off a stick [in]: the part, a sanding allowance at each end, room for a rough cut where it needs it, and a kerf."""
    blank = formulas().blank_length(L=part.length, n_e=2, e_s=shop.allowance)
    return blank + shop.rough_room(blank) + shop.kerf


def cut_back(reach: Fraction, shop: Shop) -> Fraction:
    """What a fresh start on the stick takes [in]: all that was worked, a kerf, and the allowance to square the new end."""
    return reach + formulas().blade_far_side(e_s=shop.allowance, k=shop.kerf)


def walk(part: Part, shop: Shop, stick: Fraction, order: Sequence[str] = ()) -> tuple[Step, ...]:
    """The cards of a part in some order (the order of work, where none is given), each with what it means there.

    ``stick`` is the length of the stick at the start [in]; ``order`` names cards by their ids. PartError for an order that is none.
    """
    by_id = {card.id: card for card in cards(part, shop)}
    order = tuple(order) or tuple(by_id)
    if sorted(order) != sorted(by_id):
        raise PartError(f"An order names each operation of part {part.id} once: {', '.join(by_id)}.")
    laid = [by_id[name] for name in order]
    work = Work(next((card.end for card in laid if card.end), first_end(part)))
    steps, done = [], 0
    for place, card in enumerate(laid):
        done += len(card.operations)
        fault, dear = _judge(part, work, card, laid[place + 1 :])
        held = part.length if work.cut else stick - (whole(part, shop) if card.kind == LENGTH else 0)
        metal, again = _cost(part, shop, work, card, done)
        work = _after(part, work, card)
        steps.append(Step(card, held, held < shop.hand_minimum, metal, again, fault, dear, work))
    return tuple(steps)


def unsquared(part: Part, work: Work) -> int:
    """The first end with a rounded corner that is not square yet; 0 where there is none."""
    return next((end for end in sorted({corner.end for corner in part.corners}) if end not in work.squared), 0)


def _reach(part: Part, work: Work, card: Card) -> Fraction:
    """How far from the free end a card's work reaches [in]."""
    if card.line is not None or card.cope is not None:
        reach = Fraction(card.line.run) if card.line is not None else card.cope.length  # type: ignore[union-attr]
        return reach if card.end == work.free else part.length
    if card.kind == HOLES:
        return max(Fraction(from_end_1(part, work.free, h.x)) + h.diameter / 2 for h in part.holes)
    return Fraction(0) if card.kind in (SQUARE, WITNESS) else part.length


def _cost(part: Part, shop: Shop, work: Work, card: Card, done: int) -> tuple[Fraction, int]:
    """Inches of stick and operations that are lost when a card fails at its place."""
    if card.kind == WITNESS:  # ink is wiped off
        return Fraction(0), 1
    if work.cut or card.kind == LENGTH:
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
    if card.cope is not None:
        return replace(work, copes=(*work.copes, card.cope))
    return replace(
        work, cut=work.cut or card.kind == LENGTH, witness=work.witness or card.kind == WITNESS, holes=work.holes or card.kind == HOLES
    )


def _judge(part: Part, work: Work, card: Card, later: Sequence[Card]) -> tuple[str, str]:
    """What cannot come right at a card's place, and what costs more than it need."""
    inside = card.end and not work.cut and card.end != work.free
    cuts = [c for c in later if c.kind not in (WITNESS, HOLES, FINISH)]
    if inside:
        return INSIDE_STICK, ""
    if card.squares:
        worked = any(line.end == card.end for line in work.tapers) or any(cope.end == card.end for cope in work.copes)
        return (DRESSED_AFTER, "") if worked else ("", "")
    if card.line is not None or card.cope is not None:
        if card.end not in work.squared:
            return NOT_SQUARE, ""
        if card.line is not None and card.line.to_vertex and witness_line(part) is not None and not work.witness:
            return NO_WITNESS, ""
        if work.cut and card.end == first_end(part):
            return "", OFF_STICK
        return "", ""
    if card.kind == ROUND and unsquared(part, work):
        return (NOT_SQUARE if work.cut or unsquared(part, work) == work.free else INSIDE_STICK), ""
    if card.kind in (WITNESS, LENGTH, HOLES) and not work.datum:
        return NO_DATUM, ""
    if card.kind == WITNESS and any(datum_lost(part, line.end) for line in work.tapers):
        return DATUM_GONE, ""
    if card.kind == HOLES and cuts or card.kind == ROUND and any(c.kind != ROUND for c in cuts):
        return "", CUT_TO_COME
    if card.kind == FINISH and later:
        return "", WORK_TO_COME
    return "", ""
