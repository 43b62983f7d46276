"""Pictures on pages: an isometric view of anything, and where its labels go."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.drawing.hidden_line import visible_lines
from tubeframe.drawing.labels.balloons import fits_circle, height_in_circle
from tubeframe.drawing.labels.free_places import FreePlaces, Place, corners_of
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import BODY
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.shapes import circle
from tubeframe.drawing.shapes.plane import Transform, size_of
from tubeframe.drawing.views.bodies import seen_box
from tubeframe.drawing.views.drawn_bodies import drawn_bodies

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

    from tubeframe.drawing.hidden_line import BodyLines
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.model.scene import Body
    from tubeframe.drawing.shapes.plane import Box, Point
    from tubeframe.geometry.vector import Vec

_FINEST = 0.7
"""Nothing closer than this is drawn [mm on paper] (ISO 128: gap between parallel lines, from memory)."""
_BALLOON = 5.0
_CLEAR, _DOT = 0.4, 0.6
_OFF, _WAYS = (11.0, 14.0, 18.0, 23.0, 29.0), 16
"""A balloon that finds no good place on its part stands so far off it [mm on paper], in so many directions."""
_COST_OF_LINE, _COST_OF_SHARE, _COST_OF_LEADER, _COST_OF_WAY, _COST_OF_CROSSING = 1.0, 0.4, 1.0, 0.2, 0.5
_COST_WITHOUT_LEADER = 50.0
"""What a line under a balloon counts, the next point along a part, a leader at all, its length, a line it crosses."""
_SMALL = 1.0 / 15.0


PaperBox = tuple[float, float, float, float]
"""Left, bottom, width and height [mm on paper]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A text in a circle on one of some points in space, the best first [mm]."""

    at: tuple[Vec, ...]
    text: str


def isometric(bodies: Sequence[Body], box: PaperBox, *, strong: Collection[str] = ()) -> tuple[list[Mark], Transform]:
    """Draw bodies in an isometric view, as large as a box of the paper takes (left, bottom, width, height) [mm].

    Bodies whose key is in `strong` are drawn in wider lines than the rest; all alike when none is.
    """
    fit = _fit(seen_box(bodies, ISOMETRIC), box)
    items, _ = drawn_at(bodies, fit, strong=strong)
    return items, fit


def drawn_at(
    bodies: Sequence[Body], fit: Transform, *, strong: Collection[str] = (), others: Pen = Pen.FINE
) -> tuple[list[Mark], Sequence[BodyLines]]:
    """Draw bodies in an isometric view as it lies on the paper; return what is seen of each body too.

    Bodies whose key is in `strong` are drawn in wider lines than the rest; all alike when none is.
    """
    seen = visible_lines(bodies, ISOMETRIC, sag=0.1, min_size=_FINEST / fit.scale)
    items: list[Mark] = []
    for pen, chosen in (
        (others, [v for v in seen if strong and v.key not in strong]),
        (Pen.TUBE if strong else _plain_pen(fit), [v for v in seen if not strong or v.key in strong]),
    ):
        items += [item.placed(fit) for item in drawn_bodies(chosen, pen)]
    return items, seen


def centred(bodies: Sequence[Body], box: PaperBox, scale: float) -> Transform | None:
    """Lay an isometric view of a scale into the middle of a box (left, bottom, width, height) [mm on paper].

    None where it is too large for the box.
    """
    seen = seen_box(bodies, ISOMETRIC)
    across, up = (v * scale for v in size_of(seen))
    return None if across > box[2] or up > box[3] else _middle(seen, box, scale)


def _plain_pen(fit: Transform) -> Pen:
    """Choose a finer line for a small picture, where the outlines of a tube would run together."""
    return Pen.NARROW if fit.scale > _SMALL else Pen.FINE


def balloons(labels: Sequence[Label], drawn: Sequence[Mark], fit: Transform, box: PaperBox) -> list[Mark]:
    """Put labels into circles on what they name, or beside it with a leader, where least is drawn under them.

    All stay in a box of the paper (left, bottom, width, height) [mm].
    """
    free = FreePlaces(drawn, _CLEAR)
    items: list[Mark] = []
    for label in labels:
        points = [fit.point(ISOMETRIC.project(at)) for at in label.at]
        inside = [p for p in _places(points) if _is_inside(p, box)]
        place = free.put_cheapest(inside) or (inside or [_on(points[0], 0.0)])[0]
        left, bottom, right, _ = (*place.corners[0], *place.corners[2])
        x, y = (left + right) / 2.0, bottom + _BALLOON
        if place.leader is not None:
            items.append(strokes(Pen.NARROW, (place.leader,)))
            items.append(Drawn(shape=circle(place.leader[1], _DOT), pen=None, fill=Fill.BLACK))
        items.append(Drawn(shape=circle((x, y), _BALLOON), pen=Pen.NARROW, fill=Fill.WHITE))
        items.append(_in_circle(label.text, (x, y)))
    return items


def _in_circle(text: str, centre: Point) -> Text:
    """Set a text in the middle of a circle; a long one is not bold."""
    bold = fits_circle(text, _BALLOON, bold=True)
    height = min(BODY, height_in_circle(text, _BALLOON, bold=bold))
    at = (centre[0], centre[1] - height / 2.0)
    return Text(at=at, text=text, height=height, anchor=Anchor.CENTRE, bold=bold)


def _places(points: Sequence[Point]) -> Iterator[Place]:
    """Yield places on what is named, the best point first, then beside it with a leader, at last without one."""
    for rank, point in enumerate(points):
        yield _on(point, _COST_OF_SHARE * rank)
    tip = points[0]
    for off in _OFF:
        for n in range(_WAYS):
            way = math.tau * (n + 0.5) / _WAYS
            centre = (tip[0] + off * math.cos(way), tip[1] + off * math.sin(way))
            edge = (tip[0] + (off - _BALLOON) * math.cos(way), tip[1] + (off - _BALLOON) * math.sin(way))
            beside = _on(centre, _COST_OF_LEADER + _COST_OF_WAY * off)
            yield replace(beside, leader=(edge, tip), per_crossing=_COST_OF_CROSSING)
            yield replace(beside, cost=_COST_WITHOUT_LEADER + off)


def _is_inside(place: Place, box: PaperBox) -> bool:
    left, bottom, width, height = box
    (x, y), (right, top) = place.corners[0], place.corners[2]
    return left <= x and bottom <= y and right <= left + width and top <= bottom + height


def _on(point: Point, cost: float) -> Place:
    x, y = point
    box = (x - _BALLOON, y - _BALLOON, x + _BALLOON, y + _BALLOON)
    return Place(corners=corners_of(box), cost=cost, per_line=_COST_OF_LINE)


def guide(start: Vec, end: Vec, fit: Transform) -> Drawn:
    """Draw the way a part takes."""
    ends = (fit.point(ISOMETRIC.project(start)), fit.point(ISOMETRIC.project(end)))
    return strokes(Pen.CENTRE, (ends,))


def _fit(seen: Box, box: PaperBox) -> Transform:
    """Lay what is seen into the middle of a box (left, bottom, width, height) [mm on paper], as large as it takes."""
    width, height = size_of(seen)
    return _middle(seen, box, min(box[2] / max(width, 1.0), box[3] / max(height, 1.0)))


def _middle(seen: Box, box: PaperBox, scale: float) -> Transform:
    width, height = size_of(seen)
    left, bottom, room_x, room_y = box
    x = left + (room_x - width * scale) / 2.0 - seen[0] * scale
    y = bottom + (room_y - height * scale) / 2.0 - seen[1] * scale
    return Transform(scale=scale, shift=(x, y))
