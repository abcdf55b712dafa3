"""The questions of lesson 10: which slip a made part or its readings point to, what a reading proves, what cannot be told.

>>> slip = Slip(_plain(), "M16", ("M01", "M18", "M22"))
>>> ask = name_slip(slip)
>>> ask.answer, ask.answer_text
('M16', 'datum lost')
>>> [wrong.slip for wrong in ask.wrong][:2]
['M01', 'M18']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.caliper_reading import THOUSANDTH, Caliper
from anglelib.drawing.deviations import rows_sentence
from anglelib.geometry.allowance import growth
from anglelib.inspection.diagnosis import GOOD, Reading, diagnose
from anglelib.inspection.made import readings_of
from anglelib.inspection.reading_ids import HOLE_X, ReadingId, chosen
from anglelib.inspection.reading_words import short_words
from anglelib.inspection.together import chained
from anglelib.lengths import both, decimal, exact
from anglelib.part import Hole, Part, Taper
from anglelib.questions.fresh import Numbers, fresh_part
from anglelib.questions.made_slips import POOL, SHOP, Slip, asked_slip, fresh_slip, made_with, name, rows_of
from anglelib.questions.named import Asked, by_mistakes, named
from anglelib.questions.question import MUCH, ChoiceQuestion, LengthQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.section import Section


# --- name the mistake -----------------------------------------------------------------------------------------
def name_slip(slip: Slip, id: str = "name-the-slip", readings: bool = False) -> ChoiceQuestion:
    """Which slip the picture (or the seven readings) of a made part point to."""
    rows = slip.rows
    what = "Its seven readings are shown against their limits." if readings else "It lies over the wanted outline, dotted."
    size = f"{slip.part.section.size}, {exact(slip.part.length)} long"
    ids = sorted((slip.id, *slip.others))
    wrong = []
    for other in slip.others:
        signs = rows_sentence(rows_of(made_with(slip.part, other)), 3)
        sentence = f"{_capital(name(other))} would read otherwise. {signs}" if other != GOOD else f"A good part's readings lie within their limits. Here: {rows_sentence(rows, 3)}"
        wrong.append(WrongAnswer(other, other, sentence))
    told = f"The slip: {name(slip.id)}." if slip.id != GOOD else "No slip: a few thousandths are the caliper's own."
    return ChoiceQuestion(
        id,
        f"{slip.part.name}, {size}. {what} Which slip fits?",
        {id_: name(id_) for id_ in ids},
        slip.id,
        wrong=tuple(wrong),
        hints=("Which readings are off, and are they off by the same amount?", rows_sentence(rows, 7)),
        working=f"{rows_sentence(rows, 3)} {told}",
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


# --- the misconception, and what cannot be told ----------------------------------------------------------------
def length_alone(part: Part, id: str = "length-alone") -> ChoiceQuestion:
    """What a right length says of a part."""
    return ChoiceQuestion(
        id,
        f"{part.name}: the rule says {exact(part.length)} along the heel, exactly as the plans do. What do you know now?",
        {"part": "the part is good", "length": "the length is good", "nothing": "nothing at all"},
        "length",
        wrong=(
            WrongAnswer("M09", "part", "The other hand has exactly this length too. So has a part with its taper at the other end, or with every hole 1/8 too high."),
            WrongAnswer("reading-as-nothing", "nothing", "It rules out what changes the length: kerf, allowance, a lost datum."),
        ),
        hints=("Which slips leave the length as it is?",),
        working="Length is one check of seven. Most slips never touch it: choose one after another and watch.",
    )


def first_readings(part: Part, id_: str, taken: Sequence[str]) -> list[Reading]:
    """Some readings of a part made with a slip, as they go into the diagnosis."""
    read = readings_of(made_with(part, id_))
    return [Reading(key, read[key]) for key in taken]


def next_reading(part: Part, id: str = "next-reading") -> ChoiceQuestion:
    """With the length alone off: which reading parts the leaders most."""
    found = diagnose(part, SHOP, first_readings(part, "M01", ["heel"]))
    best = found.next_reading
    spare = [key for key in chosen(part) if key not in (best, "toe.A", "toe.B") and ReadingId.of(key).kind != HOLE_X][:2]
    names = {key: short_words(key, part) for key in (best, *spare)}
    short = exact(SHOP.kerf)
    return ChoiceQuestion(
        id,
        f"{part.name}: the length along the heel is {short} short, and nothing else was read yet. A kerf lost at end 2, or {short} dressed off end 1 after layout? "
        "Which reading parts them?",
        {key: names[key] for key in sorted(names, key=names.__getitem__)},
        best,
        wrong=tuple(
            WrongAnswer("reading-parts-nothing", key, f"The {names[key]} is the same either way. Read what was measured from end 1.") for key in spare
        ),
        hints=("What is measured from end 1?",),
        working=f"From a dressed end 1 every place reads {short} less; with a kerf lost at end 2 the holes stay where they were.",
    )


def which_hand(part: Part, id: str = "which-hand") -> ChoiceQuestion:
    """A part of the other hand by itself: was it the wrong leg, or is the pair both of one hand?"""
    return ChoiceQuestion(
        id,
        f"On the bench lies one part that should be {part.name}. Every reading says that it is the other hand. Which slip was it?",
        {"M09": "the wrong leg was tapered", "M26": "the pair was made both of one hand", "unknown": "this part alone cannot tell"},
        "unknown",
        wrong=(
            WrongAnswer("M09", "M09", "It may be. But a pair made both of one hand gives exactly this part too."),
            WrongAnswer("M26", "M26", "It may be. But a single part with the wrong leg tapered is exactly the same metal."),
        ),
        hints=("Is there a reading that differs between the two?",),
        working="The two are one class on one part. Lay its partner beside it: parts of a pair must mirror, not agree.",
    )


def cold_length(part: Part, warmer: int = 60, id: str = "cold-length") -> LengthQuestion:
    """How long a part is when cold that was cut to its mark while it was warm."""
    less = growth(float(part.length), warmer)
    return LengthQuestion(
        id,
        f"{part.name}: sanded to exactly {exact(part.length)} while {warmer} K (108 F) warmer than the shop. Aluminium shrinks {decimal(1e6 * growth(1.0, 1), 1)} millionths for each K. "
        "How long is it when it has cooled, to 0.002?",
        float(part.length) - less,
        tolerance=Fraction(1, 500),
        wrong=(
            WrongAnswer("M25", part.length, f"That is what it measured warm. It shrinks by {decimal(less)} in cooling."),
            WrongAnswer("M25", float(part.length) + less, "That is the wrong way: it grew when it warmed, so it shrinks when it cools."),
        ),
        hints=(f"{exact(part.length)} times {warmer} times {decimal(1e6 * growth(1.0, 1), 1)} millionths is what it loses.",),
        working=f"It loses {decimal(less)}. On a part of {exact(Fraction(17, 8))} it would be {decimal(growth(2.125, warmer))}: less than a caliper is sure of at the bench, so nothing tells it from a good part.",
        graduation=64,
    )


def batch(length: Fraction = Fraction(4), id: str = "the-batch") -> ChoiceQuestion:
    """Four pieces of a batch, in the order of cutting."""
    lengths = ", ".join(decimal(piece) for piece in chained(length, 4, SHOP.kerf))
    short = exact(SHOP.kerf)
    return ChoiceQuestion(
        id,
        f"Four pieces were marked on one stick, each to be {exact(length)}. In the order of cutting they read {lengths}. Which slip fits?",
        named("M01", "M02", "M05", "M06"),
        "M06",
        wrong=(
            WrongAnswer("M01", "M01", f"Then all four would be {short} short, the first and the last too."),
            WrongAnswer("M02", "M02", f"Then all four would be {exact(SHOP.kerf / 2)} short."),
            WrongAnswer("M05", "M05", "Then they would be too long."),
        ),
        hints=("How much did the two in the middle lose, and how much the outer ones?",),
        working=f"The pieces between lost a whole kerf, {short}, the outer ones half of it. On one piece alone this cannot be told from other slips: a batch has to be read together.",
    )


def seen_on_print(slip: Slip, id: str = "seen-on-the-print") -> ChoiceQuestion:
    """Where a drifted saw shows when a part is laid on its check print."""
    taper = slip.part.tapers[0]
    rows = rows_of(slip.made)
    return ChoiceQuestion(
        id,
        f"{slip.part.name}: the saw drifted, starting right at the toe mark. The part is laid on its check print, heel and end {taper.end} against the bars. Where does its edge leave the white?",
        {
            "leaves": f"at end {taper.end}, where the taper leaves",
            "toe": "at the toe, where the taper starts",
            "other-end": f"at end {3 - taper.end}",
            "nowhere": "nowhere",
        },
        "leaves",
        wrong=(
            WrongAnswer("M13", "toe", "There the cut began, on its mark. It would leave the white there too if the whole line were a kerf too low."),
            WrongAnswer("M01", "other-end", "That is where a kerf lost in the length would show. The taper has nothing to do with it."),
            WrongAnswer("M25", "nowhere", "Some slips show nowhere on a print: heat, an alloy. A drift of degrees opens along the cut, and shows."),
        ),
        hints=("How does an error of angle grow?",),
        working=f"It grows along the cut. {rows_sentence(rows, 3)}",
    )


# --- what a reading proves --------------------------------------------------------------------------------------
STATES = {"within": "within, proven", "open": "cannot be proven", "outside": "outside, proven"}
"""What a reading near a limit proves, by id."""
PROVEN, OPEN, OUTSIDE = STATES


@dataclass(frozen=True)
class Limit:
    """A reading near its limit: what is wanted, the tolerance, the expanded uncertainty and what was read, all [in]."""

    wanted: Fraction
    tolerance: Fraction
    uncertainty: Fraction
    read: Fraction

    @property
    def off(self) -> Fraction:
        """Read less wanted."""
        return self.read - self.wanted

    @property
    def state(self) -> str:
        """What the reading proves."""
        off = abs(self.off)
        return PROVEN if off <= self.tolerance - self.uncertainty else OUTSIDE if off > self.tolerance + self.uncertainty else OPEN


def fresh_limit(seed: str) -> Limit:
    """Thousandths about a limit."""
    numbers = Numbers(seed)
    wanted = numbers.length(Fraction(1, 2), Fraction(4), Fraction(1, 16))
    tolerance, uncertainty = numbers.pick((12, 16, 20)) * THOUSANDTH, numbers.pick((3, 4, 5, 6)) * THOUSANDTH
    off = numbers.pick((tolerance - uncertainty - THOUSANDTH, tolerance - THOUSANDTH, tolerance + THOUSANDTH, tolerance + uncertainty + 2 * THOUSANDTH))
    return Limit(wanted, tolerance, uncertainty, wanted + numbers.pick((1, -1)) * off)


def what_is_proven(limit: Limit, id: str = "what-is-proven", reads: str = "") -> ChoiceQuestion:
    """Whether a reading near a limit proves anything; ``reads`` says the reading otherwise than by its number."""
    off, inner = abs(limit.off), limit.tolerance - limit.uncertainty
    outer = limit.tolerance + limit.uncertainty
    words = {
        PROVEN: f"Proven within means: off by at most {decimal(limit.tolerance)} less {decimal(limit.uncertainty)}, {decimal(inner)}. Here it is {decimal(off)}.",
        OPEN: f"It is off by {decimal(off)}: {'no more than' if off <= inner else 'more than'} {decimal(inner)}, and {'more' if off > outer else 'not more'} than {decimal(outer)}.",
        OUTSIDE: f"Proven outside means: off by more than {decimal(limit.tolerance)} and {decimal(limit.uncertainty)}, {decimal(outer)}. Here it is {decimal(off)}.",
    }
    slips = {PROVEN: "no-uncertainty", OUTSIDE: "no-uncertainty", OPEN: "uncertainty-twice"}
    return ChoiceQuestion(
        id,
        f"Wanted {decimal(limit.wanted)}, limits {decimal(limit.tolerance)} either way. Your caliper in your hands is sure to {decimal(limit.uncertainty)} either way. It reads {reads or decimal(limit.read)}. "
        "Where is the part?",
        STATES,
        limit.state,
        wrong=tuple(WrongAnswer(slips[state], state, words[state]) for state in STATES if state != limit.state),
        hints=("How far off is it? And how far might it be, if the caliper errs?",),
        working=f"Off by {decimal(off)}. Within is proven up to {decimal(inner)}, outside from {decimal(outer)} on; between the two the reading proves nothing: read again, better.",
    )


# --- read the caliper ---------------------------------------------------------------------------------------
@dataclass(frozen=True)
class OnPart:
    """A caliper closed on one place of a made part."""

    section: Section
    wanted: Fraction
    caliper: Caliper
    tag: str


def fresh_on_part(seed: str) -> OnPart:
    """A leg's width at its tapered end, some thousandths off."""
    part = fresh_part(seed, ends_in="flat")
    numbers = Numbers(f"{seed}, width")
    off = numbers.pick((*range(-42, -9), *range(10, 43))) * THOUSANDTH
    wanted = part.tapers[0].width_left
    return OnPart(part.section, wanted, Caliper(Fraction(round((wanted + off) * 1000), 1000), "decimal"), f"T-{numbers.pick(range(100, 1000))}")


def off_by(on: OnPart, id: str = "off-by") -> LengthQuestion:
    """How far a reading is off, read from the dial."""
    read, wanted = on.caliper.read, on.wanted
    tenth = Fraction(1, 10)
    wrongs = [WrongAnswer("M08", abs(read + step - wanted), "That comes out with the beam read a tenth wrong: take the last tenth that the slide has passed.") for step in (tenth, -tenth)]
    t = on.section.thickness("B")
    wrongs.append(WrongAnswer("M11", abs(read - t - wanted), f"That comes out from the inside: the other leg's {exact(t)} belongs to the width, which is from the heel."))
    wrongs.append(WrongAnswer("reading-as-deviation", read, "That is the reading. How far is it from what is wanted?"))
    wrongs += [w for w in by_mistakes(Asked(abs(read - wanted), measured=True), "M27") if w.answer > 0]
    return LengthQuestion(
        id,
        f"Bracket {on.tag}: the caliper is closed on leg A at the tapered end, heel to edge. Wanted there: {both(wanted)}. How far is the reading off, either way, to 0.001?",
        abs(read - wanted),
        tolerance=THOUSANDTH * Fraction(3, 2),
        wrong=tuple(w for w in wrongs if abs(w.answer - abs(read - wanted)) > 2 * THOUSANDTH),
        hints=(f"The beam shows {decimal(on.caliper.beam, 1)}; the hand adds {decimal(on.caliper.read - on.caliper.beam)}.", f"It reads {decimal(read)}."),
        working=f"{decimal(read)} read, {decimal(wanted)} wanted: {decimal(abs(read - wanted))} too {'wide' if read > wanted else 'narrow'}.",
        graduation=128,
        sides=MUCH,
    )


EXERCISES = {
    "name-the-slip": Series(lambda slip, id: name_slip(slip, id), "10-name-the-slip", fresh=fresh_slip),
    "seven-readings": Series(lambda slip, id: name_slip(slip, id, readings=True), "10-seven-readings", fresh=fresh_slip, good=True),
    "off-by": Series(off_by, "10-off-by", fresh=fresh_on_part),
    "what-is-proven": Series(what_is_proven, "10-what-is-proven", fresh=fresh_limit),
}
"""The lesson's exercises by name, in order."""


def _plain() -> Part:
    """A bracket like the demo kit's step bracket."""
    section = Section("1 1/2", "1 1/2", "3/16", fillet="3/16")
    holes = [Hole("A", "3 3/8", "7/8", "1/4"), Hole("A", "4 1/2", "7/8", "1/4"), Hole("B", "7/8", "7/8", "1/4"), Hole("B", "3 15/16", "7/8", "1/4")]
    return Part("E2L", "Step bracket, left", section, "6061-T6", "5 3/8", [Taper("A", 1, "9/16", run="2 7/8")], holes)


def _to_the_vertex() -> Part:
    """A bracket whose taper runs to the vertex."""
    holes = [Hole("B", "1", "11/16", "1/8"), Hole("B", "4", "11/16", "1/8")]
    return Part("P1", "Bracket", Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), "6061-T6", "5 1/4", [Taper("A", 1, run="2 1/4")], holes)


QUESTIONS = {
    "length-alone": lambda: length_alone(_plain()),
    "next-reading": lambda: next_reading(_plain()),
    "which-hand": lambda: which_hand(_plain()),
    "cold-length": lambda: cold_length(_plain()),
    "the-batch": batch,
    "seen-on-the-print": lambda: seen_on_print(asked_slip(_plain(), "M14")),
    **{f"name-{id_}": (lambda id_=id_: name_slip(asked_slip(_plain(), id_), f"name-{id_}")) for id_ in (*POOL, "M02", "M04")},
    "name-M12": lambda: name_slip(asked_slip(_to_the_vertex(), "M12"), "name-M12"),
    **{name_: (lambda series=series: series[0]) for name_, series in EXERCISES.items()},
}
"""Every question of the lesson with a part of its own."""
