"""The shop sheets: what gets printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe._version import __version__
from tubeframe.drawing.sheets.bend_pages import bend_pages
from tubeframe.drawing.sheets.buying_page import buying_page
from tubeframe.drawing.sheets.cover_page import cover_page
from tubeframe.drawing.sheets.cut_page import cut_page
from tubeframe.drawing.sheets.elevation_pages import elevation_pages
from tubeframe.drawing.sheets.joint_pages import joint_pages
from tubeframe.drawing.sheets.label_pages import label_pages
from tubeframe.drawing.sheets.marking_pages import marking_pages
from tubeframe.drawing.sheets.page_flow import Flow, Running
from tubeframe.drawing.sheets.step_pages import step_pages
from tubeframe.drawing.sheets.strength_pages import strength_pages
from tubeframe.drawing.sheets.take_down import take_down, take_down_height
from tubeframe.drawing.sheets.tools_block import tools_block, tools_height
from tubeframe.geometry.units import Units
from tubeframe.words.cautions import SHORT_LIMIT, all_cautions
from tubeframe.words.steps import told_steps
from tubeframe.words.take_down import take_down_words
from tubeframe.words.tools import tool_list

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.elevations.view_set import ViewSet
    from tubeframe.drawing.model.sheet import Sheet
    from tubeframe.drawing.views.part_book import PartBook


def sheets(design: Design, book: PartBook, views: ViewSet) -> tuple[Sheet, ...]:
    """Lay out all sheets of a design, in the order of the work."""
    flow = Flow(_paper(design), _running(design))
    made, cautions = design.fabrication, all_cautions(design.frame)
    tools = tool_list(design)
    cover_page(flow, design, book, below=tools_height(flow, tools))
    early = flow.room >= tools_height(flow, tools)
    if early:
        tools_block(flow, tools)
    elevation_pages(flow, views)
    if not early:
        tools_block(flow, tools)
    strength_pages(flow, design, book)
    buying_page(flow, made, design.workshop.currency or "")
    cut_page(flow, design, book, cautions)
    bend_pages(flow, book, made.bend_sheets, cautions)
    marking_pages(flow, book)
    joint_pages(flow, book)
    last = take_down_words(design)
    step_pages(flow, book, design.assembly, told_steps(design), below=take_down_height(flow, last))
    take_down(flow, last)
    return flow.sheets()


def label_sheets(design: Design, book: PartBook) -> tuple[Sheet, ...]:
    """Lay out the labels of all pieces."""
    flow = Flow(_paper(design), _running(design))
    label_pages(flow, design, book)
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
