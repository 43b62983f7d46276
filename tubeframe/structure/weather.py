"""Wind and snow, from what the user's own authority gives."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey
from tubeframe.geometry.units import MPH, PSF

if TYPE_CHECKING:
    from tubeframe.catalog.limits import Limits

_VELOCITY_PRESSURE = 0.00256


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
