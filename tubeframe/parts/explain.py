"""Where a cut length comes from, term by term."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.path import Arc

if TYPE_CHECKING:
    from tubeframe.parts.piece import Piece, PieceEnd


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A length that is added, or taken off when it is under 0 [mm], and what it is."""

    length: float
    words: str


def explained(piece: Piece, kinds: dict[str, str]) -> tuple[Term, ...]:
    """Return the terms that add up to a piece's exact cut length.

    Args:
        piece: the piece.
        kinds: the kind of fitting of every joint, by its id.

    """
    back = (piece.end_a.setback, piece.end_b.setback)
    setbacks = [
        Term(length=-end.setback, words=f"end {name}: {_taken_off(end, kinds)}")
        for name, end in (("A", piece.end_a), ("B", piece.end_b))
        if end.setback
    ]
    return (*_along(piece, *back), *setbacks)


def _along(piece: Piece, at_a: float, at_b: float) -> list[Term]:
    """Return the centreline from middle to middle: in one for a straight tube, else straights and bends in turn."""
    if not piece.bends:
        return [Term(length=piece.cut_length + at_a + at_b, words="from middle to middle of what is at its ends")]
    terms = []
    last = len(piece.path.pieces) - 1
    for n, part in enumerate(piece.path.pieces):
        extra = (at_a if n == 0 else 0.0) + (at_b if n == last else 0.0)
        words = "straight"
        if isinstance(part, Arc):
            words = f"bend: radius x angle, {math.degrees(part.angle):.1f} degrees"
        terms.append(Term(length=part.length + extra, words=words))
    return terms


def _taken_off(end: PieceEnd, kinds: dict[str, str]) -> str:
    kind = kinds.get(end.joint or "", "")
    if end.kind.shortens:
        slant = f", over the sine of {end.swing_angle:.1f} degrees" if end.swing_angle else ""
        return f"thickness of the {kind or end.kind.value}{slant}"
    return f"setback in the {kind} ({end.joint})"
