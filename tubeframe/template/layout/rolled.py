"""Halves of hoops whose roof is one arc, pulled round a form (all in [mm], in x and z; see `profile`)."""

from __future__ import annotations

import math

from tubeframe.catalog.rules import LEAST_BETWEEN_BENDS
from tubeframe.geometry.vector import Vec
from tubeframe.template.layout.profile import Profile

_HALVINGS = 60


def rolled_round(left: float, circle: float, wall: float, flat: float = 0.0) -> Profile:
    """Return half a round hoop on a wall, as wide and as high as its circle; so much of it is left level at the crown.

    The arc's radius is by as much less, and its wall by as much higher.
    """
    top, radius = wall + circle, circle - flat
    corners = (Vec(left, 0.0, 0.0), Vec(left, 0.0, top), Vec(left + circle, 0.0, top))
    return Profile(corners=corners, radii=(radius,), wall=top - radius, is_one=True, is_rolled=True)


def rolled_gothic(left: float, half_width: float, wall: float, rise: float) -> Profile:
    """Return half a pointed arch, upright at the spring line.

    R = (a^2 + h^2) / (2 a) and a sweep of asin(h/R) for half a width a and a rise h; its ends' tangents meet
    R tan(sweep/2) above the spring line.
    """
    arc = (half_width**2 + rise**2) / (2.0 * half_width)
    sweep = math.asin(min(1.0, rise / arc))
    corner = Vec(left, 0.0, wall + arc * math.tan(sweep / 2.0))
    corners = (Vec(left, 0.0, 0.0), corner, Vec(left + half_width, 0.0, wall + rise))
    return Profile(corners=corners, radii=(arc,), wall=wall, is_one=False, is_rolled=True)


def rolled_segmental(
    left: float, half_width: float, wall: float, rise: float, shoe: float, flat: float = 0.0
) -> Profile:
    """Return half a hoop that rises less than half its width: a bend at the eave by the shoe, then an arc.

    So much of it is left level at the crown.

    The bender wants a straight s between the two. With t from the arc's corner to its upper end, the roof leaves the
    eave at phi = atan(h/(a - t)); t is where the way from the eave to that corner, hypot(h, a - t), is just the two
    tangents and s: r tan((90 - phi)/2) + s + t. The arc's radius is t/tan(phi/2).
    """
    arched = half_width - flat

    def spare(t: float) -> float:
        lean = math.atan2(rise, arched - t)
        tangent = shoe * math.tan((math.pi / 2.0 - lean) / 2.0)
        return math.hypot(rise, arched - t) - tangent - LEAST_BETWEEN_BENDS - t

    low, high = 0.0, arched
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if spare(middle) > 0.0 else (low, middle)
    lean = math.atan2(rise, arched - low)
    eave, crown = Vec(left, 0.0, wall), Vec(left + half_width, 0.0, wall + rise)
    corners = (Vec(left, 0.0, 0.0), eave, crown - Vec(low + flat, 0.0, 0.0), crown)
    return Profile(corners=corners, radii=(shoe, low / math.tan(lean / 2.0)), wall=wall, is_one=True, is_rolled=True)
