"""A tube size."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.catalog.material import Material


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeSize:
    """A round tube: outside diameter and wall, both nominal [mm]."""

    key: str
    name: str
    designator: str
    outside: float
    wall: float
    material: Material
    source: str

    @property
    def bore(self) -> float:
        """Inside diameter [mm]."""
        return self.outside - 2.0 * self.wall

    @property
    def area(self) -> float:
        """Area of the section, pi (D t - t^2) [mm^2]."""
        return math.pi * (self.outside * self.wall - self.wall**2)

    @property
    def mass_per_length(self) -> float:
        """Bare mass [kg/mm]."""
        return self.area * self.material.density * 1e-9
