"""Which of the plans of equal cost is cut: few pieces on hand, one long leftover, few patterns. In this order.

None of it is proved, only looked for with counted work: the cost is what the plan promises.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.deciding import decided
from tubeframe.fabrication.cutting.few_patterns import fewest_patterns
from tubeframe.fabrication.cutting.patterns import Pattern, Ways, cost_of, numbers_of, taken_by
from tubeframe.fabrication.cutting.search import cheapest_cover

if TYPE_CHECKING:
    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.patterns import Patterns

_SHARE = 0.25
_DIVES = 2


def best_of_equals(job: Job, patterns: Patterns, known: Ways, effort: Effort) -> Patterns:
    """Return a plan of the same cost that leaves more."""
    spared = sparing_plan(job, patterns, effort.part(_SHARE))
    known.add_all(spared)
    left = longest_leftover(job, spared, known, effort.part(_SHARE))
    if left is None:
        return fewest_patterns(job, spared, known, effort.part(_SHARE))
    ways = known.with_one_more(left.job)
    return left.without(fewest_patterns(left.job, left.patterns, ways, effort.part(_SHARE)))


def sparing_plan(job: Job, patterns: Patterns, effort: Effort) -> Patterns:
    """Use as few as can be of the sticks that cost nothing, and of those the shortest; all others stay as many.

    To the search each of them costs a reserve: more than all of them are long, and its own length.
    """
    numbers = numbers_of(job, patterns)
    if not any(n for n, s in zip(numbers, job.sticks, strict=True) if not s.cost):
        return patterns
    reserve = 1 + sum(s.capacity * (s.limit or 0) for s in job.sticks if not s.cost)
    sticks = tuple(
        replace(s, cost=0, limit=n) if s.cost else replace(s, cost=reserve + s.capacity)
        for s, n in zip(job.sticks, numbers, strict=True)
    )
    sparing = replace(job, sticks=sticks)
    cover = cheapest_cover(sparing, effort, patterns)
    return cover.patterns if cover and cover.cost < cost_of(sparing, patterns) else patterns


@dataclass(frozen=True, slots=True, kw_only=True)
class WithLeftover:
    """A job with the leftover as one more piece, which stands last, and a plan of it."""

    job: Job
    patterns: Patterns

    def without(self, patterns: Patterns) -> Patterns:
        """Take the leftover out of a plan of this job."""
        kept = (replace(p, counts=p.counts[:-1]) for p in patterns)
        return tuple(p for p in kept if any(p.counts))


def longest_leftover(job: Job, patterns: Patterns, known: Ways, effort: Effort) -> WithLeftover | None:
    """Search the longest piece that could be cut besides, from the same sticks; None where nothing is left."""
    numbers = numbers_of(job, patterns)
    used = [(s, n) for s, n in zip(job.sticks, numbers, strict=True) if n]
    slack = sum(s.capacity * n for s, n in used) - sum(w * d for w, d in zip(job.lengths, job.demands, strict=True))
    most = min(slack, max((s.capacity for s, _ in used), default=0))
    best = _as_it_is(job, patterns)
    while best and best.job.lengths[-1] < most and not effort.over:
        middle = (best.job.lengths[-1] + most + 1) // 2
        longer = _with_piece(job, middle)
        decision = decided(longer, known.with_one_more(longer), numbers, effort, turns=range(_DIVES))
        if decision.patterns is None:
            most = middle - 1
        else:
            best = WithLeftover(job=longer, patterns=decision.patterns)
    return best


def _as_it_is(job: Job, patterns: Patterns) -> WithLeftover | None:
    """Make a piece of the longest rest that a plan leaves."""
    rests = [job.sticks[p.stick].capacity - taken_by(job, p) for p in patterns]
    longest = max(rests, default=0)
    if not longest:
        return None
    at = rests.index(longest)
    made = [replace(p, counts=(*p.counts, 0), times=p.times - (k == at)) for k, p in enumerate(patterns)]
    made.append(Pattern(stick=patterns[at].stick, counts=(*patterns[at].counts, 1)))
    return WithLeftover(job=_with_piece(job, longest), patterns=tuple(p for p in made if p.times))


def _with_piece(job: Job, length: int) -> Job:
    return replace(job, lengths=(*job.lengths, length), demands=(*job.demands, 1))
