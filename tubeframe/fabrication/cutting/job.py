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
    """Lengths, longest first, with a kerf in each; how many of each; the sticks, with a kerf in each too."""

    lengths: tuple[int, ...]
    demands: tuple[int, ...]
    sticks: tuple[StickType, ...]

    @property
    def pieces(self) -> int:
        """How many pieces there are."""
        return sum(self.demands)

    @property
    def most_sticks(self) -> tuple[int, ...]:
        """How many of each stick a plan can use at most: no more than there are, nor than there are pieces."""
        return tuple(self.pieces if s.limit is None else min(s.limit, self.pieces) for s in self.sticks)
