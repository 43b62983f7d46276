"""Chords that follow each other are looked up together: a run of them has one box and meets occluders as one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.grid import Strips

if TYPE_CHECKING:
    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.model.arrays import Floats, Indices

_LONGEST = 7
"""So many chords are a run: few enough that its box stays small."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Runs:
    """Edges in runs: number of the first edge (n,) and how many they are (n,), of which occluder (n,), and boxes."""

    first: Indices
    count: Indices
    owner: Indices
    low: Floats
    """(3, n) lower corners of the upright boxes around them [mm]"""
    high: Floats
    """(3, n) upper corners [mm]"""
    strips: Strips


def runs_of(edges: Edges, low: Floats, high: Floats, margin: float) -> Runs:
    """Gather edges into runs, given their boxes' corners (3, n); strips are wider by a margin [mm]."""
    count = len(edges.part)
    new = np.ones(count, dtype=bool)
    new[1:] = (edges.start[1:, 0] != edges.end[:-1, 0]) | (edges.start[1:, 1] != edges.end[:-1, 1])
    new[1:] |= edges.owner[1:] != edges.owner[:-1]
    chains = np.nonzero(new)[0]
    place = np.arange(count) - chains[np.cumsum(new) - 1]
    first = np.nonzero(place % _LONGEST == 0)[0]
    low, high = np.minimum.reduceat(low, first, axis=1), np.maximum.reduceat(high, first, axis=1)
    length = np.diff(np.append(first, count))
    alone = (length == 1)[:, None]
    middle, half = (low[:2] + high[:2]).T / 2.0, (high[:2] - low[:2]).T / 2.0
    return Runs(
        first=first,
        count=length,
        owner=edges.owner[first],
        low=low,
        high=high,
        strips=Strips(
            start=np.where(alone, edges.start[first, :2], middle),
            end=np.where(alone, edges.end[first, :2], middle),
            pad=np.where(alone, 0.0, half) + margin,
        ),
    )
