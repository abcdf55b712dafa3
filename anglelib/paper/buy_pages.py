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

from anglelib.files.cells import guarded
from anglelib.lengths import exact, head, unit_in_head
from anglelib.paper.page import FIGURE, SMALL, Block, Column, Page, Paper, block, flow, heading, table
from anglelib.stock.to_buy import Line, OfSection, ToBuy
from anglelib.stock.to_buy_words import CAUTION, ONE_PIECE, inside, of_section, serves, total

TITLE = "Stock to buy"
WIDE = (("line", 10.0, "start"), ("number", 15.0, "end"), ("length", 24.0, "end"), ("each", 23.0, "end"), ("sum", 25.0, "end"))
CAME = 38.0
"""Width of the column to be written in by hand [mm]."""
ROW = 2.6
"""Above and below a line's words [mm]: what came is written beside them with a pen."""
COLUMNS = ("line", "number", "length", "section", "inside", "alloy", "price", "sum", "serves")


def buy_pages(purchase: ToBuy, on: Paper) -> list[Page]:
    """The sheet, section by section, with the sum and the caution."""
    width = on.room
    text, low = block(0, 0, ONE_PIECE, width)
    blocks: list[Block] = [(text, -low)]
    blocks += [_section(section, purchase, width) for section in purchase.sections]
    text, low = block(0, 0, total(purchase), width, FIGURE)
    blocks.append((text, -low))
    text, low = block(0, 0, CAUTION, width)
    blocks.append((text, -low))
    text, low = block(0, 0, WHEN_IT_COMES, width)
    blocks.append((text, -low))
    sentence = f"What is to be bought: {'; '.join(f'line {line.number}, {line.count} of {exact(line.length)}, {line.section.size}, {line.alloy}' for line in purchase.lines)}."
    return flow(TITLE, f"for {purchase.job_name}; purchase {purchase.number}", blocks, on, sentence)


WHEN_IT_COMES = (
    "When it comes: read each mark, measure, write beside the line what came. Then take it onto the rack with buy JOB RACK --bought and the numbers of the lines; "
    'where another length came, --bought "1: 95 7/8" says so.'
)


def _section(section: OfSection, purchase: ToBuy, width: float) -> Block:
    items, y = heading(0, 0, f"{section.section.size}, {inside(section.section)}, {section.alloy}", width)
    drawn = list(items)
    if section.lines:
        rest = width - sum(wide for _, wide, _ in WIDE) - CAME
        columns = [Column(head("length") if name == "length" else name, wide, SMALL, anchor) for name, wide, anchor in WIDE]
        columns += [Column("serves", rest), Column("came, mark read by", CAME)]
        with unit_in_head():
            rows = [_row(line, purchase) for line in section.lines]
        ruled, y = table(0, y, columns, rows, pad=ROW)
        drawn += ruled
        y -= 1.2
    text, y = block(0, y, of_section(section, purchase), width)
    return (*drawn, *text), -y


def _row(line: Line, purchase: ToBuy) -> tuple[str, ...]:
    return str(line.number), str(line.count), exact(line.length), purchase.money(line.price), purchase.money(line.sum), serves(line), ""


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


