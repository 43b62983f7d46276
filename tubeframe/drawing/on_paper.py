"""A picture set on paper: true lengths divided by the scale, dimensions drawn out."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.picture import Axis, Dimension, Layer, Note, Ring, Strokes
from tubeframe.drawing.sheet import Anchor, Circle, Fill, Lines, Pen, Polyline, Text

if TYPE_CHECKING:
    from tubeframe.drawing.picture import Picture, PictureItem
    from tubeframe.drawing.sheet import Item, Point

_PENS = {
    Layer.TUBE: Pen.MEDIUM,
    Layer.FITTING: Pen.MEDIUM,
    Layer.PANEL: Pen.MEDIUM,
    Layer.HIDDEN: Pen.HIDDEN,
    Layer.CENTER: Pen.NARROW,
    Layer.DIM: Pen.NARROW,
    Layer.TEXT: Pen.NARROW,
    Layer.BALLOON: Pen.NARROW,
    Layer.BORDER: Pen.WIDE,
}
_TEXT, _GAP, _PAST, _ARROW, _ABOVE = 3.5, 1.5, 2.0, 2.5, 0.9
"""Value, gap at the outline, overshoot, arrow, and value over its line [mm] (ISO 129-1, from memory)."""
_SMALL_RING = 1.0


def on_paper(picture: Picture, origin: Point) -> list[Item]:
    """Set a picture on paper; `origin` is where its own origin goes [mm]."""
    ground = _Paper(origin=origin, scale=picture.scale)
    return [made for item in picture.items for made in ground.item(item)]


def shifted(item: Item, by: Point, *, quarter_turn: bool = False) -> Item:
    """Return an item turned counterclockwise by a right angle about the origin, if wanted, and then moved [mm]."""

    def at(p: Point) -> Point:
        x, y = (-p[1], p[0]) if quarter_turn else p
        return (x + by[0], y + by[1])

    turn = 90.0 if quarter_turn else 0.0
    if isinstance(item, Lines):
        return replace(item, segments=tuple((at(a), at(b)) for a, b in item.segments))
    if isinstance(item, Polyline):
        return replace(item, points=tuple(at(p) for p in item.points))
    if isinstance(item, Text):
        return replace(item, at=at(item.at), angle_deg=item.angle_deg + turn)
    if isinstance(item, Circle):
        return replace(item, centre=at(item.centre))
    return replace(item, centre=at(item.centre), start_deg=item.start_deg + turn, end_deg=item.end_deg + turn)


class _Paper:
    """Turns true places into places on paper."""

    def __init__(self, *, origin: Point, scale: int) -> None:
        self._origin = origin
        self._scale = scale

    def at(self, p: Point) -> Point:
        return (self._origin[0] + p[0] / self._scale, self._origin[1] + p[1] / self._scale)

    def item(self, item: PictureItem) -> list[Item]:
        if isinstance(item, Strokes):
            return [Lines(segments=tuple((self.at(a), self.at(b)) for a, b in item.segments), pen=_PENS[item.layer])]
        if isinstance(item, Ring):
            radius = item.radius / self._scale
            fill = Fill.BLACK if radius < _SMALL_RING else Fill.WHITE
            return [Circle(centre=self.at(item.centre), radius=radius, pen=_PENS[item.layer], fill=fill)]
        if isinstance(item, Note):
            height = item.height / self._scale
            place = self.at(item.at)
            return [Text(at=place, text=item.text, cap_height=height, anchor=item.anchor, angle_deg=item.angle)]
        return self._dimension(item)

    def _dimension(self, item: Dimension) -> list[Item]:
        """Draw extension lines, the dimension line with arrows, and the value above it."""
        level = item.axis is Axis.HORIZONTAL
        line_at = self._origin[1 if level else 0] + item.line_at / self._scale
        holds = [self.at(item.start), self.at(item.end)]
        ends = [(p[0], line_at) if level else (line_at, p[1]) for p in holds]
        extensions = tuple(_extension(hold, end, level=level) for hold, end in zip(holds, ends, strict=True))
        low, high = sorted(ends)
        middle = ((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0)
        at = (middle[0], middle[1] + _ABOVE) if level else (middle[0] - _ABOVE, middle[1])
        return [
            Lines(segments=(*extensions, (low, high)), pen=Pen.NARROW),
            *_arrows(low, high, level=level),
            Text(at=at, text=item.text, cap_height=_TEXT, anchor=Anchor.CENTRE, angle_deg=0.0 if level else 90.0),
        ]


def _extension(hold: Point, end: Point, *, level: bool) -> tuple[Point, Point]:
    """Return an extension line, a gap off what it holds on to and a little past the dimension line."""
    if level:
        sign = -1.0 if end[1] < hold[1] else 1.0
        return ((hold[0], hold[1] + sign * _GAP), (end[0], end[1] + sign * _PAST))
    sign = -1.0 if end[0] < hold[0] else 1.0
    return ((hold[0] + sign * _GAP, hold[1]), (end[0] + sign * _PAST, end[1]))


def _arrows(low: Point, high: Point, *, level: bool) -> list[Item]:
    """Draw slim arrows: inside, or outside where they would meet."""
    length = (high[0] - low[0]) if level else (high[1] - low[1])
    inward = 1.0 if length > 3.0 * _ARROW else -1.0
    return [_arrow(low, inward, level=level), _arrow(high, -inward, level=level)]


def _arrow(tip: Point, way: float, *, level: bool) -> Polyline:
    back, half = way * _ARROW, _ARROW / 6.0
    x, y = tip
    wings = ((x + back, y + half), (x + back, y - half)) if level else ((x + half, y + back), (x - half, y + back))
    return Polyline(points=(tip, *wings), pen=Pen.NARROW, closed=True, fill=Fill.BLACK)
