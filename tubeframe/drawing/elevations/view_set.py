"""The views of a frame at the scales that they are drawn at, each looked at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.catalog.drafting import HiddenLines
from tubeframe.drawing.elevations.elevation import BareView, bare_view, outlined
from tubeframe.drawing.labels.wanted_dimensions import wanted
from tubeframe.drawing.views.view_lines import FINEST, view_lines
from tubeframe.geometry.units import Units

if TYPE_CHECKING:
    from tubeframe.catalog.drafting import Drafting
    from tubeframe.drawing.elevations.elevation import Blank
    from tubeframe.drawing.labels.wanted_dimensions import Named
    from tubeframe.drawing.views.part_book import PartBook

_ISO_SCALES = (1, 2, 5, 10, 20, 50, 100, 200, 500)
"""Reductions of ISO 5455 (from memory)."""
_INCH_SCALES = (1, 2, 4, 5, 8, 10, 12, 16, 20, 24, 32, 48, 64, 96, 100, 128, 192, 384)
"""Parts of an inch to the foot, and decimal ones (common practice, no source)."""
_LARGEST_SHEET = 450.0
"""No view is drawn longer than this [mm on paper]."""


class ViewSet:
    """Views of one frame. What a view takes is known before it is drawn, so that a scale is chosen first."""

    def __init__(self, book: PartBook, drafting: Drafting) -> None:
        """Take the frame, and how the shop wants it drawn."""
        self.book = book
        self.projection = drafting.projection
        shown = drafting.hidden_lines
        self._hidden_lines = shown is HiddenLines.SHOWN or (shown is HiddenLines.BOARDS and bool(book.boards))
        self._wants = wanted(book)
        self._blank: dict[tuple[Named, int], Blank] = {}
        self._drawn: dict[tuple[Named, int], BareView] = {}

    @property
    def scales(self) -> tuple[int, ...]:
        """Scales, the largest drawing first; those hopelessly large are left out."""
        known = _INCH_SCALES if self.book.units is Units.INCH else _ISO_SCALES
        largest = max(self.book.extent.size)
        return tuple(s for s in known if largest / s < _LARGEST_SHEET) or known[-1:]

    def blank(self, named: Named, scale: int) -> Blank:
        """Return what a view will take at 1 : scale."""
        if (named, scale) not in self._blank:
            self._blank[named, scale] = outlined(self.book, named, self._wants[named], scale)
        return self._blank[named, scale]

    def drawn(self, named: Named, scale: int) -> BareView:
        """Return a view at 1 : scale with its dimensions."""
        if (named, scale) not in self._drawn:
            lines = view_lines(self.book, named.view, finest=FINEST * scale, hidden_lines=self._hidden_lines)
            self._drawn[named, scale] = bare_view(self.book, named, lines, self._wants[named], scale)
        return self._drawn[named, scale]
