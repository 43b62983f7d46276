"""The numbers that tell whether a frame is square."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import LOWER_MM
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.subframes import SubFrame
    from tubeframe.parts.piece import Parts, Piece

_PARALLEL = 1e-6


def sub_frame_sides(flat: SubFrame, parts: Parts) -> tuple[Piece, Piece] | None:
    """Return a flat sub-frame's longest pair of parallel tubes that are the sides of a rectangle, the widest apart."""
    members = set(flat.members)
    pieces = [p for p in parts.pieces if p.member in members and not p.bends]
    pairs = [pair for row in _rows(pieces) if (pair := _outermost(row)) is not None]
    return max(pairs, key=lambda pair: (pair[0].cut_length, _gap(*pair)), default=None)


def _rows(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Put tubes together that stand side by side, or on each other; only those of like length are compared."""
    rows: list[list[Piece]] = []
    open_rows: list[list[Piece]] = []
    for piece in sorted(pieces, key=lambda p: -p.cut_length):
        open_rows = [r for r in open_rows if r[0].cut_length - piece.cut_length < LOWER_MM]
        row = next((r for r in open_rows if _in_row(r[0], piece)), None)
        if row is None:
            rows.append([piece])
            open_rows.append(rows[-1])
        else:
            row.append(piece)
    return rows


def _outermost(row: Sequence[Piece]) -> tuple[Piece, Piece] | None:
    """Return the two tubes of a row in one plane that are farthest apart, as stated; None when there is one place."""
    one = max(row, key=lambda p: _gap(row[0], p))
    other = max(row, key=lambda p: _gap(one, p))
    if _gap(one, other) <= LOWER_MM:
        return None
    return (one, other) if row.index(one) < row.index(other) else (other, one)


def sub_frame_diagonal(flat: SubFrame, parts: Parts) -> float | None:
    """Return the length of both diagonals between a flat sub-frame's sides; None when it has none [mm].

    Measured from end to end of the tubes; the same edge of each gives the same number as their middles.
    """
    sides = sub_frame_sides(flat, parts)
    return None if sides is None else sides[0].path.start.distance(sides[1].path.end)


def floor_diagonal(parts: Parts) -> float:
    """Return the diagonal of the rectangle of the tubes that stand on the floor, between their middles [mm]."""
    lowest = min(p.path.start.z for p in parts.pieces)
    feet = [p.path.start for p in parts.pieces if p.path.start.z < lowest + LOWER_MM]
    width = max(f.x for f in feet) - min(f.x for f in feet)
    length = max(f.y for f in feet) - min(f.y for f in feet)
    return Vec(width, length, 0.0).length


def _in_row(a: Piece, b: Piece) -> bool:
    """Whether two straight pieces of like length run the same way from one line square to them."""
    along = a.path.tangent(0.0)
    return (
        along.cross(b.path.tangent(0.0)).length < _PARALLEL and abs((b.path.start - a.path.start).dot(along)) < LOWER_MM
    )


def _gap(a: Piece, b: Piece) -> float:
    return a.path.start.distance(b.path.start)
