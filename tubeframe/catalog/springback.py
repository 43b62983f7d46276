"""How far a bend opens when it is let go."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.limits import LimitKey

if TYPE_CHECKING:
    from tubeframe.catalog.limits import Limits
    from tubeframe.catalog.tube import TubeSize
    from tubeframe.catalog.workshop import Workshop

_SQUARE = 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Springback:
    """The curvature that a tube loses when it is let go [1/mm], and whether the user measured it.

    A tube that was bent until all of it yields unloads along a straight line: it loses M/(E I), the same at every
    radius (elementary plastic bending; any text on sheet and tube forming).
    """

    lost: float
    is_measured: bool

    def reading(self, angle: float, radius: float) -> float:
        """Return the angle to bend to, so that an angle of a radius is left [degree, degree, mm]."""
        return angle * (1.0 + self.lost * radius)

    def form_radius(self, radius: float) -> float:
        """Return the radius to bend round, so that a radius is left [mm]: 1/r = 1/R + what is lost."""
        return radius / (1.0 + self.lost * radius)


def springback(workshop: Workshop, tube: str) -> Springback:
    """Return what a tube springs back: as the user measured it on the shop's bender, else by its yield."""
    bender = workshop.bender(tube)
    if bender.springback is not None:
        return Springback(lost=bender.springback / _SQUARE / bender.radius, is_measured=True)
    return Springback(lost=curvature_lost(workshop.catalog.tube(tube), workshop.limits), is_measured=False)


def curvature_lost(tube: TubeSize, limits: Limits) -> float:
    """Return the curvature that springs back, Fy Z / (E I) [1/mm]; about 2 x 1.27 Fy/(E D) for a thin wall."""
    moment = limits[LimitKey.BENDING_YIELD] * tube.plastic_modulus
    return moment / (limits[LimitKey.YOUNG] * tube.inertia)
