"""The stock on paper: what to buy, the pieces to saw before the class and for whom, what else is laid out.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> from anglelib.workshop.learner_parts import learners
>>> from anglelib.workshop.stock_to_buy import stock_for
>>> wanted = ClassWanted(2)
>>> [page.title for page in stock_pages(wanted, stock_for(wanted, learners(wanted)))][:2]
['Stock to buy', 'Plan for 1 1/4 x 1 1/4 x 1/8, 6063-T5']
"""

from __future__ import annotations

from anglelib.geometry.block import Block as LegBlock
from anglelib.lengths import exact
from anglelib.paper.page import SMALL, Block, Column, Page, block, flow, heading, table
from anglelib.paper.plan_pages import plan_pages
from anglelib.paper.safety_sheet import teeth
from anglelib.paper.tags import tag_pages
from anglelib.workshop.class_plan import AT_A_TABLE, SPARES, ClassWanted
from anglelib.workshop.handouts import marked
from anglelib.workshop.learner_parts import SECTION
from anglelib.workshop.stock_to_buy import OFF_CUT, ROUND, SQUARE, TAPER_ON, ClassStock, shopping_rows


def stock_pages(wanted: ClassWanted, stock: ClassStock) -> list[Page]:
    """The list, the plan of the sticks, tags for the pieces."""
    on, width = wanted.on, wanted.on.room
    rows = [(number, f"{length} in.", section, inside, alloy, what) for number, length, section, inside, alloy, what in shopping_rows(stock)]
    heads = (("number", 16), ("length", 18), ("section", 38), ("inside", 27), ("alloy", 20))
    columns = [*(Column(head, wide) for head, wide in heads), Column("for", width - sum(wide for _, wide in heads))]
    items, y = table(0, 0, columns, rows)
    blocks: list[Block] = [(items, -y)]
    words = [group.sentence[0].upper() + group.sentence[1:] for group in stock.purchase.groups]
    text, low = block(0, 0, " ".join(f"{group.alloy}: {said}" for group, said in zip(stock.purchase.groups, words, strict=True)) + " " + RULES.format(
        spares=wanted.spare_pieces, pairs=wanted.pairs, share=int(SPARES * 100), off=exact(OFF_CUT), each=AT_A_TABLE), width)  # fmt: skip
    blocks.append((text, -low))
    items, y = heading(0, 0, "Pieces, sawn before the class", width)
    pieces = [(p.id, p.name, exact(p.length), str(p.quantity), _use(p.id, wanted)) for p in stock.pieces.parts]
    drawn, y = table(0, y, [Column("id", 14), Column("piece", 52), Column("length", 20), Column("number", 16), Column("how", width - 102)], pieces, pad=0.7)
    blocks.append(((*items, *drawn), -y))
    blocks.append(_list(f"Laid out, for {wanted.learners} learners", materials(wanted), width))
    sentence = f"Stock to buy: {'; '.join(f'{n} of {length} in., {section}, {inside}, {alloy}' for n, length, section, inside, alloy, _ in shopping_rows(stock))}."
    pages = flow("Stock to buy", "planned by the planner, gone over by its checker", blocks, on, sentence)
    return [*pages, *plan_pages(stock.sawn, stock.pieces, stock.rack, on), *tag_pages(stock.sawn, stock.pieces, on)]


RULES = (
    "Lengths are those commonly sold; ask the supplier, and give others with --lengths. Spares by rule: {share} % of the pairs' pieces, here {spares} for "
    "{pairs}. The {off} in. off-cuts of lesson 01 are two for each table of {each}; remnants of your own do as well, where one is square inside and one has a "
    "fillet. Receive every stick: caliper, fillet, the mark of its alloy."
)


def materials(wanted: ClassWanted) -> list[str]:
    """What else lies ready, with numbers."""
    n, tables = wanted.learners, wanted.tables
    heel_up, flat, _ = teeth(SECTION)
    under = LegBlock.under("A", SECTION)
    return [
        f"{n} marked safety glasses, {n} ear protections; a face shield at each machine that grinds or finishes.",
        f"{n} markers, {tables} combination squares, {max(2, n // 3)} rules of 6 in. in 64ths, {max(2, n // 6)} calipers, {tables} protractors.",
        f"{wanted.bench_places} vises with soft jaws; files, deburring tools, centre punches, 80 to 320 grit sheets, a hand drill with pilot drills, clamps, holders.",
        "Drill shanks of 1/16 to 1/4 for fillets; a kitchen scale of 1 g; a bowl of water and a rag for hot parts.",
        f"{tables} sets of paper strips and scissors for lesson 11; glue or tape for the fold sheets.",
        f"Blades of {heel_up} teeth an inch for square cuts, heel up, and of {flat} for a leg that lies flat (three in the metal: trade guides to blades); a close insert in each saw's table.",
        f"At each saw a square block, {exact(under.height)} high and {exact(under.width)} wide, its edge taken off by more than {exact(under.relief)}, to lie under a leg; clamps; brushes for the chips.",
        "A sheet on the disc that has never dressed steel, a soft wheel whose speed mark is the machine's or above.",
    ]


def _use(name: str, wanted: ClassWanted) -> str:
    if name == SQUARE:
        return "lesson 01, one a table"
    if name == ROUND:
        return "lesson 01 to 04, one a table"
    if name.startswith("KX"):
        return "for what is spoiled; also the test cut of 05"
    return f"tapers sawn on {exact(TAPER_ON)} in. or more, {exact(wanted.shop.hand_minimum)} in. stay in the hand"


def _list(title: str, rows: list[str], width: float) -> Block:
    items, y = heading(0, 0, title, width)
    drawn = list(items)
    for row in rows:
        text, y = marked(0, y, row, width, SMALL)
        drawn += text
    return tuple(drawn), -y
