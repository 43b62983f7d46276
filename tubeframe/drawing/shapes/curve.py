"""Cubic curves end to end."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.shapes.lines import Lines
from tubeframe.drawing.shapes.plane import holds

if TYPE_CHECKING:
    from tubeframe.drawing.shapes.plane import Box, Point, Segment, Transform

_CHORDS = 8
"""To each cubic curve."""
_EIGHTH = math.pi / 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """Cubic Bezier curves end to end, 3 n + 1 control points [mm]."""

    control: tuple[Point, ...]

    def placed(self, to: Transform) -> Curve:
        """Return them as a transform puts them."""
        return Curve(control=tuple(to.point(p) for p in self.control))

    def chords(self) -> list[Segment]:
        """Return them in straight lines [mm]."""
        points = [self.control[0]]
        for k in range(0, len(self.control) - 1, 3):
            a, b, c, d = self.control[k : k + 4]
            for n in range(1, _CHORDS + 1):
                t = n / _CHORDS
                shares = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                x, y = (sum(s * p[i] for s, p in zip(shares, (a, b, c, d), strict=True)) for i in (0, 1))
                points.append((x, y))
        return list(pairwise(points))

    def extremes(self) -> list[Point]:
        """Return points whose box holds all [mm]."""
        return list(self.control)

    def within(self, window: Box) -> list[Curve] | list[Lines]:
        """Return it whole when it is inside a window [mm]; what a window's line cuts is cut in chords."""
        return (
            [self]
            if all(holds(window, p) for p in self.control)
            else Lines(segments=tuple(self.chords())).within(window)
        )


def cubic_around(centre: Point, major: Point, minor: Point, start: float, end: float) -> Curve:
    """Return centre + major cos(t) + minor sin(t) from one parameter to another [mm, radian] as cubic curves.

    Handles are 4/3 tan(a/4) radii long for an angle a of at most an eighth of a turn, as for a circle, of which an
    ellipse is an affine image; the curve is then within 5e-6 semi-axes of it.
    """

    def at(turn: float, handle: float = 0.0) -> Point:
        """Return the point at a parameter, moved along the tangent by a share of the radius."""
        c, s = math.cos(turn) - handle * math.sin(turn), math.sin(turn) + handle * math.cos(turn)
        return (centre[0] + c * major[0] + s * minor[0], centre[1] + c * major[1] + s * minor[1])

    count = max(1, math.ceil((end - start) / _EIGHTH - 1e-9))
    step = (end - start) / count
    handle = 4.0 / 3.0 * math.tan(step / 4.0)
    points = [at(start)]
    for k in range(count):
        first, last = start + k * step, start + (k + 1) * step
        points += [at(first, handle), at(last, -handle), at(last)]
    return Curve(control=tuple(points))
