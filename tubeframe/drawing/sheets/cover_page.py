"""The first page: what it is, how big, what to know before anything is bought or cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.lettering import BODY, NOTE, SMALL, TITLE
from tubeframe.drawing.sheets.isometric import isometric
from tubeframe.drawing.sheets.page_blocks import caution_box, paragraph, table
from tubeframe.drawing.sheets.table_columns import Column
from tubeframe.errors import Severity
from tubeframe.frame.caution import Moment
from tubeframe.frame.frame import LengthAlong
from tubeframe.geometry.extent import of_tube
from tubeframe.geometry.path import Path, Straight
from tubeframe.geometry.tolerance import PLANE_MM
from tubeframe.geometry.units import Units, format_length
from tubeframe.geometry.vector import X, Y
from tubeframe.words.cautions import LIMITS, all_cautions
from tubeframe.words.cover import cover_lines
from tubeframe.words.findings import told
from tubeframe.words.fittings import claim, measured_words
from tubeframe.words.savings import stick_lines

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.geometry.vector import Vec

_PICTURE_LEAST = 32.0
_PICTURE_GOOD, _PICTURE_MOST = 92.0, 118.0
"""Heights of the picture: least, least beside which something more may stand, and half a page [mm]."""
_POUNDS_PER_KG = 2.2046226218
_SQUARE = 1e-3


def cover_page(flow: Flow, design: Design, book: PartBook, *, below: float = 0.0) -> None:
    """Set the cover; the picture takes what room the words leave, and what is to stand below where it can [mm]."""
    flow.page("cover")
    flow.body = NOTE
    words = flow.measured(lambda beside: _head(beside, design)) + flow.measured(lambda beside: _words(beside, design))
    room = flow.room - words - 3.0
    height = min(_PICTURE_MOST, max(_PICTURE_LEAST, room - below if room - below >= _PICTURE_GOOD else room))
    _head(flow, design)
    box = (flow.x, flow.y - height, flow.width, height - 3.0)
    flow.put(isometric(tuple(book.bodies.values()), box))
    flow.down(height + 2.0)
    _words(flow, design)
    flow.body = BODY


def _head(flow: Flow, design: Design) -> None:
    _errors(flow, design)
    flow.down(TITLE + 3.0)
    title = _title(design)
    cap = min(TITLE, TITLE * flow.width / text_width(title, TITLE, bold=True))
    flow.put([Text(at=(flow.x, flow.y), text=title, height=cap, bold=True)])
    flow.down(3.0)


def _words(flow: Flow, design: Design) -> None:
    table(flow, [Column(title="", share=17), Column(title="", share=83)], _facts(design), cap=NOTE)
    _warnings(flow, design)
    for caution in all_cautions(design.frame):
        if caution.before is Moment.USE:
            caution_box(flow, caution)
    paragraph(flow, " ".join(LIMITS), cap=SMALL)


def _title(design: Design) -> str:
    shown = " x ".join(format_length(v, design.workshop.units) for v in design.sizes)
    return f"{design.frame.name.capitalize()} {shown}"


def _errors(flow: Flow, design: Design) -> None:
    """Say in large letters that something is wrong, before anything else, and then what."""
    errors = [told(f, design.workshop.units) for f in design.findings if f.severity is Severity.ERROR]
    if errors:
        paragraph(flow, "DO NOT BUILD YET", cap=TITLE, bold=True)
    for words in errors:
        paragraph(flow, f"{words.where}: {words.message}. What to do: {words.remedy}.", bold=True)


def _warnings(flow: Flow, design: Design) -> None:
    for finding in design.findings:
        if finding.severity is Severity.WARNING:
            words = told(finding, design.workshop.units)
            paragraph(flow, f"Warning: {words.where}: {words.message}. What to do: {words.remedy}.", bold=True)


def _bases(design: Design) -> list[list[str]]:
    """Say each main dimension on every basis: an outside size taken for an inside one is a costly mistake."""
    units = design.workshop.units
    width, length, height = design.sizes
    along = (Y, X) if design.frame.length_along is LengthAlong.X else (X, Y)
    rows = []
    for name, value, axis in (("Width", width, along[0]), ("Length", length, along[1])):
        edges = [_edge_tube(design, axis * sign) for sign in (-1.0, 1.0)]
        text = f"{format_length(value, units)} outside"
        if None not in edges:
            both = sum(outside or 0.0 for outside in edges)
            middle, clear = format_length(value - both / 2.0, units), format_length(value - both, units)
            text += f", {middle} centre to centre, {clear} clear inside"
        rows.append([name, text])
    return [*rows, ["Height", f"{format_length(height, units)} from the floor to the finished top"]]


def _edge_tube(design: Design, way: Vec) -> float | None:
    """Return the outside diameter of the tube that carries the asked size one way; None when it is not square to it."""
    names = set(design.frame.sized_by) or {m.id for m in design.frame.members}
    reached: list[tuple[float, float | None]] = []
    for piece in (p for p in design.parts.pieces if p.member in names):
        outside = design.workshop.catalog.tube(piece.size).outside
        for part in piece.path.pieces:
            box = of_tube(Path(pieces=(part,)), outside)
            reach = max(box.low.dot(way), box.high.dot(way))
            is_square = isinstance(part, Straight) and abs(part.end_tangents[0].dot(way)) < _SQUARE
            reached.append((reach, outside if is_square else None))
    edge = max(reach for reach, _ in reached)
    return next((o for reach, o in reached if reach > edge - PLANE_MM and o is not None), None)


def _facts(design: Design) -> list[list[str]]:
    units = design.workshop.units
    mass = f"{design.mass * _POUNDS_PER_KG:.0f} lb" if units is Units.INCH else f"{design.mass:.0f} kg"
    sizes = [design.workshop.catalog.tube(k) for k in dict.fromkeys(p.size for p in design.parts.pieces)]
    tubes = "; ".join(
        f"{t.name}: {format_length(t.outside, units, 64)} outside, "
        f"{sum(1 for p in design.parts.pieces if p.size == t.key)} pieces"
        for t in sizes
    )
    counts = design.fabrication.fittings
    measured = measured_words(counts)
    return [
        *_bases(design),
        ["Tubes", f"{tubes}; {mass}{' with boards' if design.frame.panels else ''}, without fittings"],
        ["Fittings", claim(counts)],
        *([["Measured", measured]] if measured else []),
        *([label, text] for label, text in stick_lines(design)),
        *([label, text] for label, text in cover_lines(design.frame, design.workshop)),
    ]
