"""Questions about the blade and the warm part: kerf from its teeth and from a test cut, risk, teeth in the metal, heat.

>>> print(test_cut(TestCut(Fraction(6), (Fraction("2.972"), Fraction("2.962")))).working)
6.000 less 2.972 and 2.962 is 0.066: metal that is in neither piece, the kerf.
>>> coarsest_blade(Fraction(1, 8)).answer_text
'18 to the inch'
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.blade_view import Blade, Teeth
from anglelib.geometry.allowance import Saw, growth
from anglelib.geometry.teeth import BLADES, TEETH_IN_METAL, least_teeth
from anglelib.lengths import decimal, exact
from anglelib.questions.question import MUCH, WIDE, ChoiceQuestion, LengthQuestion, NumberQuestion, WrongAnswer

HOT = "M25"
LINE_IS_END = "saw-on-line"
THOUSANDTHS = Fraction(3, 1000)
"""How near a length by the caliper must come to count as right [in]."""


@dataclass(frozen=True)
class TestCut:
    """A scrap's length before a cut, and its two pieces' lengths after it, by caliper [in]."""

    before: Fraction
    pieces: tuple[Fraction, Fraction]

    __test__ = False  # nothing for pytest to collect

    @property
    def kerf(self) -> Fraction:
        """What is in neither piece [in]."""
        return self.before - sum(self.pieces)


@dataclass(frozen=True)
class CaliperQuestion(LengthQuestion):
    """A length in thousandths, as a caliper shows it: no fraction of a rule stands for it."""

    @property
    def answer_text(self) -> str:
        """The right answer in thousandths."""
        return decimal(self.answer)


def kerf_of_blade(blade: Blade, id: str = "kerf-of-a-blade") -> CaliperQuestion:
    """The kerf from gauge and set."""
    g, s = blade.gauge, blade.set
    return CaliperQuestion(
        id,
        f"A blade's back is {decimal(g)} thick. One tooth is bent {decimal(s)} out to the left, the next {decimal(s)} to the right. "
        "How wide is the slot that it cuts, in thousandths?",
        blade.kerf,
        tolerance=THOUSANDTHS,
        thousandths=True,
        sides=WIDE,
        wrong=(
            WrongAnswer("gauge-as-kerf", g, "That is the blade's back. If the slot were no wider, the blade would jam in it."),
            WrongAnswer("set-one-side", g + s, "That counts the set on one side only. Every other tooth is bent the other way."),
            WrongAnswer("set-twice", g + 4 * s, "The set on each side counts once."),
        ),
        hints=("How far does a tooth stand out at the left, and the next at the right?",),
        working=f"{decimal(g)} and twice {decimal(s)}: {decimal(blade.kerf)}.",
    )


def test_cut(test: TestCut, id: str = "kerf-from-a-test-cut") -> CaliperQuestion:
    """The kerf from a length measured before a cut, and the two pieces after it."""
    one, two = test.pieces
    return CaliperQuestion(
        id,
        f"A piece of scrap, its ends filed square, is {decimal(test.before)} long by the caliper. It is sawn in two. The pieces, burrs off, are "
        f"{decimal(one)} and {decimal(two)}. What is the kerf, in thousandths?",
        test.kerf,
        tolerance=THOUSANDTHS,
        thousandths=True,
        sides=WIDE,
        wrong=(
            WrongAnswer("no-second-piece", test.before - one, "There are two pieces: take off both."),
            WrongAnswer("no-second-piece", test.before - two, "There are two pieces: take off both."),
            WrongAnswer("half-kerf", test.kerf / 2, "That is half of it. One cut took the whole of what is missing."),
            WrongAnswer("kerf-doubled", 2 * test.kerf, "There was one cut: what is missing is one kerf."),
            WrongAnswer("difference-of-pieces", abs(one - two), "That tells how far the cut was from the middle, not how wide it is."),
        ),
        hints=("Both pieces together: how much less is it than before?",),
        working=f"{decimal(test.before)} less {decimal(one)} and {decimal(two)} is {decimal(test.kerf)}: metal that is in neither piece, the kerf.",
    )


test_cut.__test__ = False  # type: ignore[attr-defined]


def crossing_at_the_line(saw: Saw, id: str = "set-on-the-line") -> NumberQuestion:
    """How many of a hundred cuts cross a line that the saw is set on."""
    right = 100 * saw.risk(0.0)
    return NumberQuestion(
        id,
        "You set the near side of the blade exactly on the line, with no allowance, a hundred times. Your cuts scatter by about a hundredth of an "
        "inch and are never quite parallel to the line. How many of the hundred go over the line somewhere along the edge?",
        right,
        "count",
        Fraction(4),
        wrong=(
            WrongAnswer(LINE_IS_END, Fraction(0), "Only a saw that never strays stays off a line that it is set on.", nothing=True),
            WrongAnswer(
                "one-place-of-cut",
                Fraction(50),
                "Half go over in one place. But a cut that is safe at one end may be over at the other: more than half cross somewhere.",
            ),
            WrongAnswer("twice-the-scatter", Fraction(5), "Five of a hundred lie beyond twice the scatter from where the saw is set. It is set on the line."),
        ),
        working="Half of them in the middle, and some more that are turned.",
        places=0,
    )


def metal_heel_up(teeth: Teeth, id: str = "metal-heel-up") -> CaliperQuestion:
    """How much metal a blade sees in a leg that slopes at 45 degrees."""
    t = teeth.thickness
    return CaliperQuestion(
        id,
        f"Both legs are {exact(t)} thick and alike. The angle stands heel up on its toes, so each leg slopes at 45 degrees, and the blade goes straight "
        "down. How much metal has it in front of it in one leg, top to bottom?",
        teeth.heel_up,
        tolerance=Fraction(1, 80),
        sides=MUCH,
        wrong=(
            WrongAnswer("thickness-square", t, "That is square through the leg. The blade goes through it on the slant."),
            WrongAnswer("both-legs", 2 * t, "It is in one leg, and later in the other; at the heel alone there is more."),
            WrongAnswer("slant-shorter", float(t) ** 2 / teeth.heel_up, "On the slant the way through is longer, not shorter."),
        ),
        hints=("A square of that side: how long is its diagonal?",),
        working=f"The diagonal of a square of {exact(t)}: 1.41 times {exact(t)}, {decimal(teeth.heel_up)}.",
    )


def coarsest_blade(t: Fraction, id: str = "coarsest-blade") -> ChoiceQuestion:
    """The coarsest of the common blades that keeps two teeth in a thickness."""
    least = least_teeth(t)
    right = next(blade for blade in BLADES if blade >= least)
    place = BLADES.index(right)
    offered = BLADES[max(0, place - 2) : place + 2]
    wrong = [
        WrongAnswer(
            "too-few-teeth",
            str(blade),
            f"{blade} to the inch puts {float(t) * blade:.2f} teeth into {exact(t)}: fewer than {TEETH_IN_METAL}, and a tooth may hook over the edge.",
        )
        for blade in offered
        if blade < least
    ]
    wrong += [
        WrongAnswer("too-fine", str(blade), f"It would do, but {right} to the inch is coarser and still keeps two teeth in the metal.")
        for blade in offered
        if blade > right
    ]
    return ChoiceQuestion(
        id,
        f"A leg {exact(t)} thick lies flat on the table. At least two teeth should be in the metal at once. Which is the coarsest blade that will do?",
        {str(blade): f"{blade} to the inch" for blade in offered},
        str(right),
        tuple(wrong),
        hints=(f"Two teeth in {exact(t)}: how many in a whole inch?",),
        working=f"2 teeth in {exact(t)} are {least:g} to the inch; the next blade made is {right}.",
    )


def cold_length(length: Fraction, kelvin: int, id: str = "cold-length") -> CaliperQuestion:
    """How long a part is when cold that was sanded to its length warm."""
    cold = float(length) - growth(float(length), kelvin)
    return CaliperQuestion(
        id,
        f"A bar is sanded to {exact(length)} while it is {kelvin} degrees Celsius warmer than the shop, all along. Aluminium grows by 23.6 millionths of its length a "
        "degree. How long is it tomorrow, to 0.001?",
        cold,
        tolerance=Fraction(4, 1000),
        wrong=(
            WrongAnswer(HOT, length, "That was its length warm. Aluminium grows with heat, and shrinks back as it cools."),
            WrongAnswer("shrinking-as-growing", 2 * float(length) - cold, "It shrinks as it cools."),
            WrongAnswer(HOT, float(length) - 10 * (float(length) - cold), "A nought too many: 23.6 millionths, times the length, times the degrees."),
        ),
        hints=("23.6 millionths, times the length, times the degrees.",),
        working=f"It shrinks by {decimal(float(length) - cold)} to {decimal(cold)}: about a sixty-fourth. So measure cold.",
    )
