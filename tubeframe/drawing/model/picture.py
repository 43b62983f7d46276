"""A drawing as a CAD file holds it: at true size in mm, on layers, with dimensions that know what they measure."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.drawing.model.sheet import Anchor

if TYPE_CHECKING:
    from tubeframe.geometry.units import Units

Point = tuple[float, float]
Segment = tuple[Point, Point]
Box = tuple[float, float, float, float]
"""Left, bottom, right, top [mm]."""


class Layer(StrEnum):
    """What a line is of."""

    TUBE = "TUBE"
    FITTING = "FITTING"
    PANEL = "PANEL"
    HIDDEN = "HIDDEN"
    CENTER = "CENTER"
    DIM = "DIM"
    TEXT = "TEXT"
    BALLOON = "BALLOON"
    BORDER = "BORDER"
    STRIP = "STRIP"
    """Outlines of marking strips."""


class Axis(StrEnum):
    """Which way a dimension measures."""

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

    def point(self, along: float, across: float) -> Point:
        """Return the point at a place along the axis and one across it [mm]."""
        return (along, across) if self is Axis.HORIZONTAL else (across, along)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strokes:
    """Straight lines [mm]."""

    layer: Layer
    segments: tuple[Segment, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bow:
    """Part of a circle [mm], counterclockwise from one direction to another [degree from the right]."""

    layer: Layer
    centre: Point
    radius: float
    start_deg: float
    end_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A circle [mm], or the area in it."""

    layer: Layer
    centre: Point
    radius: float
    filled: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Oval:
    """Part of an ellipse: centre + major cos(t) + minor sin(t), start <= t <= end <= start + 2 pi [mm, radian].

    `minor` is a quarter turn counterclockwise of `major`, and no longer.
    """

    layer: Layer
    centre: Point
    major: Point
    minor: Point
    start: float
    end: float

    def point(self, turn: float) -> Point:
        """Return the point at a parameter [radian], [mm]."""
        c, s = math.cos(turn), math.sin(turn)
        x = self.centre[0] + c * self.major[0] + s * self.minor[0]
        return (x, self.centre[1] + c * self.major[1] + s * self.minor[1])

    def turns_at(self, coordinate: int, value: float) -> list[float]:
        """Return the parameters, from the start on, where x (0) or y (1) has a value [mm]: a cos t + b sin t = v."""
        a, b, off = self.major[coordinate], self.minor[coordinate], value - self.centre[coordinate]
        reach = math.hypot(a, b)
        if reach == 0.0 or abs(off) > reach:
            return []
        middle, half = math.atan2(b, a), math.acos(off / reach)
        turns = (self.start + (t - self.start) % math.tau for t in (middle + half, middle - half))
        return [t for t in turns if t <= self.end]


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """Cubic curves end to end, 3 n + 1 control points [mm]."""

    layer: Layer
    control: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One line of text: where its baseline stands, the height of its capitals [mm], its turn [degree]."""

    layer: Layer
    at: Point
    text: str
    height: float
    anchor: Anchor = Anchor.LEFT
    angle: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """The distance along an axis between two points on drawn lines; its line stands at `line_at` across it [mm].

    `text_along` is where the value's middle stands along the axis [mm]; None for the middle of the dimension.
    """

    axis: Axis
    start: Point
    end: Point
    line_at: float
    text: str
    text_along: float | None = None

    @property
    def span(self) -> tuple[float, float]:
        """Both ends along its axis, the lesser first [mm]."""
        i = self.axis.along
        return (min(self.start[i], self.end[i]), max(self.start[i], self.end[i]))

    @property
    def length(self) -> float:
        """What it measures, exactly [mm]."""
        low, high = self.span
        return high - low

    @property
    def text_middle(self) -> float:
        """Where the value's middle stands along the axis [mm]."""
        return sum(self.span) / 2.0 if self.text_along is None else self.text_along


PictureItem = Strokes | Bow | Ring | Oval | Curve | Note | Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """Items at true size, drawn to be printed at 1 : `scale`."""

    title: str
    items: tuple[PictureItem, ...]
    scale: int
    units: Units


def moved(item: PictureItem, by: Point) -> PictureItem:
    """Return an item moved in the plane [mm]."""

    def at(p: Point) -> Point:
        return (p[0] + by[0], p[1] + by[1])

    if isinstance(item, Strokes):
        return replace(item, segments=tuple((at(a), at(b)) for a, b in item.segments))
    if isinstance(item, Ring | Bow | Oval):
        return replace(item, centre=at(item.centre))
    if isinstance(item, Curve):
        return replace(item, control=tuple(at(p) for p in item.control))
    if isinstance(item, Note):
        return replace(item, at=at(item.at))
    along, across = item.axis.along, item.axis.across
    text = None if item.text_along is None else item.text_along + by[along]
    line = item.line_at + by[across]
    return replace(item, start=at(item.start), end=at(item.end), line_at=line, text_along=text)


def turned(item: PictureItem) -> PictureItem:
    """Return an item turned by 90 degrees counterclockwise about the origin."""

    def at(p: Point) -> Point:
        return (-p[1], p[0])

    if isinstance(item, Strokes):
        return replace(item, segments=tuple((at(a), at(b)) for a, b in item.segments))
    if isinstance(item, Ring):
        return replace(item, centre=at(item.centre))
    if isinstance(item, Oval):
        return replace(item, centre=at(item.centre), major=at(item.major), minor=at(item.minor))
    if isinstance(item, Curve):
        return replace(item, control=tuple(at(p) for p in item.control))
    if isinstance(item, Bow):
        start = (item.start_deg + 90.0) % 360.0
        return replace(item, centre=at(item.centre), start_deg=start, end_deg=start + item.end_deg - item.start_deg)
    if isinstance(item, Note):
        return replace(item, at=at(item.at), angle=item.angle + 90.0)
    level = item.axis is Axis.HORIZONTAL
    text = item.text_along if level or item.text_along is None else -item.text_along
    return replace(
        item,
        axis=Axis.VERTICAL if level else Axis.HORIZONTAL,
        start=at(item.start),
        end=at(item.end),
        line_at=-item.line_at if level else item.line_at,
        text_along=text,
    )
