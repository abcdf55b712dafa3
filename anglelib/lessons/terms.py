"""The words of the course, each with what it means: the glossary's text, without its drawings.

>>> [term.name for term in TERMS][:3], TERMS[7].meaning
(['stick', 'rack', 'remnant'], 'the outside corner line, where the two outer faces meet')
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Term:
    """A word by its id: how it is written, what it means, what it is not or what to mind, and the lesson that uses it first."""

    id: str
    name: str
    meaning: str
    mind: str = ""
    lesson: str = "00"


TERMS = (
    Term("stick", "stick", "a length of stock, as it was bought or as it is now", "Not the part: many parts may come from one stick.", "01"),
    Term("rack", "rack", "the sticks on hand, remnants too", "", "11"),
    Term("remnant", "remnant", "what is left of a stick that was cut", "It goes back on the rack with a tag of its own.", "11"),
    Term("blank", "blank", "the piece, sawn over-length, that one part is made from", "Longer than the part by the sanding allowance at each sawn end.", "05"),
    Term("section", "section", "the L that one sees when looking at a squared end", "Two bars of one size may differ in thickness or in the fillet.", "01"),
    Term("leg-A", "leg A", "one of the two legs of the L, the one that the description names first", "With equal legs either may be called so; then hold to it.", "00"),
    Term("leg-B", "leg B", "the other leg", "", "00"),
    Term("heel", "heel", "the outside corner line, where the two outer faces meet", "All heights across a leg are measured from it.", "00"),
    Term("toe", "toe", "a leg's free edge, furthest from the heel", "", "00"),
    Term("outer-face", "outer face", "the flat outside of a leg, from the heel to the toe", "", "00"),
    Term("inner-face", "inner face", "the flat inside of a leg, from the toe to the fillet", "", "00"),
    Term("fillet", "fillet", "the inside radius, the rounded corner between the two inner faces", "It hides the vertex, and a head does not sit on it.", "01"),
    Term("end-1", "end 1", "the end that all lengths are measured from, x = 0", "It is the datum.", "00"),
    Term("end-2", "end 2", "the far end", "", "00"),
    Term("datum", "datum", "what everything is measured from: end 1, or the witness line where a cut destroys end 1", "Fix it once, and leave it.", "04"),
    Term("taper", "taper", "a sloping cut that narrows a leg towards an end", "Given by run and width left, or by an angle from the heel.", "06"),
    Term("run", "run", "the length of a taper along the toe", "Not along the slope.", "06"),
    Term("width-left", "width left", "the leg that is left at the tapered end, from the heel", "0: the taper runs to the vertex.", "06"),
    Term("vertex", "vertex", "the one point of an end that lies on the heel", "Not the inside corner.", "07"),
    Term("mark", "mark", "a struck line or point", "The edge of the ink next to the part is the dimension.", "04"),
    Term("offset", "offset", "the distance of a mark from the end, along the heel", "", "07"),
    Term("first-flat-mark", "first flat mark", "where a taper's line leaves the fillet and comes onto the flat of its own leg", "", "07"),
    Term("vertex-projection-mark", "vertex-projection mark", "the line square across the other leg's inner face where a taper to the vertex comes out", "It goes by the thickness of the other leg.", "07"),
    Term("witness-line", "witness line", "a square line across both legs, clear of all cuts, that becomes the datum where a cut destroys end 1", "Strike it before the cut.", "07"),
    Term("finished-line", "finished line", "where the part ends when all is done", "", "05"),
    Term("saw-line", "saw line", "where the near side of the kerf runs, outside the finished line by the sanding allowance", "", "05"),
    Term("waste", "waste", "the metal beyond the line", "Cross it before you saw.", "05"),
    Term("kerf", "kerf", "the width that the saw turns to dust", "It lies on the waste side. Measure your own by a test cut.", "05"),
    Term("sanding-allowance", "sanding allowance", "metal left outside the line, to be sanded off", "", "05"),
    Term("trim", "trim", "to clean up and square an end; the piece that it takes", "", "03"),
    Term("throat", "throat", "from the band saw's blade to what stands beside it and carries the upper wheel", "What lies on that side of the blade has to pass there.", "11"),
    Term("column", "column", "what stands beside the band saw's blade and carries its upper wheel", "", "11"),
    Term("rough-cut", "rough cut", "parting a stick by hacksaw outside the line, where it does not pass the saw; filed or sanded to the line afterwards", "A hacksaw wanders: leave what the sheet says.", "11"),
    Term("set-up", "set-up", "setting the saw's stop, angle or pose otherwise than it stands", "Pieces of one length are sawn one after the other, so that it is done once.", "11"),
    Term("hand", "hand", "left, right or neither: whether a part and its mirror image are two parts", "Which side of the aircraft it is, the kit says.", "02"),
    Term("feather-edge", "feather edge", "the thin edge that a taper to the vertex leaves on the other leg", "It cuts hands: break it first. How far it is blunted beyond that is for the plans to say.", "07"),
    Term("edge-distance", "edge distance", "from a hole's centre to the nearest edge, in rivet diameters", "Measured on the face where the edge comes nearest.", "09"),
    Term("pitch", "pitch", "from the centre of one hole of a row to the next", "", "04"),
    Term("grip", "grip", "the metal that a rivet holds together", "", "09"),
    Term("mistake", "mistake", "what a slip makes of the wanted part: another part, or a wrong number, that can be computed", "", "10"),
    Term("slip", "slip", "what a hand or a head does wrong, such as to read from the 1-inch mark", "One slip, one mistake: that is how it is found again.", "10"),
    Term("reading", "reading", "a measurement of a finished part", "Never of a hot one.", "10"),
    Term("job", "job", "the parts to make, and how this shop cuts", "", "11"),
    Term("plan", "plan", "which stick each blank comes from, and in which order it is cut", "Where the kit's plans name a stick, that comes first.", "11"),
    Term("runner-up", "runner-up", "the next best plan of a section, which gives up something that the plan by the rule has, and gains something else", "What it trades is said beside it.", "11"),
    Term("pick", "pick", "the one of the two plans that is cut by", "Choose before the first cut.", "11"),
    Term("offer", "offer", "a length that a supplier has, perhaps with its price", "", "11"),
    Term("purchase", "purchase", "what is to be bought, line by line; what has come is ticked off", "The kit's plans decide alloy and temper.", "11"),
    Term("shop-pack", "shop pack", "what is printed for the bench: plan, cards, fold sheets, check prints, tags", "", "12"),
)
"""Every word, in the order of the work."""
