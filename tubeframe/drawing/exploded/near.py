"""Of a large frame a step shows what is near its new parts: drawn whole it would be too fine to tell anything."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.exploded.viewpoints import scale_in
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.views.bodies import chosen_bodies, extent_of
from tubeframe.geometry.grid import meet

if TYPE_CHECKING:
    from tubeframe.drawing.exploded.stages import Stage
    from tubeframe.drawing.exploded.viewpoints import Room
    from tubeframe.drawing.views.part_book import PartBook

_FINEST_TUBE = 0.3
"""Nothing is told apart where tubes are drawn thinner than this [mm on paper]."""
_LEAST_AROUND = 600.0
"""At least so much round the new parts is shown [mm]."""


def near_stage(book: PartBook, stage: Stage, room: Room) -> Stage:
    """Return a stage as a room on the paper [mm] can show it: whole, or only with what stands near its new parts."""
    bodies = chosen_bodies(book, stage.standing | stage.new)
    thinnest = min((t.outside for b in bodies for t in b.tubes), default=0.0)
    if not stage.standing or not stage.new or scale_in(bodies, ISOMETRIC, room) * thinnest >= _FINEST_TUBE:
        return stage
    new = extent_of(chosen_bodies(book, stage.new))
    widest = min(room) * thinnest / _FINEST_TUBE
    shown = new.grown(max(_LEAST_AROUND, (widest - new.size.length) / 2.0))
    standing = (b for b in chosen_bodies(book, stage.standing) if meet(extent_of([b]), shown))
    return replace(stage, standing=frozenset(b.key for b in standing))
