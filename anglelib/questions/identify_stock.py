"""The questions of lesson 01: what a caliper reads, which section and which alloy a stick is, and what its weight can say.

>>> ask = read_caliper(Reading("an off-cut", Caliper("99/128")))
>>> ask.answer_text, [str(wrong.answer) for wrong in ask.wrong][:3]
('99/128 (0.773)', ['3/4', '107/128', '51/64'])
>>> foot_weighs(Section("3/4", "3/4", "1/8", fillet="1/8")).answer_text
'0.205 pounds a foot'
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.alloy import density
from anglelib.drawing.caliper_reading import LINE, SIXTEENTH, TENTH, THOUSANDTH, Caliper
from anglelib.drawing.radius_gauge import light
from anglelib.geometry.lazy import formulas
from anglelib.geometry.weighing import Weighing
from anglelib.lengths import both, decimal, exact
from anglelib.questions import recall
from anglelib.questions.choice import number_id
from anglelib.questions.fresh import Numbers
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import HIGH, WIDE, ChoiceQuestion, LengthQuestion, NumberQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.questions.start_here import from_where
from anglelib.section import Section
from anglelib.stock.rack import Stick

MISREAD, FROM_INSIDE, SECTION, ALLOY = "M08", "M11", "M23", "M24"
PLAIN = Section("3/4", "3/4", "1/8", fillet="1/8")
SQUARE = Section("3/4", "3/4", "1/8")


# --- the first trap -------------------------------------------------------------------------------------
def which_of_two(section: Section = PLAIN, id: str = "which-of-two") -> ChoiceQuestion:
    """Two pieces of one size, one of them square inside, neither marked: which may be cut?"""
    return ChoiceQuestion(
        id,
        f"The plans say {section.size}, fillet {exact(section.fillet)}, 6061-T6. Two pieces lie on the bench. The caliper reads the same on both, and "
        "neither has a mark. Which one may you cut?",
        {"P": "P", "Q": "Q", "either": "either", "neither": "neither yet"},
        "neither",
        wrong=(
            WrongAnswer(SECTION, "P", "P is square inside. That is another section, and usually another alloy: architectural bar, 6063."),
            WrongAnswer(ALLOY, "Q", "Q has the right shape. But a fillet is a clue, never proof: 6063 is extruded with a fillet too."),
            WrongAnswer(ALLOY, "either", "Same size, not the same metal: 6063-T5 is sold to bear 22,000 pounds on a square inch, 6061-T6 to bear 38,000."),
        ),
        hints=("What does a caliper not see?",),
        working="Only a mark on the metal or a certificate tells the alloy. Without one a stick stays unused until somebody identifies it.",
    )


# --- the caliper -----------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Reading:
    """A caliper closed on something."""

    on: str
    caliper: Caliper


def fresh_reading(seed: str, kind: str = "fraction") -> Reading:
    """A caliper closed on an off-cut, so that the beam alone does not tell."""
    numbers = Numbers(seed)
    on = f"off-cut {_tag(numbers, 'T' if kind == 'fraction' else 'D')}"  # one tag, one metal: never read twice
    if kind == "fraction":
        return Reading(on, Caliper(numbers.length(Fraction(3, 8), Fraction(2), SIXTEENTH) + numbers.pick(range(1, 8)) * LINE))
    beam = numbers.length(Fraction(2, 10), Fraction(19, 10), TENTH)
    return Reading(on, Caliper(beam + numbers.pick(range(4, 97)) * THOUSANDTH, kind))


def _tag(numbers: Numbers, letter: str = "T") -> str:
    """A piece's name on its tag, so that no two questions are the same in words."""
    return f"{letter}-{numbers.pick(range(100, 1000))}"


def read_caliper(reading: Reading, id: str = "read-the-caliper") -> LengthQuestion:
    """What a caliper reads that is closed on something."""
    caliper = reading.caliper
    own = _misread_vernier(caliper) if caliper.kind == "fraction" else _misread_dial(caliper)
    listed = [WrongAnswer(MISREAD, value, sentence) for value, sentence in own if value > 0 and value != caliper.read]
    told = {wrong.answer for wrong in listed}
    if caliper.kind == "fraction":
        listed += [wrong for wrong in by_mistakes(Asked(caliper.read, measured=True), "M08") if wrong.answer not in told]
    steps = (
        f"The 0 of the {'vernier' if caliper.kind == 'fraction' else 'slide'} has passed {_beam(caliper)} on the beam.",
        f"Line {caliper.steps} of the vernier meets a line of the beam: {caliper.steps}/128 more."
        if caliper.kind == "fraction"
        else f"The hand stands at {caliper.steps}: {decimal(caliper.steps * THOUSANDTH)} more.",
    )
    return LengthQuestion(
        id,
        f"The caliper is closed on {reading.on}. What does it read?" + ("" if caliper.kind == "fraction" else " To 0.001."),
        caliper.read,
        tolerance=caliper.finest / 2,
        wrong=tuple(listed),
        hints=steps,
        working=f"{steps[0]} {steps[1]} {caliper.words[0].upper()}{caliper.words[1:]}.",
        graduation=128,
        sides=HIGH,
    )


def _beam(caliper: Caliper) -> str:
    return exact(caliper.beam) if caliper.kind == "fraction" else decimal(caliper.beam, 1)


def _misread_vernier(caliper: Caliper) -> list[tuple[Fraction, str]]:
    n, beam = caliper.steps, caliper.beam
    return [
        (beam, f"That is the beam alone. The vernier's line {n} meets the beam: it adds {n}/128."),
        (caliper.read + SIXTEENTH, "That counts from the division beyond the vernier's 0. Take the last one that the 0 has passed."),
        (beam + n * 2 * LINE, "This comes out when a line of the vernier is taken for 1/64. Eight of them make 1/16: each is 1/128."),
        (beam + n * SIXTEENTH, f"That reads the beam where the lines meet. Only the number of the vernier's line counts there: {n}/128."),
    ]


def _misread_dial(caliper: Caliper) -> list[tuple[Fraction, str]]:
    n, beam = caliper.steps, caliper.beam
    return [
        (beam, f"That is the beam alone: the dial adds {decimal(n * THOUSANDTH)}."),
        (n * THOUSANDTH, f"That is the dial alone: the beam shows {decimal(beam, 1)} before it."),
        (caliper.read + TENTH, "That counts the tenth that the slide has not reached yet."),
        (caliper.read - TENTH, "That is a tenth short: count the tenths up to the slide's edge."),
        (beam + n * THOUSANDTH / 10, "The dial goes round once in a tenth: each of its lines is a thousandth, not a ten-thousandth."),
    ]


# --- the section ------------------------------------------------------------------------------------------
def behind_the_shank(section: Section, gauge: Fraction, id: str = "behind-the-shank") -> ChoiceQuestion:
    """What light in the corner says about the fillet."""
    choices = {"smaller": f"smaller than {exact(gauge)}", "same": f"just {exact(gauge)}", "larger": f"larger than {exact(gauge)}"}
    right = {"corner": "smaller", "nowhere": "same", "both-sides": "larger"}[light(section, gauge)]
    return ChoiceQuestion(
        id,
        f"A drill's shank, radius {exact(gauge)}, is laid in the inside corner and held to the light. It touches both faces, and light shows "
        "in the corner behind it. The fillet's radius is:",
        choices,
        right,
        wrong=(
            WrongAnswer("light-wrong-way", "larger", "In a larger fillet the shank would lie in the curve, and the light would be over both faces."),
            WrongAnswer("light-not-seen", "same", "A shank that fits touches all the way round: no light at all."),
        ),
        hints=("Push a large ball into a tight corner: where does it touch?",),
        working="The shank is too large to reach into the corner: it rests on the two faces.",
    )


@dataclass(frozen=True)
class Stock:
    """A stick whose section is asked for: what was measured, and the sizes that are offered."""

    name: str
    section: Section
    thickness: Fraction
    offered: tuple[Section, ...]


def fresh_stock(seed: str) -> Stock:
    """A stick of one of a few sizes that differ by a sixteenth in thickness or a quarter in width."""
    numbers = Numbers(seed)
    leg = numbers.pick((Fraction(3, 4), Fraction(1), Fraction(5, 4), Fraction(3, 2)))
    t = numbers.pick((Fraction(1, 8), Fraction(3, 16)))
    off = numbers.pick((-4, -3, -2, 2, 3, 4)) * THOUSANDTH
    offered = tuple(sorted({(leg, t), (leg, t - SIXTEENTH), (leg, t + SIXTEENTH), (leg + Fraction(1, 4), t)}))
    return Stock(_tag(numbers), Section(leg, leg, t, fillet=t), t + off, tuple(Section(w, w, thick, fillet=thick) for w, thick in offered))


def section_id(section: Section) -> str:
    """The id of a section that is offered: its legs and its thickness.

    >>> section_id(PLAIN)
    '3-4x3-4x1-8'
    """
    return "x".join(map(number_id, (section.leg_a, section.leg_b, section.thickness_a)))


def which_section(stock: Stock, id: str = "which-section") -> ChoiceQuestion:
    """Which of a few sections a stick is, by the caliper on its thickness."""
    section, leg = stock.section, stock.section.leg_a
    wrong = []
    for other in stock.offered:
        if other.leg_a != leg:
            sentence = f"Its legs would read {decimal(other.leg_a)}: they read {decimal(leg)}."
        else:
            t = other.thickness_a
            sentence = f"{exact(t)} is {_four(t)}. The caliper reads {decimal(stock.thickness)}: {_four(abs(stock.thickness - t))} from it."
        if other != section:
            wrong.append(WrongAnswer(SECTION, section_id(other), sentence))
    t = section.thickness_a
    return ChoiceQuestion(
        id,
        f"Both legs of stick {stock.name} read {decimal(leg)}. The caliper now stands on a leg's thickness. Which section is it?",
        {section_id(other): other.size for other in stock.offered},
        section_id(section),
        wrong=tuple(wrong),
        hints=("Read the thickness, then write the sizes as decimals: 1/16 is 0.0625, 1/8 is 0.125, 3/16 is 0.1875, 1/4 is 0.25.",),
        working=f"{decimal(stock.thickness)} is {_four(abs(stock.thickness - t))} from {exact(t)} ({_four(t)}): no extrusion is exact.",
    )


def inside_reading(section: Section = PLAIN, id: str = "inside-reading") -> LengthQuestion:
    """How wide a leg is that was measured from the inner face of the other leg."""
    a, t, r = section.leg_a, section.thickness("B"), section.fillet
    inside = a - t
    return LengthQuestion(
        id,
        f"Leg B is {exact(t)} thick, the fillet {exact(r)}. Somebody butts a rule against the inner face of leg B and reads {exact(inside)} at the toe of "
        "leg A. How wide is leg A?",
        a,
        tolerance=Fraction(1, 128),
        wrong=(
            WrongAnswer(FROM_INSIDE, inside, f"That is from the inner face. A leg's width begins at the heel, {exact(t)} further out."),
            WrongAnswer(FROM_INSIDE, inside - t, f"The thickness is added, not taken off: the heel lies {exact(t)} beyond the rule's end."),
            WrongAnswer(FROM_INSIDE, a + r, "The rule began at the inner face, not at the fillet's edge: the fillet adds nothing."),
            *by_mistakes(Asked(a, measured=True), "M08"),
        ),
        hints=("Which place is a leg's width measured from?",),
        working=f"From the heel to the inner face of leg B it is {exact(t)}; with the {exact(inside)} that makes {both(a)}.",
        sides=WIDE,
    )


def which_stick(sticks: Sequence[Stick], right: str, size: Section = PLAIN, alloy: str = "6061-T6", id: str = "which-stick") -> ChoiceQuestion:
    """Which stick a part may be cut from."""
    wrong = []
    for stick in sticks:
        if stick.id == right:
            continue
        square = not stick.section.fillet
        if stick.section.thickness_a != size.thickness_a:
            wrong.append(WrongAnswer(SECTION, stick.id, f"{stick.id} is {exact(stick.section.thickness_a)} thick: the plans say {exact(size.thickness_a)}."))
        elif square:
            wrong.append(WrongAnswer(SECTION, stick.id, f"{stick.id} is square inside, and nothing is printed on it: not this section, and an unknown alloy."))
        elif not stick.alloy:
            wrong.append(WrongAnswer(ALLOY, stick.id, f"{stick.id} has the right shape and no mark. An unknown alloy stays unused, however long the stick."))
        else:
            wrong.append(WrongAnswer(ALLOY, stick.id, f"{stick.id} is printed {stick.alloy}: the plans say {alloy}."))
    return ChoiceQuestion(
        id,
        f"A part is to be made of {size.size}, fillet {exact(size.fillet)}, {alloy}. Each stick is long enough. Which one?",
        tuple(stick.id for stick in sticks),
        right,
        wrong=tuple(wrong),
        hints=("Size first, then the corner, then the mark.",),
        working=f"{right} has the size, the fillet and the mark.",
    )


# --- the weight -----------------------------------------------------------------------------------------
def scale_tells(weighing: Weighing, id: str = "scale-tells") -> ChoiceQuestion:
    """Which alloys a careful weighing can part."""
    one, two = weighing.parts("6061", "6063"), weighing.parts("6061", "7075")
    choices = {"6063": "6061 from 6063", "7075": "6061 from 7075", "both": "both", "neither": "neither"}
    right = "both" if one and two else "6063" if one else "7075" if two else "neither"
    reasons = {
        "6063": "They differ by half a percent. A thickness read 0.001 too large is worth more than that.",
        "both": "6061 and 6063 differ by half a percent: no shop measures a section that well.",
        "neither": "7075 is 3.6 percent heavier than 6061: with a caliper and a good scale that shows.",
    }
    return ChoiceQuestion(
        id,
        f"A piece {exact(weighing.length)} in. long of {weighing.section.size} is measured: its thickness to {decimal(weighing.thickness_error)}, its length "
        f"to 1/64. A scale gives its weight to 1/2 gram. What can the weight tell apart?",
        choices,
        right,
        wrong=tuple(WrongAnswer(ALLOY, choice, sentence) for choice, sentence in reasons.items() if choice != right),
        hints=("Densities, in pounds a cubic inch: 6063 0.097, 6061 0.0975, 2024 0.100, 7075 0.101.",),
        working="The span of 7075 is clear of the span of 6061. That of 6063 lies over it from end to end, nearly.",
    )


def area_steps(section: Section) -> tuple[str, ...]:
    """How a section's area adds up, a sentence a piece."""
    a, b, ta, tb, r = section.leg_a, section.leg_b, section.thickness_a, section.thickness("B"), section.fillet
    fillet = f"The fillet fills 0.2146 of a square of its radius, {exact(r)}: {_four(formulas().fillet_area(r=r))}." if r else "There is no fillet."
    return (
        f"Leg A: {exact(a)} times {exact(ta)} is {_four(a * ta)} square inches.",
        f"The rest of leg B: {exact(b - ta)} times {exact(tb)} is {_four((b - ta) * tb)}.",
        fillet,
        f"Together {_four(section.area)}.",
    )


def _four(value: float | Fraction) -> str:
    return decimal(value, 4)


def foot_weighs(section: Section, id: str = "a-foot-weighs") -> NumberQuestion:
    """What a foot of a section weighs in 6061, from its measures."""
    right, area = section.weight_per_foot("6061"), section.area
    a, b, ta, tb = (float(v) for v in (section.leg_a, section.leg_b, section.thickness_a, section.thickness("B")))
    foot = 12 * density("6061")
    wrong = (
        WrongAnswer("corner-twice", (area + ta * tb) * foot, "This comes out when the corner, where both legs meet, is counted twice."),
        WrongAnswer("no-fillet", (a * ta + (b - ta) * tb) * foot, "This comes out without the metal in the fillet."),
        WrongAnswer(ALLOY, section.weight_per_foot("2024"), "That is what a foot of it weighs in 2024."),
        WrongAnswer("inch-for-foot", area * density("6061"), "That is an inch of it: a foot has twelve."),
        WrongAnswer("no-density", 12 * area, "That is cubic inches in a foot: a cubic inch weighs 0.0975 pounds."),
    )
    steps = area_steps(section)
    last = f"12 inches of {_four(area)} square inches at 0.0975 pounds a cubic inch: {right:.3f} pounds."
    return NumberQuestion(
        id,
        f"Angle {section.size}, fillet {exact(section.fillet)}, toes square. What does a foot of it weigh in 6061, at 0.0975 pounds a cubic inch?",
        right,
        "lb/ft",
        tolerance=Fraction(right * 0.004).limit_denominator(10**6),
        wrong=wrong,
        hints=(f"{steps[0]} {steps[1]}", f"{steps[2]} {steps[3]}", last),
        working=f"{' '.join(steps)} {last}",
        places=3,
    )


def last_step(section: Section, id: str = "last-step") -> NumberQuestion:
    """The weight of a foot with the area already worked."""
    full = foot_weighs(section, id)
    return NumberQuestion(
        id,
        f"Angle {section.size}, fillet {exact(section.fillet)}. First steps, done. {' '.join(area_steps(section))} Your step: what does a foot of it weigh in "
        "6061, at 0.0975 pounds a cubic inch?",
        full.answer,
        "lb/ft",
        full.tolerance,
        wrong=full.wrong,
        hints=("Twelve inches of that area, times the density.",),
        working=full.hints[-1],
        places=3,
    )


def fresh_section(seed: str) -> Section:
    """A practice section, its fillet as large as its thickness or a sixteenth more."""
    numbers = Numbers(seed)
    legs = [Fraction(n, 4) for n in range(3, 9)]
    a, b = numbers.pick(legs), numbers.pick(legs)
    t = numbers.pick([Fraction(n, 16) for n in range(1, 5) if Fraction(n, 16) <= min(a, b) / 5])
    return Section(max(a, b), min(a, b), t, fillet=t + numbers.pick((Fraction(0), SIXTEENTH)))


EXERCISES = {
    "vernier": Series(read_caliper, "01-vernier", (MISREAD,), fresh=fresh_reading),
    "dial": Series(read_caliper, "01-dial", (MISREAD,), fresh=fresh_reading, kind="decimal"),
    "section": Series(which_section, "01-which-section", (SECTION,), fresh=fresh_stock),
    "weight": Series(foot_weighs, "01-weight", (ALLOY, "no-fillet", "corner-twice"), fresh=fresh_section),
}
"""The lesson's exercises by name, in order: ``EXERCISES["dial"][3]`` is the fourth set of numbers."""

SAMPLES = (
    Stick("S-09", PLAIN, "6061-T6", "32 5/8", remnant=True),
    Stick("S-10", PLAIN, "6063-T5", 120),
    Stick("S-11", PLAIN, "", 47, remnant=True),
    Stick("S-12", SQUARE, "", 36, remnant=True),
    Stick("S-21", Section("3/4", "3/4", "1/16", fillet="1/16"), "6061-T6", "47 1/2", remnant=True),
)
"""Five sticks of the demo kit's rack; a test holds them to it."""

QUESTIONS = {
    "name-of-the-vertex": recall.name_of_vertex,
    "from-where": lambda: recall.again(from_where(Fraction(9, 16)), "00"),
    "datum-end": recall.datum_end,
    "which-of-two": which_of_two,
    "predict-the-reading": lambda: read_caliper(Reading("leg A", Caliper("97/128")), "predict-the-reading"),
    "behind-the-shank": lambda: behind_the_shank(PLAIN, Fraction(3, 16)),
    "scale-tells": lambda: scale_tells(Weighing(PLAIN, Fraction(12), THOUSANDTH, Fraction(1, 2))),
    "last-step": lambda: last_step(Section("1 1/4", "1 1/4", "1/8", fillet="1/8")),
    "inside-reading": inside_reading,
    "which-stick": lambda: which_stick(SAMPLES, "S-09"),
    "vernier": lambda: EXERCISES["vernier"][0],
    "dial": lambda: EXERCISES["dial"][0],
    "section": lambda: EXERCISES["section"][0],
    "weight": lambda: EXERCISES["weight"][0],
}
"""Every question of the lesson with its default things, to be gathered."""
