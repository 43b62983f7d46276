"""Where two centrelines come nearest to each other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.path import Straight
from tubeframe.geometry.tolerance import TINY

if TYPE_CHECKING:
    from tubeframe.geometry.path import Path, PathPiece
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Approach:
    """The nearest points of two centrelines: distances along each and between them [mm]."""

    at_first: float
    at_second: float
    distance: float


def approaches(first: Path, second: Path, within: float) -> tuple[Approach, ...]:
    """Return every pair of straights of two centrelines that come within a distance [mm], nearest points each.

    Bends are left out: no fitting sits on a bend.
    """
    found = []
    for a0, a in first.stretches():
        if not isinstance(a, Straight):
            continue
        for b0, b in second.stretches():
            if not isinstance(b, Straight):
                continue
            s, t, gap = segments(a.start, a.end, b.start, b.end)
            if gap <= within:
                found.append(Approach(at_first=a0 + s, at_second=b0 + t, distance=gap))
    return tuple(found)


def nearest_on(path: Path, point: Vec) -> tuple[float, float]:
    """Return the distance along a centreline of its straights' nearest place to a point, and the gap there [mm]."""
    best = (0.0, float("inf"))
    for begin, piece in path.stretches():
        if isinstance(piece, Straight):
            way = piece.end_tangents[0]
            along = min(piece.length, max(0.0, (point - piece.start).dot(way)))
            gap = piece.point(along).distance(point)
            if gap < best[1]:
                best = (begin + along, gap)
    return best


def gap_to(path: Path, point: Vec) -> float:
    """Return the distance of a point from a centreline, its bends too [mm]."""
    return min(_gap(piece, point) for piece in path.pieces)


def _gap(piece: PathPiece, point: Vec) -> float:
    if isinstance(piece, Straight):
        along = min(piece.length, max(0.0, (point - piece.start).dot(piece.end_tangents[0])))
        return piece.point(along).distance(point)
    out = (point - piece.centre).across(piece.axis)
    turn = math.atan2(out.dot(piece.start_tangent), -out.dot(piece.inward)) % (2.0 * math.pi)
    ends = min(piece.start.distance(point), piece.end.distance(point))
    return min(ends, piece.point(turn * piece.radius).distance(point)) if turn <= piece.angle else ends


def segments(a: Vec, b: Vec, c: Vec, d: Vec) -> tuple[float, float, float]:
    """Return distances along a-b and c-d of their nearest points, and the gap between those [mm].

    After V. Lumelsky, On fast computation of distance between line segments, Inf. Proc. Letters 21 (1985) 55-61;
    from memory.
    """
    u, v, w = b - a, d - c, a - c
    uu, uv, vv = u.dot(u), u.dot(v), v.dot(v)
    det = uu * vv - uv * uv
    s = _clip((uv * v.dot(w) - vv * u.dot(w)) / det) if det > TINY * uu * vv else 0.0
    t = (uv * s + v.dot(w)) / vv
    if not 0.0 <= t <= 1.0:
        t = _clip(t)
        s = _clip((uv * t - u.dot(w)) / uu)
    gap = (a + u * s).distance(c + v * t)
    return s * u.length, t * v.length, gap


def _clip(value: float) -> float:
    return min(1.0, max(0.0, value))
