"""Words beside a small picture, each with a line to what it names, where nothing is drawn."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.labels.free_places import FreePlaces, Place, corners_of
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Level, Text, strokes
from tubeframe.drawing.model.lettering import SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area, circle

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.shapes.plane import Box, Point

_CLEAR = 0.9
_REACHES = (7.0, 9.0, 11.0, 13.0, 16.0, 19.0, 22.0, 26.0, 30.0)
_TURNS = tuple(t for n in range(12) for t in ((15.0 * n, -15.0 * n) if n else (0.0,)))
_COST_OF_CROSSING, _COST_OF_TURN, _COST_OF_INSIDE = 2.0, 0.06, 12.0
_ARROW, _ARROW_HALF, _DOT = 2.6, 0.55, 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Callout:
    """Words for a point [mm on paper], and the way in which they had best stand off it.

    The line ends with an arrow on an edge, or with a dot on an area.
    """

    tip: Point
    toward: Point
    text: str
    arrow: bool


def callouts(wanted: Sequence[Callout], drawn: Iterable[Item], area: Box) -> list[Mark] | None:
    """Place words in an area (left, bottom, right, top) clear of what is drawn in it; None where one has no room.

    Args:
        wanted: what to place, the hardest first.
        drawn: the picture [mm on paper].
        area: where words may stand [mm on paper].

    """
    free = FreePlaces(drawn, _CLEAR)
    items: list[Mark] = []
    for callout in wanted:
        place = free.put_cheapest(_places(callout, free, area))
        if place is None:
            return None
        items += _drawn(callout, place)
    return items


def _places(callout: Callout, free: FreePlaces, area: Box) -> Iterator[Place]:
    """Yield places in an area, each with what speaks against it: far off, turned away, in the midst of the picture."""
    ahead = math.atan2(callout.toward[1], callout.toward[0])
    width = text_width(callout.text, SMALL)
    for reach in _REACHES:
        for turn in _TURNS:
            way = ahead + math.radians(turn)
            x, y = callout.tip[0] + reach * math.cos(way), callout.tip[1] + reach * math.sin(way)
            left = x + _CLEAR if math.cos(way) >= 0.0 else x - _CLEAR - width
            box = (left, y - SMALL * 0.8, left + width, y + SMALL * 0.8)
            if box[0] < area[0] or box[1] < area[1] or box[2] > area[2] or box[3] > area[3]:
                continue
            yield Place(
                corners=corners_of(box),
                leader=((x, y), callout.tip),
                cost=reach + _COST_OF_TURN * abs(turn) + (_COST_OF_INSIDE if free.surrounds(box) else 0.0),
                per_crossing=_COST_OF_CROSSING,
            )


def _drawn(callout: Callout, place: Place) -> list[Mark]:
    elbow, tip = place.leader or (callout.tip, callout.tip)
    items: list[Mark] = [strokes(Pen.NARROW, ((tip, elbow),))]
    if callout.arrow:
        long = math.dist(elbow, tip)
        ux, uy = (elbow[0] - tip[0]) / long, (elbow[1] - tip[1]) / long
        back = (tip[0] + ux * _ARROW, tip[1] + uy * _ARROW)
        one, other = ((back[0] - uy * h, back[1] + ux * h) for h in (_ARROW_HALF, -_ARROW_HALF))
        items.append(Drawn(shape=Area(corners=(tip, one, other)), pen=None, fill=Fill.BLACK))
    else:
        items.append(Drawn(shape=circle(tip, _DOT), pen=None, fill=Fill.BLACK))
    left, right = place.corners[0][0], place.corners[1][0]
    anchor = Anchor.LEFT if left > elbow[0] else Anchor.RIGHT
    at = (left if anchor is Anchor.LEFT else right, elbow[1])
    items.append(Text(at=at, text=callout.text, height=SMALL, anchor=anchor, level=Level.MIDDLE))
    return items
