"""The nearest change of a parameter that saves a stick or money.

What a frame costs is asked for at the far ends of a range first; where it saves there, the change is halved until the
least one is left. Costs rise and fall with a size only nearly, so a nearer saving may be missed; what is told is true.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """What the sticks of a frame cost at least, in money or bought length [mm], and how many are bought."""

    cost: float
    sticks: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SweetSpot:
    """A parameter's value, and a near one (lengths in [mm]) that saves so much of a unit; sticks that it then takes.

    The unit is a currency, "sticks", or "mm" of bought length.
    """

    parameter: str
    is_length: bool
    start: float
    end: float
    saves: float
    unit: str
    sticks: int


def nearest_saving(tally_at: Callable[[int], Tally | None], most_steps: int) -> tuple[int, Tally] | None:
    """Return the smallest change in steps, down or up, that costs less than none; None when there is none.

    `tally_at` gives what a change costs, None where the frame cannot be made then.
    """
    now = tally_at(0)
    if now is None or most_steps < 1:
        return None
    found = [spot for way in (-1, 1) if (spot := _least_change(tally_at, now, way, most_steps)) is not None]
    return min(found, key=lambda spot: abs(spot[0]), default=None)


def _least_change(tally_at: Callable[[int], Tally | None], now: Tally, way: int, most: int) -> tuple[int, Tally] | None:
    """Halve the change as long as it saves."""
    best = _saving(tally_at, now, way * most)
    if best is None:
        return None
    low, high = 0, most
    while high - low > 1:
        middle = (low + high) // 2
        tally = _saving(tally_at, now, way * middle)
        if tally is None:
            low = middle
        else:
            high, best = middle, tally
    return way * high, best


def _saving(tally_at: Callable[[int], Tally | None], now: Tally, steps: int) -> Tally | None:
    tally = tally_at(steps)
    return tally if tally is not None and tally.cost < now.cost - 1e-6 else None


def saved(now: Tally, then: Tally, *, priced: bool, currency: str | None) -> tuple[float, str]:
    """Return how much is saved, of what: money, or sticks, or else bought length."""
    if priced:
        return round(now.cost - then.cost, 4), currency or "money"
    if then.sticks < now.sticks:
        return float(now.sticks - then.sticks), "sticks"
    return round(now.cost - then.cost, 4), "mm"
