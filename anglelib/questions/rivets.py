"""Questions about rivets on an angle: the row whose heads clear the fillet, whether there is one, how long a rivet is.

>>> from anglelib.section import Section
>>> row(Section("3/4", "3/4", "1/8", fillet="1/8"), Fraction(1, 8)).answer_text, rivet().answer_text
('3/8 (0.375)', '3/8 (0.375)')
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.geometry.fasteners import rivet_length
from anglelib.geometry.holes import PLAIN, row_band
from anglelib.lengths import both, exact
from anglelib.questions.fresh import Numbers, fresh_part, seeds
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.section import Section, other_leg

HALF = Fraction(1, 128)
RIVETS = (Fraction(3, 32), Fraction(1, 8), Fraction(5, 32), Fraction(3, 16))
"""Diameters that the lessons use [in]."""


def row(section: Section, diameter: Fraction, id: str = "row", leg: str = "A") -> LengthQuestion:
    """The lowest row on a leg whose heads clear the fillet."""
    t, r = section.thickness(other_leg(leg)), section.fillet
    right = row_band(section, leg, diameter)[0]
    return LengthQuestion(
        id,
        f"Angle {section.size}, fillet {exact(r)}. A rivet of {exact(diameter)} has a head twice as wide. How far from the heel, outside, is the lowest row whose heads clear the fillet?",
        right,
        tolerance=HALF,
        wrong=(
            WrongAnswer("no-head", t + r, "There the centre would be where the fillet ends, and half the head on it."),
            WrongAnswer("no-fillet", t + diameter, "The inside corner is no corner: the fillet fills it."),
            WrongAnswer("rivet-as-head", t + r + diameter / 2, "That is half the rivet. Half of its head is a whole diameter."),
            WrongAnswer("whole-head", t + r + 2 * diameter, "From the centre to the head's edge it is half a head: one diameter."),
            *by_mistakes(Asked(right, height_over=(t, r), measured=True), "M11", "M08"),
        ),
        hints=("From the heel: the other leg's thickness, the fillet, half a head.",),
        working=f"{exact(t)}, {exact(r)} and {exact(diameter)}: {both(right)}. With 2 diameters beyond it the leg must be {exact(right + PLAIN * diameter)} wide at least.",
    )


def band(section: Section, diameter: Fraction, id: str = "band") -> ChoiceQuestion:
    """Whether there is a legal row on a leg for a rivet."""
    low, high = row_band(section, "A", diameter)
    words = {"yes": "yes, one line or a band", "no": "no place at all", "on-fillet": "yes, if the head may sit on the fillet"}
    right, other = ("yes", "no") if high >= low else ("no", "yes")
    wrong = [
        WrongAnswer("head-on-fillet", "on-fillet", "A head on the fillet stands on its edge: it bends, and it does not draw the parts together."),
        WrongAnswer(
            "any-rivet-any-leg",
            other,
            f"The row whose heads clear the fillet is {both(low)} from the heel, the last with 2 diameters to the toe {both(high)}.",
        ),
    ]
    return ChoiceQuestion(
        id,
        f"Angle {section.size}, fillet {exact(section.fillet)}. Is there a legal row for {exact(diameter)} rivets on its leg?",
        words,
        right,
        wrong=tuple(wrong),
        hints=("The lowest row by the head, the highest by the toe.",),
        working=f"Lowest {both(low)}, highest {both(high)} from the heel"
        + (". An empty region is an answer: a smaller rivet or a wider leg, and that is for the plans." if high < low else "."),
    )


@dataclass(frozen=True)
class Joint:
    """Two metals riveted together [in], and the rivet's diameter."""

    one: Fraction
    two: Fraction
    diameter: Fraction

    @property
    def grip(self) -> Fraction:
        """All the metal that the rivet passes through [in]."""
        return self.one + self.two


def fresh_joint(seed: str) -> Joint:
    """A joint of an angle and a sheet from a seed.

    >>> fresh_joint("a seed") == fresh_joint("a seed")
    True
    """
    numbers = Numbers(seed)
    return Joint(numbers.pick((Fraction(1, 16), Fraction(1, 8), Fraction(3, 16))), numbers.pick((Fraction(1, 32), Fraction(1, 16), Fraction(3, 32), Fraction(1, 8))), numbers.pick(RIVETS))


JOINT = Joint(Fraction(1, 8), Fraction(1, 16), Fraction(1, 8))


def rivet(joint: Joint = JOINT, id: str = "rivet-length") -> LengthQuestion:
    """How long a rivet is for a joint."""
    g, D = joint.grip, joint.diameter
    right = rivet_length(g, D)
    return LengthQuestion(
        id,
        f"An angle {exact(joint.one)} thick and a sheet of {exact(joint.two)} are joined by {exact(D)} rivets. How long is the rivet before it is driven?",
        right,
        tolerance=HALF,
        wrong=(
            WrongAnswer("nothing-to-drive", g, "That is the grip. Nothing would stand out to make the tail of."),
            WrongAnswer("one-diameter-tail", g + D, "One diameter is too little for the tail: one and a half."),
            WrongAnswer("two-diameter-tail", g + 2 * D, "Two diameters bend over: one and a half."),
            WrongAnswer("grip-of-one", joint.one + D * 3 / 2, "The grip is all the metal it passes through, the sheet too."),
            *by_mistakes(Asked(right, measured=True), "M08"),
        ),
        hints=("The grip is both metals together.", "Grip, and one and a half diameters."),
        working=f"Grip {exact(g)}, and 1 1/2 times {exact(D)}: {both(right)}.",
    )


@dataclass(frozen=True)
class RowOf:
    """A section and the rivet that a row is for."""

    section: Section
    diameter: Fraction


def fresh_row(seed: str) -> RowOf:
    """A stocked section and a rivet that has a legal row on it.

    >>> fresh_row("a seed") == fresh_row("a seed")
    True
    """
    for tried in seeds(f"{seed}, row"):
        found = RowOf(fresh_part(tried).section, Numbers(tried).pick(RIVETS))
        low, high = row_band(found.section, "A", found.diameter)
        if high > low:
            return found
    raise AssertionError  # seeds never end
