"""What a tunnel looks like across: the shapes, how far they rise, and their halves in small bends."""

from __future__ import annotations

import math
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.geometry.units import INCH_MM
from tubeframe.template.layout.profile import gable, gothic_arch, round_hoop, segmental_hoop
from tubeframe.template.layout.rolled import rolled_gothic, rolled_round, rolled_segmental

if TYPE_CHECKING:
    from tubeframe.template.layout.profile import Profile

BEND_ANGLES = (10.0, 15.0, 22.5, 30.0)
"""Of small bends, the smallest first [degree]."""


class Bending(StrEnum):
    """How a roof is bent: in small bends of the bender's own radius, or as one arc round a form."""

    SMALL_BENDS = "small-bends"
    JIG = "jig"


class Shape(StrEnum):
    """What a bay looks like across."""

    ROUND = "round"
    SEGMENTAL = "segmental"
    GOTHIC = "gothic"
    GABLE = "gable"

    @property
    def rises(self) -> tuple[float, float, float]:
        """The least, the usual and the most rise over the wall, in widths."""
        return {
            Shape.ROUND: (0.5, 0.5, 0.5),
            Shape.SEGMENTAL: (0.2, 0.3, 0.45),
            Shape.GOTHIC: (0.6, 0.625, 0.85),
            Shape.GABLE: (0.19, 0.5, 0.6),
        }[self]

    def height_at(self, off: float, rise: float) -> float:
        """Return how high the roof is over its wall, all in half widths: off the middle, and at the crown."""
        if self is Shape.GABLE:
            return rise * (1.0 - off)
        if self is Shape.GOTHIC:
            radius = (1.0 + rise**2) / 2.0
            return math.sqrt(max(0.0, radius**2 - (radius - 1.0 + off) ** 2))
        radius = (1.0 + rise**2) / (2.0 * rise)
        return rise - radius + math.sqrt(max(0.0, radius**2 - off**2))

    def profiles(self, left: float, half: float, wall: float, rise: float, radius: float) -> list[Profile]:
        """Return half of it in bends of each angle, the smallest first: from the foot's place along x [mm].

        Args:
            left: where the left foot's middle is [mm].
            half: from there to the middle [mm].
            wall: height of the straight wall [mm].
            rise: of the crown's middle over it [mm].
            radius: of the bends [mm].

        """
        if self is Shape.GABLE:
            return [gable(left, half, wall, rise)]
        sweep = math.degrees(2.0 * math.atan(rise / half))
        if self is Shape.ROUND:
            return [round_hoop(left, half, wall, radius, round(90.0 / angle)) for angle in BEND_ANGLES]
        if self is Shape.SEGMENTAL:
            numbers = [max(2, round(sweep / angle)) for angle in BEND_ANGLES]
            return [segmental_hoop(left, half, wall, rise, radius, number) for number in numbers]
        numbers = [max(2, round((180.0 - sweep) / angle)) for angle in BEND_ANGLES]
        return [gothic_arch(left, half, wall, rise, radius, number) for number in numbers]

    def rolled(self, left: float, half: float, wall: float, rise: float, radius: float, sleeve: float) -> list[Profile]:
        """Return half of it with its roof as one arc, or with what a sleeve wants left level at the crown as well.

        Args:
            left: as of `profiles` [mm].
            half: as of `profiles` [mm].
            wall: as of `profiles` [mm].
            rise: as of `profiles` [mm].
            radius: of a bend at the eave [mm].
            sleeve: how far the middle of a sleeve keeps off a bend [mm].

        """
        if self is Shape.ROUND:
            return [rolled_round(left, half, wall, flat) for flat in (0.0, sleeve)]
        if self is Shape.SEGMENTAL:
            return [rolled_segmental(left, half, wall, rise, radius, flat) for flat in (0.0, sleeve)]
        if self is Shape.GOTHIC:
            return [rolled_gothic(left, half, wall, rise)]
        return self.profiles(left, half, wall, rise, radius)

    @property
    def studs_within(self) -> float:
        """The share of half the width within which studs stand: farther out it is too steep or too low."""
        return 0.8 if self in {Shape.ROUND, Shape.SEGMENTAL} else 0.6

    @property
    def least_wall(self) -> float:
        """The least straight wall: a post needs room for its eave, a leg for the bend there [mm]."""
        return 12.0 * INCH_MM if self in {Shape.GABLE, Shape.SEGMENTAL} else 0.0
