"""Findings of what takes up room in words: ends in tubes, boards, the floor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.units import format_length
from tubeframe.joints import room_facts
from tubeframe.joints.facts import InBoard
from tubeframe.words.joints import fitting_words
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Fact
    from tubeframe.geometry.units import Units


def _end_in_tube(fact: room_facts.EndInTube, units: Units) -> Told:
    shown = format_length(fact.short, units)
    return Told(
        where=f"{fact.tube}, end {fact.end.value.upper()}",
        message=f"it ends {shown} inside {fact.other}, and no fitting joins them",
        remedy=f"make it {shown} shorter, or end it on the middle of {fact.other}, where a fitting takes it",
    )


def _in_board(fact: InBoard, units: Units) -> Told:
    short = format_length(fact.short, units)
    where = f"{fact.panel}, {fact.tube}"
    if fact.short >= fact.thickness:
        return Told(
            where=where,
            message=f"the tube goes through the board, which is {format_length(fact.thickness, units)} thick",
            remedy="make the board narrower, cut it out there, or end the tube under it",
        )
    return Told(
        where=where,
        message=f"the tube goes {short} into the board's underside",
        remedy=f"raise the board {short} on spacers, or lower the tube",
    )


def _fitting_in_board(fact: room_facts.FittingInBoard, units: Units) -> Told:
    short, where = format_length(fact.short, units), f"{fact.panel}, {fitting_words(fact.fitting)}"
    if fact.short >= fact.thickness:
        return Told(
            where=where,
            message=f"the fitting goes through the board, which is {format_length(fact.thickness, units)} thick",
            remedy="make the board narrower, or cut it out there",
        )
    return Told(
        where=where,
        message=f"the fitting stands {short} into the board",
        remedy=f"cut a pocket {short} deep there, or raise the board {short} on spacers",
    )


def _boards_meet(fact: room_facts.BoardsMeet, units: Units) -> Told:
    shown = format_length(fact.short, units)
    return Told(
        where=f"{fact.first}, {fact.second}",
        message=f"the boards go {shown} into each other",
        remedy=f"move one of them {shown}, or make it smaller",
    )


def _board_floats(fact: room_facts.BoardFloats, units: Units) -> Told:
    gap = format_length(fact.gap, units)
    near = f"; the nearest below it, {fact.nearest}, is {gap} away" if fact.nearest else ""
    remedy = f"lower it by {gap}" if fact.nearest else "put rails under it"
    return Told(
        where=fact.panel,
        message=f"nothing carries the board: no tube touches its underside{near}",
        remedy=f"{remedy}, or move it onto the rails",
    )


def _off_floor(fact: room_facts.OffFloor, units: Units) -> Told:
    shown = format_length(abs(fact.height), units)
    above = fact.height > 0.0
    return Told(
        where=f"{fact.tube}, end {fact.end.value.upper()}",
        message=f"its {fact.piece} is {shown} {'above' if above else 'below'} the floor",
        remedy=f"make it {shown} {'longer' if above else 'shorter'}, or give the end a cap",
    )


def _below_floor(fact: room_facts.BelowFloor, units: Units) -> Told:
    shown = format_length(fact.short, units)
    return Told(
        where=fact.thing if isinstance(fact.thing, str) else fitting_words(fact.thing),
        message=f"it goes {shown} below the floor, which is at height 0",
        remedy=f"raise it, or the frame, by {shown}",
    )


def _sloped_foot(fact: room_facts.SlopedFoot, units: Units) -> Told:
    return Told(
        where=f"{fact.tube}, end {fact.end.value.upper()}",
        message=f"it leans {fact.lean:.0f} degrees, but its {fact.piece} is square: the edge would stand "
        f"{format_length(fact.short, units)} into the floor",
        remedy="take a foot that swivels, or stand the tube upright",
    )


def _past_swing(fact: room_facts.PastSwing, units: Units) -> Told:
    del units
    return Told(
        where=f"{fact.tube}, end {fact.end.value.upper()}",
        message=f"it leans {fact.lean:.0f} degrees, but its {fact.piece} turns {fact.most:.0f} at most",
        remedy="stand the tube steeper, or end it in a fitting",
    )


ROOM_WORDS: Mapping[type[Fact], Callable[..., Told]] = {
    room_facts.EndInTube: _end_in_tube,
    InBoard: _in_board,
    room_facts.FittingInBoard: _fitting_in_board,
    room_facts.BoardsMeet: _boards_meet,
    room_facts.BoardFloats: _board_floats,
    room_facts.OffFloor: _off_floor,
    room_facts.BelowFloor: _below_floor,
    room_facts.SlopedFoot: _sloped_foot,
    room_facts.PastSwing: _past_swing,
}
