"""Between our placements and the kernel's."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tubeframe.solids.kernel import cq

if TYPE_CHECKING:
    from tubeframe.geometry.placement import Placement
    from tubeframe.geometry.vector import Vec


def vector(v: Vec) -> Any:  # noqa: ANN401  the kernel carries no types
    """Turn a point or direction into the kernel's."""
    return cq.Vector(v.x, v.y, v.z)


def location(placement: Placement) -> Any:  # noqa: ANN401
    """Turn a placement into the kernel's location."""
    return cq.Location(cq.Plane(origin=tuple(placement.origin), xDir=tuple(placement.x), normal=tuple(placement.z)))
