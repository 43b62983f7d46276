"""Whether a frame that only stands tips over."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.geometry.vector import Vec

_TINY = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A force [N] at a place [mm]."""

    at: Vec
    force: Vec


def tips_at(feet: Sequence[Vec], standing: Iterable[Weight], pushing: Iterable[Weight]) -> float:
    """Return by what factor forces must grow to tip what stands on its feet; infinite where they never do.

    About every edge of the outline of the feet: what stands holds back with weight times distance, the others turn it
    over with their heights and where they are outside.
    """
    outline = _outline(feet)
    if len(outline) < 3:
        return 0.0
    stays, turns = list(standing), list(pushing)
    least = math.inf
    for a, b in pairwise([*outline, outline[0]]):
        way = (b - a).unit
        holding = sum(_about(way, a, w) for w in stays)
        turning = -sum(_about(way, a, w) for w in turns)
        if turning > _TINY:
            least = min(least, max(holding, 0.0) / turning)
    return least


def _about(way: Vec, corner: Vec, weight: Weight) -> float:
    """Return the moment about an edge that keeps the feet on the floor [N mm]; the outline runs left-hand round."""
    return -way.dot((weight.at - corner).cross(weight.force))


def _outline(feet: Sequence[Vec]) -> list[Vec]:
    """Return the corners of the feet's outline in plan, counter-clockwise from the least x (Andrew's chain)."""
    points = sorted({(round(f.x, 3), round(f.y, 3)): f for f in feet}.values(), key=lambda p: (p.x, p.y))
    if len(points) < 3:
        return list(points)
    lower, upper = _chain(points), _chain(points[::-1])
    return lower[:-1] + upper[:-1]


def _chain(points: Sequence[Vec]) -> list[Vec]:
    found: list[Vec] = []
    for p in points:
        while len(found) >= 2 and (found[-1] - found[-2]).cross(p - found[-2]).z <= _TINY:
            found.pop()
        found.append(p)
    return found
