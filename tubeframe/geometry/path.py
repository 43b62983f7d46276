"""Centrelines: straights and circular bends, measured along the tube."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import EXACT_MM, TINY

if TYPE_CHECKING:
    from tubeframe.geometry.placement import Placement
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Straight:
    """A straight piece of a centreline [mm]."""

    start: Vec
    end: Vec

    @property
    def length(self) -> float:
        """Length [mm]."""
        return self.start.distance(self.end)

    @property
    def end_tangents(self) -> tuple[Vec, Vec]:
        """Directions of travel at both ends."""
        way = (self.end - self.start).unit
        return (way, way)

    def point(self, at: float) -> Vec:
        """Return the point at a distance from the start [mm]."""
        return self.start + self.end_tangents[0] * at

    def tangent(self, at: float) -> Vec:
        """Return the direction of travel, the same at every distance [mm]."""
        del at
        return self.end_tangents[0]

    def part(self, start: float, end: float) -> Straight:
        """Return what lies between two distances from the start [mm]."""
        return Straight(start=self.point(start), end=self.point(end))

    def seen_from(self, frame: Placement) -> Straight:
        """Return the same piece in the coordinates of a frame."""
        return Straight(start=frame.seen(self.start - frame.origin), end=frame.seen(self.end - frame.origin))

    def reversed(self) -> Straight:
        """Return the same piece run the other way."""
        return Straight(start=self.end, end=self.start)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """A circular bend: start [mm], direction of travel, way to the centre, radius [mm] and angle [radian]."""

    start: Vec
    start_tangent: Vec
    inward: Vec
    radius: float
    angle: float

    @property
    def length(self) -> float:
        """Length along the centreline, radius times angle [mm]."""
        return self.radius * self.angle

    @property
    def centre(self) -> Vec:
        """Centre of the circle [mm]."""
        return self.start + self.inward * self.radius

    @property
    def end(self) -> Vec:
        """Last point [mm]."""
        return self.point(self.length)

    @property
    def axis(self) -> Vec:
        """The axis about which the tube turns, right-hand."""
        return self.start_tangent.cross(self.inward)

    @property
    def end_tangents(self) -> tuple[Vec, Vec]:
        """Directions of travel at both ends."""
        return (self.start_tangent, self.tangent(self.length))

    def point(self, at: float) -> Vec:
        """Return the point at a distance along the arc [mm]."""
        turn = at / self.radius
        return self.centre + (self.start_tangent * math.sin(turn) - self.inward * math.cos(turn)) * self.radius

    def tangent(self, at: float) -> Vec:
        """Return the direction of travel at a distance along the arc [mm]."""
        turn = at / self.radius
        return self.start_tangent * math.cos(turn) + self.inward * math.sin(turn)

    def part(self, start: float, end: float) -> Arc:
        """Return what lies between two distances along the arc [mm]."""
        turn = start / self.radius
        return Arc(
            start=self.point(start),
            start_tangent=self.tangent(start),
            inward=self.inward * math.cos(turn) - self.start_tangent * math.sin(turn),
            radius=self.radius,
            angle=(end - start) / self.radius,
        )

    def seen_from(self, frame: Placement) -> Arc:
        """Return the same bend in the coordinates of a frame."""
        return replace(
            self,
            start=frame.seen(self.start - frame.origin),
            start_tangent=frame.seen(self.start_tangent),
            inward=frame.seen(self.inward),
        )

    def reversed(self) -> Arc:
        """Return the same bend run the other way."""
        return Arc(
            start=self.end,
            start_tangent=-self.tangent(self.length),
            inward=(self.centre - self.end).unit,
            radius=self.radius,
            angle=self.angle,
        )


PathPiece = Straight | Arc


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A centreline: pieces that follow each other with one tangent where they meet."""

    pieces: tuple[PathPiece, ...]

    @property
    def length(self) -> float:
        """Developed length [mm]."""
        return sum(p.length for p in self.pieces)

    @property
    def start(self) -> Vec:
        """First point [mm]."""
        return self.pieces[0].start

    @property
    def end(self) -> Vec:
        """Last point [mm]."""
        return self.pieces[-1].end

    @property
    def bends(self) -> tuple[tuple[float, Arc], ...]:
        """Each bend with the distance of its start from the path's start [mm]."""
        return tuple((at, p) for at, p in self.stretches() if isinstance(p, Arc))

    def stretches(self) -> tuple[tuple[float, PathPiece], ...]:
        """Each piece with the distance of its start from the path's start [mm]."""
        found, at = [], 0.0
        for piece in self.pieces:
            found.append((at, piece))
            at += piece.length
        return tuple(found)

    def point(self, at: float) -> Vec:
        """Return the point at a distance from the start [mm]; the end straights go on past both ends."""
        begin, piece = self._piece_at(at)
        return piece.point(at - begin)

    def tangent(self, at: float) -> Vec:
        """Return the direction of travel at a distance from the start [mm]."""
        begin, piece = self._piece_at(at)
        return piece.tangent(at - begin)

    def part(self, start: float, end: float) -> Path:
        """Return what lies between two distances from the start [mm]; past an end the last straight is drawn out."""
        kept, last = [], len(self.pieces) - 1
        for i, (begin, piece) in enumerate(self.stretches()):
            low = start - begin if i == 0 else max(start - begin, 0.0)
            high = end - begin if i == last else min(end - begin, piece.length)
            if high - low > TINY:
                kept.append(piece.part(low, high))
        return Path(pieces=tuple(kept))

    def seen_from(self, frame: Placement) -> Path:
        """Return the same centreline in the coordinates of a frame."""
        return Path(pieces=tuple(p.seen_from(frame) for p in self.pieces))

    def reversed(self) -> Path:
        """Return the same centreline run the other way."""
        return Path(pieces=tuple(p.reversed() for p in reversed(self.pieces)))

    def _piece_at(self, at: float) -> tuple[float, PathPiece]:
        stretches = self.stretches()
        for begin, piece in stretches:
            if at <= begin + piece.length:
                return begin, piece
        return stretches[-1]


def joined(path: Path) -> Path:
    """Return the same centreline, with arcs that go on round one circle as one."""
    pieces: list[PathPiece] = []
    for piece in path.pieces:
        before = pieces[-1] if pieces else None
        if isinstance(piece, Arc) and isinstance(before, Arc) and before.centre.distance(piece.centre) <= EXACT_MM:
            pieces[-1] = replace(before, angle=before.angle + piece.angle)
        else:
            pieces.append(piece)
    return Path(pieces=tuple(pieces))


def line(start: Vec, end: Vec) -> Path:
    """Return a straight centreline [mm]."""
    return Path(pieces=(Straight(start=start, end=end),))
