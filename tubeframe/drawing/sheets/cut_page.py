"""Every stick with the pieces that are cut from it, to one scale; equal sticks once, with a box to tick for each."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width, wrap
from tubeframe.drawing.model.items import Drawn, Text
from tubeframe.drawing.model.lettering import BODY, NOTE, SMALL
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.shapes.plane import Transform
from tubeframe.drawing.sheets.page_blocks import LEADING, caution_box, heading, paragraph
from tubeframe.drawing.sheets.stick_bar import BAR, StickBar, stick_bar
from tubeframe.fabrication.cutting.plan import alike
from tubeframe.frame.caution import Moment
from tubeframe.words.cut_plan import (
    cutting_words,
    left_words,
    positions_words,
    shared_names,
    stick_words,
    unwritten_words,
)
from tubeframe.words.savings import hanging_words

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.design import Design
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.fabrication.cutting.plan import AlikeSticks, Stick
    from tubeframe.frame.caution import Caution

_BOX, _PITCH = 3.6, 4.8
_ROW = 4.8
_APART = 1.6
_LEAST = 54.0
"""The words before the sticks and one of these [mm]."""
_SMALL_ROW = SMALL * LEADING


def cut_page(flow: Flow, design: Design, book: PartBook, cautions: Sequence[Caution]) -> None:
    """Draw every stick with the pieces that are cut from it; equal sticks once."""
    plan, bend_sheets = design.fabrication.plan, design.fabrication.bend_sheets
    flow.section("cut plan", least=_LEAST)
    flow.body = NOTE
    heading(flow, "Cut")
    for caution in cautions:
        if caution.before is Moment.CUTTING:
            caution_box(flow, caution)
    for words in cutting_words(plan, book.units, bent=bool(bend_sheets)):
        paragraph(flow, words)
    for words in hanging_words(design):
        paragraph(flow, words, bold=True)
    flow.down(_APART)
    names = shared_names(bend_sheets)
    bent = set(names.values())
    longest = max((s.stock_length for s in plan.sticks), default=1.0)
    for group in alike([_renamed(s, names) for s in plan.sticks]):
        bar = stick_bar(group.stick, flow.width / longest, flow.width, book.units, bent)
        _entry(flow, book, group, bar)
    flow.body = BODY


def _renamed(stick: Stick, names: Mapping[str, str]) -> Stick:
    """Give pieces that are cut and bent alike one name."""
    return replace(stick, cuts=tuple(replace(c, mark=names.get(c.mark, c.mark)) for c in stick.cuts))


def _entry(flow: Flow, book: PartBook, group: AlikeSticks, bar: StickBar) -> None:
    """Set one stick, unparted: what it is with its boxes, the bar, where pieces end, what found no room in it."""
    title = stick_words(group, book.catalog.tube(group.stick.tube).name, book.units)
    if not bar.offcut_told:
        title += f", {left_words(group.stick, book.units)}"
    boxes = _boxes(group.count, text_width(title, BODY, bold=True) + 3.0, flow.width)
    rows = 1 + (max(row for row, _ in boxes) if boxes else 0)
    beside = [
        line
        for words in (
            () if bar.positions_told else (positions_words(group.stick, book.units),),
            (unwritten_words(bar.unwritten, book.units),) if bar.unwritten else (),
        )
        for text in words
        for line in wrap(text, flow.width, SMALL)
    ]
    flow.need(rows * _ROW + BAR + bar.below + len(beside) * _SMALL_ROW + _APART)
    first = flow.y - _ROW + 0.9
    flow.put([Text(at=(flow.x, first), text=title, height=BODY, bold=True)])
    flow.put([_box(flow.x + x, first - row * _ROW) for row, x in boxes])
    flow.down(rows * _ROW + BAR)
    flow.put(_moved(bar.items, flow.x, flow.y))
    flow.down(bar.below)
    for line in beside:
        flow.down(_SMALL_ROW)
        flow.put([Text(at=(flow.x, flow.y + SMALL * 0.4), text=line, height=SMALL)])
    flow.down(_APART)


def _boxes(count: int, start: float, width: float) -> list[tuple[int, float]]:
    """Return row and place along the row [mm] of so many boxes: beside a title as far as they go, then below."""
    beside = max(0, int((width - start) // _PITCH))
    row = max(1, int(width // _PITCH))
    found = [(0, start + n * _PITCH) for n in range(min(count, beside))]
    return found + [(1 + n // row, n % row * _PITCH) for n in range(count - len(found))]


def _box(x: float, y: float) -> Drawn:
    corners = ((x, y), (x + _BOX, y), (x + _BOX, y + _BOX), (x, y + _BOX))
    return Drawn(shape=Area(corners=corners), pen=Pen.NARROW)


def _moved(items: Sequence[Mark], x: float, y: float) -> list[Mark]:
    return [item.placed(Transform(shift=(x, y))) for item in items]
