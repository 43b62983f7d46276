"""Where a cut length comes from, term by term."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum, auto
from typing import TYPE_CHECKING

from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.path import Arc

if TYPE_CHECKING:
    from tubeframe.joints.joint import JointId
    from tubeframe.parts.piece import Piece, PieceEnd


class Source(Enum):
    """What a term of a cut length is."""

    WHOLE = auto()
    STRAIGHT = auto()
    BEND = auto()
    THICKNESS = auto()
    SETBACK = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A length that is added, or taken off when it is under 0 [mm], and what it is.

    `angle` is a bend's, or a swivelling end piece's [degree]; `kind` and `joint` are the fitting that takes it off at
    an end.
    """

    length: float
    source: Source
    end: TubeEnd | None = None
    kind: str = ""
    joint: JointId | None = None
    angle: float | None = None


def explained(piece: Piece, kinds: dict[str, str]) -> tuple[Term, ...]:
    """Return the terms that add up to a piece's exact cut length.

    Args:
        piece: the piece.
        kinds: the kind of fitting of every joint, by its id.

    """
    back = (piece.end_a.setback, piece.end_b.setback)
    ends = ((TubeEnd.A, piece.end_a), (TubeEnd.B, piece.end_b))
    return (*_along(piece, *back), *(_taken_off(name, end, kinds) for name, end in ends if end.setback))


def _along(piece: Piece, at_a: float, at_b: float) -> list[Term]:
    """Return the centreline from middle to middle: in one for a straight tube, else straights and bends in turn."""
    if not piece.bends:
        return [Term(length=piece.cut_length + at_a + at_b, source=Source.WHOLE)]
    terms = []
    last = len(piece.path.pieces) - 1
    for n, part in enumerate(piece.path.pieces):
        length = part.length + (at_a if n == 0 else 0.0) + (at_b if n == last else 0.0)
        if isinstance(part, Arc):
            terms.append(Term(length=length, source=Source.BEND, angle=math.degrees(part.angle)))
        else:
            terms.append(Term(length=length, source=Source.STRAIGHT))
    return terms


def _taken_off(name: TubeEnd, end: PieceEnd, kinds: dict[str, str]) -> Term:
    kind = kinds.get(end.joint or "", "")
    if end.kind.shortens:
        kind = kind or end.kind.value
        return Term(length=-end.setback, source=Source.THICKNESS, end=name, kind=kind, angle=end.swing_angle)
    return Term(length=-end.setback, source=Source.SETBACK, end=name, kind=kind, joint=end.joint)
