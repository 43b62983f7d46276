"""What could be tried where tubes pass each other too near, or hang on nothing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind, Member, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import approaches, nearest_on
from tubeframe.geometry.path import Path, Straight, line
from tubeframe.geometry.tolerance import COUPLER_MM, EXACT_MM, MEET_MM, TINY
from tubeframe.geometry.vector import X, Y, Z, any_square_to
from tubeframe.joints.facts import Apart, Fouling, OnePoint
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import (
    AddTube,
    Ask,
    EndPiece,
    Move,
    MoveEnds,
    Operation,
    Single,
    Stretch,
    Together,
)
from tubeframe.joints.repair.room import SPARE
from tubeframe.joints.room_facts import EndInTube

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.geometry.closest import Approach
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

_NEAR = 150.0
"""A tube that stands apart is clamped on, or made longer, across a gap of up to this [mm]; else tied by another."""
_SQUARE = 90.0
_MOST_PAIRS = 4
_HEIGHTS = (0.5, 0.35, 0.65, 0.8)
_QUARTERS = (0.25, 0.75)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pair:
    first: Member
    second: Member
    gap: float


def onto_a_coupler(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Hold two tubes that pass too near a coupler's offset apart, on either side, or on both faces of a third."""
    fact = fault.fact
    assert isinstance(fact, Fouling | OnePoint)
    if isinstance(fact, Fouling) and fact.on_bend:
        return  # no coupler sits on a bend
    pair = scene.members_of((fact.first, fact.second))
    yield from _ended_there(fault, scene)
    if isinstance(fact, Fouling) and fact.on_bend:
        yield from _off_it(pair, fact.least - fact.distance + SPARE, scene)
    for member, other in ((m, o) for n in pair for m in [scene.members[n]] for o in pair if o != n):
        yield from _not_beyond(member, scene.members[other])
    if len(pair) == 2:
        yield from _coupled(scene.members[pair[0]], scene.members[pair[1]], scene)


def out_of_a_tube(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """End a tube in a fitting that ends inside another, or make it shorter."""
    fact = fault.fact
    assert isinstance(fact, EndInTube)
    member, other = (scene.members[n] for n in scene.members_of((fact.tube, fact.other)))
    joined = list(_standing_in(member, other, scene))
    if joined:
        yield Together(parts=tuple(joined[:2])) if len(joined) > 1 else joined[0]
    yield Stretch(ends=((member.id, fact.end),), by=-fact.short - SPARE)


def _off_it(pair: tuple[MemberId, ...], by: float, scene: Scene) -> Iterator[Operation]:
    """Move either of two tubes off the other's bend, along an axis."""
    for name in reversed(pair):
        fixed = [n for n in pair if n != name]
        for axis, share in ((a, s) for s in (1.0, 1.5, 2.0) for a in (X, Y, Z)):
            for sign in (1.0, -1.0):
                if move := scene.move((name,), axis * (sign * share * by), fixed):
                    yield move


def _ended_there(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """End tubes in fittings whose free ends stand in another tube."""
    parts: list[Single] = []
    for fact in (f.fact for f in fault.findings):
        assert isinstance(fact, Fouling | OnePoint)
        pair = [scene.members[n] for n in scene.members_of((fact.first, fact.second))]
        ends = [e for m, o in (pair, pair[::-1]) for e in _standing_in(m, o, scene)] if len(pair) == 2 else []
        parts += ends[:1] if not ends or isinstance(ends[0], EndPiece) else ends[:2]
        if not ends:
            return
    yield Together(parts=tuple(parts)) if len(parts) > 1 else parts[0]


def _not_beyond(member: Member, other: Member) -> Iterator[Stretch]:
    """End a tube on the one that it goes a little beyond, where a fitting should take that end."""
    for end in (e for e in TubeEnd if end_kind(member, e) is EndKind.JOINT):
        point, way = outward(member, end)
        for near in approaches(line(point - way * _NEAR, point), other.path, EXACT_MM):
            if EXACT_MM < _NEAR - near.at_first < member.path.length / 2.0:
                yield Stretch(ends=((member.id, end),), by=near.at_first - _NEAR)


def _standing_in(member: Member, other: Member, scene: Scene) -> Iterator[Single]:
    """Give what brings a free end that stands in a tube onto that tube's middle, and then ends it in a fitting."""
    for end in TubeEnd:
        point, way = outward(member, end)
        at, gap = nearest_on(other.path, point)
        if end_kind(member, end) not in {EndKind.CAP, EndKind.OPEN} or gap > scene.outside(other):
            continue
        shift = other.path.point(at) - point
        if gap > EXACT_MM and shift.across(way).length <= EXACT_MM:
            yield Stretch(ends=((member.id, end),), by=shift.dot(way))
        elif gap > EXACT_MM and member.is_straight:
            yield MoveEnds(ends=((member.id, end),), shift=shift)
        yield EndPiece(ends=((member.id, end),), kind=EndKind.JOINT)


def tied(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Make a tube that stands apart reach the next one, clamp it on, or tie it to the one beside it by another."""
    fact = fault.fact
    assert isinstance(fact, Apart)
    apart = scene.members_of(fact.tubes)
    pairs = _nearest_pairs(apart, scene)
    for pair in (p for p in pairs if p.gap <= _NEAR):
        yield from _reaching(pair.first, pair.second, scene)
        yield from _reaching(pair.second, pair.first, scene)
        yield from _coupled(pair.first, pair.second, scene)
        yield from _coupled_farther_on(pair.first, pair.second, scene)
    for pair in [p for p in pairs if _parallel(p.first, p.second)][:_MOST_PAIRS]:
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


def _coupled(first: Member, second: Member, scene: Scene) -> Iterator[Operation]:
    outsides = [scene.outside(m) for m in (first, second)]
    near = min(approaches(first.path, second.path, max(_NEAR, *outsides)), key=lambda a: a.distance, default=None)
    if near is None:
        return
    if _parallel(first, second):
        yield from _side_by_side(first, second, scene)
        return
    if first.path.tangent(near.at_first).cross(second.path.tangent(near.at_second)).length < TINY:
        return
    normal, gap = _normal(first, second, near)
    for offset in _offsets(first, second, scene):
        for target in (offset, -offset):
            for member, other, by in (
                (second, first, target - gap),
                (first, second, gap - target),
                (second, first, 2.0 * target - gap),
            ):
                yield Move(members=(member.id,), shift=normal * by)
                if (move := scene.move((member.id,), normal * by, (other.id,))) and len(move.members) > 1:
                    yield move


def _coupled_farther_on(first: Member, second: Member, scene: Scene) -> Iterator[Operation]:
    """Clamp a tube onto another a pitch or two farther along it, where a fitting is in the way."""
    way = first.path.tangent(0.0)
    pitch = scene.pitch(first, scene.workshop.catalog.coupler_at(_SQUARE)) + SPARE
    for onto in _coupled(first, second, scene):
        if isinstance(onto, Move) and onto.members == (second.id,):
            for pitches in (1.0, -1.0, 2.0, -2.0):
                yield Move(members=onto.members, shift=onto.shift + way * (pitches * pitch))


def _offsets(first: Member, second: Member, scene: Scene) -> tuple[float, ...]:
    """Return how far apart couplers hold two tubes [mm]."""
    return tuple(dict.fromkeys(scene.offset(k, first, second) for k in scene.workshop.catalog.couplers))


def _side_by_side(first: Member, second: Member, scene: Scene) -> Iterator[Operation]:
    """Tie two straight tubes that lie along each other by two couplers, one either quarter of what they share."""
    coupler = scene.workshop.catalog.coupler_at(0.0)
    if coupler is None:
        return
    offset = scene.offset(coupler, first, second)
    way, start = first.path.tangent(0.0), first.path.start
    between = (second.path.start - start).across(way)
    side = between.unit if between.length > TINY else any_square_to(way)
    ends = sorted((p - start).dot(way) for p in (second.path.start, second.path.end))
    low, high = max(0.0, ends[0]), min(first.path.length, ends[1])
    places = tuple(start + way * (low + (high - low) * share) + side * (offset / 2.0) for share in _QUARTERS)
    move = Move(members=(second.id,), shift=side * (offset - between.length))
    if high - low > 2.0 * offset:
        yield Together(parts=(move, Ask(kind=coupler.key, at=places)))


def _reaching(member: Member, other: Member, scene: Scene) -> Iterator[Operation]:
    """Make a free end long enough to be clamped to a tube that it stops short of, or to end on it in a fitting."""
    for end in TubeEnd:
        kind = end_kind(member, end)
        if kind not in {EndKind.CAP, EndKind.OPEN}:
            continue
        point, way = outward(member, end)
        ahead = Path(pieces=(Straight(start=point - way * (_NEAR / 2.0), end=point + way * _NEAR),))
        for near in approaches(ahead, other.path, max(_offsets(member, other, scene)) + COUPLER_MM):
            reach = near.at_first - _NEAR / 2.0
            if near.distance <= MEET_MM:
                joined = EndPiece(ends=((member.id, end),), kind=EndKind.JOINT)
                longer = Stretch(ends=((member.id, end),), by=reach)
                yield Together(parts=(longer, joined)) if abs(reach) > MEET_MM else joined
            else:
                over = scene.overhang(member, scene.workshop.catalog.coupler_at(_SQUARE))
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


def _parallel(a: Member, b: Member) -> bool:
    return a.is_straight and b.is_straight and a.path.tangent(0.0).cross(b.path.tangent(0.0)).length < TINY


def _normal(first: Member, second: Member, near: Approach) -> tuple[Vec, float]:
    """Return the direction square to two tubes where they cross, and how far the second is along it [mm]."""
    normal = first.path.tangent(near.at_first).cross(second.path.tangent(near.at_second)).unit
    return normal, (second.path.point(near.at_second) - first.path.point(near.at_first)).dot(normal)
