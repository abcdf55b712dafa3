"""Cautions at each step of the work, each with its source and how well that is known; and how long an ear may bear a noise.

The law that is quoted binds workplaces; whoever works at home does well to keep it too. A rule of the
trade without a published source is marked as common practice, and a value that was not read in its
source says so: it is never printed as a requirement.

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

ACTION_LEVEL = 85.0
"""Mean level over eight hours [dBA] from which hearing has to be looked after; 29 CFR 1910.95(c)."""
CEILING = 115.0
"""Level [dBA] above which no time is allowed; 29 CFR 1910.95 table G-16 ends here."""

SEEN, SECOND_HAND, MEMORY, PRACTICE, DERIVED = "seen", "second-hand", "from memory", "common practice", "derived"


@dataclass(frozen=True)
class Caution:
    """What to mind at a step, where it was read, and how well that is known.

    ``words`` may hold {hand}: the shop's length in the hand below which a piece is clamped [in].
    """

    step: str
    words: str
    source: str = ""
    status: str = SEEN

    @property
    def origin(self) -> str:
        """The source with its status, as it is printed; common practice where there is none."""
        source = self.source or PRACTICE
        return source if self.status == SEEN else f"{source} ({self.status})"


CAUTIONS = (
    Caution("Before a machine is switched on", "Marked safety glasses (Z87.1) always, a face shield over them when grinding.",
            "29 CFR 1910.133", MEMORY),
    Caution("Before a machine is switched on", "Protection of the hands is suited to the task.", "29 CFR 1910.138"),
    Caution("Before a machine is switched on", "No gloves at a running blade, belt or disc.", "OSHA 3157", SECOND_HAND),
    Caution("Before a machine is switched on", "Here: bare hands at saw and sander; stop and cool a hot part; gloves only with the "
            "machine stopped."),
    Caution("Before a machine is switched on", "No loose sleeves, rings, cords; loose hair is tied.", "manuals of disc sanders"),
    Caution("Noise", "From a mean of 85 dBA over eight hours hearing is looked after: cover the ears.", "29 CFR 1910.95"),
    Caution("Marking", "A mark must not scratch metal that stays: a marker everywhere; scribe only a line that the cut takes away.",
            "FAA-H-8083-30 p 9-21; AL0992"),
    Caution("Marking", "No graphite pencil."),
    Caution("At the saw", "The blade's guard stands close to the work.", "29 CFR 1910.213(i)"),
    Caution("At the saw", "The guide is just clear of the work as it sits; where a leg stands up it must clear that leg."),
    Caution("At the saw", "A cut that leaves less than {hand} in the hand is clamped, never hand-held; cut so that the piece in "
            "the hand stays long."),
    Caution("At the saw", "At least two teeth in the metal; choose them by the width of the cut.", "Army PS 671; saw manuals"),
    Caution("At the saw", "Kerf is the blade and its set on both sides: measure it by a test cut, of this blade.", "saw manual"),
    Caution("At the saw", "Both sides of the cut are supported; never reach for what falls off while the blade runs."),
    Caution("At the bench, by hand", "Hacksaw, vise with soft jaws, file, abrasive sheet on a flat plate: slower, and it makes "
            "every part here."),
    Caution("At the bench, by hand", "Thin stock cut by snips: stay 1/32 off the line and file to it.", "FAA-H-8083-30"),
    Caution("At the disc sander", "Work only on the half of the disc that runs down on to the table; hands 2 in. off; small parts "
            "in a holder.",
            "manuals of disc sanders"),
    Caution("At the disc sander", "The sheet sticks fast before the disc is started, and nobody stands in line with it; "
            "gap to the table 1/8 to 1/4 in.", "manuals of disc sanders"),
    Caution("At a wheel", "Never a grey wheel for steel: aluminium loads it, heats it, and it can burst.", "makers of wheels", SECOND_HAND),
    Caution("At a wheel", "A bench grinder's work rest is within 1/8 in. of the wheel, its tongue within 1/4 in.", "29 CFR 1910.215"),
    Caution("At a wheel", "A soft finishing wheel (non-woven) is not a grinding wheel: its speed mark is the machine's or above, "
            "the rest is taken away, the work is below the centre, its edge trailing. Follow its maker's sheet.", "", MEMORY),
    Caution("At the drill", "The part is clamped: a drill that grabs spins it. Eyes covered, no gloves."),
    Caution("Hot metal", "A part that is too hot to hold (about 140 F) is far below any loss of temper: dip it in water, dry it. It "
            "is no quench, which is heat treatment."),
    Caution("Hot metal", "Bare metal of about 51 C (124 F) may be touched for a minute, of 65 to 70 C (149 to 158 F) for a second.",
            "ISO 13732-1", MEMORY),
    Caution("Hot metal", "A part of 1 1/2 ounces that takes 50 watts for a minute warms by up to 77 C (139 F).",
            "mass times specific heat", DERIVED),
    Caution("Hot metal", "No heat to ease a bend in a heat-treated alloy.", "AC 43.13-1B 4-58i"),
    Caution("Dust", "Aluminium fines of 420 um and less can explode: apart from sparks, steel belts and wet vacuums.",
            "Aluminum Association, brochure F-1; NFPA 484 (now 660, from memory)"),
    Caution("Dust", "Wet fines never in a closed bin or a vacuum; no sander that has dressed steel."),
    Caution("Edges and finish", "A burr or a feather edge cuts like a knife: blunt it at once."),
    Caution("Edges and finish", "Unless the plans say otherwise: edges broken 1/64, corners 1/8; finished lengthwise, cross-wise "
            "80-grit marks out; ink and dye off before primer."),
    Caution("Edges and finish", "Cut-outs and inside corners have a radius, never a saw-cut corner.", "AC 43.13-1B; FAA-H-8083-31", MEMORY),
    Caution("Edges and finish", "Scratches and nicks raise stress: burnish or polish them out lengthwise.", "AC 43.13-1B 4-59b"),
)  # fmt: skip
"""Everything to mind, in the order of the work."""
STEPS = tuple(dict.fromkeys(caution.step for caution in CAUTIONS))
"""The steps that have cautions, in the order of the work."""


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
