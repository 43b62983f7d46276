"""What could be tried where tubes pass each other too near, or hang on nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind, Member, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import approaches, nearest_on
from tubeframe.geometry.path import line
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.tolerance import COUPLER_MM, EXACT_MM, TINY
from tubeframe.geometry.vector import X, Y, Z, any_square_to
from tubeframe.joints.facts import Fouling, OnePoint
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import (
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

NEAR = 150.0
"""A tube that stands apart is clamped on, or made longer, across a gap of up to this [mm]; else tied by another."""
SQUARE = 90.0
_QUARTERS = (0.25, 0.75)


def onto_a_coupler(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Hold two tubes that pass too near a coupler's offset apart, on either side, or on both faces of a third."""
    fact = fault.fact
    assert isinstance(fact, Fouling | OnePoint)
    if isinstance(fact, Fouling) and fact.on_bend:
        yield from _off_it(scene.members_of((fact.first, fact.second)), fact.least - fact.distance + SPARE, scene)
        return  # no coupler sits on a bend
    pair = scene.members_of((fact.first, fact.second))
    yield from _ended_there(fault, scene)
    for member, other in ((m, o) for n in pair for m in [scene.members[n]] for o in pair if o != n):
        yield from _not_beyond(member, scene.members[other])
    if len(pair) == 2:
        yield from coupled(scene.members[pair[0]], scene.members[pair[1]], scene)


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
        for near in approaches(line(point - way * NEAR, point), other.path, EXACT_MM):
            if EXACT_MM < NEAR - near.at_first < member.path.length / 2.0:
                yield Stretch(ends=((member.id, end),), by=near.at_first - NEAR)


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


def coupled(first: Member, second: Member, scene: Scene) -> Iterator[Operation]:
    """Hold two tubes a coupler's offset apart, on either side, or on both faces of a third that holds the second."""
    outsides = [scene.outside(m) for m in (first, second)]
    near = min(approaches(first.path, second.path, max(NEAR, *outsides)), key=lambda a: a.distance, default=None)
    if near is None:
        return
    if parallel(first, second):
        yield from _side_by_side(first, second, scene)
        return
    if first.path.tangent(near.at_first).cross(second.path.tangent(near.at_second)).length < TINY:
        return
    normal, gap = _normal(first, second, near)
    for offset in offsets(first, second, scene):
        for target in (offset, -offset):
            for member, other, by in (
                (second, first, target - gap),
                (first, second, gap - target),
                *([(second, first, 2.0 * target - gap)] if second.id in scene.ties else []),
            ):
                yield Move(members=(member.id,), shift=normal * by)
                yield from _held_at_its_ends(member, normal * by, scene)
                if (move := scene.move((member.id,), normal * by, (other.id,))) and len(move.members) > 1:
                    yield move


def _held_at_its_ends(member: Member, shift: Vec, scene: Scene) -> Iterator[Together]:
    """Move a tube, and make it long enough past the couplers that it comes into there."""
    path, coupler = member.path.seen_from(Placement(origin=-shift)), scene.workshop.catalog.coupler_at(SQUARE)
    over, others = scene.overhang(member, coupler), [m for m in scene.frame.members if m.id != member.id]
    places = [a.at_first for m in others for a in approaches(path, m.path, max(offsets(member, m, scene)) + COUPLER_MM)]
    free = [e for e in TubeEnd if places and end_kind(member, e) in {EndKind.CAP, EndKind.OPEN}]
    past = {e: min(places) if e is TubeEnd.A else path.length - max(places) for e in free}
    short = {e: over - at + SPARE for e, at in past.items() if at < over}
    longer = [Stretch(ends=((member.id, e),), by=by) for e, by in short.items()]
    if len(short) == 2 and abs(longer[0].by - longer[1].by) <= EXACT_MM:
        longer = [Stretch(ends=tuple((member.id, e) for e in short), by=max(short.values()))]
    if longer:
        yield Together(parts=(Move(members=(member.id,), shift=shift), *longer))


def offsets(first: Member, second: Member, scene: Scene) -> tuple[float, ...]:
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


def parallel(a: Member, b: Member) -> bool:
    """Whether two straight tubes have one direction."""
    return a.is_straight and b.is_straight and a.path.tangent(0.0).cross(b.path.tangent(0.0)).length < TINY


def _normal(first: Member, second: Member, near: Approach) -> tuple[Vec, float]:
    """Return the direction square to two tubes where they cross, and how far the second is along it [mm]."""
    normal = first.path.tangent(near.at_first).cross(second.path.tangent(near.at_second)).unit
    return normal, (second.path.point(near.at_second) - first.path.point(near.at_first)).dot(normal)
