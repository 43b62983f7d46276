"""Centrelines as straights alone, bends in chords."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.geometry.path import Arc, Straight

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.geometry.path import Path

SAG = 0.25
"""A chord's middle is at most this far from its bend [mm]."""


def chorded(path: Path, sag: float = SAG) -> Iterator[Straight]:
    """Give straights as they are, and bends in equal chords that stay within a distance of them [mm].

    A chord of angle q on a radius r sags by r (1 - cos(q/2)).
    """
    for piece in path.pieces:
        if isinstance(piece, Arc):
            widest = 2.0 * math.acos(max(0.0, 1.0 - sag / piece.radius))
            number = math.ceil(piece.angle / widest)
            points = [piece.point(piece.length * n / number) for n in range(number + 1)]
            yield from (Straight(start=a, end=b) for a, b in pairwise(points))
        else:
            yield piece
