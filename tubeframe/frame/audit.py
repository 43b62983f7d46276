"""What can be said of a frame before any fitting is chosen."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, FrameError, Problem, Severity
from tubeframe.frame.facts import OddScale, Push, Scaled, Unbraced
from tubeframe.frame.group import in_groups
from tubeframe.frame.member import MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.path import Straight
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.geometry.path import PathPiece
    from tubeframe.geometry.vector import Vec

_SLOPE = 0.2
"""A tube braces a direction when it leans by at least this share both along it and upright."""
_FLAT = 150.0
_ENOUGH_FEET = 3
_LONGEST, _SHORTEST, _THICKEST = 15_000.0, 40.0, 150.0
"""Half of a frame's tubes are not longer, or shorter, than that, and no board is larger [mm]. Judgement, no source."""


def audit(frame: Frame) -> Frame:
    """Add findings on scale and bracing.

    Raises:
        FrameError: when there is no tube at all.

    """
    if not frame.members:
        raise FrameError(Problem(where=frame.name, key="members", message="there is no tube", remedy="add one"))
    return replace(frame, findings=frame.findings + _scale(frame) + _bracing(frame))


def _scale(frame: Frame) -> tuple[Finding, ...]:
    """Ask about lengths that are 25 times too large or too small: inches and millimetres mixed up."""
    middle = sorted(m.path.length for m in frame.members)[len(frame.members) // 2]
    thickest = max((p.thickness for p in frame.panels), default=0.0)
    widest = max((max(p.length, p.width) for p in frame.panels), default=0.0)
    signs = {
        Scaled.LONG: (middle, middle > _LONGEST),
        Scaled.SHORT: (middle, middle < _SHORTEST),
        Scaled.BOARD: (thickest if thickest > _THICKEST else widest, thickest > _THICKEST or widest > _LONGEST),
    }
    facts = [OddScale(frame=frame.name, sign=sign, size=size) for sign, (size, odd) in signs.items() if odd]
    return tuple(Finding(code="F-scale", severity=Severity.ERROR, subjects=(), fact=f) for f in facts)


def _bracing(frame: Frame) -> tuple[Finding, ...]:
    """Look for what holds the frame against a push along, across, and a twist seen from above; no door does."""
    names = {frame.length_along.value: Push.LENGTHWISE}
    tied = any(abs(w.toward.z) < _SLOPE for w in frame.walls)
    held = _held_above(frame)
    turning = in_groups(frame.groups)
    fixed = [m for m in frame.members if m.id not in turning]
    against = [
        names.get(name, Push.SIDEWAYS)
        for name, axis in (("x", X), ("y", Y))
        if not tied and name not in held and not any(_braces(m, axis) for m in fixed)
    ]
    if not tied and held != {"x", "y"} and not _keeps_square(frame, fixed):
        against.append(Push.TWIST)
    if not against:
        return ()
    fact = Unbraced(frame=frame.name, against=tuple(against))
    return (Finding(code="F-bracing", severity=Severity.WARNING, subjects=(), fact=fact),)


def _held_above(frame: Frame) -> set[str]:
    """Return the level axes along which ends above the floor are held, such as by ties to a wall."""
    members = {m.id: m for m in frame.members}
    found = set[str]()
    for support in frame.supports:
        path = members[MemberId(support.member)].path
        if (path.start if support.end is TubeEnd.A else path.end).z > _FLAT:
            found.update(set(support.fixes) & {"x", "y"})
    return found


def _held_below(frame: Frame) -> int:
    """Count the feet that something holds from outside, such as a socket or straps on a board."""
    members = {m.id: m for m in frame.members}
    found = 0
    for support in frame.supports:
        member = members[MemberId(support.member)]
        at_a = support.end is TubeEnd.A
        foot, kind = (member.path.start, member.end_a) if at_a else (member.path.end, member.end_b)
        found += foot.z <= _FLAT and not kind.is_anchored and {"x", "y"} <= set(support.fixes)
    return found


def _keeps_square(frame: Frame, fixed: Sequence[Member]) -> bool:
    """Whether the plan keeps its shape: a board, or a diagonal or knee that lies flat, or feet in the ground.

    A frame in one upright plane has no plan to lose.
    """
    grounded = sum(1 for m in frame.members for e in m.ends if e.is_anchored) + _held_below(frame)
    points = [p for m in frame.members for p in (m.path.start, m.path.end)]
    spans = [max(p.dot(a) for p in points) - min(p.dot(a) for p in points) for a in (X, Y)]
    slants = any(
        abs(way.x) > _SLOPE and abs(way.y) > _SLOPE
        for m in fixed
        for piece in m.path.pieces
        if (way := (piece.end - piece.start).unit)
    )
    return min(spans) < _FLAT or bool(frame.panels) or slants or grounded >= _ENOUGH_FEET


def _braces(member: Member, axis: Vec) -> bool:
    """Whether a tube leans in the upright plane of an axis, or is bent in it."""
    for piece in member.path.pieces:
        leans = any(abs(way.dot(axis)) > _SLOPE and abs(way.dot(Z)) > _SLOPE for way in _ways(piece))
        if leans and (isinstance(piece, Straight) or abs(piece.axis.dot(axis)) < _SLOPE):
            return True
    return False


def _ways(piece: PathPiece) -> tuple[Vec, ...]:
    """Return how a piece leans from end to end, and an arc's halves, since one that goes over and down ends level."""
    halves = (
        ()
        if isinstance(piece, Straight)
        else tuple(piece.part(a, a + piece.length / 2.0) for a in (0.0, piece.length / 2.0))
    )
    return tuple((p.end - p.start).unit for p in (piece, *halves))
