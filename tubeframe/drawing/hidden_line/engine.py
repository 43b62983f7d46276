"""From bodies to the lines that are seen of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.bend_outlines import bend_edges
from tubeframe.drawing.hidden_line.duplicates import Lines, once_each
from tubeframe.drawing.hidden_line.edges import joined
from tubeframe.drawing.hidden_line.occluders import occluders_of
from tubeframe.drawing.hidden_line.outlines import brick_edges, rod_edges
from tubeframe.drawing.hidden_line.primitives import taken_apart
from tubeframe.drawing.hidden_line.search import visible_pieces

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.arrays import Floats
    from tubeframe.drawing.hidden_line.cover import Pieces
    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.hidden_line.primitives import Primitives
    from tubeframe.drawing.scene import Body, View

_NO_LENGTH = 1e-9
"""An edge that looks shorter is seen end-on as a point [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class VisibleLines:
    """What is seen of one body: lines in the view plane, from and to, (n, 2, 2) [mm].

    The chords of a curve follow each other, so that they can be drawn in one stroke.
    """

    key: str
    segments: Floats


def visible_lines(
    bodies: Sequence[Body], view: View, *, sag: float = 0.02, min_size: float = 0.0
) -> tuple[VisibleLines, ...]:
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
    lines = once_each(_lines(edges, pieces, primitives))
    by_body = np.argsort(lines.body, kind="stable")
    ends = lines.ends[by_body]
    first = np.searchsorted(lines.body[by_body], np.arange(len(bodies) + 1)).tolist()
    return tuple(VisibleLines(key=body.key, segments=ends[first[i] : first[i + 1]]) for i, body in enumerate(bodies))


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
