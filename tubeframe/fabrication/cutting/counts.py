"""Numbers of sticks of each type, from the cheapest up, that no weighing refuses."""

from __future__ import annotations

from fractions import Fraction
from heapq import heappop, heappush
from math import gcd
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.bounds import Weighing
    from tubeframe.fabrication.cutting.job import Job

Numbers = tuple[int, ...]
Key = tuple[int, int]
"""What a plan is judged by: its cost, then how many sticks of a cost it takes."""


def key_of(job: Job, numbers: Sequence[int]) -> Key:
    """Return cost and number of sticks; those that cost nothing are not counted."""
    cost = sum(s.cost * n for s, n in zip(job.sticks, numbers, strict=True))
    return cost, sum(n for s, n in zip(job.sticks, numbers, strict=True) if s.cost)


class RisingNumbers:
    """Goes through numbers of sticks by rising cost, then rising number, then longer sticks first.

    Sticks that cost nothing are all counted in. Weighings may be added meanwhile. A best-first search over ranges of
    numbers, halved until each is one number; what a range costs at least is known from filling up by fractions.
    """

    def __init__(self, job: Job, weighings: Sequence[Weighing]) -> None:
        """Start with every number that a plan can take."""
        self._job, self._weighings = job, weighings
        self._ranked: list[list[int]] = []
        self._common = gcd(*(s.cost for s in job.sticks)) or 1
        self._heap: list[tuple[Key, Numbers, Numbers, Numbers]] = []
        lows = tuple(0 if s.cost else most for s, most in zip(job.sticks, job.most_sticks, strict=True))
        self._push(lows, job.most_sticks)

    @property
    def lowest(self) -> Key | None:
        """A key that no numbers still to come are under; None when there are none."""
        return self._heap[0][0] if self._heap else None

    def next(self, most_steps: int) -> Numbers | None:
        """Return the next numbers; None when there are none, or none was reached in so many steps (see `lowest`)."""
        for _ in range(most_steps):
            if not self._heap:
                return None
            key, _, lows, highs = heappop(self._heap)
            now = self._lower(lows, highs)
            if now is not None and now > key:
                self._push(lows, highs)
            elif now is not None and lows == highs:
                return lows
            elif now is not None:
                self._split(lows, highs)
        return None

    def _push(self, lows: Numbers, highs: Numbers) -> None:
        key = self._lower(lows, highs)
        if key is not None:
            heappush(self._heap, (key, tuple(-n for n in lows), lows, highs))

    def _split(self, lows: Numbers, highs: Numbers) -> None:
        """Halve the widest range."""
        t = max(range(len(lows)), key=lambda k: (highs[k] - lows[k], -k))
        middle = (lows[t] + highs[t]) // 2
        self._push(lows, (*highs[:t], middle, *highs[t + 1 :]))
        self._push((*lows[:t], middle + 1, *lows[t + 1 :]), highs)

    def _lower(self, lows: Numbers, highs: Numbers) -> Key | None:
        """Return a key that no numbers of these ranges are under; None when they are all too few."""
        cost, sticks = key_of(self._job, lows)
        extra = 0
        for n, weighed in enumerate(self._weighings):
            need = weighed.total - sum(c * k for c, k in zip(weighed.carries, lows, strict=True))
            more = self._filled(need, n, lows, highs) if need > 0 else 0
            if more is None:
                return None
            extra = max(extra, -(-more // self._common) * self._common)
        return cost + extra, sticks + (extra > 0)

    def _ranks(self, n: int) -> list[int]:
        """Return the types of a cost, those that carry most for it first."""
        sticks = self._job.sticks
        while len(self._ranked) <= n:
            carries = self._weighings[len(self._ranked)].carries
            paid = [t for t, s in enumerate(sticks) if s.cost]
            self._ranked.append(sorted(paid, key=lambda t: (-Fraction(carries[t], sticks[t].cost), t)))
        return self._ranked[n]

    def _filled(self, need: int, n: int, lows: Numbers, highs: Numbers) -> int | None:
        """Return the least that a need costs, the last stick by a fraction; None when all sticks are too few."""
        cost = 0
        carries = self._weighings[n].carries
        for t in self._ranks(n):
            there = carries[t] * (highs[t] - lows[t])
            if there >= need:
                return cost - (-need * self._job.sticks[t].cost // carries[t])
            need -= there
            cost += self._job.sticks[t].cost * (highs[t] - lows[t])
        return None
