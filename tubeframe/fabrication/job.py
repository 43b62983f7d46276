"""What is to be cut from what, in whole numbers."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class StickType:
    """A stick: what it takes, what it costs, and how many there are (None for any number)."""

    capacity: int
    cost: int
    limit: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """Lengths, longest first, with a kerf in each; how many of each; the sticks."""

    lengths: tuple[int, ...]
    demands: tuple[int, ...]
    sticks: tuple[StickType, ...]
