"""Where a thing stands and how it is turned."""

from __future__ import annotations

from dataclasses import dataclass

from tubeframe.geometry.vector import ORIGIN, Vec, X, Y, Z


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """A right-handed frame: an origin [mm] and the images of the three local axes."""

    origin: Vec = ORIGIN
    x: Vec = X
    y: Vec = Y
    z: Vec = Z

    def direction(self, local: Vec) -> Vec:
        """Turn a local direction into a global one."""
        return self.x * local.x + self.y * local.y + self.z * local.z

    def point(self, local: Vec) -> Vec:
        """Turn a local point into a global one [mm]."""
        return self.origin + self.direction(local)

    def seen(self, direction: Vec) -> Vec:
        """Turn a global direction into a local one."""
        return Vec(direction.dot(self.x), direction.dot(self.y), direction.dot(self.z))

    @property
    def rotation(self) -> tuple[float, ...]:
        """The nine numbers of the rotation matrix, row by row."""
        columns = (self.x, self.y, self.z)
        return tuple(value for row in zip(*columns, strict=True) for value in row)


def from_axes(*, origin: Vec, x: Vec, toward: Vec) -> Placement:
    """Place local x along a unit vector and local y in the half plane that holds another."""
    y = toward.across(x).unit
    return Placement(origin=origin, x=x, y=y, z=x.cross(y))
