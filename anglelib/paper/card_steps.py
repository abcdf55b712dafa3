"""The steps on a card: in order, each in a line with its caution."""

from __future__ import annotations

from collections.abc import Sequence

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Item, Label
from anglelib.geometry.work import Operation
from anglelib.paper.card_room import Room
from anglelib.paper.page import FIGURE, SMALL, Block, heading, shortened, warning_sign, wrapped


def step_list(steps: Sequence[Operation], width: float, room: Room) -> Block:
    """The steps in order, a line each, with its caution."""
    items, y = heading(0, 0, "Steps", width)
    drawn: list[Item] = list(items)
    sign = text_width("Steps", FIGURE) + 6
    words = "At saw, sander, drill: eyes and ears covered, no gloves, sleeves, rings. Fines away from sparks."
    drawn += warning_sign(sign, -3.5, 3.2)
    drawn.append(Label(sign + 5, -0.6, shortened(words, width - sign - 5, SMALL), SMALL, "start", "top"))
    if room.steps == "columns":
        return _step_columns(drawn, steps, y, width)
    lines, letter = _lines(steps, room.brief), room.letter
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


def _step_columns(drawn: list[Item], steps: Sequence[Operation], y: float, width: float) -> Block:
    """The steps by their titles in two columns; of the cautions only the sign: their words are on the cover."""
    lines = [(step.title, step.watch) for step in steps]
    half = (len(lines) + 1) // 2
    lows = []
    for start, x in ((0, 0.0), (half, width / 2)):
        low = y
        for number, (brief, caution) in enumerate(lines[start : start + half], start + 1):
            drawn.append(Label(x + 3, low - 0.4, str(number), SMALL, "middle", "top"))
            text = wrapped(brief, width / 2 - 13, SMALL)
            drawn += [Label(x + 7, low - 0.4 - i * 3.7, line, SMALL, "start", "top") for i, line in enumerate(text)]
            if caution:
                drawn += warning_sign(x + width / 2 - 5, low - 3.0, 2.7)
            low -= max(len(text), 1) * 3.7 + 0.35
        lows.append(low)
    return tuple(drawn), -min(lows)


def _lines(steps: Sequence[Operation], brief: bool) -> list[tuple[str, str]]:
    """Each step in a line with its caution; a second taper like the first is one line, or any second taper."""
    lines: list[tuple[str, str]] = []
    done: dict[tuple, tuple[str, int]] = {}
    for step in steps:
        line = step.line
        if line is not None:
            kind = () if brief else (line.leg, line.width_left, line.slope)
            first = done.setdefault(kind, (line.leg, line.end))
            if first != (line.leg, line.end):
                if step.marks:  # its marking, sawing, sanding and blunting follow each other
                    like = f"leg {first[0]} at end {first[1]}" if brief else f"end {first[1]}"
                    lines.append((f"The taper of leg {line.leg} at end {line.end}: all as at {like}.", ""))
                elif step.setup is not None:
                    lines[-1] = (lines[-1][0], step.watch)
                elif "Blunt" in step.title and brief:
                    lines[-1] = (lines[-1][0], f"{lines[-1][1]} Blunt its edge." if lines[-1][1] else step.watch)
                continue
        if step.title.startswith("Square") and lines and " to length, " in lines[-1][0]:
            # the end just cut is squared: one line, and the graver caution of the two
            datum = ": now the datum" if step.brief.endswith("now the datum.") else ""
            cut = lines[-1][0].removesuffix(" pieces.")
            lines[-1] = (f"{cut}; square it{datum}.", lines[-1][1])
            continue
        lines.append((step.brief or f"{step.title}.", step.watch))
    return lines
