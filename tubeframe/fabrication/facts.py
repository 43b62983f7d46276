"""What can be found when a frame is made in the shop (lengths in [mm])."""

from __future__ import annotations

from dataclasses import dataclass

from tubeframe.errors import Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class NoStick(Fact):
    """A piece takes `need` of a stick, but the longest of its tube is `have`."""

    mark: str
    tube: str
    need: float
    have: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortStake(Fact):
    """The first bend leaves a stake `inside` of the foot, not `wanted`."""

    inside: float
    wanted: float


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
class NoTable(Fact):
    """No table takes these drawings, even in parts."""

    length: float
    width: float
    names: tuple[str, ...]
