"""Ways in which a frame folds, and the fewest bars that stop them all."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.structure.solver.eigen import Mode, count_slower, frequencies, modes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.structure.solver.assembly import System
    from tubeframe.structure.solver.elements import Floats

FOLDS_HZ = 0.3
"""A frame that swings slower than this folds [Hz]."""
_AT_ONCE = 6
_NO_LONGER = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Brace:
    """A bar that could be put in, between two points by their numbers."""

    start: int
    end: int


def count_ways_to_fold(system: System) -> int:
    """Count the ways of moving that nothing holds back."""
    counted = count_slower(system, FOLDS_HZ)
    if counted is not None:
        return counted
    count = _AT_ONCE
    while True:
        found = frequencies(system, count)
        folding = sum(f < FOLDS_HZ for f in found)
        if folding < len(found) or len(found) < count:
            return folding
        count *= 2


def ways_to_fold(system: System, most: int | None = None) -> tuple[Mode, ...]:
    """Return every way of moving that nothing holds back, or as many of them as are wanted.

    The work goes with the square of their number: a heap of loose tubes has six for each.
    """
    found = count_ways_to_fold(system)
    count = found if most is None else min(found, most)
    return modes(system, count)[:count] if count else ()


def fewest_braces(system: System, folding: Sequence[Mode], candidates: Sequence[Brace]) -> tuple[int, ...] | None:
    """Choose of the candidates, by their places in the list, the fewest that stop all ways of folding.

    A brace stops a way that would make it longer or shorter. One is taken for each way, the one that is stretched most
    first: elimination with column pivoting on the stretch of every brace in every way. None where they can't do it.
    """
    if not folding:
        return ()
    left = stretches(system, folding, candidates)
    chosen: list[int] = []
    largest = float(np.max(np.linalg.norm(left, axis=1), initial=0.0))
    for _ in folding:
        size = np.linalg.norm(left, axis=1)
        best = int(np.argmax(size > size.max(initial=0.0) * (1.0 - _NO_LONGER))) if len(left) else -1
        if best < 0 or size[best] <= _NO_LONGER * largest:
            return None
        chosen.append(best)
        way = left[best] / size[best]
        left = left - np.outer(left @ way, way)
    return tuple(chosen)


def stretches(system: System, ways: Sequence[Mode], candidates: Sequence[Brace]) -> Floats:
    """Return by how much each way of moving (k,) makes each brace (n,) longer (n, k) [mm]."""
    return np.array([_stretch(system, ways, brace) for brace in candidates]).reshape(-1, len(ways))


def _stretch(system: System, folding: Sequence[Mode], brace: Brace) -> Floats:
    """Return by how much each way of folding makes a brace longer."""
    points = system.model.points
    way = np.array(list((points[brace.end] - points[brace.start]).unit))
    ends = [np.array([m.shape[6 * n : 6 * n + 3] for m in folding]) for n in (brace.start, brace.end)]
    longer: Floats = (ends[1] - ends[0]) @ way
    return longer
