"""What is wrong with bends, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.fabrication.bending.bend_facts import BendsTooNear, LargerThanShoe, ShortAtEnd, TighterThanShoe
from tubeframe.fabrication.bending.marks import SetBy
from tubeframe.geometry.units import format_exact, format_length
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Fact
    from tubeframe.geometry.units import Units


def _too_near(fact: BendsTooNear, units: Units) -> Told:
    straight, least = (format_length(max(v, 0.0), units) for v in (fact.straight, fact.least))
    return Told(
        where=fact.mark,
        message=f"bends {fact.bend} and {fact.bend + 1} leave {straight} of straight between them, "
        f"where a hand bender wants {least} for its hook and shoe",
        remedy="draw the corners farther apart, or try it on an offcut with your bender first",
    )


def _short_at_end(fact: ShortAtEnd, units: Units) -> Told:
    straight, least = (format_length(max(v, 0.0), units) for v in (fact.straight, fact.least))
    return Told(
        where=f"{fact.mark}, end {fact.end.name}",
        message=f"the last bend leaves {straight} of straight, where a tube cutter wants {least} beside its cut",
        remedy="trim it with a hacksaw, or leave the end longer",
    )


def _tighter(fact: TighterThanShoe, units: Units) -> Told:
    radius, shoe = (format_exact(v, units) for v in (fact.radius, fact.shoe))
    return Told(
        where=f"{fact.mark}, bend {fact.bend}",
        message=f"a radius of {radius} is tighter than the bender's {shoe}",
        remedy="draw it with the bender's radius, or put the radius of your own bender into the workshop file",
    )


def _larger(fact: LargerThanShoe, units: Units) -> Told:
    radius, shoe, form = (format_exact(v, units) for v in (fact.radius, fact.shoe, fact.form))
    made = "is rolled: have it done" if fact.made_by is SetBy.ROLLS else f"is pulled round a form of {form}"
    return Told(
        where=fact.mark,
        message=f"an arc of {radius} is larger than the bender's {shoe}: it {made}",
        remedy="or draw it in small bends of the bender's radius",
    )


BENDING_WORDS: Mapping[type[Fact], Callable[..., Told]] = {
    BendsTooNear: _too_near,
    ShortAtEnd: _short_at_end,
    TighterThanShoe: _tighter,
    LargerThanShoe: _larger,
}
