"""Benders, bolts and ground stakes."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Bender:
    """A bending shoe: its radius on the centreline [mm]; `assumed` when nobody measured it.

    `take_up` is what is stamped on it [mm]; `springback` is how far past 90 it has to go to leave 90, as measured
    [degree].
    """

    tube: str
    radius: float
    source: str
    take_up: float | None = None
    springback: float | None = None

    @property
    def assumed(self) -> bool:
        """Whether the radius is a guess."""
        return self.source.startswith("assumed")


def radius_of(take_up: float, outside: float) -> float:
    """Return the radius of a bender that is stamped with a take-up, its arrow at the start of the bend [mm].

    A stub is the take-up higher than its mark: the radius, and half the tube (plane geometry).
    """
    return take_up - outside / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastRadius:
    """The smallest radius on the centreline that a tube may be bent to [mm], and who says so."""

    tube: str
    radius: float
    source: str


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
