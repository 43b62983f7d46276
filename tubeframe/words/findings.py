"""A finding in words: where, what is wrong with the value and the limit, and what to do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Noted
from tubeframe.frame.facts import OddScale, Push, Scaled, Snapped, Unbraced
from tubeframe.geometry.units import format_exact, format_length
from tubeframe.structure.verdict import Verdict
from tubeframe.words.assembly import ASSEMBLY_WORDS
from tubeframe.words.bend_findings import BENDING_WORDS
from tubeframe.words.fabrication import FABRICATION_WORDS
from tubeframe.words.hinges import HINGE_WORDS
from tubeframe.words.joints import JOINT_WORDS
from tubeframe.words.room import ROOM_WORDS
from tubeframe.words.told import Told
from tubeframe.words.verdicts import verdict_told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Fact, Finding
    from tubeframe.geometry.units import Units

_PUSHES = {Push.LENGTHWISE: "lengthwise", Push.SIDEWAYS: "sideways"}


def told(finding: Finding, units: Units) -> Told:
    """Put a finding into words."""
    return _WORDS[type(finding.fact)](finding.fact, units)


def _noted(fact: Noted, units: Units) -> Told:
    del units
    return Told(where=fact.where, message=fact.message, remedy=fact.remedy)


def _unbraced(fact: Unbraced, units: Units) -> Told:
    del units
    pushes = [_PUSHES[p] for p in fact.against if p in _PUSHES]
    against = [f"a push {' or '.join(pushes)}"] if pushes else []
    against += ["a twist seen from above"] if Push.TWIST in fact.against else []
    return Told(
        where=fact.frame,
        message=f"nothing leans against {' or '.join(against)}: clamps alone will let it sway",
        remedy="add knees or a diagonal, screw on a stiff board, or fix it to a wall",
    )


def _snapped(fact: Snapped, units: Units) -> Told:
    return Told(
        where=f"{fact.member}, end {fact.end.value.upper()}",
        message=f"it missed {fact.onto} by {format_exact(fact.gap, units)} and was put onto it",
        remedy="nothing has to be done",
    )


def _odd_scale(fact: OddScale, units: Units) -> Told:
    size = format_length(fact.size, units)
    what = {
        Scaled.LONG: f"half of its tubes are over {size} long",
        Scaled.SHORT: f"half of its tubes are under {size} long",
        Scaled.BOARD: f"one of its boards measures {size}, far more than any board",
    }[fact.sign]
    return Told(
        where=fact.frame,
        message=f"{what}: are these lengths meant in another unit?",
        remedy="look at `units` in its file, and at lengths without a unit",
    )


_WORDS: Mapping[type[Fact], Callable[..., Told]] = {
    Noted: _noted,
    Unbraced: _unbraced,
    OddScale: _odd_scale,
    Snapped: _snapped,
    **JOINT_WORDS,
    **ROOM_WORDS,
    **HINGE_WORDS,
    Verdict: verdict_told,
    **FABRICATION_WORDS,
    **BENDING_WORDS,
    **ASSEMBLY_WORDS,
}
