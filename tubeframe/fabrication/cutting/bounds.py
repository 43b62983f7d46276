"""What no plan can do, in whole numbers: weigh the pieces, and see what the sticks can carry at most.

Give each length a weight. Whatever is cut from a stick of a type weighs at most what a knapsack says, its `carry`; so
numbers of sticks whose carries add up to less than all pieces weigh are too few. Weights come from the duals of the
linear problem, but they need not be trusted: any weights prove what they prove.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.knapsack import worths

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.knapsack import Values

_SCALE = 1_000_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """A weight for each length, the most that a stick of each type carries, and what all pieces weigh."""

    weights: tuple[int, ...]
    carries: tuple[int, ...]
    total: int

    def refuses(self, numbers: Sequence[int]) -> bool:
        """Whether numbers of sticks of each type are too few."""
        return sum(c * n for c, n in zip(self.carries, numbers, strict=True)) < self.total


def weighing(job: Job, weights: Sequence[int]) -> Weighing:
    """Weigh a job."""
    return Weighing(
        weights=tuple(weights),
        carries=tuple(worths(job.lengths, job.demands, weights, [s.capacity for s in job.sticks])),
        total=sum(w * d for w, d in zip(weights, job.demands, strict=True)),
    )


def weights_of(values: Values) -> list[int]:
    """Turn what pieces are worth into whole numbers, the greatest 10^9."""
    most = float(values.max(initial=0.0))
    return [int(v / most * _SCALE) for v in values] if most > 0.0 else [0] * len(values)
