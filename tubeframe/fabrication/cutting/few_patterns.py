"""The same sticks cut in fewer different ways: fewer stops to set at the saw."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tubeframe.fabrication.cutting.highs import INFINITY, Solver
from tubeframe.fabrication.cutting.patterns import Pattern, numbers_of

if TYPE_CHECKING:
    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.patterns import Ways

_MOST_NODES = 100
_MOST_CELLS = 12_000
_CELLS_A_NODE = 20_000


def fewest_patterns(job: Job, patterns: tuple[Pattern, ...], known: Ways, effort: Effort) -> tuple[Pattern, ...]:
    """Cover exactly with as few of the known ways as can be found; the sticks of each type stay as many.

    Columns are how often a way is cut, then whether it is cut at all.
    """
    known.add_all(patterns)
    merged = _merged(patterns)
    sticks, counts = known.arrays()
    if len(merged) < 2 or counts.size > _MOST_CELLS or effort.over:
        return merged
    numbers = np.array(numbers_of(job, patterns))
    demands = np.array(job.demands)
    often = np.array([min(numbers[t], np.min(demands[c > 0] // c[c > 0])) for t, c in zip(sticks, counts, strict=True)])
    kept = often > 0
    sticks, counts, often = sticks[kept], counts[kept].astype(float), often[kept].astype(float)
    n, kinds = len(sticks), len(job.sticks)
    solver = Solver()
    solver.add_rows(
        [*demands.astype(float), *numbers.astype(float), *([-INFINITY] * n)],
        [*demands.astype(float), *numbers.astype(float), *([0.0] * n)],
    )
    of_stick = np.eye(kinds)[sticks]
    solver.add_columns(np.zeros(n), np.hstack([counts, of_stick, np.eye(n)]), most=often, whole=True)
    rest = np.zeros((n, len(demands) + kinds))
    solver.add_columns(np.ones(n), np.hstack([rest, -np.diag(often)]), most=np.ones(n), whole=True)
    solver.set("mip_max_nodes", _MOST_NODES)
    if np.isfinite(effort.seconds):
        solver.set("time_limit", effort.seconds)
    solver.run()
    effort.spend(_CELLS_A_NODE * solver.nodes * n)
    times = solver.values
    if times is None:
        return merged
    found = _merged(
        tuple(
            Pattern(stick=int(t), counts=tuple(int(x) for x in c), times=int(k))
            for t, c, k in zip(sticks, counts, np.rint(times[:n]), strict=True)
            if k
        )
    )
    return found if len(found) < len(merged) else merged


def _merged(patterns: tuple[Pattern, ...]) -> tuple[Pattern, ...]:
    """Put equal patterns together."""
    times: dict[tuple[int, tuple[int, ...]], int] = {}
    for pattern in patterns:
        way = (pattern.stick, pattern.counts)
        times[way] = times.get(way, 0) + pattern.times
    return tuple(Pattern(stick=stick, counts=counts, times=n) for (stick, counts), n in times.items())
