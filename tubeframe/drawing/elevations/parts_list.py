"""The parts list of a drawing: what each balloon's mark stands for, and the fittings (ISO 7573, from memory)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.picture import Layer, Note, PictureItem, Strokes
from tubeframe.drawing.model.sheet import Anchor
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.model.picture import Point, Segment

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

    def drawn(self, corner: Point, scale: int) -> list[PictureItem]:
        """Draw it at 1 : scale with its upper left corner at a point [mm]."""
        left, top = corner
        edges = [left + sum(self.widths[:k]) * scale for k in range(len(self.widths) + 1)]
        bottom = top - self.size[1] * scale
        levels = [top - k * _ROW * scale for k in range(len(self.rows) + 1)]
        lines: list[Segment] = [((x, top), (x, bottom)) for x in edges]
        lines += [((edges[0], y), (edges[-1], y)) for y in levels]
        items: list[PictureItem] = [Strokes(layer=Layer.BORDER, segments=tuple(lines))]
        for row, level in zip(self.rows, levels, strict=False):
            for k, text in enumerate(row):
                at_right = _RIGHT[k]
                x = edges[k + 1] - _PAD * scale if at_right else edges[k] + _PAD * scale
                y = level - (_ROW + _CAP) / 2.0 * scale
                anchor = Anchor.RIGHT if at_right else Anchor.LEFT
                if text:
                    items.append(Note(layer=Layer.TEXT, at=(x, y), text=text, height=_CAP * scale, anchor=anchor))
        return items


def parts_list(design: Design) -> PartsList:
    """List every mark with its cut length, boards with their sizes, and fittings by kind."""
    units, catalog = design.workshop.units, design.workshop.catalog
    rows: list[tuple[str, ...]] = [_HEAD]
    for group in design.parts.groups:
        cut = format_length(group.first.cut_rounded, units)
        rows.append((group.mark, str(group.quantity), catalog.tube(group.first.size).name, cut))
    for boards in design.parts.panel_groups:
        board = boards.first
        sizes = " x ".join(format_length(v, units) for v in (board.thickness, board.length, board.width))
        rows.append((boards.mark, str(boards.quantity), f"{board.use.word}, {sizes}", ""))
    rows += [("", str(f.quantity), f"{f.kind}, {f.tubes}", "") for f in design.fabrication.fittings]
    widths = tuple(_SLACK * max(text_width(row[k], _CAP) for row in rows) + 2.0 * _PAD for k in range(len(_HEAD)))
    return PartsList(rows=tuple(rows), widths=widths)
