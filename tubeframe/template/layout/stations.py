"""Places along a tube or a side, all in [mm]."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_ROUNDING = 1e-9


def in_bays(first: float, last: float, at_most: float) -> tuple[float, ...]:
    """Return places from the first to the last, evened, no two farther apart than a length."""
    bays = max(1, math.ceil((last - first) / at_most - _ROUNDING))
    return tuple(first + (last - first) * n / bays for n in range(bays + 1))


def apart(first: float, last: float, at_least: float) -> tuple[float, ...]:
    """Return as many places from the first to the last, evened, as keep two a length apart."""
    if last < first - _ROUNDING:
        return ()
    bays = math.floor((last - first) / at_least + _ROUNDING)
    return tuple(first + (last - first) * n / bays for n in range(bays + 1)) if bays else ((first + last) / 2.0,)


def between(first: float, last: float, number: int) -> tuple[float, ...]:
    """Return a number of places between two, evened, neither end among them."""
    return tuple(first + (last - first) * n / (number + 1) for n in range(1, number + 1))


def spread(
    low: float, high: float, number: int, taken: Sequence[float], room: float, apart: float
) -> tuple[float, ...] | None:
    """Return a number of places, evened, so much room from what is taken and so far apart; None when they do not fit.

    Args:
        low: the first place that one may have.
        high: the last place that one may have.
        number: how many.
        taken: places that are there already.
        room: least distance from those.
        apart: least distance of two.

    """
    found: list[float] = []
    for at in between(low, high, number):
        least = max(low, found[-1] + apart) if found else low
        wanted = max(at, least)
        below, above = clear_below(wanted, taken, room), clear_above(wanted, taken, room)
        place = below if below >= least and wanted - below <= above - wanted else above
        if place > high + _ROUNDING:
            return None
        found.append(place)
    return tuple(found)


def clear_above(at: float, taken: Sequence[float], room: float) -> float:
    """Return the lowest place from one upward that has so much room from what is taken."""
    while (near := [t for t in taken if abs(at - t) < room - _ROUNDING]) != []:
        at = max(near) + room
    return at


def clear_below(at: float, taken: Sequence[float], room: float) -> float:
    """Return the highest place from one downward that has so much room from what is taken."""
    return -clear_above(-at, [-t for t in taken], room)
