"""Placements in space as a turn and a shift, for the readers of the two 3D formats. Right-handed, column vectors."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

Vector = tuple[float, float, float]
Rows = tuple[Vector, Vector, Vector]
Box = tuple[Vector, Vector]

UNTURNED: Rows = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """A point p goes to `rows` * p + `origin`. The rows are a rotation in STEP; in glTF they may scale too."""

    rows: Rows = UNTURNED
    origin: Vector = (0.0, 0.0, 0.0)

    def point(self, point: Vector) -> Vector:
        """Where a point goes."""
        turned = self.direction(point)
        return (turned[0] + self.origin[0], turned[1] + self.origin[1], turned[2] + self.origin[2])

    def direction(self, vector: Vector) -> Vector:
        """Where a direction goes."""
        a, b, c = self.rows
        return (dot(a, vector), dot(b, vector), dot(c, vector))

    def after(self, first: Placement) -> Placement:
        """The placement that does `first` and then this one."""
        columns = [self.direction(column) for column in _transposed(first.rows)]
        return Placement(rows=_transposed((columns[0], columns[1], columns[2])), origin=self.point(first.origin))

    def undone(self) -> Placement:
        """The inverse of a placement that turns and shifts only."""
        rows = _transposed(self.rows)
        return Placement(
            rows=rows, origin=(-dot(rows[0], self.origin), -dot(rows[1], self.origin), -dot(rows[2], self.origin))
        )

    def determinant(self) -> float:
        """Volume of the moved unit cube; 1 for a rotation, below 0 for a mirror."""
        a, b, c = self.rows
        return dot(a, cross(b, c))

    def axis_angle(self) -> tuple[Vector, float]:
        """Axis and angle [rad] of the rotation; `ValueError` where the rows are no rotation.

        By the unit quaternion (w, x, y, z), found from its greatest component to stay exact at half a turn (S. W.
        Shepperd, "Quaternion from rotation matrix", J. Guidance and Control 1, 1978; from memory).
        """
        if abs(self.determinant() - 1.0) > 1e-6:
            msg = f"not a rotation: a unit cube becomes {self.determinant():.6f}"
            raise ValueError(msg)
        (a, b, c), (d, e, f), (g, h, i) = self.rows
        quaternions = (
            (1.0 + a + e + i, h - f, c - g, d - b),
            (h - f, 1.0 + a - e - i, b + d, c + g),
            (c - g, b + d, 1.0 - a + e - i, f + h),
            (d - b, c + g, f + h, 1.0 - a - e + i),
        )
        w, x, y, z = max(enumerate(quaternions), key=lambda pair: pair[1][pair[0]])[1]
        sine = math.hypot(x, y, z)
        return ((x / sine, y / sine, z / sine), 2.0 * math.atan2(sine, w)) if sine else ((0.0, 0.0, 1.0), 0.0)

    def near(self, other: Placement, *, turn: float = 1e-6, shift: float = 1e-6) -> bool:
        """Whether both rotations agree within `turn` and both origins within `shift` [unit of the origin]."""
        pairs = [pair for a, b in zip(self.rows, other.rows, strict=True) for pair in zip(a, b, strict=True)]
        return all(abs(a - b) <= turn for a, b in pairs) and math.dist(self.origin, other.origin) <= shift


def frame(origin: Vector, axis: Vector, reference: Vector) -> Placement:
    """The placement whose z is along `axis` and whose x is `reference` laid square to it (AXIS2_PLACEMENT_3D)."""
    z = unit(axis)
    along = dot(reference, z)
    x = unit((reference[0] - along * z[0], reference[1] - along * z[1], reference[2] - along * z[2]))
    return Placement(rows=_transposed((x, cross(z, x), z)), origin=origin)


def dot(a: Vector, b: Vector) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Vector product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def unit(vector: Vector) -> Vector:
    """The direction of a vector; `ValueError` for one without length."""
    length = math.hypot(*vector)
    if length == 0.0:
        msg = "a direction of length zero"
        raise ValueError(msg)
    return (vector[0] / length, vector[1] / length, vector[2] / length)


def joined(boxes: Iterable[Box]) -> Box:
    """The smallest box round some boxes."""
    boxes = tuple(boxes)
    low = tuple(min(box[0][k] for box in boxes) for k in range(3))
    high = tuple(max(box[1][k] for box in boxes) for k in range(3))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _transposed(rows: Rows) -> Rows:
    (a, b, c), (d, e, f), (g, h, i) = rows
    return ((a, d, g), (b, e, h), (c, f, i))
