"""One card a part, one page: what is drawn, marked, sawn, checked, in the order in which it is done.

Numbers that are used at the saw are 3.5 mm high, notes 2.5 mm. A part with so much on it that the
page overflows gives up detail in a fixed order, the marks last; what is left out is said.

>>> from anglelib.job import Job, Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.section import Section
>>> bar = Part("A3", "Floor bar", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "17 1/4", hand="neither")
>>> card(bar, Shop(), A4, blanks=("S-04 (2)",)).title
'Card of Floor bar'
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.alloy import ALLOYS
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, Line, move
from anglelib.geometry.layout import datum_lost, witness_line
from anglelib.geometry.setup import Setup, square_cut
from anglelib.geometry.solid import solid_of
from anglelib.geometry.taper import TaperLine, taper_lines, warnings
from anglelib.geometry.work import Operation, operations
from anglelib.job import Shop
from anglelib.lengths import both, decimal, exact
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
from anglelib.paper.stance import pictured, plan_picture, square_picture, taper_picture
from anglelib.part import Part

_GAP = 1.8
_LEAST_DRAWING = 34.0
_POUND = 453.59237


@dataclass(frozen=True)
class _Room:
    """What a card gives up when its page is full: air, pictures from above, the steps' cautions, the drawing."""

    pad: float = 0.9
    plans: bool = True
    cautions: bool = True
    drawing: bool = True


_LADDER = (
    _Room(),
    _Room(0.6),
    _Room(0.6, plans=False),
    _Room(0.6, plans=False, drawing=False),
)


def card(
    part: Part, shop: Shop, on: Paper, *, blanks: Sequence[str] = (), allowed: Tolerance | None = None, note: str = ""
) -> Page:
    """The card of a part. ``blanks`` are the sticks its blanks come from; ``note`` is said below the head."""
    allowed = allowed or tolerance()
    made = [_compose(part, shop, on, blanks, allowed, note, room) for room in _LADDER[:2]]
    fitting_ones = [built for built in made if built is not None]
    if fitting_ones:
        items = max(fitting_ones, key=lambda built: built[1])[0]  # the first of those with the largest drawing
    else:
        items = next(
            (built[0] for room in _LADDER[2:] if (built := _compose(part, shop, on, blanks, allowed, note, room)) is not None),
            (),
        ) or _compose(part, shop, on, blanks, allowed, note, _LADDER[-1], must=True)[0]  # type: ignore[index]
    return Page(f"Card of {part.name}", _sentence(part, shop), items, f"Card {part.id} {part.name}")


def _compose(
    part: Part, shop: Shop, on: Paper, blanks: Sequence[str], allowed: Tolerance, note: str, room: _Room, must: bool = False
) -> tuple[Group, Fraction] | None:
    """The page's items and the drawing's scale; None where they do not fit."""
    steps = operations(part, shop)
    width = on.room
    head = _head(part, shop, width, blanks, note)
    parts: list[Block] = [
        _marks(part, shop, steps, width, room),
        _setups(part, shop, width, room),
        _steps(part, steps, width, room),
        _inspection(part, width, allowed),
    ]
    top = on.top
    used = head[1] + sum(deep for _, deep in parts) + _GAP * (len(parts) + 1)
    spare = top - on.bottom - used
    if room.drawing and spare < _LEAST_DRAWING and not must:
        return None
    if not room.drawing and spare < 0 and not must:
        return None
    items: list[Item] = list(move(head[0], on.left, top))
    y = top - head[1] - _GAP
    scale = Fraction(0)
    if room.drawing:
        drawn, deep, scale = part_drawing(part, width, spare)
        if deep > spare and not must:
            return None
        more = min((spare - deep) / 2, 4.0)
        items += move(drawn, on.left, y - more)
        y -= deep + 2 * more + _GAP
        gap = _GAP + min((spare - deep - 2 * more) / len(parts), 4.0)
    else:
        gap = _GAP
    for block_items, deep in parts:
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
    if part.one_piece:
        facts.append("one piece")
    y = -10.4
    items.append(Label(0, y, shortened(", ".join(facts), width - right - 6, SMALL), SMALL, "start", "top"))
    y -= 4.6
    blank = part.length + 2 * shop.allowance
    words = f"blank {both(blank)}"
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


# --- the marks ----------------------------------------------------------------------------------------
def _marks(part: Part, shop: Shop, steps: Sequence[Operation], width: float, room: _Room) -> Block:
    """The marks in order: on which face, from which datum, where the finished and the saw line lie."""
    rows: list[list[str]] = []
    witness = witness_line(part)
    ends: dict[tuple, list[int]] = {}
    order: list[tuple] = []
    for step in steps:
        if step.title.startswith("Strike the witness"):
            rows_key = ("witness", "leg A and leg B, outer faces", both(witness or 0), "-", "end 1")
            order.append(rows_key)
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
    first = 6.0
    figure = max(text_width(text, FIGURE) for row in rows for text in row[4:]) + 2.4
    rest = width - first - 2 * figure
    columns = [
        Column("", first, SMALL, "middle"),
        Column("mark", 0.40 * rest),
        Column("on", 0.33 * rest),
        Column("from", 0.27 * rest),
        Column("finished line", figure, FIGURE),
        Column("saw line", figure, FIGURE),
    ]
    title = "Marks"
    items, y = heading(0, 0, title, width)
    toe = part.section.toe_radius and part.tapers
    words = (
        f"The saw runs outside the line: {both(shop.allowance)} to sand, then the kerf {both(shop.kerf)}. Fractions are rounded so "
        "that metal is left. The edge of the ink next to the part is the dimension."
    )
    if toe:
        words += " The toe is rounded inside: the run goes on the toe's edge, carried from the outer face."
    text, low = block(text_width(title, FIGURE) + 6, 0, words, width - text_width(title, FIGURE) - 6)
    rule = min(y, low - 0.4)
    items = (items[0], Line(0, rule, width, rule, "narrow"), *text)
    drawn, y = table(0, rule, columns, rows, pad=room.pad)
    return (*items, *drawn), -y


# --- the saw ------------------------------------------------------------------------------------------
def _tapers(part: Part) -> list[tuple[Setup, TaperLine, list[TaperLine]]]:
    from anglelib.geometry.setup import taper_cut

    return pictured([(taper_cut(line), line) for line in taper_lines(part)])


def _setups(part: Part, shop: Shop, width: float, room: _Room) -> Block:
    """How the angle sits, a picture for each cut, and what the saw is set to."""
    items, y = heading(0, 0, "How the angle sits at the saw", width)
    drawn: list[Item] = list(items)
    square = square_cut(part.section)
    kinds = _tapers(part)
    above = room.plans and len(kinds) <= 1
    x = 70.0
    each = (width - x) / max(len(kinds), 1)
    captions = [(0.0, x - 4, f"square cuts: {square.words}")]
    captions += [(x + i * each, each - 2, f"{_places(served)}: {setup.words}") for i, (setup, _, served) in enumerate(kinds)]
    lows = []
    for at, wide, words in captions:
        text, low = block(at, y, words, wide)
        drawn += text
        lows.append(low)
    floor = min(lows) - 22.8
    drawn += move(square_picture(square, part.section), 24, floor)
    for i, (setup, line, _) in enumerate(kinds):
        at = x + i * each
        drawn += move(taper_picture(setup, line), at + (19 if above else min(each / 2 - 8, 19)), floor)
        if above:
            drawn += move(plan_picture(setup, line, shop, width - at - 54, 30), at + 54, floor - 6)
    if not room.plans and len(kinds) == 1:  # in the place of the picture from above
        setup, line, _ = kinds[0]
        return (*drawn, *_settings(line, setup, x + 56, floor + 16, width, rows=True)), 7.6 - floor
    y = floor - 7.6
    for setup, line, served in kinds:
        if len(kinds) > 1:
            drawn.append(Label(0, y, _places(served), SMALL, "start", "top"))
        drawn += _settings(line, setup, x if len(kinds) > 1 else 0.0, y, width)
        y -= 6.2
    return tuple(drawn), -y - 0.6


def _places(lines: Sequence[TaperLine]) -> str:
    ends = " and ".join(str(line.end) for line in lines)
    return f"taper, leg {lines[0].leg}, end{'s' if len(lines) > 1 else ''} {ends}"


def _settings(line: TaperLine, setup: Setup, x: float, y: float, width: float, rows: bool = False) -> Group:
    """What the saw is set to for a taper, in one row or in rows: the words small, the numbers large."""
    numbers = [
        ("from the heel", f"{line.angle:.2f}°"),
        ("from square", f"{line.from_square:.2f}°"),
        ("fall per foot", both(line.taper_per_foot)),
        ("5 in. sine bar", decimal(line.sine_bar(5), 3)),
    ]
    wide = sum(text_width(word, SMALL) + text_width(number, FIGURE) + 1.4 for word, number in numbers)
    gap = min((width - x - wide) / max(len(numbers) - 1, 1), 12.0)
    items: list[Item] = []
    if rows:
        for i, (word, number) in enumerate(numbers):
            items.append(Label(x, y - 0.8 - 5.6 * i, word, SMALL, "start", "top"))
            items.append(Label(x + 26, y - 5.6 * i, number, FIGURE, "start", "top"))
        return tuple(items)
    for word, number in numbers:
        items.append(Label(x, y - 0.8, word, SMALL, "start", "top"))
        x += text_width(word, SMALL) + 1.4
        items.append(Label(x, y, number, FIGURE, "start", "top"))
        x += text_width(number, FIGURE) + gap
    return tuple(items)


# --- the steps ----------------------------------------------------------------------------------------
def _steps(part: Part, steps: Sequence[Operation], width: float, room: _Room) -> Block:
    """The steps in order, a line each, with its caution."""
    items, y = heading(0, 0, "Steps", width)
    drawn: list[Item] = list(items)
    sign = text_width("Steps", FIGURE) + 6
    words = "At saw, sander, drill: eyes and ears covered, no gloves, sleeves, rings. Fines away from sparks."
    drawn += warning_sign(sign, -3.5, 3.2)
    drawn.append(Label(sign + 5, -0.6, shortened(words, width - sign - 5, SMALL), SMALL, "start", "top"))
    lines = _lines(steps)
    watch = max([text_width(caution, SMALL) for _, caution in lines]) + 7 if room.cautions else 0.0
    watch = min(watch, 0.42 * width)
    do = width - watch
    pitch = 3.7
    for number, (brief, caution) in enumerate(lines, 1):
        left = wrapped(brief, do - 9, SMALL)
        right = wrapped(caution, watch - 6, SMALL) if room.cautions else []
        drawn.append(Label(3, y - 0.4, str(number), SMALL, "middle", "top"))
        drawn += [Label(7, y - 0.4 - i * pitch, line, SMALL, "start", "top") for i, line in enumerate(left)]
        if right:
            drawn += warning_sign(do, y - 3.0, 2.7)
            drawn += [Label(do + 4.4, y - 0.4 - i * pitch, line, SMALL, "start", "top") for i, line in enumerate(right)]
        y -= max(len(left), len(right), 1) * pitch + 0.35
    return tuple(drawn), -y


def _lines(steps: Sequence[Operation]) -> list[tuple[str, str]]:
    """Each step in a line with its caution; a second taper like the first is one line."""
    lines: list[tuple[str, str]] = []
    done: dict[tuple, int] = {}
    for step in steps:
        line = step.line
        if line is not None:
            first = done.setdefault((line.leg, line.width_left, line.slope), line.end)
            if first != line.end:
                if step.marks:  # its marking, sawing, sanding and blunting follow each other
                    lines.append((f"The taper of leg {line.leg} at end {line.end}: all as at end {first}.", ""))
                elif step.setup is not None:
                    lines[-1] = (lines[-1][0], step.watch)
                continue
        if step.title.startswith("Square") and lines and lines[-1][0].startswith("Cut to length"):
            # the end just cut is squared: one line, and the graver caution of the two
            lines[-1] = (lines[-1][0].replace(" outside the line.", " outside the line; square it."), lines[-1][1])
            continue
        lines.append((step.brief or f"{step.title}.", step.watch))
    return lines


# --- inspection ---------------------------------------------------------------------------------------
def _inspection(part: Part, width: float, allowed: Tolerance) -> Block:
    """Seven boxes to write in, what each should be and how far off it may be; the weight."""
    title = "Readings"
    items, y = heading(0, 0, title, width)
    words = f"tolerance: {allowed.words}, unless the plans say otherwise; {_weight(part)}"
    drawn: list[Item] = list(items)
    drawn.append(Label(text_width(title, FIGURE) + 6, -0.6, words, SMALL, "start", "top"))
    found = readings(part, allowed)
    each = width / max(len(found), 1)
    names = [wrapped(reading.name, each - 1.6, SMALL) for reading in found]
    deep = max(len(lines) for lines in names)
    low = y - deep * 3.5 - 1.0
    for i, (reading, lines) in enumerate(zip(found, names, strict=True)):
        x = i * each
        for j, line in enumerate(lines):
            drawn.append(Label(x + 0.8, y - 0.3 - j * 3.5, line, SMALL, "start", "top"))
        head, _, tail = reading.text.partition(" (")
        drawn.append(Label(x + 0.8, low, head, FIGURE, "start", "top"))
        drawn.append(Label(x + 0.8, low - 4.9, reading.limits, SMALL, "start", "top"))
        drawn.append(box(x + 0.4, low - 16.6, each - 1.2, 8.2))
    return tuple(drawn), 16.8 - low


def _weight(part: Part) -> str:
    if part.alloy[:4] not in ALLOYS:
        return "weight: not in the table"
    pounds = solid_of(part).weight(part.alloy)
    return f"weight {pounds:.3f} lb ({pounds * _POUND:.0f} g)"


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


