"""A hoop fitted out: where purlins are clamped, and where it is parted into sticks (all in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog import rules
from tubeframe.errors import BendError
from tubeframe.geometry.units import INCH_MM
from tubeframe.template.layout.reach import reach_at
from tubeframe.template.layout.sitting import sits, sleeve_sits

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.template.layout.profile import Place, Profile
    from tubeframe.template.shop import Shop

_BELOW_THE_SPRING_LINE = 6.0 * INCH_MM
_STEP = INCH_MM
"""Between two places for a sleeve that are tried on an arc."""
_UPRIGHT = 90.0
_STEPS = 8


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
    """A hoop's shape, where its sleeves go from a foot, and where base rail, side purlins and ridge are clamped."""

    profile: Profile
    split_at: tuple[float, ...]
    base: Place
    ridge: Place
    sides: tuple[Place, ...]

    def top_of_leg(self, kind: str, tube: str, shop: Shop) -> float:
        """Return how high a fitting may be clamped to the straight from the floor."""
        return top_of_leg(self.profile, kind, tube, shop)


def fitted_out(profile: Profile, needs: HoopNeeds, shop: Shop) -> Hoop | None:
    """Fit a shape out: the clamps of ridge, base rail and side purlins must each find a straight or a wide arc.

    None where they do not; LongerThanAStick where no parting makes its tubes short enough.
    """
    try:
        half, roof = profile.half, profile.whole if profile.is_one else profile.half
    except BendError:
        return None
    whole = profile.is_one and shop.fits_stick(roof, needs.tube)
    shift = 0.0 if whole else _off_the_crown(profile, needs, shop)
    base, sides = _base(profile, needs), _side_purlins(profile, needs)
    ridge = profile.place(half.length - shift)
    clamped = (base, ridge, *(sides if profile.eave is None else ()))
    if not all(sits(needs.coupler, needs.tube, roof, p.from_foot, shop) for p in clamped):
        return None
    if not whole and not _meets(profile, needs, shop):
        return None
    split_at = () if whole else _splits(profile, sides, needs, shop)
    return Hoop(profile=profile, split_at=split_at, base=base, ridge=ridge, sides=sides)


def _meets(profile: Profile, needs: HoopNeeds, shop: Shop) -> bool:
    """Tell whether both halves go into what holds them at the crown: a sleeve there, or a fitting on their ends."""
    if profile.is_one:
        return sleeve_sits(needs.tube, profile.whole, profile.half.length, shop)
    return profile.rolled is None or profile.rolled[1].radius >= least_radius(profile, needs, shop)


def least_radius(profile: Profile, needs: HoopNeeds, shop: Shop) -> float:
    """Return the least radius of an arc that takes the purlins' clamps, and the fitting on the crown's ends."""
    least = shop.fitting(needs.coupler, needs.tube).least_arc
    if profile.is_one:
        return least
    reach = reach_at(needs.ridge, needs.tube, 180.0 - 2.0 * profile.crown_slope, shop)
    return max(least, rules.least_arc(reach))


def top_of_leg(profile: Profile, kind: str, tube: str, shop: Shop) -> float:
    """Return how high a fitting may be clamped to the straight from the floor: up to a bend, or to a wide arc."""
    path = profile.half
    return profile.leg if sits(kind, tube, path, profile.leg, shop) else profile.leg - shop.fitting(kind, tube).off_bend


def _base(profile: Profile, needs: HoopNeeds) -> Place:
    """Return where the base rail is clamped: on the leg, or on an arc that begins lower."""
    half, at = profile.half, needs.base
    for _ in range(_STEPS):
        at += (needs.base - half.point(at).z) / max(half.tangent(at).z, 0.5)
    return profile.place(at)


def _off_the_crown(profile: Profile, needs: HoopNeeds, shop: Shop) -> float:
    """Return how far off the crown's sleeve or fitting the ridge purlin is clamped."""
    if profile.is_one:
        return shop.sleeve_off(needs.coupler, needs.tube)
    reach = reach_at(needs.ridge, needs.tube, 180.0 - 2.0 * profile.crown_slope, shop)
    return reach + shop.tool_gap + shop.fitting(needs.coupler, needs.tube).grip / 2.0


def _side_purlins(profile: Profile, needs: HoopNeeds) -> tuple[Place, ...]:
    """Return where side purlins go on a half: shares of a rafter or of an arc, or the straights that lean as wanted."""
    slopes, straights = needs.slopes, profile.straights
    if profile.eave is not None:
        rafter, count = straights[-1], len(slopes)
        start, length = rafter.from_foot - rafter.half, 2.0 * rafter.half
        return tuple(profile.place(start + (k + 1) / (count + 1) * length) for k in range(count))
    if profile.rolled is not None:
        start, arc = profile.rolled
        return tuple(profile.place(start + (1.0 - slope / _UPRIGHT) * arc.length) for slope in slopes)
    found: list[Place] = []
    for slope in slopes:
        free = [s for s in straights[1:-1] if s not in found]
        if free:
            found.append(min(free, key=lambda s: (abs(s.slope_deg - slope), s.from_foot)))
    return tuple(found)


def _splits(profile: Profile, sides: Sequence[Place], needs: HoopNeeds, shop: Shop) -> tuple[float, ...]:
    """Say where the sleeves of a hoop go [mm from a foot]: at the crown, and when a half is too long in the legs.

    Where the arc alone is more than a stick: in the middle of a straight between two bends, or on a wide arc, as low
    as it goes.
    """
    if profile.eave is not None:
        return ()
    path, tube = profile.half, needs.tube
    half = path.length

    def fit(at: float) -> bool:
        parts = (path.part(0.0, at), path.part(at, half))
        return sleeve_sits(tube, path, at, shop) and all(shop.fits_stick(part, tube) for part in parts)

    def both(at: float) -> tuple[float, ...]:
        return (at, half, 2.0 * half - at) if profile.is_one else (at,)

    if shop.fits_stick(path, tube):
        return (half,) if profile.is_one else ()
    clear = shop.sleeve_off(needs.coupler, tube)
    clamped = min(profile.wall, top_of_leg(profile, needs.coupler, tube, shop))
    for at in _leg_split_places(clamped, clear):
        if needs.clamped_below + clear <= at <= profile.leg and fit(at):
            return both(at)
    for at in _roof_split_places(profile):
        if at >= clamped + clear and all(abs(at - s.from_foot) >= clear for s in sides) and fit(at):
            return both(at)
    raise LongerThanAStick(arc=half - profile.wall, half=half)


def _leg_split_places(clamped: float, clear: float) -> list[float]:
    """List places below and above where a brace may be clamped at the top of a leg, best first."""
    below = [clamped - _BELOW_THE_SPRING_LINE * (1.0 - step / 8.0) for step in range(9)]
    return [at for at in below if clamped - at >= clear] + [clamped + clear]


def _roof_split_places(profile: Profile) -> list[float]:
    """List places in the roof, the lowest first."""
    if profile.rolled is None:
        return [s.from_foot for s in profile.straights[1:-1]]
    start, arc = profile.rolled
    return [start + k * _STEP for k in range(int(arc.length / _STEP))]
