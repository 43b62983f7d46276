"""Columns side by side on a page."""

from __future__ import annotations

from dataclasses import dataclass

_GAP = 6.0
"""Between columns [mm]."""


@dataclass(slots=True, kw_only=True)
class Columns:
    """Columns side by side: how many, in which one, from where down, and the lowest point reached [mm]."""

    count: int
    left: float
    whole: float
    top: float
    lowest: float
    number: int = 0

    @property
    def width(self) -> float:
        """Width of each [mm]."""
        return column_width(self.whole, self.count)

    @property
    def x(self) -> float:
        """Where the present one begins [mm]."""
        return self.left + self.number * (self.width + _GAP)


def column_width(whole: float, count: int) -> float:
    """Return how wide each of some columns is, side by side on a width [mm]."""
    return (whole + _GAP) / count - _GAP
