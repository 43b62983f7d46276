"""What a key or a clamp can run into: tubes, fittings, boards, walls and the floor, each convex."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.geometry.convex import Box, Cylinder
from tubeframe.geometry.path import Arc
from tubeframe.geometry.vector import ORIGIN, Vec, Z

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.convex import Convex
    from tubeframe.geometry.path import PathPiece
    from tubeframe.joints.joint import Joint, JointId, Tube

_CHORD = math.radians(15.0)

Owner = tuple["JointId", str] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A round bar between two points, rounded at its ends [mm]; `owner` is the fitting's port that it is part of."""

    start: Vec
    end: Vec
    radius: float
    owner: Owner = None
    is_fixed: bool = False

    def distance(self, point: Vec) -> float:
        """Return a point's distance from its surface [mm], under 0 inside."""
        way = self.end - self.start
        along = min(1.0, max(0.0, (point - self.start).dot(way) / way.dot(way)))
        return point.distance(self.start + way * along) - self.radius

    def is_near(self, point: Vec, reach: float) -> bool:
        """Whether it comes within a reach of a point [mm]."""
        return self.distance(point) <= reach


@dataclass(frozen=True, slots=True, kw_only=True)
class Brick:
    """A brick [mm]."""

    box: Box
    owner: Owner = None
    is_fixed: bool = False

    def distance(self, point: Vec) -> float:
        """Return a point's distance from it [mm], 0 inside."""
        off, total = point - self.box.centre, 0.0
        for half in (self.box.half_x, self.box.half_y, self.box.half_z):
            length = half.length
            beyond = abs(off.dot(half)) / length - length
            total += max(0.0, beyond) ** 2
        return math.sqrt(total)

    def is_near(self, point: Vec, reach: float) -> bool:
        """Whether it comes within a reach of a point [mm]."""
        return self.distance(point) <= reach


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A wall or the floor: everything behind a plane."""

    at: Vec
    toward: Vec
    owner: Owner = None
    is_fixed: bool = True

    def distance(self, point: Vec) -> float:
        """Return a point's distance before it [mm], 0 or under behind."""
        return (point - self.at).dot(self.toward)

    def is_near(self, point: Vec, reach: float) -> bool:
        """Whether it comes within a reach of a point [mm]."""
        return self.distance(point) <= reach


Obstacle = Bar | Brick | Face


def standing_obstacles(frame: Frame, tubes: Sequence[Tube], workshop: Workshop) -> tuple[Obstacle, ...]:
    """List the floor, walls, boards and tubes."""
    found: list[Obstacle] = [Face(at=ORIGIN, toward=Z)]
    found += [Face(at=w.at, toward=w.toward) for w in frame.walls]
    found += [Brick(box=p.box, is_fixed=True) for p in frame.panels]
    for tube in tubes:
        radius = workshop.catalog.tube(tube.size).outside / 2.0
        found += [Bar(start=a, end=b, radius=radius) for piece in tube.path.pieces for a, b in _chords(piece)]
    return tuple(found)


def obstacles_of(joint: Joint) -> Iterator[Obstacle]:
    """Give a fitting's body; sleeves and ears come in the order of the ports and ears they belong to."""
    fitting = joint.fitting
    if fitting is None:
        return
    ears = iter(fitting.kind.ears)
    ports = iter(fitting.ports)
    for piece in joint.body:
        if isinstance(piece, Box):
            yield Brick(box=piece, owner=(joint.id, next(ears).port))
        else:
            port = next(ports, fitting.ports[0])
            yield _bar(piece, (joint.id, port.name))


def _bar(piece: Convex, owner: Owner) -> Bar:
    assert isinstance(piece, Cylinder)
    return Bar(start=piece.start, end=piece.end, radius=piece.radius, owner=owner)


def _chords(piece: PathPiece) -> Iterator[tuple[Vec, Vec]]:
    """Give a straight as it is, and a bend in chords."""
    number = max(1, math.ceil(piece.angle / _CHORD)) if isinstance(piece, Arc) else 1
    points = [piece.point(piece.length * n / number) for n in range(number + 1)]
    yield from pairwise(points)
