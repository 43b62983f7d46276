"""Wind and snow, from what the user's own authority gives."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.geometry.units import FOOT_MM, MPH, PSF

if TYPE_CHECKING:
    from tubeframe.catalog.limits import Limits

_VELOCITY_PRESSURE = 0.00256
_SMALL = 2.5
_OPEN, _DENSE = 0.1, 0.3
"""Where the shares of solid part: under 0.1, 0.1 to 0.29, from 0.3."""


def velocity_pressure(speed: float, limits: Limits) -> float:
    """Return the pressure of wind of a speed [m/s] on a flat thing in its way [MPa].

    ASCE 7, 26.10: q = 0.00256 Kz Kzt Kd V^2 in psf and mph.
    """
    factors = limits[LimitKey.WIND_EXPOSURE] * limits[LimitKey.WIND_TERRAIN] * limits[LimitKey.WIND_DIRECTION]
    return _VELOCITY_PRESSURE * factors * (speed / MPH) ** 2 * PSF


def roof_snow(ground: float, limits: Limits, importance: float = 1.0) -> float:
    """Return the snow on a flat roof [MPa] from that on the ground; ASCE 7-16, 7.3: pf = 0.7 Ce Ct Is pg."""
    factors = limits[LimitKey.SNOW_ROOF] * limits[LimitKey.SNOW_EXPOSURE] * limits[LimitKey.SNOW_THERMAL]
    return factors * importance * ground


def round_coefficient(solidity: float, diameter: float, pressure: float) -> float:
    """Return the force coefficient of round members of an open frame.

    ASCE 7-16, table of figure 29.4-2 (open signs and lattice frameworks), as quoted in a public carport calculation:
    with D in ft and q in psf, D sqrt(q) up to 2.5: 1.2, 1.3 and 1.5; over it 0.8, 0.9 and 1.1.

    Args:
        solidity: share of what is seen that is solid.
        diameter: of the members [mm].
        pressure: of the wind [MPa].

    """
    is_small = diameter / FOOT_MM * math.sqrt(pressure / PSF) <= _SMALL
    return _by_solidity(solidity, (1.2, 1.3, 1.5) if is_small else (0.8, 0.9, 1.1))


def flat_coefficient(solidity: float) -> float:
    """Return the force coefficient of flat-sided members of an open frame, from the same table: 2.0, 1.8 and 1.6."""
    return _by_solidity(solidity, (2.0, 1.8, 1.6))


def _by_solidity(solidity: float, values: tuple[float, float, float]) -> float:
    low, middle, high = values
    return low if solidity < _OPEN else middle if solidity < _DENSE else high
