"""The questions of lesson 09: edge distance in diameters, the row whose heads clear the fillet, what a longer taper costs.

>>> ask = to_the_taper(longer(CLEAT, Fraction(2)))
>>> ask.answer_text, [wrong.slip for wrong in ask.wrong][:2]
('1.63 diameters', ['beyond-hole-edge', 'to-untapered-toe'])
>>> row(CLEAT.section, Fraction(1, 8)).answer_text
'3/8 (0.375)'
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import cos, radians

from anglelib.geometry.hole_words import outcome_words, verdict_sentence
from anglelib.geometry.holes import FLUSH, KEPT, PLAIN, TAPER, EdgeDistance, EdgeId, edge_distances, least_edge, row_band, worst_edge
from anglelib.geometry.taper import TaperLine, taper_lines
from anglelib.lengths import both, decimal, exact, show
from anglelib.part import Hole, Part, Taper
from anglelib.questions.fresh import Numbers, fresh_part, seeds
from anglelib.questions.named import Asked, by_mistakes
from anglelib.questions.question import MUCH, ChoiceQuestion, LengthQuestion, NumberQuestion, WrongAnswer
from anglelib.questions.rivets import RIVETS, band, fresh_joint, fresh_row, rivet, row
from anglelib.questions.series import Series
from anglelib.section import Section

FROM_INSIDE, WRONG_END = "M11", "M17"
BEYOND, ACROSS, UNTAPERED = "beyond-hole-edge", "straight-across", "to-untapered-toe"
HALF = Fraction(1, 128)
CLEAT = Part(
    "A1L", "Floor cleat, left", Section("3/4", "3/4", "1/8", fillet="1/8"), "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")],
    [Hole("A", "1 7/16", "7/16", "1/8"), Hole("B", "7/16", "7/16", "1/8"), Hole("B", "1 11/16", "7/16", "1/8")],
)  # fmt: skip
"""The part that is changed."""


def longer(part: Part, run: Fraction) -> Part:
    """The part with another run, all else as it is."""
    first = part.tapers[0]
    return replace(part, tapers=(Taper(first.leg, first.end, first.width_left, run=run), *part.tapers[1:]), hand=None, mirror_of="")


def _taper_and_hole(part: Part) -> tuple[TaperLine, Hole]:
    line = taper_lines(part)[0]
    return line, part.holes_in(line.leg)[0]


def _from_end(part: Part, line: TaperLine, hole: Hole) -> Fraction:
    return hole.x if line.end == 1 else part.length - hole.x


# --- edge distance -------------------------------------------------------------------------------------
def to_the_taper(part: Part, id: str = "to-the-taper") -> NumberQuestion:
    """From a hole's centre to the tapered edge, in diameters."""
    line, hole = _taper_and_hole(part)
    D, x, y, s = hole.diameter, _from_end(part, line, hole), hole.y, line.width_left
    distance = next(edge.distance for edge in edge_distances(part, hole) if edge.to == EdgeId(TAPER, line.end))
    stands = s + x / line.slope
    t = line.other_thickness
    slope = cos(radians(line.angle))
    return NumberQuestion(
        id,
        f"Leg {line.leg}, {exact(line.width)} wide: the taper at end {line.end} has a run of {exact(Fraction(line.run))} and leaves {exact(s)}, "
        f"so it lies {line.angle:.1f} degrees from the heel. A hole for a {exact(D)} rivet lies {exact(x)} from end {line.end} and {exact(y)} from the heel. "
        "How far is its centre from the tapered edge, in diameters?",
        distance / float(D),
        "D",
        tolerance=Fraction(1, 16),
        wrong=(
            WrongAnswer(BEYOND, distance / float(D) - 0.5, "That is the metal beyond the hole's own edge. Edge distance is counted from the centre: half a diameter more."),
            WrongAnswer(ACROSS, float((stands - y) / D), "That is straight across the leg. The nearest point of a sloping edge lies square to it: times the cosine of its angle."),
            WrongAnswer(UNTAPERED, float((line.width - y) / D), "That is to the toe. The taper has taken the toe away here, or has come nearer than it."),
            WrongAnswer(FROM_INSIDE, float(line.clearance(x, y + t)) / float(D), "So it would be if the height were from the inside face. Heights are from the heel."),
        ),
        hints=(
            f"How high does the leg still stand, {exact(x)} from the end?",
            f"It stands {decimal(stands)} from the heel: {decimal(stands - y)} above the hole's centre. Then square to the edge.",
        ),
        working=f"The leg stands {decimal(stands)} high there, {decimal(stands - y)} above the centre; times the cosine of {line.angle:.1f} degrees, {slope:.3f}, that is "
        f"{decimal(distance)}; divided by {decimal(D)}: {distance / float(D):.2f}. {_kept(worst_edge(part, hole))}.",
        places=2,
    )


def _kept(edge: EdgeDistance) -> str:
    return "The edge is kept" if edge.outcome == KEPT else outcome_words(edge)


def still_kept(part: Part, run: Fraction, id: str = "still-kept") -> ChoiceQuestion:
    """Whether a longer run keeps the edge distance of the part's hole."""
    line, hole = _taper_and_hole(part)
    new = longer(part, run)
    edge = worst_edge(new, hole)
    right, other = ("kept", "short") if edge.outcome == KEPT else ("short", "kept")
    return ChoiceQuestion(
        id,
        f"The {part.name.split(',')[0].lower()}'s run is {exact(Fraction(line.run))}; it fits. Somebody lengthens it to {exact(run)}, to save weight. It still fits. Its hole for a {exact(hole.diameter)} "
        f"rivet stays {exact(hole.x)} from end 1, {exact(hole.y)} from the heel. Is the edge distance of 2 diameters kept?",
        ("kept", "short"),
        right,
        wrong=(WrongAnswer("fits-so-fine", other, "That it fits says nothing about the metal between hole and edge: that has to be measured."),),
        hints=("The line comes nearer to the hole the longer the run.",),
        working=f"{verdict_sentence(edge)}. The part looks the same, and drops into place the same.",
    )


def it_fits(id: str = "it-fits") -> ChoiceQuestion:
    """What fitting proves."""
    return ChoiceQuestion(
        id,
        "A changed bracket drops into place and every hole lines up. What does that prove about its edge distances?",
        {"fine": "it fits, so it is fine", "drill": "drill it larger and try again", "measure": "nothing yet: measure the edge, ask the plans"},
        "measure",
        wrong=(
            WrongAnswer("fits-so-fine", "fine", "A rivet 1.2 diameters from an edge lines up as well as one at 2. What it does later, no fit tells."),
            WrongAnswer("larger-rivet", "drill", "A larger rivet in the same place has fewer diameters to the edge, not more."),
        ),
        hints=("Does the neighbouring part know where the edge is?",),
        working="Fit is one check, edge distance another. And whether a change is allowed at all is neither: that is for the plans and the kit's maker.",
    )


def end_2_edge(part: Part = CLEAT, id: str = "edge-to-end-2") -> NumberQuestion:
    """From a hole to the square end 2, in diameters."""
    hole = max(part.holes, key=lambda hole: hole.x)
    right = (part.length - hole.x) / hole.diameter
    return NumberQuestion(
        id,
        f"The {part.name.split(',')[0].lower()} is {exact(part.length)} long. A hole for a {exact(hole.diameter)} rivet is dimensioned {exact(hole.x)}, and lies nearest to end 2. "
        "How far is it from end 2, in diameters?",
        right,
        "D",
        tolerance=Fraction(1, 20),
        wrong=(
            WrongAnswer(WRONG_END, hole.x / hole.diameter, "That is from end 1, where the dimension begins. The nearer end is the other."),
            WrongAnswer(BEYOND, right - Fraction(1, 2), "From the centre, not from the hole's edge."),
        ),
        hints=(f"{exact(part.length)} less {exact(hole.x)}.",),
        working=f"{exact(part.length - hole.x)} divided by {exact(hole.diameter)}.",
        places=2,
    )


def metal_beyond(id: str = "metal-beyond") -> NumberQuestion:
    """How much metal is left beyond a hole whose centre is two diameters from the edge."""
    return NumberQuestion(
        id,
        "A hole's centre lies exactly 2 diameters from an edge. How many diameters of metal are left between the hole's own edge and that edge?",
        Fraction(3, 2),
        "D",
        tolerance=Fraction(1, 50),
        wrong=(
            WrongAnswer("centre-as-hole-edge", Fraction(2), "That is from the centre. The hole itself reaches half a diameter towards the edge."),
            WrongAnswer("whole-diameter-off", Fraction(1), "The centre is half a diameter from the hole's edge, not a whole one."),
            WrongAnswer("half-diameter-added", Fraction(5, 2), "The hole takes metal away. It does not add any."),
        ),
        hints=("How far is the hole's edge from its centre?",),
        working="So “2 D” and “1.5 D” can be one and the same hole, or two very different ones. Ask where it is counted from: here, and in the sources below, from the centre.",
        places=2,
    )


def by_the_trap(diameter: Fraction = Fraction(1, 8), id: str = "by-the-trap") -> LengthQuestion:
    """By how much a hole is short whose centre lies 1.5 diameters from the edge."""
    right = diameter / 2
    return LengthQuestion(
        id,
        f"Somebody has heard “1.5 D” and marks a hole for a {exact(diameter)} rivet with its centre {exact(diameter * 3 / 2)} from the edge. By how much is the edge short of 2 diameters?",
        right,
        tolerance=Fraction(1, 256),
        sides=MUCH,
        wrong=(
            WrongAnswer("centre-as-hole-edge", Fraction(0), "1.5 D would be right for the metal beyond the hole's edge. This is the centre.", nothing=True),
            WrongAnswer("whole-diameter-off", diameter, "Half a diameter lies between the two ways of counting."),
            WrongAnswer("distance-as-shortfall", diameter * 2, "That is what it should be. Asked is what is missing."),
        ),
        hints=(f"2 diameters are {exact(2 * diameter)}.",),
        working=f"{exact(2 * diameter)} less {exact(diameter * 3 / 2)}: EDGE SHORT by {show(right)}.",
        graduation=64,
    )


def least_of(diameter: Fraction = Fraction(5, 32), flush: bool = True, id: str = "least-edge") -> LengthQuestion:
    """The least edge distance of a rivet, protruding or flush."""
    right = least_edge(Hole("A", 1, 1, diameter, flush))
    other = diameter * (PLAIN if flush else FLUSH)
    return LengthQuestion(
        id,
        f"A {'flush' if flush else 'protruding'} head, a {exact(diameter)} rivet. What is the least distance from the hole's centre to an edge?",
        right,
        tolerance=HALF,
        wrong=(
            WrongAnswer("other-head", other, f"That is for a {'protruding' if flush else 'flush'} head. A countersink takes metal round the hole."),
            WrongAnswer(BEYOND, right - diameter / 2, "That is the metal beyond the hole's edge."),
            WrongAnswer("most-as-least", 4 * diameter, "4 diameters are named as the most, as information."),
            *by_mistakes(Asked(right, measured=True), "M08"),
        ),
        hints=("2 diameters, or 2 1/2 where the head is flush.",),
        working=f"{exact(FLUSH if flush else PLAIN)} times {exact(diameter)}: {both(right)}.",
    )


def four_diameters(id: str = "four-diameters") -> ChoiceQuestion:
    """What more than four diameters means."""
    return ChoiceQuestion(
        id,
        "The nearest edge of a hole is 4.5 diameters away. The source says: not more than 4. What is that on a finished part?",
        {"error": "an error: drill it again", "information": "information: look whether the plans mean it", "better": "the more the better"},
        "information",
        wrong=(
            WrongAnswer("information-as-error", "error", "A second hole beside the first is worse: metal that was whole is gone."),
            WrongAnswer("more-as-better", "better", "An edge far from its last rivet is not held down by it. Neither more nor less is better without the plans."),
        ),
        hints=("What can be done about it that makes the part better?",),
        working="Least edge distances are checked against the part. Most edge distance and pitch are printed as information; the plans decide.",
    )


# --- why -------------------------------------------------------------------------------------------------------
def why_tapered(id: str = "why-tapered") -> ChoiceQuestion:
    """The published reason for a tapered end."""
    return ChoiceQuestion(
        id,
        "The ends of many angles are tapered. Which reason has a published source?",
        {"weight": "only to save weight", "load": "so that the end rivet does not take most of the load", "looks": "so that it looks like the others"},
        "load",
        wrong=(
            WrongAnswer("weight-as-reason", "weight", "It saves a little, as the picture shows. But it is a few grams; it is not why."),
            WrongAnswer("looks-as-reason", "looks", "Plans do not spend a saw cut on looks."),
        ),
        hints=("What happens at the place where a stiff angle suddenly ends?",),
        working="AC 43.13-1B, 4-58j(3), of a splice: “to avoid concentration of load on the end rivet”. So a taper is part of the design: not yours to lengthen or leave out without asking.",
    )


def where_least(part: Part = CLEAT, id: str = "where-least") -> ChoiceQuestion:
    """Where along the part the least metal is left."""
    return ChoiceQuestion(
        id,
        f"The {part.name.split(',')[0].lower()} again, its taper leaving {exact(part.tapers[0].width_left)} at end 1. A square cut through it at some x: where does it meet the least metal?",
        {"hole": "at the hole in the full leg", "end": "at end 1", "bend": "where the taper begins"},
        "end",
        wrong=(
            WrongAnswer("hole-over-taper", "hole", "A hole takes its diameter times the thickness. The taper here takes three times that at the end."),
            WrongAnswer("bend-as-weak", "bend", "There the leg is whole: the taper only begins to take."),
        ),
        hints=(f"At the end {exact(part.section.leg_a - part.tapers[0].width_left)} of the leg is gone. The hole takes {exact(part.holes[0].diameter)}.",),
        working="What that means for strength is not computed here: load comes in rivet by rivet, and the plans have counted on it.",
    )


# --- with fresh numbers ------------------------------------------------------------------------------------
def fresh_hole(seed: str) -> Part:
    """A practice part with a taper and one hole beside it, whose nearest edge is the taper, 1.2 to 3.5 diameters away."""
    for tried in seeds(f"{seed}, hole"):
        numbers = Numbers(tried)
        part = fresh_part(tried, ends_in="flat", legs="AB")
        line = taper_lines(part)[0]
        D = numbers.pick(RIVETS)
        low = row_band(part.section, line.leg, D)[0]
        if low + D > line.width:
            continue
        hole = Hole(line.leg, numbers.length(Fraction(1, 2), Fraction(line.run) + Fraction(1, 2), Fraction(1, 16)), numbers.length(low, low + D, Fraction(1, 16)) if low % Fraction(1, 16) == 0 else low, D)
        if line.clearance(hole.x, hole.y) < float(D):
            continue
        with_hole = replace(part, holes=(hole,))
        worst = worst_edge(with_hole, hole)
        if worst.to == EdgeId(TAPER, 1) and 1.2 < worst.diameters < 3.5:
            return with_hole
    raise AssertionError  # seeds never end


EXERCISES = {
    "edge": Series(to_the_taper, "09-edge", (BEYOND, UNTAPERED), fresh=fresh_hole),
    "row": Series(lambda thing, id: row(thing.section, thing.diameter, id), "09-row", ("no-head", "no-fillet"), fresh=fresh_row),
    "rivet": Series(rivet, "09-rivet", ("nothing-to-drive", "one-diameter-tail"), fresh=fresh_joint),
}
"""The lesson's exercises by name, in order."""

QUESTIONS = {
    "to-the-taper": lambda: to_the_taper(longer(CLEAT, Fraction(2))),
    "still-kept": lambda: still_kept(CLEAT, Fraction(7, 4)),
    "it-fits": it_fits,
    "edge-to-end-2": end_2_edge,
    "metal-beyond": metal_beyond,
    "by-the-trap": by_the_trap,
    "least-edge": least_of,
    "four-diameters": four_diameters,
    "row": lambda: row(CLEAT.section, Fraction(1, 8)),
    "band": lambda: band(CLEAT.section, Fraction(3, 16)),
    "rivet": rivet,
    "why-tapered": why_tapered,
    "where-least": where_least,
}
"""Every question of the lesson by name, for the table of mistakes."""
