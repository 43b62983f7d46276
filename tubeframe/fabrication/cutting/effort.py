"""How much work a search may still do: counted, so that a job always ends the same way; by the clock on request."""

from __future__ import annotations

import math
import time

_CELLS = 4_000_000_000
_ENDLESS = 10**15
_MARGIN = 0.1


class Effort:
    """Work that is left, in cells of tables gone through; the one thing here that changes while a search runs."""

    def __init__(self, cells: int = _CELLS, seconds: float | None = None) -> None:
        """Allow an amount of work, and a time [s] when the user set one: a tenth is kept for the step under way."""
        self._left = cells
        self._deadline = math.inf if seconds is None else time.monotonic() + seconds * (1.0 - _MARGIN)

    @classmethod
    def of_time(cls, seconds: float) -> Effort:
        """Allow as much work as fits a time [s] that the user set."""
        return cls(_ENDLESS, seconds)

    def spend(self, cells: int) -> None:
        """Count work that was done."""
        self._left -= cells

    @property
    def over(self) -> bool:
        """Whether a search has to stop."""
        return self._left <= 0 or time.monotonic() >= self._deadline

    @property
    def seconds(self) -> float:
        """Time that is left [s]; infinite when the user set none."""
        return max(0.0, self._deadline - time.monotonic())

    def part(self, share: float, *, of_time: bool = False) -> Effort:
        """Return an effort of its own for a share of the work that is left, and of the time on request."""
        part = Effort(int(max(0, self._left) * share))
        part._deadline = time.monotonic() + self.seconds * share if of_time else self._deadline
        return part
