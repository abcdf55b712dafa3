"""What is signed and filled in: the briefing, the sign-off, the inspection of the finished parts.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> from anglelib.workshop.learner_parts import learners
>>> wanted = ClassWanted(2)
>>> [page.title for page in (*briefing_pages(wanted), *sign_off_pages(wanted, learners(wanted)), *inspection_pages(wanted, learners(wanted)))]
['Safety briefing, sheet 1 of 2', 'Safety briefing, sheet 2 of 2', 'Sign-off', 'Inspection of the parts']
"""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.sheet import Item, Label, Line
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.wanted import wanted_readings
from anglelib.lengths import fine, own_spoken
from anglelib.paper.page import SMALL, Block, Page, block, box, flow, heading, shortened, warning_sign, wrapped
from anglelib.safety import CAUTIONS, STEPS
from anglelib.tolerances import Limits
from anglelib.workshop.class_plan import ClassWanted
from anglelib.workshop.handouts import marked
from anglelib.workshop.learner_parts import Learner

ROW = 8.4
"""Height of a row to write in [mm]."""
HERE = (
    "Nobody runs a machine alone: somebody competent has every running machine in sight, two at most, stops it before stepping away, and has shown you how it runs.",
    "Where the stop of each machine is, where the first-aid box, the extinguisher for metal fires and the way out are: I was shown.",
    "Who is tired, unwell, or not sure of the next step says so, and does not switch on.",
    "What is stated here is common counsel: the machines' manuals, the law and this shop's own rules come first.",
)
SIGNED = "I was briefed on all of this, I could ask, and I keep to it. I was told that nothing made today is for flight unless the plans and a licensed inspector say so."


def briefing_pages(wanted: ClassWanted) -> list[Page]:
    """The cautions, in the words of the safety sheet, step by step, what is true of this shop, and a row to sign for each learner."""
    width = wanted.on.room
    items, y = heading(6, 0, "At the machines", width - 6)
    drawn: list[Item] = [*warning_sign(0, -3.9, 4.2), *items]
    blocks: list[Block] = [(tuple(drawn), -y)]
    for step, words in _briefed(wanted):
        name, foot = block(0, 0, step, 30)
        text, low = block(34, 0, words, width - 34)
        blocks.append(((*name, *text), -min(low, foot) - 1.2))
    items, y = heading(0, 0, "In this shop", width)
    drawn = list(items)
    for words in HERE:
        text, y = marked(0, y, words, width, SMALL)
        drawn += text
    blocks.append((tuple(drawn), -y))
    text, low = block(0, 0, SIGNED, width, 3.0)
    blocks.append((text, -low))
    rows = [_row(("", "name", "signature", "day"), (12, 70, 70, width - 152), head=True)]
    rows += [_row((f"{n:02d}", "", "", ""), (12, 70, 70, width - 152)) for n in range(1, wanted.learners + 1)]
    return flow("Safety briefing", "read out at the standing machines, then signed by everybody", blocks + rows, wanted.on,
                f"Safety briefing with room for {wanted.learners} signatures: {'; '.join(STEPS.values())}.")  # fmt: skip


def _briefed(wanted: ClassWanted) -> list[tuple[str, str]]:
    """Each step with all that is to mind at it, as it is read out."""
    hand = own_spoken(wanted.shop.hand_minimum)
    return [(name, " ".join(c.said(hand) for c in CAUTIONS if c.step == step)) for step, name in STEPS.items()]


def sign_off_pages(wanted: ClassWanted, people: Sequence[Learner]) -> list[Page]:
    """Who may run which machine, whose part passes, who takes what home; initials of somebody competent."""
    width = wanted.on.room
    heads = ("", "part", "name", "saw", "disc", "wheel", "part", "pair", "initials")
    wide = (10.0, 16.0, 48.0, 18.0, 18.0, 18.0, 18.0, 18.0)
    wide = (*wide, width - sum(wide))
    text, low = block(0, 0, (
        "Saw, disc, wheel: seen to run it safely, by somebody competent. Part: it lies within its check print on both legs, or its readings are within the "
        "limits. Pair: laid together, a left and a right. A box stays empty where that was not seen."
    ), width)  # fmt: skip
    rows = [_row(heads, wide, head=True), *[_row((f"{one.number:02d}", one.part.id, *[""] * 7), wide) for one in people]]
    return flow("Sign-off", "", [(text, -low), *rows], wanted.on, f"Sign-off of {len(people)} learners: saw, disc, wheel, part, pair.")


def inspection_pages(wanted: ClassWanted, people: Sequence[Learner]) -> list[Page]:
    """For each part a box for its check print, and the seven readings with their limits for those that miss."""
    width = wanted.on.room
    limits = Limits()
    text, low = block(0, 0, (
        "First the check print: legs A and B, outer face down. In the white all round: tick, done. Only a part that misses is measured, cold. "
        f"Limits: {limits.words}; the plans would come first."
    ), width)  # fmt: skip
    blocks: list[Block] = [(text, -low)]
    blocks += [_inspected(one, limits, width) for one in people]
    return flow("Inspection of the parts", "check print first; readings only where it misses", blocks, wanted.on,
                f"Inspection of {len(people)} parts: check print, and seven readings with their limits.")  # fmt: skip


def _inspected(one: Learner, limits: Limits, width: float) -> Block:
    """One part: its id and hand, a box to tick, seven readings to write."""
    part = one.part
    first = 27.0
    items: list[Item] = [
        Line(0, 0, width, 0, "narrow"),
        Label(0, -1.6, f"{part.id}, {part.hand}", 3.5, "start", "top"),
        box(0, -13.4, 3.4, 3.4),
        Label(5, -12.8, "check print", SMALL, "start"),
    ]
    found = wanted_readings(part, limits)
    each = (width - first) / len(found)
    for n, want in enumerate(found):
        x = first + n * each
        lines = _two(reading_words(want.id, part), each - 1)
        items += [Label(x, -1.6 - i * 3.4, line, SMALL, "start", "top") for i, line in enumerate(lines)]
        items += [Label(x, -9.2, f"{fine(want.low)}\u2013{fine(want.high)}", SMALL, "start", "top"), box(x, -20.0, each - 1.6, 7.2)]
    return tuple(items), 19.0


def _two(text: str, width: float) -> list[str]:
    lines = wrapped(text, width, SMALL)
    return [*lines[:1], shortened(" ".join(lines[1:]), width, SMALL)] if len(lines) > 2 else lines


def _row(cells: Sequence[str], wide: Sequence[float], head: bool = False) -> Block:
    """A row to write in, over its line; rows stand close, as flow leaves 2.5 mm between blocks."""
    high = 5.0 if head else ROW
    items: list[Item] = [Line(0, -high, sum(wide), -high, "outline" if head else "narrow")]
    x = 0.0
    for n, (cell, each) in enumerate(zip(cells, wide, strict=True)):
        if n and not head:
            items.append(Line(x, 0, x, -high, "narrow"))
        if cell:
            items.append(Label(x + 1.2, -high / 2, shortened(cell, each - 1.6, SMALL), SMALL, "start", "middle"))
        x += each
    return tuple(items), high - 2.5

