"""Cautions at each step of the work, each with its source; and how long an ear may bear a noise.

The law that is quoted binds workplaces; whoever works at home does well to keep it too. A source is named
only where it was read; a rule of the trade without one is marked as common practice. A number that no source
was read for is not printed: the gap of a disc's table, say, of which one shop's rule says 1/8 in. and another's 1/4.

>>> hours_allowed(100), hours_allowed(92)
(2.0, 6.062866266041593)
>>> needs_hearing_protection(84), needs_hearing_protection(85)
(False, True)
>>> hours_allowed(116)
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: 116 dBA is above 115, where no time at all is allowed: quieten the machine or stay away from it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from anglelib.errors import BenchError
from anglelib.geometry.lazy import formulas
from anglelib.lengths import unit_written

ACTION_LEVEL = 85.0
"""Mean level over eight hours [dBA] from which hearing has to be looked after; 29 CFR 1910.95(c)."""
CEILING = 115.0
"""Level [dBA] above which no time is allowed; 29 CFR 1910.95 table G-16 ends here."""

SEEN, PRACTICE, DERIVED = "seen", "common practice", "derived"


@dataclass(frozen=True)
class Caution:
    """What to mind at a step, and where it was read.

    ``step`` is one of STEPS by its id. ``words`` may hold {hand}: the shop's length in the hand below which a piece is clamped, with its unit;
    and {inch} behind a number of inches, which says so on a sheet in millimetres.
    ``status`` is "seen", where the source was read; "derived", where it follows by arithmetic or geometry.
    """

    step: str
    words: str
    source: str = ""
    status: str = SEEN

    def said(self, hand: str) -> str:
        """What to mind, in the shop's words."""
        return self.words.format(hand=hand, inch=" in" if unit_written() == "mm" else "")

    @property
    def origin(self) -> str:
        """The source as it is printed; common practice where there is none, and derived where it is that."""
        if self.status == DERIVED:
            return f"derived: {self.source}"
        return self.source or PRACTICE


BEFORE, NOISE, EVERY, MARKING, SAW, BENCH, DISC = "before", "noise", "every-machine", "marking", "saw", "bench", "disc"
WHEEL, DRILL, HOT, DUST, EDGES = "wheel", "drill", "hot", "dust", "edges"
STEPS = {
    BEFORE: "Before a machine is switched on",
    NOISE: "Noise",
    EVERY: "At every machine",
    MARKING: "Marking",
    SAW: "At the saw",
    BENCH: "At the bench, by hand",
    DISC: "At the disc sander",
    WHEEL: "At a wheel",
    DRILL: "At the drill",
    HOT: "Hot metal",
    DUST: "Dust",
    EDGES: "Edges and finish",
}
"""The steps that have cautions, in the order of the work, with what they are called."""
_SANDERS = "manuals of disc sanders"

CAUTIONS = (
    Caution(BEFORE, "Safety glasses that cover the sides too, marked Z87.1, always.", "29 CFR 1910.133(a), (b)"),
    Caution(BEFORE, "When grinding a face shield over them.", "TM 1-1500-204-23-8 p 2-2"),
    Caution(BEFORE, "Protection of the hands is suited to the task.", "29 CFR 1910.138(b)"),
    Caution(BEFORE, "No gloves at a running blade, belt or disc; gloves to handle the blade itself.", f"Army course OD1646; {_SANDERS}"),
    Caution(BEFORE, "Here: bare hands at saw and sander; stop and cool a hot part; gloves only with the machine stopped."),
    Caution(BEFORE, "No loose sleeves, rings, cords; loose hair is tied.", _SANDERS),
    Caution(NOISE, "From a mean of 85 dBA over eight hours hearing is looked after: cover the ears.", "29 CFR 1910.95(c)"),
    Caution(EVERY, "The power is off before anything is set, mended or cleaned, and before a blade is changed.",
            "TM 1-1500-204-23-8 p 2-2; Army course OD1646"),
    Caution(EVERY, "Chips and scraps are brushed away, never by hand, and when all stands still.", f"TM 9-243; {_SANDERS}"),
    Caution(MARKING, "A mark must not scratch metal that stays: a marker everywhere; scribe only a line that the cut takes away.",
            "FAA-H-8083-30 p 9-21; AL0992"),
    Caution(MARKING, "No graphite pencil."),
    Caution(SAW, "The blade's guard stands close to the work.", "29 CFR 1910.213(i)(1)"),
    Caution(SAW, "The guide is just clear of the work as it sits; where a leg stands up it must clear that leg.", "Army course OD1646"),
    Caution(SAW, "Over a standing leg the blade runs bare above the flat leg: no hand near it.", "the picture on the card", DERIVED),
    Caution(SAW, "A leg that lies outside up lies on a block, square, clamped, so high that the hanging toe clears the table by 1/16{inch}."),
    Caution(SAW, "A close insert round the blade: a wedge or sliver that falls beside it jams, or flies.",
            "Popular Woodworking, 6 March 2018"),
    Caution(SAW, "A cut that leaves less than {hand} in the hand is clamped, never hand-held; cut so that the piece in "
            "the hand stays long."),
    Caution(SAW, "At least two teeth in the thinnest metal, better three; in a leg that stands not over 24, or chips fill the gullets.",
            "Army PS 671; NAVEDTRA 14119 ch 5; trade guides to blades"),
    Caution(SAW, "Kerf is the blade and its set on both sides: measure it by a test cut, of this blade.", "NAVEDTRA 14119 ch 5; saw manual"),
    Caution(SAW, "Both sides of the cut are supported; never reach for what falls off while the blade runs."),
    Caution(BENCH, "Hacksaw, vise with soft jaws, file, abrasive sheet on a flat plate: slower, and it makes "
            "every part here."),
    Caution(BENCH, "Thin stock cut by snips: stay 1/32{inch} off the line and file to it.", "FAA-H-8083-30"),
    Caution(DISC, "Work only on the half of the disc that runs down on to the table; hands 2 in. off; small parts "
            "in a holder.", _SANDERS),
    Caution(DISC, "The sheet sticks fast before the disc is started, and nobody stands in line with it.", _SANDERS),
    Caution(DISC, "The table as close to the disc as runs clear: the gap draws in. Set it with the power off, and again after the table was tilted.",
            f"{_SANDERS}; TM 1-1500-204-23-8 p 2-2"),
    Caution(DISC, "Never point a thin edge into the gap: neither a taper's nor a finger.", _SANDERS),
    Caution(WHEEL, "Never a grey wheel for steel: aluminium loads it, heats it, and it can burst.", "MIT machine shop, on grinders"),
    Caution(WHEEL, "A bench grinder's work rest is within 1/8 in. of the wheel.", "29 CFR 1910.215(a)(4)"),
    Caution(WHEEL, "A soft finishing wheel is not a grinding wheel: its speed mark is the machine's or above; work where it runs away from "
            "the part, the edge trailing.", "safety sheets of wheel makers"),
    Caution(DRILL, "The part is clamped: a drill that grabs spins it. Eyes covered, no gloves.", "shop rules of universities"),
    Caution(DRILL, "The chuck key is out before the drill is started, or it flies.", "TM 1-1500-204-23-9, 6-3"),
    Caution(HOT, "A part that is too hot to hold: dip it in water, dry it. It is no quench, which is heat treatment."),
    Caution(HOT, "Such heat takes no temper: 6061-T6 kept its least yield strength through 64 hours at 350 F.", "Cal Poly senior project, 2015"),
    Caution(HOT, "A part of 1 1/2 ounces that takes 50 watts for a minute warms by up to 77 C (139 F).",
            "specific heat 896 J/(kg K), data sheets of 6061", DERIVED),
    Caution(HOT, "No heat to ease a bend in a heat-treated alloy.", "AC 43.13-1B 4-58i"),
    Caution(DUST, "Aluminium fines of 420 um and less can explode: apart from sparks, steel belts and wet vacuums.",
            "Aluminum Association, brochure F-1"),
    Caution(DUST, "No sander that has dressed steel: aluminium dust and rust can go up in a fireball.", "US DOE lesson 2001-RL-HNF-0036"),
    Caution(DUST, "Wet fines never in a closed bin or a vacuum: they give off hydrogen.", "chemical safety list DCHAS-L, 28 Feb 2012"),
    Caution(EDGES, "A burr or a feather edge cuts like a knife: break it at once."),
    Caution(EDGES, "Unless the plans say otherwise: edges broken 1/64{inch}, corners 1/8{inch}; finished lengthwise, cross-wise "
            "80-grit marks out; ink and dye off before primer."),
    Caution(EDGES, "Cut-outs and inside corners have a radius, never a saw-cut corner.", "NAVEDTRA 14018 ch 13"),
    Caution(EDGES, "Scratches and nicks raise stress: burnish or polish them out lengthwise.", "AC 43.13-1B 4-59b; NAVEDTRA 14018 ch 13"),
)  # fmt: skip
"""Everything to mind, in the order of the work."""


def hours_allowed(level: float) -> float:
    """Hours a day that are allowed at a steady sound level [dBA], ears unprotected.

    29 CFR 1910.95 appendix A, table G-16a: eight hours at 90 dBA, half as long for every 5 dBA more.
    """
    if not isfinite(level):
        raise BenchError("The sound level is not a number: read the meter again, on scale A, slow.")
    if level > CEILING:
        raise BenchError(f"{level:g} dBA is above {CEILING:g}, where no time at all is allowed: quieten the machine or stay away from it.")
    return float(formulas().hours_allowed(L_A=float(level)))


def dose(stays: list[tuple[float, float]]) -> float:
    """A day's noise as a part of what is allowed, from (level [dBA], hours) pairs; more than 1 is too much.

    >>> dose([(95, 2), (90, 4)])
    1.0
    """
    return sum(hours / hours_allowed(level) for level, hours in stays)


def needs_hearing_protection(level: float) -> bool:
    """Whether a level [dBA] kept up for eight hours calls for a hearing conservation programme: 85 and more."""
    return level >= ACTION_LEVEL
