"""What a key or a clamp can run into: tubes, fittings, boards, walls and the floor, each convex."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.geometry.chords import chorded
from tubeframe.geometry.convex import Box, Cylinder
from tubeframe.geometry.extent import around_points, of_convex
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import ORIGIN, Vec, Z

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.extent import Extent
    from tubeframe.joints.joint import Joint, Tube

NEVER = math.inf
"""How far a bar goes that touches nothing [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A round bar between two points, rounded at its ends [mm]."""

    start: Vec
    end: Vec
    radius: float

    @property
    def box(self) -> Extent:
        """The upright box around it."""
        return around_points((self.start, self.end)).grown(self.radius)

    def free(self, start: Vec, way: Vec, radius: float) -> float:
        """Return how far a ball of a radius goes from a start along a unit vector before it touches [mm].

        A ray against a bar that is thicker by the ball's radius: a quadratic for the round, one for the nearer cap.
        """
        thick = (self.radius + radius) ** 2
        ax, ay, az = self.end.x - self.start.x, self.end.y - self.start.y, self.end.z - self.start.z
        mx, my, mz = start.x - self.start.x, start.y - self.start.y, start.z - self.start.z
        aa = ax * ax + ay * ay + az * az
        aw = ax * way.x + ay * way.y + az * way.z
        am = ax * mx + ay * my + az * mz
        mw = mx * way.x + my * way.y + mz * way.z
        mm = mx * mx + my * my + mz * mz
        square, half, rest = aa - aw * aw, aa * mw - aw * am, aa * (mm - thick) - am * am
        root = half * half - square * rest
        if root <= 0.0 and square > TINY * aa:
            return NEVER
        if square > TINY * aa:
            first = (-half - math.sqrt(root)) / square
            place = am + first * aw
        else:
            first, place = 0.0, math.copysign(math.inf, -aw)
        if not 0.0 < place < aa:
            if place >= aa:
                mw, mm = mw - aw, mm - 2.0 * am + aa
            root = mw * mw - mm + thick
            if root <= 0.0:
                return NEVER
            first = -mw - math.sqrt(root)
        if first >= 0.0:
            return first
        return 0.0 if self._distance(start) < radius - TINY else NEVER

    def _distance(self, point: Vec) -> float:
        along = self.end - self.start
        share = min(1.0, max(0.0, (point - self.start).dot(along) / along.dot(along)))
        return point.distance(self.start + along * share) - self.radius


@dataclass(frozen=True, slots=True, kw_only=True)
class Drum:
    """A round bar with flat ends [mm]."""

    start: Vec
    end: Vec
    radius: float

    @property
    def box(self) -> Extent:
        """The upright box around it."""
        return of_convex(Cylinder(start=self.start, end=self.end, radius=self.radius))

    def free(self, start: Vec, way: Vec, radius: float) -> float:
        """Return how far a ball of a radius goes from a start along a unit vector before it touches [mm].

        A ray against a drum that is larger by the ball's radius all round; the rim is taken as sharp.
        """
        whole = self.end - self.start
        axis, long = whole.unit, whole.length + 2.0 * radius
        off = start - self.start + axis * radius
        along, rate = off.dot(axis), way.dot(axis)
        ends = _between(along, rate, long)
        square, half = 1.0 - rate * rate, off.dot(way) - along * rate
        rest = off.dot(off) - along * along - (self.radius + radius) ** 2
        root = half * half - square * rest
        if ends is None or (root <= 0.0 if square > TINY else rest >= 0.0):
            return NEVER
        enter, leave = ends
        if square > TINY:
            enter = max(enter, (-half - math.sqrt(root)) / square)
            leave = min(leave, (-half + math.sqrt(root)) / square)
        return NEVER if enter >= leave or leave <= TINY else max(0.0, enter)


def _between(start: float, rate: float, end: float) -> tuple[float, float] | None:
    """Return when a place that moves at a rate is between 0 and an end; None when it never is."""
    if abs(rate) <= TINY:
        return (-math.inf, math.inf) if 0.0 < start < end else None
    first, last = sorted((-start / rate, (end - start) / rate))
    return first, last


@dataclass(frozen=True, slots=True, kw_only=True)
class Brick:
    """A brick [mm]."""

    brick: Box

    @property
    def box(self) -> Extent:
        """The upright box around it."""
        return of_convex(self.brick)

    def is_in(self, point: Vec) -> bool:
        """Whether a point is in it."""
        off = point - self.brick.centre
        return all(abs(off.dot(half)) <= half.dot(half) for half in self._halves)

    def free(self, start: Vec, way: Vec, radius: float) -> float:
        """Return how far a ball of a radius goes from a start along a unit vector before it touches [mm].

        Between the places where the ray passes a face's plane, the distance's square is a quadratic.
        """
        off, rows = start - self.brick.centre, []
        for half in self._halves:
            length = half.length
            at, rate = off.dot(half) / length, way.dot(half) / length
            if abs(at) >= length + radius and at * rate >= 0.0:
                return NEVER
            rows.append((at, rate, length))
        if _beyond(rows) < radius * radius:
            return 0.0
        turns = {(side * length - at) / rate for at, rate, length in rows if rate for side in (-1.0, 1.0)}
        places = [0.0, *sorted(t for t in turns if t > 0.0)]
        for low, high in pairwise(places):
            first = _first_touch(rows, (low, high), radius)
            if first is not None:
                return first
        return NEVER

    @property
    def _halves(self) -> tuple[Vec, Vec, Vec]:
        return (self.brick.half_x, self.brick.half_y, self.brick.half_z)


Row = tuple[float, float, float]
"""Along an edge of a brick: where a ray starts, how fast it goes, and half the edge."""


def _beyond(rows: Sequence[Row]) -> float:
    """Return the square of a ray's start's distance from a brick [mm2]."""
    return sum(max(0.0, abs(start) - half) ** 2 for start, _, half in rows)


def _first_touch(rows: Sequence[Row], span: tuple[float, float], radius: float) -> float | None:
    """Return where the distance falls to a radius between two places on a ray; None when it does not."""
    middle = (span[0] + span[1]) / 2.0
    a = b = c = 0.0
    for start, rate, half in rows:
        side = math.copysign(1.0, start + rate * middle)
        over = side * start - half
        if over + side * rate * middle > 0.0:
            a, b, c = a + rate * rate, b + over * side * rate, c + over * over
    root = b * b - a * (c - radius * radius)
    if a <= TINY or root <= 0.0:
        return None
    first = (-b - math.sqrt(root)) / a
    return first if span[0] - TINY <= first <= span[1] + TINY else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A wall or the floor: everything behind a plane."""

    at: Vec
    toward: Vec

    def is_in(self, point: Vec) -> bool:
        """Whether a point is behind it."""
        return (point - self.at).dot(self.toward) <= 0.0

    def free(self, start: Vec, way: Vec, radius: float) -> float:
        """Return how far a ball of a radius goes from a start along a unit vector before it touches [mm]."""
        before, rate = (start - self.at).dot(self.toward) - radius, way.dot(self.toward)
        if before < 0.0:
            return 0.0
        return before / -rate if rate < 0.0 else NEVER


Solid = Bar | Drum | Brick
Obstacle = Solid | Face
Body = tuple[tuple[str, Solid], ...]
"""A fitting's pieces, each with the port that it is part of."""


def faces_of(frame: Frame) -> tuple[Face, ...]:
    """Return the floor and the walls."""
    return (Face(at=ORIGIN, toward=Z), *(Face(at=w.at, toward=w.toward) for w in frame.walls))


def bars_of(tube: Tube, workshop: Workshop) -> Iterator[Bar]:
    """Give a tube in bars, its bends in chords."""
    radius = workshop.catalog.tube(tube.size).outside / 2.0
    return (Bar(start=s.start, end=s.end, radius=radius) for s in chorded(tube.path))


def body_of(joint: Joint) -> Body:
    """Return a fitting's body; sleeves and ears come in the order of the ports and ears they belong to."""
    fitting = joint.fitting
    if fitting is None:
        return ()
    ears, ports = iter(fitting.kind.ears), iter(fitting.ports)
    found: list[tuple[str, Solid]] = []
    for piece in joint.body:
        if isinstance(piece, Cylinder):
            drum = Drum(start=piece.start, end=piece.end, radius=piece.radius)
            found.append((next(ports, fitting.ports[0]).name, drum))
        else:
            found.append((next(ears).port, Brick(brick=piece)))
    return tuple(found)
