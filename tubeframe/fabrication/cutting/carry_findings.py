"""What is told of sticks that do not fit the car: the cuts to ask for, their price, and what cannot be carried."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.fabrication.facts import CarryingCosts, LongerThanTheCar, ShopCut, ShopCuts

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.fabrication.cutting.plan import CutPlan, Stick

_CODE = "C-carry"


def carrying(plan: CutPlan, workshop: Workshop) -> tuple[Finding, ...]:
    """Say in one line for each tube which cuts to ask for at the counter; tell what they cost, and what stays long."""
    limit = workshop.carry_length
    if limit is None:
        return ()
    names = {t: workshop.catalog.tube(t).name for t in dict.fromkeys(s.tube for s in plan.sticks)}
    return (*_cuts(plan, limit, names), *_costs(plan, names), *_stuck(plan, limit, names))


def _cuts(plan: CutPlan, limit: float, names: dict[str, str]) -> Iterator[Finding]:
    for tube, name in names.items():
        asked = Counter((s.stock_length, s.shop_cuts) for s in plan.sticks if s.tube == tube and s.shop_cuts)
        cuts = tuple(ShopCut(count=n, length=length, at=at) for (length, at), n in asked.items())
        if cuts:
            fact = ShopCuts(tube=name, limit=limit, cuts=cuts)
            yield Finding(code=_CODE, severity=Severity.INFO, subjects=(), fact=fact)


def _costs(plan: CutPlan, names: dict[str, str]) -> Iterator[Finding]:
    for more in plan.carried:
        fact = CarryingCosts(
            tube=names[more.tube], cost=more.cost, sticks=more.sticks, priced=plan.priced, currency=plan.currency or ""
        )
        yield Finding(code=_CODE, severity=Severity.WARNING, subjects=(), fact=fact)


def _stuck(plan: CutPlan, limit: float, names: dict[str, str]) -> Iterator[Finding]:
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
