"""The three views on pages of their own, each as large as the paper takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.elevations.three_views import single_view
from tubeframe.drawing.labels.wanted_dimensions import Named
from tubeframe.drawing.model.lettering import BODY
from tubeframe.drawing.model.on_paper import on_paper, shifted
from tubeframe.drawing.model.sheet import Text

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.sheets.page_flow import Flow

_SCALE_LINE = BODY + 3.0


def elevation_pages(flow: Flow, design: Design) -> None:
    """Set front, right side and plan with their dimensions, lying on the page where that makes them larger."""
    flow.page("elevations")
    for named in Named:
        room = (flow.width, flow.full_room - _SCALE_LINE)
        picture, view = single_view(design, named, room)
        lying, lying_view = single_view(design, named, (room[1], room[0]))
        is_lying = lying.scale < picture.scale
        if is_lying:
            picture, view = lying, lying_view
        width, height = (v / picture.scale for v in (view.size[::-1] if is_lying else view.size))
        flow.need(height + _SCALE_LINE)
        corner = (flow.x + (flow.width - width) / 2.0, flow.y - height)
        left, bottom = (v / picture.scale for v in view.outer[:2])
        items = on_paper(picture, (-left, -bottom))
        place = (corner[0] + width, corner[1]) if is_lying else corner
        flow.put(shifted(item, place, quarter_turn=is_lying) for item in items)
        flow.down(height + _SCALE_LINE - 2.0)
        flow.put([Text(at=(flow.x, flow.y), text=f"SCALE 1:{picture.scale}", cap_height=BODY, bold=True)])
        flow.down(2.0)
