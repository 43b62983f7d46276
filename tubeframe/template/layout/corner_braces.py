"""Wind braces at a tunnel's corners, inside its legs: from low on a hoop to high on the end hoop (all in [mm])."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.template.layout.hoop import Hoop, HoopNeeds
    from tubeframe.template.shop import Shop

SWIVEL = "swivel-coupler"
LEAST_BRACED_WALL = 24.0 * INCH_MM
_STEP = 4.0 * INCH_MM


def brace_low(tube: str, base: float, coupler: str, shop: Shop) -> float:
    """Say how high a brace starts: a step above the base rail, a pitch at least."""
    return base + max(_STEP, shop.pitch(coupler, SWIVEL, tube))


def least_step(tube: str, shop: Shop) -> float:
    """Say how far two braces' clamps are apart on one leg: a pitch at least."""
    return max(_STEP, shop.pitch(SWIVEL, SWIVEL, tube))


def brace_top(hoop: Hoop, needs: HoopNeeds, shop: Shop) -> float:
    """Say how high a brace goes on a leg: to the spring line, or as near as a bend or the eave lets it."""
    profile, swivel = hoop.profile, shop.fitting(SWIVEL, needs.tube)
    if profile.eave is None:
        return min(profile.wall, hoop.top_of_leg(SWIVEL, needs.tube, shop))
    return profile.wall - shop.fitting(needs.ridge, needs.tube).reach - shop.tool_gap - swivel.grip


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerBraces:
    """What braces run between: the hoop and what is clamped to it, its width outside, and the hoops' places along y."""

    hoop: Hoop
    needs: HoopNeeds
    width: float
    stations: Sequence[float]

    def lay(self, frame: FrameBuilder, shop: Shop) -> tuple[float, ...]:
        """Brace all four corners; where two hoops are all, one brace a side, leaning opposite ways.

        Return how high they are clamped to legs. Nothing is braced where the wall is too low.
        """
        heights = self._heights(shop)
        if not heights:
            return ()
        low, top = self._low(shop), brace_top(self.hoop, self.needs, shop)
        swivel, tube = shop.fitting(SWIVEL, self.needs.tube), self.needs.tube
        off = shop.outside(tube) / 2.0 + swivel.offset
        sides = {"left": off, "right": self.width - off}
        for name, x, first, second, height in self._places(sides, low, self._step(top - low, shop)):
            start, end = Vec(x, first, height), Vec(x, second, top)
            over = (end - start).unit * swivel.overhang
            frame.tube(f"brace.{name}", (start - over, end + over), ends=(EndKind.CAP, EndKind.CAP))
        return heights

    def _heights(self, shop: Shop) -> tuple[float, ...]:
        """Return how high braces are clamped to legs; nowhere where the wall is too low."""
        low, top = self._low(shop), brace_top(self.hoop, self.needs, shop)
        if self.hoop.profile.wall < LEAST_BRACED_WALL or top - low < _STEP:
            return ()
        shared = (low + self._step(top - low, shop),) if len(self.stations) == 3 else ()
        return (low, *shared, top)

    def _low(self, shop: Shop) -> float:
        return brace_low(self.needs.tube, self.needs.base, self.needs.coupler, shop)

    def _step(self, rise: float, shop: Shop) -> float:
        """Say how much higher the second brace sits where two share a hoop, so that their ends pass each other clear.

        The one's overhang stays out of the other's clamp.
        """
        run, swivel = self.stations[1] - self.stations[0], shop.fitting(SWIVEL, self.needs.tube)
        thick = shop.outside(self.needs.tube) / 2.0 + swivel.body_radius + swivel.overhang
        return max(least_step(self.needs.tube, shop), thick * math.hypot(rise, run) / run)

    def _places(
        self, sides: Mapping[str, float], lowest: float, step: float
    ) -> Iterator[tuple[str, float, float, float, float]]:
        """Give name, x, y of the low and of the high end, and the low end's height."""
        at = self.stations
        if len(at) == 2:
            yield "left", sides["left"], at[-1], at[0], lowest
            yield "right", sides["right"], at[0], at[-1], lowest
            return
        back = lowest + (step if len(at) == 3 else 0.0)
        for end, low, high, height in (("front", at[1], at[0], lowest), ("back", at[-2], at[-1], back)):
            for side, x in sides.items():
                yield f"{end}.{side}", x, low, high, height
