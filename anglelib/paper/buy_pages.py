"""The sheet of what is to be bought: a line a length, with what it costs, what it serves, and room to write what came.

>>> from anglelib.job import Job, Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.purchase import smallest_purchase
>>> from anglelib.stock.rack import Rack
>>> from anglelib.stock.to_buy import to_buy
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", 60)])
>>> found = smallest_purchase(job, Rack())
>>> [page.title for page in buy_pages(to_buy(found, plan(job, found.rack), job), A4)]
['Stock to buy']
>>> print(bought_csv(to_buy(found, plan(job, found.rack), job)), end="")
line,number,length,section,inside,alloy,price,sum,serves
1,1,72 in,3/4 x 3/4 x 1/8,fillet 1/8,6061-T6,,,A1
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from anglelib.drawing.sheet import Line as Rule
from anglelib.drawing.sheet import move
from anglelib.files.cells import guarded
from anglelib.lengths import exact, head, unit_in_head
from anglelib.paper.page import FIGURE, SMALL, Block, Column, Page, Paper, block, flow, heading, table
from anglelib.stock.purchase_words import held_short
from anglelib.stock.to_buy import Line, OfSection, ToBuy
from anglelib.stock.to_buy_words import CAUTION, ONE_PIECE, example, inside, of_section, serves, total

TITLE = "Stock to buy"
WIDE = {"line": 9.5, "count": 12.0, "metal": 40.5, "length": 22.0, "each": 22.0, "sum": 24.0}
"""Widths of the columns before what a line serves [mm]."""
HEADS = {"count": "how many", "metal": "section, inside, alloy", "serves": "serves", "came": "came; who read its mark"}
CAME = 25.0
"""Width of the column to be written in by hand [mm]."""
ROW = 2.6
"""Above and below a line's words [mm]: what came is written beside them with a pen."""
DEEP = 150.0
"""Lines are kept together under a head of their own as long as they are no deeper [mm]."""
COLUMNS = ("line", "number", "length", "section", "inside", "alloy", "price", "sum", "serves")


def buy_pages(purchase: ToBuy, on: Paper) -> list[Page]:
    """The sheet, section by section, with the sum and the caution."""
    width = on.room
    text, low = block(0, 0, ONE_PIECE, width)
    blocks: list[Block] = [(text, -low)]
    blocks += _tables(purchase, width)
    text, low = block(0, 0, total(purchase), width, FIGURE)
    blocks.append((text, -low))
    for words in (*held_short(purchase.short), CAUTION, WHEN_IT_COMES.format(example())):
        text, low = block(0, 0, words, width)
        blocks.append((text, -low))
    items, y = heading(0, 0, "What is proven of it, and what is left", width)
    first, *others = [_of_section(section, purchase, width) for section in purchase.sections]
    blocks += [((*items, *move(first[0], 0, y)), first[1] - y), *others]
    sentence = f"What is to be bought: {'; '.join(f'line {line.number}, {line.count} of {exact(line.length)}, {line.section.size}, {line.alloy}' for line in purchase.lines)}."
    return flow(TITLE, f"for {purchase.job_name}; purchase {purchase.number}", blocks, on, sentence)


WHEN_IT_COMES = (
    "When it comes: read each mark, measure, write beside the line what came. Then take it onto the rack with buy JOB RACK --bought and the numbers of the lines "
    '(several jobs are named as they were for this sheet); where another length came, --bought "{}" says so, and --lot says a lot or heat number.'
)


def _tables(purchase: ToBuy, width: float) -> list[Block]:
    """All lines, in as many tables as their depth asks for."""
    found: list[Block] = []
    rest = list(purchase.lines)
    while rest:
        number = next((n for n in range(2, len(rest) + 1) if _table(rest[:n], purchase, width)[1] > DEEP), len(rest) + 1) - 1
        found.append(_table(rest[:number], purchase, width))
        rest = rest[number:]
    return found


def _table(lines: Sequence[Line], purchase: ToBuy, width: float) -> Block:
    """Some lines under their heads, and room to write in."""
    heads = HEADS | {"length": head("length")}
    columns = [Column(heads.get(name, name), wide, SMALL, "start" if name == "metal" else "end") for name, wide in WIDE.items()]
    columns += [Column(heads["serves"], width - sum(WIDE.values()) - CAME), Column(heads["came"], CAME)]
    with unit_in_head():
        rows = [_row(line, purchase) for line in lines]
    items, y = table(0, 0, columns, rows, pad=ROW)
    return (*items, Rule(width - CAME, 0, width - CAME, y, "narrow")), -y


def _of_section(section: OfSection, purchase: ToBuy, width: float) -> Block:
    numbers = [str(line.number) for line in section.lines]
    of = f" (line{'s' if len(numbers) > 1 else ''} {', '.join(numbers)})" if numbers else ""
    text, low = block(0, 0, f"{section.section.size}, {inside(section.section)}, {section.alloy}{of}: {of_section(section, purchase)}", width)
    return text, -low


def _row(line: Line, purchase: ToBuy) -> tuple[str, ...]:
    metal = f"{line.section.size}, {inside(line.section)}, {line.alloy}"
    return str(line.number), str(line.count), metal, exact(line.length), purchase.money(line.price), purchase.money(line.sum), serves(line), ""


def bought_csv(purchase: ToBuy) -> str:
    """The lines as CSV, to be sent."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for line in purchase.lines:
        length = exact(line.length, "in")
        cells = (
            str(line.number), str(line.count), length if length.endswith("mm") else f"{length} in", line.section.size, inside(line.section), line.alloy,
            purchase.money(line.price), purchase.money(line.sum), serves(line),
        )  # fmt: skip
        writer.writerow([guarded(cell) for cell in cells])
    return out.getvalue()


