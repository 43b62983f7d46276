"""An independent answer to "what hides this point?": signed distances, and rays that step along them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.path import Arc

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from tubeframe.drawing.model.scene import Body
    from tubeframe.geometry.convex import Box
    from tubeframe.geometry.vector import Vec

    Distance = Callable[[NDArray[np.float64]], NDArray[np.float64]]


def _array(v: Vec) -> NDArray[np.float64]:
    return np.array(tuple(v))


def cylinder(start: Vec, end: Vec, radius: float) -> Distance:
    a, way = _array(start), _array(end - start)
    length = np.linalg.norm(way)
    axis = way / length

    def distance(p: NDArray[np.float64]) -> NDArray[np.float64]:
        along = (p - a) @ axis
        aside = np.linalg.norm(p - a - along[:, None] * axis, axis=1) - radius
        past = np.abs(along - length / 2.0) - length / 2.0
        outside = np.hypot(np.maximum(aside, 0.0), np.maximum(past, 0.0))
        return outside + np.minimum(np.maximum(aside, past), 0.0)

    return distance


def box(piece: Box) -> Distance:
    halves = np.array([tuple(h) for h in (piece.half_x, piece.half_y, piece.half_z)])
    size = np.linalg.norm(halves, axis=1)
    axes, centre = halves / size[:, None], _array(piece.centre)

    def distance(p: NDArray[np.float64]) -> NDArray[np.float64]:
        past = np.abs((p - centre) @ axes.T) - size
        return np.linalg.norm(np.maximum(past, 0.0), axis=1) + np.minimum(past.max(axis=1), 0.0)

    return distance


def bend(arc: Arc, radius: float) -> Distance:
    """Distance from the arc as a line, less the radius: round beyond both ends, inside of the straights there."""
    centre, x, y = _array(arc.centre), -_array(arc.inward), _array(arc.start_tangent)

    def distance(p: NDArray[np.float64]) -> NDArray[np.float64]:
        u, v = (p - centre) @ x, (p - centre) @ y
        turn = np.arctan2(v, u)
        # beyond the ends the nearer end is the nearest point
        other = (arc.angle / 2.0 + np.pi) % (2.0 * np.pi)
        turn = np.where(turn % (2.0 * np.pi) > other, turn % (2.0 * np.pi) - 2.0 * np.pi, turn % (2.0 * np.pi))
        turn = np.clip(turn, 0.0, arc.angle)[:, None]
        nearest = centre + arc.radius * (np.cos(turn) * x + np.sin(turn) * y)
        return np.linalg.norm(p - nearest, axis=1) - radius

    return distance


def parts_of(bodies: Sequence[Body]) -> list[tuple[Distance, ...]]:
    """One entry a piece or tube, in the order in which the engine numbers them."""
    found: list[tuple[Distance, ...]] = []
    for body in bodies:
        for piece in body.pieces:
            is_rod = isinstance(piece, Cylinder)
            found.append((cylinder(piece.start, piece.end, piece.radius) if is_rod else box(piece),))
        for tube in body.tubes:
            r = tube.outside / 2.0
            found.append(
                tuple(bend(p, r) if isinstance(p, Arc) else cylinder(p.start, p.end, r) for p in tube.path.pieces)
            )
    return found


def depths(
    parts: Sequence[tuple[Distance, ...]],
    points: NDArray[np.float64],
    own: NDArray[np.int64],
    way: NDArray[np.float64],
    length: float,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Least signed distance along rays from the points: to their own part, and to all others [mm]."""
    least = np.full((2, len(points)), np.inf)
    at = np.zeros(len(points))
    going = np.arange(len(points))
    while len(going):
        p = points[going] + at[going, None] * way
        near = np.full((2, len(going)), np.inf)
        for number, shapes in enumerate(parts):
            mine = own[going] == number
            for shape in shapes:
                d = shape(p)
                near[0] = np.where(mine, np.minimum(near[0], d), near[0])
                near[1] = np.where(mine, near[1], np.minimum(near[1], d))
        least[:, going] = np.minimum(least[:, going], near)
        at[going] += np.maximum(near.min(axis=0), 0.03)
        going = going[(at[going] < length) & (least[:, going].min(axis=0) > -0.2)]
    return least[0], least[1]
