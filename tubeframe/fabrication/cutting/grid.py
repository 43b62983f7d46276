"""Lengths and prices as whole numbers."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.units import INCH_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

_PER_MM = 1_000_000
_MOST_STEPS = 20_000
_COARSE = (INCH_MM / 64.0, INCH_MM / 80.0, INCH_MM / 100.0, INCH_MM / 128.0, 0.5, 0.25, 0.2, 0.1)
_PER_MONEY = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A step that lengths are counted in, in millionths of a millimetre: pieces and kerfs rounded up, sticks down."""

    step: int

    @property
    def unit(self) -> float:
        """The step [mm]."""
        return self.step / _PER_MM

    def up(self, length: float) -> int:
        """Count a length [mm] in steps, rounded up."""
        return -(-_fine(length) // self.step)

    def down(self, length: float) -> int:
        """Count a length [mm] in steps, rounded down."""
        return _fine(length) // self.step


def grid_for(lengths: Sequence[float], longest: float) -> Grid:
    """Return a step that all lengths [mm] are whole numbers of, if a stick has few enough of it; else one of most.

    A step of 1/64 in or 0.1 mm is finer than any saw cuts.
    """
    step = math.gcd(*(_fine(v) for v in lengths)) or _PER_MM
    if _fine(longest) <= step * _MOST_STEPS:
        return Grid(step=step)
    there = Counter(_fine(v) for v in lengths)
    steps = [round(c * _PER_MM) for c in _COARSE]
    fitting = [s for s in steps if _fine(longest) <= s * _MOST_STEPS * 2] or steps[:1]
    return Grid(step=max(fitting, key=lambda s: (sum(n for v, n in there.items() if v % s == 0), s)))


def whole_costs(costs: Sequence[float]) -> tuple[tuple[int, ...], float]:
    """Return costs as whole numbers of a unit, and that unit."""
    fine = [round(c * _PER_MONEY) for c in costs]
    unit = math.gcd(*fine) or 1
    return tuple(c // unit for c in fine), unit / _PER_MONEY


def _fine(length: float) -> int:
    return round(length * _PER_MM)
