"""Which occluders come near which edges in the picture: a grid of square cells."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.model.arrays import spread

if TYPE_CHECKING:
    from tubeframe.drawing.model.arrays import Floats, Indices

CELL = 60.0
"""Side of a cell: a few diameters of a tube [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strips:
    """Things as seen: lines (n, 2) from start to end, with how far they reach to either side in x and y (n, 2) [mm]."""

    start: Floats
    end: Floats
    pad: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A block of cells: its lower left corner [mm] and how many columns and rows it has."""

    x: float
    y: float
    columns: int
    rows: int


def grid_over(strips: Strips) -> Grid:
    """Return the grid that covers all strips, at least one of them."""
    low = np.minimum(strips.start, strips.end) - strips.pad
    high = np.maximum(strips.start, strips.end) + strips.pad
    x, y = low.min(axis=0).tolist()
    across, up = high.max(axis=0).tolist()
    return Grid(x=x, y=y, columns=int((across - x) // CELL) + 1, rows=int((up - y) // CELL) + 1)


def cells_of(strips: Strips, grid: Grid) -> tuple[Indices, Indices]:
    """Return the cells that strips may touch as two arrays: the number of the strip and the number of the cell."""
    left = np.minimum(strips.start[:, 0], strips.end[:, 0]) - strips.pad[:, 0]
    right = np.maximum(strips.start[:, 0], strips.end[:, 0]) + strips.pad[:, 0]
    first, last = _cell_range(left - grid.x, right - grid.x, grid.columns)
    strip, place = spread(np.maximum(last - first + 1, 0))
    column = first[strip] + place
    low, high = _heights(strips, strip, CELL * column.astype(np.float64) + grid.x)
    first, last = _cell_range(low - grid.y, high - grid.y, grid.rows)
    entry, place = spread(np.maximum(last - first + 1, 0))
    return strip[entry], column[entry] * grid.rows + first[entry] + place


def _cell_range(low: Floats, high: Floats, count: int) -> tuple[Indices, Indices]:
    """Return the first and last of `count` cells in ranges [mm from the grid's corner]; last < first outside of it."""
    first = np.maximum(np.floor(low / CELL), 0.0).astype(np.int64)
    last = np.minimum(np.floor(high / CELL), count - 1.0).astype(np.int64)
    return first, last


def _heights(strips: Strips, strip: Indices, left: Floats) -> tuple[Floats, Floats]:
    """Return the range of y of strips within the columns that begin at `left` [mm]."""
    start, way = strips.start[strip], strips.end[strip] - strips.start[strip]
    pad = strips.pad[strip]
    steep = np.abs(way[:, 0]) < 1e-9
    run = np.where(steep, 1.0, way[:, 0])
    a = (left - pad[:, 0] - start[:, 0]) / run
    b = (left + CELL + pad[:, 0] - start[:, 0]) / run
    a, b = np.where(steep, 0.0, np.clip(a, 0.0, 1.0)), np.where(steep, 1.0, np.clip(b, 0.0, 1.0))
    ya, yb = start[:, 1] + a * way[:, 1], start[:, 1] + b * way[:, 1]
    return np.minimum(ya, yb) - pad[:, 1], np.maximum(ya, yb) + pad[:, 1]
