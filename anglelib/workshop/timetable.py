"""The timetable on paper: the day, the rotation drawn on the clock, the queue at each machine, who is where.

Drawn as a drafter would: a row a station and a row a learner, boxes at the machines, a thin line at the
hand bench, the break between two chain lines.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> from anglelib.workshop.day import day_of
>>> from anglelib.workshop.rotation import rotation
>>> wanted = ClassWanted(2)
>>> [page.title for page in timetable_pages(day_of(wanted, rotation(wanted)))]
['Timetable of the day', 'The rotation', 'Who is where']
"""

from __future__ import annotations

import math

from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, Line, move, polygon
from anglelib.paper.page import FIGURE, SMALL, Block, Column, Page, Paper, block, flow, heading, table, warning_sign
from anglelib.workshop.class_plan import STATION_WORDS, clock
from anglelib.workshop.day import Day, watch
from anglelib.workshop.handouts import marked
from anglelib.workshop.rotation import MACHINES, STEPS, Visit

NAMES = 24.0
"""Room for a row's name [mm]."""
ROW, BETWEEN = 5.2, 1.5
"""From row to row at most, and between the boxes of two rows [mm]."""
HEAD = 40.0
"""What a page of the drawing takes besides its rows [mm]."""
MOST_IN_BAND = 110
"""The most minutes drawn side by side."""
TICK = 10
"""Minutes from tick to tick."""
LETTERS = {"saw": "S", "disc": "D", "wheel": "W", "bench": "B"}


def timetable_pages(day: Day) -> list[Page]:
    """The day's table, the drawing, the table of visits."""
    on = day.wanted.on
    pages = flow("Timetable of the day", under(day), _day_blocks(day, on.room), on, f"Timetable. {day.sentence} {day.proof}")
    drawn = [_band(day, low, high, on) for low, high in bands(day)]
    sentence = f"Who is at which station, minute by minute, from {day.at(0)} to {day.at(day.rotation.length)}. {day.proof}"
    first, low = block(0, 0, KEY, on.room)
    items, deep = drawn[0]
    drawn[0] = ((*first, *move(items, 0, low - 2)), deep - low + 2)  # the key is never alone on a page
    pages += flow("The rotation", under(day), drawn, on, sentence)
    return pages + flow("Who is where", under(day), _where_blocks(day, on.room), on, "Each learner's visits with the times at which they begin.")


KEY = (
    "S saw, D disc sander, W finishing wheel, B hand bench; figures are learners. A box is a machine that runs, a thin line the hand bench. "
    "Where a row is empty the learner is at the screen or at the worksheet."
)


def under(day: Day) -> str:
    """For how many, with which machines."""
    wanted = day.wanted
    count = ", ".join(f"{wanted.count(name)} x {name}" for name in MACHINES)
    return f"{wanted.learners} learners; {count}; {wanted.bench_places} places at the hand bench; competent at the machines: {wanted.competent}"


def bands(day: Day) -> list[tuple[int, int]]:
    """The stretches of the rotation that are drawn one under another [min], in whole ticks."""
    ticks = math.ceil(day.rotation.length / TICK)
    number = math.ceil(ticks * TICK / MOST_IN_BAND)
    each = math.ceil(ticks / number) * TICK
    return [(at, min(at + each, ticks * TICK)) for at in range(0, ticks * TICK, each)]


# --- the day ------------------------------------------------------------------------------------------------
def _day_blocks(day: Day, width: float) -> list[Block]:
    rows = [(f"{clock(b.start)} to {clock(b.end)}", str(b.end - b.start), b.words, b.how) for b in day.blocks]
    columns = [Column("", 31, SMALL), Column("min", 9, SMALL, "end"), Column("", 59, SMALL), Column("with", width - 99, SMALL)]
    items, y = table(0, 0, columns, rows, pad=0.65)
    blocks: list[Block] = [(items, -y)]
    text, low = block(0, 0, day.sentence, width, FIGURE)
    if not day.fits:
        text, low = block(6, 0, day.sentence, width - 6, FIGURE)
        text = (*warning_sign(0, -3.6, 3.8), *text)
    blocks.append((text, -low))
    text, low = block(0, 0, f"{day.proof} {_stations(day)}", width)
    blocks.append((text, -low))
    blocks.append(_list("At the running machines", [watch(day.wanted)], width))
    blocks.append(_list("The others meanwhile", [
        "Between two stations: lesson 08 at the screen, then 09, then 10; answers stay in the learner's own folder. Without a screen: their handouts.",
        "A gap of a few minutes is for the worksheet. While the neighbour is at the saw with your piece, stand by with your hands off it.",
        "Marking, holes, edges and check prints are at the hand bench; the piece is in a vise with soft jaws there, never carried past a running blade.",
    ], width))  # fmt: skip
    late = [f"{n}. {late.words} (about {late.minutes} min)" for n, late in enumerate(day.late, 1)]
    blocks.append(_list("When it gets late, give up in this order", late, width))
    return blocks


def _stations(day: Day) -> str:
    minutes = ", ".join(f"{STATION_WORDS[name]} {number} min" for name, number in day.wanted.minutes.items())
    return f"Of each learner: {minutes}; common practice, set them to your own count with --minutes."


def _list(title: str, rows: list[str], width: float) -> Block:
    items, y = heading(0, 0, title, width)
    drawn = list(items)
    for row in rows:
        text, y = marked(0, y, row, width, SMALL)
        drawn += text
    return tuple(drawn), -y


# --- the drawing --------------------------------------------------------------------------------------------
def _band(day: Day, low: int, high: int, on: Paper) -> Block:
    """The rotation from minute to minute: the clock on top, stations, learners; no higher than a page."""
    wanted, made = day.wanted, day.rotation
    step = min(ROW, (on.top - on.bottom - HEAD) / (wanted.learners + sum(wanted.count(station) for station in MACHINES)))
    tall = step - BETWEEN
    unit = (on.room - NAMES - 3) / (high - low)

    def at(minute: int) -> float:
        return NAMES + (min(max(minute, low), high) - low) * unit

    items: list[Item] = [Line(NAMES, -5.4, at(high), -5.4, "narrow")]
    for minute in range(low, high + 1, TICK):
        items.append(Line(at(minute), -5.4, at(minute), -6.6, "narrow"))
        if (minute - low) % (2 * TICK) == 0:
            items.append(Label(at(minute), -4.6, day.at(minute), SMALL, "middle"))
    y = -8.0
    rows: list[tuple[str, tuple[Visit, ...]]] = []
    for station in MACHINES:
        for place in range(1, wanted.count(station) + 1):
            rows.append((f"{station} {place}" if wanted.count(station) > 1 else station, made.at(station, place)))
    machines = len(rows)
    rows += [(f"learner {n}", made.of(n)) for n in range(1, wanted.learners + 1)]
    for number, (name, visits) in enumerate(rows):
        if number == machines:
            items.append(Line(0, y - 0.4, at(high), y - 0.4, "narrow"))
            y -= 1.6
        items.append(Label(0, y - tall / 2 - 0.4, name, SMALL, "start", "middle"))
        for visit in visits:
            if visit.end > low and visit.start < high:
                mark = f"{visit.learner}" if number < machines else LETTERS[visit.station]
                items += _visit(at(visit.start), at(visit.end), y - 0.4, tall, mark, visit.station == "bench")
        y -= step
    if made.pause and made.pause[0] < high and made.pause[1] > low:
        items += [Line(at(edge), -7.0, at(edge), y, "centre") for edge in made.pause if low <= edge <= high]
        items.append(Label((at(made.pause[0]) + at(made.pause[1])) / 2, (y - 8.0) / 2, "break", SMALL, "middle", "middle", rotation=90))
    return tuple(items), -y + 2


def _visit(left: float, right: float, top: float, tall: float, mark: str, bench: bool) -> Group:
    """A box with its mark, or at the bench a line; the mark is left out where it finds no room."""
    fits = text_width(mark, SMALL) + 0.7 <= right - left
    middle = top - tall / 2
    items: list[Item] = []
    if not bench:
        items.append(polygon(((left, top - tall), (right, top - tall), (right, top), (left, top)), "narrow", "paper"))
        if fits:
            items.append(Label((left + right) / 2, middle, mark, SMALL, "middle", "middle"))
        return tuple(items)
    wide = text_width(mark, SMALL) / 2 + 0.8 if fits and right - left > 6 else 0.0
    centre = (left + right) / 2
    items += [Line(left + 0.3, middle, centre - wide, middle, "narrow"), Line(centre + wide, middle, right - 0.3, middle, "narrow")]
    if wide:
        items.append(Label(centre, middle, mark, SMALL, "middle", "middle"))
    return tuple(items)


# --- who is where -------------------------------------------------------------------------------------------
def _where_blocks(day: Day, width: float) -> list[Block]:
    """The visits of each learner in a table, then the queue at each machine."""
    first, each = 21.0, (width - 21.0 - 14.0) / len(STEPS)
    heads = [Column("", first), *(Column(f"{s.station}: {s.short}", each) for s in STEPS), Column("done", 14)]
    rows = []
    for n in range(1, day.wanted.learners + 1):
        visits = day.rotation.of(n)
        rows.append((f"learner {n}", *(day.at(v.start) for v in visits), day.at(visits[-1].end)))
    blocks: list[Block] = []
    for at in range(0, len(rows), 20):
        items, y = table(0, 0, heads, rows[at : at + 20], pad=0.8)
        blocks.append((items, -y))
    for station in MACHINES:
        for place in range(1, day.wanted.count(station) + 1):
            queue = day.rotation.at(station, place)
            name = f"{STATION_WORDS[station]} {place}" if day.wanted.count(station) > 1 else STATION_WORDS[station]
            words = ", ".join(f"{day.at(v.start)} learner {v.learner}" for v in queue)
            items, y = heading(0, 0, f"Queue at the {name}", width)
            text, y = block(0, y, words, width)
            blocks.append(((*items, *text), -y))
    return blocks
