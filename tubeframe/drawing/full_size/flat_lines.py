"""Lines of tubes that lie flat: their middles, and what clamps hide of them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.labels.leader_targets import distances
from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Arc
from tubeframe.drawing.views.side_views import LinesAlong, side_views
from tubeframe.geometry.path import Arc as Bend

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line import BodyLines
    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.drawing.views.side_views import SideView
    from tubeframe.geometry.path import Path
    from tubeframe.parts.piece import Piece

_LEAST = 0.5
_DRAWN = 0.05


def centreline(path: Path, view: View, pen: Pen = Pen.CENTRE) -> list[Drawn]:
    """Draw a centreline that lies in the view's plane."""
    items: list[Drawn] = []
    for part in path.pieces:
        if isinstance(part, Bend):
            items.append(Drawn(shape=_arc(part, view), pen=pen))
        else:
            ends = (view.project(part.start), view.project(part.end))
            items.append(strokes(pen, (ends,)))
    return items


def hidden_lines(book: PartBook, pieces: Sequence[Piece], view: View, seen: Sequence[BodyLines]) -> list[Drawn]:
    """Draw what clamps hide of straight tubes: outlines, and where the cut ends are."""
    every = np.concatenate([v.segments for v in seen])
    along = LinesAlong(every)
    segments: list[Segment] = []
    for piece in pieces:
        sides = side_views(book, piece, view)
        segments += [s for side in sides for sign in (1.0, -1.0) for s in _hidden_outline(side, along, sign)]
        if not isinstance(piece.path.pieces[0], Bend):
            segments += _cut_end(sides[0], 0.0, every)
        if not isinstance(piece.path.pieces[-1], Bend):
            segments += _cut_end(sides[-1], 1.0, every)
    return [strokes(Pen.HIDDEN, tuple(segments))] if segments else []


def _arc(bend: Bend, view: View) -> Arc:
    centre, start, end = (view.project(p) for p in (bend.centre, bend.start, bend.end))
    way = view.project(bend.start_tangent)
    turn = (start[0] - centre[0]) * way[1] - (start[1] - centre[1]) * way[0]
    first, last = (start, end) if turn > 0.0 else (end, start)
    angles = [math.degrees(math.atan2(p[1] - centre[1], p[0] - centre[0])) for p in (first, last)]
    start_deg = angles[0] % 360.0
    return Arc(
        centre=centre,
        radius=bend.radius,
        start_deg=start_deg,
        end_deg=start_deg + (angles[1] - angles[0]) % 360.0,
    )


def _hidden_outline(side: SideView, along: LinesAlong, sign: float) -> list[Segment]:
    """Return the parts of one outline that are not drawn yet."""
    nx, ny = -side.way[1] * side.radius * sign, side.way[0] * side.radius * sign
    found: list[Segment] = []
    at = 0.0
    for low, high in [*along.on_outline(side, sign), (side.length, side.length)]:
        if low - at > _LEAST:
            a, b = side.at(at / side.length), side.at(low / side.length)
            found.append(((a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny)))
        at = max(at, high)
    return found


def _cut_end(side: SideView, share: float, every: Floats) -> list[Segment]:
    """Return the line across a tube's end, unless it is drawn."""
    (x, y), (wx, wy) = side.at(share), side.way
    ends = ((x - wy * side.radius, y + wx * side.radius), (x + wy * side.radius, y - wx * side.radius))
    quarter = ((x - wy * side.radius / 2.0, y + wx * side.radius / 2.0), (x, y))
    is_drawn = all(float(distances(p, every).min()) < _DRAWN for p in quarter)
    return [] if is_drawn else [(ends[0], ends[1])]
