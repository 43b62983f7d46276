"""STAND-IN."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.sheets.flow import Flow


def elevation_pages(flow: Flow, design: Design) -> None:
    """Stand-in."""
