"""The upright box around things."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.convex import Convex, Cylinder
from tubeframe.geometry.path import Arc, Path
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from tubeframe.geometry.path import PathPiece


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """Least and greatest coordinates [mm]."""

    low: Vec
    high: Vec

    @property
    def size(self) -> Vec:
        """Edge lengths [mm]."""
        return self.high - self.low

    @property
    def centre(self) -> Vec:
        """Its middle [mm]."""
        return (self.low + self.high) * 0.5

    def grown(self, by: float) -> Extent:
        """Return the box that is larger all round [mm]."""
        more = Vec(by, by, by)
        return Extent(low=self.low - more, high=self.high + more)


def around_points(points: Iterable[Vec]) -> Extent:
    """Return the box around at least one point."""
    found = tuple(points)
    xs, ys, zs = [p.x for p in found], [p.y for p in found], [p.z for p in found]
    return Extent(low=Vec(min(xs), min(ys), min(zs)), high=Vec(max(xs), max(ys), max(zs)))


def joined(extents: Iterable[Extent]) -> Extent:
    """Return the box around at least one box."""
    return around_points(p for e in extents for p in (e.low, e.high))


def of_convex(piece: Convex) -> Extent:
    """Return the exact box around a convex piece: a cap of normal n spans r sqrt(1 - n_i^2) along axis i."""
    if isinstance(piece, Cylinder):
        return _of_disks((piece.start, piece.end), (piece.end - piece.start).unit, piece.radius)
    half = Vec(*(sum(abs(h[i]) for h in map(tuple, (piece.half_x, piece.half_y, piece.half_z))) for i in range(3)))
    return Extent(low=piece.centre - half, high=piece.centre + half)


def of_tube(path: Path, outside: float) -> Extent:
    """Return the exact box around a tube of an outside diameter [mm] along a centreline."""
    radius = outside / 2.0
    boxes: list[Extent] = []
    for piece in path.pieces:
        ends = (piece.start, piece.end)
        boxes.extend(_of_disks((p,), t, radius) for p, t in zip(ends, piece.end_tangents, strict=True))
        if isinstance(piece, Arc):
            boxes.extend(_crests(piece, radius))
    return joined(boxes)


def along_tube(path: Path, outside: float, width: float) -> tuple[Extent, ...]:
    """Return boxes that follow a tube: slanting straights and bends in parts of at most a width across [mm]."""
    return tuple(of_tube(Path(pieces=(part,)), outside) for piece in path.pieces for part in _parts(piece, width))


def _parts(piece: PathPiece, width: float) -> Iterator[PathPiece]:
    """Cut a piece so that only one edge of each part's box is longer than a width [mm]."""
    across = piece.length if isinstance(piece, Arc) else sorted(abs(v) for v in piece.end - piece.start)[1]
    number = max(1, math.ceil(across / width))
    step = piece.length / number
    if number == 1:
        yield piece
    else:
        yield from (piece.part(n * step, (n + 1) * step) for n in range(number))


def _of_disks(centres: Iterable[Vec], normal: Vec, radius: float) -> Extent:
    reach = Vec(*(radius * math.sqrt(max(0.0, 1.0 - n * n)) for n in normal))
    return around_points(p for c in centres for p in (c - reach, c + reach))


def _crests(arc: Arc, radius: float) -> list[Extent]:
    """Boxes around the points of an arc where a coordinate turns back."""
    found = []
    for axis in range(3):
        along, inward = tuple(arc.start_tangent)[axis], tuple(arc.inward)[axis]
        for angle in (math.atan2(along, -inward), math.atan2(-along, inward)):
            turn = angle % (2.0 * math.pi)
            if 0.0 < turn < arc.angle:
                at = arc.radius * turn
                found.append(_of_disks((arc.point(at),), arc.tangent(at), radius))
    return found
