"""What a round tube bears: AISC 360-16, chapters E3 (pressed), F8 (bent) and H1 (both)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.structure.solver.elements import Floats

_INELASTIC = 2.25
_SLENDER = 0.11
_COMPACT = 0.07
_NONCOMPACT = 0.31
_LARGE_SHARE = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Steel:
    """Young's modulus and yield strength [MPa]."""

    young: float
    strength: float


def critical_stress(slenderness: float, steel: Steel) -> float:
    """Return Fcr of a bar pressed until it buckles [MPa], by K L / r; E3-2 and E3-3."""
    if slenderness <= 0.0:
        return steel.strength
    euler = math.pi**2 * steel.young / slenderness**2
    share = steel.strength / euler
    return float(0.658**share * steel.strength if share <= _INELASTIC else 0.877 * euler)


def pressed(tube: TubeSize, length: float, steel: Steel) -> float:
    """Return the nominal strength of a tube of a buckling length [mm], pressed [N]; E3, and E7 for a thin wall."""
    thinness, limit = tube.outside / tube.wall, _SLENDER * steel.young / steel.strength
    if thinness <= limit:
        area = tube.area
    else:
        area = tube.area * (0.038 * steel.young / (steel.strength * thinness) + 2.0 / 3.0)
    return critical_stress(length / tube.gyration, steel) * area


def pulled(tube: TubeSize, steel: Steel) -> float:
    """Return the nominal strength of a tube, pulled [N]; D2-1."""
    return steel.strength * tube.area


def bent(tube: TubeSize, steel: Steel) -> float:
    """Return the nominal moment of a tube [N mm]; F8."""
    thinness, stiff = tube.outside / tube.wall, steel.young / steel.strength
    plastic = steel.strength * tube.plastic_modulus
    if thinness <= _COMPACT * stiff:
        return plastic
    if thinness <= _NONCOMPACT * stiff:
        return min(plastic, (0.021 * steel.young / thinness + steel.strength) * tube.elastic_modulus)
    return 0.33 * steel.young / thinness * tube.elastic_modulus


def together(force: Floats, moment: Floats) -> Floats:
    """Return the use of tubes that are pressed and bent (n,), from the use by each alone (n,); H1-1a and H1-1b."""
    return np.where(force >= _LARGE_SHARE, force + 8.0 / 9.0 * moment, force / 2.0 + moment)
