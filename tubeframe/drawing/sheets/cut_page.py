"""Every stick with the pieces that are cut from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text
from tubeframe.drawing.model.lettering import BODY, SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Area
from tubeframe.drawing.sheets.page_blocks import caution_box, heading, paragraph
from tubeframe.fabrication.cutting.plan import PlanStatus
from tubeframe.frame.caution import Moment
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Point
    from tubeframe.drawing.sheets.page_flow import Flow
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.fabrication.bending import BendSheet
    from tubeframe.fabrication.cutting.plan import CutPlan, Stick
    from tubeframe.frame.caution import Caution
    from tubeframe.geometry.units import Units

_BAR = 6.0
_BAR_PITCH = 15.5


def cut_page(
    flow: Flow, book: PartBook, plan: CutPlan, bend_sheets: Sequence[BendSheet], cautions: Sequence[Caution]
) -> None:
    """Draw every stick with the pieces that are cut from it; equal sticks once."""
    flow.page("cut plan")
    heading(flow, "Cut")
    for caution in cautions:
        if caution.before is Moment.CUTTING:
            caution_box(flow, caution)
    least = "no cheaper plan exists" if plan.currency else "no plan takes less bought length"
    proof = least if plan.status is PlanStatus.OPTIMAL else f"within {plan.gap:.1%} of the least"
    paragraph(flow, f"{len(plan.sticks)} sticks; {proof}. Cut the longest pieces first. Write each mark near end A.")
    if bend_sheets:
        paragraph(flow, "Pieces marked * are bent before they are cut to length: the bend sheet says what to trim.")
    bent = {b.mark for b in bend_sheets}
    longest = max((s.stock_length for s in plan.sticks), default=1.0)
    for group in _equal_sticks(plan.sticks):
        flow.need(_BAR_PITCH)
        name = book.catalog.tube(group.stick.tube).name
        where = "from the garage" if group.stick.on_hand else "stick"
        flow.down(BODY * 1.7)
        text = f"{group.count} x {where} {name}, {format_length(group.stick.stock_length, book.units)}"
        flow.put([Text(at=(flow.x, flow.y), text=text, height=BODY, bold=True)])
        flow.down(_BAR + 1.6)
        flow.put(_bar((flow.x, flow.y), group.stick, flow.width / longest, book.units, bent))
        flow.down(2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _StickGroup:
    stick: Stick
    count: int


def _equal_sticks(sticks: tuple[Stick, ...]) -> list[_StickGroup]:
    counted: dict[tuple[object, ...], list[Stick]] = {}
    for s in sticks:
        counted.setdefault((s.tube, s.stock_length, s.on_hand, s.cuts), []).append(s)
    return [_StickGroup(stick=group[0], count=len(group)) for group in counted.values()]


def _bar(corner: Point, stick: Stick, scale: float, units: Units, bent: set[str]) -> list[Mark]:
    """Draw a stick as a bar; pieces white, what is left grey, and saw cuts as wide as they are."""
    x, y = corner
    items: list[Mark] = [_box(x, y, stick.stock_length * scale, Fill.LIGHT)]
    for cut in stick.cuts:
        width = cut.length * scale
        star = "*" if cut.mark in bent else ""
        items.append(_box(x, y, width, Fill.WHITE))
        items += _label(x, y, width, f"{cut.mark}{star}  {format_length(cut.length, units)}", f"{cut.mark}{star}")
        x += width + stick.kerf * scale
    left = format_length(stick.offcut, units)
    items += _label(x, y, corner[0] + stick.stock_length * scale - x, f"left {left}", left)
    return items


def _label(x: float, y: float, width: float, *texts: str) -> list[Mark]:
    """Set the first text that fits into a bar's part."""
    for text in texts:
        for cap in (BODY, SMALL):
            if text_width(text, cap) < width - 1.5:
                at = (x + width / 2.0, y + (_BAR - cap) / 2.0)
                return [Text(at=at, text=text, height=cap, anchor=Anchor.CENTRE)]
    return []


def _box(x: float, y: float, width: float, fill: Fill) -> Drawn:
    points = ((x, y), (x + width, y), (x + width, y + _BAR), (x, y + _BAR))
    return Drawn(shape=Area(corners=points), pen=Pen.NARROW, fill=fill)
