"""How deep two convex solids are in each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.sweep import meets, shape_of
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.geometry.convex import Convex

_FINE = 0.005
"""A depth is told this finely [mm]."""


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
    return Vec(*shape_of(solid, 0.0).far(way.x, way.y, way.z))


def _share(first: Convex, second: Convex, pared: float) -> bool:
    """Whether two solids, pared all round [mm], have a point in common."""
    return meets(shape_of(first, pared), shape_of(second, pared))


def _reach(solid: Convex) -> float:
    """Return by how much a solid is pared when nothing is left of it across [mm]."""
    if isinstance(solid, Cylinder):
        return max(solid.radius, solid.start.distance(solid.end) / 2.0)
    return max(h.length for h in (solid.half_x, solid.half_y, solid.half_z))
