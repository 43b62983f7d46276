"""Points, windows and transforms of a plane."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]
"""Right and up [mm]."""
Segment = tuple[Point, Point]
Box = tuple[float, float, float, float]
"""Left, bottom, right, top [mm]."""


class Axis(StrEnum):
    """One of the two directions of a plane."""

    HORIZONTAL = "horizontal"
    VERTICAL = "vertical"

    @property
    def along(self) -> int:
        """Which coordinate of a point runs along it."""
        return 0 if self is Axis.HORIZONTAL else 1

    @property
    def across(self) -> int:
        """Which coordinate of a point runs square to it."""
        return 1 - self.along

    @property
    def other(self) -> Axis:
        """The axis square to it."""
        return Axis.VERTICAL if self is Axis.HORIZONTAL else Axis.HORIZONTAL

    def point(self, along: float, across: float) -> Point:
        """Return the point at a place along the axis and one across it [mm]."""
        return (along, across) if self is Axis.HORIZONTAL else (across, along)


@dataclass(frozen=True, slots=True, kw_only=True)
class Transform:
    """From one plane to another: a quarter turn counterclockwise if wanted, then a scale, then a shift [mm]."""

    scale: float = 1.0
    shift: Point = (0.0, 0.0)
    quarter_turn: bool = False

    @property
    def turn_deg(self) -> float:
        """By how much directions turn [degree]."""
        return 90.0 if self.quarter_turn else 0.0

    def way(self, p: Point) -> Point:
        """Turn and scale a vector [mm]."""
        x, y = (-p[1], p[0]) if self.quarter_turn else p
        return (x * self.scale, y * self.scale)

    def point(self, p: Point) -> Point:
        """Return where a point goes [mm]."""
        x, y = self.way(p)
        return (self.shift[0] + x, self.shift[1] + y)


QUARTER_TURN = Transform(quarter_turn=True)


def moved(by: Point) -> Transform:
    """Return the transform that moves [mm]."""
    return Transform(shift=by)


def holds(window: Box, point: Point) -> bool:
    """Whether a point is in a window or on its edge."""
    return window[0] <= point[0] <= window[2] and window[1] <= point[1] <= window[3]


def joined_boxes(boxes: list[Box]) -> Box:
    """Return the box round boxes, at least one [mm]."""
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return (min(lefts), min(bottoms), max(rights), max(tops))


def size_of(box: Box) -> tuple[float, float]:
    """Return width and height of a box [mm]."""
    return (box[2] - box[0], box[3] - box[1])
