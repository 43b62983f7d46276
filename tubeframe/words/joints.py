"""Findings of joints in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.geometry.units import format_exact, format_length
from tubeframe.joints import facts
from tubeframe.words.directions import direction_word, place_words
from tubeframe.words.reasons import reason_words
from tubeframe.words.splits import bad_split
from tubeframe.words.told import Told

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tubeframe.errors import Fact
    from tubeframe.geometry.units import Units
    from tubeframe.joints.facts import Named

_NAMED_AT_MOST = 4
_TAPE = 1.6


def fitting_words(fitting: Named) -> str:
    """Name a fitting by its kind and its tubes."""
    return f"the {fitting.kind} of {', '.join(fitting.tubes)}"


def _too_near(fact: facts.TooNear, units: Units) -> Told:
    apart, need, short = (format_length(v, units) for v in (fact.apart, fact.apart + fact.short, fact.short))
    return Told(
        where=fact.tube,
        message=f"{fitting_words(fact.first)} and {fitting_words(fact.second)} are {apart} apart, but need {need}",
        remedy=f"move {', '.join(fact.second.others(fact.tube))} {short} along {fact.member}, "
        "or let one fitting take both",
    )


def _on_bend(fact: facts.OnBend, units: Units) -> Told:
    return Told(
        where=fact.tube,
        message=f"{fitting_words(fact.fitting)} sits {format_length(fact.short, units)} too near to a bend",
        remedy=f"move {', '.join(fact.fitting.others(fact.tube))} away from the bend, or bend elsewhere",
    )


def _short_overhang(fact: facts.ShortOverhang, units: Units) -> Told:
    return Told(
        where=fact.tube,
        message=f"it ends {format_length(max(fact.over, 0.0), units)} past {fitting_words(fact.fitting)}, "
        f"but needs {format_length(fact.least, units)}",
        remedy=f"make it {format_length(fact.short, units)} longer",
    )


def _held_once(fact: facts.HeldOnce, units: Units) -> Told:
    del units
    return Told(
        where=fact.tube,
        message="it is held at one place only: it will turn there",
        remedy="tie its other end too",
    )


def _slides(fact: facts.Slides, units: Units) -> Told:
    del units
    return Told(
        where=fact.tube,
        message=f"nothing next to {fitting_words(fact.fitting)} keeps it from sliding",
        remedy="put a collar against it, on the side that it would go to",
    )


def _wall_away(fact: facts.WallAway, units: Units) -> Told:
    far = "no wall is stated" if fact.gap is None else f"the wall is {format_length(fact.gap, units)} off its plate"
    return Told(
        where=", ".join(fact.fitting.tubes),
        message=f"{fitting_words(fact.fitting)} stands on a wall, but {far}",
        remedy="state the wall where it is, or move the tube to it",
    )


def _fouling(fact: facts.Fouling, units: Units) -> Told:
    return Told(
        where=f"{fact.first}, {fact.second}",
        message=f"they pass {format_length(fact.distance, units)} apart, middle to middle, but are "
        f"{format_length(fact.least, units)} thick together, and no fitting ties them there",
        remedy="move one of them off the bend: no fitting sits on it"
        if fact.on_bend
        else "move one of them to the other face, or end it there in a fitting",
    )


def _apart(fact: facts.Apart, units: Units) -> Told:
    del units
    many = len(fact.tubes) > 1
    return Told(
        where=", ".join(fact.tubes[:_NAMED_AT_MOST]) + (", ..." if len(fact.tubes) > _NAMED_AT_MOST else ""),
        message=f"{len(fact.tubes)} tubes are not joined to the rest" if many else "it is not joined to the rest",
        remedy="join them by a tube, or build them as a frame of their own",
    )


def _bodies_meet(fact: facts.BodiesMeet, units: Units) -> Told:
    return _in_body(
        f"{fitting_words(fact.first)}; {fitting_words(fact.second)}", "their bodies run into each other", fact, units
    )


def _tube_in_body(fact: facts.TubeInBody, units: Units) -> Told:
    return _in_body(f"{fitting_words(fact.fitting)}; {fact.tube}", "the tube runs into the fitting", fact, units)


def _in_body(where: str, what: str, fact: facts.BodiesMeet | facts.TubeInBody, units: Units) -> Told:
    shown = format_length(fact.short, units)
    return Told(
        where=where,
        message=f"{what} by {shown}",
        remedy=f"move one of them {shown} away, or put it on the other face",
    )


def _in_wall(fact: facts.InWall, units: Units) -> Told:
    shown = format_length(fact.short, units)
    thing = fact.thing if isinstance(fact.thing, str) else fitting_words(fact.thing)
    return Told(
        where=f"{thing}; {fact.wall}",
        message=f"it goes {shown} into the wall",
        remedy=f"move the frame {shown} off the wall",
    )


def _one_point(fact: facts.OnePoint, units: Units) -> Told:
    return Told(
        where=f"{fact.first}, {fact.second}",
        message="two tubes pass through one point",
        remedy=f"hold them {format_exact(fact.offset, units)} apart by a coupler, or split one of them there",
    )


def _loose_end(fact: facts.LooseEnd, units: Units) -> Told:
    where = f"{fact.member}, end {fact.end.value.upper()}"
    if fact.nearest is None:
        message = "a fitting should take this end, but no other tube is there"
        remedy = "move it onto another tube's centreline, or give the end a foot, a cap or a stake"
    elif fact.is_on_bend:
        message = f"it ends on a bend of {fact.nearest}, where no fitting sits"
        remedy = f"end it on a straight of {fact.nearest}, or bend elsewhere"
    else:
        message = f"it misses the centreline of {fact.nearest} by {_shown(fact.gap, units)}"
        remedy = f"end it on the centreline of {fact.nearest}, or give the end a cap"
    return Told(where=where, message=message, remedy=remedy)


def _shown(length: float, units: Units) -> str:
    """Print a length as a tape shows it; a smaller one exactly."""
    return format_length(length, units) if length >= _TAPE else format_exact(length, units)


def _no_fitting(fact: facts.NoFitting, units: Units) -> Told:
    why = f"; the nearest is the {fact.nearest[0]}, but {reason_words(fact.nearest[1])}" if fact.nearest else ""
    return Told(
        where=", ".join(fact.tubes),
        message=f"no fitting joins {fact.runs} passing and {fact.branches} ending there, at "
        f"{place_words(fact.at, units)} in these directions{why}",
        remedy="move one of them along another, or change an angle to one that a fitting has",
    )


def _other_kind(fact: facts.OtherKind, units: Units) -> Told:
    del units
    instead = f"{fact.instead} is there instead" if fact.instead else "nothing else does either"
    return Told(
        where=", ".join(fact.tubes),
        message=f"a {fact.kind} is asked for, but {reason_words(fact.why)}; {instead}",
        remedy="ask for another kind, or change the tubes there",
    )


def _wish_in_the_air(fact: facts.WishInTheAir, units: Units) -> Told:
    return Told(
        where=f"joint at {place_words(fact.at, units)}",
        message=f"a {fact.kind} is asked for, but no tube passes there and none ends there",
        remedy="give a place on a tube's centreline, or halfway between two tubes that a coupler ties",
    )


def _no_sleeve_place(fact: facts.NoSleevePlace, units: Units) -> Told:
    return Told(
        where=fact.member,
        message=f"it is longer than a stick of {format_length(fact.stick, units)}, and no place for a sleeve is clear "
        "of fittings and bends",
        remedy="move fittings apart, or add longer [[stock]] to the workshop file",
    )


def _too_short(fact: facts.TooShort, units: Units) -> Told:
    left = format_exact(fact.left, units)
    return Told(
        where=fact.tube,
        message=f"between its fittings {left} of tube are left, and at least {format_exact(fact.least, units)} are "
        "needed",
        remedy="move what it joins apart, or leave it out",
    )


def _key_blocked(fact: facts.KeyBlocked, units: Units) -> Told:
    return Told(
        where=", ".join(fact.fitting.tubes),
        message=f"the bolt of the {fact.fitting.kind} on {fact.tube} has {format_length(fact.free, units)} of straight "
        f"way for the key, but needs {format_length(fact.least, units)}",
        remedy=f"face its head {direction_word(fact.head)}, where most is free, and tighten it before what is in "
        "the way goes on; or move the fitting",
    )


JOINT_WORDS: Mapping[type[Fact], Callable[..., Told]] = {
    facts.TooNear: _too_near,
    facts.OnBend: _on_bend,
    facts.ShortOverhang: _short_overhang,
    facts.HeldOnce: _held_once,
    facts.Slides: _slides,
    facts.WallAway: _wall_away,
    facts.Fouling: _fouling,
    facts.Apart: _apart,
    facts.BodiesMeet: _bodies_meet,
    facts.TubeInBody: _tube_in_body,
    facts.InWall: _in_wall,
    facts.OnePoint: _one_point,
    facts.LooseEnd: _loose_end,
    facts.NoFitting: _no_fitting,
    facts.OtherKind: _other_kind,
    facts.WishInTheAir: _wish_in_the_air,
    facts.NoSleevePlace: _no_sleeve_place,
    facts.BadSplit: bad_split,
    facts.TooShort: _too_short,
    facts.KeyBlocked: _key_blocked,
}
