"""How lines lie to each other in the plane."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.drawing.shapes.plane import Point


def cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether a line from a to b and one from c to d cross, not only touch."""
    return _side(a, b, c) * _side(a, b, d) < 0.0 and _side(c, d, a) * _side(c, d, b) < 0.0


def gap(p: Point, a: Point, b: Point) -> float:
    """Return how far a point is from a line between two others [mm]."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    share = 0.0 if square == 0.0 else min(1.0, max(0.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square))
    return math.hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy)


def _side(a: Point, b: Point, p: Point) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
