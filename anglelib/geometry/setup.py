"""How the angle sits at the saw: which face is up, so which face carries the line.

Three ways serve every cut of the course. The line must be on a face that is up, the work must rest
without rocking, and the blade guide must just clear whatever stands up. Which way suits a cut is
common practice; the heights are geometry.

>>> from anglelib.section import Section
>>> square_cut(Section("3/4", "3/4", "1/8")).words
'heel up, on both toes'
"""

from __future__ import annotations

from dataclasses import dataclass

from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import Number, TaperLine
from anglelib.section import Section, other_leg

HEEL_UP = "heel up"
INSIDE_UP = "inside up"
OUTSIDE_UP = "outside up"


@dataclass(frozen=True)
class Setup:
    """One way of laying the angle on the saw table.

    ``stance`` is "heel up", "inside up" or "outside up"; ``flat_leg`` the leg that lies flat ("" with
    the heel up); ``faces`` those that carry the line; ``enters`` and ``leaves`` say where the blade
    goes in and comes out; ``height`` [in] is the highest metal above the table beside the blade,
    which the guide just clears; ``metal`` [in] is what the teeth are in at once, top to bottom, in
    the thinnest place of the cut; ``block`` [in] is the least height of the block underneath (0: none).
    """

    stance: str
    flat_leg: str
    words: str
    faces: tuple[str, ...]
    enters: str
    leaves: str
    height: Number
    metal: Number
    block: Number
    because: str


def heel_up_height(section: Section) -> float:
    """Height of the heel above the table when the angle stands on both toes [in]."""
    return float(
        formulas().heel_up_height(
            a=section.leg_a, b=section.leg_b, tA=section.thickness_a, tB=section.thickness_b, r2=section.toe_radius
        )
    )


def square_cut(section: Section) -> Setup:
    """Cutting square across: the angle stands on both toes, and the blade meets both legs alike."""
    f = formulas()
    slope = f.heel_up_slope(a=section.leg_a, b=section.leg_b, tA=section.thickness_a, tB=section.thickness_b)
    metal = min(
        f.heel_up_metal(t=float(section.thickness_a), gamma=slope),
        f.heel_up_metal(t=float(section.thickness_b), gamma=90 - slope),
    )
    return Setup(
        HEEL_UP,
        "",
        "heel up, on both toes",
        ("leg A, outer face", "leg B, outer face"),
        "at the toe of one leg",
        "at the toe of the other",
        heel_up_height(section),
        metal,
        0,
        "both outer faces are up, the angle cannot rock, and both legs are sawn alike",
    )


def taper_cut(line: TaperLine) -> Setup:
    """Cutting a taper: inside up where the line reaches the fillet or the other leg, else outside up on a block."""
    return inside_up(line) if line.ends_in != "flat" else outside_up(line)


def inside_up(line: TaperLine) -> Setup:
    """The tapered leg flat on the table, the other leg standing: the line is on the inside."""
    section, other = line.section, other_leg(line.leg)
    reaches = line.vertex_projection is not None
    faces = [f"leg {line.leg}, inner face"]
    if line.ends_in != "flat":
        faces.append("fillet")
    if reaches:
        faces.append(f"leg {other}, inner face")
    return Setup(
        INSIDE_UP,
        line.leg,
        f"leg {line.leg} flat, inside up, leg {other} standing",
        tuple(faces),
        "through the end" + (f", down the whole height of leg {other}" if reaches else ""),
        f"at the toe of leg {line.leg}",
        section.leg(other),
        section.thickness(line.leg),
        0,
        f"leg {line.leg} lies steady on the table and the line can be seen up to leg {other}"
        if not reaches
        else f"the blade cuts leg {other} too, and the line can be seen on both legs",
    )


def outside_up(line: TaperLine) -> Setup:
    """The tapered leg on a block, outside up, the other leg hanging: the line is on the outside; the block is sawn too."""
    section, other = line.section, other_leg(line.leg)
    return Setup(
        OUTSIDE_UP,
        line.leg,
        f"leg {line.leg} flat on a block, outside up, leg {other} hanging",
        (f"leg {line.leg}, outer face",),
        "through the end",
        f"at the toe of leg {line.leg}",
        section.leg(other),
        section.thickness(line.leg),
        section.leg(other) - section.thickness(line.leg),
        "the whole line is on one flat face; the block holds the leg up and is sawn with it",
    )
