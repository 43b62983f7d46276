"""A dimension, which knows what it measures, and how it is drawn out: the same on paper and in a CAD file."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.shapes.plane import Axis

if TYPE_CHECKING:
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Point, Segment, Transform

TEXT, ARROW, GAP, PAST, ABOVE = 3.5, 2.5, 1.5, 2.0, 0.9
"""Value, arrow, gap at the outline, overshoot, and value over its line [mm on paper] (ISO 129-1, from memory)."""
_INSIDE = 3.0
"""Arrows stand inside a dimension that is this many arrows long; else outside."""
_BEYOND = 2.0
"""A dimension line runs on under arrows that stand outside, this many arrows long."""
Triangle = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """The distance along an axis between two points on drawn lines; its line stands at `line_at` across it [mm].

    `text_along` is where the value's middle stands along the axis [mm]; None for the middle of the dimension.
    `scale`: it is drawn out for a drawing at 1 : scale.
    """

    axis: Axis
    start: Point
    end: Point
    line_at: float
    text: str
    scale: float
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

    @property
    def segments(self) -> tuple[Segment, ...]:
        """Extension lines and dimension line [mm]."""
        return (*(s for p in (self.start, self.end) if (s := self._extension(p))), self._line())

    @property
    def arrows(self) -> tuple[Triangle, Triangle]:
        """Both arrows, tip first [mm]."""
        low, high = self.span
        inward = 1.0 if arrow_room(self.length, self.scale) == 0.0 else -1.0
        return (self._arrow(low, inward), self._arrow(high, -inward))

    @property
    def value(self) -> Text:
        """The value over its line, to be read from below or from the right."""
        level = self.axis is Axis.HORIZONTAL
        over = ABOVE * self.scale if level else -ABOVE * self.scale
        return Text(
            at=self.axis.point(self.text_middle, self.line_at + over),
            text=self.text,
            height=TEXT * self.scale,
            anchor=Anchor.CENTRE,
            angle_deg=0.0 if level else 90.0,
            pen=Pen.DIM,
        )

    def drawn_out(self) -> tuple[Mark, ...]:
        """Return what is drawn of it."""
        arrows = (Drawn(shape=Area(corners=a), pen=Pen.DIM, fill=Fill.BLACK) for a in self.arrows)
        return (strokes(Pen.DIM, self.segments), *arrows, self.value)

    def placed(self, to: Transform) -> Dimension:
        """Return it as a transform puts it."""
        line, text = self.line_at * to.scale, self.text_along
        level = self.axis is Axis.HORIZONTAL
        if to.quarter_turn:
            line = -line if level else line
            text = text if level or text is None else -text
        axis = self.axis.other if to.quarter_turn else self.axis
        return replace(
            self,
            axis=axis,
            start=to.point(self.start),
            end=to.point(self.end),
            line_at=to.shift[axis.across] + line,
            text_along=None if text is None else to.shift[axis.along] + text * to.scale,
            scale=self.scale * to.scale,
        )

    def chords(self) -> list[Segment]:
        """Return nothing: what is looked for near a drawing are lines of things."""
        return []

    def extremes(self) -> list[Point]:
        """Return points whose box holds it [mm]."""
        return [self.start, self.end, *(p for s in self.segments for p in s), *self.value.corners]

    def _line(self) -> Segment:
        """Return the dimension line, drawn on under arrows and a value that stand outside [mm]."""
        low, high = self.span
        past = arrow_room(self.length, self.scale)
        half, middle = value_width(self.text, self.scale) / 2.0, self.text_middle
        first, last = low - past, high + past
        if middle - half < low or middle + half > high:
            first, last = min(first, middle - half), max(last, middle + half)
        return (self.axis.point(first, self.line_at), self.axis.point(last, self.line_at))

    def _extension(self, hold: Point) -> Segment | None:
        """Return a line from a gap off what is held to a little past the dimension line; none without room."""
        along, across = hold[self.axis.along], hold[self.axis.across]
        way = -1.0 if self.line_at < across else 1.0
        if abs(self.line_at - across) <= GAP * self.scale:
            return None
        first, last = across + way * GAP * self.scale, self.line_at + way * PAST * self.scale
        return (self.axis.point(along, first), self.axis.point(along, last))

    def _arrow(self, tip: float, way: float) -> Triangle:
        back, half = tip + way * ARROW * self.scale, ARROW * self.scale / 6.0
        at = self.line_at
        return (self.axis.point(tip, at), self.axis.point(back, at + half), self.axis.point(back, at - half))


def arrows_fit(length: float, scale: float) -> bool:
    """Whether both arrows find room inside a dimension of a length [mm] at 1 : scale."""
    return length >= _INSIDE * ARROW * scale


def arrow_room(length: float, scale: float) -> float:
    """Return how far the dimension line runs past its ends, under arrows outside [mm]."""
    return 0.0 if arrows_fit(length, scale) else _BEYOND * ARROW * scale


def value_width(text: str, scale: float) -> float:
    """Return how much of a dimension line a value takes [mm]."""
    return text_width(text, TEXT) * scale
