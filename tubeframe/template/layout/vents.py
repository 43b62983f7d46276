"""Sides that roll up: how high the rail goes that the film above them is fixed to (all in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.job import Job, JobKind
from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.opening import Opening
from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec
from tubeframe.template.layout.corner_braces import SWIVEL
from tubeframe.template.layout.reach import reach_at
from tubeframe.template.layout.stations import clear_above, clear_below

if TYPE_CHECKING:
    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.template.layout.hoop import Hoop, HoopNeeds
    from tubeframe.template.shop import Shop

LEAST_ROLLED = 4.0 * INCH_MM
ROLLED_UP = Job(kind=JobKind.ROLL_UP)
_BAR_PAST = 12.0 * INCH_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class RollUp:
    """Both sides of a tunnel rolled up to a rail outside the legs; width and length are its own, outside.

    `clamped` is how high braces are clamped to the legs.
    """

    hoop: Hoop
    needs: HoopNeeds
    width: float
    length: float
    clamped: tuple[float, ...]

    def rail(self, opening: float, shop: Shop) -> float | None:
        """Return the height of a rail so far above the base rails, or as high as the leg lets it be; None with no room.

        It keeps off the clamps of base rails and wind braces, and off sleeves in the legs.
        """
        hoop, needs = self.hoop, self.needs
        tube, profile = needs.tube, hoop.profile
        fitting = shop.fitting(needs.coupler, tube)
        if profile.eave is None:
            highest = hoop.top_of_leg(needs.coupler, tube, shop)
        else:
            eave = reach_at(needs.ridge, tube, 90.0 + profile.crown_slope, shop)
            highest = profile.wall - eave - shop.tool_gap - fitting.grip / 2.0
        room = shop.pitch(needs.coupler, SWIVEL, tube)
        taken = [needs.base, *self.clamped]
        sleeve = shop.sleeve_off(needs.coupler, tube)
        for at in (s for s in hoop.split_at if s < profile.leg):
            taken += [at - sleeve + room, at, at + sleeve - room]
        wanted = min(needs.base + opening, highest)
        for place in (clear_above(wanted, taken, room), clear_below(wanted, taken, room)):
            if needs.base + LEAST_ROLLED <= place <= highest:
                return place
        return None

    def lay(self, frame: FrameBuilder, rail: float, shop: Shop, *, with_base: bool) -> None:
        """Lay both rails at a height over the base rails, where there are any, and buy what rolls the film up."""
        inset, coupler = shop.outside(self.needs.tube) / 2.0, shop.fitting(self.needs.coupler, self.needs.tube)
        front, back = inset - coupler.overhang, self.length - inset + coupler.overhang
        for hand, x in (("left", inset - coupler.offset), ("right", self.width - inset + coupler.offset)):
            line = (Vec(x, front, rail), Vec(x, back, rail))
            under = frame.tube(f"vent.{hand}", line, ends=(EndKind.CAP, EndKind.CAP))
            over = MemberId(f"base.{hand}") if with_base else None
            frame.sized_by(Opening(name=f"vent.{hand}", under=under, over=over))
        frame.supply(f"roll-up bar with crank and film clips, {shop.show(self.length + _BAR_PAST)}", 2, job=ROLLED_UP)
