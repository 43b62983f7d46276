"""What is marked on each tube: lengths, stations from end A."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import BODY, HEADING, SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.sheets.page_blocks import TICK_BOX, Column, heading, paragraph, table
from tubeframe.geometry.units import format_exact, format_length

if TYPE_CHECKING:
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.parts.piece import Piece, PieceGroup, Station

_STRIP = 5.0
_STRIP_HEIGHT = 19.0
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


def marking_pages(flow: Flow, book: PartBook) -> None:
    """Set the marking table, then every mark as a strip with its stations."""
    flow.page("marking")
    heading(flow, "Mark")
    paragraph(
        flow,
        "Hook the tape on end A and leave it there: every distance runs from A to the MIDDLE of a clamp. "
        "Cut lengths are rounded down, never up; what is left of the exact length stays at end B.",
    )
    _marking_table(flow, book)
    heading(flow, "Stations")
    paragraph(
        flow,
        "A clamp without a turn points to the inside of the bends, or on a straight tube the way clamp a does. "
        "A turn is clockwise from there, looking along the tube from A to B.",
    )
    _clamp_edges(flow, book)
    for group in book.parts.groups:
        _strip(flow, group, book)


def _marking_table(flow: Flow, book: PartBook) -> None:
    units = book.units
    sizes = list(dict.fromkeys(g.first.size for g in book.parts.groups))
    names = {key: book.catalog.tube(key).name for key in sizes}
    if len(sizes) == 1:
        paragraph(flow, f"All of {names[sizes[0]]}.", bold=True)
    several = [Column(title="Tube", share=14)] if len(sizes) > 1 else []
    columns = [
        Column(title="Mark", share=9),
        Column(title="Qty", share=7, anchor=Anchor.RIGHT),
        *several,
        Column(title="Cut", share=17, anchor=Anchor.RIGHT),
        Column(title="Exact", share=19, anchor=Anchor.RIGHT),
        Column(title="End A", share=11),
        Column(title="End B", share=11),
        Column(title="cut", share=7),
        Column(title="deburr", share=10),
        Column(title="mark", share=8),
    ]
    rows = [
        [
            g.mark,
            str(g.quantity),
            *([names[g.first.size]] if several else []),
            format_length(g.first.cut_rounded, units),
            format_exact(g.first.cut_length, units),
            g.first.end_a.kind.value,
            g.first.end_b.kind.value,
            *([TICK_BOX] * 3),
        ]
        for g in book.parts.groups
    ]
    table(flow, columns, rows)


def _clamp_edges(flow: Flow, book: PartBook) -> None:
    """Say how wide each clamp is: a mark at its edges can still be seen when it is on."""
    units = book.units
    size_of = {p.id: book.catalog.tube(p.size).name for p in book.parts.pieces}
    several = len(set(size_of.values())) > 1
    halves = {
        f"{j.kind} on {size_of[u.tube]}" if several else j.kind: format_length(j.fitting.port(u.port).grip / 2.0, units)
        for j in book.joints
        if j.fitting
        for u in j.uses
        if u.role is PortRole.RUN
    }
    if halves:
        shown = ", ".join(f"{kind} {half}" for kind, half in halves.items())
        paragraph(flow, f"Mark the clamp's edges too, this far on both sides of its middle: {shown}.")


def _strip(flow: Flow, group: PieceGroup, book: PartBook) -> None:
    """Draw a tube as a strip, stations lettered from A; the distances stand below in full."""
    piece, units = group.first, book.units
    rows = [_station_text(n, s, book) for n, s in enumerate(piece.stations)]
    fit = all(text_width(row, BODY) + BODY <= flow.width / 2.0 for row in rows)
    columns = 2 if fit else 1
    flow.need(_STRIP_HEIGHT + BODY * 1.75 * math.ceil(max(1, len(rows)) / columns) + 2.0)
    flow.down(HEADING + 1.0)
    title = f"{group.mark}   {group.quantity} x {format_length(piece.cut_rounded, units)}"
    flow.put([Text(at=(flow.x, flow.y), text=title, height=HEADING, bold=True)])
    flow.down(_STRIP + 6.0)
    flow.put(_strip_items(flow, piece))
    for first in range(0, len(rows), columns):
        flow.down(BODY * 1.75)
        for column, text in enumerate(rows[first : first + columns]):
            at = (flow.x + column * flow.width / 2.0, flow.y)
            flow.put([Text(at=at, text=text, height=BODY)])
    if not rows:
        flow.down(BODY * 1.75)
        flow.put([Text(at=(flow.x, flow.y), text="no clamp between its ends", height=BODY)])
    flow.down(3.0)


def _station_text(number: int, station: Station, book: PartBook) -> str:
    joint = book.joint_of[station.joint]
    turned = round(station.roll) % 360
    turn = f", turned {turned}°" if turned else ""
    return f"{_LETTERS[number % 26]}  {format_length(station.from_a, book.units)}  {joint.kind}{turn}"


def _strip_items(flow: Flow, piece: Piece) -> list[Mark]:
    x, y = flow.x + 7.0, flow.y
    scale = (flow.width - 14.0) / piece.cut_length
    right = x + piece.cut_length * scale
    outline = ((x, y), (right, y), (right, y + _STRIP), (x, y + _STRIP))
    items: list[Mark] = [Drawn(shape=Area(corners=outline), pen=Pen.WIDE, fill=Fill.WHITE)]
    items += _end_letter(x - 3.5, y, "A", filled=True) + _end_letter(right + 3.5, y, "B", filled=False)
    items += [
        strokes(Pen.HIDDEN, (((at, y), (at, y + _STRIP)),)) for at in (x + b.start_from_a * scale for b in piece.bends)
    ]
    last, level = -100.0, 0
    for number, station in enumerate(piece.stations):
        at = x + station.from_a * scale
        level = 1 - level if at - last < 3.0 else 0
        last = at
        foot = y + _STRIP + 1.5 + level * 2.2
        items.append(strokes(Pen.WIDE, (((at, y), (at, foot - 0.3)),)))
        items.append(
            Text(at=(at, foot + 0.3), text=_LETTERS[number % 26], height=SMALL, anchor=Anchor.CENTRE, bold=True)
        )
    return items


def _end_letter(x: float, y: float, letter: str, *, filled: bool) -> list[Mark]:
    """Name an end; a triangle marks end A."""
    text = Text(at=(x, y + (_STRIP - BODY) / 2.0), text=letter, height=BODY, anchor=Anchor.CENTRE, bold=True)
    if not filled:
        return [text]
    top = y + _STRIP + 0.6
    corners = ((x, top), (x + 2.0, top + 3.2), (x - 2.0, top + 3.2))
    return [text, Drawn(shape=Area(corners=corners), pen=Pen.NARROW, fill=Fill.BLACK)]
