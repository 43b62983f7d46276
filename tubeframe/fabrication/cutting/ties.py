"""Which of the plans of equal cost is cut: few pieces on hand, one long leftover, few patterns."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.job import Job, StickType
from tubeframe.fabrication.cutting.patterns import cost_of, numbers_of
from tubeframe.fabrication.cutting.search import cheapest_cover

if TYPE_CHECKING:
    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.patterns import Pattern

_SHARE = 0.25


def sparing_plan(job: Job, patterns: tuple[Pattern, ...], effort: Effort) -> tuple[Pattern, ...]:
    """Use as few as can be of the sticks that cost nothing, and of those the shortest; all others stay as many.

    To the search each of them costs a reserve: more than all of them are long, and its own length.
    """
    numbers = numbers_of(job, patterns)
    if not any(n for n, s in zip(numbers, job.sticks, strict=True) if not s.cost):
        return patterns
    reserve = 1 + sum(s.capacity * (s.limit or 0) for s in job.sticks if not s.cost)
    sparing = Job(
        lengths=job.lengths,
        demands=job.demands,
        sticks=tuple(
            StickType(capacity=s.capacity, cost=0, limit=n) if s.cost else replace(s, cost=reserve + s.capacity)
            for s, n in zip(job.sticks, numbers, strict=True)
        ),
    )
    cover = cheapest_cover(sparing, effort.part(_SHARE))
    better = cover is not None and cover.cost < cost_of(sparing, patterns)
    return cover.patterns if cover and better else patterns
