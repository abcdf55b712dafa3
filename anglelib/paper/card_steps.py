"""The steps on a card: in order, each in a line with its caution."""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label
from anglelib.geometry import work
from anglelib.geometry.work import Operation, fixes_datum
from anglelib.geometry.work_words import outside, plan_rough, said
from anglelib.job import Shop
from anglelib.paper.card_room import Room
from anglelib.paper.page import FIGURE, SMALL, Block, heading, shortened, warning_sign, wrapped
from anglelib.part import Part


def step_list(part: Part, shop: Shop, steps: Sequence[Operation], width: float, room: Room) -> Block:
    """The steps in order, a line each, with its caution."""
    items, y = heading(0, 0, "Steps", width)
    drawn: list[Item] = list(items)
    sign = text_width("Steps", FIGURE) + 6
    words = "At saw, sander, drill: eyes and ears covered, no gloves, sleeves, rings. Fines away from sparks."
    drawn += warning_sign(sign, -3.5, 3.2)
    drawn.append(Label(sign + 5, -0.6, shortened(words, width - sign - 5, SMALL), SMALL, "start", "top"))
    if room.steps == "columns":
        return _step_columns(drawn, part, shop, steps, y, width)
    lines, letter = step_lines(part, shop, steps, room.brief), room.letter
    sign, pitch = 1.08 * letter, 1.48 * letter
    watch = min(max(text_width(caution, letter) for _, caution in lines) + 2.8 * letter, 0.42 * width)
    do = width - watch
    for number, (brief, caution) in enumerate(lines, 1):
        left, right = wrapped(brief, do - 3.6 * letter, letter), wrapped(caution, watch - 2.4 * letter, letter)
        drawn.append(Label(1.2 * letter, y - 0.4, str(number), letter, "middle", "top"))
        drawn += [Label(2.8 * letter, y - 0.4 - i * pitch, line, letter, "start", "top") for i, line in enumerate(left)]
        if right:
            drawn += warning_sign(do, y - 1.2 * letter, sign)
            drawn += [Label(do + 1.76 * letter, y - 0.4 - i * pitch, line, letter, "start", "top") for i, line in enumerate(right)]
        y -= max(len(left), len(right), 1) * pitch + 0.14 * letter
    return tuple(drawn), -y


def _step_columns(drawn: list[Item], part: Part, shop: Shop, steps: Sequence[Operation], y: float, width: float) -> Block:
    """The steps by their titles in two columns; of the cautions only the sign: their words are on the cover."""
    told = [said(step, part, shop) for step in steps]
    half = (len(told) + 1) // 2
    lows = []
    for start, x in ((0, 0.0), (half, width / 2)):
        low = y
        for number, words in enumerate(told[start : start + half], start + 1):
            drawn.append(Label(x + 3, low - 0.4, str(number), SMALL, "middle", "top"))
            text = wrapped(words.title, width / 2 - 13, SMALL)
            drawn += [Label(x + 7, low - 0.4 - i * 3.7, line, SMALL, "start", "top") for i, line in enumerate(text)]
            if words.watch:
                drawn += warning_sign(x + width / 2 - 5, low - 3.0, 2.7)
            low -= max(len(text), 1) * 3.7 + 0.35
        lows.append(low)
    return tuple(drawn), -min(lows)


def grouped(steps: Sequence[Operation], brief: bool) -> list[tuple[str, tuple[Operation, ...]]]:
    """The steps as the lines of a card: (kind of line, its steps).

    "step": one as it is; "cut-and-square": the cut to length with the squaring of the end just cut; "again": a taper that
    is made like an earlier one (``brief``: any second taper), all its steps in one line after the first of them.
    """
    found: list[tuple[str, tuple[Operation, ...]]] = []
    first: dict[tuple, Operation] = {}
    for step in steps:
        line = step.line
        if line is not None:
            kind = () if brief else (line.leg, line.width_left, line.slope, step.by_plans)
            one = first.setdefault(kind, step)
            assert one.line is not None
            if (one.leg, one.end) != (step.leg, step.end):
                again = next((i for i, (what, of) in enumerate(found) if what == "again" and (of[1].leg, of[1].end) == (step.leg, step.end)), None)
                if again is None:
                    found.append(("again", (one, step)))
                else:
                    found[again] = ("again", (*found[again][1], step))
                continue
        if step.kind == work.SQUARE and found and found[-1][1][-1].kind == work.LENGTH:
            found[-1] = ("cut-and-square", (*found[-1][1], step))
            continue
        found.append(("step", (step,)))
    return found


def step_lines(part: Part, shop: Shop, steps: Sequence[Operation], brief: bool) -> list[tuple[str, str]]:
    """Each line of the card: what is done, and its caution."""
    lines: list[tuple[str, str]] = []
    for what, of in grouped(steps, brief):
        if what == "step":
            words = said(of[0], part, shop)
            lines.append((words.brief or f"{words.title}.", words.watch))
        elif what == "cut-and-square":
            lines.append(_cut_and_square(part, shop, *of))
        else:
            lines.append(_again(part, shop, of, brief))
    return lines


def _cut_and_square(part: Part, shop: Shop, cut: Operation, square: Operation) -> tuple[str, str]:
    """The end just cut is squared: one line, and the graver caution of the two."""
    datum = ": now the datum" if fixes_datum(part, square) else ""
    return f"Cut end {cut.end} to length, {outside(shop, short=True)}{plan_rough(part, shop)}; alloy on both; square it{datum}.", said(cut, part, shop).watch


def _again(part: Part, shop: Shop, of: Sequence[Operation], brief: bool) -> tuple[str, str]:
    one, second = of[0], of[1]
    like = f"leg {one.leg} at end {one.end}" if brief else f"end {one.end}"
    saw = next((step for step in of[1:] if step.kind == work.SAW), None)
    edge = next((step for step in of[1:] if step.kind == work.EDGE), None)
    watch = said(saw, part, shop).watch if saw is not None else ""
    if edge is not None and brief:
        watch = f"{watch} {'Blunt' if edge.by_plans else 'Break'} its edge." if watch else said(edge, part, shop).watch
    return f"The taper of leg {second.leg} at end {second.end}: all as at {like}.", watch

