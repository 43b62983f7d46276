"""Stretches of edges, cut out, drawn once each and sorted by their bodies."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.curve_table import NO_CURVE, lone
from tubeframe.drawing.hidden_line.duplicates import Lines, once_each
from tubeframe.drawing.hidden_line.traces import Traces, shapes_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.hidden_line.uncovered import Pieces
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices
    from tubeframe.drawing.shapes import Shape


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BodyLines:
    """Lines of one body in the view plane.

    The chords of a curve follow each other, so that they can be drawn in one stroke.
    """

    key: str
    traces: Traces

    @property
    def segments(self) -> Floats:
        """The lines with curves in chords: from and to, (n, 2, 2) [mm]."""
        return self.traces.lines

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """The lines with true curves: the straight ones, then one shape an unbroken stretch (worked out anew)."""
        return shapes_of(self.traces)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Cut:
    """Lines cut out of edges: ends (n, 2, 3) [mm], the edge, the body, how far in front [mm], (n,) each."""

    ends: Floats
    edge: Indices
    body: Indices
    depth: Floats

    def chosen(self, which: Flags) -> _Cut:
        """Return some of the lines."""
        return _Cut(ends=self.ends[which], edge=self.edge[which], body=self.body[which], depth=self.depth[which])


def by_body(
    keys: Sequence[str], edges: Edges, pieces: Pieces, body: Indices, *, hidden_from: int | None = None
) -> tuple[BodyLines, ...]:
    """Return the lines of each body, under the bodies' keys, given the body that each piece is of (n,).

    Of lines on each other one is kept: that in front, then the first. Bodies from the number `hidden_from` on stand
    for what is hidden of bodies; their lines come after all others.
    """
    cut = _cut_out(edges, pieces, body)
    curve = edges.curve[pieces.edge]
    alone = lone(edges.curves)[curve] & (curve != NO_CURVE) if len(edges.curves.bend) else curve != NO_CURVE
    free, shared = cut.chosen(alone), _in_line(edges, pieces.chosen_rows(~alone), cut.chosen(~alone))
    late = shared.body >= (len(keys) if hidden_from is None else hidden_from)
    order = np.lexsort((shared.body, -shared.depth, late))
    rank = np.empty(len(order), dtype=np.int64)
    rank[order] = np.arange(len(order))
    once = once_each(Lines(ends=shared.ends[:, :, :2], body=shared.body, rank=rank))
    of = np.concatenate([free.body, once.body])
    sequence = np.argsort(of, kind="stable")
    lines = np.concatenate([free.ends[:, :, :2], once.ends])[sequence]
    edge = np.concatenate([free.edge, shared.edge[order][once.rank]])[sequence]
    first = np.searchsorted(of[sequence], np.arange(len(keys) + 1)).tolist()
    return tuple(
        BodyLines(key=key, traces=Traces(lines=lines[a:b], edge=edge[a:b], edges=edges))
        for key, a, b in zip(keys, first, first[1:], strict=False)
    )


def _cut_out(edges: Edges, pieces: Pieces, body: Indices) -> _Cut:
    start = edges.start.take(pieces.edge, axis=0)
    way = edges.end.take(pieces.edge, axis=0) - start
    ends = np.empty((len(body), 2, 3))
    ends[:, 0] = start + pieces.low[:, None] * way
    ends[:, 1] = start + pieces.high[:, None] * way
    return _Cut(ends=ends, edge=pieces.edge, body=body, depth=(ends[:, 0, 2] + ends[:, 1, 2]) / 2.0)


def _in_line(edges: Edges, pieces: Pieces, cut: _Cut) -> _Cut:
    """Join the chords of circles seen edge-on: straight edges that follow each other without a gap, all in line."""
    if not len(cut.edge):
        return cut
    straight = edges.curve[cut.edge] == NO_CURVE
    before, after = cut.edge[:-1], cut.edge[1:]
    goes_on = straight[:-1] & straight[1:] & (after == before + 1) & (pieces.high[:-1] == 1.0) & (pieces.low[1:] == 0.0)
    goes_on &= (edges.end[before, :2] == edges.start[after, :2]).all(axis=1) & (
        edges.owner[before] == edges.owner[after]
    )
    goes_on &= edges.owner[before] >= 0
    first = np.nonzero(np.concatenate([[True], ~goes_on]))[0]
    last = np.append(first[1:], len(cut.edge)) - 1
    return _Cut(
        ends=np.stack([cut.ends[first, 0], cut.ends[last, 1]], axis=1),
        edge=cut.edge[first],
        body=cut.body[first],
        depth=np.maximum.reduceat(cut.depth, first),
    )
