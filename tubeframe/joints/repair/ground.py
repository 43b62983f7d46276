"""What could be tried where things are off the floor or below it, or where a tube is left too short."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import OnFloor
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.overlap import farthest
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import Z
from tubeframe.joints.facts import TooShort
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import EndPiece, Move, Operation, Stretch
from tubeframe.joints.repair.room import SPARE
from tubeframe.joints.room_facts import BelowFloor, OffFloor, SlopedFoot

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.frame.member import MemberId
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

_LEVEL = 0.5


def onto_the_floor(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Make legs longer or shorter to the floor; when all that stands is off by the same, lower or raise the frame."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, OffFloor)]
    height = facts[0].height
    standing = [(m.id, e) for m in scene.frame.members for e in TubeEnd if end_kind(m, e).is_grounded]
    if len(facts) == len(standing):
        yield _whole_frame(scene, -height)
    ends = [(scene.members[scene.members_of((f.tube,))[0]], f.end) for f in facts]
    ways = [outward(m, e)[1].z for m, e in ends]
    if all(abs(w - ways[0]) <= TINY**0.5 for w in ways) and abs(ways[0]) > TINY**0.5:
        yield Stretch(ends=tuple((m.id, e) for m, e in ends), by=-height / ways[0])


def on_a_pivot(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Put pieces that swivel under tubes that lean."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, SlopedFoot)]
    ends = tuple((scene.members_of((f.tube,))[0], f.end) for f in facts)
    bolted = all(end_kind(scene.members[m], e).on_floor is OnFloor.BOLTED for m, e in ends)
    yield EndPiece(ends=ends, kind=EndKind.SWIVEL_BASE if bolted else EndKind.SWIVEL_FOOT)


def out_of_the_floor(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Make free ends shorter that go below the floor, or move tubes up."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, BelowFloor)]
    by = max(f.short for f in facts) + SPARE
    things = [f.thing for f in facts]
    members = scene.members_of(n for t in things for n in ((t,) if isinstance(t, str) else t.tubes))
    for name in members:
        member = scene.members[name]
        for end in (e for e in TubeEnd if end_kind(member, e) in {EndKind.CAP, EndKind.OPEN}):
            _, way = outward(member, end)
            if way.z < -(TINY**0.5):
                yield Stretch(ends=((name, end),), by=by / way.z)
    lying = [n for n in members if not any(k.is_grounded for k in scene.members[n].ends)]
    level = [n for n in lying if abs(outward(scene.members[n], TubeEnd.B)[1].z) < _LEVEL]
    for names in (level, lying, *([n] for n in lying)):
        for rise in (by, max(by, _deepest(names, scene) + SPARE)):
            if names and (move := scene.move(names, Z * rise)):
                yield move


def _deepest(names: list[MemberId], scene: Scene) -> float:
    """Return how deep the fittings on some tubes go below the floor [mm]."""
    bodies = (j.body for j in scene.found.joints if {*scene.members_of(u.tube for u in j.uses)} & {*names})
    return max((-farthest(piece, -Z).z for body in bodies for piece in body), default=0.0)


def apart(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Move what holds a tube's ends away from each other, until a piece is left between the fittings."""
    fact = fault.fact
    assert isinstance(fact, TooShort)
    member = scene.members[scene.members_of((fact.tube,))[0]]
    for end in (TubeEnd.B, TubeEnd.A):
        point, way = outward(member, end)
        hosts = [t.other for t in scene.ties.get(member.id, ()) if scene.is_at(t.other, point)]
        if move := scene.move(hosts, way * (fact.least - fact.left + SPARE)):
            yield move


def _whole_frame(scene: Scene, rise: float) -> Move:
    return Move(
        members=tuple(m.id for m in scene.frame.members),
        shift=Z * rise,
        boards=tuple(p.id for p in scene.frame.panels),
    )
