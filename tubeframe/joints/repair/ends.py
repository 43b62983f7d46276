"""What could be tried for an end that is on no tube, or at an angle that no fitting has."""

from __future__ import annotations

import math
from itertools import combinations
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import approaches, gap_to, nearest_on
from tubeframe.geometry.path import line
from tubeframe.geometry.tolerance import EXACT_MM, MEET_MM, TINY
from tubeframe.geometry.vector import angle_deg, rotated
from tubeframe.joints.facts import LooseEnd, NoFitting
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import DropTube, EndPiece, MoveEnds, Operation, Single, Stretch, Together, Turn
from tubeframe.joints.repair.room import SPARE
from tubeframe.joints.repair.seats import crossing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.frame.member import Member
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

_FAR = 1e5
_NEAR_MISS = 100.0
_ALONG_A_BEND = 400.0
_ANGLES = (90.0, 45.0, 135.0, 30.0, 150.0)


def onto_a_tube(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Bring loose ends onto a tube: make them longer or shorter, move them over, or be free ends."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, LooseEnd)]
    member = scene.members[scene.members_of((facts[0].member,))[0]]
    ways = [list(_one_end(member, f.end, scene)) for f in facts]
    if len(ways) == 1:
        yield from ways[0]
    else:
        for first, second in zip(*ways, strict=False):
            yield Together(parts=(first, second))
    for fact in facts:
        point, way = outward(member, fact.end)
        gaps = [*_gaps(member, point, scene, way), *_off_bends(fact, point, scene)]
        for gap in gaps:
            if move := scene.move((member.id,), gap):
                yield move


def _one_end(member: Member, end: TubeEnd, scene: Scene) -> Iterator[Single]:
    """Give what one end could do alone."""
    point, way = outward(member, end)
    yield from _reaching(member, end, scene)
    yield from _others_longer(member, point, scene)
    if member.is_straight and end_kind(member, end.other) not in {EndKind.CAP, EndKind.OPEN}:
        for gap in _gaps(member, point, scene, way):
            yield MoveEnds(ends=((member.id, end),), shift=gap)
    if abs(point.z) <= MEET_MM:
        yield EndPiece(member=member.id, end=end, kind=EndKind.FOOT)
    elif _is_clear(member, point, scene):
        yield EndPiece(member=member.id, end=end, kind=EndKind.CAP)


def _gaps(member: Member, point: Vec, scene: Scene, out: Vec) -> Iterator[Vec]:
    """Give the ways from an end to the centrelines that it just misses sideways, the nearest first."""
    found = []
    for other in (m for m in scene.frame.members if m.id != member.id):
        at, gap = nearest_on(other.path, point)
        way = other.path.point(at) - point
        if MEET_MM < gap <= _NEAR_MISS and way.across(out).length > MEET_MM:
            found.append(way)
    yield from sorted(found, key=lambda v: round(v.length, 3))


def _reaching(member: Member, end: TubeEnd, scene: Scene) -> Iterator[Single]:
    """Make an end go on, or back, to the nearest centrelines that its line meets; put it right onto them."""
    point, way = outward(member, end)
    behind = min(_NEAR_MISS, member.path.length / 2.0)
    ahead = line(point - way * behind, point + way * _FAR)
    found = [
        (a.at_first - behind, other.path.point(a.at_second), a.distance)
        for other in scene.frame.members
        if other.id != member.id
        for a in approaches(ahead, other.path, MEET_MM)
    ]
    on = min((f for f in found if f[0] > MEET_MM), key=lambda f: f[0], default=None)
    back = max((f for f in found if f[0] < -MEET_MM), key=lambda f: f[0], default=None)
    for reach, meet, gap in (f for f in (on, back) if f):
        if gap <= EXACT_MM or not member.is_straight:
            yield Stretch(ends=((member.id, end),), by=reach)
        else:
            yield MoveEnds(ends=((member.id, end),), shift=meet - point)


def _off_bends(fact: LooseEnd, point: Vec, scene: Scene) -> Iterator[Vec]:
    """Give the ways from an end that lies on a bend to the straights beside it, clear of the bend."""
    if not fact.is_on_bend or fact.nearest is None:
        return
    host = scene.members[MemberId(fact.nearest)]
    off = scene.off_bend(host) + SPARE
    places = [at for start, bend in host.path.bends for at in (start - off, start + bend.length + off)]
    ways = [host.path.point(at) - point for at in places if 0.0 < at < host.path.length]
    yield from sorted((w for w in ways if w.length <= _ALONG_A_BEND), key=lambda v: round(v.length, 3))


def _others_longer(member: Member, point: Vec, scene: Scene) -> Iterator[Stretch]:
    """Make a tube longer that stops short of an end which lies in line with it."""
    for other in (m for m in scene.frame.members if m.id != member.id):
        for end in TubeEnd:
            tip, way = outward(other, end)
            reach = (point - tip).dot(way)
            in_line = 0.0 < reach <= _NEAR_MISS and (point - tip).across(way).length <= MEET_MM
            if in_line and end_kind(other, end) in {EndKind.CAP, EndKind.OPEN}:
                over = scene.overhang(other)
                yield Stretch(ends=((other.id, end),), by=reach + over + SPARE)


def _is_clear(member: Member, point: Vec, scene: Scene) -> bool:
    """Whether an end is outside of every other tube, so that a piece of its own goes onto it."""
    own = scene.outside(member) / 2.0
    others = (m for m in scene.frame.members if m.id != member.id)
    return all(gap_to(m.path, point) > own + scene.outside(m) / 2.0 for m in others)


def one_at_a_time(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Slide one of several ends off along the tube that passes, by a pitch; or bring one to an angle that there is."""
    fact = fault.fact
    assert isinstance(fact, NoFitting)
    members = [scene.members[n] for n in scene.members_of(fact.tubes)]
    yield from _doubled(members)
    for member in members:
        others = [m for m in members if m.id != member.id]
        for end in TubeEnd:
            point, _ = outward(member, end)
            hosts = [m for m in others if nearest_on(m.path, point)[1] <= MEET_MM]
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
        for host in (m for m in scene.frame.members if m.id != member.id and nearest_on(m.path, far)[1] <= MEET_MM):
            meet = crossing(point, rotated(way, axis.unit, by), host.path)
            if meet is not None and meet.distance(point) > MEET_MM:
                yield MoveEnds(ends=((member.id, end.other),), shift=meet - far)
