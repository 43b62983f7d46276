"""The floor and the walls: what stands on them, and what goes into them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import OnFloor
from tubeframe.errors import Finding, Severity
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.extent import along_tube
from tubeframe.geometry.overlap import farthest
from tubeframe.geometry.tolerance import ANGLE_DEG, COUPLER_MM, TINY
from tubeframe.geometry.vector import Z, angle_deg
from tubeframe.joints.facts import InWall, WallAway
from tubeframe.joints.room_facts import BelowFloor, OffFloor, PastSwing, SlopedFoot
from tubeframe.joints.things import TOUCH_MM

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.errors import Fact
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.extent import Extent
    from tubeframe.geometry.path import Path
    from tubeframe.joints.facts import Named
    from tubeframe.joints.joint import Joint, Tube, UsesByTube
    from tubeframe.joints.things import Thing, Things


def wall_findings(frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint], things: Things) -> Iterator[Finding]:
    """Find tubes and fittings that go into a wall."""
    named: list[tuple[str | Named, Thing]] = [(t.id, thing) for t, thing in zip(tubes, things.tubes, strict=True)]
    named += [(j.named, thing) for j, thing in zip(joints, things.fittings, strict=True)]
    for wall in frame.walls:
        for name, thing in named:
            deep = max((-wall.gap(farthest(p, -wall.toward)) for p in thing.pieces), default=0.0)
            if deep > TOUCH_MM:
                fact = InWall(thing=name, wall=wall.id, short=deep)
                yield _error("J-wall", fact, *((name,) if isinstance(name, str) else name.tubes), wall.id)
    for joint in joints:
        yield from _off_wall(frame, joint)


def _off_wall(frame: Frame, joint: Joint) -> Iterator[Finding]:
    """Find a fitting that does not reach the wall that it stands on."""
    fitting = joint.fitting
    if fitting is None or fitting.kind.wall is None:
        return
    face = joint.placement.point(fitting.kind.wall * fitting.offset)
    gap = min((w.gap(face) for w in frame.walls), key=abs, default=None)
    if gap is None or gap > COUPLER_MM:
        fact = WallAway(fitting=joint.named, gap=gap)
        yield Finding(code="J-off-wall", severity=Severity.WARNING, subjects=joint.named.tubes, fact=fact)


def floor_findings(
    frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint], things: Things, uses: UsesByTube
) -> Iterator[Finding]:
    """Find feet and flanges off the floor or on a slope, and tubes and fittings below the floor, at height 0."""
    sunk = set[str]()
    for tube, cut, outside in zip(tubes, things.cuts, things.outsides, strict=True):
        for end, kind in ((TubeEnd.A, tube.end_a), (TubeEnd.B, tube.end_b)):
            if kind.on_floor:
                yield from _standing(frame, tube, end, next(j for j, u in uses[tube.id] if u.end is end))
        deep = -min((box.low.z for box in _above_stands(tube, cut, outside)), default=0.0)
        if deep > COUPLER_MM:
            sunk.add(tube.id)
            yield _error("J-below-floor", BelowFloor(thing=tube.id, short=deep), tube.id)
    for joint, thing in zip(joints, things.fittings, strict=True):
        deep = -min((box.low.z for box in thing.boxes), default=0.0)
        if deep > TOUCH_MM and not joint.is_end_piece and sunk.isdisjoint(joint.named.tubes):
            yield _error("J-below-floor", BelowFloor(thing=joint.named, short=deep), *joint.named.tubes)


def _standing(frame: Frame, tube: Tube, end: TubeEnd, piece: Joint) -> Iterator[Finding]:
    """Look at what an end stands on; a flange may be bolted to a wall instead."""
    point, up = (tube.path.start if end is TubeEnd.A else tube.path.end), piece.uses[0].axis
    kind = tube.end_a if end is TubeEnd.A else tube.end_b
    if kind.on_floor is OnFloor.BOLTED and any(
        abs(w.gap(point)) <= COUPLER_MM and angle_deg(w.toward, up) <= ANGLE_DEG for w in frame.walls
    ):
        return
    lean = angle_deg(up, Z)
    if abs(point.z) > COUPLER_MM:
        yield _error("J-off-floor", OffFloor(tube=tube.id, end=end, piece=piece.kind, height=point.z), tube.id)
    elif piece.fitting and (swing := piece.fitting.kind.ports[0].swing):
        if lean > 90.0 - swing[0] + TINY:
            past = PastSwing(tube=tube.id, end=end, piece=piece.kind, lean=lean, most=90.0 - swing[0])
            yield _error("J-foot-slope", past, tube.id)
    elif lean > ANGLE_DEG:
        short = max(-farthest(p, -Z).z for p in piece.body)
        fact = SlopedFoot(tube=tube.id, end=end, piece=piece.kind, lean=lean, short=short)
        yield Finding(code="J-foot-slope", severity=Severity.WARNING, subjects=(tube.id,), fact=fact)


def _above_stands(tube: Tube, cut: Path, outside: float) -> Sequence[Extent]:
    """Return the boxes of a tube but for what is next to an end on or in the ground, which may lean."""
    low, high = 0.0, cut.length
    low += outside if tube.end_a.is_grounded else 0.0
    high -= outside if tube.end_b.is_grounded else 0.0
    return along_tube(cut.part(low, high), outside, math.inf) if high > low else ()


def _error(code: str, fact: Fact, *subjects: str) -> Finding:
    return Finding(code=code, severity=Severity.ERROR, subjects=subjects, fact=fact)
