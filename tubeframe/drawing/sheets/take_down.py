"""The last words: how it comes apart again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.lettering import BODY, NOTE
from tubeframe.drawing.sheets.page_blocks import heading, numbered
from tubeframe.drawing.sheets.page_flow import SECTION_APART

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.sheets.page_flow import Flow


def take_down(flow: Flow, words: Sequence[str]) -> None:
    """Set how a frame is taken down, unparted."""
    flow.section("take down", least=take_down_height(flow, words) - SECTION_APART)
    _set(flow, words)


def take_down_height(flow: Flow, words: Sequence[str]) -> float:
    """Return how high they stand, with what parts them from the section before [mm]."""
    return flow.measured(lambda beside: _set(beside, words)) + SECTION_APART


def _set(flow: Flow, words: Sequence[str]) -> None:
    flow.body = NOTE
    heading(flow, "Take it down")
    numbered(flow, words)
    flow.body = BODY
