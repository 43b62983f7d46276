"""Findings of the shop in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.facts import LongerThanTheCar, NoStick, NoTable, ShortStake
from tubeframe.geometry.units import format_length
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Fact
    from tubeframe.geometry.units import Units


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
    longer = f"a stick of {format_length(fact.length, units)} {fact.tube} is longer than the car's"
    limit, marks = format_length(fact.limit, units), ", ".join(fact.marks)
    if fact.cut_at is None:
        message = f"{longer} {limit}, and no cut of {marks} makes it shorter"
        remedy = "have it delivered, or choose a smaller frame"
    else:
        message = f"{longer} {limit} ({marks})"
        remedy = f"have the shop cut it {format_length(fact.cut_at, units)} from one end"
    return Told(where=f"stick {fact.stick}", message=message, remedy=remedy)


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
    NoTable: _no_table,
}
