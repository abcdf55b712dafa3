"""A frame of boards that lean, built in space: where the joint runs on a board's face and on its edge.

Nothing here knows how a saw is set. The board is stood up by turning it, the joint is the upright
plane through the frame's middle, and its lines on the board are read off by intersection.
"""

from __future__ import annotations

import numpy as np
from scipy.spatial.transform import Rotation


def lines_on_board(lean: float, corner: float) -> tuple[float, float]:
    """Angles [deg] from the board's length of the joint's lines on its face and on its edge, at one corner.

    ``lean`` is how far the face is turned up out of flat, ``corner`` the angle between two
    neighbouring boards as seen from above (90 for a frame of four).
    """
    length, width, thickness = (Rotation.from_euler("x", lean, degrees=True).apply(v) for v in np.eye(3))
    # From above the joint halves the corner; it stands upright.
    along_joint = Rotation.from_euler("z", 180 - corner / 2, degrees=True).apply([1.0, 0.0, 0.0])
    joint = np.cross(along_joint, [0.0, 0.0, 1.0])

    def angle(across: np.ndarray) -> float:
        # The line common to the joint and the plane of the length and ``across``.
        line = np.cross(joint, np.cross(length, across))
        line = line if line @ across > 0 else -line
        return float(np.degrees(np.arctan2(line @ across, line @ length)))

    return angle(width), angle(thickness)
