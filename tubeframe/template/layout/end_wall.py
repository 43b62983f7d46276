"""An end wall in the plane of a hoop: where studs may be clamped under it, and the studs (all in [mm]).

Studs end in the hoop's own plane, in fittings that swivel: a cover lies flat over hoop, studs and header.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind, MemberId
from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec
from tubeframe.template.layout.door import Doorway, Hand, lay_door
from tubeframe.template.layout.reach import reach_at

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.template.layout.hoop import Hoop, HoopNeeds
    from tubeframe.template.layout.profile import Place
    from tubeframe.template.shop import Shop

STUD_TOP = "swivel-tee"
_STEEPEST_DEG = 58.0
"""A stud is clamped where the hoop leans from level by less: the fitting turns to 30 degrees between the two."""
_LEAST_STUD = 30.0 * INCH_MM
_NEARER = 0.5 * INCH_MM
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Clampable:
    """A stretch of a half hoop that a stud may be clamped to: from `near` to `far` of the middle, level between."""

    near: float
    far: float
    place: Place
    middle: float

    def height(self, off: float) -> float:
        """Return how high the hoop's centreline is, so far off the middle."""
        way, at = self.place.way, self.place.at
        return at.z + (self.middle - off - at.x) * way.z / way.x

    def lower_than(self, height: float) -> Clampable | None:
        """Return what of it is lower than a height; None when nothing is."""
        if self.height(self.near) <= height:
            return self
        if self.height(self.far) >= height:
            return None
        fall = (self.height(self.near) - self.height(self.far)) / (self.far - self.near)
        return replace(self, near=self.near + (self.height(self.near) - height) / fall)

    @property
    def angle(self) -> float:
        """Between an upright stud and the hoop [degree]."""
        return 90.0 - self.place.slope_deg


@dataclass(frozen=True, slots=True, kw_only=True)
class Stud:
    """An upright under a hoop: how far off the middle on either side, how high, and what it needs below its top."""

    off: float
    top: float
    held: float


def clampable(hoop: Hoop, needs: HoopNeeds, shop: Shop) -> tuple[Clampable, ...]:
    """Return the stretches of either half that take a stud's clamp, from the middle outward: the same on both.

    A stud comes out of one stick: where the hoop is higher, none stands.
    """
    profile = hoop.profile
    found: list[Clampable] = []
    for place in profile.straights:
        if place.slope_deg > _STEEPEST_DEG:
            continue
        start, end = place.from_foot - place.half, place.from_foot + place.half
        off_start, off_end = _off_ends(hoop, needs, shop, place)
        level = place.way.x
        for low, high in _parts(start + off_start, end - off_end, _taken(hoop, needs, shop, place)):
            x_low, x_high = (place.at.x + (s - place.from_foot) * level for s in (low, high))
            near, far = profile.middle - x_high, profile.middle - x_low
            found.append(Clampable(near=near, far=far, place=place, middle=profile.middle))
    stick = shop.stick_length(needs.tube)
    return tuple(part for c in sorted(found, key=lambda c: c.near) if (part := c.lower_than(stick)) is not None)


def _off_ends(hoop: Hoop, needs: HoopNeeds, shop: Shop, place: Place) -> tuple[float, float]:
    """Return how far a clamp keeps off both ends of a straight: off bends, or off the fittings at eave and crown."""
    profile = hoop.profile
    bend = shop.fitting(STUD_TOP, needs.tube).off_bend
    half_grip = shop.fitting(STUD_TOP, needs.tube).grip / 2.0
    is_last = place is profile.straights[-1] or place.from_foot + place.half >= profile.half.length - _ROUNDING
    end = bend
    if is_last and profile.is_one:
        end = half_grip
    elif is_last:
        end = reach_at(needs.ridge, needs.tube, 180.0 - 2.0 * place.slope_deg, shop) + shop.tool_gap + half_grip
    if profile.eave is None:
        return bend, end
    return reach_at(needs.ridge, needs.tube, 90.0 + place.slope_deg, shop) + shop.tool_gap + half_grip, end


def _taken(hoop: Hoop, needs: HoopNeeds, shop: Shop, place: Place) -> list[tuple[float, float]]:
    """Return what a stud's clamp keeps off on a straight of a half: purlins' clamps and sleeves, by place and distance.

    A purlin lies its coupler's offset inside the hoop: where that slopes, nearer to an upright on the uphill side.
    """
    whole, slope = 2.0 * hoop.profile.half.length, math.radians(place.slope_deg)
    coupler = shop.fitting(needs.coupler, needs.tube)
    beside = 2.0 * coupler.body_radius + shop.tool_gap + coupler.offset * math.sin(slope)
    room = max(shop.pitch(STUD_TOP, needs.coupler, needs.tube), beside / math.cos(slope))
    sleeve = shop.sleeve_off(STUD_TOP, needs.tube)
    return [(p.from_foot, room) for p in (*hoop.sides, hoop.ridge)] + [
        (at, sleeve) for s in hoop.split_at for at in (s, whole - s)
    ]


def _parts(low: float, high: float, taken: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Give what is left between two places, without what is near to those taken."""
    edges = [low]
    for at, room in sorted(taken):
        if at + room > low and at - room < high:
            edges += [at - room, max(edges[-1], at + room)]
    edges.append(high)
    yield from ((a, b) for a, b in list(pairwise(edges))[::2] if b - a > _ROUNDING)


@dataclass(frozen=True, slots=True, kw_only=True)
class EndWall:
    """An end: its hoop, what else is clamped to that, the plane that it stands in, what its studs stand on."""

    name: str
    y: float
    hoop: Hoop
    needs: HoopNeeds
    foot: EndKind

    def jamb(self, clear: float, shop: Shop) -> Stud | None:
        """Return the studs of an opening so wide, or wider where bends want it; None where the hoop is too narrow.

        They may stand half an inch nearer rather than a whole straight farther apart.
        """
        wanted = (clear + shop.outside(self.needs.tube)) / 2.0
        found = next((c for c in clampable(self.hoop, self.needs, shop) if c.far >= wanted - _NEARER), None)
        return None if found is None else self._stud(min(max(wanted, found.near), found.far), found, shop)

    def studs(self, frame: FrameBuilder, wanted: Sequence[float], shop: Shop) -> list[MemberId]:
        """Stand a stud on either side of the middle, as near as can be to each place off it; none where it is low."""
        places, made = clampable(self.hoop, self.needs, shop), list[MemberId]()
        for n, off in enumerate(wanted, start=1):
            found = min(places, key=lambda c: max(c.near - off, off - c.far, 0.0), default=None)
            stud = self._stud(min(max(off, found.near), found.far), found, shop) if found else None
            if stud is not None and stud.top >= _LEAST_STUD:
                made += self._pair(frame, f"stud.{self.name}.{n}", stud)
        return made

    def hang(self, frame: FrameBuilder, stud: Stud, height: float, hinges: Hand, shop: Shop) -> float:
        """Stand the studs of an opening of a clear height, a header and a door between them; return its width."""
        half, middle = shop.outside(self.needs.tube) / 2.0, self.hoop.profile.middle
        left, right = self._pair(frame, f"jamb.{self.name}", stud)
        header = height + half
        ends = (Vec(middle - stud.off, self.y, header), Vec(middle + stud.off, self.y, header))
        frame.tube(f"header.{self.name}", ends)
        posts = ((left, ends[0].x), (right, ends[1].x))
        (post, post_x), (_, latch_x) = posts if hinges is Hand.LEFT else posts[::-1]
        doorway = Doorway(post=post, post_x=post_x, latch_x=latch_x, header=header, y=self.y)
        lay_door(frame, doorway, shop, self.needs.tube)
        return 2.0 * (stud.off - half)

    def most_under_header(self, stud: Stud, shop: Shop) -> float:
        """Return the greatest clear height under a header between two studs."""
        tee = shop.fitting("tee", self.needs.tube)
        return stud.top - stud.held - shop.tool_gap - tee.grip / 2.0 - shop.outside(self.needs.tube) / 2.0

    def _stud(self, off: float, at: Clampable, shop: Shop) -> Stud:
        return Stud(off=off, top=at.height(off), held=reach_at(STUD_TOP, self.needs.tube, at.angle, shop))

    def _pair(self, frame: FrameBuilder, name: str, stud: Stud) -> tuple[MemberId, MemberId]:
        middle, y = self.hoop.profile.middle, self.y
        left, right = (
            frame.tube(f"{name}.{hand}", (Vec(x, y, 0.0), Vec(x, y, stud.top)), ends=(self.foot, EndKind.JOINT))
            for hand, x in (("left", middle - stud.off), ("right", middle + stud.off))
        )
        return left, right


def evened(width: float, bay: float) -> tuple[float, ...]:
    """Return how far off the middle studs stand, evened over a width in an even number, no bay wider than asked."""
    pairs = max(1, math.ceil((width / bay - 1.0) / 2.0 - _ROUNDING))
    return tuple((k + 0.5) * width / (2 * pairs + 1) for k in range(pairs))
