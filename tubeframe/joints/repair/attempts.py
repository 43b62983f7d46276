"""What is tried about a fault, the least effort first. Nothing here is known to help: the search tries it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import FrameError
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import nearest_on
from tubeframe.geometry.extent import around_points
from tubeframe.geometry.tolerance import ANGLE_DEG, MEET_MM, PLANE_MM
from tubeframe.geometry.vector import angle_deg
from tubeframe.joints.facts import (
    Apart,
    BadSplit,
    BodiesMeet,
    Fouling,
    InBoard,
    InWall,
    LooseEnd,
    NoFitting,
    OnBend,
    OnePoint,
    ShortOverhang,
    TooNear,
    TubeInBody,
)
from tubeframe.joints.repair.apply import GROUNDED, applied, end_kind, outward
from tubeframe.joints.repair.boards import out_of_the_board
from tubeframe.joints.repair.couplers import onto_a_coupler, tied
from tubeframe.joints.repair.ends import one_at_a_time, onto_a_tube
from tubeframe.joints.repair.operations import (
    AddTube,
    Ask,
    DropTube,
    EndPiece,
    Move,
    MoveEnds,
    Operation,
    Resplit,
    Single,
    Stretch,
    Turn,
    singles,
)
from tubeframe.joints.repair.room import aside, longer, more_room, off_the_bend, off_the_wall, split_elsewhere
from tubeframe.joints.repair.twins import same_everywhere

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from tubeframe.errors import Fact
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.geometry.extent import Extent
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene

_MOST = 24
_TRIES: Mapping[type[Fact], Callable[[Fault, Scene], Iterator[Operation]]] = {
    TooNear: more_room,
    OnBend: off_the_bend,
    ShortOverhang: longer,
    Fouling: onto_a_coupler,
    OnePoint: onto_a_coupler,
    Apart: tied,
    NoFitting: one_at_a_time,
    InBoard: out_of_the_board,
    BodiesMeet: aside,
    TubeInBody: aside,
    LooseEnd: onto_a_tube,
    InWall: off_the_wall,
    BadSplit: split_elsewhere,
}
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
_ONE_MORE = 1000.0
_ODD = 50.0
_EIGHTH = 45.0


def attempts(fault: Fault, scene: Scene) -> tuple[tuple[Operation, Frame], ...]:
    """Return what could be tried about a fault, with the frame that it makes; the least effort first."""
    if not fault.parts:
        return _least_first(_TRIES.get(type(fault.fact), _nothing)(fault, scene), scene)
    each = [[o for o, _ in attempts(part, scene)] for part in fault.parts]
    return _least_first(same_everywhere(each), scene)


def _nothing(fault: Fault, scene: Scene) -> Iterator[Operation]:
    del fault, scene
    yield from ()


def _least_first(operations: Iterator[Operation], scene: Scene) -> tuple[tuple[Operation, Frame], ...]:
    box = _outline(scene.frame, scene)
    tried = [(o, f) for o in dict.fromkeys(operations) if (f := _done(o, scene.frame))]
    efforts = [
        round(_effort(o, scene, same_outline=_same(box, _outline(f, scene))) + _ODD * _more_odd(scene.frame, f), 3)
        for o, f in tried
    ]
    order = sorted(range(len(tried)), key=efforts.__getitem__)
    return tuple(tried[k] for k in order[:_MOST])


def _done(operation: Operation, frame: Frame) -> Frame | None:
    try:
        return applied(frame, operation)
    except FrameError:
        return None


def _effort(operation: Operation, scene: Scene, *, same_outline: bool) -> float:
    return sum(_single_effort(s, scene, same_outline=same_outline) for s in singles(operation))


def _single_effort(operation: Single, scene: Scene, *, same_outline: bool) -> float:
    match operation:
        case Move():
            feet = any(e in GROUNDED for m in operation.members for e in scene.members[m].ends)
            held = sum(len(scene.ties.get(m, ())) for m in operation.members)
            many = 1.0 + _ANOTHER_TUBE * (len(operation.members) + len(operation.boards) - 1) + _JOINT * held
            stays = (_FOOT if feet else 1.0) * (1.0 if same_outline else _OUTLINE)
            return operation.shift.length * _PLACE * many * stays
        case MoveEnds():
            return operation.shift.length * len(operation.ends) * _TURNED * (1.0 if same_outline else _OUTLINE)
        case Stretch():
            asked = bool(scene.frame.sized_by) and not same_outline
            return abs(operation.by) * len(operation.ends) * (_OUTLINE if asked else 1.0)
        case Turn():
            return abs(operation.angle) * scene.members[operation.member].path.length * _TURNED
        case EndPiece():
            return _END_PIECE if operation.kind is not EndKind.JOINT else _IN_A_FITTING
        case Resplit():
            old = scene.members[operation.members[0]].split_at
            kept = zip(old, operation.places, strict=True) if len(old) == len(operation.places) else ()
            return sum(abs(a - b) for a, b in kept) or _NO_PLACE
        case DropTube():
            return _ONE_LESS
        case AddTube():
            return _ONE_MORE + operation.member.path.length
        case Ask():
            return 0.0


def _more_odd(before: Frame, after: Frame) -> int:
    """Count the ends of changed tubes that come to stand at an angle that no plain fitting has."""
    old = {m.id: m for m in before.members}
    changed = [m for m in after.members if m.id in old and old[m.id].path != m.path]
    return max(0, sum(_odd(m, after) for m in changed) - sum(_odd(old[m.id], before) for m in changed))


def _odd(member: Member, frame: Frame) -> int:
    found = 0
    for end in (e for e in TubeEnd if end_kind(member, e) is EndKind.JOINT):
        point, way = outward(member, end)
        for host in (m for m in frame.members if m.id != member.id):
            at, gap = nearest_on(host.path, point)
            angle = angle_deg(way, host.path.tangent(at)) % _EIGHTH
            found += gap <= MEET_MM and min(angle, _EIGHTH - angle) > ANGLE_DEG
    return found


def _outline(frame: Frame, scene: Scene) -> Extent:
    """Return the box of the centrelines that carry the frame's size."""
    names = scene.frame.sized_by
    members = [m for m in frame.members if not names or m.id in names]
    return around_points(p for m in members for piece in m.path.pieces for p in (piece.start, piece.end))


def _same(before: Extent, after: Extent) -> bool:
    return before.low.distance(after.low) <= PLANE_MM and before.high.distance(after.high) <= PLANE_MM
