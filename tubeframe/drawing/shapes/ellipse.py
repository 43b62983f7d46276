"""Ellipses and parts of them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.shapes.curve import cubic_around
from tubeframe.drawing.shapes.plane import holds

if TYPE_CHECKING:
    from tubeframe.drawing.shapes.curve import Curve
    from tubeframe.drawing.shapes.plane import Axis, Box, Point, Segment, Transform

_LEAST = 1e-6
"""Shorter pieces are left out [radian]."""
_WHOLE = 1e-9
_CHORDS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Ellipse:
    """Part of an ellipse: centre + major cos(t) + minor sin(t), start <= t <= end <= start + 2 pi [mm, radian].

    `major` and `minor` are the semi-axes as vectors, the minor one a quarter turn counterclockwise of the major and no
    longer; t is the parameter, which is not the direction of the point.
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
        (x, y), (a, b), (c, d) = self.centre, self.major, self.minor
        cos, sin = math.cos(turn), math.sin(turn)
        return (x + cos * a + sin * c, y + cos * b + sin * d)

    def placed(self, to: Transform) -> Ellipse:
        """Return it as a transform puts it."""
        return replace(self, centre=to.point(self.centre), major=to.way(self.major), minor=to.way(self.minor))

    def chords(self) -> list[Segment]:
        """Return it in straight lines [mm]."""
        turns = [self.start + (self.end - self.start) * k / _CHORDS for k in range(_CHORDS + 1)]
        return list(pairwise([self.point(t) for t in turns]))

    def extremes(self) -> list[Point]:
        """Return the ends, and where it runs level or upright [mm]."""
        turns = [self.start, self.end]
        for k in (0, 1):
            reach = math.hypot(self.major[k], self.minor[k])
            for side in (reach, -reach):
                turns += self.turns_at(k, self.centre[k] + side * (1.0 - 1e-15))
        return [self.point(t) for t in turns]

    def meets(self, axis: Axis, value: float) -> list[float]:
        """Return where it has a coordinate along an axis, across it [mm]."""
        return [self.point(turn)[axis.across] for turn in self.turns_at(axis.along, value)]

    def within(self, window: Box) -> list[Ellipse]:
        """Return the stretches inside a window [mm]."""
        met = [t for k in (0, 1) for edge in (window[k], window[k + 2]) for t in self.turns_at(k, edge)]
        inside = [
            (low, high)
            for low, high in pairwise([self.start, *sorted(met), self.end])
            if high - low > _LEAST and holds(window, self.point((low + high) / 2.0))
        ]
        return [replace(self, start=low, end=high) for low, high in inside]

    def turns_at(self, coordinate: int, value: float) -> list[float]:
        """Return the parameters, from the start on, where x (0) or y (1) has a value [mm]: a cos t + b sin t = v."""
        a, b, off = self.major[coordinate], self.minor[coordinate], value - self.centre[coordinate]
        reach = math.hypot(a, b)
        if reach == 0.0 or abs(off) > reach:
            return []
        middle, half = math.atan2(b, a), math.acos(off / reach)
        turns = (self.start + (t - self.start) % math.tau for t in (middle + half, middle - half))
        return [t for t in turns if t <= self.end]

    def cubic(self) -> Curve:
        """Return it as cubic curves."""
        return cubic_around(self.centre, self.major, self.minor, self.start, self.end)
