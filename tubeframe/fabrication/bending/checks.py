"""What is measured on a tube while it is bent and when it is done, and what a slip would do (all in [mm])."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.flatness import is_flat
from tubeframe.geometry.path import Arc
from tubeframe.geometry.vector import rotated

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.fabrication.bending.marks import BendMark
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec

SLIP_DEG = 10.0
"""How far a bend is taken to be out, to tell what that does [degree]."""


class Measured(StrEnum):
    """What a check is taken of.

    A running check is taken when a bend is made: straight from the rough end that its hook faced to the next mark
    beyond the bend, or to the other end. The others are of the
    piece cut to length: straight from A to B, the farthest of the tube off that line, end B along and off the line of
    end A's straight; and how far end B is out when one bend is, in its angle or in its turn.
    """

    RUNNING = "running"
    CHORD = "chord"
    RISE = "rise"
    ALONG = "along"
    ACROSS = "across"
    ANGLE_SLIP = "angle-slip"
    TURN_SLIP = "turn-slip"


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """A distance that is measured [mm]; the bend after which it is, or that is out."""

    measured: Measured
    distance: float
    bend: int | None = None


def checks(path: Path, marks: Sequence[BendMark], trim_a: float, rough: float) -> tuple[Check, ...]:
    """Return every check of a piece, from its centreline between the cut ends and its marks on the rough tube [mm]."""
    return (*_running(path, marks, trim_a, rough), *finished(path, marks))


def finished(path: Path, marks: Sequence[BendMark]) -> tuple[Check, ...]:
    """Return what is measured of a piece when it is done, and what a slip would do [mm]."""
    chord = Check(measured=Measured.CHORD, distance=path.start.distance(path.end))
    lines = (chord, *_chalk_lines(path)) if is_flat(path) else (chord,)
    return (*lines, *_slips(path, marks))


def _running(path: Path, marks: Sequence[BendMark], trim_a: float, rough: float) -> Iterator[Check]:
    """After each bend, from the rough end that its hook faces to the next mark beyond it, or to the other end.

    As far as that mark the tube is still straight, or bent as it will be.
    """
    bends = path.bends
    beyond = rough - trim_a - path.length
    ends = (path.start - path.tangent(0.0) * trim_a, path.end + bends[-1][1].end_tangents[1] * beyond)
    for n, mark in enumerate(marks):
        bend = bends[n][1]
        if mark.order == n + 1 and mark.hook is TubeEnd.A:
            following = marks[n + 1].at if n + 1 < len(marks) else rough
            reached = bend.end + bend.end_tangents[1] * (following - mark.start - bend.length)
            yield Check(measured=Measured.RUNNING, distance=ends[0].distance(reached), bend=mark.number)
        else:
            before = marks[n - 1].at if n else 0.0
            is_made = n > 0 and marks[n - 1].order < mark.order
            reached = bends[n - 1][1].start if is_made else bend.start - bend.start_tangent * (mark.start - before)
            yield Check(measured=Measured.RUNNING, distance=ends[1].distance(reached), bend=mark.number)


def _chalk_lines(path: Path) -> tuple[Check, ...]:
    """Return where a flat piece lies on the floor: its rise over the chord, and B from the line of A's straight."""
    inward = path.bends[0][1].inward
    way = path.tangent(0.0)
    gap = path.end - path.start
    return (
        Check(measured=Measured.RISE, distance=_rise(path)),
        Check(measured=Measured.ALONG, distance=gap.dot(way)),
        Check(measured=Measured.ACROSS, distance=gap.dot(inward)),
    )


def _rise(path: Path) -> float:
    """Return how far a flat piece's centreline goes off the straight from end to end."""
    normal = path.bends[0][1].axis
    gap = path.end - path.start
    if gap.length < 1.0:
        return max(path.start.distance(p.end) for p in path.pieces)
    out = normal.cross(gap.unit)
    points = [p for piece in path.pieces for p in (piece.start, piece.end)]
    points += [p for piece in path.pieces if isinstance(piece, Arc) for p in _summits(piece, out)]
    return max(abs((p - path.start).dot(out)) for p in points)


def _summits(arc: Arc, out: Vec) -> Iterator[Vec]:
    """Give the points of an arc where it runs square to a direction."""
    turn = math.atan2(-arc.start_tangent.dot(out), arc.inward.dot(out)) % math.pi
    if turn <= arc.angle:
        yield arc.point(turn * arc.radius)


def _slips(path: Path, marks: Sequence[BendMark]) -> tuple[Check, ...]:
    """Say which bend moves end B farthest when it is out by `SLIP_DEG`, in its angle and in its turn."""
    slip, end = math.radians(SLIP_DEG), path.end
    bends = [bend for _, bend in path.bends]
    by_angle = [end.distance(_short(bend, end, min(slip, bend.angle))) for bend in bends]
    by_turn = [end.distance(_turned(bend, end, slip)) for bend in bends]
    found = [(Measured.ANGLE_SLIP, by_angle)]
    found += [(Measured.TURN_SLIP, by_turn)] if len(bends) > 1 else []
    return tuple(
        Check(measured=what, distance=max(moved), bend=marks[moved.index(max(moved))].number) for what, moved in found
    )


def _short(bend: Arc, point: Vec, slip: float) -> Vec:
    """Return where a point beyond a bend goes when the bend stops short by an angle [radian]."""
    shifted = point + bend.end_tangents[1] * (bend.radius * slip)
    return bend.centre + rotated(shifted - bend.centre, bend.axis, -slip)


def _turned(bend: Arc, point: Vec, slip: float) -> Vec:
    """Return where a point beyond a bend goes when the tube was turned too far for it by an angle [radian].

    What follows is turned back: its own marks are on the tube.
    """
    straightened = bend.end + rotated(point - bend.end, bend.end_tangents[1], -slip)
    return bend.start + rotated(straightened - bend.start, bend.start_tangent, slip)
