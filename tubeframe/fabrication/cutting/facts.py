"""What can be found of a stick plan (lengths in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Fact

if TYPE_CHECKING:
    from tubeframe.fabrication.cutting.plan import HangsOn
    from tubeframe.fabrication.cutting.sweet_spots import SweetSpot


@dataclass(frozen=True, slots=True, kw_only=True)
class LongerThanTheCar(Fact):
    """So many sticks of a length do not fit the car, and cuts do not help because of these marks."""

    count: int
    length: float
    tube: str
    limit: float
    marks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopCut:
    """So many sticks of a length are cut at these places from one end."""

    count: int
    length: float
    at: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopCuts(Fact):
    """The cuts to ask for in the shop, so that nothing carried is longer than `limit`."""

    tube: str
    limit: float
    cuts: tuple[ShopCut, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryingCosts(Fact):
    """Sticks that fit the car in parts come dearer: by money or by length, and by a number of sticks."""

    tube: str
    cost: float
    sticks: int
    priced: bool
    currency: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanHangsOn(Fact):
    """A stick plan costs more when the shop is a little different."""

    tube: str
    hang: HangsOn
    priced: bool
    currency: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NearSaving(Fact):
    """A near value of a parameter saves a stick or money."""

    spot: SweetSpot
