"""The curves that chords stand for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.tolerance import SAME_LINE
from tubeframe.drawing.model.arrays import clusters

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.bend import Bend
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices

NO_CURVE = -1
"""The number of the curve of a line that is straight."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Curves:
    """Curves as seen, one a row: ellipses centre + a cos t + b sin t, or one side of a bend's outline.

    For a bend t is the angle from its start.
    """

    centre: Floats
    """(n, 2) [mm]"""
    a: Floats
    """(n, 2) [mm]"""
    b: Floats
    """(n, 2) square to a and no longer than it [mm]"""
    bend: Indices
    """(n,) which of the bends; -1 for an ellipse"""
    side: Floats
    """(n,) 1 or -1: on which side of the bend as seen"""
    bends: tuple[Bend, ...] = ()


def ellipses(centre: Floats, a: Floats, b: Floats) -> Curves:
    """Return ellipses by centres and semi-axes, (n, 2) each [mm]."""
    count = len(centre)
    return Curves(centre=centre, a=a, b=b, bend=np.full(count, -1, dtype=np.int64), side=np.ones(count))


def outline_sides(bend: Bend, sides: Sequence[float]) -> Curves:
    """Return sides of a bend's outline, 1 or -1 each."""
    nothing = np.zeros((len(sides), 2))
    bends = np.zeros(len(sides), dtype=np.int64)
    return Curves(centre=nothing, a=nothing, b=nothing, bend=bends, side=np.array(sides, dtype=float), bends=(bend,))


def no_curves() -> Curves:
    """Return none."""
    return ellipses(*(np.zeros((0, 2)),) * 3)


def tables_joined(parts: Sequence[Curves]) -> Curves:
    """Put curves end to end."""
    before = np.cumsum([0, *(len(p.bends) for p in parts)])
    return Curves(
        centre=np.concatenate([p.centre for p in parts]),
        a=np.concatenate([p.a for p in parts]),
        b=np.concatenate([p.b for p in parts]),
        bend=np.concatenate([np.where(p.bend < 0, -1, p.bend + at) for p, at in zip(parts, before, strict=False)]),
        side=np.concatenate([p.side for p in parts]),
        bends=tuple(b for p in parts for b in p.bends),
    )


def lone(curves: Curves) -> Flags:
    """Return which curves (n,) surely have no other one on them: ellipses of which none has like middle and size."""
    group = np.where(curves.bend < 0, 0, 1)
    for value in (*curves.centre.T, np.hypot(curves.a[:, 0], curves.a[:, 1])):
        group = clusters(group, value, SAME_LINE)
    single: Flags = np.bincount(group, minlength=1)[group] == 1
    return single & (curves.bend < 0)
