"""How much work a search for repairs may still do: counted, so that it ends the same way on every machine."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.frame.frame import Frame

_MOST = 1_000.0
_OPERATION = 1.0 / 64.0
"""What it takes to lay out a change and to weigh it, as a share of looking the whole frame over."""
_FINDING = 1.0 / 8.0


class Work:
    """Tubes and boards that may still be looked over; the one thing here that changes while a search runs."""

    def __init__(self, parts: float = _MOST) -> None:
        """Allow an amount of work: a frame of 50 parts can be looked over 20 times."""
        self._left = parts

    def look(self, parts: int, findings: int) -> None:
        """Count a look at tubes and boards in which so much was found: where much is found, much is crowded."""
        self._left -= parts + _FINDING * findings

    def weigh(self, frame: Frame) -> None:
        """Count a change that was laid out."""
        self._left -= _OPERATION * (len(frame.members) + len(frame.panels))

    @property
    def over(self) -> bool:
        """Whether the search has to stop with what it has."""
        return self._left <= 0.0
