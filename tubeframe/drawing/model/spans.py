"""What comes out for one unbroken stretch of a line: a straight, a part of a circle or an ellipse, or a spline.

All are plain numbers in the view plane [mm]. Parts of circles and ellipses run counterclockwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Point = tuple[float, float]
"""Right and up in the view plane [mm]."""

_WHOLE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class LineSpan:
    """A straight line from one point to another [mm]."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class CircleSpan:
    """A part of a circle [mm], from one direction to another [radian from the right], start < end <= start + 2 pi."""

    centre: Point
    radius: float
    start: float
    end: float

    @property
    def closed(self) -> bool:
        """Whether it is a whole circle."""
        return self.end - self.start > math.tau - _WHOLE

    def point(self, turn: float) -> Point:
        """Return the point in a direction [radian], [mm]."""
        return (self.centre[0] + self.radius * math.cos(turn), self.centre[1] + self.radius * math.sin(turn))


@dataclass(frozen=True, slots=True, kw_only=True)
class EllipseSpan:
    """A part of an ellipse: centre + major cos(t) + minor sin(t), start <= t <= end <= start + 2 pi.

    `major` and `minor` are the semi-axes as vectors [mm], the minor one a quarter turn counterclockwise of the major;
    t is the parameter [radian], which is not the direction of the point.
    """

    centre: Point
    major: Point
    minor: Point
    start: float
    end: float

    @property
    def closed(self) -> bool:
        """Whether it is a whole ellipse."""
        return self.end - self.start > math.tau - _WHOLE

    def point(self, turn: float) -> Point:
        """Return the point at a parameter [radian], [mm]."""
        c, s = math.cos(turn), math.sin(turn)
        return (
            self.centre[0] + c * self.major[0] + s * self.minor[0],
            self.centre[1] + c * self.major[1] + s * self.minor[1],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SplineSpan:
    """Cubic Bezier curves end to end with one tangent where they meet, 3 n + 1 control points [mm]."""

    control: tuple[Point, ...]


Span = LineSpan | CircleSpan | EllipseSpan | SplineSpan
