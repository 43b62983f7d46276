"""From bodies to the lines that are seen of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.bend_outlines import bend_edges
from tubeframe.drawing.hidden_line.body_lines import BodyLines, by_body
from tubeframe.drawing.hidden_line.edges import joined
from tubeframe.drawing.hidden_line.occluders import occluders_of
from tubeframe.drawing.hidden_line.outlines import brick_edges, rod_edges
from tubeframe.drawing.hidden_line.primitives import taken_apart
from tubeframe.drawing.hidden_line.search import visible_pieces
from tubeframe.drawing.hidden_line.uncovered import Pieces, all_but

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.hidden_line.primitives import Primitives
    from tubeframe.drawing.model.scene import Body, View

_NO_LENGTH = 1e-9
"""An edge that looks shorter is seen end-on as a point [mm]."""


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
    return by_body([b.key for b in bodies], edges, pieces, primitives.body[edges.part[pieces.edge]])


def lines(bodies: Sequence[Body], view: View, *, sag: float = 0.02, min_size: float = 0.0) -> Seen:
    """Return what a viewer sees of opaque bodies and, of the same edges, what he does not see.

    The edges are those that would be seen of a part that stood alone. Where a hidden line falls on a visible one the
    visible one is kept. Arguments and order are those of `visible_lines`.
    """
    primitives = taken_apart(bodies, view, sag=sag, min_size=min_size)
    edges = candidate_edges(primitives, sag=sag, min_size=min_size)
    seen = visible_pieces(edges, occluders_of(primitives))
    dark = all_but(seen, len(edges.part))
    both = Pieces(
        edge=np.concatenate([seen.edge, dark.edge]),
        low=np.concatenate([seen.low, dark.low]),
        high=np.concatenate([seen.high, dark.high]),
    )
    body = primitives.body[edges.part[both.edge]]
    body[len(seen.edge) :] += len(bodies)
    keys = [b.key for b in bodies]
    found = by_body([*keys, *keys], edges, both, body, hidden_from=len(bodies))
    return Seen(visible=found[: len(bodies)], hidden=found[len(bodies) :])


def candidate_edges(primitives: Primitives, *, sag: float, min_size: float) -> Edges:
    """Return every edge that would be seen if its own part were alone; `sag` and `min_size` [mm] as above."""
    edges = joined(
        [
            *rod_edges(primitives.rods, sag=sag, min_wall=min_size),
            *brick_edges(primitives.bricks, first=len(primitives.rods.radius)),
            *(bend_edges(bend, sag=sag) for bend in primitives.bends),
        ]
    )
    long = edges.seen_length > _NO_LENGTH
    return edges if long.all() else edges.chosen(long)
