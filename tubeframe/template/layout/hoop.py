"""A hoop fitted out: where purlins are clamped, and where it is parted into sticks (all in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import BendError
from tubeframe.geometry.units import INCH_MM
from tubeframe.template.layout.profile import Place, Profile
from tubeframe.template.layout.reach import reach_at

if TYPE_CHECKING:
    from tubeframe.template.shop import Shop

_BELOW_THE_SPRING_LINE = 6.0 * INCH_MM


class LongerThanAStick(Exception):  # noqa: N818  a limit that was met, told by the template in its own words
    """No parting makes a hoop's tubes short enough: the arc and the whole length of a half."""

    def __init__(self, *, arc: float, half: float) -> None:
        """Take both lengths."""
        super().__init__(arc, half)
        self.arc = arc
        self.half = half


@dataclass(frozen=True, slots=True, kw_only=True)
class HoopNeeds:
    """What is clamped to a hoop: by which fittings, at what slopes [degree], the base rail's height.

    `clamped_below` is how far up a leg its lower clamps come; a sleeve in the leg keeps above.
    """

    tube: str
    coupler: str
    ridge: str
    slopes: tuple[float, ...]
    base: float
    clamped_below: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hoop:
    """A hoop's shape, where its sleeves go from a foot, and where ridge and side purlins are clamped to a half."""

    profile: Profile
    split_at: tuple[float, ...]
    ridge: Place
    sides: tuple[Place, ...]

    @property
    def leg(self) -> float:
        """The straight from the floor to the first bend or fitting ."""
        return 2.0 * self.profile.straights[0].half


def fitted_out(profile: Profile, needs: HoopNeeds, shop: Shop) -> Hoop | None:
    """Fit a shape out: the ridge's clamp, the base rail's and the side purlins' must each find a straight.

    None where they do not; LongerThanAStick where no parting makes its tubes short enough.
    """
    try:
        straights, off_bend = profile.straights, shop.fitting(needs.coupler, needs.tube).off_bend
    except BendError:
        return None
    crown = straights[-1]
    whole = profile.is_one and shop.fits_stick(2.0 * profile.half.length, (2.0 * straights[0].half,) * 2, needs.tube)
    shift = 0.0 if whole else _off_the_crown(profile, needs, shop)
    sides = _side_purlins(profile, needs)
    if 2.0 * crown.half < shift + off_bend or 2.0 * straights[0].half < needs.base + off_bend:
        return None
    if profile.eave is None and any(s.half < off_bend for s in sides):
        return None
    top = profile.corners[-1] if profile.is_one else crown.at + crown.way * crown.half
    ridge = Place(from_foot=profile.half.length - shift, at=top - crown.way * shift, way=crown.way, half=0.0)
    split_at = () if whole else _splits(profile, needs, shop)
    return Hoop(profile=profile, split_at=split_at, ridge=ridge, sides=sides)


def _off_the_crown(profile: Profile, needs: HoopNeeds, shop: Shop) -> float:
    """Return how far off the crown's sleeve or fitting the ridge purlin is clamped."""
    if profile.is_one:
        return shop.sleeve_off(needs.coupler, needs.tube)
    between = 180.0 - 2.0 * profile.straights[-1].slope_deg
    reach = reach_at(needs.ridge, needs.tube, between, shop)
    return reach + shop.tool_gap + shop.fitting(needs.coupler, needs.tube).grip / 2.0


def _side_purlins(profile: Profile, needs: HoopNeeds) -> tuple[Place, ...]:
    """Return where side purlins go on a half: the straights that lean as they should, or shares of a rafter."""
    slopes = needs.slopes
    straights = profile.straights
    roof = straights[1:] if profile.eave is not None else straights[1:-1]
    if profile.eave is not None:
        (rafter,) = roof
        count = len(slopes)
        steps = [(2.0 * (k + 1) / (count + 1) - 1.0) * rafter.half for k in range(count)]
        return tuple(
            Place(from_foot=rafter.from_foot + s, at=rafter.at + rafter.way * s, way=rafter.way, half=rafter.half)
            for s in steps
        )
    found: list[Place] = []
    for slope in slopes:
        free = [s for s in roof if s not in found]
        if free:
            found.append(min(free, key=lambda s: (abs(s.slope_deg - slope), s.from_foot)))
    return tuple(found)


def _splits(profile: Profile, needs: HoopNeeds, shop: Shop) -> tuple[float, ...]:
    """Say where the sleeves of a hoop go [mm from a foot]: at the crown, and when a half is too long in the legs.

    Where the arc alone is more than a stick: in the middle of a straight between two bends, as low as it goes.
    """
    if profile.eave is not None:
        return ()
    half, straights = profile.half.length, profile.straights
    leg, stub = 2.0 * straights[0].half, 2.0 * straights[-1].half
    crown = (half,) if profile.is_one else ()

    def both(at: float) -> tuple[float, ...]:
        return (at, half, 2.0 * half - at) if profile.is_one else (at,)

    if shop.fits_stick(half, (leg, stub), needs.tube):
        return crown
    clear = shop.sleeve_off(needs.coupler, needs.tube)
    lowest = needs.clamped_below + clear
    highest = leg - shop.sleeve_off_bend(needs.tube)
    clamped = min(profile.wall, leg - shop.fitting(needs.coupler, needs.tube).off_bend)
    for at in _leg_split_places(clamped, clear):
        fits = shop.fits_stick(half - at, (leg - at, stub), needs.tube) and at <= shop.stick_length(needs.tube)
        if lowest <= at <= highest and fits:
            return both(at)
    purlins = _side_purlins(profile, needs)
    for place in straights[1:-1]:
        at, ends = place.from_foot, (place.half, stub)
        fits = shop.fits_stick(half - at, ends, needs.tube) and shop.fits_stick(at, (leg, place.half), needs.tube)
        if place not in purlins and fits and place.half >= shop.sleeve_off_bend(needs.tube):
            return both(at)
    raise LongerThanAStick(arc=half - profile.wall, half=half)


def _leg_split_places(clamped: float, clear: float) -> list[float]:
    """List places below and above where a brace may be clamped at the top of a leg, best first."""
    below = [clamped - _BELOW_THE_SPRING_LINE * (1.0 - step / 8.0) for step in range(9)]
    return [at for at in below if clamped - at >= clear] + [clamped + clear]
