"""Pieces and sticks in millimetres and money, counted as a job in whole numbers."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.grid import grid_for, whole_costs
from tubeframe.fabrication.cutting.job import Job, StickType

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.saw import Saw
    from tubeframe.catalog.stock import Stock
    from tubeframe.fabrication.cutting.grid import Grid
    from tubeframe.fabrication.cutting.plan import Need


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """A job, what it was counted from, and in which steps and units of cost."""

    needs: tuple[Need, ...]
    stocks: tuple[Stock, ...]
    saw: Saw
    grid: Grid
    priced: bool
    cost_unit: float
    job: Job

    @property
    def kerf(self) -> int:
        """The kerf in steps."""
        return self.grid.up(self.saw.kerf)

    def length_of(self, need: Need) -> int:
        """Return the job's length of a piece: in steps, with a kerf."""
        return _steps(need, self.stocks, self.saw, self.grid) + self.kerf


def counted(needs: Sequence[Need], stocks: Sequence[Stock], saw: Saw, car: float | None = None) -> Counted:
    """Count lengths in steps of a grid, equal lengths as one; cost is money, or length where no price is known.

    The steps are fine enough for what fits a car, too, where that matters [mm].
    """
    lengths = [n.length for n in needs for _ in range(n.quantity)] + [s.usable for s in stocks]
    travel = [] if car is None else [car, *(s.length for s in stocks)]
    grid = grid_for([*lengths, *travel, saw.kerf, saw.lost], max((s.usable for s in stocks), default=0.0))
    kerf, lost = grid.up(saw.kerf), grid.up(saw.lost)
    demands: Counter[int] = Counter()
    for need in needs:
        demands[_steps(need, stocks, saw, grid) + kerf] += need.quantity
    priced = all(s.price for s in stocks if s.bought)
    costs, unit = whole_costs([_cost(s, priced=priced) for s in stocks])
    sticks = tuple(
        StickType(capacity=max(0, grid.down(s.usable) - lost + kerf), cost=cost, limit=s.on_hand)
        for s, cost in zip(stocks, costs, strict=True)
    )
    longest_first = tuple(sorted(+demands, reverse=True))
    job = Job(lengths=longest_first, demands=tuple(demands[v] for v in longest_first), sticks=sticks)
    return Counted(needs=tuple(needs), stocks=tuple(stocks), saw=saw, grid=grid, priced=priced, cost_unit=unit, job=job)


def _steps(need: Need, stocks: Sequence[Stock], saw: Saw, grid: Grid) -> int:
    """Count a piece's length in steps; one that just comes out of the longest stick does so when it is rounded, too."""
    return min(grid.up(need.length), max(grid.down(s.usable) - grid.up(saw.lost) for s in stocks))


def _cost(stock: Stock, *, priced: bool) -> float:
    if not stock.bought:
        return 0.0
    return (stock.price or 0.0) if priced else stock.length
