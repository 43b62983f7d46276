"""Making a stick plan from pieces and sticks: counted, searched, and given back with names and proof."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import PlanError, Problem
from tubeframe.fabrication.cutting.carrying import carried_plan
from tubeframe.fabrication.cutting.certificate import Certificate, CertifiedStick, enough_weighings, reduced
from tubeframe.fabrication.cutting.counting import counted
from tubeframe.fabrication.cutting.effort import Effort
from tubeframe.fabrication.cutting.hanging import hangs_on
from tubeframe.fabrication.cutting.naming import car_for, named_sticks
from tubeframe.fabrication.cutting.patterns import cost_of, sticks_of
from tubeframe.fabrication.cutting.plan import Carried, CutPlan, PlanStatus, gap_of
from tubeframe.fabrication.cutting.search import cheapest_cover
from tubeframe.fabrication.cutting.shop_cuts import with_shop_cuts
from tubeframe.fabrication.cutting.sweet_spots import Tally
from tubeframe.fabrication.cutting.ties import best_of_equals
from tubeframe.geometry.units import Units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.saw import Saw
    from tubeframe.catalog.stock import Stock
    from tubeframe.fabrication.cutting.counting import Counted
    from tubeframe.fabrication.cutting.plan import Need
    from tubeframe.fabrication.cutting.search import Cover


def plan_cuts(
    needs: Sequence[Need],
    stocks: Sequence[Stock],
    *,
    saw: Saw,
    currency: str | None,
    effort: Effort | None = None,
    carry: float | None = None,
    units: Units = Units.INCH,
) -> CutPlan:
    """Plan one tube size at the least cost; among equal plans the one of fewest sticks, then as `best_of_equals` says.

    A stick takes pieces l1..ln when their sum, n - 1 kerfs and what the saw loses [mm] are within its usable length.
    Bought sticks longer than `carry` [mm] are cut in the shop, at places that are round in `units`.

    Raises:
        PlanError: when a piece is longer than every stick, or pieces on hand alone are too few.

    """
    _check_longest(needs, stocks, saw)
    effort = effort or Effort()
    count = counted(needs, stocks, saw, carry)
    cover = cheapest_cover(count.job, effort)
    if cover is None:
        raise PlanError(
            Problem(where="stock", key="on_hand", message="the pieces on hand are too few", remedy="add sticks to buy")
        )
    car = car_for(count, carry)
    patterns = best_of_equals(count.job, cover.patterns, cover.ways, effort)
    if car is not None:
        patterns = carried_plan(count.job, cover, car, patterns, effort)
    cost = cost_of(count.job, patterns)
    divided = named_sticks(patterns, count, car)
    more = Carried(
        tube=stocks[0].tube if stocks else "",
        cost=round((cost - cover.cost) * count.cost_unit, 4),
        sticks=sticks_of(patterns) - sticks_of(cover.patterns),
    )
    return CutPlan(
        status=PlanStatus.OPTIMAL if cover.bound >= cost else PlanStatus.BOUND,
        cost=round(cost * count.cost_unit, 4),
        lower_bound=round(cover.bound * count.cost_unit, 4),
        gap=gap_of(cost, cover.bound),
        priced=count.priced,
        currency=currency if count.priced else None,
        sticks=with_shop_cuts(divided, carry or 0.0, units),
        certificates=(_certificate(cover, count, cost),) if needs else (),
        carried=(more,) if more.cost else (),
        hangs_on=hangs_on(count, cover, units, effort),
    )


def least_tally(needs: Sequence[Need], stocks: Sequence[Stock], saw: Saw) -> Tally | None:
    """Return the least cost of one tube size and how many sticks are bought; None when it is not proved.

    Raises:
        PlanError: when a piece is longer than every stick.

    """
    _check_longest(needs, stocks, saw)
    count = counted(needs, stocks, saw)
    cover = cheapest_cover(count.job, Effort())
    if cover is None or cover.bound < cover.cost:
        return None
    bought = sum(p.times for p in cover.patterns if count.stocks[p.stick].bought)
    return Tally(cost=round(cover.cost * count.cost_unit, 4), sticks=bought)


def _certificate(cover: Cover, count: Counted, cost: int) -> Certificate:
    job, kerf = count.job, count.kerf
    return Certificate(
        tube=count.stocks[0].tube,
        unit=count.grid.unit,
        cost_unit=count.cost_unit,
        kerf=kerf,
        lengths=tuple(length - kerf for length in job.lengths),
        quantities=job.demands,
        sticks=tuple(CertifiedStick(length=s.capacity - kerf, cost=s.cost, quantity=s.limit) for s in job.sticks),
        weights=tuple(reduced(w.weights) for w in enough_weighings(job, cover.weighings, cover.proved)),
        cost=cost,
        proves=cover.proved,
    )


def _check_longest(needs: Sequence[Need], stocks: Sequence[Stock], saw: Saw) -> None:
    longest = max((s.usable for s in stocks), default=0.0)
    problems = [
        Problem(
            where="cut plan",
            key=need.mark,
            message=f"{need.length:.1f} mm is longer than the longest usable stick, {longest - saw.lost:.1f} mm",
            remedy="add longer [[stock]] to the workshop file",
        )
        for need in needs
        if need.quantity and not saw.gets(need.length, longest)
    ]
    if problems:
        raise PlanError(*problems)
