"""The numbers that tell whether a frame is square."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import LOWER_MM
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.fabrication.subframes import SubFrame
    from tubeframe.parts.piece import Parts, Piece


def sub_frame_sides(flat: SubFrame, parts: Parts) -> tuple[Piece, Piece] | None:
    """Return a flat sub-frame's longest pair of parallel tubes that are the sides of a rectangle, the widest apart."""
    pieces = [p for p in parts.pieces if p.member in flat.members and not p.bends]
    pairs = [(a, b) for i, a in enumerate(pieces) for b in pieces[i + 1 :] if _side_by_side(a, b)]
    return max(pairs, key=lambda pair: (pair[0].cut_length, _gap(*pair)), default=None)


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


def _side_by_side(a: Piece, b: Piece) -> bool:
    """Whether two straight pieces are the sides of a rectangle."""
    across = b.path.start - a.path.start
    along = a.path.tangent(0.0)
    return (
        abs(a.cut_length - b.cut_length) < LOWER_MM
        and along.cross(b.path.tangent(0.0)).length < 1e-6
        and abs(across.dot(along)) < LOWER_MM
        and across.length > LOWER_MM
    )


def _gap(a: Piece, b: Piece) -> float:
    return a.path.start.distance(b.path.start)
