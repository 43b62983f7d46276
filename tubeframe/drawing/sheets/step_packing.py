"""Which steps stand in which column: on the fewest pages, and their pictures as near as can be to the size they want.

As a paragraph is broken into lines: all breaks are looked at, and the cheapest taken, so that a short step does not
leave a column half empty because the one after it was too high.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from itertools import count as count_from
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

_UNEVEN = 0.3
"""A column that is left empty costs so much, beside a picture that shrinks to nothing."""
_PARTED = 10.0
"""A step that no page takes is parted; it costs so much."""
_TINY = 1e-6
_SPARE = 0.1
"""So much of a column is left, that no line falls out of it by rounding [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A size that a step may have: how high it is [mm], and what is lost of its picture, from 0 to 1."""

    height: float
    lost: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """A column: the steps from one number up to another, and which of their sizes they have."""

    first: int
    end: int
    size: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """How many columns stand side by side; how high they are on the first page and on the others [mm].

    Between steps there is a gap; below the last column something more is to stand [mm].
    """

    columns: int
    first: float
    full: float
    gap: float
    below: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """How steps were put into columns so far, and what it cost."""

    cost: float
    columns: tuple[Filled, ...] = ()


_Ways = dict[int, _Way]


def packed(steps: Sequence[Sequence[Size]], room: Room) -> tuple[Filled, ...]:
    """Return the columns of all steps, each step in its sizes, the largest first; a column may stay empty."""
    filled = _filling(steps, room)
    ways: _Ways = {0: _Way(cost=0.0)}
    for page in count_from():
        high = room.full if page else room.first
        last = _page(ways, filled, high - room.below, room.columns).get(len(steps))
        if last is not None:
            return last.columns
        ways = _page(ways, filled, high, room.columns)
    raise AssertionError


def _page(ways: _Ways, filled: _Fill, high: float, columns: int) -> _Ways:
    """Go on by one page of columns so high [mm]."""
    for _ in range(columns):
        further: _Ways = {}
        for first, way in ways.items():
            for column, cost in filled(first, high):
                longer = way.cost + cost
                if column.end not in further or longer < further[column.end].cost - _TINY:
                    further[column.end] = _Way(cost=longer, columns=(*way.columns, column))
        ways = further
    return ways


if TYPE_CHECKING:
    _Fill = Callable[[int, float], Sequence[tuple[Filled, float]]]


def _filling(steps: Sequence[Sequence[Size]], room: Room) -> _Fill:
    """Return what tells the columns that may begin with a step, and their costs."""

    @cache
    def filled(first: int, high: float) -> Sequence[tuple[Filled, float]]:
        found = [(Filled(first=first, end=first, size=0), _UNEVEN)]
        for end in range(first + 1, len(steps) + 1):
            size = _largest(steps[first:end], high, room.gap)
            if size is None:
                break
            found.append((Filled(first=first, end=end, size=size), _cost(steps[first:end], size, high, room.gap)))
        if len(found) == 1 and first < len(steps) and high >= room.full - room.below - _TINY:
            found.append((Filled(first=first, end=first + 1, size=len(steps[first]) - 1), _PARTED))
        return found

    return filled


def _largest(steps: Sequence[Sequence[Size]], high: float, gap: float) -> int | None:
    """Return the first size with which steps stand under each other in a height [mm]."""
    return next((n for n in range(len(steps[0])) if _high(steps, n, gap) <= high - _SPARE), None)


def _high(steps: Sequence[Sequence[Size]], size: int, gap: float) -> float:
    return math.fsum(s[size].height for s in steps) + gap * (len(steps) - 1)


def _cost(steps: Sequence[Sequence[Size]], size: int, high: float, gap: float) -> float:
    empty = 1.0 - _high(steps, size, gap) / high
    return math.fsum(s[size].lost ** 2 for s in steps) + _UNEVEN * empty**2
