"""What could be tried for boards: tubes and fittings in them, boards in each other, and boards that nothing carries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.frame.panel import Panel, Pocket
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.overlap import farthest
from tubeframe.geometry.path import Straight
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import Vec
from tubeframe.joints.facts import InBoard
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import CutOut, Move, Operation, Stretch, Trim
from tubeframe.joints.repair.room import SPARE
from tubeframe.joints.room_facts import BoardFloats, BoardsMeet, FittingInBoard

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.frame.member import Member
    from tubeframe.geometry.convex import Convex
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

_PLAY = 3.175
"""Room beside what stands in a cut-out: 1/8 in. Common practice, no source [mm]."""
_THIN = 3.0
"""Less wood than this over a pocket is cut away too [mm]."""


def out_of_the_board(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Make free ends shorter that go into a board, raise the board, move the tubes down, or cut the board out."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, InBoard)]
    by = max(f.short for f in facts) + SPARE
    board = _board(scene, facts[0].panel)
    up = board.placement.z
    members = [scene.members[n] for n in scene.members_of(f.tube for f in facts)]
    ends = [(m.id, e) for m in members for e in TubeEnd if outward(m, e)[1].dot(up) > 0.0]
    if len(ends) == len(members) and all(end_kind(scene.members[m], e) is not EndKind.JOINT for m, e in ends):
        yield Stretch(ends=tuple(ends), by=-by)
    if all(f.short < f.thickness for f in facts):
        yield Move(members=(), shift=up * by, boards=(board.id,))
    if move := scene.move([m.id for m in members], up * -by):
        yield move
    yield from _cut_out(board, [list(_bars(m, board, scene)) for m in members])


def out_of_the_fittings(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Cut a board out where fittings stand in it, or raise it."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, FittingInBoard)]
    board = _board(scene, facts[0].panel)
    names = [f.fitting for f in facts]
    yield from _cut_out(board, [list(j.body) for j in scene.found.joints if j.named in names])
    yield Move(members=(), shift=board.placement.z * (max(f.short for f in facts) + SPARE), boards=(board.id,))


def out_of_each_other(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Cut either of two boards back at an edge, or move it off the other, along its edges or up."""
    fact = fault.fact
    assert isinstance(fact, BoardsMeet)
    for name in (fact.second, fact.first):
        place = _board(scene, name).placement
        for way in (place.x, -place.x, place.y, -place.y):
            yield Move(members=(), shift=way * (fact.short + SPARE), boards=(name,))
            yield Trim(board=name, edge=-way, by=fact.short + SPARE)
        yield Move(members=(), shift=place.z * (fact.short + SPARE), boards=(name,))


def onto_the_rails(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Lower a board that floats onto the tube under it, or raise it out of those that it is sunk into."""
    fact = fault.fact
    assert isinstance(fact, BoardFloats)
    board = _board(scene, fact.panel)
    if fact.nearest is not None:
        yield Move(members=(), shift=board.placement.z * -fact.gap, boards=(board.id,))


def _board(scene: Scene, name: str) -> Panel:
    return next(p for p in scene.frame.panels if p.id == name)


def _bars(member: Member, board: Panel, scene: Scene) -> Iterator[Convex]:
    """Give what of a tube's straights is between the faces of a board."""
    radius = scene.outside(member) / 2.0
    for piece in (p for p in member.path.pieces if isinstance(p, Straight)):
        low, high = (_local(board, p).z for p in (piece.start, piece.end))
        if abs(high - low) <= TINY:
            yield Cylinder(start=piece.start, end=piece.end, radius=radius)
            continue
        shares = sorted(min(1.0, max(0.0, (z - low) / (high - low))) for z in (-radius, board.thickness + radius))
        start, end = (piece.point(piece.length * s) for s in shares)
        if start.distance(end) > TINY:
            yield Cylinder(start=start, end=end, radius=radius)


def _cut_out(board: Panel, things: list[list[Convex]]) -> Iterator[CutOut]:
    pockets = tuple(p for pieces in things if (p := _pocket(board, pieces)))
    if pockets:
        yield CutOut(board=board.id, pockets=tuple(dict.fromkeys(pockets)))


def _pocket(board: Panel, pieces: list[Convex]) -> Pocket | None:
    """Return the pocket that clears what of some pieces is above a board's underside, within its outline."""
    place, size = board.placement, (board.length, board.width)
    above = [p for p in pieces if _local(board, farthest(p, place.z)).z > 0.0]
    if not above:
        return None
    sides = []
    for axis, most in zip((place.x, place.y), size, strict=True):
        low = min((farthest(p, -axis) - place.origin).dot(axis) for p in above) - _PLAY
        high = max((farthest(p, axis) - place.origin).dot(axis) for p in above) + _PLAY
        sides.append((max(0.0, low), min(most, high)))
    (x0, x1), (y0, y1) = sides
    deep = max(_local(board, farthest(p, place.z)).z for p in above) + _PLAY / 2.0
    deep = deep if deep < board.thickness - _THIN else board.thickness
    return Pocket(low=Vec(x0, y0, 0.0), high=Vec(x1, y1, deep)) if x0 < x1 and y0 < y1 else None


def _local(board: Panel, point: Vec) -> Vec:
    return board.placement.seen(point - board.placement.origin)
