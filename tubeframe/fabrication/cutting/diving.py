"""Whole plans out of plans in fractions: whole parts are kept, a fraction is rounded up, the rest is solved again."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.fabrication.cutting.linear import Question, Relaxed, relaxed
from tubeframe.fabrication.cutting.patterns import Pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.knapsack import Counts
    from tubeframe.fabrication.cutting.patterns import Ways

_TINY = 1e-6


def dived(
    job: Job, known: Ways, question: Question, first: Relaxed, effort: Effort, *, turn: int
) -> tuple[Pattern, ...] | None:
    """Go down from an answer in fractions to a plan that covers all; None when sticks run out on the way.

    The `turn` chooses which fraction is rounded up first, so that each dive ends elsewhere.
    """
    rest, answer, made = question, first, []
    turns = [turn, turn // 4]
    while rest.demands.any():
        step = _step(answer, rest, turns.pop(0) if turns else 0)
        if not step or effort.over:
            return None
        made += step
        rest = _less(rest, step)
        if rest.demands.any():
            answer = relaxed(job, known, rest, effort, roughly=True)
            if answer.uncovered >= rest.demands.sum() - _TINY:
                return None
    return tuple(made)


def _step(answer: Relaxed, rest: Question, turn: int) -> list[Pattern]:
    """Choose what is cut next: all whole parts, or else one way of a great fraction."""
    whole = np.floor(answer.times + _TINY).astype(np.int64)
    if turn or not whole.any():
        part = answer.times - whole
        usable = [int(k) for k in np.argsort(-part, kind="stable") if answer.times[k] > _TINY]
        chosen = [(usable[min(turn, len(usable) - 1)], 1)] if usable else []
    else:
        chosen = [(int(k), int(whole[k])) for k in np.nonzero(whole)[0]]
    made: list[Pattern] = []
    left = rest.demands.copy()
    for k, times in chosen:
        pattern = _without_surplus(int(answer.sticks[k]), answer.ways[k], times, left)
        if pattern is not None:
            left -= np.array(pattern.counts) * pattern.times
            made.append(pattern)
    return made


def _without_surplus(stick: int, counts: Counts, times: int, left: Counts) -> Pattern | None:
    """Cut a way as often as all its pieces are still wanted; once at least, with those that are."""
    counts = np.minimum(counts, left)
    if not counts.any():
        return None
    most = int(np.min(left[counts > 0] // counts[counts > 0]))
    return Pattern(stick=stick, counts=tuple(int(c) for c in counts), times=min(times, most))


def _less(question: Question, step: Sequence[Pattern]) -> Question:
    """Return what is left to be asked."""
    cut = sum((np.array(p.counts) * p.times for p in step), start=np.zeros_like(question.demands))
    used = [sum(p.times for p in step if p.stick == t) for t in range(len(question.limits))]
    limits = tuple(None if q is None else max(0, q - n) for q, n in zip(question.limits, used, strict=True))
    return replace(question, demands=question.demands - cut, limits=limits)
