"""The day: its blocks on the clock, what everybody does between two stations, whether it fits, what to give up when late.

>>> from anglelib.workshop.class_plan import ClassWanted
>>> from anglelib.workshop.rotation import rotation
>>> wanted = ClassWanted(6)
>>> day = day_of(wanted, rotation(wanted))
>>> day.blocks[0].words, day.fits
('Briefing; the sheet is signed', True)
>>> print(day_of(ClassWanted(6, hours=5), rotation(wanted)).sentence)
The day takes 6 h 05 min, 1 h 05 min more than the 5 h 00 min wanted. Giving up 1 to 6 of the list makes it fit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from anglelib.workshop.class_plan import WATCHED, ClassWanted, clock, minutes_of_day
from anglelib.workshop.rotation import BREAK, MACHINES, STEPS, Rotation, Visit

LESSON_MINUTES = {"00": 15, "01": 10, "02": 15, "03": 20, "04": 20, "05": 20, "06": 25, "07": 25, "08": 10, "10": 15, "11": 20}
"""Minutes of each lesson in the class; the notebooks themselves take longer, at home. Common practice, no class was timed."""
BRIEFING, LUNCH, CLOSING = 15, 40, 15
CUTTING = "Cutting, with 08"
_MORNING = (
    ("Briefing; the sheet is signed", BRIEFING, "all together at the machines, standing still"),
    ("00 Start here", LESSON_MINUTES["00"], "handout 00, at the bench with an off-cut in the hand"),
    ("01 Identify the stock", LESSON_MINUTES["01"], "two off-cuts a table: one square inside, one with a fillet"),
    ("02 Read the part", LESSON_MINUTES["02"], "the check prints of neighbours, side by side"),
    ("03 Square an end", LESSON_MINUTES["03"], "a square and the off-cuts"),
    ("04 Mark along the heel", LESSON_MINUTES["04"], "a rule, the off-cuts"),
    ("Break", BREAK, ""),
    ("05 Kerf and sanding allowance", LESSON_MINUTES["05"], "a test cut, made by the instructor: measure it"),
    ("06 Taper on the outside face", LESSON_MINUTES["06"], "handout 06, then the own part's worksheet"),
    ("07 Taper on the inside face", LESSON_MINUTES["07"], "handout 07, a strip of paper pressed into the fillet"),
    ("Lunch", LUNCH, ""),
    ("08 Order of work", LESSON_MINUTES["08"], "the part card: which step is next, and what it costs to swap two"),
)
_AFTER = (
    ("Check prints; 10 for those that miss", LESSON_MINUTES["10"], "every part on its check print; calipers only for those that miss"),
    ("11 Plan the stock", LESSON_MINUTES["11"], "a table game: strips of paper for blanks, cut from strips for sticks"),
    ("Sign-off; machines cleaned", CLOSING, "the sign-off sheet; chips swept dry, kept apart from steel"),
)
AT_SCREEN = (("lesson 08 at the screen", 30), ("lesson 09 at the screen", 30), ("lesson 10 at the screen", 30))
"""What is done between two stations, and for how many minutes in all; after that the worksheet."""
SHORT = 6
"""A gap of fewer minutes is for the worksheet at the bench [min]."""


class Block(NamedTuple):
    """A stretch of the day, in minutes after midnight."""

    start: int
    end: int
    words: str
    how: str


class Segment(NamedTuple):
    """What one learner does from minute to minute of the rotation; ``visit`` is None between stations."""

    start: int
    end: int
    words: str
    visit: Visit | None


class Late(NamedTuple):
    """Something that may be given up, and how many minutes that gives back."""

    words: str
    minutes: int


@dataclass(frozen=True)
class Day:
    """A class day: its blocks, the rotation within it and where that begins (minutes after midnight)."""

    wanted: ClassWanted
    rotation: Rotation
    blocks: tuple[Block, ...]
    cutting: int
    late: tuple[Late, ...]

    @property
    def minutes(self) -> int:
        """How long the day is."""
        return self.blocks[-1].end - self.blocks[0].start

    @property
    def over(self) -> int:
        """Minutes more than wanted; 0 or less where it fits."""
        return self.minutes - int(self.wanted.hours * 60)

    @property
    def fits(self) -> bool:
        """Whether the day is no longer than wanted."""
        return self.over <= 0

    @property
    def sentence(self) -> str:
        """Whether it fits, by how much not, and what then helps."""
        takes = f"The day takes {_hours(self.minutes)}"
        if self.fits:
            spare = -self.over
            return f"{takes}, {_hours(spare)} less than the {_hours(int(self.wanted.hours * 60))} there are." if spare else f"{takes}, all there is."
        saved, number = 0, 0
        for late in self.late:
            if saved >= self.over:
                break
            saved, number = saved + late.minutes, number + 1
        words = f"{takes}, {_hours(self.over)} more than the {_hours(int(self.wanted.hours * 60))} wanted."
        if saved >= self.over:
            return f"{words} Giving up {'1' if number == 1 else f'1 to {number}'} of the list makes it fit."
        return (
            f"{words} The whole list gives back {_hours(saved)}: {_hours(self.over - saved)} are still missing. "
            "Bring another disc sander or saw with somebody competent at it, split the class, or take two days."
        )

    @property
    def proof(self) -> str:
        """What is known of the rotation's length."""
        made = self.rotation
        words = f"The cutting takes {made.length} min" + (f", {BREAK} of them a break" if made.pause else "")
        return f"{words}; proven the shortest." if made.proven else f"{words}; that less than {made.least} cannot do is proven, what lies between is not."

    def at(self, minute: int) -> str:
        """The time of day of a minute of the rotation."""
        return clock(self.cutting + minute)

    def segments(self, learner: int) -> tuple[Segment, ...]:
        """What a learner does from the beginning of the cutting to its end."""
        found: list[Segment] = []
        now, screen = 0, [list(entry) for entry in AT_SCREEN]
        pause = self.rotation.pause
        stops = [(v.start, v.end, STEPS[v.step].words, v) for v in self.rotation.of(learner)]
        if pause:
            stops.append((*pause, "break", None))
        for start, end, words, visit in (*sorted(stops, key=lambda s: s[:2]), (self.rotation.length, self.rotation.length, "", None)):
            found += _gap(now, start, screen)
            if words:
                found.append(Segment(start, end, words, visit))
            now = end
        return tuple(found)


def day_of(wanted: ClassWanted, made: Rotation) -> Day:
    """The day with its rotation."""
    now = minutes_of_day(wanted.start)
    blocks: list[Block] = []
    cutting = now + sum(minutes for _, minutes, _ in _MORNING)
    for words, minutes, how in (*_MORNING, (CUTTING, made.length, "the rotation; between two stations the screen or the worksheet"), *_AFTER):
        blocks.append(Block(now, now + minutes, words, how))
        now += minutes
    return Day(wanted, made, tuple(blocks), cutting, _late(wanted))


def watch(wanted: ClassWanted) -> str:
    """Who is at the running machines."""
    most = WATCHED * wanted.competent
    machines = sum(wanted.count(station) for station in MACHINES)
    if wanted.competent == 1:
        who = f"The instructor stays at the machines as long as one runs, with at most {most} running side by side in sight"
        alone = " Nobody leads the bench and the screen meanwhile: handouts and this sheet do."
    else:
        who = f"{wanted.competent} competent people stay at the machines as long as one runs, each with at most {WATCHED} side by side in sight"
        alone = ""
    less = "" if machines > most else " All machines may run at once."
    return f"{who}; whoever steps away stops the machine first.{less}{alone}"


def _late(wanted: ClassWanted) -> tuple[Late, ...]:
    """What to give up, the first first: it can be done at home, or is done by hand."""
    given = [
        Late("11, the table game: its notebook is for home", LESSON_MINUTES["11"]),
        Late("04, the second half: only the rule from end 1; the slips of stepping off at home", 10),
        Late("06 and 07 without the worksheet's numbers of other parts: only the own part", 15),
        Late("03 with 02: the flip test shown once, not tried by everybody", 10),
    ]
    if wanted.learners > 1:
        given.append(Late("holes marked and punched, not piloted: bench time, so the last part is done sooner", 5))
    given.append(Late("10 in words at the sign-off: parts that miss go home with their readings", 10))
    return tuple(given)


def _gap(start: int, end: int, screen: list[list]) -> list[Segment]:
    """What is done between two stations: the next lesson at the screen while there is one, in a short gap the worksheet."""
    found: list[Segment] = []
    while start < end:
        left = next((entry for entry in screen if entry[1] > 0), None)
        if end - start < SHORT or left is None:
            found.append(Segment(start, end, "worksheet at the bench", None))
            break
        until = min(end, start + left[1])
        if end - until < SHORT:
            until = end
        left[1] -= until - start
        found.append(Segment(start, until, left[0], None))
        start = until
    return found


def _hours(minutes: int) -> str:
    return f"{minutes // 60} h {minutes % 60:02d} min"
