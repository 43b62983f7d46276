"""What can be said of a frame before any fitting is chosen."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, FrameError, Problem, Severity
from tubeframe.geometry.path import Straight
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.geometry.vector import Vec

_SLOPE = 0.2
"""A tube braces a direction when it leans by at least this share both along it and upright."""


def audit(frame: Frame) -> Frame:
    """Add findings on bracing.

    Raises:
        FrameError: when there is no tube at all.

    """
    if not frame.members:
        raise FrameError(Problem(where=frame.name, key="members", message="there is no tube", remedy="add one"))
    return replace(frame, findings=frame.findings + _bracing(frame))


def _bracing(frame: Frame) -> tuple[Finding, ...]:
    words = {frame.length_along.value: "lengthwise"}
    loose = [
        words.get(name, "sideways")
        for name, axis in (("x", X), ("y", Y))
        if not any(_braces(m, axis) for m in frame.members)
    ]
    if not loose:
        return ()
    return (
        Finding(
            code="F-bracing",
            severity=Severity.WARNING,
            where=frame.name,
            message=f"nothing leans against a push {' or '.join(loose)}: clamps alone will let it sway",
            remedy="add knees or a diagonal, screw on a stiff board, or fix it to a wall",
        ),
    )


def _braces(member: Member, axis: Vec) -> bool:
    """Whether a tube leans in the upright plane of an axis, or is bent in it."""
    for piece in member.path.pieces:
        way = (piece.end - piece.start).unit
        leans = abs(way.dot(axis)) > _SLOPE and abs(way.dot(Z)) > _SLOPE
        if leans and (isinstance(piece, Straight) or abs(piece.axis.dot(axis)) < _SLOPE):
            return True
    return False
