"""What the frame stands against."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A flat face that was there before: a point of it [mm], and the unit vector from it toward the frame."""

    id: str
    at: Vec
    toward: Vec

    def gap(self, point: Vec) -> float:
        """Return how far a point stands before it, under 0 behind it [mm]."""
        return (point - self.at).dot(self.toward)
