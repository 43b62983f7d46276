"""How each bent mark is bent, and how it is checked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Anchor
from tubeframe.drawing.sheets.page_blocks import TICK_BOX, Column, caution_box, heading, paragraph, table
from tubeframe.frame.caution import Moment
from tubeframe.geometry.units import format_exact, format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.fabrication.bending.sheet import BendSheet
    from tubeframe.frame.caution import Caution


def bend_pages(flow: Flow, book: PartBook, bend_sheets: tuple[BendSheet, ...], cautions: Sequence[Caution]) -> None:
    """Set a bend sheet for every bent mark."""
    if not bend_sheets:
        return
    flow.section("bend sheet")
    heading(flow, "Bend")
    for caution in cautions:
        if caution.before is Moment.BENDING:
            caution_box(flow, caution)
    paragraph(
        flow,
        "Bend before you cut to length. Draw a straight line along the whole tube and keep every bend in line with it, "
        "turned as its table says. "
        "Make a trial bend first: an arrow on the bender that does not mark the start of the bend, or another radius, "
        "moves every mark. Steel springs back a little: bend past the angle until it reads right when let go.",
    )
    for sheets in _alike(bend_sheets):
        _bend_sheet(flow, sheets, book)


def _alike(sheets: tuple[BendSheet, ...]) -> list[list[BendSheet]]:
    """Put marks together that are bent alike and differ in their stations only."""
    groups: dict[tuple[object, ...], list[BendSheet]] = {}
    for sheet in sheets:
        sizes = (
            sheet.rough_length,
            sheet.trim_a,
            *(v for m in sheet.bends for v in (m.at, m.angle, m.roll, m.radius)),
        )
        groups.setdefault((sheet.tube, *(round(v, 2) for v in sizes)), []).append(sheet)
    return list(groups.values())


def _bend_sheet(flow: Flow, sheets: list[BendSheet], book: PartBook) -> None:
    sheet, units = sheets[0], book.units
    marks = ", ".join(f"{s.quantity} x {s.mark}" for s in sheets)
    heading(flow, marks)
    paragraph(
        flow,
        f"Take {format_length(sheet.rough_length, units)} of {book.catalog.tube(sheet.tube).name}. "
        f"Centreline radius {format_exact(sheet.bends[0].radius, units)}. Distances run from the end that becomes A; "
        "the hook of the bender faces that end.",
    )
    columns = [
        Column(title="Bend", share=10, anchor=Anchor.RIGHT),
        Column(title="Start of bend (arrow) at", share=30, anchor=Anchor.RIGHT),
        Column(title="Angle", share=16, anchor=Anchor.RIGHT),
        Column(title="Turn of the tube", share=22, anchor=Anchor.RIGHT),
        Column(title="done", share=10),
    ]
    rows = [
        [str(m.number), format_length(m.at, units), f"{round(m.angle, 1):g}°", f"{round(m.roll) % 360}°", TICK_BOX]
        for m in sheet.bends
    ]
    table(flow, columns, rows)
    if not sheet.is_flat:
        paragraph(
            flow,
            "This one is bent in several planes: before a bend, turn the tube by its angle, clockwise looking along "
            "the tube from A to B, from where the inside of bend 1 is.",
        )
    piece = next(g.first for g in book.parts.groups if g.mark == sheet.mark)
    chord = piece.path.start.distance(piece.path.end)
    paragraph(
        flow,
        f"Then trim {format_length(sheet.trim_a, units)} off end A and {format_length(sheet.trim_b, units)} off end B. "
        f"Check: {format_length(chord, units)} straight from end to end (middle of the tube)"
        f"{', all in one plane' if sheet.is_flat else ''}.",
    )
