"""The questions of lesson 00: the places of an angle, what the wrong corner costs, running dimensions.

>>> ask = comes_out(Measure(Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), Fraction(11, 16), "inside-corner"))
>>> ask.answer_text
'13/16 (0.813)'
>>> print(gap(fresh_holes("a seed"), "gap").prompt)
Floor bar, 5 1/4 long. Running dimensions from end 1: hole P at 1 9/16, hole Q at 4 9/16, end 2 at 5 1/4. How far apart are P and Q?
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.drawing.corner import CORNER_PLACE, EDGE_PLACE, PLACES, lands
from anglelib.drawing.disc import HALVES, coming_up, running_down
from anglelib.drawing.place_names import MEANINGS, NUMBERED, WORDS, called
from anglelib.drawing.running import lettered
from anglelib.lengths import both, exact, show
from anglelib.part import Hole, Part
from anglelib.questions.choice import number_id
from anglelib.questions.fresh import Numbers, fresh_part
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.questions.taken_for import PLACES as TAKEN_FOR
from anglelib.questions.taken_for import slip_of
from anglelib.section import Section

ONE_INCH, WRONG_END, FROM_INSIDE = "M07", "M17", "M11"
_SECTION = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
CHAIN, AS_GAP = "running-added", "running-as-gap"


# --- what the reader brings -----------------------------------------------------------------------------
def longest_fraction(id: str = "longest-fraction") -> ChoiceQuestion:
    """Whether fractions of an inch can be compared."""
    coarse, longest, large = lengths = [Fraction(5, 8), Fraction(11, 16), Fraction(39, 64)]
    return ChoiceQuestion(
        id,
        f"Which is the longest: {', '.join(map(exact, lengths))}?",
        {number_id(x): exact(x) for x in lengths},
        number_id(longest),
        wrong=(
            WrongAnswer(
                "large-figures",
                number_id(large),
                "Large figures are not a long length: a 64th is small. As 64ths they are 40, 44 and 39.",
            ),
            WrongAnswer("coarse-as-longest", number_id(coarse), "5/8 is 10/16, one 16th less than 11/16."),
        ),
        hints=("Say all three in 64ths.",),
        working="In 64ths they are 40, 44 and 39.",
    )


def from_one_inch(id: str = "from-the-1-inch-mark") -> LengthQuestion:
    """A rule that begins at its 1-inch mark."""
    read = Fraction(43, 8)
    return LengthQuestion(
        id,
        f"The end of a rule is worn, so its 1-inch mark is laid on end 1. End 2 is at {show(read)} on the rule. How long is the part?",
        read - 1,
        wrong=(
            WrongAnswer(ONE_INCH, read, "That is the figure on the rule. It began at 1, so an inch has to come off."),
            WrongAnswer(ONE_INCH, read + 1, "The inch was added. The rule began at 1, so the inch comes off."),
        ),
        hints=("Where would end 1 be if the part had no length?",),
        working=f"{show(read)} less the inch it began with: {both(read - 1)}.",
    )


def how_many_corners(id: str = "how-many-corners") -> ChoiceQuestion:
    """How many places "the corner" may mean."""
    return ChoiceQuestion(
        id,
        "Somebody says: “measure from the corner.” How many different places on an angle may be meant?",
        ("one", "two", "four"),
        "four",
        wrong=(
            WrongAnswer("one-corner", "one", "The corner you see from inside is not the corner you see from outside: metal lies between."),
            WrongAnswer("two-corners", "two", "Outside and inside, yes. But the inside one is rounded, and the rounding begins twice."),
        ),
        hints=("Look at the picture above: where does the inside stop being flat?",),
        working="The heel outside; the inside corner; and where the rounding begins, on either leg.",
    )


# --- the places -----------------------------------------------------------------------------------------
def which_is_the_heel(id: str = "which-is-the-heel") -> ChoiceQuestion:
    """Which of the numbered lines is the heel."""
    numbers = tuple(str(n) for n in range(1, len(NUMBERED) + 1))
    return ChoiceQuestion(
        id,
        "Four lines run along the part, numbered. Which one would you call the heel?",
        numbers,
        str(NUMBERED.index("heel") + 1),
        wrong=tuple(
            WrongAnswer(slip_of(place, "heel"), number, f"{number} is {called(place)}, {MEANINGS[place]}.")
            for number, place in zip(numbers, NUMBERED)
            if place != "heel"
        ),
        hints=("Stand the angle up like a boot, seen from the side.",),
        working=f"The heel is {MEANINGS['heel']}. As on a foot, the toes are at the far ends.",
    )


def how_many_vertices(id: str = "how-many-vertices") -> ChoiceQuestion:
    """What tells the vertex from the heel."""
    return ChoiceQuestion(
        id,
        "The heel is a line as long as the part. How many vertices has a part?",
        {"one": "one", "two": "two", "any": "as many as you like"},
        "two",
        wrong=(
            WrongAnswer("vertex-of-one-end", "one", "There is one at each end, and a part has two ends."),
            WrongAnswer(slip_of("heel", "vertex"), "any", "Only the heel's two end points are vertices; between them it is the heel."),
        ),
        hints=(f"The vertex is {MEANINGS['vertex']}.",),
        working="One at end 1 and one at end 2.",
    )


@dataclass(frozen=True)
class Pointed:
    """A practice part and a place of it, by its id."""

    part: Part
    place: str


def fresh_place(seed: str) -> Pointed:
    """A practice part with a place to be named."""
    numbers = Numbers(f"{seed}, place")
    return Pointed(fresh_part(seed, ends_in="flat"), numbers.pick(tuple(MEANINGS)))


def name_the_place(pointed: Pointed, id: str = "name-the-place") -> ChoiceQuestion:
    """The name of the place that is drawn in the accent."""
    place = pointed.place
    offered = sorted((place, *TAKEN_FOR[place]), key=WORDS.__getitem__)
    size = pointed.part.section.size
    return ChoiceQuestion(
        id,
        f"Practice bracket, {size}, {exact(pointed.part.length)} long, tapered at end 1. What is the marked place called?",
        {other: WORDS[other] for other in offered},
        place,
        wrong=tuple(
            WrongAnswer(slip_of(other, place), other, f"{called(other)[0].upper()}{called(other)[1:]} is {MEANINGS[other]}.")
            for other in offered
            if other != place
        ),
        hints=(f"It is {MEANINGS[place]}.",),
        working=f"It is {MEANINGS[place]}.",
    )


# --- the corner -------------------------------------------------------------------------------------------
def from_where(y: Fraction, id: str = "from-where") -> ChoiceQuestion:
    """From which place a height across a leg is measured."""
    reasons = {
        "inside-corner": "On this metal it is inside the fillet: no rule reaches it. Nor is it the same on a thicker angle.",
        "fillet-edge": "Where a fillet begins is hard to see, and every extruder has another radius.",
        "toe": "Toes are sawn and filed: a height from there would change with the taper.",
    }
    return ChoiceQuestion(
        id,
        f"The plans put a hole {show(y)} across leg A, and say no more. From which place do you measure?",
        PLACES,
        "heel",
        wrong=tuple(WrongAnswer(slip_of(place, "heel"), place, sentence) for place, sentence in reasons.items()),
        hints=("Which of the four is sharp, outside, and the same on every thickness?",),
        working="The heel is sharp, lies outside where a square can be hooked, and is the same for every thickness and radius.",
    )


@dataclass(frozen=True)
class Measure:
    """A height wanted across leg A of a section, and the id of the place from which it was measured."""

    section: Section
    y: Fraction
    place: str


def fresh_measure(seed: str, place: str = CORNER_PLACE) -> Measure:
    """A height measured from a wrong place of a practice section."""
    section = fresh_part(seed).section
    low = Fraction(3, 8)
    high = section.leg_a - section.thickness("B") - section.fillet - Fraction(1, 8)
    return Measure(section, Numbers(f"{seed}, height").length(low, high, Fraction(1, 16)), place)


def comes_out(measure: Measure, id: str = "comes-out") -> LengthQuestion:
    """How far from the heel a hole comes out that was measured from another place."""
    section, y, place = measure.section, measure.y, measure.place
    t, r = section.thickness("B"), section.fillet
    answer = lands(section, y, place)
    corner, edge = PLACES[CORNER_PLACE], PLACES[EDGE_PLACE]
    further = t if place == CORNER_PLACE else t + r
    slips = [
        ("no-difference", y, f"{exact(y)} is what was wanted. The rule began {exact(further)} further in than the heel."),
        ("taken-off", y - further, f"A rule that begins {exact(further)} further in also ends {exact(further)} further out: it adds."),
        ("own-place-only", y + r, f"This comes out when only the fillet is counted. Under it lies the thickness of leg B, {exact(t)}."),
    ]
    if place == CORNER_PLACE:
        slips.append(
            (FROM_INSIDE, y + t + r, f"That is from {edge}. The inside corner is where the inner faces would meet: the fillet adds nothing.")
        )
    else:
        slips.append((FROM_INSIDE, y + t, f"That is from {corner}. The fillet's edge is {exact(r)} further in."))
    parts = f"the thickness of leg B, {exact(t)}" if place == CORNER_PLACE else f"thickness and fillet, {exact(t)} and {exact(r)}"
    return LengthQuestion(
        id,
        f"Angle {section.size}, fillet {exact(r)}. A hole is wanted {exact(y)} from the heel on leg A. Somebody measures {exact(y)} "
        f"from {PLACES[place]}. How far from the heel is the hole?",
        answer,
        wrong=tuple(WrongAnswer(slip, number, sentence) for slip, number, sentence in slips if number > 0),
        hints=(f"How far is {PLACES[place]} from the heel?", f"It is {parts}."),
        working=f"From the heel to {PLACES[place]} it is {exact(further)}: {parts}. {exact(y)} more is {both(answer)}.",
    )


# --- running dimensions ---------------------------------------------------------------------------------
def fresh_holes(seed: str) -> Part:
    """A square bar with two holes in leg A."""
    numbers = Numbers(f"{seed}, holes")
    section = Section("3/4", "3/4", "1/8", fillet="1/8")
    length = numbers.length(Fraction(4), Fraction(9), Fraction(1, 8))
    first = numbers.length(Fraction(1, 2), length / 3, Fraction(1, 16))
    second = numbers.length(first + Fraction(3, 4), length - Fraction(3, 8), Fraction(1, 16))
    holes = [Hole("A", x, "7/16", "1/8") for x in (first, second)]
    return Part("P1", "Floor bar", section, "6061-T6", length, holes=holes)


def _rows(part: Part) -> str:
    named = [f"hole {letter} at {exact(hole.x)}" for letter, hole in lettered(part)]
    return f"{part.name}, {exact(part.length)} long. Running dimensions from end 1: {', '.join(named)}, end 2 at {exact(part.length)}."


def gap(part: Part, id: str = "gap") -> LengthQuestion:
    """How far apart two holes are, from their running dimensions."""
    (p, one), (q, two) = lettered(part)[:2]
    return LengthQuestion(
        id,
        f"{_rows(part)} How far apart are {p} and {q}?",
        two.x - one.x,
        wrong=(
            WrongAnswer(AS_GAP, two.x, f"{exact(two.x)} is from end 1 to {q}. A running dimension does not begin at the hole before."),
            WrongAnswer(CHAIN, one.x + two.x, f"Added up, they would be a chain. Both run from end 1: {p} lies on the way to {q}."),
            WrongAnswer(
                WRONG_END, part.length - two.x, f"That is from {q} to end 2. Asked is the way from {p} to {q}."
            ),
        ),
        hints=("Both figures begin at end 1.", f"From end 1 it is {exact(two.x)} to {q}, and {exact(one.x)} of that to {p}."),
        working=f"{exact(two.x)} less {exact(one.x)}: {both(two.x - one.x)}.",
    )


def to_end_2(part: Part, id: str = "to-end-2") -> LengthQuestion:
    """How far the last hole is from end 2."""
    (p, one), (q, two) = lettered(part)[-2:]
    return LengthQuestion(
        id,
        f"{_rows(part)} How far is {q} from end 2?",
        part.length - two.x,
        wrong=(
            WrongAnswer("from-datum", two.x, f"{exact(two.x)} is from end 1, the datum. The rest of the length is asked."),
            WrongAnswer(
                CHAIN,
                part.length - two.x - one.x,
                f"This comes out when {p} and {q} are added up as a chain. The figure at {q} is already the whole way from end 1.",
            ),
            WrongAnswer("wrong-hole", part.length - one.x, f"That is from {p} to end 2."),
        ),
        hints=(f"From end 1 it is {exact(two.x)} to {q}, and {exact(part.length)} to end 2.",),
        working=f"{exact(part.length)} less {exact(two.x)}: {both(part.length - two.x)}.",
    )


def last_step(part: Part, id: str = "last-step") -> LengthQuestion:
    """The way to end 2 with its first step done: a worked example whose last step is left out."""
    full = to_end_2(part, id)
    q, two = lettered(part)[-1]
    return replace(
        full,
        prompt=f"{_rows(part)} First step, done: the figure at {q}, {exact(two.x)}, is the whole way from end 1. Your step: how far "
        f"is {q} from end 2?",
    )


# --- safety -----------------------------------------------------------------------------------------------
def which_half(turn: str, id: str = "which-half") -> ChoiceQuestion:
    """On which half of a disc sander's table the work is held."""
    right, other = running_down(turn), coming_up(turn)
    return ChoiceQuestion(
        id,
        f"A disc sander, seen from the front, turns {turn}. On which half of the table do you hold the work?",
        {**{half: f"the {words}" for half, words in HALVES.items()}, "middle": "in the middle"},
        right,
        wrong=(
            WrongAnswer("half-coming-up", other, "There the disc comes up: it lifts the work off the table and throws it."),
            WrongAnswer("disc-middle", "middle", "At the middle the disc hardly moves, and beside it one half pulls the work up."),
        ),
        hints=("The table can hold the work up; nothing holds it down.",),
        working="There the disc presses the work on to the table.",
    )


EXERCISES = {
    "name": Series(name_the_place, "00-name-the-place", fresh=fresh_place),
    "corner": Series(comes_out, "00-the-wrong-corner", ("no-difference", "taken-off", FROM_INSIDE), fresh=fresh_measure),
    "edge": Series(
        comes_out,
        "00-the-fillet-edge",
        ("no-difference", "taken-off", FROM_INSIDE),
        seed="00 the fillet's edge",
        fresh=fresh_measure,
        place=EDGE_PLACE,
    ),
    "gap": Series(gap, "00-running-dimensions", (AS_GAP, CHAIN), fresh=fresh_holes),
}
"""The lesson's exercises by name, in order: ``EXERCISES["gap"][3]`` is the fourth set of numbers."""
QUESTIONS = {
    "longest-fraction": longest_fraction,
    "from-the-1-inch-mark": from_one_inch,
    "how-many-corners": how_many_corners,
    "which-is-the-heel": which_is_the_heel,
    "how-many-vertices": how_many_vertices,
    "from-where": lambda: from_where(Fraction(11, 16)),
    "predict-the-hole": lambda: comes_out(Measure(_SECTION, Fraction(11, 16), CORNER_PLACE), "predict-the-hole"),
    "predict-the-gap": lambda: gap(fresh_holes("a bar"), "predict-the-gap"),
    "to-end-2": lambda: to_end_2(fresh_holes("a bar")),
    "last-step": lambda: last_step(fresh_holes("a bar")),
    "which-half": lambda: which_half("anticlockwise", "predict-the-half"),
    **{name: (lambda series=series: series[0]) for name, series in EXERCISES.items()},
}
"""Every question of the lesson with usual things."""
