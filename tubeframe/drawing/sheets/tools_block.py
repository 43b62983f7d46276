"""The tools, each once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.lettering import NOTE
from tubeframe.drawing.sheets.page_blocks import heading, tick_box
from tubeframe.drawing.sheets.page_flow import SECTION_APART

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.sheets.page_flow import Flow

_ROW, _BOX, _GAP = 6.4, 4.0, 5.0
"""From row to row, a box, and between tools [mm]."""


def tools_block(flow: Flow, tools: Sequence[str]) -> None:
    """Set what is taken in hand, unparted."""
    flow.section("tools", least=tools_height(flow, tools) - SECTION_APART)
    _set(flow, tools)


def tools_height(flow: Flow, tools: Sequence[str]) -> float:
    """Return how high they stand, with what parts them from the section before [mm]."""
    return flow.measured(lambda beside: _set(beside, tools)) + SECTION_APART


def _set(flow: Flow, tools: Sequence[str]) -> None:
    """Set tools one after the other, each behind its box, in as few rows as they take."""
    heading(flow, "Tools")
    x = 0.0
    flow.down(_ROW)
    for tool in tools:
        wide = _BOX + 1.5 + text_width(tool, NOTE)
        if x > 0.0 and x + wide > flow.width:
            x = 0.0
            flow.down(_ROW)
        at = (flow.x + x, flow.y)
        flow.put(
            [
                tick_box(at[0], at[1] - (_BOX - NOTE) / 2.0, _BOX),
                Text(at=(at[0] + _BOX + 1.5, at[1]), text=tool, height=NOTE),
            ]
        )
        x += wide + _GAP
    flow.down(NOTE)
