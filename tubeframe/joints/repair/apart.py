"""What could be tried for tubes that hang on nothing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind, Member, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import approaches
from tubeframe.geometry.path import Path, Straight, line
from tubeframe.geometry.tolerance import COUPLER_MM, MEET_MM
from tubeframe.joints.facts import Apart
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.couplers import NEAR, SQUARE, coupled, offsets, parallel
from tubeframe.joints.repair.operations import AddTube, EndPiece, Move, Operation, Stretch, Together
from tubeframe.joints.repair.room import SPARE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

_MOST_PAIRS = 4
_HEIGHTS = (0.5, 0.35, 0.65, 0.8)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pair:
    first: Member
    second: Member
    gap: float


def tied(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Make a tube that stands apart reach the next one, clamp it on, or tie it to the one beside it by another."""
    fact = fault.fact
    assert isinstance(fact, Apart)
    apart = scene.members_of(fact.tubes)
    pairs = _nearest_pairs(apart, scene)
    for pair in (p for p in pairs if p.gap <= NEAR):
        yield from _reaching(pair.first, pair.second, scene)
        yield from _reaching(pair.second, pair.first, scene)
        yield from coupled(pair.first, pair.second, scene)
        yield from _farther_on(pair.first, pair.second, scene)
    for pair in [p for p in pairs if parallel(p.first, p.second)][:_MOST_PAIRS]:
        for share in _HEIGHTS:
            yield _rail_between(pair.first, pair.second, share, scene)


def _nearest_pairs(apart: tuple[MemberId, ...], scene: Scene) -> list[_Pair]:
    """Pair tubes that stand apart with those that do not, the nearest first."""
    found = []
    for name in apart:
        member = scene.members[name]
        for other in scene.frame.members:
            if other.id in apart:
                continue
            near = approaches(other.path, member.path, float("inf"))
            if near:
                found.append(_Pair(first=other, second=member, gap=min(a.distance for a in near)))
    return sorted(found, key=lambda p: round(p.gap, 3))


def _farther_on(first: Member, second: Member, scene: Scene) -> Iterator[Operation]:
    """Clamp a tube onto another a pitch or two farther along it, where a fitting is in the way."""
    way = first.path.tangent(0.0)
    pitch = scene.pitch(first, scene.workshop.catalog.coupler_at(SQUARE)) + SPARE
    for onto in coupled(first, second, scene):
        if isinstance(onto, Move) and onto.members == (second.id,):
            for pitches in (1.0, -1.0, 2.0, -2.0):
                yield Move(members=onto.members, shift=onto.shift + way * (pitches * pitch))


def _reaching(member: Member, other: Member, scene: Scene) -> Iterator[Operation]:
    """Make a free end long enough to be clamped to a tube that it stops short of, or to end on it in a fitting."""
    for end in TubeEnd:
        kind = end_kind(member, end)
        if kind not in {EndKind.CAP, EndKind.OPEN}:
            continue
        point, way = outward(member, end)
        ahead = Path(pieces=(Straight(start=point - way * (NEAR / 2.0), end=point + way * NEAR),))
        for near in approaches(ahead, other.path, max(offsets(member, other, scene)) + COUPLER_MM):
            reach = near.at_first - NEAR / 2.0
            if near.distance <= MEET_MM:
                joined = EndPiece(ends=((member.id, end),), kind=EndKind.JOINT)
                longer = Stretch(ends=((member.id, end),), by=reach)
                yield Together(parts=(longer, joined)) if abs(reach) > MEET_MM else joined
            else:
                over = scene.overhang(member, scene.workshop.catalog.coupler_at(SQUARE))
                if reach + over > 0.0:
                    yield Stretch(ends=((member.id, end),), by=reach + over + SPARE)


def _rail_between(first: Member, second: Member, share: float, scene: Scene) -> AddTube:
    """Lay a rail between two parallel tubes, square to them, at a share of the first one's length from its A."""
    start = first.path.point(first.path.length * share)
    way = second.path.tangent(0.0)
    end = second.path.start + way * (start - second.path.start).dot(way)
    name = next(n for k in range(1, len(scene.members) + 2) if (n := MemberId(f"tie.{k}")) not in scene.members)
    rail = Member(id=name, tube=first.tube, path=line(start, end), end_a=EndKind.JOINT, end_b=EndKind.JOINT)
    return AddTube(member=rail, between=(first.id, second.id))
