"""Where the leader of a balloon may end: places inside what is seen of a part."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from tubeframe.drawing.views.side_views import LinesAlong, seen_stretches, side_views
from tubeframe.geometry.extent import of_convex

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Point
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.drawing.views.view_lines import ViewLines

_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)
_LEAST_STRETCH = 3.0
"""A shorter stretch of a tube is no place for a leader's end [mm on paper]."""
_INTO_BOARD = 3.0
"""A leader ends so far inside a board's edge, or at the middle of a thinner one [mm on paper]."""
_CROWDED = 1.3
"""Lines of other parts nearer than this make a place hard to tell [mm on paper]."""
_TRIED, _MOST = 60, 20
"""So many places at most are looked at for a mark, and so many of them tried."""
_ON_EDGE = 1e-3
Thing = TypeVar("Thing")


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """A place inside a part that is seen there [mm], and how many lines of other parts are near."""

    at: Point
    crowd: int = 0


def tube_targets(book: PartBook, view: View, lines: ViewLines, ids: Sequence[str], scale: int) -> tuple[Target, ...]:
    """Return places on the middle of tubes, where both their outlines are seen."""
    wanted, every = set(ids), lines.along
    points: list[Point] = []
    for piece in _some([p for p in book.parts.pieces if p.id in wanted]):
        own = LinesAlong(lines.lines[piece.id])
        for side in side_views(book, piece, view):
            for low, high in seen_stretches(side, own, every):
                if high - low >= _LEAST_STRETCH * scale:
                    points += [side.at((low + (high - low) * s) / side.length) for s in _SHARES]
    return _targets(points, lines, wanted, scale) or _on_outlines(lines, ids)


def panel_targets(book: PartBook, view: View, lines: ViewLines, ids: Sequence[str], scale: int) -> tuple[Target, ...]:
    """Return places a little inside the edges that are seen of boards."""
    wanted = set(ids)
    points: list[Point] = []
    for panel in book.boards:
        if panel.id in wanted:
            box = of_convex(panel.box)
            corners = np.array([view.project(box.low), view.project(box.high)])
            points += _inside(lines.lines[panel.id], corners, _INTO_BOARD * scale)
    return _targets(points, lines, wanted, scale) or _on_outlines(lines, ids)


def _inside(edges: Floats, corners: Floats, depth: float) -> list[Point]:
    """Return places inside edges (n, 2, 2) of the rectangle between two corners (2, 2) [mm]."""
    middle, half = corners.mean(axis=0), np.abs(corners[1] - corners[0]) / 2.0
    found: list[Point] = []
    for start, end in edges:
        for share in _SHARES:
            point = start + (end - start) * share
            on_edge = np.abs(np.abs(point - middle) - half) < _ON_EDGE
            x, y = (point + np.sign(middle - point) * np.minimum(half, depth) * on_edge).tolist()
            found.append((x, y))
    return found


def _targets(points: Sequence[Point], lines: ViewLines, ids: Collection[str], scale: int) -> tuple[Target, ...]:
    """Return the least crowded of some places."""
    others = [v for key, v in lines.lines.items() if key not in ids and len(v)]
    near = np.concatenate(others) if others else np.zeros((0, 2, 2))
    found = [Target(at=p, crowd=int((distances(p, near) < _CROWDED * scale).sum())) for p in _some(points)]
    return tuple(sorted(found, key=lambda t: t.crowd)[:_MOST])


def _some(many: Sequence[Thing]) -> Sequence[Thing]:
    """Return some of many, evenly spread: a leader may end on any of equal parts."""
    step = max(1, math.ceil(len(many) / _TRIED))
    return many[::step]


def _on_outlines(lines: ViewLines, ids: Sequence[str]) -> tuple[Target, ...]:
    """Return the middle of the longest line that is seen of a part, the highest of equal ones."""
    found = [v for i in ids if len(v := lines.lines[i])]
    if not found:
        return ()
    edges = np.concatenate(found)
    lengths = np.linalg.norm(edges[:, 1] - edges[:, 0], axis=1).round(1)
    middles = edges.mean(axis=1)
    x, y = middles[int(np.lexsort((middles[:, 0], -middles[:, 1], -lengths))[0])].tolist()
    return (Target(at=(x, y)),)


def distances(point: Point, lines: Floats) -> Floats:
    """Return how far a point is from each of some lines (n, 2, 2), as (n,) [mm]."""
    start, way = lines[:, 0], lines[:, 1] - lines[:, 0]
    off = np.array(point) - start
    squares = (way * way).sum(axis=1)
    share = np.where(squares > 0.0, (off * way).sum(axis=1) / np.where(squares > 0.0, squares, 1.0), 0.0)
    nearest = off - way * share.clip(0.0, 1.0)[:, None]
    gaps: Floats = np.hypot(nearest[:, 0], nearest[:, 1])
    return gaps
