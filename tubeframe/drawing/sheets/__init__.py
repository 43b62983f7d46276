"""The shop sheets: what gets printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe._version import __version__
from tubeframe.drawing.sheets.cover_page import cover_page
from tubeframe.drawing.sheets.elevation_pages import elevation_pages
from tubeframe.drawing.sheets.joint_pages import joint_pages
from tubeframe.drawing.sheets.list_pages import buying_page, cut_page
from tubeframe.drawing.sheets.marking_pages import bend_pages, marking_pages
from tubeframe.drawing.sheets.page_flow import Flow, Running
from tubeframe.drawing.sheets.step_pages import step_pages
from tubeframe.fabrication.cautions import SHORT_LIMIT
from tubeframe.geometry.units import Units

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.model.sheet import Sheet


def sheets(design: Design) -> tuple[Sheet, ...]:
    """Lay out all sheets of a design: cover, lists, marking, bending, elevations, joints, steps."""
    flow = Flow(_paper(design), _running(design))
    cover_page(flow, design)
    buying_page(flow, design)
    cut_page(flow, design)
    marking_pages(flow, design)
    bend_pages(flow, design)
    elevation_pages(flow, design)
    joint_pages(flow, design)
    step_pages(flow, design)
    return flow.sheets()


def _paper(design: Design) -> tuple[float, float]:
    return design.workshop.paper.size


def _running(design: Design) -> Running:
    unit = "inches" if design.workshop.units is Units.INCH else "millimetres"
    return Running(
        title=design.frame.name,
        units=f"all lengths in {unit}",
        foot=SHORT_LIMIT,
        maker=f"tubeframe {__version__}",
    )
