"""Everything that can hide an edge, under one numbering: rods first, then bricks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.grid import Strips
from tubeframe.drawing.hidden_line.shadows import (
    BrickFrames,
    Hidden,
    Pairs,
    RodFrames,
    behind_bricks,
    behind_rings,
    behind_rods,
    brick_frames,
    joined,
    rod_frames,
)
from tubeframe.drawing.hidden_line.tolerance import END_ON, SKIN

if TYPE_CHECKING:
    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.hidden_line.primitives import Primitives, Rods
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Occluders:
    """Rods and bricks with what the search for pairs needs to know of both."""

    rods: Rods
    frames: RodFrames
    end_on: Flags
    """(rods,) whether a rod is seen end-on"""
    brick_frames: BrickFrames
    low: Floats
    """(n, 3) lower corners of the upright boxes around them [mm]"""
    high: Floats
    """(n, 3) upper corners [mm]"""
    strips: Strips
    part: Indices
    """(n,) number of the tube or piece"""
    slack: Floats
    """(n,) how far the surface is at most from the true one [mm]"""


def occluders_of(primitives: Primitives) -> Occluders:
    """Gather the occluders of a scene."""
    rods, bricks = primitives.rods, primitives.bricks
    axis = rods.axis
    start, end = rods.start - axis * rods.reach[:, :1], rods.end + axis * rods.reach[:, 1:]
    round_ends = rods.radius[:, None] * np.sqrt(np.clip(1.0 - axis**2, 0.0, 1.0))
    half = np.abs(bricks.half).sum(axis=1)
    middle = bricks.centre[:, :2]
    return Occluders(
        rods=rods,
        frames=rod_frames(rods),
        end_on=np.hypot(axis[:, 0], axis[:, 1]) <= END_ON,
        brick_frames=brick_frames(bricks),
        low=np.concatenate([np.minimum(start, end) - round_ends, bricks.centre - half]),
        high=np.concatenate([np.maximum(start, end) + round_ends, bricks.centre + half]),
        strips=Strips(
            start=np.concatenate([start[:, :2], middle]),
            end=np.concatenate([end[:, :2], middle]),
            pad=np.concatenate([np.repeat(rods.radius[:, None], 2, axis=1), half[:, :2]]),
        ),
        part=np.concatenate([rods.part, bricks.part]),
        slack=np.concatenate([rods.slack, np.zeros(len(bricks.part))]),
    )


def largest_growth(edges: Edges, occluders: Occluders) -> float:
    """Return the most by which an occluder is made thicker [mm]."""
    return SKIN + float(edges.slack.max(initial=0.0)) + float(occluders.slack.max(initial=0.0))


def stretches_behind(edges: Edges, occluders: Occluders, edge: Indices, occluder: Indices) -> Hidden:
    """Return what of edges (n,) is inside or behind occluders (n,), pair by pair.

    An occluder of another part that stands wholly in front of an edge is made thicker, so that equal outlines one
    behind the other are seen once; any other is made thinner, so that it does not hide what lies on it.
    """
    front = np.maximum(edges.start[edge, 2], edges.end[edge, 2])
    ahead = (occluders.low[occluder, 2] > front) & (occluders.part[occluder] != edges.part[edge])
    doubt = SKIN + edges.slack[edge] + occluders.slack[occluder]
    pairs = Pairs(edge=edge, occluder=occluder, growth=np.where(ahead, doubt, -doubt))
    count = len(occluders.rods.radius)
    is_brick = occluder >= count
    is_ring = occluders.end_on[np.minimum(occluder, count - 1)] & ~is_brick if count else ~is_brick
    of_bricks = pairs.chosen(np.flatnonzero(is_brick))
    of_bricks = Pairs(edge=of_bricks.edge, occluder=of_bricks.occluder - count, growth=of_bricks.growth)
    return joined(
        [
            behind_rods(edges, occluders.frames, pairs.chosen(np.flatnonzero(~is_brick & ~is_ring))),
            behind_rings(edges, occluders.rods, pairs.chosen(np.flatnonzero(is_ring))),
            behind_bricks(edges, occluders.brick_frames, of_bricks),
        ]
    )
