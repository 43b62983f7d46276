"""Labels to cut out and wrap round the pieces: mark, length, and what takes each end."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.counts import labels
from tubeframe.drawing.model.items import Anchor, Drawn, Text
from tubeframe.drawing.model.lettering import BODY, NOTE, TITLE
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.sheets.joint_kinds import joint_kinds
from tubeframe.drawing.sheets.page_blocks import heading, paragraph
from tubeframe.geometry.units import format_length
from tubeframe.words.listing import kind_word

if TYPE_CHECKING:
    from tubeframe.assembly.counts import Label
    from tubeframe.design import Design
    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook

_WIDTH, _HEIGHT, _PAD = 60.0, 24.0, 3.0


def label_pages(flow: Flow, design: Design, book: PartBook) -> None:
    """Set a label for every piece, in rows that touch, so that one cut parts two."""
    flow.section("labels")
    heading(flow, "Labels")
    flow.body = NOTE
    paragraph(
        flow,
        "One for each piece. Cut them out and tape each round its tube near end A, clear of the clamps. "
        "F1, F2 are the fittings of the joints page.",
    )
    flow.body = BODY
    signs = {k.name: k.sign for k in joint_kinds(book)}
    every = labels(design.parts, design.jointed)
    a_row = max(1, int(flow.width // _WIDTH))
    for first in range(0, len(every), a_row):
        flow.need(_HEIGHT)
        for n, label in enumerate(every[first : first + a_row]):
            flow.put(_label(label, book, signs, flow.x + n * _WIDTH, flow.y - _HEIGHT))
        flow.down(_HEIGHT)


def _label(label: Label, book: PartBook, signs: dict[str, str], x: float, y: float) -> list[Mark]:
    piece = book.piece_of[label.tube]
    corners = ((x, y), (x + _WIDTH, y), (x + _WIDTH, y + _HEIGHT), (x, y + _HEIGHT))
    length = format_length(piece.cut_rounded, book.units)
    top = y + _HEIGHT - _PAD - TITLE
    return [
        Drawn(shape=Area(corners=corners), pen=Pen.NARROW),
        Text(at=(x + _PAD, top), text=label.mark, height=TITLE, bold=True),
        Text(at=(x + _WIDTH - _PAD, top), text=length, height=BODY, anchor=Anchor.RIGHT, bold=True),
        Text(at=(x + _PAD, top - 1.8 * BODY), text=f"A  {_end(label.end_a, signs)}", height=BODY),
        Text(at=(x + _PAD, top - 3.4 * BODY), text=f"B  {_end(label.end_b, signs)}", height=BODY),
    ]


def _end(kind: str, signs: dict[str, str]) -> str:
    return f"{signs[kind]} {kind_word(kind)}" if kind in signs else kind_word(kind)
