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
    def inertia(self) -> float:
        """Second moment of area, pi/64 (D^4 - d^4) [mm^4]; the torsion constant is twice that."""
        return math.pi / 64.0 * (self.outside**4 - self.bore**4)

    @property
    def elastic_modulus(self) -> float:
        """Section modulus, 2 I / D [mm^3]."""
        return 2.0 * self.inertia / self.outside

    @property
    def plastic_modulus(self) -> float:
        """Plastic section modulus, (D^3 - d^3)/6 [mm^3]."""
        return (self.outside**3 - self.bore**3) / 6.0

    @property
    def gyration(self) -> float:
        """Radius of gyration, the root of I / A [mm]."""
        return math.sqrt(self.inertia / self.area)

    @property
    def mass_per_length(self) -> float:
        """Bare mass [kg/mm]."""
        return self.area * self.material.density * 1e-9
