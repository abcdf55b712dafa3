"""Sticks on the rack in elevation, all to one scale of length: saw cuts, blanks, what remains.

A stick lies with its datum end at the left, the heel at the bottom: the narrow line above it is the
other leg, edge on. Saw cuts are narrow lines with their distance from the datum end. What remains is
left white with its length. Heights are not to scale.

>>> stick = DrawnStick("S-32", 16, (Cut("C1L", Fraction(1, 16), 5), Cut("C1R", Fraction(81, 16), 10)), remains=Fraction(95, 16))
>>> rack_sheets([stick], "Rack")[0].sentence
'Rack: stick S-32, 16 in. long: blank C1L from 1/16 to 5, blank C1R from 5 1/16 to 10, 5 15/16 remains.'
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from anglelib.drawing.checks import bounds
from anglelib.drawing.dimensions import Stop, running_dimensions, spread
from anglelib.drawing.frame import EDGE, footer
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Sheet, move, polygon
from anglelib.lengths import exact, show, spoken, unit_in_head, unit_word

TALL = 6.0
"""How high a stick is drawn [mm]."""
HEEL = 1.5
"""Where the other leg's edge is drawn above the heel [mm]."""
FOOT = 12.0
NAMED = 24.0
"""A remnant whose id is wider is not named on the drawing [mm]."""


@dataclass(frozen=True)
class Cut:
    """A blank sawn from a stick: its name and where it lies, from the stick's datum end [in].

    ``sawn``: whether its far end is a saw cut; a blank may end where the stick does.
    """

    name: str
    start: Fraction
    end: Fraction
    sawn: bool = True


@dataclass(frozen=True)
class DrawnStick:
    """A stick as it is drawn: lengths [in], blanks in order, dents as (from, to), ``remains`` at its far end and its id."""

    id: str
    length: Fraction
    cuts: tuple[Cut, ...] = ()
    remains: Fraction | None = None
    dents: tuple[tuple[Fraction, Fraction], ...] = ()
    section: str = ""
    note: str = ""
    remains_id: str = ""


def stick_view(stick: DrawnStick, unit: float, *, letter: float = 2.5, high: float = 1e9) -> Group:
    """One stick, its datum end at x = 0 and its heel at y = 0; ``unit`` is millimetres an inch."""
    long = float(stick.length) * unit
    items: list[Item] = []
    for start, end in stick.dents:
        a, b = float(start) * unit, float(end) * unit
        items.append(Hatch(((a, 0), (max(b, a + 1), 0), (max(b, a + 1), TALL), (a, TALL)), 60, 1.1))
    items.append(Line(0, HEEL, long, HEEL, "narrow"))
    names, above = _names(stick, unit, letter, high)
    items += names
    sawn = [cut for cut in stick.cuts if cut.sawn]
    items += [Line(float(cut.end) * unit, 0, float(cut.end) * unit, TALL, "cut") for cut in sawn]
    if stick.cuts and stick.cuts[0].start > 0:
        items.append(Line(float(stick.cuts[0].start) * unit, 0, float(stick.cuts[0].start) * unit, TALL, "cut"))
    items.append(polygon(((0, 0), (long, 0), (long, TALL), (0, TALL)), "outline"))
    stops = [Stop(float(cut.end) * unit, 0, show(cut.end)) for cut in sawn]
    if not stops or stops[-1].place < long - 0.01:
        stops.append(Stop(long, 0, show(stick.length)))
    items += running_dimensions(0, stops, -2.6, letter=letter, low=-1, high=high, foot=0)
    items += above
    title = " ".join(part for part in (stick.id, stick.section) if part)
    rise = TALL + 1.3 + (6.6 if above else 0.0)
    items.append(Label(0, rise, title + (f", {stick.note}" if stick.note else ""), letter, "start"))
    return tuple(items)


def _names(stick: DrawnStick, unit: float, letter: float, high: float) -> tuple[Group, Group]:
    """Names inside the blanks where they fit, else above with a line down; like neighbours are named once."""
    inside: list[Item] = []
    outside: list[tuple[float, float, float, str]] = []
    middle, dented = (TALL + HEEL) / 2, bool(stick.dents)
    for name, run in groupby(stick.cuts, key=lambda cut: cut.name):
        cuts = list(run)
        for cut in cuts:
            if text_width(name, letter) + 1.6 > float(cut.end - cut.start) * unit:
                break
        else:
            inside += [Label(float(c.start + c.end) / 2 * unit, middle, name, letter, "middle", "middle", halo=dented) for c in cuts]
            continue
        a, b = float(cuts[0].start) * unit, float(cuts[-1].end) * unit
        outside.append(((a + b) / 2, a, b, f"{len(cuts)} x {name}" if len(cuts) > 1 else name))
    if stick.remains:
        end = float(stick.length) * unit
        a = end - float(stick.remains) * unit
        text = f"remains {show(stick.remains, 64, 'down')}"
        short = show(stick.remains, 64, "down")
        fits = stick.remains_id and text_width(stick.remains_id, letter) <= NAMED
        named = f"{stick.remains_id}: {text}" if fits else text
        ways = (named, f"{stick.remains_id}: {short}") if fits else (text, short)
        for words in ways:
            if text_width(words, letter) + 1.6 <= end - a:
                inside.append(Label((a + end) / 2, middle, words, letter, "middle", "middle", halo=dented))
                break
        else:
            outside.append(((a + end) / 2, a, end, named))
    for start, end in stick.dents:
        a, b = float(start) * unit, float(end) * unit
        outside.append(((a + b) / 2, a, b, f"dent {show(start)} to {show(end)}"))
    outside.sort()
    above: list[Item] = []
    if outside:
        widths = [text_width(text, letter) for *_, text in outside]
        gaps = [(w1 + w2) / 2 + 2 for w1, w2 in zip(widths, widths[1:])]
        places = spread([row[0] for row in outside], gaps, widths[0] / 2, high - widths[-1] / 2)
        for (at, a, b, text), place in zip(outside, places):
            if b - a > 3:  # a brace over the run
                above += [Line(a + 0.4, TALL + 1.2, b - 0.4, TALL + 1.2, "dimension")]
                foot = TALL + 1.2
            else:
                foot = TALL
            above += [Line(at, foot, place, TALL + 2.5, "dimension"), Label(place, TALL + 3.6, text, letter, "middle")]
    return tuple(inside), tuple(above)


def rack_sheets(
    sticks: Sequence[DrawnStick],
    title: str,
    *,
    width: float = 297,
    height: float = 210,
    letter: float = 2.5,
) -> list[Sheet]:
    """The sticks on as many sheets as they need, to one scale on all of them."""
    longest = max((float(stick.length) for stick in sticks), default=1.0)
    room = width - 2 * EDGE - 14
    unit = room / longest
    pages: list[list[Group]] = [[]]
    named: list[list[DrawnStick]] = [[]]
    top = height - 16
    y = top
    for stick in sticks:
        with unit_in_head():  # the footer says it
            view = stick_view(stick, unit, letter=letter, high=width - EDGE - EDGE - 2)
        _, low, _, high = bounds(view)
        if y - (high - low) < FOOT + 1 and pages[-1]:
            pages.append([])
            named.append([])
            y = top
        pages[-1].append(move(view, EDGE + 2, y - high))
        named[-1].append(stick)
        y -= high - low + 4.5
    sheets = []
    for number, (page, shown) in enumerate(zip(pages, named), start=1):
        words = f"{title}, sheet {number} of {len(pages)}" if len(pages) > 1 else title
        items: tuple[Item, ...] = (Label(EDGE, height - 5, words, 5.0, "start", "top"),)
        items += tuple(item for group in page for item in group)
        scale = f"lengths 1:{25.4 / unit:.0f}, heights not to scale; {unit_word()} from the datum end at the left"
        items += footer(width, scale, projection=False)
        sheets.append(Sheet(width, height, items, words, rack_sentence(title, shown)))
    return sheets


def rack_sentence(title: str, sticks: Iterable[DrawnStick]) -> str:
    """What is on the rack and what is cut from it, in words."""
    said = []
    for stick in sticks:
        words = [f"stick {stick.id}, {spoken(stick.length)} long"]
        rows = [f"blank {cut.name} from {exact(cut.start)} to {exact(cut.end)}" for cut in stick.cuts]
        rows += [f"dent from {exact(a)} to {exact(b)}" for a, b in stick.dents]
        if stick.remains:
            rows.append(f"{exact(stick.remains)} remains")
        elif not stick.cuts:
            rows.append("not cut")
        said.append(f"{words[0]}: {', '.join(rows)}")
    return f"{title}: " + "; ".join(said) + "."
