"""What the user asks of a frame's strength."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """Load to carry [N], wind [m/s], snow on the ground [MPa], what an anchor holds [N]; None where nobody said."""

    load: float | None = None
    wind: float | None = None
    snow: float | None = None
    anchor: float | None = None


UNASKED = Conditions()
