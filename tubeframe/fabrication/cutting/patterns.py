"""Ways of cutting a stick, in whole numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.knapsack import Counts

_ROOM = 64

Way = tuple[int, tuple[int, ...]]
"""A type of stick, and how many pieces of each length are cut from one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """How many pieces of each length are cut from a stick of a type, and how many sticks are cut so."""

    stick: int
    counts: tuple[int, ...]
    times: int = 1


Patterns = tuple[Pattern, ...]


def taken_by(job: Job, pattern: Pattern) -> int:
    """Return what a pattern takes of its stick."""
    return sum(c * w for c, w in zip(pattern.counts, job.lengths, strict=True))


def cost_of(job: Job, patterns: Iterable[Pattern]) -> int:
    """Return what the sticks cost."""
    return sum(job.sticks[p.stick].cost * p.times for p in patterns)


def sticks_of(patterns: Iterable[Pattern]) -> int:
    """Return how many sticks are cut."""
    return sum(p.times for p in patterns)


def numbers_of(job: Job, patterns: Iterable[Pattern]) -> tuple[int, ...]:
    """Return how many sticks of each type are cut."""
    numbers = [0] * len(job.sticks)
    for pattern in patterns:
        numbers[pattern.stick] += pattern.times
    return tuple(numbers)


class Ways:
    """The ways of cutting that are known so far; they only ever become more."""

    def __init__(self, job: Job) -> None:
        """Start with one length a stick, as often as it goes."""
        self._known: dict[Way, None] = {}
        self._sticks = np.zeros(_ROOM, dtype=np.int64)
        self._counts = np.zeros((_ROOM, len(job.lengths)), dtype=np.int64)
        for n, stick in enumerate(job.sticks):
            for i, (length, demand) in enumerate(zip(job.lengths, job.demands, strict=True)):
                count = min(demand, stick.capacity // length)
                if count:
                    self.add(n, [count if k == i else 0 for k in range(len(job.lengths))])

    def add(self, stick: int, counts: Sequence[int] | Counts) -> bool:
        """Add a way; tell whether it was new."""
        way = (stick, tuple(int(c) for c in counts))
        new = way not in self._known and any(way[1])
        if new:
            at = len(self._known)
            if at == len(self._sticks):
                self._sticks = np.concatenate([self._sticks, np.zeros_like(self._sticks)])
                self._counts = np.vstack([self._counts, np.zeros_like(self._counts)])
            self._sticks[at], self._counts[at] = stick, way[1]
            self._known[way] = None
        return new

    def add_all(self, patterns: Iterable[Pattern]) -> None:
        """Add the ways of a plan."""
        for pattern in patterns:
            self.add(pattern.stick, pattern.counts)

    def all(self) -> list[Way]:
        """Return them in the order in which they were found."""
        return list(self._known)

    def with_one_more(self, job: Job) -> Ways:
        """Return these ways for a job with one more length, which stands last; and its own."""
        ways = Ways(job)
        for stick, counts in self._known:
            ways.add(stick, (*counts, 0))
        return ways

    def arrays(self) -> tuple[Counts, Counts]:
        """Return the types of stick (n,) and the counts (n, lengths)."""
        return self._sticks[: len(self._known)], self._counts[: len(self._known)]
