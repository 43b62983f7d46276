"""Which way, and where, as one stands before the frame."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.units import format_exact

if TYPE_CHECKING:
    from tubeframe.geometry.units import Units
    from tubeframe.geometry.vector import Vec


def direction_word(way: Vec) -> str:
    """Say which way something faces."""
    sizes = (("right", "left", way.x), ("to the back", "to the front", way.y), ("up", "down", way.z))
    plus, minus, value = max(sizes, key=lambda row: abs(round(row[2], 6)))
    return plus if value > 0.0 else minus


def place_words(at: Vec, units: Units) -> str:
    """Print a place [mm]: right of, behind and above the origin."""
    return f"({', '.join(format_exact(v, units) for v in at)})"
