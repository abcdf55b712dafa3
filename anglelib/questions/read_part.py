"""The questions of lesson 02: which leg, which end, which hand.

>>> is_handed(FOOT).answer, is_handed(BRACKET).answer
('neither', 'handed')
>>> other_hand(RAIL).answer
'A2'
>>> how_many(True).answer_text, how_many(False).answer_text
('2', '4')
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.drawing.caliper_reading import Caliper
from anglelib.drawing.hand_sheets import bare, four_ways, metals
from anglelib.drawing.hands import features, lies_alike
from anglelib.lengths import exact
from anglelib.part import Part, Taper
from anglelib.questions import recall
from anglelib.questions.fresh import Numbers, fresh_part
from anglelib.questions.identify_stock import Reading, read_caliper, which_of_two
from anglelib.questions.named import name_of
from anglelib.questions.question import ChoiceQuestion, NumberQuestion, WrongAnswer
from anglelib.questions.series import Series
from anglelib.section import Section, other_leg

WRONG_LEG, OTHER_END, BOTH_ONE_HAND = "M09", "M10", "M26"
TURNED = "turned-as-mirrored"
HANDED, NEITHER = "handed", "neither"
COMPARED = {"same": "the same part", "other-hand": "the other hand", "different": "another part"}
SAME, OTHER, DIFFERENT = COMPARED

_SMALL = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
BRACKET = Part("C1L", "Door hinge bracket, left", _SMALL, "6061-T6", "4 3/4", [Taper("A", 1, run="2 1/8")], hand="left")
FOOT = Part(
    "E1", "Battery foot", Section("1 1/2", "1 1/2", "3/16", fillet="3/16"), "6061-T6", "3 7/8",
    [Taper("A", 1, run="1 5/8"), Taper("A", 2, run="1 5/8")],
)  # fmt: skip
STIFFENER = Part(
    "A4", "Floor stiffener", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "38 3/8",
    [Taper("A", 1, "11/32", run="1 5/8"), Taper("A", 2, "11/32", run="1 5/8")],
)  # fmt: skip
RAIL = Part(
    "D2L", "Seat rail, left", Section("1 1/2", 1, "1/8", fillet="1/8"), "6061-T6", "31 1/4", [Taper("A", 1, "5/8", run="2 5/8")], hand="left"
)  # fmt: skip
"""Four parts of the demo kit, their holes left out; a test holds them to it."""


# --- handed or neither ------------------------------------------------------------------------------------
def described(part: Part) -> str:
    """A part as a drawing gives it: its legs, and its tapers."""
    legs = "equal legs" if part.section.equal_legs else "unequal legs"
    return f"{part.name.partition(',')[0]}, angle {part.section.size} ({legs}), {exact(part.length)} long. {features(part)}"


def mirror_step(part: Part) -> str:
    """The first step: the mirror image as a description."""
    if part.section.equal_legs:
        return f"Mirrored, the features change legs: {_lower(features(part.mirrored()))}"
    return f"Mirrored, the features stay on their leg and change ends: {_lower(features(part.mirrored()))}"


def turn_step(part: Part) -> str:
    """The second step: the part itself, described from its other end."""
    if part.section.equal_legs:
        return f"Turned end for end, the part itself changes legs and ends: {_lower(features(part.turned()))}"
    return "Turned end for end, the legs would change places, and they are unequal: there is only one way to describe it."


def _lower(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def verdict_step(part: Part) -> str:
    """The last step: what the descriptions say together."""
    if part.handed:
        return "Neither as it lies nor turned is that the part: it is handed, and there is a left one and a right one."
    how = "the part as it lies" if lies_alike(part.mirrored(), part) else "the part turned end for end"
    return f"So the mirror image is {how}: it is neither left nor right."


def is_handed(part: Part, id: str = "is-it-handed") -> ChoiceQuestion:
    """Whether a part's mirror image is another part."""
    right = HANDED if part.handed else NEITHER
    wrong = NEITHER if part.handed else HANDED
    says = (
        "Turning it does not make the mirror image: turned, a feature changes leg and end; mirrored, only one of the two."
        if part.handed
        else "Its mirror image is the part itself, as it lies or turned end for end. No second kind has to be made."
    )
    return ChoiceQuestion(
        id,
        f"{described(part)} Handed, or neither?",
        (HANDED, NEITHER),
        right,
        wrong=(WrongAnswer(TURNED if part.handed else "neither-as-handed", wrong, says),),
        hints=(mirror_step(part), turn_step(part)),
        working=f"{mirror_step(part)} {turn_step(part)} {verdict_step(part)}",
    )


def last_step(part: Part, id: str = "last-step") -> ChoiceQuestion:
    """The same with both descriptions given."""
    full = is_handed(part, id)
    return replace(
        full,
        prompt=f"{described(part)} First steps, done. {mirror_step(part)} {turn_step(part)} Your step: handed, or neither?",
        hints=("Is one of the two descriptions the mirror image's?",),
        working=verdict_step(part),
    )


def end_for_end(part: Part, id: str = "end-for-end") -> ChoiceQuestion:
    """What a handed part becomes when it is turned end for end."""
    hand = part.hand or "left"
    other = "right" if hand == "left" else "left"
    choices = {"other": f"the {other} one", "same": f"still the {hand} one", "neither": "neither of them"}
    return ChoiceQuestion(
        id,
        f"This bracket is the {hand} one: its leg {part.tapers[0].leg} is tapered at end {part.tapers[0].end}. You pick it up and turn it end for end. What "
        "do you hold now?",
        choices,
        "same",
        wrong=(
            WrongAnswer(TURNED, "other", "If a turn made the other hand, you could wear a left glove on the right hand by turning it round."),
            WrongAnswer("turn-changes-metal", "neither", "The metal has not changed. Only the names of its legs and ends have, as you hold it."),
        ),
        hints=("Has any metal changed?",),
        working="Turned, the tapered leg lies where the other one lay, and the taper is at the other end. Of these two changes the mirror makes only one.",
    )


def how_many(equal: bool = True, id: str = "how-many-parts") -> NumberQuestion:
    """How many different parts four descriptions of one taper are."""
    number = len(set(metals(tuple(way for _, way in four_ways(sample(equal))))))
    legs = "equal" if equal else "unequal"
    wrong = [
        WrongAnswer("description-as-part", Fraction(4), "With equal legs, turn the piece end for end: leg B at end 2 lies like leg A at end 1."),
        WrongAnswer(TURNED, Fraction(1), "A taper on leg A at end 1 cannot be turned into one on leg A at end 2: those two are left and right."),
        WrongAnswer("leg-as-another-part", Fraction(3), "They go in twos: each can be turned into just one of the others."),
        WrongAnswer("ends-as-alike", Fraction(2), "With unequal legs nothing can be turned into anything else: leg A is not leg B."),
    ]
    return NumberQuestion(
        id,
        f"An angle with {legs} legs has one taper. A drawing may put it on leg A or leg B, at end 1 or end 2: four descriptions. How many different parts "
        "are they?",
        Fraction(number),
        "count",
        tolerance=Fraction(0),
        wrong=tuple(w for w in wrong if w.answer != number),
        hints=("Take one and turn it end for end: which of the other descriptions is it now?",),
        working="Leg A at end 1 is leg B at end 2, turned; leg A at end 2 is leg B at end 1. The two kinds are left and right."
        if equal
        else "None turns into another. Leg A at end 1 and at end 2 are left and right of one part, and those of leg B of another.",
        places=0,
    )


def sample(equal: bool = True) -> Part:
    """A practice bracket with one taper, its legs equal or not."""
    section = Section("1 1/4", "1 1/4" if equal else 1, "1/8", fillet="1/8")
    return Part("P1", "Practice bracket", section, "6061-T6", "4 1/2", [Taper("A", 1, "1/4", run=2)])


# --- the other hand -----------------------------------------------------------------------------------------
def where_id(leg: str, end: int) -> str:
    """The id of a place of a taper: A2 for leg A at end 2."""
    return f"{leg}{end}"


def where_words(leg: str, end: int) -> str:
    """The same in words."""
    return f"leg {leg}, end {end}"


def other_hand(part: Part, id: str = "other-hand") -> ChoiceQuestion:
    """Where the taper of the other hand is, named like this part's."""
    taper = part.tapers[0]
    leg, end, equal = taper.leg, taper.end, part.section.equal_legs
    flipped = other_leg(leg)
    here, both = (leg, end), (flipped, 3 - end)
    right = (flipped, end) if equal else (leg, 3 - end)
    rest = (leg, 3 - end) if equal else (flipped, end)
    offered = (right, both, here) if equal else (rest, right, both)
    wrong = [
        WrongAnswer(BOTH_ONE_HAND, where_id(*both), "Leg and end both changed: that is the same part, turned end for end. Both would be one hand.")
        if equal
        else WrongAnswer(WRONG_LEG, where_id(*both), f"Leg {leg} and leg {flipped} are not of one width: this is no hand of the part."),
        WrongAnswer(BOTH_ONE_HAND, where_id(*here), "That is the same part once more.")
        if equal
        else WrongAnswer(WRONG_LEG, where_id(*rest), f"Leg {flipped} has another width: a mirror cannot move the taper on to it."),
    ]
    return ChoiceQuestion(
        id,
        f"{described(part)} It is the {part.hand or 'left'} one. Where is the taper of the other hand?",
        {where_id(*place): where_words(*place) for place in offered},
        where_id(*right),
        wrong=tuple(wrong),
        hints=("Mirrored, one of leg and end changes. Which one can, on this section?",),
        working=mirror_step(part) + (f" Turned, that is also {where_words(*rest)}." if equal else ""),
    )


def is_it_a_pair(id: str = "is-it-a-pair") -> ChoiceQuestion:
    """A bracket copied twice, the second turned."""
    return ChoiceQuestion(
        id,
        "The list says: one left, one right. The first bracket is done. The second is copied from it, mark by mark, leg A from leg A, and then laid end for end "
        "beside it. What is on the bench?",
        {"pair": "a pair", "one-hand": "two of one hand", "scrap": "a part and scrap"},
        "one-hand",
        wrong=(
            WrongAnswer(BOTH_ONE_HAND, "pair", "They look like a pair from a step away: the tapers point away from each other. But they are on different legs as they lie."),
            WrongAnswer("second-as-scrap", "scrap", "It is a good part, of the wrong hand. Perhaps the list wants another one of it."),
        ),
        hints=("A copy has the same hand, however it lies.",),
        working="A copy is a copy. A pair is marked out heel to heel, so that each line runs over to the other piece.",
    )


@dataclass(frozen=True)
class Two:
    """Two pieces to compare."""

    p: Part
    q: Part


def fresh_handed(seed: str) -> Part:
    """A practice part that is handed or not: one taper, or two."""
    numbers = Numbers(f"{seed}, hands")
    base = fresh_part(seed, ends_in="flat")
    t, r = base.section.thickness_a, base.section.fillet
    first = replace(base.tapers[0], leg=numbers.pick("AB"), end=numbers.pick((1, 2)))
    smaller = min(base.section.leg_a, base.section.leg_b)
    kind = numbers.pick(("one", "same-leg", "same-leg", "same-leg", "same-end", "same-end", "crossed", "unlike"))
    first = replace(first, width_left=min(first.width_left, smaller - Fraction(1, 4), max(t + r, smaller / 2)))
    second = {
        "one": None,
        "same-leg": replace(first, end=3 - first.end),
        "same-end": replace(first, leg=other_leg(first.leg)),
        "crossed": replace(first, leg=other_leg(first.leg), end=3 - first.end),
        "unlike": replace(first, end=3 - first.end, run=first.run + Fraction(1, 2)),
    }[kind]
    length = max(base.length, 2 * first.run + Fraction(3, 2))
    return replace(base, name="Practice part", length=length, tapers=(first,) if second is None else (first, second))


def fresh_two(seed: str) -> Two:
    """A handed piece, and beside it the same turned, its other hand, or another part."""
    numbers = Numbers(f"{seed}, two")
    p = replace(sample(), tapers=(Taper(numbers.pick("AB"), numbers.pick((1, 2)), Fraction(1, 4), run=Fraction(numbers.pick((12, 14, 16, 18)), 8)),))
    p = replace(p, id=f"P{numbers.pick(range(10, 100))}")
    taper = p.tapers[0]
    q = numbers.pick((p.turned(), p.mirrored(), p.mirrored().turned(), replace(p, tapers=(replace(taper, run=taper.run + Fraction(3, 4)),))))
    return Two(bare(p), bare(q))


def compare(two: Two, id: str = "compare") -> ChoiceQuestion:
    """Whether two pieces are one part, a pair, or different parts."""
    p, q = two.p, two.q
    right = SAME if p.same_metal_as(q) else OTHER if p.mirrors(q) else DIFFERENT
    changes = {(True, True): "leg and end", (True, False): "the leg", (False, True): "the end", (False, False): "nothing"}
    changed = changes[(p.tapers[0].leg != q.tapers[0].leg, p.tapers[0].end != q.tapers[0].end)]
    reasons = {
        SAME: WrongAnswer(BOTH_ONE_HAND, SAME, "From P to Q only one of leg and end has changed: no turn does that." if right == OTHER else "Their tapers are not alike."),
        OTHER: WrongAnswer(TURNED, OTHER, "Leg and end have both changed: that is P turned end for end." if right == SAME else "Their tapers are not alike."),
        DIFFERENT: WrongAnswer("turned-as-another", DIFFERENT, "The tapers have the same run and the same width left."),
    }
    return ChoiceQuestion(
        id,
        f"Pieces {p.id[1:]}, equal legs. On P the taper runs {exact(p.tapers[0].run)}, on Q {exact(q.tapers[0].run)}. Each lies as it was picked up. What is Q "
        "to P?",  # type: ignore[arg-type]
        COMPARED,
        right,
        wrong=tuple(wrong for choice, wrong in reasons.items() if choice != right),
        hints=("Which leg is tapered as it lies, and at which end? How many of the two have changed?",),
        working={
            SAME: f"From P to Q {changed} changed: both, so it is P, turned end for end.",
            OTHER: f"From P to Q {changed} changed, one of the two: it is the mirror image.",
            DIFFERENT: f"The runs differ: {exact(p.tapers[0].run)} and {exact(q.tapers[0].run)}.",  # type: ignore[arg-type]
        }[right],
    )


@dataclass(frozen=True)
class Made:
    """A wanted part, what was made for it, and the id of its slip, or of none."""

    wanted: Part
    made: Part
    slip: str


RIGHT = "right"
MADE = {WRONG_LEG: name_of(WRONG_LEG), OTHER_END: name_of(OTHER_END), RIGHT: "nothing: it is right"}
"""What may be wrong with a piece, by id."""


def fresh_made(seed: str) -> Made:
    """A bracket with a hole, its taper where it should be, on the wrong leg, or at the other end."""
    numbers = Numbers(f"{seed}, made")
    section = numbers.pick((Section("1 1/4", "1 1/4", "1/8", fillet="1/8"), Section("1 1/2", "1 1/2", "3/16", fillet="3/16")))
    taper = Taper(numbers.pick("AB"), numbers.pick((1, 2)), Fraction(3, 8), run=numbers.length(Fraction(3, 2), Fraction(2), Fraction(1, 8)))
    length = numbers.length(Fraction(4), Fraction(5), Fraction(1, 8))
    wanted = Part(f"P{numbers.pick(range(10, 100))}", "Practice bracket", section, "6061-T6", length, [taper])
    slip = numbers.pick(tuple(MADE))
    changed = {WRONG_LEG: replace(taper, leg=other_leg(taper.leg)), OTHER_END: replace(taper, end=3 - taper.end), RIGHT: taper}[slip]
    return Made(wanted, replace(wanted, tapers=(changed,)), slip)


def name_the_slip(thing: Made, id: str = "name-the-slip") -> ChoiceQuestion:
    """What went wrong with a piece that has its legs and its datum written on it."""
    taper, made = thing.wanted.tapers[0], thing.made.tapers[0]
    reasons = {
        WRONG_LEG: f"The taper is on leg {made.leg}, and leg {taper.leg} was asked for." if made.leg != taper.leg else f"It is on leg {made.leg}, as asked.",
        OTHER_END: f"It is at end {made.end}, as asked." if made.end == taper.end else f"It is at end {made.end}, not {taper.end}.",
        RIGHT: f"Asked: leg {taper.leg}, end {taper.end}. Made: leg {made.leg}, end {made.end}.",
    }
    return ChoiceQuestion(
        id,
        f"Piece {thing.wanted.id}: leg {taper.leg} is to be tapered at end {taper.end}. Legs and ends are written on the metal. What is wrong with it?",
        MADE,
        thing.slip,
        wrong=tuple(WrongAnswer(_overlooked(thing.slip), choice, reasons[choice]) for choice in MADE if choice != thing.slip),
        hints=("Read the letters on the metal, then the drawing.",),
        working=f"Asked: leg {taper.leg}, end {taper.end}. Made: leg {made.leg}, end {made.end}."
        + ("" if thing.slip == RIGHT else " With equal legs and nothing else on it, this is the other hand: good, for the other side."),
    )


def _overlooked(slip: str) -> str:
    """The slip that is overlooked where another is named."""
    return "good-as-bad" if slip == RIGHT else slip


EXERCISES = {
    "handed": Series(is_handed, "02-handed-or-neither", fresh=fresh_handed),
    "compare": Series(compare, "02-two-pieces", fresh=fresh_two),
    "slip": Series(name_the_slip, "02-name-the-slip", fresh=fresh_made),
}
"""The lesson's exercises by name, in order: ``EXERCISES["compare"][3]`` is the fourth set of pieces."""

QUESTIONS = {
    "datum-end": recall.datum_end,
    "which-of-two": lambda: recall.again(which_of_two(), "01"),
    "caliper-again": lambda: recall.again(read_caliper(Reading("a leg's thickness", Caliper("0.127", "decimal")), "caliper-again"), "01"),
    "end-for-end": lambda: end_for_end(BRACKET),
    "how-many-parts": how_many,
    "is-it-a-pair": is_it_a_pair,
    "last-step": lambda: last_step(STIFFENER),
    "other-hand-equal-legs": lambda: other_hand(BRACKET, "other-hand-equal-legs"),
    "other-hand-unequal-legs": lambda: other_hand(RAIL, "other-hand-unequal-legs"),
    "handed": lambda: EXERCISES["handed"][0],
    "compare": lambda: EXERCISES["compare"][0],
    "slip": lambda: EXERCISES["slip"][0],
}
"""Every question of the lesson with its default things, to be gathered."""
