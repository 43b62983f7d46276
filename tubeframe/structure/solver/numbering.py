"""Which number each shift and turn has, and which of them are free.

First come the six of every point, then three turns in the bar's own axes for each end that a spring holds, then the
six of the points inside bars of several elements. The map takes the free ones to all of them: what is slaved to a
rigid link or turns with its node is a row of its own there, so that rigid is exact.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy import sparse

from tubeframe.structure.solver.elements import Flags, Floats, Indices, own_axes
from tubeframe.structure.solver.model import RIGID

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.structure.solver.model import Link, Model, Spring

Sparse = Any
"""A matrix of scipy.sparse, which carries no types."""
_THREE = np.arange(3)
_SIX = np.arange(6)


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbering:
    """The numbers of a model.

    Of its elements: `bar` (n,), `dofs` (n, 12), and whether the turns at an end are in own axes (n, 2). `whole` maps
    what links leave to all; `free` are the columns of it that are not held, `ways` is the map with these alone.
    """

    count: int
    bar: Indices
    dofs: Indices
    turns_own: Flags
    whole: Sparse
    ways: Sparse
    free: Indices
    held: Indices
    springs: Sparse


def numbered(model: Model, axes: Floats) -> Numbering:
    """Give a model, whose bars have the given axes (b, 3, 3), its numbers."""
    nodes = 6 * len(model.points)
    ends = [
        (k, side, spring)
        for k, bar in enumerate(model.bars)
        for side, spring in enumerate((bar.start_spring, bar.end_spring))
        if spring is not RIGID and not spring.is_rigid
    ]
    first, last = (np.array([getattr(b, name) for b in model.bars]) for name in ("start", "end"))
    at = np.stack([first, last], axis=1)
    turns = 6 * at[:, :, None] + 3 + _THREE
    own = np.zeros(at.shape, dtype=bool)
    if ends:
        which = tuple(np.array([[k, side] for k, side, _ in ends]).T)
        turns[which] = nodes + 3 * np.arange(len(ends))[:, None] + _THREE
        own[which] = True
    bar, dofs, sprung, count = _elements(model, 6 * at, turns, own, nodes + 3 * len(ends))
    tied, rows = _ties(model, axes, ends, count)
    held = np.array(sorted(6 * h.point + i for h in model.held for i, f in enumerate((*h.along, *h.about)) if f))
    slaved = np.flatnonzero(np.diff(tied.tocsc().indptr) == 0)
    free = np.setdiff1d(np.arange(count), np.concatenate([held, slaved]))
    return Numbering(
        count=count,
        bar=bar,
        dofs=dofs,
        turns_own=sprung,
        whole=tied,
        ways=tied[:, free],
        free=free,
        held=held.astype(np.int64),
        springs=_springs(model, rows, count),
    )


def _elements(
    model: Model, shifts: Indices, turns: Indices, own: Flags, begin: int
) -> tuple[Indices, Indices, Flags, int]:
    """Give the elements of every bar, and the points inside it, their numbers."""
    parts = np.array([b.elements for b in model.bars])
    bar = np.repeat(np.arange(len(parts)), parts)
    place = np.arange(len(bar)) - np.repeat(np.cumsum(parts) - parts, parts)
    inner = begin + 6 * (np.cumsum(parts - 1) - (parts - 1))
    dofs = np.empty((len(bar), 12), dtype=np.int64)
    dofs[:, :6] = (inner[bar] + 6 * (place - 1))[:, None] + _SIX
    dofs[:, 6:] = (inner[bar] + 6 * place)[:, None] + _SIX
    for side, at_end, part in ((0, place == 0, slice(0, 6)), (1, place == parts[bar] - 1, slice(6, 12))):
        ends = bar[at_end]
        dofs[at_end, part] = np.concatenate([shifts[ends, side, None] + _THREE, turns[ends, side]], axis=1)
    sprung = np.stack([own[bar, 0] & (place == 0), own[bar, 1] & (place == parts[bar] - 1)], axis=1)
    return bar, dofs, sprung, int(begin + 6 * np.sum(parts - 1))


_Factors = tuple[list[int], list[float]]
"""Numbers, and with which factors they are summed."""
_Row = tuple[float, list[int], list[float]]
"""A spring: its stiffness, and which turns it measures with which factors."""


def _ties(model: Model, axes: Floats, ends: list[tuple[int, int, Spring]], count: int) -> tuple[Sparse, list[_Row]]:
    """Return the map from what is free of links and rigid ends to all, and the springs there are."""
    rows: list[_Row] = []
    replaced: dict[int, _Factors] = {}
    for k, (bar, side, spring) in enumerate(ends):
        point = (model.bars[bar].start, model.bars[bar].end)[side]
        turns, own = [6 * point + 3 + i for i in range(3)], 6 * len(model.points) + 3 * k
        for i, stiffness in enumerate(spring.about):
            way = axes[bar, i].tolist()
            if math.isinf(stiffness):
                replaced[own + i] = (turns, way)
            elif stiffness:
                rows.append((stiffness, [own + i, *turns], [1.0, *(-w for w in way)]))
    tied = _with_rows(count, replaced)
    if model.links:
        tied = tied @ _with_rows(count, dict(row for link in model.links for row in _arm(model, link, rows)))
    return tied, rows


def _arm(model: Model, link: Link, rows: list[_Row]) -> Iterator[tuple[int, _Factors]]:
    """Give what a rigid link makes of its second point's shifts and turns; a spring's turns are in the link's axes."""
    one, two = 6 * link.first, 6 * link.second
    x, y, z = model.points[link.second] - model.points[link.first]
    for i, (about, arm) in enumerate((((4, 5), (z, -y)), ((5, 3), (x, -z)), ((3, 4), (y, -x)))):
        yield two + i, ([one + i, *(one + a for a in about)], [1.0, *arm])
    ways = own_axes(np.array([list(link.axis)]))[0]
    turns, own = [one + 3 + i for i in range(3)], [two + 3 + i for i in range(3)]
    rigid = np.array([math.isinf(s) for s in link.spring.about])
    with_first, alone = ways.T @ (rigid[:, None] * ways), ways.T @ np.diag(~rigid)
    for i in range(3):
        yield own[i], (turns + own, [*with_first[i].tolist(), *alone[i].tolist()])
    for way, stiffness in zip(ways.tolist(), link.spring.about, strict=True):
        if stiffness and not math.isinf(stiffness):
            rows.append((stiffness, own + turns, [*way, *(-w for w in way)]))


def _with_rows(count: int, replaced: dict[int, _Factors]) -> Sparse:
    """Return the unit matrix with some rows put in place of its own."""
    kept = np.setdiff1d(np.arange(count), np.array(list(replaced), dtype=np.int64))
    wide = [len(columns) for columns, _ in replaced.values()]
    i = np.concatenate([kept, np.repeat(np.array(list(replaced), dtype=np.int64), wide)])
    j = np.concatenate([kept, np.array([c for columns, _ in replaced.values() for c in columns], dtype=np.int64)])
    v = np.concatenate([np.ones(len(kept)), np.array([f for _, factors in replaced.values() for f in factors])])
    kept_out = sparse.csr_matrix((v, (i, j)), shape=(count, count))
    kept_out.eliminate_zeros()
    return kept_out


def _springs(model: Model, rows: list[_Row], count: int) -> Sparse:
    """Return the stiffness of all springs, over all numbers."""
    rows = [
        *rows,
        *((s, [6 * b.point + i], [1.0]) for b in model.beddings for i, s in enumerate((*b.along, *b.about)) if s),
    ]
    wide = [len(columns) for _, columns, _ in rows]
    i = np.repeat(np.arange(len(rows)), wide)
    j = np.array([c for _, columns, _ in rows for c in columns], dtype=np.int64)
    v = np.array([f for _, _, factors in rows for f in factors])
    measure = sparse.csr_matrix((v, (i, j)), shape=(len(rows), count))
    return (
        measure.T @ sparse.diags(np.array([s for s, _, _ in rows])) @ measure
        if rows
        else sparse.csr_matrix((count, count))
    )
