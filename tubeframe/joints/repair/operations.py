"""What can be done to a frame. An operation says what changes; not whether it helps, and not how it is told."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.frame.member import EndKind, Member, MemberId
    from tubeframe.frame.node import TubeEnd
    from tubeframe.frame.panel import Pocket
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """Tubes and boards go by a shift [mm]; ends that sit on each other stay together, feet stay on the floor."""

    members: tuple[MemberId, ...]
    shift: Vec
    boards: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveEnds:
    """Ends of straight tubes go by a shift [mm]; the other ends stay."""

    ends: tuple[tuple[MemberId, TubeEnd], ...]
    shift: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Tubes become longer at an end each, or shorter by a length under 0 [mm]."""

    ends: tuple[tuple[MemberId, TubeEnd], ...]
    by: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A straight tube turns about a point [mm] and a unit axis by an angle [radian]."""

    member: MemberId
    about: Vec
    axis: Vec
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EndPiece:
    """Tubes' ends get pieces of their own, or go into fittings."""

    ends: tuple[tuple[MemberId, TubeEnd], ...]
    kind: EndKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Resplit:
    """Tubes are parted at other places than the stated ones [mm from A]; none: where they have to be, if at all."""

    members: tuple[MemberId, ...]
    places: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DropTube:
    """A tube that is there twice is left out; what it carried goes to its twin."""

    member: MemberId
    twin: MemberId


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOut:
    """A board is cut out from below, or through."""

    board: str
    pockets: tuple[Pocket, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trim:
    """A board is cut back by a length [mm] at the edge that faces a way."""

    board: str
    edge: Vec
    by: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AddTube:
    """A tube comes between two others."""

    member: Member
    between: tuple[MemberId, MemberId]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """Kinds of fittings are asked for at places [mm]."""

    kind: str
    at: tuple[Vec, ...]


_PARALLEL = 1e-3

Single = Move | MoveEnds | Stretch | Turn | EndPiece | Resplit | DropTube | CutOut | Trim | AddTube | Ask


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """Operations that mend a fault only when all are done, one after the other."""

    parts: tuple[Single, ...]


Operation = Single | Together


def singles(operation: Operation) -> Iterator[Single]:
    """Give an operation's parts, or itself."""
    if isinstance(operation, Together):
        yield from operation.parts
    else:
        yield operation


def only_more_of(a: Operation, b: Operation) -> bool:
    """Whether two operations do the same to the same tubes and boards, only farther."""
    return len(list(singles(a))) == len(list(singles(b))) and all(map(_goes_on, singles(a), singles(b)))


def _goes_on(a: Single, b: Single) -> bool:
    if isinstance(a, Move) and isinstance(b, Move):
        return (a.members, a.boards) == (b.members, b.boards) and a.shift.unit.distance(b.shift.unit) < _PARALLEL
    if isinstance(a, Stretch) and isinstance(b, Stretch):
        return a.ends == b.ends and a.by * b.by > 0.0
    return a == b
