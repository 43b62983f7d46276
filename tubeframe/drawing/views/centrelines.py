"""Centre lines of tubes that are seen from the side."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.views.view_lines import FINEST
from tubeframe.geometry.path import Straight

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Point, Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.drawing.views.view_lines import ViewLines
    from tubeframe.parts.piece import Piece

PAST = 2.0
"""A centre line runs this far past a tube's end [mm on paper] (ISO 128-2: a few mm, from memory)."""
_LEAST = 5.0
"""Shorter ones are not worth drawing [mm on paper]."""
_FROM_THE_SIDE = 1e-3
_SAME = 0.05
_TOUCH = 1e-6
_SEEN_SHARE = 0.5


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


def seen_stretches(side: SideView, own: Floats, every: Floats) -> tuple[tuple[float, float], ...]:
    """Return where both outlines of a straight are seen: from, to, along it [mm].

    Where another part touches a tube, one line stands for both: so one outline counts when it is anybody's.

    Args:
        side: the straight.
        own: lines that are seen of its tube, (n, 2, 2) [mm].
        every: all lines that are seen, (n, 2, 2) [mm].

    """
    mine = [on_outline(side, own, sign) for sign in (1.0, -1.0)]
    if not any(mine):
        return ()
    anybody = [on_outline(side, every, sign) for sign in (1.0, -1.0)]
    both = [
        (max(a, c), min(b, d))
        for own_edge, other_edge in ((mine[0], anybody[1]), (mine[1], anybody[0]))
        for a, b in own_edge
        for c, d in other_edge
    ]
    return tuple(merged((low, high) for low, high in both if high - low > _SAME))


def on_outline(side: SideView, lines: Floats, sign: float) -> list[tuple[float, float]]:
    """Return the stretches of one outline, left (1) or right (-1) of the way, that are among lines (n, 2, 2) [mm]."""
    way = np.array(side.way)
    local = lines - np.array(side.start)
    along, off = local @ way, local @ np.array([-way[1], way[0]])
    on = np.abs(off - sign * side.radius).max(axis=1, initial=0.0) < _SAME
    return merged((min(a, b), max(a, b)) for a, b in along[on].tolist())


def merged(stretches: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return stretches in rising order, those that touch in one [mm]."""
    found: list[tuple[float, float]] = []
    for low, high in sorted(stretches):
        if found and low <= found[-1][1] + _TOUCH:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def centrelines(book: PartBook, view: View, lines: ViewLines, scale: int) -> tuple[Drawn, ...]:
    """Draw one line for each row of tubes, where it stands clear of the outlines at 1 : scale."""
    rows: dict[tuple[float, float, int], _Row] = {}
    every = lines.all
    for piece in book.parts.pieces:
        for side in side_views(book, piece, view):
            if _is_worth(side, lines.lines[piece.id], every, scale):
                row = _row(side)
                known = rows.get(row.key)
                rows[row.key] = row if known is None else replace(known, stretches=known.stretches + row.stretches)
    segments = tuple(s for row in rows.values() for s in row.segments(PAST * scale))
    return (strokes(Pen.CENTRE, segments),) if segments else ()


def _is_worth(side: SideView, own: Floats, every: Floats, scale: int) -> bool:
    """Whether a centre line is long enough, clear of the tube's own outlines, and not one of a hidden tube."""
    if side.length < _LEAST * scale or side.radius < FINEST * scale:
        return False
    return sum(high - low for low, high in seen_stretches(side, own, every)) >= _SEEN_SHARE * side.length


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """A straight line: its direction, how far left of the origin it runs, and the stretches that tubes take of it."""

    way: Point
    offset: float
    stretches: tuple[tuple[float, float], ...]

    @property
    def key(self) -> tuple[float, float, int]:
        """The same for lines that fall on each other."""
        return (round(self.way[0], 5), round(self.way[1], 5), round(self.offset / _SAME))

    def segments(self, past: float) -> list[Segment]:
        """Return the line over its stretches and a little past them; near ones in one stroke [mm]."""
        (x, y), (fx, fy) = self.way, (-self.way[1] * self.offset, self.way[0] * self.offset)
        whole = merged((low - past, high + past) for low, high in self.stretches)
        return [((fx + x * low, fy + y * low), (fx + x * high, fy + y * high)) for low, high in whole]


def _row(side: SideView) -> _Row:
    x, y = side.way
    if (round(x, 6), round(y, 6)) < (0.0, 0.0):
        x, y = -x, -y
    ends = sorted(x * p[0] + y * p[1] for p in (side.start, side.end))
    return _Row(way=(x, y), offset=x * side.start[1] - y * side.start[0], stretches=((ends[0], ends[1]),))
