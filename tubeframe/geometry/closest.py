"""Where two centrelines come nearest to each other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.path import Straight
from tubeframe.geometry.tolerance import EXACT_MM, TINY, WIDE_ARC_MM

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.geometry.path import Path, PathPiece
    from tubeframe.geometry.vector import Vec

_LOOKS, _STEPS = 8, 200
"""Places that an arc is looked at from, and steps that close in on the nearest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Approach:
    """The nearest points of two centrelines: distances along each and between them [mm]."""

    at_first: float
    at_second: float
    distance: float


def approaches(first: Path, second: Path, within: float) -> tuple[Approach, ...]:
    """Return every pair of pieces of two centrelines that come within a distance [mm], nearest points each.

    Straights and wide arcs are looked at; tighter bends are left out: no fitting sits on them. Where a piece is
    nearest at its end, and what goes on there is as near or nearer, that alone counts.
    """
    one, other = tuple(_held(first)), tuple(_held(second))
    found = {(i, j): _nearest(a, b) for i, (_, a) in enumerate(one) for j, (_, b) in enumerate(other)}
    return tuple(
        Approach(at_first=one[i][0] + s, at_second=other[j][0] + t, distance=gap)
        for (i, j), (s, t, gap) in found.items()
        if gap <= within
        and not any(_comes_before(found.get((k, j)), gap, k < i) for k in _beyond(one, i, s))
        and not any(_comes_before(found.get((i, k)), gap, k < j) for k in _beyond(other, j, t))
    )


def _beyond(pieces: Sequence[tuple[float, PathPiece]], index: int, at: float) -> Iterator[int]:
    """Give the piece that goes on where a place on one is its end; none at a path's end or at a tight bend."""
    _, piece = pieces[index]
    ends = ((at <= EXACT_MM, index - 1, index), (at >= piece.length - EXACT_MM, index + 1, index + 1))
    for is_there, other, after in ends:
        if is_there and 0 <= other < len(pieces):
            start, before = pieces[after - 1]
            if abs(start + before.length - pieces[after][0]) <= EXACT_MM:
                yield other


def _comes_before(other: tuple[float, float, float] | None, gap: float, is_earlier: bool) -> bool:  # noqa: FBT001
    if other is None:
        return False
    return other[2] < gap - EXACT_MM or (other[2] <= gap + EXACT_MM and is_earlier)


def nearest_on(path: Path, point: Vec) -> tuple[float, float]:
    """Return the distance along a centreline of its nearest place to a point, and the gap there [mm].

    Of bends only wide arcs are looked at.
    """
    best = (0.0, float("inf"))
    for begin, piece in _held(path):
        along = _along(piece, point)
        gap = piece.point(along).distance(point)
        if gap < best[1]:
            best = (begin + along, gap)
    return best


def _held(path: Path) -> Iterator[tuple[float, PathPiece]]:
    """Give the pieces that a fitting can sit on: straights, and wide arcs."""
    return ((at, p) for at, p in path.stretches() if isinstance(p, Straight) or p.radius >= WIDE_ARC_MM)


def _nearest(a: PathPiece, b: PathPiece) -> tuple[float, float, float]:
    """Return distances along two pieces of their nearest points, and the gap between those [mm]."""
    if isinstance(a, Straight) and isinstance(b, Straight):
        return segments(a.start, a.end, b.start, b.end)
    return min((_closed_in(a, b, s) for s in _starts(a)), key=lambda found: found[2])


def _starts(piece: PathPiece) -> Iterator[float]:
    """Give places along a piece to look from [mm]: an arc may pass a line twice."""
    return (piece.length * k / _LOOKS for k in range(_LOOKS + 1))


def _closed_in(a: PathPiece, b: PathPiece, s: float) -> tuple[float, float, float]:
    """Go from each piece to the nearest place on the other in turn, until neither moves."""
    t = _along(b, a.point(s))
    for _ in range(_STEPS):
        moved = _along(a, b.point(t))
        t = _along(b, a.point(moved))
        if abs(moved - s) < TINY:
            break
        s = moved
    return s, t, a.point(s).distance(b.point(t))


def _along(piece: PathPiece, point: Vec) -> float:
    """Return how far along a piece it is nearest to a point [mm]."""
    if isinstance(piece, Straight):
        return min(piece.length, max(0.0, (point - piece.start).dot(piece.end_tangents[0])))
    out = (point - piece.centre).across(piece.axis)
    turn = math.atan2(out.dot(piece.start_tangent), -out.dot(piece.inward)) % (2.0 * math.pi)
    if turn <= piece.angle:
        return turn * piece.radius
    return piece.length if turn - piece.angle < 2.0 * math.pi - turn else 0.0


def gap_to(path: Path, point: Vec) -> float:
    """Return the distance of a point from a centreline, its bends too [mm]."""
    return min(_gap(piece, point) for piece in path.pieces)


def _gap(piece: PathPiece, point: Vec) -> float:
    return piece.point(_along(piece, point)).distance(point)


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
