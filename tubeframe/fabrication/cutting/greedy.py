"""A first plan without any search: the longest piece first, into the stick where the least is left."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.patterns import Pattern, numbers_of, taken_by

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.fabrication.cutting.job import Job


def first_plan(job: Job) -> tuple[Pattern, ...] | None:
    """Fill stick after stick, each time of the type that comes cheapest for what it takes; None when sticks run out."""
    waiting = list(job.demands)
    left = list(job.most_sticks)
    made: list[Pattern] = []
    while any(waiting):
        fillings = [(t, _filled(job.lengths, waiting, s.capacity)) for t, s in enumerate(job.sticks) if left[t]]
        useful = [(t, f) for t, f in fillings if any(f)]
        if not useful:
            return None
        stick, counts = min(useful, key=lambda tf: _cost_for_length(job, *tf))
        times = min(left[stick], *(w // c for w, c in zip(waiting, counts, strict=True) if c))
        made.append(Pattern(stick=stick, counts=counts, times=times))
        left[stick] -= times
        waiting = [w - c * times for w, c in zip(waiting, counts, strict=True)]
    return in_cheaper_sticks(job, made)


def _filled(lengths: Sequence[int], waiting: Sequence[int], room: int) -> tuple[int, ...]:
    """Fill a stick, the longest piece first."""
    counts = []
    for length, there in zip(lengths, waiting, strict=True):
        count = min(there, room // length)
        counts.append(count)
        room -= count * length
    return tuple(counts)


def _cost_for_length(job: Job, stick: int, counts: Sequence[int]) -> tuple[float, int]:
    taken = sum(c * w for c, w in zip(counts, job.lengths, strict=True))
    return job.sticks[stick].cost / taken, job.sticks[stick].capacity - taken


def in_cheaper_sticks(job: Job, patterns: Iterable[Pattern]) -> tuple[Pattern, ...]:
    """Cut each pattern from the cheapest stick that takes it and that is there, the fullest patterns first."""
    left = list(job.most_sticks)
    for stick, times in enumerate(numbers_of(job, patterns := tuple(patterns))):
        left[stick] -= times
    made = []
    for pattern in sorted(patterns, key=lambda p: -taken_by(job, p)):
        times = pattern.times
        for stick in sorted(range(len(job.sticks)), key=lambda t: (job.sticks[t].cost, job.sticks[t].capacity, t)):
            if job.sticks[stick].cost >= job.sticks[pattern.stick].cost:
                break
            moved = min(times, left[stick])
            if moved and taken_by(job, pattern) <= job.sticks[stick].capacity:
                made.append(replace(pattern, stick=stick, times=moved))
                left[stick] -= moved
                left[pattern.stick] += moved
                times -= moved
        if times:
            made.append(replace(pattern, times=times))
    return tuple(made)
