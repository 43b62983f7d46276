"""Every drawing of a design."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING

from tubeframe.drawing.elevations.parts_list import parts_list
from tubeframe.drawing.elevations.three_views import three_views
from tubeframe.drawing.elevations.title_block import TitleBlock
from tubeframe.drawing.elevations.view_set import ViewSet
from tubeframe.drawing.full_size.layout import laid_out, layout, left_over_findings
from tubeframe.drawing.sheets import label_sheets, sheets
from tubeframe.drawing.views.part_book import part_book

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.full_size.layout_tables import Laid
    from tubeframe.drawing.model.picture import Picture
    from tubeframe.drawing.model.sheet import Sheet
    from tubeframe.drawing.views.part_book import PartBook


class Drawings:
    """The drawings of one design, each made when it is first asked for, and once."""

    def __init__(self, design: Design, *, tells_layout: bool = False) -> None:
        """Take the design; whether the sheets are to tell what the full-size layout finds."""
        self._design = design
        self._tells_layout = tells_layout

    @cached_property
    def design(self) -> Design:
        """The design, with what was found when it was laid on tables."""
        table = self._design.workshop.layout_table
        if not self._tells_layout or table is None or self.laid is None:
            return self._design
        made = self._design.fabrication
        return replace(
            self._design, fabrication=replace(made, findings=made.findings + left_over_findings(self.laid, table))
        )

    @cached_property
    def book(self) -> PartBook:
        """What they all look up."""
        return part_book(self._design)

    @cached_property
    def views(self) -> ViewSet:
        """Front, right side and plan."""
        return ViewSet(self.book, self._design.workshop.drafting)

    @cached_property
    def elevations(self) -> Picture:
        """All three views on a large sheet."""
        sizes = dict.fromkeys(p.size for p in self.book.parts.pieces)
        title = TitleBlock(
            name=self._design.frame.name,
            source=self._design.source,
            units=self.book.units,
            projection=self._design.workshop.drafting.projection,
            outsides=tuple((key, self.book.catalog.tube(key).outside) for key in sizes),
        )
        return three_views(self.views, parts_list(self.book, self._design.fabrication.fittings), title)

    @cached_property
    def laid(self) -> Laid | None:
        """What lies flat, on the shop's tables; None when it has none."""
        table = self._design.workshop.layout_table
        flats, bent = self._design.assembly.flats, self._design.fabrication.bend_sheets
        return None if table is None else laid_out(self.book, flats, bent, table)

    @cached_property
    def layout(self) -> Picture:
        """What lies flat, at full size."""
        flats, bent = self._design.assembly.flats, self._design.fabrication.bend_sheets
        return layout(self.book, self._design.frame.name, flats, bent, self.laid)

    @cached_property
    def sheets(self) -> tuple[Sheet, ...]:
        """The shop sheets."""
        return sheets(self.design, self.book, self.views)

    @cached_property
    def labels(self) -> tuple[Sheet, ...]:
        """Labels to cut out, one a piece."""
        return label_sheets(self._design, self.book)
