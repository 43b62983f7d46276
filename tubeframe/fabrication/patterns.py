"""Ways of cutting a stick, in whole numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """How many pieces of each length are cut from a stick of a type."""

    stick: int
    counts: tuple[int, ...]


def full_patterns(
    lengths: Sequence[int], demands: Sequence[int], capacity: int, most: int
) -> tuple[tuple[int, ...], ...] | None:
    """List every way of filling a capacity to which no piece can be added; None when there are more than `most`."""
    found = []
    for counts in _fillings(lengths, demands, capacity, 0):
        found.append(counts)
        if len(found) > most:
            return None
    return tuple(found)


def patterns_worth(
    lengths: Sequence[int],
    demands: Sequence[int],
    capacity: int,
    values: Sequence[float],
    least: float,
    most: int,
) -> tuple[tuple[float, tuple[int, ...]], ...] | None:
    """List every full way of cutting whose pieces are worth at least `least`; None when there are more than `most`.

    Branch and bound, the piece of the best value for its length first; the bound fills up by fractions.
    """
    order = sorted(range(len(lengths)), key=lambda i: (-values[i] / lengths[i], i))
    found: list[tuple[float, tuple[int, ...]]] = []
    counts = [0] * len(lengths)

    def visit(rank: int, left: int, worth: float) -> bool:
        if rank == len(order):
            found.append((worth, tuple(counts)))
            return len(found) <= most
        i = order[rank]
        for count in range(min(demands[i], left // lengths[i]), -1, -1):
            rest = left - count * lengths[i]
            if worth + count * values[i] + _bound(order[rank + 1 :], lengths, demands, values, rest) < least:
                break
            counts[i] = count
            if not visit(rank + 1, rest, worth + count * values[i]):
                return False
        counts[i] = 0
        return True

    return tuple(found) if visit(0, capacity, 0.0) else None


def best_pattern(
    lengths: Sequence[int], demands: Sequence[int], capacity: int, values: Sequence[float]
) -> tuple[float, tuple[int, ...]]:
    """Return the worthiest way of cutting a capacity: a knapsack with bounded numbers, by branch and bound."""
    order = sorted(range(len(lengths)), key=lambda i: (-values[i] / lengths[i], i))
    best: tuple[float, tuple[int, ...]] = (0.0, (0,) * len(lengths))
    counts = [0] * len(lengths)

    def visit(rank: int, left: int, worth: float) -> None:
        nonlocal best
        if worth > best[0] + 1e-9:
            best = (worth, tuple(counts))
        if rank == len(order):
            return
        i = order[rank]
        for count in range(min(demands[i], left // lengths[i]), -1, -1):
            rest = left - count * lengths[i]
            reach = worth + count * values[i] + _bound(order[rank + 1 :], lengths, demands, values, rest)
            if reach <= best[0] + 1e-9:
                break
            counts[i] = count
            visit(rank + 1, rest, worth + count * values[i])
        counts[i] = 0

    visit(0, capacity, 0.0)
    return best


def _bound(
    order: Sequence[int], lengths: Sequence[int], demands: Sequence[int], values: Sequence[float], left: int
) -> float:
    """Return what pieces in falling value for their length can add, the last one by a fraction."""
    worth = 0.0
    for i in order:
        count = min(demands[i], left // lengths[i])
        worth += count * values[i]
        left -= count * lengths[i]
        if count < demands[i]:
            return worth + values[i] * left / lengths[i]
    return worth


def _fillings(lengths: Sequence[int], demands: Sequence[int], left: int, first: int) -> Iterator[tuple[int, ...]]:
    """Give counts of the lengths from `first` on, longest first, so that nothing more of them fits."""
    if first == len(lengths):
        yield ()
        return
    most = min(demands[first], left // lengths[first])
    for count in range(most, -1, -1):
        rest = left - count * lengths[first]
        for tail in _fillings(lengths, demands, rest, first + 1):
            spare = rest - sum(n * w for n, w in zip(tail, lengths[first + 1 :], strict=True))
            if count == demands[first] or spare < lengths[first]:
                yield (count, *tail)
