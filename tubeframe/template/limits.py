"""Ranges that depend on other parameters: what can be built with the rest as it is given."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol, runtime_checkable

from tubeframe.errors import InputError, Problem
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.units import format_length

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.template.shop import Shop


@runtime_checkable
class HasLimits(Protocol):
    """Parameters of which some have a narrower range once the others are known."""

    def limits(self, shop: Shop) -> Mapping[str, tuple[float, float]]:
        """Return, by the field's name, the least and the most that can be built with the rest as it is [mm]."""
        ...


def limits_of(values: Any, shop: Shop) -> Mapping[str, tuple[float, float]]:
    """Return the narrower ranges of some parameters, by their fields' names [mm]; empty when there are none."""
    return values.limits(shop) if isinstance(values, HasLimits) else {}


def check_limits(values: Any, shop: Shop, where: Mapping[str, str]) -> None:
    """Refuse what the other parameters leave no room for.

    Raises:
        InputError: with the limits of every such parameter, and the nearest value that they leave.

    """
    problems = []
    for field_name, (least, most) in limits_of(values, shop).items():
        value, name = getattr(values, field_name), field_name.replace("_", "-")
        if value is None or least - TINY <= value <= most + TINY:
            continue
        shown, low, high = (format_length(v, shop.units) for v in (value, least, most))
        nearest = low if value < least else high
        range_words = f"{low} to {high}" if least <= most else "nothing"
        problems.append(
            Problem(
                where=where.get(name, ""),
                key=name,
                message=f"{shown} is out of range; with the other sizes it is {range_words}",
                remedy=f"the nearest is {nearest}" if least <= most else "change the other sizes",
            )
        )
    if problems:
        raise InputError(*problems)
