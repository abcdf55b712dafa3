"""The cover of a shop pack: whose job, what is in it, what can hurt, and what it does not claim.

The cautions are those of the safety sheet, in short, where each has its source; the machine's own
manual, the kit's plans and local rules come first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label, Line
from anglelib.geometry.rough_words import saw_words
from anglelib.geometry.work_words import hand_words
from anglelib.job import Job
from anglelib.lengths import given, own_spoken
from anglelib.paper.page import FIGURE, SMALL, Block, Column, Page, Paper, block, fitting, flow, heading, table, warning_sign
from anglelib.paper.risk import basis
from anglelib.tolerances import Limits

CAUTIONS = (
    ("eyes, ears", "Covered at saw, disc and drill; a face shield over the glasses when grinding."),
    ("hands", "Bare at a running machine, gloves only when it stands still. No loose sleeves, rings, cords or hair."),
    ("power", "Off before anything is set, cleaned or changed. Chips: a brush, never the hand. The chuck key out."),
    ("saw", "Guard close, guide just clear of the work as it sits; over a standing leg the blade runs bare. A close insert. "
            "Under {hand} in the hand: clamped. Support both sides; never reach for what falls while it runs."),
    ("disc", "Where it runs down on to the table, hands 2 in. off; the table close to it, no thin edge into the gap."),
    ("wheel, dust", "Never a grey wheel for steel: it can burst. Fines can explode: dry, off sparks and steel dust."),
    ("heat, edges", "Too hot to hold: dip it, dry it; no heat to ease a bend. A burr, a feather edge cuts: break it."),
)  # fmt: skip
CLAIMS = (
    "This pack computes geometry and stock from what was typed into the job and the rack. It approves nothing: strength, another alloy or "
    "section and any deviation are for the kit's plans, its maker and a licensed inspector. The kit's plans and instructions come first, also "
    "where they name a stick or an order of work. Diameters are the fasteners'; drill sizes, pilots and when they are opened are per the plans. "
    "Compare each card with the plans before its first cut."
)
PRINTING = (
    "Print at actual size, 100 %, never fitted to the page, and measure the bars on each template: 100 mm and 4 in. "
    "Where they are off, use no template of that print: pack again with --bar-measured and what the bars measure."
)


def cover_pages(
    job: Job, on: Paper, contents: Sequence[tuple[str, ...]], limits: Limits, words: Mapping[str, str]
) -> list[Page]:
    """The cover, and as many pages as the contents need.

    ``contents`` are rows: part or plan, id, quantity, hand, the pages of its card, of its templates, of its check print.
    ``words`` are the sentences about the plan: "made", "short" or "", and "holes" or "".
    """
    width = on.room
    blocks: list[Block] = [_summary(job, words, width), _cautions(job, width), _claims(width), _settings(job, limits, width)]
    if contents:
        blocks += _contents(contents, width)
    sentence = f"Cover of the shop pack for {job.name}: {words['made']} {words['short']} Cautions, what it does not claim, and the contents."
    return flow("Shop pack", "", blocks, on, sentence)


def _summary(job: Job, words: Mapping[str, str], width: float) -> Block:
    name, letter = fitting(job.name, width)
    items: list[Item] = [Label(0, 0, name, letter, "start", "top")]
    text, y = block(0, -letter - 3.5, words["made"], width, FIGURE)
    items += text
    for said in (words["short"], words["holes"]):
        if said:
            items += warning_sign(0, y - 4.2, 3.8)
            text, y = block(6, y - 0.6, said, width - 6, FIGURE)
            items += text
    return tuple(items), -y


def _cautions(job: Job, width: float) -> Block:
    items, y = heading(6, 0, "Before the first cut", width - 6)
    drawn: list[Item] = [*warning_sign(0, -3.9, 4.2), *items]
    for name, words in CAUTIONS:
        drawn.append(Label(0, y, name, SMALL, "start", "top"))
        text, low = block(24, y, words.format(hand=hand_words(job.shop)), width - 24)
        drawn += text
        y = low - 0.5
    return tuple(drawn), -y


def _claims(width: float) -> Block:
    items, y = heading(0, 0, "What it does not claim", width)
    text, low = block(0, y, CLAIMS, width)
    return (*items, *text), -low


def _settings(job: Job, limits: Limits, width: float) -> Block:
    shop = job.shop
    numbers = (
        f"Kerf {given(shop.kerf)}; sanding allowance {given(shop.allowance)} at each sawn end; a remnant under {own_spoken(shop.usable_minimum)} "
        f"is scrap; under {hand_words(shop)} in the hand is clamped; limits {limits.words}, the plans first. {basis()}"
    )
    items, y = heading(0, 0, "Printing, settings", width)
    text, y = block(0, y, PRINTING, width)
    if shop.saw is not None:
        numbers += f" {saw_words(shop)}"
    more, y = block(0, y - 0.6, numbers, width)
    return (*items, *text, *more), -y


def _contents(contents: Sequence[tuple[str, ...]], width: float) -> list[Block]:
    """The contents, a block a row, so that a page is filled before the next begins."""
    heads = ("what", "id", "pieces", "hand", "page", "templates", "check print")
    used = [i for i in range(len(heads)) if any(row[i] for row in contents)]  # sheets that nobody wants have no column
    heads, contents = tuple(heads[i] for i in used), [tuple(row[i] for i in used) for row in contents]
    widths = [max([text_width(row[i], SMALL) for row in (*contents, heads)]) + 3 for i in range(1, len(heads))]
    first = width - sum(widths)
    columns = [Column("what", first), *(Column(head, wide) for head, wide in zip(heads[1:], widths, strict=True))]
    blocks: list[Block] = []
    for number, row in enumerate(contents):
        named = columns if not number else [Column("", column.width) for column in columns]
        items, y = table(0, 0, named, [row], pad=0.35 if number else 0.7, row_lines=False)
        if number:  # a table of one row brings its rules; of all rows one pair is enough
            items = tuple(item for item in items if not isinstance(item, Line))
        else:
            items = tuple(item for item in items if not (isinstance(item, Line) and item.y1 == y))
        blocks.append((items, -y - 2.5))
    return blocks
