"""A board as a solid."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from tubeframe.geometry.placement import Placement
from tubeframe.solids.fitting import brick
from tubeframe.solids.kernel import cq

if TYPE_CHECKING:
    from tubeframe.frame.panel import Panel


def panel_solid(panel: Panel) -> Any:  # noqa: ANN401  the kernel carries no types
    """Make a board less its pockets, in its own frame."""
    own = replace(panel, placement=Placement())
    board = cq.Solid.makeBox(panel.length, panel.width, panel.thickness)
    if not own.pockets:
        return board
    (solid,) = board.cut(*(brick(b) for b in own.pocket_boxes)).Solids()
    return solid
