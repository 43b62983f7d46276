"""Circles and parts of them."""

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
"""Shorter pieces are left out [degree]."""
_WHOLE = 1e-7
_EXACT = 1e-6
_CHORDS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """Part of a circle [mm], counterclockwise: start < end <= start + 360 [degree from the right]."""

    centre: Point
    radius: float
    start_deg: float
    end_deg: float

    @property
    def sweep_deg(self) -> float:
        """How far round it goes [degree]."""
        return self.end_deg - self.start_deg

    @property
    def closed(self) -> bool:
        """Whether it is a whole circle."""
        return self.sweep_deg > 360.0 - _WHOLE

    def point(self, turn_deg: float) -> Point:
        """Return the point in a direction [degree], [mm]."""
        angle = math.radians(turn_deg)
        return (self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle))

    def placed(self, to: Transform) -> Arc:
        """Return it as a transform puts it."""
        start = self.start_deg + to.turn_deg
        return Arc(
            centre=to.point(self.centre),
            radius=self.radius * to.scale,
            start_deg=start,
            end_deg=start + self.sweep_deg if to.quarter_turn else self.end_deg,
        )

    def chords(self) -> list[Segment]:
        """Return it in straight lines [mm]."""
        return list(pairwise([self.point(self.start_deg + self.sweep_deg * k / _CHORDS) for k in range(_CHORDS + 1)]))

    def extremes(self) -> list[Point]:
        """Return the ends, and where it runs level or upright [mm]."""
        if self.closed:
            (x, y), r = self.centre, self.radius
            return [(x - r, y - r), (x + r, y + r)]
        inner = [q for n in range(4) if (q := (n * 90.0 - self.start_deg) % 360.0) < self.sweep_deg]
        return [self.point(self.start_deg + q) for q in (0.0, self.sweep_deg, *inner)]

    def meets(self, axis: Axis, value: float) -> list[float]:
        """Return where it has a coordinate along an axis, across it [mm]."""
        along = value - self.centre[axis.along]
        if abs(along) > self.radius + _EXACT:
            return []
        reach = math.sqrt(max(0.0, self.radius**2 - along**2))
        offsets = [o for o in (reach, -reach) if self._is_on(axis.point(along, o))]
        return [self.centre[axis.across] + o for o in offsets]

    def within(self, window: Box) -> list[Arc]:
        """Return the stretches inside a window [mm], those that touch in one."""
        turns = self._turns(window)
        inside: list[tuple[float, float]] = []
        for low, high in pairwise(turns):
            if high - low < _LEAST or not holds(window, self.point(self.start_deg + (low + high) / 2.0)):
                continue
            if inside and low - inside[-1][1] < _LEAST:
                inside[-1] = (inside[-1][0], high)
            else:
                inside.append((low, high))
        if inside == [(turns[0], turns[-1])]:
            return [self]
        return [replace(self, start_deg=self.start_deg + low, end_deg=self.start_deg + high) for low, high in inside]

    def cubic(self) -> Curve:
        """Return it as cubic curves."""
        start, end = math.radians(self.start_deg), math.radians(self.end_deg)
        return cubic_around(self.centre, (self.radius, 0.0), (0.0, self.radius), start, end)

    def _is_on(self, way: Point) -> bool:
        turn = (math.degrees(math.atan2(way[1], way[0])) - self.start_deg + _EXACT) % 360.0
        return turn <= self.sweep_deg + 2.0 * _EXACT

    def _turns(self, window: Box) -> list[float]:
        """List how far round from its start it begins, meets the window's lines, and ends, rising [degree]."""
        met = []
        for k in (0, 1):
            for edge in (window[k], window[k + 2]):
                off = (edge - self.centre[k]) / self.radius
                if abs(off) < 1.0:
                    one = math.degrees(math.acos(off) if k == 0 else math.asin(off))
                    met += [one, -one if k == 0 else 180.0 - one]
        inner = [turn for angle in met if 0.0 < (turn := (angle - self.start_deg) % 360.0) < self.sweep_deg]
        return [0.0, *sorted(inner), self.sweep_deg]


def circle(centre: Point, radius: float) -> Arc:
    """Return a whole circle [mm]."""
    return Arc(centre=centre, radius=radius, start_deg=0.0, end_deg=360.0)
