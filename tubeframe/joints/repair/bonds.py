"""What findings have in common: what one change should mend together, what is the same elsewhere, what comes first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Severity
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
    SplitFault,
    TooNear,
    TubeInBody,
)
from tubeframe.joints.repair.apply import outward
from tubeframe.joints.room_facts import BelowFloor, EndInTube, FittingInBoard, OffFloor, SlopedFoot

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator, Mapping

    from tubeframe.errors import Fact, Finding
    from tubeframe.joints.repair.scene import Scene

_HUGE = 1e9
_LATE = 1.0
_LAST = 9.0


@dataclass(frozen=True, slots=True)
class Host:
    """The tube that several ends just miss."""

    member: str


def is_fault(finding: Finding) -> bool:
    """Whether a finding asks for a repair: an error, or a square foot on a slope."""
    return finding.severity is Severity.ERROR or isinstance(finding.fact, SlopedFoot)


def bonds(fact: Fact, scene: Scene) -> tuple[Hashable, ...]:
    """Return what a finding may have in common with others of its kind; a tube's name, where it is one."""
    make = _BONDS.get(type(fact))
    return tuple(make(fact, scene)) if make else ()


def _of_overhang(fact: ShortOverhang, scene: Scene) -> Iterator[Hashable]:
    """Tubes that are too short by one length at the same end, and both ends of one."""
    member = scene.members_of((fact.tube,))[0]
    yield (round(fact.short, 1), *(round(c, 3) for c in outward(scene.members[member], fact.end)[1]))
    yield (round(fact.short, 1), member)


def _of_two_fittings(fact: TooNear, scene: Scene) -> Iterator[Hashable]:
    """Two tubes that are too near to each other along several others."""
    yield frozenset(scene.members_of(named.others(fact.tube)) for named in (fact.first, fact.second))


def _of_loose_end(fact: LooseEnd, scene: Scene) -> Iterator[Hashable]:
    """Both ends of a tube, two ends that miss each other, and all ends that miss one tube."""
    del scene
    yield fact.member
    if fact.nearest is not None:
        yield frozenset((fact.member, fact.nearest))
        yield Host(fact.nearest)


def _of_split(fact: BadSplit, scene: Scene) -> Iterator[Hashable]:
    del scene
    yield fact.member


def _of_pair(fact: Fouling | OnePoint, scene: Scene) -> Iterator[Hashable]:
    yield from scene.members_of((fact.first, fact.second))


def _of_bend(fact: OnBend, scene: Scene) -> Iterator[Hashable]:
    yield from scene.members_of(fact.fitting.others(fact.tube))


def _of_tube_in_body(fact: TubeInBody, scene: Scene) -> Iterator[Hashable]:
    yield from scene.members_of((fact.tube,))


def _of_bodies(fact: BodiesMeet, scene: Scene) -> Iterator[Hashable]:
    yield from scene.members_of((*fact.first.tubes, *fact.second.tubes))


def _of_board(fact: InBoard, scene: Scene) -> Iterator[Hashable]:
    del scene
    yield (fact.panel, round(fact.short, 1))
    yield (fact.panel,)


def _of_fitting_in_board(fact: FittingInBoard, scene: Scene) -> Iterator[Hashable]:
    del scene
    yield (fact.panel,)


def _of_foot(fact: OffFloor, scene: Scene) -> Iterator[Hashable]:
    """Feet that are off the floor by the same height."""
    del scene
    yield (round(fact.height, 1),)


def _of_sloped_foot(fact: SlopedFoot, scene: Scene) -> Iterator[Hashable]:
    del scene
    yield (fact.piece,)


def _of_depth(fact: BelowFloor, scene: Scene) -> Iterator[Hashable]:
    del scene
    yield (round(fact.short, 1),)


def _of_wall(fact: InWall, scene: Scene) -> Iterator[Hashable]:
    del scene
    yield (fact.wall,)


_BONDS: Mapping[type[Fact], Callable[..., Iterator[Hashable]]] = {
    ShortOverhang: _of_overhang,
    TooNear: _of_two_fittings,
    LooseEnd: _of_loose_end,
    BadSplit: _of_split,
    Fouling: _of_pair,
    OnePoint: _of_pair,
    OnBend: _of_bend,
    TubeInBody: _of_tube_in_body,
    BodiesMeet: _of_bodies,
    InBoard: _of_board,
    InWall: _of_wall,
    FittingInBoard: _of_fitting_in_board,
    OffFloor: _of_foot,
    SlopedFoot: _of_sloped_foot,
    BelowFloor: _of_depth,
}


def shape(fact: Fact) -> Hashable:
    """Say what is the same of a fault at several places; None where that says nothing."""
    match fact:
        case TooNear():
            return (TooNear, fact.first.kind, fact.second.kind, round(fact.short, 1), round(fact.apart, 1))
        case NoFitting():
            nearest = fact.nearest and (fact.nearest[0], type(fact.nearest[1]))
            return (NoFitting, fact.runs, fact.branches, nearest, round(fact.at.z, 1))
        case LooseEnd():
            return (LooseEnd, round(fact.gap, 1), fact.is_on_bend)
        case Fouling():
            return (Fouling, round(fact.distance, 1), round(fact.least, 1))
        case OnBend():
            return (OnBend, fact.fitting.kind, round(fact.short, 1))
        case TubeInBody():
            return (TubeInBody, fact.fitting.kind, round(fact.short, 1))
        case FittingInBoard():
            return (FittingInBoard, fact.fitting.kind, round(fact.short, 1))
        case InBoard():
            return (InBoard, round(fact.short, 1))
        case BadSplit():
            return (BadSplit, round(fact.at, 1), fact.fault)
        case _:
            return None


def sort_of(fact: Fact) -> Hashable:
    """Say of what sort a want of room is: which kinds of fittings lack it; None of anything else."""
    match fact:
        case TooNear():
            return (TooNear, frozenset((fact.first.kind, fact.second.kind)))
        case TubeInBody():
            return (TubeInBody, fact.fitting.kind)
        case BodiesMeet():
            return (BodiesMeet, frozenset((fact.first.kind, fact.second.kind)))
        case FittingInBoard():
            return (FittingInBoard, fact.fitting.kind)
        case _:
            return None


def urgency(fact: Fact) -> float:
    """Rank a fact: what has no joint at all, then what hangs on nothing, then by what is short [mm].

    Bodies that run into each other come after: more room on a tube mends most of them. Then cut-outs of boards.
    """
    match fact:
        case LooseEnd() | EndInTube():
            return -3.0 * _HUGE
        case OnePoint() | NoFitting():
            return -2.0 * _HUGE
        case BadSplit():
            return 0.0 if fact.fault is SplitFault.IN_THE_WAY else -2.0 * _HUGE
        case Apart():
            return -_HUGE
        case FittingInBoard():
            return _LATE
        case SlopedFoot():
            return _LAST
        case _:
            return _by_size(fact)


def _by_size(fact: Fact) -> float:
    match fact:
        case InBoard():
            return -fact.short if fact.short < fact.thickness else _LATE + 1.0
        case Fouling():
            return fact.distance - fact.least
        case OffFloor():
            return -abs(fact.height)
        case TooNear() | OnBend() | ShortOverhang() | InWall() | BelowFloor():
            return -fact.short
        case _:
            return 0.0
