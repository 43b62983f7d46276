"""The faces of a frame that are made square, and what two measured diagonals say of one."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly.diagonals import covered
from tubeframe.geometry.path import Straight
from tubeframe.geometry.tolerance import LOWER_MM
from tubeframe.geometry.vector import Vec, X, Y

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.joints.joint import Jointed, TubeId
    from tubeframe.parts.piece import Parts, Piece

_UPRIGHT = 0.99
_NEAR = 60.0
"""Tubes of one face lie within this of its plane: rails and posts that a coupler holds apart [mm]."""
_LEAST = 200.0
"""A face lower or narrower than this is not measured [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A point that a tape reaches: on which tube, how far from its end A [mm], and where [mm]."""

    tube: TubeId
    from_a: float
    at: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A rectangle between two parallel tubes, as one faces it from outside; the floor as seen from above.

    Corners: lower left, upper left, upper right, lower right; on the floor front left, back left, back right, front
    right. All are on the middles of tubes: the same edge on both tubes gives the same numbers.
    """

    name: str
    corners: tuple[Corner, Corner, Corner, Corner]

    @property
    def width(self) -> float:
        """Distance of the two tubes [mm]."""
        return self.corners[0].at.distance(self.corners[3].at)

    @property
    def height(self) -> float:
        """Length of the rectangle along the tubes [mm]."""
        return self.corners[0].at.distance(self.corners[1].at)

    @property
    def diagonal(self) -> float:
        """Both diagonals of the true rectangle [mm]."""
        return math.hypot(self.width, self.height)


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """How far the upper edge is off to the right [mm] (to the left below 0), and what both diagonals read when true.

    `off_size` is how much longer or shorter the two are, taken together, than those of the designed rectangle [mm].
    """

    to_right: float
    aim: float
    off_size: float


def push_of(width: float, height: float, rising: float, falling: float) -> Push:
    """Work out of two diagonals how a face leans.

    Args:
        width: distance of the two sides [mm].
        height: their length [mm].
        rising: the diagonal from lower left to upper right [mm].
        falling: the diagonal from upper left to lower right [mm].

    A parallelogram of sides w and h whose top is s to the right: rising^2 = (w + s)^2 + h'^2 and falling^2 =
    (w - s)^2 + h'^2 with h'^2 + s^2 = h^2. So s = (rising^2 - falling^2) / (4 w), and the mean of the squares is
    w^2 + h^2, whatever the lean.

    """
    aim = math.sqrt((rising * rising + falling * falling) / 2.0)
    lean = (rising * rising - falling * falling) / (4.0 * width)
    return Push(to_right=lean, aim=aim, off_size=aim - math.hypot(width, height))


def faces_of(parts: Parts, jointed: Jointed) -> tuple[Face, ...]:
    """Return the faces that can be measured: the floor, then front, back, left and right."""
    lines = [line for p in parts.pieces for line in _upright(p, jointed)]
    views = (("front", Y, X), ("back", -Y, -X), ("left", X, -Y), ("right", -X, Y))
    found = [face for name, depth, right in views if (face := _face(name, lines, depth, right))]
    floor = _floor(parts)
    return (*([floor] if floor else []), *found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """The part of an upright tube that a tape reaches."""

    low: Corner
    high: Corner

    def at(self, height: float) -> Corner:
        """Return the point at a height [mm]."""
        up = height - self.low.at.z
        rate = 1.0 if self.high.from_a > self.low.from_a else -1.0
        along = (self.high.at - self.low.at).unit
        point = self.low.at + along * (up / along.z)
        return Corner(tube=self.low.tube, from_a=self.low.from_a + rate * up / along.z, at=point)


def _upright(piece: Piece, jointed: Jointed) -> Iterator[_Line]:
    """Give the first upright straight of a tube, clear of what covers its ends."""
    start, end = covered(piece, jointed)
    for at, part in piece.path.stretches():
        if not isinstance(part, Straight) or abs(part.end_tangents[0].z) < _UPRIGHT:
            continue
        low, high = max(at, start), min(at + part.length, piece.cut_length - end)
        if high - low > _LEAST:
            ends = [Corner(tube=piece.id, from_a=a, at=piece.path.point(a)) for a in (low, high)]
            ends.sort(key=lambda c: c.at.z)
            yield _Line(low=ends[0], high=ends[1])
        return


def _face(name: str, lines: Sequence[_Line], depth: Vec, right: Vec) -> Face | None:
    """Return the face between the outermost upright tubes that are nearest to one side."""
    if not lines:
        return None
    nearest = min(line.low.at.dot(depth) for line in lines)
    here = [line for line in lines if line.low.at.dot(depth) < nearest + _NEAR]
    places = [line.low.at.dot(right) for line in here]
    lefts = [line for line, at in zip(here, places, strict=True) if at < min(places) + LOWER_MM]
    rights = [line for line, at in zip(here, places, strict=True) if at > max(places) - LOWER_MM]
    pairs = [
        (min(a.high.at.z, b.high.at.z) - max(a.low.at.z, b.low.at.z), a, b)
        for a in lefts
        for b in rights
        if abs(a.low.at.dot(depth) - b.low.at.dot(depth)) < LOWER_MM
    ]
    if not pairs or max(places) - min(places) < _LEAST:
        return None
    tall, a, b = max(pairs, key=lambda pair: round(pair[0], 3))
    if tall < _LEAST:
        return None
    low, high = max(a.low.at.z, b.low.at.z), min(a.high.at.z, b.high.at.z)
    return Face(name=name, corners=(a.at(low), a.at(high), b.at(high), b.at(low)))


def _floor(parts: Parts) -> Face | None:
    """Return the rectangle of the outermost feet, where four stand on its corners."""
    ends = [(p, at, p.path.point(at)) for p in parts.pieces for at in (0.0, p.cut_length)]
    lowest = min(point.z for _, _, point in ends)
    feet = [Corner(tube=p.id, from_a=at, at=point) for p, at, point in ends if point.z < lowest + LOWER_MM]
    xs, ys = [f.at.x for f in feet], [f.at.y for f in feet]
    wanted = ((min(xs), min(ys)), (min(xs), max(ys)), (max(xs), max(ys)), (max(xs), min(ys)))
    found = [
        next((f for f in feet if abs(f.at.x - x) < LOWER_MM and abs(f.at.y - y) < LOWER_MM), None) for x, y in wanted
    ]
    a, b, c, d = found
    if a is None or b is None or c is None or d is None or min(max(xs) - min(xs), max(ys) - min(ys)) < _LEAST:
        return None
    return Face(name="floor", corners=(a, b, c, d))
