"""What a hoop or a bent of a roof looks like across: a half of it, in corners and straights (all in [mm], in x and z).

A half runs from the foot on the left up to the crown in the middle. Arcs are made of small bends of the bender's own
radius: the polygon touches the true arc where it begins and ends, so that width and height are exact. Or they are
rolled, each as one bend of its own large radius.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from tubeframe.geometry.corners import through
from tubeframe.geometry.path import Arc, Path, Straight, joined, line
from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """The middle of a straight: how far from the foot, where, the way up along it, and half its length."""

    from_foot: float
    at: Vec
    way: Vec
    half: float

    @property
    def inward(self) -> Vec:
        """The way to the inside, square to the tube."""
        return Vec(self.way.z, 0.0, -self.way.x)

    @property
    def slope_deg(self) -> float:
        """How far it leans from level [degree]."""
        return _slope_deg(self.way)


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Half a hoop: its corners from the foot to the crown, and the radius of the bend at each between.

    `is_one` when both halves are one tube, level at the crown; else they meet there in a fitting. `eave` is the corner
    at which wall and rafter are two tubes, None where they are one. `wall` is the height of the straight wall.
    `is_rolled` when its roof is one arc.
    """

    corners: tuple[Vec, ...]
    radii: tuple[float, ...]
    wall: float
    is_one: bool
    eave: int | None = None
    is_rolled: bool = False

    @property
    def middle(self) -> float:
        """Where the crown is along x."""
        return self.corners[-1].x

    @property
    def half(self) -> Path:
        """The centreline of a half from foot to crown, as one."""
        if self.eave is not None:
            return Path(pieces=tuple(p for part in self.parts for p in part.pieces))
        if not self.is_one:
            return through(self.corners, self.radii)
        whole = self.whole
        return whole.part(0.0, whole.length / 2.0)

    @property
    def parts(self) -> tuple[Path, ...]:
        """The tubes of a half from foot to crown."""
        if self.eave is None:
            return (self.half,)
        foot, crown = self.corners[0], self.corners[-1]
        return (line(foot, self.corners[self.eave]), line(self.corners[self.eave], crown))

    @property
    def whole(self) -> Path:
        """Both halves as one tube."""
        there = self.corners[:-1]
        back = tuple(self.mirrored(c) for c in reversed(there))
        return joined(through([*there, *back], [*self.radii, *reversed(self.radii)]))

    def at(self, y: float) -> Profile:
        """Return the same shape at a place along the roof."""
        return replace(self, corners=tuple(Vec(c.x, y, c.z) for c in self.corners))

    @property
    def other_side(self) -> Profile:
        """The right half, from its foot to the crown."""
        return replace(self, corners=tuple(self.mirrored(c) for c in self.corners))

    def mirrored(self, point: Vec) -> Vec:
        """Return a point's image on the other side."""
        return Vec(2.0 * self.middle - point.x, point.y, point.z)

    @property
    def straights(self) -> tuple[Place, ...]:
        """The straights of a half, from the foot up; the last one of a hoop in one piece goes on past the crown."""
        found = []
        for at, piece in self.half.stretches():
            if isinstance(piece, Straight):
                way, half = piece.end_tangents[0], piece.length / 2.0
                found.append(Place(from_foot=at + half, at=piece.start + way * half, way=way, half=half))
        return tuple(found)

    @property
    def leg(self) -> float:
        """The straight from the floor to the first bend or fitting; 0 where an arc begins at the floor [mm]."""
        first = self.parts[0].pieces[0]
        return first.length if isinstance(first, Straight) else 0.0

    @property
    def crown_slope(self) -> float:
        """How far a half leans from level at the crown [degree]."""
        half = self.half
        return _slope_deg(half.tangent(half.length))

    @property
    def rolled(self) -> tuple[float, Arc] | None:
        """The arc of a half that is one bend, with where it begins from the foot; None in small bends and rafters."""
        if not self.is_rolled:
            return None
        return max(self.half.bends, key=lambda b: b[1].radius)

    def place(self, from_foot: float) -> Place:
        """Return a place on a half, so far from the foot [mm]."""
        half = self.half
        return Place(from_foot=from_foot, at=half.point(from_foot), way=half.tangent(from_foot), half=0.0)


def round_hoop(left: float, circle: float, wall: float, radius: float, bends: int) -> Profile:
    """Return half a round hoop of a radius on a wall, in a number of bends."""
    centre = Vec(left + circle, 0.0, wall)
    turned = _round(centre, circle, 180.0, 90.0, bends)
    crown = centre + Vec(0.0, 0.0, circle)
    return Profile(corners=(Vec(left, 0.0, 0.0), *turned, crown), radii=(radius,) * len(turned), wall=wall, is_one=True)


def segmental_hoop(left: float, half_width: float, wall: float, rise: float, radius: float, bends: int) -> Profile:
    """Return half a hoop whose arc rises less than half its width, with a bend at the eave.

    R = (a^2 + h^2) / (2 h) for half a width a and a rise h: a chord and its sagitta.
    """
    arc = (half_width**2 + rise**2) / (2.0 * rise)
    sweep = math.degrees(math.asin(half_width / arc))
    centre = Vec(left + half_width, 0.0, wall + rise - arc)
    eave = Vec(left, 0.0, wall)
    turned = _round(centre, arc, 90.0 + sweep, 90.0, bends)
    crown = centre + Vec(0.0, 0.0, arc)
    corners = (Vec(left, 0.0, 0.0), eave, *turned, crown)
    return Profile(corners=corners, radii=(radius,) * (len(turned) + 1), wall=wall, is_one=True)


def gothic_arch(left: float, half_width: float, wall: float, rise: float, radius: float, bends: int) -> Profile:
    """Return half a pointed arch, upright at the spring line.

    R = (a^2 + h^2) / (2 a) and a sweep of asin(h/R) for half a width a and a rise h.
    """
    arc = (half_width**2 + rise**2) / (2.0 * half_width)
    sweep = math.degrees(math.asin(min(1.0, rise / arc)))
    centre = Vec(left + arc, 0.0, wall)
    turned = _round(centre, arc, 180.0, 180.0 - sweep, bends)
    crown = Vec(left + half_width, 0.0, wall + rise)
    corners = (Vec(left, 0.0, 0.0), *turned, crown)
    return Profile(corners=corners, radii=(radius,) * len(turned), wall=wall, is_one=False)


def gable(left: float, half_width: float, wall: float, rise: float) -> Profile:
    """Return a post and a straight rafter."""
    eave, crown = Vec(left, 0.0, wall), Vec(left + half_width, 0.0, wall + rise)
    return Profile(corners=(Vec(left, 0.0, 0.0), eave, crown), radii=(0.0,), wall=wall, is_one=False, eave=1)


def _round(centre: Vec, radius: float, start: float, end: float, bends: int) -> list[Vec]:
    """Return the corners of a polygon round an arc from one angle from x to another [degree]."""
    step = (end - start) / bends
    out = radius / math.cos(math.radians(abs(step)) / 2.0)
    angles = [math.radians(start + (k + 0.5) * step) for k in range(bends)]
    return [centre + Vec(out * math.cos(a), 0.0, out * math.sin(a)) for a in angles]


def _slope_deg(way: Vec) -> float:
    return math.degrees(math.asin(min(1.0, abs(way.z))))
