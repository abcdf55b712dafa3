"""How the angle sits at the saw: which face is up, so which face carries the line.

Three ways serve every cut of the course. The line must be on a face that is up, the work must rest
without rocking, and the blade guide must just clear whatever stands up. Which way suits a cut is
common practice; the heights are geometry. Ids say what is what; the English is looked up last.

>>> from anglelib.section import Section
>>> setup = square_cut(Section("3/4", "3/4", "1/8"))
>>> setup.stance, setup.faces
('heel-up', ('A-outer', 'B-outer'))
>>> setup.words
'heel up, on both toes'
"""

from __future__ import annotations

from dataclasses import dataclass

from anglelib.geometry import setup_words as say
from anglelib.geometry.block import Block
from anglelib.geometry.layout import FILLET, face
from anglelib.geometry.lazy import formulas
from anglelib.geometry.taper import Number, TaperLine
from anglelib.lengths import show
from anglelib.section import Section, other_leg

HEEL_UP = "heel-up"
INSIDE_UP = "inside-up"
OUTSIDE_UP = "outside-up"


@dataclass(frozen=True)
class Setup:
    """One way of laying the angle on the saw table.

    ``stance`` is an id: heel-up, inside-up or outside-up; ``flat_leg`` the leg that lies flat ("" with
    the heel up); ``faces`` the ids of those that carry the line; ``way_in`` and ``way_out`` where the
    blade goes in and comes out, ``reason`` why so, each an id of :mod:`anglelib.geometry.setup_words`.
    ``height`` [in] is the highest metal above the table beside the blade, which the guide just clears,
    with the block under it; ``metal`` [in] is what the teeth are in at once, top to bottom, in the
    thinnest place of the cut; ``standing`` [in] is the height of the leg that the blade goes down as a
    whole (0: none); ``block`` is what lies underneath, None where nothing does.

    ``words``, ``enters``, ``leaves``, ``because`` and ``cautions`` say these in English: to be read, never compared.
    """

    stance: str
    flat_leg: str
    faces: tuple[str, ...]
    way_in: str
    way_out: str
    reason: str
    height: Number
    metal: Number
    standing: Number = 0
    block: Block | None = None

    @property
    def words(self) -> str:
        """How the angle lies, in English."""
        return self._said(say.STANCES[self.stance])

    @property
    def enters(self) -> str:
        """Where the blade goes in, in English."""
        return self._said(say.WAYS_IN[self.way_in])

    @property
    def leaves(self) -> str:
        """Where the blade comes out, in English."""
        return self._said(say.WAYS_OUT[self.way_out])

    @property
    def because(self) -> str:
        """Why the angle lies so, in English."""
        return self._said(say.REASONS[self.reason])

    @property
    def minds(self) -> tuple[str, ...]:
        """What to mind at this cut, as ids of :data:`anglelib.geometry.setup_words.CAUTIONS`."""
        return {HEEL_UP: (), INSIDE_UP: ("bare-blade", "sliver"), OUTSIDE_UP: ("block", "sliver")}[self.stance]

    @property
    def cautions(self) -> tuple[str, ...]:
        """The same in English."""
        high, block = show(self.height, 64, "up"), self.block.words if self.block else ""
        return tuple(say.CAUTIONS[id].format(high=high, block=block) for id in self.minds)

    def _said(self, words: str) -> str:
        return words.format(leg=self.flat_leg, other=other_leg(self.flat_leg) if self.flat_leg else "")


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
    faces = (face("A"), face("B"))
    return Setup(HEEL_UP, "", faces, "toe", "other-toe", "both-alike", heel_up_height(section), metal)


def taper_cut(line: TaperLine) -> Setup:
    """Cutting a taper: inside up where the line reaches the fillet or the other leg, else outside up on a block."""
    return inside_up(line) if line.ends_in != "flat" else outside_up(line)


def inside_up(line: TaperLine) -> Setup:
    """The tapered leg flat on the table, the other leg standing: the line is on the inside."""
    section, other = line.section, other_leg(line.leg)
    faces = [face(line.leg, inner=True)]
    if line.ends_in != "flat":
        faces.append(FILLET)
    if _reaches(line):
        faces.append(face(other, inner=True))
    return Setup(
        INSIDE_UP,
        line.leg,
        tuple(faces),
        *_ways(line),
        "line-on-both-legs" if _reaches(line) else "line-to-other-leg",
        section.leg(other),
        section.thickness(line.leg),
        section.leg(other) if _reaches(line) else 0,
    )


def outside_up(line: TaperLine) -> Setup:
    """The tapered leg on a block, outside up, the other leg hanging: the line is on the outside; the block is sawn too."""
    section, other = line.section, other_leg(line.leg)
    block = Block.under(line.leg, section)
    return Setup(
        OUTSIDE_UP,
        line.leg,
        (face(line.leg),),
        *_ways(line),
        "line-on-one-face",
        block.top,
        section.thickness(line.leg),
        section.leg(other) if _reaches(line) else 0,
        block,
    )


def _reaches(line: TaperLine) -> bool:
    """Whether the cut goes through the other leg, which the blade then goes down as a whole."""
    return line.vertex_projection is not None


def _ways(line: TaperLine) -> tuple[str, str]:
    return "end-and-other-leg" if _reaches(line) else "end", "toe"
