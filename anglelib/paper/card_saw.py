"""The saw on a card: how the angle sits for each cut, in pictures, and what the saw is set to."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, move
from anglelib.geometry.setup import Setup, square_cut, taper_cut
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.geometry.throat import toe_first
from anglelib.job import Shop
from anglelib.lengths import MM, both, fine, head, show, unit_in_head, unit_written
from anglelib.paper.card_room import Room
from anglelib.paper.page import FIGURE, SMALL, Block, Column, block, clearest, heading, table
from anglelib.paper.stance import pictured, plan_picture, square_picture, taper_picture
from anglelib.part import Part


def _tapers(part: Part) -> list[tuple[Setup, TaperLine, list[TaperLine]]]:
    return pictured([(taper_cut(line), line) for line in taper_lines(part)])


class AtTheSaw:
    """How a part's angle sits at the saw, its pictures drawn once: a card is laid out again and again until all has room on it."""

    def __init__(self, part: Part, shop: Shop, width: float) -> None:
        self.part, self.shop, self.width = part, shop, width
        self._made: dict[tuple[bool, bool], tuple[Group, float]] = {}

    @cached_property
    def _kinds(self) -> list[tuple[Setup, TaperLine, list[TaperLine]]]:
        return _tapers(self.part)

    def block(self, room: Room) -> Block:
        """A picture for each way of cutting, and what the saw is set to."""
        title = head("How the angle sits at the saw")
        with unit_in_head():
            wanted = room.pictures, room.plans and len(self._kinds) == 1
            if wanted not in self._made:
                self._made[wanted] = self._pictured(title, *wanted)
            return self._with_settings(*self._made[wanted], room)

    def _pictured(self, title: str, pictures: bool, above: bool) -> tuple[Group, float]:
        """The title, what the pictures are of, and they themselves over their floor, where there is room for them; how far down that goes."""
        items, y = heading(0, 0, title, self.width)
        drawn: list[Item] = list(items)
        square = square_cut(self.part.section)
        ways = _ways(self._kinds)
        x = 70.0
        each = (self.width - x) / max(len(ways), 1)
        captions = [(0.0, x - 4, f"square cuts: {square.words}")]
        captions += [(x + i * each, each - 2, f"{places}: {setup.words}") for i, (setup, _, places) in enumerate(ways)]
        lows = []
        for at, wide, words in captions:
            text, low = block(at, y, words, wide)
            drawn += text
            lows.append(low)
        y = min(lows)
        if not pictures:
            return tuple(drawn), y
        floor = y - 23.2
        drawn += move(square_picture(square, self.part.section), 24, floor)
        for i, (setup, line, _) in enumerate(ways):
            seen = move(taper_picture(setup, line), x + i * each + 19, floor)
            drawn += seen
            if above:
                drawn += clearest(seen, (self._from_above(setup, line, at, floor) for at in (x + 57, x + 60, x + 64)))
        return tuple(drawn), floor

    def _from_above(self, setup: Setup, line: TaperLine, at: float, floor: float) -> Group:
        return move(plan_picture(setup, line, self.shop, self.width - at, 30, toe_first(self.part, line, self.shop)), at, floor - 6)

    def _with_settings(self, drawn: Group, low: float, room: Room) -> Block:
        kinds, width, y = self._kinds, self.width, low
        if room.pictures:
            y = low - 7.6
            if len(kinds) == 1 and not room.plans:  # in the place of the picture from above
                return (*drawn, *_settings_list(kinds[0][1], 70.0 + 56, low + 18)), -y
        if len(kinds) == 1:
            drawn += _settings_row(kinds[0][1], y, width)
            y -= 6.2
        elif kinds:
            rows, y = _settings_table(kinds, y - 0.6, width, room)
            drawn += rows
            y -= 1.0
        return drawn, -y - 0.6


def _ways(kinds: Sequence[tuple[Setup, TaperLine, list[TaperLine]]]) -> list[tuple[Setup, TaperLine, str]]:
    """The setups that are drawn: one of each stance and leg, with the places that it serves."""
    found: dict[tuple[str, str], tuple[Setup, TaperLine, list[TaperLine]]] = {}
    for setup, line, served in kinds:
        # with equal legs the picture of one leg serves the other
        key = (setup.stance, "" if line.section.equal_legs and len(kinds) > 2 else line.leg)
        if key in found:
            found[key][2].extend(served)
        else:
            found[key] = (setup, line, list(served))
    ways = list(found.values())[:2]
    return [(setup, line, _places(served)) for setup, line, served in ways]


def _places(lines: Sequence[TaperLine]) -> str:
    """Where tapers are: "taper, leg A, ends 1 and 2"."""
    legs: dict[str, list[str]] = {}
    for line in lines:
        legs.setdefault(line.leg, []).append(str(line.end))
    said = [f"leg {leg}, end{'s' if len(ends) > 1 else ''} {' and '.join(ends)}" for leg, ends in legs.items()]
    return "taper, " + "; ".join(said)


def _settings(line: TaperLine) -> list[tuple[str, str]]:
    """What the saw is set to for a taper."""
    angles = [("from the heel", f"{line.angle:.2f}°"), ("from square", f"{line.from_square:.2f}°")]
    if unit_written() == "mm":
        return [*angles, ("fall per 100 mm", fine(line.fall_over(100 * MM))), ("100 mm sine bar", fine(line.sine_bar(100 * MM), 4))]
    return [*angles, ("fall per foot", both(line.taper_per_foot)), ("5 in. sine bar", fine(line.sine_bar(5)))]


def _settings_row(line: TaperLine, y: float, width: float) -> Group:
    """The settings in one row: the words small, the numbers large."""
    numbers = _settings(line)
    wide = sum(text_width(word, SMALL) + text_width(number, FIGURE) + 1.4 for word, number in numbers)
    gap = min((width - wide) / (len(numbers) - 1), 12.0)
    items: list[Item] = []
    x = 0.0
    for word, number in numbers:
        items.append(Label(x, y - 0.8, word, SMALL, "start", "top"))
        x += text_width(word, SMALL) + 1.4
        items.append(Label(x, y, number, FIGURE, "start", "top"))
        x += text_width(number, FIGURE) + gap
    return tuple(items)


def _settings_list(line: TaperLine, x: float, y: float) -> Group:
    """The settings below one another."""
    items: list[Item] = []
    beside = max(26.0, *(text_width(word, SMALL) + 2 for word, _ in _settings(line)))
    for i, (word, number) in enumerate(_settings(line)):
        items.append(Label(x, y - 0.8 - 5.6 * i, word, SMALL, "start", "top"))
        items.append(Label(x + beside, y - 5.6 * i, number, FIGURE, "start", "top"))
    return tuple(items)


def _settings_table(
    kinds: Sequence[tuple[Setup, TaperLine, list[TaperLine]]], y: float, width: float, room: Room
) -> tuple[Group, float]:
    """The settings of several tapers, with what the guide clears and the block."""
    rows = []
    for setup, line, served in kinds:
        numbers = [number for _, number in _settings(line)]
        block_high = f", block {show(setup.block.height, 64, 'up')}" if setup.block else ""
        rows.append([_places(served), *numbers, show(setup.height, 64, "up") + block_high])
    heads = ["saw set to", *(word for word, _ in _settings(kinds[0][1])), "guide clears"]
    fixed = [max(text_width(row[i], FIGURE) for row in rows) + 2.4 for i in range(1, 5)]
    fixed = [max(wide, text_width(head, SMALL) / 2 + 4) for wide, head in zip(fixed, heads[1:], strict=False)]
    last = max(text_width(row[5], SMALL) for row in rows) + 2.4
    last = max(last, text_width("guide clears", SMALL) + 2.4)
    columns = [Column(heads[0], width - sum(fixed) - last)]
    columns += [Column(head, wide, FIGURE) for head, wide in zip(heads[1:5], fixed, strict=True)]
    columns.append(Column(heads[5], last))
    return table(0, y, columns, rows, pad=0.6)
