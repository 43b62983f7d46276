"""Which lines touch which boxes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices

_FLAT = 1e-9


class Lines:
    """Lines (n, 2, 2) [mm] with their reach, looked up once."""

    def __init__(self, ends: Floats) -> None:
        """Take the lines."""
        self.ends = ends
        self.low = ends.min(axis=1)
        self.high = ends.max(axis=1)

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self.ends)


def hits(boxes: Floats, lines: Lines, margin: float) -> Flags:
    """Return which lines turned boxes touch, by their corners (k, 4, 2), a margin wider [mm]: (k, n).

    Pairs that lie far apart are told by their upright boxes; each other line is cut to the box's width, then to its
    height, in the box's own axes (after Y.-D. Liang and B. Barsky, ACM Trans. Graphics 3 (1984) 1-22; from memory).
    """
    touched = np.zeros((len(boxes), len(lines)), dtype=bool)
    if len(boxes) and len(lines):
        which, line = _near(boxes, lines, margin)
        touched[which, line] = _touches(boxes[which], lines.ends[line], margin)
    return touched


def _near(boxes: Floats, lines: Lines, margin: float) -> tuple[Indices, Indices]:
    """Return the pairs whose upright boxes overlap, by number."""
    reach = 2.0 * margin  # a turned box's corners go out farther than its sides
    low, high = boxes.min(axis=1) - reach, boxes.max(axis=1) + reach
    (left, bottom), (right, top) = low.min(axis=0), high.max(axis=0)
    x, y, x_2, y_2 = lines.low[:, 0], lines.low[:, 1], lines.high[:, 0], lines.high[:, 1]
    around = np.flatnonzero((x <= right) & (x_2 >= left) & (y <= top) & (y_2 >= bottom))
    low_2, high_2 = lines.low[around], lines.high[around]
    near = (low[:, None, 0] <= high_2[:, 0]) & (high[:, None, 0] >= low_2[:, 0])
    near &= (low[:, None, 1] <= high_2[:, 1]) & (high[:, None, 1] >= low_2[:, 1])
    which, line = np.nonzero(near)
    return which, around[line]


def _touches(boxes: Floats, lines: Floats, margin: float) -> Flags:
    """Return whether each line (n, 2, 2) touches the box beside it (n, 4, 2): (n,)."""
    origin = boxes[:, 0]
    along, up = boxes[:, 1] - origin, boxes[:, 3] - origin
    size = np.stack([np.hypot(along[:, 0], along[:, 1]), np.hypot(up[:, 0], up[:, 1])], axis=1)
    axes = np.stack([along / size[:, :1], up / size[:, 1:]], axis=2)
    local = (lines - origin[:, None]) @ axes
    start, way = local[:, 0], local[:, 1] - local[:, 0]
    flat = np.abs(way) < _FLAT
    step = np.where(flat, 1.0, way)
    first, last = (-margin - start) / step, (size + margin - start) / step
    inside = (start >= -margin) & (start <= size + margin)
    enter = np.where(flat, np.where(inside, 0.0, 2.0), np.minimum(first, last)).max(axis=1)
    leave = np.where(flat, np.where(inside, 1.0, -1.0), np.maximum(first, last)).min(axis=1)
    touched: Flags = np.maximum(enter, 0.0) <= np.minimum(leave, 1.0)
    return touched
