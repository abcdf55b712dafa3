"""What an instructor asks for: how many learners, how long, which machines; and what is refused.

>>> ClassWanted(6).spare_pieces, ClassWanted(6).tables
(1, 2)
>>> ClassWanted(500)
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: 500 learners are too many for one class pack: at most 40. Make two classes, each with a seed of its own.
"""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from anglelib.errors import BenchError
from anglelib.job import Shop
from anglelib.names import visible
from anglelib.near import did_you_mean
from anglelib.paper.page import Paper, paper
from anglelib.paper.print_scale import AS_PRINTED, PrintScale, measured
from anglelib.stock.purchase import LENGTHS

MOST_LEARNERS = 40
STATIONS = ("saw", "disc", "wheel", "bench")
"""The stations that a part goes through: band saw, disc sander, soft finishing wheel, hand bench."""
STATION_WORDS = {"saw": "saw", "disc": "disc sander", "wheel": "finishing wheel", "bench": "hand bench"}
MINUTES = {"saw": 8, "disc": 10, "wheel": 3, "bench": 20}
"""Minutes of one learner at a station, all visits together; common practice, an instructor's own count is better."""
MACHINES = {"saw": "saws", "disc": "disc sanders", "wheel": "finishing wheels"}
MOST_MACHINES = 6
WATCHED = 2
"""Running machines that one competent person can have in sight, side by side; common practice."""
SPARES = Fraction(1, 4)
"""Spare pieces for those spoiled; common practice."""
AT_A_TABLE = 4
_HOURS = re.compile(r"-?\d{1,6}(?:[./]\d{1,6})?")


@dataclass(frozen=True)
class ClassWanted:
    """A class that is asked for; raises :class:`~anglelib.errors.BenchError` with the remedy.

    ``minutes`` are those of one learner at each station, all visits together. ``competent`` people are at
    the running machines, each with at most two in sight. ``places`` at the hand bench: 0 is one for every
    two learners. ``lengths`` are those in which stock is sold [in]. ``bar_measured`` is what the check bars of
    a print measure; what is drawn at 1:1 then makes up for the printer.
    """

    learners: int
    hours: Fraction = Fraction(8)
    saws: int = 1
    discs: int = 1
    wheels: int = 1
    competent: int = 1
    places: int = 0
    paper: str = "letter"
    seed: str = "1"
    date: datetime.date | None = None
    start: str = "09:00"
    minutes: Mapping[str, int] = field(default_factory=dict)
    lengths: tuple[object, ...] = LENGTHS
    shop: Shop = Shop()
    bar_measured: str = ""

    def __post_init__(self) -> None:
        n = _whole(self.learners, "number of learners")
        if n < 1:
            raise BenchError("A class needs learners: write a number from 1 to 40, for example --learners 12.")
        if n > MOST_LEARNERS:
            raise BenchError(
                f"{n} learners are too many for one class pack: at most {MOST_LEARNERS}. Make two classes, each with a seed of its own."
            )
        for name, what in (("saws", "saws"), ("discs", "disc sanders"), ("wheels", "finishing wheels"), ("competent", "competent people")):
            number = _whole(getattr(self, name), f"number of {what}")
            if not 1 <= number <= MOST_MACHINES:
                raise BenchError(f"{number} {what} cannot be planned: write a number from 1 to {MOST_MACHINES}.")
        if not 0 <= _whole(self.places, "number of places at the hand bench") <= MOST_LEARNERS:
            raise BenchError(f"{self.places} places at the hand bench cannot be planned: write a number from 1 to {MOST_LEARNERS}.")
        object.__setattr__(self, "hours", _hours(self.hours))
        object.__setattr__(self, "seed", _seed(self.seed))
        object.__setattr__(self, "minutes", _minutes(self.minutes))
        object.__setattr__(self, "lengths", tuple(self.lengths))
        paper(self.paper)
        minutes_of_day(self.start)
        self.scale  # noqa: B018 - raises for a bar that cannot be
        if self.date is not None and not isinstance(self.date, datetime.date):
            object.__setattr__(self, "date", day(str(self.date)))

    @property
    def on(self) -> Paper:
        """The paper."""
        return paper(self.paper)

    @property
    def scale(self) -> PrintScale:
        """What the printer was measured to do."""
        return measured(self.bar_measured) if self.bar_measured else AS_PRINTED

    @property
    def pairs(self) -> int:
        """Neighbours who make the left and the right hand of one cleat; an odd learner is a pair alone."""
        return math.ceil(self.learners / 2)

    @property
    def spare_pieces(self) -> int:
        """Pieces to spare, by the rule."""
        return math.ceil(self.pairs * SPARES)

    @property
    def tables(self) -> int:
        """Tables of four for the off-cuts of lesson 01 and the table game."""
        return math.ceil(self.learners / AT_A_TABLE)

    @property
    def bench_places(self) -> int:
        """Places at the hand bench, each with a vise."""
        return self.places or max(2, math.ceil(self.learners / 2))

    def count(self, station: str) -> int:
        """How many there are of a station."""
        return {"saw": self.saws, "disc": self.discs, "wheel": self.wheels, "bench": self.bench_places}[station]

    def with_date(self, date: datetime.date) -> ClassWanted:
        """The same class on a day."""
        return replace(self, date=date)


def day(text: str) -> datetime.date:
    """A date like 2024-05-01.

    >>> day("1 May")
    Traceback (most recent call last):
        ...
    anglelib.errors.BenchError: The date "1 May" is not a day: write it like 2024-05-01.
    """
    try:
        return datetime.date.fromisoformat(text.strip())
    except ValueError:
        raise BenchError(f'The date "{visible(text)[:20]}" is not a day: write it like 2024-05-01.') from None


def minutes_of_day(text: str) -> int:
    """Minutes after midnight of a time like 08:30."""
    hour, _, minute = str(text).strip().partition(":")
    if not (hour.isascii() and hour.isdigit() and minute.isascii() and minute.isdigit() and int(hour) < 24 and int(minute) < 60 and len(minute) == 2):
        raise BenchError(f'The start "{visible(str(text))[:20]}" is not a time: write it like 08:30.')
    return 60 * int(hour) + int(minute)


def clock(minutes: int) -> str:
    """A time of day.

    >>> clock(545)
    '09:05'
    """
    return f"{minutes // 60 % 24:02d}:{minutes % 60:02d}"


def station_minutes(text: str) -> dict[str, int]:
    """Minutes at the stations as they are typed: ``saw=8, disc=12``.

    >>> station_minutes("saw=6, disc=12")
    {'saw': 6, 'disc': 12}
    >>> station_minutes("lathe=5")
    Traceback (most recent call last):
        ...
    anglelib.errors.BenchError: There is no station "lathe": write minutes for saw, disc, wheel or bench, like saw=8,disc=10.
    """
    found: dict[str, int] = {}
    for word in text.replace(";", ",").split(","):
        if word.strip():
            name, _, number = (piece.strip() for piece in word.partition("="))
            found[name] = int(number) if number.isascii() and number.isdigit() else number  # type: ignore[assignment]
    _minutes(found)
    return found


# --- what is refused --------------------------------------------------------------------------------------
def _whole(value: object, what: str) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise BenchError(f'The {what} "{visible(str(value))[:20]}" is not a whole number: write it in figures.')
    return value


def _hours(value: object) -> Fraction:
    text = str(value).strip()
    try:
        if not _HOURS.fullmatch(text):  # 1e999999999 is a fraction too, and takes for ever
            raise ValueError
        hours = Fraction(text)
    except (ValueError, ZeroDivisionError):
        raise BenchError(f'The hours "{visible(str(value))[:20]}" are not a number: write 8 or 7.5.') from None
    if not 3 <= hours <= 12:
        raise BenchError(f"A class day of {float(hours):g} hours cannot be planned: write 3 to 12 hours, breaks counted.")
    return hours


def _seed(value: object) -> str:
    text = visible(str(value).strip())
    if not text or len(text) > 40:
        raise BenchError("The seed is a word or a number of at most 40 characters: the same one gives the same pack.")
    return text


def _minutes(given: Mapping[str, object]) -> dict[str, int]:
    found = dict(MINUTES)
    for name, number in dict(given).items():
        if name not in MINUTES:
            words = "saw, disc, wheel or bench, like saw=8,disc=10"
            remedy = did_you_mean(str(name), MINUTES) or f"write minutes for {words}."
            raise BenchError(f'There is no station "{visible(str(name))[:20]}": {remedy}')
        if isinstance(number, bool) or not isinstance(number, int) or not 3 <= number <= 60:
            raise BenchError(f'The minutes "{visible(str(number))[:20]}" at the {STATION_WORDS[name]} cannot be planned: write 3 to 60, in figures.')
        found[name] = number
    return found
