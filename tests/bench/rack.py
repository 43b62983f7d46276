"""A rack to measure on: nothing runs into anything else, since OpenCASCADE does not cut solids at each other."""

from __future__ import annotations

from tubeframe.drawing.model.scene import Body, TubeBody
from tubeframe.geometry.convex import Box, Cylinder
from tubeframe.geometry.path import line
from tubeframe.geometry.vector import Vec, X, Y, Z

_BAY = 600.0
_STOCK = 6
"""So many bays does one length of tube cover."""
_ASIDE = 29.0
"""A rail runs this far in front of its posts."""
_CLAMPED = (300.0, 700.0, 1100.0, 1500.0)
_LEVELS = (*_CLAMPED, 1600.0, 1650.0, 1700.0)
_BORE = 12.01
"""A hair larger than a tube: two surfaces on each other hide by chance in both algorithms."""


def rack(bays: int) -> list[Body]:
    """Seven tubes and seven clamps at each end of a bay, and 14 rails, spliced where the stock length ends.

    6 bays have 63 tubes, 106 have 1001; clamps and tubes grow alike.
    """
    bodies: list[Body] = []
    for i in range(bays + 1):
        x = _BAY * i
        bodies += [_tube(f"post {i} {y}", Vec(x, y, 0), Vec(x, y, 1800.0)) for y in (0.0, 500.0)]
        cross = (*(z + 40.0 for z in _CLAMPED), 1750.0)
        bodies += [_tube(f"cross {i} {z}", Vec(x + 26.5, -60.0, z), Vec(x + 26.5, 560.0, z)) for z in cross]
        bodies += [_clamp(f"front {i} {z}", Vec(x, 0.0, z)) for z in _CLAMPED]
        bodies += [_clamp(f"back {i} {z}", Vec(x, 500.0, z)) for z in _CLAMPED[:3]]
    cuts = [_BAY * at + 300.0 for at in range(_STOCK, bays, _STOCK)]
    for begin, end in zip([-60.0, *(c + 3.0 for c in cuts)], [*cuts, _BAY * bays + 60.0], strict=True):
        for y in (-_ASIDE, 500.0 - _ASIDE):
            bodies += [_tube(f"rail {begin} {y} {z}", Vec(begin, y, z), Vec(end, y, z)) for z in _LEVELS]
    return bodies


def tubes_of(bodies: list[Body]) -> int:
    """How many of the bodies are tubes."""
    return sum(bool(b.tubes) for b in bodies)


def _tube(key: str, start: Vec, end: Vec) -> Body:
    return Body(key=key, tubes=(TubeBody(path=line(start, end), outside=24.0, bore=20.0),))


def _clamp(key: str, middle: Vec) -> Body:
    """A sleeve on the post, one on the rail, an ear and a bolt's head, each apart from the others by a hair."""
    other, ear = middle - Y * _ASIDE, middle + X * 25.5
    head = ear - Y * 4.3
    return Body(
        key=key,
        pieces=(
            Cylinder(start=middle - Z * 20.0, end=middle + Z * 20.0, radius=14.5, bore=_BORE),
            Cylinder(start=other - X * 20.0, end=other + X * 20.0, radius=14.2, bore=_BORE),
            Box(centre=ear, half_x=Z * 12.0, half_y=X * 10.0, half_z=Y * 4.0),
            Cylinder(start=head - Y * 6.0, end=head, radius=3.0),
        ),
    )
