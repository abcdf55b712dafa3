"""Operation cards: the order in which they lie, what is on the bench after each, what is in the hand, what a slip costs.

A card shows the tapered leg's outer face, end 1 at the left, not to scale along the stick. The filled triangle stands
at the datum; two jaws hold a piece that is too short for the hand. Under each card stands the metal that is lost if it
fails, to scale among themselves, and how many operations are to be done again.

>>> from anglelib.section import Section
>>> from anglelib.part import Taper
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket, left", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> print(work_cards_sheet(Laid(bracket)).sentence)
Bracket, 6 cards: 1 square end 1, 2 witness line, 3 taper end 1, 4 cut to length, 5 square end 2, 6 finish. In the hand: 24 before the cut to length, then 4 3/4, clamped. If taper end 1 fails: 2 7/32 (2.219) of the stick and 6 operations again. Every card lies in a place that can come right.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from anglelib.drawing.outer_view import direction
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Polyline, Sheet, move, polygon
from anglelib.drawing.symbols import zigzag
from anglelib.drawing.warning import warning_sign
from anglelib.geometry.ends import first_end
from anglelib.geometry.layout import witness_line
from anglelib.geometry.order import LENGTH, WITNESS, Step, Work, walk, whole
from anglelib.geometry.order_words import one_word, reason, short
from anglelib.geometry.taper import taper_lines
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.part import Part

WIDTH, HEIGHT = 234.0, 116.0
LETTER, SMALL = 3.5, 2.5
LEFT, RIGHT = 15.0, 232.0
TOP, FOOT = 114.0, 66.0
"""Upper and lower edge of a card [mm]."""
BASE, TALL = 16.0, 32.0
UNDER = FOOT - 4
"""What lies under the cards: what a slip costs."""
"""Foot of the pieces that are lost, and the height of a whole blank [mm]."""
PART, STICK, WIDE = 18.0, 5.5, 10.0
"""How long and wide a part is on its card, and how much of the stick is shown beside it [mm]."""


@dataclass(frozen=True)
class Laid:
    """The cards of a part in an order (the order of work, where none is given), on a stick so long [in]."""

    part: Part
    order: tuple[str, ...] = ()
    stick: Fraction = Fraction(24)
    shop: Shop = field(default_factory=Shop)

    @property
    def steps(self) -> tuple[Step, ...]:
        """Each card at its place."""
        return walk(self.part, self.shop, self.stick, self.order)

    @property
    def name(self) -> str:
        """The part's name without its hand."""
        return self.part.name.split(",")[0]


@dataclass(frozen=True)
class Shown:
    """``answer``: what is in the hand and what is lost may show; a prediction [in of stick] stays as a ghost; ``few`` labels."""

    answer: bool = True
    prediction: Fraction | None = None
    few: bool = False


def work_cards_sheet(laid: Laid, shown: Shown = Shown()) -> Sheet:
    """The cards in their order; under them, once it may show, what a slip costs."""
    steps = laid.steps
    step = (RIGHT - LEFT) / len(steps)
    items: list[Item] = []
    for i, one in enumerate(steps):
        items += _card(laid, one, i, LEFT + i * step, step - 2, shown)
    if not shown.answer:  # no graph without its bars
        return Sheet(WIDTH, HEIGHT - UNDER, move(items, 0, -UNDER), "Operation cards", work_cards_sentence(laid, shown))
    items += _costs(laid, steps, step, shown)
    return Sheet(WIDTH, HEIGHT, tuple(items), "Operation cards", work_cards_sentence(laid, shown))


def worst(steps: tuple[Step, ...], part: Part) -> Step:
    """The card of the harder end's taper: the likeliest to fail."""
    end = first_end(part)
    return next(step for step in steps if step.card.line is not None and step.card.end == end)


# --- one card -----------------------------------------------------------------------------------------
def _card(laid: Laid, step: Step, place: int, x: float, wide: float, shown: Shown) -> Group:
    flagged = shown.answer and step.wrong
    frame = ((x, FOOT), (x + wide, FOOT), (x + wide, TOP), (x, TOP))
    items: list[Item] = [polygon(frame, "outline" if flagged else "narrow", "", flagged)]
    if shown.few:
        items.append(Label(x + wide / 2, TOP - 5.5, one_word(step.card), LETTER, "middle", "middle"))
    else:
        items.append(Label(x + 2, TOP - 4.5, str(place + 1), LETTER, "start", "middle"))
        items.append(Label(x + wide / 2, TOP - 10, short(step.card, laid.part), SMALL, "middle", "middle"))
    items += _bench(laid, step, x + (wide - PART - STICK) / 2)
    if flagged:
        items += warning_sign(x + wide - 7.3, TOP - 6.7 if not shown.few else FOOT + 4.8, 5.6)
    if shown.answer and not shown.few and step.card.kind != WITNESS:
        words = f"{exact(step.held)}: CLAMP" if step.clamped else f"{exact(step.held)} held"
        items.append(Label(x + wide / 2, FOOT + 4.5, words, SMALL, "middle", "middle", accent=step.clamped))
    return tuple(items)


def _bench(laid: Laid, step: Step, x: float) -> Group:
    """The leg as it lies on the bench after a card: the part, and the stick that it still belongs to."""
    part, work = laid.part, step.work
    left = x + (0.0 if work.free == 1 else STICK)
    leg = taper_lines(part)[0].leg if taper_lines(part) else "A"
    up, middle = direction(leg), 89.0
    heel = middle - up * WIDE / 2

    def at(along: float, across: float) -> Point:
        return left + along / float(part.length) * PART, heel + up * across * WIDE

    ends = {end: _end(part, work, end) for end in (1, 2)}
    items: list[Item] = [*_outline(part, work, ends, at)]
    if not work.cut:
        far = float(part.length)
        border, edge = (left + PART, left + PART + STICK) if work.free == 1 else (left, left - STICK)
        low, high = sorted((at(0, 0)[1], at(0, 1)[1]))
        items += [Line(border, y, edge, y, "outline") for y in (low, high)]
        items += [Line(*at(far if work.free == 1 else 0, 0), *at(far if work.free == 1 else 0, 1), "ghost"), zigzag(edge, low, high)]
    items += _witness(part, work, at)
    if work.holes:
        for hole in part.holes_in(leg):
            items.append(Circle(*at(float(hole.x), float(hole.y / part.section.leg(leg))), 0.9, "narrow"))
    items += _datum(part, work, at, up)
    if step.clamped and step.card.kind != WITNESS:
        where = left + PART * (0.84 if first_end(part) == 1 else 0.16)
        for side in (1, -1):
            y = middle + side * (WIDE / 2 + 0.8)
            items.append(polygon(((where, y), (where - 1.6, y + side * 3), (where + 1.6, y + side * 3)), "", "ink"))
    return tuple(items)


def _end(part: Part, work: Work, end: int) -> str:
    """What an end looks like now: 'stick', 'rough', 'square'."""
    if end in work.squared:
        return "square"
    return "rough" if work.cut or end == work.free else "stick"


def _outline(part: Part, work: Work, ends: dict[int, str], at) -> Group:
    """The leg's edge from end to end, tapered where its tapers are made."""
    corners: dict[int, list[Point]] = {}
    rough = float(part.length) * 0.045
    for end in (1, 2):
        way = 1 if end == 1 else -1
        base = 0.0 if end == 1 else float(part.length)
        line = next((line for line in work.tapers if line.end == end), None)
        if line is not None:
            left = float(line.width_left / line.width)
            corners[end] = [at(base, 0), at(base, left), at(base + way * float(line.run), 1)]
        else:
            lean = rough if ends[end] == "rough" else 0.0
            corners[end] = [at(base - way * lean, 0), at(base, 1)]
    pieces: list[Item] = [Line(*corners[1][0], *corners[2][0], "outline"), Line(*corners[1][-1], *corners[2][-1], "outline")]
    for end in (1, 2):
        if ends[end] != "stick":
            pieces.append(Polyline(tuple(corners[end]), "outline"))
    return tuple(pieces)


def _witness(part: Part, work: Work, at) -> Group:
    where = witness_line(part)
    if not work.witness or where is None:
        return ()
    return (Line(*at(float(where), 0), *at(float(where), 1), "fine-mark", True),)


def _datum(part: Part, work: Work, at, up: int) -> Group:
    """The datum's sign under the edge that lengths are read from."""
    if not work.datum:
        return ()
    where = float(witness_line(part) or 0) if work.datum == WITNESS else {"end-1": 0.0, "end-2": float(part.length)}[work.datum]
    x, y = at(where, 0 if up > 0 else 1)
    low = min(y, at(where, 1)[1], at(where, 0)[1]) - 0.6
    return (polygon(((x, low), (x - 1.5, low - 2.6), (x + 1.5, low - 2.6)), "", "accent", True),)


# --- what a slip costs -------------------------------------------------------------------------------------
def _costs(laid: Laid, steps: tuple[Step, ...], wide: float, shown: Shown) -> Group:
    most = whole(laid.part, laid.shop)
    unit = TALL / float(most)
    items: list[Item] = [Line(LEFT, BASE, RIGHT, BASE, "narrow")]
    if not shown.few:
        items.append(Label(1, FOOT - 5, "lost if the card fails, inches of stick", SMALL, "start", "middle"))
    if shown.prediction is not None:
        y = min(BASE + float(shown.prediction) * unit, FOOT - 9)
        i = next(i for i, step in enumerate(steps) if step is worst(steps, laid.part))
        middle = LEFT + (i + 0.5) * wide - 1
        items.append(Line(middle - wide / 2 - 11, y, middle + 5, y, "ghost"))
        if not shown.few:
            items.append(Label(middle - wide / 2, y + 1.2, f"you: {exact(shown.prediction)}", SMALL))
    for i, step in enumerate(steps):
        middle = LEFT + (i + 0.5) * wide - 1
        high = float(step.metal) * unit
        bold = step is worst(steps, laid.part)
        if high > 0.8:
            corners = ((middle - 3.5, BASE), (middle + 3.5, BASE), (middle + 3.5, BASE + high), (middle - 3.5, BASE + high))
            items.append(polygon(corners, "outline" if bold else "narrow", "paper", bold))
            if high > 3:
                items.append(Hatch(corners, 45, 2.2, accent=bold))
        else:
            items.append(Line(middle - 3.5, BASE + max(high, 0.4), middle + 3.5, BASE + max(high, 0.4), "narrow"))
        if bold or not shown.few:
            items.append(Label(middle, BASE + high + 2.2, exact(step.metal), LETTER if shown.few else SMALL, "middle", accent=bold))
        if not shown.few:
            items.append(Label(middle, BASE - 5.5, f"{step.again} again", SMALL, "middle", accent=bold))
    if not shown.few:
        items.append(Label(1, 3.5, "operations to be done again", SMALL, "start", "middle"))
    return tuple(items)


def work_cards_sentence(laid: Laid, shown: Shown = Shown()) -> str:
    """What the picture shows, in words."""
    steps = laid.steps
    words = f"{laid.name}, {len(steps)} cards: {', '.join(f'{i} {short(step.card, laid.part)}' for i, step in enumerate(steps, 1))}."
    if shown.prediction is not None:
        words += f" Your prediction is {both(shown.prediction)} of the stick."
    if not shown.answer:
        return f"{words} What is in the hand at each, and what is lost if it fails, is not shown yet."
    cut = next(step for step in steps if step.card.kind == LENGTH)
    how = ", clamped" if laid.part.length < laid.shop.hand_minimum else ""
    if cut.clamped:
        how += f"; at the cut itself {exact(cut.held)}, clamped"
    words += f" In the hand: {exact(laid.stick)} before the cut to length, then {exact(laid.part.length)}{how}."
    hard = worst(steps, laid.part)
    words += f" If {short(hard.card, laid.part)} fails: {both(hard.metal)} of the stick and {hard.again} operations again."
    wrong = [(i, step) for i, step in enumerate(steps, 1) if step.wrong]
    if not wrong:
        return f"{words} Every card lies in a place that can come right."
    i, first = min(wrong, key=lambda one: (not one[1].fault, one[1].card.line is None))
    return f"{words} Card {i} lies wrong: {reason(first, laid.part)}"
