"""Where a model has points on its tubes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import MEET_MM
from tubeframe.joints.joint import uses_by_tube

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Jointed, TubeId

_CHORD = math.radians(15.0)
"""A bend is parted into chords of at most this angle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stations:
    """Points on tubes [mm]: for each tube the places from its node at A, and the points' numbers."""

    points: tuple[Vec, ...]
    at: Mapping[TubeId, tuple[tuple[float, int], ...]]


def stations(jointed: Jointed, places: Mapping[TubeId, Sequence[float]]) -> Stations:
    """Put points on tubes: at their ends and fittings, at the places where loads are [mm], and along bends."""
    points: list[Vec] = []
    at: dict[TubeId, tuple[tuple[float, int], ...]] = {}
    uses = uses_by_tube(jointed.joints)
    for tube in jointed.tubes:
        length = tube.path.length
        wanted = [0.0, length, *(use.at for _, use in uses.get(tube.id, ()))]
        wanted += [p for p in places.get(tube.id, ()) if 0.0 <= p <= length]
        for start, bend in tube.path.bends:
            parts = max(1, math.ceil(bend.angle / _CHORD))
            wanted += [start + bend.length * k / parts for k in range(parts + 1)]
        kept: list[float] = []
        for place in wanted:
            if all(abs(place - k) > MEET_MM for k in kept):
                kept.append(place)
        at[tube.id] = tuple((place, len(points) + n) for n, place in enumerate(sorted(kept)))
        points += [tube.path.point(place) for place, _ in at[tube.id]]
    return Stations(points=tuple(points), at=at)
