"""Convex pieces. Fittings, panels and tubes are drawn and modelled from these alone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.geometry.placement import Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class Cylinder:
    """A round bar from one end to the other, or a tube when its bore is not 0 (all [mm])."""

    start: Vec
    end: Vec
    radius: float
    bore: float = 0.0

    def placed(self, placement: Placement) -> Cylinder:
        """Move into another frame."""
        return Cylinder(
            start=placement.point(self.start),
            end=placement.point(self.end),
            radius=self.radius,
            bore=self.bore,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A brick: its middle and the three half edges, square to each other (all [mm])."""

    centre: Vec
    half_x: Vec
    half_y: Vec
    half_z: Vec

    def placed(self, placement: Placement) -> Box:
        """Move into another frame."""
        return Box(
            centre=placement.point(self.centre),
            half_x=placement.direction(self.half_x),
            half_y=placement.direction(self.half_y),
            half_z=placement.direction(self.half_z),
        )


Convex = Cylinder | Box


def box_between(low: Vec, high: Vec) -> Box:
    """Return the brick along the axes between two opposite corners [mm]."""
    half = (high - low) * 0.5
    return Box(
        centre=(low + high) * 0.5,
        half_x=Vec(half.x, 0.0, 0.0),
        half_y=Vec(0.0, half.y, 0.0),
        half_z=Vec(0.0, 0.0, half.z),
    )
