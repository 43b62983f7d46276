"""What could be tried for boards that tubes go into."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.joints.facts import InBoard
from tubeframe.joints.repair.apply import end_kind, outward
from tubeframe.joints.repair.operations import Move, Operation, Stretch
from tubeframe.joints.repair.room import SPARE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.joints.repair.faults import Fault
    from tubeframe.joints.repair.scene import Scene


def out_of_the_board(fault: Fault, scene: Scene) -> Iterator[Operation]:
    """Make free ends shorter that go into a board; else move the tubes down, or raise the board."""
    facts = [f.fact for f in fault.findings if isinstance(f.fact, InBoard)]
    by = max(f.short for f in facts) + SPARE
    board = next(p for p in scene.frame.panels if p.id == facts[0].panel)
    up = board.placement.z
    members = [scene.members[n] for n in scene.members_of(f.tube for f in facts)]
    ends = [(m.id, e) for m in members for e in TubeEnd if outward(m, e)[1].dot(up) > 0.0]
    if len(ends) == len(members) and all(end_kind(scene.members[m], e) is not EndKind.JOINT for m, e in ends):
        yield Stretch(ends=tuple(ends), by=-by)
    if move := scene.move([m.id for m in members], up * -by):
        yield move
    yield Move(members=(), shift=up * by, boards=(board.id,))
