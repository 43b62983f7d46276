"""What is cut and marked on each tube: its lengths, its ends, and the stations from end A on a strip."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import BODY, NOTE, SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.sheets.joint_kinds import joint_kinds
from tubeframe.drawing.sheets.page_blocks import LEADING, hanging, heading, paragraph, tick_box
from tubeframe.geometry.units import format_exact, format_length
from tubeframe.words.listing import kind_word

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.joints.joint import JointId
    from tubeframe.parts.piece import Piece, PieceGroup, Station

_STRIP = 5.0
_BOX = 4.2
_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_COLUMN = 86.0
_CROWDED = 10
"""A tube with more stations has a strip as wide as the page."""
_GAP = 3.0
_LEAST = 95.0
"""The words before the marks and two rows of them [mm]."""
_LEANS = 0.1
"""A branch leans when the cosine of its angle to the run is more."""
_DONE = ("cut", "deburred", "marked")


def marking_pages(flow: Flow, book: PartBook) -> None:
    """Set every mark with its lengths, a strip with its stations, and boxes for what is done."""
    flow.section("marking", least=_LEAST)
    heading(flow, "Mark")
    flow.body = NOTE
    paragraph(
        flow,
        "Hook the tape on end A and leave it there: every distance runs from A to the MIDDLE of a clamp. "
        f"Cut lengths are rounded down, never up. Boxes: {', '.join(_DONE)}.",
    )
    if any(g.first.bends for g in book.parts.groups):
        paragraph(
            flow,
            "A tube that is bent is marked before it is bent, on the straight stick: its distances run from the rough "
            "end that becomes A, along the tube. What is cut off there after bending is in them.",
        )
    paragraph(flow, _turns(book))
    signs = {j.id: k.sign for k in joint_kinds(book) for j in k.joints}
    _clamp_edges(flow, book, signs)
    crowded = any(len(g.first.stations) > _CROWDED for g in book.parts.groups)
    a_row = 1 if crowded else max(1, int((flow.width + _GAP) // (_COLUMN + _GAP)))
    bare = [g for g in book.parts.groups if not g.first.stations]
    for groups in ([g for g in book.parts.groups if g not in bare], bare):
        for first in range(0, len(groups), a_row):
            _row(flow, groups[first : first + a_row], a_row, book, signs)
    flow.body = BODY


def _turns(book: PartBook) -> str:
    """Say how turns are counted and marked, for the tubes that have some."""
    bent = any(g.first.bends for g in book.parts.groups)
    start = "the inside of the bends, or on a straight tube " if bent else ""
    sizes = dict.fromkeys(g.first.size for g in book.parts.groups if any(_turn(s) for s in g.first.stations))
    quarters = ", ".join(
        f"{format_length(math.pi * book.catalog.tube(s).outside / 4.0, book.units)} round {book.catalog.tube(s).name}"
        for s in sizes
    )
    told = f"A clamp without a turn points {'to ' if bent else ''}{start}the way clamp a does."
    if quarters:
        told += f" A turn is clockwise from there, looking along the tube from A to B: 90° is {quarters}."
    return told


def _turn(station: Station) -> int:
    return round(station.roll) % 360


def _lean(station: Station, piece: Piece, book: PartBook) -> str:
    """Say to which end a slanted branch leans."""
    joint = book.joint_of[station.joint]
    along = piece.path.tangent(station.from_a)
    for use in joint.uses:
        lean = use.axis.dot(along)
        if use.tube != piece.id and use.role is PortRole.BRANCH and abs(lean) > _LEANS:
            return f" leans to {'B' if lean > 0.0 else 'A'}"
    return ""


def _row(flow: Flow, groups: Sequence[PieceGroup], a_row: int, book: PartBook, signs: Mapping[JointId, str]) -> None:
    """Set some marks side by side."""
    pitch = (flow.width + 2.0 * _GAP) / a_row
    width = pitch - 2.0 * _GAP
    high = max(_block_high(flow, g, width, book, signs) for g in groups)
    flow.need(high)
    for n, group in enumerate(groups):
        with flow.inset(n * pitch, width):
            _block(flow, group, book, signs)
    flow.down(high)


def _block_high(flow: Flow, group: PieceGroup, width: float, book: PartBook, signs: Mapping[JointId, str]) -> float:
    return flow.measured(lambda beside: _block(beside, group, book, signs), width)


def _clamp_edges(flow: Flow, book: PartBook, signs: Mapping[JointId, str]) -> None:
    """Say how wide each clamp is: a mark at its edges can still be seen when it is on."""
    units = book.units
    size_of = {p.id: book.catalog.tube(p.size).name for p in book.parts.pieces}
    several = len(set(size_of.values())) > 1
    halves: dict[str, str] = {}
    for joint in book.joints:
        fitting = joint.fitting
        if fitting is None:
            continue
        name = f"{signs[joint.id]} {kind_word(joint.kind)}" if joint.id in signs else kind_word(joint.kind)
        for use in (u for u in joint.uses if u.role is PortRole.RUN):
            key = f"{name} on {size_of[use.tube]}" if several else name
            halves[key] = format_length(fitting.port(use.port).grip / 2.0, units)
    if halves:
        shown = ", ".join(f"{kind} {half}" for kind, half in halves.items())
        paragraph(flow, f"Mark the clamp's edges too, this far on both sides of its middle: {shown}.")


def _block(flow: Flow, group: PieceGroup, book: PartBook, signs: Mapping[JointId, str]) -> None:
    """Draw a tube as a strip between its lengths and the distances of its stations, lettered from A."""
    piece, cap = group.first, flow.body
    title = f"{group.mark}   {group.quantity} x {_length(piece, book)}"
    beside = text_width(title, BODY, bold=True) + _GAP
    about = hanging(_about(group, book), flow.width - len(_DONE) * (_BOX + 2.0), beside, SMALL)
    rows = _wrapped([_station_text(n, s, piece, book, signs) for n, s in enumerate(piece.stations)], flow.width, cap)
    flow.down(BODY * 1.7)
    flow.put([Text(at=(flow.x, flow.y), text=title, height=BODY, bold=True)])
    edge = flow.x + flow.width
    flow.put([tick_box(edge - (n + 1) * (_BOX + 2.0), flow.y - 0.2, _BOX) for n in range(len(_DONE))])
    for n, row in enumerate(about):
        flow.down(SMALL * LEADING if n else 0.0)
        flow.put([Text(at=(flow.x + (0.0 if n else beside), flow.y), text=row, height=SMALL)])
    if rows:
        flow.down(_STRIP + 6.5)
        flow.put(_strip_items(flow, piece))
        flow.down(0.5)
    for row in rows:
        flow.down(cap * LEADING)
        flow.put([Text(at=(flow.x, flow.y), text=row, height=cap)])
    flow.down(_GAP)


def _length(piece: Piece, book: PartBook) -> str:
    """Print what is cut from the stick; a tube that is bent is rough first."""
    units = book.units
    if not piece.bends:
        return format_length(piece.cut_rounded, units)
    return f"{format_length(piece.stick_length, units)} rough"


def _about(group: PieceGroup, book: PartBook) -> str:
    piece, units = group.first, book.units
    sizes = {g.first.size for g in book.parts.groups}
    tube = f"{book.catalog.tube(piece.size).name}; " if len(sizes) > 1 else ""
    bent = f"bend, then trim to {format_length(piece.cut_rounded, units)}; " if piece.bends else ""
    bare = "" if piece.stations else "; no clamp on it"
    return (
        f"{tube}{bent}exact {format_exact(piece.cut_length, units)}; "
        f"A {piece.end_a.kind.value}, B {piece.end_b.kind.value}{bare}"
    )


def _station_text(number: int, station: Station, piece: Piece, book: PartBook, signs: Mapping[JointId, str]) -> str:
    sign = signs.get(station.joint) or kind_word(book.joint_of[station.joint].kind)
    turned = _turn(station)
    turn = _lean(station, piece, book) + (f" turned {turned}°" if turned else "")
    distance = format_length(piece.allowance_a + station.from_a, book.units)
    return f"{_LETTERS[number % 26]}  {distance}  {sign}{turn}"


def _wrapped(parts: list[str], width: float, cap: float) -> list[str]:
    """Put texts into rows, none of them parted."""
    rows: list[str] = []
    for part in parts:
        longer = f"{rows[-1]}     {part}" if rows else part
        if rows and text_width(longer, cap) <= width:
            rows[-1] = longer
        else:
            rows.append(part)
    return rows


def _strip_items(flow: Flow, piece: Piece) -> list[Mark]:
    x, y = flow.x + 6.0, flow.y
    whole = piece.stick_length if piece.bends else piece.cut_length
    scale = (flow.width - 12.0) / whole
    right = x + whole * scale
    outline = ((x, y), (right, y), (right, y + _STRIP), (x, y + _STRIP))
    items: list[Mark] = [Drawn(shape=Area(corners=outline), pen=Pen.WIDE, fill=Fill.WHITE)]
    items += _end_letter(x - 3.5, y, "A", filled=True) + _end_letter(right + 3.5, y, "B", filled=False)
    start = x + piece.allowance_a * scale
    items += [
        strokes(Pen.HIDDEN, (((at, y), (at, y + _STRIP)),))
        for at in (start + b.start_from_a * scale for b in piece.bends)
    ]
    last, level = -100.0, 0
    for number, station in enumerate(piece.stations):
        at = start + station.from_a * scale
        level = 1 - level if at - last < 3.0 else 0
        last = at
        foot = y + _STRIP + 1.0 + level * 2.6
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
