"""Knees and diagonals: slanting tubes that keep corners square (all in [mm])."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.frame.builder import FrameBuilder
    from tubeframe.frame.member import MemberId
    from tubeframe.template.shop import Shop

_KNEE = "angle-tee"


@dataclass(frozen=True, slots=True, kw_only=True)
class Knee:
    """A short brace at 45 degrees between two tubes that meet square: `leg` is measured along both centrelines."""

    name: str
    corner: Vec
    along: Vec
    other: Vec
    leg: float

    def lay(self, frame: FrameBuilder) -> MemberId:
        """Add it, its ends in fittings on both tubes."""
        return frame.tube(self.name, (self.corner + self.along * self.leg, self.corner + self.other * self.leg))


def diagonal(
    frame: FrameBuilder, name: str, start: Vec, end: Vec, over: float, passes: Sequence[MemberId] = ()
) -> MemberId:
    """Add a brace that is held by couplers on two tubes beside it and goes on past both; it passes others untied."""
    past = (end - start).unit * over
    return frame.tube(name, (start - past, end + past), ends=(EndKind.CAP, EndKind.CAP), passes=passes)


def step_past(shop: Shop, tube: str, kind: str, way: Vec) -> float:
    """Return how far a brace's place on a post is at least from the clamp of another one that it slopes down past.

    A tube of slope q, in its own clamp's sleeve, passes a clamp's end clear where half a grip and both bodies' radii
    over cos q lie between the places.
    """
    fitting = shop.fitting(kind, tube)
    level = math.hypot(way.x, way.y) / way.length
    clear = fitting.grip / 2.0 + 2.0 * fitting.body_radius / level
    return max(clear, shop.pitch(kind, kind, tube))


def knee_step(shop: Shop, tube: str) -> float:
    """Return how much longer a knee's leg is than that of one square to it on the same post."""
    return step_past(shop, tube, _KNEE, Vec(1.0, 0.0, 1.0))


def least_knee(shop: Shop, tube: str) -> float:
    """Return the shortest leg of a knee on whose tube both fittings still have room."""
    return (2.0 * shop.fitting(_KNEE, tube).reach + shop.tool_gap) / math.sqrt(2.0)
