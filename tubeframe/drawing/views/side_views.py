"""Straights of tubes seen from the side, and where their outlines are drawn."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.geometry.path import Straight

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Point
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.parts.piece import Piece

_FROM_THE_SIDE = 1e-3
SAME = 0.05
"""Lines nearer to each other are one [mm]."""
_TOUCH = 1e-6
_DIGITS, _ROW_DIGITS = 9, 3


@dataclass(frozen=True, slots=True, kw_only=True)
class SideView:
    """A straight of a tube seen from the side: its ends in the view's plane, A first, and the tube's radius [mm]."""

    start: Point
    end: Point
    radius: float

    @property
    def length(self) -> float:
        """Length that is seen [mm]."""
        return math.dist(self.start, self.end)

    @property
    def way(self) -> Point:
        """Unit vector from start to end."""
        length = self.length
        return ((self.end[0] - self.start[0]) / length, (self.end[1] - self.start[1]) / length)

    def at(self, share: float) -> Point:
        """Return the place at a share of its length [mm]."""
        (ax, ay), (bx, by) = self.start, self.end
        return (ax + (bx - ax) * share, ay + (by - ay) * share)


def side_views(book: PartBook, piece: Piece, view: View) -> tuple[SideView, ...]:
    """Return the straights of a tube that lie in the view's plane, or nearly."""
    radius = book.outside(piece) / 2.0
    toward = view.axes[2]
    return tuple(
        SideView(start=view.project(s.start), end=view.project(s.end), radius=radius)
        for s in piece.path.pieces
        if isinstance(s, Straight) and abs(s.end_tangents[0].dot(toward)) < _FROM_THE_SIDE
    )


class LinesAlong:
    """Lines (n, 2, 2) [mm], looked up by where they run: sorted once for each direction that is asked for."""

    def __init__(self, lines: Floats) -> None:
        """Take the lines."""
        self._lines = lines
        self._sorted: dict[Point, tuple[Floats, Floats]] = {}
        self._rows: dict[tuple[float, float, float], list[tuple[float, float]]] = {}

    def on_outline(self, side: SideView, sign: float) -> list[tuple[float, float]]:
        """Return the drawn stretches beside a straight of one outline, left (1) or right (-1) of its way [mm]."""
        (wx, wy), (x, y) = side.way, side.start
        row = self._row(side.way, wx * y - wy * x + sign * side.radius)
        start = wx * x + wy * y
        first = bisect_left(row, start - SAME, key=lambda stretch: stretch[1])
        last = bisect_right(row, start + side.length + SAME, key=lambda stretch: stretch[0])
        return [(low - start, high - start) for low, high in row[first:last]]

    def near(self, way: Point, off: float) -> Floats:
        """Return the lines (n, 2, 2) that start so far left of the origin, for a direction of travel [mm]."""
        offs, lines = self._across(way)
        first, last = np.searchsorted(offs, (off - SAME, off + SAME)).tolist()
        return lines[first:last]

    def _row(self, way: Point, off: float) -> list[tuple[float, float]]:
        """Return the stretches of a straight line that are drawn, from the place nearest to the origin [mm]."""
        key = (round(way[0], _DIGITS), round(way[1], _DIGITS), round(off, _ROW_DIGITS))
        if key not in self._rows:
            near = self.near(way, off)
            on = np.abs(near @ np.array([-way[1], way[0]]) - off).max(axis=1, initial=0.0) < SAME
            along = near[on] @ np.array(way)
            self._rows[key] = merged((min(a, b), max(a, b)) for a, b in along.tolist())
        return self._rows[key]

    def _across(self, way: Point) -> tuple[Floats, Floats]:
        """Return how far left of the origin the lines' starts are, rising, and the lines in this order."""
        key = (round(way[0], _DIGITS), round(way[1], _DIGITS))
        if key not in self._sorted:
            offs = self._lines[:, 0] @ np.array([-way[1], way[0]])
            order = np.argsort(offs, kind="stable")
            self._sorted[key] = (offs[order], self._lines[order])
        return self._sorted[key]


def seen_stretches(side: SideView, own: LinesAlong, every: LinesAlong) -> tuple[tuple[float, float], ...]:
    """Return where both outlines of a straight are seen: from, to, along it [mm].

    Where another part touches a tube, one line stands for both: so one outline counts when it is anybody's.

    Args:
        side: the straight.
        own: lines that are seen of its tube.
        every: all lines that are seen.

    """
    mine = [own.on_outline(side, sign) for sign in (1.0, -1.0)]
    if not any(mine):
        return ()
    anybody = [every.on_outline(side, sign) for sign in (1.0, -1.0)]
    both = [
        (max(a, c), min(b, d))
        for own_edge, other_edge in ((mine[0], anybody[1]), (mine[1], anybody[0]))
        for a, b in own_edge
        for c, d in other_edge
    ]
    return tuple(merged((low, high) for low, high in both if high - low > SAME))


def merged(stretches: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return stretches in rising order, those that touch in one [mm]."""
    found: list[tuple[float, float]] = []
    for low, high in sorted(stretches):
        if found and low <= found[-1][1] + _TOUCH:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found
