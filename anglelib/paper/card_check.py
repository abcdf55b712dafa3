"""The check of a finished part on its card: boxes to write in, what each reading should be and between which limits it may lie.

>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4")
>>> boxes(bar, Limits())[0]
('toe A, end to end', '17.250', ('17.219', '17.281'))
>>> between([("17.219", "17.281")], 30), between([("17.219", "17.281")], 22)
([('17.219 to 17.281',)], [('from 17.219', 'to 17.281')])
>>> too_close(bar, Limits()), too_close(bar, Limits.named("1/64"))
('', 'An inked line holds ±0.019 (a guess), not ±1/64: sand short, measure, sand on.')
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label, Line
from anglelib.geometry.allowance import finished_edge
from anglelib.inspection.reading_words import reading_words
from anglelib.inspection.wanted import wanted_readings
from anglelib.lengths import about, fine, head, own, unit_in_head
from anglelib.paper.page import FIGURE, SMALL, Block, block, box, fitting, heading, wrapped
from anglelib.paper.weights import Weight
from anglelib.part import Part
from anglelib.tolerances import Limits

ACROSS = 8
"""At most so many boxes side by side."""
GROWS = 24
"""From this length on [in] a part's growth by warmth is worth a word."""


def boxes(part: Part, limits: Limits) -> list[tuple[str, str, tuple[str, ...]]]:
    """Of each reading its name, what it should be, and its limits, in words and numbers."""
    names = [(reading_words(want.id, part), want) for want in wanted_readings(part, limits)]
    with unit_in_head():  # of the whole block
        return [(name, fine(want.value), (fine(want.low), fine(want.high))) for name, want in names]


def between(limits: Sequence[tuple[str, ...]], width: float) -> list[tuple[str, ...]]:
    """The limits of the boxes of one row, each in one line where all of them fit into it, else in two."""
    for pattern in (("{0} to {1}",), ("{0}–{1}",), ("from {0}", "to {1}"), ("{0}", "to {1}")):
        written = [tuple(line.format(*pair) for line in pattern) if len(pair) == 2 else pair for pair in limits]
        if all(text_width(line, SMALL) <= width for lines in written for line in lines):
            break
    return written


def too_close(part: Part, limits: Limits) -> str:
    """That some limits are closer than a marked and sanded edge holds, and what to do about it; "" where none is."""
    holds = finished_edge().expanded
    closest = min(limits.length(value) for value in (part.length, *(t.run for t in part.tapers if t.run), *(c.length for c in part.copes)))
    if closest >= holds:
        return ""
    return f"An inked line holds ±{fine(holds)} (a guess), not ±{_limit(closest, limits)}: sand short, measure, sand on."


def _limit(value: Fraction, limits: Limits) -> str:
    """A limit as it is: one of the shop's own in the unit that it was given in; never rounded to a rule's graduation, which 0.005 would not outlast."""
    return about(value) if limits.own is None else own(value)


def words(part: Part, limits: Limits, weight: Weight | None) -> str:
    """What the readings are held to."""
    square = _limit(limits.square(max(part.section.leg_a, part.section.leg_b)), limits)
    said = [f"Limits {limits.words}, ends square to {square}; the plans first.", too_close(part, limits)]
    if part.length >= GROWS:
        said.append(f"Measure cold: it grows {fine(growth_in(part))} in 30 F (17 C).")
    return " ".join([*(one for one in said if one), alloys(weight)]).strip()


def growth_in(part: Part, kelvin: float = 50 / 3) -> float:
    """How much longer the part is when it is 30 degrees Fahrenheit warmer [in].

    >>> from anglelib.section import Section
    >>> round(growth_in(Part("P1", "Longeron", Section(1, 1, "1/8"), "6061-T6", 60)), 3)
    0.024
    """
    from anglelib.geometry.allowance import growth

    return growth(float(part.length), kelvin)


def alloys(weight: Weight | None) -> str:
    """Which other alloys the weight would betray; "" where none."""
    if weight is None:
        return "No density of this alloy is in the table."
    return f"Weighed, {' and '.join(weight.rules_out)} would show." if weight.rules_out else ""


def check_block(part: Part, limits: Limits, width: float) -> Block:
    """The boxes, and the weight's beside them."""
    title = head("Readings")
    items, y = heading(0, 0, title, width)
    weight = Weight.of_part(part)
    at = text_width(title, FIGURE) + 6
    text, low = block(at, -0.6, words(part, limits, weight), width - at)
    low = min(y, low - 0.4)  # the rule stands under the longer of heading and words
    drawn: list[Item] = [items[0], Line(0, low, width, low, "narrow"), *text]
    found = boxes(part, limits)
    if weight is not None:
        found.append((f"weight {weight.pounds:.3f} lb", weight.in_grams, (weight.off,)))
    y = low - 0.8
    rows = 1 if len(found) <= ACROSS else 2
    each = width / -(-len(found) // rows)
    for row in range(rows):
        shown = found[row * -(-len(found) // rows) : (row + 1) * -(-len(found) // rows)]
        named = [wrapped(name, each - 1.8, SMALL) for name, _, _ in shown]
        within = between([limits_ for _, _, limits_ in shown], each - 2.2)
        more = 3.4 * (max(len(lines) for lines in within) - 1)
        foot = y - max(len(lines) for lines in named) * 3.5 - 1.0
        for i, ((_, figure, _), lines, limited) in enumerate(zip(shown, named, within, strict=True)):
            x = i * each
            drawn += [Label(x + 0.8, y - 0.3 - j * 3.5, line, SMALL, "start", "top") for j, line in enumerate(lines)]
            text_, letter = fitting(figure, each - 1.4, (FIGURE, SMALL))
            drawn.append(Label(x + 0.8, foot, text_, letter, "start", "top"))
            drawn += [Label(x + 0.8, foot - 4.9 - j * 3.4, line, SMALL, "start", "top") for j, line in enumerate(limited)]
            drawn.append(box(x + 0.4, foot - 16.6 - more, each - 1.2, 8.2))
        y = foot - 17.6 - more
    return tuple(drawn), 0.8 - y
