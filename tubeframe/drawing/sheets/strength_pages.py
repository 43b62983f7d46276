"""Will it hold: the frame as it moves, what governs, and every verdict with its limit and what helps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import wrap
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.lettering import NOTE, SMALL
from tubeframe.drawing.sheets.moved_frame import Governing, drawn_factor, moved_frame
from tubeframe.drawing.sheets.page_blocks import LEADING, heading, paragraph, table
from tubeframe.drawing.sheets.table_columns import Column
from tubeframe.words.limits import assumption_words
from tubeframe.words.shapes import DASHED_LINES, shape_words
from tubeframe.words.verdict_table import sum_words, verdict_row
from tubeframe.words.verdicts import short_title, strength_note

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.design import Design
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.structure.shape import Shape

_HIGH, _HIGH_ALONE, _GAP, _LEAST = 44.0, 50.0, 4.0, 30.0
_ROW = SMALL * LEADING


def strength_pages(flow: Flow, design: Design, book: PartBook) -> None:
    """Set pictures of the moved frame and the table of verdicts; nothing where nobody looked."""
    if not design.verdicts:
        return
    flow.section("will it hold", least=_LEAST)
    heading(flow, "Will it hold")
    paragraph(flow, sum_words(design.verdicts, design.workshop.units), cap=NOTE, bold=True)
    if design.shapes:
        paragraph(flow, DASHED_LINES, cap=SMALL)
    for n in range(0, len(design.shapes), 2):
        _pictures(flow, design, book, design.shapes[n : n + 2])
    columns = [
        Column(title="", share=25),
        Column(title="What, and where", share=44),
        Column(title="Value", share=36),
        Column(title="Limit", share=22),
        Column(title="Case, and what helps", share=57),
    ]
    units, marks = design.workshop.units, _marks(book)
    table(flow, columns, [verdict_row(v, marks, units) for v in design.verdicts], cap=SMALL)
    rows = dict.fromkeys(assumption_words(row, units) for v in design.verdicts for row in v.assumptions)
    paragraph(flow, f"Rests on: {'; '.join(rows)}.", cap=SMALL)
    paragraph(flow, strength_note(covered=design.frame.cover is not None), cap=SMALL, bold=True)


def _pictures(flow: Flow, design: Design, book: PartBook, shapes: Sequence[Shape]) -> None:
    """Set one picture over the whole width, or two beside each other, each with its words."""
    width, high = (flow.width + _GAP) / len(shapes) - _GAP, _HIGH if len(shapes) > 1 else _HIGH_ALONE
    units = design.workshop.units
    words = [wrap(shape_words(s, drawn_factor(s), units), width, SMALL) for s in shapes]
    lines = max(len(w) for w in words)
    flow.need(high + lines * _ROW + 3.0)
    for n, shape in enumerate(shapes):
        left = flow.x + n * (width + _GAP)
        box = (left, flow.y - high, left + width, flow.y)
        flow.put(moved_frame(shape, _governing(design, book, shape), box))
        for k, row in enumerate(words[n]):
            flow.put([Text(at=(left, flow.y - high - (k + 1) * _ROW), text=row, height=SMALL)])
    flow.down(high + lines * _ROW + 3.0)


def _governing(design: Design, book: PartBook, shape: Shape) -> list[Governing]:
    """Name what governs in a shape's case: the tube or joint, with all that it governs."""
    found: dict[str, list[str]] = {}
    for verdict in design.verdicts:
        if verdict.case == shape.case and verdict.where:
            found.setdefault(verdict.where[0], []).append(short_title(verdict))
    marks = _marks(book)
    return [
        Governing(text=f"{name}: {_and(words)}", at=book.joint_of[name].at)
        if name in book.joint_of
        else Governing(text=f"{marks.get(name, name)}: {_and(words)}", tube=name)
        for name, words in found.items()
    ]


def _and(words: Sequence[str]) -> str:
    return ", ".join(dict.fromkeys(words))


def _marks(book: PartBook) -> dict[str, str]:
    return {str(p.id): g.mark for g in book.parts.groups for p in g.pieces}
