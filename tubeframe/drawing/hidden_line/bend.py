"""A circular bend of a tube, in view coordinates, and the chain of straight rods that stands for it as an occluder."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.tolerance import reach

if TYPE_CHECKING:
    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.geometry.path import Arc


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bend:
    """A bend: vectors (3,) at its start, `ring` and `radius` of centreline and tube [mm], and the angle [radian]."""

    centre: Floats
    tangent: Floats
    inward: Floats
    ring: float
    angle: float
    radius: float
    part: int
    goes_on: tuple[bool, bool]
    """Whether the tube goes on beyond the start and beyond the end."""

    @property
    def axis(self) -> Floats:
        """The axis about which the tube turns, (3,)."""
        return np.cross(self.tangent, self.inward)

    def tangents(self, turn: Floats) -> Floats:
        """Directions of travel (n, 3) at angles from the start (n,) [radian]."""
        return np.cos(turn)[:, None] * self.tangent + np.sin(turn)[:, None] * self.inward

    def inwards(self, turn: Floats) -> Floats:
        """Directions to the centre (n, 3) at angles from the start (n,) [radian]."""
        return np.cos(turn)[:, None] * self.inward - np.sin(turn)[:, None] * self.tangent

    def points(self, turn: Floats) -> Floats:
        """Points of the centreline (n, 3) at angles from the start (n,) [radian], [mm]."""
        return self.centre - self.ring * self.inwards(turn)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Chain:
    """Ends (n, 3) of the rods of a chain, how far each goes on past them (n, 2), how far off its surface is [mm]."""

    start: Floats
    end: Floats
    reach: Floats
    slack: float


def step_for(radius: float, sag: float) -> float:
    """Return the angle whose chord in a circle [mm] stays within `sag` [mm]: 2 acos(1 - sag / r) [radian]."""
    return 2.0 * math.acos(max(0.0, 1.0 - sag / radius))


def stub_length(arc: Arc, radius: float, sag: float) -> float:
    """Return how much of a bend at its end a straight rod stands for where a tube of a radius stops there [mm]."""
    return 2.0 * radius * math.tan(step_for(arc.radius + radius, sag)) + 2.0 * reach(sag)


def chain(bend: Bend, *, sag: float) -> Chain:
    """Cut a bend into straight rods from point to point of its centreline.

    Two rods that meet at an angle a leave a wedge open on the outer side, radius * tan(a/2) long on each of them, so
    each goes on by that and by a little more. Where the tube stops, the last rod, which is not quite in line with the
    tube's end, stays back by as much.
    """
    count = math.ceil(bend.angle / step_for(bend.ring + bend.radius, sag))
    points = bend.points(np.linspace(0.0, bend.angle, count + 1))
    half = bend.angle / count / 2.0
    wedge = bend.radius * math.tan(half)
    past = wedge + reach(sag)
    goes_on = np.full((count, 2), past)
    for row, column in ((0, 0), (-1, 1)):
        goes_on[row, column] = reach(sag) if bend.goes_on[column] else -wedge
    # the chord lies within the bend by the first term, its drawn-out end outside of it by the second
    inside = bend.ring * (1.0 - math.cos(half))
    outside = math.sqrt(bend.ring**2 + past**2 + 2.0 * bend.ring * past * math.sin(half)) - bend.ring
    return Chain(start=points[:-1], end=points[1:], reach=goes_on, slack=max(inside, outside))
