"""Sticks longer than what fits the car: where the shop cuts them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.fabrication.cutting import CutPlan, Stick


def carrying(plan: CutPlan, workshop: Workshop) -> tuple[Finding, ...]:
    """Say for each bought stick that does not fit the car where it is cut in the shop, or that it cannot be."""
    limit = workshop.carry_length
    if limit is None:
        return ()
    found: dict[str, Finding] = {}
    for number, stick in enumerate(plan.sticks, start=1):
        if stick.on_hand or stick.stock_length <= limit:
            continue
        finding = _finding(stick, number, limit, workshop)
        found.setdefault(finding.message, finding)
    return tuple(found.values())


def _finding(stick: Stick, number: int, limit: float, workshop: Workshop) -> Finding:
    units = workshop.units
    name = workshop.catalog.tube(stick.tube).name
    longer = f"a stick of {format_length(stick.stock_length, units)} {name} is longer than the car's"
    at = _shop_cut(stick, limit)
    marks = ", ".join(c.mark for c in stick.cuts)
    if at is None:
        return Finding(
            code="C-carry",
            severity=Severity.WARNING,
            where=f"stick {number}",
            message=f"{longer} {format_length(limit, units)}, and no cut of {marks} makes it shorter",
            remedy="have it delivered, or choose a smaller frame",
        )
    return Finding(
        code="C-carry",
        severity=Severity.INFO,
        where=f"stick {number}",
        message=f"{longer} {format_length(limit, units)} ({marks})",
        remedy=f"have the shop cut it {format_length(at, units)} from one end",
    )


def _shop_cut(stick: Stick, limit: float) -> float | None:
    """Return a place between two pieces, or after the last, that leaves two parts within a limit [mm]."""
    at = 0.0
    for cut in stick.cuts:
        at += cut.length + stick.kerf
        if at <= limit and stick.stock_length - at <= limit:
            return at
    return None
