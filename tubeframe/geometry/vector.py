"""A point or a direction in space."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True)
class Vec:
    """Three coordinates [mm], or the components of a direction."""

    x: float
    y: float
    z: float

    def __add__(self, other: Vec) -> Vec:
        """Sum."""
        return Vec(self.x + other.x, self.y + other.y, self.z + other.z)

    def __sub__(self, other: Vec) -> Vec:
        """Difference."""
        return Vec(self.x - other.x, self.y - other.y, self.z - other.z)

    def __mul__(self, factor: float) -> Vec:
        """Multiple."""
        return Vec(self.x * factor, self.y * factor, self.z * factor)

    def __neg__(self) -> Vec:
        """Opposite."""
        return Vec(-self.x, -self.y, -self.z)

    def __iter__(self) -> Iterator[float]:
        """Give x, y and z in turn."""
        return iter((self.x, self.y, self.z))

    def dot(self, other: Vec) -> float:
        """Scalar product."""
        return self.x * other.x + self.y * other.y + self.z * other.z

    def cross(self, other: Vec) -> Vec:
        """Vector product."""
        return Vec(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )

    @property
    def length(self) -> float:
        """Length [mm]."""
        return math.sqrt(self.dot(self))

    @property
    def unit(self) -> Vec:
        """The same direction, one long."""
        return self * (1.0 / self.length)

    def distance(self, other: Vec) -> float:
        """Distance to another point [mm]."""
        return (self - other).length

    def across(self, axis: Vec) -> Vec:
        """Return the part square to a unit vector."""
        return self - axis * self.dot(axis)


ORIGIN = Vec(0.0, 0.0, 0.0)
X = Vec(1.0, 0.0, 0.0)
Y = Vec(0.0, 1.0, 0.0)
Z = Vec(0.0, 0.0, 1.0)


def any_square_to(axis: Vec) -> Vec:
    """Return a unit vector square to a unit vector; always the same one for the same axis."""
    other = Z if abs(axis.z) < 0.9 else X
    return other.across(axis).unit


def angle_deg(a: Vec, b: Vec) -> float:
    """Angle between two directions [degree], exact near 0 and 180 too."""
    return math.degrees(math.atan2(a.cross(b).length, a.dot(b)))


def turn_deg(reference: Vec, vector: Vec, axis: Vec) -> float:
    """Right-hand angle about a unit axis from one direction to another, in [0, 360) [degree]."""
    r, v = reference.across(axis), vector.across(axis)
    turn = math.degrees(math.atan2(axis.dot(r.cross(v)), r.dot(v))) % 360.0
    return 0.0 if turn > 360.0 - 1e-7 else turn


def rotated(vector: Vec, axis: Vec, angle: float) -> Vec:
    """Turn a vector about a unit axis through the origin by an angle [radian]."""
    c, s = math.cos(angle), math.sin(angle)
    return vector * c + axis.cross(vector) * s + axis * (axis.dot(vector) * (1.0 - c))
