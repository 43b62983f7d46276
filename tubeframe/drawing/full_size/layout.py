"""Every flat part of a frame at full size, to lay tubes on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.full_size.drawn_flat import flat_items, flat_of, marked
from tubeframe.drawing.full_size.form_board import form_flat
from tubeframe.drawing.full_size.layout_tables import on_tables
from tubeframe.drawing.full_size.marking_strips import strip_of
from tubeframe.drawing.model.items import Text, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.picture import Item, Picture, box_of
from tubeframe.drawing.shapes.plane import moved, size_of
from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.bending.forms import forms
from tubeframe.fabrication.facts import NoTable
from tubeframe.geometry.units import INCH_MM

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.subframes import SubFrame
    from tubeframe.drawing.full_size.laid_flat import Flat
    from tubeframe.drawing.full_size.layout_tables import Laid
    from tubeframe.drawing.full_size.nesting import Size
    from tubeframe.drawing.shapes.plane import Box, Point, Segment
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.fabrication.bending.sheet import BendSheet
    from tubeframe.parts.piece import Piece

_GAP = 100.0
"""Clear of other drawings, and of the frame round all [mm]."""
_ROW = 6000.0
"""A row is no longer than this, unless one drawing is [mm]."""
_TITLE, _TEXT, _LEADING = 20.0, 10.0, 18.0
_BAR = 100.0
_TICK = 3.0
_NOTES = (
    "Full size, 1:1. A and B are a tube's ends; each number is the middle of a clamp from end A.",
    "Clamps are drawn as one sees them on the first of equal parts; turn each as the marking tables say.",
    "Measure the bars on your print, both ways. If they are not 100 mm and 4 in long, do not use it.",
)
_TABLE_NOTES = (
    "A cross with a name such as A1, a tube's mark and a distance from its end A: the tube goes on in another part.",
    "To lay the parts again, put crosses of one name on each other, and their lines along the tube in line.",
    "Straight strips are for marking: lay a tube on it, end A to end A. Lines across are clamps' middles and ends.",
)


def layout(
    book: PartBook, name: str, flats: Sequence[SubFrame], bent: Sequence[BendSheet], laid: Laid | None
) -> Picture:
    """Draw every flat sub-frame and every bent member once, at 1:1, side by side with clear gaps.

    A tube that is bent in several planes has its strip alone; forms stand last. Where the shop has a table for it,
    all is as it was laid on tables of that size, in parts where need be, and a marking strip of each kind of piece
    with it.
    """
    title = f"{name}: full-size layout"
    if laid is not None:
        items = _head(title, (*_NOTES, *_TABLE_NOTES)) + [i.placed(moved((0.0, -_GAP))) for i in laid.items]
    else:
        items = _head(title, _NOTES)
        turned = {sheet.mark: sheet for sheet in bent if not sheet.is_flat}
        strips = [marked(strip_of(book, g, turned[g.mark])) for g in book.parts.groups if g.mark in turned]
        boards = [marked(board) for board in _boards(book, bent)]
        items += _in_rows([*(flat_items(book, group) for group in _alike(book, flats)), *strips, *boards])
        items.append(strokes(Pen.BORDER, _frame(box_of(items))))
    return Picture(title=title, items=tuple(items), scale=1, units=book.units)


def laid_out(book: PartBook, flats: Sequence[SubFrame], bent: Sequence[BendSheet], table: Size) -> Laid:
    """Lay all on tables of a size [mm]."""
    drawn = [flat_of(book, group) for group in _alike(book, flats)]
    sheets = {sheet.mark: sheet for sheet in bent}
    strips = [strip_of(book, group, sheets.get(group.mark)) for group in book.parts.groups]
    return on_tables([*drawn, *strips, *_boards(book, bent)], table, book.units)


def _boards(book: PartBook, bent: Sequence[BendSheet]) -> list[Flat]:
    return [form_flat(book, form, number) for number, form in enumerate(forms(bent), start=1)]


def left_over_findings(laid: Laid, table: Size) -> tuple[Finding, ...]:
    """Say what no table of a size [mm] takes, even in parts."""
    if not laid.left_over:
        return ()
    fact = NoTable(length=table[0], width=table[1], names=tuple(laid.left_over))
    return (Finding(code="L-table", severity=Severity.WARNING, subjects=(), fact=fact),)


def _in_rows(drawings: list[list[Item]]) -> list[Item]:
    """Put drawings side by side below the head, in rows."""
    items: list[Item] = []
    x, y = 0.0, -_GAP
    row_height = 0.0
    for flat in drawings:
        left, _, _, top = box = box_of(flat)
        width, height = size_of(box)
        if x > 0.0 and x + width > _ROW:
            x, y, row_height = 0.0, y - row_height - _GAP, 0.0
        items += [i.placed(moved((x - left, y - top))) for i in flat]
        x += width + _GAP
        row_height = max(row_height, height)
    return items


def _alike(book: PartBook, flats: Sequence[SubFrame]) -> list[tuple[SubFrame, ...]]:
    """Put sub-frames together that are made of the same marks, the same way up: one drawing serves for all."""
    groups: dict[tuple[object, ...], list[SubFrame]] = {}
    for flat in flats:
        members = set(flat.members)
        pieces = [p for p in book.parts.pieces if p.member in members]
        key = tuple((p.mark, p.is_reversed, *_corner(p, flat)) for p in pieces)
        groups.setdefault(key, []).append(flat)
    return [tuple(g) for g in groups.values()]


def _corner(piece: Piece, flat: SubFrame) -> tuple[float, ...]:
    first = flat.plane.seen(piece.path.start - flat.plane.origin)
    last = flat.plane.seen(piece.path.end - flat.plane.origin)
    return tuple(round(v, 1) + 0.0 for v in (first.x, first.y, last.x, last.y))


def _head(title: str, notes: tuple[str, ...]) -> list[Item]:
    """Write the title and notes over all, and draw the bars to check a print with."""
    bottom = _BAR + 0.5 * _GAP
    top = bottom + _LEADING * (len(notes) + 1)
    items: list[Item] = [Text(at=(0.0, top), text=title, height=_TITLE)]
    items += [Text(at=(0.0, bottom + _LEADING * n), text=text, height=_TEXT) for n, text in enumerate(reversed(notes))]
    return items + _check_bars((0.0, 0.0))


def _check_bars(at: Point) -> list[Item]:
    """Draw bars of 100 mm, level and upright, and of 4 in: measure them before you trust a print."""
    x, y = at
    items: list[Item] = []
    bars: tuple[tuple[Point, Point, str], ...] = (
        ((0.0, 0.0), (_BAR, 0.0), "100 mm"),
        ((0.0, 3.0 * _TEXT), (4.0 * INCH_MM, 3.0 * _TEXT), "4 in"),
        ((3.0 * _BAR, 0.0), (3.0 * _BAR, _BAR), "100 mm"),
    )
    for (ax, ay), (bx, by), text in bars:
        start, end = (x + ax, y + ay), (x + bx, y + by)
        items.append(strokes(Pen.DIM, _bar(start, end)))
        items.append(Text(at=(end[0] + _TEXT, end[1] - _TEXT / 2.0), text=text, height=_TEXT))
    return items


def _bar(start: Point, end: Point) -> tuple[Segment, ...]:
    dx, dy = (0.0, _TICK) if start[1] == end[1] else (_TICK, 0.0)
    return ((start, end), *(((p[0] - dx, p[1] - dy), (p[0] + dx, p[1] + dy)) for p in (start, end)))


def _frame(box: Box) -> tuple[Segment, ...]:
    left, bottom, right, top = box[0] - _GAP, box[1] - _GAP, box[2] + _GAP, box[3] + _GAP
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    return tuple((corners[k], corners[(k + 1) % 4]) for k in range(4))
