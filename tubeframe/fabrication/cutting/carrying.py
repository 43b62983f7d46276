"""Sticks too long for the car: into which parts the shop cuts them, so that each pattern comes out of the parts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.exact import least_worths, ways_worth, whole_plan

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.effort import Effort
    from tubeframe.fabrication.cutting.job import Job
    from tubeframe.fabrication.cutting.patterns import Patterns
    from tubeframe.fabrication.cutting.search import Cover

_MOST_STEPS = 20_000

MORE_PARTS = 2

Parts = tuple[tuple[int, ...], ...]
"""How many pieces of each length come out of each part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Car:
    """What fits the car, in the job's steps with a kerf in each; for each type of stick in how many parts it travels.

    `dead` is what no piece comes out of at a stick's end; it travels along.
    """

    limit: int
    parts: tuple[int, ...]
    dead: tuple[int, ...]


def carried_parts(job: Job, car: Car, stick: int, counts: tuple[int, ...], *, more: int = 0) -> Parts | None:
    """Divide a way of cutting among the parts that its stick travels in; None when the pieces do not go into them.

    Up to so many `more` parts than the fewest are tried. The dead end is in the last part.
    """
    if car.parts[stick] == 1:
        return (counts,)
    pieces = [i for i, n in enumerate(counts) for _ in range(n)]
    numbers = range(car.parts[stick], car.parts[stick] + more + 1)
    found = (_Division(job, car, pieces, car.dead[stick], number).found() for number in numbers)
    return next((parts for parts in found if parts is not None), None)


class _Division:
    """Puts pieces, the longest first, into parts; of parts with equal room only one is tried."""

    def __init__(self, job: Job, car: Car, pieces: Sequence[int], dead: int, number: int) -> None:
        self._lengths = [job.lengths[i] for i in pieces]
        self._pieces, self._size = pieces, len(job.lengths)
        self._rooms = [*([car.limit] * (number - 1)), car.limit - dead]
        self._where = [0] * len(pieces)
        self._steps = 0

    def found(self) -> Parts | None:
        if not self._put(0):
            return None
        parts = [[0] * self._size for _ in self._rooms]
        for piece, part in zip(self._pieces, self._where, strict=True):
            parts[part][piece] += 1
        return tuple(tuple(p) for p in parts)

    def _put(self, n: int) -> bool:
        self._steps += 1
        if n == len(self._pieces):
            return True
        tried: list[int] = []
        for part, room in enumerate(self._rooms):
            if room in tried or room < self._lengths[n] or self._steps > _MOST_STEPS:
                continue
            tried.append(room)
            self._rooms[part] -= self._lengths[n]
            self._where[n] = part
            if self._put(n + 1):
                return True
            self._rooms[part] += self._lengths[n]
        return False


def carried_plan(job: Job, cover: Cover, car: Car, patterns: Patterns, effort: Effort) -> Patterns:
    """Return a plan whose sticks all travel: in the fewest parts, else in more, else for up to a stick more.

    The plan as it is when there is none.
    """
    dearest = max((s.cost for s in job.sticks), default=0)
    if all(carried_parts(job, car, p.stick, p.counts) for p in patterns):
        return patterns
    equal = _planned(job, cover, car, cover.cost + 1, effort)
    if equal or all(carried_parts(job, car, p.stick, p.counts, more=MORE_PARTS) for p in patterns):
        return equal or patterns
    return _planned(job, cover, car, cover.cost + dearest + 1, effort) or patterns


def _planned(job: Job, cover: Cover, car: Car, below: int, effort: Effort) -> Patterns | None:
    """Solve over the ways that travel in the fewest parts: all of them where they can be listed."""
    ways = None
    if cover.relaxed is not None and cover.relaxed.worths:
        least = least_worths(job, cover.relaxed, below - 1)
        ways = ways_worth(job, cover.relaxed.values, least, effort, full=False)
    fitting = [way for way in ways or cover.ways.all() if carried_parts(job, car, *way) is not None]
    return whole_plan(job, fitting, effort, below=below).patterns if fitting else None
