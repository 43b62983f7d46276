"""Texts set where nothing is drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.model.items import Text
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.shapes.plane import Point, Segment

_SHELVES = (0.0, 0.25, 0.5, 0.75, 1.0)
"""A text that is set stands as so many lines across its height: no other, at least a quarter as high, slips in."""


class FreePlaces:
    """A drawing that texts are set into one by one, each clear of what is drawn and of the texts before."""

    def __init__(self, items: Iterable[Item], margin: float) -> None:
        """Start from what is drawn; texts keep a margin [mm] to it."""
        self._margin = margin
        segments = [s for item in items for s in item.chords()]
        self._taken: list[Floats] = [np.array(segments, dtype=float).reshape(-1, 2, 2)]
        self._texts: list[Text] = []

    def take(self, segments: Iterable[Segment]) -> None:
        """Keep texts off more lines."""
        self._taken.append(np.array(list(segments), dtype=float).reshape(-1, 2, 2))

    def is_free(self, note: Text) -> bool:
        """Whether a text would stand clear."""
        corners = note.corners
        return not any(_hits(corners, taken, self._margin) for taken in self._taken)

    def crosses_text(self, line: Segment) -> bool:
        """Whether a line would cross a text that was set."""
        return any(_hits(n.corners, np.array([line]), self._margin) for n in self._texts)

    def put(self, notes: Iterable[Text]) -> Text | None:
        """Set the first of some texts that stands clear, and return it; None when none does."""
        for note in notes:
            if self.is_free(note):
                self.take(_shelves(note))
                self._texts.append(note)
                return note
        return None


def _shelves(note: Text) -> list[Segment]:
    a, b, c, d = note.corners

    def between(p: Point, q: Point, share: float) -> Point:
        return (p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share)

    return [(between(a, d, s), between(b, c, s)) for s in _SHELVES]


def _hits(corners: tuple[Point, Point, Point, Point], segments: Floats, margin: float) -> bool:
    """Whether a turned box, a margin wider [mm], touches any of some lines (n, 2, 2) [mm].

    Each line is cut to the box's width, then to its height, in the box's own axes (after Y.-D. Liang and B. Barsky,
    ACM Trans. Graphics 3 (1984) 1-22; from memory).
    """
    if not len(segments):
        return False
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
    enter = np.where(flat, np.where(inside, 0.0, 2.0), np.minimum(first, last)).max(axis=1)
    leave = np.where(flat, np.where(inside, 1.0, -1.0), np.maximum(first, last)).min(axis=1)
    return bool((np.maximum(enter, 0.0) <= np.minimum(leave, 1.0)).any())
