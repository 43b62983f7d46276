"""Whether given numbers of sticks are enough: a plan that says yes, or a weighing that says no."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.fabrication.cutting.bounds import Weighing, weighing, weights_of
from tubeframe.fabrication.cutting.diving import dived
from tubeframe.fabrication.cutting.linear import Question, Relaxed, relaxed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.fabrication.cutting.counts import Numbers
    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.patterns import Pattern, Ways

_TINY = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """A plan, or what refuses the numbers; neither when it stays open."""

    patterns: tuple[Pattern, ...] | None = None
    refusal: Weighing | None = None


def decided(job: Job, known: Ways, numbers: Numbers, effort: Effort, turns: Iterable[int]) -> Decision:
    """Ask the linear problem how little stays uncovered; dive for a plan, in these turns, where nothing does."""
    question = Question(
        demands=np.array(job.demands, dtype=np.int64),
        limits=numbers,
        costs=(0.0,) * len(job.sticks),
        missing=tuple(float(w) for w in job.lengths),
    )
    refusals: list[Weighing] = []

    def enough(answer: Relaxed) -> bool:
        if answer.uncovered <= _TINY:
            return True
        carried = sum(w * n for w, n in zip(answer.worths, numbers, strict=True))
        if carried < float(answer.values @ question.demands) - _TINY:
            weighed = weighing(job, weights_of(answer.values))
            effort.spend(max(s.capacity for s in job.sticks) * len(job.lengths))
            refusals.extend([weighed] if weighed.refuses(numbers) else [])
        return bool(refusals)

    answer = relaxed(job, known, question, effort, enough=enough)
    if refusals:
        return Decision(refusal=refusals[0])
    for turn in turns if answer.uncovered <= _TINY else ():
        plan = None if effort.over else dived(job, known, question, answer, effort, turn=turn)
        if plan is not None:
            return Decision(patterns=plan)
    return Decision()
