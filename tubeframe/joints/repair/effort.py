"""How much a repair gives up of what was stated: what is tried first gives up the least."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import nearest_on
from tubeframe.geometry.extent import around_points
from tubeframe.geometry.tolerance import ANGLE_DEG, PLANE_MM
from tubeframe.geometry.vector import angle_deg
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import (
    AddTube,
    Ask,
    CutOut,
    DropTube,
    EndPiece,
    Move,
    MoveEnds,
    Operation,
    Resplit,
    Single,
    Stretch,
    Trim,
    Turn,
    singles,
)
from tubeframe.joints.repair.seats import is_on

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.geometry.extent import Extent
    from tubeframe.joints.repair.scene import Scene

# How much is given up, as a length [mm] or a share of one: a length before a place, a place before a direction and a
# foot's place, an end piece before a tube more. Common practice, no source.
_PLACE = 2.5
_ANOTHER_TUBE = 0.1
_JOINT = 0.02
_FOOT = 4.0
_OUTLINE = 4.0
_TURNED = 3.0
_END_PIECE = 250.0
_IN_A_FITTING = 10.0
_NO_PLACE = 200.0
_ONE_LESS = 1.0
_CUT_OUT = 30.0
_ONE_MORE = 1000.0
_ODD = 50.0
_EIGHTH = 45.0


def effort(operation: Operation, frame: Frame, scene: Scene, box: Extent) -> float:
    """Return how much an operation that makes a frame gives up, as a length [mm]; the box is the outline before."""
    outgrown = not _same(box, outline(frame, scene))
    each = sum(_OF[type(s)](s, scene, outgrown) for s in singles(operation))
    return round(each + _ODD * _more_odd(scene.frame, frame), 3)


def _of_move(move: Move, scene: Scene, outgrown: bool) -> float:  # noqa: FBT001  one row of a table
    if len(move.members) == len(scene.members):
        return move.shift.length
    feet = any(e.is_grounded for m in move.members for e in scene.members[m].ends)
    held = sum(len(scene.ties.get(m, ())) for m in move.members)
    many = 1.0 + _ANOTHER_TUBE * (len(move.members) + len(move.boards) - 1) + _JOINT * held
    stays = (_FOOT if feet else 1.0) * (_OUTLINE if outgrown else 1.0)
    return move.shift.length * _PLACE * many * stays


def _of_ends(operation: MoveEnds, scene: Scene, outgrown: bool) -> float:  # noqa: FBT001
    del scene
    return operation.shift.length * len(operation.ends) * _TURNED * (_OUTLINE if outgrown else 1.0)


def _of_stretch(stretch: Stretch, scene: Scene, outgrown: bool) -> float:  # noqa: FBT001
    asked = bool(scene.frame.sized_by) and outgrown
    return abs(stretch.by) * len(stretch.ends) * (_OUTLINE if asked else 1.0)


def _of_turn(turn: Turn, scene: Scene, outgrown: bool) -> float:  # noqa: FBT001
    del outgrown
    return abs(turn.angle) * scene.members[turn.member].path.length * _TURNED


def _of_end_piece(operation: EndPiece, *_: object) -> float:
    return (_END_PIECE if operation.kind is not EndKind.JOINT else _IN_A_FITTING) * len(operation.ends)


def _of_resplit(operation: Resplit, scene: Scene, outgrown: bool) -> float:  # noqa: FBT001
    del outgrown
    old = scene.members[operation.members[0]].split_at
    kept = zip(old, operation.places, strict=True) if len(old) == len(operation.places) else ()
    return sum(abs(a - b) for a, b in kept) or _NO_PLACE


def _of_drop(*_: object) -> float:
    return _ONE_LESS


def _of_cut_out(operation: CutOut, *_: object) -> float:
    return _CUT_OUT * len(operation.pockets)


def _of_trim(trim: Trim, *_: object) -> float:
    return trim.by


def _of_tube(operation: AddTube, *_: object) -> float:
    return _ONE_MORE + operation.member.path.length


def _of_wish(*_: object) -> float:
    return 0.0


_OF: Mapping[type[Single], Callable[..., float]] = {
    Move: _of_move,
    MoveEnds: _of_ends,
    Stretch: _of_stretch,
    Turn: _of_turn,
    EndPiece: _of_end_piece,
    Resplit: _of_resplit,
    DropTube: _of_drop,
    CutOut: _of_cut_out,
    Trim: _of_trim,
    AddTube: _of_tube,
    Ask: _of_wish,
}


def _more_odd(before: Frame, after: Frame) -> int:
    """Count the ends of changed tubes that come to stand at an angle that no plain fitting has."""
    old = {m.id: m for m in before.members}
    changed = [m for m in after.members if m.id in old and old[m.id].path != m.path]
    return max(0, sum(_odd(m, after) for m in changed) - sum(_odd(old[m.id], before) for m in changed))


def _odd(member: Member, frame: Frame) -> int:
    found = 0
    for end in (e for e in TubeEnd if end_kind(member, e) is EndKind.JOINT):
        point, way = outward(member, end)
        for host in (m for m in frame.members if m.id != member.id and is_on(m, point)):
            angle = angle_deg(way, host.path.tangent(nearest_on(host.path, point)[0])) % _EIGHTH
            found += min(angle, _EIGHTH - angle) > ANGLE_DEG
    return found


def outline(frame: Frame, scene: Scene) -> Extent:
    """Return the box of the centrelines that carry a frame's size."""
    names = scene.frame.sized_by
    members = [m for m in frame.members if not names or m.id in names]
    return around_points(p for m in members for piece in m.path.pieces for p in (piece.start, piece.end))


def _same(before: Extent, after: Extent) -> bool:
    return before.low.distance(after.low) <= PLANE_MM and before.high.distance(after.high) <= PLANE_MM
