"""Edges meet their occluders, the front-most first, until nothing of them is left to hide."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.grid import cells_of, grid_over
from tubeframe.drawing.hidden_line.occluders import Occluders, largest_growth, stretches_behind
from tubeframe.drawing.hidden_line.runs import Runs, runs_of
from tubeframe.drawing.hidden_line.shadows import joined
from tubeframe.drawing.hidden_line.tolerance import SKIN, SLIVER
from tubeframe.drawing.hidden_line.uncovered import Pieces, uncovered, whole_edges
from tubeframe.drawing.model.arrays import distinct, spread

if TYPE_CHECKING:
    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices

_BLOCK = 40_000
"""How many pairs of an edge and an occluder are worked on at once: few enough to stay in the processor's cache."""

_FIRST_ROUND = 4
"""How many occluders of a cell an edge meets in the first round; in each further round it meets twice as many."""


def visible_pieces(edges: Edges, occluders: Occluders) -> Pieces:
    """Return the stretches of edges that no occluder hides, in order of the edges."""
    least = SLIVER / edges.seen_length
    left = np.ones(len(least), dtype=bool)
    hidden, size = joined([]), _FIRST_ROUND
    pieces = whole_edges(len(least))
    if not len(least):
        return pieces
    boxes = _boxes(edges, occluders, largest_growth(edges, occluders) + SKIN)
    runs = boxes.runs
    run, begin, stop, listed = _meetings(runs, occluders)
    while len(run):
        found = [hidden]
        count = np.minimum(size, stop - begin)
        for block in _blocks(count * runs.count[run]):
            entry, place = spread(count[block])
            met, occluder = _near(boxes, left, run[block][entry], listed[begin[block][entry] + place])
            found.append(stretches_behind(edges, occluders, met, occluder))
        hidden = joined(found)
        pieces = uncovered(hidden, least)
        seen = np.zeros(len(left), dtype=bool)
        seen[pieces.edge] = True
        left &= seen
        hidden = hidden.chosen(left[hidden.edge])
        begin, size = begin + size, size * 2
        on = (begin < stop) & np.logical_or.reduceat(left, runs.first)[run]
        run, begin, stop = run[on], begin[on], stop[on]
    return pieces.chosen(left)


def _blocks(count: Indices) -> list[slice]:
    """Cut rows of so many pairs each (n,) into blocks of about `_BLOCK` pairs."""
    pairs = np.cumsum(count)
    cuts = np.searchsorted(pairs, np.arange(0, pairs[-1], _BLOCK)).tolist()
    return [slice(a, b) for a, b in pairwise([*cuts, len(count)])]


def _meetings(runs: Runs, occluders: Occluders) -> tuple[Indices, Indices, Indices, Indices]:
    """Pair runs of edges with the cells that they come near to.

    Returns the run (n,) of each pair, and where in a list of occluders those of the cell begin and stop (n,) that
    reach in front of the run; the list; in a cell the front-most come first.
    """
    grid = grid_over(runs.strips)
    run, cell = cells_of(runs.strips, grid)
    occluder, of_cell = cells_of(occluders.strips, grid)
    count = len(occluders.part)
    by_depth = np.argsort(-occluders.high[:, 2], kind="stable")
    rank = np.empty(count, dtype=np.int64)
    rank[by_depth] = np.arange(count)
    key = np.sort(of_cell * count + rank[occluder])
    in_front = np.searchsorted(-occluders.high[by_depth, 2], -runs.low[2])
    begin = np.searchsorted(key, cell * count)
    stop = np.searchsorted(key, cell * count + in_front[run])
    some = begin < stop
    return run[some], begin[some], stop[some], by_depth[key % count]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Boxes:
    """Upright boxes round edges, with a margin, and occluders: lower and upper corners, (3, n) each [mm].

    `across` (2, n) and `middle` (n,) are the direction square to a rod as seen and where its axis is on it, and
    `half` (n,) [mm] how far it reaches to either side.
    """

    low: Floats
    high: Floats
    runs: Runs
    occluder_low: Floats
    occluder_high: Floats
    across: Floats
    middle: Floats
    half: Floats


def _boxes(edges: Edges, occluders: Occluders, margin: float) -> _Boxes:
    low = np.ascontiguousarray(np.minimum(edges.start, edges.end).T)
    high = np.ascontiguousarray(np.maximum(edges.start, edges.end).T)
    low[:2] -= margin
    high[:2] += margin
    bricks = len(occluders.part) - len(occluders.end_on)
    rods = occluders.frames
    return _Boxes(
        low=low,
        high=high,
        runs=runs_of(edges, low, high, 0.0),
        occluder_low=np.ascontiguousarray(occluders.low.T),
        occluder_high=np.ascontiguousarray(occluders.high.T),
        across=np.pad(rods.n[:, :2].T, ((0, 0), (0, bricks))),
        middle=np.pad(rods.n0, (0, bricks)),
        half=np.concatenate([np.where(occluders.end_on, np.inf, rods.radius), np.full(bricks, np.inf)]),
    )


def _near(boxes: _Boxes, left: Flags, run: Indices, occluder: Indices) -> tuple[Indices, Indices]:
    """Return edges and occluders that are near each other, of runs and occluders (n,) that share a cell.

    Dropped are pairs of one owner, those that are apart in the picture, and edges that are done.
    """
    runs = boxes.runs
    near = runs.owner[run] != occluder
    for axis in (0, 1):
        near &= boxes.occluder_low[axis][occluder] <= runs.high[axis][run]
        near &= boxes.occluder_high[axis][occluder] >= runs.low[axis][run]
    count = len(boxes.half)
    pair = distinct(run[near] * count + occluder[near])
    run, occluder = _beside(boxes, pair // count, pair % count)
    entry, place = spread(runs.count[run])
    edge, occluder = runs.first[run][entry] + place, occluder[entry]
    near = left[edge] & (boxes.occluder_high[2][occluder] >= boxes.low[2][edge])
    for axis in (0, 1):
        near &= boxes.occluder_low[axis][occluder] <= boxes.high[axis][edge]
        near &= boxes.occluder_high[axis][occluder] >= boxes.low[axis][edge]
    return edge[near], occluder[near]


def _beside(boxes: _Boxes, run: Indices, occluder: Indices) -> tuple[Indices, Indices]:
    """Drop the runs that pass a rod to one side of its axis as seen."""
    low, high = boxes.runs.low[:2, run], boxes.runs.high[:2, run]
    across = boxes.across[:, occluder]
    reach = (np.abs(across) * (high - low)).sum(axis=0) / 2.0
    away = np.abs((across * (low + high)).sum(axis=0) / 2.0 - boxes.middle[occluder])
    near = away <= reach + boxes.half[occluder]
    return run[near], occluder[near]
