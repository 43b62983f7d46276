"""Like with like: tubes that are put in together, and the sides of a frame that they lie on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.grid import Grid
from tubeframe.geometry.tolerance import LOWER_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Number

_LEAN = 0.2
NEAR_MM = 400.0
"""What is farther off than this is in nobody's way [mm]: parts come apart by 350 at most, and their own thickness."""


def families(model: Model, tubes: Sequence[Number]) -> list[list[Number]]:
    """Put parallel tubes of one size at one height together, and all that lean alike; the lowest first."""
    found: list[list[Number]] = []
    for tube in tubes:
        alike = next((f for f in found if _alike(model, f[0], tube)), None)
        if alike is None:
            found.append([tube])
        else:
            alike.append(tube)
    return sorted(found, key=lambda f: round(model.middle(f[0]).z, 1))


def sides(model: Model, family: Sequence[Number]) -> list[list[Number]]:
    """Part a family by the line, seen from above, that its tubes lie on; nothing when they lie on one."""
    along = model.piece(family[0]).path.tangent(0.0)
    found: list[list[Number]] = []
    for tube in family:
        for side in found:
            off = (model.middle(tube) - model.middle(side[0])).across(along)
            if abs(off.x) + abs(off.y) < LOWER_MM:
                side.append(tube)
                break
        else:
            found.append([tube])
    return found if len(found) > 1 else []


def vicinity(model: Model) -> list[frozenset[Number]]:
    """Return for each tube the parts that it, or a fitting on it, can run into on the way to its place."""
    grid = Grid(p.boxes for p in model.parts)
    found = []
    for tube in range(model.first_joint):
        own = (tube, *(f.number for f in model.fits_of[tube]))
        tied = {o for _, o in model.neighbours(tube)}
        found.append(frozenset(k for n in own for k in grid.near(model.parts[n].boxes, NEAR_MM)) | {*own, *tied})
    return found


def _alike(model: Model, a: Number, b: Number) -> bool:
    one, other = model.piece(a), model.piece(b)
    if one.size != other.size or bool(one.bends) != bool(other.bends):
        return False
    if abs(model.middle(a).z - model.middle(b).z) > LOWER_MM:
        return False
    first, second = one.path.tangent(0.0), other.path.tangent(0.0)
    leaning = _LEAN < abs(first.z) < 1.0 - _LEAN * _LEAN / 2.0
    return abs(first.z - second.z) < _LEAN if leaning else first.cross(second).length < _LEAN


def lines(model: Model) -> dict[Number, frozenset[Number]]:
    """Return for each tube that a shut fitting ties to others, such as a sleeve, all that hang together that way.

    A line of them grows from where it was begun: the last tube between two sleeves that are there gets into neither.
    """
    tied: dict[Number, set[Number]] = {}
    for fit in model.fits:
        tubes = {f.tube for f in fit.faces}
        if len(tubes) > 1 and fit.is_shut:
            whole = set(tubes).union(*(tied.get(t, set()) for t in tubes))
            tied.update(dict.fromkeys(whole, whole))
    return {tube: frozenset(whole) for tube, whole in tied.items()}
