"""What could be tried where fittings lack room on a tube, off a bend, past an end, or beside other bodies."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.geometry.closest import nearest_on
from tubeframe.geometry.tolerance import MEET_MM, TINY
from tubeframe.geometry.vector import X, Y, Z
from tubeframe.joints.facts import (
    BadSplit,
    BodiesMeet,
    InWall,
    OnBend,
    ShortOverhang,
    SplitFault,
    TooNear,
    TubeInBody,
)
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import EndPiece, Move, Operation, Resplit, Stretch

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.frame.member import MemberId
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, PortUse
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

SPARE = 0.05
"""Moved a little more than what is short, so that rounding does not bring the fault back [mm]."""
_SHARES = (1.0, 1.5, 2.0)
"""Beside a slanting tube more has to be given than what is short."""


def more_room(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Move either fitting's other tubes until both have room, or onto one point where one fitting takes both."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, TooNear)]
    fact, room = facts[0], max(f.short for f in facts) + SPARE
    (low, low_use), (high, high_use) = (
        scene.joint(fact.first, fact.tube),
        scene.joint(fact.second, fact.tube, last=True),
    )
    for joint, use, other, sign in ((high, high_use, low, 1.0), (low, low_use, high, -1.0)):
        member = scene.owner[use.tube]
        way = _along(scene, use) * sign
        names, fixed = scene.others(joint, member), scene.others(other, member)
        if joint.is_end_piece:
            yield from _free_end_out(scene, joint, room)
        elif not names:
            yield from _sleeve_along(scene, member, joint, way * room)
        else:
            for shift in (way * room, way * -fact.apart):
                if shift.length > TINY and (move := scene.move(names, shift, (member, *fixed))):
                    yield move


def off_the_bend(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Move what is clamped on along the bent tube, either way, a little or past the bend."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, OnBend)]
    fact, short = facts[0], max(f.short for f in facts)
    _, use = scene.joint(fact.fitting, fact.tube)
    bent = scene.members[scene.owner[use.tube]]
    names = (fault.common,) if fault.common else scene.members_of(fact.fitting.others(fact.tube))
    at, _ = nearest_on(bent.path, scene.tube(use.tube).path.point(use.at))
    for _, bend in bent.path.bends:
        for length in (short + SPARE, short + bend.length + SPARE):
            for sign in (1.0, -1.0):
                if move := scene.move(names, bent.path.tangent(at) * (sign * length), (bent.id,)):
                    yield move


def longer(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Make the tubes longer past their last fitting; else move that fitting's other tubes in from the end.

    A tube that ends right where it should be held may as well end in a fitting.
    """
    facts = [f.fact for f in fault.findings if isinstance(f.fact, ShortOverhang)]
    by = max(f.short for f in facts) + SPARE
    ends = [(scene.members[scene.members_of((f.tube,))[0]], f.end) for f in facts]
    if all(not end_kind(m, e).is_grounded for m, e in ends):
        yield Stretch(ends=tuple((m.id, e) for m, e in ends), by=by)
    if all(f.over <= MEET_MM for f in facts):
        yield EndPiece(ends=tuple((m.id, e) for m, e in ends), kind=EndKind.JOINT)
    member, end = ends[0]
    names = scene.members_of(facts[0].fitting.others(facts[0].tube))
    if move := scene.move(names, outward(member, end)[1] * -by, (member.id,)):
        yield move


def aside(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Move a tube away from a fitting: along what it sits on first, else along an axis."""
    fact = fault.fact
    assert isinstance(fact, TubeInBody | BodiesMeet)
    named = (fact.first, fact.second) if isinstance(fact, BodiesMeet) else (fact.fitting,)
    sides = [scene.members_of(n.tubes) for n in named]
    if isinstance(fact, TubeInBody):
        sides.insert(0, scene.members_of((fact.tube,)))
    names = (fault.common,) if fault.common else tuple(dict.fromkeys(n for side in sides for n in side))
    for share in _SHARES:
        for name in names:
            for way in _ways(scene, name):
                if move := scene.move((name,), way * (share * (fact.short + SPARE))):
                    yield move


def split_elsewhere(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Leave out stated places where no sleeve can be, or all of them where they make too long a part."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, BadSplit)]
    member = scene.members[scene.members_of((facts[0].member,))[0]]
    bad = {f.at for f in facts}
    if all(f.fault is not SplitFault.TOO_LONG for f in facts):
        yield Resplit(members=(member.id,), places=_without(member.split_at, bad))
    yield Resplit(members=(member.id,), places=())


def off_the_wall(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Move the whole frame off a wall."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, InWall)]
    wall = next(w for w in scene.frame.walls if w.id == facts[0].wall)
    by = max(f.short for f in facts) + SPARE
    yield Move(
        members=tuple(m.id for m in scene.frame.members),
        shift=wall.toward * by,
        boards=tuple(p.id for p in scene.frame.panels),
    )


def _without(places: tuple[float, ...], bad: set[float]) -> tuple[float, ...]:
    """Leave places out; one that is stated twice stays once."""
    kept = [p for p in places if not any(abs(p - b) <= MEET_MM for b in bad)]
    return tuple(kept) + tuple(sorted({b for b in bad if sum(abs(p - b) <= MEET_MM for p in places) > 1}))


def _along(scene: Scene, use: PortUse) -> Vec:
    return scene.tube(use.tube).path.tangent(use.at)


def _free_end_out(scene: Scene, joint: Joint, by: float) -> Iterator[Operation]:
    """Make a tube longer at the end that a cap is on."""
    use = joint.uses[0]
    member = scene.members[scene.owner[use.tube]]
    if use.end and not end_kind(member, use.end).is_grounded:
        yield Stretch(ends=((member.id, use.end),), by=by)


def _sleeve_along(scene: Scene, name: MemberId, joint: Joint, shift: Vec) -> Iterator[Operation]:
    """Move a sleeve whose place was stated along its tube."""
    member = scene.members[name]
    at, _ = nearest_on(member.path, joint.at)
    place = min(member.split_at, key=lambda p: abs(p - at), default=None)
    if place is not None:
        to = place + shift.dot(member.path.tangent(place))
        yield Resplit(members=(name,), places=tuple(to if p == place else p for p in member.split_at))


def _ways(scene: Scene, name: MemberId) -> Iterator[Vec]:
    """Give directions to move a tube in: along the tubes that hold it, then along the axes, each both ways."""
    held = [t.other_way for t in scene.ties.get(name, ())]
    known: list[Vec] = []
    for axis in (*held, X, Y, Z):
        for way in (axis, -axis):
            if all((way - k).length > TINY**0.5 for k in known):
                known.append(way)
                yield way
