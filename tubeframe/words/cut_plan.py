"""A stick plan as lines to read at the saw."""

from __future__ import annotations

from collections import Counter
from itertools import accumulate
from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.plan import PlanStatus, alike
from tubeframe.geometry.units import format_length, format_range

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.fabrication.cutting.plan import AlikeSticks, CutPlan
    from tubeframe.geometry.units import Units


def plan_lines(plan: CutPlan, units: Units) -> list[str]:
    """Say what is bought, what it costs and how far that is proved, then every stick with its cuts."""
    several = len({s.tube for s in plan.sticks}) > 1
    return [
        _bought(plan, units),
        cost_words(plan, units),
        *(_stick(a, units, several=several) for a in alike(plan.sticks)),
    ]


def cost_words(plan: CutPlan, units: Units) -> str:
    """Say what a plan costs, and whether a cheaper one is ruled out."""
    cost, bound = (
        f"{v:.2f}{f' {plan.currency}' if plan.currency else ''}" if plan.priced else f"{format_range(v, units)} bought"
        for v in (plan.cost, plan.lower_bound)
    )
    if plan.status is PlanStatus.OPTIMAL:
        return f"cost {cost}: proved, no plan costs less"
    return f"cost {cost}: no plan costs less than {bound}, {plan.gap:.1%} below"


def _bought(plan: CutPlan, units: Units) -> str:
    """Count the sticks, those to buy first."""
    counted = Counter((s.on_hand, s.stock_length) for s in plan.sticks)
    buy = [f"{n} of {format_range(v, units)}" for (on_hand, v), n in counted.items() if not on_hand]
    use = [f"{n} of {format_length(v, units)}" for (on_hand, v), n in counted.items() if on_hand]
    return "; ".join(
        [f"buy {' and '.join(buy)}" if buy else "buy nothing", *([f"use {', '.join(use)}"] if use else [])]
    )


def _stick(group: AlikeSticks, units: Units, *, several: bool) -> str:
    stick = group.stick
    tube = f"{stick.tube} " if several else ""
    where = " on hand" if stick.on_hand else ""
    shop = " and ".join(format_length(at, units) for at in stick.shop_cuts)
    name = f"{tube}{format_range(stick.stock_length, units)}{where}{f' (shop cut at {shop})' if shop else ''}"
    return f"{group.count} x {name}: {', '.join(_cuts(group, units))}"


def _cuts(group: AlikeSticks, units: Units) -> Iterator[str]:
    stick = group.stick
    ends = set(accumulate(stick.cuts_of_parts[:-1]))
    for n, cut in enumerate(stick.cuts, start=1):
        yield f"{cut.mark} {format_length(cut.length, units)}{' |' if n in ends else ''}"
    yield f"left {format_length(group.stick.offcut, units)}"
