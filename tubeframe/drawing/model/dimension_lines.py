"""A dimension drawn out: extension lines, dimension line, arrows and value, the same on paper and in a CAD file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.picture import Axis, Layer, Note, Point, Segment
from tubeframe.drawing.model.sheet import Anchor

if TYPE_CHECKING:
    from tubeframe.drawing.model.picture import Dimension

TEXT, ARROW, GAP, PAST, ABOVE = 3.5, 2.5, 1.5, 2.0, 0.9
"""Value, arrow, gap at the outline, overshoot, and value over its line [mm on paper] (ISO 129-1, from memory)."""
_INSIDE = 3.0
"""Arrows stand inside a dimension that is this many arrows long; else outside."""
_BEYOND = 2.0
"""A dimension line runs on under arrows that stand outside, this many arrows long."""
Triangle = tuple[Point, Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnDimension:
    """What a dimension looks like [mm]: two extension lines, the dimension line, two arrows, and its value."""

    extensions: tuple[Segment, ...]
    line: Segment
    arrows: tuple[Triangle, Triangle]
    value: Note

    @property
    def segments(self) -> tuple[Segment, ...]:
        """All its lines."""
        return (*self.extensions, self.line)


def arrows_fit(length: float, scale: int) -> bool:
    """Whether both arrows find room inside a dimension of a length [mm] at 1 : scale."""
    return length >= _INSIDE * ARROW * scale


def arrow_room(length: float, scale: int) -> float:
    """Return how far the dimension line runs past its ends, under arrows outside [mm]."""
    return 0.0 if arrows_fit(length, scale) else _BEYOND * ARROW * scale


def value_width(text: str, scale: int) -> float:
    """Return how much of a dimension line a value takes [mm]."""
    return text_width(text, TEXT) * scale


def drawn_out(dimension: Dimension, scale: int) -> DrawnDimension:
    """Draw a dimension out for a drawing at 1 : scale."""
    axis, line_at = dimension.axis, dimension.line_at
    low, high = dimension.span
    past = arrow_room(dimension.length, scale)
    half = value_width(dimension.text, scale) / 2.0
    middle = dimension.text_middle
    first, last = low - past, high + past
    if middle - half < low or middle + half > high:
        first, last = min(first, middle - half), max(last, middle + half)
    inward = 1.0 if past == 0.0 else -1.0
    return DrawnDimension(
        extensions=tuple(s for p in (dimension.start, dimension.end) if (s := _extension(p, dimension, scale))),
        line=(axis.point(first, line_at), axis.point(last, line_at)),
        arrows=(_arrow(axis, low, line_at, inward, scale), _arrow(axis, high, line_at, -inward, scale)),
        value=_value(dimension, scale),
    )


def _extension(hold: Point, dimension: Dimension, scale: int) -> Segment | None:
    """Return a line from a gap off what is held to a little past the dimension line; none where there is no room."""
    axis = dimension.axis
    along, across = hold[axis.along], hold[axis.across]
    way = -1.0 if dimension.line_at < across else 1.0
    if abs(dimension.line_at - across) <= GAP * scale:
        return None
    return (axis.point(along, across + way * GAP * scale), axis.point(along, dimension.line_at + way * PAST * scale))


def _arrow(axis: Axis, tip: float, line_at: float, way: float, scale: int) -> Triangle:
    back, half = tip + way * ARROW * scale, ARROW * scale / 6.0
    return (axis.point(tip, line_at), axis.point(back, line_at + half), axis.point(back, line_at - half))


def _value(dimension: Dimension, scale: int) -> Note:
    """Set the value over its line, to be read from below or from the right."""
    level = dimension.axis is Axis.HORIZONTAL
    over = ABOVE * scale if level else -ABOVE * scale
    return Note(
        layer=Layer.DIM,
        at=dimension.axis.point(dimension.text_middle, dimension.line_at + over),
        text=dimension.text,
        height=TEXT * scale,
        anchor=Anchor.CENTRE,
        angle=0.0 if level else 90.0,
    )
