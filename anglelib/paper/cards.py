"""One card a part: what is drawn, marked, sawn, checked, in the order in which it is done.

Numbers that are used at the saw are 3.5 mm high, notes 2.5 mm. A card is one page; where its drawing
finds no room there it is two, what is marked and measured on the first, the saw and the steps on the
second. What still finds no room is given up in a fixed order, and it is said.

>>> from anglelib.job import Job, Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.section import Section
>>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4", hand="neither")
>>> [page.title for page in card_pages(bar, Shop(), A4, blanks=("S-04 (2)",))]
['Card of Floor bar']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, Line, move
from anglelib.geometry.layout import datum_lost, witness_line
from anglelib.geometry.taper import taper_lines, warnings
from anglelib.geometry.work import Operation, first_end, operations, reading_from_datum
from anglelib.job import Shop
from anglelib.lengths import both, exact
from anglelib.paper.card_room import FIRST_SHEET, LARGE, ONE_SHEET, SECOND_SHEET, Room
from anglelib.paper.card_saw import setups
from anglelib.paper.card_steps import step_list
from anglelib.paper.page import (
    FIGURE,
    PITCH,
    SMALL,
    Block,
    Column,
    Page,
    Paper,
    block,
    box,
    fitting,
    heading,
    shortened,
    table,
    warning_sign,
    wrapped,
)
from anglelib.paper.part_drawing import hole_words, part_drawing
from anglelib.paper.readings import Tolerance, readings, tolerance
from anglelib.paper.risk import words as risk_words
from anglelib.paper.weights import Weight
from anglelib.part import Part

_GAP = 1.8
_LEAST_DRAWING = 34.0


def card_pages(
    part: Part, shop: Shop, on: Paper, *, blanks: Sequence[str] = (), allowed: Tolerance | None = None, note: str = ""
) -> list[Page]:
    """The card of a part. ``blanks`` are the sticks its blanks come from; ``note`` is said below the head."""
    known = _Known(
        operations(part, shop),
        _head(part, shop, on.room, blanks, note),
        risk_words(part, shop),
        _inspection(part, on.room, allowed or tolerance()),
    )
    sheets = _one(part, shop, on, known) or _two(part, shop, on, known)
    sentence, pages = _sentence(part, shop), []
    for number, items in enumerate(sheets, 1):
        title = f"Card of {part.name}" + (f", sheet {number} of {len(sheets)}" if len(sheets) > 1 else "")
        pages.append(Page(title, sentence, items, f"Card {part.id} {part.name}" if number == 1 else ""))
    return pages


class _Known(NamedTuple):
    """What a card shows whatever room there is; it is computed once."""

    steps: Sequence[Operation]
    head: Block
    risk: str
    inspection: Block


def _one(part: Part, shop: Shop, on: Paper, known: _Known) -> list[Group]:
    """The card on one sheet; nothing where its drawing finds no room there."""

    def built(room: Room) -> tuple[Group, Fraction] | None:
        marks = _marks(part, shop, known.steps, on.room, room, known.risk)
        blocks = [marks, setups(part, shop, on.room, room), step_list(known.steps, on.room, room), known.inspection]
        return _laid(part, on, known.head, blocks, room.drawing)

    airy, tight = (built(room) for room in ONE_SHEET[:2])
    if tight is not None:
        best = airy if airy is not None and airy[1] >= tight[1] else tight  # the larger drawing of the two
        large = built(LARGE) if best is airy else None
        return [large[0] if large is not None and large[1] >= best[1] else best[0]]
    made = (built(room) for room in ONE_SHEET[2:])
    return next(([found[0]] for found in made if found is not None), [])


def _two(part: Part, shop: Shop, on: Paper, known: _Known) -> list[Group]:
    """The card on two sheets: what is marked and measured, then what is done."""
    head = _marked_sheet(known.head, on.room, 1)
    first: Group = ()
    for room in FIRST_SHEET:
        blocks = [_marks(part, shop, known.steps, on.room, room, known.risk), known.inspection]
        blocks = [_hole_list(part, on.room, room.drawing), *blocks] if room.listed else blocks
        if (found := _laid(part, on, head, blocks, room.drawing, holes=not room.listed)) is not None:
            first = found[0]
            break
    second: Group = ()
    head = _marked_sheet(_short_head(part, on.room), on.room, 2)
    for room in SECOND_SHEET:
        blocks = [setups(part, shop, on.room, room), step_list(known.steps, on.room, room)]
        if (found := _laid(part, on, head, blocks, False)) is not None:
            second = found[0]
            break
    return [first, second]


def _laid(
    part: Part, on: Paper, head: Block, blocks: Sequence[Block], drawing: bool, holes: bool = True
) -> tuple[Group, Fraction] | None:
    """A page's items and its drawing's scale; None where they do not fit."""
    used = head[1] + sum(deep for _, deep in blocks) + _GAP * (len(blocks) + 1)
    spare = on.top - on.bottom - used
    if spare < (_LEAST_DRAWING if drawing else 0):
        return None
    items: list[Item] = list(move(head[0], on.left, on.top))
    y = on.top - head[1] - _GAP
    scale = Fraction(0)
    gap = _GAP
    if drawing:
        found = part_drawing(part, on.room, spare, holes=holes)
        if found is None:
            return None
        drawn, deep, scale = found
        more = min((spare - deep) / 2, 4.0)
        items += move(drawn, on.left, y - more)
        y -= deep + 2 * more + _GAP
        gap += min((spare - deep - 2 * more) / len(blocks), 4.0)
    for block_items, deep in blocks:
        items += move(block_items, on.left, y)
        y -= deep + gap
    return tuple(items), scale


# --- the head -----------------------------------------------------------------------------------------
def _head(part: Part, shop: Shop, width: float, blanks: Sequence[str], note: str) -> Block:
    """Name first, id small; quantity, hand, partner; section, alloy; where the blanks come from."""
    quantity = f"{part.quantity} off"
    hand = f"hand: {part.hand}" if part.hand else "hand: not given"
    right = max(text_width(quantity, 5.0), text_width(hand, FIGURE))
    name, letter = fitting(part.name, width - right - 6)
    items: list[Item] = [
        Label(0, 0, name, letter, "start", "top"),
        Label(width, 0, quantity, 5.0, "end", "top"),
        Label(width, -7.6, hand, FIGURE, "end", "top"),
    ]
    facts = [part.id, f"section {part.section.size}", part.alloy, f"length {both(part.length)}"]
    if part.section.fillet:
        facts.insert(2, f"fillet {exact(part.section.fillet)}")
    if part.mirror_of:
        facts.append(f"partner {part.mirror_of}")
    y = -10.4
    text, y = block(0, y, ", ".join(facts), width - right - 6)
    items += text
    y -= 0.6
    blank = part.length + 2 * shop.allowance
    words = f"{'one piece: ' if part.one_piece else ''}blank {both(blank)}"
    words += " from " + ", ".join(blanks) if blanks else ""
    if part.note:
        words += f"; {part.note}"
    lines = wrapped(words, width, SMALL)
    if len(lines) > 2:
        lines = [lines[0], shortened(" ".join(lines[1:]), width, SMALL)]
    for line in lines:
        items.append(Label(0, y, line, SMALL, "start", "top"))
        y -= PITCH * SMALL
    for sentence in [note, *warnings(part)]:
        if sentence:
            items += warning_sign(0, y - 2.9, 3.0)
            text, y = block(4.6, y, sentence, width - 4.6)
            items += text
    y -= 0.6
    items.append(Line(0, y, width, y, "outline"))
    return tuple(items), -y


def _short_head(part: Part, width: float) -> Block:
    """The head of a second sheet: whose it is."""
    name, letter = fitting(part.name, width - 40)
    facts = f"{part.id}, section {part.section.size}, {part.alloy}"
    low = -12.0 - SMALL
    named = (Label(0, 0, name, letter, "start", "top"), Label(0, -10.4, facts, SMALL, "start", "top"))
    return (*named, Line(0, low, width, low, "outline")), -low


def _marked_sheet(head: Block, width: float, number: int) -> Block:
    """The head with which of its two sheets it is, over the rule."""
    items, deep = head
    words = "sheet 1 of 2: marks, readings" if number == 1 else "sheet 2 of 2: saw, steps"
    if number == 2:
        return (*items, Label(width, -10.4, words, SMALL, "end", "top")), deep
    rule = items[-1]
    low = deep + 3.4
    return (*items[:-1], Label(width, 0.9 - low, words, SMALL, "end"), replace(rule, y1=-low, y2=-low)), low


# --- the marks ----------------------------------------------------------------------------------------
def _marks(part: Part, shop: Shop, steps: Sequence[Operation], width: float, room: Room, risk: str) -> Block:
    """The marks in order: on which face, from which datum, where the finished and the saw line lie."""
    rows: list[list[str]] = []
    witness = witness_line(part)
    ends: dict[tuple, list[int]] = {}
    order: list[tuple] = []
    for step in steps:
        if step.title.startswith("Strike the witness"):
            first = first_end(part)  # the end that is squared when the line is struck
            away = both(witness if first == 1 else part.length - witness) if witness is not None else ""
            order.append(("witness", "leg A and leg B, outer faces", away, "-", f"end {first}"))
        for mark in step.marks:
            if mark.name == "length":
                origin = "witness line" if witness is not None else f"end {3 - mark.end}"
                order.append((f"length, end {mark.end}", mark.face, mark.text, mark.saw_text, origin))
                continue
            name = f"{mark.name}, from the heel" if mark.across else mark.name
            key = (name, mark.face, mark.text, mark.saw_text, "")
            if key not in ends:
                ends[key] = []
                order.append(key)
            ends[key].append(mark.end)
    for number, key in enumerate(order, 1):
        name, face, text, saw, origin = key
        if not origin:
            at = ends[key]
            origin = f"end {at[0]}" if len(at) == 1 else "end 1, end 2"
            if "from the heel" in name:
                name = name.replace(", from the heel", "")
                origin = f"heel, at {origin.replace('end 1, end 2', 'both ends')}"
        if name == "witness":
            name = "witness line"
        rows.append([str(number), name, face.replace("leg A and leg B, outer faces", "both outer faces"), origin, text, saw])
    first = 8.0
    figure = max(text_width(text, room.figure) for row in rows for text in row[4:]) + 2.4
    rest = width - first - 2 * figure
    columns = [
        Column("", first, SMALL, "middle"),
        Column("mark", 0.40 * rest),
        Column("on", 0.33 * rest),
        Column("from", 0.27 * rest),
        Column("finished line", figure, room.figure),
        Column("saw line", figure, room.figure),
    ]
    title = "Marks"
    items, y = heading(0, 0, title, width)
    toe = part.section.toe_radius and part.tapers
    saw = f"{both(shop.allowance)} outside the line, sand to it" if shop.allowance else "along the line, on its waste side"
    words = (
        f"Saw {saw}; kerf {both(shop.kerf)}. A guess: {risk}. Fractions leave metal. "
        "The edge of the ink next to the part is the dimension."
    )
    if toe:
        words += " The toe is rounded inside: the run goes on the toe's edge, carried to the face that is up."
    text, low = block(text_width(title, FIGURE) + 6, 0, words, width - text_width(title, FIGURE) - 6)
    rule = min(y, low - 0.4)
    items = (items[0], Line(0, rule, width, rule, "narrow"), *text)
    drawn, y = table(0, rule, columns, rows, pad=room.pad)
    return (*items, *drawn), -y


def _hole_list(part: Part, width: float, pictured: bool) -> Block:
    """The holes in words, in columns, where the drawing has no room for their figures or the page none for the drawing."""
    items, low = ((), 0.0) if pictured else _no_drawing(width)
    if not part.holes:
        return items, low
    origin = "the witness line" if witness_line(part) is not None else "end 1"
    text, y = block(0, -low, f"Holes: x from {origin}, y from the heel, fastener.", width)
    drawn: list[Item] = [*items, *text]
    words = []
    for hole in sorted(part.holes, key=lambda hole: (hole.leg, hole.x, hole.y)):
        x = reading_from_datum(part, hole.x)[1].replace("towards end", "to end")
        words.append(f"{hole.leg}: {x}; {both(hole.y)}; {exact(hole.diameter)}{' flush' if hole.flush else ''}")
    columns = max(1, min(3, int(width / (max(text_width(text, SMALL) for text in words) + 3))))
    rows = -(-len(words) // columns)
    for i, text in enumerate(words):
        at = (i // rows) * width / columns
        drawn.append(Label(at, y - (i % rows) * 3.8, text, SMALL, "start", "top"))
    return tuple(drawn), -y + rows * 3.8


def _no_drawing(width: float) -> Block:
    text, low = block(0, 0, "There is more on this part than a card has room to draw: its tapered ends are on its templates.", width)
    return text, -low


# --- inspection ----------------------------------------------------------------------------------------
def _inspection(part: Part, width: float, allowed: Tolerance) -> Block:
    """Seven boxes to write in, what each should be and how far off it may be; the weight in an eighth."""
    title = "Readings"
    items, y = heading(0, 0, title, width)
    weight = Weight.of_part(part)
    drawn: list[Item] = list(items)
    words = f"tolerance: {allowed.words}, but the plans come first; {_alloys(weight)}"
    at = text_width(title, FIGURE) + 6
    drawn.append(Label(at, -0.6, shortened(words, width - at, SMALL), SMALL, "start", "top"))
    found = [(reading.name, reading.text.partition(" (")[0], reading.limits) for reading in readings(part, allowed)]
    if weight is not None:
        grams, _, within = weight.metric.partition(" g ")
        found.append((f"weight\n{weight.pounds:.3f} lb", f"{grams} g", within))
    each = width / len(found)
    names = [name.split("\n") if "\n" in name else wrapped(name, each - 1.0, SMALL) for name, _, _ in found]
    deep = max(len(lines) for lines in names)
    low = y - deep * 3.5 - 1.0
    for i, ((_, figure, limits), lines) in enumerate(zip(found, names, strict=True)):
        x = i * each
        for j, line in enumerate(lines):
            drawn.append(Label(x + 0.8, y - 0.3 - j * 3.5, line, SMALL, "start", "top"))
        text, letter = fitting(figure, each - 1.4, (FIGURE, SMALL))
        drawn.append(Label(x + 0.8, low, text, letter, "start", "top"))
        drawn.append(Label(x + 0.8, low - 4.9, limits, SMALL, "start", "top"))
        drawn.append(box(x + 0.4, low - 16.6, each - 1.2, 8.2))
    return tuple(drawn), 16.8 - low


def _alloys(weight: Weight | None) -> str:
    """Which other alloys the weight would betray."""
    if weight is None:
        return "no density of this alloy in the table"
    if not weight.rules_out:
        return "by weight no alloy can be told"
    return f"by weight {' and '.join(weight.rules_out)} would show"


def _sentence(part: Part, shop: Shop) -> str:
    """The card in one sentence."""
    tapers = "; ".join(
        f"leg {line.leg} tapered at end {line.end}, run {both(line.run, 64, 'down')}, "
        + (f"width left {both(line.width_left, 64, 'up')}" if line.width_left else "to the vertex")
        for line in taper_lines(part)
    )
    words = f"Card of {part.name} ({part.id}): {part.quantity} off, section {part.section.size}, {part.alloy}, length {both(part.length)}"
    if tapers:
        words += f"; {tapers}"
    if part.holes:
        words += f"; holes for fasteners {hole_words(part)}"
    if datum_lost(part, 1) or datum_lost(part, 2):
        words += "; read from the witness line"
    return words + "."


