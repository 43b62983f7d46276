"""What could be tried where no fitting takes the tubes that meet."""

from __future__ import annotations

import math
from itertools import combinations
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import nearest_on
from tubeframe.geometry.tolerance import MEET_MM, TINY
from tubeframe.geometry.vector import angle_deg, rotated
from tubeframe.joints.facts import NoFitting
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import DropTube, EndPiece, MoveEnds, Operation, Turn
from tubeframe.joints.repair.room import SPARE
from tubeframe.joints.repair.seats import crossing, is_on

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.frame.member import Member
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

_ANGLES = (90.0, 45.0, 135.0, 30.0, 150.0)


def one_at_a_time(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Slide one of several ends off along the tube that passes, by a pitch; or bring one to an angle that there is."""
    fact = fault.fact
    assert isinstance(fact, NoFitting)
    members = [scene.members[n] for n in scene.members_of(fact.tubes)]
    yield from _doubled(members)
    yield from _ending_there(members, fact.at)
    for member in members:
        others = [m for m in members if m.id != member.id]
        for end in TubeEnd:
            point, _ = outward(member, end)
            hosts = [m for m in others if is_on(m, point)]
            if end_kind(member, end) is not EndKind.JOINT:
                continue
            for host in hosts:
                run = host.path.tangent(nearest_on(host.path, point)[0])
                yield from _slides(member, host, run, scene)
                yield from _angles(member, end, run, scene)


def _doubled(members: list[Member]) -> Iterator[DropTube]:
    """Leave out a tube that is there twice, the one stated later."""
    for first, second in combinations(members, 2):
        ends = (second.path.start, second.path.end)
        if any(first.path.start.distance(a) + first.path.end.distance(b) <= MEET_MM for a, b in (ends, ends[::-1])):
            yield DropTube(member=second.id, twin=first.id)


def _ending_there(members: list[Member], at: Vec) -> Iterator[EndPiece]:
    """End a tube in the fitting whose free end lies right where the others meet."""
    for member in members:
        for end in (e for e in TubeEnd if outward(member, e)[0].distance(at) <= MEET_MM):
            if end_kind(member, end) in {EndKind.CAP, EndKind.OPEN}:
                yield EndPiece(ends=((member.id, end),), kind=EndKind.JOINT)


def _slides(member: Member, host: Member, run: Vec, scene: Scene) -> Iterator[Operation]:
    pitch = scene.pitch(host) + SPARE
    for pitches in (1.0, -1.0, 2.0, -2.0):
        if move := scene.move((member.id,), run * (pitches * pitch), (host.id,)):
            yield move


def _angles(member: Member, end: TubeEnd, run: Vec, scene: Scene) -> Iterator[Operation]:
    """Turn a tube to the angles that fittings have: about its joint where it is free, else along what holds it."""
    point, out = outward(member, end)
    way = -out
    axis = run.cross(way)
    if not member.is_straight or axis.length < TINY:
        return
    far, _ = outward(member, end.other)
    now = angle_deg(run, way)
    for angle in _ANGLES:
        by = math.radians(angle - now)
        if abs(by) < TINY:
            continue
        if end_kind(member, end.other) is not EndKind.JOINT:
            yield Turn(member=member.id, about=point, axis=axis.unit, angle=by)
            continue
        for host in (m for m in scene.frame.members if m.id != member.id and is_on(m, far)):
            meet = crossing(point, rotated(way, axis.unit, by), host.path)
            if meet is not None and meet.distance(point) > MEET_MM:
                yield MoveEnds(ends=((member.id, end.other),), shift=meet - far)
