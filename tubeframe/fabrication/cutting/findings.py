"""What is told of a stick plan: what it hangs on, and of sticks that do not fit the car."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.cutting.facts import (
    CarryingCosts,
    LongerThanTheCar,
    NearSaving,
    PlanHangsOn,
    ShopCut,
    ShopCuts,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.fabrication.cutting.plan import CutPlan, Stick
    from tubeframe.fabrication.cutting.sweet_spots import SweetSpot

_CODE = "C-carry"


def plan_findings(plan: CutPlan, limit: float | None, names: Mapping[str, str]) -> tuple[Finding, ...]:
    """Say what a plan hangs on; and for what fits the car [mm], in one line a tube, which cuts to ask for.

    `names` are what tubes are called.
    """
    hanging = tuple(_hanging(plan, names))
    if limit is None:
        return hanging
    return (*hanging, *_cuts(plan, limit, names), *_costs(plan, names), *_stuck(plan, limit, names))


def spot_findings(spots: Sequence[SweetSpot]) -> tuple[Finding, ...]:
    """Tell each near value that saves."""
    return tuple(
        Finding(code="C-sweet-spot", severity=Severity.INFO, subjects=(), fact=NearSaving(spot=s)) for s in spots
    )


def _hanging(plan: CutPlan, names: Mapping[str, str]) -> Iterator[Finding]:
    for hang in plan.hangs_on:
        fact = PlanHangsOn(tube=names[hang.tube], hang=hang, priced=plan.priced, currency=plan.currency or "")
        yield Finding(code="C-hangs-on", severity=Severity.INFO, subjects=(), fact=fact)


def _cuts(plan: CutPlan, limit: float, names: Mapping[str, str]) -> Iterator[Finding]:
    for tube in dict.fromkeys(s.tube for s in plan.sticks):
        asked = Counter((s.stock_length, s.shop_cuts) for s in plan.sticks if s.tube == tube and s.shop_cuts)
        cuts = tuple(ShopCut(count=n, length=length, at=at) for (length, at), n in asked.items())
        if cuts:
            fact = ShopCuts(tube=names[tube], limit=limit, cuts=cuts)
            yield Finding(code=_CODE, severity=Severity.INFO, subjects=(), fact=fact)


def _costs(plan: CutPlan, names: Mapping[str, str]) -> Iterator[Finding]:
    for more in plan.carried:
        fact = CarryingCosts(
            tube=names[more.tube], cost=more.cost, sticks=more.sticks, priced=plan.priced, currency=plan.currency or ""
        )
        yield Finding(code=_CODE, severity=Severity.WARNING, subjects=(), fact=fact)


def _stuck(plan: CutPlan, limit: float, names: Mapping[str, str]) -> Iterator[Finding]:
    found: dict[tuple[str, float], list[Stick]] = {}
    for stick in plan.sticks:
        if not stick.on_hand and stick.stock_length > limit + 1e-6 and not stick.shop_cuts:
            found.setdefault((stick.tube, stick.stock_length), []).append(stick)
    for (tube, length), sticks in found.items():
        marks = tuple(dict.fromkeys(c.mark for s in sticks for c in s.cuts if c.length > limit)) or tuple(
            dict.fromkeys(c.mark for s in sticks for c in s.cuts)
        )
        fact = LongerThanTheCar(count=len(sticks), length=length, tube=names[tube], limit=limit, marks=marks)
        yield Finding(code=_CODE, severity=Severity.WARNING, subjects=(), fact=fact)
