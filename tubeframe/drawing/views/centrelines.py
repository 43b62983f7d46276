"""Centre lines of tubes that are seen from the side."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.views.side_views import SAME, LinesAlong, merged, seen_stretches, side_views
from tubeframe.drawing.views.view_lines import FINEST

if TYPE_CHECKING:
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Point, Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.drawing.views.side_views import SideView
    from tubeframe.drawing.views.view_lines import ViewLines

PAST = 2.0
"""A centre line runs this far past a tube's end [mm on paper] (ISO 128-2: a few mm, from memory)."""
_LEAST = 5.0
"""Shorter ones are not worth drawing [mm on paper]."""
_SEEN_SHARE = 0.5


def centrelines(book: PartBook, view: View, lines: ViewLines, scale: int) -> tuple[Drawn, ...]:
    """Draw one line for each row of tubes, where it stands clear of the outlines at 1 : scale."""
    rows: dict[tuple[float, float, int], _Row] = {}
    every = lines.along
    for piece in book.parts.pieces:
        for side in side_views(book, piece, view):
            if _is_worth(side, LinesAlong(lines.lines[piece.id]), every, scale):
                row = _row(side)
                known = rows.get(row.key)
                rows[row.key] = row if known is None else replace(known, stretches=known.stretches + row.stretches)
    segments = tuple(s for row in rows.values() for s in row.segments(PAST * scale))
    return (strokes(Pen.CENTRE, segments),) if segments else ()


def _is_worth(side: SideView, own: LinesAlong, every: LinesAlong, scale: int) -> bool:
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
        return (round(self.way[0], 5), round(self.way[1], 5), round(self.offset / SAME))

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
