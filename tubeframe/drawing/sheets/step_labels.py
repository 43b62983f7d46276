"""Names on a step's picture: marks in circles, ends of tubes, kinds of small parts; none on a new clamp."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.labels.balloons import fits_circle, height_in_circle
from tubeframe.drawing.labels.free_places import FreePlaces, Place, corners_of
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import NOTE, SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area, circle

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from tubeframe.drawing.exploded.naming import EndName, Label, Names
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Box, Point, Transform
    from tubeframe.drawing.sheets.isometric import PaperBox

RADIUS = 4.2
"""Of the circles round marks [mm on paper]."""
_CLEAR, _DOT = 0.4, 0.5
_OFF, _WAYS = (8.0, 11.0, 15.0, 20.0, 26.0), 16
"""A name that finds no good place on its part stands so far off it [mm on paper], in so many directions."""
_COST_OF_LINE, _COST_OF_SHARE, _COST_OF_LEADER, _COST_OF_WAY, _COST_OF_CROSSING = 1.0, 0.4, 1.0, 0.2, 0.5
_COST_WITHOUT_LEADER = 50.0
"""What a line under a name counts, the next point along a part, a leader at all, its length, a line it crosses."""
_END_OFF = (2.0, 3.2, 4.6)
"""An end is named so far from it [mm on paper]."""
_END_TURNS = tuple(math.radians(t) for t in (0.0, 35.0, -35.0, 65.0, -65.0, 95.0, -95.0, 125.0, -125.0))
"""Ways off an end that its letter is tried in, from straight out [radian]."""
_DISC = 1.7
"""A letter stands on a white disc of this radius: a line under it is interrupted [mm]."""


class Labels:
    """Names that are set one by one, each clear of those before; all stay in a box of the paper."""

    def __init__(self, drawn: Iterable[Mark], fit: Transform, view: View, box: PaperBox, clamps: Iterable[Box]) -> None:
        """Start from what is drawn; no name covers one of the new clamps [mm on paper]."""
        self._fit, self._view, self._box = fit, view, box
        self._free = FreePlaces(drawn, _CLEAR)
        self._clamps = tuple(clamps)
        for clamp in self._clamps:
            self._free.set(Place(corners=corners_of(clamp)))

    def all(self, names: Names) -> list[Mark]:
        """Set ends first: they have the fewest places; then marks, then kinds."""
        ends = [mark for end in names.ends for mark in self._end(end)]
        marks = [mark for label in names.marks for mark in self._circled(label)]
        return [*ends, *marks, *(mark for label in names.small for mark in self._plain(label))]

    def _point(self, label: Label) -> list[Point]:
        return [self._fit.point(self._view.project(at)) for at in label.at]

    def _circled(self, label: Label) -> Iterator[Mark]:
        """Set a mark in a circle on its part, or beside it with a leader."""
        radius = _radius(label.text)
        place = self._put(label, radius)
        (left, bottom), (right, _) = place.corners[0], place.corners[2]
        centre = ((left + right) / 2.0, bottom + radius)
        yield from _led(place)
        yield Drawn(shape=circle(centre, radius), pen=Pen.NARROW, fill=Fill.WHITE)
        bold = fits_circle(label.text, radius, bold=True)
        height = min(NOTE, height_in_circle(label.text, radius, bold=bold))
        at = (centre[0], centre[1] - height / 2.0)
        yield Text(at=at, text=label.text, height=height, anchor=Anchor.CENTRE, bold=bold)

    def _plain(self, label: Label) -> Iterator[Mark]:
        """Set a word beside one of the places it names, with a leader."""
        wide = text_width(label.text, SMALL) / 2.0
        places = [
            p
            for n, tip in enumerate(self._point(label))
            for p in _beside(tip, wide, SMALL / 2.0, 0.1 * n, inner=self._inner(tip))
        ]
        place = self._cheapest([replace(p, per_line=math.inf) for p in places]) or self._cheapest(places)
        if place is None:
            return
        (left, bottom), (right, _) = place.corners[0], place.corners[2]
        yield from _led(place)
        yield Drawn(shape=Area(corners=place.corners), pen=None, fill=Fill.WHITE)
        yield Text(at=((left + right) / 2.0, bottom), text=label.text, height=SMALL, anchor=Anchor.CENTRE)

    def _inner(self, tip: Point) -> float:
        """Return how far from a point a leader to it ends: outside of the clamp that is there [mm]."""
        for left, bottom, right, top in self._clamps:
            if left <= tip[0] <= right and bottom <= tip[1] <= top:
                return math.hypot(right - left, top - bottom) / 2.0 + 2.0 * _CLEAR
        return 0.0

    def _end(self, end: EndName) -> Iterator[Mark]:
        """Set an end's letter beyond it, else beside it."""
        x, y = self._fit.point(self._view.project(end.at))
        across, up = self._view.project(end.out)
        way = math.atan2(up, across)
        wide = text_width(end.text, SMALL, bold=True) / 2.0
        places = [
            _on((x + off * math.cos(a), y + off * math.sin(a)), wide, SMALL / 2.0, 0.3 * n + 0.1 * k)
            for k, off in enumerate(_END_OFF)
            for n, a in enumerate(way + turn for turn in _END_TURNS)
        ]
        place = self._cheapest(places)
        if place is not None:
            (left, bottom), (right, _) = place.corners[0], place.corners[2]
            at = ((left + right) / 2.0, bottom)
            yield Drawn(shape=circle((at[0], at[1] + SMALL / 2.0), _DISC), pen=None, fill=Fill.WHITE)
            yield Text(at=at, text=end.text, height=SMALL, anchor=Anchor.CENTRE, bold=True)

    def _put(self, label: Label, radius: float) -> Place:
        points = self._point(label)
        places = [
            *(_on(p, radius, radius, _COST_OF_SHARE * n) for n, p in enumerate(points)),
            *_beside(points[0], radius, radius, 0.0, is_round=True),
        ]
        return self._cheapest(places) or ([p for p in places if self._is_inside(p)] or places)[0]

    def _cheapest(self, places: Sequence[Place]) -> Place | None:
        return self._free.put_cheapest([p for p in places if self._is_inside(p)])

    def _is_inside(self, place: Place) -> bool:
        left, bottom, width, height = self._box
        (x, y), (right, top) = place.corners[0], place.corners[2]
        return left <= x and bottom <= y and right <= left + width and top <= bottom + height


def _led(place: Place) -> Iterator[Mark]:
    if place.leader is not None:
        yield strokes(Pen.NARROW, (place.leader,))
        yield Drawn(shape=circle(place.leader[1], _DOT), pen=None, fill=Fill.BLACK)


def _radius(text: str) -> float:
    """Return the radius of the circle round a mark: larger for a long one [mm]."""
    if fits_circle(text, RADIUS, bold=False):
        return RADIUS
    return math.hypot(text_width(text, SMALL) / 2.0, SMALL / 2.0) + 0.6


def _beside(
    tip: Point, half_x: float, half_y: float, cost: float, *, is_round: bool = False, inner: float = 0.0
) -> Iterator[Place]:
    """Yield places round a point with a leader that ends so far off it [mm], the near ones first, at last without."""
    for off in _OFF:
        for n in range(_WAYS):
            way = math.tau * (n + 0.5) / _WAYS
            c, s = math.cos(way), math.sin(way)
            reach = half_x if is_round else min(half_x / max(abs(c), 1e-9), half_y / max(abs(s), 1e-9))
            edge = inner + off - RADIUS
            out = edge + reach
            beside = _on(
                (tip[0] + out * c, tip[1] + out * s), half_x, half_y, cost + _COST_OF_LEADER + _COST_OF_WAY * off
            )
            leader = ((tip[0] + edge * c, tip[1] + edge * s), (tip[0] + inner * c, tip[1] + inner * s))
            yield replace(beside, leader=leader, per_crossing=_COST_OF_CROSSING)
            yield replace(beside, cost=_COST_WITHOUT_LEADER + off)


def _on(point: Point, half_x: float, half_y: float, cost: float) -> Place:
    x, y = point
    return Place(
        corners=corners_of((x - half_x, y - half_y, x + half_x, y + half_y)), cost=cost, per_line=_COST_OF_LINE
    )
