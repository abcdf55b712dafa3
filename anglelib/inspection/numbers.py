"""Wrong numbers: what each mistake makes of a number that is asked for, so that a wrong answer can be named.

A question states the right number and what it was made from; only mistakes that those quantities
allow are listed, and none whose number is the right one.

>>> asked = Asked(Fraction(69, 16), blank_of=Fraction(17, 4), allowance=Fraction(1, 32), kerf=Fraction(1, 16))
>>> [(wrong.id, str(wrong.value)) for wrong in wrong_numbers(asked) if wrong.id in ("M01", "M04", "M05")]
[('M01', '35/8'), ('M04', '17/4'), ('M04', '137/32'), ('M05', '35/8')]
>>> named(asked, Fraction(137, 32)).sentence
'The allowance was added at one end only. Saw outside the line by the allowance, then sand to the line.'
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import hypot, sqrt

from anglelib.geometry.allowance import growth
from anglelib.inspection.mistakes import MISTAKES
from anglelib.lengths import MM

Number = Fraction | float


@dataclass(frozen=True)
class Asked:
    """A number that is asked for [in], and what it was made from; leave out what plays no part.

    ``blank_of`` is the finished length of a blank; ``batch`` (blank, number of the piece) a running
    mark in a batch; ``place_on`` the length of the part that a place x lies on; ``height_over``
    (thickness of the other leg, fillet) for a height from the heel; ``width_left`` true where the
    height is a taper's; ``inside_corner`` the number that aiming at the inside corner gives;
    ``run_of`` (run, height) where the number is a run, ``slope_of`` where it is proportional to the
    slope; ``step`` (number of steps, error of one); ``dressed`` how much was taken off end 1;
    ``warm`` the warming in kelvin.
    """

    right: Number
    blank_of: Fraction | None = None
    allowance: Fraction | None = None
    kerf: Fraction | None = None
    batch: tuple[Fraction, int] | None = None
    place_on: Fraction | None = None
    height_over: tuple[Fraction, Fraction] | None = None
    inside_corner: Number | None = None
    run_of: tuple[Number, Number] | None = None
    slope_of: tuple[Number, Number] | None = None
    step: tuple[int, Fraction] | None = None
    dressed: Fraction | None = None
    warm: float | None = None
    measured: bool = False


@dataclass(frozen=True)
class WrongNumber:
    """A number that a mistake leads to, and the mistake."""

    id: str
    value: Number
    why: str = ""

    @property
    def sentence(self) -> str:
        """What to say to whoever gave this number."""
        mistake = MISTAKES[self.id]
        return f"{self.why or mistake.sentence} {mistake.remedy}"


def wrong_numbers(asked: Asked) -> tuple[WrongNumber, ...]:
    """Every wrong number of the mistakes that this question allows, in the order of their ids; none twice."""
    found: list[WrongNumber] = []
    for id_, value, *why in sorted(_all(asked), key=lambda row: row[0]):
        wrong = WrongNumber(id_, value, *why)
        known = any((other.id, other.value) == (id_, value) for other in found)
        if abs(value - asked.right) > 1e-9 and value >= 0 and not known:
            found.append(wrong)
    return tuple(found)


def named(asked: Asked, answer: Number, tolerance: Number = Fraction(1, 128)) -> WrongNumber | None:
    """The mistake behind a wrong answer: the nearest wrong number within a tolerance, None if there is none.

    An answer nearer to the right number than to a wrong one names nothing.
    """
    off = abs(answer - asked.right)
    near = [w for w in wrong_numbers(asked) if abs(w.value - answer) <= min(tolerance, off)]
    return min(near, key=lambda w: abs(w.value - answer)) if near else None


def _all(asked: Asked) -> Iterator[tuple[str, Number] | tuple[str, Number, str]]:
    right = asked.right
    if asked.blank_of is not None:
        yield from _blank(asked, asked.blank_of)
    if asked.batch is not None and asked.kerf is not None:
        blank, count = asked.batch
        yield "M06", count * blank
    if asked.measured or asked.place_on is not None:
        yield "M07", right - 1, "That is an inch too little: an inch is taken off only where the rule began at its 1-inch mark, and only once."
        yield "M07", right + 1, "That is an inch too much, as where the rule began at its 1-inch mark and the inch was not taken off."
        yield from (("M08", value, why) for value, why in misreadings(right))
    if asked.place_on is not None:
        yield "M17", asked.place_on - right
    if asked.height_over is not None:
        t, r = asked.height_over
        yield "M11", right + t
        if r:
            yield "M11", right + t + r
    if asked.inside_corner is not None:
        yield "M12", asked.inside_corner
    for given, scaled in ((asked.run_of, False), (asked.slope_of, True)):
        if given is not None:
            run, height = (float(v) for v in given)
            factor = float(right) / run if scaled else 1.0
            if run > height:
                yield "M19", factor * sqrt(run * run - height * height)
            yield "M19", factor * hypot(run, height)
            yield "M20", factor * height * height / run
    if asked.step is not None:
        steps, error = asked.step
        yield "M18", right + steps * error
        yield "M18", right - steps * error
    if asked.dressed is not None:
        yield "M16", right - asked.dressed
        yield "M16", right + asked.dressed
    if asked.warm is not None:
        yield "M25", float(right) - growth(float(right), asked.warm)
    # A number typed in the other unit: inches for millimetres, or millimetres for inches; a sixteenth read as a millimetre.
    yield "M27", right / MM if isinstance(right, Fraction) else right * 25.4, "That is the number of millimetres, taken for inches."
    yield "M27", right * MM if isinstance(right, Fraction) else right / 25.4, "That comes out when the number of inches is taken for millimetres."
    if asked.measured or asked.place_on is not None:
        yield "M27", right * 16 * MM if isinstance(right, Fraction) else right * 16 / 25.4, "A sixteenth was taken for a millimetre."


def _blank(asked: Asked, length: Fraction) -> Iterator[tuple[str, Number] | tuple[str, Number, str]]:
    if asked.allowance is not None:
        yield "M04", length
        yield "M04", length + asked.allowance, "The allowance was added at one end only."
        yield "M05", length + 4 * asked.allowance, "The allowance was counted twice."
    if asked.kerf is not None:
        yield "M01", asked.right + asked.kerf, "The kerf was added to the blank: the stick loses it, between two blanks."
        yield "M01", length + asked.kerf, "The kerf was added in place of the allowance: the stick loses it, between two blanks."


def misread(value: Number) -> Iterator[Number]:
    """What a fraction may be misread as: one or two sixteenths beside it, the fraction halved or doubled."""
    return (number for number, _ in misreadings(value))


def misreadings(value: Number) -> Iterator[tuple[Number, str]]:
    """The same, each with what it says of the reading.

    >>> [str(number) for number, _ in misreadings(Fraction(11, 8))]
    ['5/4', '21/16', '23/16', '3/2', '19/16', '7/4']
    """
    sixteenth = Fraction(1, 16)
    for n, why in ((-2, "two sixteenths too little"), (-1, "a sixteenth too little"), (1, "a sixteenth too much"), (2, "two sixteenths too much")):
        yield value + n * sixteenth, f"That is {why}, as when a line of the rule is miscounted."
    whole, rest = divmod(value, 1)
    if rest:
        yield whole + rest / 2, "The fraction is half of the right one, as when 5/8 is read as 5/16."
        if rest <= Fraction(1, 2):
            yield whole + 2 * rest, "The fraction is twice the right one, as when 5/16 is read as 5/8."
