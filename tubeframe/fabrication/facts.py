"""What can be found when a frame is made in the shop (lengths in [mm])."""

from __future__ import annotations

from dataclasses import dataclass

from tubeframe.errors import Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class NoStick(Fact):
    """A piece takes `need` of a stick, but the longest of its tube is `have`."""

    mark: str
    tube: str
    need: float
    have: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortStake(Fact):
    """The first bend leaves a stake `inside` of the foot, not `wanted`."""

    inside: float
    wanted: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NoTable(Fact):
    """No table takes these drawings, even in parts."""

    length: float
    width: float
    names: tuple[str, ...]
