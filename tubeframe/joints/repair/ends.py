"""What could be tried for an end that is on no tube."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import approaches, gap_to, nearest_on
from tubeframe.geometry.path import Straight, line
from tubeframe.geometry.tolerance import EXACT_MM, MEET_MM, TINY
from tubeframe.joints.facts import LooseEnd
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import EndPiece, MoveEnds, Operation, Single, Stretch, Together
from tubeframe.joints.repair.room import SPARE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.frame.member import Member
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

_FAR = 1e5
_NEAR_MISS = 100.0
_ALONG_A_BEND = 400.0
_ASIDE = 0.1
"""An end misses sideways when this share of the way is square to its tube; else the tube is too short or too long."""


def onto_a_tube(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Bring loose ends onto a tube: make them longer or shorter, move them over, or be free ends.

    Of several ends that miss one tube that tube moves; of two that miss each other either one may.
    """
    facts = [f.fact for f in fault.findings if isinstance(f.fact, LooseEnd)]
    ends = [(scene.members[MemberId(f.member)], f.end) for f in facts]
    if fault.common and all(m.id != fault.common for m, _ in ends):
        yield from _host_moved(fault.common, ends, scene)
        return
    ways = [list(_one_end(m, e, scene)) for m, e in ends]
    if len({m.id for m, _ in ends}) == len(ends):
        yield from (o for way in ways for o in way)
    else:
        yield from (Together(parts=parts) for parts in zip(*ways, strict=False))
    if len(facts) == 1:
        yield from _host_of_one(facts[0], ends, scene)
    for fact, (member, end) in zip(facts, ends, strict=True):
        gaps = [*_gaps(member, end, scene), *_off_bends(fact, outward(member, end)[0], scene)]
        if len(ends) == 2 and ends[0][0].id == ends[1][0].id:
            gaps += [*_both_gaps(member, scene), *_missed_by(member, scene)]
        for gap in gaps:
            if move := scene.move((member.id,), gap):
                yield move


def _host_moved(name: MemberId, ends: list[tuple[Member, TubeEnd]], scene: Scene) -> Iterator[Operation]:
    """Move the tube that several ends miss by one and the same way."""
    host = scene.members[name]
    points = [outward(m, e)[0] for m, e in ends]
    ways = [p - host.path.point(nearest_on(host.path, p)[0]) for p in points]
    if all(w.distance(ways[0]) <= MEET_MM for w in ways) and (move := scene.move((name,), ways[0])):
        yield move


def _host_of_one(fact: LooseEnd, ends: list[tuple[Member, TubeEnd]], scene: Scene) -> Iterator[Operation]:
    """Move the tube that an end misses."""
    if fact.nearest is not None:
        yield from _host_moved(MemberId(fact.nearest), ends, scene)


def _missed_by(member: Member, scene: Scene) -> Iterator[Vec]:
    """Give the ways from a tube to the ends of others that miss it."""
    for fact in (f.fact for f in scene.found.findings):
        if isinstance(fact, LooseEnd) and fact.nearest == member.id:
            point, _ = outward(scene.members[MemberId(fact.member)], fact.end)
            yield point - member.path.point(nearest_on(member.path, point)[0])


def _both_gaps(member: Member, scene: Scene) -> Iterator[Vec]:
    """Give the one way that brings both ends of a tube onto the tubes that they miss."""
    sides = []
    for end in TubeEnd:
        point, _ = outward(member, end)
        host, at = _nearest_host(member, point, scene)
        if host is None:
            return
        sides.append((host.path.point(at) - point, host.path.tangent(at)))
    (first, along), (second, other) = sides
    normal = along.cross(other)
    if normal.length > TINY**0.5:
        apart = second - first
        way = first + along * (apart.cross(other).dot(normal) / normal.dot(normal))
        if (way - second).across(other).length <= EXACT_MM and way.length <= 2.0 * _NEAR_MISS:
            yield way


def _nearest_host(member: Member, point: Vec, scene: Scene) -> tuple[Member | None, float]:
    found = [(m, *nearest_on(m.path, point)) for m in scene.frame.members if m.id != member.id]
    host, at, gap = min(found, key=lambda row: row[2], default=(None, 0.0, _FAR))
    return (host, at) if gap <= _NEAR_MISS else (None, 0.0)


def _one_end(member: Member, end: TubeEnd, scene: Scene) -> Iterator[Single]:
    """Give what one end could do alone."""
    point, way = outward(member, end)
    yield from _reaching(member, end, scene)
    yield from _others_longer(member, point, scene)
    if member.is_straight and end_kind(member, end.other) not in {EndKind.CAP, EndKind.OPEN}:
        for gap in (*_gaps(member, end, scene), *_at_good_angles(member, end, scene)):
            if not _is_aside(gap, way):
                continue
            yield MoveEnds(ends=((member.id, end),), shift=gap)
    if abs(point.z) <= MEET_MM:
        yield EndPiece(ends=((member.id, end),), kind=EndKind.FOOT)
    elif member.id in scene.ties and _is_clear(member, point, scene):
        yield EndPiece(ends=((member.id, end),), kind=EndKind.CAP)


def _goes_past(member: Member, reach: float, point: Vec, way: Vec, scene: Scene) -> bool:
    """Whether a tube is held where it passes, and goes on from there as far as it should: then it may end free."""
    return -reach >= scene.overhang(member) and scene.is_held_passing(member, point + way * reach)


def _gaps(member: Member, end: TubeEnd, scene: Scene) -> Iterator[Vec]:
    """Give the ways from an end to the centrelines and the fittings that it just misses sideways, the nearest first."""
    point, out = outward(member, end)
    others = [m for m in scene.frame.members if m.id != member.id]
    places = [m.path.point(nearest_on(m.path, point)[0]) for m in others]
    places += [j.at for j in scene.found.joints if j.fitting and not j.is_end_piece]
    ways = [p - point for p in places if MEET_MM < p.distance(point) <= _NEAR_MISS]
    aside = dict.fromkeys(w for w in ways if _is_aside(w, out))
    yield from sorted(aside, key=lambda v: round(v.length, 3))


def _is_aside(way: Vec, out: Vec) -> bool:
    return way.across(out).length > max(MEET_MM, _ASIDE * way.length)


def _at_good_angles(member: Member, end: TubeEnd, scene: Scene) -> Iterator[Vec]:
    """Give the ways from an end to where its tube, held at the other end, stands square or at 45 degrees to a tube."""
    point, far = outward(member, end)[0], outward(member, end.other)[0]
    others = [m for m in scene.frame.members if m.id != member.id]
    near = [m for m in others if MEET_MM < nearest_on(m.path, point)[1] <= _NEAR_MISS]
    for other, piece in ((m, p) for m in near for p in m.path.pieces if isinstance(p, Straight)):
        along = piece.tangent(0.0)
        foot = piece.start + along * (far - piece.start).dot(along)
        for side in (0.0, far.distance(foot), -far.distance(foot)):
            place = foot + along * side
            if nearest_on(other.path, place)[1] <= EXACT_MM and MEET_MM < place.distance(point) <= _NEAR_MISS:
                yield place - point


def _reaching(member: Member, end: TubeEnd, scene: Scene) -> Iterator[Single]:
    """Make an end go on, or back, to the nearest centreline that its line meets; put it right onto it."""
    point, way = outward(member, end)
    behind = min(_NEAR_MISS, member.path.length / 2.0)
    ahead = line(point - way * behind, point + way * _FAR)
    found = [
        (a.at_first - behind, other.path.point(a.at_second), a.distance)
        for other in scene.frame.members
        if other.id != member.id
        for a in approaches(ahead, other.path, MEET_MM)
        if a.at_first > behind or not _goes_past(member, a.at_first - behind, point, way, scene)
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
