"""The stick plan: which pieces are cut from which stick, at the least cost, proved."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.errors import PlanError, Problem
from tubeframe.fabrication.job import Job, StickType

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.catalog.stock import Stock
    from tubeframe.fabrication.cover import Cover

_STEPS_PER_MM = 1000
_CENTS = 100


class PlanStatus(StrEnum):
    """Whether a plan is proved."""

    OPTIMAL = "optimal"
    BOUND = "bound"


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What a piece takes of a stick [mm], and how many."""

    mark: str
    length: float
    quantity: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece in a stick [mm]."""

    mark: str
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stick:
    """A stick with what is cut from it, the longest first; `offcut` is what is left after the last kerf (all [mm])."""

    tube: str
    stock_length: float
    usable: float
    on_hand: bool
    price: float | None
    cuts: tuple[Cut, ...]
    kerf: float
    offcut: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """All sticks. Cost is in the currency, or the bought length [mm] when no price is known; gap is a share of it."""

    status: PlanStatus
    cost: float
    lower_bound: float
    gap: float
    currency: str | None
    sticks: tuple[Stick, ...]


def plan_cuts(needs: Sequence[Need], stocks: Sequence[Stock], *, kerf: float, currency: str | None) -> CutPlan:
    """Plan one tube size at the least cost, and among equal plans with the least use of pieces on hand.

    A stick takes pieces l1..ln when their sum and n - 1 kerfs [mm] are within its usable length.

    Raises:
        PlanError: when a piece is longer than every stick, or pieces on hand alone are too few.

    """
    from tubeframe.fabrication.cover import cheapest_cover

    priced = all(s.price is not None for s in stocks if s.bought)
    job = _job(needs, stocks, kerf, priced=priced)
    cover = cheapest_cover(job)
    if cover is None:
        raise PlanError(
            Problem(where="stock", key="on_hand", message="the pieces on hand are too few", remedy="add sticks to buy")
        )
    scale = _CENTS if priced else _STEPS_PER_MM
    return CutPlan(
        status=PlanStatus.OPTIMAL if cover.bound >= cover.cost else PlanStatus.BOUND,
        cost=cover.cost / scale,
        lower_bound=cover.bound / scale,
        gap=_gap(cover.cost, cover.bound),
        currency=currency if priced else None,
        sticks=_sticks(cover, job, needs, stocks, kerf),
    )


def joined_plan(plans: Sequence[CutPlan]) -> CutPlan:
    """Put the plans of several tube sizes together; costs in money and in length are not added to each other."""
    same = len({p.currency for p in plans}) <= 1
    cost = sum(p.cost for p in plans) if same else 0.0
    bound = sum(p.lower_bound for p in plans) if same else 0.0
    return CutPlan(
        status=PlanStatus.OPTIMAL if all(p.status is PlanStatus.OPTIMAL for p in plans) else PlanStatus.BOUND,
        cost=cost,
        lower_bound=bound,
        gap=_gap(cost, bound),
        currency=plans[0].currency if plans and same else None,
        sticks=tuple(s for p in plans for s in p.sticks),
    )


def _gap(cost: float, bound: float) -> float:
    return max(0.0, (cost - bound) / cost) if cost else 0.0


def _job(needs: Sequence[Need], stocks: Sequence[Stock], kerf: float, *, priced: bool) -> Job:
    """Turn lengths into whole thousandths of a millimetre: pieces and kerf up, sticks down; equal lengths as one."""
    saw = _up(kerf)
    counted: dict[int, int] = {}
    for need in needs:
        counted[_up(need.length)] = counted.get(_up(need.length), 0) + need.quantity
    lengths = tuple(sorted(counted, reverse=True))
    _check_longest(needs, stocks)
    return Job(
        lengths=tuple(length + saw for length in lengths),
        demands=tuple(counted[length] for length in lengths),
        sticks=tuple(
            StickType(
                capacity=math.floor(s.usable * _STEPS_PER_MM + 1e-6) + saw,
                cost=_cost(s, priced=priced),
                limit=s.on_hand,
            )
            for s in stocks
        ),
    )


def _up(length: float) -> int:
    return math.ceil(length * _STEPS_PER_MM - 1e-6)


def _cost(stock: Stock, *, priced: bool) -> int:
    if not stock.bought:
        return 0
    return round((stock.price or 0.0) * _CENTS) if priced else round(stock.length * _STEPS_PER_MM)


def _check_longest(needs: Sequence[Need], stocks: Sequence[Stock]) -> None:
    longest = max((s.usable for s in stocks), default=0.0)
    problems = [
        Problem(
            where="cut plan",
            key=need.mark,
            message=f"{need.length:.1f} mm is longer than the longest usable stick, {longest:.1f} mm",
            remedy="add longer [[stock]] to the workshop file",
        )
        for need in needs
        if need.quantity and _up(need.length) > math.floor(longest * _STEPS_PER_MM + 1e-6)
    ]
    if problems:
        raise PlanError(*problems)


def _sticks(cover: Cover, job: Job, needs: Sequence[Need], stocks: Sequence[Stock], kerf: float) -> tuple[Stick, ...]:
    """Name the pieces of every stick; equal lengths of several marks go out in the order of the needs."""
    saw = _up(kerf)
    waiting = {
        length: [
            Cut(mark=n.mark, length=n.length) for n in needs if _up(n.length) + saw == length for _ in range(n.quantity)
        ]
        for length in job.lengths
    }
    used = sorted(cover.patterns, key=lambda p: (-stocks[p.stick].length, tuple(-c for c in p.counts)))
    made = []
    for pattern in used:
        cuts = tuple(
            waiting[length].pop(0)
            for length, count in zip(job.lengths, pattern.counts, strict=True)
            for _ in range(min(count, len(waiting[length])))
        )
        if cuts:
            made.append(_stick(stocks[pattern.stick], cuts, kerf))
    return tuple(made)


def _stick(stock: Stock, cuts: Iterable[Cut], kerf: float) -> Stick:
    taken = tuple(cuts)
    left = stock.usable - sum(c.length for c in taken) - kerf * len(taken)
    return Stick(
        tube=stock.tube,
        stock_length=stock.length,
        usable=stock.usable,
        on_hand=not stock.bought,
        price=stock.price,
        cuts=taken,
        kerf=kerf,
        offcut=max(0.0, left),
    )
