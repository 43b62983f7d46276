"""Labels set where there is room: what is in their way, and which of their places is taken."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.labels.box_hits import Lines, hits
from tubeframe.drawing.labels.crossings import cross

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.model.items import Text
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.shapes.plane import Box, Point, Segment

Corners = tuple[tuple[float, float], tuple[float, float], tuple[float, float], tuple[float, float]]
_SHELVES = (0.0, 0.25, 0.5, 0.75, 1.0)
"""A label that is set stands as so many lines across its height: no other, at least a quarter as high, slips in."""

_AT_ONCE = 32
"""So many places are looked at together."""


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
        self._drawn = Lines(_rows(s for item in items for s in item.chords()))
        self._labels: list[Corners] = []
        self._shelves = _rows(())
        self._leaders: list[Segment] = []

    def take(self, segments: Iterable[Segment]) -> None:
        """Keep labels off more lines."""
        self._drawn = Lines(np.concatenate([self._drawn.ends, _rows(segments)]))

    def is_free(self, text: Text) -> bool:
        """Whether a text would stand clear."""
        return self.cost(Place(corners=text.corners)) < math.inf

    def crosses_text(self, line: Segment) -> bool:
        """Whether a line would cross a label that was set."""
        labels = np.array(self._labels, dtype=float).reshape(-1, 4, 2)
        return bool(hits(labels, Lines(_rows([line])), self._margin).any())

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
        ordered = sorted(places, key=lambda p: p.cost)
        best, least = None, math.inf
        for first in range(0, len(ordered), _AT_ONCE):
            together = ordered[first : first + _AT_ONCE]
            if together[0].cost >= least:
                break
            for place, cost in zip(together, self._costs(together), strict=True):
                if cost < least and (whole := cost + self._leader_cost(place)) < least:
                    best, least = place, whole
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
        (cost,) = self._costs([place])
        return cost + self._leader_cost(place) if cost < math.inf else cost

    def _costs(self, places: Sequence[Place]) -> list[float]:
        """Return what places cost but for their leaders."""
        corners = np.array([p.corners for p in places], dtype=float)
        set_before = Lines(np.concatenate([self._shelves, _rows(self._leaders)]))
        taken = [bool(row.any()) for row in hits(corners, set_before, self._margin)]
        under = [int(row.sum()) for row in hits(corners, self._drawn, self._margin)]
        return [
            math.inf if is_taken else place.cost + (place.per_line * lines if lines else 0.0)
            for place, is_taken, lines in zip(places, taken, under, strict=True)
        ]

    def _leader_cost(self, place: Place) -> float:
        """Return what a place's leader costs; infinite where it crosses another or runs over a label."""
        if place.leader is None:
            return 0.0
        if self.crosses_text(place.leader) or any(cross(*place.leader, *other) for other in self._leaders):
            return math.inf
        return place.per_crossing * _crossed(place.leader, self._drawn.ends) if place.per_crossing else 0.0

    def surrounds(self, box: Box) -> bool:
        """Whether something is drawn on all four sides of a box [mm]."""
        low, high = self._drawn.low, self._drawn.high
        beside = (low[:, 1] < box[3]) & (high[:, 1] > box[1])
        if not (beside & (low[:, 0] < box[0])).any() or not (beside & (high[:, 0] > box[2])).any():
            return False
        above = (low[:, 0] < box[2]) & (high[:, 0] > box[0])
        return bool((above & (low[:, 1] < box[1])).any() and (above & (high[:, 1] > box[3])).any())


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
