"""Benders, bolts and ground stakes."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Bender:
    """A bending shoe: its radius on the centreline [mm]; `assumed` when nobody measured it."""

    tube: str
    radius: float
    source: str
    take_up: float | None = None

    @property
    def assumed(self) -> bool:
        """Whether the radius is a guess."""
        return self.source.startswith("assumed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolt:
    """The screw of a clamp and the hex key that turns it [mm]."""

    key: str
    name: str
    hex_key: float
    head_height: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stake:
    """A rod driven into the ground, inside a tube's foot and pinned to it (all [mm])."""

    tube: str
    rod: str
    diameter: float
    in_ground: float
    in_tube: float
    pin_diameter: float
    pin_height: float
    source: str

    @property
    def length(self) -> float:
        """Length of the rod [mm]."""
        return self.in_ground + self.in_tube
