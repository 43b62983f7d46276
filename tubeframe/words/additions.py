"""Tubes that could be added to a frame, in words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.geometry.units import format_length
from tubeframe.structure.knee import Knee

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.geometry.units import Units
    from tubeframe.structure.trial import Post

_LEVEL = 1.0


def addition_words(addition: Knee | Post, units: Units) -> str:
    """Say what is added and where it sits."""
    if isinstance(addition, Knee):
        return knee_words(addition, units)
    at, height = format_length(addition.place, units), format_length(addition.at.z, units)
    return f"a post of {height} under {addition.under}, {at} from its end A"


def knee_words(knee: Knee, units: Units) -> str:
    """Say which corner a knee ties, how far from it, and how long it is from middle to middle."""
    one, other = knee.tubes
    rise = sum(e.z for e in knee.ends) / 2.0 - knee.corner_at.z
    side = "" if abs(rise) < _LEVEL else ", above it" if rise > 0.0 else ", below it"
    long = format_length(knee.arm * math.sqrt(2.0), units)
    return f"a knee of {long} in {knee.corner} of {one} and {other}, {format_length(knee.arm, units)} along both{side}"


def knees_words(knees: Sequence[Knee], units: Units) -> str:
    """List knees."""
    return "; ".join(knee_words(k, units) for k in knees)
