"""The linear problem behind a stick plan, by column generation.

P. C. Gilmore and R. E. Gomory, A linear programming approach to the cutting-stock problem, Operations Research 9
(1961) 849-859. HiGHS solves it over the ways of cutting that are known; a knapsack finds better ways until there are
none. What comes out is only ever a proposal: every bound is checked again in whole numbers (`bounds.py`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.errors import PlanError
from tubeframe.fabrication.cutting.highs import INFINITY, Solver
from tubeframe.fabrication.cutting.knapsack import best_ways

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.knapsack import Counts, Values
    from tubeframe.fabrication.cutting.patterns import Ways

_TINY = 1e-9
_MOST_ROUNDS = 2_000
_FEW_ROUNDS = 12
_CELLS_A_NUMBER = 100
_FEW_STEPS = 4_000
_LEAST_COARSER = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is covered, from how many sticks of each type (None for any number), and what is made least.

    `costs` is for a stick of each type, `missing` for a piece of each length that stays uncovered.
    """

    demands: Counts
    limits: tuple[int | None, ...]
    costs: tuple[float, ...]
    missing: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """An answer in fractions: its cost, what stays uncovered, how often each way is cut, and what a piece is worth.

    `worths` is the most that a stick of each type can hold; empty when the search was stopped before that was known.
    """

    cost: float
    uncovered: float
    sticks: Counts
    ways: Counts
    times: Values
    values: Values
    worths: tuple[float, ...] = ()


def relaxed(
    job: Job,
    known: Ways,
    question: Question,
    effort: Effort,
    *,
    roughly: bool = False,
    enough: Callable[[Relaxed], bool] | None = None,
) -> Relaxed:
    """Solve in fractions; better ways are added to the known ones. Stops early when an answer is `enough`.

    `roughly` is good enough to go on from in a dive: a few rounds, and only with what coarse steps find.
    """
    problem = _Problem(job, known, question)
    coarse = _coarser(job)
    for _ in range(_FEW_ROUNDS if roughly else _MOST_ROUNDS):
        answer = problem.solved()
        effort.spend(_CELLS_A_NUMBER * len(job.lengths) * len(answer.times))
        if effort.over:
            return answer
        if coarse and problem.extended(known, _better_ways(coarse, question, answer, effort)):
            continue
        if coarse and roughly:
            return answer
        better = _better_ways(job, question, answer, effort)
        answer = replace(answer, worths=tuple(worth for worth, _ in better))
        if effort.over or (enough and enough(answer)) or not problem.extended(known, better):
            return answer
    return problem.solved()


def _coarser(job: Job) -> Job | None:
    """Return the job in coarser steps, pieces rounded up: what fits it fits the job, and is found much faster.

    None where the steps are coarse already.
    """
    step = max((s.capacity for s in job.sticks), default=0) // _FEW_STEPS
    if step < _LEAST_COARSER:
        return None
    return replace(
        job,
        lengths=tuple(-(-length // step) for length in job.lengths),
        sticks=tuple(replace(s, capacity=s.capacity // step) for s in job.sticks),
    )


def _better_ways(job: Job, question: Question, answer: Relaxed, effort: Effort) -> list[tuple[float, Counts]]:
    """Return the worthiest way for each type of stick."""
    effort.spend(sum(int(d).bit_length() for d in question.demands) * max(s.capacity for s in job.sticks))
    return best_ways(job.lengths, [int(d) for d in question.demands], answer.values, [s.capacity for s in job.sticks])


class _Problem:
    """The problem as the solver holds it: rows are lengths, then limited sticks; columns what is missing, then ways."""

    def __init__(self, job: Job, known: Ways, question: Question) -> None:
        self._question = question
        self._limited = [t for t, q in enumerate(question.limits) if q is not None]
        sticks, counts = known.arrays()
        counts = np.minimum(counts, question.demands)
        usable = counts.any(axis=1) & np.array([question.limits[t] != 0 for t in sticks], dtype=bool)
        self.sticks, self.counts = sticks[usable], counts[usable]
        self.shadow = np.zeros(len(job.sticks))
        self._size = len(job.lengths)
        self._solver = Solver()
        self._load()

    def _load(self) -> None:
        lows = [
            *(float(d) for d in self._question.demands),
            *(-float(self._question.limits[t] or 0) for t in self._limited),
        ]
        self._solver.add_rows(lows, [INFINITY] * len(lows))
        self._solver.add_columns(np.array(self._question.missing, dtype=float), np.eye(self._size))
        self._add(self.sticks, self.counts)

    def _add(self, sticks: Counts, counts: Counts) -> None:
        takes = -(sticks[:, None] == np.array(self._limited, dtype=np.int64)[None, :]).astype(float)
        self._solver.add_columns(np.array(self._question.costs, dtype=float)[sticks], np.hstack([counts, takes]))

    def solved(self) -> Relaxed:
        self._solver.run()
        times = self._solver.values
        if not self._solver.solved or times is None:
            message = f"the solver stopped: {self._solver.status}"
            raise PlanError(message)
        duals = self._solver.duals
        self.shadow[self._limited] = np.minimum(0.0, -duals[self._size :])
        return Relaxed(
            cost=self._solver.cost,
            uncovered=float(times[: self._size].sum()),
            sticks=self.sticks,
            ways=self.counts,
            times=times[self._size :],
            values=np.maximum(0.0, duals[: self._size]),
        )

    def extended(self, known: Ways, better: Sequence[tuple[float, Counts]]) -> bool:
        """Take the ways that are worth more than their stick; tell whether there were any."""
        added = []
        for t, (worth, counts) in enumerate(better):
            least = self._question.costs[t] - self.shadow[t]
            if self._question.limits[t] != 0 and worth > least + _TINY * max(1.0, abs(least)):
                known.add(t, counts)
                added.append((t, counts))
        if not added:
            return False
        sticks = np.array([t for t, _ in added], dtype=np.int64)
        counts = np.array([c for _, c in added], dtype=np.int64)
        self._add(sticks, counts)
        self.sticks = np.concatenate([self.sticks, sticks])
        self.counts = np.vstack([self.counts, counts])
        return True
