"""What could be done about a fault, fault by fault. Nothing here is known to help: the repairs try it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import Approach, approaches, nearest_on
from tubeframe.geometry.path import Path, Straight
from tubeframe.geometry.tolerance import MEET_MM, TINY
from tubeframe.geometry.vector import Vec, X, Y, Z, angle_deg, any_square_to
from tubeframe.joints.change import Change, ended, lengthened, moved, raised, turned, wished, with_rail

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.joints.check import Crowding
    from tubeframe.joints.joint import Joint, Jointed

SPARE = 0.05
"""Moved a little more than what is short, so that rounding does not bring the fault back [mm]."""
_FAR = 1e5
_ON_THE_GROUND = frozenset({EndKind.FOOT, EndKind.BASE_FLANGE, EndKind.STAKE})
_MOST_PAIRS = 3
_NEAR_MISS = 100.0
_HEIGHTS = (0.5, 0.35, 0.65, 0.8)
_ANGLES = (90.0, 45.0, 135.0, 30.0, 150.0)


def parted(crowding: Crowding, frame: Frame, found: Jointed, workshop: Workshop) -> Iterator[Change]:
    """Move either fitting's other tubes until both have room, or onto one point where one fitting takes both."""
    tube, apart = crowding.tube, crowding.second.at - crowding.first.at
    room = crowding.short + SPARE
    shifts = (-apart, room, apart, -room)
    zones = (crowding.second, crowding.second, crowding.first, crowding.first)
    for zone, shift in zip(zones, shifts, strict=True):
        members = _others(zone.joint, tube.member, found)
        if members and not zone.joint.is_end_piece and abs(shift) > TINY:
            yield moved(frame, members, tube.path.tangent(zone.at) * shift, workshop.units)


def changes(finding: Finding, frame: Frame, found: Jointed, workshop: Workshop) -> tuple[Change, ...]:
    """Return what could be tried about a finding, the smallest change first."""
    make = _BY_CODE.get(finding.code)
    if make is None:
        return ()
    members = _members(finding, frame, found)
    return tuple(sorted(make(finding, members, frame, workshop), key=lambda c: c.size))


def _members(finding: Finding, frame: Frame, found: Jointed) -> tuple[Member, ...]:
    """Return the members at fault, in the order that the finding names them."""
    member_of = {str(t.id): t.member for t in found.tubes}
    by_id = {m.id: m for m in frame.members}
    names = dict.fromkeys(member_of.get(s, s) for s in finding.subjects)
    return tuple(by_id[n] for n in names if n in by_id)  # type: ignore[index]  # boards are named too


def _short(finding: Finding) -> float:
    """Return by how much something is short, where its fact says so [mm]."""
    return float(getattr(finding.fact, "short", 0.0))


def _others(joint: Joint, member: str, found: Jointed) -> tuple[str, ...]:
    member_of = {t.id: str(t.member) for t in found.tubes}
    return tuple(dict.fromkeys(m for u in joint.uses if (m := member_of[u.tube]) != member))


def _longer(finding: Finding, members: tuple[Member, ...], frame: Frame, workshop: Workshop) -> Iterator[Change]:
    for end, kind in zip(TubeEnd, members[0].ends, strict=True):
        if kind not in _ON_THE_GROUND:
            yield lengthened(frame, members[0].id, end, _short(finding) + SPARE, workshop.units)


def _off_the_bend(finding: Finding, members: tuple[Member, ...], frame: Frame, workshop: Workshop) -> Iterator[Change]:
    """Move what is clamped on along the bent tube, either way, a little or past the bend."""
    bent, others = members[0], members[1:]
    for other in others:
        at, _ = nearest_on(bent.path, _middle(other, bent))
        for _, bend in bent.path.bends:
            way = bent.path.tangent(at)
            for length in (_short(finding) + SPARE, _short(finding) + bend.length + SPARE):
                for sign in (1.0, -1.0):
                    yield moved(frame, (other.id,), way * (sign * length), workshop.units)


def _onto_a_coupler(
    finding: Finding, members: tuple[Member, ...], frame: Frame, workshop: Workshop
) -> Iterator[Change]:
    """Hold two tubes that pass too near a coupler's offset apart, on either side, or on both faces of a third."""
    del finding
    if len(members) < 2:
        return
    first, second = members[:2]
    tubes = [workshop.catalog.tube(m.tube) for m in (first, second)]
    near = min(
        approaches(first.path, second.path, sum(t.outside for t in tubes)), key=lambda a: a.distance, default=None
    )
    if near is None:
        return
    if _parallel(first, second):
        yield from _side_by_side(first, second, frame, workshop)
        return
    if first.path.tangent(near.at_first).cross(second.path.tangent(near.at_second)).length < TINY:
        return
    normal, gap = _normal(first, second, near)
    offsets = dict.fromkeys(workshop.coupler_offset(k, *tubes) for k in workshop.catalog.couplers)
    for offset in offsets:
        for target in (offset, -offset):
            yield moved(frame, (second.id,), normal * (target - gap), workshop.units)
            yield moved(frame, (first.id,), normal * (gap - target), workshop.units)
            yield moved(frame, (second.id,), normal * (2.0 * target - gap), workshop.units)


def _tied(finding: Finding, members: tuple[Member, ...], frame: Frame, workshop: Workshop) -> Iterator[Change]:
    """Clamp a tube that stands apart onto the one it nearly touches, or tie it to the next one beside it by a rail."""
    apart = {m.id for m in members}
    rest = [m for m in frame.members if m.id not in apart]
    pairs = [(m, o) for m in members for o in rest]
    for member, other in pairs:
        yield from _onto_a_coupler(finding, (other, member), frame, workshop)
    beside = [(m, o) for m, o in pairs if _parallel(m, o)]
    beside.sort(key=lambda two: two[0].path.start.distance(two[1].path.start))
    for member, other in beside[:_MOST_PAIRS]:
        yield from (with_rail(frame, other, member, share) for share in _HEIGHTS)


def _side_by_side(first: Member, second: Member, frame: Frame, workshop: Workshop) -> Iterator[Change]:
    """Tie two straight tubes that lie along each other by two couplers, one either quarter of what they share."""
    coupler = workshop.catalog.coupler_at(0.0)
    if coupler is None:
        return
    offset = workshop.coupler_offset(coupler, *(workshop.catalog.tube(m.tube) for m in (first, second)))
    way, start = first.path.tangent(0.0), first.path.start
    between = (second.path.start - start).across(way)
    side = between.unit if between.length > TINY else any_square_to(way)
    ends = sorted((p - start).dot(way) for p in (second.path.start, second.path.end))
    low, high = max(0.0, ends[0]), min(first.path.length, ends[1])
    places = [start + way * (low + (high - low) * share) + side * (offset / 2.0) for share in (0.25, 0.75)]
    yield wished(
        moved(frame, (second.id,), side * (offset - between.length), workshop.units), [(p, coupler.key) for p in places]
    )


def _parallel(a: Member, b: Member) -> bool:
    return a.is_straight and b.is_straight and a.path.tangent(0.0).cross(b.path.tangent(0.0)).length < TINY


def _normal(first: Member, second: Member, near: Approach) -> tuple[Vec, float]:
    """Return the direction square to two tubes where they cross, and how far the second is along it [mm]."""
    normal = first.path.tangent(near.at_first).cross(second.path.tangent(near.at_second)).unit
    return normal, (second.path.point(near.at_second) - first.path.point(near.at_first)).dot(normal)


def _one_at_a_time(finding: Finding, members: tuple[Member, ...], frame: Frame, workshop: Workshop) -> Iterator[Change]:
    """Slide one of several ends off along the tube that passes, by a pitch; or turn one to an angle that there is."""
    del finding
    ended_here = [(m, e, p) for m in members for e, p in _ends_on(m, members)]
    for member, end, point in ended_here:
        for run in members:
            at, gap = nearest_on(run.path, point)
            if run.id == member.id or gap > MEET_MM:
                continue
            grip = workshop.grip(workshop.catalog.tee, workshop.catalog.tube(run.tube))
            pitch = grip + workshop.tool_gap + SPARE
            for pitches in (1.0, -1.0, 2.0, -2.0):
                yield moved(frame, (member.id,), run.path.tangent(at) * (pitches * pitch), workshop.units)
            yield from _turns(member, end, point, run.path.tangent(at), frame)


def _turns(member: Member, end: TubeEnd, point: Vec, run: Vec, frame: Frame) -> Iterator[Change]:
    """Turn a tube whose other end is free to the angles that fittings have."""
    if not member.is_straight or member.ends[1 if end is TubeEnd.A else 0] is EndKind.JOINT:
        return
    way = member.path.tangent(0.0) * (1.0 if end is TubeEnd.A else -1.0)
    axis = run.cross(way)
    if axis.length < TINY:
        return
    now = angle_deg(run, way)
    for angle in _ANGLES:
        yield turned(frame, member.id, point, axis.unit, math.radians(angle - now))


def _ends_on(member: Member, others: tuple[Member, ...]) -> Iterator[tuple[TubeEnd, Vec]]:
    for end, kind in zip(TubeEnd, member.ends, strict=True):
        point = member.path.start if end is TubeEnd.A else member.path.end
        if kind is EndKind.JOINT and any(o.id != member.id and nearest_on(o.path, point)[1] <= MEET_MM for o in others):
            yield end, point


def _out_of_the_board(
    finding: Finding, members: tuple[Member, ...], frame: Frame, workshop: Workshop
) -> Iterator[Change]:
    by = _short(finding) + SPARE
    for member in members:
        for end, kind in zip(TubeEnd, member.ends, strict=True):
            if kind is not EndKind.JOINT:
                yield lengthened(frame, member.id, end, -by, workshop.units)
    for panel in (p for p in frame.panels if p.id in finding.subjects):
        yield raised(frame, panel.id, by, workshop.units)


def _aside(finding: Finding, members: tuple[Member, ...], frame: Frame, workshop: Workshop) -> Iterator[Change]:
    """Move a tube away from a fitting, along an axis, by what is short and up to twice as much for a slant."""
    for member in members:
        for axis, share, sign in ((a, k, s) for a in (X, Y, Z) for k in (1.0, 1.5, 2.0) for s in (1.0, -1.0)):
            yield moved(frame, (member.id,), axis * (sign * share * (_short(finding) + SPARE)), workshop.units)


def _to_another_tube(
    finding: Finding, members: tuple[Member, ...], frame: Frame, workshop: Workshop
) -> Iterator[Change]:
    """Go on to the next tube in line, or be a free end."""
    del finding
    for member in members:
        for end, kind in zip(TubeEnd, member.ends, strict=True):
            if kind is not EndKind.JOINT:
                continue
            point = member.path.start if end is TubeEnd.A else member.path.end
            if any(o.id != member.id and nearest_on(o.path, point)[1] <= MEET_MM for o in frame.members):
                continue
            reach = _reach(member, end, point, frame)
            if reach is not None:
                yield lengthened(frame, member.id, end, reach, workshop.units)
            yield from _onto_the_nearest(member, point, frame, workshop)
            piece = EndKind.FOOT if abs(point.z) <= MEET_MM else EndKind.CAP
            yield ended(frame, member.id, end, piece)


def _onto_the_nearest(member: Member, point: Vec, frame: Frame, workshop: Workshop) -> Iterator[Change]:
    """Move a tube so that its end, which just misses another tube's centreline, lies on it."""
    for other in (m for m in frame.members if m.id != member.id):
        at, gap = nearest_on(other.path, point)
        if MEET_MM < gap <= _NEAR_MISS:
            yield moved(frame, (member.id,), other.path.point(at) - point, workshop.units)


def _reach(member: Member, end: TubeEnd, point: Vec, frame: Frame) -> float | None:
    """Return how far a tube goes on to the nearest centreline or end that its line meets [mm]."""
    way = -member.path.tangent(0.0) if end is TubeEnd.A else member.path.tangent(member.path.length)
    ahead = Straight(start=point, end=point + way * _FAR)
    found = []
    for other in (m for m in frame.members if m.id != member.id):
        near = approaches(Path(pieces=(ahead,)), other.path, MEET_MM)
        found += [a.at_first for a in near if a.at_first > MEET_MM]
    return min(found, default=None)


def _middle(other: Member, bent: Member) -> Vec:
    """Return where a tube comes nearest to a bent one [mm]."""
    near = min(approaches(other.path, bent.path, _FAR), key=lambda a: a.distance)
    return other.path.point(near.at_first)


_BY_CODE: dict[str, Callable[[Finding, tuple[Member, ...], Frame, Workshop], Iterator[Change]]] = {
    "J-overhang": _longer,
    "J-bend": _off_the_bend,
    "J-fouls": _onto_a_coupler,
    "J-one-point": _onto_a_coupler,
    "J-apart": _tied,
    "J-no-fitting": _one_at_a_time,
    "J-panel": _out_of_the_board,
    "J-body": _aside,
    "J-loose-end": _to_another_tube,
}
