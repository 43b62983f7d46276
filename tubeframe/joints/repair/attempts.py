"""What is tried about a fault, the least effort first. Nothing here is known to help: the search tries it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import FrameError
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
    TooShort,
    TubeInBody,
)
from tubeframe.joints.repair.angles import one_at_a_time
from tubeframe.joints.repair.apart import tied
from tubeframe.joints.repair.apply import applied
from tubeframe.joints.repair.boards import onto_the_rails, out_of_each_other, out_of_the_board, out_of_the_fittings
from tubeframe.joints.repair.couplers import onto_a_coupler, out_of_a_tube
from tubeframe.joints.repair.effort import effort, outline
from tubeframe.joints.repair.ends import onto_a_tube
from tubeframe.joints.repair.ground import apart, on_a_pivot, onto_the_floor, out_of_the_floor
from tubeframe.joints.repair.room import aside, longer, more_room, off_the_bend, off_the_wall, split_elsewhere
from tubeframe.joints.repair.twins import same_everywhere
from tubeframe.joints.room_facts import (
    BelowFloor,
    BoardFloats,
    BoardsMeet,
    EndInTube,
    FittingInBoard,
    OffFloor,
    SlopedFoot,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from tubeframe.errors import Fact
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.operations import Operation
    from tubeframe.joints.repair.scene import Scene
    from tubeframe.joints.repair.work import Work

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
    FittingInBoard: out_of_the_fittings,
    BoardsMeet: out_of_each_other,
    BoardFloats: onto_the_rails,
    EndInTube: out_of_a_tube,
    OffFloor: onto_the_floor,
    SlopedFoot: on_a_pivot,
    BelowFloor: out_of_the_floor,
    TooShort: apart,
    BodiesMeet: aside,
    TubeInBody: aside,
    LooseEnd: onto_a_tube,
    InWall: off_the_wall,
    BadSplit: split_elsewhere,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """An operation, the frame that it makes, and how much it gives up [mm]."""

    operation: Operation
    frame: Frame
    effort: float


def attempts(fault: Fault, scene: Scene, work: Work) -> tuple[Attempt, ...]:
    """Return what could be tried about a fault; the least effort first."""
    if not fault.parts:
        return _least_first(_TRIES.get(type(fault.fact), _nothing)(fault, scene), scene, work)
    each = [[a.operation for a in attempts(part, scene, work)] for part in fault.parts]
    return _least_first(same_everywhere(each), scene, work)


def _nothing(fault: Fault, scene: Scene) -> Iterator[Operation]:
    del fault, scene
    yield from ()


def _least_first(operations: Iterator[Operation], scene: Scene, work: Work) -> tuple[Attempt, ...]:
    box = outline(scene.frame, scene)
    tried: dict[Operation, Attempt | None] = {}
    for operation in operations:
        if work.over:
            break
        if operation in tried:
            continue
        work.weigh(scene.frame)
        made = _done(operation, scene.frame)
        if made is None:
            tried[operation] = None
            continue
        given_up = effort(operation, made, scene, box)
        tried[operation] = Attempt(operation=operation, frame=made, effort=given_up)
    return tuple(sorted((a for a in tried.values() if a), key=lambda a: a.effort)[:_MOST])


def _done(operation: Operation, frame: Frame) -> Frame | None:
    try:
        return applied(frame, operation)
    except FrameError:
        return None
