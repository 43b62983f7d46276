"""The least cost of sticks that cover a demand of pieces, with its proof. In whole numbers.

Every way of cutting is listed where there are few; else by column generation after P. C. Gilmore and R. E. Gomory,
A linear programming approach to the cutting-stock problem, Operations Research 9 (1961) 849-859. The whole-number
problem over the ways is solved by HiGHS; the linear problem's duals give the lower bound, and where a gap stays, all
ways that could close it (by their reduced cost) are added.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import TYPE_CHECKING

from tubeframe.fabrication.patterns import Pattern, best_pattern, full_patterns, patterns_worth
from tubeframe.fabrication.solver import Found, LinearAnswer, linear_cover, whole_cover

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.fabrication.job import Job

_MOST_LISTED = 3_000
_MOST_ADDED = 30_000
_MOST_ROUNDS = 400
_MOST_NUMBERS = 300
_TINY = 1e-7


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """The patterns that are cut, their cost, and a cost that no plan is under."""

    patterns: tuple[Pattern, ...]
    cost: int
    bound: int


def cheapest_cover(job: Job) -> Cover | None:
    """Return the least-cost plan; None when limited sticks are too few. Its bound equals its cost when it is proved."""
    if not job.lengths:
        return Cover(patterns=(), cost=0, bound=0)
    listed = _all_patterns(job)
    if listed is not None:
        lowest = linear_cover(job, listed).cost
        return _solved(job, listed, floor=lowest - _TINY * max(1.0, lowest)).cover
    return _by_columns(job)


def _all_patterns(job: Job) -> list[Pattern] | None:
    """List every full pattern of every type of stick, when there are few."""
    found: list[Pattern] = []
    for n, stick in enumerate(job.sticks):
        fillings = full_patterns(job.lengths, job.demands, stick.capacity, _MOST_LISTED)
        if fillings is None:
            return None
        found += [Pattern(stick=n, counts=c) for c in fillings if any(c)]
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """What a search found, and the least cost that it could not decide on (None when it decided on all below)."""

    cover: Cover | None
    undecided: int | None


def _solved(job: Job, patterns: Sequence[Pattern], *, floor: float, ceiling: int | None = None) -> Search:
    """Choose among all patterns: numbers of sticks are tried from the cheapest up, and the first that works is best.

    Numbers that the linear problem already rules out are not searched. `floor` is a cost that no plan is under, and
    `ceiling` one that is reached already: from there on nothing is tried.
    """
    costs = [0] * len(patterns)
    undecided: int | None = None
    for tried, (total, numbers) in enumerate(_stick_numbers(job, floor)):
        if ceiling is not None and total >= ceiling:
            break
        if tried == _MOST_NUMBERS:
            undecided = total if undecided is None else undecided
            break
        answer = whole_cover(job, patterns, costs, numbers)
        if answer.found is Found.STOPPED and not answer.counts and undecided is None:
            undecided = total
        if answer.counts:
            counts = _sparing(job, patterns, numbers, answer.counts)
            chosen = tuple(p for p, n in zip(patterns, counts, strict=True) for _ in range(n))
            bound = total if undecided is None else undecided
            return Search(cover=Cover(patterns=chosen, cost=total, bound=bound), undecided=undecided)
    return Search(cover=None, undecided=undecided)


def _sparing(
    job: Job, patterns: Sequence[Pattern], numbers: Sequence[int | None], counts: tuple[int, ...]
) -> tuple[int, ...]:
    """Among plans of these numbers of bought sticks, use as little as can be of what lies there already."""
    if all(n is not None for n in numbers):
        return counts
    lengths = [job.sticks[p.stick].capacity if numbers[p.stick] is None else 0 for p in patterns]
    return whole_cover(job, patterns, lengths, numbers).counts or counts


def _stick_numbers(job: Job, floor: float) -> Iterator[tuple[int, tuple[int | None, ...]]]:
    """Give numbers of bought sticks in rising cost, those whose length cannot do left out; longer sticks first."""
    bought = [n for n, s in enumerate(job.sticks) if s.limit is None and s.capacity >= job.lengths[-1]]
    need = sum(w * d for w, d in zip(job.lengths, job.demands, strict=True))
    need -= sum(s.capacity * s.limit for s in job.sticks if s.limit is not None)
    dearest = [-job.sticks[n].capacity for n in bought]
    heap: list[tuple[int, int, tuple[int, ...]]] = [(0, 0, (0,) * len(bought))]
    while heap:
        cost, _, counts = heappop(heap)
        room = sum(c * job.sticks[n].capacity for c, n in zip(counts, bought, strict=True))
        if room >= need and cost >= floor:
            by_type = dict(zip(bought, counts, strict=True))
            yield cost, tuple(by_type.get(n) for n in range(len(job.sticks)))
        last = max((k for k, c in enumerate(counts) if c), default=0)
        for k in range(last, len(bought)):
            more = tuple(c + (i == k) for i, c in enumerate(counts))
            size = sum(d * c for d, c in zip(dearest, more, strict=True))
            heappush(heap, (cost + job.sticks[bought[k]].cost, sum(more) * 10**12 + size, more))


def _by_columns(job: Job) -> Cover | None:
    patterns = _first_patterns(job)
    answer = linear_cover(job, patterns)
    for _ in range(_MOST_ROUNDS):
        better = _better_patterns(job, answer)
        if not better:
            break
        patterns += better
        answer = linear_cover(job, patterns)
    lowest = _dual_bound(job, answer)
    floor = lowest - _TINY * max(1.0, lowest)
    found = _solved(job, patterns, floor=floor).cover
    if found is None:
        return None
    proved = math.ceil(floor)
    if found.cost > proved:
        more = _patterns_in_gap(job, answer, found.cost - lowest)
        if more is not None:
            search = _solved(job, more, floor=floor, ceiling=found.cost)
            found = search.cover or found
            proved = found.bound if search.cover else found.cost if search.undecided is None else search.undecided
    return Cover(patterns=found.patterns, cost=found.cost, bound=min(proved, found.cost))


def _first_patterns(job: Job) -> list[Pattern]:
    """Give every length a stick of its own, as full of it as it goes, for each type that takes it."""
    made = []
    for n, stick in enumerate(job.sticks):
        for i, (length, demand) in enumerate(zip(job.lengths, job.demands, strict=True)):
            count = min(demand, stick.capacity // length)
            if count:
                made.append(Pattern(stick=n, counts=tuple(count if k == i else 0 for k in range(len(job.lengths)))))
    return made


def _better_patterns(job: Job, answer: LinearAnswer) -> list[Pattern]:
    """Return the pattern of most negative reduced cost for each type of stick."""
    found = []
    for n, stick in enumerate(job.sticks):
        worth, counts = best_pattern(job.lengths, job.demands, stick.capacity, answer.values)
        if stick.cost - worth - answer.limit_values[n] < -_TINY * max(1, stick.cost):
            found.append(Pattern(stick=n, counts=counts))
    return found


def _dual_bound(job: Job, answer: LinearAnswer) -> float:
    """Return what the duals prove: values are scaled down until no pattern is worth more than its stick."""
    share = 1.0
    for n, stick in enumerate(job.sticks):
        worth, _ = best_pattern(job.lengths, job.demands, stick.capacity, answer.values)
        own = stick.cost - answer.limit_values[n]
        if worth > own:
            share = min(share, own / worth if worth > 0 else 1.0)
    limits = sum(v * s.limit for v, s in zip(answer.limit_values, job.sticks, strict=True) if s.limit is not None)
    return max(0.0, share * sum(v * d for v, d in zip(answer.values, job.demands, strict=True)) + limits)


def _patterns_in_gap(job: Job, answer: LinearAnswer, gap: float) -> list[Pattern] | None:
    """List all patterns that a plan within the gap could use; None when there are too many to be listed."""
    found: list[Pattern] = []
    for n, stick in enumerate(job.sticks):
        least = stick.cost - answer.limit_values[n] - gap - _TINY * max(1, stick.cost)
        listed = patterns_worth(job.lengths, job.demands, stick.capacity, answer.values, least, _MOST_ADDED)
        if listed is None:
            return None
        found += [Pattern(stick=n, counts=c) for _, c in listed if any(c)]
    return found if len(found) <= _MOST_ADDED else None
