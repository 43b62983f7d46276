"""Findings of the shop in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.cutting.facts import CarryingCosts, LongerThanTheCar, NearSaving, PlanHangsOn, ShopCuts
from tubeframe.fabrication.cutting.plan import Change
from tubeframe.fabrication.facts import NoStick, NoTable, ShortStake
from tubeframe.geometry.units import format_length, format_number, format_range
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Fact
    from tubeframe.geometry.units import Units


_FINE = 8


def _no_stick(fact: NoStick, units: Units) -> Told:
    return Told(
        where=fact.mark,
        message=f"it takes {format_length(fact.need, units)} of a stick of {fact.tube}, "
        f"but the longest is {format_length(fact.have, units)}",
        remedy="make the frame smaller, or add longer [[stock]] to the workshop file",
    )


def _short_stake(fact: ShortStake, units: Units) -> Told:
    return Told(
        where="stakes",
        message=f"the first bend leaves the stake {format_length(max(fact.inside, 0.0), units)} inside, "
        f"not {format_length(fact.wanted, units)}: it holds the foot upright less well",
        remedy="make the straight wall higher, or hold the feet by a base rail on a fixed sleeper too",
    )


def _longer_than_the_car(fact: LongerThanTheCar, units: Units) -> Told:
    limit, marks = format_length(fact.limit, units), ", ".join(fact.marks)
    return Told(
        where=fact.tube,
        message=f"{fact.count} of {format_range(fact.length, units)} cannot be cut to fit the car's {limit}, "
        f"because of {marks}",
        remedy="have them delivered, or choose a smaller frame",
    )


def _shop_cuts(fact: ShopCuts, units: Units) -> Told:
    asked = " and ".join(
        f"{c.count} of {format_range(c.length, units)} at {' and '.join(format_length(at, units) for at in c.at)}"
        for c in fact.cuts
    )
    return Told(
        where=fact.tube,
        message=f"sticks are longer than the car's {format_length(fact.limit, units)}",
        remedy=f"at the counter have them cut, measured from one end: {asked}",
    )


def _carrying_costs(fact: CarryingCosts, units: Units) -> Told:
    cost = f"{fact.cost:.2f} {fact.currency}".strip() if fact.priced else f"{format_range(fact.cost, units)} of tube"
    sticks = f", {fact.sticks} more to carry" if fact.sticks > 0 else ""
    return Told(
        where=fact.tube,
        message=f"cut for the car, the sticks cost {cost} more{sticks}",
        remedy="have them delivered whole, or leave carry_length away",
    )


def _plan_hangs_on(fact: PlanHangsOn, units: Units) -> Told:
    hang = fact.hang
    by, kerf = format_length(hang.by, units), hang.change is Change.KERF
    message = f"exact fit: {by} more kerf" if kerf else f"sticks {by} short"
    if hang.cost is None or hang.sticks is None:
        message += " would be too short for a piece"
    elif hang.sticks > 0:
        message += f" {'costs' if kerf else 'cost'} {hang.sticks} {'stick' if hang.sticks == 1 else 'sticks'} more"
    else:
        price = (
            f"{hang.cost:.2f} {fact.currency}".strip() if fact.priced else f"{format_range(hang.cost, units)} of tube"
        )
        message += f" {'costs' if kerf else 'cost'} {price} more"
    remedy = "measure your saw's cut on scrap, and give it as its kerf"
    if not kerf:
        remedy = "measure the sticks before you pay, and give what is usable of them"
    return Told(where=fact.tube, message=message, remedy=remedy)


def _near_saving(fact: NearSaving, units: Units) -> Told:
    spot = fact.spot

    def shown(value: float) -> str:
        return format_length(value, units, _FINE) if spot.is_length else f"{value:g}"

    if spot.unit == "sticks":
        saving = f"{spot.saves:g} {'stick' if spot.saves == 1 else 'sticks'}"
    else:
        saving = f"{format_range(spot.saves, units)} of tube" if spot.unit == "mm" else f"{spot.saves:.2f} {spot.unit}"
    way = "less" if spot.end < spot.start else "more"
    unit = units.value if spot.is_length else ""
    typed = format_number(spot.end, units, _FINE).replace(" ", "-") if spot.is_length else f"{spot.end:g}"
    return Told(
        where=spot.parameter,
        message=f"{shown(abs(spot.end - spot.start))} {way}, {shown(spot.end)} and not {shown(spot.start)}, "
        f"saves {saving}: {spot.sticks} to buy",
        remedy=f"build again with --{spot.parameter} {typed}{unit}",
    )


def _no_table(fact: NoTable, units: Units) -> Told:
    length, width = format_length(fact.length, units), format_length(fact.width, units)
    return Told(
        where="layout.dxf",
        message=f"no table of {length} x {width} takes {', '.join(fact.names)}, even in parts; "
        "it is drawn whole beside the tables",
        remedy="give a larger --table",
    )


FABRICATION_WORDS: Mapping[type[Fact], Callable[..., Told]] = {
    NoStick: _no_stick,
    ShortStake: _short_stake,
    LongerThanTheCar: _longer_than_the_car,
    ShopCuts: _shop_cuts,
    PlanHangsOn: _plan_hangs_on,
    NearSaving: _near_saving,
    CarryingCosts: _carrying_costs,
    NoTable: _no_table,
}
