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
from anglelib.geometry.layout import datum_lost, plan_line
from anglelib.geometry.rough_words import ROUGH
from anglelib.geometry.taper import taper_lines, warnings
from anglelib.geometry.work import Operation, operations
from anglelib.geometry.work_words import long_blank
from anglelib.job import Shop
from anglelib.lengths import apart, both, own, writing
from anglelib.paper.card_check import check_block
from anglelib.paper.card_holes import NOTHING, HolesSaid, hole_list, hole_sheets, holes_said, no_drawing
from anglelib.paper.card_marks import marks_block
from anglelib.paper.card_room import FIRST_SHEET, LARGE, ONE_SHEET, SECOND_SHEET, Room
from anglelib.paper.card_saw import AtTheSaw
from anglelib.paper.card_steps import step_list
from anglelib.paper.page import (
    FIGURE,
    PITCH,
    SMALL,
    Block,
    Page,
    Paper,
    block,
    fitting,
    shortened,
    warning_sign,
    wrapped,
)
from anglelib.paper.part_drawing import Drawings, hole_words
from anglelib.part import Part
from anglelib.tolerances import Limits

_GAP, _UNDER = 1.8, 0.9
_LEAST_DRAWING = 34.0
_SHEETS = ("marks, readings", "saw, steps", "holes")


def card_pages(
    part: Part, shop: Shop, on: Paper, *, blanks: Sequence[str] = (), limits: Limits | None = None, note: str = "", job: str = ""
) -> list[Page]:
    """The card of a part, written in the part's unit. ``blanks`` are the sticks its blanks come from; ``note`` is said below the head.

    ``limits`` are the job's (else those usual for the part's unit); ``job`` is its name, where parts of several are on the bench.
    """
    with writing(part.unit):
        return _card_pages(part, shop, on, blanks, limits or Limits.usual(part.unit), note, job)


def _card_pages(part: Part, shop: Shop, on: Paper, blanks: Sequence[str], limits: Limits, note: str, job: str) -> list[Page]:
    known = _Known(
        operations(part, shop), _head(part, shop, on.room, blanks, note, job), limits,
        check_block(part, limits, on.room), holes_said(part, limits, on.room), Drawings(part, on.room, limits), AtTheSaw(part, shop, on.room),
    )  # fmt: skip
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
    limits: Limits
    inspection: Block
    holes: HolesSaid
    drawings: Drawings
    saw: AtTheSaw


def _one(part: Part, shop: Shop, on: Paper, known: _Known) -> list[Group]:
    """The card on one sheet; nothing where its drawing finds no room there."""

    def built(room: Room) -> tuple[Group, Fraction] | None:
        marks = marks_block(part, shop, known.limits, known.steps, on.room, room)
        blocks = [marks, known.saw.block(room), step_list(part, shop, known.steps, on.room, room), known.inspection]
        return _laid(part, on, known, known.head, blocks, room.drawing, said=known.holes)

    airy, tight = (built(room) for room in ONE_SHEET[:2])
    if tight is not None:
        best = airy if airy is not None and airy[1] >= tight[1] else tight  # the larger drawing of the two
        large = built(LARGE) if best is airy else None
        return [large[0] if large is not None and large[1] >= best[1] else best[0]]
    made = (built(room) for room in ONE_SHEET[2:])
    return next(([found[0]] for found in made if found is not None), [])


def _two(part: Part, shop: Shop, on: Paper, known: _Known) -> list[Group]:
    """The card on two sheets: what is marked and measured, then what is done; more holes than the first has room for take sheets of their own."""
    first: Group = ()
    more: list[Group] = []
    head = _marked_sheet(known.head, on.room, 1, 2)
    said = known.holes
    for room in FIRST_SHEET:
        blocks = [marks_block(part, shop, known.limits, known.steps, on.room, room), known.inspection]
        blocks = [hole_list(part, known.limits, on.room, room.drawing), *blocks] if room.listed else blocks
        if (found := _laid(part, on, known, head, blocks, room.drawing, not room.listed, HolesSaid(said.brief, said.brief) if room.listed else said)) is not None:
            first = found[0]
            break
    else:
        more = hole_sheets(part, known.limits, on.room, on.top - on.bottom - _short_head(part, on.room)[1] - _GAP)
        room = FIRST_SHEET[-1]
        blocks = [marks_block(part, shop, known.limits, known.steps, on.room, room), known.inspection]
        blocks = [*no_drawing(part, on.room, "its holes are on sheet 3"), *blocks]
        found = _laid(part, on, known, _marked_sheet(known.head, on.room, 1, 2 + len(more)), blocks, False)
        first = found[0] if found is not None else ()
    second: Group = ()
    total = 2 + len(more)
    head = _marked_sheet(_short_head(part, on.room), on.room, 2, total)
    for room in SECOND_SHEET:
        blocks = [known.saw.block(room), step_list(part, shop, known.steps, on.room, room)]
        if (found := _laid(part, on, known, head, blocks, False)) is not None:
            second = found[0]
            break
    return [first, second, *(_of_holes(part, on, items, number, total) for number, items in enumerate(more, 3))]


def _of_holes(part: Part, on: Paper, items: Group, number: int, total: int) -> Group:
    """A sheet of holes under its head."""
    head, deep = _marked_sheet(_short_head(part, on.room), on.room, number, total)
    return (*move(head, on.left, on.top), *move(items, on.left, on.top - deep - _GAP))


def _laid(
    part: Part, on: Paper, known: _Known, head: Block, blocks: Sequence[Block], drawing: bool, holes: bool = True, said: HolesSaid = NOTHING
) -> tuple[Group, Fraction] | None:
    """A page's items and its drawing's scale; None where they do not fit."""
    under = _UNDER if said.brief[1] else _GAP
    used = head[1] + sum(deep for _, deep in blocks) + _GAP * (len(blocks) + 1)
    if said.brief[1]:  # it stands under the drawing like a caption
        blocks, used = [said.brief, *blocks], used + said.brief[1] + under
    spare = on.top - on.bottom - used
    if spare < (_LEAST_DRAWING if drawing else 0):
        return None
    items: list[Item] = list(move(head[0], on.left, on.top))
    y = on.top - head[1] - _GAP
    scale = Fraction(0)
    gap = _GAP
    if drawing:
        found = known.drawings.fitting(spare, holes)
        if found is None:
            return None
        drawn, deep, scale = found
        if said.brief[1]:
            blocks = [said.fitting(spare - deep), *blocks[1:]]
            spare -= blocks[0][1] - said.brief[1]
        more = min((spare - deep) / 2, 4.0)
        items += move(drawn, on.left, y - more)
        y -= deep + 2 * more + under
        gap += min((spare - deep - 2 * more) / len(blocks), 4.0)
    for block_items, deep in blocks:
        items += move(block_items, on.left, y)
        y -= deep + gap
    return tuple(items), scale


# --- the head -----------------------------------------------------------------------------------------
def _head(part: Part, shop: Shop, width: float, blanks: Sequence[str], note: str, job: str) -> Block:
    """Name first, id small; quantity, hand, partner; section, alloy; where the blanks come from."""
    quantity = f"{part.quantity} required"
    hand = f"hand: {part.hand}" if part.hand else "hand: the plans say" if part.handed else "neither hand"
    right = max(text_width(quantity, 5.0), text_width(hand, FIGURE))
    name, letter = fitting(part.name, width - right - 6)
    items: list[Item] = [
        Label(0, 0, name, letter, "start", "top"),
        Label(width, 0, quantity, 5.0, "end", "top"),
        Label(width, -7.6, hand, FIGURE, "end", "top"),
    ]
    facts = [part.id, *([f"of {job}"] if job else []), f"section {part.section.size}", part.alloy, f"length {both(part.length)}"]
    if part.section.fillet:
        facts.insert(3 if job else 2, f"fillet {own(part.section.fillet)}")
    if part.mirror_of:
        facts.append(f"partner {part.mirror_of}")
    if apart():
        facts.append(apart())
    y = -10.4
    text, y = block(0, y, ", ".join(facts), width - right - 6)
    items += text
    y -= 0.6
    blank = plan_line(part, shop)
    words = f"{'one piece: ' if part.one_piece else ''}blank {both(blank)}"
    if long_blank(part, shop):
        words += f", as a {ROUGH} {both(plan_line(part, shop) + shop.wander)},"
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
    facts = ", ".join([part.id, f"section {part.section.size}", part.alloy, *([apart()] if apart() else [])])
    low = -12.0 - SMALL
    named = (Label(0, 0, name, letter, "start", "top"), Label(0, -10.4, facts, SMALL, "start", "top"))
    return (*named, Line(0, low, width, low, "outline")), -low


def _marked_sheet(head: Block, width: float, number: int, total: int) -> Block:
    """The head with which of its sheets it is, over the rule."""
    items, deep = head
    words = f"sheet {number} of {total}: {_SHEETS[min(number, 3) - 1]}"
    if number > 1:
        return (*items, Label(width, -10.4, words, SMALL, "end", "top")), deep
    rule = items[-1]
    low = deep + 3.8
    return (*items[:-1], Label(width, 1.5 - low, words, SMALL, "end"), replace(rule, y1=-low, y2=-low)), low


def _sentence(part: Part, shop: Shop) -> str:
    """The card in one sentence."""
    tapers = "; ".join(
        f"leg {line.leg} tapered at end {line.end}, run {both(line.run)}, "
        + (f"width left {both(line.width_left)}" if line.width_left else "to the vertex")
        for line in taper_lines(part)
    )
    words = f"Card of {part.name} ({part.id}): {part.quantity} required, section {part.section.size}, {part.alloy}, length {both(part.length)}"
    if tapers:
        words += f"; {tapers}"
    for cope in part.copes:
        words += f"; leg {cope.leg} coped at end {cope.end}, {both(cope.length)} back, {both(cope.width_left)} left"
    if part.holes:
        words += f"; holes for fasteners {hole_words(part)}"
    if datum_lost(part, 1) or datum_lost(part, 2):
        words += "; marked from the witness line"
    return words + "."
