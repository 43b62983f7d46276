"""How a frame moves under what acts on it, or folds: places on its tubes, and how far each goes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from tubeframe.joints.joint import TubeId
    from tubeframe.structure.solver.assembly import System
    from tubeframe.structure.solver.elements import Floats
    from tubeframe.structure.stretches import Framed


class Look(StrEnum):
    """What moves a frame."""

    LOADED = "loaded"
    PUSHED = "pushed"
    WIND = "wind"
    SNOW = "snow"
    FOLDING = "folding"


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedTube:
    """Places along a tube [mm], and how far each goes [mm]; of a way of folding only the proportions count."""

    tube: TubeId
    places: tuple[Vec, ...]
    shifts: tuple[Vec, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A frame as it moves in a case, its own weight besides; `force` is what acts in all [N], 0 where it folds."""

    look: Look
    case: str
    force: float
    tubes: tuple[MovedTube, ...]

    @property
    def largest(self) -> float:
        """How far the place goes that goes farthest [mm]."""
        return max((s.length for t in self.tubes for s in t.shifts), default=0.0)


def moved_tubes(frame: Framed, system: System, moves: Floats) -> tuple[MovedTube, ...]:
    """Read off how tubes move from shifts and turns over all numbers [mm, rad]."""
    bar, dofs = system.numbering.bar, system.numbering.dofs
    count = np.arange(len(frame.model.bars))
    first, last = np.searchsorted(bar, count), np.searchsorted(bar, count, side="right")
    found = []
    for tube, stretches in frame.of_tube.items():
        path = frame.tubes[tube].path
        places, shifts = list[Vec](), list[Vec]()
        for stretch in stretches:
            elements = dofs[first[stretch.bar] : last[stretch.bar]]
            step = (stretch.high - stretch.low) / len(elements)
            rows = moves[elements[:, 6:9]]
            if not places:
                places.append(path.point(stretch.low))
                shifts.append(Vec(*moves[elements[0, :3]].tolist()))
            places += [path.point(stretch.low + step * (k + 1)) for k in range(len(elements))]
            shifts += [Vec(*row) for row in rows.tolist()]
        found.append(MovedTube(tube=tube, places=tuple(places), shifts=tuple(shifts)))
    return tuple(found)
