"""What is worth measuring on a frame: from its meaning, not from its edges."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.picture import Axis
from tubeframe.drawing.scene import FRONT, PLAN, RIGHT_SIDE
from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.path import Straight
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.scene import View
    from tubeframe.geometry.vector import Vec

_SAME = 0.05
_ALONG = 0.999


class Named(Enum):
    """The three views, each with the axes of space that point right and up in it."""

    FRONT = ("FRONT", FRONT, X, Z)
    RIGHT_SIDE = ("RIGHT SIDE", RIGHT_SIDE, Y, Z)
    PLAN = ("PLAN", PLAN, X, Y)

    @property
    def title(self) -> str:
        """What is written under it."""
        return self.value[0]

    @property
    def view(self) -> View:
        """Where it is looked at from."""
        return self.value[1]

    def axis(self, axis: Axis) -> Vec:
        """Return the axis of space that an axis of the view shows."""
        return self.value[2] if axis is Axis.HORIZONTAL else self.value[3]


class Side(Enum):
    """Where a dimension stands."""

    BELOW = (Axis.HORIZONTAL, True)
    LEFT = (Axis.VERTICAL, True)

    @property
    def axis(self) -> Axis:
        """Which way it measures."""
        return self.value[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A distance to be shown: from one coordinate to another of a view [mm]. `to_centre` ends at a tube's middle."""

    side: Side
    low: float
    high: float
    to_centre: bool = False

    def is_same(self, other: Wanted) -> bool:
        """Whether both measure the same."""
        same = abs(self.low - other.low) < _SAME and abs(self.high - other.high) < _SAME
        return self.side is other.side and same


def wanted(design: Design, named: Named) -> tuple[Wanted, ...]:
    """List what one view shows: no distance in two views, no chain that closes."""
    size = design.overall
    found: list[Wanted] = []
    if named is Named.FRONT:
        found += [Wanted(side=Side.BELOW, low=size.low.x, high=size.high.x)]
        found += [Wanted(side=Side.LEFT, low=0.0, high=size.high.z), *_heights(design)]
        found += _clear(design, X, Side.BELOW)
    elif named is Named.RIGHT_SIDE:
        found += [Wanted(side=Side.BELOW, low=size.low.y, high=size.high.y)]
        found += _clear(design, Y, Side.BELOW)
    else:
        found += _overhanging(design)
    unique: list[Wanted] = []
    for one in found:
        if one.high - one.low > _SAME and not any(one.is_same(u) for u in unique):
            unique.append(one)
    return tuple(unique)


def _heights(design: Design) -> list[Wanted]:
    """List running heights from the floor: boards' tops, level tubes' middles."""
    tops = [p.placement.origin.z + p.thickness for p in design.frame.panels if p.use is PanelUse.TOP]
    levels = sorted(
        {round(p.path.start.z, 3) for p in design.parts.pieces if not p.bends and abs(p.path.tangent(0.0).z) < 1e-6}
    )
    return [Wanted(side=Side.LEFT, low=0.0, high=z) for z in tops] + [
        Wanted(side=Side.LEFT, low=0.0, high=z, to_centre=True) for z in levels
    ]


def _clear(design: Design, axis: Vec, side: Side) -> list[Wanted]:
    """Clear openings between neighbouring upright tubes, inside to inside; of equal ones only the first."""
    edges = sorted(
        {
            (round(straight.start.dot(axis), 3), design.workshop.catalog.tube(p.size).outside / 2.0)
            for p in design.parts.pieces
            for straight in p.path.pieces
            if isinstance(straight, Straight) and abs(straight.end_tangents[0].dot(Z)) > _ALONG
        }
    )
    found: list[Wanted] = []
    for (a, r), (b, s) in pairwise(edges):
        if all(abs((b - s) - (a + r) - (w.high - w.low)) > _SAME for w in found):
            found.append(Wanted(side=side, low=a + r, high=b - s))
    return found


def _overhanging(design: Design) -> list[Wanted]:
    """List what stands past the asked size, in plan: boards, and the longest level tubes."""
    size = design.overall
    found: list[Wanted] = []
    for p in design.frame.panels:
        if p.use is PanelUse.TOP:
            corner = p.placement.origin
            found.append(Wanted(side=Side.BELOW, low=corner.x, high=corner.x + p.length))
            found.append(Wanted(side=Side.LEFT, low=corner.y, high=corner.y + p.width))
    for axis, side, least, most in ((X, Side.BELOW, size.low.x, size.high.x), (Y, Side.LEFT, size.low.y, size.high.y)):
        for m in design.frame.members:
            way = m.path.tangent(0.0)
            low, high = sorted((m.path.start.dot(axis), m.path.end.dot(axis)))
            if m.is_straight and abs(way.dot(axis)) > _ALONG and (low < least - _SAME or high > most + _SAME):
                found.append(Wanted(side=side, low=low, high=high))
    return found
