"""The safety sheet: what to mind at each step, large enough for the wall, each with its source; and the blades that suit the job.

>>> from anglelib.job import Job, Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> pages = safety_pages(Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 28)]), A4)
>>> pages[0].bookmark
'Safety at each step'
>>> teeth(stock)
('18 or 24', '24 or 32', '24 or 32')
"""

from __future__ import annotations

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label, move
from anglelib.geometry.setup import square_cut
from anglelib.geometry.teeth import teeth_for, teeth_of
from anglelib.geometry.work_words import hand_words
from anglelib.job import Job
from anglelib.paper.page import FIGURE, SMALL, Block, Column, Page, Paper, block, flow, heading, table, warning_sign, wrapped
from anglelib.safety import CAUTIONS, NOISE, SAW, STEPS, Caution, hours_allowed
from anglelib.section import Section

TITLE = "Safety at each step"
LEVELS = (90, 95, 100, 105)
"""Levels of noise whose hours are printed [dBA]."""
SOURCE = 46.0
"""Room for the source of a caution [mm]."""
CLOSER = 1.1
"""By how much the cautions of a step stand closer than the steps [mm]."""
LINE = 5.0
"""From line to line of a caution [mm]."""
INDENT = 2.4
"""So far the second line of a caution is set in [mm]."""
FIRST = (
    "The manuals of these machines, the kit's plans and local rules come first. The law that is named binds workplaces; at home it is good "
    "counsel. A source is named where it was read; common practice is a rule of the trade without one, and derived follows by arithmetic. "
    "Neither is a requirement."
)


def safety_pages(job: Job, on: Paper) -> list[Page]:
    """The safety sheet, for the sections and the shop of a job."""
    width = on.room
    text, low = block(0, 0, FIRST, width)
    blocks: list[Block] = [(text, -low)]
    hand = hand_words(job.shop)
    for step, name in STEPS.items():
        rows = [_caution(caution, hand, width) for caution in CAUTIONS if caution.step == step]
        if step == SAW:
            rows.append(_teeth(job, width))
        if step == NOISE:
            rows.append(_noise(width))
        first = _under(_head(name, width), rows[0])
        # cautions of a step stand closer to one another than the steps do
        blocks += [(items, deep - CLOSER) for items, deep in (first, *rows[1:])]
        blocks[-1] = (blocks[-1][0], blocks[-1][1] + CLOSER)
    sentence = f"Cautions in the order of the work, each with its source: {'; '.join(STEPS.values())}."
    return flow(TITLE, "", blocks, on, sentence)


def teeth(section: Section) -> tuple[str, str, str]:
    """The blades that are sold for a section: heel up, a leg flat, and down a standing leg as a whole.

    Heel up the blade stands aslant in each leg and sees more metal than the leg is thick. Three teeth in the
    thinnest metal where a blade has them, two at least, not over 24 in the standing leg.
    """
    flat = min(section.thickness_a, section.thickness("B"))
    standing = max(section.leg_a, section.leg_b)
    return tuple(found.words for found in (teeth_of(square_cut(section)), teeth_for(flat), teeth_for(flat, standing)))  # type: ignore[return-value]


# --- blocks ---------------------------------------------------------------------------------------------
def _under(head: Block, first: Block) -> Block:
    """A step's heading in one block with its first caution, so that no page ends with a heading."""
    return (*head[0], *move(first[0], 0, -head[1])), head[1] + first[1]


def _head(name: str, width: float) -> Block:
    items, y = heading(6, 0, name, width - 6)
    return (*warning_sign(0, -3.9, 4.2), *items), -y - 0.4


def _caution(caution: Caution, hand: str, width: float) -> Block:
    room = width - SOURCE - 4 - INDENT
    lines = wrapped(caution.said(hand), room, FIGURE)
    items: list[Item] = [Label(INDENT if i else 0, -i * LINE, line, FIGURE, "start", "top") for i, line in enumerate(lines)]
    origin = wrapped(caution.origin, SOURCE, SMALL)
    items += [Label(width - SOURCE, -0.7 - i * 3.8, line, SMALL, "start", "top") for i, line in enumerate(origin)]
    return tuple(items), max(len(lines) * LINE, len(origin) * 3.8 + 0.7) - 1.3


def _teeth(job: Job, width: float) -> Block:
    """The blades for each section of the job."""
    sections = list(dict.fromkeys(part.section for part in job.parts))
    rows = [[section.size, *teeth(section)] for section in sections]
    first = max(text_width(row[0], FIGURE) for row in rows) + 8
    columns = [Column("teeth an inch for", max(first, 40), FIGURE)]
    columns += [Column(how, wide, FIGURE) for how, wide in (("heel up", 34), ("a leg flat", 34), ("down a standing leg", 44))]
    items, y = table(0, 0, columns, rows, pad=0.5)
    return items, -y


def _noise(width: float) -> Block:
    """How long an ear may bear a steady level, unprotected."""
    each = 26.0
    rows = [["hours a day", *(f"{hours_allowed(level):g}" for level in LEVELS)]]
    columns = [Column("unprotected, at", 34, FIGURE), *(Column(f"{level} dBA", each, FIGURE) for level in LEVELS)]
    items, y = table(0, 0, columns, rows, pad=0.5)
    x = 34 + each * len(LEVELS) + 4
    words = wrapped("29 CFR 1910.95, table G-16", width - x, SMALL)
    more = [Label(x, y + 6 - i * 3.8, line, SMALL, "start", "top") for i, line in enumerate(words)]
    return (*items, *more), -y


