"""The parts list of a drawing: what each balloon's mark stands for, and the fittings (ISO 7573, from memory)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.fabrication.fitting_count import FittingCount

_CAP, _ROW, _PAD = 2.5, 5.0, 1.5
"""Height of capitals and of a row, and room beside a text [mm on paper]."""
_SLACK = 1.2
"""Programs that draw with a font of their own make texts wider."""
_HEAD = ("Mark", "Qty", "Part", "Cut")
_RIGHT = (False, True, False, True)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsList:
    """Rows of texts under a head, and the width of each column [mm on paper]."""

    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm on paper]."""
        return (sum(self.widths), _ROW * len(self.rows))

    def drawn(self) -> list[Mark]:
        """Draw it on paper, its upper left corner at the origin."""
        edges = [sum(self.widths[:k]) for k in range(len(self.widths) + 1)]
        levels = [-k * _ROW for k in range(len(self.rows) + 1)]
        lines: list[Segment] = [((x, 0.0), (x, levels[-1])) for x in edges]
        lines += [((edges[0], y), (edges[-1], y)) for y in levels]
        items: list[Mark] = [strokes(Pen.BORDER, lines)]
        for row, level in zip(self.rows, levels, strict=False):
            for k, text in enumerate(row):
                x = edges[k + 1] - _PAD if _RIGHT[k] else edges[k] + _PAD
                at = (x, level - (_ROW + _CAP) / 2.0)
                if text:
                    anchor = Anchor.RIGHT if _RIGHT[k] else Anchor.LEFT
                    items.append(Text(at=at, text=text, height=_CAP, anchor=anchor))
        return items


def parts_list(book: PartBook, fittings: Sequence[FittingCount]) -> PartsList:
    """List every mark with its cut length, boards with their sizes, and fittings by kind."""
    units, catalog = book.units, book.catalog
    rows: list[tuple[str, ...]] = [_HEAD]
    for group in book.parts.groups:
        cut = format_length(group.first.cut_rounded, units)
        rows.append((group.mark, str(group.quantity), catalog.tube(group.first.size).name, cut))
    for boards in book.parts.panel_groups:
        board = boards.first
        sizes = " x ".join(format_length(v, units) for v in (board.thickness, board.length, board.width))
        rows.append((boards.mark, str(boards.quantity), f"{board.use.word}, {sizes}", ""))
    rows += [("", str(f.quantity), f"{f.kind}, {f.tubes}", "") for f in fittings]
    widths = tuple(_SLACK * max(text_width(row[k], _CAP) for row in rows) + 2.0 * _PAD for k in range(len(_HEAD)))
    return PartsList(rows=tuple(rows), widths=widths)
