"""A large arc in small bends: a polygon round it whose corners are bent to a smaller radius."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.geometry.vector import angle_deg, rotated

if TYPE_CHECKING:
    from tubeframe.geometry.vector import Vec


def fewest_bends(angle: float, radius: float, shoe: float, most_bulge: float) -> int:
    """Return the fewest equal bends that an arc is made of, so that none stands out of it by more [degree, mm].

    The middle of a bend of q stands (R - r)(1/cos(q/2) - 1) out of the arc (plane geometry).
    """
    if radius - shoe <= most_bulge:
        return 1
    widest = 2.0 * math.acos(1.0 / (1.0 + most_bulge / (radius - shoe)))
    return math.ceil(math.radians(angle) / widest - 1e-9)


def straight_between(angle: float, radius: float, shoe: float, bends: int) -> float:
    """Return the straight between two of the bends that make an arc: 2 (R - r) tan(q/2) [mm]."""
    return 2.0 * (radius - shoe) * math.tan(math.radians(angle) / bends / 2.0)


def arc_corners(before: Vec, corner: Vec, after: Vec, radius: float, bends: int) -> tuple[Vec, ...]:
    """Return the corners of small bends that take the place of an arc in a corner [mm].

    Half a pitch of straight is left at both ends, so that the polygon touches the arc where it begins and ends.
    """
    way, onward = (corner - before).unit, after - corner
    turn = math.radians(angle_deg(way, onward))
    inward = onward.across(way).unit
    centre = corner - way * (radius * math.tan(turn / 2.0)) + inward * radius
    out = radius / math.cos(turn / bends / 2.0)
    axis = way.cross(inward)
    return tuple(centre + rotated(-inward, axis, turn * (k + 0.5) / bends) * out for k in range(bends))
