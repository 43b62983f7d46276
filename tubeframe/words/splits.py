"""Bad places for a sleeve, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.units import format_length
from tubeframe.joints import facts
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from tubeframe.geometry.units import Units

_SPLIT_FAULTS = {
    facts.SplitFault.OUTSIDE: ("lies outside the tube as it is cut", "name a place between its cut ends"),
    facts.SplitFault.TOO_CLOSE: ("is too near to the one before it for two sleeves", "leave one of them out"),
    facts.SplitFault.IN_THE_WAY: ("is too near to a fitting, a bend or an end for a sleeve", "move it off"),
    facts.SplitFault.TOO_LONG: ("begins a part that is longer than a stick", "name one more place, or leave them out"),
}


def bad_split(fact: facts.BadSplit, units: Units) -> Told:
    """Say what is wrong with a place that a member names."""
    what, remedy = _SPLIT_FAULTS[fact.fault]
    return Told(
        where=fact.member, message=f"the split {format_length(fact.at, units)} from end A {what}", remedy=remedy
    )
