"""Whether a centreline lies in a plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.path import Arc
from tubeframe.geometry.tolerance import PLANE_MM

if TYPE_CHECKING:
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec


def lies_in(path: Path, origin: Vec, normal: Vec) -> bool:
    """Whether a centreline stays near the plane through a point [mm], square to a unit vector."""
    return all(
        abs((p.point(p.length * share) - origin).dot(normal)) <= PLANE_MM
        for p in path.pieces
        for share in ((0.0, 0.5, 1.0) if isinstance(p, Arc) else (0.0, 1.0))
    )


def is_flat(path: Path) -> bool:
    """Whether a bent centreline lies in the plane of its first bend; a straight one does."""
    if not path.bends:
        return True
    first = path.bends[0][1]
    return lies_in(path, first.start, first.axis)
