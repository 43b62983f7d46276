"""What a hand bender asks of a tube. Common practice, no source."""

from __future__ import annotations

from tubeframe.geometry.units import INCH_MM

BEND_CLEARANCE = 0.5 * INCH_MM
"""A clamp on a run keeps half its grip and this off a bend's start [mm]."""

_LEAST_ALLOWANCE = 2.0 * INCH_MM
_HELD_BY_BENDER = 8.0 * INCH_MM


def bend_allowance(straight: float) -> float:
    """Return what an end of a bent piece needs beyond its cut length [mm], from the straight left there [mm].

    The bender's hook and lever want 8 in of straight; 2 in are left to trim in any case. It is cut off after bending.
    """
    return max(_LEAST_ALLOWANCE, _HELD_BY_BENDER - straight)
