"""Stretches of edges, and how a condition cuts them.

An edge is run through by s from 0 to 1. A stretch is low <= s <= high; it is empty when low > high. Each function
takes stretches (n,) with one condition for each of them and gives the stretches on which it holds too. In every
condition a quantity that is linear in s is given as its value at s = 0 and its rate.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Linear:
    """Quantities a + b s, one a row."""

    at_0: Floats
    rate: Floats

    def chosen(self, which: Flags | Indices) -> Linear:
        """Return some of the rows."""
        return Linear(at_0=self.at_0[which], rate=self.rate[which])

    def __add__(self, other: Linear) -> Linear:
        """Sum."""
        return Linear(at_0=self.at_0 + other.at_0, rate=self.rate + other.rate)

    def __neg__(self) -> Linear:
        """Opposite."""
        return Linear(at_0=-self.at_0, rate=-self.rate)

    def __mul__(self, factor: Floats) -> Linear:
        """Multiple, row by row."""
        return Linear(at_0=self.at_0 * factor, rate=self.rate * factor)

    def raised(self, by: Floats) -> Linear:
        """Add a constant to each row."""
        return Linear(at_0=self.at_0 + by, rate=self.rate)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stretches:
    """Parts low <= s <= high of edges, (n,) each."""

    low: Floats
    high: Floats

    @property
    def some(self) -> Flags:
        """Which are not empty, (n,)."""
        return self.low < self.high

    def chosen(self, which: Flags | Indices) -> Stretches:
        """Return some of the rows."""
        return Stretches(low=self.low[which], high=self.high[which])

    def both(self, other: Stretches) -> Stretches:
        """Return what lies in both, row by row."""
        return Stretches(low=np.maximum(self.low, other.low), high=np.minimum(self.high, other.high))


def whole(count: int) -> Stretches:
    """Return so many whole edges."""
    return Stretches(low=np.zeros(count), high=np.ones(count))


def where_positive(value: Linear) -> Stretches:
    """Return where a + b s >= 0."""
    with np.errstate(divide="ignore", invalid="ignore"):
        root = -value.at_0 / value.rate
    low = np.where(value.rate > 0.0, root, -np.inf)
    low[(value.rate == 0.0) & (value.at_0 < 0.0)] = np.inf
    high = np.where(value.rate < 0.0, root, np.inf)
    return Stretches(low=low, high=high)


def where_within(value: Linear, limit: Floats) -> Stretches:
    """Return where |a + b s| <= limit (n,)."""
    return where_positive((-value).raised(limit)).both(where_positive(value.raised(limit)))


def where_in_circle(x: Linear, y: Linear, radius: Floats) -> Stretches:
    """Return where x^2 + y^2 <= radius^2."""
    square = x.rate**2 + y.rate**2
    half = x.at_0 * x.rate + y.at_0 * y.rate
    # the line's distance from the middle by the cross product: nothing cancels on long edges
    under = radius**2 * square - (x.at_0 * y.rate - y.at_0 * x.rate) ** 2
    moves = square > 0.0
    crosses = moves & (under >= 0.0)
    stays = ~moves & (x.at_0**2 + y.at_0**2 <= radius**2)
    safe = np.where(moves, square, 1.0)
    reach = np.sqrt(np.where(crosses, under, 0.0))
    return Stretches(
        low=np.where(crosses, (-half - reach) / safe, np.where(stays, -np.inf, np.inf)),
        high=np.where(crosses, (-half + reach) / safe, np.where(stays, np.inf, -np.inf)),
    )


def where_under_circle(x: Linear, y: Linear, radius: Floats, strip: Stretches) -> Stretches:
    """Return where y <= sqrt(radius^2 - x^2), given the stretches `strip` on which |x| <= radius.

    That is, in the circle or, within the strip, where y <= 0. Both together are one stretch, since the region is
    convex.
    """
    disc = where_in_circle(x, y, radius)
    below = where_positive(-y).both(strip)
    some = below.low <= below.high
    return Stretches(
        low=np.where(some, np.minimum(disc.low, below.low), disc.low),
        high=np.where(some, np.maximum(disc.high, below.high), disc.high),
    )
