"""What proves a plan's cost, so that it can be checked without this program."""

from __future__ import annotations

from dataclasses import dataclass
from math import gcd
from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.counts import RisingNumbers, key_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.bounds import Weighing
    from tubeframe.fabrication.cutting.job import Job

_MOST_STEPS = 40_000


@dataclass(frozen=True, slots=True, kw_only=True)
class CertifiedStick:
    """A stick's length in steps without what the saw loses, its cost in whole units, and how many there are."""

    length: int
    cost: int
    quantity: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """Whole numbers alone: lengths in steps of `unit` [mm], costs in `cost_unit`.

    A stick holds pieces l1..ln when their sum and n - 1 kerfs are within its length. Take a row of `weights`, one for
    each length: let `carry` of a stick be the most that one stick can hold of them, no piece oftener than it is wanted.
    Numbers of sticks are refused when their carries add up to less than all pieces weigh. Every numbers of sticks that
    cost less than `proves` are refused by one of the rows. So no plan costs less.
    """

    tube: str
    unit: float
    cost_unit: float
    kerf: int
    lengths: tuple[int, ...]
    quantities: tuple[int, ...]
    sticks: tuple[CertifiedStick, ...]
    weights: tuple[tuple[int, ...], ...]
    cost: int
    proves: int


def enough_weighings(job: Job, weighings: Sequence[Weighing], proved: int) -> tuple[Weighing, ...]:
    """Return weighings that prove a cost, and few of them: each is one that refuses what the others let pass."""
    kept: list[Weighing] = []
    rising = RisingNumbers(job, kept)
    while (numbers := rising.next(_MOST_STEPS)) is not None and key_of(job, numbers)[0] < proved:
        kept.append(next(w for w in reversed(weighings) if w.refuses(numbers)))
    if numbers is None:
        return tuple(weighings)
    return tuple(kept)


def reduced(weights: Sequence[int]) -> tuple[int, ...]:
    """Divide weights by what divides them all."""
    divisor = gcd(*weights) or 1
    return tuple(w // divisor for w in weights)
