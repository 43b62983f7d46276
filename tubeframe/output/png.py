"""Sheets as pictures, for previews."""

from __future__ import annotations

from typing import TYPE_CHECKING, BinaryIO

from matplotlib.backends.backend_agg import FigureCanvasAgg

from tubeframe.output.canvas import figure_of

if TYPE_CHECKING:
    from tubeframe.drawing.model.sheet import Sheet


def write_png(sheet: Sheet, target: BinaryIO, *, dpi: float = 110.0) -> None:
    """Write a sheet on white, at so many dots an inch, to a file that is open for writing bytes; it stays open."""
    figure = figure_of(sheet, dpi=dpi, background=True)
    canvas = FigureCanvasAgg(figure)
    canvas.print_png(target, metadata={"Software": None})  # type: ignore[no-untyped-call]  # no types there
