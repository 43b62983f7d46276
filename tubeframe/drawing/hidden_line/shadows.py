"""Which stretch of an edge is inside or behind an occluder, in closed form.

From a point of an edge a ray goes to the viewer. The occluder is convex, so the ray is inside of it from one length t
to another, and the point is hidden when the ray is inside somewhere at t >= 0. "The last way in comes before the first
way out" is one inequality for each way in and each way out, and each holds on one stretch of the edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.stretches import (
    Linear,
    Stretches,
    where_in_circle,
    where_positive,
    where_under_circle,
    where_within,
    whole,
)
from tubeframe.drawing.hidden_line.tolerance import END_ON
from tubeframe.drawing.model.arrays import dots

if TYPE_CHECKING:
    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.hidden_line.primitives import Bricks, Rods
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pairs:
    """Edges (n,) with the occluder (n,) that may hide each, and what it is made thicker by (n,) [mm]."""

    edge: Indices
    occluder: Indices
    growth: Floats

    def chosen(self, which: Flags | Indices) -> Pairs:
        """Return some of the pairs."""
        return Pairs(edge=self.edge[which], occluder=self.occluder[which], growth=self.growth[which])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Hidden:
    """Hidden stretches: numbers of the edges (n,) and from where to where (n,) each, as shares of the edge."""

    edge: Indices
    low: Floats
    high: Floats

    def chosen(self, which: Flags) -> Hidden:
        """Return some of the stretches."""
        return Hidden(edge=self.edge[which], low=self.low[which], high=self.high[which])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RodFrames:
    """Rods in the directions that a ray sees them in; each begins at the end that is farther from the viewer.

    A point p has the height across p.n - n0 over the axis as seen, the depth p.w - w0 and the place p.a - a0 along the
    axis; a ray leaves the first alone and adds 1 to the second for every `lift` it adds to the third.
    """

    n: Floats
    n0: Floats
    w: Floats
    w0: Floats
    a: Floats
    a0: Floats
    length: Floats
    lift: Floats
    radius: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Lines:
    """The edges of pairs: where they start and the way to where they end, (n, 3) each [mm]."""

    start: Floats
    way: Floats

    def chosen(self, which: Indices) -> _Lines:
        """Return some of the lines."""
        return _Lines(start=self.start.take(which, axis=0), way=self.way.take(which, axis=0))

    def along(self, direction: Floats, offset: Floats) -> Linear:
        """Return the place of points along unit vectors (n, 3), less an offset (n,)."""
        return Linear(at_0=dots(self.start, direction) - offset, rate=dots(self.way, direction))


def rod_frames(rods: Rods) -> RodFrames:
    """Return the frames of rods; those that are seen end-on have none that means anything."""
    axis = rods.axis
    up = axis[:, 2] >= 0.0
    base = np.where(up[:, None], rods.start - axis * rods.reach[:, :1], rods.end + axis * rods.reach[:, 1:])
    a = np.where(up[:, None], axis, -axis)
    seen = np.hypot(a[:, 0], a[:, 1])
    slope = np.where(seen > END_ON, seen, 1.0)
    n = np.stack([a[:, 1] / slope, -a[:, 0] / slope, np.zeros(len(a))], axis=1)
    w = np.cross(n, a)
    length = np.linalg.norm(rods.end - rods.start, axis=1) + rods.reach.sum(axis=1)
    return RodFrames(
        n=n,
        n0=dots(n, base),
        w=w,
        w0=dots(w, base),
        a=a,
        a0=dots(a, base),
        length=length,
        lift=a[:, 2] / slope,
        radius=rods.radius,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BrickFrames:
    """Boxes by their axes (n, 3, 3), where the centre is on each (n, 3), and half lengths (n, 3) [mm]."""

    axes: Floats
    offset: Floats
    size: Floats


def brick_frames(bricks: Bricks) -> BrickFrames:
    """Return the frames of boxes."""
    axes = bricks.axes
    return BrickFrames(axes=axes, offset=np.einsum("nij,nj->ni", axes, bricks.centre), size=bricks.size)


def behind_rods(edges: Edges, frames: RodFrames, pairs: Pairs) -> Hidden:
    """Return what is inside or behind rods that are not seen end-on."""
    lines = _lines_of(edges, pairs)
    of = pairs.occluder
    height = lines.along(frames.n.take(of, axis=0), frames.n0[of])
    strip = whole(len(of)).both(where_within(height, frames.radius[of] + pairs.growth))
    # drop the pairs that pass each other in the picture
    crossing = np.flatnonzero(strip.some)
    pairs, lines = pairs.chosen(crossing), lines.chosen(crossing)
    height, strip = height.chosen(crossing), strip.chosen(crossing)
    of = pairs.occluder
    depth, place = (
        lines.along(frames.w.take(of, axis=0), frames.w0[of]),
        lines.along(frames.a.take(of, axis=0), frames.a0[of]),
    )
    under = strip.both(where_under_circle(height, depth, frames.radius[of] + pairs.growth, strip))
    under = under.both(where_positive((-place).raised(frames.length[of] + pairs.growth)))
    # and those of which nothing is under the endless rod
    some = np.flatnonzero(under.some)
    pairs, under = pairs.chosen(some), under.chosen(some)
    height, depth, place = height.chosen(some), depth.chosen(some), place.chosen(some)
    return _found(pairs, under.both(_between_ends(frames, pairs, height, depth, place, under)))


def _between_ends(
    frames: RodFrames, pairs: Pairs, height: Linear, depth: Linear, place: Linear, within: Stretches
) -> Stretches:
    """Return where rays meet a rod between its ends, of stretches within its width as seen."""
    of = pairs.occluder
    from_near_end = place.raised(pairs.growth)
    lift = frames.lift[of]
    level = np.abs(lift) < END_ON
    if level.all():
        return where_positive(from_near_end)
    radius = frames.radius[of] + pairs.growth
    slope = 1.0 / np.where(level, 1.0, lift)
    way_in, way_out = -from_near_end * slope, (-place).raised(frames.length[of] + pairs.growth) * slope
    tilted = where_under_circle(height, depth + way_in, radius, within)
    tilted = tilted.both(where_under_circle(height, -(depth + way_out), radius, within))
    return _either(level, where_positive(from_near_end), tilted) if level.any() else tilted


def behind_rings(edges: Edges, rods: Rods, pairs: Pairs) -> Hidden:
    """Return what is inside or behind rods seen end-on: discs, with a hole where there is a bore."""
    of = pairs.occluder
    lines = _lines_of(edges, pairs)
    start, way = lines.start, lines.way
    x = Linear(at_0=start[:, 0] - rods.start[of, 0], rate=way[:, 0])
    y = Linear(at_0=start[:, 1] - rods.start[of, 1], rate=way[:, 1])
    top = np.maximum(rods.start[of, 2], rods.end[of, 2]) + pairs.growth
    below = where_positive(Linear(at_0=top - start[:, 2], rate=-way[:, 2]))
    disc = whole(len(of)).both(below).both(where_in_circle(x, y, np.maximum(rods.radius[of] + pairs.growth, 0.0)))
    hole_radius = np.where(rods.bore[of] > 0.0, np.maximum(rods.bore[of] - pairs.growth, 0.0), 0.0)
    hole = where_in_circle(x, y, hole_radius)
    holed = (hole_radius > 0.0) & hole.some
    before = Stretches(low=disc.low, high=np.where(holed, np.minimum(disc.high, hole.low), disc.high))
    after = Stretches(low=np.where(holed, np.maximum(disc.low, hole.high), np.inf), high=disc.high)
    return joined([_found(pairs, before), _found(pairs, after)])


def behind_bricks(edges: Edges, frames: BrickFrames, pairs: Pairs) -> Hidden:
    """Return what is inside or behind boxes.

    Along an edge k of the box, turned so that the ray goes up it at a rate z, the ray is within the box where
    |c + z t| <= h. The way out of one pair of faces comes after the way in of another when
    (h_k - c_k) z_j + (h_j + c_j) z_k >= 0; for a rate of 0 that says |c| <= h, as it must.
    """
    of = pairs.occluder
    axes, offset = frames.axes.take(of, axis=0), frames.offset[of]
    size = frames.size[of] + pairs.growth[:, None]
    lines = _lines_of(edges, pairs)
    rise, up, down = [], [], []
    for k in range(3):
        turned = np.where(axes[:, k, 2] < 0.0, -1.0, 1.0)
        value = lines.along(axes[:, k], offset[:, k]) * turned
        rise.append(np.abs(axes[:, k, 2]))
        up.append(value.raised(size[:, k]))
        down.append((-value).raised(size[:, k]))
    hidden = whole(len(of))
    for k in range(3):
        hidden = hidden.both(where_positive(down[k]))
        for j in ((k + 1) % 3, (k + 2) % 3):
            hidden = hidden.both(where_positive(down[k] * rise[j] + up[j] * rise[k]))
    thick = size.min(axis=1) > 0.0
    return _found(pairs.chosen(thick), hidden.chosen(thick))


def joined(parts: list[Hidden]) -> Hidden:
    """Put hidden stretches from several places together."""
    return Hidden(
        edge=np.concatenate([np.zeros(0, dtype=np.int64), *(p.edge for p in parts)]),
        low=np.concatenate([np.zeros(0), *(p.low for p in parts)]),
        high=np.concatenate([np.zeros(0), *(p.high for p in parts)]),
    )


def _lines_of(edges: Edges, pairs: Pairs) -> _Lines:
    start = edges.start.take(pairs.edge, axis=0)
    return _Lines(start=start, way=edges.end.take(pairs.edge, axis=0) - start)


def _either(first: Flags, one: Stretches, other: Stretches) -> Stretches:
    return Stretches(low=np.where(first, one.low, other.low), high=np.where(first, one.high, other.high))


def _found(pairs: Pairs, hidden: Stretches) -> Hidden:
    some = hidden.some
    return Hidden(edge=pairs.edge[some], low=hidden.low[some], high=hidden.high[some])
