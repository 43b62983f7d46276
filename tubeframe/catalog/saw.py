"""The saw: what a cut takes, and what comes out of a stick."""

from __future__ import annotations

from dataclasses import dataclass

_TINY = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """What a saw takes for each cut, and what it must hold of a stick's end and cannot cut off as a piece [mm]."""

    kerf: float
    grip: float = 0.0

    @property
    def lost(self) -> float:
        """What no piece comes out of at a stick's end: the grip, and the kerf of the cut before it [mm]."""
        return self.grip + self.kerf if self.grip > 0.0 else 0.0

    def gets(self, length: float, usable: float) -> bool:
        """Whether a piece [mm] comes out of a stick's usable length [mm]; one as long as that needs no cut."""
        return length <= usable - self.lost + _TINY
