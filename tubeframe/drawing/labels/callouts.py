"""Words beside a small picture, each with a line to what it names, where nothing is drawn."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Level, Text, strokes
from tubeframe.drawing.model.lettering import SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area, circle

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Point

    Floats = np.ndarray[tuple[int, ...], np.dtype[np.float64]]
    Box = tuple[float, float, float, float]

_STEP = 0.5
_CLEAR = 0.9
_REACHES = (7.0, 9.0, 11.0, 13.0, 16.0, 19.0, 22.0, 26.0, 30.0)
_TURNS = tuple(t for n in range(12) for t in ((15.0 * n, -15.0 * n) if n else (0.0,)))
_COST_OF_INK, _COST_OF_TURN, _COST_OF_INSIDE = 0.25, 0.06, 12.0
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    tip: Point
    elbow: Point
    box: Box
    anchor: Anchor


def callouts(wanted: Sequence[Callout], drawn: Sequence[tuple[Point, Point]], area: Box) -> list[Mark] | None:
    """Place words in an area (left, bottom, right, top) clear of what is drawn in it; None where one has no room.

    Args:
        wanted: what to place, the hardest first.
        drawn: lines of the picture [mm on paper].
        area: where words may stand [mm on paper].

    """
    ink = _dots(drawn)
    placed: list[_Place] = []
    items: list[Mark] = []
    for callout in wanted:
        best = min(_places(callout, ink, placed, area), key=lambda found: found[0], default=None)
        if best is None:
            return None
        placed.append(best[1])
        items += _drawn(callout, best[1])
    return items


def _places(callout: Callout, ink: Floats, placed: Sequence[_Place], area: Box) -> Iterator[tuple[float, _Place]]:
    """Yield places that are free, each with what speaks against it."""
    ahead = math.atan2(callout.toward[1], callout.toward[0])
    width = text_width(callout.text, SMALL)
    for reach in _REACHES:
        for turn in _TURNS:
            way = ahead + math.radians(turn)
            x, y = callout.tip[0] + reach * math.cos(way), callout.tip[1] + reach * math.sin(way)
            is_right = math.cos(way) >= 0.0
            left = x + _CLEAR if is_right else x - _CLEAR - width
            box = (left, y - SMALL * 0.8, left + width, y + SMALL * 0.8)
            place = _Place(tip=callout.tip, elbow=(x, y), box=box, anchor=Anchor.LEFT if is_right else Anchor.RIGHT)
            if _is_free(place, ink, placed, area):
                crossed = _near_line(ink, callout.tip, (x, y))
                inside = _COST_OF_INSIDE if _is_inside(ink, box) else 0.0
                yield reach + _COST_OF_TURN * abs(turn) + _COST_OF_INK * crossed + inside, place


def _is_free(place: _Place, ink: Floats, placed: Sequence[_Place], area: Box) -> bool:
    left, bottom, right, top = place.box
    if left < area[0] or bottom < area[1] or right > area[2] or top > area[3]:
        return False
    if _any_in(ink, place.box):
        return False
    line = _dots([(place.tip, place.elbow)])
    for other in placed:
        its = other.box
        if left < its[2] + _CLEAR and its[0] < right + _CLEAR and bottom < its[3] and its[1] < top:
            return False
        its_line = _dots([(other.tip, other.elbow)])
        if _any_in(line, its) or _any_in(its_line, place.box) or _cross(place, other):
            return False
    return True


def _cross(one: _Place, other: _Place) -> bool:
    def side(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    a, b, c, d = one.tip, one.elbow, other.tip, other.elbow
    return side(a, b, c) * side(a, b, d) <= 0.0 and side(c, d, a) * side(c, d, b) <= 0.0


def _dots(lines: Sequence[tuple[Point, Point]]) -> Floats:
    """Return points along lines, close to each other, (n, 2) [mm]."""
    rows = [np.linspace(a, b, max(2, math.ceil(math.dist(a, b) / _STEP) + 1)) for a, b in lines]
    return np.concatenate(rows) if rows else np.empty((0, 2))


def _any_in(dots: Floats, box: Box) -> bool:
    low, high = np.array(box[:2]) - _CLEAR, np.array(box[2:]) + _CLEAR
    return bool(((dots > low) & (dots < high)).all(axis=1).any())


def _is_inside(ink: Floats, box: Box) -> bool:
    """Whether the picture is on all four sides of a box."""
    x, y = ink[:, 0], ink[:, 1]
    beside, above = (y > box[1]) & (y < box[3]), (x > box[0]) & (x < box[2])
    sides = (beside & (x < box[0]), beside & (x > box[2]), above & (y < box[1]), above & (y > box[3]))
    return all(bool(side.any()) for side in sides)


def _near_line(ink: Floats, start: Point, end: Point) -> int:
    """Count the points of the picture that a line runs over."""
    a, way = np.array(start), np.array(end) - np.array(start)
    long = math.dist(start, end)
    along, off = (ink - a) @ way / long, np.abs((ink - a) @ np.array([-way[1], way[0]])) / long
    return int(((along > 0.0) & (along < long) & (off < _STEP)).sum())


def _drawn(callout: Callout, place: _Place) -> list[Mark]:
    (x, y), (tip_x, tip_y) = place.elbow, place.tip
    long = math.dist(place.elbow, place.tip)
    ux, uy = (x - tip_x) / long, (y - tip_y) / long
    items: list[Mark] = [strokes(Pen.NARROW, ((place.tip, place.elbow),))]
    if callout.arrow:
        back = (tip_x + ux * _ARROW, tip_y + uy * _ARROW)
        sides = [(back[0] - uy * h, back[1] + ux * h) for h in (_ARROW_HALF, -_ARROW_HALF)]
        items.append(Drawn(shape=Area(corners=(place.tip, *sides)), pen=None, fill=Fill.BLACK))
    else:
        items.append(Drawn(shape=circle(place.tip, _DOT), pen=None, fill=Fill.BLACK))
    at = (place.box[0] if place.anchor is Anchor.LEFT else place.box[2], y)
    items.append(Text(at=at, text=callout.text, height=SMALL, anchor=place.anchor, level=Level.MIDDLE))
    return items
