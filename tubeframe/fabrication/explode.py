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
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.geometry.extent import Extent
    from tubeframe.joints.joint import Joint, Jointed, Tube, TubeId

_SHARE = 0.12
_LEAST, _MOST = 100.0, 350.0
_ONE_SIDED = 0.5
"""Couplers on both sides of a tube cancel out: below this there is no side that it comes from."""
_AXES = (X, Y, Z)
_SQUARE = 0.5
"""A tube whose direction has less than this share along an axis may be moved along it."""
_FITTING_SHARE = 0.45
"""A fitting is drawn this far along the way of the tubes that it takes, so that both gaps show."""


class Apart:
    """How the parts of a frame are drawn apart: what is asked of every step is looked up once."""

    def __init__(self, frame: Frame, jointed: Jointed) -> None:
        """Look up which tubes belong together, and which tubes a coupler holds."""
        box = _box(frame.members)
        self._centre = box.centre
        self._distance = min(_MOST, max(_LEAST, _SHARE * max(box.size)))
        self._order = {t.id: n for n, t in enumerate(jointed.tubes)}
        self._joints = {j.id: j for j in jointed.joints}
        self._tubes: dict[MemberId, list[Tube]] = {}
        for tube in jointed.tubes:
            self._tubes.setdefault(tube.member, []).append(tube)
        self._ups: dict[TubeId, list[Vec]] = {}
        for use in (u for j in jointed.joints if j.fitting and j.fitting.kind.is_coupler for u in j.uses):
            self._ups.setdefault(use.tube, []).append(use.up)

    def moves(self, batch: Batch) -> tuple[Move, ...]:
        """Say how each new part of a batch is drawn apart from what stands."""
        if batch.panels:
            return tuple(Move(what=p, direction=Z, distance=self._distance) for p in batch.panels)
        ways = self._flat_ways(batch) if batch.work is Work.FLAT else self._standing_ways(batch)
        made = [
            Move(what=tube, direction=way.unit, distance=self._distance * way.length)
            for tube in sorted(ways, key=self._order.__getitem__)
            if (way := ways[tube]) != ORIGIN
        ]
        joints = (self._joints[j] for j in batch.joints)
        return (*made, *(m for j in joints if (m := _joint_move(j, ways, self._distance))))

    def _standing_ways(self, batch: Batch) -> dict[TubeId, Vec]:
        """Move tubes off those they are coupled to, or out from the middle of the frame."""
        tubes = [t for m in batch.members for t in self._tubes[m.id]]
        return {t.id: self._off_couplers(t) or _way_out(t, self._centre) for t in tubes}

    def _flat_ways(self, batch: Batch) -> dict[TubeId, Vec]:
        """Move tubes out from the middle of their own sub-frame."""
        found: dict[TubeId, Vec] = {}
        for sub_frame in batch.sub_frames:
            fellows = [t for m in sub_frame.members for t in self._tubes[m]]
            box = _box(fellows)
            has_bends = any(t.path.bends for t in fellows)
            for tube in fellows:
                is_alone = len(fellows) == 1
                found[tube.id] = ORIGIN if is_alone else _way_in_sub_frame(tube, box.centre, among_bends=has_bends)
        return found

    def _off_couplers(self, tube: Tube) -> Vec | None:
        """Move a tube away from those it is coupled to: that is where it comes from."""
        total = sum(self._ups.get(tube.id, ()), ORIGIN)
        return -total.unit if total.length > _ONE_SIDED else None


def _way_in_sub_frame(tube: Tube, centre: Vec, *, among_bends: bool) -> Vec:
    """Move a tube out from the middle of its own sub-frame, square to itself where it is straight."""
    if tube.path.bends or not among_bends:
        return _way_out(tube, centre)
    # a straight leg in line with a bent piece goes with it, and off it along itself
    along = tube.path.tangent(0.0)
    off = (tube.path.start + tube.path.end) * 0.5 - centre
    return _way_out(tube, centre) + along * (0.8 if off.dot(along) > 0.0 else -0.8)


def _way_out(tube: Tube, centre: Vec) -> Vec:
    """Return the axis, square to a straight tube, along which it lies farthest from a centre; upward in doubt.

    An axis counts as square at 60 degrees and more. A tube that is nearer to all three of them, such as a guy to the
    ground, goes along the one that it is squarest to.
    """
    off = (tube.path.start + tube.path.end) * 0.5 - centre
    best = max(_axes_off(tube), key=lambda a: abs(off.dot(a)))
    if abs(off.dot(best)) < LOWER_MM:
        return Z
    if best is Z and off.dot(Z) < 0.0 and not tube.path.bends:
        return Z
    return best if off.dot(best) > 0.0 else -best


def _axes_off(tube: Tube) -> tuple[Vec, ...]:
    """Return the axes along which a tube may be moved off; never none."""
    if tube.path.bends:
        return _AXES
    along = tube.path.tangent(0.0)
    return tuple(a for a in _AXES if abs(along.dot(a)) < _SQUARE) or (min(_AXES, key=lambda a: abs(along.dot(a))),)


def _joint_move(joint: Joint, ways: dict[TubeId, Vec], distance: float) -> Move | None:
    """Move a fitting part of the way with the tubes it takes."""
    held = [ways[u.tube] for u in joint.uses if u.tube in ways]
    total = sum(held, ORIGIN) * (1.0 / max(1, len(held)))
    share = 1.0 if joint.is_end_piece else _FITTING_SHARE
    length = total.length * distance * share
    return Move(what=joint.id, direction=total.unit, distance=length) if length > LOWER_MM else None


def _box(things: Iterable[Tube | Member]) -> Extent:
    return around_points(p for t in things for p in (t.path.start, t.path.end))
