"""Findings of doors and other parts that turn, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.joints import hinge_facts
from tubeframe.words.joints import fitting_words
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Fact
    from tubeframe.geometry.units import Units


def _cannot_turn(fact: hinge_facts.CannotTurn, units: Units) -> Told:
    del units
    return Told(
        where=fact.group,
        message=f"it cannot turn on {fact.post}: {fitting_words(fact.fitting)} ties it to the rest",
        remedy=f"move that tube clear of {fact.group}, or ask for a loose-ring on {fact.post} there",
    )


def _few_hinges(fact: hinge_facts.FewHinges, units: Units) -> Told:
    del units
    found = {0: "no ring", 1: "one ring only"}[fact.rings]
    return Told(
        where=fact.group,
        message=f"{found} on {fact.post} holds it; a part that turns needs 2",
        remedy=f"end two of its tubes on {fact.post} and ask for a loose-ring at both places",
    )


HINGE_WORDS: Mapping[type[Fact], Callable[..., Told]] = {
    hinge_facts.CannotTurn: _cannot_turn,
    hinge_facts.FewHinges: _few_hinges,
}
