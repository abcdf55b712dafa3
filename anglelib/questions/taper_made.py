"""Questions about a taper's place and about a taper that was made: which leg and end, and which slip explains its readings.

>>> which_line(Placed("B", 1)).answer
'R'
>>> Placed("B", 1, (2, 0, 1, 3)).letter
'P'
"""

from __future__ import annotations

from dataclasses import dataclass

from anglelib.drawing.angle_views import NAMES, PLACES
from anglelib.geometry.taper import taper_lines
from anglelib.inspection.made import MadeTaper
from anglelib.inspection.mistakes import MISTAKES
from anglelib.job import Shop
from anglelib.lengths import both
from anglelib.part import Part
from anglelib.questions.fresh import Numbers, fresh_part, seeds
from anglelib.questions.question import ChoiceQuestion, WrongAnswer

WRONG_LEG, OTHER_END = "M09", "M10"


@dataclass(frozen=True)
class Placed:
    """A taper's leg and end, and how the four places carry their letters."""

    leg: str
    end: int
    order: tuple[int, ...] = (0, 1, 2, 3)

    @property
    def letter(self) -> str:
        """The letter of the place that is meant."""
        return NAMES[self.order.index(PLACES.index((self.leg, self.end)))]


def which_line(placed: Placed, id: str = "which-line") -> ChoiceQuestion:
    """Which of four lines is the taper of a leg at an end."""
    wrong = []
    for place in PLACES:
        if place == (placed.leg, placed.end):
            continue
        letter = Placed(*place, placed.order).letter
        leg, end = place
        if leg == placed.leg:
            slip, sentence = OTHER_END, f"That is leg {leg}, but end {end}. End 1 is the datum."
        elif end == placed.end:
            slip, sentence = WRONG_LEG, f"That is end {end}, but leg {leg}: it would be the other hand."
        else:
            slip, sentence = "wrong-leg-and-end", f"That is leg {leg} at end {end}. Turned end for end, equal legs, it is the same metal; but the holes are laid out from end 1."
        wrong.append(WrongAnswer(slip, letter, sentence))
    return ChoiceQuestion(
        id,
        f"“Leg {placed.leg} tapered at end {placed.end}.” Which line is meant?",
        NAMES,
        placed.letter,
        tuple(wrong),
        hints=("First find end 1 by its sign, then the leg by its name.",),
        working="Write the leg and the end on the metal before the first mark.",
    )


@dataclass(frozen=True)
class MadeWrong:
    """A part, and the slip its taper was made with."""

    part: Part
    id: str

    @property
    def made(self) -> MadeTaper:
        """The taper as the slip makes it: a middling amount where the amount is free."""
        return made_by(self.part, self.id)


SLIPS = {
    "M13": "sawn on the part's side of the line",
    "M14": "the saw drifted",
    "M15": "the saw leaned",
    "M19": "the run laid along the slope",
    "M20": "run and height exchanged",
}


def made_by(part: Part, id_: str) -> MadeTaper:
    """A taper as a slip makes it, at a plain amount of it."""
    cases = MISTAKES[id_].cases(part, Shop())
    if id_ == "M14":  # from the toe, and too little cut away: a start that is right
        cases = tuple(case for case in cases if case.way == "toe" and -3 < case.amount <= -2) or cases
    if id_ == "M15":
        cases = tuple(case for case in cases if abs(case.amount - 8.5) < 0.05) or cases
    return cases[0].made.tapers[0]


def readings(part: Part, made: MadeTaper) -> str:
    """What a rule and a square read on a taper as made."""
    line = taper_lines(part)[0]
    left = float(line.width) - made.at_toe / made.slope
    inside = (
        f"the inside edge stands {both(made.tilt * float(line.section.thickness(line.leg)))} outside the outside edge, all along"
        if made.tilt
        else "the cut is square to the face"
    )
    return f"run {both(made.at_toe)}, width left {both(left)}, and {inside}"


def which_slip(thing: MadeWrong, id: str = "which-slip") -> ChoiceQuestion:
    """Which slip made a taper what it reads; every other choice says what it would have read."""
    part, line = thing.part, taper_lines(thing.part)[0]
    wrong = tuple(
        WrongAnswer(id_, id_, f"That would read: {readings(part, made_by(part, id_))}.") for id_ in SLIPS if id_ != thing.id
    )
    return ChoiceQuestion(
        id,
        f"Wanted on leg {line.leg} at end {line.end}: run {both(line.run)}, width left {both(line.width_left)}. Made: {readings(part, thing.made)}. Which slip explains it?",
        SLIPS,
        thing.id,
        wrong,
        hints=("What is right on it, and what is not: the run, the width left, the angle, the face?",),
        working=f"{MISTAKES[thing.id].sentence} {MISTAKES[thing.id].remedy}",
    )


def fresh_placed(seed: str) -> Placed:
    """A leg, an end, and letters in any order."""
    numbers = Numbers(f"{seed}, placed")
    left, order = [0, 1, 2, 3], []
    while left:
        order.append(left.pop(left.index(numbers.pick(left))))
    leg, end = numbers.pick(PLACES)
    return Placed(leg, end, tuple(order))


def fresh_made(seed: str) -> MadeWrong:
    """A practice part whose taper was made with one slip; one on which every slip can be made."""
    id_ = Numbers(f"{seed}, made").pick(tuple(SLIPS))
    for tried in seeds(f"{seed}, made"):
        part = fresh_part(tried, ends_in="flat", legs="AB")
        if all(MISTAKES[slip].cases(part, Shop()) for slip in SLIPS):
            return MadeWrong(part, id_)
    raise AssertionError  # seeds never end
