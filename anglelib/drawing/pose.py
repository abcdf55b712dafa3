"""A part held in space: turned about an axis through its middle, or seen in a mirror that stands across its heel.

>>> from anglelib.section import Section
>>> bar = Part("P", "Bar", Section(1, 1, "1/8"), "6061-T6", 4)
>>> [round(v, 6) for v in Pose(bar, 10, turn=180).turned((0, 1, 0))]  # end 1, the toe of leg A: now end 2, the toe of leg B
[20.0, -3.333333, 6.666667]
>>> [round(v, 6) for v in Pose(bar, 10, mirrored=True).turned((0, 1, 0))]
[20.0, 6.666667, -3.333333]
"""

from __future__ import annotations

import math
from fractions import Fraction

from anglelib.drawing.pictorial import DIMETRIC
from anglelib.drawing.sheet import Point
from anglelib.drawing.solid_lines import Camera, Place
from anglelib.part import Part

TURNS = {"end-for-end": "end for end", "round": "round leg A's height", "roll": "about the heel"}
"""How a part is turned, by id, in words."""
END_FOR_END, ROUND, ROLL = TURNS
AXES = {
    END_FOR_END: (0.0, math.sqrt(0.5), math.sqrt(0.5)),
    ROUND: (0.0, 1.0, 0.0),
    ROLL: (1.0, 0.0, 0.0),
}
"""The axes of these turns. End for end is the one turn that lays equal legs into one another again."""


class Pose:
    """A part in space, ``unit`` millimetres an inch, turned by ``turn`` [deg] about an axis, then mirrored across the heel.

    ``places`` are drawn round ``middle`` on the paper [mm].
    """

    def __init__(
        self,
        part: Part,
        unit: float,
        *,
        turn: float = 0.0,
        about: str = END_FOR_END,
        mirrored: bool = False,
        middle: Point = (0.0, 0.0),
        camera: Camera = DIMETRIC,
    ) -> None:
        self.part, self.unit, self.mirrored, self.middle, self.camera = part, unit, mirrored, middle, camera
        third = float(min(part.section.leg_a, part.section.leg_b) / Fraction(3))
        self.centre = (float(part.length) / 2, third, third)
        self.rows = _rotation(AXES[about], turn)

    @property
    def _key(self) -> tuple:
        return self.part, self.unit, self.rows, self.mirrored, self.camera

    def __eq__(self, other: object) -> bool:
        """Two poses are alike where the lines about their middles are: wherever on the paper that is."""
        return isinstance(other, Pose) and self._key == other._key

    def __hash__(self) -> int:
        return hash(self._key)

    def turned(self, place: Place) -> Place:
        """A place of the part [in] in the space that the camera looks at [mm]."""
        p = [(v - c) * self.unit for v, c in zip(place, self.centre, strict=True)]
        x, y, z = (row[0] * p[0] + row[1] * p[1] + row[2] * p[2] for row in self.rows)
        return (-x if self.mirrored else x), y, z

    def paper(self, place: Place) -> Place:
        """A place of the part on the paper, right and up [mm], and towards the viewer."""
        x, y, near = self.camera.paper(self.turned(place))
        return x + self.middle[0], y + self.middle[1], near

    def at(self, place: Place) -> Point:
        """A place of the part on the paper [mm]."""
        return self.paper(place)[:2]


def _rotation(axis: Place, turn: float) -> tuple[Place, Place, Place]:
    """The rows of a turn about an axis of length 1."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    x, y, z = axis
    return (
        (c + x * x * (1 - c), x * y * (1 - c) - z * s, x * z * (1 - c) + y * s),
        (y * x * (1 - c) + z * s, c + y * y * (1 - c), y * z * (1 - c) - x * s),
        (z * x * (1 - c) - y * s, z * y * (1 - c) + x * s, c + z * z * (1 - c)),
    )


def reach(part: Part) -> float:
    """How far the part reaches from its middle, however it is turned [in]."""
    a, b = float(part.section.leg_a), float(part.section.leg_b)
    third = min(a, b) / 3
    return math.hypot(float(part.length) / 2, max(a, b) - third, third)
