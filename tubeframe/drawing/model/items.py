"""What is on a drawing: shapes drawn with a pen, and texts."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Lines
from tubeframe.drawing.shapes.plane import holds

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.shapes import Shape
    from tubeframe.drawing.shapes.plane import Box, Point, Segment, Transform

_DESCENT = 0.32
"""Letters such as g reach this share of the capitals' height below the baseline."""


class Anchor(StrEnum):
    """Which point of a text stands on its place."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"

    @property
    def share(self) -> float:
        """How much of a text is left of its place."""
        return {Anchor.LEFT: 0.0, Anchor.CENTRE: 0.5, Anchor.RIGHT: 1.0}[self]


class Level(StrEnum):
    """At which height of a text its place is."""

    BASELINE = "baseline"
    MIDDLE = "middle"
    """Half the height of its capitals."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A shape drawn with a pen, or filled; without a pen it has no outline."""

    shape: Shape
    pen: Pen | None
    fill: Fill | None = None

    def placed(self, to: Transform) -> Drawn:
        """Return it as a transform puts it."""
        return replace(self, shape=self.shape.placed(to))

    def chords(self) -> list[Segment]:
        """Return its lines, curves in chords [mm]."""
        return self.shape.chords()

    def extremes(self) -> list[Point]:
        """Return points whose box holds it [mm]."""
        return self.shape.extremes()

    def within(self, window: Box) -> list[Drawn]:
        """Return what is inside a window [mm]; what is filled whole, where its middle is."""
        if self.fill is None:
            return [replace(self, shape=part) for part in self.shape.within(window)]
        xs, ys = zip(*self.extremes(), strict=True)
        middle = ((min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0)
        return [self] if holds(window, middle) else []


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text: its place and the height of its capitals [mm], turned counterclockwise [degree]."""

    at: Point
    text: str
    height: float
    anchor: Anchor = Anchor.LEFT
    level: Level = Level.BASELINE
    angle_deg: float = 0.0
    bold: bool = False
    pen: Pen = Pen.TEXT

    @property
    def start(self) -> Point:
        """Where its baseline starts [mm]."""
        return self._off(0.0, 0.0)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Corners of its box, turned as it is, from the start of its baseline [mm]."""
        width = text_width(self.text, self.height, bold=self.bold)
        low = -_DESCENT * self.height if any(c in "gjpqy,;()" for c in self.text) else 0.0
        return (
            self._off(0.0, low),
            self._off(width, low),
            self._off(width, self.height),
            self._off(0.0, self.height),
        )

    def placed(self, to: Transform) -> Text:
        """Return it as a transform puts it."""
        return replace(
            self, at=to.point(self.at), height=self.height * to.scale, angle_deg=self.angle_deg + to.turn_deg
        )

    def chords(self) -> list[Segment]:
        """Return nothing: a text has no lines."""
        return []

    def extremes(self) -> list[Point]:
        """Return the corners of its box [mm]."""
        return list(self.corners)

    def _off(self, along: float, up: float) -> Point:
        """Return a point so far along the baseline from its start, and over it [mm]."""
        along -= self.anchor.share * text_width(self.text, self.height, bold=self.bold)
        up -= self.height / 2.0 if self.level is Level.MIDDLE else 0.0
        c, s = math.cos(math.radians(self.angle_deg)), math.sin(math.radians(self.angle_deg))
        return (self.at[0] + c * along - s * up, self.at[1] + s * along + c * up)


Mark = Drawn | Text
"""What a sheet of paper takes."""


def strokes(pen: Pen, segments: Iterable[Segment]) -> Drawn:
    """Return straight lines [mm] of a pen."""
    return Drawn(shape=Lines(segments=tuple(segments)), pen=pen)


def cut_out(items: Iterable[Drawn], window: Box) -> list[Drawn]:
    """Return what is inside a window [mm] of drawn things."""
    return [part for item in items for part in item.within(window)]
