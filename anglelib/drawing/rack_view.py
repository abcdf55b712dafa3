"""Sticks on the rack in elevation, all to one scale of length: saw cuts, blanks, what remains.

A stick is seen from outside with its datum end at the left and the heel at the bottom; the leg behind it is edge on, its
inside a hidden line. Saw cuts are narrow lines with their distance from the datum end. A blank has the numbers of
its ends and the name of the leg that is seen, where they find room; the edges that its tapers and copes will have are narrow
lines on that leg, hidden ones on the leg behind. What remains is left white with its length. Heights are not to scale.

>>> stick = DrawnStick("S-32", 16, (Cut("C1L", Fraction(1, 16), 5), Cut("C1R", Fraction(81, 16), 10)), remains=Fraction(95, 16))
>>> rack_sheets([stick], "Rack")[0].sentence
'Rack: stick S-32, 16 in. long: blank C1L from 1/16 to 5, blank C1R from 5 1/16 to 10, 5 15/16 remains.'
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from anglelib.drawing.checks import Taken, bounds
from anglelib.drawing.dimensions import Stop, running_dimensions, spread
from anglelib.drawing.frame import EDGE, footer
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Polyline, Sheet, move, polygon
from anglelib.lengths import exact, show, spoken, unit_in_head, unit_word

TALL = 8.2
"""How high a stick is drawn [mm]."""
HEEL = 2.6
"""How thick the leg behind is drawn [mm]."""
MIDDLE = (TALL + HEEL) / 2
"""Where words stand in a stick, clear of the leg behind [mm]."""
CLEAR = 0.8
"""Clear space round a word in a blank [mm]."""
FEW = 4
"""Of so many like blanks every line has its figure, however close they lie."""
FOOT = 12.0
NAMED = 24.0
"""A remnant whose id is wider is not named on the drawing [mm]."""


@dataclass(frozen=True)
class Cut:
    """A blank sawn from a stick: its name and where it lies, from the stick's datum end [in].

    ``sawn``: whether its far end is a saw cut; a blank may end where the stick does. ``left`` is the part's end at the left
    (0: not said) and ``leg`` the leg that is seen; ``seen`` are the edges that its cuts will have there, as points along the
    stick [in] and shares of the leg's width from the heel, ``behind`` the places along the stick of those of the other leg.
    ``turned``: it is sawn from the other end, once the stick is turned.
    """

    name: str
    start: Fraction
    end: Fraction
    sawn: bool = True
    left: int = 0
    leg: str = ""
    seen: tuple[tuple[tuple[float, float], ...], ...] = ()
    behind: tuple[float, ...] = ()
    turned: bool = False

    @property
    def alike(self) -> tuple:
        """What neighbours that are named once have in common."""
        return self.name, self.left, self.turned


@dataclass(frozen=True)
class DrawnStick:
    """A stick as it is drawn: lengths [in], blanks in order, dents as (from, to), ``remains`` from where to where, and its id.

    ``other`` is where the datum end lies once the stick is turned, for the blanks that are sawn from there.
    """

    id: str
    length: Fraction
    cuts: tuple[Cut, ...] = ()
    remains: Fraction | None = None
    dents: tuple[tuple[Fraction, Fraction], ...] = ()
    section: str = ""
    note: str = ""
    remains_id: str = ""
    remains_at: Fraction | None = None
    other: Fraction | None = None

    @property
    def rest(self) -> tuple[Fraction, Fraction] | None:
        """From where to where what remains lies: at the far end, where nothing else is said."""
        if not self.remains:
            return None
        end = self.remains_at if self.remains_at is not None else self.length
        return end - self.remains, end


def stick_view(stick: DrawnStick, unit: float, *, letter: float = 2.5, high: float = 1e9) -> Group:
    """One stick, its datum end at x = 0 and its heel at y = 0; ``unit`` is millimetres an inch."""
    long = float(stick.length) * unit
    items: list[Item] = []
    for start, end in stick.dents:
        a, b = float(start) * unit, float(end) * unit
        items.append(Hatch(((a, 0), (max(b, a + 1), 0), (max(b, a + 1), TALL), (a, TALL)), 60, 1.1))
    items.append(Line(0, HEEL, long, HEEL, "hidden"))
    for cut in stick.cuts:
        items += _edges(cut, unit)
    names, above = _names(stick, unit, letter, high)
    items += names
    saws = _saws(stick)
    items += [Line(float(x) * unit, 0, float(x) * unit, TALL, "cut") for x in saws]
    items.append(polygon(((0, 0), (long, 0), (long, TALL), (0, TALL)), "outline"))
    items += _dimensions(stick, unit, letter, high)
    items += above
    title = " ".join(part for part in (stick.id, stick.section) if part)
    rise = TALL + 1.3 + (6.6 if above else 0.0)
    items.append(Label(0, rise, title + (f", {stick.note}" if stick.note else ""), letter, "start"))
    return tuple(items)


def _saws(stick: DrawnStick) -> list[Fraction]:
    """Where the saw runs: the ends of the blanks that it parts off, and the first end, where it is trimmed."""
    near, far = ([cut for cut in stick.cuts if cut.turned == turned] for turned in (False, True))
    found = [cut.end for cut in near if cut.sawn] + [cut.start for cut in far if cut.sawn]
    if near and near[0].start > 0:
        found.append(near[0].start)
    if stick.other is not None and stick.other < stick.length:
        found.append(stick.other)
    return found


def _dimensions(stick: DrawnStick, unit: float, letter: float, high: float) -> Group:
    """The lines to saw to, running from the datum end; those of the turned stick from its other end."""
    long = float(stick.length) * unit
    near = [Stop(float(cut.end) * unit, 0, show(cut.end)) for cut in _figured(stick, unit, letter, False)]
    if stick.other is None:
        if not near or near[-1].place < long - 0.01:
            near.append(Stop(long, 0, show(stick.length)))
        return running_dimensions(0, near, -2.6, letter=letter, low=-1, high=high, foot=0)
    other = float(stick.other) * unit
    far = [Stop(float(cut.start) * unit, 0, show(stick.other - cut.start)) for cut in _figured(stick, unit, letter, True)]
    middle = (max((stop.place for stop in near), default=0.0) + min((stop.place for stop in far), default=other)) / 2
    items = running_dimensions(0, near, -2.6, letter=letter, low=-1, high=middle - 1, foot=0)
    return (*items, *running_dimensions(other, far, -2.6, letter=letter, low=middle + 1, high=high, foot=0))


def _figured(stick: DrawnStick, unit: float, letter: float, turned: bool) -> list[Cut]:
    """The blanks whose line has its figure: of a run of like ones that lie closer than figures can stand, the first and the last."""
    found: list[Cut] = []
    for _, run in groupby((cut for cut in stick.cuts if cut.sawn and cut.turned == turned), key=lambda cut: cut.alike):
        cuts = list(run)
        close = len(cuts) > FEW and float(cuts[-1].end - cuts[0].end) * unit < (len(cuts) - 1) * 1.45 * letter
        found += [cuts[0], cuts[-1]] if close else cuts
    return found


# --- a blank ----------------------------------------------------------------------------------------------
def _edges(cut: Cut, unit: float) -> Group:
    """The edges that a blank's tapers and copes will have."""
    return (*_seen(cut, unit), *(Line(x * unit, 0, x * unit, HEEL, "fine-hidden") for x in cut.behind))


def _seen(cut: Cut, unit: float) -> Group:
    return tuple(Polyline(tuple((x * unit, share * TALL) for x, share in line), "narrow") for line in cut.seen)


def _clear(cut: Cut, unit: float) -> tuple[float, float]:
    """From where to where along a blank a word of any height crosses no edge of its cuts [mm]."""
    left, right = float(cut.start) * unit, float(cut.end) * unit
    a, b = left, right
    for line in cut.seen:
        places = [x * unit for x, _ in line]
        if min(places) - a < b - max(places):
            left = max(left, *places)
        else:
            right = min(right, *places)
    return left, right


def _number(cut: Cut, unit: float, letter: float, right: bool, halo: bool) -> Label | None:
    """The number of the end at the left or the right: at that end, in the corner that its taper takes, or beyond its cut."""
    end, way, anchor = str((3 - cut.left) if right else cut.left), -1 if right else 1, "end" if right else "start"
    at, beyond = float(cut.end if right else cut.start) * unit, _clear(cut, unit)[right]
    taken = Taken(_seen(cut, unit))
    for x, y in ((at, MIDDLE), (at, TALL - 0.6 - letter / 2), (beyond, MIDDLE)):
        label = Label(x + way * CLEAR, y, end, letter, anchor, "middle", halo=halo)
        if not taken.faults((label,), 0.2):
            return label
    return None


def _numbers(cut: Cut, unit: float, letter: float, halo: bool) -> tuple[Label, ...]:
    """The numbers of a blank's ends; none where they find no room."""
    if not cut.left:
        return ()
    left, right = (_number(cut, unit, letter, side, halo) for side in (False, True))
    if left is None or right is None:
        return ()
    wide = text_width(left.text, letter) + text_width(right.text, letter) + CLEAR
    return (left, right) if right.x - left.x >= wide else ()


def _inside(cut: Cut, unit: float, letter: float, halo: bool) -> Group | None:
    """A blank's name in it, with the leg that is seen and the numbers of its ends as far as they find room; None where the name does not."""
    low, high = _clear(cut, unit)
    numbers = _numbers(cut, unit, letter, halo)
    between = low, high
    if numbers:
        between = max(low, numbers[0].x + text_width(numbers[0].text, letter)), min(high, numbers[1].x - text_width(numbers[1].text, letter))
    full = f"{cut.name}, leg {cut.leg}" if cut.leg else cut.name
    for words, shown, (left, right) in ((full, numbers, between), (cut.name, numbers, between), (cut.name, (), (low, high))):
        if text_width(words, letter) + 2 * CLEAR <= right - left:
            return (*shown, Label((left + right) / 2, MIDDLE, words, letter, "middle", "middle", halo=halo))
    return None


def _names(stick: DrawnStick, unit: float, letter: float, high: float) -> tuple[Group, Group]:
    """Names inside the blanks where they fit, else above with a line down; like neighbours are named once."""
    inside: list[Item] = []
    outside: list[tuple[float, float, float, str]] = []
    dented = bool(stick.dents)
    for (name, _, _), run in groupby(stick.cuts, key=lambda cut: cut.alike):
        cuts = list(run)
        drawn = [_inside(cut, unit, letter, dented) for cut in cuts]
        if all(drawn):
            inside += [item for group in drawn for item in group or ()]
            continue
        inside += [item for cut in cuts for item in _numbers(cut, unit, letter, dented)]
        a, b = float(cuts[0].start) * unit, float(cuts[-1].end) * unit
        outside.append(((a + b) / 2, a, b, f"{len(cuts)} x {name}" if len(cuts) > 1 else name))
    if stick.rest is not None and stick.remains:
        a, end = (float(x) * unit for x in stick.rest)
        text = f"remains {show(stick.remains, 64, 'down')}"
        short = show(stick.remains, 64, "down")
        fits = stick.remains_id and text_width(stick.remains_id, letter) <= NAMED
        named = f"{stick.remains_id}: {text}" if fits else text
        ways = (named, f"{stick.remains_id}: {short}") if fits else (text, short)
        for words in ways:
            if text_width(words, letter) + 2 * CLEAR <= end - a:
                inside.append(Label((a + end) / 2, MIDDLE, words, letter, "middle", "middle", halo=dented))
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
