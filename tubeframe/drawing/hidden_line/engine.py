"""From bodies to the lines that are seen of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.bend_outlines import bend_edges
from tubeframe.drawing.hidden_line.cover import all_but
from tubeframe.drawing.hidden_line.curve_table import lone
from tubeframe.drawing.hidden_line.duplicates import Lines, once_each
from tubeframe.drawing.hidden_line.edges import joined
from tubeframe.drawing.hidden_line.occluders import occluders_of
from tubeframe.drawing.hidden_line.outlines import brick_edges, rod_edges
from tubeframe.drawing.hidden_line.primitives import taken_apart
from tubeframe.drawing.hidden_line.search import visible_pieces
from tubeframe.drawing.hidden_line.traces import Traces, spans, traced

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.arrays import Floats, Indices
    from tubeframe.drawing.hidden_line.cover import Pieces
    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.hidden_line.primitives import Primitives
    from tubeframe.drawing.hidden_line.shapes import Span
    from tubeframe.drawing.scene import Body, View

_NO_LENGTH = 1e-9
"""An edge that looks shorter is seen end-on as a point [mm]."""


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
    def spans(self) -> tuple[Span, ...]:
        """The lines with true curves: one record an unbroken stretch, the straight ones first (worked out anew)."""
        return spans(self.traces)


VisibleLines = BodyLines
"""What is seen of one body."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Seen:
    """What is seen of bodies, and what of the same edges is hidden: one entry a body, in their order."""

    visible: tuple[BodyLines, ...]
    hidden: tuple[BodyLines, ...]


def visible_lines(
    bodies: Sequence[Body], view: View, *, sag: float = 0.02, min_size: float = 0.0
) -> tuple[BodyLines, ...]:
    """Return what a viewer sees of opaque bodies. What is inside of a body counts as hidden, so bodies may overlap.

    Args:
        bodies: the scene.
        view: where it is looked at from.
        sag: how far a chord may be from its curve [mm].
        min_size: convex pieces that are seen no larger than this, and bores whose wall is thinner, are left out [mm].

    Returns:
        One entry a body, in their order. Where lines of several bodies fall on each other the body in front keeps
        them, and of those at one depth the first.

    """
    primitives = taken_apart(bodies, view, sag=sag, min_size=min_size)
    edges = candidate_edges(primitives, sag=sag, min_size=min_size)
    pieces = visible_pieces(edges, occluders_of(primitives))
    return _by_body(bodies, *_once(edges, _lines(edges, pieces, primitives), pieces.edge))


def lines(bodies: Sequence[Body], view: View, *, sag: float = 0.02, min_size: float = 0.0) -> Seen:
    """Return what a viewer sees of opaque bodies and, of the same edges, what he does not see.

    The edges are those that would be seen of a part that stood alone. Where a hidden line falls on a visible one the
    visible one is kept. Arguments and order are those of `visible_lines`.
    """
    primitives = taken_apart(bodies, view, sag=sag, min_size=min_size)
    edges = candidate_edges(primitives, sag=sag, min_size=min_size)
    seen = visible_pieces(edges, occluders_of(primitives))
    dark = all_but(seen, len(edges.part))
    both = _ahead_of(_lines(edges, seen, primitives), _lines(edges, dark, primitives), len(bodies))
    found = _by_body((*bodies, *bodies), *_once(edges, both, np.concatenate([seen.edge, dark.edge])))
    return Seen(visible=found[: len(bodies)], hidden=found[len(bodies) :])


def candidate_edges(primitives: Primitives, *, sag: float, min_size: float) -> Edges:
    """Return every edge that would be seen if its own part were alone; `sag` and `min_size` [mm] as above."""
    edges = joined(
        [
            rod_edges(primitives.rods, sag=sag, min_wall=min_size),
            brick_edges(primitives.bricks, first=len(primitives.rods.radius)),
            *(bend_edges(bend, sag=sag) for bend in primitives.bends),
        ]
    )
    return edges.chosen(edges.seen_length > _NO_LENGTH)


def _lines(edges: Edges, pieces: Pieces, primitives: Primitives) -> Lines:
    """Cut the pieces out of their edges and rank them: the front-most first, then in order of the bodies."""
    start = edges.start[pieces.edge]
    way = edges.end[pieces.edge] - start
    ends = np.stack([start + pieces.low[:, None] * way, start + pieces.high[:, None] * way], axis=1)
    body = primitives.body[edges.part[pieces.edge]]
    rank = np.empty(len(body), dtype=np.int64)
    rank[np.lexsort((body, -ends[:, :, 2].mean(axis=1)))] = np.arange(len(body))
    return Lines(ends=ends[:, :, :2], body=body, rank=rank)


def _ahead_of(seen: Lines, dark: Lines, bodies: int) -> Lines:
    """Put lines together so that the first come before all others, whose bodies are counted on."""
    return Lines(
        ends=np.concatenate([seen.ends, dark.ends]),
        body=np.concatenate([seen.body, dark.body + bodies]),
        rank=np.concatenate([seen.rank, dark.rank + len(seen.rank)]),
    )


def _once(edges: Edges, lines: Lines, edge: Indices) -> tuple[Indices, Traces]:
    """Draw nothing twice; return the bodies in rising order, and what the lines are of, given their edges (n,)."""
    curve = edges.curve[edge]
    alone = curve >= 0
    alone[alone] = lone(edges.curves)[curve[alone]]
    shared = once_each(lines.chosen(~alone))
    free = lines.chosen(alone)
    body = np.concatenate([free.body, shared.body])
    by_rank = np.empty(len(edge), dtype=np.int64)
    by_rank[lines.rank] = edge
    drawn_edge = by_rank[np.concatenate([free.rank, shared.rank])]
    by_body = np.argsort(body, kind="stable")
    ends = np.concatenate([free.ends, shared.ends])[by_body]
    return body[by_body], traced(ends, drawn_edge[by_body], edges)


def _by_body(bodies: Sequence[Body], body: Indices, traces: Traces) -> tuple[BodyLines, ...]:
    first = np.searchsorted(body, np.arange(len(bodies) + 1)).tolist()
    return tuple(
        BodyLines(key=b.key, traces=traces.chosen(slice(first[i], first[i + 1]))) for i, b in enumerate(bodies)
    )
