"""The first page: what it is, how big, what to know before anything is bought or cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Text
from tubeframe.drawing.model.lettering import BODY, SMALL, TITLE
from tubeframe.drawing.sheets.isometric import isometric
from tubeframe.drawing.sheets.page_blocks import Column, caution_box, paragraph, table
from tubeframe.errors import Severity
from tubeframe.frame.caution import Moment
from tubeframe.geometry.units import Units, format_length
from tubeframe.words.cautions import LIMITS, all_cautions
from tubeframe.words.findings import told
from tubeframe.words.fittings import claim, measured_words

if TYPE_CHECKING:
    from tubeframe.design import Design
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook

_PICTURE_LEAST = 40.0
_PICTURE_MOST = 125.0
_POUNDS_PER_KG = 2.2046226218


def cover_page(flow: Flow, design: Design, book: PartBook) -> None:
    """Set the cover; the picture takes what room the words leave."""
    flow.page("cover")
    words = flow.measured(lambda beside: _head(beside, design)) + flow.measured(lambda beside: _words(beside, design))
    height = min(_PICTURE_MOST, max(_PICTURE_LEAST, flow.room - words - 3.0))
    _head(flow, design)
    box = (flow.x, flow.y - height, flow.width, height - 3.0)
    items, _ = isometric(tuple(book.bodies.values()), box)
    flow.put(items)
    flow.down(height + 2.0)
    _words(flow, design)


def _head(flow: Flow, design: Design) -> None:
    _errors(flow, design)
    flow.down(TITLE + 3.0)
    title = _title(design)
    cap = min(TITLE, TITLE * flow.width / text_width(title, TITLE, bold=True))
    flow.put([Text(at=(flow.x, flow.y), text=title, height=cap, bold=True)])
    flow.down(3.0)


def _words(flow: Flow, design: Design) -> None:
    table(flow, [Column(title="", share=17), Column(title="", share=83)], _facts(design))
    _warnings(flow, design)
    for caution in all_cautions(design.frame):
        if caution.before is Moment.USE:
            caution_box(flow, caution)
    paragraph(flow, " ".join(LIMITS), cap=SMALL)


def _title(design: Design) -> str:
    shown = " x ".join(format_length(v, design.workshop.units) for v in design.sizes)
    return f"{design.frame.name.capitalize()} {shown}"


def _errors(flow: Flow, design: Design) -> None:
    """Say in large letters that something is wrong, before anything else."""
    for finding in design.findings:
        if finding.severity is Severity.ERROR:
            words = told(finding, design.workshop.units)
            paragraph(flow, f"DO NOT BUILD YET: {words.where}: {words.message}.", cap=TITLE, bold=True)
            paragraph(flow, words.remedy, cap=BODY)


def _warnings(flow: Flow, design: Design) -> None:
    for finding in design.findings:
        if finding.severity is Severity.WARNING:
            words = told(finding, design.workshop.units)
            paragraph(flow, f"Warning: {words.message}. What to do: {words.remedy}.", bold=True)


def _bases(design: Design) -> list[list[str]]:
    """Say each main dimension on every basis: an outside size taken for an inside one is a costly mistake."""
    units = design.workshop.units
    width, length, height = design.sizes
    names = design.frame.sized_by or tuple(m.id for m in design.frame.members)
    size = next(p.size for p in design.parts.pieces if p.member in names)
    outside = design.workshop.catalog.tube(size).outside
    rows = []
    for name, value in (("Width", width), ("Length", length)):
        middle, clear = format_length(value - outside, units), format_length(value - 2.0 * outside, units)
        rows.append([name, f"{format_length(value, units)} outside, {middle} centre to centre, {clear} clear inside"])
    return [*rows, ["Height", f"{format_length(height, units)} from the floor to the finished top"]]


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
        ["Tubes", f"{tubes}; {mass} with boards, without fittings"],
        ["Fittings", claim(counts)],
        *([["Measured", measured]] if measured else []),
        *([f.label, f.text] for f in design.frame.facts),
    ]
