"""The parts of a design as bodies to be looked at."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.model.scene import Body, TubeBody
from tubeframe.geometry.placement import Placement
from tubeframe.geometry.vector import ORIGIN

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from tubeframe.design import Design
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec


def bodies(
    design: Design,
    *,
    tubes: Collection[str] | None = None,
    joints: Collection[str] | None = None,
    panels: Collection[str] | None = None,
    shifts: Mapping[str, Vec] | None = None,
) -> tuple[Body, ...]:
    """Return bodies under their ids; None for all of a kind, and some moved off their places by a vector [mm]."""
    off = shifts or {}
    return (
        *(
            Body(key=p.id, tubes=(tube_body(design, p.size, _moved(p.path, off.get(p.id, ORIGIN))),))
            for p in design.parts.pieces
            if tubes is None or p.id in tubes
        ),
        *(
            Body(key=j.id, pieces=tuple(c.placed(Placement(origin=off.get(j.id, ORIGIN))) for c in j.body))
            for j in design.jointed.joints
            if joints is None or j.id in joints
        ),
        *(
            Body(key=p.id, pieces=(p.box.placed(Placement(origin=off.get(p.id, ORIGIN))),))
            for p in design.frame.panels
            if panels is None or p.id in panels
        ),
    )


def tube_body(design: Design, size: str, path: Path) -> TubeBody:
    """Return the body of a tube of a size along a centreline."""
    tube = design.workshop.catalog.tube(size)
    return TubeBody(path=path, outside=tube.outside, bore=tube.bore)


def _moved(path: Path, shift: Vec) -> Path:
    return path if shift == ORIGIN else replace(path, pieces=path.seen_from(Placement(origin=-shift)).pieces)
