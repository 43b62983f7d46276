"""Whether a half-built frame stands by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Number

_MARGIN = 10.0
"""Its weight stays so far within its feet [mm]."""

Flat = tuple[float, float]


def stands(model: Model, placed: Collection[Number]) -> bool:
    """Whether what is placed, taken as one, stays as it is: by a stake or a bolted flange, or its weight by its feet.

    Tubes and boards count, fittings don't: what they weigh is not known.
    """
    loads = model.loads
    there = [n for n in sorted(placed) if n in loads]
    if any(loads[n].is_anchored for n in there):
        return True
    feet = [f for n in there for f in loads[n].feet]
    if len(feet) < 3:
        return False
    mass = sum(loads[n].mass for n in there)
    x = sum(loads[n].mass * loads[n].at[0] for n in there) / mass
    y = sum(loads[n].mass * loads[n].at[1] for n in there) / mass
    return _is_within((x, y), _hull(feet))


def _hull(points: Sequence[Flat]) -> list[Flat]:
    """Return the corners around some points, left-hand round (monotone chain, A. Andrew 1979)."""
    ordered = sorted(set(points))
    lower, upper = list[Flat](), list[Flat]()
    for chain, walk in ((lower, ordered), (upper, ordered[::-1])):
        for point in walk:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0.0:
                chain.pop()
            chain.append(point)
    return lower[:-1] + upper[:-1]


def _turn(a: Flat, b: Flat, c: Flat) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _is_within(point: Flat, corners: Sequence[Flat]) -> bool:
    if len(corners) < 3:
        return False
    for a, b in zip(corners, (*corners[1:], corners[0]), strict=True):
        length = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
        if _turn(a, b, point) < _MARGIN * length:
            return False
    return True
