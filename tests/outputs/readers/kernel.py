"""True volumes and boxes of a STEP file's solids, by the arris geometry kernel.

arris grows the box of a turned curved face (it bounds the whole surface patch), so a box is found another way: a plate
is set beyond each side, and the exact least distance from it to the edges and the rounded faces gives that side. Edges
decide alone for planes, cylinders and cones, whose extremes lie on their borders.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import arris

from tests.outputs.readers.placing import joined

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tests.outputs.readers.placing import Box, Placement

_RULED = ("plane", "cylinder", "elliptic_cylinder", "cone")
_BEYOND = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shapes:
    """Solids as the kernel read them, by their instance number in the file, each in its product's own axes."""

    model: arris.Model
    solids: Mapping[int, arris.StepSolid]

    def volume(self, number: int) -> float:
        """Volume of a solid [mm3]; `ValueError` where the kernel refuses it."""
        try:
            return self.model.mass_properties(self._body(number)).volume
        except arris.ArrisError as error:
            msg = f"solid #{number} has no volume: {error}"
            raise ValueError(msg) from error

    def mended(self, number: int) -> int:
        """At how many places the kernel had to mend a solid to read it."""
        healing = self.solids[number].healing
        return len(healing.grown) + len(healing.turned) if healing else 0

    def box(self, number: int, placement: Placement) -> Box:
        """The smallest box along the axes round a placed solid [mm], to about 1e-9; errors as for `volume`."""
        axis, angle = placement.axis_angle()
        try:
            placed, _ = self.model.transform(self._body(number), placement.origin, axis=axis, angle=angle)
            return true_box(self.model, placed)
        except arris.ArrisError as error:
            msg = f"solid #{number} has no box: {error}"
            raise ValueError(msg) from error

    def _body(self, number: int) -> arris.Body:
        solid = self.solids.get(number)
        if solid is None or solid.body is None:
            msg = f"solid #{number} is refused: {solid.refusal.message if solid and solid.refusal else 'not found'}"
            raise ValueError(msg)
        return solid.body


def read(text: str) -> Shapes:
    """Reads each solid of a STEP file's text; one that is refused raises `ValueError` when it is asked for."""
    model = arris.Model()
    try:
        solids = model.read_step(text).solids
    except arris.ArrisError as error:
        msg = f"the kernel can't read the file: {error}"
        raise ValueError(msg) from error
    return Shapes(model=model, solids={solid.file_id: solid for solid in solids})


def true_box(model: arris.Model, body: arris.Body) -> Box:
    """The smallest box along the axes round a body [mm]."""
    parts: list[arris.Edge | arris.Face] = list(model.edges(body))
    parts += [face for face in model.faces(body) if model.surface(face).kind not in _RULED]
    loose = {part: _loose(model, part) for part in parts}
    whole = joined(loose.values())
    lows = [_side(model, loose, whole, axis, up=False) for axis in range(3)]
    highs = [_side(model, loose, whole, axis, up=True) for axis in range(3)]
    return (lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2])


def _side(
    model: arris.Model, loose: Mapping[arris.Edge | arris.Face, Box], whole: Box, axis: int, *, up: bool
) -> float:
    """How far the parts reach along an axis: the likeliest first, until no other could reach further."""
    sign = 1.0 if up else -1.0
    reach = {part: sign * box[up][axis] for part, box in loose.items()}
    plate, stand = _plate(model, whole, axis, sign)
    best = -float("inf")
    for part in sorted(reach, key=lambda part: -reach[part]):
        if reach[part] <= best:
            break
        best = max(best, stand - model.distance(part, plate).distance)
    return sign * best


def _plate(model: arris.Model, whole: Box, axis: int, sign: float) -> tuple[arris.Body, float]:
    """A wide plate square to the axis, beyond the body; and how far out its near face stands."""
    low, high = [c - _BEYOND for c in whole[0]], [c + _BEYOND for c in whole[1]]
    if sign > 0:
        low[axis], high[axis] = whole[1][axis] + _BEYOND, whole[1][axis] + 2.0 * _BEYOND
        stand = low[axis]
    else:
        low[axis], high[axis] = whole[0][axis] - 2.0 * _BEYOND, whole[0][axis] - _BEYOND
        stand = -high[axis]
    plate, _ = model.primitive_box((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    return plate, stand


def _loose(model: arris.Model, part: arris.Edge | arris.Face) -> Box:
    box = model.bounds(part)
    if box is None:
        msg = f"{part!r} has no bounds"
        raise ValueError(msg)
    return box
