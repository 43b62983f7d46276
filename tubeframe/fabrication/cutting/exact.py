"""The last resort where a gap stays: every way of cutting that could close it, and a whole-number problem over them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.fabrication.cutting.highs import INFINITY, Solver
from tubeframe.fabrication.cutting.patterns import Pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.knapsack import Values
    from tubeframe.fabrication.cutting.linear import Relaxed
    from tubeframe.fabrication.cutting.patterns import Way

_TINY = 1e-6
_MOST_WAYS = 30_000
_MOST_NODES = 20_000
_MOST_STEPS = 1_000_000
_STEPS_A_LOOK = 1_000
_CELLS_A_STEP = 2_000
_CELLS_A_NODE = 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Ended:
    """What a whole-number problem ended with: a plan, if any, and whether the search was complete."""

    patterns: tuple[Pattern, ...] | None
    complete: bool


def least_worths(job: Job, answer: Relaxed, cost: int) -> list[float]:
    """Return what a way must be worth for each type of stick to be in a plan that costs no more than a cost."""
    share, over = _shared(job, answer)
    gap = cost - lowest_cost(job, answer)
    return [(s.cost + o - gap) / share - _TINY * max(1, s.cost) for s, o in zip(job.sticks, over, strict=True)]


def lowest_cost(job: Job, answer: Relaxed) -> float:
    """Return what no plan is under, by fractions: values are made less until no way is worth more than its stick.

    A. A. Farley, A note on bounding a class of linear programming problems, Operations Research 38 (1990) 922-923; what
    a limited type is worth more than it costs is taken off for each stick of it.
    """
    share, over = _shared(job, answer)
    worth = share * float(answer.values @ np.array(job.demands))
    return worth - sum(o * m for o, m in zip(over, job.most_sticks, strict=True))


def _shared(job: Job, answer: Relaxed) -> tuple[float, list[float]]:
    """Return by which share values are too high, and how much more than its cost each type is then worth."""
    pairs = list(zip(job.sticks, answer.worths, strict=True))
    share = min([1.0, *(s.cost / w for s, w in pairs if s.limit is None and w > s.cost)])
    return share, [max(0.0, share * w - s.cost) for s, w in pairs]


def ways_worth(
    job: Job, values: Values, least: Sequence[float], effort: Effort, *, full: bool = True
) -> list[Way] | None:
    """List every way of cutting whose pieces are worth at least `least` for its stick; None when there are too many.

    Branch and bound, the piece of the best value for its length first; the bound fills up by fractions. Ways to which
    another piece could be added are left out on request: the longer way does as well.
    """
    found: list[Way] = []
    for t, stick in enumerate(job.sticks):
        listed = _Listing(job, values, least[t], _MOST_WAYS - len(found), effort, full=full).listed(stick.capacity)
        if listed is None:
            return None
        found += [(t, counts) for counts in listed]
    return found


class _Listing:
    def __init__(self, job: Job, values: Values, least: float, most: int, effort: Effort, *, full: bool) -> None:
        self._order = sorted(range(len(job.lengths)), key=lambda i: (-values[i] / job.lengths[i], i))
        self._lengths = [job.lengths[i] for i in self._order]
        self._demands = [job.demands[i] for i in self._order]
        self._values = [float(values[i]) for i in self._order]
        self._least, self._most, self._effort, self._full = least, most, effort, full
        self._counts = [0] * len(self._order)
        self._found: list[tuple[int, ...]] = []
        self._steps = 0

    def listed(self, capacity: int) -> list[tuple[int, ...]] | None:
        return self._found if self._visit(0, capacity, 0.0) else None

    def _visit(self, rank: int, left: int, worth: float) -> bool:
        self._steps += 1
        if self._steps % _STEPS_A_LOOK == 0:
            self._effort.spend(_STEPS_A_LOOK * _CELLS_A_STEP)
        if len(self._found) > self._most or self._steps > _MOST_STEPS or self._effort.over:
            return False
        if rank == len(self._order):
            self._keep(left)
            return True
        length, value = self._lengths[rank], self._values[rank]
        for count in range(min(self._demands[rank], left // length), -1, -1):
            rest = left - count * length
            if worth + count * value + self._bound(rank + 1, rest) < self._least:
                break
            self._counts[rank] = count
            if not self._visit(rank + 1, rest, worth + count * value):
                return False
        self._counts[rank] = 0
        return True

    def _keep(self, left: int) -> None:
        full = not self._full or all(
            n == d or w > left for n, d, w in zip(self._counts, self._demands, self._lengths, strict=True)
        )
        if full and any(self._counts):
            counts = [0] * len(self._order)
            for i, n in zip(self._order, self._counts, strict=True):
                counts[i] = n
            self._found.append(tuple(counts))

    def _bound(self, rank: int, left: int) -> float:
        worth = 0.0
        for k in range(rank, len(self._order)):
            count = min(self._demands[k], left // self._lengths[k])
            worth += count * self._values[k]
            left -= count * self._lengths[k]
            if count < self._demands[k]:
                return worth + self._values[k] * left / self._lengths[k]
        return worth


def whole_plan(job: Job, ways: Sequence[Way], effort: Effort, *, below: int) -> Ended:
    """Solve in whole numbers over some ways of cutting for a plan that costs less than `below`.

    Columns are how many sticks of each type are taken, then how often each way is cut.
    """
    scale = float(max(1, *(s.cost for s in job.sticks)))
    kinds = len(job.sticks)
    solver = Solver()
    solver.add_rows(
        [*(float(d) for d in job.demands), *([0.0] * kinds), -INFINITY],
        [*([INFINITY] * len(job.demands)), *([0.0] * kinds), (below - 0.5) / scale],
    )
    costs = np.array([s.cost for s in job.sticks]) / scale
    lengths = np.zeros((kinds, len(job.lengths)))
    most = np.array([float(m) for m in job.most_sticks])
    solver.add_columns(costs, np.hstack([lengths, -np.eye(kinds), costs[:, None]]), most=most, whole=True)
    counts = np.array([c for _, c in ways], dtype=float)
    of_stick = np.eye(kinds)[[t for t, _ in ways]]
    solver.add_columns(np.zeros(len(ways)), np.hstack([counts, of_stick, np.zeros((len(ways), 1))]), whole=True)
    solver.set("mip_rel_gap", 0.0)
    solver.set("mip_abs_gap", 0.5 / scale)
    solver.set("mip_max_nodes", _MOST_NODES)
    if math.isfinite(effort.seconds):
        solver.set("time_limit", effort.seconds)
    solver.run()
    effort.spend(_CELLS_A_NODE * solver.nodes * (len(ways) + len(job.lengths)))
    times = solver.values
    complete = solver.solved or solver.impossible
    if times is None:
        return Ended(patterns=None, complete=complete)
    found = zip(ways, np.rint(times[kinds:]), strict=True)
    return Ended(
        patterns=tuple(Pattern(stick=t, counts=c, times=int(n)) for (t, c), n in found if n),
        complete=complete,
    )
