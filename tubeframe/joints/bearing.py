"""What carries a board: the stretches of tubes that touch its underside."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.extent import of_convex
from tubeframe.geometry.grid import Grid
from tubeframe.geometry.path import Straight
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.tolerance import ANGLE_DEG, PLANE_MM, TINY
from tubeframe.geometry.vector import Vec
from tubeframe.joints.joint import Bearing
from tubeframe.joints.things import board_bricks

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.panel import Panel
    from tubeframe.geometry.extent import Extent
    from tubeframe.geometry.path import Path
    from tubeframe.joints.joint import Tube, UsesByTube
    from tubeframe.joints.things import Things

_UPRIGHT = 0.99
"""Least cosine of a tube's end to a board that it stands under."""

_CAP = 25.0
"""More than a cap is thick [mm]."""
_LEVEL = math.sin(math.radians(ANGLE_DEG))
"""Greatest sine of a tube's slope against a board that it carries along a stretch."""

Span = tuple[float, float]
"""Two shares of a way from one point to another, 0 at its start and 1 at its end."""


def bearings(frame: Frame, tubes: Sequence[Tube], things: Things, uses: UsesByTube) -> tuple[Bearing, ...]:
    """Return which tubes carry which boards, and where: directly, then through boards that others lie on."""
    grid = Grid(t.hull for t in things.tubes)
    direct: dict[str, list[Bearing]] = {}
    for panel, board in zip(frame.panels, things.boards, strict=True):
        near = grid.near(board.hull, _CAP)
        found = [b for k in near for b in (*_along(panel, tubes[k], things, k, uses), *_ends(panel, tubes[k], uses))]
        direct[panel.id] = found
    path_of = {t.id: t.path for t in tubes}
    whole: dict[str, list[Bearing]] = {}
    for panel in _from_below(frame.panels):
        lower = [p for p in frame.panels if p.id in whole and _lies_on(panel, p)]
        through = [b for p in lower for under in whole[p.id] for b in _carried_on(panel, p, under, path_of[under.tube])]
        whole[panel.id] = direct[panel.id] + through
    return tuple(b for p in frame.panels for b in whole[p.id])


def under(panel: Panel, tubes: Sequence[Tube], things: Things) -> tuple[str | None, float]:
    """Return the tube that is the nearest under a board's outline, and how far its top is below [mm]."""
    best: tuple[str | None, float] = (None, math.inf)
    for tube, cut, outside in zip(tubes, things.cuts, things.outsides, strict=True):
        for piece in cut.pieces:
            a, b = (_local(panel, p) for p in (piece.start, piece.end))
            span = _over(a, b, (0.0, panel.length), (0.0, panel.width))
            gap = -max(_between(a, b, share).z for share in span) - outside / 2.0 if span else math.inf
            if 0.0 < gap < best[1]:
                best = (tube.id, gap)
    return best if best[0] else (None, 0.0)


def _along(panel: Panel, tube: Tube, things: Things, number: int, uses: UsesByTube) -> Iterator[Bearing]:
    """Give the stretches of a tube that touch a board's underside; in a pocket, its bottom."""
    offset = next((j.taken_off(u, tube.end_a) for j, u in uses.get(tube.id, ()) if u.end is TubeEnd.A), 0.0)
    own = replace(panel, placement=Placement())
    bricks = [of_convex(brick) for brick in board_bricks(own)]
    for at, piece in things.cuts[number].stretches():
        if not isinstance(piece, Straight) or abs(piece.end_tangents[0].dot(panel.placement.z)) > _LEVEL:
            continue
        top = Vec(0.0, 0.0, things.outsides[number] / 2.0)
        a, b = (_local(panel, p) + top for p in (piece.start, piece.end))
        spans = [_touching(a, b, brick) for brick in bricks]
        for low, high in _joined(sorted(s for s in spans if s)):
            if (high - low) * piece.length > PLANE_MM:
                start = offset + at
                yield Bearing(
                    board=panel.id, tube=tube.id, start=start + low * piece.length, end=start + high * piece.length
                )


def _touching(a: Vec, b: Vec, brick: Extent) -> Span | None:
    """Return the part of a tube's top line that touches a brick's underside."""
    span = _over(a, b, (brick.low.x, brick.high.x), (brick.low.y, brick.high.y))
    level = brick.low.z
    return _within(span, a.z, b.z, (level - PLANE_MM, level + PLANE_MM)) if span else None


def _ends(panel: Panel, tube: Tube, uses: UsesByTube) -> Iterator[Bearing]:
    """Give the free ends of a tube that stand under a board, on caps or without."""
    caps = {u.end: j.fitting.thickness for j, u in uses.get(tube.id, ()) if u.role is PortRole.END and j.fitting}
    length = tube.path.length
    for end, kind, at in ((TubeEnd.A, tube.end_a, 0.0), (TubeEnd.B, tube.end_b, length)):
        if kind not in {EndKind.CAP, EndKind.OPEN}:
            continue
        out = tube.path.tangent(at) * (1.0 if end is TubeEnd.B else -1.0)
        tip = _local(panel, tube.path.point(at) + out * caps.get(end, 0.0))
        inside = 0.0 <= tip.x <= panel.length and 0.0 <= tip.y <= panel.width
        if inside and abs(tip.z) <= PLANE_MM and out.dot(panel.placement.z) >= _UPRIGHT:
            yield Bearing(board=panel.id, tube=tube.id, start=at, end=at)


def _lies_on(upper: Panel, lower: Panel) -> bool:
    """Whether a board's underside is on another's top."""
    up = upper.placement.z
    corner = upper.placement.seen(lower.placement.point(Vec(0.0, 0.0, lower.thickness)) - upper.placement.origin)
    return upper.id != lower.id and up.dot(lower.placement.z) >= 1.0 - TINY and abs(corner.z) <= PLANE_MM


def _from_below(panels: Sequence[Panel]) -> list[Panel]:
    """Sort boards so that each comes after those that it may lie on."""
    done: list[Panel] = []
    waiting = list(panels)
    while waiting:
        free = [p for p in waiting if not any(_lies_on(p, q) for q in waiting)]
        done += free or waiting
        waiting = [p for p in waiting if p not in done]
    return done


def _carried_on(upper: Panel, lower: Panel, bearing: Bearing, path: Path) -> Iterator[Bearing]:
    """Give what an upper board gets of a lower one's bearing: the part within its outline."""
    a, b = (_local(upper, path.point(at)) for at in (bearing.start, bearing.end))
    span = _over(a, b, (0.0, upper.length), (0.0, upper.width))
    if span:
        length = bearing.end - bearing.start
        start, end = (bearing.start + share * length for share in span)
        yield replace(bearing, board=upper.id, start=start, end=end, through=lower.id)


def _local(panel: Panel, point: Vec) -> Vec:
    return panel.placement.seen(point - panel.placement.origin)


def _between(a: Vec, b: Vec, share: float) -> Vec:
    return a + (b - a) * share


def _over(a: Vec, b: Vec, x: Span, y: Span) -> Span | None:
    """Return the part of a way that is over a rectangle, whose edge carries too."""
    span = _within((0.0, 1.0), a.x, b.x, (x[0] - PLANE_MM, x[1] + PLANE_MM))
    return _within(span, a.y, b.y, (y[0] - PLANE_MM, y[1] + PLANE_MM)) if span else None


def _within(span: Span, start: float, end: float, limits: Span) -> Span | None:
    """Return the part of a span in which a value that runs evenly from one to another keeps two limits."""
    low, high = span
    rate = end - start
    if abs(rate) <= TINY:
        return span if limits[0] <= start <= limits[1] else None
    first, last = sorted((limit - start) / rate for limit in limits)
    low, high = max(low, first), min(high, last)
    return (low, high) if low <= high else None


def _joined(spans: Sequence[Span]) -> list[Span]:
    """Join sorted spans that touch."""
    found: list[Span] = []
    for low, high in spans:
        if found and low <= found[-1][1] + TINY:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found
