"""Straight lines, and areas inside of them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.drawing.shapes.plane import Box, Point, Segment, Transform

_LEAST = 1e-6
"""Shorter pieces are left out [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """Straight lines, each from one point to another [mm]. Those that follow each other are drawn in one stroke."""

    segments: tuple[Segment, ...]

    def placed(self, to: Transform) -> Lines:
        """Return them as a transform puts them."""
        at = to.point
        return Lines(segments=tuple((at(a), at(b)) for a, b in self.segments))

    def chords(self) -> list[Segment]:
        """Return the lines."""
        return list(self.segments)

    def extremes(self) -> list[Point]:
        """Return points whose box holds all [mm]."""
        return [p for s in self.segments for p in s]

    def within(self, window: Box) -> list[Lines]:
        """Return what is inside a window [mm]."""
        segments = tuple(s for line in self.segments if (s := cut_to(line, window)) is not None)
        return [Lines(segments=segments)] if segments else []


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """What is inside of corners that are joined by straight lines [mm]."""

    corners: tuple[Point, ...]

    def placed(self, to: Transform) -> Area:
        """Return it as a transform puts it."""
        return Area(corners=tuple(to.point(p) for p in self.corners))

    def chords(self) -> list[Segment]:
        """Return the lines round it."""
        return list(pairwise((*self.corners, self.corners[0])))

    def extremes(self) -> list[Point]:
        """Return points whose box holds all [mm]."""
        return list(self.corners)

    def within(self, window: Box) -> list[Lines]:
        """Return what of its outline is inside a window [mm]."""
        return Lines(segments=tuple(self.chords())).within(window)


def cut_to(line: Segment, window: Box) -> Segment | None:
    """Cut a line to a window (Y.-D. Liang and B. Barsky, ACM Trans. Graphics 3 (1984) 1-22; from memory)."""
    start, end = line
    first, last = 0.0, 1.0
    for k in (0, 1):
        way = end[k] - start[k]
        low, high = window[k] - start[k], window[k + 2] - start[k]
        if abs(way) < _LEAST:
            if low > _LEAST or high < -_LEAST:
                return None
            continue
        enter, leave = sorted((low / way, high / way))
        first, last = max(first, enter), min(last, leave)
    if (last - first) * math.dist(start, end) < _LEAST:
        return None
    return (_between(line, first), _between(line, last))


def _between(line: Segment, share: float) -> Point:
    if share in (0.0, 1.0):
        return line[int(share)]
    (ax, ay), (bx, by) = line
    return (ax + (bx - ax) * share, ay + (by - ay) * share)
