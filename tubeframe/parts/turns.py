"""Turns about a tube: a direction carried along it, and its bends as they are turned."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.geometry.vector import rotated, turn_deg
from tubeframe.parts.piece import PieceBend

if TYPE_CHECKING:
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec


def turn_at(path: Path, reference: Vec, at: float, up: Vec) -> float:
    """Return how a direction at a distance from end A [mm] is turned from the line on the tube [degree].

    The line goes along the tube through the bends; `reference` is its direction at A.
    """
    for begin, bend in path.bends:
        turn = min(max(at - begin, 0.0), bend.length) / bend.radius
        reference = rotated(reference, bend.axis, turn)
    return turn_deg(reference, up, path.tangent(at))


def bends_of(path: Path) -> tuple[PieceBend, ...]:
    """Return a centreline's bends from its start, each turned from the inside of the first."""
    bends = path.bends
    if not bends:
        return ()
    made, line = [], bends[0][1].inward
    for at, bend in bends:
        roll = turn_deg(line, bend.inward, bend.start_tangent)
        made.append(PieceBend(start_from_a=at, angle=math.degrees(bend.angle), radius=bend.radius, roll=roll))
        line = rotated(line, bend.axis, bend.angle)
    return tuple(made)
