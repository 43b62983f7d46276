"""The three views on pages of their own, each as large as the paper takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.elevations import single_view
from tubeframe.drawing.on_paper import on_paper
from tubeframe.drawing.sheet import Text
from tubeframe.drawing.sheets.flow import BODY
from tubeframe.drawing.wanted import Named

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.sheets.flow import Flow

_SCALE_LINE = BODY + 3.0


def elevation_pages(flow: Flow, design: Design) -> None:
    """Set front, right side and plan with their dimensions; two on a page where there is room."""
    flow.page("elevations")
    for named in Named:
        picture, view = single_view(design, named, (flow.width, flow.full_room - _SCALE_LINE))
        left, bottom, _, top = view.outer
        height = (top - bottom) / picture.scale
        flow.need(height + _SCALE_LINE)
        spare = (flow.width - view.size[0] / picture.scale) / 2.0
        origin = (flow.x + spare - left / picture.scale, flow.y - height - bottom / picture.scale)
        flow.put(on_paper(picture, origin))
        flow.down(height + _SCALE_LINE - 2.0)
        flow.put([Text(at=(flow.x, flow.y), text=f"SCALE 1:{picture.scale}", cap_height=BODY, bold=True)])
        flow.down(2.0)
