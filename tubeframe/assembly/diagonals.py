"""The numbers that tell whether a frame is square."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.geometry.tolerance import LOWER_MM
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from tubeframe.assembly.subframes import SubFrame
    from tubeframe.joints.joint import Joint, Jointed, JointId
    from tubeframe.parts.piece import Parts, Piece, PieceEnd

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagonal:
    """Both diagonals between two parallel tubes [mm], from where they come out of what covers their ends, or bare."""

    length: float
    at_clamps: bool


def flat_diagonal(
    flat: SubFrame, parts: Parts, jointed: Jointed, here: Collection[JointId] | None = None
) -> Diagonal | None:
    """Return the length of both diagonals between a flat sub-frame's sides; None when it has none.

    `here` are the joints that are there when it is measured, else all.

    Taken between points that a tape reaches: on both tubes as far from their ends as the longer of what covers either,
    the same edge of each, which gives the same number as their middles.
    """
    sides = sub_frame_sides(flat, parts)
    if sides is None:
        return None
    one, other = sides
    (start, end), (start_too, end_too) = covered(one, jointed, here), covered(other, jointed, here)
    low, high = max(start, start_too), one.cut_length - max(end, end_too)
    length = one.path.point(low).distance(other.path.point(high))
    return Diagonal(length=length, at_clamps=max(start, end, start_too, end_too) > 0.0)


def covered(piece: Piece, jointed: Jointed, here: Collection[JointId] | None = None) -> tuple[float, float]:
    """Return how much of a tube the fittings on its ends cover that are there, from end A and from end B [mm]."""
    joints = {j.id: j for j in jointed.joints if here is None or j.id in here}
    return _covered(piece.end_a, joints), _covered(piece.end_b, joints)


def _covered(end: PieceEnd, joints: Mapping[JointId, Joint]) -> float:
    joint = joints.get(end.joint) if end.joint else None
    if joint is None or joint.fitting is None or end.port is None:
        return 0.0
    port = joint.fitting.port(end.port)
    return joint.fitting.skirt if port.role is PortRole.END else port.grip


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
