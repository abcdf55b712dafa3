"""What a handout says: for each lesson what is asked first, what to keep, what to do at the bench, which slips to look for.

Rules of the trade without a published source are common practice; where another source is given it was
read there. The kit's plans come first.

>>> WORDS["07"].title
'Taper on the inside face'
>>> [lesson for lesson, words in WORDS.items() if not words.slips]
['11', '12']
"""

from __future__ import annotations

from typing import NamedTuple


class Words(NamedTuple):
    """One lesson: title, what one can do after it, the question of the front, what to keep, the bench, slips by number, a last question."""

    title: str
    learns: str
    ask: str
    keep: tuple[str, ...]
    bench: tuple[str, ...]
    slips: tuple[str, ...]
    again: str


WORDS = {
    "00": Words(
        "Start here", "Recognise heel, toe, leg, fillet, end, datum; work safely.",
        "Write the name of each numbered place. Which one place does every height start from?",
        (
            "The heel is the outside corner line, a toe a leg's free edge, the fillet the inside radius.",
            "Heights are from the heel, lengths from end 1: the datum. Everything is measured from it, nothing is stepped off.",
            "The vertex is the one point of an end that lies on the heel.",
            "A dimension that starts at an inside corner is short by the other leg's thickness.",
        ),
        (
            "Take an off-cut: touch heel, toes, fillet, both ends, and say their names to your neighbour.",
            "Write A and B on the legs and 1 on the end that is to be the datum, with a marker, never a scriber.",
            "Find the stop of each machine before it is switched on. Glasses on; sleeves, rings, cords off.",
        ),
        ("M11",), "Which leg is A if nothing is written on the metal?",
    ),
    "01": Words(
        "Identify the stock", "Identify a section, and say what proves its alloy.",
        "Two off-cuts, one size. In what do they differ, and which of them may be used for a part of 6061-T6?",
        (
            "Measure both legs, both thicknesses and the fillet before the first cut of every stick.",
            "A fillet suggests structural angle, a square inside corner architectural angle (suppliers' pages, common practice): a clue, never proof.",
            "Only a mark or a certificate proves an alloy. By weight 6061 and 6063 cannot be told apart.",
            "Write the alloy back on every piece before the cut that takes the mark away.",
        ),
        (
            "Caliper closed on a leg: read it to 0.001, say the fraction, write both.",
            "Hold drill shanks into the fillet until one touches all along: that is its radius.",
            "Write what is proven on each off-cut. Where nothing is, write: set aside.",
        ),
        ("M23", "M24"), "What would you do with a stick that carries no mark?",
    ),
    "02": Words(
        "Read the part", "Tell left, right and neither apart.",
        "Sketch the other hand of the cleat, as it lies after the mirror.",
        (
            "A part is handed where no turn brings it on to its mirror image.",
            "Equal legs: turned end for end it is the same metal, leg A at end 1 now leg B at end 2. It is not the other hand.",
            "Which hand belongs to which side of the aircraft is the plans' claim. Whether there are two hands is geometry.",
        ),
        (
            "Lay your check print beside your neighbour's: what lies at the left of one lies at the right of the other?",
            "Mark the two hands out heel to heel, so that the tapers point the same way.",
            "Write leg, end and hand on the metal before the first line.",
        ),
        ("M09", "M10", "M26"), "Turn your off-cut end for end. Which of your marks are wrong now?",
    ),
    "03": Words(
        "Square an end", "Check an end on both legs.",
        "The square shows this on leg A. What do you know of leg B? How much must come off along the heel?",
        (
            "An end is square when the blade shows no light on either leg.",
            "Angle out of square: the tangent is the gap over the leg's width.",
            "The flip test doubles the square's own error: two lines struck from both sides part by twice of it.",
            "Take off what the farthest corner needs, along the heel; then the end is the datum, and is dressed no more.",
        ),
        (
            "Square against the light on leg A, then on leg B, from outside and inside.",
            "The disc's table as close to the disc as runs clear, set with the power off; sand on the half that runs down on to it; no thin edge into the gap. Too hot to hold: dip it, dry it.",
            "By hand: file across, then abrasive sheet on a flat plate.",
        ),
        ("M16", "M21"), "Your square parts by 1/16 in the flip test. By how much does it err?",
    ),
    "04": Words(
        "Mark along the heel", "Lay out everything from one datum.",
        "Eight holes are stepped off with a rule that is 1/64 off. Sketch how far each mark is off, and from the datum.",
        (
            "Stepping off adds an error at every step; from one datum each mark has its own error and no other.",
            "At the rule's 1-inch mark: say the inch aloud, and take it off.",
            "The edge of the ink next to the part is the dimension. Read every fraction back as a decimal.",
        ),
        (
            "Rule against a stop on end 1; all marks in one setting; then read all of them back.",
            "Carry each mark round both legs with the square on its outer face.",
            "Cross the waste before you leave the bench.",
        ),
        ("M07", "M08", "M17", "M18", "M27"), "Which one mark would you check from the other end, and why?",
    ),
    "05": Words(
        "Kerf and sanding allowance", "Calculate a blank.",
        "The line stands where the part is to end. Draw the band that the blade takes, and the metal left to sand.",
        (
            "The kerf is the blade and its set on both sides: measure it by a test cut, with this blade.",
            "A blank is the part's length and one sanding allowance for each sawn end. The kerf lies beside it, in the stick.",
            "The saw runs outside the line, on the crossed side; then sand to the line.",
            "Of several blanks on one stick each needs its kerf: leave it between two, or mark after every cut.",
        ),
        (
            "Test cut: measure a piece, saw it, measure both halves; what is missing is the kerf.",
            "With less than 6 in. in the hand the piece is clamped. A close insert; power off before a blade is changed; never reach for what falls off while the blade runs; brush the chips.",
            "By hand: a hacksaw's kerf is narrower; leave more to file.",
        ),
        ("M01", "M02", "M03", "M04", "M05", "M06"), "Where does your saw's guide stand now, and what would it hit with leg B standing?",
    ),
    "06": Words(
        "Taper on the outside face", "Construct run, height and angle.",
        "P, Q, R: which is the run, which the height? Guess the angle from the heel, in degrees.",
        (
            "The run is along the toe, from the end. The height is the leg's width less the width left.",
            "The tangent of the angle from the heel is height over run. A protractor that reads from square shows 90 less it.",
            "Two marks make the line: one on the toe at the run, one on the end at the width left.",
        ),
        (
            "Toe mark from end 1, end mark from the heel; join them; cross the waste.",
            "Say both angles aloud, from the heel and from square, before the saw is set.",
            "Outside up, the work lies on a block, so high that the hanging toe clears the table by 1/16: clamp both, it is sawn too. The guide is set over the work as it sits.",
        ),
        ("M13", "M14", "M15", "M19", "M20"), "What becomes of the angle when the run is laid along the slope?",
    ),
    "07": Words(
        "Taper on the inside face", "Find the mark where the other leg hides the vertex.",
        "Leg B hides the vertex. Where on its inner face does the line come out? Mark the place.",
        (
            "To the vertex, run X, leg width W, leg B's thickness t: the mark on leg B's inner face is X t / W from the end.",
            "With a width left s: X (t - s) / (W - s). The first mark on the flat, past a fillet r: X (t + r - s) / (W - s).",
            "In the fillet the line bends towards the toe: a strip of paper pressed into it carries the line.",
            "With the width left wider than t + r the line ends on the flat, and nothing is hidden: so it is on the class's cleats.",
        ),
        (
            "Mark the flat from the heel, not from the inside corner: hook the square on the outside.",
            "Inside up, leg B standing: set the guide over the standing leg; above the flat leg the blade then runs bare, hands off there. A close insert.",
            "See that the inside line and the outside one begin and end together before you saw.",
        ),
        ("M11", "M12"), "What is left at the end if the line is aimed at the inside corner?",
    ),
    "08": Words(
        "Order of work", "Put the operations in order.",
        "The cards lie in somebody's order. Which one comes too early, and what does it cost?",
        (
            "The datum first; then the hard end, on the long piece; then the length; then what is left.",
            "A spoiled taper on the piece costs a little of its end. On a part cut to length it costs the part.",
            "A short part cannot be held at the saw by hand: taper first, while there is 10 in. to hold.",
        ),
        (
            "Follow your part card. Tick each step when it is done, not before.",
            "One trial in scrap, one dry fit, then the batch.",
            "Your neighbour has the piece next: saw off cleanly, write the alloy on what is left.",
        ),
        ("M16", "M05"), "Which step of your card could not be made good again?",
    ),
    "09": Words(
        "Holes and what-if", "Evaluate a taper: edge distance, remaining section, weight.",
        "Draw round the hole the circle that no edge may enter, for a 1/8 rivet. How far may the taper come?",
        (
            "Edge distance is from the hole's centre to the edge: 2 diameters or more, 2 1/2 with a flush head (Army course AL0992). The plans come first.",
            "2 diameters from the centre leave 1 1/2 of metal beyond the hole's edge: do not mix the two.",
            "A head is clear of the fillet from t + r + D off the heel (derived; head of 2 D from memory).",
            "A hole is piloted first; its size is opened on assembly, where the plans say so.",
        ),
        (
            "Mark both holes from the datum and the heel, centre punch, pilot. The part is clamped: a grabbing drill spins it. The chuck key out.",
            "Deburr both sides.",
            "No drill at hand: mark and punch only.",
        ),
        ("M11", "M17"), "Your taper is lengthened by 1/2. Which hole is the first in trouble?",
    ),
    "10": Words(
        "Check and diagnose", "Name the slip from readings of a finished part.",
        "The part is short. Which slips make a part short by this? Write two, and the reading that parts them.",
        (
            "First the check print: the metal's edge lies in the white between the two lines, or it does not.",
            "Only a part that misses is measured. Cold, and at the heel and at both toes.",
            "Long may be sanded; short is short. Some slips cannot be told apart on one part: say so.",
        ),
        (
            "Lay leg A, then leg B on the print, outer face down, heel and end against the bars.",
            "A miss: take the seven readings of your card, look for the slip with the class's table.",
            "Lay your part against your neighbour's: they are a pair, or two of one hand.",
        ),
        ("M01", "M04", "M13", "M22", "M25", "M26"), "Which reading would you take first, and what would it rule out?",
    ),
    "11": Words(
        "Plan the stock", "Plan which stick each blank comes from.",
        "Three blanks of 5, kerf 1/16, from 15 1/8 of usable stick, the far end rough. Do they fit?",
        (
            "Each blank takes its length and a kerf; the far end is parted off too, unless it is square and sound.",
            "No long stick is opened for a short part while a remnant serves.",
            "A part in one piece is not spliced on your own decision. Where the plans name the stick, that comes first.",
        ),
        (
            "Table game: strips of paper for blanks, longer ones for sticks. Place them, then find who kept the longest remnant.",
            "Tag what is left: id, length, alloy. Under 3 in. it is scrap.",
            "The game once more with one blank cut wrong: which plan still makes everything?",
        ),
        (), "Which stick did you open last, and could that have been spared?",
    ),
    "12": Words(
        "Make a part", "Make a part of your own by the whole chain, to the shop pack.",
        "The cleat of this sheet: write its operations in order, and the length of its blank.",
        (
            "Receive, identify, read, list, choose the stick, blank, square, datum, lay out, taper, length, holes, edges, inspect, tag.",
            "At home: type the part, let it be checked, print its shop pack, lay the check print out before the first cut.",
            "This course computes geometry and stock; it approves nothing. Strength and every deviation are for the plans and a licensed inspector.",
        ),
        (
            "Take home: your part, its card and prints, what is left of your piece, tagged.",
            "Write in your record who did what, when, and how (AC 20-27G asks a builder for that).",
            "Make the other hand of your part at home: it shows what was learnt today.",
        ),
        (), "What will you do differently at the second part?",
    ),
}  # fmt: skip
"""The handouts' words by lesson."""
