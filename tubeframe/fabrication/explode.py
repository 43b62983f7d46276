"""How far and which way new parts are drawn off their place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.order import Work
from tubeframe.fabrication.step import Move
from tubeframe.geometry.extent import around_points
from tubeframe.geometry.tolerance import LOWER_MM
from tubeframe.geometry.vector import ORIGIN, Vec, X, Y, Z

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.fabrication.order import Batch
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.joints.joint import Joint, Jointed, Tube, TubeId

_SHARE = 0.12
_LEAST, _MOST = 100.0, 350.0
_ONE_SIDED = 0.5
"""Couplers on both sides of a tube cancel out: below this there is no side that it comes from."""
_FITTING_SHARE = 0.45
"""A fitting is drawn this far along the way of the tubes that it takes, so that both gaps show."""


def moves(batch: Batch, frame: Frame, jointed: Jointed) -> tuple[Move, ...]:
    """Say how each new part of a batch is drawn apart from what stands."""
    distance = _distance(frame)
    if batch.panels:
        return tuple(Move(what=p, direction=Z, distance=distance) for p in batch.panels)
    added = {m.id for m in batch.members}
    tubes = [t for t in jointed.tubes if t.member in added]
    ways = {t.id: _way(t, batch, jointed, frame) for t in tubes}
    made = [
        Move(what=t.id, direction=way.unit, distance=distance * way.length)
        for t in tubes
        if (way := ways[t.id]) != ORIGIN
    ]
    joints = [j for j in jointed.joints if j.id in batch.joints]
    return (*made, *(m for j in joints if (m := _joint_move(j, ways, distance))))


def _distance(frame: Frame) -> float:
    box = around_points(p for m in frame.members for p in (m.path.start, m.path.end))
    return min(_MOST, max(_LEAST, _SHARE * max(box.size)))


def _way(tube: Tube, batch: Batch, jointed: Jointed, frame: Frame) -> Vec:
    if batch.work is Work.FLAT:
        return _way_in_sub_frame(tube, batch, jointed)
    return _off_couplers(tube, jointed) or _way_out(tube, _centre(frame.members))


def _way_in_sub_frame(tube: Tube, batch: Batch, jointed: Jointed) -> Vec:
    """Move a tube out from the middle of its own sub-frame, square to itself where it is straight."""
    own = next(s for s in batch.sub_frames if tube.member in s.members)
    fellows = [t for t in jointed.tubes if t.member in own.members]
    if len(fellows) == 1:
        return ORIGIN
    centre = _centre(fellows)
    if tube.path.bends or not any(t.path.bends for t in fellows):
        return _way_out(tube, centre)
    # a straight leg in line with a bent piece goes with it, and off it along itself
    along = (tube.path.end - tube.path.start).unit
    off = (tube.path.start + tube.path.end) * 0.5 - centre
    return _way_out(tube, centre) + along * (0.8 if off.dot(along) > 0.0 else -0.8)


def _way_out(tube: Tube, centre: Vec) -> Vec:
    """Return the axis, square to a straight tube, along which it lies farthest from a centre; upward in doubt."""
    middle = (tube.path.start + tube.path.end) * 0.5
    off = middle - centre
    along = (tube.path.end - tube.path.start).unit
    axes = [a for a in (X, Y, Z) if tube.path.bends or abs(along.dot(a)) < 0.5]
    best = max(axes, key=lambda a: abs(off.dot(a)))
    if abs(off.dot(best)) < LOWER_MM:
        return Z
    if best is Z and off.dot(Z) < 0.0 and not tube.path.bends:
        return Z
    return best if off.dot(best) > 0.0 else -best


def _off_couplers(tube: Tube, jointed: Jointed) -> Vec | None:
    """Move a tube away from those it is coupled to: that is where it comes from."""
    ups = [u.up for j in jointed.joints if j.fitting and j.fitting.kind.is_coupler for u in j.uses if u.tube == tube.id]
    total = sum(ups, ORIGIN)
    return -total.unit if total.length > _ONE_SIDED else None


def _joint_move(joint: Joint, ways: dict[TubeId, Vec], distance: float) -> Move | None:
    """Move a fitting part of the way with the tubes it takes."""
    held = [ways[u.tube] for u in joint.uses if u.tube in ways]
    total = sum(held, ORIGIN) * (1.0 / max(1, len(held)))
    share = 1.0 if joint.is_end_piece else _FITTING_SHARE
    length = total.length * distance * share
    return Move(what=joint.id, direction=total.unit, distance=length) if length > LOWER_MM else None


def _centre(things: Iterable[Tube | Member]) -> Vec:
    box = around_points(p for t in things for p in (t.path.start, t.path.end))
    return (box.low + box.high) * 0.5
