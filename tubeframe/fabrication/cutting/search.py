"""The least cost of sticks that cover a demand of pieces, with its proof.

From above: a first plan, then dives from the linear problem. From below: numbers of sticks are gone through from the
cheapest up; those that a weighing refuses are out, and for the others the linear problem is asked for a weighing that
refuses them, or else dives for a plan. What neither decides is left to the whole-number problem over all ways of
cutting that could close the gap.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from math import gcd
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.errors import PlanError
from tubeframe.fabrication.cutting.bounds import Weighing, weighing, weights_of
from tubeframe.fabrication.cutting.counts import RisingNumbers, key_of
from tubeframe.fabrication.cutting.deciding import decided
from tubeframe.fabrication.cutting.diving import dived
from tubeframe.fabrication.cutting.exact import least_worths, lowest_cost, ways_worth, whole_plan
from tubeframe.fabrication.cutting.greedy import first_plan, in_cheaper_sticks
from tubeframe.fabrication.cutting.linear import Question, Relaxed, relaxed
from tubeframe.fabrication.cutting.patterns import Pattern, Patterns, Ways, cost_of, numbers_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.counts import Key
    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.job import Job

_TINY = 1e-6
_DIVES = 4
_DIVES_A_NUMBER = range(6)
_LATE_DIVES = range(6, 24)
"""Turns of the dives for given numbers of sticks: at first, and where all else left the gap open."""
_MOST_OPEN = 12
_MOST_STEPS = 40_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """The patterns that are cut, their cost, a cost that no plan is under, and what proves how much of it.

    `proved` is the cost that the weighings alone prove; `bound` may lie above it, by a complete search.
    """

    patterns: tuple[Pattern, ...]
    cost: int
    bound: int
    proved: int
    weighings: tuple[Weighing, ...]
    ways: Ways
    relaxed: Relaxed | None = None


class Search:
    """What is known of a job so far: ways of cutting, weighings, the best plan."""

    def __init__(self, job: Job, effort: Effort) -> None:
        """Start with what needs no search."""
        self.job, self.effort = job, effort
        self.ways = Ways(job)
        self.weighings: list[Weighing] = [weighing(job, job.lengths)]
        self.best: tuple[Pattern, ...] | None = None
        self.lower = 0
        self.impossible = False
        self.offer(first_plan(job))

    @property
    def key(self) -> Key | None:
        """Cost and number of sticks of the best plan."""
        return None if self.best is None else key_of(self.job, numbers_of(self.job, self.best))

    def offer(self, patterns: tuple[Pattern, ...] | None) -> bool:
        """Take a plan when it is better than the best one; tell whether it was."""
        if patterns is None:
            return False
        patterns = in_cheaper_sticks(self.job, patterns)
        self.ways.add_all(patterns)
        if self.key is None or key_of(self.job, numbers_of(self.job, patterns)) < self.key:
            self.best = patterns
            return True
        return False

    def _weigh(self, answer: Relaxed) -> Weighing:
        weighed = weighing(self.job, weights_of(answer.values))
        self.effort.spend(max(s.capacity for s in self.job.sticks) * len(self.job.lengths) * 3)
        return weighed

    def _question(self) -> Question:
        """Ask for the least cost; what is missing is dearer than any sticks."""
        job = self.job
        dear = 2.0 * max(1, *(s.cost for s in job.sticks)) * max(1, len(job.sticks))
        return Question(
            demands=np.array(job.demands, dtype=np.int64),
            limits=tuple(s.limit for s in job.sticks),
            costs=tuple(float(s.cost) for s in job.sticks),
            missing=(dear,) * len(job.lengths),
        )

    def _rounds_alike(self, answer: Relaxed) -> bool:
        """Whether a better answer would not prove more: what it proves is rounded up to what it costs."""
        if answer.uncovered > _TINY:
            return False
        common = gcd(*(s.cost for s in self.job.sticks)) or 1
        proved, reached = (math.ceil(v / common - _TINY) for v in (lowest_cost(self.job, answer), answer.cost))
        return proved >= reached

    def from_above(self) -> Relaxed:
        """Solve the linear problem and dive for plans until one costs no more than the bound."""
        question = self._question()
        answer = relaxed(self.job, self.ways, question, self.effort, enough=self._rounds_alike)
        self.weighings.append(self._weigh(answer))
        rising = RisingNumbers(self.job, self.weighings)
        numbers = rising.next(_MOST_STEPS)
        self.lower = key_of(self.job, numbers)[0] if numbers else (rising.lowest or (0, 0))[0]
        for turn in range(_DIVES):
            if self.effort.over or (self.best and cost_of(self.job, self.best) <= self.lower):
                break
            self.offer(dived(self.job, self.ways, question, answer, self.effort, turn=turn))
        return answer

    def from_below(self, turns: Sequence[int] = _DIVES_A_NUMBER) -> None:
        """Go through numbers of sticks from the cheapest up until one is reached that has a plan."""
        rising = RisingNumbers(self.job, self.weighings)
        undecided = 0
        while undecided < _MOST_OPEN and not self.effort.over:
            numbers = rising.next(_MOST_STEPS)
            key = rising.lowest if numbers is None else key_of(self.job, numbers)
            if key is None:
                self.impossible = not undecided
                return
            if not undecided:
                self.lower = key[0]
            if numbers is None or (self.key is not None and key >= self.key):
                return
            decision = decided(self.job, self.ways, numbers, self.effort, turns)
            if self.offer(decision.patterns):
                return
            if decision.refusal is None:
                undecided += 1
            else:
                self.weighings.append(decision.refusal)

    def any_plan(self) -> None:
        """Search all ways of cutting for some plan, where sticks are few and no dive found one."""
        none = np.zeros(len(self.job.lengths))
        ways = ways_worth(self.job, none, [-1.0] * len(self.job.sticks), self.effort)
        if ways:
            most = sum(s.cost * n for s, n in zip(self.job.sticks, self.job.most_sticks, strict=True))
            ended = whole_plan(self.job, ways, self.effort, below=most + 1)
            self.offer(ended.patterns)
            self.impossible = ended.complete and ended.patterns is None

    def closed(self) -> bool:
        """Search all ways of cutting that a cheaper plan could use; whether that decided it."""
        if self.best is None or self.effort.over:
            return False
        answer = relaxed(self.job, self.ways, self._question(), self.effort)
        if not answer.worths:
            return False
        cost = cost_of(self.job, self.best)
        cheaper = cost - (gcd(*(s.cost for s in self.job.sticks)) or 1)
        ways = ways_worth(self.job, answer.values, least_worths(self.job, answer, cheaper), self.effort)
        if not ways:
            return False
        ended = whole_plan(self.job, ways, self.effort, below=cost)
        self.offer(ended.patterns)
        return ended.complete


def cheapest_cover(job: Job, effort: Effort, start: Patterns | None = None) -> Cover | None:
    """Return the least-cost plan; None when limited sticks are too few. Its bound equals its cost when it is proved.

    A plan that is known already may be given to `start` from.

    Raises:
        PlanError: when sticks are few, and the effort is over before it is known whether they are too few.

    """
    if not job.lengths:
        return Cover(patterns=(), cost=0, bound=0, proved=0, weighings=(), ways=Ways(job))
    search = Search(job, effort)
    search.offer(start)
    answer = search.from_above()
    search.from_below()
    if search.best is None and not search.impossible:
        search.any_plan()
    if search.best is None:
        if search.impossible:
            return None
        message = "no stick plan was found, and none is ruled out: add a stick to buy, or allow more time"
        raise PlanError(message)
    complete = False
    if search.lower < cost_of(job, search.best):
        complete = search.closed()
    if not complete and search.lower < cost_of(job, search.best):
        search.from_below(_LATE_DIVES)
    cost = cost_of(job, search.best)
    proved = min(search.lower, cost)
    return Cover(
        patterns=search.best,
        cost=cost,
        bound=cost if complete else proved,
        proved=proved,
        weighings=tuple(search.weighings),
        ways=search.ways,
        relaxed=answer,
    )
