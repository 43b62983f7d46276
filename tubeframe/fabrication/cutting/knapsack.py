"""The worthiest way of cutting, for every capacity at once: a knapsack with bounded numbers, by dynamic programming.

Each number is split into powers of two (S. Martello and P. Toth, Knapsack Problems, Wiley 1990, section 3.5).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

Counts = NDArray[np.int64]
Values = NDArray[np.float64]

_TINY = 1e-11


def _lots(demand: int, most: int) -> Iterator[int]:
    """Split a number so that every number up to it is a sum of some lots."""
    left, lot = min(demand, most), 1
    while left > 0:
        lot = min(lot, left)
        yield lot
        left -= lot
        lot *= 2


def worths(
    lengths: Sequence[int], demands: Sequence[int], weights: Sequence[int], capacities: Sequence[int]
) -> list[int]:
    """Return the most that each capacity can hold of whole-number weights; exact."""
    room = max(capacities)
    best = np.zeros(room + 1, dtype=np.int64)
    for length, demand, weight in zip(lengths, demands, weights, strict=True):
        if weight <= 0 or length > room:
            continue
        for lot in _lots(demand, room // length):
            shift = lot * length
            if shift <= room:
                np.maximum(best[shift:], best[: room + 1 - shift] + lot * weight, out=best[shift:])
    return [int(best[c]) for c in capacities]


def best_ways(
    lengths: Sequence[int], demands: Sequence[int], values: Sequence[float] | Values, capacities: Sequence[int]
) -> list[tuple[float, Counts]]:
    """Return for each capacity the most that it can hold, and how many of each length that is."""
    room = max(capacities)
    best = np.zeros(room + 1)
    layers: list[tuple[int, int, int, NDArray[np.bool_]]] = []
    for i, (length, demand) in enumerate(zip(lengths, demands, strict=True)):
        if values[i] <= _TINY or length > room:
            continue
        for lot in _lots(int(demand), room // length):
            shift = lot * length
            if shift > room:
                continue
            with_lot = best[: room + 1 - shift] + lot * values[i]
            taken = with_lot > best[shift:] + _TINY
            best[shift:] = np.where(taken, with_lot, best[shift:])
            layers.append((i, lot, shift, taken))
    return [(float(best[c]), _traced(layers, c, len(lengths))) for c in capacities]


def _traced(layers: Sequence[tuple[int, int, int, NDArray[np.bool_]]], capacity: int, size: int) -> Counts:
    counts = np.zeros(size, dtype=np.int64)
    left = capacity
    for i, lot, shift, taken in reversed(layers):
        if left >= shift and taken[left - shift]:
            counts[i] += lot
            left -= shift
    return counts
