"""What is left of edges when hidden stretches are taken away."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.shadows import Hidden

if TYPE_CHECKING:
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices

_NOTHING = 1e-9
"""A share of an edge that comes from rounding alone."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """Visible stretches in order of their edges: number of the edge (n,), from where to where (n,) as shares of it."""

    edge: Indices
    low: Floats
    high: Floats

    def chosen(self, edges: Flags) -> Pieces:
        """Return the stretches of some of the edges (edges,)."""
        return self.chosen_rows(edges[self.edge])

    def chosen_rows(self, which: Flags) -> Pieces:
        """Return some of the stretches (n,)."""
        return Pieces(edge=self.edge[which], low=self.low[which], high=self.high[which])


def whole_edges(count: int) -> Pieces:
    """Return so many edges that nothing cuts."""
    return Pieces(edge=np.arange(count), low=np.zeros(count), high=np.ones(count))


def uncovered(hidden: Hidden, least: Floats) -> Pieces:
    """Return the stretches of edges that nothing hides, given hidden ones in any order, overlapping or not.

    A piece cut out of an edge is dropped when it is shorter than `least` (edges,), a share of that edge; an edge that
    nothing cuts stays whole.
    """
    count = len(least)
    edge = np.concatenate([hidden.edge, np.arange(count)])
    low = np.concatenate([np.clip(hidden.low, 0.0, 1.0), np.ones(count)])
    high = np.concatenate([np.clip(hidden.high, 0.0, 1.0), np.ones(count)])
    order = np.argsort(2.0 * edge + low)
    edge, low, high = edge[order], low[order], high[order]
    # edge number plus place on the edge: a running maximum that starts anew at each edge, since 1 is next edge's 0
    so_far = np.maximum.accumulate(edge + high)
    begin = np.concatenate([np.zeros(1), so_far[:-1]]) - edge
    begin = np.maximum(begin, 0.0)
    uncut = np.bincount(hidden.edge, minlength=count)[edge] == 0
    kept = (low - begin > least[edge]) | uncut
    return Pieces(edge=edge[kept], low=begin[kept], high=low[kept])


def all_but(pieces: Pieces, count: int) -> Pieces:
    """Return the stretches of `count` edges that lie in none of the pieces."""
    taken = Hidden(edge=pieces.edge, low=pieces.low, high=pieces.high)
    return uncovered(taken, np.full(count, _NOTHING))
