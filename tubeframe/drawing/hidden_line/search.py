"""Edges meet their occluders, the front-most first, until nothing of them is left to hide."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.arrays import distinct, spread
from tubeframe.drawing.hidden_line.cover import Pieces, uncovered
from tubeframe.drawing.hidden_line.grid import Strips, cells_of, grid_over
from tubeframe.drawing.hidden_line.occluders import Occluders, largest_growth, stretches_behind
from tubeframe.drawing.hidden_line.shadows import Hidden, joined
from tubeframe.drawing.hidden_line.tolerance import SKIN, SLIVER

if TYPE_CHECKING:
    from tubeframe.drawing.hidden_line.arrays import Flags, Floats, Indices
    from tubeframe.drawing.hidden_line.edges import Edges

_BLOCK = 40_000
"""How many pairs of an edge and an occluder are worked on at once: few enough to stay in the processor's cache."""

_FIRST_ROUND = 4
"""How many occluders of a cell an edge meets in the first round; in each further round it meets twice as many."""


def visible_pieces(edges: Edges, occluders: Occluders) -> Pieces:
    """Return the stretches of edges that no occluder hides, in order of the edges."""
    least = SLIVER / edges.seen_length
    left = np.ones(len(least), dtype=bool)
    margin = largest_growth(edges, occluders) + SKIN
    boxes = _boxes(edges, occluders, margin)
    edge, begin, stop, listed = _meetings(edges, occluders, margin)
    hidden, size = joined([]), _FIRST_ROUND
    while len(edge):
        found = [hidden]
        count = np.minimum(size, stop - begin)
        for block in _blocks(count):
            entry, place = spread(count[block])
            met, occluder = _near(boxes, edge[block][entry], listed[begin[block][entry] + place])
            found.append(stretches_behind(edges, occluders, met, occluder))
        hidden = joined(found)
        left = _left(hidden, least, left)
        hidden = hidden.chosen(left[hidden.edge])
        begin, size = begin + size, size * 2
        on = (begin < stop) & left[edge]
        edge, begin, stop = edge[on], begin[on], stop[on]
    return uncovered(hidden, least).chosen(left)


def _blocks(count: Indices) -> list[slice]:
    """Cut rows of so many pairs each (n,) into blocks of about `_BLOCK` pairs."""
    pairs = np.cumsum(count)
    cuts = np.searchsorted(pairs, np.arange(0, pairs[-1], _BLOCK)).tolist()
    return [slice(a, b) for a, b in pairwise([*cuts, len(count)])]


def _left(hidden: Hidden, least: Floats, left: Flags) -> Flags:
    """Return which edges still have something to see."""
    seen = np.zeros(len(left), dtype=bool)
    seen[uncovered(hidden, least).edge] = True
    return seen & left


def _meetings(edges: Edges, occluders: Occluders, margin: float) -> tuple[Indices, Indices, Indices, Indices]:
    """Pair edges with the cells that they come near to, by a margin [mm].

    Returns the edge (n,) of each pair, and where in a list of occluders those of the cell begin and stop (n,) that
    reach in front of the edge; the list; in a cell the front-most come first.
    """
    of_edges = Strips(start=edges.start[:, :2], end=edges.end[:, :2], pad=np.full((len(edges.part), 2), margin))
    if not len(edges.part):
        none = np.zeros(0, dtype=np.int64)
        return none, none, none, none
    grid = grid_over(of_edges)
    edge, cell = cells_of(of_edges, grid)
    occluder, of_cell = cells_of(occluders.strips, grid)
    count = len(occluders.part)
    by_depth = np.argsort(-occluders.high[:, 2], kind="stable")
    rank = np.empty(count, dtype=np.int64)
    rank[by_depth] = np.arange(count)
    key = np.sort(of_cell * count + rank[occluder])
    back = np.minimum(edges.start[:, 2], edges.end[:, 2])
    in_front = np.searchsorted(-occluders.high[by_depth, 2], -back)
    begin = np.searchsorted(key, cell * count)
    stop = np.searchsorted(key, cell * count + in_front[edge])
    some = begin < stop
    return edge[some], begin[some], stop[some], by_depth[key % count]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Boxes:
    """Upright boxes in the picture round edges, with a margin, and round occluders; rows left, bottom, right, top.

    (4, n) each [mm]; and the occluder that an edge belongs to.
    """

    edges: Floats
    occluders: Floats
    owner: Indices


def _boxes(edges: Edges, occluders: Occluders, margin: float) -> _Boxes:
    low = np.minimum(edges.start[:, :2], edges.end[:, :2]) - margin
    high = np.maximum(edges.start[:, :2], edges.end[:, :2]) + margin
    return _Boxes(
        edges=np.concatenate([low.T, high.T]),
        occluders=np.concatenate([occluders.low[:, :2].T, occluders.high[:, :2].T]),
        owner=edges.owner,
    )


def _near(boxes: _Boxes, edge: Indices, occluder: Indices) -> tuple[Indices, Indices]:
    """Drop the pairs that are of one owner, apart in the picture, or that come twice."""
    near = boxes.owner[edge] != occluder
    for axis in (0, 1):
        near &= boxes.occluders[axis][occluder] <= boxes.edges[axis + 2][edge]
        near &= boxes.occluders[axis + 2][occluder] >= boxes.edges[axis][edge]
    count = boxes.occluders.shape[1]
    pair = distinct(edge[near] * count + occluder[near])
    return pair // count, pair % count
