"""A drawing as a CAD file holds it: at true size in mm, on layers, with dimensions that know what they measure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.drawing.sheet import Anchor

if TYPE_CHECKING:
    from tubeframe.geometry.units import Units

Point = tuple[float, float]
Segment = tuple[Point, Point]


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


class Axis(StrEnum):
    """Which way a dimension measures."""

    HORIZONTAL = "horizontal"
    VERTICAL = "vertical"


@dataclass(frozen=True, slots=True, kw_only=True)
class Strokes:
    """Straight lines [mm]."""

    layer: Layer
    segments: tuple[Segment, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A circle [mm]."""

    layer: Layer
    centre: Point
    radius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One line of text: where it stands, and the height of its capitals [mm]."""

    layer: Layer
    at: Point
    text: str
    height: float
    anchor: Anchor = Anchor.LEFT
    angle: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """The distance along an axis between two points on drawn lines; its line stands at `line_at` across it [mm]."""

    axis: Axis
    start: Point
    end: Point
    line_at: float
    text: str

    @property
    def span(self) -> tuple[float, float]:
        """Both ends along its axis, the lesser first [mm]."""
        i = 0 if self.axis is Axis.HORIZONTAL else 1
        return (min(self.start[i], self.end[i]), max(self.start[i], self.end[i]))


PictureItem = Strokes | Ring | Note | Dimension


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
    if isinstance(item, Ring):
        return replace(item, centre=at(item.centre))
    if isinstance(item, Note):
        return replace(item, at=at(item.at))
    line = item.line_at + (by[1] if item.axis is Axis.HORIZONTAL else by[0])
    return replace(item, start=at(item.start), end=at(item.end), line_at=line)
