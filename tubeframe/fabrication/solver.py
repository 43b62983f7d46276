"""HiGHS (through scipy, which keeps it quiet) asked for covers by patterns: the linear problem, and the whole one."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np
from scipy.optimize import LinearConstraint, linprog, milp
from scipy.sparse import coo_array

from tubeframe.errors import PlanError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.job import Job
    from tubeframe.fabrication.patterns import Pattern

_MOST_NODES = 20_000
_INFEASIBLE, _STOPPED = 2, 1


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearAnswer:
    """The least cost by fractions; what a piece of each length and one more stick of each limited type are worth."""

    cost: float
    values: tuple[float, ...]
    limit_values: tuple[float, ...]


class Found(Enum):
    """How a search in whole numbers ended."""

    BEST = "best"
    NONE = "none"
    STOPPED = "stopped"


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeAnswer:
    """How the search ended, how often each pattern is cut, and what no answer is under."""

    found: Found
    counts: tuple[int, ...]
    bound: float


def linear_cover(job: Job, patterns: Sequence[Pattern]) -> LinearAnswer:
    """Solve the linear problem over some patterns; a dear slack for every length keeps it solvable."""
    dear = 10.0 * (1 + sum(s.cost for s in job.sticks))
    costs = np.array([job.sticks[p.stick].cost for p in patterns] + [dear] * len(job.lengths), dtype=float)
    limited = [n for n, s in enumerate(job.sticks) if s.limit is not None]
    covers = np.hstack([_counts(job, patterns), np.eye(len(job.lengths))])
    limits = np.array([[float(p.stick == n) for p in patterns] + [0.0] * len(job.lengths) for n in limited])
    rows = np.vstack([-covers, limits]) if limited else -covers
    caps = np.array([-float(d) for d in job.demands] + [float(job.sticks[n].limit or 0) for n in limited])
    answer = linprog(costs, A_ub=rows, b_ub=caps, method="highs")
    if answer.status != 0:
        message = f"the solver stopped: {answer.message}"
        raise PlanError(message)
    duals = answer.ineqlin.marginals
    by_limit = dict(zip(limited, duals[len(job.lengths) :], strict=True))
    return LinearAnswer(
        cost=float(answer.fun),
        values=tuple(max(0.0, float(-v)) for v in duals[: len(job.lengths)]),
        limit_values=tuple(min(0.0, float(by_limit.get(n, 0.0))) for n in range(len(job.sticks))),
    )


def whole_cover(
    job: Job, patterns: Sequence[Pattern], costs: Sequence[int], numbers: Sequence[int | None]
) -> WholeAnswer:
    """Solve in whole numbers. `numbers` fixes how many sticks of a type are cut; None leaves its limit alone."""
    scale = max(1, *costs)
    used = np.array([[float(p.stick == n) for p in patterns] for n in range(len(job.sticks))])
    most = [s.limit if n is None else n for s, n in zip(job.sticks, numbers, strict=True)]
    answer = milp(
        np.array(costs, dtype=float) / scale,
        integrality=np.ones(len(patterns)),
        constraints=[
            LinearConstraint(coo_array(_counts(job, patterns)), np.array(job.demands, dtype=float), np.inf),
            LinearConstraint(
                coo_array(used),
                np.array([0.0 if n is None else float(n) for n in numbers]),
                np.array([np.inf if m is None else float(m) for m in most]),
            ),
        ],
        options={"mip_rel_gap": 0.0, "node_limit": _MOST_NODES},
    )
    if answer.status == _INFEASIBLE:
        return WholeAnswer(found=Found.NONE, counts=(), bound=0.0)
    bound = 0.0 if answer.mip_dual_bound is None else float(answer.mip_dual_bound) * scale
    if answer.x is None:
        return WholeAnswer(found=Found.STOPPED, counts=(), bound=bound)
    return WholeAnswer(
        found=Found.STOPPED if answer.status == _STOPPED else Found.BEST,
        counts=tuple(round(v) for v in answer.x),
        bound=bound,
    )


def _counts(job: Job, patterns: Sequence[Pattern]) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Return pieces of each length (rows) in each pattern (columns)."""
    return np.array([[float(p.counts[i]) for p in patterns] for i in range(len(job.lengths))])
