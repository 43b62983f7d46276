"""A fitting's setback from two tape readings."""

from __future__ import annotations

import math


def setback_read(*, reading: float, offcut: float, outside: float, angle: float) -> float:
    """Return the setback of a branch at an angle [degree] to the other tube [mm].

    Args:
        reading: along the branch, from the other tube's far outside face to the branch's far end [mm].
        offcut: length of the branch, cut square [mm].
        outside: outside diameter of the other tube [mm].
        angle: between the two tubes [degree].

    Along the branch the far face lies D/(2 sin A) beyond the other tube's centreline: s = M - B - D/(2 sin A).

    """
    return reading - offcut - far_face(outside, angle)


def far_face(outside: float, angle: float) -> float:
    """Return how far a tube's far face lies beyond its centreline, along a line at an angle [degree] to it [mm]."""
    return outside / 2.0 / math.sin(math.radians(angle))
