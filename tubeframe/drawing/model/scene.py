"""What is looked at, and from where."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.vector import Vec, X, Y, Z

if TYPE_CHECKING:
    from tubeframe.geometry.convex import Convex
    from tubeframe.geometry.path import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeBody:
    """A tube along a centreline: its outside and inside diameters [mm]."""

    path: Path
    outside: float
    bore: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """One opaque thing under one key: tubes and convex pieces, which may overlap each other and other bodies."""

    key: str
    tubes: tuple[TubeBody, ...] = ()
    pieces: tuple[Convex, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A parallel view: the direction toward the viewer, and one that is seen pointing right.

    Neither needs to be one long; of `right` only the part square to `to_viewer` counts.
    """

    to_viewer: Vec
    right: Vec

    @property
    def axes(self) -> tuple[Vec, Vec, Vec]:
        """Unit vectors to the right, up, and toward the viewer; right-handed."""
        toward = self.to_viewer.unit
        across = self.right.across(toward).unit
        return (across, toward.cross(across), toward)

    def project(self, point: Vec) -> tuple[float, float]:
        """Return where a point is seen: right and up from where the origin is seen [mm]."""
        right, up, _ = self.axes
        return (point.dot(right), point.dot(up))

    def depth(self, point: Vec) -> float:
        """Return how far a point is in front of the origin, toward the viewer [mm]."""
        return point.dot(self.to_viewer.unit)


FRONT = View(to_viewer=-Y, right=X)
RIGHT_SIDE = View(to_viewer=X, right=Y)
PLAN = View(to_viewer=Z, right=X)
ISOMETRIC = View(to_viewer=Vec(1.0, -1.0, 1.0), right=Vec(1.0, 1.0, 0.0))
