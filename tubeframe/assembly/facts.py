"""What can be found when the order of a frame is looked for."""

from __future__ import annotations

from dataclasses import dataclass

from tubeframe.errors import Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class LockedIn(Fact):
    """No order lets a tube or a board in: what is in its way, and the joints whose ports do not take it then."""

    part: str
    behind: tuple[str, ...]
    joints: tuple[str, ...]
