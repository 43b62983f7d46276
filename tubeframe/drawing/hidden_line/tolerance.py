"""The small lengths of the hidden-line engine, and why each is needed."""

from __future__ import annotations

SKIN = 0.002
"""How much an occluder is made thinner, so that it does not hide an edge that lies on its surface, or thicker when
it stands wholly in front, so that it hides an equal outline further back [mm]."""

SLIVER = 0.01
"""A piece left between two occluders and shorter than this comes from the skin and is not drawn [mm]."""

SAME_LINE = 1e-3
"""Lines nearer to each other than this are one line [mm]."""

SAME_DIRECTION = 1e-7
"""Directions nearer to each other than this are one direction [radian]."""

END_ON = 1e-7
"""A direction whose angle with the line of sight (or with the picture) has a smaller sine lies in it."""


def reach(sag: float) -> float:
    """How far one part of a tube goes on into the next as an occluder, so that thinning leaves no gap [mm]."""
    return 5.0 * sag + 5.0 * SKIN
