"""Labels set where there is room: what is in their way, and which of their places is taken."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.labels.crossings import cross

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.model.arrays import Flags, Floats
    from tubeframe.drawing.model.items import Text
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.shapes.plane import Box, Point, Segment

Corners = tuple[tuple[float, float], tuple[float, float], tuple[float, float], tuple[float, float]]
_SHELVES = (0.0, 0.25, 0.5, 0.75, 1.0)
"""A label that is set stands as so many lines across its height: no other, at least a quarter as high, slips in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a label may stand: the corners of its box, the line that leads from it to what it names, and its cost.

    `per_line` is what each drawn line under it costs, and `per_crossing` each that its leader crosses; an infinite one
    rules the place out.
    """

    corners: Corners
    leader: Segment | None = None
    cost: float = 0.0
    per_line: float = math.inf
    per_crossing: float = 0.0


class FreePlaces:
    """A drawing that labels are set into one by one, each clear of the labels before and, if it has to, of lines."""

    def __init__(self, items: Iterable[Item], margin: float) -> None:
        """Start from what is drawn; labels keep a margin [mm] to it."""
        self._margin = margin
        self._drawn = _rows(s for item in items for s in item.chords())
        self._labels: list[Corners] = []
        self._shelves = _rows(())
        self._leaders: list[Segment] = []

    def take(self, segments: Iterable[Segment]) -> None:
        """Keep labels off more lines."""
        self._drawn = np.concatenate([self._drawn, _rows(segments)])

    def is_free(self, text: Text) -> bool:
        """Whether a text would stand clear."""
        return self.cost(Place(corners=text.corners)) < math.inf

    def crosses_text(self, line: Segment) -> bool:
        """Whether a line would cross a label that was set."""
        row = _rows([line])
        return any(_hits(corners, row, self._margin).any() for corners in self._labels)

    def put(self, texts: Iterable[Text]) -> Text | None:
        """Set the first of some texts that stands clear, and return it; None when none does."""
        for text in texts:
            place = Place(corners=text.corners)
            if self.cost(place) < math.inf:
                self.set(place)
                return text
        return None

    def put_cheapest(self, places: Iterable[Place]) -> Place | None:
        """Set a label at the place that costs least, the first of equal ones; None when every one is ruled out."""
        best, least = None, math.inf
        for place in sorted(places, key=lambda p: p.cost):
            if place.cost >= least:
                break
            if (cost := self.cost(place)) < least:
                best, least = place, cost
        if best is not None:
            self.set(best)
        return best

    def set(self, place: Place) -> None:
        """Take a place for a label."""
        self._labels.append(place.corners)
        self._shelves = np.concatenate([self._shelves, _rows(_shelves(place.corners))])
        if place.leader is not None:
            self._leaders.append(place.leader)

    def cost(self, place: Place) -> float:
        """Return what a place costs beside what is drawn and set; infinite where another label is in its way."""
        set_before = np.concatenate([self._shelves, _rows(self._leaders)])
        if _hits(place.corners, set_before, self._margin).any():
            return math.inf
        under = int(_hits(place.corners, self._drawn, self._margin).sum())
        cost = place.cost + (place.per_line * under if under else 0.0)
        if place.leader is None or cost == math.inf:
            return cost
        if self.crosses_text(place.leader) or any(cross(*place.leader, *other) for other in self._leaders):
            return math.inf
        if place.per_crossing:
            cost += place.per_crossing * _crossed(place.leader, self._drawn)
        return cost

    def surrounds(self, box: Box) -> bool:
        """Whether something is drawn on all four sides of a box [mm]."""
        lines = self._drawn
        if not len(lines):
            return False
        low, high = lines.min(axis=1), lines.max(axis=1)
        beside = (low[:, 1] < box[3]) & (high[:, 1] > box[1])
        above = (low[:, 0] < box[2]) & (high[:, 0] > box[0])
        across = (beside & (low[:, 0] < box[0]), beside & (high[:, 0] > box[2]))
        up = (above & (low[:, 1] < box[1]), above & (high[:, 1] > box[3]))
        return all(bool(side.any()) for side in (*across, *up))


def corners_of(box: Box) -> Corners:
    """Return the corners of an upright box, counterclockwise from the lower left [mm]."""
    left, bottom, right, top = box
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def _rows(segments: Iterable[Segment]) -> Floats:
    return np.array(list(segments), dtype=float).reshape(-1, 2, 2)


def _shelves(corners: Corners) -> list[Segment]:
    a, b, c, d = corners

    def between(p: Point, q: Point, share: float) -> Point:
        return (p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share)

    return [(between(a, d, s), between(b, c, s)) for s in _SHELVES]


def _crossed(line: Segment, lines: Floats) -> int:
    """Count the lines (n, 2, 2) that a line crosses."""
    a, way = np.array(line[0]), np.array(line[1]) - np.array(line[0])
    c, d = lines[:, 0] - a, lines[:, 1] - a
    edge = d - c
    sides = (way[0] * c[:, 1] - way[1] * c[:, 0]) * (way[0] * d[:, 1] - way[1] * d[:, 0])
    ends = (edge[:, 0] * -c[:, 1] + edge[:, 1] * c[:, 0]) * (
        edge[:, 0] * (way[1] - c[:, 1]) - edge[:, 1] * (way[0] - c[:, 0])
    )
    return int(((sides < 0.0) & (ends < 0.0)).sum())


def _hits(corners: Corners, segments: Floats, margin: float) -> Flags:
    """Return which lines (n, 2, 2) a turned box, a margin wider [mm], touches, (n,).

    Each line is cut to the box's width, then to its height, in the box's own axes (after Y.-D. Liang and B. Barsky,
    ACM Trans. Graphics 3 (1984) 1-22; from memory).
    """
    origin = np.array(corners[0])
    along, up = np.array(corners[1]) - origin, np.array(corners[3]) - origin
    size = np.array([np.hypot(*along), np.hypot(*up)])
    axes = np.stack([along / size[0], up / size[1]], axis=1)
    local = (segments - origin) @ axes
    start, way = local[:, 0], local[:, 1] - local[:, 0]
    flat = np.abs(way) < 1e-9
    step = np.where(flat, 1.0, way)
    first, last = (-margin - start) / step, (size + margin - start) / step
    inside = (start >= -margin) & (start <= size + margin)
    enter = np.where(flat, np.where(inside, 0.0, 2.0), np.minimum(first, last)).max(axis=1, initial=-np.inf)
    leave = np.where(flat, np.where(inside, 1.0, -1.0), np.maximum(first, last)).min(axis=1, initial=np.inf)
    touched: Flags = np.maximum(enter, 0.0) <= np.minimum(leave, 1.0)
    return touched
