"""Faults that are alike at several places, such as both sides of a frame: one change, the same at each place."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.joints.repair.operations import (
    EndPiece,
    Move,
    MoveEnds,
    Operation,
    Resplit,
    Stretch,
    Together,
    Turn,
    singles,
)

_ALIKE = 1e-6

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Sequence

    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.repair.operations import Single


def same_everywhere(tries: Sequence[Sequence[Operation]]) -> Iterator[Operation]:
    """Give what could be done at the first place, together with the same at every other place, mirrored if need be."""
    first, *others = tries
    for operation in first:
        chosen = [operation]
        for other in others:
            like = [o for o in other if _shape(o) == _shape(operation)]
            if not like:
                break
            chosen.append(
                next((o for o in like if o in chosen), next((o for o in like if _same(o, operation)), like[0]))
            )
        else:
            yield _merged(dict.fromkeys(chosen))


def _shape(operation: Operation) -> tuple[Hashable, ...]:
    return tuple(_single_shape(s) for s in singles(operation))


def _single_shape(operation: Single) -> Hashable:
    """Say what is alike in an operation and in its mirror image at another place."""
    match operation:
        case Move():
            return (Move, *_sizes(operation.shift), len(operation.members), len(operation.boards))
        case MoveEnds():
            return (MoveEnds, *_sizes(operation.shift), len(operation.ends))
        case Stretch():
            return (Stretch, round(operation.by, 2), len(operation.ends))
        case Turn():
            return (Turn, round(abs(operation.angle), 4))
        case EndPiece():
            return (EndPiece, operation.kind, len(operation.ends))
        case Resplit():
            return (Resplit, operation.places)
        case _:
            return operation


def _sizes(shift: Vec) -> tuple[float, ...]:
    return tuple(abs(round(c, 2)) for c in shift)


def _same(a: Operation, b: Operation) -> bool:
    """Whether two operations go the same way, not the mirrored one."""
    shifts = [[s.shift for s in singles(o) if isinstance(s, Move | MoveEnds)] for o in (a, b)]
    return all(v.distance(w) < 1.0 for v, w in zip(*shifts, strict=True))


def _merged(operations: dict[Operation, None]) -> Operation:
    """Put operations together; moves by one shift, and ends stretched by one length, are one."""
    merged: list[Single] = []
    for one in (s for o in operations for s in singles(o)):
        like = next(((n, both) for n, m in enumerate(merged) if (both := _joined(m, one))), None)
        if like is None:
            merged.append(one)
        else:
            merged[like[0]] = like[1]
    return merged[0] if len(merged) == 1 else Together(parts=tuple(merged))


def _joined(a: Single, b: Single) -> Single | None:
    """Make one operation of two that do the same; None when they do not."""
    if isinstance(a, Move) and isinstance(b, Move) and a.shift.distance(b.shift) < _ALIKE:
        members, boards = dict.fromkeys(a.members + b.members), dict.fromkeys(a.boards + b.boards)
        return replace(a, members=tuple(members), boards=tuple(boards))
    if isinstance(a, MoveEnds) and isinstance(b, MoveEnds) and a.shift.distance(b.shift) < _ALIKE:
        return replace(a, ends=tuple(dict.fromkeys(a.ends + b.ends)))
    if isinstance(a, Stretch) and isinstance(b, Stretch) and abs(a.by - b.by) < _ALIKE:
        return replace(a, ends=tuple(dict.fromkeys(a.ends + b.ends)))
    if isinstance(a, EndPiece) and isinstance(b, EndPiece) and a.kind is b.kind:
        return replace(a, ends=tuple(dict.fromkeys(a.ends + b.ends)))
    if isinstance(a, Resplit) and isinstance(b, Resplit) and a.places == b.places:
        return replace(a, members=tuple(dict.fromkeys(a.members + b.members)))
    return None
