"""The blank sheet that is taken along to measure: readings with boxes to write in, and room for a sketch."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe._version import __version__
from tubeframe.drawing.model.font_metrics import wrap
from tubeframe.drawing.model.items import Drawn, Text, strokes
from tubeframe.drawing.model.lettering import NOTE, SMALL
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.sheets.page_blocks import LEADING, heading, paragraph
from tubeframe.drawing.sheets.page_flow import Flow, Running
from tubeframe.words.cautions import SHORT_LIMIT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.model.sheet import Sheet
    from tubeframe.words.measuring import MeasuringSheet, Reading

_BOX, _APART, _HEIGHT = 22.0, 2.0, 8.0
_MOST_PLACES = 3
_SKETCH = 60.0
_GRID = 5.0


def measuring_pages(sheet: MeasuringSheet, paper: tuple[float, float], units: str) -> tuple[Sheet, ...]:
    """Lay out a measuring sheet on a paper [mm]; `units` is what is written into the boxes."""
    flow = Flow(paper, Running(title=sheet.title, units=units, foot=SHORT_LIMIT, maker=f"tubeframe {__version__}"))
    flow.page("to fill in")
    flow.body = NOTE
    paragraph(flow, "Date, place, who measured:")
    for text in sheet.advice:
        paragraph(flow, text)
    heading(flow, "The place, and what it is for")
    _rows(flow, sheet.place)
    heading(flow, "What you ask for")
    _rows(flow, sheet.asked)
    _sketch(flow)
    return flow.sheets()


def _rows(flow: Flow, rows: Sequence[Reading]) -> None:
    for row in rows:
        _row(flow, row)
    flow.down(2.0)


def _row(flow: Flow, row: Reading) -> None:
    """Set a reading: its name and what it is for, boxes on the right."""
    boxes = _MOST_PLACES * (_BOX + _APART)
    room = flow.width - boxes - _APART
    lines = (*wrap(row.label, room, NOTE, bold=True), *wrap(row.what_for, room, SMALL))
    bold = len(wrap(row.label, room, NOTE, bold=True))
    height = max(_HEIGHT, len(lines) * NOTE * LEADING) + _APART
    flow.need(height)
    items: list[Mark] = []
    y = flow.y
    for n, text in enumerate(lines):
        y -= (NOTE if n < bold else SMALL) * LEADING
        items.append(Text(at=(flow.x, y), text=text, height=NOTE if n < bold else SMALL, bold=n < bold))
    for n in range(row.places):
        x = flow.x + flow.width - (row.places - n) * (_BOX + _APART) + _APART
        items.append(_box(x, flow.y - _HEIGHT, _BOX, _HEIGHT))
    flow.put(items)
    flow.down(height)


def _sketch(flow: Flow) -> None:
    """Leave squared room to sketch the place from above."""
    flow.need(_SKETCH + 12.0)
    heading(flow, "From above, with doors, pipes and sockets")
    high = max(_SKETCH, flow.room - 2.0)
    top, left, right = flow.y, flow.x, flow.x + flow.width
    lines = [((left, top - k * _GRID), (right, top - k * _GRID)) for k in range(1, int(high / _GRID))]
    lines += [((left + k * _GRID, top), (left + k * _GRID, top - high)) for k in range(1, int(flow.width / _GRID) + 1)]
    flow.put([strokes(Pen.FINE, tuple(lines)), _box(left, top - high, right - left, high)])
    flow.down(high)


def _box(x: float, y: float, width: float, height: float) -> Drawn:
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return Drawn(shape=Area(corners=corners), pen=Pen.NARROW, fill=None)
