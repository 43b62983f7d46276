"""The lines that may be drawn: straight, in view coordinates, each with what it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.curve_table import NO_CURVE, no_curves, tables_joined

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.curve_table import Curves
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices


class Origin(IntEnum):
    """What an edge is a part of."""

    SIDE = 0
    """A straight outline of a rod."""
    CAP = 1
    """A chord of the circle where a rod ends."""
    BORE = 2
    """A chord of the circle of a bore."""
    BEND = 3
    """A chord of a bend's outline."""
    BRICK = 4
    """An edge of a box."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edges:
    """Straight lines from start to end (n, 3) [mm]."""

    start: Floats
    end: Floats
    part: Indices
    """(n,) number of the tube or piece"""
    owner: Indices
    """(n,) number of the occluder that the edge belongs to and that cannot hide it; -1 for none"""
    origin: Indices
    """(n,) an `Origin`"""
    slack: Floats
    """(n,) how far the chord is at most from the curve it stands for [mm]"""
    curve: Indices
    """(n,) number of the curve in `curves`, or `NO_CURVE`"""
    turn: Floats
    """(n, 2) parameters of start and end on the curve [radian]"""
    curves: Curves

    @property
    def seen_length(self) -> Floats:
        """Lengths in the view plane, (n,) [mm]."""
        return np.hypot(self.end[:, 0] - self.start[:, 0], self.end[:, 1] - self.start[:, 1])

    def chosen(self, which: Flags) -> Edges:
        """Return some of the edges."""
        return Edges(**{name: getattr(self, name)[which] for name in _A_ROW}, curves=self.curves)


_A_ROW = ("start", "end", "part", "owner", "origin", "slack", "curve", "turn")
"""What there is one of for each edge."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Chords:
    """What chords are of: the number of the curve (n,), the parameters at their ends (n, 2), and the curves."""

    curve: Indices
    turn: Floats
    curves: Curves


def joined(parts: Sequence[Edges]) -> Edges:
    """Put edges of several kinds into one set of arrays."""
    before = np.cumsum([0, *(len(p.curves.bend) for p in parts)])
    curve = [np.where(p.curve < 0, NO_CURVE, p.curve + at) for p, at in zip(parts, before, strict=False)]
    rows = {name: np.concatenate([getattr(p, name) for p in parts]) for name in _A_ROW if name != "curve"}
    return Edges(**rows, curve=np.concatenate(curve), curves=tables_joined([p.curves for p in parts]))


def edges_of(
    origin: Origin,
    *,
    start: Floats,
    end: Floats,
    part: Indices,
    owner: Indices,
    slack: float = 0.0,
    chords: Chords | None = None,
) -> Edges:
    """Return edges of one origin; `slack` [mm] is the same for all; they are straight when they are no chords."""
    count = len(start)
    return Edges(
        start=start,
        end=end,
        part=part,
        owner=owner,
        origin=np.full(count, origin, dtype=np.int64),
        slack=np.full(count, slack),
        curve=chords.curve if chords else np.full(count, NO_CURVE, dtype=np.int64),
        turn=chords.turn if chords else np.zeros((count, 2)),
        curves=chords.curves if chords else no_curves(),
    )
