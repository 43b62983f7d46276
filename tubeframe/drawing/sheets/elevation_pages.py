"""The three views on pages of their own, each as large as the paper takes."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.elevations.three_views import single_view
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.lettering import BODY
from tubeframe.drawing.model.picture import on_paper
from tubeframe.drawing.shapes.plane import Transform

if TYPE_CHECKING:
    from tubeframe.drawing.elevations.elevation import Elevation
    from tubeframe.drawing.elevations.view_set import ViewSet
    from tubeframe.drawing.shapes.plane import Point
    from tubeframe.drawing.sheets.page_flow import Flow

_SCALE_LINE = BODY + 3.0


def elevation_pages(flow: Flow, views: ViewSet) -> None:
    """Set front, right side and plan with their dimensions, lying on the page where that makes them larger."""
    flow.page("elevations")
    upright = (flow.width, flow.full_room - _SCALE_LINE)
    for named in Named:
        view, turns = single_view(views, named, (upright, upright[::-1]))
        is_lying = turns == 1
        width, height = (v / view.scale for v in (view.size[::-1] if is_lying else view.size))
        flow.need(height + _SCALE_LINE)
        corner = (flow.x + (flow.width - width) / 2.0, flow.y - height)
        flow.put(on_paper(view.items, _onto(view, corner, width, is_lying=is_lying)))
        flow.down(height + _SCALE_LINE - 2.0)
        flow.put([Text(at=(flow.x, flow.y), text=f"SCALE 1:{view.scale}", height=BODY, bold=True)])
        flow.down(2.0)


def _onto(view: Elevation, corner: Point, width: float, *, is_lying: bool) -> Transform:
    """Put a view's lower left corner at a corner of the page; lying, its lower right corner [mm]."""
    x, y = (corner[0] + width, corner[1]) if is_lying else corner
    lying = Transform(scale=1.0 / view.scale, quarter_turn=is_lying)
    left, bottom = lying.way(view.outer[:2])
    return replace(lying, shift=(x - left, y - bottom))
