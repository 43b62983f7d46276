"""The lines that may be drawn: straight, in view coordinates, each with what it comes from."""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import IntEnum
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.arrays import Flags, Floats, Indices


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

    @property
    def seen_length(self) -> Floats:
        """Lengths in the view plane, (n,) [mm]."""
        return np.hypot(self.end[:, 0] - self.start[:, 0], self.end[:, 1] - self.start[:, 1])

    def chosen(self, which: Flags) -> Edges:
        """Return some of the edges."""
        return Edges(**{f.name: getattr(self, f.name)[which] for f in fields(Edges)})


def joined(parts: Sequence[Edges]) -> Edges:
    """Put edges of several kinds into one set of arrays."""
    return Edges(**{f.name: np.concatenate([getattr(p, f.name) for p in parts]) for f in fields(Edges)})


def edges_of(origin: Origin, *, start: Floats, end: Floats, part: Indices, owner: Indices, slack: float = 0.0) -> Edges:
    """Return edges of one origin; `slack` [mm] is the same for all."""
    return Edges(
        start=start,
        end=end,
        part=part,
        owner=owner,
        origin=np.full(len(start), origin, dtype=np.int64),
        slack=np.full(len(start), slack),
    )
