"""A picture set on paper: true lengths divided by the scale, dimensions drawn out."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.model.curves import cubic
from tubeframe.drawing.model.dimension_lines import drawn_out
from tubeframe.drawing.model.picture import Bow, Curve, Layer, Note, Oval, Ring, Strokes
from tubeframe.drawing.model.sheet import ArcItem, Circle, Cubic, Fill, Lines, Pen, Polyline, Text

if TYPE_CHECKING:
    from tubeframe.drawing.model.picture import Picture, PictureItem
    from tubeframe.drawing.model.sheet import Item, Point

_PENS = {
    Layer.TUBE: Pen.MEDIUM,
    Layer.FITTING: Pen.MEDIUM,
    Layer.PANEL: Pen.MEDIUM,
    Layer.HIDDEN: Pen.HIDDEN,
    Layer.CENTER: Pen.CENTRE,
    Layer.DIM: Pen.NARROW,
    Layer.TEXT: Pen.NARROW,
    Layer.BALLOON: Pen.NARROW,
    Layer.BORDER: Pen.WIDE,
}


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
    if isinstance(item, Cubic):
        return replace(item, control=tuple(at(p) for p in item.control))
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
            return [self._ring(item)]
        if isinstance(item, Bow):
            return [self._bow(item)]
        if isinstance(item, Oval):
            return [Cubic(control=tuple(self.at(p) for p in cubic(item)), pen=_PENS[item.layer])]
        if isinstance(item, Curve):
            return [Cubic(control=tuple(self.at(p) for p in item.control), pen=_PENS[item.layer])]
        if isinstance(item, Note):
            return [self._note(item)]
        drawn = drawn_out(item, self._scale)
        lines = Lines(segments=tuple((self.at(a), self.at(b)) for a, b in drawn.segments), pen=_PENS[Layer.DIM])
        arrows = [
            Polyline(points=tuple(self.at(p) for p in arrow), pen=_PENS[Layer.DIM], closed=True, fill=Fill.BLACK)
            for arrow in drawn.arrows
        ]
        return [lines, *arrows, self._note(drawn.value)]

    def _ring(self, ring: Ring) -> Circle:
        fill = Fill.BLACK if ring.filled else None
        return Circle(centre=self.at(ring.centre), radius=ring.radius / self._scale, pen=_PENS[ring.layer], fill=fill)

    def _bow(self, bow: Bow) -> ArcItem:
        return ArcItem(
            centre=self.at(bow.centre),
            radius=bow.radius / self._scale,
            start_deg=bow.start_deg,
            end_deg=bow.end_deg,
            pen=_PENS[bow.layer],
        )

    def _note(self, note: Note) -> Text:
        return Text(
            at=self.at(note.at),
            text=note.text,
            cap_height=note.height / self._scale,
            anchor=note.anchor,
            angle_deg=note.angle,
        )
