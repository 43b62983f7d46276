"""Centrelines laid along corner points."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.errors import BendError, Problem
from tubeframe.geometry.path import Arc, Path, PathPiece, Straight
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import angle_deg

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.geometry.vector import Vec


def through(vertices: Sequence[Vec], radii: Sequence[float]) -> Path:
    """Lay a centreline along corner points, each inner one rounded by its own radius.

    Args:
        vertices: at least two corner points [mm].
        radii: a bend radius for each inner corner [mm]; a corner of less than 0.001 degree needs none.

    Raises:
        BendError: when two bends, or a bend and an end, leave no straight between them.

    A bend of angle q takes T = r tan(q/2) of both straights (tangent length; any text on plane geometry).

    """
    cuts = _cuts(vertices, radii)
    pieces: list[PathPiece] = []
    for i in range(len(vertices) - 1):
        way = (vertices[i + 1] - vertices[i]).unit
        start, end = vertices[i] + way * cuts[i], vertices[i + 1] - way * cuts[i + 1]
        left = (end - start).dot(way)
        if left < -TINY:
            raise BendError(_no_room(i, cuts[i] + cuts[i + 1], cuts[i] + cuts[i + 1] + left))
        if left > TINY:
            pieces.append(Straight(start=start, end=end))
        if i < len(radii) and cuts[i + 1] > TINY:
            pieces.append(_arc(end, way, vertices[i + 2] - vertices[i + 1], radii[i]))
    return Path(pieces=tuple(pieces))


def least_straight(vertices: Sequence[Vec], radii: Sequence[float]) -> float:
    """Return what is left of the shortest straight between bends and ends; under 0 where they have no room [mm]."""
    cuts = _cuts(vertices, radii)
    return min(a.distance(b) - cuts[i] - cuts[i + 1] for i, (a, b) in enumerate(pairwise(vertices)))


def _cuts(vertices: Sequence[Vec], radii: Sequence[float]) -> list[float]:
    return [0.0, *(_tangent_length(vertices, i, r) for i, r in enumerate(radii, start=1)), 0.0]


def _tangent_length(vertices: Sequence[Vec], i: int, radius: float) -> float:
    turn = angle_deg(vertices[i] - vertices[i - 1], vertices[i + 1] - vertices[i])
    if turn < 0.001:
        return 0.0
    if turn > 179.0:
        raise BendError(
            Problem(
                where=f"corner {i}", key="path", message=f"a bend of {turn:.1f} degrees folds the tube back on itself"
            )
        )
    return radius * math.tan(math.radians(turn) / 2.0)


def _arc(start: Vec, way: Vec, after: Vec, radius: float) -> Arc:
    return Arc(
        start=start,
        start_tangent=way,
        inward=after.across(way).unit,
        radius=radius,
        angle=math.radians(angle_deg(way, after)),
    )


def _no_room(i: int, need: float, have: float) -> Problem:
    return Problem(
        where=f"between corners {i} and {i + 1}",
        key="path",
        message=f"the bends take {need:.1f} mm of a straight that is {have:.1f} mm long",
        remedy="move the corners apart or use a smaller bend radius",
    )
