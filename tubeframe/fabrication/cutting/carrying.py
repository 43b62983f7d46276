"""Sticks longer than what fits the car: where the shop cuts them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.facts import LongerThanTheCar

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.fabrication.cutting.plan import CutPlan, Stick


def carrying(plan: CutPlan, workshop: Workshop) -> tuple[Finding, ...]:
    """Say for each bought stick that does not fit the car where it is cut in the shop, or that it cannot be."""
    limit = workshop.carry_length
    if limit is None:
        return ()
    found: dict[tuple[float, tuple[str, ...]], Finding] = {}
    for number, stick in enumerate(plan.sticks, start=1):
        if not stick.on_hand and stick.stock_length > limit:
            marks = tuple(c.mark for c in stick.cuts)
            found.setdefault((stick.stock_length, marks), _finding(stick, number, limit, workshop))
    return tuple(found.values())


def _finding(stick: Stick, number: int, limit: float, workshop: Workshop) -> Finding:
    fact = LongerThanTheCar(
        stick=number,
        length=stick.stock_length,
        tube=workshop.catalog.tube(stick.tube).name,
        limit=limit,
        marks=tuple(c.mark for c in stick.cuts),
        cut_at=_shop_cut(stick, limit),
    )
    severity = Severity.WARNING if fact.cut_at is None else Severity.INFO
    return Finding(code="C-carry", severity=severity, subjects=(), fact=fact)


def _shop_cut(stick: Stick, limit: float) -> float | None:
    """Return a place between two pieces, or after the last, that leaves two parts within a limit [mm]."""
    at = 0.0
    for cut in stick.cuts:
        at += cut.length + stick.kerf
        if at <= limit and stick.stock_length - at <= limit:
            return at
    return None
