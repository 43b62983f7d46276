"""The stick plan as data: which pieces are cut from which stick, what it costs, and what proves that."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import accumulate
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.cutting.certificate import Certificate


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
    """A stick with what is cut from it, the longest first; `offcut` is what is left after the last kerf (all [mm]).

    A stick that is too long for the car is cut at `shop_cuts`, where the first of the kerf is, into parts of so many
    cuts each; then the offcut is the longest rest of a part.
    """

    tube: str
    stock_length: float
    usable: float
    on_hand: bool
    price: float | None
    cuts: tuple[Cut, ...]
    kerf: float
    offcut: float
    shop_cuts: tuple[float, ...] = ()
    cuts_of_parts: tuple[int, ...] = ()

    @property
    def ends(self) -> tuple[float, ...]:
        """Where each piece ends, from the stick's start [mm]."""
        starts = (0.0, *(place + self.kerf for place in self.shop_cuts))
        left, found = list(self.cuts), []
        for start, number in zip(starts, self.cuts_of_parts or (len(self.cuts),), strict=True):
            lengths = [c.length for c in left[:number]]
            left = left[number:]
            found += [at + start for at in accumulate(lengths, lambda at, length: at + self.kerf + length)]
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikeSticks:
    """A stick, and how many are cut just so."""

    stick: Stick
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """What bringing sticks of a tube home in parts costs more than the least: money or length [mm], and sticks."""

    tube: str
    cost: float
    sticks: int


class Change(StrEnum):
    """What may turn out otherwise in the shop."""

    KERF = "kerf"
    STICK = "stick"


@dataclass(frozen=True, slots=True, kw_only=True)
class HangsOn:
    """A kerf so much wider, or bought sticks so much shorter [mm], cost more: money or length [mm], and sticks.

    None where a piece then comes out of no stick.
    """

    tube: str
    change: Change
    by: float
    cost: float | None
    sticks: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """All sticks. Cost is in the currency, or the bought length [mm] when no price is known; gap is a share of it."""

    status: PlanStatus
    cost: float
    lower_bound: float
    gap: float
    priced: bool
    currency: str | None
    sticks: tuple[Stick, ...]
    certificates: tuple[Certificate, ...]
    carried: tuple[Carried, ...] = ()
    hangs_on: tuple[HangsOn, ...] = ()


_MICROMETRE = 3
"""Decimals of a length [mm] to which it is told from another."""


def alike(sticks: Sequence[Stick]) -> tuple[AlikeSticks, ...]:
    """Put sticks that are cut alike together, in the order of the first of each; lengths are told to a micrometre."""
    found: dict[tuple[object, ...], list[Stick]] = {}
    for stick in sticks:
        cuts = tuple((c.mark, round(c.length, _MICROMETRE)) for c in stick.cuts)
        found.setdefault((stick.tube, stick.stock_length, stick.usable, stick.on_hand, cuts), []).append(stick)
    return tuple(AlikeSticks(stick=group[0], count=len(group)) for group in found.values())


def joined_plan(plans: Sequence[CutPlan]) -> CutPlan:
    """Put the plans of several tube sizes together; costs in money and in length are not added to each other."""
    same = len({(p.priced, p.currency) for p in plans}) <= 1
    cost = sum(p.cost for p in plans) if same else 0.0
    bound = sum(p.lower_bound for p in plans) if same else 0.0
    return CutPlan(
        status=PlanStatus.OPTIMAL if all(p.status is PlanStatus.OPTIMAL for p in plans) else PlanStatus.BOUND,
        cost=cost,
        lower_bound=bound,
        gap=gap_of(cost, bound),
        priced=bool(plans) and same and plans[0].priced,
        currency=plans[0].currency if plans and same else None,
        sticks=tuple(s for p in plans for s in p.sticks),
        certificates=tuple(c for p in plans for c in p.certificates),
        carried=tuple(c for p in plans for c in p.carried),
        hangs_on=tuple(h for p in plans for h in p.hangs_on),
    )


def gap_of(cost: float, bound: float) -> float:
    """Return by which share of itself a cost may be too high."""
    return max(0.0, (cost - bound) / cost) if cost else 0.0
