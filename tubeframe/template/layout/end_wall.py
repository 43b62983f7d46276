"""An end wall in the plane of a hoop: where studs may be clamped under it, and the studs (all in [mm]).

Studs end in the hoop's own plane, in fittings that swivel: a cover lies flat over hoop, studs and header.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement, pairwise
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.opening import Opening
from tubeframe.geometry.path import Arc
from tubeframe.geometry.units import INCH_MM
from tubeframe.geometry.vector import Vec
from tubeframe.template.layout.door import Doorway, Hand, lay_door
from tubeframe.template.layout.reach import reach_at

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.geometry.path import PathPiece
    from tubeframe.template.layout.hoop import Hoop, HoopNeeds
    from tubeframe.template.layout.profile import Place, Profile
    from tubeframe.template.shop import Shop

STUD_TOP = "swivel-tee"
_STEEPEST_DEG = 58.0
"""A stud is clamped where the hoop leans from level by less: the fitting turns to 30 degrees between the two."""
_LEAST_STUD = 30.0 * INCH_MM
_LEAST_BAY = 12.0 * INCH_MM
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Clampable:
    """A stretch of one piece of a half hoop that a stud may be clamped to: from `near` to `far` of the middle."""

    near: float
    far: float
    piece: PathPiece
    middle: float

    def height(self, off: float) -> float:
        """Return how high the hoop's centreline is, so far off the middle."""
        piece, x = self.piece, self.middle - off
        if isinstance(piece, Arc):
            return piece.centre.z + math.sqrt(max(0.0, piece.radius**2 - (x - piece.centre.x) ** 2))
        way = piece.end_tangents[0]
        return piece.start.z + (x - piece.start.x) * way.z / way.x

    def lower_than(self, height: float) -> Clampable | None:
        """Return what of it is lower than a height; None when nothing is."""
        if self.height(self.near) <= height:
            return self
        if self.height(self.far) >= height:
            return None
        return replace(self, near=self._off(height))

    def _off(self, height: float) -> float:
        piece = self.piece
        if isinstance(piece, Arc):
            aside = math.sqrt(piece.radius**2 - (height - piece.centre.z) ** 2)
            return self.middle - piece.centre.x + aside
        way = piece.end_tangents[0]
        return self.middle - piece.start.x - (height - piece.start.z) * way.x / way.z

    def angle(self, off: float) -> float:
        """Return the angle between an upright stud and the hoop, so far off the middle [degree]."""
        piece, x = self.piece, self.middle - off
        if isinstance(piece, Arc):
            return math.degrees(math.acos(abs(x - piece.centre.x) / piece.radius))
        return math.degrees(math.acos(min(1.0, abs(piece.end_tangents[0].z))))


@dataclass(frozen=True, slots=True, kw_only=True)
class Stud:
    """An upright under a hoop: how far off the middle, how high, and what it needs below its top."""

    off: float
    top: float
    held: float


def clampable(hoop: Hoop, needs: HoopNeeds, shop: Shop) -> tuple[Clampable, ...]:
    """Return the stretches of either half that take a stud's clamp, from the middle outward: the same on both.

    A stud comes out of one stick: where the hoop is higher, none stands.
    """
    half, middle = hoop.profile.half, hoop.profile.middle
    found: list[Clampable] = []
    for begin, piece in half.stretches():
        reach = _reach(hoop, needs, shop, begin, piece)
        if reach is None:
            continue
        for low, high in _parts(*reach, _taken(hoop, needs, shop, piece)):
            near, far = (middle - half.point(s).x for s in (high, low))
            found.append(Clampable(near=near, far=far, piece=piece, middle=middle))
    stick = shop.stick_length(needs.tube)
    return tuple(part for c in sorted(found, key=lambda c: c.near) if (part := c.lower_than(stick)) is not None)


def _reach(hoop: Hoop, needs: HoopNeeds, shop: Shop, begin: float, piece: PathPiece) -> tuple[float, float] | None:
    """Return from where to where on a half a stud is clamped to a piece; None where it is too steep or too tight."""
    profile, stud = hoop.profile, shop.fitting(STUD_TOP, needs.tube)
    low, high = begin, begin + piece.length
    if isinstance(piece, Arc):
        if piece.radius < stud.least_arc:
            return None
        steep = math.radians(_slope_deg(piece.start_tangent) - _STEEPEST_DEG)
        low += max(0.0, steep) * piece.radius
    elif _slope_deg(piece.end_tangents[0]) > _STEEPEST_DEG:
        return None
    off_start, off_end = _off_ends(profile, needs, shop, begin, piece)
    return (max(low, begin + off_start), high - off_end)


def _slope_deg(way: Vec) -> float:
    return math.degrees(math.asin(min(1.0, abs(way.z))))


def _off_ends(profile: Profile, needs: HoopNeeds, shop: Shop, begin: float, piece: PathPiece) -> tuple[float, float]:
    """Return how far a clamp keeps off both ends of a piece: off tight bends, or off the fittings at eave and crown."""
    stud = shop.fitting(STUD_TOP, needs.tube)
    clear, end = shop.tool_gap + stud.grip / 2.0, begin + piece.length
    tight = [(at, at + bend.length) for at, bend in profile.half.bends if bend.radius < stud.least_arc]
    off_start = stud.off_bend if any(abs(b - begin) < _ROUNDING for _, b in tight) else 0.0
    off_end = stud.off_bend if any(abs(a - end) < _ROUNDING for a, _ in tight) else 0.0
    if end >= profile.half.length - _ROUNDING:
        between = 180.0 - 2.0 * profile.crown_slope
        off_end = stud.grip / 2.0 if profile.is_one else reach_at(needs.ridge, needs.tube, between, shop) + clear
    if profile.eave is not None:
        off_start = reach_at(needs.ridge, needs.tube, 90.0 + profile.crown_slope, shop) + clear
    return off_start, off_end


def _taken(hoop: Hoop, needs: HoopNeeds, shop: Shop, piece: PathPiece) -> list[tuple[float, float]]:
    """Return what a stud's clamp keeps off on a piece of a half: purlins' clamps and sleeves, by place and distance.

    A purlin lies its coupler's offset inside the hoop: where that slopes, nearer to an upright on the uphill side.
    """
    whole = 2.0 * hoop.profile.half.length
    coupler = shop.fitting(needs.coupler, needs.tube)
    pitch, sleeve = shop.pitch(STUD_TOP, needs.coupler, needs.tube), shop.sleeve_off(STUD_TOP, needs.tube)

    def room(purlin: Place) -> float:
        slope = math.radians(_slope_deg(purlin.way if isinstance(piece, Arc) else piece.end_tangents[0]))
        beside = 2.0 * coupler.body_radius + shop.tool_gap + coupler.offset * math.sin(slope)
        return max(pitch, beside / math.cos(slope))

    return [(p.from_foot, room(p)) for p in (*hoop.sides, hoop.ridge)] + [
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

    def jambs(self, clear: float, shop: Shop) -> tuple[Stud, Stud] | None:
        """Return the studs left and right of an opening so wide, or wider where bends want it; None without room.

        Where both find no straight alike, one stands farther off the middle: of the narrowest, the most even.
        """
        wanted, places = clear + shop.outside(self.needs.tube), clampable(self.hoop, self.needs, shop)
        found = []
        for left, right in combinations_with_replacement(places, 2):
            between = max(wanted, left.near + right.near)
            off = min(max(between / 2.0, left.near, between - right.far), left.far, between - right.near)
            if between <= left.far + right.far + _ROUNDING:
                found.append((between, abs(between - 2.0 * off), (left, off), (right, between - off)))
        if not found:
            return None
        _, _, *sides = min(found, key=lambda f: (round(f[0], 3), round(f[1], 3)))
        nearer, farther = (self._stud(off, at, shop) for at, off in sides)
        return nearer, farther

    def studs(self, frame: FrameBuilder, wanted: Sequence[float], shop: Shop) -> list[float]:
        """Stand a stud on either side of the middle, as near as can be to each place off it; return how far off it.

        None where it is low, and none that would come near to the one before.
        """
        places, made = clampable(self.hoop, self.needs, shop), list[float]()
        for n, off in enumerate(wanted, start=1):
            found = min(places, key=lambda c: max(c.near - off, off - c.far, 0.0), default=None)
            stud = self._stud(min(max(off, found.near), found.far), found, shop) if found else None
            if stud is not None and stud.top >= _LEAST_STUD and all(stud.off >= off + _LEAST_BAY for off in made):
                self.stand(frame, f"stud.{self.name}.{n}", (stud, stud))
                made.append(stud.off)
        return made

    def hang(self, frame: FrameBuilder, studs: tuple[Stud, Stud], height: float, hinges: Hand, shop: Shop) -> float:
        """Stand the studs of an opening of a clear height, a header and a door between them; return its width."""
        half, middle = shop.outside(self.needs.tube) / 2.0, self.hoop.profile.middle
        left, right = self.stand(frame, f"jamb.{self.name}", studs)
        header = height + half
        ends = (Vec(middle - studs[0].off, self.y, header), Vec(middle + studs[1].off, self.y, header))
        over = frame.tube(f"header.{self.name}", ends)
        frame.sized_by(Opening(name=f"door.{self.name}", under=over, between=(left, right)))
        posts = ((left, ends[0].x), (right, ends[1].x))
        (post, post_x), (_, latch_x) = posts if hinges is Hand.LEFT else posts[::-1]
        doorway = Doorway(post=post, post_x=post_x, latch_x=latch_x, header=header, y=self.y)
        lay_door(frame, doorway, shop, self.needs.tube)
        return studs[0].off + studs[1].off - 2.0 * half

    def stand(self, frame: FrameBuilder, name: str, studs: tuple[Stud, Stud]) -> tuple[MemberId, MemberId]:
        """Stand two studs, left and right of the middle."""
        middle, y = self.hoop.profile.middle, self.y
        places = (("left", middle - studs[0].off, studs[0].top), ("right", middle + studs[1].off, studs[1].top))
        left, right = (
            frame.tube(f"{name}.{hand}", (Vec(x, y, 0.0), Vec(x, y, top)), ends=(self.foot, EndKind.JOINT))
            for hand, x, top in places
        )
        return left, right

    def most_under_header(self, studs: Sequence[Stud], shop: Shop) -> float:
        """Return the greatest clear height under a header between studs."""
        tee = shop.fitting("tee", self.needs.tube)
        top = min(s.top - s.held for s in studs)
        return top - shop.tool_gap - tee.grip / 2.0 - shop.outside(self.needs.tube) / 2.0

    def _stud(self, off: float, at: Clampable, shop: Shop) -> Stud:
        return Stud(off=off, top=at.height(off), held=reach_at(STUD_TOP, self.needs.tube, at.angle(off), shop))


def evened(width: float, bay: float) -> tuple[float, ...]:
    """Return how far off the middle studs stand, evened over a width in an even number, no bay wider than asked."""
    pairs = max(1, math.ceil((width / bay - 1.0) / 2.0 - _ROUNDING))
    return tuple((k + 0.5) * width / (2 * pairs + 1) for k in range(pairs))
