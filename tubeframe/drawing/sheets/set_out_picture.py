"""Where the feet stand, from above: the string's rectangle, the marks along it from one corner, both diagonals."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Level, Text, strokes
from tubeframe.drawing.model.lettering import SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area, circle
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Point
    from tubeframe.drawing.sheets.isometric import PaperBox
    from tubeframe.geometry.units import Units

_FOOT = 1.1
_OFF = 2.5
_ROOM = 16.0
"""Round the rectangle, for numbers [mm on paper]."""


def set_out_picture(feet: Sequence[Point], units: Units, box: PaperBox) -> list[Mark]:
    """Draw feet [mm] in a box of the paper, the longer way across."""
    turned = _span(feet, 1) > _span(feet, 0)
    points = [(y, x) if turned else (x, y) for x, y in feet]
    long, wide = _span(points, 0), _span(points, 1)
    scale = min((box[2] - 2.0 * _ROOM) / max(long, 1.0), (box[3] - _ROOM) / max(wide, 1.0))
    left = box[0] + (box[2] - long * scale) / 2.0
    bottom = box[1] + (box[3] - wide * scale) / 2.0 + SMALL
    low = (min(x for x, _ in points), min(y for _, y in points))
    placed = [(left + (x - low[0]) * scale, bottom + (y - low[1]) * scale) for x, y in points]
    right, top = left + long * scale, bottom + wide * scale
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    diagonals = ((corners[0], corners[2]), (corners[1], corners[3]))
    items: list[Mark] = [strokes(Pen.GUIDE, diagonals), Drawn(shape=Area(corners=corners), pen=Pen.NARROW)]
    items += [Drawn(shape=circle(p, _FOOT), pen=None, fill=Fill.BLACK) for p in placed]
    items += _running(points, low[0], left, bottom, scale, units)
    middle = ((left + right) / 2.0, (bottom + top) / 2.0)
    both = format_length((long**2 + wide**2) ** 0.5, units)
    items += [*_on_white(f"{both} both ways", middle), _beside(format_length(wide, units), (right + _OFF, middle[1]))]
    items.append(Text(at=(middle[0], top + _OFF), text=format_length(long, units), height=SMALL, anchor=Anchor.CENTRE))
    return items


def _running(
    points: Sequence[Point], first: float, left: float, bottom: float, scale: float, units: Units
) -> list[Mark]:
    """Write distances along the lower side from its left corner; where two would touch, one row lower."""
    items: list[Mark] = []
    ends = [-1e9, -1e9]
    for at in sorted({round(x - first, 2) for x, _ in points}):
        text, x = format_length(at, units), left + at * scale
        half = text_width(text, SMALL) / 2.0
        row = 0 if x - half > ends[0] + 1.0 else 1
        ends[row] = x + half
        items.append(
            Text(at=(x, bottom - _OFF - SMALL * (1.0 + 1.5 * row)), text=text, height=SMALL, anchor=Anchor.CENTRE)
        )
    return items


def _on_white(text: str, at: Point) -> list[Mark]:
    wide, high = text_width(text, SMALL) / 2.0 + 1.0, SMALL / 2.0 + 0.8
    x, y = at
    area = Area(corners=((x - wide, y - high), (x + wide, y - high), (x + wide, y + high), (x - wide, y + high)))
    return [
        Drawn(shape=area, pen=None, fill=Fill.WHITE),
        Text(at=at, text=text, height=SMALL, anchor=Anchor.CENTRE, level=Level.MIDDLE),
    ]


def _beside(text: str, at: Point) -> Text:
    return Text(at=at, text=text, height=SMALL, level=Level.MIDDLE)


def _span(points: Sequence[Point], axis: int) -> float:
    values = [p[axis] for p in points]
    return max(values) - min(values)
