"""How deep two convex solids are in each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import ORIGIN, Vec, X

if TYPE_CHECKING:
    from tubeframe.geometry.convex import Convex

_STEPS = 64
_FINE = 0.005
"""A depth is told this finely [mm]."""

Simplex = list[Vec]
"""Two to four points, the newest first."""


def depth(first: Convex, second: Convex, over: float) -> float:
    """Return how deep two solids are in each other [mm]; 0 when it is no more than a limit [mm].

    Both are pared all round by half of it when they just come apart: two bars across each other by as much as their
    radii are more than the distance of their axes. A bore counts as full.
    """
    if not overlap(first, second, over):
        return 0.0
    low, high = over, 2.0 * min(_reach(first), _reach(second))
    while high - low > _FINE:
        middle = (low + high) / 2.0
        low, high = (middle, high) if _share(first, second, middle / 2.0) else (low, middle)
    return (low + high) / 2.0


def overlap(first: Convex, second: Convex, over: float) -> bool:
    """Whether two solids are in each other by more than a limit [mm]."""
    return _share(first, second, over / 2.0)


def farthest(solid: Convex, way: Vec) -> Vec:
    """Return a point of a solid that lies farthest along a way [mm]."""
    return _farthest(solid, way, 0.0)


def _share(first: Convex, second: Convex, pared: float) -> bool:
    """Whether two solids, pared all round [mm], have a point in common.

    After E. Gilbert, D. Johnson and S. Keerthi, IEEE J. Robotics and Automation 4 (1988) 193-203: a simplex of
    differences of their points grows round the origin, or shows a plane between them. From memory.
    """
    toward = _middle(first) - _middle(second)
    points = [_difference(first, second, toward if toward.length > TINY else X, pared)]
    way = -points[0]
    for _ in range(_STEPS):
        if way.length <= TINY:
            return True
        point = _difference(first, second, way, pared)
        if point.dot(way) <= TINY * way.length:
            return False
        points, way = _nearest([point, *points])
        if len(points) == 4:
            return True
    return False


def _difference(first: Convex, second: Convex, way: Vec, pared: float) -> Vec:
    return _farthest(first, way, pared) - _farthest(second, -way, pared)


def _farthest(solid: Convex, way: Vec, pared: float) -> Vec:
    """Return the point of a pared solid that lies farthest along a way [mm]."""
    if isinstance(solid, Cylinder):
        half, middle = (solid.end - solid.start) * 0.5, _middle(solid)
        along = half.unit
        across = way.across(along)
        point = middle + _pared(half, pared) * (1.0 if way.dot(half) >= 0.0 else -1.0)
        size = across.length
        return point + across * (max(0.0, solid.radius - pared) / size) if size > TINY else point
    point = solid.centre
    for half in (solid.half_x, solid.half_y, solid.half_z):
        point += _pared(half, pared) * (1.0 if way.dot(half) >= 0.0 else -1.0)
    return point


def _pared(half: Vec, pared: float) -> Vec:
    return half * max(0.0, 1.0 - pared / half.length)


def _middle(solid: Convex) -> Vec:
    return (solid.start + solid.end) * 0.5 if isinstance(solid, Cylinder) else solid.centre


def _reach(solid: Convex) -> float:
    """Return by how much a solid is pared when nothing is left of it across [mm]."""
    if isinstance(solid, Cylinder):
        return max(solid.radius, solid.start.distance(solid.end) / 2.0)
    return max(h.length for h in (solid.half_x, solid.half_y, solid.half_z))


def _nearest(points: Simplex) -> tuple[Simplex, Vec]:
    """Return the part of a simplex nearest to the origin, and the way on from there; all four when it is inside."""
    match points:
        case [a, b]:
            return _of_line(a, b)
        case [a, b, c]:
            return _of_triangle(a, b, c)
        case [a, b, c, d]:
            for side in ((a, b, c), (a, c, d), (a, d, b)):
                if (side[1] - a).cross(side[2] - a).dot(-a) > 0.0:
                    return _of_triangle(*side)
            return points, ORIGIN
        case _:
            raise AssertionError(points)


def _of_line(a: Vec, b: Vec) -> tuple[Simplex, Vec]:
    along = b - a
    if along.dot(-a) > 0.0:
        return [a, b], along.cross(-a).cross(along)
    return [a], -a


def _of_triangle(a: Vec, b: Vec, c: Vec) -> tuple[Simplex, Vec]:
    ab, ac = b - a, c - a
    up = ab.cross(ac)
    if up.cross(ac).dot(-a) > 0.0:
        return ([a, c], ac.cross(-a).cross(ac)) if ac.dot(-a) > 0.0 else _of_line(a, b)
    if ab.cross(up).dot(-a) > 0.0:
        return _of_line(a, b)
    return ([a, b, c], up) if up.dot(-a) > 0.0 else ([a, c, b], -up)
