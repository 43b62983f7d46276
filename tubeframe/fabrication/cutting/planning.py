"""Making a stick plan from pieces and sticks in millimetres: counted, searched, and given back with names."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from tubeframe.errors import PlanError, Problem
from tubeframe.fabrication.cutting.certificate import Certificate, CertifiedStick, enough_weighings, reduced
from tubeframe.fabrication.cutting.effort import Effort
from tubeframe.fabrication.cutting.grid import grid_for, whole_costs
from tubeframe.fabrication.cutting.job import Job, StickType
from tubeframe.fabrication.cutting.plan import Cut, CutPlan, PlanStatus, Stick, fits_stick, gap_of
from tubeframe.fabrication.cutting.search import cheapest_cover
from tubeframe.fabrication.cutting.ties import best_of_equals

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.catalog.stock import Stock
    from tubeframe.fabrication.cutting.grid import Grid
    from tubeframe.fabrication.cutting.patterns import Pattern
    from tubeframe.fabrication.cutting.plan import Need, Saw
    from tubeframe.fabrication.cutting.search import Cover


def plan_cuts(
    needs: Sequence[Need],
    stocks: Sequence[Stock],
    *,
    saw: Saw,
    currency: str | None,
    effort: Effort | None = None,
) -> CutPlan:
    """Plan one tube size at the least cost; among equal plans the one of fewest sticks, then as `best_of_equals` says.

    A stick takes pieces l1..ln when their sum, n - 1 kerfs and what the saw loses [mm] are within its usable length.

    Raises:
        PlanError: when a piece is longer than every stick, or pieces on hand alone are too few.

    """
    _check_longest(needs, stocks, saw)
    priced = all(s.price for s in stocks if s.bought)
    grid = _grid(needs, stocks, saw)
    job, cost_unit = _job(needs, stocks, saw, grid, priced=priced)
    effort = effort or Effort()
    cover = cheapest_cover(job, effort)
    if cover is None:
        raise PlanError(
            Problem(where="stock", key="on_hand", message="the pieces on hand are too few", remedy="add sticks to buy")
        )
    return CutPlan(
        status=PlanStatus.OPTIMAL if cover.bound >= cover.cost else PlanStatus.BOUND,
        cost=round(cover.cost * cost_unit, 4),
        lower_bound=round(cover.bound * cost_unit, 4),
        gap=gap_of(cover.cost, cover.bound),
        priced=priced,
        currency=currency if priced else None,
        sticks=_sticks(best_of_equals(job, cover.patterns, cover.ways, effort), job, needs, stocks, saw, grid),
        certificates=(_certificate(cover, job, stocks, grid.up(saw.kerf), (grid.unit, cost_unit)),) if needs else (),
    )


def _grid(needs: Sequence[Need], stocks: Sequence[Stock], saw: Saw) -> Grid:
    lengths = [n.length for n in needs for _ in range(n.quantity)] + [s.usable for s in stocks]
    return grid_for([*lengths, saw.kerf, saw.lost], max((s.usable for s in stocks), default=0.0))


def _job(needs: Sequence[Need], stocks: Sequence[Stock], saw: Saw, grid: Grid, *, priced: bool) -> tuple[Job, float]:
    """Count lengths in steps of a grid, equal lengths as one; return the unit that costs are counted in too."""
    kerf, lost = grid.up(saw.kerf), grid.up(saw.lost)
    counted: Counter[int] = Counter()
    for need in needs:
        counted[_steps(need, stocks, saw, grid)] += need.quantity
    lengths = tuple(sorted((+counted), reverse=True))
    costs, unit = whole_costs([_cost(s, priced=priced) for s in stocks])
    sticks = tuple(
        StickType(capacity=max(0, grid.down(s.usable) - lost + kerf), cost=cost, limit=s.on_hand)
        for s, cost in zip(stocks, costs, strict=True)
    )
    demands = tuple(counted[length] for length in lengths)
    return Job(lengths=tuple(length + kerf for length in lengths), demands=demands, sticks=sticks), unit


def _steps(need: Need, stocks: Sequence[Stock], saw: Saw, grid: Grid) -> int:
    """Count a piece's length in steps; one that just comes out of the longest stick does so when it is rounded, too."""
    return min(grid.up(need.length), max(grid.down(s.usable) - grid.up(saw.lost) for s in stocks))


def _certificate(cover: Cover, job: Job, stocks: Sequence[Stock], kerf: int, units: tuple[float, float]) -> Certificate:
    return Certificate(
        tube=stocks[0].tube,
        unit=units[0],
        cost_unit=units[1],
        kerf=kerf,
        lengths=tuple(length - kerf for length in job.lengths),
        quantities=job.demands,
        sticks=tuple(CertifiedStick(length=s.capacity - kerf, cost=s.cost, quantity=s.limit) for s in job.sticks),
        weights=tuple(reduced(w.weights) for w in enough_weighings(job, cover.weighings, cover.proved)),
        cost=cover.cost,
        proves=cover.proved,
    )


def _cost(stock: Stock, *, priced: bool) -> float:
    if not stock.bought:
        return 0.0
    return (stock.price or 0.0) if priced else stock.length


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
        if need.quantity and not fits_stick(need.length, longest, saw)
    ]
    if problems:
        raise PlanError(*problems)


def _sticks(
    patterns: Sequence[Pattern], job: Job, needs: Sequence[Need], stocks: Sequence[Stock], saw: Saw, grid: Grid
) -> tuple[Stick, ...]:
    """Name the pieces of every stick; equal lengths of several marks go out in the order of the needs."""
    kerf = grid.up(saw.kerf)
    waiting = {
        length: [
            Cut(mark=n.mark, length=n.length)
            for n in needs
            if _steps(n, stocks, saw, grid) + kerf == length
            for _ in range(n.quantity)
        ]
        for length in job.lengths
    }
    made = []
    for pattern in sorted(patterns, key=lambda p: _order(p, stocks)):
        for _ in range(pattern.times):
            cuts = tuple(
                waiting[length].pop(0)
                for length, count in zip(job.lengths, pattern.counts, strict=True)
                for _ in range(min(count, len(waiting[length])))
            )
            if cuts:
                made.append(_stick(stocks[pattern.stick], cuts, saw))
    return tuple(made)


def _order(pattern: Pattern, stocks: Sequence[Stock]) -> tuple[float, tuple[int, ...], int]:
    """Sort the longest sticks first, then the longest pieces."""
    return -stocks[pattern.stick].length, tuple(-c for c in pattern.counts), pattern.stick


def _stick(stock: Stock, cuts: Iterable[Cut], saw: Saw) -> Stick:
    taken = tuple(cuts)
    left = stock.usable - sum(c.length for c in taken) - saw.kerf * len(taken)
    return Stick(
        tube=stock.tube,
        stock_length=stock.length,
        usable=stock.usable,
        on_hand=not stock.bought,
        price=stock.price,
        cuts=taken,
        kerf=saw.kerf,
        offcut=max(0.0, left),
    )
