"""Numbers with a unit that is no length: how they may be typed, and what they are in the unit asked for.

>>> deg = UNITS["deg"]
>>> deg.read("25.3"), deg.read("25° 20'"), UNITS["lb"].read("8 oz")
(Fraction(253, 10), Fraction(76, 3), Fraction(1, 2))
>>> deg.read("2 in")
Traceback (most recent call last):
    ...
anglelib.errors.AnswerError: That is a length. An angle in degrees is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from anglelib.errors import AnswerError
from anglelib.geometry.weighing import POUND
from anglelib.lengths import MOST_CHARACTERS, number

_TYPED = re.compile(r"\s*(-?[0-9½¼¾⅛⅜⅝⅞][0-9½¼¾⅛⅜⅝⅞ ./⁄-]*|-?\.[0-9]+)\s*(.*?)\s*")
_SEXAGESIMAL = re.compile(
    r"\s*([0-9]{1,3})\s*(?:°|º|deg\b|degrees?\b| )\s*([0-9]{1,2})\s*(?:'|′|min\b|minutes?\b)\s*(?:([0-9]{1,2})\s*(?:\"|″|''|sec\b|seconds?\b))?\s*", re.I
)
_KINDS = (
    ("a length", ("in", "inch", "inches", '"', "mm", "cm", "m", "thou", "thousandth", "thousandths", "ft", "feet", "foot")),
    ("an angle", ("deg", "degree", "degrees", "°", "º")),
    ("a weight", ("lb", "lbs", "pound", "pounds", "oz", "ounce", "ounces", "g", "gram", "grams", "kg")),
    ("a share", ("%", "percent", "per cent")),
)


@dataclass(frozen=True)
class Unit:
    """A unit: its short name, its words, what is asked for, and the factor of each word that may be typed.

    ``sisters`` maps what may stand behind the number to what it is in this unit; "" is no word at all.
    """

    name: str
    words: str
    asked: str
    sisters: Mapping[str, Fraction]

    def read(self, text: str) -> Fraction:
        """What was typed, in this unit, exactly; raises AnswerError with a sentence."""
        if len(text) > MOST_CHARACTERS:
            raise AnswerError(f"An answer is at most {MOST_CHARACTERS} characters long.")
        if self.name == "deg" and (parts := _SEXAGESIMAL.fullmatch(text)):
            degrees, minutes, seconds = (Fraction(int(part or 0)) for part in parts.groups())
            return degrees + minutes / 60 + seconds / 3600
        if "," in text:
            raise AnswerError(f'The answer "{text.strip()}" has a comma: write the decimal with a point.')
        found = _TYPED.fullmatch(text)
        if found is None:
            raise AnswerError(f'The answer "{text.strip()}" is not a number: write it like 12 1/2 or 12.5, in {self.words}.')
        value, word = number(found[1]), found[2].lower().rstrip(".")
        if value is None:
            raise AnswerError(f'The answer "{text.strip()}" is not a number: write it like 12 1/2 or 12.5, in {self.words}.')
        if word in self.sisters:
            return value * self.sisters[word]
        for kind, words in _KINDS:
            if word in words:
                raise AnswerError(f"That is {kind}. {self.asked} is asked for.")
        raise AnswerError(f'The word "{word[:12]}" behind the number is not understood: {self.asked[0].lower()}{self.asked[1:]} is asked for.')

    def worth(self, text: str) -> Fraction:
        """What the word behind a typed number makes of a 1 in this unit.

        >>> UNITS["lb"].worth("8 oz"), UNITS["deg"].worth("18.1")
        (Fraction(1, 16), Fraction(1, 1))
        """
        found = _TYPED.fullmatch(text)
        return self.sisters.get(found[2].lower().rstrip("."), Fraction(1)) if found else Fraction(1)

    def show(self, value: float | Fraction, places: int) -> str:
        """The number with its unit, as an answer is printed."""
        number = f"{float(value):.{places}f}"
        return f"{number} {self.words}" if self.words else number


_WEIGHT = {  # in grams
    "lb": POUND, "lbs": POUND, "pound": POUND, "pounds": POUND, "oz": POUND / 16, "ounce": POUND / 16, "ounces": POUND / 16,
    "g": Fraction(1), "gram": Fraction(1), "grams": Fraction(1), "kg": Fraction(1000),
}  # fmt: skip


def _weight(name: str, words: str) -> Unit:
    sisters = {word: grams / _WEIGHT[name] for word, grams in _WEIGHT.items()}
    return Unit(name, words, f"A weight in {words}", {**sisters, "": Fraction(1)})


def _plain(name: str, words: str, asked: str, *also: str) -> Unit:
    return Unit(name, words, asked, {word: Fraction(1) for word in ("", words, *also)})


_FOOT = Fraction(3048, 10000)
UNITS = {
    unit.name: unit
    for unit in (
        _plain("deg", "degrees", "An angle in degrees", "deg", "degree", "°", "º"),
        _weight("lb", "pounds"),
        _weight("oz", "ounces"),
        _weight("g", "grams"),
        Unit(
            "lb/ft",
            "pounds a foot",
            "A weight for each foot, in pounds",
            {"": Fraction(1), "lb/ft": Fraction(1), "pounds a foot": Fraction(1), "kg/m": 1000 * _FOOT / POUND, "g/m": _FOOT / POUND},
        ),
        _plain("count", "", "A number", "pieces", "piece", "cuts", "cut", "blanks", "blank", "sticks", "stick", "holes", "times"),
        _plain("D", "diameters", "A number of diameters", "d", "diameter", "dia"),
        _plain("percent", "percent", "A number of percent", "%", "per cent"),
        _plain("hours", "hours", "A time in hours", "h", "hour"),
        _plain("minutes", "minutes", "A time in minutes", "min", "minute"),
        _plain("K", "kelvin", "A difference of temperature in kelvin", "k"),
    )
}
"""The units by name."""
