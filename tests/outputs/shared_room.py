"""The room that solids of different parts share: by OpenCASCADE, and by arris from the STEP file that is written."""

from __future__ import annotations

import io
from dataclasses import dataclass, replace
from itertools import combinations
from typing import TYPE_CHECKING

import arris
from OCP.Bnd import Bnd_OBB
from OCP.BRepBndLib import BRepBndLib

from tubeframe.output.step_file import write_step
from tubeframe.solids.placing import location

if TYPE_CHECKING:
    from collections.abc import Collection

    from tubeframe.solids.model import Model

Pair = tuple[str, str]


@dataclass(frozen=True, kw_only=True)
class Shared:
    """A volume [mm3], and how thick it is at most: the least edge of the boxes round its solids [mm]."""

    volume: float
    thickness: float


def near_pairs_of(model: Model) -> dict[Pair, tuple[object, object]]:
    """Give every two solids whose upright boxes meet."""
    placed = [(o.name, o.product.shape.moved(location(o.placement))) for o in model.occurrences]
    boxes = [shape.BoundingBox() for _, shape in placed]
    return {
        (placed[i][0], placed[j][0]): (placed[i][1], placed[j][1])
        for i, j in combinations(range(len(placed)), 2)
        if all(
            getattr(boxes[i], f"{c}min") <= getattr(boxes[j], f"{c}max")
            and getattr(boxes[j], f"{c}min") <= getattr(boxes[i], f"{c}max")
            for c in "xyz"
        )
    }


def by_opencascade(one: object, other: object) -> Shared:
    """Return what two solids share."""
    solids = one.intersect(other).Solids()
    return Shared(volume=sum(s.Volume() for s in solids), thickness=max(map(_thickness, solids), default=0.0))


def _thickness(solid: object) -> float:
    box = Bnd_OBB()
    BRepBndLib.AddOBB_s(solid.wrapped, box, True, True, True)  # noqa: FBT003  the kernel's way
    return 2.0 * min(box.XHSize(), box.YHSize(), box.ZHSize())


class ByArris:
    """Some parts of a model as another kernel reads them from the file that is written."""

    def __init__(self, model: Model, names: Collection[str]) -> None:
        self._model, self._bodies = arris.Model(), dict[str, arris.Body]()
        if not names:
            return
        kept = tuple(o for o in model.occurrences if o.name in names)
        used = {o.product.name for o in kept}
        model = replace(model, occurrences=kept, products=tuple(p for p in model.products if p.name in used))
        target = io.BytesIO()
        write_step(model, target)
        read = self._model.read_step(target.getvalue().decode("ascii"))
        (whole,) = read.products
        # the kernel names an occurrence by its product, and reads its solid at its place
        assert [o.product.name for o in model.occurrences] == [c.name for c in whole.children]
        for part, child in zip(model.occurrences, whole.children, strict=True):
            (number,) = child.solids
            self._bodies[part.name] = read.solids[number].body

    def shared(self, pair: Pair) -> float | None:
        """Return the volume that two parts share [mm3]; None where the kernel refuses the pair."""
        try:
            found = self._model.interference(*(self._bodies[name] for name in pair))
        except arris.ArrisError:
            return None
        return found.volume if found.kind == "overlapping" else 0.0
