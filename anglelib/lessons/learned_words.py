"""What each lesson was about, and what to carry from it to the bench: short, and computed where it is a number.

>>> lines, carry = LEARNED["08_order_of_work"]()
>>> lines[0]
'The taper is sawn while the piece is long: if the saw drifts, it costs 2 7/32 of the stick there, and 4 7/8 once the bracket is cut to length.'
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import atan, degrees, radians, sin, sqrt

from anglelib.alloy import density
from anglelib.geometry.taper import taper_lines
from anglelib.inspection.reading_ids import USUAL
from anglelib.job import Shop
from anglelib.lengths import both, decimal, exact, show
from anglelib.lessons.demo import demo_part
from anglelib.part import BROKEN

Said = tuple[tuple[str, ...], str]
"""The sentences, and what to carry."""
HAIR = Fraction(1, 64)


def start_here() -> Said:
    section = demo_part("C1R").section
    return (
        "Heel, toe, fillet, vertex, end 1: each word is one place. Heights across a leg are from the heel.",
        f"“The corner” may mean four places. Measured from the inside corner, a hole comes out too far from the heel by the other leg: {show(section.thickness_b)} where that is as thick.",
        "Running dimensions all begin at end 1, the datum: a slip at one hole stays at that hole.",
    ), "write A, B and 1 on the metal before anything else; hook the square over the heel, outside; at the disc, the half that runs down."


def identify_stock() -> Said:
    first = density("6061-T6")
    heavier = 100 * (density("7075-T6") / first - 1)
    lighter = 100 * (1 - density("6063-T5") / first)
    return (
        "Size is not metal: only the mark on the metal, or the certificate of this very stick, names alloy and temper.",
        "Say the beam of the caliper first, and read it back as a decimal.",
        f"The scale can part 7075 from 6061, {heavier:.1f} percent, and never 6063, {lighter:.1f} percent. It rules out, and lets nothing in.",
    ), "caliper, drills of known diameter for the fillet, marker. A stick without a mark stays on the rack."


def read_part() -> Said:
    return (
        "Turned end for end a part keeps its hand; only its mirror image is the other one.",
        "One taper on equal legs has four descriptions and is two parts.",
        "Whether a part is handed is computed. Which of the two is left, the kit says.",
    ), "write leg, end and hand on each piece before the first mark; lay a pair heel to heel: it must mirror."


def square_end() -> Said:
    leg, light = Fraction(5, 4), Fraction(1, 32)
    return (
        "An end is square when it shows no light on both legs; one leg tells half of it.",
        f"Light of {show(light)} on a leg of {exact(leg)} is {degrees(atan(light / leg)):.1f} degrees.",
        f"Errors of opposite sense add: {show(light)} one way and {show(light)} the other take {show(2 * light)} off the length.",
        "A square is tested by turning it over: the lines part by twice its error.",
    ), "a square that was turned over; end 1 squared on both legs while the piece is long, a 1 beside it, and no tool on it again."


def mark_along_heel() -> Said:
    return (
        f"Eight steps, each {show(HAIR)} long, end {show(8 * HAIR)} too far; each mark from the datum is off by its own reading alone.",
        f"Errors that are now long, now short, grow too, by the root of their number: eight of {show(HAIR)} come to about {decimal(float(HAIR) * sqrt(8))}.",
        "The edge of the ink next to the part is the dimension.",
    ), "rule, square, a fine marker, no scriber on metal that stays. “From one” said aloud; a witness line before a cut that takes end 1."


def kerf_and_allowance() -> Said:
    shop, length = Shop(), Fraction(19, 4)
    return (
        f"The near side of the saw runs {show(shop.allowance)} outside the line: the sanding allowance.",
        f"A part {exact(length)} long, sawn at both ends, has a blank of {exact(length + 2 * shop.allowance)}. The kerf is not in it: the stick pays for it, {show(shop.kerf)} a cut.",
        "At least two teeth are in the thinnest metal at once; heel up there is 1.41 times as much of it.",
    ), "your own kerf, from a test cut in scrap, written on the saw. The part is cooled before it is measured."


def taper_outside() -> Said:
    line = taper_lines(demo_part("E2R"))[0]
    return (
        f"The run lies along the toe, {exact(line.run)} on the step bracket; the width left, {exact(line.width_left)}, is measured from the heel. Two points make the line.",
        f"Its angle is {line.angle:.1f} degrees from the heel, {line.from_square:.1f} from square: always say from where.",
        "A run laid along the slope makes the taper short and steep.",
    ), "leg, end and hand written on the metal, the corner that goes crossed. The line is the master, the angle a check."


def taper_inside() -> Said:
    line = taper_lines(demo_part("C1R"))[0]
    return (
        f"Where the line comes out on the other leg goes by the thickness of that other leg: for the bracket of this page {both(line.vertex_projection)} from the end.",
        "One thickness back is right at 45 degrees, and only there.",
        f"In the fillet the line bends: on its own leg the flat begins at {both(line.first_flat)}. It never aims at the inside corner.",
    ), f"three marks, on toe, flat and other leg, and a witness line before the cut; the feather edge broken first, by {exact(BROKEN)}."


def order_of_work() -> Said:
    from anglelib.questions.order_of_work import BRACKET, lost_on_the_stick, lost_when_cut_first

    early, late = (ask(BRACKET, Shop(), "learned").answer for ask in (lost_on_the_stick, lost_when_cut_first))
    return (
        f"The taper is sawn while the piece is long: if the saw drifts, it costs {show(early)} of the stick there, and {show(late)} once the bracket is cut to length.",
        "The harder end is made first; what can hardly fail, comes last.",
        "The datum is squared before anything is laid out from it, and saved by a witness line before a cut takes it away.",
    ), f"the cards of the part in their order. With less than {exact(Shop().hand_minimum)} in. in the hand the piece is clamped. One trial part in scrap before a batch."


def holes_and_what_if() -> Said:
    from anglelib.questions.holes_and_what_if import CLEAT, longer, to_the_taper

    asked = to_the_taper(longer(CLEAT, Fraction(2)), "learned")
    return (
        "Edge distance runs from the hole's centre to the nearest edge, square to it: 2 diameters at least, 2.5 under a flush head, unless the plans say otherwise.",
        f"A longer taper still fits, and takes the edge: on the cleat with a run of 2 the hole keeps {asked.answer_text}.",
        "“One and a half” is the metal beyond a hole, not the distance of its centre.",
    ), "which rivet, head and edge distance the plans give; the circle of that distance drawn round each hole. No edge may cut it."


def check_and_diagnose() -> Said:
    return (
        f"The right length is not the right part: {USUAL} readings together part most slips.",
        "Each slip has its own set of readings that are off. Some slips no reading of one part can tell from another.",
        "A reading near its limit proves nothing: the limit is shrunk by what your caliper in your hands is unsure of.",
    ), "the check print first, the caliper for what misses; all readings before you think; the cause found before the next part is cut."


def plan_stock() -> Said:
    kerf, count, blank = Shop().kerf, 3, Fraction(5)
    return (
        "For one part alone: the shortest piece that serves. With a list behind it: ask what the rest would lack.",
        f"{count} blanks of {exact(blank)} take {exact(count * blank + count * kerf)} of a stick: each has its kerf of {show(kerf)}.",
        "What may not be spoiled is cut first, while another stick could still take over.",
    ), "the plan and its tags. Measure the sticks before the first cut; where one differs, plan again before the next. What has no mark is not used."


def make_part() -> Said:
    line, allowance = taper_lines(demo_part("E2R"))[0], Shop().allowance
    further = float(allowance) / sin(radians(line.angle))
    return (
        "One description gives every mark, card and check. A wrong leg or end in it makes everything exact, and wrong.",
        f"The saw line lies {show(allowance)} outside the finished line, square to it; along the toe of the step bracket that is {decimal(further)}.",
        "What is short of edge is said in capitals, and is for the plans to decide.",
    ), "the pack, its bars measured on your print; the first part in scrap, by machine or by hand; the record signed."


def behind_the_pictures() -> Said:
    from anglelib.lessons.behind_the_pictures import bracket

    line = taper_lines(bracket())[0]
    return (
        "A section, a part, a mark, a picture, a plan: a line each.",
        f"A mark is kept exact, {line.vertex_projection} here, and written as a rule shows it, {both(line.vertex_projection)}.",
        "A number is right for the part described, and for no other.",
    ), "the description held against the plans before any mark is believed."


LEARNED: dict[str, Callable[[], Said]] = {
    "00_start_here": start_here,
    "01_identify_stock": identify_stock,
    "02_read_part": read_part,
    "03_square_end": square_end,
    "04_mark_along_heel": mark_along_heel,
    "05_kerf_and_allowance": kerf_and_allowance,
    "06_taper_outside": taper_outside,
    "07_taper_inside": taper_inside,
    "08_order_of_work": order_of_work,
    "09_holes_and_what_if": holes_and_what_if,
    "10_check_and_diagnose": check_and_diagnose,
    "11_plan_the_stock": plan_stock,
    "12_make_part": make_part,
    "13_behind_the_pictures": behind_the_pictures,
}
"""By lesson."""
