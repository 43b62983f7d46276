"""Findings of the assembly in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.facts import LockedIn
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Fact
    from tubeframe.geometry.units import Units


def _locked_in(fact: LockedIn, units: Units) -> Told:
    del units
    behind = f"{', '.join(fact.behind)} stand{'s' if len(fact.behind) == 1 else ''} in its way"
    shut = f"{', '.join(fact.joints)} do not take it from any side that they share"
    why = behind if fact.behind else shut
    free = f"leave {fact.behind[0]} away until it is in" if fact.behind else "let one of these clamps slide"
    return Told(
        where=fact.part,
        message=f"no order of assembly was found that lets it in: {why}"
        if fact.behind or fact.joints
        else "no order of assembly was found that lets it in",
        remedy=f"{free}, cut it in two with a sleeve, or tie it by a coupler that closes round it",
    )


ASSEMBLY_WORDS: Mapping[type[Fact], Callable[..., Told]] = {LockedIn: _locked_in}
