"""What pages are made of: headings, paragraphs, tables, boxes to tick, cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import BODY, HEADING, SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.sheets.table_columns import CELL, TICK, TICK_BOX, column_widths, least_widths, wrapped_cell
from tubeframe.frame.caution import Signal

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.sheets.table_columns import Column
    from tubeframe.frame.caution import Caution

LEADING = 1.5
"""Distance of baselines over cap height; ISO 3098 has 1.4 to 1.6 (from memory)."""
_BESIDE_NUMBER = 1.2
"""Between a number of a list and its text [mm]."""


def heading(flow: Flow, text: str) -> None:
    """Set a heading, with room for something below it."""
    lines = wrap(text, flow.width, HEADING, bold=True)
    flow.need(len(lines) * HEADING * LEADING + 20.0)
    flow.down(2.0)
    for row in lines:
        flow.down(HEADING * 1.5)
        flow.put([Text(at=(flow.x, flow.y), text=row, height=HEADING, bold=True)])
    flow.down(3.0)


def paragraph(flow: Flow, text: str, *, cap: float | None = None, bold: bool = False, indent: float = 0.0) -> None:
    """Set a paragraph over the full width."""
    cap = flow.body if cap is None else cap
    for row in wrap(text, flow.width - indent, cap, bold=bold):
        flow.need(cap * LEADING)
        flow.down(cap * LEADING)
        flow.put([Text(at=(flow.x + indent, flow.y), text=row, height=cap, bold=bold)])
    flow.down(cap * 0.6)


def numbered(flow: Flow, rows: Sequence[str]) -> None:
    """Set a numbered list."""
    cap = flow.body
    indent = max(2.2 * cap, text_width(f"{len(rows)}.", cap, bold=True) + _BESIDE_NUMBER)
    for number, text in enumerate(rows, start=1):
        lines = wrap(text, flow.width - indent, cap)
        flow.need(len(lines) * cap * LEADING)
        first = flow.y - cap * LEADING
        flow.put([Text(at=(flow.x, first), text=f"{number}.", height=cap, bold=True)])
        for row in lines:
            flow.down(cap * LEADING)
            flow.put([Text(at=(flow.x + indent, flow.y), text=row, height=cap)])
        flow.down(cap * 0.3)


def ticked(flow: Flow, text: str) -> None:
    """Set a line with a box to tick before it."""
    cap = flow.body
    indent = TICK + 2.0
    lines = wrap(text, flow.width - indent, cap)
    height = max(TICK + 1.0, (len(lines) * LEADING + 0.5) * cap)
    flow.need(height)
    first = flow.y - cap * LEADING
    flow.put([tick_box(flow.x, first - (TICK - cap) / 2.0)])
    for n, row in enumerate(lines):
        flow.put([Text(at=(flow.x + indent, first - n * cap * LEADING), text=row, height=cap)])
    flow.down(height)


def caution_box(flow: Flow, caution: Caution) -> None:
    """Set a caution in a frame, its signal word first; a triangle stands before all but a notice."""
    cap = flow.body
    mark = 0.0 if caution.signal is Signal.NOTICE else 7.0
    beside = mark + text_width(caution.signal.value, cap, bold=True) + 7.0
    lines = hanging(caution.text, flow.width - 6.0, beside - 3.0, cap)
    height = max(len(lines) * cap * LEADING + 3.0, 8.0)
    flow.need(height + 2.0)
    top, left = flow.y, flow.x
    flow.put([_frame(left, top - height, flow.width, height, Fill.LIGHT)])
    first = top - cap * LEADING - 0.8
    if mark:
        flow.put(_triangle(left + 2.5, first - 0.6))
    flow.put([Text(at=(left + 3.0 + mark, first), text=caution.signal.value, height=cap, bold=True)])
    for n, row in enumerate(lines):
        flow.put([Text(at=(left + (3.0 if n else beside), first - n * cap * LEADING), text=row, height=cap)])
    flow.down(height + 2.0)


def hanging(text: str, width: float, indent: float, cap: float) -> tuple[str, ...]:
    """Wrap a text whose first line begins so far in [mm]; no line is empty but a first one without room for a word."""
    longest = max((text_width(word, cap) for word in text.split()), default=0.0)
    first = wrap(text, width - indent, cap)[0] if longest <= width - indent else ""
    rest = text[len(first) :].strip()
    return (first, *(wrap(rest, width, cap) if rest else ()))


def table(flow: Flow, columns: Sequence[Column], rows: Sequence[Sequence[str]], *, cap: float = BODY) -> None:
    """Set a table; cells wrap, rows are not parted, the head is repeated on a new page.

    It is set smaller where words would have to be broken.
    """
    if sum(least_widths(columns, rows, cap)) > flow.width:
        cap = min(cap, SMALL)
    widths = column_widths(columns, rows, flow.width, cap)
    _head(flow, columns, widths)
    for row in rows:
        cells = [wrapped_cell(text, width, cap) for text, width in zip(row, widths, strict=True)]
        height = max(max(map(len, cells)) * cap * LEADING + 1.2, TICK + 1.6 if TICK_BOX in row else 0.0)
        if height > flow.room:
            flow.need(height + 12.0)
            _head(flow, columns, widths)
        _row(flow, columns, widths, cells, height, cap)
    flow.down(3.0)


def _head(flow: Flow, columns: Sequence[Column], widths: Sequence[float]) -> None:
    height = SMALL * LEADING + 2.0
    flow.need(height + 12.0)
    x = flow.x
    for column, width in zip(columns, widths, strict=True):
        at = _anchored(x, width, column.anchor)
        flow.put(
            [Text(at=(at, flow.y - height + 1.6), text=column.title, height=SMALL, anchor=column.anchor, bold=True)]
        )
        x += width
    flow.down(height)
    flow.put([strokes(Pen.WIDE, (((flow.x, flow.y), (flow.x + flow.width, flow.y)),))])


def _row(
    flow: Flow,
    columns: Sequence[Column],
    widths: Sequence[float],
    cells: Sequence[tuple[str, ...]],
    height: float,
    cap: float,
) -> None:
    x = flow.x
    items: list[Mark] = []
    for column, width, lines in zip(columns, widths, cells, strict=True):
        for n, text in enumerate(lines):
            if text == TICK_BOX:
                items.append(tick_box(x + CELL, flow.y - (height + TICK) / 2.0))
            else:
                at = (_anchored(x, width, column.anchor), flow.y - cap * LEADING * (n + 1) + 0.4)
                items.append(Text(at=at, text=text, height=cap, anchor=column.anchor))
        x += width
    flow.down(height)
    items.append(strokes(Pen.NARROW, (((flow.x, flow.y), (flow.x + flow.width, flow.y)),)))
    flow.put(items)


def _anchored(x: float, width: float, anchor: Anchor) -> float:
    return {Anchor.LEFT: x + CELL, Anchor.CENTRE: x + width / 2.0, Anchor.RIGHT: x + width - CELL}[anchor]


def tick_box(x: float, y: float, side: float = TICK) -> Drawn:
    """Draw a box to tick, by its lower left corner [mm]."""
    return _frame(x, y, side, side, None)


def _frame(x: float, y: float, width: float, height: float, fill: Fill | None) -> Drawn:
    points = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return Drawn(shape=Area(corners=points), pen=Pen.NARROW, fill=fill)


def _triangle(x: float, y: float) -> list[Mark]:
    """Draw the safety alert triangle with its exclamation mark."""
    corners = ((x, y), (x + 5.6, y), (x + 2.8, y + 4.9))
    return [
        Drawn(shape=Area(corners=corners), pen=Pen.NARROW, fill=Fill.WHITE),
        Text(at=(x + 2.8, y + 0.8), text="!", height=SMALL, anchor=Anchor.CENTRE, bold=True),
    ]
