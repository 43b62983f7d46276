"""Lines that lie on each other are drawn once, by the body in front."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.tolerance import SAME_DIRECTION, SAME_LINE
from tubeframe.drawing.model.arrays import clusters, spread

if TYPE_CHECKING:
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lines:
    """Lines in the view plane: from and to (n, 2, 2) [mm], the number of the body (n,), and the rank (n,).

    Of lines on each other the one of the least rank is kept.
    """

    ends: Floats
    body: Indices
    rank: Indices

    def chosen(self, which: Flags | Indices) -> Lines:
        """Return some of the lines."""
        return Lines(ends=self.ends[which], body=self.body[which], rank=self.rank[which])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Ruler:
    """Lines measured along the straight that they lie on: which straight (n,), from and to (n,) [mm], low < high.

    `ends` (n, 2, 2) are in the order of low and high.
    """

    straight: Indices
    low: Floats
    high: Floats
    ends: Floats


def once_each(lines: Lines) -> Lines:
    """Return the same picture with nothing drawn twice; what touches in line and is of one body becomes one line."""
    ruler = _measured(lines.ends)
    group = _connected(ruler)
    alone = np.bincount(group)[group] == 1 if len(group) else np.zeros(0, dtype=bool)
    shared = np.nonzero(~alone)[0]
    first, ends = _resolved(ruler, group, lines, shared)
    place = np.concatenate([np.nonzero(alone)[0], first])
    order = np.argsort(place, kind="stable")
    kept = place[order]
    return Lines(ends=np.concatenate([lines.ends[alone], ends])[order], body=lines.body[kept], rank=lines.rank[kept])


def _measured(ends: Floats) -> _Ruler:
    """Find lines on the same straight and measure along it."""
    way = ends[:, 1] - ends[:, 0]
    heading = np.arctan2(way[:, 1], way[:, 0]) % np.pi
    heading[heading > np.pi - SAME_DIRECTION] -= np.pi
    bundle = clusters(np.zeros(len(ends), dtype=np.int64), heading, SAME_DIRECTION)
    # all lines of a bundle are measured in one direction, that of the first of them
    _, leader = np.unique(bundle, return_index=True)
    common = heading[leader][bundle]
    along = np.stack([np.cos(common), np.sin(common)], axis=1)
    middle = ends.mean(axis=1)
    aside = along[:, 0] * middle[:, 1] - along[:, 1] * middle[:, 0]
    marks = np.einsum("nij,nj->ni", ends, along)
    swapped = marks[:, 0] > marks[:, 1]
    return _Ruler(
        straight=clusters(bundle, aside, SAME_LINE),
        low=marks.min(axis=1),
        high=marks.max(axis=1),
        ends=np.where(swapped[:, None, None], ends[:, ::-1], ends),
    )


def _connected(ruler: _Ruler) -> Indices:
    """Give lines numbers so that those of one straight which touch or overlap, also through others, have one number."""
    order = np.lexsort((ruler.low, ruler.straight))
    straight, low, high = ruler.straight[order], ruler.low[order], ruler.high[order]
    if not len(order):
        return order
    # straights end to end on one ruler, so that one running maximum serves them all
    shift = straight * (high.max() - low.min() + 1.0)
    so_far = np.maximum.accumulate(high + shift)
    new = np.ones(len(order), dtype=np.int64)
    new[1:] = (np.diff(straight) != 0) | (low[1:] + shift[1:] > so_far[:-1] + SAME_LINE)
    number = np.empty(len(order), dtype=np.int64)
    number[order] = np.cumsum(new) - 1
    return number


def _resolved(ruler: _Ruler, group: Indices, lines: Lines, shared: Indices) -> tuple[Indices, Floats]:
    """Cut lines that share a straight at each other's ends and give each bit to the line of the least rank.

    Returns the number of the line that each resulting line starts on (m,), and its ends (m, 2, 2).
    """
    low, high = ruler.low[shared], ruler.high[shared]
    marks = np.concatenate([low, high])
    knot = clusters(np.tile(group[shared], 2), marks, SAME_LINE)
    _, at = np.unique(knot, return_index=True)
    begin, end = knot[: len(shared)], knot[len(shared) :]
    line, place = spread(end - begin)
    bit = begin[line] + place
    order = np.lexsort((lines.rank[shared][line], bit))
    bits, chosen = np.unique(bit[order], return_index=True)
    owner = shared[line[order][chosen]]
    new = np.ones(len(bits), dtype=bool)
    new[1:] = (np.diff(bits) != 1) | (np.diff(lines.body[owner]) != 0)
    first = np.nonzero(new)[0]
    last = np.append(first[1:], len(bits))[: len(first)] - 1
    starts = _point(ruler, owner[first], marks[at[bits[first]]])
    stops = _point(ruler, owner[last], marks[at[bits[last] + 1]])
    return owner[first], np.stack([starts, stops], axis=1)


def _point(ruler: _Ruler, line: Indices, mark: Floats) -> Floats:
    share = (mark - ruler.low[line]) / (ruler.high[line] - ruler.low[line])
    start, end = ruler.ends[line, 0], ruler.ends[line, 1]
    point: Floats = start + share[:, None] * (end - start)
    return point
